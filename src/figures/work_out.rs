//! Every figure and check of a design.

use std::sync::Arc;

use super::parts::Parts;
use super::report::Worked;
use super::shape::{FiguresError, Shape, check};
use crate::design::{Design, Shop};
use crate::geometry::{Pace, at_once};
use crate::piece::Piece;

/// Works out everything about a design at once, on two threads where there are threads.
///
/// # Errors
/// [`FiguresError`]: every problem of the document at once, or the first thing that has no geometry.
pub fn work_out(design: &Design, shop: &Shop) -> Result<Worked, FiguresError> {
    let piece = Arc::new(at_once(sound_piece_in_slices(design, shop, &Pace::unbroken()))?);
    Ok(Parts::of(design.clone(), shop.clone(), piece).finish().2)
}

/// As [`work_out`], in slices and on one thread.
///
/// # Errors
/// As [`work_out`].
pub async fn work_out_in_slices(design: &Design, shop: &Shop, pace: &Pace) -> Result<Worked, FiguresError> {
    let piece = Arc::new(sound_piece_in_slices(design, shop, pace).await?);
    let parts = Parts::of(design.clone(), shop.clone(), piece.clone());
    let shape = Arc::new(Shape::without_walls(design, shop, piece));
    Ok(parts.in_slices(shape, pace).await.finish().2)
}

/// The geometry of a design without problems, in a shop without problems, in slices.
///
/// # Errors
/// As [`work_out`].
pub async fn sound_piece_in_slices(design: &Design, shop: &Shop, pace: &Pace) -> Result<Piece, FiguresError> {
    check(design, shop)?;
    Ok(Piece::resolve_in_slices(design, &design.limits.over(&shop.limits), pace).await?)
}
