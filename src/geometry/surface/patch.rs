//! A patch of a sheet seen from a place in it: how far it reaches, and how little a distance can grow over it.

use std::f64::consts::FRAC_PI_2;

use kurbo::Vec2;
use smallvec::{SmallVec, smallvec};

use super::sheet::{Sheet, SheetPoint, Spot};
use crate::geometry::Station;
use crate::geometry::frame::vector::Vector;

/// A patch of a sheet: a stretch of the meridian by a stretch of the clock, in mm and radians.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Patch {
    /// From and to along the meridian.
    pub u: (f64, f64),
    /// From and to around the axis.
    pub clock: (f64, f64),
}

impl Patch {
    /// Its middle.
    #[must_use]
    pub fn middle(&self) -> Spot {
        Spot::new(f64::midpoint(self.u.0, self.u.1), f64::midpoint(self.clock.0, self.clock.1))
    }

    /// Its four corners.
    #[must_use]
    pub fn corners(&self) -> [Spot; 4] {
        [
            Spot::new(self.u.0, self.clock.0),
            Spot::new(self.u.1, self.clock.0),
            Spot::new(self.u.1, self.clock.1),
            Spot::new(self.u.0, self.clock.1),
        ]
    }

    /// Both halves, parted along the meridian or around the axis.
    #[must_use]
    pub fn halves(&self, way: Way) -> [Self; 2] {
        let Spot { u, clock } = self.middle();
        match way {
            Way::Along => [Self { u: (self.u.0, u), ..*self }, Self { u: (u, self.u.1), ..*self }],
            Way::Around => {
                [Self { clock: (self.clock.0, clock), ..*self }, Self { clock: (clock, self.clock.1), ..*self }]
            }
        }
    }
}

/// A direction on a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Along the meridian.
    Along,
    /// Around the axis.
    Around,
}

/// How a distance that grows from a place of the patch by its gradient may bend back.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bend {
    /// The part of the gradient that points at another axis, not negative.
    pub inward: f64,
    /// Away from that axis, of length 1.
    pub out: Vector,
    /// Around that axis, of length 1.
    pub around: Vector,
    /// Distance from that axis, in mm.
    pub radius: f64,
}

/// A bound of some distance over a patch: it is nowhere below the value and the step along the gradient, but for the bends.
#[derive(Clone, Debug)]
pub(super) struct Tangent {
    /// At the place from which the patch is seen, in mm.
    pub value: f64,
    pub gradient: Vector,
    pub bends: SmallVec<[Bend; 2]>,
}

impl Tangent {
    /// Of a distance that is linear in the point.
    pub(super) fn plane(value: f64, gradient: Vector) -> Self {
        Self { value, gradient, bends: SmallVec::new() }
    }

    /// Of a distance that bends.
    pub(super) fn bent(value: f64, gradient: Vector, bend: Bend) -> Self {
        Self { value, gradient, bends: smallvec![bend] }
    }

    /// Of the sum of this distance and `by` times another, `by` not negative.
    pub(super) fn plus(&self, other: &Self, by: f64) -> Self {
        let more = other.bends.iter().map(|bend| Bend { inward: by * bend.inward, ..*bend });
        Self {
            value: self.value + by * other.value,
            gradient: self.gradient + other.gradient * by,
            bends: self.bends.iter().copied().chain(more).collect(),
        }
    }
}

/// A side of a patch shorter than this share of the other is not halved again.
const SLIVER: f64 = 1.0 / 64.0;

/// A patch seen from a place in it.
#[derive(Clone, Debug)]
pub(super) struct View {
    pub at: SheetPoint,
    along: Vector,
    toward: Vector,
    aside: Vector,
    /// Where the meridian turns or ends, seen from the place: steps along and away from the axis, in mm.
    turns: SmallVec<[Vec2; 8]>,
    radii: (f64, f64),
    half_turn: f64,
    half_length: f64,
    reach: f64,
}

impl View {
    /// A patch seen from `place`, which lies in it.
    pub(super) fn new(sheet: &Sheet<'_>, patch: &Patch, place: Spot) -> Self {
        let axis = &sheet.hollow().axis;
        let (sin, cos) = place.clock.sin_cos();
        let toward = axis.right() * sin + axis.up() * cos;
        let at = sheet.see_toward(place, toward);
        let half_turn = (patch.clock.1 - place.clock).max(place.clock - patch.clock.0);
        let ends = [sheet.at(patch.u.0), sheet.at(patch.u.1)];
        let inner = sheet.corners_between(patch.u.0, patch.u.1).iter().copied();
        let (mut radii, mut reach_sq) = ((at.radius, at.radius), 0.0_f64);
        let bow = 2.0 * at.radius * (1.0 - half_turn.min(std::f64::consts::PI).cos());
        let turns = ends.into_iter().chain(inner).map(|Station { t, r }| {
            radii = (radii.0.min(r), radii.1.max(r));
            let (dt, dr) = (t - at.t, r - at.radius);
            reach_sq = reach_sq.max(dt * dt + dr * dr + r * bow);
            Vec2::new(dt, dr)
        });
        Self {
            turns: turns.collect(),
            along: axis.along(),
            aside: axis.right() * cos - axis.up() * sin,
            toward,
            radii,
            half_turn,
            half_length: (patch.u.1 - place.u).max(place.u - patch.u.0),
            reach: reach_sq.sqrt(),
            at,
        }
    }

    /// Radius of a ball around the place that holds the patch, in mm.
    pub(super) fn reach(&self) -> f64 {
        self.reach
    }

    /// The longest way to a point of the patch along the sheet, in mm.
    pub(super) fn way(&self) -> f64 {
        self.half_length.hypot(self.radii.1 * self.half_turn).max(self.reach)
    }

    /// Whether it lies in a plane square to the axis.
    pub(super) fn is_disc(&self) -> bool {
        self.turns.iter().all(|Vec2 { x: dt, .. }| *dt == 0.0)
    }

    /// Its longer side, in mm, seen from a place in its middle.
    pub(super) fn width(&self) -> f64 {
        2.0 * self.half_length.max(self.radii.1 * self.half_turn)
    }

    /// The longer side.
    pub(super) fn longer(&self) -> Way {
        if self.half_length > self.radii.1 * self.half_turn { Way::Along } else { Way::Around }
    }

    /// A way to halve the patch, unless that side is a [`SLIVER`] of the other already: then the other way. The patch must
    /// come to nothing in both, or a bound that never shrinks would have one side halved for ever.
    pub(super) fn sound(&self, way: Way) -> Way {
        let (along, around) = (self.half_length, self.radii.1 * self.half_turn);
        let (this, other) = if way == Way::Along { (along, around) } else { (around, along) };
        if this < other * SLIVER { self.longer() } else { way }
    }

    /// The directions along the meridian and around the axis at the place, of length 1.
    pub(super) fn directions(&self) -> [Vector; 2] {
        [self.aside.cross(self.at.into_wood), self.aside]
    }

    /// The least that a distance between points of space comes to over the patch, by its bound, in mm; and the way along
    /// which it falls most.
    pub(super) fn least(&self, tangent: &Tangent) -> (f64, Way) {
        let (along, around) = self.fall(tangent).unwrap_or_else(|| self.by_way(tangent.gradient.length() * self.reach));
        (tangent.value - along - around, if along > around { Way::Along } else { Way::Around })
    }

    /// The least that a sum of distances comes to; `None` of a patch too large to say.
    pub(super) fn least_of_sum(&self, sum: &Tangent) -> Option<f64> {
        let (along, around) = self.fall(sum).filter(|_| self.half_turn < FRAC_PI_2)?;
        Some(sum.value - along - around)
    }

    fn by_way(&self, fall: f64) -> (f64, f64) {
        if self.longer() == Way::Along { (fall, 0.0) } else { (0.0, fall) }
    }

    /// The most that a distance can fall over the patch, in mm, along it and around it. Not negative; `None` where an axis
    /// around which it bends comes near.
    ///
    /// The distance is linear in the station along another axis and in the distance from it. That last one grows faster
    /// than its tangent by at most the square of the step around that axis over twice the radius. The patch itself bends
    /// away from its tangent by its own radius, which makes up for it where the hollow lies in the round of that axis.
    fn fall(&self, tangent: &Tangent) -> Option<(f64, f64)> {
        let gradient = tangent.gradient;
        let on_the_way = self.on_the_way(gradient);
        if self.half_turn >= FRAC_PI_2 {
            return Some((on_the_way, gradient.length() * self.reach));
        }
        let (sin, cos) = self.half_turn.sin_cos();
        let largest = self.radii.1;
        let (side, mut square) = self.around(gradient);
        let mut bent = 0.0;
        for bend in tangent.bends.iter().filter(|bend| bend.inward > 0.0) {
            let toward = self.around(bend.out);
            let nearest = bend.radius - self.reach.min(self.on_the_way(bend.out) + most_around(toward, sin));
            if nearest <= 0.0 {
                return None;
            }
            let (a, b, c) = (bend.around.dot(self.along), bend.around.dot(self.toward), bend.around.dot(self.aside));
            let meridian =
                self.turns.iter().map(|Vec2 { x: dt, y: dr }| (a * dt).abs() + (b * dr).abs()).fold(0.0, f64::max);
            let step = meridian + b.abs() * largest * (1.0 - cos);
            let turn = c.abs() * largest;
            let share = bend.inward / (2.0 * nearest);
            bent += share * (step * step + 2.0 * step * turn * sin);
            square -= share * turn * turn;
        }
        Some((on_the_way + bent, most_around((side, square), sin)))
    }

    /// How far a linear distance falls along the meridian.
    fn on_the_way(&self, gradient: Vector) -> f64 {
        let (on_axis, outward) = (gradient.dot(self.along), gradient.dot(self.toward));
        -self.turns.iter().map(|Vec2 { x: dt, y: dr }| on_axis * dt + outward * dr).fold(0.0, f64::min)
    }

    /// How far a linear distance falls around the axis: by the first times the sine of the turn, less the second times its
    /// square. The patch falls away toward its axis by r (1 - cos), between r sin^2 / 2 and r sin^2 / (1 + cos).
    fn around(&self, gradient: Vector) -> (f64, f64) {
        let (outward, across) = (gradient.dot(self.toward), gradient.dot(self.aside).abs());
        let (least, largest) = self.radii;
        let bow = if outward <= 0.0 { least / 2.0 } else { largest / (1.0 + self.half_turn.cos()) };
        (across * largest, -outward * bow)
    }
}

/// The most of `side x - square x^2` for x from 0 to `sin`; not negative.
fn most_around((side, square): (f64, f64), sin: f64) -> f64 {
    let most = if square > 0.0 && side < 2.0 * square * sin {
        side * side / (4.0 * square)
    } else {
        side * sin - square * sin * sin
    };
    most.max(0.0)
}
