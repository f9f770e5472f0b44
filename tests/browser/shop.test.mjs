// The shop: woods of one's own, from the first figure to the way back when one is taken off.

import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { openSite, SIZES, until, visit } from './page.mjs';

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

for (const size of SIZES) {
  describe(`shop, ${size.name}`, () => {
    let visitor;
    let page;
    const open = async (t) => {
      ({ visitor, page } = await visit(t, site, { size }));
      await page.goTo('Shop');
    };
    const woods = () => page.tab.getByRole('region', { name: 'Your own woods' });
    const woodNames = () => woods().locator('.node-name').allInnerTexts();
    const addWood = async (name, density) => {
      await page.button('Add a wood').click();
      await page.entry('Name of the wood').fill(name);
      await woods().getByRole('combobox', { name: 'Begin with' }).selectOption('Its density only');
      await woods().getByRole('textbox', { name: /^Density in kg/ }).fill(density);
      await page.button('Add it to the list').click();
    };
    const weights = () => page.tab.locator('dt', { hasText: 'Weighs' }).locator('+ dd');
    const untilWeight = async (pattern) => {
      await page.goTo('Design');
      await page.openGroup('Wood');
      await weights().filter({ hasText: pattern }).waitFor();
      return (await weights().innerText()).match(/blank (\d+) g/)?.[1];
    };
    const species = () => page.tab.getByRole('combobox', { name: 'Species' });

    test('a wood of one\u2019s own is added, used, kept, and taken off with a way back', async (t) => {
      await open(t);
      await addWood('Garden plum', '500');
      assert.deepEqual(await woodNames(), ['Garden plum']);
      assert.deepEqual(await page.accessibilityFaults(), []);
      await page.button('Use it for the design on the bench').click();
      await woods().getByText('The design on the bench is of this wood.').waitFor();
      const light = Number(await untilWeight(/^blank \d+ g/));
      assert.equal(await species().inputValue(), 'Garden plum');

      await page.goTo('Shop');
      await woods().getByRole('button', { name: /Garden plum/ }).click();
      await page.typeValue('Density, kg/m\u00b3', '1000');
      await woods().getByRole('button', { name: /Garden plum ?1000/ }).waitFor();
      // Twice as dense, twice the weight: both to the gram.
      const heavy = Number(await untilWeight(new RegExp(`^blank (${2 * light - 1}|${2 * light}|${2 * light + 1}) g`)));

      await page.untilSaved('Garden plum');
      await page.reload();
      assert.equal(Number(await untilWeight(/^blank \d+ g/)), heavy);
      await page.goTo('Shop');
      assert.deepEqual(await woodNames(), ['Garden plum']);

      await woods().getByRole('button', { name: /Garden plum/ }).click();
      await page.button('Take it off the list').click();
      await page.notices().getByText('The design on the bench is of it').waitFor();
      await woods().getByText('neither in the table nor in this list').waitFor();
      assert.deepEqual(await woodNames(), []);
      assert.deepEqual(await page.accessibilityFaults(), []);
      await untilWeight(/The density of "Garden plum" is not in the table/);
      assert.equal(await species().inputValue(), 'Garden plum', 'the design keeps its choice');
      await page.button('Put it back').click();
      assert.equal(Number(await untilWeight(/^blank \d+ g/)), heavy);
      assert.deepEqual(visitor.problems, []);
    });

    test('a name is refused with a sentence, and the design goes along with a new one', async (t) => {
      await open(t);
      await addWood('Garden plum', '700');
      await page.button('Use it for the design on the bench').click();
      await addWood('garden PLUM', '800');
      await woods().getByText('Two woods of your own are called').waitFor();
      assert.equal(await page.entry('Name of the wood').inputValue(), 'garden PLUM', 'what was typed stays');
      await page.entry('Name of the wood').fill('Medlar');
      await page.button('Add it to the list').click();
      assert.deepEqual(await woodNames(), ['Garden plum', 'Medlar']);

      await page.typeValue('Name', 'Garden plum');
      await woods().getByText('Two woods of your own are called').waitFor();
      assert.equal(await page.entry('Name').inputValue(), 'Garden plum', 'what was typed stays');
      assert.deepEqual(await woodNames(), ['Garden plum', 'Medlar']);
      await page.entry('Name').press('Escape');
      assert.equal(await page.entry('Name').inputValue(), 'Medlar');

      await woods().getByRole('button', { name: /Garden plum/ }).click();
      await page.typeValue('Name', 'Damson');
      await page.notices().getByText('The design on the bench goes along.').waitFor();
      await untilWeight(/^blank \d+ g/);
      assert.equal(await species().inputValue(), 'Damson');
      assert.deepEqual(visitor.problems, []);
    });

    test('no step back leads to a name that the shop has not any more', async (t) => {
      await open(t);
      await addWood('Garden plum', '700');
      await page.button('Use it for the design on the bench').click();
      await page.goTo('Design');
      await page.openGroup('Wood');
      await page.typeValue('Length', '260');
      await page.goTo('Shop');
      await woods().getByRole('button', { name: /Garden plum/ }).click();
      await page.typeValue('Name', 'Damson');
      await page.notices().getByText('The design on the bench goes along.').waitFor();
      await page.goTo('Design');
      await page.openGroup('Wood');
      await page.button('Undo').click();
      await until(async () => (await page.entry('Length').inputValue()) !== '260.0', async () => 'the length is undone');
      assert.equal(await species().inputValue(), 'Damson', 'the rename is no step, and the step before it keeps the name');
      await page.button('Redo').click();
      assert.equal(await species().inputValue(), 'Damson');
      await untilWeight(/^blank \d+ g/);
      assert.deepEqual(visitor.problems, []);
    });

    test('a copy of the table is one\u2019s own, and what is not known is not made up', async (t) => {
      await open(t);
      await page.button('Add a wood').click();
      await page.entry('Name of the wood').fill('Black locust');
      await woods().getByRole('combobox', { name: 'Begin with' }).selectOption('White ash');
      await page.button('Add it to the list').click();
      await woods().getByText('yours stands before it').waitFor();
      assert.equal(await page.entry('Modulus of rupture, MPa').inputValue(), '103.4');
      assert.match(await page.entry('Where they come from').inputValue(), /White ash.*Wood Handbook/);
      await woods().getByRole('button', { name: /^Not known ?: Modulus of rupture/ }).click();
      await woods().getByText('the strength of a neck cannot be judged').waitFor();
      assert.equal(await page.entry('Modulus of rupture, MPa').inputValue(), '');
      await page.typeValue('Modulus of rupture, MPa', '5000');
      await woods().getByText('That is too large').waitFor();
      await page.typeValue('Modulus of rupture, MPa', '95.5');
      await page.slider('Modulus of rupture, MPa').waitFor();
      await page.step('Tangential shrinkage, percent', 'more').click();
      await until(async () => (await page.entry('Tangential shrinkage, percent').inputValue()) === '7.9',
        async () => page.entry('Tangential shrinkage, percent').inputValue());
      assert.deepEqual(await page.accessibilityFaults(), []);
      assert.deepEqual(visitor.problems, []);
    });

    test('what is wrong is said in the unit of the shop', async (t) => {
      await open(t);
      const refused = () => page.tab.getByText(/^The swing over the rest is /);
      await page.typeValue('Swing over the bed', '254 mm');
      await page.typeValue('Swing over the rest', '300 mm');
      await refused().waitFor();
      assert.match(await refused().innerText(), /is 300 mm, more than .* at 254 mm\. Make it 254 mm or less\.$/);
      await page.entry('Swing over the rest').press('Escape');
      await page.button('inches').click();
      await page.typeValue('Swing over the rest', '10 1/2');
      await refused().waitFor();
      assert.match(await refused().innerText(), /is 10 1\/2 in, more than .* at 10 in\. Make it 10 in or less\.$/);
      assert.deepEqual(visitor.problems, []);
    });

    test('the moisture in use is given by the air or by itself', async (t) => {
      await open(t);
      await page.goTo('Design');
      await page.openGroup('Wood');
      await page.typeValue('Humidity of the air, percent', '65');
      const said = page.tab.getByText(/^The wood comes to rest at [\d.]+ percent\.$/);
      const [, percent] = (await said.innerText()).match(/at ([\d.]+) percent/);
      await page.button('Moisture').click();
      const card = page.tab.locator('.card', { has: page.tab.getByRole('heading', { name: 'In use', exact: true }) });
      const entry = card.getByRole('textbox', { name: 'Moisture, percent' });
      assert.equal(Number(await entry.inputValue()), Number(percent));
      await page.button('The air').click();
      await page.entry('Humidity of the air, percent').waitFor();
      assert.deepEqual(await page.accessibilityFaults(), []);
      assert.deepEqual(visitor.problems, []);
    });
  });
}
