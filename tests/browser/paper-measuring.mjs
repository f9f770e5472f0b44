// The templates of a design as they came out on paper, measured against the numbers of the design and closed forms.

import assert from 'node:assert/strict';
import { boxOfWords, checkLines, face, farFrom, gauges, insideGauges, sticks, templatesOn, wrap } from './measure.mjs';
import { apart, cutsOf, endsOf, letter, markStation, marksOf, placesOn, sawHeight, stationsOf } from './paper-designs.mjs';

/** How far a place on paper may be off, in mm, over page splits too: a fifth of what is promised. */
const TRUE_MM = 0.02;

/** Holds measured lengths against wanted ones, and keeps the worst of every kind. */
export class Tape {
  worst = {};

  check(kind, measured, wanted, where) {
    this.far(kind, Math.abs(measured - wanted), `${where}: ${measured} instead of ${wanted}`);
  }

  far(kind, off, where) {
    assert.ok(off <= TRUE_MM, `${kind}, ${off} mm off, ${where}`);
    this.worst[kind] = Math.max(this.worst[kind] ?? 0, off);
  }

  toString() {
    return Object.entries(this.worst).map(([kind, off]) => `${kind} ${off.toFixed(4)}`).join(', ');
  }
}

function measureFaces(tape, design, templates) {
  const side = design.blank.section.square.side_mm;
  for (const [title, end, mirror] of [['Bowl end, on the plug', 0, -1], ['Head end', 1, 1]]) {
    const { marks, rings, letters } = face(templates.get(title));
    const seen = marksOf(design).map((both) => [mirror * both[end][0], both[end][1]]);
    for (const [i, wanted] of seen.entries()) {
      tape.far('marks', Math.min(...marks.map((mark) => apart(mark, wanted))), `${title}, mark ${letter(i)} at ${wanted}`);
      const { middle } = letters.find(({ text }) => text === letter(i));
      assert.ok(seen.every((mark) => apart(middle, wanted) <= apart(middle, mark)), `${letter(i)} stands by its own mark`);
    }
    const corners = [[-1, -1], [-1, 1], [1, -1], [1, 1]].map((way) => way.map((sign) => (sign * side) / 2));
    const outline = end === 0 ? rings.filter((ring) => !ring.thick && ring.points.length <= 5) : rings.filter((ring) => ring.thick);
    for (const corner of corners) {
      tape.far('blank', Math.min(...outline.map((ring) => farFrom([...ring.points, ring.points[0]], corner))), `${title} ${corner}`);
    }
    outline.forEach((ring) => ring.size.forEach((size) => tape.check('blank', size, end === 0 ? side : side + 24, title)));
    if (end === 0) {
      const plug = rings.find((ring) => ring.thick);
      const [{ disc_diameter_mm: disc, tenon }] = cutsOf(design, 'fit_plug');
      plug.size.forEach((size) => tape.check('plug', size, tenon?.diameter_mm ?? disc, title));
    }
  }
}

function measureSticks(tape, design, templates) {
  const found = [...templates.values()].filter(({ title }) => title.startsWith('Story stick')).flatMap(sticks);
  const turned = [...new Set(cutsOf(design, 'pass').map((pass) => pass.axis))].sort();
  assert.deepEqual(found.map(({ axis }) => axis).sort(), turned);
  for (const { axis, stations, ends: edges } of found) {
    const mark = markStation(design, axis);
    for (const wanted of stationsOf(design, axis).map((station) => station - mark)) {
      // Written with one decimal; stations closer than 0.1 mm share a line.
      const here = stations.filter(({ written }) => Math.abs(written - wanted) < 0.15);
      assert.ok(here.some(({ seen }) => seen), `station ${wanted} on axis ${axis} is seen`);
      // On both pages where they overlap.
      here.forEach(({ at }) => tape.check('stations', at, wanted, `axis ${axis}`));
    }
    stations.forEach(({ at, written }) => assert.ok(Math.abs(at - written) < TRUE_MM + 0.05, `${written} at ${at}`));
    // A stick reaches from face to face, along its axis: on a moved axis from its mark on one to its mark on the other.
    const [tail, head] = endsOf(design);
    const ends = axis === 'A' ? [tail, head] : [0, Math.hypot(head - tail, apart(...marksOf(design)['ABCDEFG'.indexOf(axis)]))];
    for (const edge of edges) ends.forEach((end, i) => tape.check('stick length', edge[i], end, `axis ${axis}`));
  }
}

function measureGauges(tape, design, templates) {
  const shaped = cutsOf(design, 'pass').filter((pass) => pass.axis !== 'A' || pass.to_mm < design.blank.length_mm - 1);
  for (const pass of shaped) {
    const { cards, tens } = gauges(templates.get(`Gauge: ${pass.name}`));
    for (const { corners } of cards) {
      const long = Math.max(...corners.map((corner) => corner[1])) - Math.min(...corners.map((corner) => corner[1]));
      tape.check('gauge length', long, pass.to_mm - pass.from_mm, pass.name);
      for (const [radius, at] of placesOn(pass)) {
        tape.far('gauge outline', farFrom([...corners, corners[0]], [radius, at - pass.from_mm]), `${pass.name}, radius ${radius} at ${at}`);
      }
    }
    assert.ok(tens.length > 0, `${pass.name} has stations`);
    const start = pass.from_mm - markStation(design, pass.axis);
    tens.forEach(({ written, at }) => tape.check('gauge stations', at, written - start, pass.name));
  }
}

/** A card for a hollow is as wide at the mouth as the hollow, and as deep as its floor. */
function measureInside(tape, design, templates) {
  for (const { axis, shape: { round_ended: { diameter_mm: wide, depth_mm: deep } } } of cutsOf(design, 'hollow')) {
    for (const { corners, mouth } of insideGauges(templates.get(`Inside gauge, axis ${axis}`))) {
      tape.check('inside gauge', Math.max(...corners.map((corner) => corner[1])) - mouth, deep, 'depth');
      const onMouth = corners.filter((corner) => Math.abs(corner[1] - mouth) < TRUE_MM).map((corner) => corner[0]);
      for (const side of [-1, 1]) {
        tape.far('inside gauge', Math.min(...onMouth.map((x) => Math.abs(x - (side * wide) / 2))), `mouth, ${wide} wide`);
      }
    }
  }
}

/** The lip edge goes once round the bowl, and the saw line leaves it where the saw enters; further back by `straight`. */
function measureWrap(tape, design, templates) {
  const { outlines, lines } = wrap(templates.get('Saw line, unrolled'));
  const [saw] = cutsOf(design, 'saw');
  const bowl = cutsOf(design, 'pass').find((pass) => pass.name === 'bowl').profile.drawn.nodes;
  const lip = bowl.findIndex((node) => node.at_mm >= 0);
  const after = bowl[lip].at_mm > 0 ? [bowl[lip - 1], bowl[lip]] : [bowl[lip], bowl[lip + 1]];
  const [start, end] = after.map((node) => [node.diameter_mm / 2, node.at_mm]);
  const slope = (end[0] - start[0]) / (end[1] - start[1]);
  const radius = start[0] - slope * start[1];
  const length = (chain) => chain.slice(1).reduce((sum, p, i) => sum + Math.hypot(p[0] - chain[i][0], p[1] - chain[i][1]), 0);
  for (const outline of outlines) {
    // The outline begins with its lip edge, which ends where it is as far to the other side.
    const last = outline.findIndex((p) => apart(p, [-outline[0][0], outline[0][1]]) < TRUE_MM);
    const edge = outline.slice(0, last + 1);
    tape.check('wrap around', length(edge), 2 * Math.PI * radius, 'lip edge');
    const way = radius * Math.acos(sawHeight(saw, 0) / radius);
    const half = [[0, 0], ...edge.filter(([x]) => x > TRUE_MM)];
    for (const line of lines) {
      const [right] = [line[0], line.at(-1)].sort((a, b) => b[0] - a[0]);
      const past = half.filter((p) => p[0] < right[0]);
      tape.check('saw line at the lip', length([...past, right]), way, 'right of the middle');
    }
  }
  return { lines, radius, slope, saw, to: end[1] };
}

/** On a cylinder and on a cone every place of the saw line is as high as the saw there: the textbook developments. */
function measureSawLine(tape, { lines, radius, slope, saw, to }) {
  const sine = slope / Math.hypot(1, slope);
  const stop = saw.path.lines.points.at(-1).at_mm;
  assert.ok(stop < to && lines.length > 0);
  for (const [u, v] of lines.flat()) {
    let [at, clock, here] = [v, u / radius, radius];
    if (slope !== 0) {
      // Way from the point of the cone, and the angle about it; both are below zero where the bowl narrows.
      const hoop = Math.sign(slope) * Math.hypot(u, v + radius / sine);
      at = (hoop - radius / sine) * Math.sqrt(1 - sine * sine);
      here = hoop * sine;
      clock = Math.asin(u / hoop) / sine;
    }
    const above = here * Math.cos(clock) - sawHeight(saw, at);
    // Where it ends in the wood, the saw goes straight up.
    const off = above > 0 ? Math.min(above, Math.abs(at - stop)) : -above;
    tape.far('saw line', off, `at ${u} ${v} of the paper`);
  }
}

/** Lines and words are seen on some page, in black, within the paper, and made of lines, not of dots. */
function measurePages(tape, pages, templates, [width, height], correction) {
  for (const page of pages) {
    // Chromium cuts the paper to whole points or CSS pixels.
    assert.ok(Math.abs(page.width - width) < 0.3 && Math.abs(page.height - height) < 0.3, `${page.width} by ${page.height}`);
    assert.equal(page.images, 0);
    const inked = [...page.strokes, ...page.words, ...page.fills.filter(({ colour }) => colour !== '255,255,255')];
    inked.forEach(({ colour }) => assert.equal(colour, '0,0,0'));
    const words = page.words.map((it) => ({ text: it.text, ...boxOfWords(it), clip: it.clip }));
    words.forEach((it, i) => {
      // What a page cuts off, the next page shows.
      const cut = it.clip.left > 5 && (it.right > it.clip.right || it.bottom > it.clip.bottom || it.left < it.clip.left || it.top < it.clip.top);
      const clear = it.left > 5 && it.top > 5 && it.right < width - 5 && it.bottom < height - 5;
      assert.ok(cut || clear, `"${it.text}" stands on the paper`);
      const over = words.slice(i + 1).find((other) =>
        it.left < other.right && other.left < it.right && it.top < other.bottom && other.top < it.bottom);
      assert.ok(!over, `"${it.text}" stands over "${over?.text}"`);
    });
    checkLines(page).forEach((line, way) => {
      assert.ok(line, `a check line ${['across', 'along'][way]}`);
      tape.check('check lines', line.length, 101.6 * correction[way], '4 in');
      [0, 100, 101.6].forEach((mark, i) => tape.check('check lines', line.marks[i], mark * correction[way], `${mark} mm`));
    });
  }
  for (const { title, strokes, windows } of templates.values()) {
    const seen = ([x, y]) => windows.some((w) => x > w.left - 0.01 && x < w.right + 0.01 && y > w.top - 0.01 && y < w.bottom + 0.01);
    for (const { points } of strokes) assert.ok(points.every(seen), `every line of ${title} is on some page`);
  }
}

/** Measures everything; answers how far the farthest of each kind is off, and the templates by their titles. */
export function measureAll(design, pages, size, correction = [1, 1]) {
  const tape = new Tape();
  const templates = templatesOn(pages, correction);
  measurePages(tape, pages, templates, size, correction);
  measureFaces(tape, design, templates);
  measureSticks(tape, design, templates);
  measureGauges(tape, design, templates);
  measureInside(tape, design, templates);
  const unrolled = measureWrap(tape, design, templates);
  if (unrolled.saw.path.lines) measureSawLine(tape, unrolled);
  return { tape, templates };
}
