//! Follows the kept surface of one hollow: what of it is kept, and along which lines it ends.
//!
//! The sheet is halved again and again. A clearance changes by no more than the way travelled, so a patch whose middle
//! is farther from an end than the patch reaches is wholly kept or wholly gone. Leaves, half an element long, that are
//! neither are cut by a chord, and halved further where one chord does not do.

use std::f64::consts::{PI, TAU};

use smallvec::SmallVec;

use super::bound::{Bound, Edge, Patch};
use super::elements::{Elements, Pile};
use super::sheet::{Flux, Sheet};
use crate::geometry::Vector;

/// Side of the patches in which an end line may hide that passes between their corners, in mm, unless the hollow is
/// very large.
const SMALLEST: f64 = 0.5;
/// An element's side is at most this many of the smallest patches.
const MOST_SMALLEST: f64 = 24.0;
/// An element's side is this many leaves.
const LEAVES: f64 = 2.0;
/// A leaf is plainly on one side when its clearances are more than this share of its reach.
const PLAIN: f64 = 0.25;
/// An end line's chords stay this near to the line itself, in mm.
const CHORD: f64 = 0.006;
/// A leaf is halved this often more to bring its chord near to the line.
const FINEST: u32 = 9;
/// A surface on the very border of a region counts as taken; the shift keeps borders off the lines of the sheet, in mm.
const NUDGE: f64 = 1e-7;
/// After this many patches the rest is judged by their middles.
const MOST_PATCHES: usize = 60_000;

/// A short straight piece of an end line.
#[derive(Clone, Copy, Debug)]
pub(super) struct Chord {
    pub from: Vector,
    pub to: Vector,
    pub edge: Edge,
}

impl Chord {
    /// Its mirror image in the upright plane x = 0.
    pub(super) fn mirrored(self) -> Self {
        let mirrored = |p: Vector| Vector::new(-p.x, p.y, p.s);
        Self { from: mirrored(self.to), to: mirrored(self.from), edge: self.edge }
    }
}

/// What is gathered from the surfaces of all hollows.
#[derive(Default)]
pub(super) struct Traced {
    pub elements: Elements,
    pub chords: Vec<Chord>,
    /// Points along the lines where two hollows meet.
    pub seams: Vec<Vector>,
    /// Flux of (x, 0, 0) out of the kept surfaces, in mm3.
    pub flux_of_x: f64,
    /// Only the side x >= 0 was followed; elements and flux stand for both.
    pub one_side: bool,
}

type Active = SmallVec<[usize; 8]>;

/// Follows one hollow.
pub(super) struct Tracer<'a> {
    sheet: &'a Sheet<'a>,
    bounds: &'a [Bound<'a>],
    /// The hollow's place among the removals' cuts, to share out surfaces that two hollows have in common.
    own: usize,
    size: f64,
    leaf: f64,
    smallest: f64,
    patches: usize,
    out: &'a mut Traced,
}

/// A patch of the sheet.
#[derive(Clone, Copy)]
struct Cell {
    u: (f64, f64),
    clock: (f64, f64),
    /// The greatest radius in it.
    radius: f64,
}

/// A place on the sheet.
type Place = (f64, f64);

/// A place and the least clearance there.
type Known = (Place, f64);

impl<'a> Tracer<'a> {
    /// A tracer whose elements are about `size` mm long.
    pub(super) fn new(
        sheet: &'a Sheet<'a>,
        bounds: &'a [Bound<'a>],
        own: usize,
        size: f64,
        out: &'a mut Traced,
    ) -> Self {
        let smallest = SMALLEST.max(size / MOST_SMALLEST);
        Self { sheet, bounds, own, size, leaf: size / LEAVES, smallest, patches: 0, out }
    }

    /// Follows the whole surface.
    pub(super) fn run(&mut self) {
        for (from, to) in self.sheet.bands(self.size) {
            self.band(from, to, TAU);
        }
    }

    /// Follows the surface on the side x >= 0 and lets it stand for both sides: for one that [`Self::is_mirrored`].
    pub(super) fn run_one_side(&mut self) {
        for (from, to) in self.sheet.bands(self.size) {
            self.band(from, to, PI);
        }
        self.out.elements.double();
        self.out.flux_of_x *= 2.0;
        self.out.one_side = true;
    }

    /// Whether both sides of the upright plane x = 0 are alike: the hollow is, and all that comes near it.
    pub(super) fn is_mirrored(&self) -> bool {
        let mut lopsided = (0..self.bounds.len()).filter(|bound| !self.bounds[*bound].is_mirrored());
        let bands = self.sheet.bands(self.size);
        let is_clear = |bound| bands.iter().all(|(from, to)| self.around(bound, *from, *to) == Verdict::Clear);
        self.sheet.hollow.axis.is_in_upright_plane() && lopsided.all(is_clear)
    }

    /// Follows a band from straight up through `turn` radians.
    fn band(&mut self, from: f64, to: f64, turn: f64) {
        let mut active = Active::new();
        for bound in 0..self.bounds.len() {
            match self.around(bound, from, to) {
                Verdict::Clear => {}
                Verdict::Gone => return,
                Verdict::Mixed => active.push(bound),
            }
        }
        let radius = self.sheet.largest_radius(from, to);
        let count = (turn * radius / (4.0 * self.size)).ceil().clamp((turn * (4.0 / TAU)).ceil(), 1000.0);
        let step = turn / count;
        for i in 0..count as usize {
            let clock = (step * i as f64, step * (i as f64 + 1.0));
            self.cell(Cell { u: (from, to), clock, radius }, &active);
        }
    }

    /// Judges one bound over a whole band, in narrower and narrower rings as long as that may help.
    fn around(&self, bound: usize, from: f64, to: f64) -> Verdict {
        let radius = self.sheet.largest_radius(from, to);
        let cell = Cell { u: (from, to), clock: (-PI, PI), radius };
        let patch = self.patch(&cell);
        let clearance = self.clearance(bound, patch.middle);
        let reach = self.bounds[bound].reach(&patch, &self.sheet.hollow.axis);
        if clearance > reach {
            return Verdict::Clear;
        }
        if clearance < -reach {
            return Verdict::Gone;
        }
        let of_turning = reach - patch.half_length;
        if of_turning > clearance.abs() || to - from < self.smallest / 4.0 {
            return Verdict::Mixed;
        }
        let middle = (from + to) / 2.0;
        match self.around(bound, from, middle) {
            Verdict::Mixed => Verdict::Mixed,
            first if first == self.around(bound, middle, to) => first,
            _ => Verdict::Mixed,
        }
    }

    fn clearance(&self, bound: usize, point: Vector) -> f64 {
        let bound = &self.bounds[bound];
        let nudge = match bound.edge {
            Edge::Hollow(other) if other > self.own => NUDGE,
            _ => -NUDGE,
        };
        bound.clearance(point) + nudge
    }

    /// The least clearance of the active bounds at a place, and whose it is.
    fn least(&self, active: &Active, place: Place) -> (f64, usize) {
        let point = self.sheet.point(place.0, place.1);
        let mut least = (f64::INFINITY, 0);
        for &bound in active {
            let clearance = self.clearance(bound, point);
            if clearance < least.0 {
                least = (clearance, bound);
            }
        }
        least
    }

    fn patch(&self, cell: &Cell) -> Patch {
        let (t, r) = self.sheet.at((cell.u.0 + cell.u.1) / 2.0);
        let axis = &self.sheet.hollow.axis;
        Patch {
            middle: axis.point(t, r, (cell.clock.0 + cell.clock.1) / 2.0),
            centre: axis.origin() + axis.along() * t,
            radius: cell.radius,
            half_length: cell.half_length(),
            half_arc: cell.half_arc(),
        }
    }

    fn cell(&mut self, cell: Cell, active: &Active) {
        self.patches += 1;
        let patch = self.patch(&cell);
        let mut left = Active::new();
        let mut least = f64::INFINITY;
        for &bound in active {
            let clearance = self.clearance(bound, patch.middle);
            let reach = self.bounds[bound].reach(&patch, &self.sheet.hollow.axis);
            if clearance < -reach {
                return;
            }
            if clearance <= reach {
                left.push(bound);
                least = least.min(clearance);
            }
        }
        if left.is_empty() || (self.patches > MOST_PATCHES && least > 0.0) {
            self.keep(&cell);
        } else if self.patches > MOST_PATCHES {
            // Too large a share of the surface lies on a border: its middle decides.
        } else if cell.fits(self.leaf) {
            let mut pile = Pile::default();
            let corners = cell.corners().map(|place| (place, self.least(&left, place).0));
            self.leaf(&cell, &left, corners, 0, &mut pile);
            if let Some(element) = pile.into_element() {
                self.out.elements.push_group(self.own, &[element]);
            }
        } else {
            for half in cell.halves() {
                self.cell(half, &left);
            }
        }
    }

    /// Adds a wholly kept patch.
    fn keep(&mut self, cell: &Cell) {
        let along = (2.0 * cell.half_length() / self.size).ceil().max(1.0);
        let around = (2.0 * cell.half_arc() / self.size).ceil().max(1.0);
        let (du, dc) = ((cell.u.1 - cell.u.0) / along, (cell.clock.1 - cell.clock.0) / around);
        for i in 0..along as usize {
            let from = cell.u.0 + du * i as f64;
            let nodes = self.sheet.nodes(from, from + du);
            for j in 0..around as usize {
                self.square(&nodes, cell.clock.0 + dc * (j as f64 + 0.5), dc / 2.0);
            }
        }
    }

    /// Adds a wholly kept patch of element size as two by two elements (Gauss).
    fn square(&mut self, nodes: &super::sheet::Nodes, clock: f64, half_turn: f64) {
        let mut four = [(Vector::ZERO, Vector::ZERO); 4];
        let off = half_turn / 3.0_f64.sqrt();
        for (i, (u, flux)) in nodes.iter().enumerate() {
            for (j, clock) in [clock - off, clock + off].into_iter().enumerate() {
                let element = (self.sheet.point(*u, clock), self.vector_area(*flux, clock, half_turn));
                self.out.flux_of_x -= element.0.x * element.1.x;
                four[2 * i + j] = element;
            }
        }
        self.out.elements.push_group(self.own, &four);
    }

    fn vector_area(&self, flux: Flux, clock: f64, turn: f64) -> Vector {
        let axis = &self.sheet.hollow.axis;
        let (sin, cos) = clock.sin_cos();
        let outward = axis.right() * sin + axis.up() * cos;
        axis.along() * (flux.along * turn) + outward * (flux.outward * turn)
    }

    /// Adds `share` of a small patch to a pile, as if at one place.
    fn add(&mut self, cell: &Cell, place: Place, share: f64, pile: &mut Pile) {
        let nodes = self.sheet.nodes(cell.u.0, cell.u.1);
        let flux =
            Flux { along: nodes[0].1.along + nodes[1].1.along, outward: nodes[0].1.outward + nodes[1].1.outward };
        let area = self.vector_area(flux, place.1, share * (cell.clock.1 - cell.clock.0));
        let point = self.sheet.point(place.0, place.1);
        self.out.flux_of_x -= point.x * area.x;
        pile.add(point, area);
    }

    /// Takes the kept part of one of the smallest patches, and the end line through it.
    fn leaf(&mut self, cell: &Cell, active: &Active, corners: [Known; 4], level: u32, pile: &mut Pile) {
        self.patches += 1;
        let mut outline: SmallVec<[(Place, Option<usize>); 8]> = SmallVec::new();
        for i in 0..4 {
            let (a, b) = (corners[i], corners[(i + 1) % 4]);
            if a.1 > 0.0 {
                outline.push((a.0, None));
            }
            if (a.1 > 0.0) != (b.1 > 0.0) {
                let (place, bound) = self.crossing(active, a, b);
                outline.push((place, Some(bound)));
            }
        }
        let uncut = outline.iter().all(|o| o.1.is_none());
        let may_hide = || !cell.fits(self.smallest) && !self.is_plainly_one_sided(cell, active, &corners);
        if uncut && level < FINEST && self.patches < MOST_PATCHES && may_hide() {
            self.quarter(cell, active, corners, level, pile);
            return;
        }
        if outline.is_empty() {
            return;
        }
        let next = |i: usize| (i + 1) % outline.len();
        let ends = |i: &usize| outline[*i].1.is_some() && outline[next(*i)].1.is_some();
        // A leaf cut once has one end line. Its outline is walked kept corner, crossing, crossing.
        let lines: SmallVec<[usize; 2]> = (0..outline.len()).filter(ends).collect();
        let off = |i: usize| {
            let (a, b) = (outline[i].0, outline[next(i)].0);
            self.least(active, ((a.0 + b.0) / 2.0, (a.1 + b.1) / 2.0)).0.abs()
        };
        let turns_off = |i: usize| outline[i].1 != outline[next(i)].1 || off(i) > CHORD;
        let finer = level < FINEST && self.patches < MOST_PATCHES;
        if finer && (lines.len() > 1 || lines.iter().any(|&i| turns_off(i))) {
            self.quarter(cell, active, corners, level, pile);
            return;
        }
        for &i in &lines {
            let (a, b) = (outline[i], outline[next(i)]);
            let edge = |end: Option<usize>| self.bounds[end.unwrap_or_default()].edge;
            let inward = |edge: Edge| matches!(edge, Edge::Hollow(_));
            if inward(edge(a.1)) || inward(edge(b.1)) {
                self.out.seams.push(self.sheet.point(a.0.0, a.0.1));
            } else {
                self.add_chords(a.0, b.0, edge(a.1));
            }
        }
        let places: SmallVec<[Place; 8]> = outline.iter().map(|o| o.0).collect();
        let (middle, share) = share_of(cell, &places);
        if share > 0.0 {
            self.add(cell, middle, share, pile);
        }
    }

    /// Adds the end line between two places: in as many chords as keep near to the curved surface.
    fn add_chords(&mut self, a: Place, b: Place, edge: Edge) {
        let at = |part: f64| self.sheet.point(a.0 + (b.0 - a.0) * part, a.1 + (b.1 - a.1) * part);
        let (mut from, end) = (at(0.0), at(1.0));
        let off = (at(0.5) - (from + end) * 0.5).length();
        let count = (off / CHORD).sqrt().ceil().clamp(1.0, 8.0);
        for i in 1..=count as usize {
            let to = if i == count as usize { end } else { at(i as f64 / count) };
            self.out.chords.push(Chord { from, to, edge });
            from = to;
        }
    }

    /// Whether a leaf with all corners on one side lies on it plainly: its middle too, and the least of the five
    /// clearances outweighs both how far the leaf is from flat and a share of its size.
    fn is_plainly_one_sided(&self, cell: &Cell, active: &Active, corners: &[Known; 4]) -> bool {
        let place = ((cell.u.0 + cell.u.1) / 2.0, (cell.clock.0 + cell.clock.1) / 2.0);
        let middle = self.least(active, place).0;
        let unevenness = (middle - corners.iter().map(|c| c.1).sum::<f64>() / 4.0).abs();
        let least = corners.iter().fold(middle.abs(), |least, c| least.min(c.1.abs()));
        let reach = (cell.half_length().powi(2) + cell.half_arc().powi(2)).sqrt();
        (middle > 0.0) == (corners[0].1 > 0.0) && least > (2.0 * unevenness).max(PLAIN * reach)
    }

    fn quarter(&mut self, cell: &Cell, active: &Active, corners: [Known; 4], level: u32, pile: &mut Pile) {
        let known = |place: Place| (place, self.least(active, place).0);
        let between = |a: Known, b: Known| known(((a.0.0 + b.0.0) / 2.0, (a.0.1 + b.0.1) / 2.0));
        let sides: [Known; 4] = std::array::from_fn(|i| between(corners[i], corners[(i + 1) % 4]));
        let middle = between(sides[0], sides[2]);
        for (i, quarter) in cell.quarters().iter().enumerate() {
            // Each quarter starts at the corner of its own number; its corners go round as the cell's do.
            let mut own = [corners[i], sides[i], middle, sides[(i + 3) % 4]];
            own.rotate_right(i);
            self.leaf(quarter, active, own, level + 1, pile);
        }
    }

    /// Where the least clearance is nothing, between a place where it is positive and one where it is not.
    fn crossing(&self, active: &Active, a: Known, b: Known) -> (Place, usize) {
        let at = |p: f64| (a.0.0 + (b.0.0 - a.0.0) * p, a.0.1 + (b.0.1 - a.0.1) * p);
        let (mut low, mut high) = ((0.0, a.1), (1.0, b.1));
        let mut found = (0.0, 0);
        let mut stayed = None;
        for _ in 0..40 {
            let secant = low.0 - low.1 * (high.0 - low.0) / (high.1 - low.1);
            let p = if secant.is_finite() { secant.clamp(low.0, high.0) } else { (low.0 + high.0) / 2.0 };
            let (value, bound) = self.least(active, at(p));
            found = (p, bound);
            if value.abs() < 1e-10 || high.0 - low.0 < 1e-12 {
                break;
            }
            // An end that stays twice is halved in value, so that it moves too.
            let low_moves = (value > 0.0) == (low.1 > 0.0);
            let again = stayed == Some(low_moves);
            stayed = Some(low_moves);
            if low_moves {
                low = (p, value);
                high.1 *= if again { 0.5 } else { 1.0 };
            } else {
                high = (p, value);
                low.1 *= if again { 0.5 } else { 1.0 };
            }
        }
        (at(found.0), found.1)
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Verdict {
    Clear,
    Gone,
    Mixed,
}

impl Cell {
    fn half_length(&self) -> f64 {
        (self.u.1 - self.u.0) / 2.0
    }

    fn half_arc(&self) -> f64 {
        self.radius * (self.clock.1 - self.clock.0) / 2.0
    }

    fn fits(&self, size: f64) -> bool {
        2.0 * self.half_length().max(self.half_arc()) <= size * (1.0 + 1e-9)
    }

    /// Halved across its longer side.
    fn halves(&self) -> [Self; 2] {
        if self.half_length() > self.half_arc() {
            let middle = (self.u.0 + self.u.1) / 2.0;
            [Self { u: (self.u.0, middle), ..*self }, Self { u: (middle, self.u.1), ..*self }]
        } else {
            let middle = (self.clock.0 + self.clock.1) / 2.0;
            [Self { clock: (self.clock.0, middle), ..*self }, Self { clock: (middle, self.clock.1), ..*self }]
        }
    }

    fn quarters(&self) -> [Self; 4] {
        let (u, c) = ((self.u.0 + self.u.1) / 2.0, (self.clock.0 + self.clock.1) / 2.0);
        let part = |u, clock| Self { u, clock, radius: self.radius };
        [
            part((self.u.0, u), (self.clock.0, c)),
            part((u, self.u.1), (self.clock.0, c)),
            part((u, self.u.1), (c, self.clock.1)),
            part((self.u.0, u), (c, self.clock.1)),
        ]
    }

    fn corners(&self) -> [Place; 4] {
        [(self.u.0, self.clock.0), (self.u.1, self.clock.0), (self.u.1, self.clock.1), (self.u.0, self.clock.1)]
    }
}

/// The middle of an outline within a cell, and its share of the cell.
fn share_of(cell: &Cell, outline: &[Place]) -> (Place, f64) {
    let origin = (cell.u.0, cell.clock.0);
    let scale = (cell.u.1 - cell.u.0, cell.clock.1 - cell.clock.0);
    let local = |p: Place| ((p.0 - origin.0) / scale.0, (p.1 - origin.1) / scale.1);
    let (mut twice, mut middle) = (0.0, (0.0, 0.0));
    for (i, place) in outline.iter().enumerate() {
        let (a, b) = (local(*place), local(outline[(i + 1) % outline.len()]));
        let cross = a.0 * b.1 - b.0 * a.1;
        twice += cross;
        middle = (middle.0 + (a.0 + b.0) * cross, middle.1 + (a.1 + b.1) * cross);
    }
    if twice.is_nan() || twice <= 1e-12 {
        return (origin, 0.0);
    }
    let (u, c) = (middle.0 / (3.0 * twice), middle.1 / (3.0 * twice));
    ((origin.0 + u * scale.0, origin.1 + c * scale.1), (twice / 2.0).min(1.0))
}
