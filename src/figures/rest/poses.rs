//! The poses of a hull: local leasts of the height of the centre of mass as the piece rolls in the side view.
//!
//! With `n` the direction down, the height is `h(n) - c . n`, `h` the hull's support. Turning `n` changes it by
//! `(p - c) . t`, `p` the point that touches and `t` square to `n`: on a corner that only falls, so a least is where an
//! edge lies on the table with the centre over it, or on a curve where that passes nothing.

use super::pose::{Contact, Pose};
use crate::geometry::region::curve::farthest_along;
use crate::geometry::region::meridian::Bent;
use crate::geometry::{Corner, Flats, Pace, Region, State, Vector, finer_in_slices};
use kurbo::Point;
use kurbo::Vec2;

/// Corners nearer to each other than this are one, in mm.
const APART: f64 = 1e-4;
/// Hollows of the height shallower than this come of rounding and chords, in mm.
const SHALLOW: f64 = 2e-3;
/// A point of a drawn curve farther from the hull's own corner than this is not what touches, in mm.
const NEAR: f64 = 2.0;
/// A rise by less than this is none, in mm per radian: so that a least between two chords belongs to one of them.
const LEVEL: f64 = 1e-9;
/// Halvings of an angle, and steps toward a common tangent.
const HALVINGS: u32 = 48;
const STEPS: u32 = 24;

/// A pose on a chord of an edge between two cuts, shorter than this in mm, rocks.
const CHORD: f64 = 0.05;

/// Every pose, in the order of the hull.
pub(super) async fn poses(state: &State<'_>, hull: &[Corner], centre: [f64; 2], pace: &Pace) -> Vec<Pose> {
    let lies_on = |a, b| Contact::between(a, b).is_some_and(|contact| contact.margin(centre) > 0.0);
    let hull = &finer_in_slices(state, hull.to_vec(), lies_on, pace).await;
    let mut corners: Vec<Corner> = Vec::with_capacity(hull.len());
    for corner in hull {
        match corners.last_mut() {
            Some(last) if distance(last.at, corner.at) < APART => last.ring = last.ring.or(corner.ring),
            _ => corners.push(*corner),
        }
    }
    if corners.len() < 3 {
        return Vec::new();
    }
    let outline = Outline { state, corners, centre, flats: Flats::of(state) };
    let found = (0..outline.corners.len()).filter_map(|edge| match outline.curve_of(edge) {
        Some(_) => outline.rocking(edge),
        None => outline.lying(edge),
    });
    outline.deep_enough(found.collect())
}

struct Outline<'a> {
    state: &'a State<'a>,
    corners: Vec<Corner>,
    centre: [f64; 2],
    flats: Flats<'a>,
}

/// A drawn curve: its removal, and a station on it.
type OnCurve = (usize, f64);

impl Outline<'_> {
    fn corner(&self, i: usize) -> Corner {
        self.corners[i % self.corners.len()]
    }

    fn before(&self, edge: usize) -> usize {
        (edge + self.corners.len() - 1) % self.corners.len()
    }

    /// The curve that an edge is a chord of, if it touches the table as it was drawn: not where another cut has taken that.
    fn curve_of(&self, edge: usize) -> Option<OnCurve> {
        let ((removal, a), (other, b)) = (self.corner(edge).ring?, self.corner(edge + 1).ring?);
        let middle = f64::midpoint(a, b);
        let bent = self.drawn((removal, middle))?;
        let holds = |t: f64| bent.from.x <= t && t <= bent.to.x;
        let curve = (removal, middle);
        let is_chord = removal == other && a != b && holds(a) && holds(b);
        let contact = is_chord.then(|| self.tangent_of_chord(edge))??;
        let lowest = self.lowest(curve, contact.down)?;
        contact.is_level(lowest).then_some(curve)
    }

    /// Whether two edges are chords of one curve.
    fn same_curve(&self, edge: usize, other: usize) -> bool {
        let start = |edge: usize| {
            let (removal, t) = self.curve_of(edge)?;
            Some((removal, self.drawn((removal, t))?.from))
        };
        start(edge).is_some_and(|it| start(other) == Some(it))
    }

    /// The curve of a profile or a saw line that passes a station.
    fn drawn(&self, (removal, t): OnCurve) -> Option<&Bent> {
        match &self.state.removals.get(removal)?.region {
            Region::Revolved(revolved) => revolved.meridian.curve_at(t),
            Region::Sawn(sawn) => sawn.arc(),
            Region::HalfSpace(_) => None,
        }
    }

    /// The point of a drawn curve, one of a profile turned about its axis, that is lowest with `down` down.
    fn lowest(&self, curve: OnCurve, down: [f64; 2]) -> Option<[f64; 2]> {
        let bent = self.drawn(curve)?;
        let Region::Revolved(revolved) = &self.state.removals.get(curve.0)?.region else {
            let Point { x: s, y } = farthest_along(bent.from, bent.to, bent.segment, Vec2::new(down[0], down[1]));
            return Some([s, y]);
        };
        let toward = Vector::new(0.0, down[1], down[0]);
        let along = toward.dot(revolved.axis.along());
        let out = toward - revolved.axis.along() * along;
        let Point { x: t, y: r } = farthest_along(bent.from, bent.to, bent.segment, Vec2::new(along, out.length()));
        let kept = revolved.meridian.start() - APART <= t && t <= revolved.meridian.end() + APART;
        let point = revolved.axis.point_toward(t, r, out.unit().unwrap_or(revolved.axis.up()));
        kept.then_some([point.s, point.y])
    }

    /// The pose on an edge, if the centre of mass is over it. On a plane it goes as far as there is wood; elsewhere ends that
    /// lie on drawn curves are moved to where the table touches those.
    fn lying(&self, edge: usize) -> Option<Pose> {
        let [a, b] = [edge, edge + 1].map(|i| self.corner(i).at);
        let flat = self.flats.ends(&self.corners, a, b).and_then(|[a, b]| Contact::between(a, b));
        let contact = flat.or_else(|| self.tangent(edge))?;
        let margin_mm = contact.margin(self.centre);
        if margin_mm > 0.0 && distance(contact.a, contact.b) < CHORD {
            return Some(self.rocking_on_edge(edge, contact));
        }
        (margin_mm > 0.0).then(|| pose(contact, [contact.a, contact.b], margin_mm, false))
    }

    /// The pose on a chord so short that it stands for a curved edge.
    fn rocking_on_edge(&self, edge: usize, contact: Contact) -> Pose {
        /// Edges that turn by more than this, in radians, are no chords of one curve.
        const BEND: f64 = 0.2;
        let count = self.corners.len();
        let own = angle(contact);
        let bends_on = |other: usize| {
            let other = self.tangent_of_chord(other % count).map(angle);
            other.is_some_and(|other| turn(own, other).abs() < BEND)
        };
        let first = (0..count).find(|i| !bends_on(edge + 2 * count - i - 1)).unwrap_or(0);
        let last = (0..count).find(|i| !bends_on(edge + i + 1)).unwrap_or(0);
        let (a, b) = (self.corner(edge + 2 * count - first).at, self.corner(edge + last + 1).at);
        pose(Contact { a, b, ..contact }, [contact.a, contact.b], 0.0, true)
    }

    fn tangent(&self, edge: usize) -> Option<Contact> {
        let (a, b) = (self.corner(edge), self.corner(edge + 1));
        let mut contact = Contact::between(a.at, b.at)?;
        for _ in 0..STEPS {
            let touching = |corner: Corner| {
                let lowest = corner.ring.and_then(|ring| self.lowest(ring, contact.down));
                lowest.filter(|p| distance(*p, corner.at) < NEAR && contact.is_level(*p)).unwrap_or(corner.at)
            };
            contact = Contact::between(touching(a), touching(b))?;
        }
        Some(contact)
    }

    /// The pose on a curve that an edge is a chord of, if there is one nearer to the edge than to its neighbours.
    fn rocking(&self, edge: usize) -> Option<Pose> {
        let curve = self.curve_of(edge)?;
        let own = angle(self.tangent_of_chord(edge)?);
        let limit = |other: usize| {
            let other = other % self.corners.len();
            let same = self.same_curve(edge, other);
            let contact = if same { self.tangent_of_chord(other) } else { self.tangent(other) };
            let turn = turn(own, angle(contact?));
            Some(if same { turn / 2.0 } else { turn })
        };
        let (mut low, mut high) = (limit(self.before(edge))?, limit(edge + 1)?);
        // How fast the centre of mass rises as the piece rolls on.
        let rise = |by: f64| {
            let down = [(own + by).cos(), (own + by).sin()];
            let p = self.lowest(curve, down)?;
            Some(down[0] * (p[1] - self.centre[1]) - down[1] * (p[0] - self.centre[0]))
        };
        if !(rise(low)? < -LEVEL && rise(high)? >= -LEVEL) {
            return None;
        }
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(low, high);
            if rise(middle)? < -LEVEL { low = middle } else { high = middle }
        }
        let down = [(own + high).cos(), (own + high).sin()];
        let touching = self.lowest(curve, down)?;
        let count = self.corners.len();
        let first = (0..count).find(|i| !self.same_curve(edge, edge + 2 * count - i - 1)).unwrap_or(0);
        let last = (0..count).find(|i| !self.same_curve(edge, edge + i + 1)).unwrap_or(0);
        let (a, b) = (self.corner(edge + 2 * count - first).at, self.corner(edge + last + 1).at);
        Some(pose(Contact { a, b, down }, [touching, touching], 0.0, true))
    }

    fn tangent_of_chord(&self, edge: usize) -> Option<Contact> {
        Contact::between(self.corner(edge).at, self.corner(edge + 1).at)
    }

    /// The poses without those from which next to nothing lifts the piece into a lower one.
    fn deep_enough(&self, mut poses: Vec<Pose>) -> Vec<Pose> {
        loop {
            let count = poses.len();
            let shallow = (0..count).filter(|_| count > 1).find_map(|i| {
                let next = (i + 1) % count;
                let (a, b) = (self.height(&poses[i]), self.height(&poses[next]));
                let lifted = self.barrier(&poses[i], &poses[next]) - a.max(b);
                (lifted < SHALLOW).then_some(if a > b { i } else { next })
            });
            match shallow {
                Some(shallow) => drop(poses.remove(shallow)),
                None => return poses,
            }
        }
    }

    fn height(&self, pose: &Pose) -> f64 {
        self.height_at(pose.contact.down)
    }

    /// The height of the centre of mass with the hull on the table.
    fn height_at(&self, down: [f64; 2]) -> f64 {
        let lowest =
            self.corners.iter().map(|c| c.at[0] * down[0] + c.at[1] * down[1]).fold(f64::NEG_INFINITY, f64::max);
        lowest - self.centre[0] * down[0] - self.centre[1] * down[1]
    }

    /// The greatest height between one pose and the next: over a corner, where there is one.
    fn barrier(&self, from: &Pose, to: &Pose) -> f64 {
        let start = angle(from.contact);
        let whole = turn(start, angle(to.contact)).rem_euclid(std::f64::consts::TAU);
        let over = self.corners.iter().filter_map(|corner| {
            let (ds, dy) = (corner.at[0] - self.centre[0], corner.at[1] - self.centre[1]);
            let by = turn(start, dy.atan2(ds)).rem_euclid(std::f64::consts::TAU);
            let length = ds.hypot(dy);
            (by < whole).then(|| self.height_at([ds / length, dy / length]))
        });
        over.fold(self.height(from).max(self.height(to)), f64::max)
    }
}

fn pose(contact: Contact, touching: [[f64; 2]; 2], margin_mm: f64, rocks: bool) -> Pose {
    let [a, b] = touching;
    Pose {
        pitch_deg: contact.pitch().to_degrees(),
        from_station_mm: a[0].min(b[0]),
        to_station_mm: a[0].max(b[0]),
        margin_mm,
        rocks,
        contact,
    }
}

fn distance(a: [f64; 2], b: [f64; 2]) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

/// The direction down, as an angle.
fn angle(contact: Contact) -> f64 {
    contact.down[1].atan2(contact.down[0])
}

/// The turn from one angle to another, from -pi to pi.
fn turn(from: f64, to: f64) -> f64 {
    let turn = (to - from).rem_euclid(std::f64::consts::TAU);
    if turn > std::f64::consts::PI { turn - std::f64::consts::TAU } else { turn }
}
