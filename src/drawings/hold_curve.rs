//! What the scoop holds over its pitch, as a line chart.

use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, DrawingBackend, RGBColor};

use super::frame::{Bounds, Point, Sheet};
use super::line::Pattern;
use super::pen::{DrawError, Drawn, Pen, on_area};
use super::side_view::write_out;
use super::text::{self, Block, LARGE, Places, SMALL, Text};
use super::theme::Theme;
use crate::design::units::format_number;

/// One curve: what it is of, and hold by pitch.
#[derive(Clone, Debug, PartialEq)]
pub struct HoldCurve {
    /// "liquid", "heaped".
    pub words: String,
    /// Pitch in degrees (positive: bowl end raised) and volume in mL, pitch rising.
    pub points: Vec<Point>,
}

/// A place on a curve worth telling.
#[derive(Clone, Debug, PartialEq)]
pub struct HoldMark {
    /// Pitch in degrees and volume in mL.
    pub at: Point,
    /// "handle level", "best".
    pub words: String,
}

/// What the chart shows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct HoldScene {
    /// The curves: the first drawn solid, the second dashed, any further dotted.
    pub curves: Vec<HoldCurve>,
    /// Marked places.
    pub marks: Vec<HoldMark>,
}

/// Draws the chart.
///
/// # Errors
/// [`DrawError`] when the backend fails.
pub fn draw_hold_curve<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    scene: &HoldScene,
    theme: &Theme,
    sheet: Sheet,
) -> Result<(), DrawError> {
    on_area(area, sheet, |pen| {
        pen.cover(theme.paper)?;
        let Some(chart) = Chart::new(scene, theme, sheet) else {
            let at = Point::new(sheet.width_px / 2.0, sheet.height_px / 2.0);
            return pen.text(&Text::new("It holds nothing.", at, LARGE, theme.pencil));
        };
        let mut places = Places::new(sheet);
        chart.frame(pen, &mut places)?;
        chart.curves(pen, &mut places)?;
        chart.marks(pen, &mut places)?;
        write_out(pen, &places, theme)
    })
}

/// The field of the chart and its ranges.
struct Chart<'a> {
    scene: &'a HoldScene,
    theme: &'a Theme,
    field: Block,
    pitch: (f64, f64),
    most_ml: f64,
}

impl<'a> Chart<'a> {
    fn new(scene: &'a HoldScene, theme: &'a Theme, sheet: Sheet) -> Option<Self> {
        let points = scene.curves.iter().flat_map(|c| c.points.iter().copied());
        let bounds = Bounds::around(points.chain(scene.marks.iter().map(|m| m.at)));
        let (width, _) = bounds.size()?;
        let field =
            Block { low: Point::new(52.0, 34.0), high: Point::new(sheet.width_px - 18.0, sheet.height_px - 52.0) };
        let room = field.high.x > field.low.x + 20.0 && field.high.y > field.low.y + 20.0;
        let drawable = width > 1e-9 && bounds.high.y > 1e-9 && room;
        drawable.then_some(Self {
            scene,
            theme,
            field,
            pitch: (bounds.low.x, bounds.high.x),
            most_ml: bounds.high.y * 1.12,
        })
    }

    fn pixel(&self, at: Point) -> Point {
        let across = (at.x - self.pitch.0) / (self.pitch.1 - self.pitch.0);
        let up = at.y / self.most_ml;
        Point::new(
            self.field.low.x + (self.field.high.x - self.field.low.x) * across,
            self.field.high.y - (self.field.high.y - self.field.low.y) * up,
        )
    }

    fn frame<DB: DrawingBackend>(&self, pen: &mut Pen<'_, DB>, places: &mut Places) -> Drawn<DB> {
        let (low, high) = (self.field.low, self.field.high);
        let pencil = self.theme.pencil;
        let mut grid = Vec::new();
        for deg in ticks(self.pitch.0, self.pitch.1, (high.x - low.x) / 56.0) {
            let Point { x, .. } = self.pixel(Point::new(deg, 0.0));
            grid.push((Point::new(x, low.y), Point::new(x, high.y + 5.0)));
            let at = Point::new(x, high.y + 15.0);
            places.write(Text::new(format!("{}\u{b0}", format_number(deg, 0)), at, SMALL, pencil), &[at], false);
        }
        for ml in ticks(0.0, self.most_ml, (high.y - low.y) / 36.0) {
            let Point { y, .. } = self.pixel(Point::new(self.pitch.0, ml));
            grid.push((Point::new(low.x - 5.0, y), Point::new(high.x, y)));
            let words = format_number(ml, if self.most_ml < 5.0 { 1 } else { 0 });
            let at = Point::new(low.x - 9.0 - text::width(&words, SMALL) / 2.0, y);
            places.write(Text::new(words, at, SMALL, pencil), &[at], false);
        }
        pen.strokes(&grid, 0.6, pencil, 0.35)?;
        pen.line(&[low, Point::new(low.x, high.y), high], 1.2, pencil)?;
        let at = Point::new(low.x, 14.0);
        places.write(Text::new("mL", at, SMALL, pencil), &[at], true);
        let at = Point::new(f64::midpoint(low.x, high.x), high.y + 36.0);
        places.write(Text::new("pitch, bowl end raised to the right", at, SMALL, pencil), &[at], true);
        Ok(())
    }

    fn style(&self, index: usize) -> (Option<Pattern>, RGBColor) {
        let pattern = match index {
            0 => None,
            1 => Some(Pattern::DASHED),
            _ => Some(Pattern::DOTTED),
        };
        (pattern, self.theme.axis(index))
    }

    fn curves<DB: DrawingBackend>(&self, pen: &mut Pen<'_, DB>, places: &mut Places) -> Drawn<DB> {
        let pixels = |curve: &HoldCurve| -> Vec<Point> { curve.points.iter().map(|p| self.pixel(*p)).collect() };
        for (index, curve) in self.scene.curves.iter().enumerate() {
            let line = pixels(curve);
            places.avoid(&line);
            match self.style(index) {
                (None, colour) => pen.line(&line, 2.0, colour)?,
                (Some(pattern), colour) => pen.dashed(&line, pattern, 2.0, colour)?,
            }
        }
        for (index, curve) in self.scene.curves.iter().enumerate() {
            let line = pixels(curve);
            let middles: Vec<_> = [0.5, 0.35, 0.65, 0.2, 0.8]
                .iter()
                .filter_map(|share| line.get((line.len() as f64 * share) as usize))
                .flat_map(|at| text::around(*at, &curve.words, SMALL, 8.0).into_iter().take(8))
                .collect();
            if let Some(at) = middles.first().copied() {
                let text = Text::new(curve.words.clone(), at, SMALL, self.style(index).1).bold();
                places.write(text, &middles, true);
            }
        }
        Ok(())
    }

    fn marks<DB: DrawingBackend>(&self, pen: &mut Pen<'_, DB>, places: &mut Places) -> Drawn<DB> {
        for mark in &self.scene.marks {
            let at = self.pixel(mark.at);
            pen.disc(at, 6.0, self.theme.paper)?;
            pen.circle(at, 5.0, 2.0, self.theme.ink)?;
            places.take(Block::around(at, 12.0, 12.0));
        }
        for mark in &self.scene.marks {
            let at = self.pixel(mark.at);
            let middles = text::around(at, &mark.words, SMALL, 9.0);
            places.write(Text::new(mark.words.clone(), at, SMALL, self.theme.ink).bold(), &middles, true);
        }
        Ok(())
    }
}

/// Round values from `low` to `high`, at most about `most` of them.
fn ticks(low: f64, high: f64, most: f64) -> Vec<f64> {
    let least_step = (high - low) / most.max(1.0);
    let magnitude = 10.0_f64.powf(least_step.log10().floor());
    let step = [1.0, 2.0, 5.0, 10.0].map(|m| m * magnitude).into_iter().find(|s| *s >= least_step);
    let Some(step) = step.filter(|s| s.is_finite() && *s > 0.0) else { return Vec::new() };
    let (first, last) = ((low / step).ceil() as i64, (high / step).floor() as i64);
    (first..=last.min(first.saturating_add(100))).map(|i| i as f64 * step).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_are_round_and_few() {
        assert_eq!(ticks(-30.0, 30.0, 6.0), vec![-30.0, -20.0, -10.0, 0.0, 10.0, 20.0, 30.0]);
        assert_eq!(ticks(0.0, 63.0, 5.0), vec![0.0, 20.0, 40.0, 60.0]);
        assert!(ticks(0.0, f64::NAN, 5.0).is_empty());
        assert!(ticks(0.0, 0.0, 5.0).is_empty());
    }
}
