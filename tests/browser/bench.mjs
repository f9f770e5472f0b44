// From input to painted frame, in Chromium: the slider of the handle's tilt is moved step by step, and each step is
// timed until its frame has been painted. Once at the machine's own speed, once slowed four times.
//
// Beside it, what this browser takes on this machine for the least that a step could change: a dot on the same drawing
// and one number, set by a line of script each. No program gets below that.
//
// And the first visit of a phone over a slowed network: until the drawing and the values stand, and until every figure does.

import { newVisitor, openSite, PHONE, WIDE } from './page.mjs';

const FRAME_MS = 1000 / 60;
const WARM_UP = 20;
const MOVES = 200;

const VISITS = 5;
// Two networks of a phone, as browsers' own tools name and set them (from memory).
const NETWORKS = [
  { name: 'fast 4G', megabits: 9, latency: 165 },
  { name: 'slow 4G', megabits: 1.6, latency: 562 },
];

const site = await openSite('dist', { brotli: true });
console.log('One step of the tilt slider, in ms. Work: what the program and the browser do for the frame, which has to');
console.log(`fit in ${FRAME_MS.toFixed(1)}. Painted: from the input until the frame is painted, the wait for the frame included.`);
console.log(line('screen', 'slowed', 'step', 'work median', 'work 95 %', 'painted median', 'painted 95 %'));
for (const [size, slowed, step] of cases()) {
  const moves = await timeMoves(size, slowed, step === 'dot');
  const numbers = ['work', 'painted'].flatMap((kind) => {
    const sorted = moves.map((move) => move[kind]).sort((a, b) => a - b);
    return [quantile(sorted, 0.5), quantile(sorted, 0.95)].map((ms) => ms.toFixed(1));
  });
  console.log(line(size.name, `${slowed}x`, step, ...numbers));
}
console.log('\nThe first visit, in ms: medians of', VISITS, 'from the call of the address.');
console.log(line('screen', 'slowed', '', 'network', 'drawn', 'all figures'));
for (const network of NETWORKS) {
  const visits = [];
  for (let visit = 0; visit < VISITS; visit += 1) visits.push(await timeVisit(network));
  const median = (kind) => quantile(visits.map((visit) => visit[kind]).sort((a, b) => a - b), 0.5).toFixed(0);
  console.log(line(PHONE.name, '4x', '', network.name, median('drawn'), median('figured')));
}
await site.close();

/** One visit with nothing stored, the processor slowed four times. */
async function timeVisit({ megabits, latency }) {
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
    if (app?.querySelector('canvas')) window.usable.drawn ??= performance.now();
    if (app?.dataset.figures === 'here') window.usable.figured = performance.now();
    if (!window.usable.figured) requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
}

function* cases() {
  for (const size of [PHONE, WIDE]) {
    for (const slowed of [1, 4]) {
      for (const step of ['slider', 'dot']) yield [size, slowed, step];
    }
  }
}

async function timeMoves(size, slowed, dotOnly) {
  const visitor = await newVisitor(site, { size });
  const page = await visitor.newTab();
  await page.openGroup('Handle');
  const session = await visitor.context.newCDPSession(page.tab);
  await session.send('Emulation.setCPUThrottlingRate', { rate: slowed });
  await page.untilFigured();
  const moves = await page.slider('Tilt').evaluate(moveAndTime, { count: WARM_UP + MOVES, dotOnly });
  await visitor.close();
  if (visitor.problems.length > 0) throw new Error(visitor.problems.join('\n'));
  return moves.slice(WARM_UP);
}

// Runs in the page.
async function moveAndTime(slider, { count, dotOnly }) {
  const pen = document.querySelector('canvas').getContext('2d');
  const number = document.createTreeWalker(document.querySelector('main'), NodeFilter.SHOW_TEXT).nextNode();
  const nextTask = () => new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = resolve;
    port2.postMessage(null);
  });
  const step = Number(slider.step) || 0.1;
  const [low, high] = [Number(slider.min), Number(slider.max)];
  const middle = Number(slider.value);
  const moves = [];
  for (let move = 0; move < count; move += 1) {
    // Back and forth around where it stands, never the same value twice in a row.
    const turn = move % 40;
    const away = (turn < 20 ? turn : 40 - turn) - 10;
    const value = Math.min(high, Math.max(low, middle + away * step));
    let frameBegan = 0;
    const framePainted = new Promise((resolve) => {
      requestAnimationFrame(() => {
        frameBegan = performance.now();
        nextTask().then(resolve);
      });
    });
    const input = performance.now();
    if (dotOnly) {
      pen.fillRect(5 + away, 5, 1, 1);
      number.nodeValue = value.toFixed(1);
    } else {
      slider.value = String(value);
      slider.dispatchEvent(new Event('input', { bubbles: true }));
    }
    // By the next task, everything the input set off outside of a frame is done.
    await nextTask();
    const handled = performance.now();
    await framePainted;
    const painted = performance.now();
    const inFrame = frameBegan > handled ? painted - frameBegan : painted - handled;
    moves.push({ work: handled - input + inFrame, painted: painted - input });
    await new Promise((resolve) => { setTimeout(resolve, 5); });
  }
  slider.dispatchEvent(new Event('change', { bubbles: true }));
  return moves;
}

function quantile(sorted, part) {
  return sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))];
}

function line(screen, slowed, step, ...numbers) {
  return screen.padEnd(8) + slowed.padStart(8) + step.padStart(8) + numbers.map((number) => number.padStart(16)).join('');
}
