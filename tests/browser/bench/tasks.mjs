// How long the page keeps the browser from answering, on a phone slowed four times: every task over 50 ms from the first
// byte to rest, and while a finger drags a slider; and from a touch until what it changed is painted.

import { newVisitor, PHONE } from '../page.mjs';
import { line, median, quantile } from './quantiles.mjs';
import { tasks, traced } from './trace.mjs';

const LONG_MS = 50;
const REST_MS = 3000;
const MOVES = 90;
const FRAME_MS = 33;
const GROUPS = ['Wood', 'Outside', 'Opening', 'Hollow', 'Handle'];
const ROUNDS = 4;

export async function benchTasks(site) {
  console.log(`\nTasks over ${LONG_MS} ms, a phone slowed 4x, in ms of the thread's own time.`);
  console.log(line('', 'tasks', 'the longest', `sum over ${LONG_MS}`));
  const visitor = await newVisitor(site, { size: PHONE });
  const tab = await visitor.context.newPage();
  const session = await visitor.context.newCDPSession(tab);
  await session.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  show('load to rest', await traced(site.browser, tab, async () => {
    await tab.goto(site.address);
    await rest(tab);
  }));
  show('a slider dragged', await traced(site.browser, tab, () => dragSlider(tab, session)));
  const delays = await tapDelays(tab);
  console.log('\nFrom a touch until the change of it is painted, the same phone, in ms.');
  console.log(line('', 'median', 'the longest'));
  console.log(line('another group', median(delays).toFixed(0), quantile(delays, 1).toFixed(0)));
  await visitor.close();
}

function show(name, events) {
  const long = tasks(events).filter(({ ms }) => ms > LONG_MS).sort((a, b) => b.ms - a.ms);
  const over = long.reduce((sum, { ms }) => sum + ms - LONG_MS, 0);
  console.log(line(name, long.length, (long[0]?.ms ?? 0).toFixed(0), over.toFixed(0)));
  for (const { ms, name: what } of long) console.log(`  ${ms.toFixed(0).padStart(5)}  ${what}`);
}

async function rest(tab) {
  await tab.locator('.app[data-figures=here]').waitFor({ timeout: 120_000 });
  await tab.locator('.range-end').first().waitFor({ timeout: 120_000 });
  await tab.waitForTimeout(REST_MS);
}

async function dragSlider(tab, session) {
  const slider = tab.getByRole('slider', { name: 'Tilt, slider' });
  await slider.scrollIntoViewIfNeeded();
  const thumb = await slider.evaluate((it) => {
    const box = it.getBoundingClientRect();
    const share = (it.value - it.min) / (it.max - it.min);
    return { x: box.left + box.height / 2 + share * (box.width - box.height), y: box.top + box.height / 2 };
  });
  const before = await slider.inputValue();
  const touch = (type, touchPoints) => session.send('Input.dispatchTouchEvent', { type, touchPoints });
  await touch('touchStart', [thumb]);
  for (let move = 0; move < MOVES; move += 1) {
    const turn = move % 40;
    await touch('touchMove', [{ x: thumb.x + 4 * (turn < 20 ? turn : 40 - turn), y: thumb.y }]);
    await new Promise((resolve) => { setTimeout(resolve, FRAME_MS); });
  }
  if ((await slider.inputValue()) === before) throw new Error('the slider does not follow the finger');
  await touch('touchEnd', []);
  await rest(tab);
}

async function tapDelays(tab) {
  await tab.evaluate(() => {
    window.delays = [];
    addEventListener('pointerdown', ({ timeStamp }) => {
      addEventListener('click', () => {
        requestAnimationFrame(() => {
          const { port1, port2 } = new MessageChannel();
          port1.onmessage = () => window.delays.push(performance.now() - timeStamp);
          port2.postMessage(null);
        });
      }, { once: true, capture: true });
    }, { capture: true });
  });
  for (let round = 0; round < ROUNDS; round += 1) {
    for (const name of GROUPS) {
      await tab.getByRole('navigation', { name: 'Groups of values' }).getByRole('button', { name, exact: true }).tap();
      await tab.waitForTimeout(600);
    }
  }
  return tab.evaluate(() => window.delays);
}
