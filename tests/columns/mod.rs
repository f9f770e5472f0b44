//! The hold by its definition: upright columns through the wood, and the envelope over a dense rim. Slow and plain.
#![allow(dead_code, reason = "each test file uses some of them")]

pub mod count;
pub mod pieces;

use proptest::prelude::*;
use skewline::geometry::{
    Axis, Fill, Meridian, Point, Ray, Region, Removal, Revolved, Role, Sawn, Section, Segment, Solid, Station, Stock,
    Vector,
};

/// A bored scoop to test with.
#[derive(Clone, Debug)]
pub struct Scoop {
    /// Radius, depth and corner radius of the bore.
    pub bore: (f64, f64, f64),
    /// Tilt of the bore's axis to the right, in radians.
    pub tilt: f64,
    /// Where the bore's axis pierces s = 0.
    pub shift: (f64, f64),
    /// Radius of the outside.
    pub outside: f64,
    /// The saw line.
    pub saw: Vec<(f64, f64)>,
    /// Station, radius and y of the middle of a second, spherical hollow.
    pub second: Option<(f64, f64, f64)>,
}

impl Default for Scoop {
    fn default() -> Self {
        Self {
            bore: (25.0, 56.0, 11.0),
            tilt: 0.0,
            shift: (0.0, 0.0),
            outside: 31.0,
            saw: vec![(-3.0, -13.0), (61.0, 18.0)],
            second: None,
        }
    }
}

impl Scoop {
    pub fn solid(&self) -> Solid {
        let (radius, depth, corner) = self.bore;
        let bulge = corner * (1.0 - std::f64::consts::FRAC_1_SQRT_2);
        let nodes = [
            (0.0, radius, Segment::Line),
            (depth - corner, radius, Segment::Arc { bulge }),
            (depth, radius - corner, Segment::Line),
        ];
        let along = Vector::new(self.tilt.sin(), 0.0, self.tilt.cos());
        let axis = Axis::new(Vector::new(self.shift.0, self.shift.1, 0.0), along).unwrap();
        let bore = Revolved { axis, meridian: Meridian::from_nodes(&nodes, 0.01).unwrap(), fill: Fill::WithinOpen };
        let outside = Meridian::new(vec![
            Station::new(-1.0, self.outside),
            Station::new(70.0, self.outside),
            Station::new(95.0, 12.0),
        ])
        .unwrap();
        let outside = Revolved { axis: Axis::A, meridian: outside, fill: Fill::Beyond };
        let mut cuts = vec![(Region::Revolved(outside), Role::Outside), (Region::Revolved(bore), Role::Inside)];
        if let Some((station, radius, y)) = self.second {
            let axis = Axis::new(Vector::new(0.0, y, station), Vector::new(0.0, -1.0, 0.0)).unwrap();
            let bulge = radius * (1.0 - std::f64::consts::FRAC_1_SQRT_2);
            let nodes = [(0.0, radius, Segment::Arc { bulge }), (radius, 0.0, Segment::Line)];
            let meridian = Meridian::from_nodes(&nodes, 0.01).unwrap();
            let sphere = Revolved { axis, meridian, fill: Fill::WithinOpen };
            cuts.push((Region::Revolved(sphere), Role::Inside));
        }
        cuts.push((
            Region::Sawn(Sawn::above(&self.saw.iter().copied().map(Point::from).collect::<Vec<_>>()).unwrap()),
            Role::Opening,
        ));
        let removals = cuts.into_iter().enumerate().map(|(cut, (region, role))| Removal { region, role, cut });
        Solid {
            stock: Stock { section: Section::Square { half_side: 35.0 }, length: 200.0 },
            removals: removals.collect(),
            plugs: vec![],
        }
    }

    pub fn hollows<'a>(&self, solid: &'a Solid) -> impl Iterator<Item = &'a Revolved> {
        hollows(solid)
    }
}

fn hollows(solid: &Solid) -> impl Iterator<Item = &Revolved> {
    solid.with_role(Role::Inside).filter_map(|r| match &r.region {
        Region::Revolved(revolved) => Some(revolved),
        _ => None,
    })
}

/// Any bored scoop.
pub fn scoop() -> impl Strategy<Value = Scoop> {
    let bore = (14.0..27.0_f64, 25.0..65.0_f64, 0.0..1.0_f64).prop_map(|(r, d, corner)| (r, d, corner * r.min(d)));
    let saw = (-4.0..6.0_f64, -1.0..0.2_f64, 30.0..75.0_f64, -0.3..1.2_f64);
    let second = prop::option::weighted(0.3, (20.0..45.0_f64, 10.0..24.0_f64, -8.0..4.0_f64));
    (bore, -0.15..0.15_f64, (-3.0..3.0_f64, -3.0..3.0_f64), 26.0..34.0_f64, saw, second).prop_map(
        |(bore, tilt, shift, outside, (s0, low, s1, high), second)| Scoop {
            bore,
            tilt,
            shift,
            outside,
            saw: vec![(s0, low * bore.0), (s1, high * bore.0)],
            second,
        },
    )
}

/// What columns add up to.
#[derive(Clone, Copy, Debug)]
pub struct Columns {
    pub volume: f64,
    pub centroid: Vector,
}

/// Contents by the definition, from `count` columns each way; `rim` from [`dense_rim`].
pub fn by_columns(solid: &Solid, rim: &[Vector], pitch: f64, repose: f64, count: usize) -> Columns {
    let (sin, cos) = pitch.sin_cos();
    let up = Vector::new(0.0, cos, -sin);
    let level = Vector::new(0.0, sin, cos);
    let raised: Vec<_> = rim.iter().map(|q| (q.x, q.dot(level), q.dot(up))).collect();
    let reach = 36.0;
    let (low, high) = hollow_range(solid, level);
    let (dx, dl) = (2.0 * reach / count as f64, (high - low) / count as f64);
    let mut volume = 0.0;
    let mut moment = Vector::ZERO;
    for i in 0..count {
        for j in 0..count {
            let (x, along) = (-reach + dx * (i as f64 + 0.5), low + dl * (j as f64 + 0.5));
            let ray = Ray { start: Vector::new(x, 0.0, 0.0) + level * along, direction: up };
            let wood: Vec<_> = solid.finished().along(ray).iter().collect();
            let mut envelope = None;
            for (k, (_, top)) in wood.iter().enumerate() {
                let floor = ray.at(*top);
                if !hollows(solid).any(|h| h.signed_distance(floor).abs() < 1e-6) || floor.s < 1e-9 {
                    continue;
                }
                let heap = *envelope.get_or_insert_with(|| {
                    let over = |q: &(f64, f64, f64)| q.2 + repose.tan() * (q.0 - x).hypot(q.1 - along);
                    raised.iter().map(over).fold(f64::INFINITY, f64::min)
                });
                let lid = wood.get(k + 1).map_or(f64::INFINITY, |next| next.0);
                let column = (heap.min(lid) - top).max(0.0);
                volume += column;
                moment = moment + ray.at(top + column / 2.0) * column;
            }
        }
    }
    Columns { volume: volume * dx * dl, centroid: moment * (1.0 / volume) }
}

/// Levels between which any of the hollow lies, its way out included.
fn hollow_range(solid: &Solid, level: Vector) -> (f64, f64) {
    let mut range = (f64::INFINITY, f64::NEG_INFINITY);
    for hollow in hollows(solid) {
        let meridian = way_out_and_floor(hollow);
        for i in 0..=150 {
            let (t, r) = place(&meridian, length(&meridian) * f64::from(i) / 150.0);
            for k in 0..64 {
                let p = hollow.axis.point(t, r, std::f64::consts::TAU * f64::from(k) / 64.0);
                if p.s >= -1.0 && p.x.abs().max(p.y.abs()) <= 35.0 {
                    range = (range.0.min(p.dot(level) - 1.0), range.1.max(p.dot(level) + 1.0));
                }
            }
        }
    }
    range
}

/// Points where the kept surface of a hollow ends at anything but another hollow, from two families of lines on it, closer
/// together where the rim turns a corner or a part of it comes to an end: contents mostly run out at such a place. Of
/// points in one cell of 0.02 mm one stays.
pub fn dense_rim(solid: &Solid) -> Vec<Vector> {
    let mut rim = Vec::new();
    for hollow in hollows(solid) {
        let meridian = way_out_and_floor(hollow);
        let length = length(&meridian);
        let point = |u: f64, clock: f64| hollow.axis.point(place(&meridian, u).0, place(&meridian, u).1, clock);
        let lengthwise = |clock: f64| crossings(solid, hollow, length, 160, |u| point(u, clock));
        lines(std::f64::consts::TAU, 350, lengthwise, &mut rim);
        let around = |u: f64| crossings(solid, hollow, std::f64::consts::TAU, 200, |clock| point(u, clock));
        lines(length, 175, around, &mut rim);
    }
    let cell = |p: &Vector| [p.x, p.y, p.s].map(|v| (v / 0.02).floor() as i64);
    rim.sort_by_key(cell);
    rim.dedup_by_key(|p| cell(p));
    rim
}

/// Where `count` lines and one more, from 0 to `end`, meet the rim, and lines between them.
fn lines(end: f64, count: u32, crossings: impl Fn(f64) -> Vec<Vector>, rim: &mut Vec<Vector>) {
    let line = |i: u32| {
        let at = end * f64::from(i) / f64::from(count);
        (at, crossings(at))
    };
    let mut before = line(0);
    rim.extend(&before.1);
    for i in 1..=count {
        let after = line(i);
        lines_between(&before, &after, &crossings, 8, rim);
        rim.extend(&after.1);
        before = after;
    }
}

/// Lines between two, halved until the rim runs straight from the one to the other.
fn lines_between(
    low: &(f64, Vec<Vector>),
    high: &(f64, Vec<Vector>),
    crossings: &impl Fn(f64) -> Vec<Vector>,
    halvings: u32,
    rim: &mut Vec<Vector>,
) {
    let at = (low.0 + high.0) / 2.0;
    let middle = (at, crossings(at));
    rim.extend(&middle.1);
    let alike = low.1.len() == high.1.len() && low.1.len() == middle.1.len();
    let off = |i: usize| (middle.1[i] - (low.1[i] + high.1[i]) * 0.5).length();
    if halvings > 0 && !(alike && (0..middle.1.len()).all(|i| off(i) < 0.01)) {
        lines_between(low, &middle, crossings, halvings - 1, rim);
        lines_between(&middle, high, crossings, halvings - 1, rim);
    }
}

fn way_out_and_floor(hollow: &Revolved) -> Vec<(f64, f64)> {
    let chain = hollow.meridian.points();
    let mut points = vec![(chain[0].t - 60.0, chain[0].r)];
    points.extend(chain.iter().map(|p| (p.t, p.r)));
    points.push((chain[chain.len() - 1].t, 0.0));
    points
}

fn length(meridian: &[(f64, f64)]) -> f64 {
    meridian.windows(2).map(|p| (p[1].0 - p[0].0).hypot(p[1].1 - p[0].1)).sum()
}

fn place(meridian: &[(f64, f64)], mut u: f64) -> (f64, f64) {
    for pair in meridian.windows(2) {
        let length = (pair[1].0 - pair[0].0).hypot(pair[1].1 - pair[0].1);
        if u <= length && length > 0.0 {
            let part = u / length;
            return (pair[0].0 + (pair[1].0 - pair[0].0) * part, pair[0].1 + (pair[1].1 - pair[0].1) * part);
        }
        u -= length;
    }
    meridian[meridian.len() - 1]
}

/// What holds a point of a hollow's surface: nothing, another hollow, or the open.
fn kept(solid: &Solid, own: &Revolved, p: Vector) -> (bool, bool) {
    // A surface that two hollows share is that of both.
    let in_other = hollows(solid).any(|h| !std::ptr::eq(h, own) && h.signed_distance(p) < -1e-7);
    let open = p.s < 0.0
        || !solid.stock.contains(p)
        || solid.removals.iter().any(|r| r.role != Role::Inside && r.region.contains(p));
    (!in_other && !open, open)
}

fn crossings(solid: &Solid, own: &Revolved, end: f64, steps: u32, point: impl Fn(f64) -> Vector) -> Vec<Vector> {
    let mut rim = Vec::new();
    let step = end / f64::from(steps);
    let mut before = kept(solid, own, point(0.0)).0;
    for i in 1..=steps {
        let after = kept(solid, own, point(step * f64::from(i))).0;
        if after != before {
            let (mut a, mut b) = (step * f64::from(i - 1), step * f64::from(i));
            for _ in 0..40 {
                let middle = (a + b) / 2.0;
                if kept(solid, own, point(middle)).0 == before {
                    a = middle;
                } else {
                    b = middle;
                }
            }
            let outer = if before { b } else { a };
            if kept(solid, own, point(outer)).1 {
                rim.push(point(outer));
            }
        }
        before = after;
    }
    rim
}
