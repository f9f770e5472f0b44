//! The surface of one hollow in bands along its meridian, and what flows through them.

use crate::geometry::surface::Sheet;
use crate::geometry::surface::Spot;

/// Where the meridian turns by more than this, in radians, a band ends.
const CORNER: f64 = 0.3;

/// The flux of a band's surface per radian: its vector area lies `along` the axis and `outward` from it, in mm2.
#[derive(Clone, Copy, Default)]
pub(super) struct Flux {
    /// Along the axis.
    pub along: f64,
    /// Away from the axis.
    pub outward: f64,
}

/// Two places along the meridian and the flux at each: exact for what changes evenly along it.
pub(super) type Nodes = [(f64, Flux); 2];

/// Area of the profile and the end discs, without the way out, in mm2.
pub(super) fn area(sheet: &Sheet<'_>) -> f64 {
    let mut area = 0.0;
    let mut before: Option<(f64, f64, f64)> = None;
    for (u, t, r) in sheet.corners() {
        if let Some((u0, _, r0)) = before.filter(|b| !sheet.is_way_out(Spot::new(f64::midpoint(b.0, u), 0.0))) {
            area += (u - u0) * std::f64::consts::PI * (r0 + r);
        }
        before = Some((u, t, r));
    }
    area
}

/// Bands no longer than `size`, as ends along the meridian; a corner of the meridian ends a band.
pub(super) fn bands(sheet: &Sheet<'_>, size: f64) -> Vec<(f64, f64)> {
    let mut bands = Vec::new();
    let mut from = 0.0;
    let mut heading = None;
    let mut before: Option<(f64, f64, f64)> = None;
    for corner in sheet.corners() {
        let Some(last) = before.replace(corner) else { continue };
        if corner.0 <= last.0 {
            continue;
        }
        let next = (corner.1 - last.1, corner.2 - last.2);
        if heading.is_some_and(|before| turn(before, next) > CORNER) {
            split(from, last.0, size, &mut bands);
            from = last.0;
        }
        heading = Some(next);
    }
    split(from, sheet.length(), size, &mut bands);
    bands
}

/// The greatest radius between two places.
pub(super) fn largest_radius(sheet: &Sheet<'_>, from: f64, to: f64) -> f64 {
    let inner = sheet.corners_between(from, to).iter().map(|p| p.r);
    inner.chain([sheet.at(from).r, sheet.at(to).r]).fold(0.0, f64::max)
}

/// The flux between two places, into the air, as two nodes.
///
/// The sum and the first moment are those of the meridian's straight pieces, exactly, however many there are.
pub(super) fn nodes(sheet: &Sheet<'_>, from: f64, to: f64) -> Nodes {
    let (middle, half) = ((from + to) / 2.0, (to - from) / 2.0);
    let mut sum = Flux::default();
    let mut moment = Flux::default();
    let mut at = from;
    let mut a = sheet.at(from);
    for b in sheet.corners_between(from, to).iter().copied().chain([sheet.at(to)]) {
        let (dt, dr) = (b.t - a.t, b.r - a.r);
        let width = dt.hypot(dr);
        if width > 0.0 {
            // Radius integrated over the piece, and the same weighted by the place from -1 to 1.
            let whole = f64::midpoint(a.r, b.r) * width;
            let place = (at + width / 2.0 - middle) / half;
            let first = whole * place + dr / width * width.powi(3) / (12.0 * half);
            sum = sum.plus(whole * dr / width, -whole * dt / width);
            moment = moment.plus(first * dr / width, -first * dt / width);
        }
        at += width;
        a = b;
    }
    let root3 = 3.0_f64.sqrt();
    let node = |side: f64| {
        let half_of = |m0: f64, m1: f64| (m0 + side * root3 * m1) / 2.0;
        let flux = Flux { along: half_of(sum.along, moment.along), outward: half_of(sum.outward, moment.outward) };
        (middle + side * half / root3, flux)
    };
    [node(-1.0), node(1.0)]
}

/// The flux of all of a band, were it everywhere what it is at one place between its nodes or near them.
pub(super) fn flux_at([a, b]: &Nodes, place: f64) -> Flux {
    let part = if b.0 > a.0 { (place - a.0) / (b.0 - a.0) } else { 0.5 };
    // Each node stands for half of the band.
    let mixed = |a: f64, b: f64| 2.0 * (a + (b - a) * part);
    Flux { along: mixed(a.1.along, b.1.along), outward: mixed(a.1.outward, b.1.outward) }
}

impl Flux {
    fn plus(self, along: f64, outward: f64) -> Self {
        Self { along: self.along + along, outward: self.outward + outward }
    }
}

/// The angle between two directions of the half-plane, in radians.
fn turn(a: (f64, f64), b: (f64, f64)) -> f64 {
    (a.0 * b.1 - a.1 * b.0).atan2(a.0 * b.0 + a.1 * b.1).abs()
}

fn split(from: f64, to: f64, size: f64, bands: &mut Vec<(f64, f64)>) {
    if to <= from {
        return;
    }
    let count = ((to - from) / size).ceil().clamp(1.0, 1000.0);
    let step = (to - from) / count;
    bands.extend((0..count as usize).map(|i| (from + step * i as f64, from + step * (i as f64 + 1.0))));
}
