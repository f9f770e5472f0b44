// A small static server: what any host of plain files does, and no more.

import { createServer } from 'node:http';
import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { extname, join, normalize, relative, sep } from 'node:path';
import { brotliCompressSync } from 'node:zlib';

const TYPES = {
  '.css': 'text/css; charset=utf-8',
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
  '.wasm': 'application/wasm',
  '.webmanifest': 'application/manifest+json',
};

// What the page's own policy cannot say, and a host must: see README, Hosting.
const POLICY = {
  'Content-Security-Policy': "frame-ancestors 'none'",
  'Referrer-Policy': 'no-referrer',
  'X-Content-Type-Options': 'nosniff',
};
// Names with a hash of their content never change what they stand for.
const HASHED = /^(program|style)-[0-9a-f]{16}/;

/**
 * Serves `folder` under `path` (which starts and ends with a slash) on this machine only.
 * Port 0 takes a free one. With `brotli` it sends what is asked for compressed, as large hosts do. `faults` is
 * a map from a pattern of file names to what goes wrong with them: 'missing', 'error', 'cut' or 'hang'. Answers the page's
 * address and `close()`.
 */
export async function serve({ folder, path = '/', port = 0, brotli = false, faults = new Map() }) {
  const site = { folder, brotli, faults, compressed: new Map() };
  const server = createServer((request, response) => answer(request, response, site, path));
  await new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, '127.0.0.1', resolve);
  });
  return {
    address: `http://localhost:${server.address().port}${path}`,
    /** Serves another folder at the same address from now on, as an update of the site would. */
    replaceWith: (other) => { site.folder = other; },
    close: () => new Promise((resolve) => { server.close(resolve); server.closeAllConnections(); }),
  };
}

async function answer(request, response, site, path) {
  const file = fileFor(request.url, site.folder, path);
  const name = file && relative(site.folder, file).split(sep).join('/');
  const fault = file && [...site.faults].find(([pattern]) => pattern.test(name))?.[1];
  if (fault === 'hang') return;
  if (fault === 'error') {
    response.writeHead(500).end();
    return;
  }
  const whole = file && fault !== 'missing' && (await readFile(file).catch(() => null));
  if (!whole) {
    response.writeHead(404, { 'Content-Type': 'text/plain; charset=utf-8' }).end('There is no such file here.\n');
    return;
  }
  const content = fault === 'cut' ? whole.subarray(0, whole.length / 2) : whole;
  const tag = `"${createHash('sha256').update(content).digest('hex').slice(0, 32)}"`;
  const kept = HASHED.test(name) ? 'public, max-age=31536000, immutable' : 'no-cache';
  const headers = { 'Cache-Control': kept, ETag: tag, ...POLICY };
  if (request.headers['if-none-match'] === tag) {
    response.writeHead(304, headers).end();
    return;
  }
  const type = TYPES[extname(file)] ?? 'application/octet-stream';
  const compressed = site.brotli && /\bbr\b/.test(request.headers['accept-encoding'] ?? '');
  if (compressed && !site.compressed.has(tag)) site.compressed.set(tag, brotliCompressSync(content));
  const body = compressed ? site.compressed.get(tag) : content;
  const encoding = compressed ? { 'Content-Encoding': 'br', Vary: 'Accept-Encoding' } : {};
  response.writeHead(200, { ...headers, ...encoding, 'Content-Type': type, 'Content-Length': body.length });
  response.end(request.method === 'HEAD' ? undefined : body);
}

/** The file an address means, or null when it lies outside `folder`. */
function fileFor(url, folder, path) {
  let name;
  try {
    name = decodeURIComponent(new URL(url, 'http://localhost').pathname);
  } catch {
    return null;
  }
  if (!name.startsWith(path) || name.includes('\0')) return null;
  const rest = name.slice(path.length);
  const file = normalize(join(folder, rest === '' || rest.endsWith('/') ? `${rest}index.html` : rest));
  return file.startsWith(normalize(folder) + sep) ? file : null;
}
