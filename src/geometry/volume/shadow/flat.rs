//! How far wood reaches along a plane that a piece lies on.

use super::hull::{Corner, DUST, HAIR};
use super::plain::planes_of;
use crate::geometry::frame::vector::Vector;
use crate::geometry::region::revolved::Ray;
use crate::geometry::region::solid::State;

/// Wood is looked for this far under a plane, in mm. A feather that leans from the plane by a slope is followed to within
/// this over the slope from its edge.
const UNDER: f64 = 1e-8;
/// Corners of a hull nearer to a plane than this may be of a feather that ends on it, in mm.
const BESIDE: f64 = 2e-4;
/// Ends are found within this, in mm.
const WITHIN: f64 = 1e-5;
/// An edge that turns from a plane by more than this is none of it.
const LEAN: f64 = 1e-3;

/// The planes square to the side view that a piece may lie on.
pub struct Flats<'a> {
    state: State<'a>,
    planes: Vec<[[f64; 2]; 2]>,
}

/// A line in the side view that a plane shows, and the way into the wood.
#[derive(Clone, Copy)]
struct Level {
    at: [f64; 2],
    along: [f64; 2],
}

impl<'a> Flats<'a> {
    /// Those of a state, without its plug.
    #[must_use]
    pub fn of(state: &State<'a>) -> Self {
        let state = State { plug: None, ..*state };
        Self { planes: planes_of(&state), state }
    }

    /// Both ends, from `a` toward `b`, of the wood on the plane that an edge of a hull lies in: the outermost on either side,
    /// within 1e-5 mm, whatever is between; `None` where the edge lies in no plane. The wood is on the left.
    ///
    /// Hulls show planes only to 1e-3 mm: a feather of wood beside one may break its edge in two.
    #[must_use]
    pub fn ends(&self, hull: &[Corner], a: [f64; 2], b: [f64; 2]) -> Option<[[f64; 2]; 2]> {
        let (ds, dy) = (b[0] - a[0], b[1] - a[1]);
        let length = ds.hypot(dy);
        let level = self.planes.iter().filter_map(|[p, q]| Level::new(*p, *q, [ds, dy])).find(|level| {
            let (under_a, under_b) = (level.under(a).abs(), level.under(b).abs());
            let turned = (under_a - under_b).abs() < LEAN * length;
            turned && under_a.max(under_b) < BESIDE && under_a.min(under_b) < 2.0 * HAIR
        })?;
        let places = || hull.iter().filter(|corner| level.under(corner.at).abs() < BESIDE).map(|c| level.place(c.at));
        let end = |turn: f64| {
            let outermost =
                places().map(|place| turn * place).filter(|place| self.is_wood(level, turn * (place - WITHIN)));
            let from = outermost.fold(f64::NEG_INFINITY, f64::max);
            from.is_finite().then(|| level.point(turn * self.last_wood(level, turn, from - WITHIN)))
        };
        Some([end(-1.0)?, end(1.0)?])
    }

    /// The last place, the way `turn`, to which wood goes on from `from`, both counted that way.
    fn last_wood(&self, level: Level, turn: f64, from: f64) -> f64 {
        /// The first step, and the most of them, each twice the last: no wood is longer than that.
        const STEP: f64 = 1e-3;
        const MOST: i32 = 24;
        let is_wood = |place: f64| self.is_wood(level, turn * place);
        let (mut low, mut high) = (from, from + STEP);
        for _ in 0..MOST {
            if !is_wood(high) {
                break;
            }
            (low, high) = (high, high + 2.0 * (high - low));
        }
        while high - low > WITHIN {
            let middle = f64::midpoint(low, high);
            if is_wood(middle) { low = middle } else { high = middle }
        }
        low
    }

    /// Whether there is wood on a level at a place, anywhere across.
    fn is_wood(&self, level: Level, place: f64) -> bool {
        let [s, y] = level.point(place);
        let start = Vector::new(0.0, y + UNDER * level.along[0], s - UNDER * level.along[1]);
        let across = self.state.along(Ray { start, direction: Vector::new(1.0, 0.0, 0.0) });
        across.iter().any(|(from, to)| to - from > DUST)
    }
}

impl Level {
    /// The line through two points, the way that an edge runs.
    fn new(p: [f64; 2], q: [f64; 2], edge: [f64; 2]) -> Option<Self> {
        let (ds, dy) = (q[0] - p[0], q[1] - p[1]);
        let length = ds.hypot(dy).copysign(ds * edge[0] + dy * edge[1]);
        (length != 0.0).then(|| Self { at: p, along: [ds / length, dy / length] })
    }

    fn place(self, p: [f64; 2]) -> f64 {
        (p[0] - self.at[0]) * self.along[0] + (p[1] - self.at[1]) * self.along[1]
    }

    fn point(self, place: f64) -> [f64; 2] {
        [self.at[0] + self.along[0] * place, self.at[1] + self.along[1] * place]
    }

    /// How far a point lies on the wood's side, in mm.
    fn under(self, p: [f64; 2]) -> f64 {
        self.along[0] * (p[1] - self.at[1]) - self.along[1] * (p[0] - self.at[0])
    }
}
