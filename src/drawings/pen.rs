//! The pen: draws on any plotters backend in CSS pixels, sharp at any density, nothing off the sheet.
//!
//! A backend has whole units and whole line widths only. The pen multiplies everything by the sheet's scale, so a
//! backend with many units to a pixel gets fine lines. Patterns of many strokes are drawn as one polygon: on a canvas
//! one call costs as much as a thousand points.

use plotters::coord::Shift;
use plotters::element::{Drawable, PointCollection};
use plotters::prelude::{DrawingArea, DrawingBackend, RGBColor};
use plotters_backend::{BackendColor, BackendCoord, BackendStyle, DrawingErrorKind};
use thiserror::Error;

use super::clip::{Frame, clip_chain, clip_ring, clip_segment};
use super::frame::{Point, Sheet};
use super::line::{Pattern, Stroke, arrow_head, dashes, distance};
use super::text::{Lettering, Text};
use kurbo::Vec2;

/// Why a drawing could not be made.
#[derive(Clone, Debug, PartialEq, Error)]
#[error("the drawing could not be made: {reason}")]
pub struct DrawError {
    /// What the backend said.
    pub reason: String,
}

/// What a drawing's own code returns: the backend's error as it is.
pub(super) type Drawn<DB> = Result<(), DrawingErrorKind<<DB as DrawingBackend>::ErrorType>>;

/// Points closer together than this on the sheet are not worth drawing, in CSS pixels.
const FINEST_PX: f64 = 0.3;
/// How far past the sheet's edge lines still run, so that their ends do not show, in CSS pixels.
const BLEED_PX: f64 = 8.0;

/// Draws on a backend, in CSS pixels from the top left corner of its area.
pub struct Pen<'a, DB: DrawingBackend> {
    backend: &'a mut DB,
    corner: BackendCoord,
    sheet: Sheet,
    frame: Frame,
}

/// A colour with its share of cover, and a line width in backend units.
struct Ink(RGBColor, f64, u32);

impl BackendStyle for Ink {
    fn color(&self) -> BackendColor {
        BackendColor { alpha: self.1, rgb: (self.0.0, self.0.1, self.0.2) }
    }
    fn stroke_width(&self) -> u32 {
        self.2
    }
}

impl<DB: DrawingBackend> Pen<'_, DB> {
    /// The part of the sheet that is drawn on, a little more than the sheet itself.
    #[must_use]
    pub fn frame(&self) -> Frame {
        self.frame
    }

    /// The sheet.
    #[must_use]
    pub fn sheet(&self) -> Sheet {
        self.sheet
    }

    /// Covers the whole sheet.
    pub(super) fn cover(&mut self, colour: RGBColor) -> Drawn<DB> {
        let (w, h) = (self.sheet.width_px, self.sheet.height_px);
        self.fill(&[vec![Point::new(0.0, 0.0), Point::new(w, 0.0), Point::new(w, h), Point::new(0.0, h)]], colour, 1.0)
    }

    /// Fills rings (outer rings one way round, holes the other), covering `cover` (0 to 1) of what is below.
    pub(super) fn fill(&mut self, rings: &[Vec<Point>], colour: RGBColor, cover: f64) -> Drawn<DB> {
        let clipped: Vec<_> =
            rings.iter().map(|r| thinned(&clip_ring(r, &self.frame))).filter(|r| r.len() > 2).collect();
        let chain = self.bridged(clipped.iter().map(Vec::as_slice));
        if chain.is_empty() {
            return Ok(());
        }
        self.backend.fill_polygon(chain, &Ink(colour, cover, 0))
    }

    /// A solid line through points.
    pub(super) fn line(&mut self, points: &[Point], width: f64, colour: RGBColor) -> Drawn<DB> {
        let ink = Ink(colour, 1.0, self.width(width));
        for run in clip_chain(points, &self.frame) {
            let chain: Vec<_> = thinned(&run).into_iter().map(|p| self.unit(p)).collect();
            self.backend.draw_path(chain, &ink)?;
        }
        Ok(())
    }

    /// A solid line around a ring.
    pub(super) fn outline(&mut self, ring: &[Point], width: f64, colour: RGBColor) -> Drawn<DB> {
        let Some(first) = ring.first() else { return Ok(()) };
        let mut closed = ring.to_vec();
        closed.push(*first);
        // Carried on a little, so that the corner where it closes is as sharp as the others.
        if let Some(second) = ring.get(1) {
            closed.push(toward(*first, *second, width));
        }
        self.line(&closed, width, colour)
    }

    /// A line through points in a pattern of dashes.
    pub(super) fn dashed(&mut self, points: &[Point], pattern: Pattern, width: f64, colour: RGBColor) -> Drawn<DB> {
        let strokes = dashes(&thinned(points), pattern, &self.frame);
        self.strokes(&strokes, width, colour, 1.0)
    }

    /// Many straight strokes of one width and colour, as a single polygon.
    pub(super) fn strokes(&mut self, strokes: &[Stroke], width: f64, colour: RGBColor, cover: f64) -> Drawn<DB> {
        let half = width / 2.0;
        let bars: Vec<[Point; 4]> = strokes
            .iter()
            .filter_map(|&(a, b)| {
                let (a, b) = clip_segment(a, b, &self.frame)?;
                let length = distance(a, b);
                let (nx, ny) = ((b.y - a.y) / length * half, (a.x - b.x) / length * half);
                let side = Vec2::new(nx, ny);
                let bar = [a + side, b + side, b - side, a - side];
                bar.iter().all(|p| p.is_finite()).then_some(bar)
            })
            .collect();
        let chain = self.bridged(bars.iter().map(<[Point; 4]>::as_slice));
        if chain.is_empty() {
            return Ok(());
        }
        self.backend.fill_polygon(chain, &Ink(colour, cover, 0))
    }

    /// A filled disc.
    pub(super) fn disc(&mut self, middle: Point, radius: f64, colour: RGBColor) -> Drawn<DB> {
        self.round(middle, radius, &Ink(colour, 1.0, 0), true)
    }

    /// A circle.
    pub(super) fn circle(&mut self, middle: Point, radius: f64, width: f64, colour: RGBColor) -> Drawn<DB> {
        let ink = Ink(colour, 1.0, self.width(width));
        self.round(middle, radius, &ink, false)
    }

    fn round(&mut self, middle: Point, radius: f64, ink: &Ink, filled: bool) -> Drawn<DB> {
        if !(self.frame.contains(middle) && radius.is_finite() && radius > 0.0 && radius < 1e5) {
            return Ok(());
        }
        let units = (radius * self.sheet.scale).round() as u32;
        let middle = self.unit(middle);
        self.backend.draw_circle(middle, units, ink, filled)
    }

    /// A dimension line between two points, slim arrows at both ends. Too short for arrows inside, they come from
    /// outside.
    pub(super) fn dimension(&mut self, a: Point, b: Point, width: f64, colour: RGBColor) -> Drawn<DB> {
        const ARROW: f64 = 9.0;
        let short = distance(a, b) < 2.5 * ARROW;
        let (from_a, from_b) = if short { (toward(a, b, -2.0 * ARROW), toward(b, a, -2.0 * ARROW)) } else { (b, a) };
        let heads: Vec<Vec<Point>> =
            [arrow_head(a, from_a, ARROW), arrow_head(b, from_b, ARROW)].into_iter().flatten().map(Vec::from).collect();
        if short {
            self.strokes(&[(from_a, a), (b, from_b)], width, colour, 1.0)?;
        } else {
            self.strokes(&[(a, b)], width, colour, 1.0)?;
        }
        self.fill(&heads, colour, 1.0)
    }

    /// Writes a text.
    pub(super) fn text(&mut self, text: &Text) -> Drawn<DB> {
        if !self.frame.contains(text.at) {
            return Ok(());
        }
        let lettering = Lettering::new(text, self.sheet.scale * self.sheet.text_scale);
        let at = self.unit(text.at);
        self.backend.draw_text(&text.words, &lettering, at)
    }

    /// Rings as one chain: out along every ring and straight back, so that the joins enclose nothing.
    fn bridged<'b>(&self, rings: impl Iterator<Item = &'b [Point]>) -> Vec<BackendCoord> {
        let mut chain = Vec::new();
        let mut starts = Vec::new();
        for ring in rings {
            let Some(first) = ring.first() else { continue };
            chain.extend(ring.iter().map(|p| self.unit(*p)));
            chain.push(self.unit(*first));
            starts.push(self.unit(*first));
        }
        starts.pop();
        chain.extend(starts.into_iter().rev());
        chain
    }

    /// In backend units. Points are on the sheet or near it, so the numbers are small; what is not a number becomes 0.
    fn unit(&self, p: Point) -> BackendCoord {
        let unit = |v: f64, corner: i32| corner.saturating_add((v * self.sheet.scale).round() as i32);
        (unit(p.x, self.corner.0), unit(p.y, self.corner.1))
    }

    fn width(&self, px: f64) -> u32 {
        (px * self.sheet.scale).round().max(1.0) as u32
    }
}

/// The point `length` from `a` toward `b`; away from `b` when it is negative.
pub(super) fn toward(a: Point, b: Point, length: f64) -> Point {
    let run = distance(a, b);
    if run > 0.0 { Point::new(a.x + (b.x - a.x) * length / run, a.y + (b.y - a.y) * length / run) } else { a }
}

/// Without the points that stand too near the one before.
fn thinned(points: &[Point]) -> Vec<Point> {
    let mut kept: Vec<Point> = Vec::with_capacity(points.len());
    for (i, p) in points.iter().enumerate() {
        let last = i + 1 == points.len();
        if kept.last().is_none_or(|k| last || distance(*k, *p) >= FINEST_PX) {
            kept.push(*p);
        }
    }
    kept
}

/// A whole drawing as one plotters element: it gets the backend itself, so that units finer than its pixels can be
/// used.
struct Whole<F> {
    sheet: Sheet,
    draw: F,
}

impl<'a, F> PointCollection<'a, BackendCoord> for &'a Whole<F> {
    type Point = BackendCoord;
    type IntoIter = [BackendCoord; 1];
    fn point_iter(self) -> Self::IntoIter {
        [(0, 0)]
    }
}

impl<DB: DrawingBackend, F: Fn(&mut Pen<'_, DB>) -> Drawn<DB>> Drawable<DB> for Whole<F> {
    fn draw<I: Iterator<Item = BackendCoord>>(&self, mut pos: I, backend: &mut DB, _: (u32, u32)) -> Drawn<DB> {
        let corner = pos.next().unwrap_or((0, 0));
        let frame = Frame {
            low: Point::new(-BLEED_PX, -BLEED_PX),
            high: Point::new(self.sheet.width_px + BLEED_PX, self.sheet.height_px + BLEED_PX),
        };
        (self.draw)(&mut Pen { backend, corner, sheet: self.sheet, frame })
    }
}

/// Runs a drawing on an area.
pub(super) fn on_area<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    sheet: Sheet,
    draw: impl Fn(&mut Pen<'_, DB>) -> Drawn<DB>,
) -> Result<(), DrawError> {
    let sound =
        [sheet.width_px, sheet.height_px, sheet.scale, sheet.text_scale].iter().all(|v| v.is_finite() && *v > 0.0);
    if !sound {
        return Ok(());
    }
    area.draw(&Whole { sheet, draw }).map_err(|e| DrawError { reason: e.to_string() })
}
