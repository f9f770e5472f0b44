// The copy on the device, damaged in every way that storage gets damaged: it mends itself where there is a network, and
// where there is none the page says what is wrong.

import assert from 'node:assert/strict';
import { cp, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { newVisitor, openSite, until } from './page.mjs';

const FILE_KINDS = [['program', '_bg.wasm'], ['script', 'skewline.js'], ['style sheet', '.css'], ['page', '/']];

for (const [name, ending] of FILE_KINDS) {
  for (const [how, harm] of [['damaged', damage], ['cut short', cutShort], ['deleted', forget]]) {
    test(`the ${name} in the copy is ${how}: the next visit mends it`, async (t) => {
      const { visitor, page } = await keptCopy(t);
      await page.tab.evaluate(harm, ending);
      await page.reload();
      await untilWhole(page);
      assert.deepEqual(visitor.problems, []);
    });
  }
}

test('the whole copy is deleted: the next visit fills it again, and the one after needs no network', async (t) => {
  const { site, page, whole } = await keptCopy(t);
  await page.tab.evaluate(async () => { for (const name of await caches.keys()) await caches.delete(name); });
  await page.reload();
  await until(async () => (await namesKept(page)).length === whole, () => 'the copy is not whole again');
  await site.loseNetwork();
  await page.reload();
});

test('the browser denies its cache: the network answers', async (t) => {
  const { visitor, page } = await keptCopy(t);
  const [worker] = visitor.context.serviceWorkers();
  await worker.evaluate(() => { caches.open = () => Promise.reject(new DOMException('denied', 'SecurityError')); });
  await page.reload();
  assert.deepEqual(visitor.problems.filter((it) => !it.includes('cannot be read')), []);
});

test('the program in the copy is damaged and the network is gone: the page says so, and mends itself later', async (t) => {
  const { site, page } = await keptCopy(t);
  await page.tab.evaluate(damage, '_bg.wasm');
  await page.tab.route('**/*_bg.wasm', (route) => route.abort());
  await visitorOffline(page, true);
  await page.tab.reload();
  await page.tab.getByText('A part of Skewline has not arrived.').waitFor();
  await visitorOffline(page, false);
  await page.tab.unroute('**/*_bg.wasm');
  await page.tab.getByRole('link', { name: 'Try again' }).click();
  await page.untilReady();
  assert.ok(site);
});

test('the page in the copy is damaged and the network is gone: the worker says so in words', async (t) => {
  const { page } = await keptCopy(t);
  await page.tab.evaluate(damage, '/');
  await visitorOffline(page, true);
  await page.tab.reload();
  await page.tab.getByText('The copy of Skewline on this device is damaged').waitFor();
  await visitorOffline(page, false);
  await page.tab.getByRole('link', { name: 'try again' }).click();
  await page.untilReady();
});

test('Help says how many files the copy lacks', async (t) => {
  const { page } = await keptCopy(t);
  await page.goTo('Help');
  await page.tab.getByText('Everything works without a network.').waitFor();
  await page.goTo('Design');
  await page.tab.evaluate(forget, 'icon-512.png');
  await visitorOffline(page, true);
  await page.goTo('Help');
  await page.tab.getByText('lacks 1 of its files').waitFor();
  await visitorOffline(page, false);
});

test('two copies under two paths of one host keep their files apart', async (t) => {
  const host = await mkdtemp(join(tmpdir(), 'skewline-host-'));
  t.after(() => rm(host, { recursive: true }));
  for (const name of ['one', 'two']) await cp('dist', join(host, name), { recursive: true });
  const site = await openSite(host);
  t.after(site.close);
  const visitor = await newVisitor(site);
  const tab = await visitor.context.newPage();
  for (const name of ['one', 'two']) {
    await tab.goto(`${site.address}${name}/`);
    await tab.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  }
  await until(async () => (await tab.evaluate(() => caches.keys())).length === 2, () => 'there are not two copies');
  await site.loseNetwork();
  for (const name of ['one', 'two']) {
    await tab.goto(`${site.address}${name}/`);
    await tab.locator('#loading').waitFor({ state: 'detached' });
  }
});

async function keptCopy(t) {
  const site = await openSite();
  t.after(site.close);
  const visitor = await newVisitor(site);
  const page = await visitor.newTab();
  await page.untilKept();
  // From now on the worker answers.
  await page.reload();
  return { site, visitor, page, whole: (await namesKept(page)).length };
}

function namesKept(page) {
  return page.tab.evaluate(async () => {
    const names = await caches.keys();
    const caught = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()));
    return caught.flat().map(({ url }) => url);
  });
}

async function untilWhole(page) {
  const missing = () => page.tab.evaluate(() => new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }) => resolve(data.missing);
    navigator.serviceWorker.controller.postMessage({ type: 'how-whole' }, [port2]);
  }));
  await until(async () => (await missing()) === 0, async () => `the copy lacks ${await missing()} files`);
}

/** The network is gone for the page and for its worker. */
async function visitorOffline(page, offline) {
  await page.tab.context().setOffline(offline);
}

// --- These run in the page ---------------------------------------------------------------------------------

async function damage(ending) {
  for (const name of await caches.keys()) {
    const cache = await caches.open(name);
    for (const request of await cache.keys()) {
      if (!request.url.endsWith(ending)) continue;
      const response = await cache.match(request);
      const content = new Uint8Array(await response.arrayBuffer());
      content[content.length >> 1] ^= 0x55;
      await cache.put(request, new Response(content, { headers: response.headers }));
    }
  }
}

async function cutShort(ending) {
  for (const name of await caches.keys()) {
    const cache = await caches.open(name);
    for (const request of await cache.keys()) {
      if (!request.url.endsWith(ending)) continue;
      const response = await cache.match(request);
      const content = await response.arrayBuffer();
      await cache.put(request, new Response(content.slice(0, content.byteLength >> 1), { headers: response.headers }));
    }
  }
}

async function forget(ending) {
  for (const name of await caches.keys()) {
    const cache = await caches.open(name);
    for (const request of await cache.keys()) if (request.url.endsWith(ending)) await cache.delete(request);
  }
}
