//! Which fields a part of a design has, and which one a thing of the side view stands for.

use super::{Field, Part};
use crate::design::{Design, LimitChoices, Side};
use crate::form::moves::Movable;
use crate::form::place::read;

impl Field {
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

    /// The place of a limit among a design's choices, which may leave it to the shop; `None` for any other field.
    pub(in crate::form) const fn limit(self) -> Option<fn(&mut LimitChoices) -> &mut Option<f64>> {
        match self {
            Self::WallLimit => Some(|limits| &mut limits.wall_mm),
            Self::FloorLimit => Some(|limits| &mut limits.floor_mm),
            Self::FinishingAllowance => Some(|limits| &mut limits.finishing_allowance_mm),
            Self::JoinSpare => Some(|limits| &mut limits.join_spare_mm),
            _ => None,
        }
    }

    /// Whether a number that is absent from the design stands in the shop's settings.
    #[must_use]
    pub const fn may_be_left_to_the_shop(self) -> bool {
        self.limit().is_some()
    }

    /// The fields of a node of a profile. The last node has no arc of its own, whatever the document says.
    #[must_use]
    pub fn of_node(design: &Design, cut: usize, node: usize) -> Vec<Self> {
        let mut fields = Self::of_part(design, Part::Node, [cut, node]);
        if read::node(design, [cut, node.saturating_add(1)]).is_none() {
            fields.retain(|field| !matches!(field, Self::NodeBulge(..)));
        }
        fields
    }

    /// Every number of blank, axes and cuts.
    pub(in crate::form) fn of_shape(design: &Design) -> Vec<Self> {
        let axes = (0..design.axes.len()).flat_map(|axis| Self::of_part(design, Part::Axis, [axis, 0]));
        let in_cut = |cut: usize| {
            let nodes = design.cuts.get(cut).and_then(read::nodes_of).map_or(0, Vec::len);
            let nodes = (0..nodes).flat_map(move |node| Self::of_part(design, Part::Node, [cut, node]));
            let points = (0..).map_while(move |point| {
                let fields = Self::of_point(design, cut, point);
                (!fields.is_empty()).then_some(fields)
            });
            Self::of_part(design, Part::Cut, [cut, 0]).into_iter().chain(nodes).chain(points.flatten())
        };
        let cuts = (0..design.cuts.len()).flat_map(in_cut);
        [Self::BlankWidth, Self::BlankLength].into_iter().chain(axes).chain(cuts).collect()
    }

    /// The choices of the pattern that are numbers and change something, each with its place in the kind's table.
    pub(in crate::form) fn of_choices(design: &Design) -> impl Iterator<Item = (Self, usize)> {
        let places = design
            .pattern
            .iter()
            .flat_map(|pattern| (0..pattern.choices.count()).filter(|place| pattern.choices.matters(*place)));
        places.map(|place| (Self::Choice(place), place))
    }

    /// The fields of a point of a saw line.
    #[must_use]
    pub fn of_point(design: &Design, cut: usize, point: usize) -> Vec<Self> {
        Self::of_part(design, Part::Point, [cut, point])
    }
}
