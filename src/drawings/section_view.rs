//! A section of the finished piece square to axis A at one station, seen from the handle: x to the right, up is up.

use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, DrawingBackend};

use super::bar::WallBar;
use super::bar::wall_bar;
use super::beyond;
use super::clip::{Frame, clip_ring};
use super::end_faces::circle;
use super::frame::{Bounds, Margins, Point, Sheet, Viewport};
use super::line::{Lean, Pattern, Stroke, distance, hatch};
use super::pen::{DrawError, Drawn, Pen, on_area, toward};
use super::scene::{DRAWN_TOLERANCE, closed_hollows, points, thickness};
use super::side_view::{closed, coarse, grade_colour, grade_sign, write_out};
use super::text::{self, LARGE, Places, SMALL, Text};
use super::theme::Theme;
use crate::design::{AxisName, Units};
use crate::figures::Place;
use crate::figures::wall::WallPoint;
use crate::geometry::frame::tolerance::ROUNDING_MM;
use crate::geometry::plane::section::{region_outlines, section};
use crate::geometry::{Axis, Plane, Role, Section, Solid, Vector};
use crate::piece::Piece;

/// A section at a station.
#[derive(Clone, Debug, PartialEq)]
pub struct SectionScene {
    /// The station, in mm.
    pub station_mm: f64,
    /// Wood of the finished piece; outer outlines one way round, holes the other.
    pub wood: Vec<Vec<Point>>,
    /// Outline of the blank; empty outside it.
    pub stock: Vec<Point>,
    /// Outlines of the hollows.
    pub hollows: Vec<Vec<Point>>,
    /// Where axes pass through: place in A, B, C..., letter, point.
    pub axes: Vec<(usize, char, Point)>,
    /// The least wall at this station.
    pub wall: Option<WallBar>,
    /// How lengths are written.
    pub lengths: Units,
}

impl SectionScene {
    /// The section at a station, in mm; `limit_mm` is the least wall that is wanted.
    #[must_use]
    pub fn new(piece: &Piece, station_mm: f64, limit_mm: f64, lengths: Units) -> Self {
        let station_mm = if station_mm.is_finite() { station_mm } else { 0.0 };
        let solid = &piece.solid;
        let plane = Plane::square_to(&Axis::A, station_mm);
        let in_blank = (0.0..=solid.stock.length).contains(&station_mm);
        // Beyond the blank there is no wood, and a station far enough beyond it has no numbers to compute with.
        let wood = match in_blank {
            true => points(&section(&solid.finished(), &plane, DRAWN_TOLERANCE).outlines),
            false => Vec::new(),
        };
        let wall =
            least_wall(solid, station_mm, &wood).map(|at| wall_bar(solid, &at, limit_mm, |p| Point::new(p.x, p.y)));
        let stock = match solid.stock.section {
            _ if !in_blank => Vec::new(),
            Section::Square { half_side: h } => [(-h, -h), (h, -h), (h, h), (-h, h)].map(Point::from).to_vec(),
            Section::Round { radius } => circle(Point::new(0.0, 0.0), radius),
        };
        let hollows = closed_hollows(solid)
            .filter(|_| in_blank)
            .flat_map(|region| points(&region_outlines(&region, &solid.state(0), &plane, DRAWN_TOLERANCE)))
            .collect();
        let named = piece.axes.iter().enumerate().filter_map(|(i, axis)| Some((i, AxisName::from_index(i)?, axis)));
        let axes = named
            .filter_map(|(i, name, axis)| axis.centre(station_mm).map(|p| (i, name.letter(), Point::new(p.x, p.y))))
            .collect();
        Self { station_mm, wood, stock, hollows, axes, wall, lengths }
    }

    /// Everything that should be seen, in mm.
    #[must_use]
    pub fn bounds(&self) -> Bounds {
        Bounds::around(self.stock.iter().chain(self.wood.iter().flatten()).copied())
    }
}

/// The least wall over the corners of a section that lie on a hollow: within 0.05 mm of the least at the station.
fn least_wall(solid: &Solid, station_mm: f64, wood: &[Vec<Point>]) -> Option<WallPoint> {
    let hollows: Vec<_> = solid.with_role(Role::Inside).map(|removal| &removal.region).collect();
    let corners = wood.iter().flatten().map(|p| Vector::new(p.x, p.y, station_mm));
    let on_hollow = corners.filter(|p| hollows.iter().any(|h| h.signed_distance(*p).abs() < 2.0 * DRAWN_TOLERANCE));
    let walls = on_hollow.map(|point| WallPoint {
        wall_mm: solid.to_outside(point).distance,
        place: Place::of(point),
        limited_by_cut: None,
        point,
    });
    walls.min_by(|a, b| a.wall_mm.total_cmp(&b.wall_mm))
}

/// The view that shows the whole section. `scene` only tells how large the blank is, so that the view stays the same
/// from station to station.
#[must_use]
pub fn fit(scene: &SectionScene, sheet: Sheet) -> Viewport {
    Viewport::fit(sheet, scene.bounds(), Margins { left: 64.0, top: 40.0, right: 64.0, bottom: 44.0 })
}

/// Draws the section.
///
/// # Errors
/// [`DrawError`] when the backend fails.
pub fn draw_section<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    scene: &SectionScene,
    theme: &Theme,
    viewport: &Viewport,
) -> Result<(), DrawError> {
    on_area(area, viewport.sheet, |pen| {
        pen.cover(theme.paper)?;
        let mut view = View { scene, theme, viewport, places: Places::new(viewport.sheet) };
        view.wood(pen)?;
        view.axes(pen)?;
        view.title();
        view.size(pen)?;
        view.wall(pen)?;
        write_out(pen, &view.places, theme)
    })
}

struct View<'a> {
    scene: &'a SectionScene,
    theme: &'a Theme,
    viewport: &'a Viewport,
    places: Places,
}

impl View<'_> {
    fn wood<DB: DrawingBackend>(&mut self, pen: &mut Pen<'_, DB>) -> Drawn<DB> {
        let (scene, theme) = (self.scene, self.theme);
        let wood: Vec<_> = scene.wood.iter().map(|ring| self.viewport.to_pixels(ring)).collect();
        pen.fill(&wood, theme.wood, 1.0)?;
        let on_sheet: Vec<_> = wood.iter().map(|ring| clip_ring(ring, &pen.frame())).collect();
        pen.strokes(&hatch(&on_sheet, 6.0, Lean::Right), 0.9, theme.hatch, 1.0)?;
        pen.outline(&self.viewport.to_pixels(&scene.stock), 1.0, theme.pencil)?;
        for hollow in &scene.hollows {
            pen.dashed(&closed(&self.viewport.to_pixels(hollow)), Pattern::DASHED, 1.2, theme.ink)?;
        }
        for ring in &wood {
            pen.outline(ring, 2.0, theme.ink)?;
            self.places.avoid(&coarse(&closed(ring)));
        }
        Ok(())
    }

    /// A small cross where each axis passes through, and an arrow where that is beyond the blank.
    fn axes<DB: DrawingBackend>(&mut self, pen: &mut Pen<'_, DB>) -> Drawn<DB> {
        let bounds = self.scene.bounds();
        let (low, high) = (self.viewport.to_pixel(bounds.low), self.viewport.to_pixel(bounds.high));
        let room = Frame { low: Point::new(low.x, high.y), high: Point::new(high.x, low.y) };
        for (index, letter, at) in &self.scene.axes {
            let through = self.viewport.to_pixel(*at);
            let colour = self.theme.axis(*index);
            let edge = beyond::leaves(&room, through);
            let Point { x, y } = edge.unwrap_or(through);
            if edge.is_some() {
                beyond::arrow(pen, Point::new(x, y), through, colour)?;
            } else {
                let cross: [Stroke; 2] = [
                    (Point::new(x - 8.0, y), Point::new(x + 8.0, y)),
                    (Point::new(x, y - 8.0), Point::new(x, y + 8.0)),
                ];
                pen.strokes(&cross, 1.4, colour, 1.0)?;
            }
            self.places.take(text::Block::around(Point::new(x, y), 14.0, 14.0));
            let words = letter.to_string();
            let middles = text::around(Point::new(x, y), &words, LARGE, 6.0);
            self.places.write(Text::new(words, Point::new(x, y), LARGE, colour).bold(), &middles, true);
        }
        Ok(())
    }

    fn title(&mut self) {
        let words = format!("At {} from the bowl end", self.scene.lengths.bare(self.scene.station_mm));
        let at = Point::new(self.viewport.sheet.width_px / 2.0, 16.0);
        self.places.write(Text::new(words, at, LARGE, self.theme.ink).bold(), &[at], true);
    }

    /// Width under the section and height beside it.
    fn size<DB: DrawingBackend>(&mut self, pen: &mut Pen<'_, DB>) -> Drawn<DB> {
        let bounds = Bounds::around(self.scene.wood.iter().flatten().copied());
        let Some((width, height)) = bounds.size().filter(|size| size.0 > 0.0 && size.1 > 0.0) else {
            let at = Point::new(self.viewport.sheet.width_px / 2.0, self.viewport.sheet.height_px / 2.0);
            self.places.write(Text::new("No wood here", at, LARGE, self.theme.pencil), &[at], true);
            return Ok(());
        };
        let outside = Bounds::around(self.scene.stock.iter().chain(self.scene.wood.iter().flatten()).copied());
        let (low, high) = (self.viewport.to_pixel(bounds.low), self.viewport.to_pixel(bounds.high));
        let (corner, far) = (self.viewport.to_pixel(outside.low), self.viewport.to_pixel(outside.high));
        let (y, x) = (corner.y + 18.0, far.x + 14.0);
        let pencil = self.theme.pencil;
        let witness = [
            (Point::new(low.x, low.y), Point::new(low.x, y + 3.0)),
            (Point::new(high.x, low.y), Point::new(high.x, y + 3.0)),
            (Point::new(high.x, low.y), Point::new(x + 3.0, low.y)),
            (Point::new(high.x, high.y), Point::new(x + 3.0, high.y)),
        ];
        pen.strokes(&witness, 0.8, pencil, 0.5)?;
        pen.dimension(Point::new(low.x, y), Point::new(high.x, y), 0.8, pencil)?;
        pen.dimension(Point::new(x, low.y), Point::new(x, high.y), 0.8, pencil)?;
        let lengths = self.scene.lengths;
        let under = Point::new(f64::midpoint(low.x, high.x), y + 12.0);
        self.places.write(Text::new(lengths.bare(width), under, SMALL, pencil), &[under], true);
        let words = lengths.bare(height);
        let half = text::width(&words, SMALL) / 2.0 + 6.0;
        let middle = f64::midpoint(low.y, high.y);
        self.places.write(
            Text::new(words, Point { x, y: middle }, SMALL, pencil),
            &[Point { x: x + half, y: middle }, Point::new(x + half, high.y - 10.0), Point::new(x - half, middle)],
            true,
        );
        Ok(())
    }

    fn wall<DB: DrawingBackend>(&mut self, pen: &mut Pen<'_, DB>) -> Drawn<DB> {
        let Some(bar) = &self.scene.wall else { return Ok(()) };
        let (a, b) = (self.viewport.to_pixel(bar.inside), self.viewport.to_pixel(bar.outside));
        let colour = grade_colour(self.theme, bar.grade);
        pen.strokes(&[(a, b)], 3.4, colour, 1.0)?;
        let words = format!("{}{}", grade_sign(bar.grade), thickness(bar.thickness_mm, self.scene.lengths));
        let mut middles: Vec<_> = [14.0, 22.0, 34.0].map(|off| toward(b, a, -off - 6.0)).to_vec();
        if distance(a, b) < ROUNDING_MM {
            middles.clear();
        }
        middles.extend(text::around(b, &words, LARGE, 8.0));
        self.places.write(Text::new(words, b, LARGE, colour).bold(), &middles, true);
        Ok(())
    }
}
