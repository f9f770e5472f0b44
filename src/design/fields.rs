//! The numbers of a design, each by name: where it stands in the document, what it is now, and how to set it.

use super::document::{
    AxisChoice, BlankSection, Cut, Design, HollowShape, InUse, PassProfile, PlugTenon, SawPath, SawPoint, Side,
};
use super::moves::Movable;
use super::profile::{Curve, Node};

/// One number of a design. The first index is the place in the list of axes or cuts, the second that of a node or
/// point.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Field {
    /// Moisture of the wood, percent of dry mass.
    Moisture,
    /// Moisture of the wood in use, percent of dry mass.
    UseMoisture,
    /// Temperature of the air it is used in, degrees Celsius.
    UseTemperature,
    /// Relative humidity of the air it is used in, percent.
    UseHumidity,
    /// Side or diameter of the blank, mm.
    BlankWidth,
    /// Length of the blank, mm.
    BlankLength,
    /// Tilt of an axis, degrees.
    AxisTilt(usize),
    /// Clock direction of an axis's tilt, degrees.
    AxisToward(usize),
    /// Where an axis crosses axis A, mm.
    AxisCrossing(usize),
    /// x of an axis's mark on the tail face, mm.
    TailX(usize),
    /// y of an axis's mark on the tail face, mm.
    TailY(usize),
    /// x of an axis's mark on the head face, mm.
    HeadX(usize),
    /// y of an axis's mark on the head face, mm.
    HeadY(usize),
    /// Station of an axis across the blank, mm.
    AcrossStation(usize),
    /// Clock direction an axis across the blank comes from, degrees.
    AcrossFrom(usize),
    /// Start of a pass, mm along its axis.
    PassFrom(usize),
    /// End of a pass, mm along its axis.
    PassTo(usize),
    /// Station of a node of a pass or of a drawn hollow, mm.
    NodeAt(usize, usize),
    /// Diameter at a node, mm.
    NodeDiameter(usize, usize),
    /// Height of the arc after a node, mm.
    NodeBulge(usize, usize),
    /// Mouth of a hollow, mm along its axis.
    HollowMouth(usize),
    /// Finished diameter of a bore, mm.
    BoreDiameter(usize),
    /// Finished depth of a bore, mm.
    BoreDepth(usize),
    /// Rounding of a bore's floor, mm.
    BoreRounding(usize),
    /// Diameter of a plug's disc, mm.
    PlugDisc(usize),
    /// Thickness of a plug's disc, mm.
    PlugThickness(usize),
    /// Diameter of a plug's spigot, mm.
    SpigotDiameter(usize),
    /// Length of a plug's spigot, mm.
    SpigotLength(usize),
    /// Diameter of a plug's tenon, mm.
    PlugTenonDiameter(usize),
    /// Length of a plug's tenon, mm.
    PlugTenonLength(usize),
    /// Station of a point of a saw line, mm.
    SawAt(usize, usize),
    /// Height of a point of a saw line over axis A, mm.
    SawHeight(usize, usize),
    /// Height of a saw arc over its chord, mm.
    SawBulge(usize),
    /// Where a facing or parting plane stands, mm along its axis.
    PlaneAt(usize),
    /// This design's thinnest wall, mm; absent when the shop's counts.
    WallLimit,
    /// This design's thinnest floor, mm; absent when the shop's counts.
    FloorLimit,
    /// This design's finishing allowance, mm; absent when the shop's counts.
    FinishingAllowance,
    /// How far straight tapers may stand above the join, mm; absent when the shop's counts.
    JoinSpare,
}

/// Finds a field's number in a design, read-only or to be changed: the same walk for both.
macro_rules! find {
    ($design:expr, $field:expr, $get:ident, $values:ident, $some:ident $(, $mutable:tt)?) => {{
        let design = $design;
        match $field {
            Field::Moisture => Some(& $($mutable)? design.wood.moisture_percent),
            Field::UseMoisture | Field::UseTemperature | Field::UseHumidity => {
                match (& $($mutable)? design.wood.in_use, $field) {
                    (InUse::Moisture { moisture_percent }, Field::UseMoisture) => Some(moisture_percent),
                    (InUse::Air { temperature_c, .. }, Field::UseTemperature) => Some(temperature_c),
                    (InUse::Air { humidity_percent, .. }, Field::UseHumidity) => Some(humidity_percent),
                    _ => None,
                }
            }
            Field::BlankWidth => match & $($mutable)? design.blank.section {
                BlankSection::Square { side_mm } => Some(side_mm),
                BlankSection::Round { diameter_mm } => Some(diameter_mm),
            },
            Field::BlankLength => Some(& $($mutable)? design.blank.length_mm),
            Field::AxisTilt(i) | Field::AxisToward(i) | Field::AxisCrossing(i) => match design.axes.$get(i)? {
                AxisChoice::Tilt { tilt_deg, toward_deg, crossing_mm } => Some(match $field {
                    Field::AxisTilt(_) => tilt_deg,
                    Field::AxisToward(_) => toward_deg,
                    _ => crossing_mm,
                }),
                _ => None,
            },
            Field::TailX(i) | Field::TailY(i) | Field::HeadX(i) | Field::HeadY(i) => match design.axes.$get(i)? {
                AxisChoice::Marks { tail_x_mm, tail_y_mm, head_x_mm, head_y_mm } => Some(match $field {
                    Field::TailX(_) => tail_x_mm,
                    Field::TailY(_) => tail_y_mm,
                    Field::HeadX(_) => head_x_mm,
                    _ => head_y_mm,
                }),
                _ => None,
            },
            Field::AcrossStation(i) | Field::AcrossFrom(i) => match design.axes.$get(i)? {
                AxisChoice::Across { station_mm, from_deg } => {
                    Some(if matches!($field, Field::AcrossStation(_)) { station_mm } else { from_deg })
                }
                _ => None,
            },
            Field::PassFrom(i) | Field::PassTo(i) => match design.cuts.$get(i)? {
                Cut::Pass(pass) => Some(match $field {
                    Field::PassFrom(_) => & $($mutable)? pass.from_mm,
                    _ => & $($mutable)? pass.to_mm,
                }),
                _ => None,
            },
            Field::NodeAt(i, n) => Some(& $($mutable)? $values(design.cuts.$get(i)?)?.$get(n)?.at_mm),
            Field::NodeDiameter(i, n) => Some(& $($mutable)? $values(design.cuts.$get(i)?)?.$get(n)?.diameter_mm),
            Field::NodeBulge(i, n) => match & $($mutable)? $values(design.cuts.$get(i)?)?.$get(n)?.curve {
                Curve::Arc { bulge_mm } => Some(bulge_mm),
                _ => None,
            },
            Field::HollowMouth(i) => match design.cuts.$get(i)? {
                Cut::Hollow(hollow) => Some(& $($mutable)? hollow.mouth_mm),
                _ => None,
            },
            Field::BoreDiameter(i) | Field::BoreDepth(i) | Field::BoreRounding(i) => match design.cuts.$get(i)? {
                Cut::Hollow(hollow) => match & $($mutable)? hollow.shape {
                    HollowShape::RoundEnded { diameter_mm, depth_mm, rounding_mm } => Some(match $field {
                        Field::BoreDiameter(_) => diameter_mm,
                        Field::BoreDepth(_) => depth_mm,
                        _ => rounding_mm,
                    }),
                    HollowShape::Drawn { .. } => None,
                },
                _ => None,
            },
            Field::PlugDisc(i) | Field::PlugThickness(i) | Field::SpigotDiameter(i) | Field::SpigotLength(i) => {
                match design.cuts.$get(i)? {
                    Cut::FitPlug(plug) => Some(match $field {
                        Field::PlugDisc(_) => & $($mutable)? plug.disc_diameter_mm,
                        Field::PlugThickness(_) => & $($mutable)? plug.thickness_mm,
                        Field::SpigotDiameter(_) => & $($mutable)? plug.spigot_diameter_mm,
                        _ => & $($mutable)? plug.spigot_length_mm,
                    }),
                    _ => None,
                }
            }
            Field::PlugTenonDiameter(i) | Field::PlugTenonLength(i) => match design.cuts.$get(i)? {
                Cut::FitPlug(plug) => {
                    let PlugTenon { diameter_mm, length_mm } = plug.tenon.$some()?;
                    Some(if matches!($field, Field::PlugTenonDiameter(_)) { diameter_mm } else { length_mm })
                }
                _ => None,
            },
            Field::SawAt(i, n) | Field::SawHeight(i, n) => {
                let point = match design.cuts.$get(i)? {
                    Cut::Saw(saw) => match (& $($mutable)? saw.path, n) {
                        (SawPath::Lines { points }, n) => points.$get(n)?,
                        (SawPath::Arc { from, .. }, 0) => from,
                        (SawPath::Arc { to, .. }, 1) => to,
                        _ => return None,
                    },
                    _ => return None,
                };
                let SawPoint { at_mm, height_mm } = point;
                Some(if matches!($field, Field::SawAt(..)) { at_mm } else { height_mm })
            }
            Field::SawBulge(i) => match design.cuts.$get(i)? {
                Cut::Saw(saw) => match & $($mutable)? saw.path {
                    SawPath::Arc { bulge_mm, .. } => Some(bulge_mm),
                    SawPath::Lines { .. } => None,
                },
                _ => None,
            },
            Field::PlaneAt(i) => match design.cuts.$get(i)? {
                Cut::Face(plane) | Cut::Part(plane) => Some(& $($mutable)? plane.at_mm),
                _ => None,
            },
            Field::WallLimit => design.limits.wall_mm.$some(),
            Field::FloorLimit => design.limits.floor_mm.$some(),
            Field::FinishingAllowance => design.limits.finishing_allowance_mm.$some(),
            Field::JoinSpare => design.limits.join_spare_mm.$some(),
        }
    }};
}

impl Field {
    /// The number as it stands, in the field's unit; `None` when the design has no such number, or leaves it to the
    /// shop.
    #[must_use]
    pub fn number(self, design: &Design) -> Option<f64> {
        find!(design, self, get, nodes_of, as_ref).copied()
    }

    /// The number itself, to be written over; `None` as for [`number`](Self::number).
    ///
    /// Writing it leaves everything else alone: [`set`](super::edit::set) also moves what has to move with it.
    pub fn slot(self, design: &mut Design) -> Option<&mut f64> {
        find!(design, self, get_mut, nodes_of_mut, as_mut, mut)
    }

    /// The number that a thing of the side view stands for first of all.
    #[must_use]
    pub const fn moved_by(thing: Movable) -> Self {
        match thing {
            Movable::PassNode { cut, node } | Movable::HollowNode { cut, node } => Self::NodeAt(cut, node),
            Movable::PassEnd { cut, end: Side::Tail } => Self::PassFrom(cut),
            Movable::PassEnd { cut, end: Side::Head } => Self::PassTo(cut),
            Movable::BoreFloor { cut } => Self::BoreDepth(cut),
            Movable::BoreSide { cut } => Self::BoreDiameter(cut),
            Movable::SawPoint { cut, point } => Self::SawAt(cut, point),
            Movable::SawBulge { cut } => Self::SawBulge(cut),
            Movable::EndPlane { cut } => Self::PlaneAt(cut),
            Movable::Crossing { axis } => Self::AxisCrossing(axis),
            Movable::Tilt { axis } => Self::AxisTilt(axis),
            Movable::Mark { axis, face: Side::Tail } => Self::TailY(axis),
            Movable::Mark { axis, face: Side::Head } => Self::HeadY(axis),
            Movable::Across { axis } => Self::AcrossStation(axis),
        }
    }

    /// Whether a number that is absent from the design stands in the shop's settings.
    #[must_use]
    pub const fn may_be_left_to_the_shop(self) -> bool {
        matches!(self, Self::WallLimit | Self::FloorLimit | Self::FinishingAllowance | Self::JoinSpare)
    }

    /// Where it stands in the saved document, as problems and checks name it, the names of kinds ("pass", "drawn") left
    /// out: `cuts[2].profile.nodes[1].diameter_mm`.
    #[must_use]
    pub fn path(self, design: &Design) -> String {
        match self {
            Self::Moisture => "wood.moisture_percent".to_owned(),
            Self::UseMoisture => "wood.in_use.moisture_percent".to_owned(),
            Self::UseTemperature => "wood.in_use.temperature_c".to_owned(),
            Self::UseHumidity => "wood.in_use.humidity_percent".to_owned(),
            Self::BlankWidth => match design.blank.section {
                BlankSection::Square { .. } => "blank.section.side_mm".to_owned(),
                BlankSection::Round { .. } => "blank.section.diameter_mm".to_owned(),
            },
            Self::BlankLength => "blank.length_mm".to_owned(),
            Self::AxisTilt(i) => format!("axes[{i}].tilt_deg"),
            Self::AxisToward(i) => format!("axes[{i}].toward_deg"),
            Self::AxisCrossing(i) => format!("axes[{i}].crossing_mm"),
            Self::TailX(i) => format!("axes[{i}].tail_x_mm"),
            Self::TailY(i) => format!("axes[{i}].tail_y_mm"),
            Self::HeadX(i) => format!("axes[{i}].head_x_mm"),
            Self::HeadY(i) => format!("axes[{i}].head_y_mm"),
            Self::AcrossStation(i) => format!("axes[{i}].station_mm"),
            Self::AcrossFrom(i) => format!("axes[{i}].from_deg"),
            Self::PassFrom(i) => format!("cuts[{i}].from_mm"),
            Self::PassTo(i) => format!("cuts[{i}].to_mm"),
            Self::NodeAt(i, n) => format!("cuts[{i}].{}.nodes[{n}].at_mm", shape_name(design, i)),
            Self::NodeDiameter(i, n) => format!("cuts[{i}].{}.nodes[{n}].diameter_mm", shape_name(design, i)),
            Self::NodeBulge(i, n) => format!("cuts[{i}].{}.nodes[{n}].curve.bulge_mm", shape_name(design, i)),
            Self::HollowMouth(i) => format!("cuts[{i}].mouth_mm"),
            Self::BoreDiameter(i) => format!("cuts[{i}].shape.diameter_mm"),
            Self::BoreDepth(i) => format!("cuts[{i}].shape.depth_mm"),
            Self::BoreRounding(i) => format!("cuts[{i}].shape.rounding_mm"),
            Self::PlugDisc(i) => format!("cuts[{i}].disc_diameter_mm"),
            Self::PlugThickness(i) => format!("cuts[{i}].thickness_mm"),
            Self::SpigotDiameter(i) => format!("cuts[{i}].spigot_diameter_mm"),
            Self::SpigotLength(i) => format!("cuts[{i}].spigot_length_mm"),
            Self::PlugTenonDiameter(i) => format!("cuts[{i}].tenon.diameter_mm"),
            Self::PlugTenonLength(i) => format!("cuts[{i}].tenon.length_mm"),
            Self::SawAt(i, n) => format!("cuts[{i}].{}.at_mm", point_name(design, i, n)),
            Self::SawHeight(i, n) => format!("cuts[{i}].{}.height_mm", point_name(design, i, n)),
            Self::SawBulge(i) => format!("cuts[{i}].path.bulge_mm"),
            Self::PlaneAt(i) => format!("cuts[{i}].at_mm"),
            Self::WallLimit => "limits.wall_mm".to_owned(),
            Self::FloorLimit => "limits.floor_mm".to_owned(),
            Self::FinishingAllowance => "limits.finishing_allowance_mm".to_owned(),
            Self::JoinSpare => "limits.join_spare_mm".to_owned(),
        }
    }
}

fn shape_name(design: &Design, cut: usize) -> &'static str {
    if matches!(design.cuts.get(cut), Some(Cut::Hollow(_))) { "shape" } else { "profile" }
}

fn point_name(design: &Design, cut: usize, point: usize) -> String {
    match design.cuts.get(cut) {
        Some(Cut::Saw(saw)) if matches!(saw.path, SawPath::Arc { .. }) => {
            if point == 0 {
                "path.from".to_owned()
            } else {
                "path.to".to_owned()
            }
        }
        _ => format!("path.points[{point}]"),
    }
}

/// The nodes of a drawn pass or of a drawn hollow.
#[must_use]
pub fn nodes_of(cut: &Cut) -> Option<&Vec<Node>> {
    match cut {
        Cut::Pass(pass) => match &pass.profile {
            PassProfile::Drawn { nodes } => Some(nodes),
            PassProfile::Join => None,
        },
        Cut::Hollow(hollow) => match &hollow.shape {
            HollowShape::Drawn { nodes } => Some(nodes),
            HollowShape::RoundEnded { .. } => None,
        },
        _ => None,
    }
}

/// As [`nodes_of`], to be changed.
pub fn nodes_of_mut(cut: &mut Cut) -> Option<&mut Vec<Node>> {
    match cut {
        Cut::Pass(pass) => match &mut pass.profile {
            PassProfile::Drawn { nodes } => Some(nodes),
            PassProfile::Join => None,
        },
        Cut::Hollow(hollow) => match &mut hollow.shape {
            HollowShape::Drawn { nodes } => Some(nodes),
            HollowShape::RoundEnded { .. } => None,
        },
        _ => None,
    }
}
