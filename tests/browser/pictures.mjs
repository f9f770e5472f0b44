// Pictures of the main views, at both sizes, light and dark, for eyes to judge: tests/browser/pictures/.
//
// With `--keep` it also draws anew the two pictures that are part of the page: public/screenshot-phone.png and
// public/screenshot-wide.png.

import { mkdir } from 'node:fs/promises';
import { newVisitor, openSite, PHONE, SIZES, WIDE } from './page.mjs';

const FOLDER = new URL('./pictures/', import.meta.url).pathname;
const PLACES = ['Steps', 'Shelf', 'Shop', 'Help', 'Lathe'];

await mkdir(FOLDER, { recursive: true });
const site = await openSite();
for (const size of SIZES) {
  for (const scheme of ['light', 'dark']) await takeAll(size, scheme);
}
if (process.argv.includes('--keep')) {
  await keep(PHONE, 'phone');
  await keep(WIDE, 'wide');
}
await site.close();
console.log(`The pictures are in ${FOLDER}`);

async function takeAll(size, scheme) {
  const visitor = await newVisitor(site, { size, scheme });
  const page = await visitor.newTab();
  const take = async (view, options = {}) => {
    await page.nextFrame();
    const path = `${FOLDER}${size.name}-${scheme}-${view.toLowerCase().replaceAll(' ', '-')}.png`;
    await page.tab.screenshot({ path, ...options });
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
    await take(place, { fullPage: true });
  }
  await visitor.close();
}

async function keep(size, name) {
  const visitor = await newVisitor(site, { size });
  const page = await visitor.newTab();
  await page.openGroup('Handle');
  await page.nextFrame();
  await page.tab.screenshot({ path: `public/screenshot-${name}.png` });
  await visitor.close();
}
