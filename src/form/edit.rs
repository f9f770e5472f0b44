//! Changes to a design, as whole edits: what has to move together moves together.

use super::fields::Field;
use super::place::{nodes_of, nodes_of_mut};
use crate::design::ends::{End, end_of_pass, with_end};
use crate::design::following::{choose, make_own};
use crate::design::validation::weight::too_big;
use crate::design::validation::{bounds, largest_bulge_mm};
use crate::design::{
    BlankSection, Curve, Cut, Design, HollowShape, InUse, Node, PassProfile, PlugTenon, Problem, SawPath, SawPoint,
    plug,
};

/// The share of a chord that a new arc bows by.
const NEW_BULGE_SHARE: f64 = 0.1;
/// The shoulder and the length of a new tenon on a plug, in mm: shorter than common jaws are deep. Common practice, no
/// source.
const NEW_SHOULDER_MM: f64 = 3.0;
const NEW_TENON_MM: f64 = 6.0;

/// The design with this number changed, and with it what has to move along: the end of a pass with its end node, a
/// rounding and a plug with the bore that holds it.
///
/// # Errors
///
/// The first problem that the change would bring in; the design is left as it was.
pub fn with_number(design: &Design, field: Field, value: f64) -> Result<Design, Box<Problem>> {
    accepted(design, |changed| set(changed, field, value))
}

/// The design after this change.
///
/// # Errors
///
/// The first problem that the change would bring in.
pub fn accepted(design: &Design, change: impl FnOnce(&mut Design)) -> Result<Design, Box<Problem>> {
    let mut changed = design.clone();
    change(&mut changed);
    make_own(design, &mut changed);
    let before = design.problems();
    match changed.problems().into_iter().find(|problem| !before.contains(problem)) {
        None => match too_big(&changed) {
            // One that is too big already may be changed, and made smaller.
            Some(problem) if too_big(design).is_none() => Err(Box::new(problem)),
            _ => Ok(changed),
        },
        Some(problem) => Err(Box::new(problem)),
    }
}

/// Sets a number without judging it, and moves what has to move along. A field that the design has not is passed over.
pub fn set(design: &mut Design, field: Field, value: f64) {
    if let Some(limit) = field.limit() {
        *limit(&mut design.limits) = Some(value);
        return;
    }
    match field {
        Field::Choice(place) => choose(design, |choices| {
            if let Some(number) = choices.number_mut(place) {
                *number = value;
            }
        }),
        Field::PassFrom(cut) => move_pass_end(design, cut, End::Start, value),
        Field::PassTo(cut) => move_pass_end(design, cut, End::Finish, value),
        Field::NodeAt(cut, node) => match end_of_pass(design, cut, node) {
            Some(end) => move_end_node(design, cut, end, node, value),
            None => write(design, field, value),
        },
        Field::BoreDiameter(cut) | Field::BoreDepth(cut) => {
            let diameter = Field::BoreDiameter(cut);
            let before_mm = diameter.number(design);
            write(design, field, value);
            fit_rounding(design, cut);
            if let (Some(before_mm), Some(after_mm)) = (before_mm, diameter.number(design)) {
                plug::follow_bore(design, before_mm, after_mm);
            }
            plug::fit_all(design);
        }
        _ => write(design, field, value),
    }
}

fn write(design: &mut Design, field: Field, value: f64) {
    if let Some(slot) = field.slot(design) {
        *slot = value;
    }
}

/// Moves an end of a pass; a cut that is none is passed over.
fn move_pass_end(design: &mut Design, cut: usize, end: End, value: f64) {
    if let Some(Cut::Pass(pass)) = design.cuts.get_mut(cut) {
        *pass = with_end(pass, end, value);
    }
}

/// Moves the node that an end of a pass stands on, and the end with it.
fn move_end_node(design: &mut Design, cut: usize, end: End, node: usize, value: f64) {
    write(design, if end == End::Start { Field::PassFrom(cut) } else { Field::PassTo(cut) }, value);
    write(design, Field::NodeAt(cut, node), value);
}

fn fit_rounding(design: &mut Design, cut: usize) {
    if let Some(Cut::Hollow(hollow)) = design.cuts.get_mut(cut)
        && let HollowShape::RoundEnded { diameter_mm, depth_mm, rounding_mm } = &mut hollow.shape
    {
        let most = (*diameter_mm / 2.0).min(*depth_mm).max(0.0);
        if *rounding_mm > most {
            *rounding_mm = most;
        }
    }
}

/// Makes the blank square or round; its width stays.
pub fn set_round_blank(design: &mut Design, round: bool) {
    let width_mm = Field::BlankWidth.number(design).unwrap_or(bounds::BLANK_WIDTH.from);
    design.blank.section = match round {
        true => BlankSection::Round { diameter_mm: width_mm },
        false => BlankSection::Square { side_mm: width_mm },
    };
}

/// Gives a plug a tenon of its own, a shoulder narrower than its disc, or takes it away.
pub fn set_plug_tenon(design: &mut Design, cut: usize, has: bool) {
    let Some(Cut::FitPlug(plug)) = design.cuts.get_mut(cut) else { return };
    let diameter_mm = (plug.disc_diameter_mm - 2.0 * NEW_SHOULDER_MM).max(bounds::BORE_DIAMETER.from);
    plug.tenon = has.then_some(PlugTenon { diameter_mm, length_mm: NEW_TENON_MM });
}

/// Gives the moisture in use itself, in percent and to a tenth; what the air was is forgotten.
pub fn give_use_moisture(design: &mut Design, percent: f64) {
    let moisture_percent = ((percent * 10.0).round() / 10.0).clamp(bounds::MOISTURE.from, bounds::MOISTURE.to);
    design.wood.in_use = InUse::Moisture { moisture_percent };
}

/// Gives the air that the piece is used in, to begin with that of a lived-in room.
pub fn give_use_air(design: &mut Design) {
    if !matches!(design.wood.in_use, InUse::Air { .. }) {
        design.wood.in_use = InUse::default();
    }
}

/// Puts a node half way to the next one, on the straight line between them. Nothing after the last node.
pub fn insert_node(design: &mut Design, cut: usize, after: usize) {
    let Some(nodes) = design.cuts.get_mut(cut).and_then(nodes_of_mut) else { return };
    let (Some(here), Some(next)) = (nodes.get(after), nodes.get(after + 1)) else { return };
    let middle = Node {
        at_mm: f64::midpoint(here.at_mm, next.at_mm),
        diameter_mm: f64::midpoint(here.diameter_mm, next.diameter_mm),
        curve: if matches!(here.curve, Curve::Ogee) { Curve::Ogee } else { Curve::Line },
    };
    let straight = Node { curve: middle.curve, ..*here };
    nodes[after] = straight;
    nodes.insert(after + 1, middle);
}

/// Whether [`remove_node`] would take this node out: not an end, so that the profile still covers the whole cut.
#[must_use]
pub fn can_remove_node(design: &Design, cut: usize, node: usize) -> bool {
    design.cuts.get(cut).and_then(nodes_of).is_some_and(|nodes| node > 0 && node + 1 < nodes.len())
}

/// Takes out a node that is not an end; the profile runs straight past it.
pub fn remove_node(design: &mut Design, cut: usize, node: usize) {
    if !can_remove_node(design, cut, node) {
        return;
    }
    if let Some(nodes) = design.cuts.get_mut(cut).and_then(nodes_of_mut) {
        nodes.remove(node);
        if let Some(before) = node.checked_sub(1).and_then(|before| nodes.get_mut(before))
            && matches!(before.curve, Curve::Arc { .. })
        {
            before.curve = Curve::Line;
        }
    }
}

/// How the profile goes on from a node, without the size of an arc.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CurveKind {
    /// A straight taper.
    Line,
    /// A bead: swells away from the axis.
    Bead,
    /// A cove: sinks toward the axis.
    Cove,
    /// A smooth S.
    Ogee,
}

impl CurveKind {
    /// Every kind.
    pub const ALL: [Self; 4] = [Self::Line, Self::Bead, Self::Cove, Self::Ogee];

    /// The kind of a curve.
    #[must_use]
    pub fn of(curve: &Curve) -> Self {
        match curve {
            Curve::Line => Self::Line,
            Curve::Arc { bulge_mm } if *bulge_mm < 0.0 => Self::Cove,
            Curve::Arc { .. } => Self::Bead,
            Curve::Ogee => Self::Ogee,
        }
    }

    /// What a turner calls it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Line => "Straight",
            Self::Bead => "Bead",
            Self::Cove => "Cove",
            Self::Ogee => "Ogee",
        }
    }
}

/// Joins a node to the next by this kind of curve. An arc keeps its size, or starts with a tenth of its chord.
pub fn set_curve(design: &mut Design, cut: usize, node: usize, kind: CurveKind) {
    let Some(nodes) = design.cuts.get_mut(cut).and_then(nodes_of_mut) else { return };
    let (Some(here), Some(next)) = (nodes.get(node), nodes.get(node + 1)) else { return };
    let chord_mm = (next.at_mm - here.at_mm).hypot((next.diameter_mm - here.diameter_mm) / 2.0);
    let new_mm = (chord_mm * NEW_BULGE_SHARE).min(largest_bulge_mm(here, next));
    let bulge_mm = match here.curve {
        Curve::Arc { bulge_mm } if bulge_mm.abs() > 0.0 => bulge_mm.abs(),
        _ => new_mm,
    };
    nodes[node].curve = match kind {
        CurveKind::Line => Curve::Line,
        CurveKind::Bead => Curve::Arc { bulge_mm },
        CurveKind::Cove => Curve::Arc { bulge_mm: -bulge_mm },
        CurveKind::Ogee => Curve::Ogee,
    };
}

/// Gives a pass these nodes of its own in place of the proposed join. The pass's ends stay: nodes outside it are left
/// out, and the first and last node are carried on to the ends.
pub fn draw_pass(design: &mut Design, cut: usize, nodes: Vec<Node>) {
    let Some(Cut::Pass(pass)) = design.cuts.get_mut(cut) else { return };
    let (from_mm, to_mm) = (pass.from_mm, pass.to_mm);
    let mut inside: Vec<Node> = nodes.into_iter().filter(|node| (from_mm..=to_mm).contains(&node.at_mm)).collect();
    let (Some(first), Some(last)) = (inside.first().copied(), inside.last().copied()) else { return };
    if first.at_mm > from_mm {
        inside.insert(0, Node::line(from_mm, first.diameter_mm));
    }
    if last.at_mm < to_mm {
        inside.push(Node::line(to_mm, last.diameter_mm));
    }
    pass.profile = PassProfile::Drawn { nodes: inside };
}

/// Hands a pass's profile back to the proposed join.
pub fn use_join(design: &mut Design, cut: usize) {
    if let Some(Cut::Pass(pass)) = design.cuts.get_mut(cut) {
        pass.profile = PassProfile::Join;
    }
}

/// Makes a saw cut an arc, or straight; its two ends stay.
pub fn set_saw_arc(design: &mut Design, cut: usize, arc: bool) {
    let Some(Cut::Saw(saw)) = design.cuts.get_mut(cut) else { return };
    let ends = match &saw.path {
        SawPath::Lines { points } => points.first().copied().zip(points.last().copied()),
        SawPath::Arc { from, to, .. } => Some((*from, *to)),
    };
    let Some((from, to)) = ends else { return };
    let chord_mm = (to.at_mm - from.at_mm).hypot(to.height_mm - from.height_mm);
    saw.path = match arc {
        true => SawPath::Arc { from, to, bulge_mm: -chord_mm * NEW_BULGE_SHARE },
        false => SawPath::Lines { points: vec![from, to] },
    };
}

/// Puts a point half way along the piece of a saw line that starts at `after`. Nothing after the last point.
pub fn insert_saw_point(design: &mut Design, cut: usize, after: usize) {
    if let Some(Cut::Saw(saw)) = design.cuts.get_mut(cut)
        && let SawPath::Lines { points } = &mut saw.path
        && let (Some(here), Some(next)) = (points.get(after), points.get(after + 1))
    {
        let middle = SawPoint {
            at_mm: f64::midpoint(here.at_mm, next.at_mm),
            height_mm: f64::midpoint(here.height_mm, next.height_mm),
        };
        points.insert(after + 1, middle);
    }
}

/// Whether [`remove_saw_point`] would take this point out: a saw line keeps two.
#[must_use]
pub fn can_remove_saw_point(design: &Design, cut: usize) -> bool {
    matches!(design.cuts.get(cut), Some(Cut::Saw(saw))
        if matches!(&saw.path, SawPath::Lines { points } if points.len() > 2))
}

/// Takes a point out of a saw line of three points or more.
pub fn remove_saw_point(design: &mut Design, cut: usize, point: usize) {
    if can_remove_saw_point(design, cut)
        && let Some(Cut::Saw(saw)) = design.cuts.get_mut(cut)
        && let SawPath::Lines { points } = &mut saw.path
        && point < points.len()
    {
        points.remove(point);
    }
}

/// Leaves a limit to the shop again.
pub fn leave_to_shop(design: &mut Design, field: Field) {
    if let Some(limit) = field.limit() {
        *limit(&mut design.limits) = None;
    }
}
