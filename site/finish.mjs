// Finishes a build, once every file of it is made.
//
// - index.html: the Content-Security-Policy learns the hash of each inline script.
// - sw.js: the service worker learns every file with the hash of its content, and a name for the build.

import { createHash } from 'node:crypto';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { filesUnder } from './files.mjs';

const WASM_SOURCE = "'wasm-unsafe-eval'";

/** Finishes the build in `folder`. */
export async function finish(folder) {
  await allowInlineScripts(join(folder, 'index.html'));
  await listFiles(folder);
}

async function allowInlineScripts(path) {
  const page = await readFile(path, 'utf8');
  if (!page.includes(WASM_SOURCE)) throw new Error(`${path} has no Content-Security-Policy to add hashes to`);
  const inline = [...page.matchAll(/<script(?![^>]*\ssrc=)[^>]*>([\s\S]*?)<\/script>/g)];
  const hashes = inline.map(([, text]) => `'${hash(text)}'`);
  await writeFile(path, page.replace(WASM_SOURCE, [WASM_SOURCE, ...hashes].join(' ')));
}

async function listFiles(folder) {
  const path = join(folder, 'sw.js');
  const names = (await filesUnder(folder)).filter((name) => name !== 'sw.js');
  const files = {};
  for (const name of names) {
    // The start page goes by the folder's own address: some hosts redirect `index.html`.
    files[name === 'index.html' ? './' : `./${name}`] = hash(await readFile(join(folder, name)));
  }
  const list = JSON.stringify(files, null, 2);
  const build = createHash('sha256').update(list).digest('hex').slice(0, 16);
  const worker = await readFile(path, 'utf8');
  await writeFile(path, fill(fill(worker, '{{build}}', build), '{/* files */}', list));
}

function fill(text, slot, value) {
  if (!text.includes(slot)) throw new Error(`sw.js has no ${slot} to fill in`);
  return text.replace(slot, () => value);
}

function hash(content) {
  return `sha256-${createHash('sha256').update(content).digest('base64')}`;
}
