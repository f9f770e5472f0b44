// After one visit everything works with the network gone, and a newer build waits for a word from the user.

import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { newVisitor, openSite, SIZES } from './page.mjs';
import { filesUnder } from '../../site/files.mjs';

for (const size of SIZES) {
  test(`works without a network after one visit, ${size.name}`, async (t) => {
    const site = await openSite();
    t.after(site.close);
    const visitor = await newVisitor(site, { size });
    const page = await visitor.newTab();
    await page.untilKept();
    await site.loseNetwork();
    await page.reload();
    assert.deepEqual(visitor.problems, []);
    await (await visitor.newTab()).reload();
    assert.deepEqual(visitor.problems, []);
  });
}

test('keeps every built file on the device', async (t) => {
  const site = await openSite();
  t.after(site.close);
  const visitor = await newVisitor(site);
  const page = await visitor.newTab();
  await page.untilKept();
  const kept = await page.tab.evaluate(async () => {
    const [name] = await caches.keys();
    return (await (await caches.open(name)).keys()).map(({ url }) => url);
  });
  const built = (await filesUnder('dist'))
    .filter((name) => name !== 'sw.js')
    .map((name) => site.address + (name === 'index.html' ? '' : name));
  assert.deepEqual(kept.sort(), built.sort());
});

test('a newer build waits to be asked, then takes over and clears the older one away', async (t) => {
  const site = await openSite();
  t.after(site.close);
  const newer = await newerBuild();
  t.after(() => rm(newer, { recursive: true }));
  const visitor = await newVisitor(site);
  const page = await visitor.newTab();
  await page.untilKept();

  site.replaceWith(newer);
  await page.reload();
  const takeOver = page.tab.getByRole('button', { name: 'Use the new version' });
  await takeOver.waitFor();
  assert.equal(await page.tab.title(), 'Skewline', 'the older build goes on until asked');

  await takeOver.click();
  await page.tab.waitForFunction(() => document.title === 'Skewline, newer');
  await page.untilReady();
  assert.equal(await takeOver.count(), 0);
  assert.equal((await page.tab.evaluate(() => caches.keys())).length, 1);
  assert.deepEqual(visitor.problems, []);
});

test('a half-updated host is not taken for a newer build', async (t) => {
  const site = await openSite();
  t.after(site.close);
  const newer = await newerBuild();
  t.after(() => rm(newer, { recursive: true }));
  await writeFile(join(newer, 'index.html'), 'half an update');
  const visitor = await newVisitor(site);
  const page = await visitor.newTab();
  await page.untilKept();

  site.replaceWith(newer);
  const failed = page.tab.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    const found = new Promise((resolve) => {
      registration.addEventListener('updatefound', () => resolve(registration.installing), { once: true });
    });
    await registration.update();
    const worker = await found;
    if (worker.state !== 'redundant') {
      await new Promise((resolve) => {
        worker.addEventListener('statechange', () => worker.state === 'redundant' && resolve());
      });
    }
    return registration.waiting === null;
  });
  assert.equal(await failed, true);
  await page.reload();
  assert.equal(await page.tab.title(), 'Skewline');
});

/** A copy of the built page whose title and build name differ. */
async function newerBuild() {
  const folder = await mkdtemp(join(tmpdir(), 'skewline-newer-'));
  await cp('dist', folder, { recursive: true });
  const [index, worker] = ['index.html', 'sw.js'].map((name) => join(folder, name));
  const page = await readFile(index, 'utf8');
  const newer = page.replace('<title>Skewline</title>', '<title>Skewline, newer</title>');
  assert.notEqual(newer, page);
  await writeFile(index, newer);
  const script = await readFile(worker, 'utf8');
  const changed = script
    .replace(hash(page), hash(newer))
    .replace(/(BUILD\s*=\s*['"`])/, '$1newer-');
  assert.ok(changed.includes(hash(newer)) && changed.includes('newer-'));
  await writeFile(worker, changed);
  return folder;
}

function hash(text) {
  return `sha256-${createHash('sha256').update(text).digest('base64')}`;
}
