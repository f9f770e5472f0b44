//! Facings, partings and the saw cut of a bore that may be added.

use super::chuck::in_chuck;
use super::hollows::bore;
use super::kin::{All, Kin};
use super::tenths::to_tenth;
use crate::design::tenon::is_tenon;
use crate::design::{AxisName, Cut, EndPlane, SawCut, SawPath, SawPoint, Side};
use crate::form::parts::Addition;
use crate::form::parts::bodies::Bench;

const PLUGGED: &str = "The plug stands there.";
/// What is faced off a bowl end, and left at the other, in mm.
const FACED_MM: f64 = 1.0;
const LEFT_MM: f64 = 5.0;
/// A saw line over the bore: where it starts as a share of its radius, and where it ends as a share of its depth.
const SAW_FROM: f64 = 0.1;
const SAW_TO: f64 = 0.95;

pub(super) fn all(bench: Bench<'_>, all: &mut All) {
    let design = bench.design;
    let cuts = &design.cuts;
    let mut add =
        |label: &str, addition: Result<Addition, &'static str>| all.push((Kin::End, label.to_owned(), addition));
    let one = |place: usize, cut: Cut| Ok(Addition { cuts: vec![(place, cut)], ..Addition::default() });
    let is_hollow = |cut: &Cut| matches!(cut, Cut::Hollow(hollow) if hollow.axis == AxisName::A);
    let of_side = |cut: &Cut, side: Side| matches!(cut, Cut::Face(plane) | Cut::Part(plane) if plane.removes == side);
    let sawn = cuts.iter().position(|cut| matches!(cut, Cut::Saw(_))).unwrap_or(cuts.len());
    let plane = |at_mm: f64, removes: Side| EndPlane { axis: AxisName::A, at_mm: to_tenth(at_mm), removes };
    if !cuts.iter().any(|cut| of_side(cut, Side::Tail)) {
        let face = Cut::Face(plane(FACED_MM, Side::Tail));
        let has_plug = cuts.iter().any(|cut| matches!(cut, Cut::FitPlug(_)));
        add("Face the bowl end", if has_plug { Err(PLUGGED) } else { in_chuck(bench, sawn, face) });
        if !cuts.iter().any(is_hollow) {
            add("Part off at the tail end", one(sawn, Cut::Part(plane(LEFT_MM, Side::Tail))));
        }
    }
    if !cuts.iter().any(|cut| of_side(cut, Side::Head)) {
        let passes = || (0..cuts.len()).filter(|cut| matches!(cuts[*cut], Cut::Pass(_)));
        let tenon_mm = passes().filter(|cut| is_tenon(design, *cut)).filter_map(|cut| match &cuts[cut] {
            Cut::Pass(pass) => Some(pass.from_mm),
            _ => None,
        });
        let end_mm = tenon_mm.fold(design.blank.length_mm, f64::min) - LEFT_MM;
        add("Part off at the head end", one(sawn, Cut::Part(plane(end_mm, Side::Head))));
    }
    if let Some((diameter_mm, depth_mm, _)) = bore(design).filter(|_| sawn == cuts.len()) {
        let from = SawPoint { at_mm: 0.0, height_mm: to_tenth(diameter_mm / 2.0 * SAW_FROM) };
        let to = SawPoint { at_mm: to_tenth(depth_mm * SAW_TO), height_mm: to_tenth(bench.half_mm() + LEFT_MM) };
        let path = SawPath::Lines { points: vec![from, to] };
        add("A saw cut that opens the bore", one(cuts.len(), Cut::Saw(SawCut { path })));
    }
}
