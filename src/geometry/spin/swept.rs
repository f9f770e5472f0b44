//! A circle that moves along its axis while its radius changes evenly: the arcs of it that may meet a region anywhere on
//! the way.

use crate::geometry::frame::axis::Axis;
use crate::geometry::frame::station::Station;
use crate::geometry::frame::vector::Vector;
use crate::geometry::line::intervals::Intervals;
use crate::geometry::line::pace::spend;
use crate::geometry::region::removed::Region;
use crate::geometry::region::revolved::{Fill, Revolved};
use crate::geometry::region::stock::{Section, Stock};
use crate::geometry::spin::circle::{Circle, whole};
use crate::geometry::spin::wave::Wave;

/// What is met by less than this, in mm2 about a cone and in mm at a plane, is rounding.
const ROUNDING: f64 = 1e-9;

/// A circle on its way between two stations. Each of its points, by its clock, goes straight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Swept {
    ends: [Circle; 2],
    along: Vector,
    /// Half the way along the axis, in mm, and half the change of the radius.
    half: (f64, f64),
}

impl Swept {
    /// From one `(t, radius)` in mm to another, about an axis.
    #[must_use]
    pub fn new(axis: &Axis, from: Station, to: Station) -> Self {
        let ends = [from, to].map(|Station { t, r: radius }| Circle::new(axis, t, radius));
        Self { ends, along: axis.along(), half: ((to.t - from.t).abs() / 2.0, (to.r - from.r).abs() / 2.0) }
    }

    /// The arcs where some value of the circle is not positive at either end of the way.
    fn at_either_end(&self, value: impl Fn(&Circle) -> Wave) -> Intervals {
        let [from, to] = self.ends.each_ref().map(|circle| value(circle).not_positive());
        from.union(&to)
    }

    /// The arcs where a coordinate along a direction comes over `low` and under `high`, each somewhere on the way.
    fn between(&self, coordinate: impl Fn(&Circle) -> Wave, low: f64, high: f64) -> Intervals {
        let over = |low: f64| self.at_either_end(|circle| less(low + ROUNDING, coordinate(circle)));
        let under = |high: f64| self.at_either_end(|circle| coordinate(circle).raised(ROUNDING - high));
        match (low.is_finite(), high.is_finite()) {
            (true, true) => over(low).intersection(&under(high)),
            (true, false) => over(low),
            (false, true) => under(high),
            (false, false) => whole(),
        }
    }

    /// The arcs that are between two stations of the blank somewhere on the way, or more.
    #[must_use]
    pub fn between_stations(&self, low: f64, high: f64) -> Intervals {
        self.between(|circle| circle.along(Axis::A.along()), low, high)
    }

    /// The arcs that are beyond the sides of stock somewhere on the way; its ends do not count.
    #[must_use]
    pub fn beyond_sides(&self, stock: &Stock) -> Intervals {
        match stock.section {
            Section::Square { half_side } => {
                let beyond = |x: f64, y: f64| {
                    self.between(|circle| circle.along(Vector::new(x, y, 0.0)), half_side, f64::INFINITY)
                };
                let [right, left, up, down] =
                    [beyond(1.0, 0.0), beyond(-1.0, 0.0), beyond(0.0, 1.0), beyond(0.0, -1.0)];
                right.union(&left).union(&up).union(&down)
            }
            Section::Round { radius } => {
                self.at_either_end(|circle| less(radius * radius + ROUNDING, circle.distance_sq(&Axis::A)))
            }
        }
    }

    /// The arcs that are in a region somewhere on the way, or more: what comes to nothing with the square of the way, but
    /// where the region ends across it.
    #[must_use]
    pub fn in_region(&self, region: &Region) -> Intervals {
        match region {
            Region::Revolved(revolved) => self.in_revolved(revolved),
            Region::Sawn(_) => whole(),
            Region::HalfSpace(half) => self.between(|circle| circle.along(half.into), half.offset, f64::INFINITY),
        }
    }

    fn in_revolved(&self, revolved: &Revolved) -> Intervals {
        let axis = &revolved.axis;
        let station = |circle: &Circle| circle.along(axis.along()).raised(-axis.origin().dot(axis.along()));
        let stations = self.ends.each_ref().map(station);
        let reach = |side: f64| stations.map(|wave| wave.mean + side * wave.amplitudes().0);
        let (low, high) = (
            reach(-1.0).into_iter().fold(f64::INFINITY, f64::min),
            reach(1.0).into_iter().fold(f64::NEG_INFINITY, f64::max),
        );
        let (from, to) = revolved.span();
        if high < from || low > to {
            return Intervals::none();
        }
        let distances = self.ends.each_ref().map(|circle| circle.distance_sq(axis));
        let points = revolved.meridian.points();
        let is_beyond = revolved.fill == Fill::Beyond;
        // Squared, the distance from an axis rises over its chord between the ends by no more than this.
        let lean = axis.along().cross(self.along).length();
        let sag = (lean * self.half.0 + self.half.1).powi(2);
        let met = |a: Station, b: Station| {
            let slope = if b.t > a.t && a.t.is_finite() { (b.r - a.r) / (b.t - a.t) } else { 0.0 };
            let strip = self.between(station, a.t, b.t);
            let arcs = |end: usize| {
                let line = Wave::default().plus(stations[end], slope).raised(b.r - slope * b.t);
                let over = distances[end].plus(line.squared(), -1.0);
                match is_beyond {
                    // Over a cone along a straight way is convex: it is met at the ends, or nowhere.
                    true => less(ROUNDING, over).not_positive().union(&line.raised(ROUNDING).not_positive()),
                    false => over.raised(ROUNDING - sag).not_positive(),
                }
            };
            strip.intersection(&arcs(0).union(&arcs(1)))
        };
        let mut arcs = Intervals::none();
        if revolved.fill == Fill::WithinOpen && low <= points[0].t {
            arcs = met(Station::new(f64::NEG_INFINITY, points[0].r), points[0]);
        }
        if high < points[0].t {
            return arcs;
        }
        let (first, last) = (revolved.meridian.piece_at(low), revolved.meridian.piece_at(high));
        // As many roots as of two circles.
        spend(96 * (last + 1 - first));
        for pair in points[first..=last + 1].windows(2).filter(|pair| pair[1].t > pair[0].t) {
            arcs = arcs.union(&met(pair[0], pair[1]));
        }
        arcs
    }
}

/// A number less a wave.
fn less(number: f64, wave: Wave) -> Wave {
    Wave::default().plus(wave, -1.0).raised(number)
}
