//! The sheet on the wall: dimensions, marks, boring, diameters, steps, checks and cautions on one or two pages.

use super::ink::{Anchor, Ink, Stroke};
use super::page::{Template, plain_page};
use super::paper::{Paper, PrintScale};
use crate::design::text::capital;
use crate::design::units::marks_explained;
use crate::design::{Design, Shop};
use crate::drawings::frame::Point;
use crate::drawings::text;
use crate::figures::checks::{Check, Verdict, Words};
use crate::figures::place::clock_words;
use crate::figures::plan::{Plan, PlanError, Step, cautions};
use crate::figures::summary::how_filled;
use crate::figures::tables::measures::MM3_PER_ML;
use crate::figures::{Figures, Worked, wall_in_words};

/// What the sheet says, in sections.
#[derive(Clone, Debug, PartialEq)]
pub struct BenchSheet {
    /// The design's name.
    pub title: String,
    /// The sections, in order.
    pub sections: Vec<SheetSection>,
}

/// One section of the sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetSection {
    /// Its heading.
    pub heading: &'static str,
    /// Its lines.
    pub lines: Vec<SheetLine>,
}

/// One line of the sheet.
#[derive(Clone, Debug, PartialEq)]
pub enum SheetLine {
    /// What, and its value.
    Value(String, String),
    /// A sentence, over as many lines as it takes.
    Sentence(String),
    /// A name over what follows.
    Title(String),
}

/// The sheet of a design that is worked out and planned.
#[must_use]
pub fn bench_sheet(design: &Design, worked: &Worked, shop: &Shop, plan: &Result<Plan, PlanError>) -> BenchSheet {
    let words = Words::of(shop);
    let figures = &worked.figures;
    let mut sections = vec![
        SheetSection { heading: STOPS, lines: faults(worked, Verdict::Stop) },
        SheetSection { heading: "The piece", lines: about(design, figures, shop) },
        SheetSection { heading: "Centre marks, as seen", lines: marks(figures, words) },
        SheetSection { heading: "Boring", lines: boring(figures, words) },
        SheetSection { heading: "Checks", lines: checks(worked) },
    ];
    match plan {
        Ok(plan) => {
            sections.push(SheetSection { heading: "Steps", lines: steps(plan) });
            sections.push(SheetSection { heading: "Cautions", lines: warnings(plan) });
        }
        Err(error) => {
            sections.push(SheetSection { heading: "Steps", lines: vec![SheetLine::Sentence(error.to_string())] })
        }
    }
    sections.retain(|section| !section.lines.is_empty());
    BenchSheet { title: design.name.trim().to_owned(), sections }
}

/// The piece, and what the marks after a fraction of an inch mean.
fn about(design: &Design, figures: &Figures, shop: &Shop) -> Vec<SheetLine> {
    let mut lines = piece(design, figures, Words::of(shop));
    lines.extend(marks_explained(shop.length_unit, shop.rounding).map(SheetLine::Sentence));
    lines
}

fn piece(design: &Design, figures: &Figures, words: Words) -> Vec<SheetLine> {
    let summary = &figures.summary;
    let mut lines = vec![SheetLine::Value("wood".into(), design.wood.species.trim().to_owned())];
    let mut length = |what: &str, mm: Option<f64>| {
        lines.extend(mm.map(|mm| SheetLine::Value(what.to_owned(), words.length(mm))));
    };
    length("blank, length", Some(summary.blank_length_mm));
    length("blank, least square side", Some(summary.blank_side_min_mm));
    let wall = wall_in_words(&figures.walls, words);
    // A place is too long to stand beside its name.
    let told = |wall: String| match wall.contains(", ") {
        true => SheetLine::Sentence(format!("thinnest wall: {wall}")),
        false => SheetLine::Value("thinnest wall".into(), wall),
    };
    lines.extend(wall.map(told));
    let floor = summary.floor_min_mm.filter(|mm| *mm > 0.0).map(|mm| words.length(mm));
    lines.extend(floor.map(|floor| SheetLine::Value("thinnest floor".into(), floor)));
    if summary.handle_tilt_deg > 0.0 {
        lines.push(SheetLine::Value("handle to bowl".into(), words.angle(summary.handle_tilt_deg)));
    }
    if let Some(ml) = summary.holds_ml {
        let held = words.volume(ml * MM3_PER_ML);
        let what = format!("holds, handle level, {}", how_filled(design));
        lines.push(SheetLine::Value(what, format!("{held} of {}", design.contents.trim())));
    }
    lines
}

fn marks(figures: &Figures, words: Words) -> Vec<SheetLine> {
    let mut lines = Vec::new();
    for axis in &figures.marks {
        for (end, mark) in [("bowl end", &axis.tail), ("head end", &axis.head)] {
            if let Some(clock) = mark.seen_clock_deg {
                let value = format!("{} at {}", words.length(mark.distance_mm), clock_words(clock));
                lines.push(SheetLine::Value(format!("{}, {end}", axis.axis), value));
            }
        }
    }
    lines
}

fn boring(figures: &Figures, words: Words) -> Vec<SheetLine> {
    let steps = figures.borings.iter().flat_map(|boring| &boring.steps);
    let line = |bit: f64, depth: f64| {
        SheetLine::Value(format!("bit {}", words.length(bit)), format!("{} deep", words.length(depth)))
    };
    steps.map(|s| line(s.diameter_mm, s.depth_mm)).collect()
}

/// What the sheet begins with, where a check stops.
const STOPS: &str = "STOP: change the design before you cut";

/// Every check of one verdict, by name, with its cure.
fn faults(worked: &Worked, verdict: Verdict) -> Vec<SheetLine> {
    let of_it = worked.checks.iter().filter(|check| check.verdict == verdict);
    let mark = if verdict == Verdict::Stop { "STOP" } else { "Tight" };
    let line = |check: &Check| format!("{mark}, {}: {} {}", check.name.title(), check.sentence, check.cure);
    of_it.map(|check| SheetLine::Sentence(line(check))).collect()
}

/// Every check that is tight; one line where all are good.
fn checks(worked: &Worked) -> Vec<SheetLine> {
    let mut lines = faults(worked, Verdict::Tight);
    if lines.is_empty() && worked.checks.iter().all(|check| check.verdict == Verdict::Ok) {
        lines.push(SheetLine::Sentence(format!("All {} checks are good.", worked.checks.len())));
    }
    lines
}

/// Each step with its numbers and with what must be true before going on.
fn steps(plan: &Plan) -> Vec<SheetLine> {
    let mut lines = Vec::new();
    for (i, step) in plan.steps.iter().enumerate() {
        lines.push(SheetLine::Title(format!("{}  {}", i + 1, step.title)));
        let numbers: Vec<String> = step.numbers.iter().map(|n| format!("{}: {}", n.what, n.value)).collect();
        let numbers = if numbers.is_empty() { String::new() } else { capital(&format!("{}.", numbers.join("; "))) };
        lines.push(SheetLine::Sentence(format!("{} {numbers}", step.held)));
        lines.extend(speeds(step).map(SheetLine::Sentence));
        let checks = step.until.iter().filter(|until| until.starts_with("Caliper"));
        lines.extend(checks.map(|check| SheetLine::Sentence(format!("\u{25a1} {check}"))));
    }
    lines
}

/// The speeds of a step in a sentence, those that are alike together.
fn speeds(step: &Step) -> Option<String> {
    let mut alike: Vec<(String, String)> = Vec::new();
    for speed in &step.speeds {
        let words = speed.words().trim_end_matches('.').to_owned();
        match alike.last_mut().filter(|last| last.1 == words) {
            Some(last) => last.0 = format!("{}, {}", last.0, speed.what),
            None => alike.push((speed.what.clone(), words)),
        }
    }
    let all: Vec<String> = alike.into_iter().map(|(what, words)| format!("{what} {words}")).collect();
    (!all.is_empty()).then(|| format!("Speeds: {}.", all.join("; ")))
}

/// Every caution of the plan once.
fn warnings(plan: &Plan) -> Vec<SheetLine> {
    let mut all = vec![cautions::FIRST_OF_ALL];
    for caution in plan.steps.iter().flat_map(|step| &step.cautions).map(String::as_str) {
        if !all.contains(&caution) {
            all.push(caution);
        }
    }
    all.into_iter().map(|caution| SheetLine::Sentence(format!("\u{2013} {caution}"))).collect()
}

/// Sizes of letters that are tried until two pages hold it all, in mm.
const SIZES: [f64; 4] = [3.4, 3.0, 2.7, 2.4];
/// Pages that are wanted at most.
const PAGES: usize = 2;
/// How much of a column is filled: the letters of some systems are wider than ours.
const SNUG: f64 = 0.92;
/// Space between the two columns, in mm.
const GUTTER: f64 = 8.0;
/// Lines that a heading, and that a title takes, rounded up.
const HEADING_ROOM: usize = 3;
const TITLE_ROOM: usize = 2;
/// Margin of the sheet, in mm.
const MARGIN: f64 = 10.0;
/// Room for the name on the first page, in mm.
const TITLE: f64 = 10.0;

impl BenchSheet {
    /// The sheet on paper, as SVG documents with millimetre units. `drawing` is an SVG document that stands over the text of
    /// the first page, with its width and height; it takes up to a third of the page.
    ///
    /// The text is set in two columns, as large as two pages allow; a very long plan takes more pages.
    #[must_use]
    pub fn pages(&self, paper: Paper, scale: PrintScale, drawing: Option<(&str, kurbo::Size)>) -> Vec<String> {
        let mut set = self.set(paper, drawing.map(|d| d.1), SIZES[0]);
        for size in &SIZES[1..] {
            if set.len() > PAGES {
                set = self.set(paper, drawing.map(|d| d.1), *size);
            }
        }
        let first = set.len();
        set.into_iter()
            .enumerate()
            .map(|(i, mut ink)| {
                let (width, height) = paper.size_mm();
                if first > 1 {
                    let number = format!("{} of {first}", i + 1);
                    ink.words(Point::new(width - MARGIN, height - MARGIN + 3.0), number, 3.0, Anchor::End);
                }
                let picture = drawing.filter(|_| i == 0).map(|(svg, size)| (svg, frame(paper, size)));
                plain_page(&ink, paper, scale, picture)
            })
            .collect()
    }

    /// The text of every page with letters of one size.
    fn set(&self, paper: Paper, drawing: Option<kurbo::Size>, size: f64) -> Vec<Ink> {
        let (width, _) = paper.size_mm();
        let column = (width - 2.0 * MARGIN - GUTTER) / 2.0;
        let top = drawing.map_or(MARGIN + TITLE, |drawn| frame(paper, drawn)[1].y + 4.0);
        let mut pages = Pages { paper, top, size, inks: Vec::new(), column: 0, y: 0.0 };
        pages.turn();
        if let Some(first) = pages.inks.first_mut() {
            first.words(Point::new(MARGIN, MARGIN + 6.0), &*self.title, 6.0, Anchor::Start);
        }
        for section in &self.sections {
            pages.heading(section.heading, HEADING_ROOM + room_of(&section.lines, column, size));
            for (i, line) in section.lines.iter().enumerate() {
                match line {
                    SheetLine::Value(what, value) => pages.line(what, value, column),
                    SheetLine::Sentence(words) => pages.line(words, "", column),
                    SheetLine::Title(words) => pages.title(words, room_of(&section.lines[i..], column, size)),
                }
            }
        }
        pages.inks
    }
}

/// Where the drawing stands on the first page: low and high corner, in mm.
fn frame(paper: Paper, kurbo::Size { width: wide, height: high }: kurbo::Size) -> [Point; 2] {
    let (width, height) = paper.size_mm();
    let room = (width - 2.0 * MARGIN, height / 3.0);
    let fit = (room.0 / wide.max(1e-6)).min(room.1 / high.max(1e-6));
    let size = (wide * fit, high * fit);
    let left = MARGIN + (room.0 - size.0) / 2.0;
    [Point::new(left, MARGIN + TITLE), Point::new(left + size.0, MARGIN + TITLE + size.1)]
}

/// Pages being filled, column by column.
struct Pages {
    paper: Paper,
    top: f64,
    size: f64,
    inks: Vec<Ink>,
    column: usize,
    y: f64,
}

impl Pages {
    /// Goes on to the next column, or to the next page.
    fn turn(&mut self) {
        if self.inks.is_empty() || self.column == 1 {
            self.inks.push(Ink::default());
            self.column = 0;
        } else {
            self.column = 1;
        }
        self.y = if self.inks.len() == 1 { self.top } else { MARGIN };
    }

    fn left(&self) -> f64 {
        let (width, _) = self.paper.size_mm();
        MARGIN + self.column as f64 * ((width - 2.0 * MARGIN - GUTTER) / 2.0 + GUTTER)
    }

    /// Makes room for so many lines in one column, as far as a column has room.
    fn room_for(&mut self, lines: usize) {
        let (_, height) = self.paper.size_mm();
        if self.y + lines as f64 * self.pitch() > height - MARGIN && self.y > MARGIN + 1.0 {
            self.turn();
        }
    }

    fn pitch(&self) -> f64 {
        self.size * 1.35
    }

    fn write(&mut self, x: f64, words: &str, size: f64, anchor: Anchor) {
        let at = Point::new(x, self.y);
        if let Some(ink) = self.inks.last_mut() {
            ink.words(at, words, size, anchor);
        }
    }

    /// A heading, with room in lines for it and for what must not be parted from it.
    fn heading(&mut self, heading: &str, lines: usize) {
        self.room_for(lines);
        self.y += self.pitch() * 1.5;
        let (left, size) = (self.left(), self.size * 1.25);
        self.write(left, heading, size, Anchor::Start);
        let right = left + (self.paper.size_mm().0 - 2.0 * MARGIN - GUTTER) / 2.0;
        let y = self.y + self.size * 0.45;
        if let Some(ink) = self.inks.last_mut() {
            ink.line(vec![Point::new(left, y), Point::new(right, y)], Stroke::Thin);
        }
        self.y += self.size * 0.3;
    }

    /// A name over what follows, in larger letters, with room in lines for it and for what must not be parted from it.
    fn title(&mut self, words: &str, lines: usize) {
        self.room_for(lines);
        self.y += self.pitch() * 1.3;
        let (left, size) = (self.left(), self.size * 1.12);
        self.write(left, words, size, Anchor::Start);
    }

    /// A line, or a sentence over several.
    fn line(&mut self, what: &str, value: &str, column: f64) {
        let lines = lines_of(what, value, column, self.size);
        self.room_for(lines.len());
        for (i, words) in lines.iter().enumerate() {
            self.room_for(1);
            self.y += self.pitch();
            let left = self.left();
            self.write(left, words, self.size, Anchor::Start);
            if i == 0 && !value.is_empty() {
                self.write(left + column, value, self.size, Anchor::End);
            }
        }
    }
}

/// What and its value, or a sentence, in the lines it takes.
fn lines_of(what: &str, value: &str, column: f64, size: f64) -> Vec<String> {
    wrapped(what, (column - text::width(value, size)) * SNUG, size)
}

/// Room in lines for the first of these with, under a title, what it is the title of.
fn room_of(lines: &[SheetLine], column: f64, size: f64) -> usize {
    match lines {
        [SheetLine::Title(_), rest @ ..] => TITLE_ROOM + room_of(rest, column, size),
        [SheetLine::Value(what, value), ..] => lines_of(what, value, column, size).len(),
        [SheetLine::Sentence(words), ..] => lines_of(words, "", column, size).len(),
        [] => 0,
    }
}

/// Words in lines no wider than `width`, in mm; a word that is wider stands alone.
fn wrapped(words: &str, width: f64, size: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words.split_whitespace() {
        match lines.last_mut() {
            Some(line) if text::width(line, size) + text::width(word, size) + 0.3 * size <= width => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

/// The check lines alone, on a page of their own: to measure a printer before anything is printed.
#[must_use]
pub fn check_page(paper: Paper, scale: PrintScale) -> Vec<String> {
    let mut ink = Ink::default();
    ink.words(Point::new(0.0, 0.0), "Measure both lines, and type what they measure.", 5.0, Anchor::Start);
    let template = Template { title: "Check lines".into(), note: String::new(), ink };
    template.pages("", paper, scale).into_iter().map(|page| page.svg).collect()
}
