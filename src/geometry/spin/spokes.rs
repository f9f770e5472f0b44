//! A quick look at the section square to an axis, by lines through the axis.

use smallvec::SmallVec;

use crate::geometry::frame::axis::Axis;
use crate::geometry::frame::plane::Plane;
use crate::geometry::line::intervals::Intervals;
use crate::geometry::plane::bending::Bending;
use crate::geometry::plane::polygon::AreaMoments;
use crate::geometry::plane::section::{SECTION_TOLERANCE, section_by};
use crate::geometry::region::removed::Region;
use crate::geometry::region::revolved::{Fill, Ray};
use crate::geometry::region::solid::State;

/// Lines through the axis. Even, so that upright and level are among them.
const LINES: usize = 8;
/// Chords of a section that is drawn may stand off its curves by this, in mm.
const TOLERANCE: f64 = 2.0 * SECTION_TOLERANCE;

/// The section of a state, without its plug, square to an axis at its station `t`.
///
/// Exact where a single round about the axis is all that is left. Elsewhere the wood along eight lines through the axis
/// is exact and summed around: second moments within 6 % for a round aside by up to half its radius, and up to a
/// quarter off where corners show or the axis leaves the wood. Good enough to find where a piece is weakest.
#[must_use]
pub fn spokes(state: &State<'_>, axis: &Axis, t: f64) -> Bending {
    let near = Near::of(state, axis, t);
    if near.is_round() {
        return Bending::of_round(near.radius);
    }
    let mut sums = [0.0; 6];
    let mut fibres = Vec::with_capacity(4 * LINES);
    let share = std::f64::consts::PI / LINES as f64;
    for line in 0..LINES {
        let (sin, cos) = (share * line as f64).sin_cos();
        let ray = Ray { start: near.centre, direction: axis.right() * sin + axis.up() * cos };
        for (from, to) in near.wood_along(ray).iter() {
            // The integrals of |p|, p |p| and p^2 |p| along the line: a wedge widens with its distance.
            let signed = |power: i32| share * (to.abs() * to.powi(power) - from.abs() * from.powi(power));
            let (area, first, second) = (signed(1) / 2.0, signed(2) / 3.0, signed(3) / 4.0);
            sums[0] += area;
            sums[1] += first * sin;
            sums[2] += first * cos;
            sums[3] += second * sin * sin;
            sums[4] += second * cos * cos;
            sums[5] += second * sin * cos;
            fibres.extend([[from * sin, from * cos], [to * sin, to * cos]]);
        }
    }
    Bending::new(moments(sums), fibres)
}

/// As [`spokes`], but the section is drawn where it is not a single round: exact for outlines within 0.01 mm. Of parts that
/// hang together only elsewhere, the largest alone.
#[must_use]
pub fn square_section(state: &State<'_>, axis: &Axis, t: f64) -> Bending {
    square_parts(state, axis, t).into_iter().next().unwrap_or_default()
}

/// As [`square_section`], each part by itself, the largest first: a fin beside the work is one of its own.
#[must_use]
pub fn square_parts(state: &State<'_>, axis: &Axis, t: f64) -> Vec<Bending> {
    let near = Near::of(state, axis, t);
    if near.is_round() {
        return vec![Bending::of_round(near.radius)];
    }
    let unplugged = State { plug: None, ..*state };
    let face = section_by(&unplugged, &Plane::square_to(axis, t), TOLERANCE, |region| near.matters(axis, region));
    face.parts().iter().map(Bending::of).collect()
}

fn moments([area, u, v, uu, vv, uv]: [f64; 6]) -> AreaMoments {
    if area.is_nan() || area <= 0.0 {
        return AreaMoments::default();
    }
    let (u, v) = (u / area, v / area);
    AreaMoments {
        area_mm2: area,
        centroid: [u, v],
        second_vertical_mm4: vv - area * v * v,
        second_sideways_mm4: uu - area * u * u,
        product_mm4: uv - area * u * v,
    }
}

/// What can limit the wood at one station of an axis.
struct Near<'a> {
    state: &'a State<'a>,
    centre: crate::geometry::frame::vector::Vector,
    /// The radius that passes on the axis itself leave, or that holds all the stock.
    radius: f64,
    /// Whether the stock's own surface is within that radius.
    stock: bool,
    /// Other regions within that radius.
    others: SmallVec<[&'a Region; 8]>,
}

impl<'a> Near<'a> {
    fn of(state: &'a State<'a>, axis: &Axis, t: f64) -> Self {
        let centre = axis.point(t, 0.0, 0.0);
        let mut radius = state.stock.largest_radius() + centre.radius() + state.stock.length;
        let mut others: SmallVec<[(f64, &Region); 8]> = SmallVec::new();
        for removal in state.removals {
            match &removal.region {
                Region::Revolved(own) if own.fill == Fill::Beyond && own.axis == *axis => {
                    let (from, to) = own.span();
                    if from <= t && t <= to {
                        radius = radius.min(own.radius_at(t));
                    }
                }
                Region::Revolved(other) => {
                    let distance = other.signed_distance_below(centre, radius);
                    others.extend(distance.map(|distance| (distance, &removal.region)));
                }
                region => others.push((region.signed_distance(centre), region)),
            }
        }
        let ends = centre.s.min(state.stock.length - centre.s);
        let stock = state.stock.depth_from_sides(centre).min(ends) < radius;
        others.retain(|other| other.0 < radius);
        Self { state, centre, radius, stock, others: others.into_iter().map(|other| other.1).collect() }
    }

    fn is_round(&self) -> bool {
        !self.stock && self.others.is_empty()
    }

    /// Whether a region may take anything that the passes on the axis itself do not: it is one of them, or comes within
    /// the radius that they leave.
    fn matters(&self, axis: &Axis, region: &Region) -> bool {
        let is_own = matches!(region, Region::Revolved(own) if own.fill == Fill::Beyond && own.axis == *axis);
        is_own || self.others.iter().any(|other| std::ptr::eq(*other, region))
    }

    fn wood_along(&self, ray: Ray) -> Intervals {
        let mut wood = Intervals::one(-self.radius, self.radius);
        if self.stock {
            wood = wood.intersection(&self.state.stock.along(ray));
        }
        for region in &self.others {
            match region {
                Region::Revolved(revolved) => revolved.take_along(ray, &mut wood),
                other => wood = wood.minus(&other.along(ray)),
            }
        }
        wood
    }
}
