// How far each value may go, and which check ends it: worked out beside the page, a tap on an end goes there.

import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { openSite, PHONE, SIZES, until, visit } from './page.mjs';

/** How long the ranges of a group may take on a slow machine, in milliseconds. */
const LONGEST = 120_000;

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

const row = (page, name) => page.tab.locator('.value-row').filter({ has: page.slider(name) });
const ends = (page, name) => row(page, name).locator('.range-end');
const untilKnown = (page, name) => ends(page, name).first().waitFor({ timeout: LONGEST });

for (const size of SIZES) {
  describe(`ranges, ${size.name}`, () => {
    test('a value says how far it may go and what ends it, and a tap on the end goes there', async (t) => {
      const { visitor, page } = await visit(t, site, { size });
      await untilKnown(page, 'Tilt');
      const [low, high] = await ends(page, 'Tilt').allInnerTexts();
      assert.match(low, /^\d+\.\d Marks too close$/);
      assert.match(high, /^\d+\.\d [A-Z]/, 'a number and the check');
      const most = Number.parseFloat(high);
      await ends(page, 'Tilt').last().click();
      assert.equal(await page.entry('Tilt').inputValue(), most.toFixed(1));
      await page.untilFigured();
      assert.equal(await page.tab.locator('.pill.stop').count(), 0, 'the end itself does not stop');
      // A step further does, and then the value says what it can do about it.
      await page.typeValue('Tilt', (most + 0.1).toFixed(1));
      await page.untilFigured();
      await page.tab.locator('.pill.stop').waitFor();
      const cure = row(page, 'Tilt').getByRole('button', { name: /^Stops now\. OK at/ });
      await cure.waitFor({ timeout: LONGEST });
      await cure.click();
      await page.untilFigured();
      await until(async () => (await page.tab.locator('.pill.stop').count()) === 0, async () => 'it stops still');
      assert.ok(Number(await page.entry('Tilt').inputValue()) <= most + 1e-9);
      assert.deepEqual(visitor.problems, []);
    });

    test('a value that cannot cure the stop says so', async (t) => {
      const { visitor, page } = await visit(t, site, { size });
      await page.typeValue('Tilt', '24');
      await page.openGroup('Wood');
      await row(page, 'Moisture, percent').locator('.value-range').getByText('This value alone does not cure it.').waitFor({ timeout: LONGEST });
      assert.deepEqual(await page.accessibilityFaults(), []);
      assert.deepEqual(visitor.problems, []);
    });

    test('a place opened right after a change does not hold the ranges up', async (t) => {
      const { visitor, page } = await visit(t, site, { size });
      await page.openGroup('Handle');
      await untilKnown(page, 'Tilt');
      await page.slider('Tilt').press('ArrowLeft');
      await page.goTo('Shelf');
      // Longer than the page waits after a change.
      await page.tab.waitForTimeout(1500);
      await page.goTo('Design');
      await untilKnown(page, 'Tilt');
      assert.deepEqual(visitor.problems, []);
    });

    test('the work is done by a worker, without a network too', async (t) => {
      const { visitor, page } = await visit(t, site, { size });
      await untilKnown(page, 'Tilt');
      assert.equal(page.tab.workers().length, 1);
      assert.match(page.tab.workers()[0].url(), /beside\.js$/);
      await page.untilKept();
      await visitor.context.setOffline(true);
      await page.reload();
      await untilKnown(page, 'Tilt');
      assert.equal(page.tab.workers().length, 1);
      assert.deepEqual(visitor.problems, []);
    });

    test('a browser that lets no worker begin does the work on the page, and Help says so', async (t) => {
      const { visitor, page } = await visit(t, site, {
        size,
        prepare: ({ context }) => context.addInitScript(() => {
          window.Worker = class { constructor() { throw new DOMException('No workers here.', 'SecurityError'); } };
        }),
      });
      await untilKnown(page, 'Tilt');
      assert.equal(page.tab.workers().length, 0);
      await page.goTo('Help');
      await page.tab.getByText('lets no work run beside the page').waitFor();
      assert.deepEqual(visitor.problems, []);
    });

    test('a worker that cannot begin is not waited for', async (t) => {
      const { visitor, page } = await visit(t, site, {
        size,
        prepare: ({ context }) => context.route(/beside\.js$/, (route) => route.fulfill({ status: 404, body: 'gone' })),
      });
      await untilKnown(page, 'Tilt');
      await page.goTo('Help');
      await page.tab.getByText('lets no work run beside the page').waitFor();
      assert.deepEqual(visitor.problems.filter((it) => !/404/.test(it)), []);
    });
  });
}

test('three whole values stand under the drawing on a phone, two on a small one', async (t) => {
  for (const [size, wanted, tall] of [[PHONE, 3, 240], [{ ...PHONE, name: 'small', width: 320, height: 640 }, 2, 0]]) {
    const { visitor, page } = await visit(t, site, { size });
    await page.button('Change this one').click();
    await page.openGroup('Handle');
    await untilKnown(page, 'Axes cross at');
    const panel = page.tab.locator('.panel');
    // Past the heading, as a thumb would have it.
    await panel.evaluate((it) => {
      it.scrollTop += it.querySelector('.value-row').getBoundingClientRect().top - it.getBoundingClientRect().top;
    });
    await page.nextFrame();
    const whole = await panel.evaluate((it) => {
      const seen = it.getBoundingClientRect();
      const rows = [...it.querySelectorAll('.value-row')].map((each) => each.getBoundingClientRect());
      return rows.filter((each) => each.top >= seen.top - 1 && each.bottom <= seen.bottom + 1).length;
    });
    const drawing = await page.tab.locator('.drawing').boundingBox();
    assert.ok(whole >= wanted, `${whole} of ${wanted} at ${size.width} by ${size.height}`);
    assert.ok(drawing.height >= tall, `${drawing.height}`);
    assert.deepEqual(visitor.problems, []);
  }
});

test('on its side a phone shows the drawing left and whole values right', async (t) => {
  const { visitor, page } = await visit(t, site, { size: { ...PHONE, name: 'landscape', width: 844, height: 390 } });
  await page.button('Change this one').click();
  await page.openGroup('Handle');
  const [drawing, slider] = [await page.tab.locator('.drawing').boundingBox(), await page.slider('Tilt').boundingBox()];
  assert.ok(drawing.x + drawing.width <= slider.x + 1, 'side by side');
  assert.ok(slider.y + slider.height < 390 - 44, `the first slider is in sight: ${slider.y}`);
  assert.equal(await page.tab.evaluate(() => document.scrollingElement.scrollHeight > innerHeight + 1), false);
  assert.deepEqual(visitor.problems, []);
});

test('the drawing folds away for tables and comes back, and each panel is where it was scrolled', async (t) => {
  const { visitor, page } = await visit(t, site, { size: PHONE });
  const panel = page.tab.locator('.panel');
  await panel.evaluate((it) => it.scrollTo(0, 400));
  await page.nextFrame();
  for (const table of ['Holds', 'Marks', 'Checks']) {
    await page.openGroup(table);
    assert.equal(await page.tab.locator('.drawing').isVisible(), false, table);
    assert.ok((await panel.evaluate((it) => it.scrollTop)) < 5, `${table} begins at its top`);
  }
  await page.openGroup('Handle');
  assert.equal(await page.tab.locator('.drawing').isVisible(), true);
  await until(async () => Math.abs((await panel.evaluate((it) => it.scrollTop)) - 400) < 3,
    async () => `scrolled to ${await panel.evaluate((it) => it.scrollTop)}`);
  assert.deepEqual(visitor.problems, []);
});

test('a first visitor reads what this is, and may start or change', async (t) => {
  const { visitor, page } = await visit(t, site, { size: PHONE });
  const welcome = page.tab.getByRole('region', { name: 'Welcome' });
  await welcome.getByText('this one is an example').waitFor();
  await page.button('Start your own').click();
  await page.tab.getByRole('heading', { name: 'Say what you want' }).waitFor();
  await page.goTo('Design');
  assert.equal(await welcome.count(), 0);
  assert.deepEqual(visitor.problems, []);
});

test('who changes the example begins with the whole piece; a reload keeps the group', async (t) => {
  const { visitor, page } = await visit(t, site, { size: PHONE });
  const isOpen = (name) => page.tab.getByRole('button', { name, exact: true, pressed: true }).waitFor();
  await isOpen('Handle');
  await page.button('Change this one').click();
  await isOpen('Whole piece');
  await page.slider('Depth').press('ArrowRight');
  await page.untilSaved('skewline-design');
  await page.openGroup('Wood');
  await page.reload();
  await isOpen('Wood');
  await page.openGroup('Handle');
  await page.reload();
  await isOpen('Handle');
  assert.deepEqual(visitor.problems, []);
});
