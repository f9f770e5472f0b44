// The files of a built page.

import { readdir } from 'node:fs/promises';
import { join, relative, sep } from 'node:path';

/** Every file under `folder`, as sorted paths relative to it with forward slashes. */
export async function filesUnder(folder) {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath ?? entry.path, entry.name)).split(sep).join('/'))
    .sort();
}
