// A first visit on which a file of the program does not arrive: within 15 seconds the page says so in words, and one tap
// goes on once the file can be had.

import assert from 'node:assert/strict';
import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { newVisitor, openSite } from './page.mjs';
import { filesUnder } from './site/files.mjs';

const WITHIN_MS = 15_000;
const FAULTS = ['missing', 'error', 'cut', 'hang'];
const FILES = [
  ['the script', /^program-[^/]+\/skewline\.js$/],
  ['the program', /skewline_bg\.wasm$/],
  ['the style sheet', /^style-.*\.css$/, ['hang']],
];
const LATER = /split_later\.wasm$/;
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

for (const fault of FAULTS) {
  test(`the later file does not arrive (${fault}): the page says so`, { skip: !isSplit }, async (t) => {
    const faults = new Map([[LATER, fault]]);
    const { tab } = await firstVisit(t, faults);
    await tab.getByText('A part of Skewline could not be fetched.').waitFor({ timeout: WITHIN_MS });
  });
}

test('a host that is updated between the two files: the page loads the newer build by itself', { skip: !isSplit }, async (t) => {
  const faults = new Map([[LATER, 'missing']]);
  const newer = await mkdtemp(join(tmpdir(), 'skewline-newer-'));
  t.after(() => rm(newer, { recursive: true }));
  await cp('dist', newer, { recursive: true });
  const page = await readFile(join(newer, 'index.html'), 'utf8');
  const changed = page.replaceAll(/program-[0-9a-f]{16}/g, 'program-0000000000000000').replace('<title>Skewline</title>', '<title>Newer</title>');
  await writeFile(join(newer, 'index.html'), changed);
  const { tab, site } = await firstVisit(t, faults, 'commit');
  await tab.locator('.app').waitFor();
  site.replaceWith(newer);
  await tab.waitForFunction(() => document.title === 'Newer', undefined, { timeout: WITHIN_MS });
});

async function firstVisit(t, faults, waitUntil = 'commit') {
  const site = await openSite('dist', { faults });
  t.after(site.close);
  const visitor = await newVisitor(site);
  const tab = await visitor.context.newPage();
  await tab.goto(site.address, { waitUntil });
  assert.ok(tab.url().startsWith(site.address));
  return { site, tab };
}
