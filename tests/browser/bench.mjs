// From input to painted frame, in Chromium: the slider of the handle's tilt is moved step by step, and each step is
// timed until its frame has been painted. Once at the machine's own speed, once slowed four times.

import { newVisitor, openSite, PHONE, WIDE } from './page.mjs';

const FRAME_MS = 1000 / 60;
const WARM_UP = 20;
const MOVES = 200;

const site = await openSite();
console.log('One step of the tilt slider, in ms. Work: what the program and the browser do for the frame, which has to');
console.log(`fit in ${FRAME_MS.toFixed(1)}. Painted: from the input until the frame is painted, the wait for the frame included.`);
console.log(line('screen', 'slowed', 'work median', 'work 95 %', 'painted median', 'painted 95 %'));
for (const size of [PHONE, WIDE]) {
  for (const slowed of [1, 4]) {
    const moves = await timeMoves(size, slowed);
    const numbers = ['work', 'painted'].flatMap((kind) => {
      const sorted = moves.map((move) => move[kind]).sort((a, b) => a - b);
      return [quantile(sorted, 0.5), quantile(sorted, 0.95)].map((ms) => ms.toFixed(1));
    });
    console.log(line(size.name, `${slowed}x`, ...numbers));
  }
}
await site.close();

async function timeMoves(size, slowed) {
  const visitor = await newVisitor(site, { size });
  const page = await visitor.newTab();
  await page.openGroup('Handle');
  const session = await visitor.context.newCDPSession(page.tab);
  await session.send('Emulation.setCPUThrottlingRate', { rate: slowed });
  const moves = await page.slider('Tilt').evaluate(moveAndTime, WARM_UP + MOVES);
  await visitor.close();
  if (visitor.problems.length > 0) throw new Error(visitor.problems.join('\n'));
  return moves.slice(WARM_UP);
}

// Runs in the page.
async function moveAndTime(slider, count) {
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
    slider.value = String(value);
    slider.dispatchEvent(new Event('input', { bubbles: true }));
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

function line(screen, slowed, ...numbers) {
  return screen.padEnd(8) + slowed.padStart(8) + numbers.map((number) => number.padStart(16)).join('');
}
