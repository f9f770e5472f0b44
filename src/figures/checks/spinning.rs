//! Checks of the work as it spins: swing, out-of-balance force, speed.

use super::check::{Check, CheckName, CheckUnit, Verdict, Words};
use super::fields;
use crate::design::text::capital;
use crate::design::{Design, Shop};
use crate::figures::known::Known;
use crate::figures::turning::{Balance, Turning};

/// Room wanted between the work and the bed or the base of the rest, in mm on the radius: common practice, no source.
const ROOM_MM: f64 = 5.0;
/// A load at the lowest speed above this share of the limit leaves little room for more: common practice, no source.
const LITTLE_ROOM: f64 = 0.5;

/// The three checks.
pub(super) fn checks(design: &Design, turning: &[Turning], shop: &Shop, words: Words) -> [Check; 3] {
    [swing(design, turning, shop, words), force(design, turning, shop), speed(design, turning)]
}

/// What is left over the bed or over the rest's base.
fn swing(design: &Design, turning: &[Turning], shop: &Shop, words: Words) -> Check {
    let room = |t: &Turning| t.swing.over_rest_mm.unwrap_or(f64::INFINITY).min(t.swing.over_bed_mm);
    let Some(worst) = turning.iter().min_by(|a, b| room(a).total_cmp(&room(b))) else {
        return Check::ok(CheckName::Swing, "Nothing is turned.");
    };
    let over_rest = worst.swing.over_rest_mm.is_some_and(|rest| rest <= worst.swing.over_bed_mm);
    let (radius, limit, what) = if over_rest {
        (worst.swing.radius_at_cut_mm, shop.lathe.swing_over_rest_mm, "over the base of the tool rest")
    } else {
        (worst.swing.radius_mm, shop.lathe.swing_over_bed_mm, "over the bed")
    };
    let (across, left) = (words.length(2.0 * radius), room(worst));
    let name = design.cut_name(worst.cut);
    let sentence =
        format!("For {name} the work swings {across} across; the lathe clears {} {what}.", words.length(limit));
    let check = if left >= ROOM_MM {
        Check::ok(CheckName::Swing, sentence)
    } else {
        let verdict = if left < 0.0 { Verdict::Stop } else { Verdict::Tight };
        let rough = if worst.swing.is_corner { "rough it round first, " } else { "" };
        let cure = format!("Take a smaller or shorter blank, {rough}or move the marks less.");
        Check::fault(CheckName::Swing, verdict, sentence, cure).cured_in(design, fields::axis(design, worst.axis))
    };
    let check = check.measured(2.0 * radius, limit);
    match worst.swing.place {
        Some(place) => check.at(place),
        None => check,
    }
}

/// The load on a centre at the lathe's lowest speed.
fn force(design: &Design, turning: &[Turning], shop: &Shop) -> Check {
    let (lowest, limit) = (shop.lathe.lowest_rpm, shop.lathe.force_limit_n);
    let load = |balance: &Balance| balance.worst_n(lowest);
    let known = turning.iter().filter_map(|t| Some((t, load(t.balance.value()?))));
    let Some((worst, newtons)) = known.max_by(|a, b| a.1.total_cmp(&b.1)) else {
        let Some(why) = turning.iter().find_map(|t| t.balance.why_not()) else {
            return Check::ok(CheckName::OutOfBalance, "Nothing is turned.");
        };
        let cure = "Choose a wood from the list, or add its density to the woods of your own.";
        return Check::fault(CheckName::OutOfBalance, Verdict::Tight, why, cure).cured_at("wood.species");
    };
    let name = design.cut_name(worst.cut);
    let where_to = match worst.balance.value().and_then(|b| b.before.between_centres_mm) {
        Some(_) => "one centre",
        None => "what holds it",
    };
    let sentence = format!(
        "At the lathe's lowest speed, {lowest:.0} rpm, {name} loads {where_to} with {newtons:.1} N; the shop's limit is \
         {limit:.0} N."
    );
    let check = if newtons <= LITTLE_ROOM * limit {
        Check::ok(CheckName::OutOfBalance, sentence)
    } else {
        let verdict = if newtons > limit { Verdict::Stop } else { Verdict::Tight };
        let cure = worst.speed.cures.join(" ");
        let cure = if cure.is_empty() { "Use a smaller offset or tilt.".to_owned() } else { cure };
        Check::fault(CheckName::OutOfBalance, verdict, sentence, cure)
            .cured_in(design, fields::axis(design, worst.axis))
    };
    Check { unit: CheckUnit::N, ..check.measured(newtons, limit) }
}

/// The step whose speed is worst: one without a safe speed, then one held under what is usual, then the slowest for what
/// is usual.
fn speed(design: &Design, turning: &[Turning]) -> Check {
    let top = |t: &Turning| t.speed.range.value().map_or(0.0, |range| range.to_rpm);
    let usual = |t: &Turning| {
        let first = t.speed.operations.first().map(|it| it.usual_rpm);
        if t.speed.is_bored() { first.unwrap_or(0.0) } else { t.speed.usual.map_or(0.0, |usual| usual.from_rpm) }
    };
    let share = |t: &Turning| top(t) / usual(t).max(1.0);
    let worse =
        |a: &&Turning, b: &&Turning| speed_verdict(a).cmp(&speed_verdict(b)).then(share(b).total_cmp(&share(a)));
    let Some(worst) = turning.iter().max_by(worse) else {
        return Check::ok(CheckName::Speed, "Nothing is turned.");
    };
    let (name, mut cure) = (design.cut_name(worst.cut), worst.speed.cures.join(" "));
    if cure.is_empty() {
        cure = "Use narrower bits, or hollow it with a tool.".to_owned();
    }
    let sentence = format!("{}: {}", capital(&name), worst.speed.sentence());
    let verdict = speed_verdict(worst);
    let check = if verdict == Verdict::Ok {
        Check::ok(CheckName::Speed, sentence)
    } else {
        Check::fault(CheckName::Speed, verdict, sentence, cure).cured_in(design, fields::axis(design, worst.axis))
    };
    Check { unit: CheckUnit::Rpm, ..check.measured(top(worst), usual(worst)) }
}

fn speed_verdict(turning: &Turning) -> Verdict {
    let speed = &turning.speed;
    match &speed.range {
        // There is nothing to spin, which other checks say.
        Known::Missing { .. } if speed.usual.is_none() => Verdict::Ok,
        // Only the bit turns too fast: a chart from memory, and a tool can do its work.
        Known::Missing { .. } if speed.is_bored() && speed.cures.is_empty() => Verdict::Tight,
        Known::Missing { .. } => Verdict::Stop,
        Known::Value(_) if speed.cures.is_empty() => Verdict::Ok,
        Known::Value(_) => Verdict::Tight,
    }
}
