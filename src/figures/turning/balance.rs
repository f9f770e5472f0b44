//! Figure 11: how far the work is out of balance, and what that loads its centres with.

use std::f64::consts::TAU;

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

use super::step::Step;
use crate::figures::place::clock_deg;
use crate::figures::tables::BalanceGrade;
use crate::geometry::frame::tolerance::SAME_MM;
use crate::geometry::{Axis, Mass, Vector, kilograms};

/// The balance of the work at the start and at the end of a step.
///
/// What is cut at a step may leave the work better or worse balanced, so both count.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Balance {
    /// Before the step.
    pub before: Unbalance,
    /// After it.
    pub after: Unbalance,
}

impl Balance {
    /// The greater load on one centre at a speed, before or after, in N.
    #[must_use]
    pub fn worst_n(&self, rpm: f64) -> f64 {
        self.before.worst_n(rpm).max(self.after.worst_n(rpm))
    }

    /// The speed at which the worse of both loads one centre with a force in N, in revolutions per minute: infinite for
    /// balanced work.
    #[must_use]
    pub fn rpm_at(&self, force_n: f64) -> f64 {
        let per_rpm_sq = self.worst_n(1.0);
        if per_rpm_sq > 0.0 { (force_n.max(0.0) / per_rpm_sq).sqrt() } else { f64::INFINITY }
    }

    /// How it shakes at a speed: the state that loads a centre more.
    #[must_use]
    pub fn shaking(&self, rpm: f64) -> Shaking {
        let worse = if self.after.worst_n(rpm) > self.before.worst_n(rpm) { &self.after } else { &self.before };
        worse.shaking(rpm)
    }
}

/// How the mass of the work lies about the axis it spins on.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Unbalance {
    /// Mass, in g.
    pub mass_g: f64,
    /// Centre of mass: x as held, in mm.
    pub centre_x_mm: f64,
    /// Its y as held, in mm.
    pub centre_y_mm: f64,
    /// Its station along the blank, in mm.
    pub centre_station_mm: f64,
    /// How far the centre of mass is from the axis, in mm.
    pub eccentricity_mm: f64,
    /// The clock direction of the heavy side, in degrees; absent when it is balanced to a thousandth of a mm.
    pub heavy_clock_deg: Option<f64>,
    /// Mass times its distance from the axis, in g mm: what a counterweight must give on the other side.
    pub unbalance_g_mm: f64,
    /// The part of it to the right of the axis, in g mm.
    pub unbalance_right_g_mm: f64,
    /// The part of it up from the axis, in g mm.
    pub unbalance_up_g_mm: f64,
    /// Product of inertia, the integral of distance along the axis times distance to the right of it, in kg mm2. The
    /// origin is midway between the two centres.
    pub product_right_kg_mm2: f64,
    /// As above, distance up from the axis.
    pub product_up_kg_mm2: f64,
    /// Between the centres, in mm; absent when the work is held at one end only.
    pub between_centres_mm: Option<f64>,
}

/// How the work shakes at a speed.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
#[borsh(init = grade)]
pub struct Shaking {
    /// The speed, in revolutions per minute.
    pub rpm: f64,
    /// The out-of-balance force of all of it, in N.
    pub static_n: f64,
    /// The couple that rocks it end over end, in N m.
    pub couple_nm: f64,
    /// The load on the tail centre, in N; absent when the work is held at one end only.
    pub tail_n: Option<f64>,
    /// The load on the drive centre, in N.
    pub head_n: Option<f64>,
    /// Eccentricity times angular speed, in mm/s.
    pub speed_of_centre_mm_s: f64,
    /// The finest balance grade of machine rotors (ISO 21940-11) that allows it, for scale; absent past the coarsest.
    #[borsh(skip)]
    pub grade: Option<&'static str>,
}

impl Shaking {
    /// Fills in the grade, which follows from the rest.
    fn grade(&mut self) {
        self.grade = BalanceGrade::of(self.speed_of_centre_mm_s).map(|grade| grade.name);
    }
}

/// Angular speed of revolutions per minute, in radians per second.
#[must_use]
pub fn radians_per_second(rpm: f64) -> f64 {
    TAU * rpm / 60.0
}

impl Unbalance {
    /// Of a mass in a step. Masses within 0.1 % for the density given; forces follow the geometry's accuracy.
    #[must_use]
    pub fn of(mass: &Mass, density_kg_m3: f64, axis: &Axis, held: Held) -> Self {
        let mass_kg = mass.kilograms(density_kg_m3);
        let middle = held.middle(axis);
        let from_middle = mass.centroid - middle;
        let (right, up) = (from_middle.dot(axis.right()), from_middle.dot(axis.up()));
        // About the middle: what it is about the centroid, and the centroid's own share.
        let along = axis.along();
        let a = [along.x, along.y, along.s];
        let row = |i: usize| mass.second[i][0] * a[0] + mass.second[i][1] * a[1] + mass.second[i][2] * a[2];
        let own = Vector::new(row(0), row(1), row(2));
        let lever = mass.volume_mm3 * from_middle.dot(along);
        let kg_per_mm3 = kilograms(1.0, density_kg_m3);
        let eccentricity_mm = right.hypot(up);
        let is_off = eccentricity_mm > 1e-3;
        Self {
            mass_g: mass_kg * 1000.0,
            centre_x_mm: mass.centroid.x,
            centre_y_mm: mass.centroid.y,
            centre_station_mm: mass.centroid.s,
            eccentricity_mm,
            heavy_clock_deg: is_off.then(|| clock_deg(right, up)),
            unbalance_g_mm: mass_kg * 1000.0 * eccentricity_mm,
            unbalance_right_g_mm: mass_kg * 1000.0 * right,
            unbalance_up_g_mm: mass_kg * 1000.0 * up,
            product_right_kg_mm2: kg_per_mm3 * (own.dot(axis.right()) + lever * right),
            product_up_kg_mm2: kg_per_mm3 * (own.dot(axis.up()) + lever * up),
            between_centres_mm: held.between(),
        }
    }

    /// The load on the more loaded centre at a speed, in N; on all that holds it when that is one end only.
    #[must_use]
    pub fn worst_n(&self, rpm: f64) -> f64 {
        let shaking = self.shaking(rpm);
        match (shaking.tail_n, shaking.head_n) {
            (Some(tail), Some(head)) => tail.max(head),
            _ => shaking.static_n,
        }
    }

    /// How it shakes at a speed.
    ///
    /// The wood pulls outward with the integral of omega^2 rho dm: m omega^2 e in all, and about the middle between the
    /// centres with the moment omega^2 P, P the products of inertia. So a centre takes half of the first and P omega^2
    /// over their distance, one with it and one against it.
    #[must_use]
    pub fn shaking(&self, rpm: f64) -> Shaking {
        let omega = radians_per_second(rpm);
        // kg mm / s2 is a thousandth of a newton.
        let newtons = omega * omega * 1e-3;
        let pull = [self.unbalance_right_g_mm, self.unbalance_up_g_mm].map(|g_mm| g_mm * 1e-3 * newtons);
        let products = [self.product_right_kg_mm2 * newtons, self.product_up_kg_mm2 * newtons];
        let load = |side: f64| {
            self.between_centres_mm.map(|between| {
                let part = |i: usize| pull[i] / 2.0 + side * products[i] / between;
                part(0).hypot(part(1))
            })
        };
        let speed_of_centre_mm_s = self.eccentricity_mm * omega;
        Shaking {
            rpm,
            static_n: self.unbalance_g_mm * 1e-3 * newtons,
            couple_nm: products[0].hypot(products[1]) * 1e-3,
            tail_n: load(-1.0),
            head_n: load(1.0),
            speed_of_centre_mm_s,
            grade: BalanceGrade::of(speed_of_centre_mm_s).map(|grade| grade.name),
        }
    }
}

/// What holds the work.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Held {
    /// A centre at either end: on the tail face and on the head face.
    Centres(Vector, Vector),
    /// Chuck or jaws at one end; the point is where moments are counted from.
    OneEnd(Vector),
}

impl Held {
    /// How a step holds the work: passes between centres, hollows and anything across the grain at one end.
    pub(super) fn of(step: &Step<'_>, tail_face: f64, head_face: f64) -> Self {
        let faces = step.axis.centre(tail_face).zip(step.axis.centre(head_face));
        match faces {
            Some((tail, head)) if step.is_pass => Self::Centres(tail, head),
            Some((tail, head)) => Self::OneEnd((tail + head) * 0.5),
            None => Self::OneEnd(step.axis.origin()),
        }
    }

    fn middle(self, axis: &Axis) -> Vector {
        match self {
            // On the axis, whatever rounding the centres have.
            Self::Centres(tail, head) => axis.point(axis.see((tail + head) * 0.5).t, 0.0, 0.0),
            Self::OneEnd(point) => point,
        }
    }

    fn between(self) -> Option<f64> {
        match self {
            Self::Centres(tail, head) => Some((head - tail).length()).filter(|between| *between > SAME_MM),
            Self::OneEnd(_) => None,
        }
    }
}
