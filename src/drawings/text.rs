//! Lettering: what is written, how wide it is about, and where it may stand without touching anything else.

use std::convert::Infallible;

use plotters::prelude::RGBColor;
use plotters_backend::text_anchor::{HPos, Pos, VPos};
use plotters_backend::{BackendColor, BackendTextStyle, FontFamily, FontStyle, FontTransform};

use super::frame::{Point, Sheet};
use super::line::Stroke;

/// The system's own font.
const FAMILY: &str = "system-ui, sans-serif";
/// Text size of a drawing, in CSS pixels. Nothing is smaller.
pub const SMALL: f64 = 14.0;
/// Size of axis letters and of numbers that matter, in CSS pixels.
pub const LARGE: f64 = 17.0;

/// A text at a place.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// What it says.
    pub words: String,
    /// Its middle, or the middle of its left edge, in CSS pixels.
    pub at: Point,
    /// Height of the font, in CSS pixels.
    pub size: f64,
    /// Colour.
    pub colour: RGBColor,
    /// Heavier.
    pub bold: bool,
    /// Whether it starts at its place instead of standing around it.
    pub starts_at: bool,
}

impl Text {
    /// A plain text around a place.
    #[must_use]
    pub fn new(words: impl Into<String>, at: Point, size: f64, colour: RGBColor) -> Self {
        Self { words: words.into(), at, size, colour, bold: false, starts_at: false }
    }

    /// Heavier.
    #[must_use]
    pub fn bold(self) -> Self {
        Self { bold: true, ..self }
    }

    /// Starting at its place.
    #[must_use]
    pub fn from_left(self) -> Self {
        Self { starts_at: true, ..self }
    }
}

/// About how wide a text is, in CSS pixels. Judged by kinds of letter, since not every backend can measure.
#[must_use]
pub fn width(words: &str, size: f64) -> f64 {
    let em: f64 = words
        .chars()
        .map(|c| match c {
            'i' | 'j' | 'l' | '.' | ',' | ':' | ';' | '|' | '\'' | '!' | ' ' => 0.3,
            'f' | 't' | 'r' | '(' | ')' | '-' | '/' | '°' => 0.4,
            'm' | 'w' | 'M' | 'W' | '%' | '\u{2300}' => 0.9,
            c if c.is_uppercase() => 0.68,
            _ => 0.57,
        })
        .sum();
    em * size
}

/// A rectangle: left, top, right, bottom, in CSS pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Block {
    /// Top left corner.
    pub low: Point,
    /// Bottom right corner.
    pub high: Point,
}

impl Block {
    /// Around a middle.
    #[must_use]
    pub fn around(middle: Point, width: f64, height: f64) -> Self {
        let (w, h) = (width / 2.0, height / 2.0);
        Self { low: Point::new(middle.x - w, middle.y - h), high: Point::new(middle.x + w, middle.y + h) }
    }

    /// Area of what both cover, in square pixels.
    #[must_use]
    pub fn overlap(&self, other: &Self) -> f64 {
        let w = self.high.x.min(other.high.x) - self.low.x.max(other.low.x);
        let h = self.high.y.min(other.high.y) - self.low.y.max(other.low.y);
        w.max(0.0) * h.max(0.0)
    }

    /// Area, in square pixels.
    #[must_use]
    pub fn area(&self) -> f64 {
        (self.high.x - self.low.x) * (self.high.y - self.low.y)
    }

    /// Whether a stroke runs through it.
    #[must_use]
    pub fn is_crossed_by(&self, stroke: Stroke) -> bool {
        let (a, b) = stroke;
        // Most strokes lie wholly to one side.
        let aside = a.x.max(b.x) < self.low.x
            || a.x.min(b.x) > self.high.x
            || a.y.max(b.y) < self.low.y
            || a.y.min(b.y) > self.high.y;
        if aside {
            return false;
        }
        let frame = super::clip::Frame { low: self.low, high: self.high };
        super::clip::clip_segment(stroke.0, stroke.1, &frame).is_some()
    }
}

/// Finds free places for texts: never on another text, off the sheet only when there is no other way, and clear of
/// lines where it can be.
#[derive(Clone, Debug)]
pub struct Places {
    sheet: Block,
    taken: Vec<Block>,
    lines: Vec<Stroke>,
    texts: Vec<(Text, bool)>,
}

impl Places {
    /// On a sheet.
    #[must_use]
    pub fn new(sheet: Sheet) -> Self {
        let sheet = Block { low: Point::new(2.0, 2.0), high: Point::new(sheet.width_px - 2.0, sheet.height_px - 2.0) };
        Self { sheet, taken: Vec::new(), lines: Vec::new(), texts: Vec::new() }
    }

    /// Keeps texts off a rectangle.
    pub fn take(&mut self, block: Block) {
        self.taken.push(block);
    }

    /// Takes the texts off a rectangle that is drawn over them.
    pub fn clear(&mut self, block: Block) {
        let touches = |text: &Text| {
            let half = (width(&text.words, text.size) / 2.0, text.size * 0.575);
            let middle = if text.starts_at { Point::new(text.at.x + half.0, text.at.y) } else { text.at };
            Block::around(middle, 2.0 * half.0, 2.0 * half.1).overlap(&block) > 0.0
        };
        self.texts.retain(|(text, _)| !touches(text));
    }

    /// Lines that texts had better not cross.
    pub fn avoid(&mut self, points: &[Point]) {
        self.lines.extend(points.windows(2).map(|w| (w[0], w[1])));
    }

    /// Writes `text` at the best of these middles, best first; `must` is written even where it touches another text.
    /// Returns whether it was written.
    pub fn write(&mut self, text: Text, middles: &[Point], must: bool) -> bool {
        let (w, h) = (width(&text.words, text.size) + 4.0, text.size * 1.15);
        let mut best: Option<(f64, Point, bool, bool)> = None;
        let known = |p: &Point| p.x.is_finite() && p.y.is_finite();
        for (rank, middle) in middles.iter().enumerate().filter(|m| known(m.1)) {
            let block = Block::around(*middle, w, h);
            let covered: f64 = self.taken.iter().map(|t| block.overlap(t)).sum();
            let off = block.area() - block.overlap(&self.sheet);
            let crossed = self.lines.iter().filter(|l| block.is_crossed_by(**l)).count();
            let cost = covered * 20.0 + off * 20.0 + crossed.min(12) as f64 * 8.0 + rank as f64 * 3.0;
            if cost.is_finite() && best.is_none_or(|b| cost < b.0) {
                best = Some((cost, *middle, covered + off > 1.0, crossed > 0));
            }
        }
        let Some((_, at, touches, crossed)) = best else { return false };
        if touches && !must {
            return false;
        }
        self.taken.push(Block::around(at, w, h));
        self.texts.push((Text { at, ..text }, crossed));
        true
    }

    /// The texts, and whether each crosses a line.
    #[must_use]
    pub fn texts(&self) -> &[(Text, bool)] {
        &self.texts
    }
}

/// Middles around a point for a text of this width and size, `gap` pixels off: right, left, above, below, corners,
/// then the same again farther off.
#[must_use]
pub fn around(at: Point, words: &str, size: f64, gap: f64) -> Vec<Point> {
    let (w, h) = (width(words, size) / 2.0, size * 0.58);
    [1.0, 2.2, 3.6]
        .iter()
        .flat_map(|far| {
            let (dx, dy) = (w + gap * far, h + gap * far);
            [(dx, 0.0), (-dx, 0.0), (0.0, -dy), (0.0, dy), (dx, -dy), (-dx, -dy), (dx, dy), (-dx, dy)]
        })
        .map(|(dx, dy)| Point::new(at.x + dx, at.y + dy))
        .collect()
}

/// A text's style as a backend wants it.
pub(super) struct Lettering {
    colour: RGBColor,
    size: f64,
    bold: bool,
    starts_at: bool,
}

impl Lettering {
    pub(super) fn new(text: &Text, scale: f64) -> Self {
        Self { colour: text.colour, size: text.size * scale, bold: text.bold, starts_at: text.starts_at }
    }
}

impl BackendTextStyle for Lettering {
    type FontError = Infallible;

    fn color(&self) -> BackendColor {
        BackendColor { alpha: 1.0, rgb: (self.colour.0, self.colour.1, self.colour.2) }
    }

    fn size(&self) -> f64 {
        self.size
    }

    fn transform(&self) -> FontTransform {
        FontTransform::None
    }

    fn style(&self) -> FontStyle {
        if self.bold { FontStyle::Bold } else { FontStyle::Normal }
    }

    fn anchor(&self) -> Pos {
        Pos::new(if self.starts_at { HPos::Left } else { HPos::Center }, VPos::Center)
    }

    fn family(&self) -> FontFamily<'_> {
        FontFamily::Name(FAMILY)
    }

    fn layout_box(&self, text: &str) -> Result<((i32, i32), (i32, i32)), Infallible> {
        Ok(((0, 0), (width(text, self.size).ceil() as i32, self.size.ceil() as i32)))
    }

    /// For backends without letters of their own; ours have them.
    fn draw<E, F: FnMut(i32, i32, BackendColor) -> Result<(), E>>(
        &self,
        _: &str,
        _: (i32, i32),
        _: F,
    ) -> Result<Result<(), E>, Infallible> {
        Ok(Ok(()))
    }
}
