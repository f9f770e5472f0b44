// From input to painted frame: the slider of the handle's tilt is moved step by step, and each step is timed until its
// frame has been painted. Once at the machine's own speed, once slowed four times.
//
// Beside it, what this browser takes on this machine for the least that a step could change: a dot on the same drawing
// and one number, set by a line of script each. No program gets below that.

import { newVisitor, PHONE, WIDE } from '../page.mjs';
import { line, median, quantile } from './quantiles.mjs';
import { shares, traced } from './trace.mjs';

const FRAME_MS = 1000 / 60;
const WARM_UP = 20;
const MOVES = 200;

export async function benchSteps(site) {
  console.log('One step of the tilt slider, in ms. Work: what the program and the browser do for the frame, which has to');
  console.log(`fit in ${FRAME_MS.toFixed(1)}. Painted: from the input until the frame is painted, the wait for the frame included.`);
  console.log('Script: shape, drawing and page; browser: style, layout and paint; both a step on average, from a trace.');
  console.log(line('screen, slowed, step', 'work median', 'work 95 %', 'painted median', 'painted 95 %', 'script', 'browser'));
  for (const size of [PHONE, WIDE]) {
    for (const slowed of [1, 4]) {
      for (const step of ['slider', 'dot']) {
        const { moves, script, browser } = await timeMoves(site, size, slowed, step === 'dot');
        const numbers = ['work', 'painted'].flatMap((kind) => {
          const all = moves.map((move) => move[kind]);
          return [median(all), quantile(all, 0.95)];
        });
        console.log(line(`${size.name} ${slowed}x ${step}`, ...[...numbers, script, browser].map((ms) => ms.toFixed(1))));
      }
    }
  }
}

async function timeMoves(site, size, slowed, dotOnly) {
  const visitor = await newVisitor(site, { size });
  const page = await visitor.newTab();
  await page.openGroup('Handle');
  const session = await visitor.context.newCDPSession(page.tab);
  await session.send('Emulation.setCPUThrottlingRate', { rate: slowed });
  await page.untilFigured();
  const slider = page.slider('Tilt');
  const moves = await slider.evaluate(moveAndTime, { count: WARM_UP + MOVES, dotOnly });
  const events = await traced(site.browser, page.tab, () => slider.evaluate(moveAndTime, { count: MOVES, dotOnly }));
  const { script, browser } = shares(events);
  await visitor.close();
  if (visitor.problems.length > 0) throw new Error(visitor.problems.join('\n'));
  return { moves: moves.slice(WARM_UP), script: script / MOVES, browser: browser / MOVES };
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
