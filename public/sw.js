// Keeps a whole copy of Skewline on the device, so that everything works with the network gone.
//
// One build is one cache. A new build is fetched beside the old one and waits until the page says
// `{ type: 'take-over' }`: the program never changes under someone's hands. Whatever is served from the copy is checked
// against the hash that the build noted; what is missing or damaged comes from the network and is kept again.

// Both filled in by the build: a name for this build, and every file with the hash of its content.
const BUILD = '{{build}}';
const FILES = {/* files */};

// Two copies of Skewline under two paths of one host do not share a cache. A path has no space in it.
const PREFIX = `skewline ${new URL(self.registration.scope).pathname} `;
const CACHE = PREFIX + BUILD;
const SHELL = './';
// How caches were named before their names had a path in them.
const WITHOUT_PATH = /^skewline-[0-9a-z-]+$/;

self.addEventListener('install', (event) => event.waitUntil(keepEveryFile()));
self.addEventListener('activate', (event) => event.waitUntil(dropOlderBuilds()));

self.addEventListener('message', (event) => {
  const { type } = event.data ?? {};
  if (type === 'take-over') self.skipWaiting();
  if (type === 'how-whole') event.waitUntil(reportMissing(event.ports[0]));
});

self.addEventListener('fetch', (event) => {
  const path = event.request.method === 'GET' ? fileOf(event.request) : null;
  if (path !== null) event.respondWith(answer(event, path));
});

/** The file of this build that a request asks for; null for anything else, which the browser fetches as usual. */
function fileOf({ url, mode }) {
  const { origin, pathname } = new URL(url);
  const scope = new URL(self.registration.scope);
  const inScope = origin === scope.origin && pathname.startsWith(scope.pathname);
  const path = inScope ? `./${pathname.slice(scope.pathname.length)}` : null;
  if (path !== null && path in FILES) return path;
  return mode === 'navigate' ? SHELL : null;
}

// The hash makes the install fail, to be tried again later, when the host is half way through an update.
async function keepEveryFile() {
  const cache = await caches.open(CACHE);
  const requests = Object.entries(FILES).map(
    ([path, integrity]) => new Request(path, { integrity, cache: 'no-cache' }),
  );
  await cache.addAll(requests);
}

async function dropOlderBuilds() {
  const names = await caches.keys();
  const older = await Promise.all(names.map(async (name) => name !== CACHE && (name.startsWith(PREFIX) || isOursWithoutPath(name))));
  await Promise.all(names.filter((_, place) => older[place]).map((name) => caches.delete(name)));
}

async function isOursWithoutPath(name) {
  return WITHOUT_PATH.test(name) && Boolean(await (await caches.open(name)).match(SHELL));
}

async function answer(event, path) {
  const kept = await soundCopy(path);
  if (kept) return kept;
  event.waitUntil(keepWhatIsMissing());
  try {
    return await fetchOfThisBuild(path);
  } catch (error) {
    if (error instanceof AnotherBuild) {
      event.waitUntil(giveWay(path));
      return fetch(event.request);
    }
    if (event.request.mode === 'navigate') return unreachable();
    throw error;
  }
}

/** The kept copy of a file if it is what the build made; null when it is missing, damaged or cannot be read. */
async function soundCopy(path) {
  try {
    const cache = await caches.open(CACHE);
    const kept = await cache.match(path);
    if (!kept) return null;
    if (await isSound(path, kept.clone())) return kept;
    await cache.delete(path);
  } catch (error) {
    // A browser that denies its cache leaves the network, as if nothing were kept.
    console.warn('The copy of Skewline on this device cannot be read.', error);
  }
  return null;
}

class AnotherBuild extends Error {}

/** A file from the network. Throws `AnotherBuild` when the host has something else there, and what `fetch` throws. */
async function fetchOfThisBuild(path) {
  const response = await fetch(path, { cache: 'no-cache' });
  if (response.ok && (await isSound(path, response.clone()))) return response;
  throw new AnotherBuild(path);
}

async function isSound(path, response) {
  const hash = await crypto.subtle.digest('SHA-256', await response.arrayBuffer());
  return FILES[path] === `sha256-${btoa(String.fromCharCode(...new Uint8Array(hash)))}`;
}

/** The files of this build that the device has no sound copy of. */
async function missingFiles() {
  const sound = await Promise.all(Object.keys(FILES).map((path) => soundCopy(path)));
  return Object.keys(FILES).filter((_, place) => !sound[place]);
}

let filling = null;

/** Fetches every missing file and keeps it; what cannot be had stays missing until it is asked for again. */
function keepWhatIsMissing() {
  filling ??= (async () => {
    for (const path of await missingFiles()) {
      try {
        const response = await fetchOfThisBuild(path);
        await (await caches.open(CACHE)).put(path, response);
      } catch (error) {
        console.warn(`${path} could not be kept on this device.`, error);
      }
    }
  })().finally(() => { filling = null; });
  return filling;
}

/** Reports how many files are missing, and again once those that can be had are kept. */
async function reportMissing(port) {
  const missing = await missingFiles();
  port.postMessage({ missing: missing.length });
  if (missing.length === 0) return;
  await keepWhatIsMissing();
  port.postMessage({ missing: (await missingFiles()).length });
}

/**
 * The host has moved on to another build while the program here is damaged: from now on the network answers with the
 * whole page of that build, which is also installed.
 */
async function giveWay(path) {
  if (path !== SHELL && !/^\.\/(program|style)-/.test(path)) return;
  await (await caches.open(CACHE)).delete(SHELL);
  await self.registration.update();
}

function unreachable() {
  const page = `<!doctype html><html lang="en-GB"><meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1"><title>Skewline</title>
<h1>Skewline</h1><p>The copy of Skewline on this device is damaged, and there is no network to mend it.
Your designs are safe. Connect to a network, then <a href="./">try again</a>.</p></html>`;
  return new Response(page, { status: 503, headers: { 'Content-Type': 'text/html; charset=utf-8' } });
}
