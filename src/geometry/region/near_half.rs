//! Half-spaces that hold what is kept near a point.
//!
//! Near a point a curved surface lies beside a plane, but for the square of how near: a bound by that plane closes in on an
//! edge far sooner than one that grows the kept set all around.

use smallvec::{SmallVec, smallvec};

use crate::geometry::frame::axis::{Axis, Seen};
use crate::geometry::frame::station::Station;
use crate::geometry::frame::vector::Vector;
use crate::geometry::line::pace::spend;
use crate::geometry::region::keep::Keep;
use crate::geometry::region::sawn::Sawn;
use crate::geometry::region::stock::{Section, Stock};
use crate::geometry::region::turned::{Side, Slab, Turned};

/// All points with `normal . point <= offset`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct HalfSpaceNear {
    normal: Vector,
    offset: f64,
}

impl HalfSpaceNear {
    /// Cuts the convex hull of some points: what is left is within the hull of the points that are left. Cuts that would
    /// leave more than [`MOST_POINTS`] are passed over.
    fn cut(&self, points: &mut Vec<Vector>) {
        let over = |p: &Vector| p.dot(self.normal) - self.offset;
        if !points.iter().any(|p| over(p) > 0.0) {
            return;
        }
        let (out, mut left): (Vec<Vector>, Vec<Vector>) = points.iter().partition(|p| over(p) > 0.0);
        let within = left.len();
        spend(points.len());
        if within + out.len() * within > MOST_POINTS {
            return;
        }
        spend(out.len() * within);
        for p in &out {
            for i in 0..within {
                let q = left[i];
                let (a, b) = (over(p), over(&q));
                left.push(*p + (q - *p) * (a / (a - b)));
            }
        }
        *points = left;
    }
}

/// A bound has no more points than this. Every cut may square their number, and a bound that is not cut once more holds all
/// the same.
const MOST_POINTS: usize = 150;

/// Half-spaces of one kept set.
type Halves = SmallVec<[HalfSpaceNear; 2]>;

impl Keep<'_> {
    /// Half-spaces, each of which holds all of the set within `reach` mm of a point; none where no plane bounds it there.
    fn halves_near(&self, at: Vector, reach: f64) -> Halves {
        match self {
            Self::Bar(stock) => of_bar(stock, at).into_iter().collect(),
            Self::Turned(turned) => Near { turned, at, reach }.halves(),
            Self::Under(sawn) => of_saw(sawn, at, reach).into_iter().collect(),
            Self::Before(half) => smallvec![HalfSpaceNear { normal: half.into, offset: half.offset }],
            Self::Between(axis, from, to) => smallvec![before(axis, *to), after(axis, *from)],
        }
    }
}

/// All before a station of an axis.
fn before(axis: &Axis, t: f64) -> HalfSpaceNear {
    HalfSpaceNear { normal: axis.along(), offset: axis.origin().dot(axis.along()) + t }
}

/// All after a station of an axis.
fn after(axis: &Axis, t: f64) -> HalfSpaceNear {
    HalfSpaceNear { normal: -axis.along(), offset: -axis.origin().dot(axis.along()) - t }
}

/// The nearest of a bar's sides and ends.
fn of_bar(stock: &Stock, at: Vector) -> Option<HalfSpaceNear> {
    let half = |x: f64, y: f64, s: f64, offset: f64| HalfSpaceNear { normal: Vector::new(x, y, s), offset };
    let mut sides: SmallVec<[HalfSpaceNear; 6]> =
        smallvec![half(0.0, 0.0, -1.0, 0.0), half(0.0, 0.0, 1.0, stock.length)];
    match stock.section {
        Section::Square { half_side: w } => {
            sides.extend([
                half(1.0, 0.0, 0.0, w),
                half(-1.0, 0.0, 0.0, w),
                half(0.0, 1.0, 0.0, w),
                half(0.0, -1.0, 0.0, w),
            ]);
        }
        Section::Round { radius } => {
            sides.extend(Vector::new(at.x, at.y, 0.0).unit().map(|out| HalfSpaceNear { normal: out, offset: radius }));
        }
    }
    let over = |side: &HalfSpaceNear| at.dot(side.normal) - side.offset;
    sides.into_iter().max_by(|a, b| over(a).total_cmp(&over(b)))
}

fn of_saw(sawn: &Sawn, at: Vector, reach: f64) -> Option<HalfSpaceNear> {
    let (low, high) = (at.s - reach, at.s + reach);
    if high >= sawn.ends().1 {
        return None;
    }
    let mut pieces = sawn.points().windows(2).filter(|pair| pair[1].x >= low && pair[0].x <= high);
    let (piece, none) = (pieces.next()?, pieces.next());
    let slope = (piece[1].y - piece[0].y) / (piece[1].x - piece[0].x);
    let normal = Vector::new(0.0, 1.0, -slope);
    none.is_none().then(|| HalfSpaceNear { normal, offset: piece[0].y - slope * piece[0].x })
}

/// What cuts about one axis keep, near a point.
struct Near<'a> {
    turned: &'a Turned,
    at: Vector,
    reach: f64,
}

impl Near<'_> {
    fn halves(&self) -> Halves {
        let seen = self.turned.axis.see(self.at);
        let (low, high) = (seen.t - self.reach, seen.t + self.reach);
        let first = self.turned.slabs.partition_point(|slab| slab.to < low);
        let count = self.turned.slabs[first..].iter().take_while(|slab| slab.from <= high).count();
        let slabs = &self.turned.slabs[first..first + count];
        let keeps: SmallVec<[bool; 8]> =
            slabs.iter().map(|slab| self.may_keep(slab, seen.radius(), (low, high))).collect();
        let (Some(start), Some(end)) = (keeps.iter().position(|k| *k), keeps.iter().rposition(|k| *k)) else {
            // Nothing near is kept: two half-spaces with nothing in common.
            return smallvec![before(&self.turned.axis, low - 1.0), after(&self.turned.axis, high + 1.0)];
        };
        let mut halves = Halves::new();
        if start > 0 {
            halves.push(after(&self.turned.axis, slabs[start].from));
        }
        if end + 1 < count {
            halves.push(before(&self.turned.axis, slabs[end].to));
        }
        halves.extend(self.beside_cone(&slabs[start..=end], seen, (low, high)));
        halves
    }

    /// Whether a slab may keep something within reach of a point at a radius.
    fn may_keep(&self, slab: &Slab, radius: f64, (low, high): (f64, f64)) -> bool {
        let ends = [slab.radius(slab.from.max(low)), slab.radius(slab.to.min(high))];
        match slab.side {
            Side::All => true,
            Side::Nothing => false,
            Side::Under => ends[0].max(ends[1]) >= radius - self.reach,
            Side::Over => ends[0].min(ends[1]) <= radius + self.reach,
        }
    }

    /// The plane beside the surface of slabs that keep one side.
    fn beside_cone(&self, slabs: &[Slab], seen: Seen, (low, high): (f64, f64)) -> Option<HalfSpaceNear> {
        let (axis, reach) = (&self.turned.axis, self.reach);
        let side = slabs.first()?.side;
        if !matches!(side, Side::Under | Side::Over) || slabs.iter().any(|slab| slab.side != side) {
            return None;
        }
        let own = slabs.iter().find(|slab| slab.to >= seen.t).or(slabs.last())?;
        let radius = seen.radius();
        let out = (axis.right() * seen.right + axis.up() * seen.up).unit()?;
        // How far the profile leaves the line of its own slab.
        let off = |slab: &Slab| {
            let at = |t: f64| slab.radius(t) - own.radius(t);
            let (a, b) = (at(slab.from.max(low)), at(slab.to.min(high)));
            if side == Side::Under { a.max(b) } else { a.min(b) }
        };
        let worst = slabs.iter().map(off).fold(0.0, if side == Side::Under { f64::max } else { f64::min });
        // Kept is what has radius <= own.radius(t) + worst, or >= that.
        let normal = out - axis.along() * own.slope;
        let offset = normal.dot(axis.origin()) + own.radius(0.0) + worst;
        match side {
            Side::Under => Some(HalfSpaceNear { normal, offset }),
            // Aside from `out` the distance from the axis grows by no more than the square of the way over twice the
            // radius.
            _ if radius > 2.0 * reach => {
                let aside = reach * reach / (2.0 * (radius - reach));
                Some(HalfSpaceNear { normal: -normal, offset: -(offset - aside) })
            }
            _ => None,
        }
    }
}

/// Cuts a bound, points whose hull holds some wood, by what other cuts keep beside it.
pub(crate) fn cut_by(others: &[&Keep<'_>], bound: &mut Vec<Vector>) {
    let Some(middle) = middle_of(bound) else { return };
    let reach = bound.iter().map(|p| (*p - middle).length()).fold(0.0, f64::max);
    let halves = others.iter().flat_map(|other| other.halves_near(middle, reach));
    halves.for_each(|half| half.cut(bound));
}

/// The middle of the box around some points; `None` of none.
pub(crate) fn middle_of(points: &[Vector]) -> Option<Vector> {
    let first = *points.first()?;
    let (low, high) = points.iter().fold((first, first), |(low, high), p| {
        (
            Vector::new(low.x.min(p.x), low.y.min(p.y), low.s.min(p.s)),
            Vector::new(high.x.max(p.x), high.y.max(p.y), high.s.max(p.s)),
        )
    });
    Some((low + high) * 0.5)
}

/// Rings' hulls between the same two clock directions.
#[derive(Clone, Copy, Debug)]
pub(crate) struct ArcBound {
    /// Sine and cosine of the ends and of the middle.
    sides: [(f64, f64); 3],
    /// How much farther out than the ring the middle point is.
    out: f64,
}

impl ArcBound {
    pub fn new(clocks: (f64, f64)) -> Self {
        let middle = f64::midpoint(clocks.0, clocks.1);
        let out = 1.0 / ((clocks.1 - clocks.0) / 2.0).cos();
        Self { sides: [clocks.0, clocks.1, middle].map(f64::sin_cos), out }
    }

    /// Points of an axis's frame whose hull holds the arc of a ring.
    pub fn of(&self, axis: &Axis, Station { t, r }: Station) -> [Vector; 3] {
        let [first, last, middle] = self.sides;
        [(r, first), (r, last), (r * self.out, middle)].map(|(r, side)| axis.point_at(t, r, side))
    }
}
