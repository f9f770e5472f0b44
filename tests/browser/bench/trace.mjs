// What the browser's main thread did, from a trace.

const CATEGORIES = ['devtools.timeline', 'toplevel', 'v8', 'loading'];
const SCRIPT = /^(FunctionCall|EvaluateScript|v8\.callFunction|v8\.run|EventDispatch|TimerFire|FireAnimationFrame|HandlePostMessage|BlinkScheduler_PerformMicrotaskCheckpoint|RunMicrotasks|wasm\.|v8\.wasm)/;
const BROWSER = /^(UpdateLayoutTree|Layout|PrePaint|Paint|Layerize|Commit|HitTest|ParseHTML|ParseAuthorStyleSheet)$/;

/** Traces the tab while `deed` runs; answers the main thread's events, the earliest first. Times are in microseconds. */
export async function traced(browser, tab, deed) {
  await browser.startTracing(tab, { categories: CATEGORIES });
  await deed();
  const { traceEvents } = JSON.parse((await browser.stopTracing()).toString());
  return ofMainThread(traceEvents);
}

function ofMainThread(events) {
  const mains = new Set(events.filter((it) => it.name === 'thread_name' && it.args.name === 'CrRendererMain').map(thread));
  const all = events.filter((it) => it.ph === 'X' && it.dur !== undefined && mains.has(thread(it)));
  // Of several pages, the one that did most.
  const busy = new Map();
  for (const it of all) busy.set(thread(it), (busy.get(thread(it)) ?? 0) + (it.name === 'FunctionCall' ? it.dur : 0));
  const main = [...busy].sort((a, b) => b[1] - a[1])[0]?.[0];
  return all.filter((it) => thread(it) === main).sort((a, b) => a.ts - b.ts || b.dur - a.dur);
}

const thread = ({ pid, tid }) => `${pid}/${tid}`;
const ends = ({ ts, dur }) => ts + dur;
/** The time of the thread itself, in ms: another program that takes the processor meanwhile does not count. */
const took = ({ dur, tdur = dur }) => tdur / 1000;

/** The events of the list that lie in no other of them. */
function outermost(events) {
  let end = 0;
  return events.filter((it) => {
    if (it.ts < end) return false;
    end = ends(it);
    return true;
  });
}

/** Every task of the main thread: how long, in ms, and what took most of it. */
export function tasks(events) {
  return outermost(events.filter(({ name }) => name.endsWith('RunTask'))).map((task) => ({ ms: took(task), name: nameOf(task, events) }));
}

function nameOf(task, events) {
  const within = events.filter((it) => it !== task && it.ts >= task.ts && ends(it) <= ends(task));
  const parts = outermost(within.filter(({ name }) => SCRIPT.test(name) || BROWSER.test(name)));
  const sums = new Map();
  for (const part of parts) sums.set(part.name, (sums.get(part.name) ?? 0) + took(part));
  return [...sums].sort((a, b) => b[1] - a[1]).slice(0, 3).map(([name, ms]) => `${name} ${ms.toFixed(0)}`).join(', ');
}

/** The time of script, and of the browser's own work on style, layout and paint, in ms. */
export function shares(events) {
  const sum = (list) => list.reduce((all, it) => all + took(it), 0);
  const [scripts, browser] = [SCRIPT, BROWSER].map((kind) => outermost(events.filter(({ name }) => kind.test(name))));
  const within = browser.filter((it) => scripts.some((script) => it.ts >= script.ts && ends(it) <= ends(script)));
  return { script: sum(scripts) - sum(within), browser: sum(browser) };
}
