//! The side view: the finished piece cut at x = 0 inside its blank, axes, hollow, saw line, join and what can be
//! dragged. Seen from the left: the bowl end is on the left of the sheet, up is up.

use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, DrawingBackend, RGBColor};

use super::bar::{Grade, WallBar};
use super::clip::clip_ring;
use super::frame::{Bounds, Margins, Point, Sheet, Viewport};
use super::handles::{Handle, HandleShape};
use super::line::{Lean, Pattern, Stroke, distance, hatch};
use super::pen::{DrawError, Drawn, Pen, on_area, toward};
use super::rule::{self, RULE_PX};
use super::scene::{AxisLine, SideScene, thickness};
use super::text::{self, Block, LARGE, Places, SMALL, Text};
use super::theme::Theme;

/// Hatching lines stand this far apart, in CSS pixels.
const HATCH_PX: f64 = 6.0;
/// How far an axis is drawn past the work, in CSS pixels.
const PAST_PX: f64 = 9.0;

/// On a sheet so low that words and measures would take more than this share of it, the piece comes first: they may then
/// lie over it or past the edge.
const MOST_MARGIN: f64 = 0.6;

/// The view that shows the whole of a scene.
#[must_use]
pub fn fit(scene: &SideScene, sheet: Sheet) -> Viewport {
    let measures = 20.0 + MEASURE_PX * scene.measures.len().min(3) as f64;
    let mut margins = Margins { left: 30.0, top: measures, right: 30.0, bottom: RULE_PX + 26.0 };
    if margins.top + margins.bottom > MOST_MARGIN * sheet.height_px {
        (margins.top, margins.bottom) = (PAST_PX, RULE_PX + PAST_PX);
    }
    Viewport::fit(sheet, scene.bounds(), margins)
}

/// Draws the side view.
///
/// # Errors
/// [`DrawError`] when the backend fails.
pub fn draw_side_view<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    scene: &SideScene,
    theme: &Theme,
    viewport: &Viewport,
) -> Result<(), DrawError> {
    on_area(area, viewport.sheet, |pen| {
        let mut view = View { scene, theme, viewport, places: Places::new(viewport.sheet) };
        view.draw(pen)
    })
}

struct View<'a> {
    scene: &'a SideScene,
    theme: &'a Theme,
    viewport: &'a Viewport,
    places: Places,
}

impl View<'_> {
    fn draw<DB: DrawingBackend>(&mut self, pen: &mut Pen<'_, DB>) -> Drawn<DB> {
        pen.cover(self.theme.paper)?;
        for handle in &self.scene.handles {
            self.places.take(Block::around(self.viewport.to_pixel(handle.at_mm), 10.0, 10.0));
        }
        self.wood(pen)?;
        for line in &self.scene.chosen_part {
            pen.line(&self.viewport.to_pixels(line), 4.0, self.theme.focus)?;
        }
        self.turned_shapes(pen)?;
        self.axes(pen)?;
        self.saws(pen)?;
        self.station(pen)?;
        self.measures(pen)?;
        if let Some(bar) = &self.scene.thin_wall {
            self.wall_bar(pen, bar)?;
        }
        self.fins(pen)?;
        rule::draw(pen, &mut self.places, (self.viewport, self.theme, self.scene.lengths), self.scene.station_mm)?;
        self.handles(pen)?;
        self.names();
        write_out(pen, &self.places, self.theme)
    }

    fn rings(&self, rings: &[Vec<Point>]) -> Vec<Vec<Point>> {
        rings.iter().map(|ring| self.viewport.to_pixels(ring)).collect()
    }

    /// What goes, what stays, and their outlines.
    fn wood<DB: DrawingBackend>(&mut self, pen: &mut Pen<'_, DB>) -> Drawn<DB> {
        let scene = self.scene;
        let (stock, plugs) = (self.rings(&scene.stock), self.rings(&scene.plugs));
        let (wood, hollows) = (self.rings(&scene.wood), self.rings(&scene.hollows));
        pen.fill(&stock, self.theme.waste, 1.0)?;
        let on_sheet: Vec<_> = stock.iter().map(|ring| clip_ring(ring, &pen.frame())).collect();
        pen.strokes(&hatch(&on_sheet, HATCH_PX, Lean::Right), 0.8, self.theme.hatch, 0.55)?;
        for ring in &hollows {
            pen.fill(std::slice::from_ref(ring), self.theme.paper, 1.0)?;
        }
        pen.fill(&wood, self.theme.wood, 1.0)?;
        for ring in stock.iter().chain(&plugs) {
            pen.outline(ring, 1.0, self.theme.pencil)?;
        }
        for ring in &hollows {
            pen.dashed(&closed(ring), Pattern::DASHED, 1.2, self.theme.ink)?;
        }
        for ring in &wood {
            pen.outline(ring, 2.0, self.theme.ink)?;
            self.places.avoid(&coarse(&closed(ring)));
        }
        Ok(())
    }

    /// What the passes are turned to before the next axis takes its share.
    fn turned_shapes<DB: DrawingBackend>(&mut self, pen: &mut Pen<'_, DB>) -> Drawn<DB> {
        for join in &self.scene.joins {
            for chain in &join.leave {
                pen.dashed(&self.viewport.to_pixels(chain), Pattern::DOTTED, 1.2, self.theme.good)?;
            }
            for chain in &join.tapers {
                pen.line(&self.viewport.to_pixels(chain), 1.0, self.theme.good)?;
            }
        }
        let mut ticks: Vec<Stroke> = Vec::new();
        for boundary in &self.scene.boundaries {
            ticks.extend(boundary.map(|[a, b]| (self.viewport.to_pixel(a), self.viewport.to_pixel(b))));
        }
        pen.strokes(&ticks, 0.8, self.theme.pencil, 1.0)
    }

    fn axes<DB: DrawingBackend>(&mut self, pen: &mut Pen<'_, DB>) -> Drawn<DB> {
        for axis in &self.scene.axes {
            let [tail, head] = axis.ends.map(|p| self.viewport.to_pixel(p));
            let line = [toward(tail, head, -PAST_PX), toward(head, tail, -PAST_PX)];
            let colour = self.theme.axis(axis.index);
            pen.dashed(&line, Pattern::axis(axis.index), 1.2, colour)?;
            self.places.avoid(&line);
        }
        for axis in &self.scene.axes {
            self.letters(axis);
        }
        Ok(())
    }

    /// The letter of an axis past both its ends; a tilted one tells its angle beside its head end.
    fn letters(&mut self, axis: &AxisLine) {
        let [tail, head] = axis.ends.map(|p| self.viewport.to_pixel(p));
        let colour = self.theme.axis(axis.index);
        let words = axis.letter.to_string();
        let half = text::width(&words, LARGE) / 2.0;
        for (here, other) in [(tail, head), (head, tail)] {
            let tip = toward(here, other, -PAST_PX);
            let past = |off: f64| toward(tip, other, -half - off);
            let beside = |off: f64| Point::new(past(3.0).x, past(3.0).y + off);
            let mut middles = vec![past(3.0), beside(-14.0), beside(14.0), beside(-26.0), beside(26.0)];
            middles.extend(text::around(tip, &words, LARGE, 4.0));
            self.places.write(Text::new(words.clone(), tip, LARGE, colour).bold(), &middles, true);
        }
        if axis.tilt_deg > 0.05 && axis.tilt_deg < 89.0 {
            let words = format!("{:.1}\u{b0}", axis.tilt_deg);
            let half = text::width(&words, LARGE) / 2.0;
            let off = |dx: f64, dy: f64| Point::new(head.x + dx, head.y + dy);
            let mut middles = vec![off(-half, -16.0), off(-half, 16.0), off(-half, -34.0), off(-half, 34.0)];
            middles.extend(text::around(head, &words, LARGE, 6.0));
            self.places.write(Text::new(words, head, LARGE, colour).bold(), &middles, true);
        }
    }

    /// The saw line, carried on past the bowl end and up out of the wood at the handle end, as the saw goes.
    fn saws<DB: DrawingBackend>(&mut self, pen: &mut Pen<'_, DB>) -> Drawn<DB> {
        for saw in &self.scene.saws {
            let mut line = self.viewport.to_pixels(saw);
            if let ([first, second, ..], Some(last)) = (line.as_slice(), line.last()) {
                let (start, end) = (toward(*first, *second, -14.0), Point::new(last.x, last.y - 14.0));
                line.insert(0, start);
                line.push(end);
            }
            pen.dashed(&line, Pattern::LONG_DASH_DOUBLE_DOT, 1.6, self.theme.ink)?;
            self.places.avoid(&coarse(&line));
        }
        Ok(())
    }

    /// Where the section that is looked at cuts.
    fn station<DB: DrawingBackend>(&mut self, pen: &mut Pen<'_, DB>) -> Drawn<DB> {
        let Some(mm) = self.scene.station_mm else { return Ok(()) };
        let x = self.viewport.to_pixel(Point::new(mm, 0.0)).x;
        let stock = self.scene.stock.iter().flatten().copied();
        let Some(Point { y: top, .. }) = high_pixel(stock, self.viewport) else { return Ok(()) };
        let line = [Point::new(x, top - 8.0), Point::new(x, self.viewport.sheet.height_px - RULE_PX)];
        pen.dashed(&line, Pattern::DOTTED, 1.2, self.theme.focus)?;
        self.places.avoid(&line);
        Ok(())
    }

    /// Dimensions stacked above the work, the shortest next to it.
    fn measures<DB: DrawingBackend>(&mut self, pen: &mut Pen<'_, DB>) -> Drawn<DB> {
        let rings = self.scene.stock.iter().chain(&self.scene.plugs).flatten();
        let points = rings.copied().chain(self.scene.axes.iter().flat_map(|a| a.ends));
        let Some(Point { y: top, .. }) = high_pixel(points, self.viewport) else { return Ok(()) };
        for (i, measure) in self.scene.measures.iter().take(3).enumerate() {
            let y = top - 16.0 - MEASURE_PX * i as f64;
            let [a, b] = measure.between.map(|p| self.viewport.to_pixel(p));
            let witness = [a, b].map(|p| (Point::new(p.x, p.y - 4.0), Point::new(p.x, y - 3.0)));
            pen.strokes(&witness, 0.8, self.theme.pencil, 0.6)?;
            pen.dimension(Point::new(a.x, y), Point::new(b.x, y), 0.8, self.theme.pencil)?;
            let middle = Point::new(f64::midpoint(a.x, b.x), y - 10.0);
            let text = Text::new(measure.words.clone(), middle, SMALL, self.theme.pencil);
            let side = text::width(&text.words, SMALL) / 2.0 + 24.0;
            self.places.write(text, &[middle, Point::new(b.x + side, y), Point::new(a.x - side, y)], true);
            self.places.avoid(&[Point::new(a.x, y), Point::new(b.x, y)]);
        }
        Ok(())
    }

    /// A short thick bar across the wall with its thickness beside it.
    fn wall_bar<DB: DrawingBackend>(&mut self, pen: &mut Pen<'_, DB>, bar: &WallBar) -> Drawn<DB> {
        let (a, b) = (self.viewport.to_pixel(bar.inside), self.viewport.to_pixel(bar.outside));
        let colour = grade_colour(self.theme, bar.grade);
        // Never so short that it cannot be seen; seen end on, it is a dot.
        let spare = ((7.0 - distance(a, b)) / 2.0).max(1.0);
        let ends = (toward(a, b, -spare), toward(b, a, -spare));
        if distance(a, b) < 1.0 {
            pen.disc(a, 4.5, colour)?;
        } else {
            pen.strokes(&[ends], 4.0, colour, 1.0)?;
        }
        let words = format!("{}{}", grade_sign(bar.grade), thickness(bar.thickness_mm, self.scene.lengths));
        let middles = beside(ends.1, a, b, &words, LARGE);
        let text = Text::new(words, ends.1, LARGE, colour).bold();
        self.places.write(text, &middles, true);
        Ok(())
    }

    fn fins<DB: DrawingBackend>(&mut self, pen: &mut Pen<'_, DB>) -> Drawn<DB> {
        for fin in &self.scene.fins {
            let at = self.viewport.to_pixel(fin.at);
            let Point { x, y } = at;
            pen.fill(
                &[vec![Point::new(x, y - 7.0), Point::new(x + 7.0, y + 5.0), Point::new(x - 7.0, y + 5.0)]],
                self.theme.tight,
                1.0,
            )?;
            let middles = text::around(at, &fin.words, SMALL, 10.0);
            let text = Text::new(fin.words.clone(), at, SMALL, self.theme.tight).bold();
            self.places.write(text, &middles, true);
        }
        Ok(())
    }

    fn handles<DB: DrawingBackend>(&mut self, pen: &mut Pen<'_, DB>) -> Drawn<DB> {
        for handle in &self.scene.handles {
            let chosen = self.scene.chosen == Some(handle.id);
            let at = self.viewport.to_pixel(handle.at_mm);
            draw_handle(pen, self.theme, handle, at, chosen)?;
        }
        Ok(())
    }

    /// The names of the passes, where there is room.
    fn names(&mut self) {
        for name in &self.scene.names {
            let at = self.viewport.to_pixel(name.at);
            let half = text::width(&name.words, SMALL) / 2.0;
            let below = |off: f64| Point::new(at.x, at.y + off);
            let aside = |share: f64| Point::new(at.x + half * share, at.y + 17.0);
            let middles = [below(17.0), aside(-1.2), aside(1.2), below(30.0), below(44.0), below(58.0)];
            let text = Text::new(name.words.clone(), at, SMALL, self.theme.pencil);
            self.places.write(text, &middles, false);
        }
    }
}

/// Height of one dimension with its number, in CSS pixels.
const MEASURE_PX: f64 = 24.0;

/// Writes every text that found a place; one that crosses lines gets a piece of paper under it.
pub(super) fn write_out<DB: DrawingBackend>(pen: &mut Pen<'_, DB>, places: &Places, theme: &Theme) -> Drawn<DB> {
    for (text, crosses) in places.texts() {
        if *crosses {
            let block = Block::around(text.at, text::width(&text.words, text.size) + 2.0, text.size);
            let (low, high) = (block.low, block.high);
            pen.fill(&[vec![low, Point::new(high.x, low.y), high, Point::new(low.x, high.y)]], theme.paper, 0.7)?;
        }
        pen.text(text)?;
    }
    Ok(())
}

fn draw_handle<DB: DrawingBackend>(
    pen: &mut Pen<'_, DB>,
    theme: &Theme,
    handle: &Handle,
    Point { x, y }: Point,
    chosen: bool,
) -> Drawn<DB> {
    let r = if chosen { 8.0 } else { 4.0 };
    let (line, colour) = if chosen { (3.0, theme.focus) } else { (1.2, theme.ink) };
    let ring = match handle.shape {
        HandleShape::Round => {
            pen.disc(Point::new(x, y), r, theme.paper)?;
            return pen.circle(Point::new(x, y), r, line, colour);
        }
        HandleShape::Square => {
            [(x - r, y - r), (x + r, y - r), (x + r, y + r), (x - r, y + r)].map(Point::from).to_vec()
        }
        HandleShape::Diamond => {
            let r = r * 1.35;
            [(x, y - r), (x + r, y), (x, y + r), (x - r, y)].map(Point::from).to_vec()
        }
    };
    pen.fill(std::slice::from_ref(&ring), theme.paper, 1.0)?;
    pen.outline(&ring, line, colour)
}

/// Places for a word beside a bar that ends at `end`, outward from `inside` first.
fn beside(end: Point, inside: Point, outside: Point, words: &str, size: f64) -> Vec<Point> {
    let mut middles = Vec::new();
    let run = distance(inside, outside);
    if run > 0.0 {
        let (ux, uy) = ((outside.x - inside.x) / run, (outside.y - inside.y) / run);
        let half = (text::width(words, size) / 2.0 * ux.abs()).hypot(size * 0.6 * uy.abs());
        middles.extend([5.0, 14.0].map(|gap| Point::new(end.x + ux * (gap + half), end.y + uy * (gap + half))));
    }
    middles.extend(text::around(end, words, size, 6.0));
    middles
}

/// The colour of a grade.
pub(super) fn grade_colour(theme: &Theme, grade: Grade) -> RGBColor {
    match grade {
        Grade::Good => theme.good,
        Grade::Tight => theme.tight,
        Grade::Stop => theme.stop,
    }
}

/// What marks a grade besides its colour.
pub(super) fn grade_sign(grade: Grade) -> &'static str {
    match grade {
        Grade::Good => "",
        Grade::Tight => "\u{25b3} ",
        Grade::Stop => "! ",
    }
}

/// A ring with its first point again at its end.
pub(super) fn closed(ring: &[Point]) -> Vec<Point> {
    ring.iter().chain(ring.first()).copied().collect()
}

/// A chain with points no nearer than a few pixels: enough to keep texts off it.
pub(super) fn coarse(points: &[Point]) -> Vec<Point> {
    let mut kept: Vec<Point> = Vec::new();
    for (i, p) in points.iter().enumerate() {
        if kept.last().is_none_or(|k| i + 1 == points.len() || distance(*k, *p) > 5.0) {
            kept.push(*p);
        }
    }
    kept
}

/// The highest place on the sheet of any of these points.
fn high_pixel(points: impl Iterator<Item = Point>, viewport: &Viewport) -> Option<Point> {
    let bounds = Bounds::around(points.map(|p| viewport.to_pixel(p)));
    bounds.size().map(|_| bounds.low)
}
