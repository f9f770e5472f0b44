// From design to bench: the steps, the page at the lathe, and the log.

import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { openSite, SIZES, until, visit } from './page.mjs';

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

for (const size of SIZES) {
  describe(`steps, ${size.name}`, () => {
    let visitor;
    let page;
    const open = async (t, place) => {
      ({ visitor, page } = await visit(t, site, { size }));
      await page.goTo(place);
      await page.untilFigured();
    };
    const titles = () => page.tab.locator('.step-title').allInnerTexts();
    const lathe = () => page.tab.locator('.lathe-head p').innerText();
    const on = () => page.tab.getByRole('button', { name: /^Done/ });

    test('the steps come in working order, the one to do next open with its picture', async (t) => {
      await open(t, 'Steps');
      const all = (await titles()).join('\n');
      for (const [first, then] of [['Bore', 'plug'], ['Turn the bowl', 'Set the work on axis B'],
        ['Set the work on axis B', 'Turn the handle'], ['Turn the handle', 'Part'], ['Saw', 'Put the finish on']]) {
        const [a, b] = [all.indexOf(first), all.lastIndexOf(then)];
        assert.ok(a >= 0 && b > a, `${first} comes before ${then}:\n${all}`);
      }
      assert.equal(await page.tab.locator('.step canvas').count(), 1);
      assert.deepEqual(visitor.problems, []);
    });

    test('the whole work is walked through at the lathe, and goes on after a reload where it was', async (t) => {
      await open(t, 'Lathe');
      const count = Number((await lathe()).match(/of (\d+)/)[1]);
      assert.ok(count > 12, `${count} steps`);
      const half = Math.floor(count / 2);
      for (let step = 1; step <= half; step += 1) {
        assert.match(await lathe(), new RegExp(`Step ${step} of ${count}`));
        assert.ok((await page.tab.locator('.lathe-title').innerText()).length > 3);
        await on().click();
      }
      await until(async () => Object.values(await page.kept()).some((text) => text.includes('"done":["')), async () => 'no tick is kept');
      await page.tab.waitForTimeout(1200);
      await page.reload();
      await page.untilFigured();
      assert.match(await lathe(), new RegExp(`Step ${half + 1} of ${count}`));
      for (let step = half + 1; step <= count; step += 1) {
        assert.match(await lathe(), new RegExp(`Step ${step} of ${count}`));
        if (step === count) break;
        await page.tab.keyboard.press('ArrowRight');
      }
      await on().click();
      // The last Done leads to the log.
      await page.tab.getByRole('heading', { name: 'Log' }).waitFor();
      await page.tab.waitForFunction(() => document.activeElement?.id === 'log');
      assert.match(await page.tab.getByRole('main').innerText(), new RegExp(`${count} of ${count} done`));
      assert.deepEqual(visitor.problems, []);
    });

    test('at the lathe, no step is counted before the steps are worked out', async (t) => {
      ({ visitor, page } = await visit(t, site, { size }));
      await page.goTo('Lathe');
      // What is said is read at every change of the page, so that nothing that flits by is missed.
      const said = await page.tab.evaluate(() => new Promise((resolve) => {
        const heard = new Set();
        const listen = () => {
          heard.add(document.querySelector('.lathe-head p')?.innerText.trim() ?? '');
          if (document.querySelector('.lathe-title')?.innerText) resolve([...heard]);
        };
        new MutationObserver(listen).observe(document.body, { subtree: true, childList: true, characterData: true });
        listen();
      }));
      assert.deepEqual(said.filter((it) => /^Step 0|of 0/.test(it)), []);
      assert.match(said.at(-1), /^Step 1 of \d+$/);
      assert.deepEqual(visitor.problems, []);
    });

    test('a making is noted and kept with the design, and taken out with a way back', async (t) => {
      await open(t, 'Steps');
      await page.button('Log this piece').click();
      await page.tab.getByLabel(/^Thinnest wall/).fill('3.4');
      await page.tab.getByLabel('What went wrong').fill('Torn grain at the lip');
      await page.button('Save').click();
      await page.untilSaved('Torn grain at the lip');
      await page.reload();
      await page.goTo('Steps');
      await page.tab.getByText('Torn grain at the lip').waitFor();
      await page.tab.getByRole('button', { name: /^Remove/ }).click();
      await page.notices().getByRole('button', { name: 'Undo' }).click();
      await page.tab.getByText('Torn grain at the lip').waitFor();
      assert.deepEqual(visitor.problems, []);
    });

    test('ticks outlive an undo at the drawing board', async (t) => {
      await open(t, 'Steps');
      await page.tab.locator('.tick').first().click();
      await page.goTo('Design');
      await page.openGroup('Handle');
      await page.typeValue('Tilt', '6.5');
      await page.button('Undo').click();
      await page.goTo('Steps');
      assert.equal(await page.tab.locator('.tick').first().getAttribute('aria-pressed'), 'true');
      assert.deepEqual(visitor.problems, []);
    });
  });
}

describe('on paper', () => {
  test('a printer that does not keep its scale is corrected, also after a reload', async (t) => {
    const { visitor, page } = await visit(t, site, { size: SIZES[0] });
    await page.goTo('Steps');
    await page.tab.getByText('Does your printer keep its scale?').click();
    await page.tab.getByLabel('Across measures').fill('96');
    await page.tab.getByLabel('Along measures').fill('20');
    await page.button('Correct by it').click();
    await page.tab.getByText(/^Along: /).waitFor();
    await page.tab.getByLabel('Along measures').fill('98');
    await page.button('Correct by it').click();
    await page.reload();
    await page.goTo('Steps');
    await page.tab.getByText('Does your printer keep its scale?').click();
    assert.equal(await page.tab.getByLabel('Across measures').inputValue(), '96.0');
    await page.button('Print every template').click();
    await page.tab.locator('.print-page').first().waitFor({ state: 'attached' });
    assert.deepEqual(visitor.problems, []);
  });
});

for (const size of SIZES) {
  test(`a bad offset slows the work down, says why, and the cure clears it, ${size.name}`, async (t) => {
    const { visitor, page } = await visit(t, site, { size });
    const card = page.tab.locator('.step:has(canvas)');
    const most = async (tilt) => {
      await page.goTo('Design');
      await page.openGroup('Handle');
      await page.typeValue('Tilt', tilt);
      await page.goTo('Steps');
      await page.tab.getByRole('button', { name: /\. Turn the handle/ }).click();
      await page.untilFigured();
      const fact = card.locator('dt', { hasText: 'Then, at most' }).locator('+ dd');
      return Number((await fact.innerText()).match(/[\d.]+/)[0]);
    };
    const before = await most('7.5');
    // Farther than this nothing would carry the work, and there is no plan.
    const bad = await most('10');
    assert.ok(bad < before, `${bad} rpm after ${before}`);
    await card.getByText('Why these numbers').click();
    await card.getByText('The diameter sets the most, about half of it for off-centre work').waitFor();
    // A lathe that bears little makes it a matter of the checks, and there the cure is said.
    await page.goTo('Shop');
    await page.typeValue('Out-of-balance limit, N', '5');
    const slow = await most('10');
    assert.ok(slow < 0.6 * bad, `${slow} rpm after ${bad}`);
    await card.getByText('Why these numbers').click();
    await card.getByText('The out-of-balance force that your shop accepts on a centre sets the most.').waitFor();
    await card.getByRole('heading', { name: 'To spin it faster' }).waitFor();
    assert.match(await card.innerText(), /offset|round|counterweight|shorter/i);
    const cured = await most('2');
    assert.ok(cured > 1.5 * slow, `${cured} rpm after ${slow}`);
    assert.deepEqual(visitor.problems, []);
  });
}
