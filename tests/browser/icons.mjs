// Draws the icons of public/ that must be PNG from public/icon.svg: run it after changing the drawing.

import { readFile, writeFile } from 'node:fs/promises';
import { startChromium } from './chromium.mjs';

const drawing = await readFile('public/icon.svg', 'utf8');
const square = change(drawing, ' rx="96"', '');
// A maskable icon may lose everything outside a circle of 80 % of its width.
const inset = change(square, '<g id="drawing"', '<g transform="translate(64 64) scale(.75)"');

const browser = await startChromium();
await write('icon-192.png', drawing, 192);
await write('icon-512.png', drawing, 512);
await write('icon-180.png', square, 180);
await write('icon-maskable-512.png', inset, 512);
await browser.close();

async function write(name, svg, size) {
  const page = await browser.newPage({ viewport: { width: size, height: size } });
  await page.setContent(`<style>body { margin: 0 } svg { display: block; width: ${size}px }</style>${svg}`);
  await writeFile(`public/${name}`, await page.screenshot({ omitBackground: true }));
  await page.close();
}

function change(text, from, to) {
  if (!text.includes(from)) throw new Error(`the drawing has no ${from}`);
  return text.replace(from, to);
}
