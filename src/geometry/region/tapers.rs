//! The fewest straight tapers between a lower and an upper limit.

use smallvec::{SmallVec, smallvec};

use crate::geometry::frame::station::Station;

/// A limit pair at a station: the profile stays from `low` to `high` there, in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gate {
    /// Station.
    pub t: f64,
    /// Least radius.
    pub low: f64,
    /// Greatest radius; infinity for none.
    pub high: f64,
}

/// The fewest straight pieces, joined end to end at the gates' stations, that pass through every gate.
///
/// Stations rise strictly; `low <= high` everywhere. Nodes lie at gate stations only, so the count is the least for
/// the given stations. Among paths of that count each node is set as low as the rest allows. Empty for fewer than two
/// gates.
#[must_use]
pub fn fewest(gates: &[Gate]) -> Vec<Station> {
    if gates.len() < 2 {
        return Vec::new();
    }
    let rounds = reach_in_rounds(gates);
    trace_back(gates, &rounds)
}

/// The radii that can be reached at one gate after some number of pieces.
#[derive(Clone, Copy, Debug)]
struct Reach {
    low: f64,
    high: f64,
}

impl Reach {
    fn join(self, other: Option<Self>) -> Self {
        other.map_or(self, |o| Self { low: self.low.min(o.low), high: self.high.max(o.high) })
    }
}

/// `rounds[k][i]`: what is reachable at gate `i` with `k` pieces or fewer; the last round is the first that reaches the
/// last gate.
fn reach_in_rounds(gates: &[Gate]) -> Vec<Vec<Option<Reach>>> {
    let mut first = vec![None; gates.len()];
    first[0] = Some(Reach { low: gates[0].low, high: gates[0].high.min(WIDEST) });
    let mut rounds = vec![first];
    // Gates at which the last round reached more than the one before: no others lead to anything new.
    let mut news = vec![0];
    while rounds[rounds.len() - 1][gates.len() - 1].is_none() && !news.is_empty() {
        let before = &rounds[rounds.len() - 1];
        let mut next = before.clone();
        for &i in &news {
            let Some(from) = before[i] else { continue };
            let mut lines = Lines::from_gate(from);
            for j in i + 1..gates.len() {
                let Some(reach) = lines.through(gates[j].t - gates[i].t, &gates[j]) else { break };
                next[j] = Some(reach.join(next[j]));
            }
        }
        let is_news = |i: &usize| match (before[*i], next[*i]) {
            (Some(before), Some(next)) => before.low - next.low > SLACK || next.high - before.high > SLACK,
            (before, next) => before.is_none() && next.is_some(),
        };
        news = (0..gates.len()).filter(is_news).collect();
        rounds.push(next);
    }
    rounds
}

/// No profile is wider than this, in mm.
const WIDEST: f64 = 1e4;

/// Walks back from the lowest radius at the last gate, each time to the farthest gate one straight piece away.
fn trace_back(gates: &[Gate], rounds: &[Vec<Option<Reach>>]) -> Vec<Station> {
    let last = gates.len() - 1;
    let Some(end) = rounds[rounds.len() - 1][last] else {
        // Not reached: cannot happen for sound gates; every gate's own lower limit is then the honest answer.
        return gates.iter().map(|g| Station::new(g.t, g.low)).collect();
    };
    let lowest = end.low.max(gates[last].low);
    let mut path = vec![Station::new(gates[last].t, lowest)];
    let mut at = (last, lowest);
    for round in rounds.iter().rev().skip(1) {
        let Some(step) = step_back(gates, round, at) else { break };
        path.push(Station::new(gates[step.0].t, step.1));
        at = step;
    }
    path.reverse();
    path
}

/// The gate nearest the start from which `at` is one straight piece away, and the lowest radius there.
fn step_back(gates: &[Gate], round: &[Option<Reach>], at: (usize, f64)) -> Option<(usize, f64)> {
    let (mut shallowest, mut steepest) = (f64::NEG_INFINITY, f64::INFINITY);
    let mut found = None;
    for i in (0..at.0).rev() {
        let run = gates[at.0].t - gates[i].t;
        // Height at gate i is at.1 - slope * run.
        let (low, high) = (gates[i].low - BACK_SLACK, gates[i].high.min(WIDEST) + BACK_SLACK);
        shallowest = f64::max(shallowest, (at.1 - high) / run);
        steepest = f64::min(steepest, (at.1 - low) / run);
        if shallowest > steepest {
            break;
        }
        if let Some(reach) = round[i] {
            let low = (at.1 - steepest * run).max(reach.low);
            let high = (at.1 - shallowest * run).min(reach.high);
            if low <= high + BACK_SLACK {
                found = Some((i, low.max(gates[i].low)));
            }
        }
    }
    found
}

/// Rounding allowed on the way back, where a piece may graze limits that were themselves grazed, in mm.
const BACK_SLACK: f64 = 1e-6;

/// Rounding allowed when a piece grazes a gate, in mm.
const SLACK: f64 = 1e-9;

/// The straight lines through one gate and all later ones so far: a convex set of (height at the gate, slope).
struct Lines {
    corners: SmallVec<[(f64, f64); 12]>,
}

impl Lines {
    fn from_gate(reach: Reach) -> Self {
        const STEEPEST: f64 = 1e5;
        let (low, high) = (reach.low - SLACK, reach.high + SLACK);
        Self { corners: smallvec![(low, -STEEPEST), (high, -STEEPEST), (high, STEEPEST), (low, STEEPEST)] }
    }

    /// Keeps the lines that pass a gate `run` farther on, and gives their heights there; `None` where none is left.
    fn through(&mut self, run: f64, gate: &Gate) -> Option<Reach> {
        let floor = gate.low - SLACK;
        let ceiling = if gate.high < WIDEST { gate.high + SLACK } else { f64::INFINITY };
        let height = |c: &(f64, f64)| c.0 + c.1 * run;
        let low = self.corners.iter().map(height).fold(f64::INFINITY, f64::min);
        let high = self.corners.iter().map(height).fold(f64::NEG_INFINITY, f64::max);
        // Written so that no line at all, or one that is not a number, is none.
        let passes = low <= ceiling && high >= floor;
        if !passes {
            return None;
        }
        if low < floor {
            self.clip(|c| height(c) - floor);
        }
        if high > ceiling {
            self.clip(|c| ceiling - height(c));
        }
        // Heights are linear: what is left of them is what the gate lets through.
        Some(Reach { low: low.max(floor), high: high.min(ceiling) })
    }

    /// Keeps the part of the set where `side` is not negative.
    fn clip(&mut self, side: impl Fn(&(f64, f64)) -> f64) {
        let mut kept = SmallVec::new();
        let Some(mut corner) = self.corners.last().copied() else { return };
        let mut here = side(&corner);
        for &next in &self.corners {
            let there = side(&next);
            if (here > 0.0 && there < 0.0) || (here < 0.0 && there > 0.0) {
                let part = here / (here - there);
                kept.push((corner.0 + (next.0 - corner.0) * part, corner.1 + (next.1 - corner.1) * part));
            }
            if there >= 0.0 {
                kept.push(next);
            }
            (corner, here) = (next, there);
        }
        self.corners = kept;
    }
}
