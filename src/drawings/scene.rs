//! What the side view shows, as plain data: everything in mm in the side view (s, y), nothing about the sheet.

use super::bar::{WallBar, wall_bar};
use super::frame::{Bounds, Point};
use super::handles::{Handle, HandleId, handles};
use crate::design::nodes::hollow_nodes;
use crate::design::{AxisName, Cut, Design, Pass, PassProfile, Shop, Units};
use crate::figures::Shape;
use crate::figures::checks::BROKEN_THROUGH;
use crate::figures::fin::Fin;
use crate::form::moves;
use crate::geometry::plane::section::{region_outlines, section};
use crate::geometry::{Axis, FLATTENING, Fill, Meridian, Outline, Plane, Region, Revolved, Role, Solid, State, Vector};
use crate::piece::Piece;
use crate::piece::join::{JoinLine, JoinStation};

/// A thickness of what is left, in mm, as text without its unit: never negative.
#[must_use]
pub fn thickness(mm: f64, lengths: Units) -> String {
    if mm < 0.0 { BROKEN_THROUGH.to_owned() } else { lengths.bare(mm) }
}

/// An axis in the side view.
#[derive(Clone, Debug, PartialEq)]
pub struct AxisLine {
    /// Its place in A, B, C...
    pub index: usize,
    /// Its letter.
    pub letter: char,
    /// Where it leaves the work at either end.
    pub ends: [Point; 2],
    /// Its angle to axis A, in degrees.
    pub tilt_deg: f64,
}

/// The shapes a first pass is turned to before another axis takes its share.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct JoinShape {
    /// The straight tapers, above the axis and below it; in parts where they are not needed everywhere.
    pub tapers: Vec<Vec<Point>>,
    /// What later passes need, above the axis and below it; in parts where it is not needed everywhere.
    pub leave: Vec<Vec<Point>>,
}

/// A place with a word beside it.
#[derive(Clone, Debug, PartialEq)]
pub struct Note {
    /// Where.
    pub at: Point,
    /// What it says.
    pub words: String,
}

/// The end plane of a pass, seen edge on: two short lines outside the wood.
pub type Boundary = [[Point; 2]; 2];

/// A dimension along the blank.
#[derive(Clone, Debug, PartialEq)]
pub struct Measure {
    /// Where it starts and ends.
    pub between: [Point; 2],
    /// What it says.
    pub words: String,
}

/// What the side view shows.
#[derive(Clone, Debug, PartialEq)]
pub struct SideScene {
    /// The blank.
    pub stock: Vec<Vec<Point>>,
    /// Plugs, in the state before they are taken out.
    pub plugs: Vec<Vec<Point>>,
    /// The finished piece cut at x = 0; outer outlines one way round, holes the other.
    pub wood: Vec<Vec<Point>>,
    /// Every hollow cut at x = 0, to its mouth.
    pub hollows: Vec<Vec<Point>>,
    /// The axes that can be seen as lines.
    pub axes: Vec<AxisLine>,
    /// Saw lines, between their ends.
    pub saws: Vec<Vec<Point>>,
    /// Joins.
    pub joins: Vec<JoinShape>,
    /// Where passes begin and end.
    pub boundaries: Vec<Boundary>,
    /// Names of the passes, each under its middle.
    pub names: Vec<Note>,
    /// Lengths of the finished piece and depths of its bores.
    pub measures: Vec<Measure>,
    /// Fins of rough wood.
    pub fins: Vec<Note>,
    /// The thinnest wall.
    pub thin_wall: Option<WallBar>,
    /// What can be dragged.
    pub handles: Vec<Handle>,
    /// The handle that is held or has the focus.
    pub chosen: Option<HandleId>,
    /// All of the cut that the chosen handle belongs to.
    pub chosen_part: Vec<Vec<Point>>,
    /// The station of the section that is looked at, in mm.
    pub station_mm: Option<f64>,
    /// How lengths are written.
    pub lengths: Units,
}

/// How far the chords of drawn curves may stand off, in mm. Half a pixel at the closest useful view.
pub(super) const DRAWN_TOLERANCE: f64 = 0.03;

impl SideScene {
    /// What the side view of a design shows; `piece` is the design resolved.
    ///
    /// Fins and the thinnest wall are figures of their own and are added by [`Self::with_fins`] and in
    /// [`Self::thin_wall`]; the chosen handle and the station are the screen's to set.
    #[must_use]
    pub fn new(design: &Design, piece: &Piece, lengths: Units) -> Self {
        let solid = &piece.solid;
        let half = solid.stock.half_width();
        let wood = rings_at_x_0(&solid.finished());
        let along = Bounds::around(wood.iter().flatten().copied());
        Self {
            stock: vec![rectangle(Point::new(0.0, -half), Point::new(solid.stock.length, half))],
            plugs: plugs(piece),
            hollows: hollows(piece),
            axes: axes(piece),
            saws: saws(piece),
            joins: joins(design, piece),
            boundaries: boundaries(design, piece),
            names: names(design, piece),
            measures: measures(design, along, lengths),
            fins: Vec::new(),
            thin_wall: None,
            handles: handles(design, piece),
            chosen: None,
            chosen_part: Vec::new(),
            station_mm: None,
            lengths,
            wood,
        }
    }

    /// Everything the side view shows of a design.
    #[must_use]
    pub fn of(design: &Design, shape: &Shape, shop: &Shop) -> Self {
        let mut scene = Self::new(design, &shape.piece, Units::from(shop)).with_fins(&shape.fins);
        let limit_mm = design.limits.over(&shop.limits).wall_mm;
        let bar = |wall| wall_bar(&shape.piece.solid, wall, limit_mm, |point| Point::new(point.s, point.y));
        scene.thin_wall = shape.thinnest_wall().map(bar);
        scene
    }

    /// With every fin marked at its place.
    #[must_use]
    pub fn with_fins(mut self, fins: &[Fin]) -> Self {
        let note = |fin: &Fin| {
            let clock = fin.place.clock_deg.unwrap_or(0.0).to_radians();
            let at = Point::new(fin.place.station_mm, fin.place.radius_mm * clock.cos());
            Note { at, words: format!("fin {}", self.lengths.bare(fin.length_mm)) }
        };
        self.fins = fins.iter().map(note).collect();
        self
    }

    /// Everything that should be seen, in mm.
    #[must_use]
    pub fn bounds(&self) -> Bounds {
        let rings = self.stock.iter().chain(&self.plugs).flatten().copied();
        let axes = self.axes.iter().flat_map(|a| a.ends);
        Bounds::around(rings.chain(axes))
    }
}

fn rectangle(low: Point, high: Point) -> Vec<Point> {
    vec![low, Point::new(high.x, low.y), high, Point::new(low.x, high.y)]
}

/// The outlines of wood in the side view.
pub(super) fn rings_at_x_0(state: &State<'_>) -> Vec<Vec<Point>> {
    points(&section(state, &Plane::side_view(), DRAWN_TOLERANCE).outlines)
}

/// Outlines as rings of points.
pub(super) fn points(outlines: &[Outline]) -> Vec<Vec<Point>> {
    outlines.iter().map(|outline| outline.points.iter().map(|p| Point::new(p[0], p[1])).collect()).collect()
}

/// The hollows, each cut off at its mouth: beyond it there is no wood to hollow.
pub(super) fn closed_hollows(solid: &Solid) -> impl Iterator<Item = Region> {
    solid.with_role(Role::Inside).filter_map(|removal| match &removal.region {
        Region::Revolved(revolved) => Some(Region::Revolved(Revolved { fill: Fill::Within, ..revolved.clone() })),
        Region::Sawn(_) | Region::HalfSpace(_) => None,
    })
}

fn plugs(piece: &Piece) -> Vec<Vec<Point>> {
    let outline = |plug: &crate::geometry::FittedPlug| {
        let up = plug.body.meridian.points().iter().map(|p| Point::new(p.t, p.r));
        let down = plug.body.meridian.points().iter().rev().map(|p| Point::new(p.t, -p.r));
        up.chain(down).collect()
    };
    piece.solid.plugs.iter().map(outline).collect()
}

fn hollows(piece: &Piece) -> Vec<Vec<Point>> {
    let state = piece.solid.state(0);
    closed_hollows(&piece.solid)
        .flat_map(|region| points(&region_outlines(&region, &state, &Plane::side_view(), DRAWN_TOLERANCE)))
        .collect()
}

fn axes(piece: &Piece) -> Vec<AxisLine> {
    let named = piece.axes.iter().enumerate().filter_map(|(i, axis)| Some((i, AxisName::from_index(i)?, axis)));
    named
        .filter_map(|(index, name, axis)| {
            let ends = axis_ends(piece, axis)?;
            Some(AxisLine { index, letter: name.letter(), ends, tilt_deg: axis.tilt().to_degrees() })
        })
        .collect()
}

/// Where an axis leaves the work: at the two faces, or at the sides of the blank for an axis across it.
fn axis_ends(piece: &Piece, axis: &Axis) -> Option<[Point; 2]> {
    if let (Some(tail), Some(head)) = (axis.centre(piece.tail_face), axis.centre(piece.head_face)) {
        return Some([Point::new(tail.s, tail.y), Point::new(head.s, head.y)]);
    }
    let half = piece.solid.stock.half_width();
    let (origin, along) = (axis.origin(), axis.along());
    // Seen end on, it is no line.
    (along.y.abs() > 0.1).then(|| {
        let reach = half / along.y.abs();
        [-reach, reach].map(|t| {
            let Vector { y, s, .. } = origin + along * t;
            Point::new(s, y)
        })
    })
}

fn saws(piece: &Piece) -> Vec<Vec<Point>> {
    let sawn = piece.solid.removals.iter().filter_map(|removal| match &removal.region {
        Region::Sawn(sawn) => Some(sawn),
        Region::Revolved(_) | Region::HalfSpace(_) => None,
    });
    // The first point lies far off; the drawn line begins with the second.
    sawn.map(|sawn| sawn.points().iter().skip(1).copied().collect()).collect()
}

/// All that is seen of the surface that a cut makes: a profile on both sides of its axis, a saw line, an end plane.
#[must_use]
pub fn part_lines(piece: &Piece, cut: usize) -> Vec<Vec<Point>> {
    let widest = piece.solid.stock.largest_radius();
    let of_region = |region: &Region| match region {
        Region::Revolved(turned) => Vec::from([1.0, -1.0].map(|side| {
            let points = turned.meridian.points().iter();
            points.map(|at| moves::shown(&turned.axis, at.t, side * at.r.min(widest))).collect()
        })),
        Region::Sawn(sawn) => vec![sawn.points().iter().skip(1).copied().collect()],
        Region::HalfSpace(half) => {
            // The plane crosses the middle of the blank where its distance is met, and runs square to its direction.
            let (s, y) = (half.into.s, half.into.y);
            let middle = if s.abs() > 1e-6 { half.offset / s } else { 0.0 };
            vec![[widest, -widest].map(|along| Point::new(middle - along * y, along * s)).to_vec()]
        }
    };
    piece.solid.removals.iter().filter(|removal| removal.cut == cut).flat_map(|it| of_region(&it.region)).collect()
}

fn joins(design: &Design, piece: &Piece) -> Vec<JoinShape> {
    piece.joins.iter().filter_map(|line| join_shape(design, piece, line)).collect()
}

/// A pass that follows the join shows its tapers whole; one that is drawn shows them only where something needs them.
fn join_shape(design: &Design, piece: &Piece, line: &JoinLine) -> Option<JoinShape> {
    let axis = piece.revolved(line.cut)?.axis;
    let widest = piece.solid.stock.half_width();
    let chains = |points: &[Point]| -> [Vec<Point>; 2] {
        [1.0, -1.0].map(|side| points.iter().map(|p| moves::shown(&axis, p.x, side * p.y.min(widest))).collect())
    };
    let follows = matches!(design.cuts.get(line.cut), Some(Cut::Pass(Pass { profile: PassProfile::Join, .. })));
    let tapers = if follows {
        Vec::from(chains(&line.tapers.iter().copied().map(Point::from).collect::<Vec<_>>()))
    } else {
        let turned = Meridian::new(line.tapers.clone()).ok();
        parts(line, |s| Some(turned.as_ref()?.radius_before(s.t)).filter(|_| s.join > 0.0))
            .flat_map(|p| chains(&p))
            .collect()
    };
    Some(JoinShape { tapers, leave: parts(line, |s| s.leave).flat_map(|p| chains(&p)).collect() })
}

/// The stretches of a join where there is a radius, as chains of (t, radius).
fn parts(line: &JoinLine, radius: impl Fn(&JoinStation) -> Option<f64>) -> impl Iterator<Item = Vec<Point>> {
    let mut parts = vec![Vec::new()];
    for station in &line.stations {
        match (radius(station), parts.last_mut()) {
            (Some(r), Some(part)) => part.push(Point::new(station.t, r)),
            _ => parts.push(Vec::new()),
        }
    }
    parts.into_iter().filter(|part| part.len() > 1)
}

/// How far a boundary stands off the wood, and how long it is, in mm.
const BOUNDARY: (f64, f64) = (1.5, 7.0);

fn boundaries(design: &Design, piece: &Piece) -> Vec<Boundary> {
    passes(design, piece)
        .flat_map(|(_, region)| {
            let chain = &region.meridian;
            [(chain.start(), chain.radius_after(chain.start())), (chain.end(), chain.radius_before(chain.end()))].map(
                |(t, radius)| {
                    [1.0, -1.0].map(|side| {
                        [BOUNDARY.0, BOUNDARY.0 + BOUNDARY.1]
                            .map(|off| moves::shown(&region.axis, t, side * (radius + off)))
                    })
                },
            )
        })
        .collect()
}

fn names(design: &Design, piece: &Piece) -> Vec<Note> {
    let plugs = piece.solid.plugs.iter().map(|plug| {
        let chain = &plug.body.meridian;
        Note { at: Point::new(chain.start() / 2.0, -chain.largest_radius()), words: "plug".to_owned() }
    });
    let passes = passes(design, piece).filter(|(name, _)| !name.trim().is_empty()).map(|(name, region)| {
        let chain = &region.meridian;
        let t = f64::midpoint(chain.start(), chain.end());
        let words = name.trim().chars().take(24).collect();
        Note { at: moves::shown(&region.axis, t, -chain.radius_after(t)), words }
    });
    passes.chain(plugs).collect()
}

fn passes<'a>(design: &'a Design, piece: &'a Piece) -> impl Iterator<Item = (&'a str, &'a Revolved)> {
    design.cuts.iter().enumerate().filter_map(|(cut, choice)| match choice {
        Cut::Pass(pass) => Some((pass.name.as_str(), piece.revolved(cut)?)),
        _ => None,
    })
}

/// The length of the finished piece, and the depth of every bore along the blank.
fn measures(design: &Design, along: Bounds, lengths: Units) -> Vec<Measure> {
    let Some((length, _)) = along.size() else { return Vec::new() };
    let top = along.high.y;
    let bores = design.cuts.iter().filter_map(|cut| match cut {
        Cut::Hollow(hollow) if hollow.axis == AxisName::A => {
            let depth = hollow_nodes(&hollow.shape).last()?.at_mm;
            let between = [Point::new(hollow.mouth_mm, top), Point::new(hollow.mouth_mm + depth, top)];
            Some(Measure { between, words: format!("{} deep", lengths.bare(depth)) })
        }
        _ => None,
    });
    let whole =
        Measure { between: [Point::new(along.low.x, top), Point::new(along.high.x, top)], words: lengths.bare(length) };
    bores.chain([whole]).collect()
}

/// A saw line, a hollow and so on are flattened by the geometry already.
const _: () = assert!(FLATTENING <= DRAWN_TOLERANCE);
