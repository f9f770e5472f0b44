//! The passes, and what is between them: the depth line, the marks and the change of axis.

use std::fmt::Write as _;

use super::bench::{Bench, Nub, Unsanded};
use super::blank::LINE_DRAWN_AGAIN;
use super::cautions::SIDES;
use super::step::{Step, StepKind};
use crate::design::profile::Node;
use crate::design::{AxisName, Cut, LengthUnit, Pass, PassProfile};
use crate::figures::leave::{Because, Caliper};
use crate::figures::sides::turns_a_side;
use crate::figures::support::{HeadEnd, Support, TailEnd};
use crate::figures::turning::Operation;
use crate::geometry::Station;

/// Most diameters that are listed for one pass, and most that are to be checked before going on.
const MOST_DIAMETERS: usize = 14;
const MOST_CHECKS: usize = 4;
/// Least distance between two of them, in mm.
const CHECKS_APART: f64 = 8.0;

impl Bench<'_> {
    /// Turn the tenon.
    pub(super) fn tenon(&mut self, place: usize) {
        let Some(Cut::Pass(pass)) = self.design.cuts.get(place) else { return };
        self.rough(place);
        let what = "Turn the tenon on the head end, its shoulder square or a little hollow so that the jaws seat.";
        let mut step = Step::new(StepKind::Tenon, "tenon".into(), "Turn the tenon".into(), what.into());
        let support = self.support();
        self.carry(&mut step, &support);
        step.tool = "parting tool, skew";
        self.diameters(&mut step, place, pass);
        step.length(self.words, "length of the tenon", self.piece.head_face - pass.from_mm.max(0.0));
        self.speeds_of_cut(&mut step, place, &[Operation::Shaping, Operation::Finishing]);
        let chuck = &self.shop.chuck;
        step.until.push(format!(
            "The tenon is between {} and {}, and does not touch the bottom of the jaws ({} deep).",
            self.words.length(chuck.jaw_from_mm),
            self.words.length(chuck.jaw_to_mm),
            self.words.length(chuck.jaw_depth_mm)
        ));
        step.until.push(
            "Jaws grip best near the diameter at which they close to a full ring; far from it only their corners bite."
                .into(),
        );
        self.on_axis(&mut step, AxisName::A);
        self.set_marks(&mut step, AxisName::A);
        self.set_swing(&mut step, place);
        self.mount = Some((support.head, AxisName::A));
        self.mounted.push((support.head, AxisName::A));
        self.add_done(place, step);
        self.plug_of_blank(&support);
    }

    /// Turn an outside.
    pub(super) fn pass(&mut self, place: usize, axis: AxisName, along: bool) {
        let Some(Cut::Pass(pass)) = self.design.cuts.get(place) else { return };
        if along {
            self.rough(place);
        }
        self.mark(axis);
        self.remount(axis);
        let called = pass.name.trim();
        let title = if called.is_empty() { format!("Turn on axis {axis}") } else { format!("Turn the {called}") };
        let what = match pass.profile {
            PassProfile::Join => {
                "Turn straight tapers from one diameter to the next: they keep the wall and all that later \
                                  axes need, and no more."
            }
            PassProfile::Drawn { .. } => "Turn to the diameters given, and try the profile gauge.",
        };
        let what =
            format!("{what} It runs from {} to {}.", self.measured(axis, pass.from_mm), self.station(axis, pass.to_mm));
        let name: String = called.chars().take(60).collect();
        let mut step = Step::new(StepKind::Turn, format!("turn {name}"), title, what);
        let support = self.support();
        if along {
            self.carry(&mut step, &support);
        } else {
            step.carried = support;
            step.held = format!("On its side about axis {axis}, on a faceplate or between centres.");
        }
        step.tool = "spindle gouge, skew, calipers";
        self.diameters(&mut step, place, pass);
        let nub_mm = self.nub_mm(place);
        if let (Some(diameter_mm), Some(end)) = (nub_mm, self.nub_end(place)) {
            self.leave_nub(&mut step, axis, diameter_mm, end);
        }
        let operations = [Operation::Roughing, Operation::Shaping, Operation::Finishing];
        let roughed = axis == AxisName::A && along;
        self.speeds_of_cut(&mut step, place, &operations[usize::from(roughed)..]);
        self.caliper_checks(&mut step, place, pass);
        if self.figures.fins.iter().any(|fin| fin.after_cut == place) {
            step.until.push("No fin of rough wood is left beyond the end of the pass.".into());
        }
        self.on_axis(&mut step, axis);
        self.set_marks(&mut step, axis);
        self.set_swing(&mut step, place);
        if turns_a_side(self.design, self.piece, place) {
            step.caution(SIDES);
        }
        if axis == AxisName::A && along {
            step.until.push(LINE_DRAWN_AGAIN.into());
        }
        self.add_done(place, step);
        self.turned_off_centre |= axis != AxisName::A;
        self.unsanded.push(Unsanded { cut: place, axis, name: called.to_owned(), support });
        if axis == AxisName::A {
            self.depth_line(pass, &support);
        }
    }

    /// Leaves a nub at a pass's end, until the lathe stands still.
    fn leave_nub(&mut self, step: &mut Step, axis: AxisName, diameter_mm: f64, end_mm: f64) {
        let at = self.nub_at(axis, end_mm);
        let leave = self.words.length(diameter_mm);
        // Writing to a text cannot fail.
        let _ = write!(
            step.what,
            " Leave {leave} at its end until last: turn it down to this nub, and no thinner, when the rest of the pass is \
             finished."
        );
        step.length(self.words, format!("nub {at}, leave this much until last"), diameter_mm);
        self.nubs.push(Nub { diameter_mm, at });
    }

    /// Where a pass ends in a nub, in mm along its axis: at its thinner end.
    fn nub_end(&self, place: usize) -> Option<f64> {
        let points = self.piece.revolved(place)?.meridian.points();
        let (first, last) = (points.first()?, points.last()?);
        Some(if last.r <= first.r { last.t } else { first.t })
    }

    /// Set the work another way, or on another axis, unless it is held so.
    pub(super) fn remount(&mut self, axis: AxisName) {
        let support = self.support();
        let next = (support.head, axis);
        let before = self.mount.replace(next);
        let known = self.mounted.contains(&next);
        if !known {
            self.mounted.push(next);
        }
        let first = before.is_none() && !known && next == (HeadEnd::DriveCentre, AxisName::A);
        if before == Some(next) || first || !matches!(support.head, HeadEnd::DriveCentre | HeadEnd::Jaws) {
            return;
        }
        let chucked = support.head == HeadEnd::Jaws;
        let moved = before.is_some_and(|(_, axis)| axis != AxisName::A);
        let (title, name) = match (chucked, known) {
            (true, true) if !moved => ("Back in the chuck".to_owned(), "back in chuck".to_owned()),
            (true, false) => ("Set the tenon in the chuck".to_owned(), "set in chuck".to_owned()),
            (_, true) => (format!("Back on axis {axis}"), format!("back on {axis}")),
            (false, false) => (format!("Set the work on axis {axis}"), format!("set on {axis}")),
        };
        let what = match (chucked, known) {
            (true, true) if moved => {
                "Stop the lathe. Put the chuck back on in place of the drive centre. Set the tenon in it on the marks it was held \
                 by before, its shoulder against the jaws, and bring up the tailstock."
                    .to_owned()
            }
            (true, true) => {
                "Stop the lathe. Set the tenon back in the chuck, on the marks it was held by before, its shoulder against \
                 the jaws."
                    .to_owned()
            }
            (true, false) => {
                "Stop the lathe. Set the tenon in the chuck, its shoulder against the jaws, and tighten it, at \
                 each key hole in turn where it has two. Mark one jaw on the work, so that it can go back the same way."
                    .to_owned()
            }
            _ if matches!(before, Some((HeadEnd::Jaws, _))) => format!(
                "Stop the lathe. Mark one jaw on the work and take it out of the chuck; put the drive centre in place of the \
                 chuck. Set the work on the marks {axis} on both ends and lock the tailstock."
            ),
            _ => format!("Stop the lathe. Move the work to the marks {axis} on both ends and lock the tailstock."),
        };
        let mut step = Step::new(StepKind::Remount, name, title, what);
        self.carry(&mut step, &support);
        step.tool = if chucked { "chuck key" } else { "drive centre, live centre, mallet" };
        step.until.push(match (chucked, support.tail) {
            (true, TailEnd::LiveCentreOnPlug) => {
                "The bowl runs true again, and the live centre is back on the plug.".to_owned()
            }
            (true, _) => "The work runs true, and does not move when it is pulled.".to_owned(),
            _ => format!("A centre sits in mark {axis} on either end."),
        });
        step.until.push("The work clears the bed and the rest all the way round when turned by hand.".into());
        self.on_axis(&mut step, axis);
        self.set_marks(&mut step, axis);
        self.add(step);
    }

    /// A line around the outside where the hollow ends, once it is turned over it.
    fn depth_line(&mut self, pass: &Pass, support: &Support) {
        if self.lined {
            return;
        }
        let bores = self.design.cuts.iter().enumerate().filter_map(|(cut, choice)| match choice {
            Cut::Hollow(hollow) if hollow.axis == AxisName::A => Some(self.piece.revolved(cut)?.meridian.end()),
            _ => None,
        });
        let Some(depth) =
            bores.reduce(f64::max).filter(|depth| self.bored && (pass.from_mm..=pass.to_mm).contains(depth))
        else {
            return;
        };
        self.lined = true;
        let what = "With the work turning slowly, draw a pencil line around the outside where the hollow ends.";
        let mut step = Step::new(StepKind::DepthLine, "depth line".into(), "Draw the depth line".into(), what.into());
        self.carry(&mut step, support);
        step.tool = "pencil, rule";
        step.length(self.words, "line from the bowl end", depth);
        self.slowly(&mut step);
        let floors = self.figures.walls.iter().filter_map(|wall| wall.floor);
        if let Some(floor) = floors.map(|floor| floor.least.wall_mm).reduce(f64::min).filter(|mm| *mm > 0.0) {
            step.length(self.words, "thinnest floor of the finished piece", floor);
        }
        step.length(self.words, "thinnest floor wanted", self.design.limits.over(&self.shop.limits).floor_mm);
        self.on_axis(&mut step, AxisName::A);
        step.until.push("The line runs all the way round: no cut goes deeper than planned before it.".into());
        self.add(step);
    }

    /// The diameters of a pass.
    fn diameters(&self, step: &mut Step, place: usize, pass: &Pass) {
        let join;
        let nodes: &[Node] = match &pass.profile {
            PassProfile::Drawn { nodes } => nodes,
            PassProfile::Join => {
                let tapers = self.figures.joins.iter().find(|j| j.cut == place).map(|j| j.tapers.as_slice());
                join =
                    tapers.unwrap_or_default().iter().map(|t| Node::line(t.at_mm, t.diameter_mm)).collect::<Vec<_>>();
                &join
            }
        };
        let skip = nodes.len().div_ceil(MOST_DIAMETERS).max(1);
        let least_mm = self.nub_mm(place).unwrap_or(0.0);
        for (i, node) in nodes.iter().enumerate() {
            if i % skip == 0 || i + 1 == nodes.len() {
                // What is thinner than the nub is the nub, until the lathe stands still.
                if node.diameter_mm >= least_mm {
                    let what = format!("diameter at {}", self.station(pass.axis, node.at_mm));
                    step.length(self.words, what, node.diameter_mm);
                }
            }
        }
    }

    /// What a caliper must read before going on: where later work has least to spare.
    fn caliper_checks(&self, step: &mut Step, place: usize, pass: &Pass) {
        let join = self.figures.joins.iter().find(|j| j.cut == place);
        let mut rows: Vec<&Caliper> = Vec::new();
        let needed = || join.iter().flat_map(|j| &j.caliper).filter(|c| c.because != Because::Nothing);
        for i in 0..MOST_CHECKS {
            let apart = |c: &&Caliper| rows.iter().all(|r| (r.at_mm - c.at_mm).abs() >= CHECKS_APART);
            let free = || needed().filter(apart);
            // What a later axis needs comes first: it cannot be seen on the work.
            let later = || free().filter(|c| i < MOST_CHECKS / 2 && c.because == Because::LaterPass);
            let unit = self.shop.length_unit;
            let Some(tightest) = telling(later(), unit).or_else(|| telling(free(), unit)) else { break };
            let at = rows.partition_point(|r| r.at_mm < tightest.at_mm);
            rows.insert(at, tightest);
        }
        for row in &rows {
            step.until.push(format!(
                "Caliper {} at {}, and never less than {}.",
                self.words.length(row.turned_diameter_mm),
                self.station(pass.axis, row.at_mm),
                self.words.length(row.least_diameter_mm)
            ));
        }
        if let (true, Some(Station { t: at, r: diameter })) = (rows.is_empty(), self.thinnest(place)) {
            let diameter = diameter.max(self.nub_mm(place).unwrap_or(0.0));
            let check = format!("Caliper {} at {}.", self.words.length(diameter), self.station(pass.axis, at));
            step.until.push(check);
        }
    }

    /// The station and the diameter where a pass is thinnest, in mm.
    fn thinnest(&self, place: usize) -> Option<Station> {
        let points = self.piece.revolved(place)?.meridian.points();
        let thin = points.iter().min_by(|a, b| a.r.total_cmp(&b.r))?;
        Some(Station::new(thin.t, 2.0 * thin.r))
    }
}

/// The caliper row with least to spare; a round station, which a rule finds, where one tells nearly as much.
fn telling<'a>(rows: impl Iterator<Item = &'a Caliper> + Clone, unit: LengthUnit) -> Option<&'a Caliper> {
    let least = tightest(rows.clone())?;
    let round = tightest(rows.filter(|row| row.is_round(unit)));
    round.filter(|row| row.spare_mm <= least.spare_mm + NEARLY_AS_MUCH_MM).or(Some(least))
}

/// A round station may have this much more to spare than the tightest, in mm.
const NEARLY_AS_MUCH_MM: f64 = 0.5;

/// The caliper row with least to spare.
fn tightest<'a>(rows: impl Iterator<Item = &'a Caliper>) -> Option<&'a Caliper> {
    rows.min_by(|a, b| a.spare_mm.total_cmp(&b.spare_mm))
}
