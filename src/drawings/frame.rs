//! Where things are on the paper: CSS pixels on the sheet, and millimetres of the piece mapped onto them.

/// A point: millimetres (right, up) on the piece, or CSS pixels (right, down) on the sheet.
pub use kurbo::Point;

/// The sheet a drawing is made on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sheet {
    /// Width, in CSS pixels.
    pub width_px: f64,
    /// Height, in CSS pixels.
    pub height_px: f64,
    /// Backend units in one CSS pixel. A backend has whole units only, so a larger scale draws finer.
    pub scale: f64,
    /// What a backend must be told to make text one CSS pixel high, in CSS pixels: 1 on a canvas.
    pub text_scale: f64,
}

impl Sheet {
    /// A sheet of this many CSS pixels with `scale` backend units in each.
    #[must_use]
    pub fn new(width_px: f64, height_px: f64, scale: f64) -> Self {
        Self { width_px, height_px, scale, text_scale: 1.0 }
    }
}

/// A box in millimetres or pixels; empty until something is added.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// Smallest of both coordinates.
    pub low: Point,
    /// Largest of both coordinates.
    pub high: Point,
}

impl Bounds {
    /// Nothing.
    pub const EMPTY: Self =
        Self { low: Point::new(f64::INFINITY, f64::INFINITY), high: Point::new(f64::NEG_INFINITY, f64::NEG_INFINITY) };

    /// With a point added; one that is not finite is passed over.
    #[must_use]
    pub fn with(self, p: Point) -> Self {
        if !(p.x.is_finite() && p.y.is_finite()) {
            return self;
        }
        Self {
            low: Point::new(self.low.x.min(p.x), self.low.y.min(p.y)),
            high: Point::new(self.high.x.max(p.x), self.high.y.max(p.y)),
        }
    }

    /// Around all these points.
    pub fn around(points: impl IntoIterator<Item = Point>) -> Self {
        points.into_iter().fold(Self::EMPTY, Self::with)
    }

    /// Width and height; `None` when empty.
    #[must_use]
    pub fn size(&self) -> Option<(f64, f64)> {
        let size = (self.high.x - self.low.x, self.high.y - self.low.y);
        (size.0 >= 0.0 && size.1 >= 0.0).then_some(size)
    }
}

/// Space kept free around the piece, in CSS pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Margins {
    /// On the left.
    pub left: f64,
    /// At the top.
    pub top: f64,
    /// On the right.
    pub right: f64,
    /// At the bottom.
    pub bottom: f64,
}

/// How millimetres of the piece fall on the sheet: right stays right, up stays up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Viewport {
    /// The sheet.
    pub sheet: Sheet,
    /// CSS pixels in one millimetre.
    pub px_per_mm: f64,
    /// The point of the piece that falls on the middle of the sheet, in mm.
    pub middle_mm: Point,
}

/// Closest and farthest view, in CSS pixels a millimetre.
const ZOOM: (f64, f64) = (0.02, 200.0);
/// A piece is never looked at from farther off than this, in mm.
const FARTHEST_MM: f64 = 1e6;

impl Viewport {
    /// The view in which `bounds` (mm) just fills the sheet inside the margins.
    ///
    /// Bounds that are empty, without size or not finite are shown at a scale that is still usable.
    #[must_use]
    pub fn fit(sheet: Sheet, bounds: Bounds, margins: Margins) -> Self {
        let (width, height) = bounds.size().unwrap_or((0.0, 0.0));
        let room = (
            (sheet.width_px - margins.left - margins.right).max(1.0),
            (sheet.height_px - margins.top - margins.bottom).max(1.0),
        );
        let px_per_mm = clamp_zoom((room.0 / width.max(1e-3)).min(room.1 / height.max(1e-3)));
        let middle = if bounds.size().is_some() {
            ((bounds.low.x + bounds.high.x) / 2.0, (bounds.low.y + bounds.high.y) / 2.0)
        } else {
            (0.0, 0.0)
        };
        let off = ((margins.left - margins.right) / 2.0, (margins.top - margins.bottom) / 2.0);
        let middle_mm = clamp_middle(Point::new(middle.0 - off.0 / px_per_mm, middle.1 + off.1 / px_per_mm));
        Self { sheet, px_per_mm, middle_mm }
    }

    /// A sheet whose drawing makes its own scale.
    #[must_use]
    pub fn plain(sheet: Sheet) -> Self {
        Self { sheet, px_per_mm: 1.0, middle_mm: Point::new(0.0, 0.0) }
    }

    /// Where a point of the piece falls on the sheet, in CSS pixels from its top left corner.
    #[must_use]
    pub fn to_pixel(&self, mm: Point) -> Point {
        Point::new(
            self.sheet.width_px / 2.0 + (mm.x - self.middle_mm.x) * self.px_per_mm,
            self.sheet.height_px / 2.0 - (mm.y - self.middle_mm.y) * self.px_per_mm,
        )
    }

    /// Where points of the piece fall on the sheet, in CSS pixels from its top left corner.
    #[must_use]
    pub fn to_pixels(&self, mm: &[Point]) -> Vec<Point> {
        mm.iter().map(|p| self.to_pixel(*p)).collect()
    }

    /// The point of the piece under a place on the sheet.
    #[must_use]
    pub fn to_mm(&self, px: Point) -> Point {
        Point::new(
            self.middle_mm.x + (px.x - self.sheet.width_px / 2.0) / self.px_per_mm,
            self.middle_mm.y - (px.y - self.sheet.height_px / 2.0) / self.px_per_mm,
        )
    }

    /// Closer by `factor`, the place `about_px` staying where it is.
    #[must_use]
    pub fn zoomed(&self, factor: f64, about_px: Point) -> Self {
        if !(factor.is_finite() && factor > 0.0) {
            return *self;
        }
        let held = self.to_mm(about_px);
        let mut closer = Self { px_per_mm: clamp_zoom(self.px_per_mm * factor), ..*self };
        let moved = closer.to_mm(about_px);
        closer.middle_mm =
            clamp_middle(Point::new(self.middle_mm.x + held.x - moved.x, self.middle_mm.y + held.y - moved.y));
        closer
    }

    /// With the paper moved by so many CSS pixels, right and down.
    #[must_use]
    pub fn panned(&self, by_px: Point) -> Self {
        let middle =
            Point::new(self.middle_mm.x - by_px.x / self.px_per_mm, self.middle_mm.y + by_px.y / self.px_per_mm);
        Self { middle_mm: clamp_middle(middle), ..*self }
    }
}

fn clamp_zoom(px_per_mm: f64) -> f64 {
    if px_per_mm.is_nan() { 1.0 } else { px_per_mm.clamp(ZOOM.0, ZOOM.1) }
}

fn clamp_middle(middle: Point) -> Point {
    let clamp = |v: f64| if v.is_nan() { 0.0 } else { v.clamp(-FARTHEST_MM, FARTHEST_MM) };
    Point::new(clamp(middle.x), clamp(middle.y))
}
