//! What a design looks like, and how thick it is: all that the drawing board needs at once, worked out in a fraction of
//! the time that every figure takes.

use std::pin::pin;
use std::sync::Arc;
use std::task::Poll;

use thiserror::Error;

use super::boring::{Boring, schedules};
use super::checks::Words;
use super::fin::{Fin, fins};
use super::handle::handle_tilt_deg;
use super::marks::{AxisMarks, marks};
use super::wall::{Wall, WallPoint, walls_in_slices};
use crate::design::entry::Units;
use crate::design::validation::Problem;
use crate::design::validation::weight::too_big;
use crate::design::{Design, Shop};
use crate::geometry::line::pace::poll_once;
use crate::geometry::{Pace, at_once};
use crate::piece::{Piece, PieceError};

/// The shape of a design.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// The geometry.
    pub piece: Arc<Piece>,
    /// The marks of every axis.
    pub marks: Vec<AxisMarks>,
    /// The boring schedule of each hollow.
    pub borings: Vec<Boring>,
    /// The wall and the floor of each hollow.
    pub walls: Vec<Wall>,
    /// Rough wood between passes.
    pub fins: Vec<Fin>,
    /// The angle of the handle to axis A, in degrees; 0 for a handle along axis A.
    pub handle_tilt_deg: f64,
    /// What of the figures is left out of it.
    pub extent: Extent,
}

/// How much of a shape is worked out.
#[derive(Clone, Debug, PartialEq)]
pub enum Extent {
    /// All of it.
    Whole,
    /// Not the walls: they take so long that they are worked out in slices.
    WithoutWalls,
    /// Not the walls, nor what passes that follow the join take, for the same reason.
    WithoutJoins,
    /// The same, and there is too much in the design for its figures to be worked out.
    TooBig(Problem),
}

/// Why a design has no figures.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum FiguresError {
    /// The document has problems.
    #[error("{}", told(.0, Units::default()))]
    Problems(Vec<Problem>),
    /// It has no geometry.
    #[error(transparent)]
    Piece(#[from] PieceError),
}

impl FiguresError {
    /// Why `design` has none, with lengths in these units.
    #[must_use]
    pub fn told(&self, design: &Design, units: Units) -> String {
        match self {
            Self::Problems(problems) => told(problems, units),
            Self::Piece(error) => error.told(design, units),
        }
    }
}

fn told(problems: &[Problem], units: Units) -> String {
    problems.iter().map(|problem| problem.told(units)).collect::<Vec<_>>().join(" ")
}

/// Works out the shape of a design.
///
/// # Errors
/// [`FiguresError`]: every problem of the document at once, or the first thing that has no geometry.
pub fn shape(design: &Design, shop: &Shop) -> Result<Shape, FiguresError> {
    check(design, shop)?;
    let piece = Piece::resolve(design, &design.limits.over(&shop.limits))?;
    Ok(Shape::of(design, shop, Arc::new(piece)))
}

/// Works out the shape of a design without doing much more than so many units of [work](crate::geometry::Pace): of a design
/// with more to it, all but the walls.
///
/// # Errors
/// As [`shape`].
pub fn shape_within(design: &Design, shop: &Shop, units: u64) -> Result<Shape, FiguresError> {
    check(design, shop)?;
    outline_within(design, shop, units).map(|outline| outline.with_walls_within(units))
}

/// As [`shape_within`], all but the walls whatever there is to it: what a first drawing needs. The shop is not judged: the
/// page keeps and changes only sound ones, and figures judge it again.
///
/// # Errors
/// [`FiguresError`]: every problem of the design at once, or the first thing that has no geometry.
pub fn outline_within(design: &Design, shop: &Shop, units: u64) -> Result<Shape, FiguresError> {
    none(design.problems())?;
    if let Some(problem) = too_big(design) {
        let piece = Piece::resolve_drawn(design)?;
        return Ok(Shape { extent: Extent::TooBig(problem), ..Shape::without_walls(design, shop, Arc::new(piece)) });
    }
    let (piece, is_joined) = Piece::resolve_within(design, &design.limits.over(&shop.limits), units)?;
    let shape = Shape::without_walls(design, shop, Arc::new(piece));
    let extent = if is_joined { Extent::WithoutWalls } else { Extent::WithoutJoins };
    Ok(Shape { extent, ..shape })
}

/// That a design and a shop have no problems.
pub(super) fn check(design: &Design, shop: &Shop) -> Result<(), FiguresError> {
    let mut problems = design.problems();
    problems.extend(shop.problems());
    none(problems)
}

fn none(problems: Vec<Problem>) -> Result<(), FiguresError> {
    if problems.is_empty() { Ok(()) } else { Err(FiguresError::Problems(problems)) }
}

impl Shape {
    /// Of a piece that is this design's in this shop.
    pub(super) fn of(design: &Design, shop: &Shop, piece: Arc<Piece>) -> Self {
        let shape = Self::without_walls(design, shop, piece);
        let walls = at_once(shape.walled(&Pace::unbroken()));
        Self { walls, extent: Extent::Whole, ..shape }
    }

    /// With its walls, where nothing else is missing and they take no more than so many units of work.
    #[must_use]
    pub fn with_walls_within(self, units: u64) -> Self {
        if self.extent != Extent::WithoutWalls {
            return self;
        }
        let pace = Pace::in_slices(units);
        let walls = poll_once(pin!(self.walled(&pace)));
        match walls {
            Poll::Ready(walls) => Self { walls, extent: Extent::Whole, ..self },
            Poll::Pending => self,
        }
    }

    /// The whole of it, of a design and a shop without problems, in slices.
    pub(super) async fn in_slices(self: Arc<Self>, design: &Design, shop: &Shop, pace: &Pace) -> Arc<Self> {
        if self.extent == Extent::Whole {
            return self;
        }
        let shape = self.joined(design, shop, pace).await;
        let walls = shape.walled(pace).await;
        Arc::new(Self { walls, extent: Extent::Whole, ..shape })
    }

    /// The whole of it with walls that were worked out elsewhere, of this design in this shop, in slices.
    pub(super) async fn walled_as(
        self: Arc<Self>,
        walls: Vec<Wall>,
        design: &Design,
        shop: &Shop,
        pace: &Pace,
    ) -> Arc<Self> {
        if self.extent == Extent::Whole {
            return self;
        }
        let shape = self.joined(design, shop, pace).await;
        Arc::new(Self { walls, extent: Extent::Whole, ..shape })
    }

    /// All but the walls, with what passes that follow the join take, in slices.
    async fn joined(&self, design: &Design, shop: &Shop, pace: &Pace) -> Self {
        match self.extent {
            Extent::Whole | Extent::WithoutWalls => self.clone(),
            Extent::WithoutJoins | Extent::TooBig(_) => {
                let piece = Piece::resolve_in_slices(design, &design.limits.over(&shop.limits), pace).await;
                // A sound design has geometry: else the shape as it is drawn stands.
                let piece = piece.map_or_else(|_| self.piece.clone(), Arc::new);
                Self::without_walls(design, shop, piece)
            }
        }
    }

    /// The walls, in slices.
    async fn walled(&self, pace: &Pace) -> Vec<Wall> {
        let deepest_point = |cut: usize| self.borings.iter().find(|b| b.cut == cut).map(|b| b.deepest_point_mm);
        walls_in_slices(&self.piece, deepest_point, pace).await
    }

    /// All but the walls.
    pub(super) fn without_walls(design: &Design, shop: &Shop, piece: Arc<Piece>) -> Self {
        let borings = schedules(design, &piece, shop);
        let marks = marks(design, &piece, &shop.centres);
        let handle_tilt_deg = handle_tilt_deg(design, &marks);
        let (walls, fins, extent) = (Vec::new(), fins(design, &piece), Extent::WithoutWalls);
        Self { marks, borings, walls, fins, handle_tilt_deg, piece, extent }
    }

    /// The thinnest wall of any hollow; `None` without one.
    #[must_use]
    pub fn thinnest_wall(&self) -> Option<&WallPoint> {
        thinnest(&self.walls)
    }

    /// The thinnest wall in words, or that something has broken through, and where; `None` without a hollow.
    #[must_use]
    pub fn wall_in_words(&self, words: Words) -> Option<String> {
        wall_in_words(&self.walls, words)
    }

    /// The wall of the hollow that this cut takes out, or of the first hollow where it takes none; `None` without one.
    #[must_use]
    pub fn wall_of(&self, cut: Option<usize>) -> Option<&Wall> {
        self.walls.iter().find(|wall| Some(wall.cut) == cut).or(self.walls.first())
    }

    /// The angle of the handle to axis A, in degrees; `None` for a handle along axis A.
    #[must_use]
    pub fn handle_deg(&self) -> Option<f64> {
        (self.handle_tilt_deg > 0.0).then_some(self.handle_tilt_deg)
    }
}

fn thinnest(walls: &[Wall]) -> Option<&WallPoint> {
    walls.iter().filter_map(|wall| wall.least.as_ref()).min_by(|a, b| a.wall_mm.total_cmp(&b.wall_mm))
}

/// The thinnest of these walls in words, or that something has broken through, and where; `None` without a hollow.
#[must_use]
pub fn wall_in_words(walls: &[Wall], words: Words) -> Option<String> {
    let broken = walls.iter().find_map(|wall| wall.breakthroughs.first()).map(|it| &it.deepest);
    let least = thinnest(walls);
    match broken.or_else(|| least.filter(|wall| wall.wall_mm < 0.0)) {
        Some(point) => Some(format!("broken through, {}", words.place(&point.place))),
        None => least.map(|wall| words.length(wall.wall_mm)),
    }
}

#[cfg(test)]
mod tests {
    use super::shape;
    use crate::design::{Shop, starters};

    #[test]
    fn the_example_has_a_wall_and_an_angle() {
        let shape = shape(&starters::demo(), &Shop::default()).unwrap();
        let wall = shape.thinnest_wall().unwrap();
        assert!(shape.walls.iter().filter_map(|it| it.least).all(|least| wall.wall_mm <= least.wall_mm));
        assert!(shape.handle_deg().is_some_and(|deg| deg > 0.0));
    }

    #[test]
    fn a_straight_handle_has_no_angle() {
        let shape = shape(&starters::bored_end_scoop_straight(), &Shop::default()).unwrap();
        assert_eq!(shape.handle_deg(), None);
    }
}
