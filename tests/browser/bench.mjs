// What a person feels of the page's speed. Nothing here fails for being slow: read it beside the machine's load.
// One part by its name: `node tests/browser/bench.mjs tasks`.

import { loadavg } from 'node:os';
import { openSite } from './page.mjs';
import { benchSearches } from './bench/searches.mjs';
import { benchSteps } from './bench/steps.mjs';
import { benchTasks } from './bench/tasks.mjs';
import { benchVisits } from './bench/visits.mjs';

const PARTS = { steps: benchSteps, visits: benchVisits, tasks: benchTasks, searches: benchSearches };
const wanted = process.argv.slice(2);
const isWanted = (name) => wanted.length === 0 || wanted.includes(name);

console.log(`The machine's load before: ${loadavg().map((it) => it.toFixed(1)).join(', ')}.`);
const site = await openSite('dist', { brotli: true });
for (const [name, bench] of Object.entries(PARTS)) {
  if (isWanted(name)) await bench(site);
}
await site.close();
// Only here: what it needs is fetched for the bench alone.
if (isWanted('lighthouse')) await (await import('./bench/lighthouse.mjs')).benchLighthouse('dist');
