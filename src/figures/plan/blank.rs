//! The first steps: the blank, its marks and its corners.

use super::bench::Bench;
use super::step::{Step, StepKind};
use crate::design::{AxisName, BlankSection};
use crate::figures::checks::Words;
use crate::figures::marks::Mark;
use crate::figures::place::clock_words;

impl Bench<'_> {
    /// Cut the blank and mark both ends.
    pub(super) fn cut_blank(&mut self) {
        let what = "Cut the blank square and to length. Draw both diagonals on each end: axis A is where they cross. \
                    Draw the reference line along the side where the bowl opens, over both ends, and write on each end \
                    which way it opens. Let the growth rings run level across each end, square to the reference line, so that \
                    both sides of the bowl are alike, and keep the pith out of it: it cracks.";
        let mut step = Step::new(StepKind::Blank, "blank".into(), "Cut and mark the blank".into(), what.into());
        step.held = "On the bench.".into();
        step.tool = "saw, square, pencil, awl";
        match self.design.blank.section {
            BlankSection::Square { side_mm } => step.length(self.words, "square section, side", side_mm),
            BlankSection::Round { diameter_mm } => step.length(self.words, "round section, diameter", diameter_mm),
        }
        let (length_mm, cut_mm) = (self.design.blank.length_mm, self.design.length_to_cut_mm());
        step.length(self.words, "length", cut_mm);
        if cut_mm > length_mm {
            step.length(self.words, "of it for the plug, at the bowl end", cut_mm - length_mm);
        }
        let wood = self.design.wood.species.trim();
        if !wood.is_empty() {
            step.text("wood", wood);
        }
        // Every mark on the head end can be punched now; a mark that is cut away cannot be found again.
        for axis in self.figures.marks.iter().filter(|m| m.axis != AxisName::A) {
            push_mark(&mut step, self.words, &format!("{} on the head end", axis.axis), &axis.head);
        }
        step.until.push("The ends are square to the sides, and the grain runs along the blank.".into());
        step.until.push("No cracks, loose knots or bark.".into());
        self.add(step);
    }

    /// Seal the ends of wood that is wetter than it will be in use.
    pub(super) fn seal(&mut self) {
        let wood = &self.figures.wood;
        if wood.moisture_percent < wood.moisture_in_use_percent + WETTER_PERCENT {
            return;
        }
        let what = "If it is not turned and finished the same day, seal both ends and any knot with wax or glue: end grain dries \
                    first, and cracks. Let thin glue run into a crack that is there already, or take other wood.";
        let mut step = Step::new(StepKind::Seal, "seal".into(), "Seal the ends (optional)".into(), what.into());
        step.held = "On the bench.".into();
        step.tool = "brush, wax or glue";
        self.add(step);
    }

    /// Take the corners off a square blank, once, before the first pass along it.
    pub(super) fn rough(&mut self, cut: usize) {
        if !std::mem::take(&mut self.rough) {
            return;
        }
        let BlankSection::Square { side_mm } = self.design.blank.section else { return };
        let needed = self.figures.blank.least_round_diameter_mm;
        let what = if needed <= side_mm {
            "Turn the corners off, from the middle toward each end, until the work is round."
        } else {
            "Turn the corners off only where they are in the way: a later axis needs wood in them."
        };
        let mut step = Step::new(StepKind::Rough, "rough".into(), "Rough the corners off".into(), what.into());
        let support = self.support();
        // The corners go between centres, before there is a tenon.
        self.carry(&mut step, &support);
        step.tool = "roughing gouge";
        step.length(self.words, "no thinner than", needed);
        self.on_axis(&mut step, AxisName::A);
        self.set_marks(&mut step, AxisName::A);
        self.speeds_of_blank(&mut step, cut);
        step.until.push("The work turns by hand clear of the rest.".into());
        step.until.push(LINE_DRAWN_AGAIN.into());
        self.add(step);
        self.mount = Some((support.head, AxisName::A));
    }

    /// Mark an axis on the faces that are there now, unless it is marked.
    pub(super) fn mark(&mut self, name: AxisName) {
        if self.marked.contains(&name) {
            return;
        }
        self.marked.push(name);
        let Some(axis) = self.figures.marks.iter().find(|m| m.axis == name) else {
            return self.mark_across(name);
        };
        let face = if self.plugged { "the plug" } else { "the bowl end" };
        let what = format!(
            "Mark axis {name} on {face} and on the head end with the end templates, the reference lines in line, and punch \
             both marks."
        );
        let mut step = Step::new(StepKind::Mark, format!("mark {name}"), format!("Mark axis {name}"), what);
        step.held = "On the bench.".into();
        step.tool = "end templates, square, awl";
        push_mark(&mut step, self.words, &format!("{name} on {face}"), &axis.tail);
        push_mark(&mut step, self.words, &format!("{name} on the head end"), &axis.head);
        if axis.tilt_deg > 0.0 {
            step.text("tilt", self.words.angle(axis.tilt_deg));
        }
        step.until.push(format!(
            "Both marks {name} lie on the same side of the reference lines as on the drawing: {face} is mirrored."
        ));
        self.add(step);
    }

    /// Mark the axis of a bowl that is sawn open: in the middle of its sawn face.
    pub(super) fn mark_on_rim(&mut self, name: AxisName, rim_mm: f64) {
        if self.marked.contains(&name) {
            return;
        }
        self.marked.push(name);
        let what = format!(
            "The sawn face is a circle where the handle does not meet it. Lay a centre finder against its edge from three sides, \
             draw a line each time, and punch axis {name} lightly where they cross. Check it with a square and a rule from the \
             bowl end."
        );
        let mut step = Step::new(StepKind::Mark, format!("mark {name}"), format!("Mark axis {name}"), what);
        step.held = "On the bench.".into();
        step.tool = "centre finder, square, rule, awl";
        step.length(self.words, "diameter of the sawn face", rim_mm);
        step.length(self.words, "from its edge at the bowl end", rim_mm / 2.0);
        step.until.push("The three lines meet within the width of a pencil line.".into());
        self.add(step);
    }

    /// Mark an axis that runs across the blank.
    fn mark_across(&mut self, name: AxisName) {
        let Some(axis) = self.piece.axis(name).filter(|axis| axis.is_square()) else { return };
        let what =
            format!("Mark axis {name} square across the blank, on the side it comes from and on the side opposite.");
        let mut step = Step::new(StepKind::Mark, format!("mark {name}"), format!("Mark axis {name}"), what);
        step.held = "On the bench.".into();
        step.tool = "square, awl";
        step.length(self.words, "from the bowl end", axis.origin().s);
        self.add(step);
    }
}

/// What was turned away of the reference line is drawn again before it is needed. Common practice, no source.
pub(super) const LINE_DRAWN_AGAIN: &str = "The reference line is drawn again along the turned wood: lathe locked, pencil on the \
                                           rest, from one end's line to the other's.";

/// A mark by its distance and clock direction, as its face is seen.
pub(super) fn mark_in_words(words: Words, mark: &Mark) -> String {
    match mark.seen_clock_deg {
        Some(clock) => format!("{} at {} as seen", words.length(mark.distance_mm), clock_words(clock)),
        None => "the centre".to_owned(),
    }
}

/// Wood that is wetter by this than it will be in use has its ends sealed, in percent of dry mass: common practice, no
/// source.
const WETTER_PERCENT: f64 = 4.0;

/// A mark, by distance and clock direction as seen, and by its parts.
fn push_mark(step: &mut Step, words: Words, which: &str, mark: &Mark) {
    let value = mark_in_words(words, mark);
    step.text(which.to_owned(), value);
    for (mm, more, less) in [(mark.seen_right_mm, "right", "left"), (mark.seen_up_mm, "up", "down")] {
        if mm.abs() >= SEEN {
            step.length(words, format!("{which}, {}", if mm > 0.0 { more } else { less }), mm.abs());
        }
    }
}

/// A part of a mark smaller than this is nothing, in mm.
const SEEN: f64 = 0.05;
