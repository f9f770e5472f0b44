//! Checks of the turning: join, shoulders, fins, flats, centres, blank, end of the piece, lathe.

use super::check::{Check, CheckName, LOOK_AGAIN, Verdict, Words};
use super::{fields, hollow};
use crate::design::text::capital;
use crate::design::{AxisName, Cut, Design, Limits, Shop};
use crate::figures::blank::Blank;
use crate::figures::clean_up::CleanUp;
use crate::figures::end::end_mm;
use crate::figures::fin::Fin;
use crate::figures::leave::{Because, Join, TaperEnd};
use crate::figures::marks::AxisMarks;
use crate::figures::place::Place;
use crate::figures::report::Figures;
use crate::figures::rough_end::RoughEnd;
use crate::figures::start::NearestStart;
use crate::form::Field;
use crate::piece::Piece;

/// Missing wood at the join.
pub(super) fn join(design: &Design, piece: &Piece, joins: &[Join], words: Words) -> Check {
    let end = end_mm(design, piece).unwrap_or(piece.head_face);
    if let Some((join, taper)) = joins
        .iter()
        .filter(|join| join.follows_proposal)
        .find_map(|join| Some((join, comes_to_nothing(join, piece.rim(), end)?)))
    {
        let name = capital(&design.cut_name(join.cut));
        let found = format!(
            "{name} follows the join, which comes down to {} at {} from the bowl end: nothing asks for wood there.",
            words.length(taper.diameter_mm),
            words.length(taper.at_mm)
        );
        let cure = "Draw this pass with points of its own, or end it before that place.";
        return Check::fault(CheckName::Join, Verdict::Stop, found, cure)
            .measured(taper.diameter_mm, LEAST_OF_JOIN)
            .at(Place::station(taper.at_mm))
            .cured_in(design, Field::PassTo(join.cut));
    }
    let worst = joins
        .iter()
        .filter_map(|join| Some((join, join.least_spare?)))
        .min_by(|a, b| a.1.radius_mm.total_cmp(&b.1.radius_mm));
    let Some((join, spare)) = worst else {
        return Check::ok(CheckName::Join, "No pass has to leave wood for a later axis.");
    };
    let place = words.station(&spare.place);
    let name = design.cut_name(join.cut);
    if spare.radius_mm >= -MISSING {
        let sentence =
            format!("The least spare that {name} leaves is {} at {place}.", words.length(spare.radius_mm.max(0.0)));
        return Check::ok(CheckName::Join, sentence).measured(spare.radius_mm, 0.0).at(spare.place);
    }
    let missing = words.length(-2.0 * spare.radius_mm);
    let (verdict, whose) = match spare.because {
        Because::LaterPass => (Verdict::Stop, "the next axis then finds no wood there"),
        Because::Wall | Because::Nothing => (Verdict::Tight, "the wall over the hollow falls below its limit"),
    };
    Check::fault(
        CheckName::Join,
        verdict,
        format!("{} turns {missing} too small in diameter at {place}: {whose}.", capital(&name)),
        match (spare.because, comes_to_nothing(join, piece.rim(), end).is_none()) {
            (Because::LaterPass, true) => {
                "Keep to the diameters of the join's table, or let the pass follow the proposed join. If it overlaps the \
                 later pass on purpose, say at the pass that the two shape one part."
            }
            (_, true) => "Keep to the diameters of the join's table, or let the pass follow the proposed join.",
            (_, false) => "Keep to the diameters of the join's table.",
        },
    )
    .measured(spare.radius_mm, 0.0)
    .at(spare.place)
    .cured_in(design, fields::diameter(design, join.cut, spare.place.station_mm))
}

/// The taper of a join that comes down to nothing within the finished piece.
fn comes_to_nothing(join: &Join, rim: f64, end: f64) -> Option<TaperEnd> {
    let within = |taper: &&TaperEnd| (rim..=end).contains(&taper.at_mm) && taper.diameter_mm < LEAST_OF_JOIN;
    join.tapers.iter().find(within).copied()
}

/// A join thinner than this, in mm of diameter, has come to nothing.
const LEAST_OF_JOIN: f64 = 2.0;

/// Rounding of the join that no caliper shows, in mm on the radius.
const MISSING: f64 = 0.02;

/// A later pass that starts too near the bowl. Ok only where the wall and the floor keep their limits.
pub(super) fn shoulder(design: &Design, figures: &Figures, limits: &Limits, words: Words) -> Check {
    let room = |start: &NearestStart| start.from_mm - start.nearest_from_mm;
    let nearest = figures.nearest_starts.iter().min_by(|a, b| room(a).total_cmp(&room(b)));
    let too_near = nearest.filter(|start| room(start) < -MISSING);
    if let Some(start) = too_near {
        let from_mm = words.up(start.nearest_from_mm);
        return Check::fault(
            CheckName::ShoulderClearance,
            Verdict::Stop,
            format!(
                "{} starts {} too near the hollow.",
                capital(&design.cut_name(start.cut)),
                words.length(-room(start))
            ),
            format!("From {} on it clears the hollow; or tilt less.", words.length(from_mm)),
        )
        .measured(room(start), 0.0)
        .cured_in(design, Field::PassFrom(start.cut));
    }
    let is_moved = |cut: &Cut| matches!(cut, Cut::Pass(pass) if pass.axis != AxisName::A);
    if let Some(thin) = hollow::too_thin(figures, limits).filter(|_| design.cuts.iter().any(is_moved)) {
        return Check::fault(
            CheckName::ShoulderClearance,
            Verdict::Tight,
            format!(
                "The wood over the hollow is too thin, {}, wherever a later pass starts.",
                words.place(&thin.place)
            ),
            "Mend the wall and the floor first.",
        )
        .at(thin.place)
        .cured_at(hollow::limiting_field(design, thin));
    }
    let Some(start) = nearest else {
        return Check::ok(CheckName::ShoulderClearance, "No later pass starts near the bowl.");
    };
    let sentence = format!(
        "{} could start {} nearer to the bowl, at {}.",
        capital(&design.cut_name(start.cut)),
        words.length(room(start).max(0.0)),
        words.length(words.up(start.nearest_from_mm)),
    );
    Check::ok(CheckName::ShoulderClearance, sentence).measured(room(start), 0.0)
}

/// Rough wood between passes.
pub(super) fn fin(design: &Design, fins: &[Fin], words: Words) -> Check {
    let Some(fin) = fins.first() else {
        return Check::ok(CheckName::Fin, "No rough wood is left between passes.");
    };
    let after = design.cut_name(fin.after_cut);
    Check::fault(
        CheckName::Fin,
        Verdict::Tight,
        format!(
            "A fin of rough wood up to {} long stays between {after} and {}, {}.",
            words.length(fin.length_mm),
            design.cut_name(fin.before_cut),
            words.place(&fin.place)
        ),
        format!("Run {after} on past it, or start the next pass earlier."),
    )
    .measured(fin.length_mm, 0.0)
    .at(fin.place)
    .cured_in(design, Field::PassTo(fin.after_cut))
}

/// Flats where the blank is too small.
pub(super) fn flats(design: &Design, clean_ups: &[CleanUp], blank: &Blank, limit: f64, words: Words) -> Check {
    let flats = clean_ups.iter().filter_map(|c| Some((c, c.flat?)));
    let Some((pass, flat)) = flats.max_by(|a, b| a.1.width_mm.total_cmp(&b.1.width_mm)) else {
        return Check::ok(CheckName::Flats, "Every pass finds wood all round.").measured(0.0, limit);
    };
    let verdict = if flat.width_mm > limit { Verdict::Stop } else { Verdict::Tight };
    let wanted = blank.wanted_mm(&design.blank.section);
    Check::fault(
        CheckName::Flats,
        verdict,
        format!(
            "{} leaves a flat {} wide, {}: the blank is too small there.",
            capital(&design.cut_name(pass.cut)),
            words.length(flat.width_mm),
            words.place(&flat.place)
        ),
        format!("Take a blank of {} or more, or tilt the axis less. {LOOK_AGAIN}", words.length(wanted)),
    )
    .measured(flat.width_mm, limit)
    .at(flat.place)
    .cured_by(design, Field::BlankWidth, wanted)
}

/// The footprints of both centres on every axis.
pub(super) fn centres(design: &Design, marks: &[AxisMarks], shop: &Shop, words: Words) -> [Check; 2] {
    let used = |m: &&AxisMarks| design.cuts.iter().any(|cut| matches!(cut, Cut::Pass(pass) if pass.axis == m.axis));
    let worst = |margin: fn(&AxisMarks) -> f64| {
        marks.iter().filter(used).min_by(|a, b| margin(a).total_cmp(&margin(b))).map(|m| (m.axis, margin(m)))
    };
    let check = |name: CheckName, end: &str, worst: Option<(AxisName, f64)>| {
        let Some((axis, margin)) = worst else {
            return Check::ok(name, format!("No axis bears on the {end}."));
        };
        let wanted = shop.centres.margin_mm;
        if margin >= wanted {
            let sentence = format!("The centre has {} of wood around it on the {end}.", words.length(margin));
            return Check::ok(name, sentence).measured(margin, wanted);
        }
        let verdict = if margin < 0.0 { Verdict::Stop } else { Verdict::Tight };
        let found = if margin < 0.0 {
            format!("On the {end} the centre for axis {axis} overhangs the wood by {}.", words.length(-margin))
        } else {
            format!("On the {end} the centre for axis {axis} has only {} of wood around it.", words.length(margin))
        };
        let cure = "Let the axes cross nearer that end, tilt less, or take a larger blank or plug.";
        let fault = Check::fault(name, verdict, found, cure).measured(margin, wanted);
        fault.cured_in(design, fields::axis(design, axis))
    };
    [
        check(CheckName::DriveCentre, "head end", worst(|m| m.head.margin_mm)),
        check(CheckName::LiveCentre, "tail end", worst(|m| m.tail.margin_mm)),
    ]
}

/// The finished piece ends somewhere.
pub(super) fn ends(design: &Design, piece: &Piece) -> Check {
    if end_mm(design, piece).is_some() {
        return Check::ok(CheckName::Ends, "The piece is parted from its waste.");
    }
    Check::fault(
        CheckName::Ends,
        Verdict::Tight,
        "Nothing parts the piece from the waste at its head end.",
        "Add a parting cut at the end of the handle, or take the last pass down to nothing.",
    )
}

/// Rough wood between the last pass and the end of the piece.
pub(super) fn rough_end(design: &Design, rough: Option<&RoughEnd>, words: Words) -> Check {
    let Some(rough) = rough else {
        return Check::ok(CheckName::RoughEnd, "No rough wood is left before the end of the piece.");
    };
    let name = design.cut_name(rough.after_cut);
    let length = words.length(rough.length_mm);
    Check::fault(
        CheckName::RoughEnd,
        Verdict::Tight,
        format!(
            "Beyond {name}, {length} of the blank stays rough up to the parting cut, {}.",
            words.place(&rough.place)
        ),
        format!("Run {name} on up to the parting cut, or part the piece off where it ends."),
    )
    .measured(rough.length_mm, 0.0)
    .at(rough.place)
    .cured_in(design, Field::PassTo(rough.after_cut))
}
