//! The join: how wide a first pass must stay for the wall over the hollow and for what later passes still need.

use super::error::PieceError;
use super::regions::Taken;
use crate::design::{Cut, Design, Limits, Pass, PassProfile};
use crate::geometry::region::clearance::Clearance;
use crate::geometry::region::envelope::{kept_radius, radius_clear_of};
use crate::geometry::region::tapers::{Gate, fewest};
use crate::geometry::{Axis, Fill, Meridian, Pace, Region, Revolved, Role, Station};

/// What a pass must leave, station by station along its own axis.
#[derive(Clone, Debug, PartialEq)]
pub struct JoinLine {
    /// The pass, by its place in working order from 0.
    pub cut: usize,
    /// The stations, rising, over the whole pass.
    pub stations: Vec<JoinStation>,
    /// The fewest straight tapers that never go below the join: `(t, radius)` in mm.
    pub tapers: Vec<Station>,
}

/// What a pass must leave at one station.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct JoinStation {
    /// Station along the pass's axis, in mm.
    pub t: f64,
    /// The least radius that keeps everything later passes need, finishing allowance included; `None` where no later
    /// pass reaches. Passes that shape one part with this one need nothing of it.
    pub leave: Option<f64>,
    /// The least radius that keeps the wanted wall and floor over every hollow; 0 where they are far. A hollow square to
    /// the blank asks for none: it opens to the side.
    pub wall: f64,
    /// The larger of both: the tightest radius that loses nothing.
    pub join: f64,
}

/// Widest step between stations before refinement, in mm.
const STEP: f64 = 4.0;
/// Most stations on one pass.
const MOST_STATIONS: f64 = 240.0;

/// Works out the join of every pass that something later depends on, last pass first, and fills in the region of each
/// pass whose profile is the join.
pub(super) async fn propose_all(
    design: &Design,
    axes: &[Axis],
    regions: &mut [Taken],
    limits: &Limits,
    pace: &Pace,
) -> Result<Vec<JoinLine>, PieceError> {
    let mut lines = Vec::new();
    for (cut, choice) in design.cuts.iter().enumerate().rev() {
        let Cut::Pass(pass) = choice else { continue };
        let Some(axis) = axes.get(pass.axis.index()) else { continue };
        let wants_join = matches!(pass.profile, PassProfile::Join);
        let others = Others::of(cut, axis, regions, &design.shaped_with(cut));
        if !wants_join && others.later.is_empty() {
            continue;
        }
        let line = propose(cut, pass, axis, &others, limits, pace).await;
        if wants_join {
            let meridian = Meridian::new(line.tapers.clone()).map_err(|source| PieceError::Profile { cut, source })?;
            regions[cut] =
                Some((Region::Revolved(Revolved { axis: *axis, meridian, fill: Fill::Beyond }), Role::Outside));
        }
        lines.push(line);
    }
    lines.reverse();
    Ok(lines)
}

/// The regions a pass must mind.
struct Others<'a> {
    later: Vec<&'a Revolved>,
    /// Those of the later passes that ask for wood: all but the passes of the same part.
    asking: Vec<&'a Revolved>,
    hollows: Vec<&'a Revolved>,
}

impl<'a> Others<'a> {
    /// Passes after `cut`, as long as one of them turns on another axis, those of the same part named by `mates`; and every
    /// hollow.
    fn of(cut: usize, axis: &Axis, regions: &'a [Taken], mates: &[usize]) -> Self {
        let revolved = |taken: &'a Taken, wanted: Role| match taken {
            Some((Region::Revolved(revolved), role)) if *role == wanted => Some(revolved),
            _ => None,
        };
        let after = regions.iter().enumerate().skip(cut + 1);
        let mut later: Vec<(usize, &Revolved)> =
            after.filter_map(|(place, taken)| Some((place, revolved(taken, Role::Outside)?))).collect();
        if later.iter().all(|(_, pass)| pass.axis == *axis) {
            later.clear();
        }
        let asking = later.iter().filter(|(place, _)| !mates.contains(place)).map(|(_, pass)| *pass).collect();
        let later = later.into_iter().map(|(_, pass)| pass).collect();
        let hollows = regions.iter().filter_map(|t| revolved(t, Role::Inside));
        // No profile is wide enough beside a hollow that opens to the side: its wall is for the figure of the wall.
        let hollows = hollows.filter(|hollow| !hollow.axis.is_square()).collect();
        Self { later, asking, hollows }
    }
}

async fn propose(cut: usize, pass: &Pass, axis: &Axis, others: &Others<'_>, limits: &Limits, pace: &Pace) -> JoinLine {
    let floors: Vec<Revolved> = others.hollows.iter().filter_map(|h| end_face(h)).collect();
    let floors: Vec<&Revolved> = floors.iter().collect();
    let station = |t: f64| {
        let leave = kept_radius(axis, t, &others.asking).map(|r| r + limits.finishing_allowance_mm.max(0.0));
        let wall = radius_clear_of(axis, t, &others.hollows, limits.wall_mm).max(radius_clear_of(
            axis,
            t,
            &floors,
            limits.floor_mm,
        ));
        JoinStation { t, leave, wall, join: leave.unwrap_or(0.0).max(wall) }
    };
    let near: Vec<Clearance<'_>> =
        Clearance::all(&others.hollows, limits.wall_mm).chain(Clearance::all(&floors, limits.floor_mm)).collect();
    let keeps = |a: &JoinStation, b: &JoinStation| {
        let raised = |station: &JoinStation| Station::new(station.t, station.join + CHORD);
        near.iter().all(|it| it.keeps_along(axis, raised(a), raised(b), SHORT))
    };
    let stations = refined(&stations(pass, axis, others), station, keeps, pace).await;
    let lean = others.later.iter().map(|later| later.axis.along().cross(axis.along()).length()).fold(0.0, f64::max);
    let tapers = tapers(&stations, lean, limits.join_spare_mm.max(0.0));
    JoinLine { cut, stations, tapers }
}

/// The end face of a hollow bored along the blank, as a thin disc: what the floor is measured from.
fn end_face(hollow: &Revolved) -> Option<Revolved> {
    const THIN: f64 = 1e-6;
    let lengthwise = hollow.axis.is_lengthwise();
    let chain = hollow.meridian.points();
    let Station { t: end, r: edge } = chain[chain.len() - 1];
    let meridian =
        lengthwise.then(|| Meridian::new(vec![Station::new(end - THIN, edge), Station::new(end, edge)]))?.ok()?;
    Some(Revolved { axis: hollow.axis, meridian, fill: Fill::Within })
}

/// Even stations over the pass, and every place where a hollow or a later pass begins, ends or has a corner.
fn stations(pass: &Pass, axis: &Axis, others: &Others<'_>) -> Vec<f64> {
    let (from, to) = (pass.from_mm, pass.to_mm);
    if !(from < to && from.is_finite() && to.is_finite()) {
        return Vec::new();
    }
    let count = ((to - from) / STEP).ceil().clamp(2.0, MOST_STATIONS);
    let mut all: Vec<f64> = (0..=count as usize).map(|i| from + (to - from) * i as f64 / count).collect();
    for region in others.later.iter().chain(&others.hollows) {
        let (first, last) = (region.meridian.start(), region.meridian.end());
        let seen = [first, last].map(|t| axis.see(region.axis.point(t, 0.0, 0.0)).t);
        let largest = region.meridian.largest_radius();
        let lean = largest * region.axis.along().cross(axis.along()).length();
        all.extend(seen.iter().flat_map(|t| [t - lean, *t, t + lean]));
    }
    all.retain(|t| from + APART <= *t && *t <= to - APART);
    all.sort_unstable_by(f64::total_cmp);
    all.dedup_by(|b, a| *b - *a < APART);
    // Both ends always stay: a pass as short as validation lets it be has nothing else.
    all.insert(0, from);
    all.push(to);
    all
}

/// Stations nearer to each other than this are one, in mm.
const APART: f64 = 0.05;

/// The stations given, and as many between them as it takes for chords to stay within [`CHORD`] of the join in their
/// middle and to keep the wall all along, or until they are [`FINEST`] apart.
async fn refined(
    coarse: &[f64],
    station: impl Fn(f64) -> JoinStation,
    keeps: impl Fn(&JoinStation, &JoinStation) -> bool,
    pace: &Pace,
) -> Vec<JoinStation> {
    let mut done: Vec<JoinStation> = Vec::with_capacity(2 * coarse.len());
    let mut waiting: Vec<JoinStation> = Vec::with_capacity(coarse.len());
    for t in coarse.iter().rev() {
        waiting.push(station(*t));
        pace.pause().await;
    }
    while let Some(next) = waiting.pop() {
        pace.pause().await;
        if let Some(last) = done.last().filter(|last| next.t - last.t > FINEST && done.len() < MOST_REFINED) {
            let middle = station((last.t + next.t) / 2.0);
            if (middle.join - (last.join + next.join) / 2.0).abs() > CHORD || !keeps(last, &next) {
                waiting.extend([next, middle]);
                continue;
            }
        }
        done.push(next);
    }
    done
}

/// How far the join may stand off a chord between stations, in mm on the radius.
const CHORD: f64 = 0.02;
/// How far the wall may fall short of its limit between stations, in mm.
const SHORT: f64 = 0.01;
/// Closest stations, in mm: closer than this a slope counts as a sudden end.
const FINEST: f64 = 0.1;
/// Most stations after refinement: only absurd designs need more.
const MOST_REFINED: usize = 600;

/// The radius that each station keeps so that no groove is cut between the bowl and the first later pass: as stout
/// there as the later pass starts, if the bowl is, though nothing asks for the wood.
///
/// A later pass whose start leans by `lean` (a sine) starts on one side first; it has started all around within its
/// diameter times that.
fn bridged(stations: &[JoinStation], lean: f64) -> Vec<f64> {
    let mut kept: Vec<f64> = stations.iter().map(|s| s.join).collect();
    let Some(first) = stations.iter().position(|s| s.leave.is_some()) else { return kept };
    let (mut peak, mut start) = (first, 0.0);
    for (i, station) in stations.iter().enumerate().skip(first) {
        match station.leave {
            Some(leave) if leave > start && station.t <= stations[first].t + 2.0 * leave * lean => {
                (peak, start) = (i, leave);
            }
            _ => {}
        }
    }
    let mut stoutest = 0.0_f64;
    for radius in &mut kept[..peak] {
        stoutest = stoutest.max(*radius);
        *radius = radius.max(stoutest.min(start));
    }
    kept
}

/// Straight tapers through the stations, at most `spare` above the join where something needs it.
fn tapers(stations: &[JoinStation], lean: f64, spare: f64) -> Vec<Station> {
    let sudden = |a: usize, b: usize| stations[b].t - stations[a].t <= FINEST;
    let kept = bridged(stations, lean);
    let gates: Vec<_> = stations
        .iter()
        .enumerate()
        .map(|(i, s)| {
            // A sudden end is kept at its full height up to the next station, so that no taper cuts its corner.
            let before = i.checked_sub(1).filter(|before| sudden(*before, i));
            let after = Some(i + 1).filter(|after| *after < stations.len() && sudden(i, *after));
            let highest = [before, after].into_iter().flatten().map(|n| kept[n]).fold(kept[i], f64::max);
            let free = highest <= 0.0;
            let low = if free { 0.0 } else { highest + CHORD };
            Gate { t: s.t, low, high: if free { f64::INFINITY } else { low + spare } }
        })
        .collect();
    fewest(&gates)
}
