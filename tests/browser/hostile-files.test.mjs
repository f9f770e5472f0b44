// Files and stored texts that nobody should have made: each is answered in a sentence within a second, changes nothing of
// what is kept, and runs nothing.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { newVisitor, openSite, until } from './page.mjs';

/** How long a page may take to answer a file, in milliseconds. */
const ANSWER_MS = 1000;
const SCRIPT = '<img src=x onerror="window.ran = true"><script>window.ran = true</script>';
/** Letters that run from right to left, a mark that turns the order around, and one that joins. */
const TURNED = '\u202egnirpS \u05d0\u05d1\u05d2 \u0627\u0628\u062a\u200d\u2066';

let site;
let visitor;
let page;
let sound;
before(async () => {
  site = await openSite();
  visitor = await newVisitor(site);
  page = await visitor.newTab();
  await page.untilSaved('skewline-design');
  await page.goTo('Shelf');
  const [name] = await page.namesOnShelf();
  sound = (await page.fileFrom(page.button(`Save to a file: ${name}`))).text;
});
after(() => site.close());

/** The sound file with some of its text replaced. */
const changed = (from, to) => {
  assert.ok(sound.includes(from), from);
  return sound.replace(from, () => to);
};
const numbered = (number) => changed('"tilt_deg": 7.5', `"tilt_deg": ${number}`);

const REFUSED = {
  'an empty file': () => '',
  'truncated JSON': () => sound.slice(0, sound.length / 2),
  'a file of another kind': () => '{"format":"recipe","version":1}',
  'a page in place of a file': () => '<!doctype html><title>Sign in to the network</title>',
  'a future version': () => changed('"version": 2', '"version": 3'),
  'a version that is no number': () => changed('"version": 2', '"version": "2"'),
  'an unknown field': () => changed('"contents"', '"laser": true, "contents"'),
  'a field twice': () => changed('"tilt_deg": 7.5', '"tilt_deg": 7.5, "tilt_deg": 8'),
  'a huge number': () => numbered('1e308'),
  'a number past every number': () => numbered('1e999'),
  'NaN': () => numbered('NaN'),
  'a text for a number': () => numbered('"7.5"'),
  'a name of ten thousand letters': () => changed('"name": "', `"name": "${'x'.repeat(10_000)}`),
  'ten thousand brackets': () => '['.repeat(10_000),
  'ten thousand axes': () => changed('"axes": [', `"axes": [${'{"tilt":{"tilt_deg":1,"toward_deg":0,"crossing_mm":9}},'.repeat(10_000)}`),
  'a zip by another name': () => Buffer.concat([Buffer.from('PK\x03\x04\x14\0\0\0'), Buffer.alloc(4000, 0x8b)]),
  'binary rubbish of 2 MB': () => Buffer.from(Array.from({ length: 2_000_000 }, (_, i) => (i * 2_654_435_761 >>> 16) & 255)),
  'two megabytes of JSON that is not ours': () => JSON.stringify(Array.from({ length: 200_000 }, (_, i) => ({ i }))),
};

for (const [what, make] of Object.entries(REFUSED)) {
  test(`${what}: refused in a sentence within a second, and nothing is changed`, async () => {
    const content = Buffer.from(make());
    const before = await designs();
    await putAway();
    const took = await bringIn('hostile.json', content);
    const words = await page.notices().innerText();
    assert.ok(took < ANSWER_MS, `${took} ms`);
    assert.ok(words.length < 3000, `${words.length} letters`);
    assert.match(words, /[A-Z].*\./s);
    assert.deepEqual(await designs(), before);
    assert.deepEqual(visitor.problems, []);
  });
}

for (const [what, name] of [['a script', SCRIPT], ['letters that turn the order around', TURNED], ['a name like a field of every object', '__proto__']]) {
  test(`${what} as a name: shown as it is, and nothing runs`, async () => {
    const text = JSON.stringify({ ...JSON.parse(sound), design: { ...JSON.parse(sound).design, name } });
    await putAway();
    await bringIn('named.json', Buffer.from(text));
    await until(async () => (await page.tab.getByRole('list', { name: 'Designs' }).getByRole('heading').evaluateAll((all) => all.map((it) => it.textContent)))
      .includes(name), async () => `${await page.namesOnShelf()}`);
    assert.equal(await page.tab.evaluate(() => window.ran), undefined);
    assert.deepEqual(visitor.problems, []);
  });
}

test('one file brought in twenty times in a row: it is on the shelf once', async () => {
  const text = changed('"name": "', '"name": "Again ');
  for (let time = 0; time < 20; time += 1) await page.bringIn('again.json', text);
  await until(async () => (await page.namesOnShelf()).some((name) => name.startsWith('Again')), () => 'it is not there');
  await page.untilSettled();
  assert.equal((await page.namesOnShelf()).filter((name) => name.startsWith('Again')).length, 1);
  assert.deepEqual(visitor.problems, []);
});

const STORED = ['', '{', 'null', '[]', '\u0000\uffff', '{"format":"skewline-design","version":999}', 'x'.repeat(100_000)];

test('stored texts of every kind that cannot be read: the page opens, and each stays as it is', async (t) => {
  const other = await newVisitor(site);
  t.after(() => other.close());
  const fresh = await other.newTab();
  await fresh.untilSaved('skewline-design');
  const planted = new Map(STORED.map((text, number) => [`skewline/design/planted${number}`, text]));
  for (const [key, text] of planted) await fresh.plant(key, text);
  for (const key of ['skewline/history/planted0', 'skewline/trash/planted0', 'skewline:printers', 'skewline/sequence']) await fresh.plant(key, '{[');
  await fresh.tab.goto('about:blank');
  await fresh.open();
  await fresh.goTo('Shelf');
  await fresh.goTo('Steps');
  await fresh.goTo('Design');
  await fresh.untilFigured();
  const kept = await fresh.kept();
  for (const [key, text] of planted) assert.equal(kept[key], text, key);
  assert.deepEqual(other.problems, []);
});

test('the clock is set back ten years: what was saved before is there, and changes are kept', async (t) => {
  const other = await newVisitor(site);
  t.after(() => other.close());
  const fresh = await other.newTab();
  await fresh.openGroup('Handle');
  await fresh.typeValue('Tilt', '8.5');
  await fresh.untilSaved('"tilt_deg":8.5');
  await other.context.addInitScript(() => {
    const now = Date.now.bind(Date);
    Date.now = () => now() - 10 * 365.25 * 86_400_000;
  });
  await fresh.reload();
  await fresh.openGroup('Handle');
  assert.equal(await fresh.entry('Tilt').inputValue(), '8.5');
  await fresh.typeValue('Tilt', '6.5');
  await fresh.untilSaved('"tilt_deg":6.5');
  assert.deepEqual(other.problems, []);
});

test('the service worker is taken off and its files are deleted: the next visit is whole', async (t) => {
  const other = await newVisitor(site);
  t.after(() => other.close());
  const fresh = await other.newTab();
  await fresh.untilKept();
  await fresh.tab.evaluate(async () => {
    for (const registration of await navigator.serviceWorker.getRegistrations()) await registration.unregister();
    for (const name of await caches.keys()) await caches.delete(name);
  });
  await fresh.reload();
  await fresh.untilKept();
  assert.deepEqual(other.problems, []);
});

test('the browser has no network at the first visit and gets one later: the visit after is whole', async (t) => {
  const other = await newVisitor(site);
  t.after(() => other.close());
  await other.context.setOffline(true);
  const fresh = await other.newEmptyTab();
  await assert.rejects(fresh.tab.goto(site.address));
  await other.context.setOffline(false);
  await fresh.open();
});

async function designs() {
  return Object.fromEntries(Object.entries(await page.kept()).filter(([key]) => key.startsWith('skewline/design/')));
}

async function putAway() {
  const buttons = page.notices().getByRole('button', { name: 'Dismiss' });
  while (await buttons.count() > 0) await buttons.first().click();
}

/** Brings a file in, and answers how long the page took to say what came of it, in ms as the page counts them. */
async function bringIn(name, buffer) {
  await page.tab.evaluate(() => {
    const input = document.querySelector('input[type=file]');
    const notices = document.querySelector('.notices');
    window.answered = new Promise((resolve) => {
      let from;
      input.addEventListener('change', () => { from = performance.now(); }, { once: true, capture: true });
      new MutationObserver(() => notices.innerText && resolve(performance.now() - from)).observe(notices, { childList: true, subtree: true });
    });
  });
  await page.tab.getByLabel('File to import').setInputFiles({ name, mimeType: 'application/json', buffer });
  return page.tab.evaluate(() => window.answered);
}
