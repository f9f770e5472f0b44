//! What a design looks like, and how thick it is: all that the drawing board needs at once, worked out in a fraction of
//! the time that every figure takes.

use std::sync::Arc;

use thiserror::Error;

use super::boring::{Boring, schedules};
use super::checks::Words;
use super::fin::{Fin, fins};
use super::handle::handle_tilt_deg;
use super::marks::{AxisMarks, marks};
use super::wall::{Wall, WallPoint, walls};
use crate::design::entry::Units;
use crate::design::validation::Problem;
use crate::design::{Design, Piece, PieceError, Shop};

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
    /// Why, with lengths in these units.
    #[must_use]
    pub fn told(&self, units: Units) -> String {
        match self {
            Self::Problems(problems) => told(problems, units),
            Self::Piece(error) => error.told(units),
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
    Ok(Shape::of(design, shop, Arc::new(sound_piece(design, shop)?)))
}

/// The geometry of a design without problems, in a shop without problems.
pub(super) fn sound_piece(design: &Design, shop: &Shop) -> Result<Piece, FiguresError> {
    let mut problems = design.problems();
    problems.extend(shop.problems());
    if !problems.is_empty() {
        return Err(FiguresError::Problems(problems));
    }
    Ok(Piece::resolve(design, &design.limits.over(&shop.limits))?)
}

impl Shape {
    /// Of a piece that is this design's in this shop.
    pub(super) fn of(design: &Design, shop: &Shop, piece: Arc<Piece>) -> Self {
        let borings = schedules(design, &piece, shop);
        let deepest_point = |cut: usize| borings.iter().find(|b| b.cut == cut).map(|b| b.deepest_point_mm);
        let walls = walls(&piece, deepest_point);
        let marks = marks(design, &piece, &shop.centres);
        let handle_tilt_deg = handle_tilt_deg(design, &marks);
        Self { marks, borings, walls, fins: fins(design, &piece), handle_tilt_deg, piece }
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
