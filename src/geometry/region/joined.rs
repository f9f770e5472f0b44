//! Two hollows on one axis as one: the union of two regions of revolution.

use crate::geometry::frame::axis::Axis;
use crate::geometry::frame::station::Station;
use crate::geometry::region::meridian::Meridian;
use crate::geometry::region::revolved::{Fill, Revolved};

/// Axes whose directions differ by less, and that pass each other by less, in mm, are one line.
const SAME_LINE: f64 = 1e-9;

/// The union of two hollows on the same line as one hollow: of the wider at each station. Exact, but for rounding.
///
/// `None` when they are not on one line in one direction, or one of them is no hollow ([`Fill::Beyond`]).
#[must_use]
pub fn joined(first: &Revolved, second: &Revolved) -> Option<Revolved> {
    if first.fill == Fill::Beyond || second.fill == Fill::Beyond {
        return None;
    }
    let shift = shift(&first.axis, &second.axis)?;
    let same = shift == 0.0 && first.meridian == second.meridian && first.fill == second.fill;
    if same {
        return Some(first.clone());
    }
    let (a, b) = (Width::of(first, 0.0), Width::of(second, shift));
    let mut stations: Vec<f64> = a.stations().chain(b.stations()).collect();
    stations.sort_unstable_by(f64::total_cmp);
    stations.dedup();
    let before_all = a.open.max(b.open);
    let mut points = Vec::with_capacity(2 * stations.len() + 8);
    let mut add = |t: f64, r: f64| {
        let point = Station::new(t, r);
        if points.last() != Some(&point) {
            points.push(point);
        }
    };
    for (i, &t) in stations.iter().enumerate() {
        let before = a.before(t).max(b.before(t));
        if i > 0 || before_all > 0.0 {
            add(t, before);
        }
        let Some(&next) = stations.get(i + 1) else { break };
        add(t, a.after(t).max(b.after(t)));
        if let Some(Station { t: at, r }) =
            crossing((t, a.after(t), b.after(t)), (next, a.before(next), b.before(next)))
        {
            add(at, r);
        }
    }
    let fill = if before_all > 0.0 { Fill::WithinOpen } else { Fill::Within };
    Some(Revolved { axis: first.axis, meridian: Meridian::new(points).ok()?, fill })
}

/// How far the stations of one axis run behind those of another on the same line, in mm; `None` when they are not on one.
fn shift(axis: &Axis, other: &Axis) -> Option<f64> {
    let apart = other.origin() - axis.origin();
    let along = apart.dot(axis.along());
    let one_line = (other.along() - axis.along()).length() < SAME_LINE
        && (apart - axis.along() * along).length() < SAME_LINE * (1.0 + along.abs());
    one_line.then_some(if along.abs() < SAME_LINE { 0.0 } else { along })
}

/// How wide a hollow is at a station: 0 where it is not.
struct Width<'a> {
    meridian: &'a Meridian,
    shift: f64,
    /// Before its first station.
    open: f64,
}

impl<'a> Width<'a> {
    fn of(hollow: &'a Revolved, shift: f64) -> Self {
        let meridian = &hollow.meridian;
        let open = if hollow.fill == Fill::WithinOpen { meridian.points()[0].r } else { 0.0 };
        Self { meridian, shift, open }
    }

    fn stations(&self) -> impl Iterator<Item = f64> {
        self.meridian.points().iter().map(|p| p.t + self.shift)
    }

    /// Just before a station.
    fn before(&self, t: f64) -> f64 {
        let (from, to) = (self.meridian.start() + self.shift, self.meridian.end() + self.shift);
        if t <= from {
            self.open
        } else if t > to {
            0.0
        } else {
            self.meridian.radius_before(t - self.shift)
        }
    }

    /// Just after a station.
    fn after(&self, t: f64) -> f64 {
        let (from, to) = (self.meridian.start() + self.shift, self.meridian.end() + self.shift);
        if t < from {
            self.open
        } else if t >= to {
            0.0
        } else {
            self.meridian.radius_after(t - self.shift)
        }
    }
}

/// Where two straight pieces cross between two stations, each given with both radii.
fn crossing(from: (f64, f64, f64), to: (f64, f64, f64)) -> Option<Station> {
    let (ahead, later) = (from.1 - from.2, to.1 - to.2);
    if ahead * later >= 0.0 {
        return None;
    }
    let part = ahead / (ahead - later);
    Some(Station::new(from.0 + (to.0 - from.0) * part, from.1 + (to.1 - from.1) * part))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::geometry::Vector;

    fn hollow() -> impl Strategy<Value = Revolved> {
        let steps = prop::collection::vec((prop_oneof![Just(0.0), 0.5..20.0_f64], 0.0..30.0_f64), 2..6);
        (steps, -20.0..20.0_f64, any::<bool>()).prop_map(|(steps, start, open)| {
            let mut t = start;
            let points = steps.iter().map(|(step, r)| {
                t += step;
                Station::new(t, *r)
            });
            let fill = if open { Fill::WithinOpen } else { Fill::Within };
            let origin = Vector::new(3.0, -2.0, 1.0);
            let axis = Axis::new(origin, Vector::new(0.1, 0.2, 1.0)).unwrap();
            Revolved { axis, meridian: Meridian::new(points.collect()).unwrap(), fill }
        })
    }

    proptest! {
        #[test]
        fn it_holds_what_either_holds(a in hollow(), b in hollow(), shift in prop_oneof![Just(0.0), -9.0..9.0_f64], t in -60.0..120.0, r in 1e-6..31.0_f64) {
            let axis = Axis::new(b.axis.origin() + b.axis.along() * shift, b.axis.along()).unwrap();
            let b = Revolved { axis, ..b };
            let both = joined(&a, &b).unwrap();
            let point = a.axis.point(t, r, 1.0);
            // On a surface rounding decides.
            prop_assume!(a.signed_distance(point).abs() > 1e-6 && b.signed_distance(point).abs() > 1e-6);
            prop_assert_eq!(both.contains(point), a.contains(point) || b.contains(point));
        }

        #[test]
        fn one_and_the_same_twice_stays_as_it_is(a in hollow()) {
            prop_assert_eq!(joined(&a, &a), Some(a));
        }
    }

    #[test]
    fn those_on_two_lines_stay_two() {
        let bore = |axis| Revolved {
            axis,
            meridian: Meridian::new(vec![Station::new(0.0, 9.0), Station::new(20.0, 9.0)]).unwrap(),
            fill: Fill::WithinOpen,
        };
        let aside = Axis::new(Vector::new(1e-6, 0.0, 0.0), Axis::A.along()).unwrap();
        let back = Axis::new(Vector::ZERO, -Axis::A.along()).unwrap();
        assert_eq!(joined(&bore(Axis::A), &bore(aside)), None);
        assert_eq!(joined(&bore(Axis::A), &bore(back)), None);
    }
}
