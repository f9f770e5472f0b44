//! The two end faces with the marks of every axis, each as seen by someone who looks at it.
//!
//! Both come from the marks figure, which mirrors the bowl-end face: there, a mark right of the centre as held stands
//! on the left.

use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, DrawingBackend, RGBColor};

use super::beyond;
use super::clip::{Frame, clip_ring};
use super::frame::{Bounds, Margins, Point, Sheet, Viewport};
use super::line::{Lean, Pattern, hatch};
use super::pen::{DrawError, Drawn, Pen, on_area};
use super::side_view::{closed, coarse, write_out};
use super::text::{self, Block, LARGE, Places, SMALL, Text};
use super::theme::Theme;
use crate::design::{Centres, Units};
use crate::figures::marks::{AxisMarks, Face, Mark};
use crate::figures::place::clock_words;
use crate::geometry::Section;
use crate::piece::Piece;

/// A centre mark on a face, as seen.
#[derive(Clone, Debug, PartialEq)]
pub struct FaceMark {
    /// The axis's place in A, B, C...
    pub index: usize,
    /// The axis's letter.
    pub letter: char,
    /// To the right of axis A's mark and above it, as seen, in mm.
    pub at: Point,
    /// Whether the footprint of the centre is wholly on wood.
    pub footing: bool,
    /// How to find it: "B 12.3 at 6 o'clock" and its x and y.
    pub words: [String; 2],
}

/// One end face, as seen.
#[derive(Clone, Debug, PartialEq)]
pub struct FaceScene {
    /// Which.
    pub face: Face,
    /// Outline of the blank, in mm from axis A's mark.
    pub stock: Vec<Point>,
    /// Radius of the plug's outer end, where the live centre bears, in mm: of its tenon, if it has one.
    pub plug_radius_mm: Option<f64>,
    /// Radius of the bore in the face, in mm, as a hidden line.
    pub bore_radius_mm: Option<f64>,
    /// The marks; A first.
    pub marks: Vec<FaceMark>,
    /// Radius of the footprint of the centre that bears here, in mm.
    pub footprint_mm: f64,
    /// Half the width of the blank, in mm.
    pub half_mm: f64,
}

/// Both end faces, the bowl end on the left.
#[derive(Clone, Debug, PartialEq)]
pub struct EndScene {
    /// The bowl-end face, mirrored as it is seen.
    pub tail: FaceScene,
    /// The head-end face.
    pub head: FaceScene,
}

impl EndScene {
    /// From the marks of a piece.
    #[must_use]
    pub fn new(piece: &Piece, marks: &[AxisMarks], centres: &Centres, lengths: Units) -> Self {
        let face = |face: Face| face_scene(face, piece, marks, centres, lengths);
        Self { tail: face(Face::Tail), head: face(Face::Head) }
    }

    /// The middle of a face in the view's own mm: side by side, axis A level.
    #[must_use]
    pub fn middle(&self, face: Face) -> Point {
        let apart = self.tail.half_mm * 1.3;
        Point::new(if face == Face::Tail { -apart } else { apart }, 0.0)
    }

    /// Everything that should be seen, in the view's own mm.
    #[must_use]
    pub fn bounds(&self) -> Bounds {
        [&self.tail, &self.head].into_iter().fold(Bounds::EMPTY, |bounds, face| {
            let middle = self.middle(face.face);
            let reach = face.half_mm * REACH;
            bounds.with(Point::new(middle.x - reach, -reach)).with(Point::new(middle.x + reach, reach))
        })
    }
}

fn face_scene(face: Face, piece: &Piece, marks: &[AxisMarks], centres: &Centres, lengths: Units) -> FaceScene {
    let footprint = if face == Face::Tail { centres.live_diameter_mm } else { centres.drive_diameter_mm };
    let on_tail = |radius: Option<f64>| radius.filter(|_| face == Face::Tail);
    let plug = piece.solid.plugs.iter().min_by(|a, b| a.body.meridian.start().total_cmp(&b.body.meridian.start()));
    let plug = plug.map(|p| p.body.meridian.radius_after(p.body.meridian.start()));
    let spigot = piece.solid.plugs.first().map(|p| p.body.meridian.radius_before(f64::INFINITY));
    FaceScene {
        face,
        stock: stock_outline(piece),
        plug_radius_mm: on_tail(plug),
        bore_radius_mm: on_tail(spigot),
        marks: marks
            .iter()
            .map(|m| face_mark(m, if face == Face::Tail { &m.tail } else { &m.head }, lengths))
            .collect(),
        footprint_mm: footprint / 2.0,
        half_mm: piece.solid.stock.half_width(),
    }
}

fn face_mark(axis: &AxisMarks, mark: &Mark, lengths: Units) -> FaceMark {
    let letter = axis.axis.letter();
    let words = match mark.seen_clock_deg {
        Some(clock) => {
            [format!("{} at {}", lengths.bare(mark.distance_mm), clock_words(clock)), offsets(mark, lengths)]
        }
        None => ["the centre".to_owned(), String::new()],
    };
    FaceMark {
        index: axis.axis.index(),
        letter,
        at: Point::new(mark.seen_right_mm, mark.seen_up_mm),
        footing: mark.margin_mm >= 0.0,
        words,
    }
}

/// "left 5.5, down 3.1": how far from axis A's mark, as seen; a part that is nothing is left out.
fn offsets(mark: &Mark, lengths: Units) -> String {
    let part = |mm: f64, more: &str, less: &str| {
        (mm.abs() >= 0.05).then(|| format!("{} {}", if mm > 0.0 { more } else { less }, lengths.bare(mm.abs())))
    };
    let parts = [part(mark.seen_right_mm, "right", "left"), part(mark.seen_up_mm, "up", "down")];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// How far the picture of a face reaches, in halves of the blank's width.
const REACH: f64 = 1.12;
/// Corners of a drawn circle.
const CIRCLE: usize = 96;

fn stock_outline(piece: &Piece) -> Vec<Point> {
    match piece.solid.stock.section {
        Section::Square { half_side: h } => {
            vec![Point::new(-h, -h), Point::new(h, -h), Point::new(h, h), Point::new(-h, h)]
        }
        Section::Round { radius } => circle(Point::new(0.0, 0.0), radius),
    }
}

/// A circle as a ring of points.
pub(super) fn circle(middle: Point, radius: f64) -> Vec<Point> {
    let corner = |i: usize| {
        let (sin, cos) = (std::f64::consts::TAU * i as f64 / CIRCLE as f64).sin_cos();
        Point::new(middle.x + radius * cos, middle.y + radius * sin)
    };
    (0..CIRCLE).map(corner).collect()
}

/// The view that shows both faces, with room for the list of marks under them.
#[must_use]
pub fn fit(scene: &EndScene, sheet: Sheet) -> Viewport {
    let bottom = list_height(scene) + 8.0;
    Viewport::fit(sheet, scene.bounds(), Margins { left: 8.0, top: 46.0, right: 8.0, bottom })
}

/// Height of a line of the list, in CSS pixels.
const LINE_PX: f64 = 18.0;

fn list_height(scene: &EndScene) -> f64 {
    let lines = scene.tail.marks.iter().map(|m| if m.words[1].is_empty() { 1.0 } else { 2.0 });
    // A long list gives way to the faces.
    lines.sum::<f64>().min(7.0) * LINE_PX
}

/// Draws both end faces.
///
/// # Errors
/// [`DrawError`] when the backend fails.
pub fn draw_end_faces<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    scene: &EndScene,
    theme: &Theme,
    viewport: &Viewport,
) -> Result<(), DrawError> {
    on_area(area, viewport.sheet, |pen| {
        pen.cover(theme.paper)?;
        let mut places = Places::new(viewport.sheet);
        let list_top = viewport.sheet.height_px - list_height(scene) - 4.0;
        for face in [&scene.tail, &scene.head] {
            let mut view = FaceView { face, middle: scene.middle(face.face), theme, viewport, places: &mut places };
            view.draw(pen)?;
        }
        let (w, h) = (viewport.sheet.width_px, viewport.sheet.height_px);
        pen.fill(
            &[vec![Point::new(0.0, list_top), Point::new(w, list_top), Point::new(w, h), Point::new(0.0, h)]],
            theme.paper,
            1.0,
        )?;
        write_out(pen, &places, theme)?;
        for face in [&scene.tail, &scene.head] {
            list(pen, face, theme, list_top)?;
        }
        Ok(())
    })
}

struct FaceView<'a> {
    face: &'a FaceScene,
    middle: Point,
    theme: &'a Theme,
    viewport: &'a Viewport,
    places: &'a mut Places,
}

impl FaceView<'_> {
    fn pixel(&self, at: Point) -> Point {
        self.viewport.to_pixel(Point::new(self.middle.x + at.x, self.middle.y + at.y))
    }

    fn ring(&self, points: &[Point]) -> Vec<Point> {
        points.iter().map(|p| self.pixel(*p)).collect()
    }

    fn draw<DB: DrawingBackend>(&mut self, pen: &mut Pen<'_, DB>) -> Drawn<DB> {
        let (theme, face) = (self.theme, self.face);
        let stock = self.ring(&face.stock);
        pen.fill(std::slice::from_ref(&stock), theme.waste, 1.0)?;
        let on_sheet = clip_ring(&stock, &pen.frame());
        pen.strokes(&hatch(&[on_sheet], 6.0, Lean::Right), 0.8, theme.hatch, 0.35)?;
        pen.outline(&stock, 1.6, theme.ink)?;
        if let Some(radius) = face.plug_radius_mm {
            let plug = self.ring(&circle(Point::new(0.0, 0.0), radius));
            pen.fill(std::slice::from_ref(&plug), theme.wood, 1.0)?;
            pen.outline(&plug, 1.6, theme.ink)?;
        }
        if let Some(radius) = face.bore_radius_mm {
            pen.dashed(&closed(&self.ring(&circle(Point::new(0.0, 0.0), radius))), Pattern::DASHED, 1.2, theme.ink)?;
        }
        self.reference_lines(pen)?;
        self.title();
        for mark in &face.marks {
            self.mark(pen, mark)?;
        }
        for mark in &face.marks {
            self.letter(mark);
        }
        Ok(())
    }

    /// Thin centre lines across the face, and the reference line up from the centre with its arrow.
    fn reference_lines<DB: DrawingBackend>(&mut self, pen: &mut Pen<'_, DB>) -> Drawn<DB> {
        let reach = self.face.half_mm;
        let level = [self.pixel(Point::new(-reach, 0.0)), self.pixel(Point::new(reach, 0.0))];
        let down = [self.pixel(Point::new(0.0, 0.0)), self.pixel(Point::new(0.0, -reach))];
        let colour = self.theme.pencil;
        for line in [level, down] {
            pen.dashed(&line, Pattern::axis(0), 0.8, colour)?;
            self.places.avoid(&line);
        }
        let (from, edge) = (self.pixel(Point::new(0.0, 0.0)), self.pixel(Point::new(0.0, reach)));
        let tip = Point::new(edge.x, edge.y - 8.0);
        pen.strokes(&[(from, tip)], 1.4, colour, 1.0)?;
        let Point { x, y } = tip;
        pen.fill(
            &[vec![Point { x, y: y - 4.0 }, Point::new(x + 4.5, y + 6.0), Point::new(x - 4.5, y + 6.0)]],
            colour,
            1.0,
        )?;
        self.places.avoid(&[from, tip]);
        let words = "up".to_owned();
        let at = Point::new(tip.x + text::width(&words, SMALL) / 2.0 + 8.0, tip.y + 1.0);
        self.places.write(Text::new(words, at, SMALL, colour), &[at], true);
        Ok(())
    }

    fn title(&mut self) {
        let words = if self.face.face == Face::Tail { "Bowl end" } else { "Head end" };
        let top = self.pixel(Point::new(0.0, self.face.half_mm));
        let at = Point::new(top.x, (top.y - 28.0).max(14.0));
        let text = Text::new(words.to_owned(), at, LARGE, self.theme.ink).bold();
        self.places.write(text, &[at], true);
        let (low, high) =
            (self.pixel(Point::new(-self.face.half_mm, self.face.half_mm)), self.pixel(Point::new(0.0, 0.0)));
        self.places.take(Block { low: Point::new(low.x, low.y - 40.0), high: Point::new(low.x, high.y) });
    }

    fn mark<DB: DrawingBackend>(&mut self, pen: &mut Pen<'_, DB>, mark: &FaceMark) -> Drawn<DB> {
        let colour = mark_colour(self.theme, mark);
        let at = self.pixel(mark.at);
        if let Some(edge) = self.beyond(at) {
            self.places.take(Block::around(edge, 14.0, 14.0));
            return beyond::arrow(pen, edge, at, self.theme.stop);
        }
        let footprint: Vec<_> = circle(mark.at, self.face.footprint_mm).into_iter().map(|p| self.pixel(p)).collect();
        if mark.footing {
            pen.outline(&footprint, 1.0, colour)?;
        } else {
            // Overhanging: heavy and broken, whatever the colour.
            pen.dashed(&closed(&footprint), Pattern::DASHED, 2.4, self.theme.stop)?;
        }
        self.places.avoid(&coarse(&footprint));
        let Point { x, y } = at;
        pen.strokes(
            &[(Point::new(x - 7.0, y), Point::new(x + 7.0, y)), (Point::new(x, y - 7.0), Point::new(x, y + 7.0))],
            1.6,
            colour,
            1.0,
        )?;
        pen.disc(at, 2.6, colour)?;
        self.places.take(Block::around(at, 14.0, 14.0));
        Ok(())
    }

    /// Where an arrow stands for a mark so far off the wood that the picture does not show it.
    fn beyond(&self, at: Point) -> Option<Point> {
        let reach = self.face.half_mm * REACH;
        beyond::leaves(
            &Frame { low: self.pixel(Point::new(-reach, reach)), high: self.pixel(Point::new(reach, -reach)) },
            at,
        )
    }

    fn letter(&mut self, mark: &FaceMark) {
        let at = self.pixel(mark.at);
        let at = self.beyond(at).unwrap_or(at);
        let words = mark.letter.to_string();
        let mut middles = text::around(at, &words, LARGE, 6.0);
        // The corners first: the centre lines run through the sides.
        middles.rotate_left(4);
        let text = Text::new(words, at, LARGE, mark_colour(self.theme, mark)).bold();
        self.places.write(text, &middles, true);
    }
}

fn mark_colour(theme: &Theme, mark: &FaceMark) -> RGBColor {
    theme.axis(mark.index)
}

/// Width of the list of marks of one face, in CSS pixels.
const LIST_PX: f64 = 190.0;

/// The list of marks in the half of the sheet that belongs to the face.
fn list<DB: DrawingBackend>(pen: &mut Pen<'_, DB>, face: &FaceScene, theme: &Theme, top: f64) -> Drawn<DB> {
    let sheet = pen.sheet();
    let half = sheet.width_px / 2.0;
    // Under the face, not at the far left of a wide sheet.
    let inset = ((half - LIST_PX) / 2.0).max(8.0);
    let left = if face.face == Face::Tail { inset } else { half + inset };
    let mut y = top + LINE_PX / 2.0;
    for mark in &face.marks {
        let colour = mark_colour(theme, mark);
        let letter = Text::new(mark.letter.to_string(), Point::new(left + 6.0, y), LARGE, colour).bold();
        pen.text(&letter)?;
        for (i, line) in mark.words.iter().filter(|line| !line.is_empty()).enumerate() {
            let ink = if i == 0 { theme.ink } else { theme.pencil };
            let at = Point::new(left + 20.0, y);
            pen.text(&Text::new(line.clone(), at, SMALL, ink).from_left())?;
            y += LINE_PX;
        }
    }
    Ok(())
}
