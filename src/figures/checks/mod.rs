//! Named checks of a design: each with its number, limit, place, a sentence and a cure.

mod centring;
mod check;
mod fields;
mod holding;
mod hollow;
mod jaws;
mod spinning;
mod strong;
mod turning;
mod use_of_it;

pub use check::{BROKEN_THROUGH, Check, CheckName, CheckUnit, Verdict, Words};

use super::report::Figures;
use crate::design::{Design, Shop};
use crate::geometry::Mass;
use crate::geometry::line::order::sort_by_number_falling;
use crate::piece::Piece;

/// Every check, the worst first; among equals, in the order of the work.
#[must_use]
pub fn checks(design: &Design, piece: &Piece, shop: &Shop, figures: &Figures, finished: &Mass) -> Vec<Check> {
    let words = Words::of(shop);
    let limits = design.limits.over(&shop.limits);
    let mut all = hollow::checks(design, figures, &limits, words);
    all.push(turning::join(design, piece, &figures.joins, words));
    all.push(turning::shoulder(design, figures, &limits, words));
    all.push(turning::fin(design, &figures.fins, words));
    all.push(turning::rough_end(design, figures.rough_ends.first(), words));
    all.push(turning::flats(design, &figures.clean_ups, &figures.blank, limits.flat_width_mm, words));
    all.extend(turning::centres(design, &figures.marks, shop, words));
    all.push(turning::ends(design, piece));
    all.extend(holding::checks(design, piece, figures, shop, words));
    all.push(centring::carries(&figures.carried));
    all.push(centring::plug(design, &figures.carried, shop.centres.margin_mm, words));
    all.push(centring::marks(design, &figures.marks_apart, words));
    all.extend(strong::checks(design, &figures.strength, &limits, words));
    all.extend(spinning::checks(design, &figures.turning, shop, words));
    all.extend(jaws::checks(design, &figures.jaws, words));
    all.push(use_of_it::blank(design, figures, words));
    all.push(use_of_it::moisture(design, figures, limits.out_of_round_mm, words));
    all.extend(use_of_it::not_held(figures));
    if let Some(hold) = figures.hold.value() {
        all.extend(use_of_it::as_it_lies(design, hold));
        all.extend(use_of_it::tips(design, figures, hold, finished));
    }
    sort_by_number_falling(&mut all, |check| f64::from(check.verdict as u8));
    all
}

/// The checks that stop, by name: what every print begins with. `None` when none stops.
#[must_use]
pub fn stops_by_name(checks: &[Check]) -> Option<String> {
    let mut names: Vec<&str> = Vec::new();
    for title in checks.iter().filter(|check| check.verdict == Verdict::Stop).map(|check| check.name.title()) {
        if !names.contains(&title) {
            names.push(title);
        }
    }
    let more = names.len().saturating_sub(MOST_NAMED);
    names.truncate(MOST_NAMED);
    let more = if more > 0 { format!(" and {more} more") } else { String::new() };
    (!names.is_empty()).then(|| format!("{}{more}", names.join(", ")))
}

/// How many checks are named in one line.
const MOST_NAMED: usize = 5;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stops_are_named_once_and_in_their_order() {
        let stop = |name| Check::fault(name, Verdict::Stop, "found", "cure");
        let tight = Check::fault(CheckName::Fin, Verdict::Tight, "found", "cure");
        let mut checks = vec![stop(CheckName::Wall), stop(CheckName::Swing), stop(CheckName::Wall), tight];
        assert_eq!(stops_by_name(&checks).as_deref(), Some("Wall, Swing"));
        checks.extend([CheckName::Floor, CheckName::Join, CheckName::Flats, CheckName::Opening].map(stop));
        assert_eq!(
            stops_by_name(&checks).as_deref(),
            Some("Wall, Swing, Floor, Wood left for the next axis, Flats and 1 more")
        );
        assert_eq!(stops_by_name(&[]), None);
    }
}
