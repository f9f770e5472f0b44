// The first visit of a phone over a slowed network: until the drawing and the values stand, and until every figure does.

import { newVisitor, PHONE } from '../page.mjs';
import { line, median } from './quantiles.mjs';

const VISITS = 5;
// Two networks of a phone, as browsers' own tools name and set them (from memory).
const NETWORKS = [
  { name: 'fast 4G', megabits: 9, latency: 165 },
  { name: 'slow 4G', megabits: 1.6, latency: 562 },
];

export async function benchVisits(site) {
  console.log(`\nThe first visit of a phone slowed 4x, in ms: medians of ${VISITS} from the call of the address.`);
  console.log(line('network', 'drawn', 'all figures'));
  for (const network of NETWORKS) {
    const visits = [];
    for (let visit = 0; visit < VISITS; visit += 1) visits.push(await timeVisit(site, network));
    console.log(line(network.name, ...['drawn', 'figured'].map((kind) => median(visits.map((visit) => visit[kind])).toFixed(0))));
  }
}

/** One visit with nothing stored, the processor slowed four times. */
async function timeVisit(site, { megabits, latency }) {
  const visitor = await newVisitor(site, { size: PHONE });
  await visitor.context.addInitScript(noteWhenUsable);
  const tab = await visitor.context.newPage();
  const session = await visitor.context.newCDPSession(tab);
  await session.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  const bytesPerSecond = (megabits * 1e6) / 8;
  await session.send('Network.enable');
  await session.send('Network.emulateNetworkConditions', {
    offline: false, latency, downloadThroughput: bytesPerSecond, uploadThroughput: bytesPerSecond,
  });
  await tab.goto(site.address);
  await tab.waitForFunction(() => window.usable?.figured);
  const usable = await tab.evaluate(() => window.usable);
  await visitor.close();
  return usable;
}

// Runs in the page, before anything of it does.
function noteWhenUsable() {
  window.usable = {};
  const look = () => {
    const app = document.querySelector('.app');
    if (app?.querySelector('canvas') && !document.getElementById('loading')) window.usable.drawn ??= performance.now();
    if (app?.dataset.figures === 'here') window.usable.figured = performance.now();
    if (!window.usable.figured) requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
}
