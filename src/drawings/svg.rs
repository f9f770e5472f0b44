//! Drawings as SVG text: for print, for small pictures and for tests.

use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, IntoDrawingArea, SVGBackend};

use super::frame::Sheet;
use super::pen::DrawError;

/// Units in one CSS pixel: lines as thin as a tenth of a pixel.
const UNITS: f64 = 10.0;
/// The SVG backend divides the size of a font by this (plotters-svg 0.3, `draw_text`).
const FONT_DIVISOR: f64 = 1.24;

/// Makes a drawing of this many CSS pixels as an SVG document.
///
/// # Errors
/// [`DrawError`] when the drawing fails.
pub fn to_svg(
    width_px: f64,
    height_px: f64,
    draw: impl FnOnce(&DrawingArea<SVGBackend<'_>, Shift>, Sheet) -> Result<(), DrawError>,
) -> Result<String, DrawError> {
    let sheet = Sheet { text_scale: FONT_DIVISOR, ..Sheet::new(width_px, height_px, UNITS) };
    let units = |px: f64| (px * UNITS).round().clamp(1.0, 1e6) as u32;
    let size = (units(width_px), units(height_px));
    let mut text = String::new();
    {
        let area = SVGBackend::with_string(&mut text, size).into_drawing_area();
        draw(&area, sheet)?;
        area.present().map_err(|e| DrawError { reason: e.to_string() })?;
    }
    // The backend writes its units as the size; the page wants CSS pixels.
    let body = text.split_once('\n').map_or("", |(_, body)| body);
    let (w, h) = size;
    let head = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width_px}\" height=\"{height_px}\" viewBox=\"0 0 {w} {h}\">\n"
    );
    Ok(head + body)
}
