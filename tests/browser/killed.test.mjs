// The browser is killed, as phones do to pages they have no room for and as power cuts do to everything: what had been
// changed half a second before is kept. A real process with a real profile, killed for real.

import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { chromium } from 'playwright-core';
import { ARGUMENTS } from './chromium.mjs';
import { SkewlinePage, WIDE, until } from './page.mjs';
import { serve } from '../../site/server.mjs';

/** How long after the edit the browser is killed, in milliseconds. */
const AFTER_MS = 500;
/** How often: more in a run of its own (KILLS=20). */
const KILLS = Number(process.env.KILLS ?? 3);

test(`an edit made ${AFTER_MS} ms before the browser is killed is kept, ${KILLS} times of ${KILLS}`, async (t) => {
  const { profile, site } = await visit(t);
  let wanted = null;
  for (let kill = 0; kill < KILLS; kill += 1) {
    const device = await startDevice(t, profile);
    const page = await openPage(device, site.address);
    if (wanted !== null) assert.equal(await page.entry('Tilt').inputValue(), wanted, `after kill ${kill}`);
    // A first visit keeps things from when the example itself is kept.
    else await page.untilSaved('skewline-design');
    wanted = `${7 + (kill % 4)}.${1 + kill % 8}`;
    await page.typeValue('Tilt', wanted);
    // From when the page has shown the change: on a busy machine the keys take their time to arrive.
    await page.nextFrame();
    await new Promise((resolve) => { setTimeout(resolve, AFTER_MS); });
    await device.kill();
  }
  const device = await startDevice(t, profile);
  const page = await openPage(device, site.address);
  assert.equal(await page.entry('Tilt').inputValue(), wanted);
});

/** The page, served, and a place for a browser's profile. */
async function visit(t) {
  const site = await serve({ folder: 'dist' });
  const profile = await mkdtemp(join(tmpdir(), 'skewline-profile-'));
  t.after(() => rm(profile, { recursive: true, force: true, maxRetries: 5 }));
  t.after(site.close);
  return { profile, site };
}

test('designs come back from the second copy when the browser has lost its local storage', async (t) => {
  const { profile, site } = await visit(t);
  const device = await startDevice(t, profile);
  const page = await openPage(device, site.address);
  await page.typeValue('Tilt', '8.5');
  await page.untilSaved('"tilt_deg":8.5');
  // The second copy is written after the first.
  await until(() => page.tab.evaluate(isInSecondCopy), () => 'the second copy lacks the change');
  // The page would save again as it hides.
  await page.tab.evaluate(() => { Storage.prototype.setItem = () => {}; localStorage.clear(); });
  await page.tab.goto('about:blank');
  await page.tab.goto(site.address);
  await page.untilReady();
  await page.tab.getByText('It is back from the second copy').waitFor();
  assert.equal(await page.entry('Tilt').inputValue(), '8.5');
});

/** Runs in the page: whether the database has the tilt of the test. */
async function isInSecondCopy() {
  const answer = (request) => new Promise((resolve) => { request.onsuccess = () => resolve(request.result); });
  for (const { name } of await indexedDB.databases()) {
    const database = await answer(indexedDB.open(name));
    const stores = [...database.objectStoreNames].map((store) => answer(database.transaction(store).objectStore(store).getAll()));
    const texts = JSON.stringify(await Promise.all(stores));
    database.close();
    if (/tilt_deg\\*":8\.5/.test(texts)) return true;
  }
  return false;
}

async function openPage(device, address) {
  const [context] = device.browser.contexts();
  const tab = await context.newPage();
  const page = new SkewlinePage(tab, address, WIDE);
  await tab.setViewportSize({ width: WIDE.width, height: WIDE.height });
  await page.open();
  return page;
}

/** A browser with a profile on disk; at the end of the test it is gone, however that ends. */
async function startDevice(t, profile) {
  const command = process.env.CHROMIUM ?? '/usr/bin/chromium';
  const portFile = join(profile, 'DevToolsActivePort');
  await rm(portFile, { force: true });
  const child = spawn(command, [...ARGUMENTS, '--headless', `--user-data-dir=${profile}`, '--remote-debugging-port=0'], {
    detached: true, stdio: 'ignore',
  });
  const gone = new Promise((resolve) => { child.once('exit', resolve); });
  const kill = async () => {
    if (child.exitCode === null && child.signalCode === null) process.kill(-child.pid, 'SIGKILL');
    await gone;
  };
  t.after(kill);
  const port = async () => (await readFile(portFile, 'utf8').catch(() => '')).split('\n')[0];
  await until(port, () => 'the browser did not start', { within: 30_000 });
  const browser = await chromium.connectOverCDP(`http://127.0.0.1:${await port()}`);
  return { browser, kill };
}
