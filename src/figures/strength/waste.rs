//! The weakest section while the piece is turned.

use serde::Serialize;

use super::grain::Grain;
use super::weakest;
use crate::design::{AxisName, Cut, Design, Pass, Piece, Side};
use crate::figures::place::Place;
use crate::figures::wood::Timber;
use crate::figures::wood::moisture::wet_share;
use crate::geometry::order::sort_by_number_falling;
use crate::geometry::{Axis, Bending, Fill, Plane, Region, Revolved, State, Vector, square_parts};

/// How hard the tail centre presses, in N. Common practice, no source.
pub const TAIL_THRUST_N: f64 = 200.0;
/// How hard a catch pulls, in N: about the weight of 30 kg. A tool that catches is driven by the motor and the spinning
/// mass until something gives, and 100 N is no more than a heavy cut. Common practice, no source.
pub const CATCH_N: f64 = 300.0;

/// How many times the loads the wood should bear while it is turned: a knot or a crack can halve its strength, and then
/// it still bears them once. Common practice, no source.
pub const HALVED: f64 = 2.0;

/// What the figures of the turning rest on.
pub const ASSUMPTIONS: [&str; 6] = [
    "The tail centre presses with 200 N along the axis (common practice, no source).",
    "The out-of-balance force bears on both centres at once, as a pull at either end of the work.",
    "A catch pulls with 300 N, the weight of some 30 kg, at the surface the pass is turning, wherever that is worst \
     (common practice, no source).",
    "All three act at once and in the worst directions; a plug carries nothing, and both centres let the work turn.",
    "Strengths are averages of flawless wood.",
    "A knot, a crack or a blow can halve them: so the least that is ok is 2 times the loads (common practice, no source).",
];

/// What pulls at the work while it is turned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loads {
    /// The tail centre's thrust, in N.
    pub thrust_n: f64,
    /// The out-of-balance force on one centre, in N.
    pub balance_n: f64,
    /// The pull of a catch, in N.
    pub catch_n: f64,
}

impl Default for Loads {
    fn default() -> Self {
        Self { thrust_n: TAIL_THRUST_N, balance_n: 0.0, catch_n: CATCH_N }
    }
}

/// The weakest section after one pass, on its axis between the centres.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Waste {
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

/// An end of a pass that parts the piece from its waste: turned last, with light cuts.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TurnedLast {
    /// Where the pass ends, in mm along the blank.
    pub station_mm: f64,
    /// Its diameter there, in mm.
    pub diameter_mm: f64,
    /// The diameter that bears all of it twice, in mm: leave this much until last.
    pub leave_mm: f64,
}

/// The weakest section after the pass at `cut`; `None` for a cut that is no pass along the blank, or with nothing between
/// the centres.
///
/// The least factor over all stations and directions of the loads, of sections drawn within 0.01 mm. Found by search, not
/// proven: within 2 % of the least of 150 sections (a property on random pieces). It leaps only where the piece does.
#[must_use]
pub fn waste(design: &Design, piece: &Piece, cut: usize, loads: &Loads, timber: Option<&Timber<'_>>) -> Option<Waste> {
    let work = Work::new(design, piece, cut, loads, timber)?;
    let axis = work.spinning.axis;
    let (from, to) = work.spinning.outside_of(work.nub.as_ref());
    let stations = weakest::stations(&work.state, axis, from, to);
    let quick = |t: f64| work.factor(&weakest::look(&work.state, axis, t), t);
    let t = weakest::least(&stations, quick, |t| work.factor(&work.carrying(t), t))?;
    Some(work.at(t))
}

/// As [`waste`], at one station along the pass's axis, in mm, instead of at the weakest; `None` where no section is
/// judged.
#[must_use]
pub fn waste_at(
    design: &Design,
    piece: &Piece,
    cut: usize,
    loads: &Loads,
    timber: Option<&Timber<'_>>,
    station_mm: f64,
) -> Option<Waste> {
    let work = Work::new(design, piece, cut, loads, timber)?;
    let (from, to) = work.spinning.outside_of(work.nub.as_ref());
    (from..=to).contains(&station_mm).then(|| work.at(station_mm))
}

/// The nub that a parting leaves, by which waste and piece hang together until the lathe stands still.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
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
    let left = |nub: &Nub| work.spinning.turned_last(nub, loads, bears).map(|last| last.leave_mm);
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

    fn at(&self, t: f64) -> Waste {
        let axis = self.spinning.axis;
        let section = self.carrying(t);
        let stresses = Some(self.spinning.stresses(&section, t, self.loads)).filter(Stresses::are_finite);
        let middle = middle(axis, &section, t);
        let end_bears = self.rupture_mpa.map(|mpa| mpa * Grain::at(axis.tilt()).share());
        Waste {
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
            turned_last: self.nub.as_ref().and_then(|nub| self.spinning.turned_last(nub, self.loads, end_bears?)),
        }
    }
}

/// The middle of a section square to an axis.
fn middle(axis: &Axis, section: &Bending, t: f64) -> Vector {
    let [u, v] = section.moments.centroid;
    Plane::square_to(axis, t).at(u, v)
}

/// Work between two centres on one axis.
struct Spinning<'a> {
    axis: &'a Axis,
    pass: &'a Revolved,
    /// The stations of both centres.
    tail: f64,
    head: f64,
    /// The first and the last station that are wood of the blank.
    first: f64,
    last: f64,
}

/// The stresses in one section.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Stresses {
    /// From the tail centre's thrust, its offset from the middle of the section included, in MPa.
    pub thrust_mpa: f64,
    /// Bending from the out-of-balance force, in MPa.
    pub balance_mpa: f64,
    /// Bending from a catch, in MPa.
    pub catch_mpa: f64,
    /// Shear from the twist of a catch, in MPa.
    pub twist_mpa: f64,
}

impl Stresses {
    /// What pulls the fibres apart, in MPa.
    #[must_use]
    pub fn bending_mpa(&self) -> f64 {
        self.thrust_mpa + self.balance_mpa + self.catch_mpa
    }

    /// Whether there is wood to bear them.
    fn are_finite(&self) -> bool {
        (self.bending_mpa() + self.twist_mpa).is_finite()
    }
}

/// What is this near to a centre, in mm, is its footing and not judged.
const FOOTING: f64 = 1.0;

impl<'a> Spinning<'a> {
    fn new(piece: &Piece, axis: &'a Axis, pass: &'a Revolved) -> Option<Self> {
        let station = |s: f64| axis.centre(s).map(|centre| axis.see(centre).t);
        let (tail, head) = (station(piece.tail_face)?, station(piece.head_face)?);
        let (first, last) = (station(0.0)? + FOOTING, head - FOOTING);
        (first < last).then_some(Self { axis, pass, tail, head, first, last })
    }

    /// The stations to judge: all but a parted end, on the waste's side of which nothing is judged either.
    fn outside_of(&self, nub: Option<&Nub>) -> (f64, f64) {
        match nub {
            Some(nub) if nub.end > nub.start => (self.first, self.last.min(nub.start).max(self.first)),
            Some(nub) => (self.first.max(nub.start).min(self.last), self.last),
            None => (self.first, self.last),
        }
    }

    /// Bending moments of the out-of-balance force and of a catch at a station, and the twist of a catch, in N mm.
    fn moments(&self, t: f64, loads: &Loads) -> [f64; 3] {
        let (from_tail, from_head) = ((t - self.tail).max(0.0), (self.head - t).max(0.0));
        let (start, end) = (self.pass.meridian.start(), self.pass.meridian.end());
        let tool = t.clamp(start.min(end), end).clamp(self.tail, self.head);
        // A beam on two supports: the pull's share on the far support, times the way to that support.
        let span = self.head - self.tail;
        let catch =
            if t <= tool { from_tail * (self.head - tool) / span } else { from_head * (tool - self.tail) / span };
        // The twist runs from the tool to the drive at the head.
        let tail_ward = self.pass.meridian.points().iter().filter(|p| p.0 <= t).map(|p| p.1).fold(0.0, f64::max);
        [loads.balance_n * from_tail.min(from_head), loads.catch_n * catch, loads.catch_n * tail_ward]
    }

    fn stresses(&self, section: &Bending, t: f64, loads: &Loads) -> Stresses {
        let [balance, catch, twist] = self.moments(t, loads);
        let modulus = section.least_modulus_mm3();
        // The thrust runs along the axis, which is where the section's plane has its origin.
        Stresses {
            thrust_mpa: section.thrust_mpa(loads.thrust_n, [0.0, 0.0]),
            balance_mpa: balance / modulus,
            catch_mpa: catch / modulus,
            twist_mpa: section.twist_mpa(twist),
        }
    }

    fn turned_last(&self, nub: &Nub, loads: &Loads, bears: f64) -> Option<TurnedLast> {
        let enough = |radius: f64| {
            let stresses = self.stresses(&Bending::of_round(radius), nub.end, loads);
            stresses.bending_mpa() * HALVED <= bears
        };
        if enough(nub.radius) || bears <= 0.0 {
            return None;
        }
        let (mut low, mut high) = (nub.radius, WIDEST_NUB);
        for _ in 0..30 {
            let middle = f64::midpoint(low, high);
            if enough(middle) { high = middle } else { low = middle }
        }
        let station_mm = self.axis.point(nub.end, 0.0, 0.0).s;
        Some(TurnedLast { station_mm, diameter_mm: 2.0 * nub.radius, leave_mm: 2.0 * high })
    }
}

/// A nub is looked for up to this radius, in mm.
const WIDEST_NUB: f64 = 200.0;

/// An end of a pass that narrows toward where the piece is parted: it starts where it is widest.
struct Nub {
    start: f64,
    end: f64,
    radius: f64,
}

/// How far from a pass's end a parting plane may stand to be its own, in mm.
const PARTED_NEAR: f64 = 3.0;
/// A pass this thin, in mm of radius, parts the piece itself.
const TO_NOTHING: f64 = 0.5;

fn parted_end(design: &Design, pass: &Pass, region: &Revolved) -> Option<Nub> {
    let chain = region.meridian.points();
    let parted = |side: Side, end: (f64, f64)| {
        let here = |cut: &Cut| match cut {
            Cut::Part(plane) => {
                plane.axis == pass.axis && plane.removes == side && (plane.at_mm - end.0).abs() <= PARTED_NEAR
            }
            _ => false,
        };
        end.1 < TO_NOTHING || design.cuts.iter().any(here)
    };
    // From the end inward as long as it widens.
    let widest = |points: &mut dyn Iterator<Item = &(f64, f64)>| {
        let mut last: Option<(f64, f64)> = None;
        for point in points {
            if last.is_some_and(|(_, radius)| point.1 < radius) {
                break;
            }
            last = Some(*point);
        }
        last.map(|(t, _)| t)
    };
    let (first, last) = (*chain.first()?, *chain.last()?);
    if parted(Side::Head, last) {
        return Some(Nub { start: widest(&mut chain.iter().rev())?, end: last.0, radius: last.1 });
    }
    if parted(Side::Tail, first) {
        return Some(Nub { start: widest(&mut chain.iter())?, end: first.0, radius: first.1 });
    }
    None
}

/// Every pass of a state with its cut.
fn passes<'a>(state: &State<'a>) -> impl Iterator<Item = (usize, &'a Revolved)> {
    state.removals.iter().filter_map(|removal| match &removal.region {
        Region::Revolved(pass) if pass.fill == Fill::Beyond => Some((removal.cut, pass)),
        _ => None,
    })
}

/// The pass nearest to a point in the wood, by its cut; `None` where a side of the stock is nearer.
fn limiting(state: &State<'_>, point: Vector) -> Option<usize> {
    let mut best = state.stock.depth_from_sides(point);
    let mut nearest = None;
    for (cut, pass) in passes(state) {
        if let Some(distance) = pass.signed_distance_below(point, best) {
            (best, nearest) = (distance, Some(cut));
        }
    }
    nearest
}

/// Wood this thin, in mm, has the grain of the pass nearest to it and of no other.
const THIN: f64 = 1.0;

/// The share of strength that the slope of grain leaves around a point in the wood: that of the pass nearest to it, and
/// less and less of any other as it stands off, up to twice as far. So the share changes smoothly from pass to pass.
fn grain_share(state: &State<'_>, point: Vector) -> f64 {
    let depth = state.stock.depth_from_sides(point);
    let nearest = passes(state).fold(depth, |best, (_, pass)| pass.signed_distance_below(point, best).unwrap_or(best));
    let reach = nearest.max(THIN);
    let lost = passes(state).filter_map(|(_, pass)| {
        let off = pass.signed_distance_below(point, nearest + reach)? - nearest;
        Some((1.0 - Grain::at(pass.axis.tilt()).share()) * (1.0 - off / reach).clamp(0.0, 1.0))
    });
    1.0 - lost.fold(0.0, f64::max)
}
