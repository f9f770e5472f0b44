// Pictures of the main views, at both sizes, light and dark, for eyes to judge: tests/browser/pictures/.
//
// With `--keep` it also draws the README's picture anew: public/screenshot-phone.png.

import { mkdir } from 'node:fs/promises';
import { newVisitor, openSite, PHONE, SIZES } from './page.mjs';

const FOLDER = new URL('./pictures/', import.meta.url).pathname;
const PLACES = ['Steps', 'Shelf', 'Shop', 'Help', 'Lathe'];

await mkdir(FOLDER, { recursive: true });
const site = await openSite();
for (const size of SIZES) {
  for (const scheme of ['light', 'dark']) await takeAll(size, scheme);
}
if (process.argv.includes('--keep')) {
  await keep();
}
await site.close();
console.log(`The pictures are in ${FOLDER}`);

async function takeAll(size, scheme) {
  const visitor = await newVisitor(site, { size, scheme });
  const page = await visitor.newTab();
  const take = async (view) => {
    await page.nextFrame();
    const path = `${FOLDER}${size.name}-${scheme}-${view.toLowerCase().replaceAll(' ', '-')}.png`;
    await page.tab.screenshot({ path });
  };
  await take('first view');
  const groups = page.tab.getByRole('navigation', { name: 'Groups of values' }).getByRole('button');
  for (const name of await groups.allInnerTexts()) {
    await page.openGroup(name);
    await take(`group ${name}`);
  }
  const tabs = page.tab.getByRole('group', { name: 'Drawing shown' }).getByRole('button');
  for (const name of await tabs.allInnerTexts()) {
    await page.button(name).click();
    await take(`drawing ${name}`);
  }
  for (const place of PLACES) {
    await page.goTo(place);
    // As high as it takes: what is out of sight is not painted.
    const height = await page.tab.evaluate(() => document.documentElement.scrollHeight);
    await page.tab.setViewportSize({ width: size.width, height });
    await take(place);
    await page.tab.setViewportSize({ width: size.width, height: size.height });
  }
  await visitor.close();
}

async function keep() {
  const visitor = await newVisitor(site, { size: PHONE });
  const page = await visitor.newTab();
  await page.openGroup('Handle');
  await page.nextFrame();
  await page.tab.screenshot({ path: 'public/screenshot-phone.png' });
  await visitor.close();
}
