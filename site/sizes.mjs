// What the first visit has to load, file by file, and whether it is small enough.
// usage: node sizes.mjs FOLDER

import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { brotliCompressSync, constants, gzipSync } from 'node:zlib';
import { filesUnder } from './files.mjs';

/** What the first load may come to, in bytes after brotli. */
export const BUDGET_BYTES = 350_000;

/** The files the page asks for by itself before it can be used: those its own text names. */
export async function firstLoad(folder) {
  const page = await readFile(join(folder, 'index.html'), 'utf8');
  const names = await filesUnder(folder);
  const touchIcon = page.match(/<link rel="?apple-touch-icon"?[^>]*href="?([^" >]+)/)?.[1];
  return names.filter((name) => name === 'index.html' || (page.includes(name) && name !== touchIcon));
}

/** Bytes of one file: as it is, after gzip, after brotli, each at its strongest. */
export async function measure(folder, name) {
  const content = await readFile(join(folder, name));
  const params = { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_SIZE_HINT]: content.length };
  return {
    name,
    raw: content.length,
    gzip: gzipSync(content, { level: 9 }).length,
    brotli: brotliCompressSync(content, { params }).length,
  };
}

async function report(folder) {
  const first = await firstLoad(folder);
  const rest = (await filesUnder(folder)).filter((name) => !first.includes(name));
  const rows = await Promise.all(first.map((name) => measure(folder, name)));
  const total = rows.reduce((sum, row) => ({
    name: 'first load',
    raw: sum.raw + row.raw,
    gzip: sum.gzip + row.gzip,
    brotli: sum.brotli + row.brotli,
  }), { raw: 0, gzip: 0, brotli: 0 });
  console.log(line('file', 'raw', 'gzip', 'brotli'));
  for (const row of rows) print(row);
  print(total);
  console.log('fetched afterwards, by itself:');
  for (const name of rest) print(await measure(folder, name));
  return total;
}

function print({ name, raw, gzip, brotli }) {
  console.log(line(name, ...[raw, gzip, brotli].map((bytes) => bytes.toLocaleString('en-GB'))));
}

function line(name, ...numbers) {
  return name.padEnd(44) + numbers.map((number) => String(number).padStart(12)).join('');
}

if (import.meta.url === `file://${process.argv[1]}`) {
  const { brotli } = await report(process.argv[2] ?? 'dist');
  const bytes = (count) => `${count.toLocaleString('en-GB')} bytes`;
  if (brotli > BUDGET_BYTES) {
    console.error(`The first load is over its budget of ${bytes(BUDGET_BYTES)}.`);
    process.exit(1);
  }
  console.log(`The first load keeps within its budget of ${bytes(BUDGET_BYTES)}.`);
}
