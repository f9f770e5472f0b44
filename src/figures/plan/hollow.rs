//! Boring, hollowing across the grain, scraping and sanding the inside.

use super::bench::Bench;
use super::cautions::ACROSS;
use super::held::holding;
use super::step::{Step, StepKind};
use crate::design::{AxisName, Cut, Hollow};
use crate::figures::boring::BoringWarning;
use crate::figures::ridge::ridges;
use crate::figures::support::{HeadEnd, Support};
use crate::figures::turning::Operation;
use crate::geometry::Axis;

impl Bench<'_> {
    /// Bore from the end, then scrape and sand.
    pub(super) fn bore(&mut self, place: usize) {
        let Some(Cut::Hollow(hollow)) = self.design.cuts.get(place) else { return };
        let support = self.support();
        match hollow.axis {
            AxisName::A => {
                self.remount(AxisName::A);
                self.true_bowl_end();
            }
            axis => self.mount = Some((support.head, axis)),
        }
        let boring = self.figures.borings.iter().find(|b| b.cut == place);
        let bits = boring.map_or(&[][..], |b| b.steps.as_slice());
        let mut what = "Bore each bit to its depth, the widest first. Depths are to the bit's cutting edge.".to_owned();
        for warning in boring.iter().flat_map(|b| &b.warnings) {
            what.push(' ');
            what.push_str(&self.warning(warning));
        }
        let mut step = Step::new(StepKind::Bore, "bore".into(), "Bore the hollow".into(), what);
        step.carried = support;
        step.held = match hollow.axis {
            AxisName::A => format!("{} The bit in the tailstock.", holding(&support)),
            axis => format!("Clamped or chucked so that axis {axis} runs true. The bit in the tailstock."),
        };
        step.tool = if bits.is_empty() { "hook tool or scraper" } else { "boring bits" };
        for bit in bits {
            step.length(self.words, format!("bit of {}, depth", self.words.length(bit.diameter_mm)), bit.depth_mm);
        }
        if let Some((boring, deepest)) = boring.zip(bits.last()) {
            step.until.push(format!(
                "The depth from the mouth is {} and no more: the finished depth is {}.",
                self.words.length(deepest.depth_mm),
                self.words.length(boring.depth_mm)
            ));
        }
        let operation = if bits.is_empty() { Operation::Shaping } else { Operation::Boring };
        self.speeds_of_cut(&mut step, place, &[operation]);
        self.on_axis(&mut step, hollow.axis);
        self.set_swing(&mut step, place);
        self.bored = true;
        // What is left when the bits are done differs from the finished hollow only by what the scraper takes.
        self.add_done(place, step);
        self.scrape(place, hollow, &support);
    }

    /// Hollow across the grain in wooden jaws, then scrape and sand.
    pub(super) fn across(&mut self, place: usize) {
        let Some(Cut::Hollow(hollow)) = self.design.cuts.get(place) else { return };
        self.make_jaws(place);
        let sawn = self.steps.iter().any(|step| step.kind == StepKind::Saw);
        match self.figures.jaws_for(place).map(|jaws| jaws.rim_mm).filter(|_| sawn) {
            Some(rim_mm) => self.mark_on_rim(hollow.axis, rim_mm),
            None => self.mark(hollow.axis),
        }
        let support = self.support();
        self.mount = Some((support.head, hollow.axis));
        let jaws = self.figures.jaws_for(place).cloned();
        let what = match &jaws {
            Some(_) => {
                "Put the carrier jaws with their wood on the chuck. Set the bowl in them with the lathe locked: the handle in its \
                 slot, the flat at its bowl end over the gap opposite, the point of the live centre in the mark of the axis. Close \
                 the jaws firmly, not hard: the wall will be thin. True the sawn rim with light cuts from its edge inward. Drill \
                 the middle from the tailstock, the point of the bit short of the floor, and take the tailstock away. Hollow in \
                 rounds that grow outward from there, each cut from its edge down to the middle, where the fibres are backed."
            }
            None => {
                "Set the bowl in jaws that you made for it, so that the marks of its axis run true. Drill the middle, the point \
                 of the bit short of the floor. Hollow in rounds that grow outward from there, each cut from its edge down to the \
                 middle, where the fibres are backed."
            }
        };
        let title = format!("Hollow across on axis {}", hollow.axis);
        let mut step = Step::new(StepKind::Bore, format!("hollow {}", hollow.axis), title, what.into());
        if let Some(why_not) = self.why_no_jaws(place) {
            step.until.push(why_not);
        }
        step.held = "In wooden jaws made for this bowl, its handle in their slot.".into();
        ACROSS.iter().for_each(|it| step.caution(it));
        step.carried = support;
        step.tool = "bowl gouge, scraper";
        let profile = self.profile(place);
        for (depth, diameter) in &profile {
            if *diameter > STRAIGHT {
                let at = format!("depth {} from the middle", self.words.length(diameter / 2.0));
                step.length(self.words, at, *depth);
            }
        }
        step.length(self.words, "depth in the middle", profile.last().map_or(0.0, |p| p.0));
        self.drill_the_middle(&mut step, place);
        self.speeds_of_cut(&mut step, place, &[Operation::Shaping]);
        step.until
            .push("The work clears the bed, the rest and the headstock when turned by hand, all the way round.".into());
        step.until
            .push("The centre mark runs true, and the rim stands proud of the jaws by the same all round.".into());
        step.until.extend(self.wall_to_caliper(place));
        self.on_axis(&mut step, hollow.axis);
        self.set_swing(&mut step, place);
        if let Some(jaws) = &jaws {
            self.set_in_jaws(&mut step, jaws);
            step.jaws = Some(place);
        }
        self.add_done(place, step);
        self.scrape(place, hollow, &support);
    }

    /// The one bit that opens the middle: the narrowest, with the speed for it alone.
    fn drill_the_middle(&self, step: &mut Step, place: usize) {
        let boring = self.figures.borings.iter().find(|boring| boring.cut == place);
        let Some(bit) = boring.and_then(|boring| boring.steps.last()) else { return };
        step.length(self.words, format!("middle, bit of {}, depth", self.words.length(bit.diameter_mm)), bit.depth_mm);
        self.speed_of_bit(step, place, bit.diameter_mm);
    }

    /// What a caliper must read of the wall while the bowl is still in its jaws.
    fn wall_to_caliper(&self, place: usize) -> Option<String> {
        let wall = self.figures.walls.iter().find(|wall| wall.cut == place)?;
        let least = wall.least.filter(|least| least.wall_mm > 0.0)?;
        Some(format!(
            "With the lathe stopped a caliper reads no wall under {}; the planned least is {}.",
            self.words.length(least.wall_mm),
            self.words.place(&least.place)
        ))
    }

    fn scrape(&mut self, place: usize, hollow: &Hollow, support: &Support) {
        let along = self.piece.axis(hollow.axis).is_some_and(Axis::is_lengthwise);
        let what = "Scrape the hollow to its finished profile. Then take the rest out of the way and sand it through the grits.";
        let name = if along { "scrape".to_owned() } else { format!("scrape {}", hollow.axis) };
        let mut step = Step::new(StepKind::Scrape, name, "Scrape and sand the hollow".into(), what.into());
        step.carried = *support;
        step.held = if support.head == HeadEnd::Carrier { "As before.".to_owned() } else { holding(support) };
        step.tool = "round-nosed scraper, abrasive on a stick";
        let profile = self.profile(place);
        for (i, (depth, diameter)) in profile.iter().enumerate() {
            // Along a straight side its ends are enough.
            let same = |other: Option<usize>| {
                other.and_then(|o| profile.get(o)).is_some_and(|o| (o.1 - diameter).abs() < STRAIGHT)
            };
            if !(same(i.checked_sub(1)) && same(Some(i + 1))) {
                step.length(self.words, format!("diameter {} deep", self.words.length(*depth)), *diameter);
            }
        }
        for ridge in ridges(self.design, self.piece).iter().filter(|it| it.first_cut.max(it.second_cut) == place) {
            let others = self.design.cut_name(ridge.first_cut.min(ridge.second_cut));
            let what = format!("ridge between this and {others}, to scrape away");
            step.length(self.words, what, ridge.height_mm);
            step.length(self.words, "its place from the bowl end", ridge.crest.s);
        }
        if let (true, Some((depth, _))) = (along, profile.last()) {
            step.until.push(format!("The depth gauge reads {}.", self.words.length(*depth)));
        }
        if support.head == HeadEnd::Carrier {
            step.jaws = self.figures.jaws_for(place).map(|_| place);
            ACROSS.iter().for_each(|it| step.caution(it));
        }
        self.speeds_of_cut(&mut step, place, &[Operation::Shaping, Operation::Sanding]);
        step.until.push("The inside is sanded to the last grit.".into());
        step.text("grits", self.grits());
        self.on_axis(&mut step, hollow.axis);
        self.add(step);
    }

    /// Diameters of the finished hollow by depth: its ends and a few between, in mm.
    fn profile(&self, place: usize) -> Vec<(f64, f64)> {
        let Some(hollow) = self.piece.revolved(place) else { return Vec::new() };
        let (start, end) = (hollow.meridian.start(), hollow.meridian.end());
        let shares = [0.0, 0.25, 0.5, 0.7, 0.85, 1.0];
        let at = |share: f64| {
            let t = start + (end - start) * share;
            (
                t - start,
                2.0 * if share < 1.0 { hollow.meridian.radius_after(t) } else { hollow.meridian.radius_before(t) },
            )
        };
        shares.map(at).to_vec()
    }

    fn warning(&self, warning: &BoringWarning) -> String {
        let length = |mm: f64| self.words.length(mm);
        match warning {
            BoringWarning::NoBitFits => "No bit owned fits: hollow it with a hook tool or a scraper.".to_owned(),
            BoringWarning::Deep { limit_mm } => {
                format!("It is deeper than {}: hard to bore straight and to smooth.", length(*limit_mm))
            }
            BoringWarning::BitTooWide { diameter_mm, limit_mm } => {
                format!(
                    "The lathe drives bits up to {}, not {}: open the bore in rings.",
                    length(*limit_mm),
                    length(*diameter_mm)
                )
            }
            BoringWarning::StopsShort { left_mm } => {
                format!("The bits stop {} short of the floor: scrape the rest.", length(*left_mm))
            }
        }
    }
}

/// Diameters closer than this are the same, in mm.
const STRAIGHT: f64 = 0.05;
