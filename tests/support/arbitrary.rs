//! Arbitrary designs and shops without problems, of every kind and shape.

use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;
use skewline::design::pattern::{
    BlankOnHand, BoredEndScoop, GroovedHead, HandleEnd, Opening, Outside, RoundBowlScoop, SidedSpindle, Spreader,
    Wanted,
};
use skewline::design::validation::{bounds, largest_bulge_mm};
use skewline::design::{
    AxisChoice, AxisName, Bit, BitKind, Blank, BlankSection, CarrierJaws, Centres, Choices, Chuck, Curve, Cut, Design,
    Duty, EndPlane, Green, Hollow, HollowShape, InUse, Lathe, LengthUnit, LimitChoices, Limits, Making, Measured,
    MeasuredHold, MeasuredWhat, Node, OwnSpecies, Pass, PassProfile, Pattern, Plug, PlugTenon, Printer, Printers,
    Rounding, SawCut, SawPath, SawPoint, Shop, Side, Wood,
};
use skewline::figures::tables::Species;

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

/// Choices for a bored-end scoop that make a sound design.
pub fn bored_end_scoop() -> impl Strategy<Value = BoredEndScoop> {
    let bowl = (20.0..60.0, 20.0..60.0, 0.0..20.0, 1.0..8.0, 1.0..12.0, -0.6..0.6);
    let handle =
        (prop_oneof![1 => Just(0.0), 3 => 0.5..14.0], -360.0..360.0, 20.0..180.0, 8.0..30.0, 8.0..40.0, 80.0..250.0);
    let other = (0_usize..4, any::<[bool; 2]>(), 20.0..120.0, 0.0..1.0, (20.0..50.0, 60.0..100.0, 4.0..20.0));
    (option::of(wanted()), bowl, handle, other).prop_map(
        |(wanted, bowl, handle, (end, [join, arc], side, play, jaws))| BoredEndScoop {
            wanted,
            bore_diameter_mm: bowl.0,
            bore_depth_mm: bowl.1,
            rounding_mm: bowl.2,
            wall_mm: bowl.3,
            floor_mm: bowl.4,
            lip_share: bowl.5,
            outside: if join { Outside::Join } else { Outside::RoundOver },
            tilt_deg: handle.0,
            toward_deg: handle.1,
            crossing_mm: handle.2,
            neck_diameter_mm: handle.3,
            handle_diameter_mm: handle.4,
            handle_mm: handle.5,
            handle_end: HandleEnd::ALL[end],
            opening: if arc { Opening::Arc } else { Opening::Straight },
            plug_play_mm: play,
            blank_side_mm: side,
            chuck: Chuck { jaw_from_mm: jaws.0, jaw_to_mm: jaws.1, jaw_depth_mm: jaws.2, ..Chuck::default() },
        },
    )
}

fn wanted() -> impl Strategy<Value = Wanted> {
    let blank = option::of((20.0..100.0, option::of(100.0..400.0)));
    (1.0e3..1.0e5, blank, any::<[bool; 2]>()).prop_map(|(holds_mm3, blank, [most_tilt, own_bits_only])| Wanted {
        holds_mm3,
        blank: blank.map(|(side_mm, length_mm)| BlankOnHand { side_mm, length_mm }),
        most_tilt,
        own_bits_only,
    })
}

/// Choices of any kind, inside their bounds.
pub fn choices() -> impl Strategy<Value = Choices> {
    let others = select(vec![
        Choices::RoundBowlScoop(RoundBowlScoop::default()),
        Choices::RoundBowlScoop(RoundBowlScoop::straight()),
        Choices::Spreader(Spreader::default()),
        Choices::SidedSpindle(SidedSpindle::default()),
        Choices::GroovedHead(GroovedHead::default()),
    ]);
    let varied = (others, vec(0.85..1.2_f64, 24), vec(0_usize..8, 4)).prop_map(|(mut choices, shares, picks)| {
        for (place, share) in shares.into_iter().enumerate() {
            let bound = choices.look(place).map(|look| look.bound);
            if let Some((number, bound)) = choices.number_mut(place).zip(bound) {
                *number = (*number * share).clamp(bound.from, bound.to);
            }
        }
        for (list, which) in picks.into_iter().enumerate() {
            choices.pick(list, which);
        }
        choices
    });
    prop_oneof![1 => bored_end_scoop().prop_map(Choices::BoredEndScoop), 1 => varied]
}

/// The design of choices, of usual wood.
pub fn design_of(choices: Choices) -> Design {
    match choices {
        Choices::BoredEndScoop(it) => it.design("any"),
        Choices::RoundBowlScoop(it) => it.design("any"),
        Choices::Spreader(it) => it.design("any"),
        Choices::SidedSpindle(it) => it.design("any"),
        Choices::GroovedHead(it) => it.design("any"),
    }
}

/// A pattern with some of its parts made the turner's own.
pub fn pattern() -> impl Strategy<Value = Pattern> {
    (choices(), any::<u64>()).prop_map(|(choices, own)| {
        let parts = choices.made().parts().into_iter().enumerate().filter(|(place, _)| own >> place & 1 == 1);
        let own = parts.map(|(_, part)| part).collect();
        Pattern { choices, own }
    })
}

fn carrier() -> impl Strategy<Value = CarrierJaws> {
    (100.0..400.0, 0.2..1.0, 1.0..300.0, 0.1..10.0).prop_map(|(diameter_mm, share, reach_mm, saw_kerf_mm)| {
        CarrierJaws { diameter_mm, screw_circle_mm: diameter_mm * share, reach_mm, saw_kerf_mm }
    })
}

/// An arbitrary shop without problems.
pub fn shop() -> impl Strategy<Value = Shop> {
    (
        select(vec![LengthUnit::Millimetres, LengthUnit::Inches]),
        select(vec![Rounding::Decimal, Rounding::Sixteenths, Rounding::ThirtySeconds, Rounding::SixtyFourths]),
        vec(bit(), 0..6),
        lathe(),
        (1.0..50.0, 50.0..300.0, 1.0..100.0, 1.0..200.0, 0.5..20.0),
        ((0.0..50.0, 0.0..50.0, 0.0..20.0, 0.0..100.0), carrier()),
        (limits(), vec(own_species(), 0..3), prop::collection::btree_set(20_u32..5000, 0..6)),
    )
        .prop_map(
            |(length_unit, rounding, bits, lathe, chuck, (centres, carrier), (limits, own_species, grits))| Shop {
                length_unit,
                rounding,
                bits,
                lathe,
                chuck: Chuck {
                    jaw_from_mm: chuck.0,
                    jaw_to_mm: chuck.1,
                    jaw_depth_mm: chuck.2,
                    length_mm: chuck.3,
                    overhang_times: chuck.4,
                },
                carrier,
                centres: Centres {
                    drive_diameter_mm: centres.0,
                    live_diameter_mm: centres.1,
                    margin_mm: centres.2,
                    overlap_percent: centres.3,
                },
                limits,
                grits: grits.into_iter().collect(),
                own_species: own_species.into_iter().enumerate().map(|(i, wood)| own_name(i, wood)).collect(),
            },
        )
}

/// Arbitrary printers without problems.
pub fn printers() -> impl Strategy<Value = Printers> {
    let printer = (text(), 50.0..150.0, 50.0..150.0);
    (any::<bool>(), text(), vec(printer, 0..4)).prop_map(|(letter, name, known)| Printers {
        letter,
        name,
        known: (0..)
            .zip(known)
            .map(|(number, (name, across_mm, along_mm))| Printer {
                name: format!("{number} {name}"),
                across_mm,
                along_mm,
            })
            .collect(),
    })
}

fn own_species() -> impl Strategy<Value = OwnSpecies> {
    let percent = || option::of(0.0..40.0);
    (text(), 50.0..2000.0, option::of(1.0..500.0), percent(), percent(), text()).prop_map(
        |(name, density_kg_m3, rupture_mpa, shrink_radial_percent, shrink_tangential_percent, note)| OwnSpecies {
            name,
            density_kg_m3,
            rupture_mpa,
            shrink_radial_percent,
            shrink_tangential_percent,
            note,
        },
    )
}

/// Names of their own, lest two be the same.
fn own_name(index: usize, wood: OwnSpecies) -> OwnSpecies {
    OwnSpecies { name: format!("{index} {}", wood.name), ..wood }
}

/// A profile that covers the range in mm, with steps, arcs and ogees.
pub fn nodes(from_mm: f64, to_mm: f64) -> impl Strategy<Value = Vec<Node>> {
    let inner = vec((0.0..1.0_f64, any::<bool>()), 0..5);
    (inner, vec((0.0..200.0_f64, 0_u8..3, -1.0..1.0_f64), 12)).prop_map(move |(mut inner, shapes)| {
        inner.sort_by(|a, b| a.0.total_cmp(&b.0));
        inner.dedup_by(|a, b| a.0 == b.0);
        let mut stations = vec![from_mm];
        for (share, step) in inner {
            let at_mm = from_mm + (to_mm - from_mm) * share;
            if at_mm > from_mm && at_mm < to_mm {
                stations.extend(std::iter::repeat_n(at_mm, if step { 2 } else { 1 }));
            }
        }
        stations.push(to_mm);
        let mut nodes: Vec<Node> =
            stations.iter().zip(&shapes).map(|(at_mm, shape)| Node::line(*at_mm, shape.0)).collect();
        for index in 1..nodes.len() {
            let (_, kind, share) = shapes[index];
            nodes[index - 1].curve = curve(&nodes[index - 1], &nodes[index], kind, share);
        }
        nodes
    })
}

fn curve(from: &Node, to: &Node, kind: u8, share: f64) -> Curve {
    match kind {
        _ if to.at_mm == from.at_mm => Curve::Line,
        0 => Curve::Line,
        1 => Curve::Ogee,
        _ => {
            // A cove no deeper than the smaller radius cannot reach the axis.
            let smaller = from.diameter_mm.min(to.diameter_mm) / 2.0;
            let largest = largest_bulge_mm(from, to).min(bounds::BULGE.to);
            Curve::Arc { bulge_mm: share * if share < 0.0 { largest.min(smaller) } else { largest } }
        }
    }
}

fn text() -> impl Strategy<Value = String> {
    "\\PC{0,20}"
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

fn cut(blank: Blank, axes: Vec<AxisChoice>) -> impl Strategy<Value = Cut> {
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
type Kin = Option<(prop::sample::Index, Option<f64>)>;

fn kin() -> impl Strategy<Value = Kin> {
    option::weighted(0.3, (any::<prop::sample::Index>(), option::of(0.3..2.0_f64)))
}

/// The cuts with a second hollow beside one of them, if they have one.
fn with_kin(mut cuts: Vec<Cut>, kin: Kin) -> Vec<Cut> {
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
fn plugs_in_turn(cuts: Vec<Cut>) -> Vec<Cut> {
    let mut plugged = false;
    cuts.into_iter()
        .filter(|cut| match cut {
            Cut::FitPlug(_) => !std::mem::replace(&mut plugged, true),
            Cut::TakeOutPlug => std::mem::replace(&mut plugged, false),
            _ => true,
        })
        .collect()
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

/// An arbitrary making without problems.
pub fn making() -> impl Strategy<Value = Making> {
    let date = (1_u32..10_000, 1_u32..13, 1_u32..29).prop_map(|(y, m, d)| format!("{y:04}-{m:02}-{d:02}"));
    let holds = option::of((0.0..5000.0, 0.0..5000.0));
    (date, text(), vec(measured(), 0..6), holds, "\\PC{0,60}", "\\PC{0,60}").prop_map(
        |(date, wood, measured, holds, went_wrong, change_next)| Making {
            date,
            wood,
            measured,
            holds: holds.map(|(planned_ml, measured_ml)| MeasuredHold { planned_ml, measured_ml }),
            went_wrong,
            change_next,
        },
    )
}

fn measured() -> impl Strategy<Value = Measured> {
    let what = select(vec![MeasuredWhat::Wall, MeasuredWhat::Floor, MeasuredWhat::Diameter, MeasuredWhat::Depth]);
    (what, 0_usize..5, -300.0..900.0, -20.0..300.0, 0.0..300.0).prop_map(
        |(what, axis, at_mm, planned_mm, measured_mm)| Measured {
            what,
            axis: AxisName::from_index(axis).unwrap(),
            at_mm,
            planned_mm,
            measured_mm,
        },
    )
}

fn limit_choices() -> impl Strategy<Value = LimitChoices> {
    let limit = || option::of(0.0..50.0);
    (limit(), limit(), limit(), limit()).prop_map(|(wall_mm, floor_mm, finishing_allowance_mm, join_spare_mm)| {
        LimitChoices { wall_mm, floor_mm, finishing_allowance_mm, join_spare_mm }
    })
}

fn bit() -> impl Strategy<Value = Bit> {
    let kind = select(vec![BitKind::Forstner, BitKind::Sawtooth, BitKind::Spade, BitKind::Twist]);
    (kind, 1.0..150.0, 0.0..100.0, 1.0..500.0).prop_map(|(kind, diameter_mm, point_mm, reach_mm)| Bit {
        kind,
        diameter_mm,
        point_mm,
        reach_mm,
    })
}

fn lathe() -> impl Strategy<Value = Lathe> {
    let drilled = (1.0..100.0, 1.0..200.0);
    (200.0..900.0, 1.0..200.0, 100.0..2000.0, 1.0..500.0, 500.0..5000.0, 0.1..500.0, drilled).prop_map(
        |(bed, rest, length, lowest_rpm, highest_rpm, force_limit_n, (largest_bit_mm, drill_chuck_mm))| Lathe {
            swing_over_bed_mm: bed,
            swing_over_rest_mm: rest,
            between_centres_mm: length,
            lowest_rpm,
            highest_rpm,
            force_limit_n,
            largest_bit_mm,
            drill_chuck_mm,
        },
    )
}

fn limits() -> impl Strategy<Value = Limits> {
    vec(0.0..50.0_f64, 9).prop_map(|values| Limits {
        wall_mm: values[0],
        floor_mm: values[1],
        finishing_allowance_mm: values[2],
        scraping_allowance_mm: values[3],
        join_spare_mm: values[4],
        flat_width_mm: values[5],
        bore_depth_mm: values[6] + 1.0,
        out_of_round_mm: values[8],
        usual_error_mm: values[7],
        strength_factor: 1.0 + values[7] / 10.0,
    })
}
