//! Templates on paper: split over pages, with check lines and joins, as SVG with millimetre units.

use std::fmt::Write as _;

use super::ink::{Anchor, Ink, Item, Stroke};
use super::paper::{CHECK_MM, Paper, PrintScale};
use super::written::{document, place_and_size, write_item};
use crate::drawings::frame::Point;

/// A drawing at full size.
#[derive(Clone, Debug, PartialEq)]
pub struct Template {
    /// What it is called.
    pub title: String,
    /// How it is used, in a line; over it, in a line of its own, what stops.
    pub note: String,
    /// What stands on it, in mm.
    pub ink: Ink,
}

/// What no printer reaches, on every side, in mm.
const MARGIN: f64 = 8.0;
/// Room for the title and the note over the template, in mm.
const HEAD: f64 = 14.0;
/// From one line of the note to the next, in mm.
const NOTE_LINE: f64 = 3.8;
/// Room for the number of a page beside its title, in mm.
const PAGE_NUMBER: f64 = 30.0;
/// Room for the check line beside and under it, in mm.
const CHECK_ROOM: f64 = 9.0;
/// How far neighbouring pages overlap, in mm.
const OVERLAP: f64 = 14.0;
/// Four inches, the other mark on a check line.
const FOUR_INCHES: f64 = 101.6;
/// Most pages either way: more than the largest blank needs.
const MOST_PAGES: usize = 40;

/// One page of a template.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// The whole page as an SVG document, its units millimetres.
    pub svg: String,
    /// Where the template's own origin lies on the page before the printer's correction, in mm.
    pub origin: Point,
    /// The part of the page that the template is seen in, in mm: low and high corner.
    pub window: [Point; 2],
}

impl Template {
    /// The template on paper, split over as many pages as it takes.
    #[must_use]
    pub fn pages(&self, name: &str, paper: Paper, scale: PrintScale) -> Vec<Page> {
        let Some((width, height)) = self.ink.bounds().size() else { return Vec::new() };
        let low = self.ink.bounds().low;
        let (room, first) = room(paper, scale);
        let (columns, rows) = (tiles(width, room.x), tiles(height, room.y));
        let mut pages = Vec::with_capacity(columns.len() * rows.len());
        for (row, down) in rows.iter().enumerate() {
            for (column, right) in columns.iter().enumerate() {
                // A template narrower than the page stands in its middle.
                let aside = if columns.len() == 1 { ((room.x - width) / 2.0).max(0.0) } else { 0.0 };
                let origin = Point::new(first.x + aside - low.x - right, first.y - low.y - down);
                let window = [first, Point::new(first.x + room.x, first.y + room.y)];
                let number = row * columns.len() + column + 1;
                let mut page = PageInk::new(paper, scale, window);
                page.heading(self, name, number, columns.len() * rows.len());
                page.checks();
                page.joins(&columns, column, true);
                page.joins(&rows, row, false);
                let part = Part { ink: &self.ink, origin, window };
                pages.push(Page { svg: page.svg(&[part]), origin, window });
            }
        }
        pages
    }

    /// The template alone, unsplit, for a file: as large as it is and a margin.
    #[must_use]
    pub fn svg(&self, scale: PrintScale) -> String {
        let bounds = self.ink.bounds();
        let Some((width, height)) = bounds.size() else { return document((1.0, 1.0), "") };
        let by = Point::new(MARGIN - bounds.low.x, MARGIN - bounds.low.y);
        let mut body = String::new();
        for item in &self.ink.0 {
            write_item(&mut body, &item.moved(by), scale);
        }
        document(((width + 2.0 * MARGIN) * scale.across(), (height + 2.0 * MARGIN) * scale.along()), &body)
    }
}

/// Between one template and the next on a page, for the heading of the next, in mm.
const BETWEEN: f64 = 12.5;

/// Templates on as few pages as take them in turn: those that fit on one page share pages, one under the other; the others
/// have pages of their own.
#[must_use]
pub fn packed(templates: &[Template], name: &str, paper: Paper, scale: PrintScale) -> Vec<String> {
    let (room, first) = room(paper, scale);
    let mut shared: Vec<Shared<'_>> = Vec::new();
    let mut pages: Vec<(usize, Vec<String>)> = Vec::new();
    for (number, template) in templates.iter().enumerate() {
        let Some((width, height)) = template.ink.bounds().size() else { continue };
        if width > room.x || height > room.y {
            let own = template.pages(name, paper, scale).into_iter().map(|page| page.svg).collect();
            pages.push((number, own));
            continue;
        }
        match shared.iter_mut().find(|page| page.used + BETWEEN + height <= room.y) {
            Some(page) => {
                page.placed.push((template, page.used + BETWEEN));
                page.used += BETWEEN + height;
            }
            None => shared.push(Shared { number, used: height, placed: vec![(template, 0.0)] }),
        }
    }
    pages.extend(shared.iter().map(|page| (page.number, vec![page.svg(name, paper, scale, (room, first))])));
    pages.sort_by_key(|page| page.0);
    pages.into_iter().flat_map(|page| page.1).collect()
}

/// A page that several templates share.
struct Shared<'a> {
    /// The place of the first of them among all.
    number: usize,
    /// How far the page is filled, in mm.
    used: f64,
    /// Each with how far down its window starts, in mm.
    placed: Vec<(&'a Template, f64)>,
}

impl Shared<'_> {
    fn svg(&self, name: &str, paper: Paper, scale: PrintScale, (room, first): (Point, Point)) -> String {
        let whole = [first, Point::new(first.x + room.x, first.y + room.y)];
        let mut page = PageInk::new(paper, scale, whole);
        page.checks();
        let mut parts = Vec::with_capacity(self.placed.len());
        for (template, down) in &self.placed {
            let bounds = template.ink.bounds();
            let Some((width, height)) = bounds.size() else { continue };
            let top = first.y + down;
            let window = [Point::new(first.x, top), Point::new(first.x + room.x, top + height)];
            let aside = ((room.x - width) / 2.0).max(0.0);
            page.window = window;
            page.heading(template, name, 1, 1);
            parts.push(Part {
                ink: &template.ink,
                origin: Point::new(first.x + aside - bounds.low.x, top - bounds.low.y),
                window,
            });
        }
        page.svg(&parts)
    }
}

/// A template as it stands on a page: where its origin lies, and the window it is seen in, in mm.
struct Part<'a> {
    ink: &'a Ink,
    origin: Point,
    window: [Point; 2],
}

/// Size of the window for a template on a page, and its low corner, in mm before the correction.
fn room(paper: Paper, scale: PrintScale) -> (Point, Point) {
    let (width, height) = paper.size_mm();
    let (width, height) = (width / scale.across(), height / scale.along());
    let (left, top) = (MARGIN / scale.across() + CHECK_ROOM, MARGIN / scale.along() + HEAD);
    let size = Point::new(width - left - MARGIN / scale.across(), height - top - MARGIN / scale.along() - CHECK_ROOM);
    (size, Point::new(left, top))
}

/// The size of a line of words that is no longer than `room`: `size`, or as much less as it takes.
fn fitting(words: &str, size: f64, room: f64) -> f64 {
    let line =
        Item::Words { at: Point::new(0.0, 0.0), words: words.to_owned(), size, anchor: Anchor::Start, upward: false };
    let long = line.bounds().high.x;
    if long > room { size * room / long } else { size }
}

/// Where the window of each page starts along one way, in mm from the template's edge.
fn tiles(length: f64, room: f64) -> Vec<f64> {
    if length <= room {
        return vec![0.0];
    }
    let step = room - OVERLAP;
    let count = ((length - OVERLAP) / step).ceil().max(1.0) as usize;
    (0..count.min(MOST_PAGES)).map(|i| i as f64 * step).collect()
}

/// What a page has beside its part of the template.
struct PageInk {
    paper: Paper,
    scale: PrintScale,
    window: [Point; 2],
    ink: Ink,
}

impl PageInk {
    fn new(paper: Paper, scale: PrintScale, window: [Point; 2]) -> Self {
        Self { paper, scale, window, ink: Ink::default() }
    }

    fn heading(&mut self, template: &Template, name: &str, number: usize, of: usize) {
        let [low, high] = self.window;
        let name: String = name.chars().take(40).collect();
        let page = if of > 1 { format!("page {number} of {of}") } else { String::new() };
        let title =
            [template.title.as_str(), name.trim()].iter().filter(|t| !t.is_empty()).copied().collect::<Vec<_>>();
        let (title_at, size, note_at) = if template.note.contains('\n') { (10.0, 4.0, 2.2) } else { (8.5, 4.6, 3.2) };
        let wide = high.x - low.x;
        let title = title.join(" \u{2013} ");
        let beside = if page.is_empty() { 0.0 } else { PAGE_NUMBER };
        let size = fitting(&title, size, wide - beside);
        self.ink.words(Point::new(low.x, low.y - title_at), title, size, Anchor::Start);
        self.ink.words(Point::new(high.x, low.y - title_at), page, 3.6, Anchor::End);
        for (line, words) in template.note.lines().rev().enumerate() {
            let at = Point::new(low.x, low.y - note_at - line as f64 * NOTE_LINE);
            self.ink.words(at, words, fitting(words, 3.0, wide), Anchor::Start);
        }
    }

    /// A line of 100 mm and 4 in both ways, outside the window.
    fn checks(&mut self) {
        let [low, high] = self.window;
        let (x, y) = (low.x, high.y + 4.0);
        self.ink.line(vec![Point { x, y }, Point::new(x + FOUR_INCHES, y)], Stroke::Thin);
        for at in [0.0, CHECK_MM, FOUR_INCHES] {
            self.ink.line(vec![Point { x: x + at, y: y - 1.5 }, Point::new(x + at, y + 1.5)], Stroke::Thin);
        }
        let words = "100 mm and 4 in. Print at actual size, without fitting to the page, and measure this.";
        self.ink.words(Point { x: x + 2.0, y: y + 4.4 }, words, 2.8, Anchor::Start);
        let x = low.x - 4.0;
        self.ink.line(vec![Point::new(x, low.y), Point::new(x, low.y + FOUR_INCHES)], Stroke::Thin);
        for at in [0.0, CHECK_MM, FOUR_INCHES] {
            self.ink.line(vec![Point::new(x - 1.5, low.y + at), Point::new(x + 1.5, low.y + at)], Stroke::Thin);
        }
        self.ink.words_upward(Point::new(x - 2.2, low.y + CHECK_MM / 2.0), "100 mm and 4 in", 2.8);
    }

    /// The lines on which this page is laid over its neighbours, each in the middle of the overlap.
    fn joins(&mut self, tiles: &[f64], here: usize, across: bool) {
        let [low, high] = self.window;
        let size = if across { high.x - low.x } else { high.y - low.y };
        let mut join = |number: usize, at: f64, anchor: Anchor| {
            let name = format!("{}{number}", if across { "right " } else { "down " });
            let point = |along: f64, over: f64| {
                if across { Point::new(low.x + along, low.y + over) } else { Point::new(low.x + over, low.y + along) }
            };
            let far = if across { high.y - low.y } else { high.x - low.x };
            self.ink.line(vec![point(at, 0.0), point(at, far)], Stroke::Dashed);
            for share in [0.2, 0.8] {
                let over = far * share;
                self.ink.ring(
                    vec![point(at - 3.0, over), point(at, over - 3.0), point(at + 3.0, over), point(at, over + 3.0)],
                    Stroke::Thin,
                );
            }
            // On the side of the page, and at its far end, where templates seldom reach.
            let Point { x, y } = point(at, far);
            let aside = if anchor == Anchor::Start { 1.5 } else { -1.5 };
            self.ink.words(Point { x: x + aside, y: y - 1.2 }, format!("join {name}"), 3.0, anchor);
        };
        if here > 0 {
            join(here, OVERLAP / 2.0, if across { Anchor::Start } else { Anchor::End });
        }
        if here + 1 < tiles.len() {
            join(here + 1, size - OVERLAP / 2.0, Anchor::End);
        }
    }

    fn svg(&self, parts: &[Part<'_>]) -> String {
        let mut body = String::new();
        for (number, part) in parts.iter().enumerate() {
            self.write_part(&mut body, number, part);
        }
        for item in &self.ink.0 {
            write_item(&mut body, item, self.scale);
        }
        document(self.paper.picture_mm(), &body)
    }

    /// Writes what is seen of a template in its window.
    fn write_part(&self, body: &mut String, place: usize, part: &Part<'_>) {
        let [low, high] = part.window;
        let id = if place == 0 { "w".to_owned() } else { format!("w{}", place + 1) };
        // Writing to a text cannot fail.
        let _ = writeln!(
            body,
            "<clipPath id=\"{id}\"><rect{}/></clipPath><g clip-path=\"url(#{id})\">",
            place_and_size(part.window, self.scale)
        );
        for item in &part.ink.0 {
            let item = item.moved(part.origin);
            let bounds = item.bounds();
            let apart =
                bounds.high.x < low.x || bounds.low.x > high.x || bounds.high.y < low.y || bounds.low.y > high.y;
            if !apart {
                write_item(body, &item, self.scale);
            }
        }
        body.push_str("</g>\n");
    }
}

/// A page without a template: its ink, and a drawing within a frame.
pub(super) fn plain_page(ink: &Ink, paper: Paper, scale: PrintScale, drawing: Option<(&str, [Point; 2])>) -> String {
    let mut body = String::new();
    if let Some((svg, frame)) = drawing {
        // The drawing's own head gives way to one that places it; its view box stays.
        let view = svg.split_once("viewBox=\"").and_then(|(_, rest)| rest.split_once('"'));
        if let Some((view, rest)) = view {
            let content = rest.split_once('>').map_or("", |(_, content)| content);
            // Writing to a text cannot fail.
            let _ = write!(
                body,
                "<svg{} viewBox=\"{view}\" preserveAspectRatio=\"none\" stroke=\"none\">{content}",
                place_and_size(frame, scale)
            );
        }
    }
    for item in &ink.0 {
        write_item(&mut body, item, scale);
    }
    document(paper.picture_mm(), &body)
}
