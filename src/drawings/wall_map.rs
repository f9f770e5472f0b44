//! The wall map drawn: thickness of the wall along the hollow's outline and around it, unrolled from 12 o'clock.

use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, DrawingBackend};

use super::bar::Grade;
use super::frame::{Point, Sheet};
use super::line::Stroke;
use super::pen::{DrawError, Drawn, Pen, on_area};
use super::ramp;
use super::rule;
use super::scene::thickness;

use super::side_view::{grade_colour, grade_sign};
use super::text::{self, Block, LARGE, Places, SMALL, Text};
use super::theme::Theme;
use super::wall_scene::WallMapScene;

/// Shades on the map. Cells of one shade are drawn together.
const SHADES: usize = 32;
/// The scale ends at this many times the limit: what is thicker is simply thick.
const SCALE_END: f64 = 2.0;
/// Numbers stand about this far apart, in CSS pixels.
const NUMBERS_PX: (f64, f64) = (54.0, 36.0);

/// Draws the wall map.
///
/// # Errors
/// [`DrawError`] when the backend fails.
pub fn draw_wall_map<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    scene: &WallMapScene,
    theme: &Theme,
    sheet: Sheet,
) -> Result<(), DrawError> {
    on_area(area, sheet, |pen| {
        pen.cover(theme.paper)?;
        let Some(map) = Map::new(scene, theme, sheet) else {
            let at = Point::new(sheet.width_px / 2.0, sheet.height_px / 2.0);
            return pen.text(&Text::new("There is no hollow with a wall.", at, LARGE, theme.pencil));
        };
        let mut places = Places::new(sheet);
        map.cells(pen)?;
        let contour = map.contour();
        pen.strokes(&contour, 4.0, theme.paper, 1.0)?;
        pen.strokes(&contour, 2.0, theme.stop, 1.0)?;
        map.clocks(pen, &mut places)?;
        map.stations(pen, &mut places)?;
        map.scale(pen, &mut places)?;
        map.least(pen, &mut places)?;
        map.numbers(&mut places, &contour);
        for (text, _) in places.texts() {
            pen.text(text)?;
        }
        Ok(())
    })
}

/// Where the map lies on the sheet.
struct Map<'a> {
    scene: &'a WallMapScene,
    theme: &'a Theme,
    field: Block,
    px_per_mm: f64,
}

impl<'a> Map<'a> {
    fn new(scene: &'a WallMapScene, theme: &'a Theme, sheet: Sheet) -> Option<Self> {
        let length = scene.along_mm.last().copied().filter(|mm| mm.is_finite() && *mm > 0.0)?;
        let any = scene.thickness_mm.iter().any(Option::is_some);
        let field =
            Block { low: Point::new(34.0, 50.0), high: Point::new(sheet.width_px - 16.0, sheet.height_px - 34.0) };
        let px_per_mm = (field.high.x - field.low.x) / length;
        let room = px_per_mm > 0.0 && field.high.y > field.low.y && scene.clocks_deg.len() > 1;
        (any && room).then_some(Self { scene, theme, field, px_per_mm })
    }

    /// Where a place on the hollow falls: distance from the mouth along its outline, and clock direction.
    fn pixel(&self, along_mm: f64, clock_deg: f64) -> Point {
        let down = (self.field.high.y - self.field.low.y) * clock_deg / 360.0;
        Point::new(self.field.low.x + along_mm * self.px_per_mm, self.field.low.y + down)
    }

    /// Where on the scale a thickness is, 0 to 1.
    fn share(&self, mm: f64) -> f64 {
        mm / (SCALE_END * self.scene.limit_mm.max(0.1))
    }

    /// Every cell between neighbouring rows and columns, in the shade of the mean of its corners. Neighbours of one
    /// shade are joined.
    fn cells<DB: DrawingBackend>(&self, pen: &mut Pen<'_, DB>) -> Drawn<DB> {
        let scene = self.scene;
        let mut shades: Vec<Vec<Vec<Point>>> = vec![Vec::new(); SHADES];
        for (i, along) in scene.along_mm.windows(2).enumerate() {
            let mut run: Option<(usize, f64)> = None;
            for (j, clock) in scene.clocks_deg.iter().enumerate() {
                let shade = self.shade(i, j);
                if run.map(|r| r.0) == shade {
                    continue;
                }
                if let Some((shade, from)) = run {
                    let (low, high) = (self.pixel(along[0], from), self.pixel(along[1], *clock));
                    // A hair over the neighbours, so that no paper shows between cells.
                    let high = Point::new(high.x + 0.4, high.y + 0.4);
                    shades[shade].push(vec![low, Point::new(high.x, low.y), high, Point::new(low.x, high.y)]);
                }
                run = shade.map(|shade| (shade, *clock));
            }
        }
        for (shade, rings) in shades.iter().enumerate() {
            pen.fill(rings, ramp::colour((shade as f64 + 0.5) / SHADES as f64), 1.0)?;
        }
        Ok(())
    }

    /// The shade of the cell after a row and a column; `None` past the last ones and where there is no wall.
    fn shade(&self, i: usize, j: usize) -> Option<usize> {
        if j + 1 >= self.scene.clocks_deg.len() {
            return None;
        }
        let corners = [(i, j), (i + 1, j), (i + 1, j + 1), (i, j + 1)].map(|(i, j)| self.scene.at(i, j));
        let known = corners.iter().flatten().count();
        let share = self.share(corners.iter().flatten().sum::<f64>() / known.max(1) as f64).clamp(0.0, 1.0);
        (known >= 3).then(|| ((share * SHADES as f64) as usize).min(SHADES - 1))
    }

    /// The line where the wall is just at the limit.
    fn contour(&self) -> Vec<Stroke> {
        let scene = self.scene;
        let mut strokes: Vec<Stroke> = Vec::new();
        for (i, along) in scene.along_mm.windows(2).enumerate() {
            for (j, clock) in scene.clocks_deg.windows(2).enumerate() {
                let corners = [(i, j), (i + 1, j), (i + 1, j + 1), (i, j + 1)];
                let Some(over) = all_of(corners.map(|(i, j)| Some(scene.at(i, j)? - scene.limit_mm))) else {
                    continue;
                };
                let places = [(along[0], clock[0]), (along[1], clock[0]), (along[1], clock[1]), (along[0], clock[1])]
                    .map(|(s, c)| self.pixel(s, c));
                strokes.extend(crossings(over, places));
            }
        }
        strokes
    }

    fn clocks<DB: DrawingBackend>(&self, pen: &mut Pen<'_, DB>, places: &mut Places) -> Drawn<DB> {
        let (left, right) = (self.field.low.x, self.field.high.x);
        let mut lines = Vec::new();
        for (hour, words) in ["12", "3", "6", "9", "12"].into_iter().enumerate() {
            let Point { y, .. } = self.pixel(0.0, 90.0 * hour as f64);
            lines.push((Point::new(left - 5.0, y), Point::new(right, y)));
            let at = Point::new(left - 18.0, y);
            places.write(Text::new(words, at, SMALL, self.theme.pencil), &[at], true);
        }
        pen.strokes(&lines, 0.6, self.theme.pencil, 0.5)?;
        let field = self.field;
        let ring =
            [field.low, Point::new(field.high.x, field.low.y), field.high, Point::new(field.low.x, field.high.y)];
        pen.outline(&ring, 1.0, self.theme.pencil)
    }

    /// Stations along the bottom as far as they rise, then the floor.
    fn stations<DB: DrawingBackend>(&self, pen: &mut Pen<'_, DB>, places: &mut Places) -> Drawn<DB> {
        let scene = self.scene;
        let pencil = self.theme.pencil;
        let (number_mm, ticks) = rule::step(scene.lengths.length, self.px_per_mm);
        let tick_mm = number_mm / f64::from(ticks);
        let bottom = self.field.high.y;
        let (from, to) = scene.side_stations();
        let (first, last) = ((from / tick_mm).ceil() as i64, (to / tick_mm).floor() as i64);
        let mut lines = Vec::new();
        let floor_x = self.pixel(scene.floor_from_mm, 0.0).x;
        let room = self.field.high.x - floor_x;
        if room > 1.0 {
            lines.push((Point::new(floor_x, self.field.low.y), Point::new(floor_x, bottom + 9.0)));
            let at = Point::new(floor_x + room / 2.0, bottom + 20.0);
            let fits = text::width("floor", SMALL) < room;
            if fits {
                places.write(Text::new("floor", at, SMALL, pencil), &[at], false);
            }
        }
        for tick in first..=last.min(first.saturating_add(2000)) {
            let mm = tick as f64 * tick_mm;
            let Some(along) = scene.along_at(mm) else { continue };
            let Point { x, .. } = self.pixel(along, 0.0);
            let on_number = tick % i64::from(ticks) == 0;
            lines.push((Point::new(x, bottom), Point::new(x, bottom + if on_number { 9.0 } else { 5.0 })));
            if on_number {
                let at = Point::new(x, bottom + 20.0);
                places.write(Text::new(rule::number(mm, scene.lengths), at, SMALL, pencil), &[at], false);
            }
        }
        pen.strokes(&lines, 1.0, pencil, 1.0)
    }

    /// The scale of shades along the top, with the limit marked on it.
    fn scale<DB: DrawingBackend>(&self, pen: &mut Pen<'_, DB>, places: &mut Places) -> Drawn<DB> {
        let (left, right, top, bottom) = (self.field.low.x, self.field.high.x, 8.0, 20.0);
        let at = |share: f64| left + (right - left) * share;
        for shade in 0..SHADES {
            let share = |i: usize| i as f64 / SHADES as f64;
            let (a, b) = (at(share(shade)), at(share(shade + 1)) + 0.4);
            let ring = vec![Point::new(a, top), Point::new(b, top), Point::new(b, bottom), Point::new(a, bottom)];
            pen.fill(&[ring], ramp::colour(share(shade) + 0.5 / SHADES as f64), 1.0)?;
        }
        pen.outline(
            &[Point { x: left, y: top }, Point::new(right, top), Point::new(right, bottom), Point::new(left, bottom)],
            1.0,
            self.theme.pencil,
        )?;
        let limit = at(1.0 / SCALE_END);
        pen.strokes(
            &[(Point { x: limit, y: top - 4.0 }, Point { x: limit, y: bottom + 4.0 })],
            4.0,
            self.theme.paper,
            1.0,
        )?;
        pen.strokes(
            &[(Point { x: limit, y: top - 4.0 }, Point { x: limit, y: bottom + 4.0 })],
            2.0,
            self.theme.stop,
            1.0,
        )?;
        let lengths = self.scene.lengths;
        let y = bottom + 14.0;
        let limit_words = format!("limit {}", lengths.bare(self.scene.limit_mm));
        let text = Text::new(limit_words, Point { x: limit, y }, SMALL, self.theme.stop).bold();
        places.write(text, &[Point { x: limit, y }], true);
        let end_words = format!("{} or more", lengths.bare(SCALE_END * self.scene.limit_mm));
        let half = text::width(&end_words, SMALL) / 2.0;
        let ends = [("0".to_owned(), left + 6.0), (end_words, right - half)];
        for (words, x) in ends {
            places.write(Text::new(words, Point { x, y }, SMALL, self.theme.pencil), &[Point { x, y }], true);
        }
        Ok(())
    }

    /// A ring around the least wall, and its thickness.
    fn least<DB: DrawingBackend>(&self, pen: &mut Pen<'_, DB>, places: &mut Places) -> Drawn<DB> {
        let Some((along, clock, mm)) = self.scene.least else { return Ok(()) };
        let at = self.pixel(along, clock.rem_euclid(360.0));
        if !(at.x.is_finite() && at.y.is_finite()) {
            return Ok(());
        }
        pen.circle(at, 8.0, 5.0, self.theme.paper)?;
        pen.circle(at, 8.0, 2.4, self.theme.ink)?;
        places.take(Block::around(at, 20.0, 20.0));
        let grade = Grade::of_thickness(mm, self.scene.limit_mm);
        let words = format!("{}{}", grade_sign(grade), thickness(mm, self.scene.lengths));
        let middles = text::around(at, &words, LARGE, 14.0);
        let before = places.texts().len();
        places.write(Text::new(words, at, LARGE, grade_colour(self.theme, grade)).bold(), &middles, true);
        if let Some((text, _)) = places.texts().get(before) {
            let block = Block::around(text.at, text::width(&text.words, LARGE) + 10.0, LARGE + 8.0);
            let (low, high) = (block.low, block.high);
            let ring = [low, Point::new(high.x, low.y), high, Point::new(low.x, high.y)];
            pen.fill(&[ring.to_vec()], self.theme.paper, 1.0)?;
            pen.outline(&ring, 1.2, self.theme.ink)?;
        }
        Ok(())
    }

    /// The thickness in numbers, on an even grid of places.
    fn numbers(&self, places: &mut Places, contour: &[Stroke]) {
        let (w, h) = (self.field.high.x - self.field.low.x, self.field.high.y - self.field.low.y);
        let (columns, rows) = ((w / NUMBERS_PX.0).floor().max(1.0), (h / NUMBERS_PX.1).floor().max(1.0));
        for column in 0..columns as usize {
            for row in 0..rows as usize {
                let share = ((column as f64 + 0.5) / columns, (row as f64 + 0.5) / rows);
                let at = Point::new(self.field.low.x + w * share.0, self.field.low.y + h * share.1);
                self.number(places, contour, at);
            }
        }
    }

    /// One number, unless it would stand over the edge of the wall or on the contour.
    fn number(&self, places: &mut Places, contour: &[Stroke], at: Point) {
        let scene = self.scene;
        let Some(mm) = self.under(at) else { return };
        let words = scene.lengths.bare(mm);
        let block = Block::around(at, text::width(&words, SMALL), SMALL);
        let (low, high) = (block.low, block.high);
        let corners = [low, high, Point::new(low.x, high.y), Point::new(high.x, low.y)];
        if corners.iter().any(|c| self.under(*c).is_none()) || contour.iter().any(|s| block.is_crossed_by(*s)) {
            return;
        }
        let colour = ramp::lettering(ramp::colour(self.share(mm)));
        places.write(Text::new(words, at, SMALL, colour), &[at], false);
    }

    /// The thickness at the grid point nearest to a place on the sheet.
    fn under(&self, at: Point) -> Option<f64> {
        let along_mm = (at.x - self.field.low.x) / self.px_per_mm;
        let clock_deg = 360.0 * (at.y - self.field.low.y) / (self.field.high.y - self.field.low.y);
        let scene = self.scene;
        scene.at(nearest(&scene.along_mm, along_mm), nearest(&scene.clocks_deg, clock_deg))
    }
}

/// All of four, if none is missing.
fn all_of(values: [Option<f64>; 4]) -> Option<[f64; 4]> {
    let [Some(a), Some(b), Some(c), Some(d)] = values else { return None };
    Some([a, b, c, d])
}

/// Where zero runs through a cell, given the values at its corners in order around it.
fn crossings(values: [f64; 4], places: [Point; 4]) -> Vec<Stroke> {
    let mut points = Vec::new();
    for side in 0..4 {
        let (a, b) = (values[side], values[(side + 1) % 4]);
        if (a < 0.0) != (b < 0.0) {
            let (p, q) = (places[side], places[(side + 1) % 4]);
            let share = a / (a - b);
            points.push(Point::new(p.x + (q.x - p.x) * share, p.y + (q.y - p.y) * share));
        }
    }
    points.chunks_exact(2).map(|pair| (pair[0], pair[1])).collect()
}

/// The place of the value nearest to `wanted` in a rising list.
fn nearest(list: &[f64], wanted: f64) -> usize {
    let far = |v: &f64| (v - wanted).abs();
    list.iter().enumerate().min_by(|a, b| far(a.1).total_cmp(&far(b.1))).map_or(0, |(i, _)| i)
}
