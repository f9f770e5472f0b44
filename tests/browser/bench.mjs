// From input to painted frame, in Chromium: the slider of the handle's tilt is moved step by step, and each step is
// timed until its frame has been painted. Once at the machine's own speed, once slowed four times.
//
// Beside it, what this browser takes on this machine for the least that a step could change: a dot on the same drawing
// and one number, set by a line of script each. No program gets below that.

import { newVisitor, openSite, PHONE, WIDE } from './page.mjs';

const FRAME_MS = 1000 / 60;
const WARM_UP = 20;
const MOVES = 200;

const site = await openSite();
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
await site.close();

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
