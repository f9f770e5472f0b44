// A visit on which a file of the program does not arrive: within 15 seconds the page says so in words, one tap goes on once
// the file can be had, and until then what is changed is kept and everything can be saved to a file.

import assert from 'node:assert/strict';
import { cp, mkdtemp, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { newVisitor, openSite, until } from './page.mjs';
import { filesUnder } from '../../site/files.mjs';

const WITHIN_MS = 15_000;
const FAULTS = ['missing', 'error', 'cut', 'hang'];
const PROGRAM = /skewline_bg\.wasm$/;
const FILES = [
  ['the script', /^program-[^/]+\/skewline\.js$/],
  ['the program', PROGRAM],
  ['the style sheet', /^style-.*\.css$/, ['missing', 'error', 'hang']],
];
const LATER = /split_later\.wasm$/;
const LATE = 'A part of Skewline could not be fetched.';
const EVERYTHING = 'Save everything kept here to a file';
// A quick build is in one file.
const isSplit = (await filesUnder('dist')).some((name) => LATER.test(name));

for (const [name, pattern, kinds = FAULTS] of FILES) {
  for (const fault of kinds) {
    test(`${name} does not arrive (${fault}): the page says so and goes on when asked`, async (t) => {
      const faults = new Map([[pattern, fault]]);
      const { tab } = await firstVisit(t, faults);
      await tab.getByText('A part of Skewline has not arrived.').waitFor({ timeout: WITHIN_MS });
      faults.clear();
      await tab.getByRole('link', { name: 'Try again' }).click();
      await tab.locator('#loading').waitFor({ state: 'detached' });
      await tab.getByRole('main').waitFor();
    });
  }
}

test('the program does not arrive on a later visit: everything kept can be saved to a file and brought in again', async (t) => {
  const faults = new Map();
  const { page } = await visitWithWork(t, faults);
  faults.set(PROGRAM, 'missing');
  await forgetFiles(page);
  await page.tab.reload({ waitUntil: 'commit' });
  await page.tab.getByText('A part of Skewline has not arrived.').waitFor({ timeout: WITHIN_MS });
  const { text } = await page.fileFrom(page.button(EVERYTHING));
  faults.clear();
  await bringsBackTheWork(page, text);
});

for (const fault of FAULTS) {
  test(`the later file does not arrive (${fault}): the page says so, keeps what is changed and goes on when asked`, { skip: !isSplit }, async (t) => {
    const faults = new Map([[LATER, fault]]);
    const { tab, page } = await firstVisit(t, faults);
    await tab.getByText(LATE).waitFor({ timeout: WITHIN_MS });
    await page.openGroup('Handle');
    await page.typeValue('Tilt', '8.5');
    await page.untilSaved('"tilt_deg":8.5');
    const { text } = await page.fileFrom(tab.getByRole('link', { name: 'Save the design to a file' }));
    assert.equal(JSON.parse(text).design.axes[0].tilt.tilt_deg, 8.5);
    faults.clear();
    await page.button('Try again').click();
    await tab.getByText(LATE).waitFor({ state: 'detached' });
    await page.untilReady();
    await page.goTo('Shelf');
    await until(async () => (await page.namesOnShelf()).length === 1, async () => `${await page.namesOnShelf()} on the shelf`);
    await page.goTo('Design');
    await page.openGroup('Handle');
    assert.equal(await page.entry('Tilt').inputValue(), '8.5');
  });
}

test('the later file is missing and nothing can be stored: the page says so and offers the file', { skip: !isSplit }, async (t) => {
  const faults = new Map([[LATER, 'missing']]);
  const { tab, page } = await firstVisit(t, faults, async (context) => {
    await context.addInitScript(() => { Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); }; });
  });
  await tab.getByText(LATE).waitFor({ timeout: WITHIN_MS });
  await page.openGroup('Handle');
  await page.typeValue('Tilt', '8.5');
  await tab.getByText('This browser does not keep what you change').waitFor();
  const { text } = await page.fileFrom(tab.getByRole('link', { name: 'Save the design to a file' }));
  assert.equal(JSON.parse(text).design.axes[0].tilt.tilt_deg, 8.5);
});

test('the later file does not arrive on a later visit: everything kept can be saved to a file and brought in again', { skip: !isSplit }, async (t) => {
  const faults = new Map();
  const { page } = await visitWithWork(t, faults);
  faults.set(LATER, 'missing');
  await forgetFiles(page);
  await page.tab.reload({ waitUntil: 'commit' });
  await page.tab.getByText(LATE).waitFor({ timeout: WITHIN_MS });
  const { text } = await page.fileFrom(page.button(EVERYTHING));
  faults.clear();
  await bringsBackTheWork(page, text);
});

for (const [what, edits] of [['with what was changed', true], ['with nothing changed yet', false]]) {
  test(`a host that is updated between the two files: the page loads the newer build by itself, ${what}`, { skip: !isSplit }, async (t) => {
    const newer = await newerBuild();
    t.after(() => rm(newer, { recursive: true }));
    let letGo;
    const held = new Promise((resolve) => { letGo = resolve; });
    const { tab, page, site } = await firstVisit(t, new Map(), (context) => context.route(LATER, async (route) => {
      await held;
      await route.continue();
    }));
    await tab.locator('.app').waitFor();
    if (edits) {
      await page.openGroup('Handle');
      await page.typeValue('Tilt', '8.5');
      await page.untilSaved('"tilt_deg":8.5');
    }
    site.replaceWith(newer);
    letGo();
    await tab.waitForFunction(() => document.title === 'Newer', undefined, { timeout: WITHIN_MS });
    await page.untilReady();
    await page.openGroup('Handle');
    assert.equal(await page.entry('Tilt').inputValue(), edits ? '8.5' : '7.5');
  });
}

/** A build whose program has another address. */
async function newerBuild() {
  const newer = await mkdtemp(join(tmpdir(), 'skewline-newer-'));
  await cp('dist', newer, { recursive: true });
  const index = await readFile(join(newer, 'index.html'), 'utf8');
  const [old] = index.match(/program-[0-9a-f]{16}/);
  const other = 'program-0000000000000000';
  await rename(join(newer, old), join(newer, other));
  const changed = index.replaceAll(old, other).replace('<title>Skewline</title>', '<title>Newer</title>');
  // The script that names the program has another hash now; this test has no need of the policy.
  await writeFile(join(newer, 'index.html'), changed.replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, ''));
  return newer;
}

/** The browser forgets every file it has fetched, as it does when it needs the room. */
async function forgetFiles(page) {
  const session = await page.tab.context().newCDPSession(page.tab);
  await session.send('Network.clearBrowserCache');
}

async function firstVisit(t, faults, prepare = async () => {}) {
  const site = await openSite('dist', { faults });
  t.after(site.close);
  const visitor = await newVisitor(site, { workers: false });
  await prepare(visitor.context);
  const page = await visitor.newEmptyTab();
  await page.tab.goto(site.address, { waitUntil: 'commit' });
  return { site, tab: page.tab, page };
}

/** Two designs and a shop are kept, and the page has no copy of itself. */
async function visitWithWork(t, faults) {
  const site = await openSite('dist', { faults });
  t.after(site.close);
  const visitor = await newVisitor(site, { workers: false });
  const page = await visitor.newTab();
  await page.openGroup('Handle');
  await page.typeValue('Tilt', '8.5');
  await page.untilSaved('"tilt_deg":8.5');
  await page.goTo('Shelf');
  await page.tab.getByRole('button', { name: /^Duplicate/ }).first().click();
  await until(async () => (await page.namesOnShelf()).length === 2, () => 'there is no copy');
  await page.goTo('Shop');
  await page.typeValue('Swing over the bed', '310');
  await page.untilSettled();
  return { page };
}

/** The file of everything is one that a browser with nothing in it takes in whole. */
async function bringsBackTheWork(page, text) {
  const { shop, set_aside: texts } = JSON.parse(text);
  assert.equal(texts.length, 2);
  assert.equal(shop.lathe.swing_over_bed_mm, 310);
  await page.tab.evaluate(async () => {
    Storage.prototype.setItem = () => {};
    localStorage.clear();
    for (const { name } of await indexedDB.databases()) indexedDB.deleteDatabase(name);
  });
  await page.tab.goto('about:blank');
  await page.open();
  await page.goTo('Shelf');
  await page.bringIn('everything.json', text);
  await until(async () => (await page.namesOnShelf()).length >= 2, async () => `${await page.namesOnShelf()} on the shelf`);
  await page.untilSaved('"tilt_deg":8.5');
}
