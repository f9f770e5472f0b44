// What stops is seen: Steps, Lathe and every print begin with it, and the lathe asks before it goes on past it.

import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { openSite, SIZES, visit } from './page.mjs';

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

for (const size of SIZES) {
  describe(`stops, ${size.name}`, () => {
    let visitor;
    let page;
    const open = async (t, tilt) => {
      ({ visitor, page } = await visit(t, site, { size }));
      if (tilt) await page.typeValue('Tilt', tilt);
      await page.untilFigured();
    };
    const lathe = () => page.tab.locator('.lathe-head p').innerText();
    const on = () => page.tab.getByRole('button', { name: /^Done/ });
    /** The names of the checks that stop, once each, as the panel of checks shows them. */
    const stopNames = async () => {
      await page.tab.getByRole('button', { name: /show all checks/ }).click();
      await page.tab.getByRole('heading', { name: 'Checks', exact: true }).waitFor();
      const titles = await page.tab.locator('.check.stop h3').allInnerTexts();
      return [...new Set(titles.map((title) => title.replace(/\s*Stop$/, '').trim()))];
    };

    test('Steps and Lathe begin with the checks that stop, by name', async (t) => {
      await open(t, '24');
      const names = (await stopNames()).slice(0, 5);
      assert.ok(names.length > 1, `${names}`);
      await page.goTo('Steps');
      const card = page.tab.locator('main > .stops');
      for (const name of names) assert.ok((await card.getByRole('heading', { level: 2 }).innerText()).includes(name), name);
      const [top, first] = [await card.boundingBox(), await page.tab.locator('.steps').boundingBox()];
      assert.ok(top.y < first.y, 'before the steps');
      assert.deepEqual(await page.accessibilityFaults(), []);
      await page.goTo('Lathe');
      const said = page.tab.locator('.lathe-body > .lathe-stops');
      for (const name of names) assert.ok((await said.innerText()).includes(name), name);
      assert.ok(await said.evaluate((it) => it.parentElement.firstElementChild === it), 'first of all');
      assert.deepEqual(visitor.problems, []);
    });

    test('nothing is said of stops where none stops', async (t) => {
      await open(t);
      assert.deepEqual(await stopNames(), []);
      await page.goTo('Steps');
      await page.tab.locator('.step').first().waitFor();
      assert.equal(await page.tab.locator('.stops, .lathe-stops').count(), 0);
      await page.goTo('Lathe');
      await on().click();
      assert.match(await lathe(), /^Step 2 of/, 'nothing to ask');
      assert.deepEqual(visitor.problems, []);
    });

    test('the lathe asks before it goes on past a stop that concerns the step', async (t) => {
      await open(t);
      // Half of the wanted wall and less is a stop; the work itself can still be planned.
      await page.openGroup('Hollow');
      await page.typeValue('Thinnest wall', '9.5');
      await page.untilFigured();
      assert.ok((await stopNames()).includes('Wall'));
      await page.goTo('Lathe');
      const ask = page.tab.getByRole('alertdialog', { name: 'Go on past a stop?' });
      await on().click();
      await ask.waitFor();
      assert.match(await lathe(), /^Step 1 of/);
      assert.ok((await ask.innerText()).length > 60, 'it says what stops');
      assert.deepEqual(await page.accessibilityFaults(), []);
      // Neither a key nor the focus goes past it by accident.
      await page.tab.keyboard.press('PageDown');
      assert.match(await lathe(), /^Step 1 of/);
      assert.ok(await page.button('Stay here').evaluate((it) => it === document.activeElement));
      await page.button('Stay here').click();
      await ask.waitFor({ state: 'detached' });
      await page.tab.keyboard.press('ArrowRight');
      await ask.waitFor();
      await page.button('Go on all the same').click();
      assert.match(await lathe(), /^Step 2 of/);
      assert.deepEqual(visitor.problems, []);
    });

    test('every print begins with what stops, by name', async (t) => {
      await open(t, '24');
      const names = (await stopNames()).slice(0, 5);
      await page.tab.evaluate(() => { window.print = () => {}; });
      await page.goTo('Steps');
      const printed = async (button) => {
        await page.tab.evaluate(() => document.querySelectorAll('.print-page').forEach((it) => it.remove()));
        await page.button(button).click();
        await page.tab.locator('.print-page').first().waitFor({ state: 'attached' });
        return page.tab.locator('.print-page').evaluateAll((all) => all.map((it) => decodeURIComponent(it.src)));
      };
      const [sheet] = await printed('Print the sheet');
      const words = [...sheet.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text]) => text);
      const at = (pattern) => words.findIndex((text) => pattern.test(text));
      assert.ok(at(/^STOP/) >= 0 && at(/^STOP/) < at(/^The piece/), 'before all else on the sheet');
      for (const name of names) assert.ok(sheet.includes(`STOP, ${name}`), name);
      const pages = await printed('Print every template');
      for (const svg of pages) {
        assert.match(svg, /STOP: /);
        for (const name of names) assert.ok(svg.includes(name), name);
      }
      assert.deepEqual(visitor.problems, []);
    });

    test('each step at the lathe shows what its work needs, in large type', async (t) => {
      await open(t);
      await page.goTo('Lathe');
      const count = Number((await lathe()).match(/of (\d+)/)[1]);
      const seen = { swing: 0, rest: 0, held: 0, marks: 0 };
      for (let step = 1; step <= count; step += 1) {
        assert.match(await lathe(), new RegExp(`^Step ${step} of`));
        const words = await page.tab.locator('.lathe-body').innerText();
        const title = await page.tab.locator('.lathe-title').innerText();
        if (/^(Turn the (bowl|handle)|Turn on)/.test(title)) {
          for (const needed of [/Swings/, /Clears the bed by/, /Clears the rest.s base by/, /Tool rest, from axis [AB]/,
            /Mark [AB], bowl end/, /Mark [AB], head end/, /Held/]) assert.match(words, needed, title);
          seen.swing += 1;
        }
        if (/^Set the work on axis/.test(title)) {
          assert.match(words, /Mark B, bowl end/, title);
          seen.marks += 1;
        }
        const sizes = await page.tab.locator('.lathe-body :is(dd, dt, li, .lathe-what)').evaluateAll((all) =>
          all.filter((it) => it.innerText.trim()).map((it) => parseFloat(getComputedStyle(it).fontSize)));
        assert.ok(Math.min(...sizes) >= 17, `${title}: letters of ${Math.min(...sizes)} px`);
        const needed = await page.tab.locator('.lathe-facts :is(dd, dt), .lathe-body li').evaluateAll((all) =>
          all.map((it) => parseFloat(getComputedStyle(it).fontSize)));
        assert.ok(needed.every((px) => px >= 20), `${title}: ${needed}`);
        if (step < count) await page.tab.keyboard.press('ArrowRight');
      }
      assert.ok(seen.swing >= 2 && seen.marks >= 1, JSON.stringify(seen));
      assert.deepEqual(visitor.problems, []);
    });

    test('a wall that is gone is broken through, and where: never a negative number', async (t) => {
      await open(t, '24');
      const said = await page.figure('Thinnest wall');
      assert.match(said, /^broken through, \d/);
      const spill = await page.tab.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert.ok(spill <= 0, `${spill} px too wide`);
      assert.deepEqual(visitor.problems, []);
    });
  });
}
