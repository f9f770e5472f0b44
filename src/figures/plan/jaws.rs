//! Making the wooden jaws that hold a bowl across the grain, and setting the bowl in them.
//!
//! All of it is common practice, no source.

use super::bench::Bench;
use super::step::{Step, StepKind};
use crate::figures::jaws::{Jaws, RecessAt, SLOT_ROOM_MM};
use crate::figures::support::Support;
use crate::figures::turning::Operation;

/// For turning wooden jaws.
const TURNING_JAWS: [&str; 3] = [
    "Screws too long meet the tool, screws too short let a jaw fly: measure them against the wood, two in each jaw, and look at \
     them again after the first cuts.",
    "Four jaws with gaps between them are hard to see when they spin: keep fingers and the rest's end off their corners.",
    "Never open the jaws past what the chuck's maker allows, and never run them open with nothing between them.",
];

impl Bench<'_> {
    /// Why the jaws for a hollow are not planned.
    pub(super) fn why_no_jaws(&self, place: usize) -> Option<String> {
        self.figures.jaws.iter().find(|it| it.cut == place)?.jaws.why_not().map(str::to_owned)
    }

    /// Make the jaws: saw the quarters, turn the recess, cut the slot. Jaws of the same recess are made once.
    pub(super) fn make_jaws(&mut self, place: usize) {
        let Some(jaws) = self.figures.jaws_for(place).cloned() else { return };
        if self.jaws_made.iter().any(|made| made.recess == jaws.recess) {
            return;
        }
        let first = self.steps.len();
        self.saw_quarters(&jaws);
        self.turn_recess(&jaws);
        self.cut_slot(&jaws);
        self.steps.iter_mut().skip(first).for_each(|step| step.jaws = Some(place));
        self.jaws_made.push(jaws);
    }

    fn saw_quarters(&mut self, jaws: &Jaws) {
        let (block, words) = (&jaws.block, self.words);
        let what = format!(
            "Plane a piece of dry, even-grained hardwood or birch plywood flat on its back. Saw it into {} quarters, and screw each \
             to a carrier jaw from behind. Number jaws and quarters, so that they always go back in the same places.",
            block.segments
        );
        let title = "Make the wooden jaws: quarters";
        let mut step = Step::new(StepKind::Jaws, "jaws quarters".into(), title.into(), what);
        step.held = "On the bench.".into();
        step.tool = "saw, drill, screwdriver";
        step.length(words, "side of the square of wood", block.square_mm);
        step.length(words, "its thickness, at least", block.thickness_mm);
        step.length(words, "kerf of the saw", self.shop.carrier.saw_kerf_mm);
        step.text("screws in each jaw", block.screws_each.to_string());
        step.length(words, "circle of the screws, diameter", block.screw_circle_mm);
        step.length(words, "screws reach into the wood, at most", block.screw_bite_mm);
        step.until.push("Every quarter lies flat on its carrier jaw, and no screw turns any further.".into());
        step.until.push("The screws are those that the chuck's maker names for these jaws.".into());
        self.add(step);
    }

    fn turn_recess(&mut self, jaws: &Jaws) {
        let (block, words) = (&jaws.block, self.words);
        let what = format!(
            "Close the jaws on four spacers {} thick, one in each gap near the outside, so that they cannot close further while \
             they are turned. Turn the outside round and the face flat. Turn the recess to the diameters given and try its card: \
             it is widest {} under the face and closes again toward it. Sand it lightly; leave no finish in it.",
            words.length(block.gap_mm),
            words.length(jaws.past_girth_mm.max(0.0))
        );
        let title = "Make the wooden jaws: recess";
        let mut step = Step::new(StepKind::Jaws, "jaws recess".into(), title.into(), what);
        step.carried = Support::CARRIER;
        step.held = "Screwed to the carrier jaws, which are closed on the spacers.".into();
        step.tool = "bowl gouge, round-nosed scraper, card of the recess";
        step.length(words, "spacers between the jaws", block.gap_mm);
        step.length(words, "outside, about", block.diameter_mm);
        for RecessAt { depth_mm, diameter_mm } in told(jaws) {
            step.length(words, format!("recess, diameter {} deep", words.length(depth_mm)), diameter_mm);
        }
        step.length(words, "depth in the middle", jaws.depth_mm);
        let clears = self.shop.lathe.swing_over_bed_mm - block.diameter_mm;
        for (name, mm) in [("swing over the bed, diameter", block.diameter_mm), ("clears the bed by", clears / 2.0)] {
            step.set_length(words, name, mm);
        }
        self.speeds_centred(
            &mut step,
            block.diameter_mm,
            &[Operation::Roughing, Operation::Shaping, Operation::Finishing],
        );
        TURNING_JAWS.iter().for_each(|it| step.caution(it));
        step.until
            .push("The card of the recess fits without light between, and its mouth is no wider than planned.".into());
        step.until.push("The jaws clear the bed and the rest when turned by hand.".into());
        self.add(step);
    }

    fn cut_slot(&mut self, jaws: &Jaws) {
        let words = self.words;
        let what = match &jaws.slot {
            Some(_) => {
                "Take the spacers out. Mark the slot for the handle over the gap between jaws 1 and 2, half in each, open to the \
                 front and to the outside. Saw and rasp it, and break every edge that the handle or a hand can meet."
            }
            None => "Take the spacers out, and break every edge that a hand can meet.",
        };
        let title = "Make the wooden jaws: slot";
        let mut step = Step::new(StepKind::Jaws, "jaws slot".into(), title.into(), what.into());
        step.held = "In the carrier jaws, the lathe unplugged, or each jaw in a vice.".into();
        step.tool = "saw, rasp";
        if let Some(slot) = &jaws.slot {
            step.length(words, "width of the slot", slot.width_mm);
            step.length(words, "its depth from the face", slot.depth_mm);
            step.until.push(format!(
                "The handle lies free in its slot, about {} all round: only the bowl bears.",
                words.length(SLOT_ROOM_MM)
            ));
        }
        step.length(words, "open each jaw for the bowl to go in, at least", jaws.open_by_mm);
        let (from, to) = (words.length(jaws.takes_from_mm), words.length(jaws.girth_mm));
        step.text("the same jaws hold bowls of", format!("{from} to {to} at the girth"));
        step.until.push("The bowl goes in with the jaws open, and does not rock when they are closed on it.".into());
        self.add(step);
    }

    /// How the bowl sits in its jaws, what it sweeps, and where the rest may stand.
    pub(super) fn set_in_jaws(&self, step: &mut Step, jaws: &Jaws) {
        let words = self.words;
        let mut set = |what: &str, mm: f64| step.set_length(words, what, mm);
        set("rim proud of the jaws", jaws.proud_mm);
        set("gap between the jaws when they grip", jaws.block.gap_mm);
        set("handle sweeps a circle, diameter", jaws.clear.sweep_mm);
        if let Some(rest) = jaws.clear.rest_within_mm {
            set("handle stands before the rim by", jaws.clear.in_front_mm);
            set("tool rest no farther from the axis than", rest);
        }
        set("clears the end of the spindle by", jaws.clear.headstock_mm);
    }
}

/// The depths at which the recess is told: its mouth, its girth, and a few between there and the bottom.
fn told(jaws: &Jaws) -> impl Iterator<Item = RecessAt> {
    let girth = RecessAt { depth_mm: jaws.past_girth_mm.max(0.0), diameter_mm: jaws.girth_mm };
    let first = RecessAt { depth_mm: 0.0, diameter_mm: jaws.mouth_mm };
    let deepest = jaws.recess.last().map_or(0.0, |at| at.depth_mm);
    // Those near the girth are as wide as it, and those near the bottom so close together that one stands for them.
    let (from, to) = (girth.depth_mm + girth.diameter_mm / 12.0, deepest - girth.diameter_mm / 40.0);
    let apart = jaws.recess.iter().filter(move |at| (from..to).contains(&at.depth_mm)).copied().step_by(2);
    [first, girth].into_iter().chain(apart)
}
