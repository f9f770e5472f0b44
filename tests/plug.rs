//! The plug's own tenon: where it is wood, what it adds, and what it never changes.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use proptest::prelude::*;
use skewline::design::starters::{BoredEndScoop, demo};
use skewline::design::{BlankSection, Cut, Design, Plug, PlugTenon, Shop};
use skewline::figures::work_out;
use skewline::form::Field;
use skewline::form::edit::set_plug_tenon;
use skewline::geometry::{Vector, mass};
use skewline::piece::Piece;

fn plug(design: &Design) -> (usize, Plug) {
    let found = design.cuts.iter().enumerate().find_map(|(cut, choice)| match choice {
        Cut::FitPlug(plug) => Some((cut, *plug)),
        _ => None,
    });
    found.unwrap()
}

fn resolved(design: &Design) -> Piece {
    Piece::resolve(design, &design.limits.over(&Shop::default().limits)).unwrap()
}

/// The demonstration scoop with another tenon on its plug.
fn with_tenon(tenon: Option<PlugTenon>) -> Design {
    let mut design = demo();
    for cut in &mut design.cuts {
        if let Cut::FitPlug(plug) = cut {
            plug.tenon = tenon;
        }
    }
    design
}

#[test]
fn the_live_centre_bears_on_the_end_of_the_tenon() {
    let design = with_tenon(Some(PlugTenon { diameter_mm: 50.0, length_mm: 7.0 }));
    let (cut, plug) = plug(&design);
    let piece = resolved(&design);
    assert_eq!(piece.tail_face, -(plug.thickness_mm + 7.0));
    // Wood to its end and its edge, and no farther.
    let state = piece.solid.state(cut + 1);
    let wood = |radius: f64, s: f64| state.contains(Vector::new(radius, 0.0, s));
    assert!(wood(24.9, piece.tail_face + 0.1) && !wood(25.1, piece.tail_face + 0.1));
    assert!(!wood(0.0, piece.tail_face - 0.1) && wood(25.1, 0.1 - plug.thickness_mm));
    // The marks move out to it along their axis.
    let marks = work_out(&design, &Shop::default()).unwrap().figures.marks;
    let expected = (102.0 + plug.thickness_mm + 7.0) * 7.5_f64.to_radians().tan();
    assert!((marks[1].tail.distance_mm - expected).abs() < 1e-9);
}

/// The wood to cut: the blank, and disc, tenon and spigot with 5 mm to part them, when they come out of the blank.
#[test]
fn the_blank_is_longer_by_the_plug_that_is_made_from_it() {
    let mut design = with_tenon(Some(PlugTenon { diameter_mm: 50.0, length_mm: 7.0 }));
    let (cut, plug) = plug(&design);
    let longer = plug.thickness_mm + 7.0 + plug.spigot_length_mm + 5.0;
    assert_eq!(design.length_to_cut_mm(), design.blank.length_mm + longer);
    let figures = work_out(&design, &Shop::default()).unwrap().figures;
    assert_eq!(figures.blank.length_to_cut_mm, design.blank.length_mm + longer);
    // A disc wider than the blank, and one without a tenon, are made from waste.
    *Field::PlugDisc(cut).slot(&mut design).unwrap() = 70.0;
    assert_eq!(design.length_to_cut_mm(), design.blank.length_mm);
    assert_eq!(with_tenon(None).length_to_cut_mm(), design.blank.length_mm);
}

/// The least blank holds the disc of a plug that is made from it, and in the blank to ask for the plug still is.
#[test]
fn the_least_blank_holds_the_plugs_disc() {
    let mut design = demo();
    for cut in &mut design.cuts {
        if let Cut::FitPlug(plug) = cut {
            plug.disc_diameter_mm = 67.0;
        }
    }
    let blank = work_out(&design, &Shop::default()).unwrap().figures.blank;
    assert!(blank.least_square_side_mm >= 67.0 && blank.least_round_diameter_mm >= 67.0, "{blank:?}");
    design.blank.section = BlankSection::Square { side_mm: blank.wanted_mm(&design.blank.section) };
    assert!(design.plug_of_blank().is_some());
    // A disc wider than the blank is made from waste, and asks nothing of it.
    let narrow = BlankSection::Square { side_mm: 66.0 };
    design.blank.section = narrow;
    let blank = work_out(&design, &Shop::default()).unwrap().figures.blank;
    assert!(blank.least_square_side_mm < 66.0, "{blank:?}");
}

#[test]
fn a_tenon_is_no_wider_than_its_disc() {
    let mut design = with_tenon(Some(PlugTenon { diameter_mm: 90.0, length_mm: 0.0 }));
    let problems = design.problems();
    let paths: Vec<&str> = problems.iter().map(|problem| problem.field.as_str()).collect();
    let (cut, _) = plug(&design);
    assert_eq!(paths, [format!("cuts[{cut}].tenon.length_mm"), format!("cuts[{cut}].tenon.diameter_mm")]);
    for has in [false, true] {
        set_plug_tenon(&mut design, cut, has);
        assert_eq!(plug(&design).1.tenon.is_some(), has);
        assert_eq!(design.problems(), vec![]);
    }
}

/// A spigot of another piece once made 632 mL of 604: it is refused, and the sentence says what fits.
#[test]
fn a_spigot_wider_or_longer_than_its_bore_is_refused() {
    let (place, _) = plug(&demo());
    let sentence = |change: fn(&mut Plug)| {
        let mut design = demo();
        for cut in &mut design.cuts {
            if let Cut::FitPlug(plug) = cut {
                change(plug);
            }
        }
        let problems = design.problems();
        assert_eq!(problems.len(), 1, "{problems:?}");
        (problems[0].field.clone(), problems[0].to_string())
    };
    let (field, wider) = sentence(|plug| plug.spigot_diameter_mm = 41.5);
    assert_eq!(field, format!("cuts[{place}].spigot_diameter_mm"));
    assert!(wider.contains("41.5 mm") && wider.contains("more than its bore"), "{wider}");
    let (field, longer) = sentence(|plug| plug.spigot_length_mm = 47.0);
    assert_eq!(field, format!("cuts[{place}].spigot_length_mm"));
    assert!(longer.contains("47 mm") && longer.contains("bore"), "{longer}");
}

/// Documents of earlier versions have no tenon on their plugs.
#[test]
fn a_plug_without_a_tenon_is_read_as_before() {
    let text = r#"{"disc_diameter_mm":50.0,"thickness_mm":12.0,"spigot_diameter_mm":40.0,"spigot_length_mm":9.0}"#;
    let read: Plug = serde_json::from_str(text).unwrap();
    assert_eq!((read.tenon, read.stands_out_mm()), (None, 12.0));
    assert_eq!(serde_json::to_string(&read).unwrap(), text);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Whatever the plug, sound or not, the finished piece is what it is without one.
    #[test]
    fn no_plug_is_in_the_finished_piece(disc in 5.0..120.0_f64, wide in 0.1..3.0_f64, long in 0.0..120.0_f64) {
        let mut design = demo();
        for cut in &mut design.cuts {
            if let Cut::FitPlug(plug) = cut {
                plug.disc_diameter_mm = disc;
                plug.spigot_diameter_mm *= wide;
                plug.spigot_length_mm = long;
            }
        }
        let finished = |design: &Design| mass(&resolved(design).solid.finished());
        let (found, own) = (finished(&design), finished(&demo()));
        prop_assert!((found.volume_mm3 - own.volume_mm3).abs() < 1e-6 * own.volume_mm3);
        prop_assert!((found.centroid - own.centroid).length() < 1e-5);
    }

    /// The swing of every later pass counts the tenon's and the disc's edges, and the finished piece is none the wiser.
    #[test]
    fn the_tenon_swings_and_never_changes_the_piece(
        share in 0.3..1.0_f64, length_mm in 2.0..30.0_f64, tilt_deg in 1.0..9.0_f64, play in 0.0..1.0_f64,
    ) {
        let choices = BoredEndScoop { tilt_deg, plug_play_mm: play, ..BoredEndScoop::default() };
        let mut design = choices.design("any scoop");
        let plain = work_out(&design, &Shop::default()).unwrap().figures;
        let (cut, plug) = plug(&design);
        let diameter_mm = plug.disc_diameter_mm * share;
        if let Cut::FitPlug(it) = &mut design.cuts[cut] {
            it.tenon = Some(PlugTenon { diameter_mm, length_mm });
        }
        let figures = work_out(&design, &Shop::default()).unwrap().figures;
        prop_assert_eq!(figures.summary.piece_ml, plain.summary.piece_ml);
        prop_assert_eq!(figures.summary.wall_min_mm, plain.summary.wall_min_mm);
        let piece = resolved(&design);
        for turning in figures.turning.iter().filter(|it| it.cut > cut) {
            let axis = piece.axis(turning.axis).unwrap();
            let state = piece.solid.state(turning.cut);
            for i in 0..360 {
                let (sin, cos) = f64::from(i).to_radians().sin_cos();
                for (radius, s) in [(diameter_mm / 2.0, piece.tail_face), (plug.disc_diameter_mm / 2.0, -plug.thickness_mm)] {
                    // A hair inside, where earlier passes have left it.
                    let point = Vector::new((radius - 1e-3) * sin, (radius - 1e-3) * cos, s + 1e-3);
                    if state.contains(point) {
                        let seen = axis.see(point);
                        let reach = seen.right.hypot(seen.up);
                        prop_assert!(turning.swing.radius_mm >= reach - 0.02, "{} < {}", turning.swing.radius_mm, reach);
                    }
                }
            }
        }
    }
}
