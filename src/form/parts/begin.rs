//! The parts that may be added, each with a beginning worked out from the piece: passes within the wood, hollows within
//! the outside. The sizes are choices of ours, no source.

use super::apply::{changed, free_name};
use super::axes::letter;
use super::bodies::{Bench, LEAST_RADIUS_MM};
use super::{Addition, Change};
use crate::design::tenon::is_tenon;
use crate::design::{
    AxisChoice, AxisName, Chuck, Cut, Design, EndPlane, Hollow, HollowShape, Node, Pass, PassProfile, Plug, SawCut,
    SawPath, SawPoint, Side,
};
use crate::geometry::Axis;

/// What kind of part is added.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Kin {
    /// An axis.
    Axis,
    /// A pass.
    Pass,
    /// A hollow or a plug.
    Hollow,
    /// A saw cut, a facing or a parting.
    End,
}

impl Kin {
    /// Every kind, in the order of the screen.
    pub const ALL: [Self; 4] = [Self::Axis, Self::Pass, Self::Hollow, Self::End];

    /// Its heading on screen.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Axis => "Axes",
            Self::Pass => "Outside",
            Self::Hollow => "Hollow and plug",
            Self::End => "Ends and opening",
        }
    }
}

/// A part that may be added.
#[derive(Clone, Debug, PartialEq)]
pub struct Beginning {
    /// Which kind.
    pub kin: Kin,
    /// What it is called on screen.
    pub label: String,
    /// The change that adds it, or why it makes no sense on this piece.
    pub change: Result<Change, &'static str>,
}

/// Every part that may be added, and what cannot be with the reason. Each change gives a sound design.
#[must_use]
pub fn beginnings(bench: Bench<'_>) -> Vec<Beginning> {
    let mut all: All = Vec::new();
    axes(bench, &mut all);
    passes(bench, &mut all);
    hollows(bench, &mut all);
    ends(bench, &mut all);
    let sound = |(kin, label, addition): (Kin, String, Result<Addition, &'static str>)| {
        let change = addition.map(Change::Add).and_then(|change| match changed(bench.design, &change) {
            Ok(_) => Ok(change),
            Err(_) => Err(NO_ROOM),
        });
        Beginning { kin, label, change }
    };
    all.into_iter().map(sound).collect()
}

type All = Vec<(Kin, String, Result<Addition, &'static str>)>;

/// Why a part cannot be added.
const NO_ROOM: &str = "The design has as many parts as it may have, or the blank no room for it.";
const NO_WOOD: &str = "There is no wood to spare all round here.";
const MOVED_ALREADY: &str = "It comes before the passes on other axes: switch those off, or take them away, first.";
const NO_TENON: &str = "The chuck would hold it, and there is no tenon.";
const PLUGGED: &str = "The plug stands there.";
const TOO_LONG: &str = "Turned across, the piece is too long for your lathe.";

/// An axis beside A stands off it by this share of half the blank; one that leans does so by so many degrees.
const BESIDE_SHARE: f64 = 0.2;
const LEAN_DEG: f64 = 5.0;
/// Its mark on the head end is no farther from the centre than this share of half the blank.
const LEAN_SHARE: f64 = 0.4;
/// Where a leaning axis crosses A, as a share of the blank's length.
const CROSSING_SHARE: f64 = 0.35;

fn axes(bench: Bench<'_>, all: &mut All) {
    let blank = bench.design.blank;
    let off_mm = to_tenth(bench.half_mm() * BESIDE_SHARE);
    let beside = AxisChoice::Marks { tail_x_mm: 0.0, tail_y_mm: off_mm, head_x_mm: 0.0, head_y_mm: off_mm };
    let crossing_mm = to_tenth(blank.length_mm * CROSSING_SHARE);
    let most_deg = (bench.half_mm() * LEAN_SHARE).atan2(blank.length_mm - crossing_mm).to_degrees();
    let leaning = AxisChoice::Tilt { tilt_deg: to_tenth(most_deg).min(LEAN_DEG), toward_deg: 0.0, crossing_mm };
    let across = AxisChoice::Across { station_mm: to_tenth(bench.here_mm), from_deg: 0.0 };
    for (label, axis) in [("An axis beside A", beside), ("A leaning axis", leaning), ("An axis across, here", across)] {
        all.push((Kin::Axis, label.to_owned(), Ok(Addition { axis: Some(axis), ..Addition::default() })));
    }
}

/// What is left over a round of the blank's own width, in mm, so that no flat stays.
const ROUNDING_OFF_MM: f64 = 1.0;
/// A collar: its width over its diameter, the part of that which swells, its foot over its diameter.
const COLLAR_WIDTH: f64 = 0.5;
const COLLAR_SWELLS: f64 = 0.5;
const COLLAR_FOOT: f64 = 0.85;
/// A groove: its width and its depth over the diameter.
const GROOVE_WIDTH: f64 = 0.2;
const GROOVE_DEPTH: f64 = 0.05;
/// How much narrower a tenon is than the blank, or than the widest that the jaws grip, in mm.
const TENON_SHOULDER_MM: f64 = 4.0;
/// A hook on A: its length over the diameter there, and its end over that.
const HOOK_LENGTH: f64 = 1.2;
const HOOK_END: f64 = 0.5;
/// New passes stay within this share of the wood, so that their circles are whole.
const INSIDE: f64 = 0.98;

/// The radius of a new pass in wood of this radius, in mm: what finishing takes must be there as well.
fn inside(bench: Bench<'_>, radius_mm: f64) -> f64 {
    let limits = bench.design.limits.over(&bench.shop.limits);
    (radius_mm - limits.finishing_allowance_mm).min(radius_mm * INSIDE)
}

fn passes(bench: Bench<'_>, all: &mut All) {
    let design = bench.design;
    let length_mm = design.blank.length_mm;
    let has_pass = |axis: AxisName| design.cuts.iter().any(|cut| matches!(cut, Cut::Pass(pass) if pass.axis == axis));
    let mut add = |label: String, place: usize, cut: Result<Cut, &'static str>, together_with: Option<usize>| {
        let addition = cut.map(|cut| Addition { axis: None, cuts: vec![(place, cut)], together_with });
        all.push((Kin::Pass, label, addition));
    };
    if !has_pass(AxisName::A) {
        let diameter_mm = (2.0 * bench.half_mm() - ROUNDING_OFF_MM).max(1.0);
        let nodes = vec![Node::line(0.0, diameter_mm), Node::line(length_mm, diameter_mm)];
        add("Round the whole blank".into(), 0, Ok(pass(design, "round", AxisName::A, nodes)), None);
    }
    let (axis, t) = bench.outside_here();
    let place = place_of_pass(design, axis).max(bench.after_passes_here());
    let ring = |name: &str, nodes: Option<Vec<Node>>| nodes.map(|nodes| pass(design, name, axis, nodes)).ok_or(NO_WOOD);
    add(format!("A collar here (axis {axis})"), place, ring("collar", collar(bench, axis, t)), None);
    add(format!("A groove here (axis {axis})"), place, ring("groove", groove(bench, axis, t)), None);
    for name in (0..design.axes.len()).map(letter).filter(|name| !has_pass(*name)) {
        let Some(nodes) = along(bench, name) else { continue };
        add(format!("A pass on axis {name}"), place_of_pass(design, name), Ok(pass(design, "side", name, nodes)), None);
    }
    if let Some((handle, nodes)) = hook(bench) {
        let place = place_of_pass(design, AxisName::A).max(handle + 1);
        add("A hook on A".into(), place, Ok(pass(design, "hook", AxisName::A, nodes)), Some(handle));
    }
    if !has_tenon(design) {
        add("A tenon at the head end".into(), 0, tenon(bench).ok_or(MOVED_ALREADY), None);
    }
}

fn has_tenon(design: &Design) -> bool {
    (0..design.cuts.len()).any(|cut| is_tenon(design, cut))
}

/// Whether a pass stands on another axis than A, which is turned after all that the chuck holds.
fn is_moved(design: &Design) -> bool {
    design.cuts.iter().any(|cut| matches!(cut, Cut::Pass(pass) if pass.axis != AxisName::A))
}

/// The cut at a place, with a tenon where it needs one that the design has not.
fn in_chuck(bench: Bench<'_>, place: usize, cut: Cut) -> Result<Addition, &'static str> {
    let tenon = match has_tenon(bench.design) {
        true => None,
        false => Some((0, tenon(bench).ok_or(NO_TENON)?)),
    };
    Ok(Addition { cuts: std::iter::once((place, cut)).chain(tenon).collect(), ..Addition::default() })
}

/// The tenon that the jaws grip, where the design has none.
fn tenon(bench: Bench<'_>) -> Option<Cut> {
    let (design, chuck) = (bench.design, &bench.shop.chuck);
    let length_mm = design.blank.length_mm;
    let widest_mm = 2.0 * bench.half_mm() - TENON_SHOULDER_MM;
    let diameter_mm =
        to_tenth(widest_mm.min(chuck.jaw_to_mm - TENON_SHOULDER_MM).max(chuck.jaw_from_mm).min(widest_mm));
    let from_mm = to_tenth(length_mm - Chuck::tenon_mm(chuck.jaw_depth_mm));
    let nodes = vec![Node::line(from_mm, diameter_mm), Node::line(length_mm, diameter_mm)];
    (!has_tenon(design) && !is_moved(design)).then(|| pass(design, "tenon", AxisName::A, nodes))
}

/// A pass that its nodes cover.
fn pass(design: &Design, name: &str, axis: AxisName, nodes: Vec<Node>) -> Cut {
    let (from_mm, to_mm) = (nodes.first().map_or(0.0, |node| node.at_mm), nodes.last().map_or(0.0, |node| node.at_mm));
    let profile = PassProfile::Drawn { nodes };
    Cut::Pass(Pass { name: free_name(design, name), axis, from_mm, to_mm, profile, shapes: None })
}

/// After the last pass on the same axis, else after the last of all; before what ends the piece.
fn place_of_pass(design: &Design, axis: AxisName) -> usize {
    let last = |of_axis: bool| {
        design.cuts.iter().rposition(|cut| matches!(cut, Cut::Pass(pass) if !of_axis || pass.axis == axis))
    };
    last(true).or_else(|| last(false)).map_or(0, |place| place + 1)
}

/// The outside about an axis at a station, in mm, where there is enough for a pass of this half width.
fn outside(bench: Bench<'_>, axis: &Axis, t: f64, half_width: f64) -> Option<f64> {
    let radius_mm = bench.radius_mm(axis, t);
    let half_mm = radius_mm * half_width;
    let least_mm = inside(bench, bench.least_mm(axis, t - half_mm, t + half_mm));
    (least_mm > LEAST_RADIUS_MM).then_some(least_mm)
}

/// A ring that stands up between two shoulders.
fn collar(bench: Bench<'_>, name: AxisName, t: f64) -> Option<Vec<Node>> {
    let axis = bench.axis(name)?;
    let radius_mm = outside(bench, &axis, t, COLLAR_WIDTH)?;
    let foot_mm = radius_mm * COLLAR_FOOT;
    let (half_mm, swell_mm) = (radius_mm * COLLAR_WIDTH, radius_mm * COLLAR_WIDTH * COLLAR_SWELLS);
    let stations = [t - half_mm, t - swell_mm, t + swell_mm, t + half_mm];
    if !stations.iter().all(|at| bench.keeps_wall(&axis, *at, foot_mm)) {
        return None;
    }
    let bulge_mm = (radius_mm - foot_mm).min(swell_mm * 0.9);
    let nodes = stations.map(|at| Node::line(to_hundredth(at), to_hundredth(2.0 * foot_mm)));
    let mut nodes = nodes.to_vec();
    nodes[1] = Node::arc(nodes[1].at_mm, nodes[1].diameter_mm, to_hundredth(bulge_mm));
    Some(nodes)
}

/// A cove all round.
fn groove(bench: Bench<'_>, name: AxisName, t: f64) -> Option<Vec<Node>> {
    let axis = bench.axis(name)?;
    let radius_mm = outside(bench, &axis, t, GROOVE_WIDTH)?;
    let (half_mm, depth_mm) = (radius_mm * GROOVE_WIDTH, 2.0 * radius_mm * GROOVE_DEPTH);
    if !bench.keeps_wall(&axis, t, radius_mm - depth_mm) {
        return None;
    }
    let (from, to) = (to_hundredth(t - half_mm), to_hundredth(t + half_mm));
    let diameter_mm = to_hundredth(2.0 * radius_mm);
    Some(vec![Node::arc(from, diameter_mm, -to_hundredth(depth_mm)), Node::line(to, diameter_mm)])
}

/// Along the wood about an axis: within it on one that leans; on one beside A as far from it as the wood is from A, so
/// that it turns a side.
fn along(bench: Bench<'_>, name: AxisName) -> Option<Vec<Node>> {
    let axis = bench.axis(name).filter(Axis::is_lengthwise)?;
    let room = bench.stretch(&axis)?;
    let is_beside = (axis.along() - Axis::A.along()).length() < 1e-9;
    let off_mm = axis.origin().x.hypot(axis.origin().y);
    let radius_mm = if is_beside { room.radius_mm + off_mm } else { inside(bench, room.radius_mm) };
    let middle_mm = f64::midpoint(room.from_mm, room.to_mm);
    let keeps = [room.from_mm, middle_mm, room.to_mm].iter().all(|t| bench.keeps_wall(&axis, *t, radius_mm));
    let diameter_mm = to_tenth(2.0 * radius_mm);
    keeps.then(|| vec![Node::line(to_tenth(room.from_mm), diameter_mm), Node::line(to_tenth(room.to_mm), diameter_mm)])
}

/// A hook over the end of the last pass on another axis, with that pass.
fn hook(bench: Bench<'_>) -> Option<(usize, Vec<Node>)> {
    let design = bench.design;
    let handle = design
        .cuts
        .iter()
        .rposition(|cut| matches!(cut, Cut::Pass(pass) if pass.axis != AxisName::A && !design.is_across(pass.axis)))?;
    let Some(Cut::Pass(pass)) = design.cuts.get(handle) else { return None };
    let end_mm = bench.axis(pass.axis)?.point(pass.to_mm, 0.0, 0.0).s;
    let radius_mm = inside(bench, bench.radius_mm(&Axis::A, end_mm - LEAST_RADIUS_MM));
    let to_mm = to_tenth(end_mm.min(design.blank.length_mm));
    let from_mm = to_tenth(to_mm - radius_mm * HOOK_LENGTH);
    let is_stout = radius_mm > LEAST_RADIUS_MM && bench.keeps_wall(&Axis::A, from_mm, radius_mm);
    let node = |at_mm: f64, share: f64| Node::line(at_mm, to_tenth(2.0 * radius_mm * share));
    is_stout.then(|| {
        (handle, vec![Node { curve: crate::design::Curve::Ogee, ..node(from_mm, 1.0) }, node(to_mm, HOOK_END)])
    })
}

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
fn bore(design: &Design) -> Option<(f64, f64, f64)> {
    design.cuts.iter().find_map(|cut| match cut {
        Cut::Hollow(Hollow {
            axis: AxisName::A,
            shape: HollowShape::RoundEnded { diameter_mm, depth_mm, rounding_mm },
            ..
        }) => Some((*diameter_mm, *depth_mm, *rounding_mm)),
        _ => None,
    })
}

fn hollows(bench: Bench<'_>, all: &mut All) {
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

/// What is faced off a bowl end, and left at the other, in mm.
const FACED_MM: f64 = 1.0;
const LEFT_MM: f64 = 5.0;
/// A saw line over the bore: where it starts as a share of its radius, and where it ends as a share of its depth.
const SAW_FROM: f64 = 0.1;
const SAW_TO: f64 = 0.95;

fn ends(bench: Bench<'_>, all: &mut All) {
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

fn to_tenth(mm: f64) -> f64 {
    (mm * 10.0).round() / 10.0
}

fn to_hundredth(mm: f64) -> f64 {
    (mm * 100.0).round() / 100.0
}
