//! What to know of a wood before it touches food, and of its dust.

use super::Timber;
use crate::figures::tables::Species;

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

/// Words of a note that speak of dust or of harm.
const HARM: [&str; 8] = ["dust", "irritat", "asthma", "sensitis", "poison", "toxic", "allerg", "nausea"];

/// Woods outside the table that are widely reported to harm, and how. From memory.
const OTHERS: [(&str, &str); 3] = [
    ("yew", "Yew is poisonous: its dust as well, and it is kept away from food (from memory)."),
    ("iroko", "Iroko is reported to irritate skin and airways (from memory)."),
    ("cocobolo", "Cocobolo is reported to make many people over-sensitive (from memory)."),
];

/// The dust of a wood by name: what the table's and the turner's own notes say of harm, in their own sentences; that
/// it is to be looked up where they say nothing.
pub(super) fn dust(name: &str, timber: Option<&Timber<'_>>) -> Vec<String> {
    let name = name.trim();
    let tabled = Species::named(name).map_or("", |wood| wood.notes);
    let own = timber.map_or("", |wood| wood.note);
    let mut all: Vec<String> = Vec::new();
    for note in [tabled, own] {
        let said: Vec<&str> = sentences(note).filter(|it| speaks_of_harm(it)).collect();
        let line = format!("{name}: {}.{}", said.join(". "), grades(&said.join(" ")));
        if !said.is_empty() && !all.contains(&line) {
            all.push(line);
        }
    }
    let lower = name.to_lowercase();
    let others = OTHERS.iter().filter(|other| lower.split(|c: char| !c.is_alphabetic()).any(|word| word == other.0));
    all.extend(others.map(|other| other.1.to_owned()));
    if all.is_empty() {
        let listed = timber.is_some_and(|wood| IRRITANT.iter().any(|it| it.eq_ignore_ascii_case(wood.name)));
        all.push(if listed { IRRITANT_DUST } else { LOOK_IT_UP }.to_owned());
    }
    all
}

const LOOK_IT_UP: &str = "Some woods irritate or sensitise: look yours up.";

fn sentences(note: &str) -> impl Iterator<Item = &str> {
    note.split(". ").map(|it| it.trim().trim_end_matches('.')).filter(|it| !it.is_empty())
}

fn speaks_of_harm(sentence: &str) -> bool {
    let lower = sentence.to_lowercase();
    HARM.iter().any(|word| lower.contains(word))
}

/// What the grades of carcinogens mean, where a note names them.
fn grades(said: &str) -> &'static str {
    let has = |grade: &str| said.split(|c: char| !c.is_alphanumeric()).any(|word| word == grade);
    match (has("A1"), has("A2")) {
        (true, _) => " A1: shown to cause cancer in people.",
        (_, true) => " A2: suspected of causing cancer in people.",
        _ => "",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_wood_on_the_lists_is_in_the_table() {
        for name in IRRITANT.iter().chain(&STRONG) {
            assert!(Species::named(name).is_some(), "{name}");
        }
    }
}
