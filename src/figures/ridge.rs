//! The ridge that stays between two hollows across the grain: how much has to be scraped away to make one floor of them.

use std::f64::consts::FRAC_PI_2;

use crate::design::{Cut, Design};
use crate::geometry::line::order::sort_by_number;
use crate::geometry::line::search::bisect;
use crate::geometry::{Revolved, Vector};
use crate::piece::Piece;

/// A ridge between two neighbouring hollows whose axes are square to axis A and come from one side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ridge {
    /// The hollow nearer the bowl end, by its place in working order from 0.
    pub first_cut: usize,
    /// Its neighbour toward the handle.
    pub second_cut: usize,
    /// Distance of the crest from the plane that touches the floors of both hollows, in mm: what has to be scraped away until
    /// one floor runs from the one to the other. That plane is square to the plane of the two axes; the crest is where the
    /// ridge stands in farthest from it in the plane of the axes.
    pub height_mm: f64,
    /// The crest.
    pub crest: Vector,
}

/// Directions nearer to each other than this are one; axes nearer to axis A than this, in mm, cross it.
const SAME: f64 = 1e-9;
/// Hollows nearer to each other than this have one axis, in mm.
const APART_MM: f64 = 1e-6;
/// Halvings of a half turn, and of the length of a bowl: down to rounding.
const HALVINGS: u32 = 60;

/// The ridges between neighbouring hollows that meet, from the bowl end on. Exact for the profiles as flattened.
///
/// Looks at two hollows at a time: where a third takes the ridge between them, it is still there.
#[must_use]
pub fn ridges(design: &Design, piece: &Piece) -> Vec<Ridge> {
    let hollows = design.cuts.iter().enumerate().filter(|(_, cut)| matches!(cut, Cut::Hollow(_)));
    let mut across: Vec<Floor> = hollows.filter_map(|(cut, _)| Floor::of(cut, piece.revolved(cut)?)).collect();
    sort_by_number(&mut across, Floor::station);
    let pair =
        |(i, first): (usize, &Floor)| ridge(first, across.iter().skip(i + 1).find(|second| first.is_beside(second))?);
    across.iter().enumerate().filter_map(pair).collect()
}

/// `None` where one hollow lies within the reach of the other, and where they do not meet.
fn ridge(first: &Floor, second: &Floor) -> Option<Ridge> {
    // The common tangent leans by the angle at which both reach equally far: toward the bowl end the first does farther.
    let reaches_farther = |angle: f64| first.reach(angle.sin_cos()).0 > second.reach(angle.sin_cos()).0;
    if !reaches_farther(-FRAC_PI_2) || reaches_farther(FRAC_PI_2) {
        return None;
    }
    let (angle, _) = bisect((-FRAC_PI_2, FRAC_PI_2), HALVINGS, reaches_farther);
    let toward = angle.sin_cos();
    let (tangent, from) = first.reach(toward);
    let (_, to) = second.reach(toward);
    // How far in from the tangent a floor is at a station of the blank.
    let within = |floor: &Floor, station: f64| {
        floor.depth(station).map_or(f64::INFINITY, |depth| tangent - station * toward.0 - depth * toward.1)
    };
    let is_first = |station: f64| within(first, station) <= within(second, station);
    let (before, after) = bisect((from, to), HALVINGS, is_first);
    let heights = (within(first, before), within(second, after));
    let (station, height_mm, depth) = if heights.0 > heights.1 {
        (before, heights.0, first.depth(before)?)
    } else {
        (after, heights.1, second.depth(after)?)
    };
    let along = first.hollow.axis.along();
    let crest = Vector::new(0.0, 0.0, station) + along * depth;
    Some(Ridge { first_cut: first.cut, second_cut: second.cut, height_mm: height_mm.max(0.0), crest })
}

/// A hollow across the grain in the plane of its axis and axis A: stations of the blank, and depths along its axis.
#[derive(Clone, Copy)]
struct Floor<'a> {
    cut: usize,
    hollow: &'a Revolved,
}

impl<'a> Floor<'a> {
    /// `None` for a hollow whose axis is not square to axis A, or does not cross it.
    fn of(cut: usize, hollow: &'a Revolved) -> Option<Self> {
        let (origin, along) = (hollow.axis.origin(), hollow.axis.along());
        let is_across = along.s.abs() < SAME && origin.x.hypot(origin.y) < SAME;
        is_across.then_some(Self { cut, hollow })
    }

    /// The station at which its axis crosses axis A, in mm.
    fn station(&self) -> f64 {
        self.hollow.axis.origin().s
    }

    /// Whether the other one is hollowed from the same side about an axis farther along the blank.
    fn is_beside(&self, other: &Self) -> bool {
        let apart = (self.hollow.axis.along() - other.hollow.axis.along()).length();
        apart < SAME && other.station() - self.station() > APART_MM
    }

    /// How far it reaches in a direction that leans by an angle from its axis toward the handle, in mm, and the station of the
    /// blank at which it does.
    fn reach(&self, (sin, cos): (f64, f64)) -> (f64, f64) {
        let mut best = (f64::MIN, 0.0);
        for point in self.hollow.meridian.points() {
            let station = self.station() + point.r.copysign(sin);
            let reach = station * sin + point.t * cos;
            if reach > best.0 {
                best = (reach, station);
            }
        }
        best
    }

    /// Its depth at a station of the blank, in mm; `None` beside it.
    fn depth(&self, station: f64) -> Option<f64> {
        let out = (station - self.station()).abs();
        self.hollow.meridian.points().windows(2).rev().find_map(|pair| {
            let [a, b] = pair else { return None };
            let share = if b.r >= out { 0.0 } else { (out - b.r) / (a.r - b.r) };
            (b.r >= out || a.r >= out).then_some(b.t + (a.t - b.t) * share)
        })
    }
}
