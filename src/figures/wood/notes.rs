//! What to know of a wood before it touches food, and of its dust.

use super::Timber;

/// Woods whose dust is reported to irritate, to make some people over-sensitive, or worse: the notes of the table of
/// species (ACGIH categories as given on an OSHA chemical sampling page), and from memory.
const IRRITANT: [&str; 17] = [
    "White ash",
    "American beech",
    "European beech",
    "Paper birch",
    "Sweet birch",
    "Yellow birch",
    "Black locust",
    "Northern red oak",
    "White oak",
    "Sassafras",
    "Black walnut",
    "Western redcedar",
    "Mahogany (bigleaf, true)",
    "African mahogany",
    "Teak",
    "Sapele",
    "Olive",
];

/// Woods that smell or taste strongly. Common practice, no source.
const STRONG: [&str; 8] = [
    "Sassafras",
    "Alaska yellow-cedar",
    "Port-Orford-cedar",
    "Incense-cedar",
    "Western redcedar",
    "Eastern redcedar",
    "Douglas-fir (coast)",
    "Eastern white pine",
];

const ANY_DUST: &str =
    "Fine dust of any wood harms the lungs: take it off at the source and wear a mask. Check for your own case.";
const IRRITANT_DUST: &str =
    "Its dust is reported to irritate, or to be harmful beyond that of other woods. Check for your own case.";
const OPEN_PORES: &str = "Its open pores hold food and water; for wet food closer woods are usual (common practice). Check for your own case.";
const TASTE: &str = "It may taint food with its smell or taste (common practice). Check for your own case.";
const FOOD: &str =
    "Few woods are tested for food; some people react to any of them (common practice). Check for your own case.";

/// Cautions for a wood, each to be checked for one's own case.
pub(super) fn cautions(timber: Option<&Timber<'_>>) -> Vec<&'static str> {
    let listed =
        |names: &[&str]| timber.is_some_and(|wood| names.iter().any(|name| wood.name.eq_ignore_ascii_case(name)));
    let open = timber.is_some_and(|wood| wood.porosity.ends_with("ring"));
    let mut all = vec![FOOD];
    if open {
        all.push(OPEN_PORES);
    }
    if listed(&STRONG) {
        all.push(TASTE);
    }
    all.push(if listed(&IRRITANT) { IRRITANT_DUST } else { ANY_DUST });
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figures::tables::Species;

    #[test]
    fn every_wood_on_the_lists_is_in_the_table() {
        for name in IRRITANT.iter().chain(&STRONG) {
            assert!(Species::named(name).is_some(), "{name}");
        }
    }
}
