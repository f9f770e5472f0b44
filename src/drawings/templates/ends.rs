//! Both end faces as they are seen, with every centre mark.

use std::f64::consts::PI;

use super::ink::{Anchor, Ink, Stroke};
use super::page::Template;
use crate::design::{Centres, Shop, Units};
use crate::drawings::end_faces::{EndScene, FaceMark, FaceScene};
use crate::drawings::frame::Point;
use crate::figures::Worked;
use crate::figures::marks::Face;
use crate::geometry::{Axis, Role, Section};
use crate::piece::Piece;

/// Width of a flap that folds over the side of the blank, in mm.
const FLAP: f64 = 12.0;
/// How far centre lines reach past the blank, in mm.
const PAST: f64 = 7.0;
/// Half the length of the lines of a mark, in mm.
const CROSS: f64 = 5.0;
/// Size of a mark's letter, and how near to its mark it stands, in mm.
const LETTER: f64 = 4.6;
const AWAY: f64 = 5.0;

pub(super) fn templates(worked: &Worked, shop: &Shop) -> Vec<Template> {
    let scene = EndScene::new(&worked.piece, &worked.figures.marks, &shop.centres, Units::from(shop));
    [&scene.tail, &scene.head].map(|face| template(face, &worked.piece, &shop.centres)).to_vec()
}

fn template(face: &FaceScene, piece: &Piece, centres: &Centres) -> Template {
    let tail = face.face == Face::Tail;
    let mut ink = Ink::default();
    let round = if tail { face.plug_radius_mm } else { head_face_radius(piece) };
    outline(&mut ink, face, piece, tail && round.is_some());
    if let Some(radius) = round {
        ink.circle(Point::new(0.0, 0.0), radius, if tail { Stroke::Cut } else { Stroke::Thin });
        // Just outside the circle, half way between the centre lines.
        let (name, at) = (if tail { "plug" } else { "tenon" }, radius * std::f64::consts::FRAC_1_SQRT_2 + 0.8);
        ink.words(Point::new(at, at + 1.6), name, 3.0, Anchor::Start);
    }
    if let Some(bore) = face.bore_radius_mm {
        ink.circle(Point::new(0.0, 0.0), bore, Stroke::Dashed);
    }
    safe_area(&mut ink, face, piece, round, centres.margin_mm);
    let flaps = !(tail && round.is_some()) && matches!(piece.solid.stock.section, Section::Square { .. });
    let reach = face.half_mm.max(round.unwrap_or(0.0)) + if flaps { FLAP } else { 0.0 } + PAST;
    reference(&mut ink, reach, tail);
    // A mark far off the wood is told in words only.
    let drawn = face.marks.iter().filter(|mark| mark.at.x.abs().max(mark.at.y.abs()) <= reach).collect::<Vec<_>>();
    let middles = drawn.iter().map(|mark| Point::new(mark.at.x, -mark.at.y)).collect::<Vec<_>>();
    for (mark, letter) in drawn.into_iter().zip(letter_places(&middles)) {
        draw_mark(&mut ink, mark, letter, face.footprint_mm);
    }
    list(&mut ink, face, reach);
    let (title, side) = match face.face {
        Face::Tail if round.is_some() => ("Bowl end, on the plug", "mirrored: right as held is on the left"),
        Face::Tail => ("Bowl end", "mirrored: right as held is on the left"),
        Face::Head => ("Head end", "right as held is on the right"),
    };
    Template {
        title: title.into(),
        note: format!("As you look at the end; {side}. A mark inside the dotted line has footing for its centre."),
        ink,
    }
}

/// Radius that passes on axis A leave at the head face, in mm; `None` where none reaches it.
fn head_face_radius(piece: &Piece) -> Option<f64> {
    let passes = piece.solid.with_role(Role::Outside).filter_map(|r| piece.revolved(r.cut));
    let over = passes.filter(|p| p.axis == Axis::A && p.meridian.end() >= piece.head_face - 1.0);
    over.map(|p| p.meridian.radius_before(piece.head_face)).reduce(f64::min)
}

/// The blank: folded over the sides of a square one; a thin line where a plug stands before it.
fn outline(ink: &mut Ink, face: &FaceScene, piece: &Piece, behind: bool) {
    let h = face.half_mm;
    let square = matches!(piece.solid.stock.section, Section::Square { .. });
    match (square, behind) {
        (_, true) => {
            ink.ring(down(&face.stock), Stroke::Thin);
            ink.words(Point::new(h - 1.5, h - 1.5), "blank", 3.0, Anchor::End);
        }
        (false, false) => ink.circle(Point::new(0.0, 0.0), h, Stroke::Cut),
        (true, false) => {
            ink.ring(down(&face.stock), Stroke::Dashed);
            let inset = FLAP.min(h / 2.0);
            // Four flaps, cut outside and folded on the blank's edges.
            let side = [(-h, -h), (-h + inset, -h - FLAP), (h - inset, -h - FLAP), (h, -h)].map(Point::from);
            let ring = (0..4).flat_map(|quarter| {
                side.into_iter().take(3).map(move |p| (0..quarter).fold(p, |p, _| Point::new(-p.y, p.x)))
            });
            ink.ring(ring.collect(), Stroke::Cut);
            ink.words(Point::new(h - inset - 2.0, -h - 2.0), "fold", 3.0, Anchor::End);
        }
    }
}

/// Up on the face is up on paper.
fn down(points: &[Point]) -> Vec<Point> {
    points.iter().map(|p| Point::new(p.x, -p.y)).collect()
}

/// Where the middle of a footprint may be, for it to stay on the wood with its margin.
fn safe_area(ink: &mut Ink, face: &FaceScene, piece: &Piece, round: Option<f64>, margin: f64) {
    let inside = face.footprint_mm + margin;
    match (round, piece.solid.stock.section) {
        (Some(radius), _) => ink.circle(Point::new(0.0, 0.0), radius - inside, Stroke::Dotted),
        (None, Section::Round { radius }) => ink.circle(Point::new(0.0, 0.0), radius - inside, Stroke::Dotted),
        (None, Section::Square { half_side }) => {
            let h = half_side - inside;
            if h > 0.0 {
                ink.ring(
                    vec![Point::new(-h, -h), Point::new(h, -h), Point::new(h, h), Point::new(-h, h)],
                    Stroke::Dotted,
                );
            }
        }
    }
}

/// Centre lines, the reference line with its arrow, and which side is which.
fn reference(ink: &mut Ink, reach: f64, tail: bool) {
    ink.line(vec![Point::new(-reach, 0.0), Point::new(reach, 0.0)], Stroke::Axis);
    ink.line(vec![Point::new(0.0, 0.0), Point::new(0.0, reach)], Stroke::Axis);
    ink.arrow(Point::new(0.0, 0.0), Point::new(0.0, -reach));
    ink.words(Point::new(0.0, -reach - 2.5), "reference line: opening this way", 4.0, Anchor::Middle);
    let (left, right) = if tail { ("right as held", "left as held") } else { ("left as held", "right as held") };
    ink.words_upward(Point::new(-reach - 1.5, 0.0), left, 3.0);
    ink.words_upward(Point::new(reach + 4.0, 0.0), right, 3.0);
}

fn draw_mark(ink: &mut Ink, mark: &FaceMark, letter: Point, footprint: f64) {
    let (x, y) = (mark.at.x, -mark.at.y);
    ink.line(vec![Point { x: x - CROSS, y }, Point::new(x + CROSS, y)], Stroke::Cut);
    ink.line(vec![Point { x, y: y - CROSS }, Point::new(x, y + CROSS)], Stroke::Cut);
    ink.circle(Point { x, y }, footprint, Stroke::Thin);
    ink.words(Point::new(letter.x, letter.y + 0.36 * LETTER), mark.letter.to_string(), LETTER, Anchor::Middle);
}

/// Middles of the letters of marks, each nearer to its own mark than to any other, and clear of every cross and letter as
/// far as there is room.
fn letter_places(marks: &[Point]) -> Vec<Point> {
    let mut places: Vec<Point> = Vec::with_capacity(marks.len());
    for (own, mark) in marks.iter().enumerate() {
        let mut best = (f64::NEG_INFINITY, *mark);
        for step in 0..32 {
            // Away from the lines of the cross first, then nearer to them, then farther out.
            let way = PI / 4.0 + PI / 2.0 * f64::from(step % 4) + PI / 4.0 * f64::from(step / 4 % 2);
            let far = AWAY + 1.5 * f64::from(step / 8);
            let at = Point::new(mark.x + far * way.cos(), mark.y + far * way.sin());
            let others = marks.iter().enumerate().filter(|(other, _)| *other != own).map(|(_, p)| p);
            let nearest = others.clone().fold(f64::INFINITY, |least, p| least.min(apart(at, *p)));
            let crosses = marks.iter().fold(f64::INFINITY, |least, p| least.min(from_cross(at, *p)));
            let clear = places.iter().fold(crosses, |least, p| least.min(apart(at, *p) - LETTER / 2.0));
            let worth = clear.min(LETTER * 0.8) + (nearest - far).min(0.0) * 4.0 - 0.1 * far;
            if worth > best.0 + 1e-9 {
                best = (worth, at);
            }
        }
        places.push(best.1);
    }
    places
}

fn apart(a: Point, b: Point) -> f64 {
    (a.x - b.x).hypot(a.y - b.y)
}

/// How far a point is from the nearer line of the cross of a mark.
fn from_cross(at: Point, mark: Point) -> f64 {
    let (x, y) = ((at.x - mark.x).abs(), (at.y - mark.y).abs());
    (x - CROSS).max(0.0).hypot(y).min((y - CROSS).max(0.0).hypot(x))
}

/// The marks in words, under the face.
fn list(ink: &mut Ink, face: &FaceScene, reach: f64) {
    for (line, mark) in face.marks.iter().enumerate() {
        let words = [&mark.words[0], &mark.words[1]].map(String::as_str);
        let words = words.into_iter().filter(|w| !w.is_empty()).collect::<Vec<_>>().join(": ");
        let footing = if mark.footing { "" } else { " \u{2013} the centre overhangs the wood" };
        ink.words(
            Point::new(-reach, reach + 5.5 + 5.0 * line as f64),
            format!("{}  {words}{footing}", mark.letter),
            4.0,
            Anchor::Start,
        );
    }
}
