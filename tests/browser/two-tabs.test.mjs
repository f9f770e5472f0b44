// Two tabs of one browser: what one of them saves takes nothing from under the fingers of the other.

import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { newVisitor, openSite, SIZES, until } from './page.mjs';

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

for (const size of SIZES) {
  describe(`two tabs, ${size.name}`, () => {
    let visitor;
    let first;
    let second;
    const open = async (t) => {
      visitor = await newVisitor(site, { size });
      t.after(() => visitor.close());
      first = await visitor.newTab();
      await first.untilSaved('skewline-design');
      second = await visitor.newTab();
    };
    const reads = (field, wanted) => until(async () => (await field.inputValue()) === wanted,
      async () => `it reads ${await field.inputValue()}, not ${wanted}`);

    test('a value of the shop that is half typed stays', async (t) => {
      await open(t);
      await first.goTo('Shop');
      await second.goTo('Shop');
      const [bed, rest] = [second.entry('Swing over the bed'), second.entry('Swing over the rest')];
      const before = await bed.inputValue();
      await bed.fill('31');
      await first.typeValue('Swing over the bed', '300');
      await first.typeValue('Swing over the rest', '230');
      await reads(rest, '230.0');
      assert.equal(await bed.inputValue(), '31', 'what is typed stays');
      await bed.press('Escape');
      await reads(bed, '300.0');
      await bed.blur();
      // Typed back to what it was at first, it is no change, and what the other tab keeps is shown.
      await bed.fill('31');
      await first.typeValue('Swing over the bed', before);
      await first.typeValue('Swing over the rest', '220');
      await reads(rest, '220.0');
      await bed.fill('300.0');
      await bed.blur();
      await reads(bed, before);
      assert.deepEqual(visitor.problems, []);
    });

    test('the name of a wood of one\u2019s own that is half typed stays', async (t) => {
      await open(t);
      const add = async (name) => {
        await first.button('Add a wood').click();
        await first.entry('Name of the wood').fill(name);
        await first.button('Add it to the list').click();
      };
      await first.goTo('Shop');
      await add('Garden plum');
      await second.goTo('Shop');
      const woods = second.tab.getByRole('region', { name: 'Your own woods' });
      await woods.getByRole('button', { name: /Garden plum/ }).click();
      await second.entry('Name').fill('Dam');
      await first.typeValue('Name', 'Bullace');
      await add('Medlar');
      await woods.getByRole('button', { name: /Medlar/ }).waitFor();
      await woods.getByRole('button', { name: /Bullace/ }).waitFor();
      assert.equal(await second.entry('Name').inputValue(), 'Dam');
      await second.entry('Name').press('Escape');
      await reads(second.entry('Name'), 'Bullace');
      assert.deepEqual(visitor.problems, []);
    });

    test('what a check line measured stays until it is taken, and takes no other printer away', async (t) => {
      await open(t);
      const openPrinter = async (page, name) => {
        await page.goTo('Steps');
        await page.tab.getByText('Does your printer keep its scale?').click();
        await page.tab.getByLabel('Printer', { exact: true }).fill(name);
        await page.tab.getByLabel('Printer', { exact: true }).press('Enter');
      };
      const measure = async (page, across, along) => {
        await page.tab.getByLabel('Across measures').fill(across);
        await page.tab.getByLabel('Along measures').fill(along);
      };
      const known = async () => JSON.parse((await first.kept())['skewline:printers']).known.map(({ name }) => name);
      await openPrinter(second, 'by the bench');
      await measure(second, '98.5', '10');
      await openPrinter(first, 'in the office');
      await measure(first, '99', '100');
      await first.button('Correct by it').click();
      await reads(second.tab.getByLabel('Printer', { exact: true }), 'in the office');
      await first.goTo('Shop');
      await first.button('inches').click();
      await second.tab.getByText(/ in$/).first().waitFor();
      assert.equal(await second.tab.getByLabel('Across measures').inputValue(), '98.5');
      assert.equal(await second.tab.getByLabel('Along measures').inputValue(), '10');
      await second.tab.getByLabel('Printer', { exact: true }).fill('by the bench');
      await second.tab.getByLabel('Printer', { exact: true }).press('Enter');
      await measure(second, '98.5 mm', '101 mm');
      await second.button('Correct by it').click();
      await until(async () => (await known()).length === 2, async () => `${await known()} are known`);
      assert.deepEqual((await known()).sort(), ['by the bench', 'in the office']);
      assert.deepEqual(visitor.problems, []);
    });

    test('the name and a value of a design that are half typed stay', async (t) => {
      await open(t);
      await first.openGroup('Handle');
      await second.openGroup('Handle');
      const named = (page) => page.tab.getByRole('textbox', { name: 'Name of the design' });
      await second.entry('Tilt').fill('1');
      await first.typeValue('Tilt', '8.5');
      await second.untilFigure('Handle', '8.5');
      assert.equal(await second.entry('Tilt').inputValue(), '1');
      await second.entry('Tilt').press('Escape');
      await reads(second.entry('Tilt'), '8.5');
      await named(second).fill('Bar');
      await named(first).fill('Barley scoop');
      await named(first).press('Enter');
      await first.typeValue('Tilt', '6.5');
      await second.untilFigure('Handle', '6.5');
      assert.equal(await named(second).inputValue(), 'Bar');
      await named(second).blur();
      await first.untilSaved('"name":"Bar"');
      assert.deepEqual(visitor.problems, []);
    });
  });
}
