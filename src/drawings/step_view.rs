//! The piece as it is when a step is done, in section at x = 0: what the step takes, the axis it turns on, how wide it
//! swings, and where the tool meets air for part of each turn.

use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, DrawingBackend};

use super::clip::clip_ring;
use super::frame::{Bounds, Margins, Point, Sheet, Viewport};
use super::line::{Lean, Pattern, hatch};
use super::pen::{DrawError, Drawn, Pen, on_area, toward};
use super::rule::{self, RULE_PX};
use super::scene::rings_at_x_0;
use super::side_view::write_out;
use super::text::{self, LARGE, Places, SMALL, Text};
use super::theme::Theme;
use crate::design::{AxisName, Cut, Design, Units};
use crate::figures::Worked;
use crate::form::moves;
use crate::geometry::{Axis, Solid};

/// How far an axis is drawn past the work, in CSS pixels.
const PAST_PX: f64 = 9.0;

/// Where the tool is in air for part of each turn, at one station of the axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AirAt {
    /// Station along the axis, in mm.
    pub t_mm: f64,
    /// Radius at which the tool first touches wood, in mm.
    pub touch_mm: f64,
    /// Radius from which it is in wood all the way round, in mm.
    pub full_mm: f64,
}

/// What spins in a step.
#[derive(Clone, Debug, PartialEq)]
pub struct Spinning {
    /// The axis it turns on.
    pub axis: Axis,
    /// The axis's letter.
    pub name: AxisName,
    /// The largest radius that sweeps round, in mm; none when it is not known.
    pub swing_mm: Option<f64>,
    /// Where the tool meets air.
    pub air: Vec<AirAt>,
}

/// What spins while a cut is made; none for work that is not turned.
#[must_use]
pub fn spinning(design: &Design, worked: &Worked, cut: usize) -> Option<Spinning> {
    let name = match design.cuts.get(cut)? {
        Cut::Pass(pass) => pass.axis,
        Cut::Hollow(hollow) => hollow.axis,
        Cut::Face(plane) | Cut::Part(plane) => plane.axis,
        Cut::FitPlug(_) | Cut::TakeOutPlug | Cut::Saw(_) => return None,
    };
    let turning = worked.figures.turning.iter().find(|step| step.cut == cut);
    let air = turning.and_then(|step| step.air.as_ref()).map_or_else(Vec::new, |air| {
        let band = |at: &crate::figures::turning::AirAt| AirAt {
            t_mm: at.at_mm,
            touch_mm: at.first_touch_mm,
            full_mm: at.full_cut_mm.unwrap_or(at.size_mm).min(at.first_touch_mm),
        };
        air.stations.iter().map(band).collect()
    });
    let swing_mm = turning.map(|step| step.swing.radius_mm);
    Some(Spinning { axis: *worked.piece.axis(name)?, name, swing_mm, air })
}

/// What the picture of a step shows.
#[derive(Clone, Debug, PartialEq)]
pub struct StepScene {
    /// The wood before the step.
    pub before: Vec<Vec<Point>>,
    /// The wood when it is done.
    pub after: Vec<Vec<Point>>,
    /// The wooden jaws that are made, or hold the work.
    pub jaws: Vec<Vec<Point>>,
    /// What spins; none for a step at the bench.
    pub spinning: Option<Spinning>,
    /// How lengths are written.
    pub lengths: Units,
}

impl StepScene {
    /// The step from the state after `before` cuts to that after `after`, both counted in working order.
    #[must_use]
    pub fn new(solid: &Solid, before: usize, after: usize, spinning: Option<Spinning>, lengths: Units) -> Self {
        let rings = |cuts| rings_at_x_0(&solid.state(cuts));
        let after_rings = rings(after);
        let before = if before == after { after_rings.clone() } else { rings(before) };
        Self { before, after: after_rings, jaws: Vec::new(), spinning, lengths }
    }

    /// The same with the wood of jaws around the work.
    #[must_use]
    pub fn in_jaws(self, jaws: Vec<Vec<Point>>) -> Self {
        Self { jaws, ..self }
    }

    /// Jaws alone, while they are made.
    #[must_use]
    pub fn of_jaws(jaws: Vec<Vec<Point>>, lengths: Units) -> Self {
        Self { before: Vec::new(), after: Vec::new(), jaws, spinning: None, lengths }
    }

    /// Everything that should be seen, in mm.
    #[must_use]
    pub fn bounds(&self) -> Bounds {
        let wood = self.before.iter().chain(&self.after).chain(&self.jaws).flatten().copied();
        let swings: Vec<Point> = self.spinning.iter().flat_map(|it| self.swing_lines(it)).flatten().collect();
        Bounds::around(wood.chain(swings))
    }

    /// The stations of an axis between which there is wood to be seen, in mm.
    fn reach(&self, axis: &Axis) -> (f64, f64) {
        let seen = self.before.iter().chain(&self.after).flatten().filter_map(|p| moves::seen(axis, *p));
        let (low, high) = seen.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), (t, _)| (l.min(t), h.max(t)));
        if low < high { (low, high) } else { (0.0, 0.0) }
    }

    /// The edges of the swing, above and below the axis.
    fn swing_lines(&self, spinning: &Spinning) -> Vec<[Point; 2]> {
        let Some(r) = spinning.swing_mm.filter(|r| r.is_finite()) else { return Vec::new() };
        let (from, to) = self.reach(&spinning.axis);
        [r, -r].map(|r| [from, to].map(|t| moves::shown(&spinning.axis, t, r))).into()
    }
}

/// The view that shows the whole of a step.
#[must_use]
pub fn fit(scene: &StepScene, sheet: Sheet) -> Viewport {
    let margins = Margins { left: 30.0, top: 24.0, right: 30.0, bottom: RULE_PX + 18.0 };
    Viewport::fit(sheet, scene.bounds(), margins)
}

/// Draws a step.
///
/// # Errors
/// [`DrawError`] when the backend fails.
pub fn draw_step<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    scene: &StepScene,
    theme: &Theme,
    viewport: &Viewport,
) -> Result<(), DrawError> {
    on_area(area, viewport.sheet, |pen| {
        pen.cover(theme.paper)?;
        let mut view = View { scene, theme, viewport, places: Places::new(viewport.sheet) };
        view.jaws(pen)?;
        view.wood(pen)?;
        if let Some(spinning) = &scene.spinning {
            view.air(pen, spinning)?;
            view.swing(pen, spinning)?;
            view.axis(pen, spinning)?;
        }
        rule::draw(pen, &mut view.places, (viewport, theme, scene.lengths), None)?;
        write_out(pen, &view.places, theme)
    })
}

struct View<'a> {
    scene: &'a StepScene,
    theme: &'a Theme,
    viewport: &'a Viewport,
    places: Places,
}

impl View<'_> {
    /// The wood of the jaws, cut through: hatched the other way from what goes.
    fn jaws<DB: DrawingBackend>(&mut self, pen: &mut Pen<'_, DB>) -> Drawn<DB> {
        let rings: Vec<_> = self.scene.jaws.iter().map(|ring| self.viewport.to_pixels(ring)).collect();
        let on_sheet: Vec<_> = rings.iter().map(|ring| clip_ring(ring, &pen.frame())).collect();
        pen.strokes(&hatch(&on_sheet, 9.0, Lean::Left), 0.8, self.theme.pencil, 0.45)?;
        rings.iter().try_for_each(|ring| pen.outline(ring, 1.4, self.theme.pencil))
    }

    fn wood<DB: DrawingBackend>(&mut self, pen: &mut Pen<'_, DB>) -> Drawn<DB> {
        let rings = |rings: &[Vec<Point>]| rings.iter().map(|ring| self.viewport.to_pixels(ring)).collect::<Vec<_>>();
        let (before, after) = (rings(&self.scene.before), rings(&self.scene.after));
        pen.fill(&before, self.theme.waste, 1.0)?;
        let on_sheet: Vec<_> = before.iter().map(|ring| clip_ring(ring, &pen.frame())).collect();
        pen.strokes(&hatch(&on_sheet, 6.0, Lean::Right), 0.8, self.theme.hatch, 0.55)?;
        pen.fill(&after, self.theme.wood, 1.0)?;
        for ring in &before {
            pen.outline(ring, 1.0, self.theme.pencil)?;
        }
        for ring in &after {
            pen.outline(ring, 2.0, self.theme.ink)?;
        }
        Ok(())
    }

    /// The band between first touch and full cut, on both sides of the axis.
    fn air<DB: DrawingBackend>(&mut self, pen: &mut Pen<'_, DB>, spinning: &Spinning) -> Drawn<DB> {
        for side in [1.0, -1.0] {
            let shown = |at: &AirAt, r: f64| self.viewport.to_pixel(moves::shown(&spinning.axis, at.t_mm, side * r));
            let touch: Vec<Point> = spinning.air.iter().map(|at| shown(at, at.touch_mm)).collect();
            let full: Vec<Point> = spinning.air.iter().map(|at| shown(at, at.full_mm)).collect();
            let band: Vec<Point> = touch.iter().chain(full.iter().rev()).copied().collect();
            pen.fill(&[band], self.theme.pencil, 0.25)?;
            pen.line(&full, 1.0, self.theme.pencil)?;
        }
        Ok(())
    }

    /// The edges of what sweeps round, with the diameter.
    fn swing<DB: DrawingBackend>(&mut self, pen: &mut Pen<'_, DB>, spinning: &Spinning) -> Drawn<DB> {
        let Some(swing_mm) = spinning.swing_mm else { return Ok(()) };
        let lines = self.scene.swing_lines(spinning);
        for line in &lines {
            let line = self.viewport.to_pixels(line);
            pen.dashed(&line, Pattern::DASHED, 1.2, self.theme.stop)?;
            self.places.avoid(&line);
        }
        let Some([from, to]) = lines.first().map(|line| line.map(|p| self.viewport.to_pixel(p))) else {
            return Ok(());
        };
        let words = format!("swing \u{2300} {}", self.scene.lengths.bare(2.0 * swing_mm));
        let half = text::width(&words, SMALL) / 2.0;
        // Work that spins across the blank has its edge at the edge of the sheet.
        let width = self.viewport.sheet.width_px;
        let on_sheet = |p: Point| Point::new(p.x.min(width - half - 3.0).max(half + 3.0), p.y);
        let middles = [0.5, 0.3, 0.7, 0.15].map(|share| {
            let middle = toward(from, to, share * (to.x - from.x).hypot(to.y - from.y));
            on_sheet(Point::new(middle.x, middle.y - 11.0))
        });
        let at = on_sheet(Point::new(from.x + half, from.y - 11.0));
        self.places.write(Text::new(words, at, SMALL, self.theme.stop), &middles, true);
        Ok(())
    }

    fn axis<DB: DrawingBackend>(&mut self, pen: &mut Pen<'_, DB>, spinning: &Spinning) -> Drawn<DB> {
        let (from, to) = self.scene.reach(&spinning.axis);
        let [tail, head] = [from, to].map(|t| self.viewport.to_pixel(moves::shown(&spinning.axis, t, 0.0)));
        let line = [toward(tail, head, -PAST_PX), toward(head, tail, -PAST_PX)];
        let index = spinning.name.index();
        let colour = self.theme.axis(index);
        pen.dashed(&line, Pattern::axis(index), 1.4, colour)?;
        self.places.avoid(&line);
        for (here, other) in [(tail, head), (head, tail)] {
            let at = toward(here, other, -PAST_PX - 10.0);
            let words = spinning.name.letter().to_string();
            self.places.write(Text::new(words, at, LARGE, colour).bold(), &[at], true);
        }
        Ok(())
    }
}
