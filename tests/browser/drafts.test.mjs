// What is typed and not taken yet survives a glance at another place, and closing the page.

import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { openSite, SIZES, until, visit } from './page.mjs';

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

for (const size of SIZES) {
  describe(`drafts, ${size.name}`, () => {
    let visitor;
    let page;
    const open = async (t) => {
      ({ visitor, page } = await visit(t, site, { size }));
      await page.untilSaved('skewline-design');
    };
    const reads = (field, wanted) => until(async () => (await field.inputValue()) === wanted,
      async () => `it reads ${await field.inputValue()}, not ${wanted}`);
    const closeAndOpen = async () => {
      await page.tab.close();
      page = await visitor.newTab();
    };

    test('the log, until the making is noted', async (t) => {
      await open(t);
      const wrong = () => page.entry('What went wrong');
      await page.goTo('Steps');
      await page.button('Log this piece').click();
      await wrong().fill('torn grain at the neck');
      await page.goTo('Shop');
      await page.goTo('Steps');
      await reads(wrong(), 'torn grain at the neck');
      await closeAndOpen();
      await page.goTo('Steps');
      await reads(wrong(), 'torn grain at the neck');
      await page.button('Save').click();
      await page.untilSaved('torn grain at the neck');
      await page.button('Log this piece').click();
      await reads(wrong(), '');
      assert.deepEqual(visitor.problems, []);
    });

    test('a wood of one\u2019s own, until it is on the list', async (t) => {
      await open(t);
      const name = () => page.entry('Name of the wood');
      await page.goTo('Shop');
      await page.button('Add a wood').click();
      await name().fill('Garden plum');
      await page.goTo('Design');
      await page.goTo('Shop');
      await reads(name(), 'Garden plum');
      await closeAndOpen();
      await page.goTo('Shop');
      await reads(name(), 'Garden plum');
      await page.button('Add it to the list').click();
      await page.button('Add a wood').click();
      assert.notEqual(await name().inputValue(), 'Garden plum');
      assert.deepEqual(visitor.problems, []);
    });

    test('a value that is half typed, until it is taken', async (t) => {
      await open(t);
      await page.openGroup('Handle');
      const before = await page.entry('Tilt').inputValue();
      await page.entry('Tilt').fill('8 and a ha');
      await page.goTo('Shop');
      await page.goTo('Design');
      await page.openGroup('Handle');
      await reads(page.entry('Tilt'), '8 and a ha');
      await closeAndOpen();
      await page.openGroup('Handle');
      await reads(page.entry('Tilt'), '8 and a ha');
      await page.entry('Tilt').press('Escape');
      await reads(page.entry('Tilt'), before);
      await closeAndOpen();
      await page.openGroup('Handle');
      await reads(page.entry('Tilt'), before);
      assert.deepEqual(visitor.problems, []);
    });
  });
}
