//! Arbitrary designs and shops without problems, of every kind and shape.

mod cuts;
mod making;
mod pattern;
mod profile;
mod shop;
mod text;

use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;
use skewline::design::{AxisChoice, Blank, BlankSection, Cut, Design, Duty, Green, InUse, LimitChoices, Wood};
use skewline::figures::tables::Species;

use cuts::{cut, kin, plugs_in_turn, with_kin};
pub use making::making;
pub use pattern::{bored_end_scoop, choices, design_of, pattern};
pub use profile::nodes;
pub use shop::{printers, shop};
use text::text;

/// An arbitrary design without problems: up to 4 axes, up to 8 cuts.
pub fn design() -> impl Strategy<Value = Design> {
    (blank(), 0_usize..5)
        .prop_flat_map(|(blank, axes)| (Just(blank), vec(axis(blank), axes)))
        .prop_flat_map(|(blank, axes)| {
            let cuts = (vec(cut(blank, axes.clone()), 0..8), kin());
            let cuts = cuts.prop_map(|(cuts, kin)| plugs_in_turn(with_kin(cuts, kin)));
            let use_of_it = (text(), select(vec![Duty::Light, Duty::Ordinary, Duty::Heavy]));
            let kept = (limit_choices(), vec(text(), 0..4), vec(making(), 0..3));
            (text(), "\\PC{0,60}", wood(), Just(blank), Just(axes), cuts, use_of_it, (kept, option::of(pattern())))
        })
        .prop_map(|(name, notes, wood, blank, axes, cuts, (contents, duty), ((limits, done, log), pattern))| {
            plugs_that_fit(Design {
                name,
                notes,
                wood,
                blank,
                axes,
                cuts,
                contents,
                duty,
                limits,
                done,
                log,
                pattern,
                off: Vec::new(),
            })
        })
}

fn wood() -> impl Strategy<Value = Wood> {
    let known = (0.0..200.0).prop_map(|moisture_percent| InUse::Moisture { moisture_percent });
    let air = (-1.0..60.0, 0.0..98.0)
        .prop_map(|(temperature_c, humidity_percent)| InUse::Air { temperature_c, humidity_percent });
    let species = prop_oneof![text(), select(Species::all().map(|wood| wood.name.to_owned()).collect::<Vec<_>>())];
    let green = select(vec![Green::Unsaid, Green::RoughFirst, Green::LeftOval]);
    (species, 0.0..200.0, prop_oneof![known, air], green).prop_map(|(species, moisture_percent, in_use, green)| Wood {
        species,
        moisture_percent,
        in_use,
        green,
    })
}

fn blank() -> impl Strategy<Value = Blank> {
    (any::<bool>(), 5.0..500.0, 10.0..2000.0).prop_map(|(square, width, length_mm)| Blank {
        section: match square {
            true => BlankSection::Square { side_mm: width },
            false => BlankSection::Round { diameter_mm: width },
        },
        length_mm,
    })
}

fn axis(blank: Blank) -> impl Strategy<Value = AxisChoice> {
    // Marks this close tilt an axis by less than 60 degrees, however they lie.
    let mark = || -0.6 * blank.length_mm.min(800.0)..0.6 * blank.length_mm.min(800.0);
    prop_oneof![
        (mark(), mark(), 0.0..0.5, 0.0..0.5).prop_map(|(tail_x_mm, tail_y_mm, right, up)| AxisChoice::Marks {
            tail_x_mm,
            tail_y_mm,
            head_x_mm: tail_x_mm * right,
            head_y_mm: tail_y_mm * up,
        }),
        (0.0..60.0, -360.0..360.0, -500.0..2500.0).prop_map(|(tilt_deg, toward_deg, crossing_mm)| AxisChoice::Tilt {
            tilt_deg,
            toward_deg,
            crossing_mm
        }),
        (0.0..blank.length_mm, -360.0..360.0)
            .prop_map(|(station_mm, from_deg)| AxisChoice::Across { station_mm, from_deg }),
    ]
}

/// Gives a plug that its bore would not take no spigot.
fn plugs_that_fit(mut design: Design) -> Design {
    let problems = design.problems();
    for (index, cut) in design.cuts.iter_mut().enumerate() {
        let spigot = format!("cuts[{index}].spigot");
        if let Cut::FitPlug(plug) = cut
            && problems.iter().any(|problem| problem.field.starts_with(&spigot))
        {
            plug.spigot_length_mm = 0.0;
        }
    }
    design
}

fn limit_choices() -> impl Strategy<Value = LimitChoices> {
    let limit = || option::of(0.0..50.0);
    (limit(), limit(), limit(), limit()).prop_map(|(wall_mm, floor_mm, finishing_allowance_mm, join_spare_mm)| {
        LimitChoices { wall_mm, floor_mm, finishing_allowance_mm, join_spare_mm }
    })
}
