//! Contents counted by their definition along upright columns on a lattice, and the cavity along the same columns.
//!
//! The lattice is turned against the blank, so that no upright wall of a hollow lies along its rows: a row more or less
//! along a wall would be an error as large as what is to be found out.

use skewline::geometry::{Intervals, Ray, Role, Solid, Vector};

use super::hollows;

/// How far the lattice is turned, in radians.
const TURN: f64 = 0.61;
/// Columns each way of a block that shares what of the rim may be lowest over it.
const BLOCK: usize = 12;

/// What a count comes to, in mm3.
#[derive(Clone, Copy, Debug, Default)]
pub struct Count {
    /// From every kept floor up to the envelope over the rim, or to the wood next above.
    pub heaped: f64,
    /// The same, and no farther than where the column leaves the blank, or comes into what a saw, a facing, a pass or a
    /// parting takes.
    pub struck: f64,
    /// The hollows past s = 0, within the outside and under every saw and facing.
    pub cavity: f64,
}

/// Contents at a pitch and an angle of repose, in radians, from about `across` columns each way; `rim` from
/// [`super::dense_rim`].
pub fn count(solid: &Solid, rim: &[Vector], pitch: f64, repose: f64, across: usize) -> Count {
    let (sin, cos) = pitch.sin_cos();
    let (turn_sin, turn_cos) = TURN.sin_cos();
    let (x, level) = (Vector::new(1.0, 0.0, 0.0), Vector::new(0.0, sin, cos));
    let frame = Frame {
        right: x * turn_cos + level * turn_sin,
        forth: level * turn_cos - x * turn_sin,
        up: Vector::new(0.0, cos, -sin),
    };
    let raised: Vec<_> = rim.iter().map(|q| (q.dot(frame.right), q.dot(frame.forth), q.dot(frame.up))).collect();
    let rim = Rim { points: raised, slope: repose.tan() };
    let Some((from, to)) = shadow(solid, &frame) else { return Count::default() };
    let step = ((to.0 - from.0).max(to.1 - from.1) / across as f64).max(1e-3);
    let blocks = |low: f64, high: f64| ((high - low) / (step * BLOCK as f64)).ceil().max(1.0) as usize;
    let mut sum = Count::default();
    for i in 0..blocks(from.0, to.0) {
        for j in 0..blocks(from.1, to.1) {
            let corner = (from.0 + step * (i * BLOCK) as f64, from.1 + step * (j * BLOCK) as f64);
            let half = step * BLOCK as f64 / 2.0;
            let near = rim.near((corner.0 + half, corner.1 + half), half * std::f64::consts::SQRT_2);
            for k in 0..BLOCK * BLOCK {
                let (a, b) = ((k / BLOCK) as f64 + 0.5, (k % BLOCK) as f64 + 0.5);
                let place = (corner.0 + step * a, corner.1 + step * b);
                let start = frame.right * place.0 + frame.forth * place.1;
                sum.add(solid, Ray { start, direction: frame.up }, || near.height(place));
            }
        }
    }
    let area = step * step;
    Count { heaped: sum.heaped * area, struck: sum.struck * area, cavity: sum.cavity * area }
}

struct Frame {
    right: Vector,
    forth: Vector,
    up: Vector,
}

impl Count {
    fn add(&mut self, solid: &Solid, column: Ray, heap: impl FnOnce() -> f64) {
        let hollow = hollows(solid).fold(Intervals::none(), |all, h| all.union(&h.along(column)));
        let open = solid.removals.iter().filter(|r| r.role != Role::Inside);
        let inside = solid.stock.along(column).intersection(&hollow);
        let cavity = open.fold(inside, |left, removal| left.minus(&removal.region.along(column)));
        if cavity.is_empty() {
            return;
        }
        self.cavity += cavity.length();
        let wood: Vec<_> = solid.finished().along(column).iter().collect();
        let floors: Vec<_> = (0..wood.len()).filter(|i| is_floor(solid, column.at(wood[*i].1))).collect();
        if floors.is_empty() {
            return;
        }
        let heap = heap();
        for i in floors {
            let floor = wood[i].1;
            let lid = wood.get(i + 1).map_or(f64::INFINITY, |next| next.0);
            let way_out =
                cavity.iter().find(|(from, to)| *from <= floor + 1e-6 && floor < *to).map_or(floor, |it| it.1);
            self.heaped += (heap.min(lid) - floor).max(0.0);
            self.struck += (heap.min(lid).min(way_out) - floor).max(0.0);
        }
    }
}

/// Whether the top of some wood is the kept surface of a hollow.
fn is_floor(solid: &Solid, top: Vector) -> bool {
    top.s > 1e-9 && hollows(solid).any(|h| h.signed_distance(top).abs() < 1e-6)
}

struct Rim {
    points: Vec<(f64, f64, f64)>,
    slope: f64,
}

impl Rim {
    fn height(&self, place: (f64, f64)) -> f64 {
        let over = |q: &(f64, f64, f64)| q.2 + self.slope * (q.0 - place.0).hypot(q.1 - place.1);
        self.points.iter().map(over).fold(f64::INFINITY, f64::min)
    }

    /// What of it may be lowest within a radius of a place: heights change by no more than the slope.
    fn near(&self, place: (f64, f64), radius: f64) -> Self {
        let highest = self.height(place) + 2.0 * self.slope * radius + 1e-9;
        let may = |q: &(f64, f64, f64)| q.2 + self.slope * (q.0 - place.0).hypot(q.1 - place.1) <= highest;
        let mut points: Vec<_> = self.points.iter().copied().filter(may).collect();
        if self.slope == 0.0 {
            points.truncate(1);
        }
        Self { points, slope: self.slope }
    }
}

/// The corners, seen from above, of a rectangle that holds what of the hollows may lie in the blank.
fn shadow(solid: &Solid, frame: &Frame) -> Option<((f64, f64), (f64, f64))> {
    let (mut from, mut to) = ((f64::INFINITY, f64::INFINITY), (f64::NEG_INFINITY, f64::NEG_INFINITY));
    let wide = solid.stock.half_width() + 1.0;
    for hollow in hollows(solid) {
        let meridian = super::way_out_and_floor(hollow);
        let length = super::length(&meridian);
        for i in 0..=300 {
            let (t, r) = super::place(&meridian, length * f64::from(i) / 300.0);
            for k in 0..90 {
                let p = hollow.axis.point(t, r, std::f64::consts::TAU * f64::from(k) / 90.0);
                if p.s < -1.0 || p.s > solid.stock.length + 1.0 || p.x.abs().max(p.y.abs()) > wide {
                    continue;
                }
                let (a, b) = (p.dot(frame.right), p.dot(frame.forth));
                from = (from.0.min(a - 1.0), from.1.min(b - 1.0));
                to = (to.0.max(a + 1.0), to.1.max(b + 1.0));
            }
        }
    }
    (from.0 < to.0).then_some((from, to))
}
