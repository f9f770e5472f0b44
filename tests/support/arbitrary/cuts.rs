//! Arbitrary cuts, and lists of them in which plugs come and go in turn.

use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use skewline::design::validation::largest_bulge_mm;
use skewline::design::{
    AxisChoice, AxisName, Blank, BlankSection, Cut, EndPlane, Hollow, HollowShape, Node, Pass, PassProfile, Plug,
    PlugTenon, SawCut, SawPath, SawPoint, Side,
};

use super::profile::nodes;
use super::text::text;

pub(super) fn cut(blank: Blank, axes: Vec<AxisChoice>) -> impl Strategy<Value = Cut> {
    let names = 0..=axes.len();
    let name = move || names.clone().prop_map(|index| AxisName::from_index(index).unwrap());
    let plane = |name| {
        (name, -500.0..2500.0, any::<bool>()).prop_map(|(axis, at_mm, tail)| EndPlane {
            axis,
            at_mm,
            removes: if tail { Side::Tail } else { Side::Head },
        })
    };
    prop_oneof![
        3 => (text(), name(), -300.0..900.0, 1.0..900.0).prop_flat_map(pass),
        2 => name().prop_flat_map(move |name| hollow(blank, &axes, name)),
        1 => plug_numbers().prop_map(|((disc, thickness, spigot, length), tenon)| {
            Cut::FitPlug(Plug {
                disc_diameter_mm: disc,
                thickness_mm: thickness,
                spigot_diameter_mm: spigot,
                spigot_length_mm: length,
                tenon: tenon.map(|(share, length_mm)| PlugTenon { diameter_mm: disc * share, length_mm }),
            })
        }),
        1 => Just(Cut::TakeOutPlug),
        2 => saw(),
        1 => plane(name()).prop_map(Cut::Face),
        1 => plane(name()).prop_map(Cut::Part),
    ]
}

type PlugNumbers = ((f64, f64, f64, f64), Option<(f64, f64)>);

/// A plug's disc, thickness, spigot and its length, in mm; its tenon's share of the disc's diameter and its length.
fn plug_numbers() -> impl Strategy<Value = PlugNumbers> {
    ((20.0..300.0, 1.0..100.0, 1.0..20.0, 0.0..90.0), option::of((0.1..=1.0, 1.0..50.0)))
}

fn pass((name, axis, from_mm, length_mm): (String, AxisName, f64, f64)) -> impl Strategy<Value = Cut> {
    let to_mm = from_mm + length_mm;
    let profile =
        prop_oneof![nodes(from_mm, to_mm).prop_map(|nodes| PassProfile::Drawn { nodes }), Just(PassProfile::Join)];
    let shapes = option::weighted(0.3, "[ab]");
    (profile, shapes).prop_map(move |(profile, shapes)| {
        Cut::Pass(Pass { name: name.clone(), axis, from_mm, to_mm, profile, shapes })
    })
}

fn hollow(blank: Blank, axes: &[AxisChoice], axis: AxisName) -> impl Strategy<Value = Cut> + use<> {
    let across = axis.index().checked_sub(1).is_some_and(|index| matches!(axes[index], AxisChoice::Across { .. }));
    let half = match blank.section {
        BlankSection::Square { side_mm: width } | BlankSection::Round { diameter_mm: width } => width / 2.0,
    };
    let mouth = if across { -half..0.0 } else { -300.0..900.0 };
    let round_ended = (2.0..400.0, 1.0..500.0, 0.0..1.0).prop_map(|(diameter_mm, depth_mm, share): (f64, f64, f64)| {
        HollowShape::RoundEnded {
            diameter_mm,
            depth_mm,
            rounding_mm: share * depth_mm.min(diameter_mm / 2.0).min(200.0),
        }
    });
    let drawn =
        (1.0..500.0_f64).prop_flat_map(|depth| nodes(0.0, depth)).prop_map(|nodes| HollowShape::Drawn { nodes });
    (mouth, prop_oneof![round_ended, drawn])
        .prop_map(move |(mouth_mm, shape)| Cut::Hollow(Hollow { axis, mouth_mm, shape }))
}

/// Which hollow is made again, if any: as it is, or round-ended from the same mouth, as wide, and this many times as deep.
pub(super) type Kin = Option<(prop::sample::Index, Option<f64>)>;

pub(super) fn kin() -> impl Strategy<Value = Kin> {
    option::weighted(0.3, (any::<prop::sample::Index>(), option::of(0.3..2.0_f64)))
}

/// The cuts with a second hollow beside one of them, if they have one.
pub(super) fn with_kin(mut cuts: Vec<Cut>, kin: Kin) -> Vec<Cut> {
    let hollows = cuts.iter().filter_map(|cut| match cut {
        Cut::Hollow(hollow) => Some(hollow.clone()),
        _ => None,
    });
    let hollows: Vec<Hollow> = hollows.collect();
    let Some((which, deeper)) = kin.filter(|_| !hollows.is_empty()) else { return cuts };
    let mut again = which.get(&hollows).clone();
    if let Some(share) = deeper {
        let (diameter_mm, depth_mm) = match &again.shape {
            HollowShape::RoundEnded { diameter_mm, depth_mm, .. } => (*diameter_mm, *depth_mm),
            HollowShape::Drawn { nodes } => (nodes[0].diameter_mm, nodes[nodes.len() - 1].at_mm),
        };
        let (diameter_mm, depth_mm) = (diameter_mm.clamp(2.0, 400.0), (share * depth_mm).clamp(1.0, 500.0));
        again.shape = HollowShape::RoundEnded { diameter_mm, depth_mm, rounding_mm: 0.0 };
    }
    cuts.push(Cut::Hollow(again));
    cuts
}

fn saw() -> impl Strategy<Value = Cut> {
    let point = |at_mm, height_mm| SawPoint { at_mm, height_mm };
    let arc = (-100.0..100.0, -100.0..100.0, 1.0..400.0, -100.0..100.0, -1.0..1.0_f64).prop_map(
        move |(at, height, along, rise, share)| {
            // The bulge of a profile between radii is that of a saw line between heights.
            let largest = largest_bulge_mm(&Node::line(0.0, 0.0), &Node::line(along, 2.0 * rise));
            let (from, to) = (point(at, height), point(at + along, height + rise));
            SawPath::Arc { from, to, bulge_mm: share * largest }
        },
    );
    let lines = (-100.0..100.0, vec((0.1..100.0, -200.0..200.0), 2..6)).prop_map(move |(start, steps)| {
        let mut at = start;
        let points = steps
            .iter()
            .map(|(along, height)| {
                at += along;
                point(at, *height)
            })
            .collect();
        SawPath::Lines { points }
    });
    prop_oneof![arc, lines].prop_map(|path| Cut::Saw(SawCut { path }))
}

/// Leaves out a plug that is fitted over another, or taken out when none is in.
pub(super) fn plugs_in_turn(cuts: Vec<Cut>) -> Vec<Cut> {
    let mut plugged = false;
    cuts.into_iter()
        .filter(|cut| match cut {
            Cut::FitPlug(_) => !std::mem::replace(&mut plugged, true),
            Cut::TakeOutPlug => std::mem::replace(&mut plugged, false),
            _ => true,
        })
        .collect()
}
