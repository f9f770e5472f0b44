//! The saw line unrolled: a paper that goes round the real outside of the bowl.

use std::f64::consts::PI;

use super::ink::{Anchor, Ink, Stroke};
use super::page::Template;
use crate::design::{Cut, Design};
use crate::drawings::frame::Point;
use crate::figures::Worked;
use crate::geometry::{Region, Revolved, Role, Sawn, Unrolled, cut_around};
use crate::piece::Piece;

/// Paper beyond the back of the opening, in mm.
const BEYOND: f64 = 4.0;
/// Corners of a drawn hoop.
const HOOP: usize = 120;
/// A paper that is longer or shorter than the bowl by less than this share lies well enough.
const LIES: f64 = 0.005;
/// Past this share the paper is a help for the eye only.
const USABLE: f64 = 0.05;

pub(super) fn templates(design: &Design, worked: &Worked) -> Vec<Template> {
    let cuts = design.cuts.iter().enumerate().filter(|(_, cut)| matches!(cut, Cut::Saw(_)));
    cuts.filter_map(|(cut, _)| wrap(cut, &worked.piece)).collect()
}

fn wrap(cut: usize, piece: &Piece) -> Option<Template> {
    let removal = piece.solid.removals.iter().find(|r| r.cut == cut)?;
    let Region::Sawn(sawn) = &removal.region else { return None };
    let (surface, from, to) = outside_under(piece, sawn)?;
    // Laid flat first to find the back, then only as far as the paper needs to go.
    let whole = Unrolled::new(&surface.meridian, from, to)?;
    let back = cut_around(surface, &whole, sawn).iter().fold(from, |far: f64, place| far.max(place.t));
    let flat = Unrolled::new(&surface.meridian, from, (back + BEYOND).min(to))?;
    let places = cut_around(surface, &flat, sawn);
    let back = places.iter().fold(None, |far: Option<f64>, place| Some(far.map_or(place.t, |f| f.max(place.t))))?;
    let (from, to) = flat.span();

    let mut ink = Ink::default();
    let hoop =
        |t: f64| -> Vec<Point> { (0..=HOOP).map(|i| flat.at(t, PI * (2.0 * i as f64 / HOOP as f64 - 1.0))).collect() };
    let side = |clock: f64| -> Vec<Point> {
        (0..=HOOP).map(|i| flat.at(from + (to - from) * i as f64 / HOOP as f64, clock)).collect()
    };
    let mut edge = hoop(from);
    edge.extend(side(PI));
    edge.extend(hoop(to).into_iter().rev());
    edge.extend(side(-PI).into_iter().rev());
    ink.ring(edge, Stroke::Thin);
    ink.line(side(0.0), Stroke::Axis);
    ink.line(hoop(back), Stroke::Dashed);
    ink.line(places.iter().map(|p| flat.at(p.t, p.clock)).collect(), Stroke::Cut);
    let behind = flat.at(back, 0.0);
    let ends = ink.bounds();
    ink.words(Point::new(0.0, ends.low.y - 2.0), "lip: this edge on the rim", 3.4, Anchor::Middle);
    ink.words(Point::new(behind.x + 2.0, behind.y - 1.5), "back", 3.4, Anchor::Start);
    let middle = "middle line: under the reference line, on the side that opens";
    ink.words(Point::new(0.0, ends.high.y + 5.0), middle, 3.4, Anchor::Middle);
    let bottom = flat.at(from + (to - from) * 0.5, PI * 0.97);
    ink.words(bottom, "bottom", 3.0, Anchor::End);

    let stretch = flat.stretch(&places);
    let note = if stretch <= LIES {
        "Wrap it round the outside, print outward; its ends meet at the bottom. It lies exactly.".to_owned()
    } else {
        let off = stretch * 100.0;
        let cure = if stretch > USABLE { ": mark lip and back, and draw between by eye" } else { "" };
        format!("Wrap it round, print outward. The bowl curves both ways: up to {off:.0} % off in places{cure}.")
    };
    Some(Template { title: "Saw line, unrolled".into(), note, ink })
}

/// The pass whose outside is under most of a saw line, and from where to where, along its axis in mm.
fn outside_under<'a>(piece: &'a Piece, sawn: &Sawn) -> Option<(&'a Revolved, f64, f64)> {
    // The saw goes on past the first point of its line, to the rim.
    let (lip, back) = (piece.rim(), sawn.ends().1);
    let mut best: Option<(&Revolved, f64, f64)> = None;
    for removal in piece.solid.with_role(Role::Outside) {
        let Region::Revolved(turned) = &removal.region else { continue };
        let station = |s: f64| Some(turned.axis.see(turned.axis.centre(s)?).t);
        let (Some(from), Some(to)) = (station(lip), station(back)) else { continue };
        let lean = turned.axis.tilt().tan() * turned.meridian.largest_radius();
        let (from, to) = (from.max(turned.meridian.start()), (to + lean + BEYOND).min(turned.meridian.end()));
        // A pass that would turn wider than the blank leaves none of its outside there.
        let within =
            turned.meridian.clipped(from, to).is_ok_and(|m| m.largest_radius() <= piece.solid.stock.largest_radius());
        if within && best.is_none_or(|b| to - from > b.2 - b.1) {
            best = Some((turned, from, to));
        }
    }
    best
}
