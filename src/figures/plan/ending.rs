//! The last steps: facing, parting, sawing, sanding and the finish.

use super::bench::{Bench, Nub};
use super::step::{Step, StepKind};
use crate::design::{AxisName, Cut, EndPlane, SawPath, Side};
use crate::figures::support::{HeadEnd, TailEnd, Work, datum_mm};
use crate::figures::turning::Operation;
use crate::geometry::line::search::bisect_within;
use crate::geometry::{Region, Vector};

/// Steps in which the end of a saw line is looked for.
const SAW_STEPS: f64 = 64.0;

impl Bench<'_> {
    /// Face an end. What holds the head end goes down to a nub and is sawn like a parting.
    pub(super) fn face(&mut self, place: usize) {
        let Some(Cut::Face(plane)) = self.design.cuts.get(place) else { return };
        if plane.removes == Side::Head {
            return self.part_at(place, plane);
        }
        self.remount(plane.axis);
        self.true_the_end = false;
        let what = "Face the end square to its axis, with light cuts from the rim toward the middle.";
        let mut step = Step::new(StepKind::Face, "face".into(), "Face the end".into(), what.into());
        let support = self.support();
        self.carry(&mut step, &support);
        step.tool = "spindle gouge, square-ended scraper";
        step.length(self.words, format!("face at{}", self.along(plane)), plane.at_mm - self.datum(plane));
        self.on_axis(&mut step, plane.axis);
        self.speeds_of_cut(&mut step, place, &[Operation::Parting]);
        step.until.push("A straight edge lies flat across the face.".into());
        self.add_done(place, step);
    }

    /// Part the piece off.
    pub(super) fn part(&mut self, place: usize) {
        if let Some(Cut::Part(plane)) = self.design.cuts.get(place) {
            self.part_at(place, plane);
        }
    }

    /// Part down to the nub that bears the work; at a bowl end whose piece stays in the chuck, right through.
    fn part_at(&mut self, place: usize, plane: &EndPlane) {
        self.remount(plane.axis);
        let support = self.support();
        let waste = if plane.removes == Side::Head { "head end" } else { "bowl end" };
        let stays = plane.removes == Side::Tail && support.head == HeadEnd::Jaws;
        let (title, what) = if stays {
            let what = "Part in on the waste side of the line at the bowl end down to a stub, stop the lathe and saw the stub \
                        through by hand.";
            ("Part off", what.to_owned())
        } else {
            let bears = match support.tail {
                TailEnd::LiveCentreOnPlug => "the plug in and the live centre on it",
                TailEnd::Cone => "the cone in the mouth of the bore",
                _ => "the live centre up",
            };
            let what = format!(
                "With {bears}, turn the waste beside the line at the {waste} down with light cuts, and the last of the \
                 piece's end with it, to the nub and no thinner. Sand the end beside it."
            );
            ("Part down to the nub", what)
        };
        let mut step = Step::new(StepKind::Part, "part".into(), title.into(), what);
        self.carry(&mut step, &support);
        step.tool = "parting tool, spindle gouge, abrasive";
        step.length(self.words, format!("part at{}", self.along(plane)), plane.at_mm - self.datum(plane));
        if let Some(diameter_mm) = self.nub_mm(place).filter(|_| !stays) {
            step.length(self.words, "nub, leave this much until last", diameter_mm);
            step.until.push(format!(
                "Caliper {} at the nub, and never less while the work turns.",
                self.words.length(diameter_mm)
            ));
            let at = self.nub_at(plane.axis, plane.at_mm);
            self.nubs.retain(|nub| nub.at != at);
            self.nubs.push(Nub { diameter_mm, at });
        }
        self.on_axis(&mut step, plane.axis);
        self.speeds_of_cut(&mut step, place, &[Operation::Sanding, Operation::Parting]);
        self.add_done(place, step);
    }

    /// Saw the opening.
    pub(super) fn saw(&mut self, place: usize) {
        let across = self.works.contains(&Work::Across);
        let what = match across {
            true => {
                "Lay the bowl in the cradle, its opening up and level. Draw the line round it at the height given, with a pencil \
                 on a block. Saw just outside the line, from the bowl end toward the handle, and stop where the handle begins."
            }
            false => {
                "Wrap the saw template round the bowl, its lip on the rim and its middle line under the reference line, and \
                 draw the line. Saw just outside it, from the lip toward the handle."
            }
        };
        let mut step = Step::new(StepKind::Saw, "saw".into(), "Saw the opening".into(), what.into());
        step.held = if self.parted {
            "On its back in a padded V-block or cradle that is clamped down, the opening level."
        } else {
            "By the waste at its head end in a vice, the bowl lying in a padded V-block."
        }
        .into();
        step.tool = "fine hand saw; a band saw only with the work clamped in a cradle";
        if let (true, Some(Cut::Saw(saw))) = (across, self.design.cuts.get(place)) {
            let points = match &saw.path {
                SawPath::Lines { points } => points.first().zip(points.last()),
                SawPath::Arc { from, to, .. } => Some((from, to)),
            };
            for (name, point) in points.into_iter().flat_map(|(from, to)| [("opening", from), ("its end", to)]) {
                let side = if point.height_mm < 0.0 { "under" } else { "over" };
                step.length(self.words, format!("{name}, {side} the middle of the bowl"), point.height_mm.abs());
            }
            if let Some((_, to)) = points {
                step.length(self.words, "saw up to, from the bowl end".to_owned(), to.at_mm - self.piece.rim());
            }
        }
        for (name, (at, height)) in self.saw_ends(place) {
            step.length(self.words, format!("{name}, from the bowl end"), at);
            let side = if height < 0.0 { "under" } else { "over" };
            step.length(self.words, format!("{name}, {side} the middle of the bowl"), height.abs());
        }
        step.until.push("The line on both sides meets the lip at the same height.".into());
        if self.steps.iter().any(|step| step.kind == StepKind::FitPlug) {
            step.until.push("The plug is out.".into());
        }
        self.add_done(place, step);
    }

    /// Where a saw line meets the rim, and where it leaves the wood at the top or ends, as `(s, y)` in mm.
    fn saw_ends(&self, place: usize) -> Vec<(&'static str, (f64, f64))> {
        let removals = &self.piece.solid.removals;
        let Some(Region::Sawn(sawn)) = removals.iter().find(|r| r.cut == place).map(|r| &r.region) else {
            return Vec::new();
        };
        let (from, to) = (self.piece.rim(), sawn.ends().1);
        let point = |s: f64| (s, sawn.height(s).unwrap_or(f64::INFINITY));
        let wood = |s: f64| self.piece.solid.to_outside(Vector::new(0.0, point(s).1, s)).distance > 0.0;
        if !(from < to && wood(from)) {
            return Vec::new();
        }
        let step = (to - from) / SAW_STEPS;
        let mut last = from;
        while last + step <= to && wood(last + step) {
            last += step;
        }
        (last, _) = bisect_within((last, (last + step).min(to)), 0.01, wood);
        vec![("lip", point(from)), ("back", point(last))]
    }

    /// Sand through the grits.
    pub(super) fn sand(&mut self) {
        let what = "Sand by hand what was not sanded on the lathe: the sawn rim and its edges, the ends where it was held, and \
                    where one axis runs into the next. Each grit until the scratches of the last are gone, with the grain.";
        let mut step = Step::new(StepKind::Sand, "sand".into(), "Sand".into(), what.into());
        step.held = "In the hand, or on a padded bench.".into();
        step.tool = "abrasive on a block and on a stick";
        step.text("grits", self.grits());
        step.until.push("No scratch shows in light from the side, and the rim is eased.".into());
        self.add(step);
    }

    /// Wet it and sand again.
    pub(super) fn raise_grain(&mut self) {
        let what = "Wet it with clean water, let it dry, and take the raised grain off with the last grit; once or twice, so that \
                    washing does not roughen it.";
        let title = "Wet it and sand again (optional)";
        let mut step = Step::new(StepKind::RaiseGrain, "raise grain".into(), title.into(), what.into());
        step.held = "In the hand, or on a padded bench.".into();
        step.tool = "water, the finest abrasive";
        if let Some(last) = self.shop.grits.last() {
            step.text("grit", last.to_string());
        }
        self.add(step);
    }

    /// Sign it.
    pub(super) fn sign(&mut self) {
        let what = "Sign it under the handle with the year and the wood, before the finish: by burning, or with ink that food may \
                    touch.";
        let mut step = Step::new(StepKind::Sign, "sign".into(), "Sign it (optional)".into(), what.into());
        step.held = "On a padded bench.".into();
        step.tool = "burning pen, or pen";
        self.add(step);
    }

    /// Buff the finish.
    pub(super) fn buff(&mut self) {
        let what =
            "When the finish is dry, buff the outside with a soft cloth or on a wheel, with a wax that food may touch.";
        let mut step = Step::new(StepKind::Buff, "buff".into(), "Buff it (optional)".into(), what.into());
        step.held = "In both hands.".into();
        step.tool = "soft cloth or wheel";
        self.add(step);
    }

    /// Put the finish on.
    pub(super) fn finish(&mut self) {
        let what = "Wipe the dust off, flood it with a finish for food, let it soak in and wipe off what is left. Let a drying \
                    oil cure, for days to weeks, before it meets food.";
        let mut step = Step::new(StepKind::Finish, "finish".into(), "Put the finish on".into(), what.into());
        step.held = "In the hand.".into();
        step.tool = "cloth";
        step.until.push("It is dry, and the rags are dealt with.".into());
        self.add(step);
    }

    /// From where a plane is measured, in words.
    fn along(&self, plane: &EndPlane) -> String {
        match plane.axis {
            AxisName::A => ", from the bowl end".to_owned(),
            axis if self.piece.tail_face < 0.0 => format!(", from mark {axis} of the plug along axis {axis}"),
            axis => format!(", from mark {axis} of the bowl end along axis {axis}"),
        }
    }

    /// From where it is measured, in mm along its axis.
    fn datum(&self, plane: &EndPlane) -> f64 {
        datum_mm(self.piece, plane.axis)
    }
}
