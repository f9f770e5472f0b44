//! Patches of the sheet: along the outline and around the axis.

use crate::geometry::{Point, Vec2};

pub(super) use crate::geometry::surface::Spot;

/// A patch of the sheet.
#[derive(Clone, Copy)]
pub(super) struct Cell {
    pub u: (f64, f64),
    pub clock: (f64, f64),
    /// The greatest radius in it.
    pub radius: f64,
}

impl Cell {
    pub(super) fn middle(&self) -> Spot {
        Spot::new(f64::midpoint(self.u.0, self.u.1), f64::midpoint(self.clock.0, self.clock.1))
    }

    pub(super) fn half_length(&self) -> f64 {
        (self.u.1 - self.u.0) / 2.0
    }

    pub(super) fn half_arc(&self) -> f64 {
        self.radius * (self.clock.1 - self.clock.0) / 2.0
    }

    pub(super) fn fits(&self, size: f64) -> bool {
        2.0 * self.half_length().max(self.half_arc()) <= size * (1.0 + 1e-9)
    }

    /// Halved across its longer side.
    pub(super) fn halves(&self) -> [Self; 2] {
        if self.half_length() > self.half_arc() {
            let middle = (self.u.0 + self.u.1) / 2.0;
            [Self { u: (self.u.0, middle), ..*self }, Self { u: (middle, self.u.1), ..*self }]
        } else {
            let middle = (self.clock.0 + self.clock.1) / 2.0;
            [Self { clock: (self.clock.0, middle), ..*self }, Self { clock: (middle, self.clock.1), ..*self }]
        }
    }

    pub(super) fn quarters(&self) -> [Self; 4] {
        let (u, c) = ((self.u.0 + self.u.1) / 2.0, (self.clock.0 + self.clock.1) / 2.0);
        let part = |u, clock| Self { u, clock, radius: self.radius };
        [
            part((self.u.0, u), (self.clock.0, c)),
            part((u, self.u.1), (self.clock.0, c)),
            part((u, self.u.1), (c, self.clock.1)),
            part((self.u.0, u), (c, self.clock.1)),
        ]
    }

    pub(super) fn corners(&self) -> [Spot; 4] {
        [
            Spot::new(self.u.0, self.clock.0),
            Spot::new(self.u.1, self.clock.0),
            Spot::new(self.u.1, self.clock.1),
            Spot::new(self.u.0, self.clock.1),
        ]
    }
}

/// The middle of an outline within a cell, and its share of the cell.
pub(super) fn share_of(cell: &Cell, outline: &[Spot]) -> (Spot, f64) {
    let origin = Spot::new(cell.u.0, cell.clock.0);
    let scale = Vec2::new(cell.u.1 - cell.u.0, cell.clock.1 - cell.clock.0);
    let local = |p: Spot| Point::new((p.u - origin.u) / scale.x, (p.clock - origin.clock) / scale.y);
    let (mut twice, mut middle) = (0.0, Vec2::ZERO);
    for (i, place) in outline.iter().enumerate() {
        let (a, b) = (local(*place), local(outline[(i + 1) % outline.len()]));
        let cross = a.x * b.y - b.x * a.y;
        twice += cross;
        middle = Vec2::new(middle.x + (a.x + b.x) * cross, middle.y + (a.y + b.y) * cross);
    }
    if twice.is_nan() || twice <= 1e-12 {
        return (origin, 0.0);
    }
    let (u, c) = (middle.x / (3.0 * twice), middle.y / (3.0 * twice));
    (Spot::new(origin.u + u * scale.x, origin.clock + c * scale.y), (twice / 2.0).min(1.0))
}
