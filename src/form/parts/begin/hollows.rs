//! Hollows that may be added, and the plug of a bore.

use super::along::place_of_pass;
use super::chuck::{in_chuck, is_moved};
use super::kin::{All, Kin, MOVED_ALREADY, NO_WOOD};
use super::tenths::to_tenth;
use crate::design::{AxisChoice, AxisName, Cut, Design, Hollow, HollowShape, Plug, SawCut, SawPath, SawPoint};
use crate::form::parts::Addition;
use crate::form::parts::axes::letter;
use crate::form::parts::bodies::Bench;
use crate::geometry::Axis;

/// A bore over the outside's diameter, the deepest in mm, and the longest as a share of the blank.
const BORE_DEEPEST_MM: f64 = 50.0;
const BORE_LONGEST: f64 = 0.3;
const BORE_NARROWEST_MM: f64 = 6.0;
/// Wood wanted beside a new hollow, in walls: it is shaped yet.
const WALLS: f64 = 1.5;
/// A cross hollow over the radius of the wood: its own radius, and how far before the axis and past it it reaches.
const CUP_RADIUS: f64 = 0.7;
const CUP_BEFORE: f64 = 0.3;
const CUP_PAST: f64 = 0.65;
/// Half the length that is sawn to open it, over that radius.
const CUP_OPEN: f64 = 0.75;
const CUP_LEAST_MM: f64 = 8.0;
/// A plug: its play in the bore, its disc beyond it, its thickness and the most of its spigot, in mm.
const PLUG_PLAY_MM: f64 = 0.2;
const PLUG_SHOULDER_MM: f64 = 5.0;
const PLUG_THICKNESS_MM: f64 = 10.0;
const SPIGOT_LONGEST_MM: f64 = 12.0;

/// The round-ended bore that is open at the bowl end: its diameter, its depth and its rounding, in mm.
pub(super) fn bore(design: &Design) -> Option<(f64, f64, f64)> {
    design.cuts.iter().find_map(|cut| match cut {
        Cut::Hollow(Hollow {
            axis: AxisName::A,
            shape: HollowShape::RoundEnded { diameter_mm, depth_mm, rounding_mm },
            ..
        }) => Some((*diameter_mm, *depth_mm, *rounding_mm)),
        _ => None,
    })
}

pub(super) fn all(bench: Bench<'_>, all: &mut All) {
    let design = bench.design;
    let mut add = |label: &str, addition| all.push((Kin::Hollow, label.to_owned(), addition));
    let depth_mm = to_tenth((design.blank.length_mm * BORE_LONGEST).min(BORE_DEEPEST_MM));
    let bored = design.cuts.iter().any(|cut| matches!(cut, Cut::Hollow(hollow) if hollow.axis == AxisName::A));
    let wood_mm = bench.least_mm(&Axis::A, 1.0, depth_mm) - WALLS * bench.wall_mm();
    if !bored {
        let diameter_mm = to_tenth(2.0 * wood_mm);
        let rounding_mm = to_tenth(diameter_mm / 4.0).min(depth_mm);
        let shape = HollowShape::RoundEnded { diameter_mm, depth_mm, rounding_mm };
        let cut = Cut::Hollow(Hollow { axis: AxisName::A, mouth_mm: 0.0, shape });
        let addition = match () {
            () if is_moved(design) => Err(MOVED_ALREADY),
            () if diameter_mm < BORE_NARROWEST_MM => Err(NO_WOOD),
            () => in_chuck(bench, place_of_hollow(design), cut),
        };
        add("A bore from the bowl end", addition);
    }
    add("A hollow across the grain, here", cup(bench));
    let has_plug = design.cuts.iter().any(|cut| matches!(cut, Cut::FitPlug(_)));
    if let Some((diameter_mm, depth_mm, rounding_mm)) = bore(design).filter(|_| !has_plug) {
        let plug = Plug {
            disc_diameter_mm: to_tenth((diameter_mm + 2.0 * PLUG_SHOULDER_MM).min(2.0 * bench.half_mm())),
            thickness_mm: PLUG_THICKNESS_MM,
            spigot_diameter_mm: diameter_mm - PLUG_PLAY_MM,
            spigot_length_mm: SPIGOT_LONGEST_MM.min((depth_mm - rounding_mm) * 0.8),
            tenon: None,
        };
        let last = |what: fn(&Cut) -> bool| design.cuts.iter().rposition(what).map_or(0, |place| place + 1);
        let fit = last(|cut| matches!(cut, Cut::Hollow(_)));
        let out = last(|cut| matches!(cut, Cut::Pass(_))).max(fit) + 1;
        let cuts = vec![(fit, Cut::FitPlug(plug)), (out, Cut::TakeOutPlug)];
        add("A plug in the bore", Ok(Addition { cuts, ..Addition::default() }));
    }
}

/// After every hollow, else before the first pass that is no tenon and not on axis A, else after the last pass.
fn place_of_hollow(design: &Design) -> usize {
    let last = design.cuts.iter().rposition(|cut| matches!(cut, Cut::Hollow(_))).map(|place| place + 1);
    let moved = || design.cuts.iter().position(|cut| matches!(cut, Cut::Pass(pass) if pass.axis != AxisName::A));
    last.or_else(moved).unwrap_or_else(|| place_of_pass(design, AxisName::A))
}

const TOO_LONG: &str = "Turned across, the piece is too long for your lathe.";

/// A cup hollowed across the grain, and the saw cut that opens it, where the section is looked at, about an axis there or a new one.
fn cup(bench: Bench<'_>) -> Result<Addition, &'static str> {
    let design = bench.design;
    let at_mm = to_tenth(bench.here_mm);
    let radius_mm = bench.radius_mm(&Axis::A, at_mm);
    if radius_mm < CUP_LEAST_MM || radius_mm * (1.0 - CUP_RADIUS) < bench.wall_mm() {
        return Err(NO_WOOD);
    }
    let reach_mm = at_mm.max(design.blank.length_mm - at_mm).hypot(bench.half_mm());
    if 2.0 * reach_mm > bench.shop.lathe.swing_over_bed_mm {
        return Err(TOO_LONG);
    }
    let here =
        |axis: &AxisChoice| matches!(axis, AxisChoice::Across { station_mm, .. } if (station_mm - at_mm).abs() < 1.0);
    let there = design.axes.iter().position(here);
    let axis = there.is_none().then_some(AxisChoice::Across { station_mm: at_mm, from_deg: 0.0 });
    let diameter_mm = to_tenth(2.0 * radius_mm * CUP_RADIUS);
    let saw = |at_mm: f64| SawPoint { at_mm: to_tenth(at_mm), height_mm: to_tenth(radius_mm * CUP_BEFORE) };
    let half_mm = radius_mm * CUP_OPEN;
    let path = SawPath::Lines { points: vec![saw(at_mm - half_mm), saw(at_mm + half_mm)] };
    let hollow = Hollow {
        axis: letter(there.unwrap_or(design.axes.len())),
        mouth_mm: -to_tenth(radius_mm * CUP_BEFORE),
        shape: HollowShape::RoundEnded {
            diameter_mm,
            depth_mm: to_tenth(radius_mm * (CUP_BEFORE + CUP_PAST)),
            rounding_mm: diameter_mm / 2.0,
        },
    };
    let cuts = vec![(place_of_hollow(design), Cut::Hollow(hollow)), (design.cuts.len() + 1, Cut::Saw(SawCut { path }))];
    Ok(Addition { axis, cuts, together_with: None })
}
