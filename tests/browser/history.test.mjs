// The steps back and forward survive a reload, and never cost a design its place.

import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { openSite, SIZES, until, visit } from './page.mjs';

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

for (const size of SIZES) {
  describe(`steps back, ${size.name}`, () => {
    let visitor;
    let page;
    const open = async (t) => {
      ({ visitor, page } = await visit(t, site, { size }));
      await page.openGroup('Handle');
    };
    const histories = async () => Object.keys(await page.kept()).filter((key) => key.startsWith('skewline/history/'));
    const set = async (tilt) => {
      await page.typeValue('Tilt', tilt);
      await page.untilFigure('Handle', tilt);
    };

    test('undo and redo go on after a reload where they were', async (t) => {
      await open(t);
      const first = await page.entry('Tilt').inputValue();
      for (const tilt of ['3.0', '4.0', '5.0']) await set(tilt);
      await page.button('Undo').click();
      await page.untilFigure('Handle', '4.0');
      await page.reload();
      await page.untilFigure('Handle', '4.0');
      await page.button('Redo').click();
      await page.untilFigure('Handle', '5.0');
      for (const tilt of ['4.0', '3.0', first]) {
        await page.button('Undo').click();
        await page.untilFigure('Handle', tilt);
      }
      assert.ok(await page.button('Undo').isDisabled());
      assert.deepEqual(visitor.problems, []);
    });

    test('each design keeps its own steps while another is on the bench', async (t) => {
      await open(t);
      const name = await page.tab.getByRole('textbox', { name: 'Name of the design' }).inputValue();
      const first = await page.entry('Tilt').inputValue();
      await set('3.0');
      await page.goTo('Shelf');
      await page.button('Straight-handled scoop').click();
      assert.ok(await page.button('Undo').isDisabled(), 'nothing to undo on a new design');
      await page.goTo('Shelf');
      await page.button(`Open ${name}`).click();
      await page.button('Undo').click();
      await page.openGroup('Handle');
      await page.untilFigure('Handle', first);
      assert.deepEqual(visitor.problems, []);
    });

    test('a full storage lets go of the steps, and keeps the design', async (t) => {
      await open(t);
      for (const tilt of ['3.0', '4.0', '5.0']) await set(tilt);
      await until(async () => (await histories()).length === 1, async () => 'the steps are kept');
      await page.fillStorage({ keepSteps: true });
      await page.typeValue('Tilt', '4.25');
      await page.untilSaved('4.25');
      assert.deepEqual(await histories(), []);
      assert.equal(await page.tab.getByRole('alert').filter({ hasText: 'storage is full' }).count(), 0);
      assert.deepEqual(visitor.problems, []);
    });
  });
}
