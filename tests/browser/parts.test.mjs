// Axes and cuts: added, copied, switched off, put in another order, renamed and taken away by touch.

import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { openSite, SIZES, until, visit } from './page.mjs';
import { readPdf } from './pdf.mjs';

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

for (const size of SIZES) {
  describe(`parts, ${size.name}`, () => {
    let visitor;
    let page;
    const open = async (t) => {
      ({ visitor, page } = await visit(t, site, { size }));
    };
    const list = () => page.tab.locator('.parts .node-name').allInnerTexts();
    const row = (title) => page.tab.locator('.parts .node', { hasText: title }).first();
    /** Presses what stands at the open part. */
    const press = async (name) => page.tab.locator('.picked').getByRole('button', { name, exact: true }).click();
    const add = async (name) => {
      await page.button('Add a part').click();
      await page.tab.getByRole('button', { name, exact: true }).click();
    };
    const untilList = (wanted) => until(
      async () => JSON.stringify(await list()) === JSON.stringify(wanted),
      async () => `the list reads ${JSON.stringify(await list())}`,
    );

    test('a spindle of three sides is built from a bare blank, printed, kept and undone', async (t) => {
      await open(t);
      await page.goTo('Shelf');
      await page.button('Free spindle, from the bare blank').click();
      await page.openGroup('Parts');
      await untilList([]);
      const bare = await page.picture();
      await add('Round the whole blank');
      await add('An axis beside A');
      await add('A pass on axis B');
      await untilList(['Axis B', 'Round (axis A)', 'Side (axis B)']);
      assert.ok((await page.picture()) !== bare, 'the drawing shows the new parts');
      // The new part is open; its copies shape one part with it.
      await press('All three sides');
      await untilList(['Axis B', 'Axis C', 'Axis D', 'Round (axis A)', 'Side (axis B)', 'Side 2 (axis C)', 'Side 3 (axis D)']);
      await page.untilFigured();
      await page.openGroup('Handle');
      const together = page.tab.getByLabel('Shapes one part with').first();
      assert.equal(await together.inputValue(), 'Side 2 (axis C), Side 3 (axis D)');
      if (size.hasTouch) await page.openGroup('Checks');
      const joins = page.tab.getByText('The least spare that the round pass leaves is').first();
      await joins.waitFor();

      // Its marks on paper.
      await page.tab.evaluate(() => { window.prints = 0; window.print = () => { window.prints += 1; }; });
      await page.goTo('Steps');
      await page.button('Print every template').click();
      await until(async () => (await page.tab.evaluate(() => window.prints)) > 0, async () => 'nothing is printed');
      const words = (await readPdf(await page.tab.pdf({ preferCSSPageSize: true }))).flatMap((paper) => paper.words);
      assert.ok(words.some((word) => /Head end/.test(word.text ?? word)), JSON.stringify(words).slice(0, 400));

      // It is kept.
      await page.untilSaved('"name":"side 3"');
      await page.reload();
      await page.goTo('Design');
      await page.openGroup('Parts');
      await untilList(['Axis B', 'Axis C', 'Axis D', 'Round (axis A)', 'Side (axis B)', 'Side 2 (axis C)', 'Side 3 (axis D)']);

      // Four changes, four steps back.
      for (let step = 0; step < 4; step += 1) await page.button('Undo').click();
      await untilList([]);
      assert.ok(await page.button('Undo').isDisabled());
      assert.deepEqual(visitor.problems, []);
    });

    test('a pass is switched off and on, copied, moved, renamed and taken away', async (t) => {
      await open(t);
      await page.openGroup('Parts');
      await row('Axis B').waitFor();
      const start = await list();
      await row('Handle (axis B)').click();
      assert.match(await page.picked(), /handle/i);
      await press('Switch off');
      await until(async () => (await page.tab.locator('.parts .node.off').count()) === 1, async () => 'nothing is off');
      assert.deepEqual(await list(), start);
      await row('Handle (axis B)').click();
      await press('Switch on');
      await until(async () => (await page.tab.locator('.parts .node.off').count()) === 0, async () => 'it is off');
      await row('Handle (axis B)').click();
      await press('Copy');
      await until(async () => (await list()).includes('Handle 2 (axis B)'), async () => `${await list()}`);
      await page.tab.getByLabel('Name', { exact: true }).fill('grip');
      await page.tab.getByLabel('Name', { exact: true }).press('Enter');
      await until(async () => (await list()).includes('Grip (axis B)'), async () => `${await list()}`);
      await press('Move earlier');
      const moved = await list();
      assert.ok(moved.indexOf('Grip (axis B)') < moved.indexOf('Handle (axis B)'), `${moved}`);
      await press('Remove');
      await untilList(start);
      // The axis goes with its cuts, and the scoop leaves its pattern; one step brings both back.
      await row('Axis B').click();
      await page.tab.locator('.picked').getByRole('button', { name: /^Remove with its/ }).click();
      await page.notices().getByText('This is a free piece now').waitFor();
      assert.ok(!(await list()).includes('Axis B'));
      await page.button('Undo').first().click();
      await untilList(start);
      await page.openGroup('Whole piece');
      assert.deepEqual(visitor.problems, []);
    });

    test('beads, coves and ogees are one action each', async (t) => {
      await open(t);
      await page.openGroup('Handle');
      const points = () => page.tab.locator('section.card', { has: page.tab.getByRole('heading', { name: 'Handle (axis B)' }) }).locator('.node');
      await points().first().click();
      const count = await points().count();
      for (const name of ['Add a bead', 'Add a cove', 'Add an ogee']) {
        await page.button(name).click();
        await until(async () => (await points().count()) === count + 2, async () => `${name} adds nothing`);
        await page.button('Undo').click();
        await until(async () => (await points().count()) === count, async () => 'it is not undone');
        await points().first().click();
      }
      assert.deepEqual(visitor.problems, []);
    });

    test('the list is for everyone', async (t) => {
      await open(t);
      await page.openGroup('Parts');
      await row('Handle (axis B)').click();
      await page.button('Add a part').click();
      assert.deepEqual(await page.accessibilityFaults(), []);
      const heights = await page.tab.locator('main button').evaluateAll((all) => all.map((it) => it.getBoundingClientRect().height));
      assert.ok(Math.min(...heights) >= 44, `${Math.min(...heights)}`);
      assert.deepEqual(visitor.problems, []);
    });
  });
}
