// Invented designs that between them have everything on paper that can go wrong: pages that split either way, marks off
// to either side, several axes, a bowl whose outside is a cone. Their profiles are straight lines, so that every place
// on paper follows from the numbers here alone.

const line = (at_mm, diameter_mm) => ({ at_mm, diameter_mm });
const pass = (name, axis, ...nodes) => ({
  pass: { name, axis, from_mm: nodes[0].at_mm, to_mm: nodes.at(-1).at_mm, profile: { drawn: { nodes } } },
});
const saved = (design) => ({ format: 'skewline-design', version: 1, design });

/** Longer and wider than a page: sticks, gauges, faces and the wrap are split. */
export const LONG = saved({
  name: 'Long-handled barley scoop',
  notes: 'Invented.',
  wood: { species: 'Sapele', moisture_percent: 9 },
  contents: 'water',
  blank: { section: { square: { side_mm: 150 } }, length_mm: 640 },
  axes: [{ tilt: { tilt_deg: 3, toward_deg: 0, crossing_mm: 150 } }],
  cuts: [
    { hollow: { axis: 'A', mouth_mm: 0, shape: { round_ended: { diameter_mm: 80, depth_mm: 90, rounding_mm: 12 } } } },
    { fit_plug: { disc_diameter_mm: 104, thickness_mm: 14, spigot_diameter_mm: 79.5, spigot_length_mm: 12 } },
    pass('bowl', 'A', line(-14, 100), line(110, 100), line(150, 60), line(165, 58)),
    pass('handle', 'B', line(152, 56), line(200, 26), line(430, 30), line(615, 22)),
    'take_out_plug',
    { saw: { path: { lines: { points: [{ at_mm: 5, height_mm: -8 }, { at_mm: 95, height_mm: 35 }] } } } },
    { part: { axis: 'B', at_mm: 612, removes: 'head' } },
  ],
});

/** Two axes that pass A by, with marks on every side; a conical bowl; the end runs out to nothing. */
export const SKEW = saved({
  name: 'Cone scoop on skew axes',
  notes: 'Invented.',
  wood: { species: 'Sapele', moisture_percent: 9 },
  contents: 'water',
  blank: { section: { square: { side_mm: 70 } }, length_mm: 244 },
  axes: [
    { marks: { tail_x_mm: 5, tail_y_mm: -3, head_x_mm: -7, head_y_mm: 10 } },
    { marks: { tail_x_mm: -4, tail_y_mm: 6, head_x_mm: 9, head_y_mm: 4 } },
  ],
  cuts: [
    { hollow: { axis: 'A', mouth_mm: 0, shape: { round_ended: { diameter_mm: 34, depth_mm: 46, rounding_mm: 7 } } } },
    { fit_plug: { disc_diameter_mm: 52, thickness_mm: 13, spigot_diameter_mm: 33.6, spigot_length_mm: 9 } },
    pass('bowl', 'A', line(-13, 50), line(0, 50), line(72, 40)),
    pass('neck', 'B', line(72, 33), line(98, 17), line(150, 19)),
    pass('end', 'C', line(150, 20), line(205, 17), line(228, 0)),
    'take_out_plug',
    { saw: { path: { lines: { points: [{ at_mm: 4, height_mm: -5.5 }, { at_mm: 50, height_mm: 14 }] } } } },
    { part: { axis: 'C', at_mm: 228, removes: 'head' } },
  ],
});

/** A bore, and a small hollow across the blank from above. */
export const TWO_HOLLOWS = saved({
  ...LONG.design,
  name: 'Scoop with a well',
  axes: [...LONG.design.axes, { across: { station_mm: 300, from_deg: 0 } }],
  cuts: [
    ...LONG.design.cuts,
    { hollow: { axis: 'C', mouth_mm: -15, shape: { round_ended: { diameter_mm: 12, depth_mm: 8, rounding_mm: 2 } } } },
  ],
});

// --- What the design says ------------------------------------------------------------------------------------

/** The cuts of one kind. */
export const cutsOf = (design, kind) => design.cuts.filter((cut) => cut[kind]).map((cut) => cut[kind]);
/** The stations of the faces that the centres bear on: at the tail the plug's, with its tenon. */
export const endsOf = (design) => {
  const [plug] = cutsOf(design, 'fit_plug');
  return [-((plug?.thickness_mm ?? 0) + (plug?.tenon?.length_mm ?? 0)), design.blank.length_mm];
};
/** How far apart two places are. */
export const apart = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1]);
/** The letter of an axis. */
export const letter = (index) => 'ABCDEFG'[index];

/** The marks of every axis on both faces, x right and y up as held: mark = (face - crossing) tan(tilt). */
export function marksOf(design) {
  const placed = design.axes.map(({ tilt, marks }) => {
    if (marks) return [[marks.tail_x_mm, marks.tail_y_mm], [marks.head_x_mm, marks.head_y_mm]];
    const [angle, clock] = [tilt.tilt_deg, tilt.toward_deg].map((deg) => (deg * Math.PI) / 180);
    return endsOf(design).map((end) => (end - tilt.crossing_mm) * Math.tan(angle)).map((off) => [off * Math.sin(clock), off * Math.cos(clock)]);
  });
  return [[[0, 0], [0, 0]], ...placed];
}

/** How far its mark on the tail face lies from where an axis pierces s = 0, along the axis: below zero before a plug. */
export function markStation(design, axis) {
  if (axis === 'A') return 0;
  const [tail, head] = marksOf(design)['ABCDEFG'.indexOf(axis)];
  const [near, far] = endsOf(design);
  // The axis is longer than what it spans of the blank by one over the cosine of its tilt.
  return near * Math.hypot(1, apart(tail, head) / (far - near));
}

/** The stations of an axis at which a pass starts, turns or ends, a hollow ends, or the work is parted. */
export function stationsOf(design, axis) {
  const mine = (kind) => cutsOf(design, kind).filter((cut) => cut.axis === axis);
  const nodes = mine('pass').flatMap((pass) => [pass.from_mm, pass.to_mm, ...pass.profile.drawn.nodes.map((n) => n.at_mm)]);
  const hollows = mine('hollow').map(({ mouth_mm, shape }) => mouth_mm + shape.round_ended.depth_mm);
  return [0, ...nodes, ...hollows, ...mine('part').map((part) => part.at_mm)];
}

/** Places on a profile as radius and station: its nodes, and the crowns of its arcs. */
export function placesOn({ profile: { drawn: { nodes } } }) {
  const at = nodes.map((node) => [node.diameter_mm / 2, node.at_mm]);
  const crowns = nodes.slice(0, -1).flatMap((node, i) => {
    const bulge = node.curve?.arc?.bulge_mm;
    const [dr, dt] = [at[i + 1][0] - at[i][0], at[i + 1][1] - at[i][1]];
    const long = Math.hypot(dr, dt);
    return bulge ? [[(at[i][0] + at[i + 1][0]) / 2 + (bulge * dt) / long, (at[i][1] + at[i + 1][1]) / 2 - (bulge * dr) / long]] : [];
  });
  return [...at, ...crowns];
}

/** The height of a saw line over axis A at a station. */
export function sawHeight({ path: { lines, arc } }, at) {
  const [from, to] = lines ? lines.points : [arc.from, arc.to];
  const [run, rise] = [to.at_mm - from.at_mm, to.height_mm - from.height_mm];
  if (lines) return from.height_mm + (rise * (at - from.at_mm)) / run;
  // The circle through both ends, as far off their chord as it bulges.
  const [chord, bulge] = [Math.hypot(run, rise), arc.bulge_mm];
  const radius = (chord * chord) / 8 / bulge + bulge / 2;
  const off = bulge - radius;
  const middle = [from.at_mm + run / 2 - (off * rise) / chord, from.height_mm + rise / 2 + (off * run) / chord];
  return middle[1] + Math.sign(bulge) * Math.sqrt(radius * radius - (at - middle[0]) ** 2);
}
