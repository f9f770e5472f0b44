// The browser's storage, missing, full, damaged or shared between tabs: nothing that was made is lost without a word.

import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { newVisitor, openSite, SIZES, until, withoutDatabase, withoutLocalStorage } from './page.mjs';

/** How often two tabs save at the same moment: more in a run of its own (ROUNDS=20). */
const ROUNDS = Number(process.env.ROUNDS ?? 2);

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

for (const size of SIZES) {
  describe(`storage, ${size.name}`, () => {
    let visitor;
    const visit = async (t, ...lacking) => {
      visitor = await newVisitor(site, { size });
      t.after(() => visitor.close());
      for (const lack of lacking) await lack(visitor);
      const page = await visitor.newTab();
      await page.openGroup('Handle');
      return page;
    };
    const tiltAfterReload = async (page) => {
      await page.reload();
      await page.openGroup('Handle');
      return page.entry('Tilt').inputValue();
    };

    test('full local storage: the database keeps what has no room there', async (t) => {
      const page = await visit(t);
      await page.untilSaved('skewline-design');
      await page.fillStorage();
      await page.typeValue('Tilt', '8.5');
      await page.untilSettled();
      assert.equal(await page.tab.getByRole('alert').count(), 0);
      assert.equal(await tiltAfterReload(page), '8.5');
      assert.deepEqual(visitor.problems, []);
    });

    test('no local storage: the database keeps everything', async (t) => {
      const page = await visit(t, withoutLocalStorage);
      await page.typeValue('Tilt', '8.5');
      await page.untilSettled();
      await page.reload();
      await page.openGroup('Handle');
      await until(async () => (await page.entry('Tilt').inputValue()) === '8.5', () => 'the edit is lost');
    });

    test('a design that cannot be saved is not left before the turner has said so', async (t) => {
      const page = await visit(t, withoutDatabase);
      await page.typeValue('Tilt', '8.5');
      await page.untilSaved('"tilt_deg":8.5');
      await page.goTo('Shelf');
      await page.tab.getByRole('button', { name: /^Duplicate/ }).first().click();
      await until(async () => (await page.namesOnShelf()).length === 2, () => 'there is no copy');
      await page.goTo('Design');
      await page.fillStorage();
      await page.openGroup('Handle');
      await page.typeValue('Tilt', '6.75');
      const alert = page.tab.getByRole('alert').filter({ hasText: 'storage is full' });
      await alert.waitFor();
      const openOther = async () => {
        await page.goTo('Shelf');
        await page.tab.getByRole('button', { name: /^Open .*copy/ }).first().click();
        await alert.getByText('your last changes to this design are lost').waitFor();
      };
      await openOther();
      await page.button('Stay').click();
      await page.goTo('Design');
      await page.openGroup('Handle');
      assert.equal(await page.entry('Tilt').inputValue(), '6.8');
      await openOther();
      const { text } = await page.fileFrom(page.button('Save it to a file'));
      assert.match(text, /6\.75/);
      await page.button('Go on without saving').click();
      await page.openGroup('Handle');
      await until(async () => (await page.entry('Tilt').inputValue()) === '8.5', () => 'the other design is not open');
      assert.deepEqual(visitor.problems, []);
    });

    test('a change of the shop that fits leaves the banner of the design', async (t) => {
      const page = await visit(t, withoutDatabase);
      await page.untilSaved('skewline-design');
      await page.goTo('Shop');
      await page.typeValue('Swing over the bed', '300');
      await page.fillStorage();
      await page.goTo('Design');
      await page.openGroup('Handle');
      await page.typeValue('Tilt', '6.75');
      const alert = page.tab.getByRole('alert').filter({ hasText: 'storage is full' });
      await alert.waitFor();
      await page.goTo('Shop');
      await page.typeValue('Swing over the bed', '310');
      await until(async () => (await page.kept())['skewline/shop']?.includes('310'), () => 'the shop is not saved');
      assert.equal(await alert.count(), 1);
    });

    test('a slow second tab does not turn back the shop', async (t) => {
      const page = await visit(t);
      await page.untilSaved('skewline-design');
      await page.goTo('Shop');
      await page.typeValue('Swing over the bed', '300');
      const second = await visitor.newTab();
      await second.goTo('Shop');
      const session = await visitor.context.newCDPSession(second.tab);
      await session.send('Emulation.setCPUThrottlingRate', { rate: 6 });
      for (let click = 0; click < 20; click += 1) await page.step('Swing over the bed', 'more').click();
      const wanted = await page.entry('Swing over the bed').inputValue();
      await until(async () => (await second.entry('Swing over the bed').inputValue()) === wanted, () => 'not heard of');
      await page.untilSettled();
      assert.equal(await page.entry('Swing over the bed').inputValue(), wanted);
      assert.ok((await page.kept())['skewline/shop'].includes(String(Number(wanted))));
    });

    test(`edits of one design that two tabs save at the same moment are both kept, ${ROUNDS} times of ${ROUNDS}`, async (t) => {
      const first = await visit(t);
      await first.untilSaved('skewline-design');
      const second = await visitor.newTab();
      for (let round = 0; round < ROUNDS; round += 1) {
        const [mine, yours] = [`8.${round % 9}1`, `6.${round % 9}3`];
        // Both are changed before either may save, and then both may at once.
        const goOn = [];
        for (const [tab, tilt] of [[first, mine], [second, yours]]) {
          goOn.push(await tab.holdSaving());
          await tab.openGroup('Handle');
          await tab.typeValue('Tilt', tilt);
        }
        const moment = Date.now() + 100;
        await Promise.all(goOn.map((go) => go(moment)));
        await first.untilSaved(`"tilt_deg":${mine}`);
        await first.untilSaved(`"tilt_deg":${yours}`);
      }
      assert.deepEqual(visitor.problems, []);
    });

    test('a design that was open and cannot be read is spoken of', async (t) => {
      const page = await visit(t);
      await page.untilSaved('skewline-design');
      const { 'skewline/open': id } = await page.kept();
      await page.plant(`skewline/design/${id}`, '{"format":"skewline-design","version":999}');
      await page.tab.goto('about:blank');
      await page.open();
      await page.tab.getByRole('alert').filter({ hasText: 'The design that was open last is not shown' }).waitFor();
    });
  });
}
