// `./dev build`: makes the page in dist/ from index.html, style/, public/ and the program.
// With `--quick` the program stays in one file, hardly optimised: larger and slower, and built in a fraction of the time.
//
// The program is compiled once and split in two along src/app/later.rs: what the first screen needs, and the rest, which
// that fetches by itself. Everything that may change between two builds has a hash in its address, so that a host may
// have it kept for good.

import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { cp, mkdir, readFile, readdir, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { finish } from './finish.mjs';

const TARGET = 'wasm32-unknown-unknown';
const QUICK = process.argv.includes('--quick');
const PROFILE = QUICK ? 'quick' : 'web';
const NAME = 'skewline';
const FEATURES = ['bulk-memory', 'nontrapping-float-to-int', 'sign-ext', 'mutable-globals', 'reference-types', 'multivalue'];
// A style sheet that index.html names; the build makes one of all.
const STYLE_LINK = / *<link rel="stylesheet" href="(style\/[^"]+)">\n/g;
// Made beside dist/ and put in its place when it is whole.
const [FOLDER, STAGE] = ['dist', 'dist.new'];

await rm(STAGE, { recursive: true, force: true });
await cp('public', STAGE, { recursive: true });
const program = await buildProgram(join(STAGE, 'program'));
const page = withoutComments(await readFile('index.html', 'utf8'));
const style = await buildStyle(page);
await writeFile(join(STAGE, 'index.html'), withProgram(withStyle(page, style), program).replace(/^ +/gm, ''));
await finish(STAGE);
await rm(FOLDER, { recursive: true, force: true });
await rename(STAGE, FOLDER);

/** Compiles the program and binds it in `folder`, then names that after its content. */
async function buildProgram(folder) {
  await mkdir(folder, { recursive: true });
  const whole = compile();
  if (QUICK) bind(whole, folder);
  else await bindInParts(whole, folder);
  // The same program once more, in a worker: see src/app/beside/.
  await writeFile(join(folder, 'beside.js'), `import start from './${NAME}.js';\nawait start();\n`);
  const names = (await readdir(folder)).sort();
  if (!QUICK) names.filter((name) => name.endsWith('.js')).forEach((name) => shorten(join(folder, name)));
  const contents = await Promise.all(names.map((name) => readFile(join(folder, name))));
  const named = `program-${hash(Buffer.concat(contents))}`;
  await rename(folder, join(STAGE, named));
  return `./${named}`;
}

/** Shortens a script in place: its exports keep their names. */
function shorten(path) {
  run('terser', [path, '--module', '--compress', '--mangle', '--output', path]);
}

function bind(program, folder, ...options) {
  run('skewline-bind', [program, folder, NAME, ...options]);
}

/** Splits the program, binds both parts and shrinks them. */
async function bindInParts(whole, folder) {
  const parts = join(folder, 'parts');
  await mkdir(parts);
  run('skewline-split', [whole, parts, NAME]);
  bind(join(parts, `${NAME}.wasm`), folder, '--split');
  for (const name of await readdir(parts)) {
    if (name !== `${NAME}.wasm`) await rename(join(parts, name), join(folder, name));
  }
  await rm(parts, { recursive: true });
  for (const name of (await readdir(folder)).filter((it) => it.endsWith('.wasm'))) {
    const path = join(folder, name);
    // The stack comes first in memory, and its last kilobyte is never reached: offsets may be folded into addresses.
    // What was written and is read again shrinks a little more than it does in one run: 0.5 kB of a first visit.
    for (const passes of [['-Oz', '-Oz', '-Os', '-Oz'], ['-Os', '-Oz']]) {
      run('wasm-opt', [...passes, '--low-memory-unused', '--strip-producers', ...FEATURES.map((feature) => `--enable-${feature}`), path, '-o', path]);
    }
  }
}

function compile() {
  const { target_directory: target } = JSON.parse(
    execFileSync('cargo', ['metadata', '--locked', '--offline', '--no-deps', '--format-version', '1'], { encoding: 'utf8' }));
  // The splitter reads from relocations which function uses which.
  const split = ['--features', 'split', '--config', `target.${TARGET}.rustflags=["-Clink-args=--emit-relocs"]`];
  run('cargo', ['build', '--locked', '--offline', '--target', TARGET, '--profile', PROFILE, '--bin', NAME,
    ...(QUICK ? [] : split)]);
  return join(target, TARGET, PROFILE, `${NAME}.wasm`);
}

/** Every style sheet that the page names, in one file. */
async function buildStyle(page) {
  const names = [...page.matchAll(STYLE_LINK)].map(([, name]) => name);
  const sheets = await Promise.all(names.map((name) => readFile(name, 'utf8')));
  const bare = sheets.join('\n').replace(/\/\*[\s\S]*?\*\//g, '').replace(/\s*\n\s*/g, '\n');
  const whole = bare.replace(/\s*([{};])\s*/g, '$1').replaceAll(';}', '}');
  const name = `style-${hash(whole)}.css`;
  await writeFile(join(STAGE, name), whole);
  return `./${name}`;
}

/** The page without what is for its authors only: a phone has to fetch every byte. The place of the program stays. */
function withoutComments(page) {
  return page.replace(/^ *<!--(?! program)[\s\S]*?-->\n/gm, '').replace(/^ *(\/\/|\/\*\*).*\n/gm, '');
}

function withStyle(page, address) {
  const [first, ...rest] = [...page.matchAll(STYLE_LINK)].map(([link]) => link);
  if (!first) throw new Error('index.html names no style sheet');
  const one = page.replace(first, `  <link rel="stylesheet" href="${address}">\n`);
  return rest.reduce((text, link) => text.replace(link, ''), one);
}

function withProgram(page, address) {
  const slot = '  <!-- program -->\n';
  if (!page.includes(slot)) throw new Error('index.html has no place for the program');
  return page.replace(slot, `\
  <link rel="modulepreload" href="${address}/${NAME}.js">
${QUICK ? '' : `  <link rel="modulepreload" href="${address}/__wasm_split.js">\n`}\
  <link rel="preload" href="${address}/${NAME}_bg.wasm" as="fetch" type="application/wasm" crossorigin="anonymous">
  <script type="module">
    try {
      const { default: start } = await import('${address}/${NAME}.js');
      await start();
    } catch (error) {
      showLate();
      throw error;
    }
  </script>
`);
}

function run(command, args) {
  execFileSync(command, args, { stdio: 'inherit' });
}

function hash(content) {
  return createHash('sha256').update(content).digest('hex').slice(0, 16);
}
