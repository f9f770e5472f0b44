//! The least section of blank in which every pass finds wood all the way round.

use std::f64::consts::TAU;

use crate::geometry::line::search::bisect;
use crate::geometry::{Region, Removal, Revolved, Role, Vector};
use crate::piece::Piece;

/// The least section, from axis A outward.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SectionNeeded {
    /// Half the side of a square blank, in mm.
    pub half_side_mm: f64,
    /// The radius of a round blank, in mm.
    pub radius_mm: f64,
}

/// Even directions around each circle, beside those in which it reaches farthest.
const CLOCKS: usize = 24;
/// Most distance between the circles of a pass, in mm.
const STEP_MM: f64 = 8.0;
/// Circles nearer together than this, in mm, are of one flattened curve.
const CLOSEST_MM: f64 = 1.5;
/// How deep under a surface its wood is looked for, in mm.
const UNDER_MM: f64 = 2e-3;
/// Steps of a bisection.
const BISECTIONS: u32 = 14;

/// The least section that holds what every pass turns, the tenon's too, but for what an earlier cut took first.
///
/// Within 0.1 mm: on a straight piece of a profile the farthest point from a side or from axis A is at an end of the piece
/// or of what is kept, and around a circle in the direction of the side, outward, or at an end of what is kept.
pub(super) fn section_needed(piece: &Piece) -> SectionNeeded {
    let mut needed = SectionNeeded { half_side_mm: 0.0, radius_mm: 0.0 };
    let outside: Vec<&Removal> = piece.solid.with_role(Role::Outside).collect();
    for removal in &outside {
        let Region::Revolved(pass) = &removal.region else { continue };
        let earlier: Vec<&Region> = outside.iter().filter(|it| it.cut < removal.cut).map(|it| &it.region).collect();
        Turned { pass, earlier, length_mm: piece.solid.stock.length }.add_to(&mut needed);
    }
    needed
}

/// A pass, and what was turned before it.
struct Turned<'a> {
    pass: &'a Revolved,
    earlier: Vec<&'a Region>,
    length_mm: f64,
}

impl Turned<'_> {
    fn add_to(&self, needed: &mut SectionNeeded) {
        let clocks = self.clocks();
        let stations = self.stations();
        let mut before: Vec<bool> = Vec::new();
        for (place, &t) in stations.iter().enumerate() {
            let found: Vec<bool> = clocks.iter().map(|clock| self.finds_wood(t, *clock)).collect();
            for (i, here) in found.iter().enumerate() {
                let next = (i + 1) % clocks.len();
                if *here {
                    take(needed, self.point(t, clocks[i]));
                }
                if *here != found[next] {
                    let to = clocks[i] + (clocks[next] - clocks[i]).rem_euclid(TAU);
                    let clock = edge(clocks[i], to, *here, |clock| self.finds_wood(t, clock));
                    take(needed, self.point(t, clock));
                }
                if before.get(i).is_some_and(|was| was != here) {
                    let t = edge(stations[place - 1], t, before[i], |t| self.finds_wood(t, clocks[i]));
                    take(needed, self.point(t, clocks[i]));
                }
            }
            before = found;
        }
    }

    /// Even directions, and those toward the sides of a square and outward from axis A, rising.
    fn clocks(&self) -> Vec<f64> {
        let axis = &self.pass.axis;
        let mut clocks: Vec<f64> = (0..CLOCKS).map(|i| TAU * i as f64 / CLOCKS as f64).collect();
        let middle = axis.point(f64::midpoint(self.pass.meridian.start(), self.pass.meridian.end()), 0.0, 0.0);
        let toward = [Vector::new(1.0, 0.0, 0.0), Vector::new(0.0, 1.0, 0.0), Vector::new(middle.x, middle.y, 0.0)];
        for direction in toward {
            let clock = direction.dot(axis.right()).atan2(direction.dot(axis.up()));
            clocks.extend([clock.rem_euclid(TAU), (clock + TAU / 2.0).rem_euclid(TAU)]);
        }
        clocks.sort_unstable_by(f64::total_cmp);
        clocks.dedup_by(|b, a| *b - *a < 1e-6);
        clocks
    }

    /// Even stations and the corners of the profile, just inside both ends.
    fn stations(&self) -> Vec<f64> {
        let (from, to) = (self.pass.meridian.start(), self.pass.meridian.end());
        let inside = UNDER_MM.min((to - from) / 4.0);
        let (from, to) = (from + inside, to - inside);
        let count = ((to - from) / STEP_MM).ceil().clamp(1.0, 300.0);
        let mut all: Vec<f64> = (0..count as usize).map(|i| from + (to - from) * i as f64 / count).collect();
        let corners = self.pass.meridian.points().iter().map(|p| p.t).filter(|t| *t > from && *t < to);
        all.extend(corners);
        all.sort_unstable_by(f64::total_cmp);
        all.dedup_by(|b, a| *b - *a < CLOSEST_MM);
        all.push(to);
        all
    }

    fn radius(&self, t: f64) -> f64 {
        self.pass.meridian.greatest_at(t)
    }

    fn point(&self, t: f64, clock: f64) -> Vector {
        self.pass.axis.point(t, self.radius(t), clock)
    }

    /// Whether a large enough blank has wood just under the surface when the pass reaches size.
    fn finds_wood(&self, t: f64, clock: f64) -> bool {
        let point = self.pass.axis.point(t, (self.radius(t) - UNDER_MM).max(0.0), clock);
        (0.0..=self.length_mm).contains(&point.s) && !self.earlier.iter().any(|region| region.contains(point))
    }
}

fn take(needed: &mut SectionNeeded, point: Vector) {
    needed.half_side_mm = needed.half_side_mm.max(point.x.abs()).max(point.y.abs());
    needed.radius_mm = needed.radius_mm.max(point.radius());
}

/// Where wood begins or ends between two places that differ: on the side that has it.
fn edge(a: f64, b: f64, wood_at_a: bool, finds_wood: impl Fn(f64) -> bool) -> f64 {
    let ends = if wood_at_a { (a, b) } else { (b, a) };
    bisect(ends, BISECTIONS, finds_wood).0
}
