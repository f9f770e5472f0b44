//! Patches of the sheet: along the outline and around the axis.

pub(super) use crate::geometry::surface::Place;

/// A patch of the sheet.
#[derive(Clone, Copy)]
pub(super) struct Cell {
    pub u: (f64, f64),
    pub clock: (f64, f64),
    /// The greatest radius in it.
    pub radius: f64,
}

impl Cell {
    pub(super) fn middle(&self) -> Place {
        (f64::midpoint(self.u.0, self.u.1), f64::midpoint(self.clock.0, self.clock.1))
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

    pub(super) fn corners(&self) -> [Place; 4] {
        [(self.u.0, self.clock.0), (self.u.1, self.clock.0), (self.u.1, self.clock.1), (self.u.0, self.clock.1)]
    }
}

/// The middle of an outline within a cell, and its share of the cell.
pub(super) fn share_of(cell: &Cell, outline: &[Place]) -> (Place, f64) {
    let origin = (cell.u.0, cell.clock.0);
    let scale = (cell.u.1 - cell.u.0, cell.clock.1 - cell.clock.0);
    let local = |p: Place| ((p.0 - origin.0) / scale.0, (p.1 - origin.1) / scale.1);
    let (mut twice, mut middle) = (0.0, (0.0, 0.0));
    for (i, place) in outline.iter().enumerate() {
        let (a, b) = (local(*place), local(outline[(i + 1) % outline.len()]));
        let cross = a.0 * b.1 - b.0 * a.1;
        twice += cross;
        middle = (middle.0 + (a.0 + b.0) * cross, middle.1 + (a.1 + b.1) * cross);
    }
    if twice.is_nan() || twice <= 1e-12 {
        return (origin, 0.0);
    }
    let (u, c) = (middle.0 / (3.0 * twice), middle.1 / (3.0 * twice));
    ((origin.0 + u * scale.0, origin.1 + c * scale.1), (twice / 2.0).min(1.0))
}
