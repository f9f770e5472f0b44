//! The few numbers that are always in sight.

use serde::Serialize;

use super::blank::Blank;
use super::hold::Hold;
use super::known::Known;
use super::shape::Shape;
use super::tables::Content;
use crate::design::Design;

/// The few numbers that matter most.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Summary {
    /// What it holds of its contents level with its handle, in mL: dry goods struck, a liquid as it stands. Heaped and at
    /// the best pitch it may hold more: see the hold.
    pub holds_ml: Option<f64>,
    /// The same in g of its contents.
    pub holds_g: Option<f64>,
    /// The thinnest wall of any hollow, in mm; negative where something has come through.
    pub wall_min_mm: Option<f64>,
    /// The thinnest floor of any hollow, in mm.
    pub floor_min_mm: Option<f64>,
    /// The tilt of the handle's axis, in degrees: of the last pass on a tilted axis; 0 when there is none.
    pub handle_tilt_deg: f64,
    /// The least side of a square blank, in mm.
    pub blank_side_min_mm: f64,
    /// Length of the blank, in mm.
    pub blank_length_mm: f64,
    /// Volume of the finished piece, in mL.
    pub piece_ml: f64,
}

impl Summary {
    /// Picks the few numbers out of the figures.
    #[must_use]
    pub fn of(design: &Design, shape: &Shape, hold: &Known<Hold>, blank: &Blank) -> Self {
        let holds_mm3 = hold.value().map(|hold| holds_mm3(design, hold));
        let content = Content::named(&design.contents);
        let floors_mm = shape.walls.iter().filter_map(|wall| Some(wall.floor?.least.wall_mm));
        Self {
            holds_ml: holds_mm3.map(|mm3| mm3 / 1000.0),
            holds_g: holds_mm3.zip(content).map(|(mm3, content)| content.grams(mm3)),
            wall_min_mm: shape.thinnest_wall().map(|wall| wall.wall_mm),
            floor_min_mm: floors_mm.reduce(f64::min),
            handle_tilt_deg: shape.handle_tilt_deg,
            blank_side_min_mm: blank.least_square_side_mm,
            blank_length_mm: blank.length_mm,
            piece_ml: blank.finished_ml,
        }
    }
}

/// What it holds of its contents level with its handle, struck, in mm3: a liquid needs no strike.
#[must_use]
pub fn holds_mm3(design: &Design, hold: &Hold) -> f64 {
    let held = if holds_liquid(design) { hold.liquid_handle_level } else { hold.dry_handle_level.struck };
    held.volume_mm3
}

/// Whether the design holds a liquid, which runs level.
#[must_use]
pub fn holds_liquid(design: &Design) -> bool {
    Content::named(&design.contents).is_some_and(|content| content.liquid)
}

/// How [`holds_mm3`] is filled, in one word.
#[must_use]
pub fn how_filled(design: &Design) -> &'static str {
    if holds_liquid(design) { "level" } else { "struck" }
}

/// The angle of repose of what the design holds, in radians: 0 for a liquid.
#[must_use]
pub fn repose(design: &Design) -> f64 {
    use super::tables::contents::USUAL_REPOSE_DEG;
    Content::named(&design.contents).map_or(USUAL_REPOSE_DEG, Content::repose_deg).to_radians()
}
