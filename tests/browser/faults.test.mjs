// The table of faults names tests that exist.

import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { test } from 'node:test';

const HERE = import.meta.dirname ?? new URL('.', import.meta.url).pathname;
const AT_LEAST = 30;

/** Patterns of the names of the tests in a file: what a name works out while the tests run may be anything. */
async function namesIn(file) {
  const inRust = file.endsWith('.rs');
  const source = await readFile(join(HERE, inRust ? join('..', file) : file), 'utf8');
  if (inRust) return [...source.matchAll(/fn (\w+)\(/g)].map(([, name]) => name);
  return [...source.matchAll(/\btest\((['`])(.*?)\1/g)].map(([, , name]) => name);
}

function fits(written, name) {
  const parts = written.split(/\$\{[^}]*\}/).map((part) => part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'));
  return new RegExp(`^${parts.join(".*")}$`).test(name);
}

test('each fault of the table names a test that exists, and there are thirty kinds or more', async () => {
  const table = await readFile(join(HERE, 'FAULTS.md'), 'utf8');
  const rows = table.split('\n').filter((line) => line.startsWith('| ')).slice(1).map((line) => line.split('|').slice(1, -1).map((cell) => cell.trim()));
  assert.ok(rows.length >= AT_LEAST, `${rows.length} kinds`);
  assert.equal(new Set(rows.map(([kind]) => kind)).size, rows.length, 'each kind once');
  for (const [kind, file, name, often, outcome] of rows) {
    assert.ok(often && outcome, kind);
    const names = await namesIn(file);
    assert.ok(names.some((written) => fits(written, name)), `${kind}: there is no test "${name}" in ${file}`);
  }
});
