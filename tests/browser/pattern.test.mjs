// A piece that moves together: its choices, what is one's own, and what it is for.

import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { openSite, SIZES, visit } from './page.mjs';

/** How long a search may take on a slow machine, in milliseconds. */
const LONGEST = 120_000;

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

for (const size of SIZES) {
  describe(`a piece that moves together, ${size.name}`, () => {
    let visitor;
    let page;
    const open = async (t) => {
      ({ visitor, page } = await visit(t, site, { size }));
      await page.openGroup('Whole piece');
    };
    const card = (title) => page.tab.locator('section.card', { has: page.tab.getByRole('heading', { name: title }) });
    /** What a value of a group reads, by the heading that it stands under. */
    const reads = async (group, title, name) => {
      await page.openGroup(group);
      const value = await card(title).getByRole('textbox', { name: new RegExp(`^${name}`) }).first().inputValue();
      return Number(value);
    };
    /** Where the handle starts, and the station and height of each end of the saw line. */
    const neckAndSaw = async () => {
      const neck = await reads('Handle', 'Handle (axis B)', 'From');
      await page.openGroup('Opening');
      const points = page.tab.locator('.node');
      await points.nth(1).waitFor();
      return { neck, saw: (await points.allInnerTexts()).join(' ') };
    };
    const yours = () => page.tab.getByText('Yours: it no longer follows');

    test('depth moves neck and saw, and is undone in one step', async (t) => {
      await open(t);
      const start = await neckAndSaw();
      await page.openGroup('Whole piece');
      await page.typeValue('Depth', '53');
      const after = await neckAndSaw();
      assert.ok(Math.abs(after.neck - start.neck - 5) < 0.11, `${start.neck} to ${after.neck}`);
      assert.notEqual(after.saw, start.saw);
      await page.button('Undo').click();
      assert.deepEqual(await neckAndSaw(), start);
      assert.ok(await page.button('Undo').isDisabled());
      assert.deepEqual(visitor.problems, []);
    });

    test('a cut changed by hand is marked, stays through other choices, and is given back', async (t) => {
      await open(t);
      const start = await neckAndSaw();
      await page.openGroup('Opening');
      await page.tab.locator('.node').first().click();
      await page.typeValue('Height', '-4');
      await yours().waitFor();
      const byHand = await neckAndSaw();
      await page.openGroup('Whole piece');
      await page.tab.getByText('Yours, and no longer following:').waitFor();
      await page.typeValue('Depth', '53');
      const deeper = await neckAndSaw();
      assert.equal(deeper.saw, byHand.saw);
      assert.ok(deeper.neck > start.neck);

      // It is kept so.
      await page.untilSaved('"own":[{"saw":0}]');
      await page.reload();
      await page.openGroup('Opening');
      await yours().waitFor();
      assert.deepEqual(await neckAndSaw(), deeper);

      await page.button('Follow again').click();
      await yours().waitFor({ state: 'detached' });
      const followed = await neckAndSaw();
      assert.notEqual(followed.saw, byHand.saw);
      assert.notEqual(followed.saw, start.saw);
      await page.button('Undo').click();
      await yours().waitFor();
      assert.deepEqual(await neckAndSaw(), deeper);
      assert.deepEqual(visitor.problems, []);
    });

    test('the end of the handle is picked from a list, and a choice that cannot be is refused', async (t) => {
      await open(t);
      for (const end of ['A round end', 'A knob', 'Parted off plain', 'A hook to hang it by']) {
        await page.tab.getByLabel('It ends in').selectOption(end);
        await page.untilFigured();
        await page.tab.locator('.pill.good').waitFor();
      }
      await page.typeValue('Depth', '0');
      assert.equal(await page.entry('Depth').getAttribute('aria-invalid'), 'true');
      assert.deepEqual(visitor.problems, []);
    });

    test('a shelf of version 1 comes in whole, and the example follows its pattern', async (t) => {
      await open(t);
      await page.typeValue('Depth', '50');
      await page.untilSaved('"bore_depth_mm":50');
      await page.goTo('Shelf');
      const older = JSON.parse((await page.fileFrom(page.button('Save a backup file'))).text);
      assert.deepEqual([older.version, older.designs.length], [2, 1]);
      older.version = 1;
      const { pattern, ...design } = older.designs[0];
      assert.equal(pattern.choices.bored_end_scoop.bore_depth_mm, 50);
      const longer = { ...design.blank, length_mm: design.blank.length_mm + 3 };
      older.designs = [{ ...design, name: 'As it was' }, { ...design, name: 'Free', blank: longer }];
      await page.bringIn('older.json', JSON.stringify(older));
      const row = (name) => page.tab.getByRole('list', { name: 'Designs' }).getByRole('listitem').filter({ hasText: name });
      await row('As it was').waitFor();
      await row('As it was').getByRole('button', { name: 'Open', exact: true }).click();
      await page.openGroup('Whole piece');
      assert.equal(await page.entry('Depth').inputValue(), '50.0');
      await page.goTo('Shelf');
      await row('Free').getByRole('button', { name: 'Open', exact: true }).click();
      await page.openGroup('Hollow');
      assert.equal(await page.entry('Depth').inputValue(), '50.0');
      assert.equal(await page.button('Whole piece').count(), 0);
      assert.deepEqual(visitor.problems, []);
    });

    test('what it is for is changed in place, in one step', async (t) => {
      await open(t);
      await page.button('Change what it is for').click();
      const line = (label) => page.tab.getByLabel(label, { exact: false });
      assert.equal(await line('Side of your blank').inputValue(), '68.0');
      assert.equal(await line('Length of the handle').inputValue(), '151.0');
      assert.equal(await line('It ends in').last().inputValue(), 'A hook to hang it by');
      await line('It should hold').fill('40');
      await line('Counted in').selectOption('mL');
      await line('Side of your blank').fill('75');
      await page.button('Find a piece').click();
      await page.tab.getByText('This one works: every check is OK').waitFor({ timeout: LONGEST });
      await page.button('Change this design').click();
      await page.untilFigure('Holds', '40 mL');
      await page.untilFigure('Wood', '75 sq');
      await page.tab.locator('.pill.good').waitFor({ timeout: LONGEST });
      // The form asks for the same when it is opened again.
      await page.button('Change what it is for').click();
      assert.equal(await line('It should hold').inputValue(), '40');
      assert.equal(await line('Side of your blank').inputValue(), '75.0');
      await page.button('Undo').click();
      await page.untilFigure('Wood', '68 sq');
      assert.ok(await page.button('Undo').isDisabled());
      assert.deepEqual(visitor.problems, []);
    });
  });
}
