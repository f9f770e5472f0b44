// Banners leave the drawing in sight and can be folded away; an offer to install the page is shown where there is one.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { openSite, PHONE, visit, withoutDatabase } from './page.mjs';

/** How much of the drawing, from its top, stays in sight beside a banner, in CSS pixels. */
const IN_SIGHT = 200;

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

test('a banner of storage leaves the top of the drawing in sight, and folds away', async (t) => {
  const { visitor, page } = await visit(t, site, { size: PHONE, prepare: withoutDatabase });
  await page.untilSaved('skewline-design');
  const bare = await seen(page);
  await page.fillStorage();
  await page.openGroup('Handle');
  await page.typeValue('Tilt', '6.75');
  const alert = page.tab.getByRole('alert').filter({ hasText: 'storage is full' });
  await alert.waitFor();
  assert.ok(await seen(page) >= IN_SIGHT, `${await seen(page)} px of the drawing are in sight`);
  const high = (await alert.boundingBox()).height;
  await alert.getByRole('button', { name: 'Fold away' }).click();
  const strip = page.tab.getByRole('alert').filter({ hasText: 'Not kept: show why' });
  assert.ok((await strip.boundingBox()).height < Math.min(high, 72), 'one line is left');
  assert.ok(await seen(page) >= Math.min(bare, 300), `${await seen(page)} px of the drawing are in sight`);
  await strip.getByRole('button').click();
  await alert.waitFor();
  assert.deepEqual(visitor.problems, []);
});

test('Help offers to install the page where the browser does, and only there', async (t) => {
  const { visitor, page } = await visit(t, site, { size: PHONE });
  const button = page.button('Put Skewline among your apps');
  await page.goTo('Help');
  assert.equal(await button.count(), 0);
  await page.goTo('Design');
  await page.tab.evaluate(() => {
    const offer = new Event('beforeinstallprompt', { cancelable: true });
    offer.prompt = () => { window.prompted = true; };
    dispatchEvent(offer);
  });
  await page.goTo('Help');
  await button.click();
  assert.equal(await page.tab.evaluate(() => window.prompted), true);
  assert.equal(await button.isVisible(), false);
  await page.goTo('Design');
  await page.goTo('Help');
  assert.equal(await button.count(), 0, 'an offer is taken up once');
  assert.deepEqual(visitor.problems, []);
});

/** How much of the drawing's height is in sight, from its top down, as a finger would meet it, in CSS pixels. */
function seen(page) {
  return page.drawing().evaluate((canvas) => {
    const { left, top, width, height } = canvas.getBoundingClientRect();
    let at = 1;
    while (at < height && canvas.contains(document.elementFromPoint(left + width / 2, top + at))) at += 1;
    return at;
  });
}
