// Say what you want: a piece is found from it and opened, or the page says why not and what works instead.

import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { newVisitor, openSite, SIZES } from './page.mjs';

/** How long a search may take on a slow machine, in milliseconds. */
const LONGEST = 120_000;

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

for (const size of SIZES) {
  describe(`finding, ${size.name}`, () => {
    let visitor;
    let page;
    const open = async (t) => {
      visitor = await newVisitor(site, { size });
      t.after(() => visitor.close());
      page = await visitor.newTab();
      await page.goTo('Shelf');
      await page.button('New').click();
    };
    const line = (label) => page.tab.getByLabel(label, { exact: false });

    test('a quarter cup is found, opened, and has every check OK', async (t) => {
      await open(t);
      await line('It should hold').fill('50');
      await line('Counted in').selectOption('mL');
      await line('Side of your blank').fill('70');
      await page.button('Find a piece').click();
      await page.tab.getByText('This one works: every check is OK').waitFor({ timeout: LONGEST });
      await page.button('Open it').click();
      await page.untilFigure('Holds', '50 mL');
      await page.untilFigure('Wood', '70 sq');
      await page.tab.locator('.pill.good').waitFor({ timeout: LONGEST });
      assert.deepEqual(visitor.problems, []);
    });

    test('what cannot be had is said, and what works instead is one tap away', async (t) => {
      await open(t);
      await line('Tilt of the handle').fill('14');
      await page.button('Find a piece').click();
      await page.tab.getByText('14.0 degrees of tilt').waitFor({ timeout: LONGEST });
      await page.tab.getByRole('button', { name: 'Open this one' }).first().click();
      await page.tab.locator('.pill.good').waitFor({ timeout: LONGEST });
      assert.deepEqual(visitor.problems, []);
    });

    test('the shelf shows its designs first; the form comes with New and goes with Cancel', async (t) => {
      await open(t);
      const form = page.tab.getByRole('heading', { name: 'Say what you want' });
      await form.waitFor();
      await page.goTo('Design');
      await page.goTo('Shelf');
      const first = page.tab.getByRole('list', { name: 'Designs' }).getByRole('listitem').first();
      const bottom = async () => { const box = await first.boundingBox(); return box.y + box.height; };
      assert.equal(await form.count(), 0);
      assert.ok((await bottom()) < size.height, 'the first design is in sight');
      const start = await page.tab.getByRole('heading', { name: 'Begin with an example' }).boundingBox();
      assert.ok(start.y > (await bottom()), 'the designs come before the examples');
      await page.button('New').click();
      await form.waitFor();
      await line('Length of the handle').fill('77');
      await page.button('Cancel').click();
      await form.waitFor({ state: 'detached' });
      await page.button('New').click();
      assert.notEqual(await line('Length of the handle').inputValue(), '77', 'nothing stays of what was cancelled');
      await page.goTo('Design');
      await page.goTo('Shelf');
      assert.equal(await form.count(), 0, 'it does not stay open');
      assert.deepEqual(await page.accessibilityFaults(), []);
      assert.deepEqual(visitor.problems, []);
    });

    test('a search can be stopped, a wrong line is named, and what was typed is kept', async (t) => {
      await open(t);
      await line('Tilt of the handle').fill('');
      await page.button('Find a piece').click();
      await page.button('Stop').click();
      await page.button('Find a piece').waitFor();
      await line('Length of the handle').fill('long');
      await page.button('Find a piece').click();
      await page.tab.getByText('Length of the handle: "long" is not a number').waitFor();
      await page.goTo('Design');
      await page.goTo('Shelf');
      await page.button('New').click();
      assert.equal(await line('Length of the handle').inputValue(), 'long');
      assert.deepEqual(visitor.problems, []);
    });
  });
}
