// Keeps a whole copy of Skewline on the device, so that everything works with the network gone.
//
// One build is one cache. A new build is fetched beside the old one and waits until the page says
// `{ type: 'take-over' }`: the program never changes under someone's hands.

// Both filled in by the build: a name for this build, and every file with the hash of its content.
const BUILD = '{{build}}';
const FILES = {/* files */};

const PREFIX = 'skewline-';
const CACHE = PREFIX + BUILD;
const SHELL = './';

self.addEventListener('install', (event) => event.waitUntil(keepEveryFile()));
self.addEventListener('activate', (event) => event.waitUntil(dropOlderBuilds()));

self.addEventListener('message', (event) => {
  if (event.data && event.data.type === 'take-over') self.skipWaiting();
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const sameOrigin = new URL(request.url).origin === self.location.origin;
  if (request.method === 'GET' && sameOrigin) event.respondWith(answer(request));
});

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
  const older = names.filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  await Promise.all(older.map((name) => caches.delete(name)));
}

async function answer(request) {
  const cache = await caches.open(CACHE);
  const kept = await cache.match(request, { ignoreSearch: true });
  if (kept) return kept;
  const shell = request.mode === 'navigate' && (await cache.match(SHELL));
  return shell || fetch(request);
}
