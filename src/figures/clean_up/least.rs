//! The station at which least of a pass's circle meets wood, proven.

use std::f64::consts::TAU;

use super::missing::share_at;
use super::turned::Turned;
use crate::geometry::{Fill, HalfSpace, Intervals, Pace, Region, Revolved, Role, Station, Swept};

/// No station has a share less than the least by more than this.
pub(super) const WITHIN: f64 = 0.001;
/// A stretch shorter than this, in mm, is not halved.
const SHORTEST: f64 = 2e-6;
/// After so many stretches the search gives up, and the least so far stands. Random passes take 500.
const MOST_STRETCHES: usize = 5_000;

/// A stretch of a pass whose radius changes evenly, from and to as `(t, radius)` in mm, and no more than its least share.
#[derive(Clone, Copy)]
struct Stretch {
    from: Station,
    to: Station,
    low: f64,
}

/// The least share of a pass's circles and its station, from one that is known: within [`WITHIN`].
///
/// Branch and bound: what of a circle may be missing anywhere on a stretch is missing at an end of it, but for what comes to
/// nothing as the stretch is halved ([`Swept`]).
pub(super) async fn least(pass: &Turned<'_>, known: (f64, f64), pace: &Pace) -> (f64, f64) {
    let search = Search { pass, left_by: pass.mates().filter_map(|mate| left_by(&mate.region)).collect() };
    let turned = pass.region;
    // Where a pass comes down to its axis there is no circle.
    let is_round = |pair: &&[Station]| pair[0].r.max(pair[1].r) > 0.0 && pair[1].t - pair[0].t > SHORTEST;
    let pieces = turned.meridian.points().windows(2).filter(is_round);
    let mut waiting: Vec<Stretch> = Vec::new();
    for pair in pieces {
        waiting.push(search.stretch(pair[0], pair[1]));
        pace.pause().await;
    }
    waiting.sort_by(|a, b| b.low.total_cmp(&a.low));
    let mut best = known;
    for _ in 0..MOST_STRETCHES {
        let Some(stretch) = waiting.pop() else { break };
        if stretch.low >= best.0 - WITHIN || stretch.to.t - stretch.from.t < SHORTEST {
            continue;
        }
        pace.pause().await;
        let (from, to) = (stretch.from, stretch.to);
        let middle = Station::new(f64::midpoint(from.t, to.t), f64::midpoint(from.r, to.r));
        if middle.r > 0.0 {
            let share = share_at(pass, middle.t);
            if share < best.0 {
                best = (share, middle.t);
            }
        }
        let mut halves = [search.stretch(from, middle), search.stretch(middle, to)];
        halves.sort_by(|a, b| b.low.total_cmp(&a.low));
        waiting.extend(halves);
    }
    best
}

struct Search<'a> {
    pass: &'a Turned<'a>,
    /// For each pass of the same part, all that it does not take.
    left_by: Vec<[Region; 3]>,
}

/// What a pass does not take: what lies before it, after it and within its profile.
fn left_by(taken: &Region) -> Option<[Region; 3]> {
    let Region::Revolved(pass) = taken else { return None };
    let ((from, to), along) = (pass.span(), pass.axis.along());
    let beyond = |into, t: f64| Region::HalfSpace(HalfSpace { into, offset: pass.axis.point(t, 0.0, 0.0).dot(into) });
    let within = Region::Revolved(Revolved { fill: Fill::Within, ..pass.clone() });
    Some([beyond(-along, from), beyond(along, to), within])
}

impl Search<'_> {
    fn stretch(&self, from: Station, to: Station) -> Stretch {
        let stock = &self.pass.piece.solid.stock;
        let circle = Swept::new(&self.pass.region.axis, from, to);
        let mut missing = circle.beyond_sides(stock);
        for removal in self.pass.before().filter(|removal| removal.role != Role::Opening) {
            missing = missing.union(&circle.in_region(&removal.region));
        }
        let mut missing = missing.intersection(&circle.between_stations(0.0, stock.length));
        // What another pass of the part takes all along the stretch is not missing anywhere on it.
        for regions in &self.left_by {
            let left = regions.iter().fold(Intervals::none(), |all, region| all.union(&circle.in_region(region)));
            missing = missing.intersection(&left);
        }
        Stretch { from, to, low: 1.0 - missing.length() / TAU }
    }
}
