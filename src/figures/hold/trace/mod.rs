//! Follows the kept surface of one hollow: what of it is kept, and along which lines it ends.
//!
//! The sheet is halved again and again. A clearance changes by no more than the way travelled, so a patch whose middle
//! is farther from an end than the patch reaches is wholly kept or wholly gone. Leaves, half an element long, that are
//! neither are cut by a chord, and halved further where one chord does not do.

mod cell;
mod holes;
mod leaf;

use std::f64::consts::{PI, TAU};

use smallvec::SmallVec;

use cell::{Cell, Spot};

use super::bound::{Patch, RimEdge, SheetEnd};
use super::elements::{Elements, Pile};
use super::sheet::{Flux, bands, flux_at, largest_radius, nodes};
use crate::geometry::surface::{HollowSurface, Sheet};
use crate::geometry::{Axis, Pace, Vector};

/// Side of the patches in which an end line may hide that passes between their corners, in mm, unless the hollow is
/// very large.
const SMALLEST: f64 = 0.5;
/// An element's side is at most this many of the smallest patches.
const MOST_SMALLEST: f64 = 24.0;
/// An element's side is this many leaves.
const LEAVES: f64 = 2.0;
/// After this many patches the rest is judged by their middles.
const MOST_PATCHES: usize = 60_000;

/// A short straight piece of an end line.
#[derive(Clone, Copy, Debug)]
pub(super) struct Chord {
    pub from: Vector,
    pub to: Vector,
    pub edge: RimEdge,
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
    axis: &'a Axis,
    bounds: Vec<SheetEnd<'a>>,
    /// The hollow, by its cut.
    own: usize,
    size: f64,
    leaf: f64,
    smallest: f64,
    patches: usize,
    /// Places where the wall is known to be broken through.
    holes: Vec<Spot>,
    out: &'a mut Traced,
}

impl<'a> Tracer<'a> {
    /// A tracer whose elements are about `size` mm long.
    pub(super) fn new(surface: &'a HollowSurface<'a>, size: f64, out: &'a mut Traced) -> Self {
        let sheet = &surface.sheet;
        let axis = &sheet.hollow().axis;
        let bounds = surface.endings().iter().map(|ending| SheetEnd::new(surface.solid, ending, axis)).collect();
        let smallest = SMALLEST.max(size / MOST_SMALLEST);
        Self {
            sheet,
            axis,
            bounds,
            own: surface.cut,
            size,
            leaf: size / LEAVES,
            smallest,
            patches: 0,
            holes: Vec::new(),
            out,
        }
    }

    /// Follows the whole surface; `broken` are points where it is known to be broken through.
    pub(super) async fn run(&mut self, broken: &[Vector], pace: &Pace) {
        broken.iter().for_each(|point| self.note_hole(*point, false));
        for (from, to) in bands(self.sheet, self.size) {
            self.band(from, to, TAU, pace).await;
        }
    }

    /// As [`Self::run`], but follows the surface on the side x >= 0 and lets it stand for both sides: for one that [`Self::is_mirrored`].
    pub(super) async fn run_one_side(&mut self, broken: &[Vector], pace: &Pace) {
        broken.iter().for_each(|point| self.note_hole(*point, true));
        for (from, to) in bands(self.sheet, self.size) {
            self.band(from, to, PI, pace).await;
        }
        self.out.elements.double();
        self.out.flux_of_x *= 2.0;
        self.out.one_side = true;
    }

    /// Whether both sides of the upright plane x = 0 are alike: the hollow is, and all that comes near it.
    pub(super) fn is_mirrored(&self) -> bool {
        let mut lopsided = (0..self.bounds.len()).filter(|bound| !self.bounds[*bound].is_mirrored);
        let bands = bands(self.sheet, self.size);
        let is_clear = |bound| bands.iter().all(|(from, to)| self.around(bound, *from, *to) == Verdict::Clear);
        self.axis.is_in_upright_plane() && lopsided.all(is_clear)
    }

    /// Follows a band from straight up through `turn` radians.
    async fn band(&mut self, from: f64, to: f64, turn: f64, pace: &Pace) {
        let mut active = Active::new();
        for bound in 0..self.bounds.len() {
            match self.around(bound, from, to) {
                Verdict::Clear => {}
                Verdict::Gone => return,
                Verdict::Mixed => active.push(bound),
            }
        }
        let radius = largest_radius(self.sheet, from, to);
        let count = (turn * radius / (4.0 * self.size)).ceil().clamp((turn * (4.0 / TAU)).ceil(), 1000.0);
        let step = turn / count;
        for i in 0..count as usize {
            let clock = (step * i as f64, step * (i as f64 + 1.0));
            self.cell(Cell { u: (from, to), clock, radius }, &active);
            pace.pause().await;
        }
    }

    /// Judges one bound over a whole band, in narrower and narrower rings as long as that may help.
    fn around(&self, bound: usize, from: f64, to: f64) -> Verdict {
        let radius = largest_radius(self.sheet, from, to);
        let cell = Cell { u: (from, to), clock: (-PI, PI), radius };
        let patch = self.patch(&cell);
        let clearance = self.bounds[bound].clearance(&patch.middle);
        let reach = self.bounds[bound].reach(&patch, self.axis);
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

    /// The least clearance of the active bounds at a place, and whose it is.
    fn least(&self, active: &Active, place: Spot) -> (f64, usize) {
        let at = self.sheet.see(place);
        let mut least = (f64::INFINITY, 0);
        for &bound in active {
            let clearance = self.bounds[bound].clearance(&at);
            if clearance < least.0 {
                least = (clearance, bound);
            }
        }
        least
    }

    fn patch(&self, cell: &Cell) -> Patch {
        let middle = self.sheet.see(cell.middle());
        Patch {
            middle,
            centre: self.axis.origin() + self.axis.along() * middle.t,
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
            let clearance = self.bounds[bound].clearance(&patch.middle);
            let reach = self.bounds[bound].reach(&patch, self.axis);
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
            let nodes = nodes(self.sheet, from, from + du);
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
                let element = (self.sheet.point(Spot::new(*u, clock)), self.vector_area(*flux, clock, half_turn));
                self.out.flux_of_x -= element.0.x * element.1.x;
                four[2 * i + j] = element;
            }
        }
        self.out.elements.push_group(self.own, &four);
    }

    fn vector_area(&self, flux: Flux, clock: f64, turn: f64) -> Vector {
        let (sin, cos) = clock.sin_cos();
        let outward = self.axis.right() * sin + self.axis.up() * cos;
        self.axis.along() * (flux.along * turn) + outward * (flux.outward * turn)
    }

    /// Adds `share` of a small patch to a pile, as if at the middle of that share. Exact for a flux that changes evenly.
    fn add(&mut self, cell: &Cell, middle: Spot, share: f64, pile: &mut Pile) {
        let flux = flux_at(&nodes(self.sheet, cell.u.0, cell.u.1), middle.u);
        let area = self.vector_area(flux, middle.clock, share * (cell.clock.1 - cell.clock.0));
        let point = self.sheet.point(middle);
        self.out.flux_of_x -= point.x * area.x;
        pile.add(point, area);
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Verdict {
    Clear,
    Gone,
    Mixed,
}
