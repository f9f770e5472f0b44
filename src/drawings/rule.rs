//! The rule along the bottom edge of the side view: stations in the chosen unit, 0 at the bowl-end face.

use plotters::prelude::DrawingBackend;
use plotters_backend::DrawingErrorKind;

use super::frame::Viewport;
use super::pen::{Drawn, Pen};
use super::text::{Block, Places, SMALL, Text};
use super::theme::Theme;
use crate::design::units::{MM_PER_INCH, format_number};
use crate::design::{LengthUnit, Units};
use kurbo::Point;

/// Height of the rule, in CSS pixels.
pub const RULE_PX: f64 = 34.0;
/// Numbers stand at least this far apart, in CSS pixels.
const APART_PX: f64 = 44.0;
/// Small ticks stand at least this far apart, in CSS pixels.
const TICKS_PX: f64 = 5.0;
/// No more ticks than this are drawn, however far the sheet is drawn out.
const MOST_TICKS: i64 = 2000;

/// Width of the broadest letter that a number has in any font, bold too, in the font's size, and the least room between
/// two numbers, in CSS pixels. The font is the system's own: nobody can say beforehand how broad it is.
const BROADEST_EM: f64 = 0.72;
const ROOM_PX: f64 = 6.0;

/// Steps between numbers, in mm, and into how many ticks each is divided.
const MILLIMETRES: [(f64, u32); 10] =
    [(1.0, 2), (2.0, 2), (5.0, 5), (10.0, 10), (20.0, 4), (50.0, 5), (100.0, 10), (200.0, 4), (500.0, 5), (1000.0, 10)];
/// The same in inches.
const INCHES: [(f64, u32); 9] =
    [(0.0625, 2), (0.125, 2), (0.25, 4), (0.5, 8), (1.0, 8), (2.0, 8), (4.0, 4), (10.0, 10), (20.0, 4)];

/// The step between numbers, in mm, and the number of ticks in it.
#[must_use]
pub fn step(unit: LengthUnit, px_per_mm: f64) -> (f64, u32) {
    let (steps, mm): (&[(f64, u32)], f64) = match unit {
        LengthUnit::Millimetres => (&MILLIMETRES, 1.0),
        LengthUnit::Inches => (&INCHES, MM_PER_INCH),
    };
    let wide = |s: &&(f64, u32)| s.0 * mm * px_per_mm >= APART_PX;
    let (number, ticks) = steps.iter().find(wide).or(steps.last()).copied().unwrap_or((1000.0, 10));
    let too_close = number * mm * px_per_mm / f64::from(ticks) < TICKS_PX;
    (number * mm, if too_close { 2 } else { ticks })
}

/// A number on the rule: whole millimetres, and inches as short as they go.
pub(super) fn number(mm: f64, lengths: Units) -> String {
    let inches = mm / MM_PER_INCH;
    match lengths.length {
        LengthUnit::Millimetres => format_number(mm, 0),
        LengthUnit::Inches if (inches - inches.round()).abs() < 1e-6 => format_number(inches, 0),
        LengthUnit::Inches => lengths.bare(mm),
    }
}

/// Draws the rule and, on it, the station that is looked at; the numbers go to `places`.
pub(super) fn draw<DB: DrawingBackend>(
    pen: &mut Pen<'_, DB>,
    places: &mut Places,
    (viewport, theme, lengths): (&Viewport, &Theme, Units),
    station_mm: Option<f64>,
) -> Drawn<DB> {
    let sheet = viewport.sheet;
    let top = sheet.height_px - RULE_PX;
    let whole = Block { low: Point::new(0.0, top), high: Point::new(sheet.width_px, sheet.height_px) };
    places.clear(whole);
    let strip = vec![
        Point::new(0.0, top),
        Point::new(sheet.width_px, top),
        Point::new(sheet.width_px, sheet.height_px),
        Point::new(0.0, sheet.height_px),
    ];
    pen.fill(&[strip], theme.paper, 1.0)?;
    pen.strokes(&[(Point::new(0.0, top), Point::new(sheet.width_px, top))], 1.0, theme.pencil, 1.0)?;
    let ticks = Ticks::of(viewport, lengths, top);
    pen.strokes(&ticks.marks, 1.0, theme.pencil, 1.0)?;
    let station = match station_mm.filter(|mm| mm.is_finite()) {
        Some(mm) => Some(draw_station(pen, places, (viewport, theme, lengths), mm)?),
        None => None,
    };
    let clear = |x: f64, half: f64| station.is_none_or(|it| (x - it.x).abs() >= half + it.half_px + ROOM_PX);
    for (x, words) in ticks.evenly_spaced() {
        // A number that would touch the marked station, or run off the sheet, is left out.
        if clear(x, broad_px(&words) / 2.0) {
            let text = Text::new(words, Point::new(x, top + 20.0), SMALL, theme.pencil);
            let at = text.at;
            places.write(text, &[at], false);
        }
    }
    places.take(whole);
    Ok(())
}

/// The ticks in sight, and the number that stands on every so-manieth of them.
struct Ticks {
    marks: Vec<(Point, Point)>,
    /// Which number from 0 it is, where it stands across the sheet in CSS pixels, and its words.
    numbers: Vec<(i64, f64, String)>,
    /// From one number to the next, in CSS pixels.
    apart_px: f64,
}

impl Ticks {
    /// The ticks of a rule whose upper edge lies at `top`.
    fn of(viewport: &Viewport, lengths: Units, top: f64) -> Self {
        let (number_mm, ticks) = step(lengths.length, viewport.px_per_mm);
        let tick_mm = number_mm / f64::from(ticks);
        let at_mm = |x_px: f64| viewport.to_mm(Point::new(x_px, top)).x;
        let (first, last) = (at_mm(0.0) / tick_mm, at_mm(viewport.sheet.width_px) / tick_mm);
        let (first, last) = (first.ceil() as i64, last.floor() as i64);
        let mut it = Self { marks: Vec::new(), numbers: Vec::new(), apart_px: number_mm * viewport.px_per_mm };
        for tick in first..=last.min(first.saturating_add(MOST_TICKS)) {
            let mm = tick as f64 * tick_mm;
            let x = viewport.to_pixel(Point::new(mm, 0.0)).x;
            let on_number = tick % i64::from(ticks) == 0;
            it.marks.push((Point::new(x, top), Point::new(x, top + if on_number { 9.0 } else { 5.0 })));
            if on_number {
                it.numbers.push((tick / i64::from(ticks), x, number(mm, lengths)));
            }
        }
        it
    }

    /// The numbers that can be written beside their neighbours, so that they stay evenly spaced.
    fn evenly_spaced(self) -> impl Iterator<Item = (f64, String)> {
        let every = every(&self.numbers, self.apart_px);
        self.numbers.into_iter().filter(move |it| it.0 % every == 0).map(|it| (it.1, it.2))
    }
}

/// The number of the station that is looked at, as it stands on the rule.
#[derive(Clone, Copy)]
struct Marked {
    /// Its middle, in CSS pixels from the left.
    x: f64,
    /// Half the room that it needs, in CSS pixels.
    half_px: f64,
}

/// Draws the station that is looked at: a pointer from the upper edge of the rule, and its number.
fn draw_station<DB: DrawingBackend>(
    pen: &mut Pen<'_, DB>,
    places: &mut Places,
    (viewport, theme, lengths): (&Viewport, &Theme, Units),
    mm: f64,
) -> Result<Marked, DrawingErrorKind<DB::ErrorType>> {
    let width_px = viewport.sheet.width_px;
    let top = viewport.sheet.height_px - RULE_PX;
    let x = viewport.to_pixel(Point::new(mm, 0.0)).x;
    let pointer = vec![Point::new(x, top), Point::new(x + 7.0, top + 11.0), Point::new(x - 7.0, top + 11.0)];
    pen.fill(&[pointer], theme.focus, 1.0)?;
    let words = lengths.bare(mm);
    let half_px = broad_px(&words) / 2.0 + 2.0;
    let is_in_sight = (-10.0..=width_px + 10.0).contains(&x);
    let x = if is_in_sight { x.clamp(half_px, (width_px - half_px).max(half_px)) } else { x };
    let text = Text::new(words, Point::new(x, top + 20.0), SMALL, theme.focus).bold();
    let at = text.at;
    places.write(text, &[at], true);
    Ok(Marked { x, half_px })
}

/// The width that a number has at most, in CSS pixels.
fn broad_px(words: &str) -> f64 {
    words.chars().count() as f64 * BROADEST_EM * SMALL
}

/// Every which of these numbers can be written beside its neighbours, so that they stay evenly spaced; `apart_px` is
/// the distance from one to the next.
fn every(numbers: &[(i64, f64, String)], apart_px: f64) -> i64 {
    let widest = numbers.iter().map(|it| broad_px(&it.2)).fold(0.0, f64::max);
    ((widest + ROOM_PX) / apart_px.max(1.0)).ceil().max(1.0) as i64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_and_ticks_keep_their_distance_at_every_scale() {
        for unit in [LengthUnit::Millimetres, LengthUnit::Inches] {
            for i in -20..=50 {
                let px_per_mm = 10.0_f64.powf(f64::from(i) / 20.0);
                let (number_mm, ticks) = step(unit, px_per_mm);
                assert!(number_mm * px_per_mm >= APART_PX, "{unit:?} {px_per_mm}");
                assert!(number_mm * px_per_mm / f64::from(ticks) >= TICKS_PX, "{unit:?} {px_per_mm}");
            }
        }
    }

    #[test]
    fn whole_inches_and_millimetres_are_written_whole() {
        let inches = Units { length: LengthUnit::Inches, ..Units::default() };
        assert_eq!(number(50.8, inches), "2");
        assert_eq!(number(6.35, inches), "1/4");
        assert_eq!(number(-10.0, Units::default()), "-10");
    }
}
