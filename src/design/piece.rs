//! From the document to geometry: a design's axes, regions and states.

use std::pin::pin;
use std::task::Poll;

use super::axis_name::AxisName;
use super::cut::{
    AxisChoice, BlankSection, Cut, EndPlane, Hollow, HollowShape, Pass, PassProfile, Plug, SawPath, Side,
};
use super::document::Design;
use super::join::{self, JoinLine};
use super::piece_error::PieceError;
use super::profile::{Curve, Node};
use super::shop::Limits;
use crate::geometry::line::pace::poll_once;
use crate::geometry::{
    Axis, AxisError, FLATTENING, Fill, FittedPlug, HalfSpace, Meridian, Pace, Region, Removal, Revolved, Role, Sawn,
    Section, Segment, Solid, Station, Stock, Vector, arc_points, at_once,
};
use kurbo::Point;

/// A design with everything resolved that geometry needs.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// Stock, removals and plugs in working order.
    pub solid: Solid,
    /// The axes; A first.
    pub axes: Vec<Axis>,
    /// Station of the tail face, where the live centre bears, in mm: as far as the plug stands out, its tenon included, or 0.
    pub tail_face: f64,
    /// Station of the head face, where the drive centre bears, in mm.
    pub head_face: f64,
    /// The join proposed for each pass on axis A that has a later pass on another axis or a hollow under it.
    pub joins: Vec<JoinLine>,
}

impl Piece {
    /// Resolves a design.
    ///
    /// # Errors
    /// The first thing that has no geometry; see [`PieceError`].
    pub fn resolve(design: &Design, limits: &Limits) -> Result<Self, PieceError> {
        at_once(Self::resolve_in_slices(design, limits, &Pace::unbroken()))
    }

    /// As [`resolve`](Self::resolve), in slices.
    ///
    /// # Errors
    /// As [`resolve`](Self::resolve).
    pub async fn resolve_in_slices(design: &Design, limits: &Limits, pace: &Pace) -> Result<Self, PieceError> {
        Self::with_joins(design, Some(limits), pace).await
    }

    /// As [`resolve`](Self::resolve), where that takes no more than about so many units of
    /// [work](crate::geometry::Pace); else as [`resolve_drawn`](Self::resolve_drawn). And whether the joins are proposed.
    ///
    /// # Errors
    /// As [`resolve`](Self::resolve).
    pub fn resolve_within(design: &Design, limits: &Limits, units: u64) -> Result<(Self, bool), PieceError> {
        let pace = Pace::in_slices(units);
        match poll_once(pin!(Self::resolve_in_slices(design, limits, &pace))) {
            Poll::Ready(piece) => Ok((piece?, true)),
            Poll::Pending => Ok((Self::resolve_drawn(design)?, false)),
        }
    }

    /// Resolves a design whose passes are all drawn, without proposing joins: quicker. A pass that follows the join is
    /// left out.
    ///
    /// # Errors
    /// The first thing that has no geometry; see [`PieceError`].
    pub fn resolve_drawn(design: &Design) -> Result<Self, PieceError> {
        at_once(Self::with_joins(design, None, &Pace::unbroken()))
    }

    async fn with_joins(design: &Design, limits: Option<&Limits>, pace: &Pace) -> Result<Self, PieceError> {
        let stock = stock(design)?;
        let tail_face = tail_face(design);
        let axes = placed_axes(design)?;
        let mut regions = Vec::with_capacity(design.cuts.len());
        for (cut, choice) in design.cuts.iter().enumerate() {
            regions.push(region(cut, choice, &axes)?);
        }
        let joins = match limits {
            Some(limits) => join::propose_all(design, &axes, &mut regions, limits, pace).await?,
            None => Vec::new(),
        };
        let removals = regions
            .into_iter()
            .enumerate()
            .filter_map(|(cut, region)| region.map(|(region, role)| Removal { region, role, cut }))
            .collect();
        let plugs = fitted_plugs(design)?;
        let solid = Solid { stock, removals, plugs };
        Ok(Self { solid, axes, tail_face, head_face: stock.length, joins })
    }

    /// An axis by name.
    #[must_use]
    pub fn axis(&self, name: AxisName) -> Option<&Axis> {
        self.axes.get(name.index())
    }

    /// Where the finished piece begins at its bowl end, along axis A, in mm: past what is faced off there.
    #[must_use]
    pub fn rim(&self) -> f64 {
        let faced = self.solid.removals.iter().filter_map(|removal| match &removal.region {
            Region::HalfSpace(half) if half.into.s < 0.0 => Some(half.offset / half.into.s),
            _ => None,
        });
        faced.fold(0.0, f64::max)
    }

    /// The region a cut takes, when it is one of revolution.
    #[must_use]
    pub fn revolved(&self, cut: usize) -> Option<&Revolved> {
        self.solid.removals.iter().find(|r| r.cut == cut).and_then(|r| match &r.region {
            Region::Revolved(revolved) => Some(revolved),
            Region::Sawn(_) | Region::HalfSpace(_) => None,
        })
    }
}

fn stock(design: &Design) -> Result<Stock, PieceError> {
    let section = match design.blank.section {
        BlankSection::Square { side_mm } => Section::Square { half_side: side_mm / 2.0 },
        BlankSection::Round { diameter_mm } => Section::Round { radius: diameter_mm / 2.0 },
    };
    let stock = Stock { section, length: design.blank.length_mm };
    let sound = |v: f64| v.is_finite() && v > 0.0;
    if sound(stock.half_width()) && sound(stock.length) { Ok(stock) } else { Err(PieceError::Blank) }
}

/// The plugs of a design, each with the cut that fits it.
pub(crate) fn plugs(design: &Design) -> impl Iterator<Item = (usize, &Plug)> {
    design.cuts.iter().enumerate().filter_map(|(cut, choice)| match choice {
        Cut::FitPlug(plug) => Some((cut, plug)),
        _ => None,
    })
}

fn fitted_plugs(design: &Design) -> Result<Vec<FittedPlug>, PieceError> {
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

/// Station of the tail face, in mm: as far as a plug stands out, or 0.
fn tail_face(design: &Design) -> f64 {
    -plugs(design).map(|(_, plug)| plug.stands_out_mm()).fold(0.0, f64::max)
}

/// The axes of a design, A first.
pub(super) fn placed_axes(design: &Design) -> Result<Vec<Axis>, PieceError> {
    let tail_face = tail_face(design);
    let mut axes = vec![Axis::A];
    for (i, choice) in design.axes.iter().enumerate() {
        let name = AxisName::from_index(i + 1).unwrap_or(AxisName::A);
        let placed = place_axis(choice, tail_face, design.blank.length_mm);
        axes.push(placed.map_err(|source| PieceError::Axis { axis: name, source })?);
    }
    Ok(axes)
}

/// Unit direction in the (x, y) plane for a clock direction as held, in degrees.
fn clock_direction(clock_deg: f64) -> (f64, f64) {
    let (sin, cos) = clock_deg.to_radians().sin_cos();
    (sin, cos)
}

fn place_axis(choice: &AxisChoice, tail_face: f64, head_face: f64) -> Result<Axis, AxisError> {
    match *choice {
        AxisChoice::Marks { tail_x_mm, tail_y_mm, head_x_mm, head_y_mm } => {
            Axis::through(Vector::new(tail_x_mm, tail_y_mm, tail_face), Vector::new(head_x_mm, head_y_mm, head_face))
        }
        AxisChoice::Tilt { tilt_deg, toward_deg, crossing_mm } => {
            let (x, y) = clock_direction(toward_deg);
            let (sin, cos) = tilt_deg.to_radians().sin_cos();
            let along = Vector::new(x * sin, y * sin, cos);
            let offset = -crossing_mm * sin / cos;
            Axis::new(Vector::new(x * offset, y * offset, 0.0), along)
        }
        AxisChoice::Across { station_mm, from_deg } => {
            let (x, y) = clock_direction(from_deg);
            Axis::new(Vector::new(0.0, 0.0, station_mm), Vector::new(-x, -y, 0.0))
        }
    }
}

/// What one cut takes; `None` for a plug, and for a pass whose profile is still to be proposed.
type Taken = Option<(Region, Role)>;

fn region(cut: usize, choice: &Cut, axes: &[Axis]) -> Result<Taken, PieceError> {
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

/// The profile of a hollow as nodes, stations counted from its mouth.
#[must_use]
pub fn hollow_nodes(shape: &HollowShape) -> Vec<Node> {
    match shape {
        HollowShape::Drawn { nodes } => nodes.clone(),
        HollowShape::RoundEnded { diameter_mm, depth_mm, rounding_mm } => {
            // A quarter round stands off its chord by r (1 - cos 45 deg).
            let rounding = rounding_mm.clamp(0.0, (diameter_mm / 2.0).min(*depth_mm).max(0.0));
            let bulge = rounding * (1.0 - std::f64::consts::FRAC_1_SQRT_2);
            vec![
                Node::line(0.0, *diameter_mm),
                Node::arc((depth_mm - rounding).max(0.0), *diameter_mm, bulge),
                Node::line(*depth_mm, (diameter_mm - 2.0 * rounding).max(0.0)),
            ]
        }
    }
}

pub(super) fn geometry_nodes(nodes: &[Node], shift: f64) -> Vec<(f64, f64, Segment)> {
    let segment = |curve: Curve| match curve {
        Curve::Line => Segment::Line,
        Curve::Arc { bulge_mm } => Segment::Arc { bulge: bulge_mm },
        Curve::Ogee => Segment::Ogee,
    };
    nodes.iter().map(|n| (n.at_mm + shift, n.diameter_mm / 2.0, segment(n.curve))).collect()
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
