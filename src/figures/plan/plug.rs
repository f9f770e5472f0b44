//! The plug: its disc and tenon come off the blank's end first, its spigot is turned to fit when the bore is finished.
//! Common practice, no source.

use super::bench::Bench;
use super::held::holding;
use super::step::{Step, StepKind};
use crate::design::{AxisName, Cut, Plug};
use crate::figures::support::{HeadEnd, Support, TailEnd};
use crate::figures::turning::Operation;

/// A spigot smaller than its bore by more than this is meant to have play, in mm.
const SNUG_MM: f64 = 0.05;

impl Bench<'_> {
    /// Turn the disc of the plug that comes out of the blank, while the blank is between centres.
    pub(super) fn plug_of_blank(&mut self, support: &Support) {
        let Some((_, plug)) = self.design.plug_of_blank().filter(|_| !self.disc_made) else { return };
        let what = "At the bowl end turn the plug's tenon on the outer end, its shoulder square or a little hollow, and behind \
                    it the disc, as long as disc and spigot together. Draw the reference line over the disc and the wood behind \
                    it: lathe locked, pencil on the rest. Part in behind the disc to a stub, stop the lathe and saw the stub \
                    through by hand.";
        let mut step = self.disc(plug, what);
        self.carry(&mut step, support);
        self.set_marks(&mut step, AxisName::A);
        self.disc_made = true;
        self.true_the_end = true;
        self.add(step);
    }

    /// Turn a disc with a tenon of its own from a piece of waste.
    fn plug_of_waste(&mut self, plug: &Plug) {
        let what = "From a piece of waste with the grain along it turn the plug's tenon on one end, its shoulder square or a \
                    little hollow, and behind it the disc, as long as disc and spigot together. Part in behind it to a stub, \
                    stop the lathe and saw the stub through by hand.";
        let mut step = self.disc(plug, what);
        step.held = "A piece of waste between centres.".into();
        self.disc_made = true;
        self.add(step);
    }

    fn disc(&self, plug: &Plug, what: &str) -> Step {
        let mut step = Step::new(StepKind::MakePlug, "plug".into(), "Turn the plug's disc".into(), what.into());
        step.tool = "parting tool, spindle gouge, fine saw";
        if let Some(tenon) = plug.tenon {
            step.length(self.words, "plug's tenon, diameter", tenon.diameter_mm);
            step.length(self.words, "plug's tenon, length", tenon.length_mm);
        }
        step.length(self.words, "disc, diameter", plug.disc_diameter_mm);
        step.length(self.words, "disc and spigot, length", plug.thickness_mm + plug.spigot_length_mm);
        self.speeds_centred(&mut step, plug.disc_diameter_mm, &[Operation::Shaping, Operation::Parting]);
        step.axis = Some(AxisName::A);
        let chuck = &self.shop.chuck;
        step.until.push(format!(
            "The plug's tenon is between {} and {}, and shorter than the jaws are deep ({}).",
            self.words.length(chuck.jaw_from_mm),
            self.words.length(chuck.jaw_to_mm),
            self.words.length(chuck.jaw_depth_mm)
        ));
        step.until.push("The live centre's mark is left in the middle of the tenon's end.".into());
        step
    }

    /// True the end that is left where the plug was parted off, once the work is in the chuck.
    pub(super) fn true_bowl_end(&mut self) {
        if !std::mem::take(&mut self.true_the_end) {
            return;
        }
        let what = "Face the bowl end flat with light cuts, from the rim toward the middle: it is the 0 of every length. Draw the \
                    reference line over it again from the line along the side.";
        let title = "True the bowl end".to_owned();
        let mut step = Step::new(StepKind::Face, "true the bowl end".into(), title, what.into());
        step.tool = "spindle gouge, square-ended scraper";
        let support = self.support();
        self.carry(&mut step, &support);
        step.length(self.words, "length from here to the head end", self.design.blank.length_mm);
        self.speeds_centred(&mut step, 2.0 * self.piece.solid.stock.largest_radius(), &[Operation::Shaping]);
        self.on_axis(&mut step, AxisName::A);
        step.until.push("A straight edge lies flat across the end.".into());
        self.add(step);
    }

    /// Turn the spigot to fit the finished bore.
    fn spigot(&mut self, plug: &Plug) {
        let snug = self.bore_mouth_mm().is_none_or(|bore| bore - plug.spigot_diameter_mm <= SNUG_MM);
        let fit = if snug { "goes in snug" } else { "goes in with the play that was chosen" };
        let (title, start, end) = match plug.tenon {
            Some(_) => (
                "Fit the plug's spigot",
                "Grip the plug by its own tenon.",
                "While it still runs true, touch its end with a pencil: where no ring is drawn is its middle.",
            ),
            None => (
                "Turn the plug",
                "Grip a piece of waste with the grain along it and turn the disc on its end.",
                "While it still runs true, mark its middle; part the disc off to a stub, stop the lathe and saw the stub \
                 through.",
            ),
        };
        let what = format!(
            "Mark one jaw on the work, so that it goes back the same way, and take it out of the chuck. {start} Turn the \
             spigot a little full, then a hair at a time: stop the lathe and try the bore over it each time, until it {fit}. {end}"
        );
        let mut step = Step::new(StepKind::MakePlug, "spigot".into(), title.into(), what);
        step.tool = "spindle gouge, parting tool, calipers";
        let own = Support { axis: Some(AxisName::A), head: HeadEnd::Jaws, tail: TailEnd::Nothing, ..Support::BENCH };
        step.held = if plug.tenon.is_some() {
            "The plug in the chuck by its own tenon."
        } else {
            "A piece of waste in the chuck."
        }
        .into();
        step.carried = own;
        if plug.tenon.is_none() {
            step.length(self.words, "disc, diameter", plug.disc_diameter_mm);
        }
        step.length(self.words, "disc, thickness", plug.thickness_mm);
        step.length(self.words, "spigot, diameter", plug.spigot_diameter_mm);
        step.length(self.words, "spigot, length", plug.spigot_length_mm);
        if let Some(bore) = self.bore_mouth_mm() {
            step.length(self.words, "the bore as planned; the bore as it is decides", bore);
        }
        self.speeds_centred(&mut step, plug.disc_diameter_mm, &[Operation::Shaping, Operation::Finishing]);
        step.axis = Some(AxisName::A);
        step.until.push(if snug {
            "The spigot goes into the bore by hand and holds itself there.".into()
        } else {
            "The spigot goes into the bore by hand and does not rock.".into()
        });
        step.until.push("The disc's face around the spigot is flat or a little hollow.".into());
        // The work is out of the chuck.
        self.mount = None;
        self.add(step);
    }

    /// The finished diameter of the bore at its mouth, in mm.
    fn bore_mouth_mm(&self) -> Option<f64> {
        let bores = self.design.cuts.iter().enumerate().filter_map(|(cut, choice)| match choice {
            Cut::Hollow(hollow) if hollow.axis == AxisName::A => Some(&self.piece.revolved(cut)?.meridian),
            _ => None,
        });
        bores.map(|bore| 2.0 * bore.radius_after(bore.start())).reduce(f64::max)
    }

    /// Fit the plug.
    pub(super) fn fit_plug(&mut self, place: usize) {
        let Some(Cut::FitPlug(plug)) = self.design.cuts.get(place) else { return };
        if plug.tenon.is_some() && !std::mem::take(&mut self.disc_made) {
            self.plug_of_waste(plug);
            self.disc_made = false;
        }
        self.spigot(plug);
        if self.support().head == HeadEnd::Jaws {
            self.remount(AxisName::A);
        }
        let what = "Put a dab of glue on a slip of paper at two places of the rim, so that the plug can neither turn nor fly, or \
                    tape over the joint where no tool comes. Push the plug in until its disc stands on the rim all round. Turn \
                    the work by hand with a pencil on the rest against the plug's end: where no ring is drawn is mark A. Punch \
                    it and bring the live centre up to it: it presses the plug home and stays until the piece is sawn off. Draw \
                    the reference line over the disc's edge and end: the disc hides the rim.";
        let mut step = Step::new(StepKind::FitPlug, "fit plug".into(), "Fit the plug".into(), what.into());
        let support = self.support();
        self.carry(&mut step, &support);
        step.tool = "by hand; glue and paper, or tape; pencil, awl";
        step.length(self.words, "spigot, diameter", plug.spigot_diameter_mm);
        step.length(self.words, "spigot, length", plug.spigot_length_mm);
        step.until.push("The inside is sanded: it cannot be reached again until the plug is out.".into());
        step.until.push("The plug does not rock or turn by hand; its disc touches all round.".into());
        step.until.push("The live centre is on it, locked: never start the lathe without.".into());
        step.until.push("The reference line runs on over the plug.".into());
        self.plugged = true;
        self.add_done(place, step);
    }

    /// Take the plug out.
    pub(super) fn take_out_plug(&mut self, place: usize) {
        let support = self.support();
        let on_bench = support.head == HeadEnd::Bench;
        let what = match on_bench {
            true => "Peel the tape off, or split the paper with a thin blade under the disc, and twist the plug out.",
            false => {
                "Stop the lathe and draw the tailstock back. Peel the tape off, or split the paper with a thin blade under \
                 the disc, and twist the plug out."
            }
        };
        let title = "Take the plug out".to_owned();
        let mut step = Step::new(StepKind::TakeOutPlug, "take out plug".into(), title, what.into());
        step.held = if on_bench { "Off the lathe, on a padded bench.".to_owned() } else { holding(&support) };
        step.carried = support;
        step.tool = "by hand; a thin blade under the disc";
        step.until.push("The rim is whole all round, and no paper or glue is left on it.".into());
        self.plugged = false;
        self.add_done(place, step);
    }
}
