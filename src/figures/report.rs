//! Every figure and check of a design, computed once and shared by every view.

use serde::Serialize;
use thiserror::Error;

use super::boring::{Boring, schedules};
use super::checks::{Check, checks};
use super::clean_up::{CleanUp, clean_ups};
use super::fin::{Fin, fins};
use super::leave::{Join, NearestStart, joins, nearest_starts};
use super::marks::{AxisMarks, marks};
use super::wall::{Wall, walls};
use crate::design::validation::Problem;
use crate::design::{Design, Piece, PieceError, Shop};

/// The figures of a design.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Figures {
    /// Figure 1: the marks of every axis.
    pub marks: Vec<AxisMarks>,
    /// Figure 2: what each pass must leave.
    pub joins: Vec<Join>,
    /// Figure 2: how near to the bowl later passes may start.
    pub nearest_starts: Vec<NearestStart>,
    /// Figure 2: rough wood between passes.
    pub fins: Vec<Fin>,
    /// Figure 3: how each pass cleans up.
    pub clean_ups: Vec<CleanUp>,
    /// Figure 4: the wall and the floor of each hollow.
    pub walls: Vec<Wall>,
    /// Figure 8: the boring schedule of each hollow.
    pub borings: Vec<Boring>,
}

/// A design worked out: its geometry, figures and checks.
#[derive(Clone, Debug, PartialEq)]
pub struct Worked {
    /// The geometry.
    pub piece: Piece,
    /// The figures.
    pub figures: Figures,
    /// The checks, the worst first.
    pub checks: Vec<Check>,
}

/// Why a design has no figures.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum FiguresError {
    /// The document has problems.
    #[error("{}", .0.iter().map(ToString::to_string).collect::<Vec<_>>().join(" "))]
    Problems(Vec<Problem>),
    /// It has no geometry.
    #[error(transparent)]
    Piece(#[from] PieceError),
}

/// Works out everything about a design.
///
/// # Errors
/// [`FiguresError`]: every problem of the document at once, or the first thing that has no geometry.
pub fn work_out(design: &Design, shop: &Shop) -> Result<Worked, FiguresError> {
    let mut problems = design.problems();
    problems.extend(shop.problems());
    if !problems.is_empty() {
        return Err(FiguresError::Problems(problems));
    }
    let limits = design.limits.over(&shop.limits);
    let piece = Piece::resolve(design, &limits)?;
    let borings = schedules(design, &piece, shop);
    let deepest_point = |cut: usize| borings.iter().find(|b| b.cut == cut).map(|b| b.deepest_point_mm);
    let figures = Figures {
        walls: walls(&piece, deepest_point),
        marks: marks(design, &piece, &shop.centres),
        joins: joins(design, &piece),
        nearest_starts: nearest_starts(design, &piece, &limits),
        fins: fins(design, &piece),
        clean_ups: clean_ups(design, &piece),
        borings,
    };
    let checks = checks(design, &piece, shop, &figures);
    Ok(Worked { piece, figures, checks })
}
