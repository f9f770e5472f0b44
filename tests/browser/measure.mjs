// Templates read back from printed pages: pages of one template glued together on their join lines as the turner would,
// the printer's correction taken out, and what stands on them found by its printed words.

import { boxAround } from './pdf.mjs';

/** Widths of a line to cut along and of a thin one, in mm. */
const CUT = 0.5;
const THIN = 0.18;
/** The letters of a title are larger than this, those of every other word over a template smaller, in mm. */
const TITLE = 3.8;

const near = (a, b, within) => Math.abs(a - b) <= within;
const apart = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1]);
const inside = ([x, y], { left, top, right, bottom }) => x >= left && x <= right && y >= top && y <= bottom;
const thick = (stroke) => near(stroke.width, CUT, 0.05);
const thin = (stroke) => near(stroke.width, THIN, 0.03);

/** What the correction of `across` and `along` made of a page is undone. */
function uncorrected(page, [across, along]) {
  const point = ([x, y]) => [x / across, y / along];
  const box = ({ left, top, right, bottom }) =>
    ({ left: left / across, right: right / across, top: top / along, bottom: bottom / along });
  const chain = (it) => ({ ...it, points: it.points.map(point), clip: box(it.clip) });
  const words = page.words.map((it) => ({ ...it, at: point(it.at), end: point(it.end), clip: box(it.clip) }));
  return { strokes: page.strokes.map(chain), fills: page.fills.map(chain), words };
}

/** Every template on one page: its part of the page, under its own heading, and where the page is joined. */
function readSheets(page, correction) {
  const { strokes, fills, words } = uncorrected(page, correction);
  // Only templates are seen through a window smaller than the page.
  const own = (it) => it.clip.left < 5;
  const furniture = { strokes: strokes.filter(own), words: words.filter(own) };
  const same = (a, b) => ['left', 'top', 'right', 'bottom'].every((side) => near(a[side], b[side], 0.05));
  const windows = [];
  for (const { clip } of [strokes, fills, words].flat().filter((it) => !own(it))) {
    if (!windows.some((window) => same(window, clip))) windows.push(clip);
  }
  return windows.map((window) => readSheet({ strokes, fills, words }, furniture, window, (it) => !own(it) && same(it.clip, window)));
}

function readSheet({ strokes, fills, words }, furniture, window, mine) {
  const template = (all) => all.filter(mine);
  const above = furniture.words.filter(({ size, at }) => size > TITLE && at[1] < window.top);
  const heading = above.reduce((low, word) => (word.at[1] > low.at[1] ? word : low));
  const [title] = heading.text.split(' – ');
  // A word that the edge of the page cuts through lacks letters.
  const whole = ({ at, end, size, clip }) => [at, end].every((p) => inside(p, clip) && inside([p[0], p[1] - 0.8 * size], clip));
  const ink = { strokes: template(strokes), fills: template(fills), words: template(words).filter(whole) };
  return { title, furniture, ...ink, window, joins: joinsOn(furniture) };
}

/** Where the joins are on a page, by the diamonds beside their names: `{ 'down 1': [1, 262.5] }`. */
function joinsOn({ strokes, words }) {
  const diamonds = strokes.filter(({ closed, points }) => closed && points.length <= 5).map(({ points }) => boxAround(points))
    .filter((box) => near(box.right - box.left, 6, 0.2) && near(box.bottom - box.top, 6, 0.2))
    .map((box) => [(box.left + box.right) / 2, (box.top + box.bottom) / 2]);
  const joins = {};
  for (const { text, at, end } of words) {
    const name = text.match(/^join ((right|down) \d+)$/);
    if (!name) continue;
    const way = name[2] === 'right' ? 0 : 1;
    const far = (place) => Math.min(Math.abs(place - at[way]), Math.abs(place - end[way]));
    joins[name[1]] = [way, diamonds.map((d) => d[way]).reduce((best, place) => (far(place) < far(best) ? place : best))];
  }
  return joins;
}

/** Every template of a print, by its title, each glued together from its pages. */
export function templatesOn(pages, correction = [1, 1]) {
  const templates = new Map();
  for (const sheet of pages.flatMap((page) => readSheets(page, correction))) {
    const before = templates.get(sheet.title);
    templates.set(sheet.title, before ? glued(before, sheet) : { ...sheet, pages: 1, windows: [sheet.window] });
  }
  return templates;
}

/** The next page laid over what is glued already, join on join. */
function glued(before, sheet) {
  const name = Object.keys(sheet.joins).find((join) => before.joins[join]);
  if (!name) throw new Error(`a page of ${sheet.title} shares no join with the one before`);
  const [way, place] = before.joins[name];
  const by = [0, 0];
  by[way] = place - sheet.joins[name][1];
  const point = ([x, y]) => [x + by[0], y + by[1]];
  const box = ({ left, top, right, bottom }) =>
    ({ left: left + by[0], right: right + by[0], top: top + by[1], bottom: bottom + by[1] });
  const chain = (it) => ({ ...it, points: it.points.map(point), clip: box(it.clip) });
  const word = (it) => ({ ...it, at: point(it.at), end: point(it.end), clip: box(it.clip) });
  const joins = Object.entries(sheet.joins).map(([join, [along, at]]) => [join, [along, at + by[along]]]);
  return {
    ...before,
    pages: before.pages + 1,
    strokes: [...before.strokes, ...sheet.strokes.map(chain)],
    fills: [...before.fills, ...sheet.fills.map(chain)],
    words: [...before.words, ...sheet.words.map(word)],
    windows: [...before.windows, box(sheet.window)],
    joins: { ...before.joins, ...Object.fromEntries(joins) },
  };
}

/** The lengths of the check lines of a page and of their 100 mm marks, across and along, in mm of paper. */
export function checkLines(page) {
  const straight = page.strokes.filter(({ points }) => points.length === 2).map(({ points }) => boxAround(points));
  return [['left', 'right', 'top', 'bottom'], ['top', 'bottom', 'left', 'right']].map(([from, to, low, high]) => {
    const long = (box) => box[to] - box[from];
    const lines = straight.filter((box) => long(box) > 85 && long(box) < 120 && box[high] - box[low] < 0.01);
    const marks = (line) => straight
      .filter((box) => long(box) < 0.01 && near(box[high] - box[low], 3, 0.5) && near((box[high] + box[low]) / 2, line[low], 0.1))
      .map((box) => box[from] - line[from]).sort((a, b) => a - b);
    const line = lines.find((candidate) => marks(candidate).length === 3);
    return line && { length: long(line), marks: marks(line) };
  });
}

/** A face: where the reference line starts, every mark's middle from there (right and up), the outlines. */
export function face(template) {
  const straight = template.strokes.filter(({ points }) => points.length === 2);
  const upward = straight.filter((it) => thin(it) && it.points[0][1] - it.points[1][1] > 20);
  const [origin] = upward[0].points;
  const from = (p) => [p[0] - origin[0], origin[1] - p[1]];
  const bars = straight.filter(thick).map(({ points }) => boxAround(points));
  const crosses = bars.filter((bar) => bar.bottom - bar.top < 0.01).flatMap((level) => {
    const middle = [(level.left + level.right) / 2, level.top];
    return bars.filter((bar) => bar.right - bar.left < 0.01)
      .map((bar) => [bar.left, (bar.top + bar.bottom) / 2]).filter((other) => apart(middle, other) < 0.02);
  });
  const rings = template.strokes.filter(({ closed }) => closed);
  const box = (ring) => {
    const { left, top, right, bottom } = boxAround(ring.points.map(from));
    return { middle: [(left + right) / 2, (top + bottom) / 2], size: [right - left, bottom - top], thick: thick(ring), points: ring.points.map(from) };
  };
  const letters = template.words.filter((it) => /^[A-Z]$/.test(it.text))
    .map(({ text, at, end, size }) => ({ text, middle: from([(at[0] + end[0]) / 2, at[1] - 0.36 * size]) }));
  return { marks: crosses.map(from), rings: rings.map(box), letters };
}

/**
 * The sticks of a template, by axis: every station that is written beside a tick, from the tick that the axis is measured
 * from: on axis A the bowl end, on a moved axis its mark.
 */
export function sticks(template) {
  const straight = template.strokes.filter(({ points }) => points.length === 2);
  const edges = straight.filter((it) => thick(it) && it.points[0][0] === it.points[1][0]);
  const named = template.words.map((word) => ({ ...word, station: word.text.match(/^(-?[\d.]+): (.*)$/) }));
  const all = named.filter(({ station }) => station).map(({ at, station, clip }) => {
    // From the words a leader goes to the end of the tick.
    const leader = straight.find(({ points: [, to] }) => apart(to, [at[0] - 1, at[1] - 1.2]) < 0.1);
    if (!leader) throw new Error(`no leader to "${station[0]}"`);
    const tick = straight.find(({ points: [from, to] }) => apart(to, leader.points[0]) < 0.02 && near(from[1], to[1], 0.02) && to[0] - from[0] > 8);
    if (!tick) throw new Error(`no tick for "${station[0]}"`);
    const [[x, y]] = tick.points;
    return { x, y, written: Number(station[1]), words: station[2], seen: inside(tick.points[0], { ...clip, left: clip.left - 0.01 }) };
  });
  // A name stands again and again along the right edge.
  const names = new Map(template.words.filter(({ text }) => /^axis [A-Z]$/.test(text)).map((word) => [word.text, word]));
  return [...names.values()].map(({ text, at }) => {
    const edge = edges.map(({ points }) => points[0][0]).filter((x) => x < at[0]).reduce((a, b) => Math.max(a, b));
    const mine = all.filter((station) => near(station.x, edge, 0.1));
    const from = text === 'axis A' ? /\bbowl end\b/ : new RegExp(`\\bmark ${text.at(-1)} on the (plug|bowl end)\\b`);
    const zero = mine.find(({ words }) => from.test(words)).y;
    const ends = edges.filter(({ points }) => near(points[0][0], edge, 0.1)).map(({ points }) => points.map((p) => p[1] - zero).sort((a, b) => a - b));
    return { axis: text.at(-1), ends, stations: mine.map((it) => ({ ...it, at: it.y - zero })) };
  });
}

/** A gauge, as many times as it has pages: its card's corners as radius and way from its start, and the tens' ticks. */
export function gauges(template) {
  const cards = template.strokes.filter((it) => it.closed && thick(it));
  const dashes = template.fills.map(({ points }) => boxAround(points)).filter((box) => near(box.right - box.left, 0.25, 0.02));
  const axis = (dashes[0].left + dashes[0].right) / 2;
  const top = Math.min(...cards[0].points.map((p) => p[1]));
  const ticks = template.strokes.filter(({ points, closed }) => !closed && points.length === 2)
    .map(({ points }) => points).filter(([a, b]) => near(a[1], b[1], 0.02) && near(Math.abs(a[0] - b[0]), 3, 0.05));
  const tens = template.words.filter(({ text }) => /^-?[\d.]+$/.test(text)).map(({ text, end }) => {
    const [[, y]] = ticks.find(([a]) => near(a[1], end[1] - 1.1, 0.1));
    return { written: Number(text), at: y - top };
  });
  return { cards: cards.map(({ points, clip }) => ({ clip, corners: points.map(([x, y]) => [x - axis, y - top]) })), tens };
}

/** A card for a hollow, as many times as it has pages: its corners as way from the axis and down, and where its shoulders lie. */
export function insideGauges(template) {
  const dashes = template.fills.map(({ points }) => boxAround(points)).filter((box) => near(box.right - box.left, 0.25, 0.02));
  const axis = (dashes[0].left + dashes[0].right) / 2;
  return template.strokes.filter((it) => it.closed && thick(it)).map(({ points }) => {
    const corners = points.map(([x, y]) => [x - axis, y]);
    // The outermost corners are those of the handle: its lower ones are the shoulders.
    const widest = Math.max(...corners.map(([x]) => x));
    const mouth = Math.max(...corners.filter(([x]) => near(x, widest, 0.02)).map(([, y]) => y));
    return { corners, mouth };
  });
}

/** The wrap: its outline and its saw line, as many times as it has pages, from the middle of the lip edge. */
export function wrap(template) {
  const dashes = template.fills.map(({ points }) => boxAround(points))
    .filter((box) => near(box.right - box.left, 0.25, 0.02) && box.bottom - box.top > 0.9);
  const x = (dashes[0].left + dashes[0].right) / 2;
  const top = Math.min(...dashes.map((box) => box.top));
  const outlines = template.strokes.filter((it) => it.closed && thin(it));
  const from = ({ points }) => points.map((p) => [p[0] - x, p[1] - top]);
  return { outlines: outlines.map(from), lines: template.strokes.filter((it) => !it.closed && thick(it)).map(from) };
}

/** The box of words, whichever way they run. */
export function boxOfWords({ at, end, size }) {
  const [over, along] = [0.7 * size, Math.hypot(end[0] - at[0], end[1] - at[1])];
  const up = [(end[1] - at[1]) / along, -(end[0] - at[0]) / along];
  return boxAround([at, end, ...[at, end].map((p) => [p[0] + over * up[0], p[1] + over * up[1]])]);
}

/** How far a point is from a chain of points. */
export function farFrom(chain, [x, y]) {
  return Math.min(...chain.slice(1).map((b, i) => {
    const a = chain[i];
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const share = Math.max(0, Math.min(1, ((x - a[0]) * dx + (y - a[1]) * dy) / (dx * dx + dy * dy || 1)));
    return Math.hypot(x - a[0] - share * dx, y - a[1] - share * dy);
  }));
}
