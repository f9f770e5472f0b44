//! A spreader from what is wanted: as wanted with every check ok, or the sentence with numbers and the nearest that work.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use skewline::design::pattern::{GroovedHead, SidedSpindle, Spreader};
use skewline::design::{Design, Shop};
use skewline::figures::checks::{CheckName, Verdict};
use skewline::figures::work_out;
use skewline::finding::{BlankOnHand, FoundSpreader, SpreaderWants, cures_at_once, find_spreader};

fn is_as_wanted(found: &FoundSpreader, wants: &SpreaderWants) {
    assert!(found.worked.checks.iter().all(|check| check.verdict == Verdict::Ok), "{}", found.words);
    assert_eq!(found.design.problems(), []);
    let spreader = &found.spreader;
    let has = [spreader.blade_mm, spreader.width_mm, spreader.thickness_mm, spreader.length_mm()];
    let wanted = [wants.blade_mm, wants.width_mm, wants.thickness_mm, wants.length_mm];
    assert!(has.iter().zip(wanted).all(|(a, b)| (a - b).abs() < 1e-9), "{has:?} {wanted:?}");
    assert_eq!(found.design.wood.species, wants.species);
    if let Some(blank) = wants.blank {
        assert!((spreader.blank_side_mm - blank.side_mm).abs() < 1e-9);
        assert!(blank.length_mm.is_none_or(|has| found.design.length_to_cut_mm() <= has));
    }
}

#[test]
fn what_can_be_had_is_found() {
    let (shop, usual) = (Shop::default(), SpreaderWants::usual());
    let blank = Some(BlankOnHand { side_mm: 60.0, length_mm: Some(220.0) });
    for wants in [
        usual.clone(),
        SpreaderWants { blank, ..usual.clone() },
        SpreaderWants { width_mm: 36.0, thickness_mm: 15.0, species: "Black cherry".to_owned(), ..usual.clone() },
        SpreaderWants { blade_mm: 40.0, width_mm: 26.0, thickness_mm: 13.5, length_mm: 190.0, ..usual.clone() },
    ] {
        let found = find_spreader(&wants, &shop).unwrap_or_else(|why| panic!("{wants:?}: {}", why.sentence));
        is_as_wanted(&found, &wants);
        if wants == usual {
            let again = find_spreader(&wants, &shop).unwrap();
            assert_eq!((again.words, again.design), (found.words.clone(), found.design.clone()));
        }
        if wants.blank.is_none() {
            // No smaller blank does.
            let smaller = BlankOnHand { side_mm: found.spreader.blank_side_mm - 2.0, length_mm: None };
            let smaller = SpreaderWants { blank: Some(smaller), ..wants.clone() };
            assert!(find_spreader(&smaller, &shop).is_err(), "{}", found.words);
        }
    }
}

/// Each of the nearest gives up one want, and as little of it as goes: a step nearer there is none.
#[test]
fn what_cannot_be_had_is_told_with_the_nearest() {
    let (shop, usual) = (Shop::default(), SpreaderWants::usual());
    let small = Some(BlankOnHand { side_mm: 40.0, length_mm: None });
    let short = Some(BlankOnHand { side_mm: 60.0, length_mm: Some(150.0) });
    for (wants, word, least) in [
        (SpreaderWants { thickness_mm: 10.0, ..usual.clone() }, "Strength while turning", 1),
        (SpreaderWants { blank: small, ..usual.clone() }, "Drive centre", 1),
        (SpreaderWants { blank: short, ..usual.clone() }, "long", 2),
        (SpreaderWants { length_mm: 90.0, ..usual.clone() }, "for the handle", 0),
    ] {
        let why = find_spreader(&wants, &shop).unwrap_err();
        assert!(why.sentence.contains(word) && why.sentence.ends_with('.'), "{}", why.sentence);
        assert!(why.instead.len() >= least, "{}: {:?}", why.sentence, why.instead.len());
        for offer in &why.instead {
            let spreader = &offer.spreader;
            let has = SpreaderWants {
                blade_mm: spreader.blade_mm,
                width_mm: spreader.width_mm,
                thickness_mm: spreader.thickness_mm,
                length_mm: spreader.length_mm(),
                blank: wants.blank.filter(|it| it.side_mm == spreader.blank_side_mm),
                ..wants.clone()
            };
            is_as_wanted(offer, &has);
            let given_up = [
                has.blade_mm != wants.blade_mm && has.length_mm == wants.length_mm,
                has.width_mm != wants.width_mm,
                has.thickness_mm != wants.thickness_mm,
                has.length_mm != wants.length_mm,
                has.blank != wants.blank,
            ];
            assert_eq!(given_up.iter().filter(|it| **it).count(), 1, "{}", offer.words);
        }
        if let Some(thicker) = why.instead.iter().find(|offer| offer.spreader.thickness_mm > wants.thickness_mm) {
            let nearer = SpreaderWants { thickness_mm: thicker.spreader.thickness_mm - 0.5, ..wants.clone() };
            assert!(find_spreader(&nearer, &shop).is_err(), "{}", thicker.words);
        }
    }
}

/// Choices of these kinds are tried as cures like those of a scoop: the check is ok after each, and no other is worse.
#[test]
fn what_stops_is_cured_by_the_choices() {
    let thin = Spreader { thickness_mm: 11.5, tip_thickness_mm: 11.0, ..Spreader::default() }.design("thin");
    let spindle = SidedSpindle { blank_side_mm: 48.0, ..SidedSpindle::default() }.design("spindle");
    let mut neck = GroovedHead::default();
    neck.handle.neck_diameter_mm = 8.0;
    for (design, name) in [
        (thin, CheckName::WasteStrength),
        (spindle, CheckName::DriveCentre),
        (neck.design("neck"), CheckName::NeckStrength),
    ] {
        let verdict = |design: &Design, name: CheckName| {
            let worked = work_out(design, &Shop::default()).unwrap();
            worked.checks.iter().filter(|check| check.name == name).map(|check| check.verdict).max().unwrap()
        };
        assert_ne!(verdict(&design, name), Verdict::Ok, "{}", design.name);
        let cures = cures_at_once(&design, &Shop::default(), name);
        let first = cures.found.first().unwrap_or_else(|| panic!("{}: {}", design.name, cures.why_none));
        assert_eq!(verdict(&first.design, name), Verdict::Ok, "{}", first.words);
    }
}
