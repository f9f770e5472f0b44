//! A small picture of the finished piece, for lists: no figures, nothing to read.

use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, DrawingBackend};

use super::frame::{Bounds, Margins, Point, Sheet, Viewport};
use super::line::Pattern;
use super::pen::{DrawError, on_area};
use super::scene::SideScene;
use super::side_view::closed;
use super::theme::Theme;

/// Space around the piece, in CSS pixels.
const MARGIN_PX: f64 = 8.0;

/// Draws the finished piece as large as the sheet lets it be.
///
/// # Errors
/// [`DrawError`] when the backend fails.
pub fn draw_picture<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    scene: &SideScene,
    theme: &Theme,
    sheet: Sheet,
) -> Result<(), DrawError> {
    let margins = Margins { left: MARGIN_PX, top: MARGIN_PX, right: MARGIN_PX, bottom: MARGIN_PX };
    let bounds = Bounds::around(scene.wood.iter().flatten().copied());
    let viewport = Viewport::fit(sheet, bounds, margins);
    let pixels = |ring: &Vec<Point>| ring.iter().map(|p| viewport.to_pixel(*p)).collect::<Vec<_>>();
    on_area(area, sheet, |pen| {
        pen.cover(theme.paper)?;
        let wood: Vec<_> = scene.wood.iter().map(pixels).collect();
        pen.fill(&wood, theme.wood, 1.0)?;
        for ring in &wood {
            pen.outline(ring, 1.6, theme.ink)?;
        }
        for ring in scene.hollows.iter().map(pixels) {
            pen.dashed(&closed(&ring), Pattern::DASHED, 1.0, theme.pencil)?;
        }
        Ok(())
    })
}
