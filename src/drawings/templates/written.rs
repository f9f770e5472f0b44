//! Ink written down as SVG with millimetre units, corrected for the printer.

use std::fmt::Write as _;

use super::ink::{Anchor, Item, Stroke};
use super::paper::PrintScale;
use crate::design::units::format_number;
use crate::drawings::frame::Point;

/// A whole document of a size in mm.
pub(super) fn document((width, height): (f64, f64), body: &str) -> String {
    let (w, h) = (number(width), number(height));
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}mm\" height=\"{h}mm\" viewBox=\"0 0 {w} {h}\" fill=\"none\" \
         stroke=\"#000\" stroke-linecap=\"butt\" font-family=\"system-ui, sans-serif\">\n{body}</svg>\n"
    )
}

/// Where a frame stands and how large it is, as attributes, corrected for the printer.
pub(super) fn place_and_size([low, high]: [Point; 2], scale: PrintScale) -> String {
    let (fx, fy) = (scale.across(), scale.along());
    let (x, y) = (number(low.x * fx), number(low.y * fy));
    let (width, height) = (number((high.x - low.x) * fx), number((high.y - low.y) * fy));
    format!(" x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\"")
}

/// A number of mm, to a thousandth, without noughts at its end.
fn number(value: f64) -> String {
    let text = format_number(value, 3);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// Writes one thing, corrected for the printer.
pub(super) fn write_item(out: &mut String, item: &Item, scale: PrintScale) {
    let (fx, fy) = (scale.across(), scale.along());
    // Writing to a text cannot fail.
    match item {
        Item::Line { points, closed, stroke } => {
            let tag = if *closed { "polygon" } else { "polyline" };
            let _ = write!(out, "<{tag}{} points=\"", style(*stroke));
            write_points(out, points, scale);
            out.push_str("\"/>\n");
        }
        Item::Filled { points } => {
            out.push_str("<polygon fill=\"#000\" stroke=\"none\" points=\"");
            write_points(out, points, scale);
            out.push_str("\"/>\n");
        }
        Item::Circle { at, radius, stroke } => {
            let (x, y, rx, ry) = (number(at.x * fx), number(at.y * fy), number(radius * fx), number(radius * fy));
            let _ = writeln!(out, "<ellipse{} cx=\"{x}\" cy=\"{y}\" rx=\"{rx}\" ry=\"{ry}\"/>", style(*stroke));
        }
        Item::Words { words, .. } if words.trim().is_empty() => {}
        Item::Words { at, words, size, anchor, upward } => {
            let (x, y) = (number(at.x * fx), number(at.y * fy));
            let turned = if *upward { format!(" transform=\"rotate(-90 {x} {y})\"") } else { String::new() };
            let anchor = match anchor {
                Anchor::Start => "start",
                Anchor::Middle => "middle",
                Anchor::End => "end",
            };
            let size = number(size * fx.min(fy));
            let _ = writeln!(
                out,
                "<text fill=\"#000\" stroke=\"none\" x=\"{x}\" y=\"{y}\" font-size=\"{size}\" text-anchor=\"{anchor}\"{turned}>{}</text>",
                escaped(words)
            );
        }
    }
}

fn style(stroke: Stroke) -> String {
    let (width, dashes) = stroke.style();
    let dashes = if dashes.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{dashes}\"") };
    format!(" stroke-width=\"{width}\"{dashes}")
}

fn write_points(out: &mut String, points: &[Point], scale: PrintScale) {
    for (i, p) in points.iter().filter(|p| p.x.is_finite() && p.y.is_finite()).enumerate() {
        let gap = if i == 0 { "" } else { " " };
        let _ = write!(out, "{gap}{},{}", number(p.x * scale.across()), number(p.y * scale.along()));
    }
}

/// Text as it may stand in a document: its special letters written out, letters no document may hold left out.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\u{fffe}' | '\u{ffff}' => {}
            letter if letter.is_control() => out.push(' '),
            letter => out.push(letter),
        }
    }
    out
}
