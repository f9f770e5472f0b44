//! Story sticks: stations and caliper diameters of every axis along the blank, at full size.

use super::ink::{Anchor, Ink, Stroke};
use super::page::Template;
use crate::design::{AxisName, Cut, Design, Side, Units};
use crate::drawings::text;
use crate::figures::Worked;
use crate::figures::support::datum_mm;
use crate::form::nodes_of;
use crate::geometry::Axis;
use crate::geometry::line::order::sort_by_number;
use kurbo::Point;

/// Least width of a stick, in mm, and how much of the paper's width sticks side by side may take.
const STICK: f64 = 40.0;
const ABREAST: f64 = 176.0;
/// Where the words on a stick start, in mm from its edge, and their size.
const WORDS: f64 = 14.0;
const LETTERS: f64 = 3.4;
/// Stations between nodes are this far apart, in mm.
const STEP: f64 = 20.0;
/// No station is added nearer than this to another, in mm.
const NEAR: f64 = 4.0;
/// Room for the axis's name along the right edge, and how often it stands there, in mm: at least once on every page.
const NAME: f64 = 5.5;
const NAMED: f64 = 100.0;
/// Least distance between the lines of words, in mm.
const LINE: f64 = 4.4;

/// A station and what is to be known there.
struct Station {
    t: f64,
    words: String,
    /// Whether it is an end, a shoulder or a line to draw, and not only a diameter.
    strong: bool,
}

pub(super) fn templates(design: &Design, worked: &Worked, lengths: Units) -> Vec<Template> {
    let named = worked.piece.axes.iter().enumerate().filter_map(|(i, axis)| Some((AxisName::from_index(i)?, axis)));
    let turned = |name: AxisName| design.cuts.iter().any(|c| matches!(c, Cut::Pass(p) if p.axis == name));
    let sticks = named.filter(|(name, axis)| turned(*name) && axis.centre(0.0).is_some());
    let mut all: Vec<StickGroup> = Vec::new();
    for (name, axis) in sticks {
        let stations = stations(name, axis, design, worked, lengths);
        let longest = stations.iter().map(|s| text::width(&s.words, LETTERS)).fold(0.0, f64::max);
        let width = STICK.max(WORDS + 1.15 * longest + 2.0 + NAME);
        if all.last().is_none_or(|group| group.width + width > ABREAST) {
            all.push(StickGroup::default());
        }
        if let Some(group) = all.last_mut() {
            stick(&mut group.ink, (group.width, width), name, axis, worked, &stations);
            group.width += width + 4.0;
            group.names.push(name.to_string());
        }
    }
    all.into_iter().map(StickGroup::template).collect()
}

/// Sticks side by side.
#[derive(Default)]
struct StickGroup {
    ink: Ink,
    width: f64,
    names: Vec<String>,
}

impl StickGroup {
    fn template(self) -> Template {
        let title =
            format!("Story stick, {} {}", if self.names.len() > 1 { "axes" } else { "axis" }, self.names.join(", "));
        let from = match (self.names.iter().any(|name| name == "A"), self.names.len()) {
            (true, 1) => "Distances are from the bowl-end face",
            (true, _) => "Distances: on axis A from the bowl-end face, on a moved axis from its mark",
            (false, _) => "Distances are along the axis, from its mark",
        };
        let note = format!("{from}. Glue to a stick and cut along the left edge.");
        Template { title, note, ink: self.ink }
    }
}

fn stick(ink: &mut Ink, (x, width): (f64, f64), name: AxisName, axis: &Axis, worked: &Worked, stations: &[Station]) {
    let piece = &worked.piece;
    let (Some(tail), Some(head)) = (axis.centre(piece.tail_face), axis.centre(piece.head_face)) else { return };
    let (first, last) = (axis.see(tail).t, axis.see(head).t);
    let stations: Vec<&Station> = stations.iter().filter(|s| (first - 1e-6..=last + 1e-6).contains(&s.t)).collect();
    ink.line(
        vec![Point::new(x, first), Point::new(x + width, first), Point::new(x + width, last), Point::new(x, last)],
        Stroke::Thin,
    );
    ink.line(vec![Point::new(x, first), Point::new(x, last)], Stroke::Cut);
    // Out of the way of the joins.
    let mut named = first + 0.15 * NAMED;
    while named < last - NAMED / 8.0 {
        ink.words_upward(Point::new(x + width - 1.5, named), format!("axis {name}"), 4.2);
        named += NAMED;
    }
    let datum = datum_mm(piece, name);
    let tens = ((first - datum) / 10.0).ceil() as i64..=((last - datum) / 10.0).floor().min(1e6) as i64;
    for ten in tens {
        let at = datum + ten as f64 * 10.0;
        let length = if ten % 5 == 0 { 4.0 } else { 2.2 };
        ink.line(vec![Point::new(x, at), Point::new(x + length, at)], Stroke::Thin);
    }
    let places = spread(&stations.iter().map(|s| s.t).collect::<Vec<_>>(), first + LINE, last - 1.0);
    for (station, place) in stations.iter().zip(places) {
        let stroke = if station.strong { Stroke::Cut } else { Stroke::Thin };
        ink.line(vec![Point::new(x, station.t), Point::new(x + 9.0, station.t)], stroke);
        ink.line(vec![Point::new(x + 9.0, station.t), Point::new(x + WORDS - 1.0, place - 1.2)], Stroke::Thin);
        ink.words(Point::new(x + WORDS, place), &*station.words, LETTERS, Anchor::Start);
    }
}

/// Every station of an axis, rising, those at one place in one line.
fn stations(name: AxisName, axis: &Axis, design: &Design, worked: &Worked, lengths: Units) -> Vec<Station> {
    let piece = &worked.piece;
    // A moved axis meets only air at the bowl end, and the rim lies askew to it: its mark is where it can be found.
    let moved = name != AxisName::A;
    let end = if moved { "the rim, askew" } else { "bowl end" };
    let mut all = vec![Station { t: 0.0, words: end.into(), strong: !moved }];
    if piece.tail_face < 0.0 {
        let t = axis.centre(piece.tail_face).map_or(0.0, |tail| axis.see(tail).t);
        let words = if moved { format!("mark {name} on the plug") } else { "end of the plug".to_owned() };
        all.push(Station { t, words, strong: true });
    } else if moved {
        all[0] = Station { t: 0.0, words: format!("mark {name} on the bowl end"), strong: true };
    }
    for (cut, choice) in design.cuts.iter().enumerate() {
        match choice {
            Cut::Pass(pass) if pass.axis == name => pass_stations(&mut all, cut, design, worked, lengths),
            Cut::Hollow(hollow) if hollow.axis == name => {
                let end = piece.revolved(cut).map_or(0.0, |h| h.meridian.end());
                all.push(Station { t: end, words: "hollow ends".into(), strong: true });
            }
            Cut::Part(plane) if plane.axis == name => {
                let words = if plane.removes == Side::Head { "part off" } else { "part the bowl end" };
                all.push(Station { t: plane.at_mm, words: words.into(), strong: true });
            }
            Cut::Face(plane) if plane.axis == name => {
                all.push(Station { t: plane.at_mm, words: "face".into(), strong: true });
            }
            _ => {}
        }
    }
    merged(all, lengths, datum_mm(piece, name))
}

/// Diameters at the nodes of a pass, or at the ends of its tapers, and here and there between them.
fn pass_stations(all: &mut Vec<Station>, cut: usize, design: &Design, worked: &Worked, lengths: Units) {
    let (Some(Cut::Pass(pass)), Some(turned)) = (design.cuts.get(cut), worked.piece.revolved(cut)) else { return };
    let mut at: Vec<f64> = match nodes_of(&design.cuts[cut]) {
        Some(nodes) => nodes.iter().map(|n| n.at_mm).filter(|t| (pass.from_mm..=pass.to_mm).contains(t)).collect(),
        None => turned.meridian.points().iter().map(|p| p.t).collect(),
    };
    at.extend([pass.from_mm, pass.to_mm]);
    let mut between = (pass.from_mm / STEP).ceil() * STEP;
    while between < pass.to_mm {
        if at.iter().all(|t| (t - between).abs() >= NEAR) {
            at.push(between);
        }
        between += STEP;
    }
    let diameter = |radius: f64| format!("\u{d8}{}", lengths.bare(2.0 * radius));
    for t in at {
        let (before, after) = (turned.meridian.radius_before(t), turned.meridian.radius_after(t));
        let (starts, ends) = (t <= pass.from_mm, t >= pass.to_mm);
        let words = match (starts, ends) {
            (true, _) => format!("{} {} starts", diameter(after), pass.name.trim()),
            (_, true) => format!("{} {} ends", diameter(before), pass.name.trim()),
            _ if (before - after).abs() > 0.01 => format!("{} to {}", diameter(before), diameter(after)),
            _ => diameter(after),
        };
        all.push(Station { t, words, strong: starts || ends });
    }
}

/// Rising, and those within a tenth of a millimetre in one line; stations are written from the axis's datum.
fn merged(mut all: Vec<Station>, lengths: Units, datum_mm: f64) -> Vec<Station> {
    sort_by_number(&mut all, |station| station.t);
    let mut lines: Vec<Station> = Vec::new();
    for station in all {
        match lines.last_mut().filter(|last| station.t - last.t < 0.1) {
            Some(last) if last.words.contains(&station.words) => last.strong |= station.strong,
            Some(last) => {
                last.words = format!("{}, {}", last.words, station.words);
                last.strong |= station.strong;
            }
            None => lines.push(station),
        }
    }
    for line in &mut lines {
        line.words = format!(
            "{}: {}",
            lengths.bare(line.t - datum_mm),
            line.words.split_whitespace().collect::<Vec<_>>().join(" ")
        );
    }
    lines
}

/// Places for lines of words beside rising stations: near them, in their order, and never over each other.
fn spread(stations: &[f64], low: f64, high: f64) -> Vec<f64> {
    let mut places: Vec<f64> = stations.iter().map(|t| t.clamp(low.min(high), high.max(low))).collect();
    for i in 1..places.len() {
        places[i] = places[i].max(places[i - 1] + LINE);
    }
    // What was pushed past the end comes back, and pushes those before it.
    let mut limit = high;
    for place in places.iter_mut().rev() {
        *place = place.min(limit);
        limit = *place - LINE;
    }
    places
}
