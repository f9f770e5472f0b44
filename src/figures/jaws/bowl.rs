//! A bowl as jaws find it: the wood around the axis across it, along lines outward.

use crate::geometry::line::order::sort_by_number;
use crate::geometry::{Axis, Ray, Solid, Vector};

/// Directions in which the outside is measured: even in number, each with its opposite.
pub(super) const CLOCKS: usize = 32;

/// The opened bowl before it is hollowed, and the axis on which it is.
pub(super) struct Bowl<'a> {
    /// The outside, opened but not hollowed.
    pub body: Solid,
    /// The axis of the hollow; stations grow from the opening into the wood.
    pub axis: &'a Axis,
    /// Station of the opening, in mm.
    pub open: f64,
    /// Station of the outside under the middle of the bowl, in mm.
    pub bottom: f64,
}

/// The outside at one station.
pub(super) struct Around {
    /// Distance of the outside from the axis in [`CLOCKS`] directions, in mm.
    pub radii: Vec<f64>,
    /// The middle one of them, in mm: handle and flats do not move it.
    pub middle: f64,
}

impl<'a> Bowl<'a> {
    /// `None` where the axis meets no wood past `mouth`, the station where the hollow begins, in mm.
    pub(super) fn new(body: Solid, axis: &'a Axis, mouth: f64) -> Option<Self> {
        let line = Ray { start: axis.origin(), direction: axis.along() };
        let wood = body.finished().along(line);
        let (from, bottom) = wood.iter().find(|(_, to)| *to > mouth)?;
        let open = from.max(mouth);
        (bottom - open > LEAST_MM).then_some(Self { body, axis, open, bottom })
    }

    /// The outside around the axis at a station, or a hair within the bowl where that is not in it; `None` where the axis
    /// itself is not in wood.
    pub(super) fn around(&self, t: f64) -> Option<Around> {
        let t = t.clamp(self.open + HAIR_MM, self.bottom - HAIR_MM);
        let state = self.body.finished();
        let start = self.axis.point(t, 0.0, 0.0);
        let mut radii = vec![0.0; CLOCKS];
        for (i, direction) in self.axis.directions(CLOCKS).into_iter().take(CLOCKS / 2).enumerate() {
            let wood = state.along(Ray { start, direction });
            let (from, to) = wood.iter().find(|(from, to)| *from <= 0.0 && 0.0 <= *to)?;
            (radii[i], radii[i + CLOCKS / 2]) = (to, -from);
        }
        let mut sorted = radii.clone();
        sort_by_number(&mut sorted, |radius| *radius);
        let middle = f64::midpoint(sorted[CLOCKS / 2 - 1], sorted[CLOCKS / 2]);
        Some(Around { radii, middle })
    }

    /// Whether wood lies on a line in the direction `toward`, beside the axis by `aside` in the direction `sideways`,
    /// between two distances in mm.
    pub(super) fn has_wood(
        &self,
        t: f64,
        (toward, sideways): (Vector, Vector),
        aside: f64,
        between: (f64, f64),
    ) -> bool {
        let ray = Ray { start: self.axis.point_toward(t, aside, sideways), direction: toward };
        let wood = self.body.finished().along(ray);
        wood.iter().any(|(from, to)| to.min(between.1) - from.max(between.0) > FILM_MM)
    }

    /// The nearest wood on a line outward from the axis, in mm; `None` where there is none.
    pub(super) fn nearest_wood(&self, t: f64, toward: Vector) -> Option<f64> {
        let ray = Ray { start: self.axis.point(t, 0.0, 0.0), direction: toward };
        let wood = self.body.finished().along(ray);
        wood.iter().find(|(from, to)| to - from.max(0.0) > FILM_MM).map(|(from, _)| from.max(0.0))
    }
}

/// What is sawn or turned takes its own surface with it: the wood begins a hair beside it, in mm.
const HAIR_MM: f64 = 1e-3;
/// Where two passes meet, a film of no thickness stays between what they take: thinner than this, in mm, is no wood.
const FILM_MM: f64 = 0.01;
/// A bowl shallower than this is none, in mm.
const LEAST_MM: f64 = 2.0;
