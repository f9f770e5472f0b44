//! What each cut takes of the blank, as regions of space.

use kurbo::Point;

use super::error::PieceError;
use crate::design::nodes::{geometry_nodes, hollow_nodes};
use crate::design::plug::plugs;
use crate::design::{AxisName, BlankSection, Cut, Design, EndPlane, Hollow, Pass, PassProfile, SawPath, Side};
use crate::geometry::{
    Axis, FLATTENING, Fill, FittedPlug, HalfSpace, Meridian, Region, Revolved, Role, Sawn, Section, Station, Stock,
    arc_points,
};

/// The blank as a bar.
pub(super) fn stock(design: &Design) -> Result<Stock, PieceError> {
    let section = match design.blank.section {
        BlankSection::Square { side_mm } => Section::Square { half_side: side_mm / 2.0 },
        BlankSection::Round { diameter_mm } => Section::Round { radius: diameter_mm / 2.0 },
    };
    let stock = Stock { section, length: design.blank.length_mm };
    let sound = |v: f64| v.is_finite() && v > 0.0;
    if sound(stock.half_width()) && sound(stock.length) { Ok(stock) } else { Err(PieceError::Blank) }
}

/// The plugs of a design, each from the cut that fits it to the one that takes it out.
pub(super) fn fitted_plugs(design: &Design) -> Result<Vec<FittedPlug>, PieceError> {
    let mut fitted = Vec::new();
    for (cut, plug) in plugs(design) {
        let taken_out = design.cuts.iter().skip(cut).position(|c| matches!(c, Cut::TakeOutPlug)).map(|i| cut + i);
        let (disc, spigot) = (plug.disc_diameter_mm / 2.0, plug.spigot_diameter_mm / 2.0);
        let mut points = [(-plug.thickness_mm, disc), (0.0, disc), (0.0, spigot), (plug.spigot_length_mm, spigot)]
            .map(Station::from)
            .to_vec();
        if let Some(tenon) = plug.tenon {
            let radius = tenon.diameter_mm / 2.0;
            points
                .splice(0..0, [Station::new(-plug.stands_out_mm(), radius), Station::new(-plug.thickness_mm, radius)]);
        }
        let meridian = Meridian::new(points).map_err(|source| PieceError::Profile { cut, source })?;
        let body = Revolved { axis: Axis::A, meridian, fill: Fill::Within };
        fitted.push(FittedPlug { body, fitted: cut, taken_out });
    }
    Ok(fitted)
}

/// What one cut takes; `None` for a plug, and for a pass whose profile is still to be proposed.
pub(super) type Taken = Option<(Region, Role)>;

/// What one cut takes of the blank.
pub(super) fn region(cut: usize, choice: &Cut, axes: &[Axis]) -> Result<Taken, PieceError> {
    let find = |axis: AxisName| axes.get(axis.index()).ok_or(PieceError::NoSuchAxis { cut, axis });
    Ok(match choice {
        Cut::Pass(pass) => {
            let axis = *find(pass.axis)?;
            drawn_pass(cut, pass, axis)?.map(|revolved| (Region::Revolved(revolved), Role::Outside))
        }
        Cut::Hollow(hollow) => {
            let axis = *find(hollow.axis)?;
            Some((Region::Revolved(hollow_region(cut, hollow, axis)?), Role::Inside))
        }
        Cut::FitPlug(_) | Cut::TakeOutPlug => None,
        Cut::Saw(saw) => {
            let sawn = sawn(&saw.path).ok_or(PieceError::SawLine { cut })?;
            Some((Region::Sawn(sawn), Role::Opening))
        }
        Cut::Face(plane) => Some((Region::HalfSpace(half_space(plane, find(plane.axis)?)), Role::Opening)),
        Cut::Part(plane) => Some((Region::HalfSpace(half_space(plane, find(plane.axis)?)), Role::Outside)),
    })
}

fn drawn_pass(cut: usize, pass: &Pass, axis: Axis) -> Result<Option<Revolved>, PieceError> {
    let PassProfile::Drawn { nodes } = &pass.profile else { return Ok(None) };
    let whole = Meridian::from_nodes(&geometry_nodes(nodes, 0.0), FLATTENING);
    let meridian = whole.and_then(|m| m.clipped(pass.from_mm, pass.to_mm));
    let meridian = meridian.map_err(|source| PieceError::Profile { cut, source })?;
    Ok(Some(Revolved { axis, meridian, fill: Fill::Beyond }))
}

/// What a pass takes about an axis; `None` for one that follows the join, or whose profile cannot be turned.
#[must_use]
pub fn pass_region(pass: &Pass, axis: Axis) -> Option<Revolved> {
    drawn_pass(0, pass, axis).ok().flatten()
}

fn hollow_region(cut: usize, hollow: &Hollow, axis: Axis) -> Result<Revolved, PieceError> {
    let nodes = hollow_nodes(&hollow.shape);
    let meridian = Meridian::from_nodes(&geometry_nodes(&nodes, hollow.mouth_mm), FLATTENING);
    let meridian = meridian.map_err(|source| PieceError::Profile { cut, source })?;
    Ok(Revolved { axis, meridian, fill: Fill::WithinOpen })
}

fn half_space(plane: &EndPlane, axis: &Axis) -> HalfSpace {
    let into = match plane.removes {
        Side::Head => axis.along(),
        Side::Tail => -axis.along(),
    };
    HalfSpace { into, offset: axis.point(plane.at_mm, 0.0, 0.0).dot(into) }
}

fn sawn(path: &SawPath) -> Option<Sawn> {
    match path {
        SawPath::Lines { .. } => Sawn::above(&saw_points(path)),
        SawPath::Arc { from, to, bulge_mm } => Sawn::above_arc(
            Point::new(from.at_mm, from.height_mm),
            Point::new(to.at_mm, to.height_mm),
            *bulge_mm,
            FLATTENING,
        ),
    }
}

/// The points of a saw line in the side view `(s, y)`, arcs flattened.
#[must_use]
fn saw_points(path: &SawPath) -> Vec<Point> {
    match path {
        SawPath::Lines { points } => points.iter().map(|p| Point::new(p.at_mm, p.height_mm)).collect(),
        SawPath::Arc { from, to, bulge_mm } => arc_points(
            Point::new(from.at_mm, from.height_mm),
            Point::new(to.at_mm, to.height_mm),
            *bulge_mm,
            FLATTENING,
        ),
    }
}
