// What is kept on the device: saved by itself, brought out and in, and never lost without a word.

import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { newVisitor, openSite, SIZES, until, visit, withoutDatabase, withoutLocalStorage } from './page.mjs';

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

for (const size of SIZES) {
  describe(`shelf, ${size.name}`, () => {
    let visitor;
    let page;
    const open = async (t) => {
      ({ visitor, page } = await visit(t, site, { size }));
      await page.openGroup('Handle');
    };
    const setTilt = async (tab, tilt) => {
      await tab.typeValue('Tilt', tilt);
      await tab.untilFigure('Handle', `${tilt}`);
    };

    test('a change is kept by itself and is there after a reload', async (t) => {
      await open(t);
      await setTilt(page, '8.5');
      await page.untilSaved('8.5');
      await page.reload();
      await page.untilFigure('Handle', '8.5');
      assert.deepEqual(visitor.problems, []);
    });

    test('a change is kept even when the page is left at once', async (t) => {
      await open(t);
      await setTilt(page, '6.5');
      await page.reload();
      await page.untilFigure('Handle', '6.5');
      assert.deepEqual(visitor.problems, []);
    });

    test('with the network gone, a change is kept and the page loads again', async (t) => {
      const own = await openSite();
      t.after(own.close);
      const guest = await newVisitor(own, { size });
      const tab = await guest.newTab();
      await tab.untilKept();
      await own.loseNetwork();
      await tab.openGroup('Handle');
      await setTilt(tab, '8.5');
      await tab.untilSaved('8.5');
      await tab.reload();
      await tab.untilFigure('Handle', '8.5');
      assert.deepEqual(guest.problems, []);
    });

    test('a design goes out as a file and comes in again', async (t) => {
      await open(t);
      await setTilt(page, '9.5');
      await page.untilSaved('9.5');
      await page.goTo('Shelf');
      const [name] = await page.namesOnShelf();
      const file = await page.fileFrom(page.button(`Save to a file: ${name}`));
      assert.match(file.name, /\.skewline\.json$/);
      assert.equal(JSON.parse(file.text).format, 'skewline-design');

      const other = await newVisitor(site, { size });
      t.after(() => other.close());
      const elsewhere = await other.newTab();
      await elsewhere.goTo('Shelf');
      await elsewhere.bringIn(file.name, file.text);
      await elsewhere.notices().getByText('imported').waitFor();
      await elsewhere.untilSaved('9.5');
      const again = await elsewhere.fileFrom(elsewhere.button(`Save to a file: ${name}`).last());
      assert.ok(JSON.parse(again.text).design, 'it goes out again');
      assert.deepEqual([...visitor.problems, ...other.problems], []);
    });

    test('a whole shelf goes out as a backup and is dropped in again', async (t) => {
      await open(t);
      await page.goTo('Shelf');
      await page.button('Bored-end scoop').click();
      await page.goTo('Shelf');
      await until(async () => (await page.namesOnShelf()).length === 2, async () => 'the new design is on the shelf');
      const names = (await page.namesOnShelf()).sort();
      const backup = await page.fileFrom(page.button('Save a backup file'));
      assert.equal(JSON.parse(backup.text).format, 'skewline-shelf');

      const other = await newVisitor(site, { size });
      t.after(() => other.close());
      const elsewhere = await other.newTab();
      await elsewhere.goTo('Shelf');
      await elsewhere.drop(backup.name, backup.text);
      await elsewhere.notices().getByText('imported').waitFor();
      const there = await elsewhere.namesOnShelf();
      assert.ok(names.every((name) => there.includes(name)), `${names} are among ${there}`);
      assert.deepEqual([...visitor.problems, ...other.problems], []);
    });

    test('what printers measured goes along in a backup, and overwrites none', async (t) => {
      const known = async (tab) => JSON.parse((await tab.kept())['skewline:printers']).known;
      const details = (tab) => tab.tab.getByText('Does your printer keep its scale?');
      const measured = async (tab, printer, across, along) => {
        await tab.goTo('Steps');
        await details(tab).click();
        await tab.tab.getByLabel('Printer', { exact: true }).fill(printer);
        await tab.tab.getByLabel('Printer', { exact: true }).press('Enter');
        await tab.tab.getByLabel('Across measures').fill(across);
        await tab.tab.getByLabel('Along measures').fill(along);
        await tab.button('Correct by it').click();
        await tab.notices().getByText('Every print is corrected').waitFor();
      };
      await open(t);
      await measured(page, 'by the bench', '98.5', '101');
      await page.goTo('Shelf');
      const backup = await page.fileFrom(page.button('Save a backup file'));

      const [fresh, other] = [await newVisitor(site, { size }), await newVisitor(site, { size })];
      t.after(() => Promise.all([fresh.close(), other.close()]));
      const empty = await fresh.newTab();
      await empty.goTo('Steps');
      await empty.goTo('Shelf');
      await empty.bringIn(backup.name, backup.text);
      await empty.notices().getByText('measured on \u201cby the bench\u201d is imported').waitFor();
      await empty.goTo('Steps');
      await details(empty).click();
      assert.equal(await empty.tab.getByLabel('Printer', { exact: true }).inputValue(), 'by the bench');
      assert.equal(await empty.tab.getByLabel('Across measures').inputValue(), '98.5');
      await empty.button('US Letter').click();
      await until(async () => JSON.parse((await empty.kept())['skewline:printers']).letter, async () => 'the paper is kept');
      assert.deepEqual(await known(empty), [{ name: 'by the bench', across_mm: 98.5, along_mm: 101 }]);

      const full = await other.newTab();
      await measured(full, 'by the bench', '97', '100');
      await full.goTo('Shelf');
      await full.bringIn(backup.name, backup.text);
      await full.notices().getByText('what is known here stays in force').waitFor();
      assert.deepEqual(await known(full), [{ name: 'by the bench', across_mm: 97, along_mm: 100 }]);
      assert.deepEqual([...visitor.problems, ...fresh.problems, ...other.problems], []);
    });

    test('a file that is not one of ours is refused in a sentence', async (t) => {
      await open(t);
      await page.goTo('Shelf');
      await page.tab.getByRole('list', { name: 'Designs' }).getByRole('listitem').first().waitFor();
      const before = await page.namesOnShelf();
      for (const [name, text] of [['notes.json', '{"shopping": []}'], ['photo.json', '\u0000\u0001'], ['cut.json', '{"format"']]) {
        await page.bringIn(name, text);
        await page.notices().getByText(`“${name}” couldn’t be imported.`).waitFor();
      }
      assert.deepEqual(await page.namesOnShelf(), before);
      assert.deepEqual(visitor.problems, []);
    });

    test('rename, duplicate, and delete with a way back', async (t) => {
      await open(t);
      await page.goTo('Shelf');
      await page.button('Bored-end scoop').click();
      await page.goTo('Shelf');
      await page.button('Rename Bored-end scoop').click();
      await page.tab.getByRole('textbox', { name: 'New name' }).fill('Barley scoop');
      await page.tab.getByRole('textbox', { name: 'New name' }).press('Enter');
      await page.button('Duplicate Barley scoop').click();
      await until(async () => (await page.namesOnShelf()).filter((name) => name.startsWith('Barley scoop')).length === 2,
        async () => `the shelf shows ${await page.namesOnShelf()}`);
      const before = (await page.namesOnShelf()).sort();
      await page.button('Delete Barley scoop').click();
      await until(async () => (await page.namesOnShelf()).length === before.length - 1, async () => 'one is gone');
      await page.notices().getByRole('button', { name: 'Undo' }).click();
      await until(async () => (await page.namesOnShelf()).length === before.length, async () => 'it is back');
      assert.deepEqual((await page.namesOnShelf()).sort(), before);
      assert.deepEqual(visitor.problems, []);
    });

    test('a sentence with a button has room to be read', async (t) => {
      await open(t);
      await page.goTo('Shelf');
      const shop = { format: 'skewline-shop', version: 1, shop: { limits: { wall_mm: 2.5 } } };
      await page.bringIn('shop.json', JSON.stringify(shop));
      const notice = page.notices().getByRole('listitem').filter({ hasText: 'the settings of a shop' });
      const [whole, words, ...buttons] = await Promise.all([notice, notice.getByRole('paragraph'),
        notice.getByRole('button', { name: 'Use them' }), notice.getByRole('button', { name: 'Dismiss' })]
        .map((part) => part.boundingBox()));
      assert.ok(words.width >= Math.min(256, whole.width - 40), `${words.width} px for words in ${whole.width} px`);
      assert.equal(buttons[0].y + buttons[0].height / 2, buttons[1].y + buttons[1].height / 2, 'the buttons are side by side');
      buttons.forEach(({ width, height }) => assert.ok(width >= 44 && height >= 44, `${width} by ${height}`));
      assert.deepEqual(visitor.problems, []);
    });

    test('an empty shelf says so, what lies on the bench, and how to begin', async (t) => {
      await open(t);
      await page.untilSaved('skewline-design');
      await page.goTo('Shelf');
      const [name] = await page.namesOnShelf();
      assert.equal(await page.tab.getByText('No design is on the shelf').count(), 0);
      await page.button(`Delete ${name}`).click();
      await page.tab.getByText('No design is on the shelf').waitFor();
      await page.tab.getByText(`\u201c${name}\u201d still lies on the bench`).waitFor();
      assert.deepEqual(await page.accessibilityFaults(), []);
      await page.tab.getByText('Recently deleted (1)').click();
      await page.button('Bring back').click();
      await until(async () => (await page.namesOnShelf()).length === 1, async () => 'it is back');
      assert.equal(await page.tab.getByText('still lies on the bench').count(), 0);
      await page.button(`Delete ${name}`).click();
      await page.goTo('Design');
      await setTilt(page, '6.5');
      await page.goTo('Shelf');
      await until(async () => (await page.namesOnShelf()).join() === name, async () => `${await page.namesOnShelf()} is on the shelf`);
      assert.deepEqual(visitor.problems, []);
    });

    test('a damaged entry is set aside with its text, and the rest is there', async (t) => {
      await open(t);
      await setTilt(page, '5.5');
      await page.untilSaved('5.5');
      const damaged = '{"format":"skewline-design","version":1,"design":{"na';
      await page.plant('skewline/design/00000000000000000000000000000001', damaged);
      await page.reload();
      await page.untilFigure('Handle', '5.5');
      await page.goTo('Shelf');
      await page.tab.getByRole('heading', { name: 'Set aside' }).waitFor();
      const { text } = await page.fileFrom(page.button('Save its text to a file'));
      assert.equal(text, damaged);
      assert.ok(Object.values(await page.kept()).includes(damaged), 'the text itself is still kept');
      assert.deepEqual(visitor.problems, []);
    });

    test('an entry from a newer version is set aside, not changed', async (t) => {
      await open(t);
      const newer = '{"format":"skewline-design","version":999,"design":{"name":"From later on"}}';
      await page.plant('skewline/design/00000000000000000000000000000002', newer);
      await page.goTo('Shelf');
      await page.tab.getByText(/of version 999/).first().waitFor();
      assert.ok(Object.values(await page.kept()).includes(newer));
      assert.deepEqual(visitor.problems, []);
    });

    test('full storage is said, and the work can be saved to a file', async (t) => {
      ({ visitor, page } = await visit(t, site, { size, prepare: withoutDatabase }));
      await page.untilSaved('skewline-design');
      await page.fillStorage();
      await page.typeValue('Tilt', '4.25');
      await page.tab.getByRole('alert').filter({ hasText: 'storage is full' }).waitFor();
      await page.goTo('Shop');
      await page.button('Dark').click();
      const { text } = await page.fileFrom(page.button('Save it to a file'));
      assert.match(text, /4\.25/);
      await page.goTo('Steps');
      await page.button('US Letter').click();
      await page.notices().getByText('only known until the page is closed').waitFor();
      assert.deepEqual(visitor.problems, []);
    });

    test('blocked storage is said, and the work can be saved to a file', async (t) => {
      visitor = await newVisitor(site, { size });
      t.after(() => visitor.close());
      await withoutDatabase(visitor);
      await withoutLocalStorage(visitor);
      page = await visitor.newTab();
      await page.openGroup('Handle');
      await page.typeValue('Tilt', '4.25');
      const { text } = await page.fileFrom(page.button('Save it to a file'));
      assert.match(text, /4\.25/);
      assert.deepEqual(visitor.problems, []);
    });

    test('storage that is there but does not answer is said, and the page goes on', async (t) => {
      visitor = await newVisitor(site, { size });
      t.after(() => visitor.close());
      await withoutDatabase(visitor);
      await visitor.context.addInitScript(() => {
        for (const name of ['getItem', 'setItem', 'removeItem', 'key']) {
          Storage.prototype[name] = () => { throw new DOMException('The file is damaged.', 'UnknownError'); };
        }
      });
      page = await visitor.newTab();
      await page.goTo('Shop');
      await page.button('Dark').click();
      await page.goTo('Design');
      await page.openGroup('Handle');
      await page.typeValue('Tilt', '4.25');
      const { text } = await page.fileFrom(page.button('Save it to a file'));
      assert.match(text, /4\.25/);
      assert.deepEqual(visitor.problems, []);
    });

    test('a second tab shows what the first one saved', async (t) => {
      await open(t);
      await page.untilSaved('skewline-design');
      const second = await visitor.newTab();
      await setTilt(page, '6.5');
      await second.untilFigure('Handle', '6.5');
      assert.deepEqual(visitor.problems, []);
    });

    test('two tabs that change one design keep both', async (t) => {
      await open(t);
      await page.untilSaved('skewline-design');
      const second = await visitor.newTab();
      // What is typed in the second tab is not saved before the first has saved its own.
      const release = await second.holdSaving();
      await second.openGroup('Handle');
      await second.typeValue('Tilt', '8.75');
      await page.typeValue('Tilt', '6.25');
      await page.untilSaved('6.25');
      await release();
      await page.untilSaved('8.75');
      await page.goTo('Shelf');
      assert.equal((await page.namesOnShelf()).length, 2);
      assert.deepEqual(visitor.problems, []);
    });
  });
}
