//! Every figure and check of a design at once.

use std::sync::Arc;

use super::parts::Parts;
use super::report::Worked;
use super::shape::{FiguresError, sound_piece};
use crate::design::{Design, Shop};

/// Works out everything about a design.
///
/// # Errors
/// [`FiguresError`]: every problem of the document at once, or the first thing that has no geometry.
pub fn work_out(design: &Design, shop: &Shop) -> Result<Worked, FiguresError> {
    let piece = Arc::new(sound_piece(design, shop)?);
    let (_, _, worked) = Parts::of(design.clone(), shop.clone(), piece).finish();
    Ok(worked)
}
