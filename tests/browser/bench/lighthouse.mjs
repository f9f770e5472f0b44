// A first visit as Lighthouse judges it on its own model of a phone.

import { launch } from 'chrome-launcher';
import lighthouse from 'lighthouse';
import { serve } from '../../../site/server.mjs';
import { line } from './quantiles.mjs';

const RUNS = 3;
const FLAGS = ['--headless', '--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking',
  '--disable-component-update', '--disable-sync'];
const FIGURES = ['first-contentful-paint', 'largest-contentful-paint', 'total-blocking-time', 'cumulative-layout-shift'];

export async function benchLighthouse(folder) {
  const site = await serve({ folder, brotli: true });
  console.log('\nA first visit, as Lighthouse judges it on a phone: first and largest paint, blocking time, layout shift.');
  console.log(line('', 'performance', 'first', 'largest', 'blocking', 'shift'));
  for (let run = 1; run <= RUNS; run += 1) {
    const chrome = await launch({ chromePath: process.env.CHROMIUM ?? '/usr/bin/chromium', chromeFlags: FLAGS });
    const { lhr } = await lighthouse(site.address, { port: chrome.port, onlyCategories: ['performance'], logLevel: 'error' });
    const figures = FIGURES.map((name) => lhr.audits[name].displayValue);
    console.log(line(`visit ${run}`, Math.round(lhr.categories.performance.score * 100), ...figures));
    await chrome.kill();
  }
  await site.close();
}
