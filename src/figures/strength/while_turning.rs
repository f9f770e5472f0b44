//! The weakest section while the piece is turned.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

use super::beside::{grain_share, limiting};
use super::grain::Grain;
use super::nub::{Nub, PARTED_NEAR, TurnedLast, parted_end};
use super::spinning::{Loads, Spinning, Stresses};
use super::weakest;
use crate::design::{AxisName, Cut, Design};
use crate::figures::place::Place;
use crate::figures::wood::Timber;
use crate::figures::wood::moisture::wet_share;
use crate::geometry::line::order::sort_by_number_falling;
use crate::geometry::{Axis, Bending, Pace, Plane, State, Vector, at_once, square_parts};
use crate::piece::Piece;

/// The weakest section after one pass, on its axis between the centres.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct WhileTurning {
    /// The pass, by its place in working order from 0.
    pub cut: usize,
    /// The axis it spins on.
    pub axis: AxisName,
    /// Where the section's middle is.
    pub place: Place,
    /// Its area, square to the axis, in mm2.
    pub area_mm2: f64,
    /// Its least section modulus, in mm3.
    pub modulus_mm3: f64,
    /// The stresses in it; absent where nothing is left between the centres.
    pub stresses: Option<Stresses>,
    /// What the wood bears in bending there, its grain and moisture allowed for, in MPa; absent when it is not known.
    pub bears_mpa: Option<f64>,
    /// How many times the loads it bears; 0 where nothing is left between the centres.
    pub factor: Option<f64>,
    /// The cut that made the section what it is, by its place in working order from 0; absent for the blank's own side.
    pub limited_by_cut: Option<usize>,
    /// The end of the pass that is so thin that it has to be turned last, when there is one.
    pub turned_last: Option<TurnedLast>,
}

/// The weakest section after the pass at `cut`; `None` for a cut that is no pass along the blank, or with nothing between
/// the centres.
///
/// The least factor over all stations and directions of the loads, of sections drawn within 0.01 mm. Found by search, not
/// proven: within 1 % of the least of 150 sections (a property on random pieces; what was measured stands at
/// `weakest::least`). It leaps only where the piece does, and a join does: the fewest tapers are a number, so what is
/// proposed leaps by up to the spare that tapers may leave, and by more where nothing asks for wood.
#[must_use]
pub fn while_turning(
    design: &Design,
    piece: &Piece,
    cut: usize,
    loads: &Loads,
    timber: Option<&Timber<'_>>,
) -> Option<WhileTurning> {
    at_once(while_turning_in_slices(design, piece, cut, loads, timber, &Pace::unbroken()))
}

/// As [`while_turning`], in slices.
pub async fn while_turning_in_slices(
    design: &Design,
    piece: &Piece,
    cut: usize,
    loads: &Loads,
    timber: Option<&Timber<'_>>,
    pace: &Pace,
) -> Option<WhileTurning> {
    let work = Work::new(design, piece, cut, loads, timber)?;
    let axis = work.spinning.axis;
    let (from, to) = work.judged();
    let stations = weakest::stations(&work.state, axis, from, to);
    let quick = |t: f64| work.factor(&weakest::look(&work.state, axis, t), t);
    let t = weakest::least(&stations, quick, |t| work.factor(&work.carrying(t), t), pace).await?;
    Some(work.at(t))
}

/// As [`while_turning`], at one station along the pass's axis, in mm, instead of at the weakest; `None` where no section is
/// judged.
#[must_use]
pub fn while_turning_at(
    design: &Design,
    piece: &Piece,
    cut: usize,
    loads: &Loads,
    timber: Option<&Timber<'_>>,
    station_mm: f64,
) -> Option<WhileTurning> {
    let work = Work::new(design, piece, cut, loads, timber)?;
    let (from, to) = work.judged();
    (from..=to).contains(&station_mm).then(|| work.at(station_mm))
}

/// The nub that a parting leaves, by which waste and piece hang together until the lathe stands still.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct PartingNub {
    /// The parting or facing cut, by its place in working order from 0.
    pub cut: usize,
    /// The diameter that bears the loads of the last pass on its axis twice, in mm; where that pass has to leave its own
    /// end until last, what it leaves.
    pub diameter_mm: f64,
}

/// The nub of the parting or facing at `cut`; `None` for another cut, without a pass on its axis, or when the wood's
/// strength is not known. Exact for a round nub to 1e-6 mm.
#[must_use]
pub fn parting_nub(
    design: &Design,
    piece: &Piece,
    cut: usize,
    loads: &Loads,
    timber: Option<&Timber<'_>>,
) -> Option<PartingNub> {
    let (Cut::Part(plane) | Cut::Face(plane)) = design.cuts.get(cut)? else { return None };
    let on_axis = |choice: &Cut| matches!(choice, Cut::Pass(pass) if pass.axis == plane.axis);
    let work = Work::new(design, piece, design.cuts.iter().rposition(on_axis)?, loads, timber)?;
    let bears = work.rupture_mpa? * Grain::at(work.spinning.axis.tilt()).share();
    let left = |nub: &Nub| nub.turned_last(&work.spinning, loads, bears).map(|last| last.leave_mm);
    let own = work.nub.as_ref().filter(|nub| (nub.end - plane.at_mm).abs() <= PARTED_NEAR).and_then(left);
    let here = Nub { start: plane.at_mm, end: plane.at_mm, radius: 0.0 };
    Some(PartingNub { cut, diameter_mm: own.or_else(|| left(&here))? })
}

/// What one pass leaves spinning, what pulls at it, and what the wood bears.
struct Work<'a> {
    cut: usize,
    on: AxisName,
    spinning: Spinning<'a>,
    state: State<'a>,
    loads: &'a Loads,
    nub: Option<Nub>,
    /// What the wood bears along its grain, in bending, in MPa; absent when it is not known.
    rupture_mpa: Option<f64>,
    /// What it bears in shear, in MPa; endless when it is not known.
    shears_mpa: f64,
}

impl<'a> Work<'a> {
    fn new(
        design: &Design,
        piece: &'a Piece,
        cut: usize,
        loads: &'a Loads,
        timber: Option<&Timber<'_>>,
    ) -> Option<Self> {
        let Cut::Pass(pass) = design.cuts.get(cut)? else { return None };
        let spinning = Spinning::new(piece, piece.axis(pass.axis)?, piece.revolved(cut)?)?;
        let state = State { plug: None, ..piece.solid.state(cut + 1) };
        let nub = parted_end(design, pass, spinning.pass);
        let wet = wet_share(design.wood.moisture_percent);
        let rupture_mpa = timber.and_then(|timber| timber.rupture_mpa).map(|mpa| mpa * wet);
        let shears_mpa = timber.and_then(|timber| timber.shear_mpa).map_or(f64::INFINITY, |mpa| mpa * wet);
        Some(Self { cut, on: pass.axis, spinning, state, loads, nub, rupture_mpa, shears_mpa })
    }

    /// The first and the last station that is judged.
    fn judged(&self) -> (f64, f64) {
        let (first, last) = (self.spinning.first, self.spinning.last);
        self.nub.as_ref().map_or((first, last), |nub| nub.judged(first, last))
    }

    /// How many times the loads a section bears. Where strengths are not known, that of wood that bears 1 MPa: its
    /// weakest place is that of any wood.
    fn factor(&self, section: &Bending, t: f64) -> f64 {
        let stresses = self.spinning.stresses(section, t, self.loads);
        if !stresses.are_finite() {
            return 0.0;
        }
        let bears = self.rupture_mpa.unwrap_or(1.0) * grain_share(&self.state, middle(self.spinning.axis, section, t));
        (bears / stresses.bending_mpa()).min(self.shears_mpa / stresses.twist_mpa)
    }

    /// The part of the section that bears most. Of parts that hang together only elsewhere one carries the load; a fin that
    /// a leaning shoulder leaves beside the work may be the larger and yet bear next to nothing.
    fn carrying(&self, t: f64) -> Bending {
        let mut parts = square_parts(&self.state, self.spinning.axis, t);
        if parts.len() > 1 {
            sort_by_number_falling(&mut parts, |part| self.factor(part, t));
        }
        parts.into_iter().next().unwrap_or_default()
    }

    fn at(&self, t: f64) -> WhileTurning {
        let axis = self.spinning.axis;
        let section = self.carrying(t);
        let stresses = Some(self.spinning.stresses(&section, t, self.loads)).filter(Stresses::are_finite);
        let middle = middle(axis, &section, t);
        let end_bears = self.rupture_mpa.map(|mpa| mpa * Grain::at(axis.tilt()).share());
        WhileTurning {
            cut: self.cut,
            axis: self.on,
            place: Place::of(middle),
            area_mm2: section.moments.area_mm2,
            modulus_mm3: section.least_modulus_mm3(),
            stresses,
            bears_mpa: self.rupture_mpa.map(|mpa| mpa * grain_share(&self.state, middle)),
            factor: match stresses {
                Some(_) => self.rupture_mpa.map(|_| self.factor(&section, t)),
                None => Some(0.0),
            },
            limited_by_cut: limiting(&self.state, middle),
            turned_last: self.nub.as_ref().and_then(|nub| nub.turned_last(&self.spinning, self.loads, end_bears?)),
        }
    }
}

/// The middle of a section square to an axis.
fn middle(axis: &Axis, section: &Bending, t: f64) -> Vector {
    let [u, v] = section.moments.centroid;
    Plane::square_to(axis, t).at(u, v)
}
