// A small static server: what any host of plain files does, and no more.

import { createServer } from 'node:http';
import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { extname, join, normalize, sep } from 'node:path';
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

/**
 * Serves `folder` under `path` (which starts and ends with a slash) on this machine only.
 * Port 0 takes a free one. With `brotli` it sends what is asked for compressed, as large hosts do. Answers the page's
 * address and `close()`.
 */
export async function serve({ folder, path = '/', port = 0, brotli = false }) {
  const site = { folder, brotli, compressed: new Map() };
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
  const content = file && (await readFile(file).catch(() => null));
  if (!content) {
    response.writeHead(404, { 'Content-Type': 'text/plain; charset=utf-8' }).end('There is no such file here.\n');
    return;
  }
  const tag = `"${createHash('sha256').update(content).digest('hex').slice(0, 32)}"`;
  const headers = { 'Cache-Control': 'no-cache', ETag: tag, 'X-Content-Type-Options': 'nosniff' };
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
  const rest = name.slice(path.length) || 'index.html';
  const file = normalize(join(folder, rest));
  return file.startsWith(normalize(folder) + sep) ? file : null;
}
