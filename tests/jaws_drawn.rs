//! Wooden jaws as they are drawn: on paper at full size, and in the pictures of their steps.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use skewline::design::pattern::RoundBowlScoop;
use skewline::design::{AxisName, Shop, Units};
use skewline::drawings::jaws::{rings, rings_of};
use skewline::drawings::step_view::{self, spinning};
use skewline::drawings::templates::{Item, templates};
use skewline::drawings::{Point, Sheet, StepScene, Theme, draw_step, svg, text};
use skewline::geometry::Vector;

mod support;
use support::jaws::{jaws_of, near, worked};

/// The template of the face has the circles of the jaws, and the card fits a ball: each of its corners in the recess lies on the
/// circle of that radius about the ball's middle.
#[test]
fn the_templates_are_the_jaws_at_full_size() {
    let (scoop, shop) = (RoundBowlScoop::default(), Shop::default());
    let design = scoop.design("round");
    let worked = worked(&design);
    let jaws = jaws_of(&worked);
    let all = templates(&design, &worked, &shop);
    let titled = |title: &str| all.iter().find(|it| it.title == title).unwrap_or_else(|| panic!("{title}"));
    let face = titled("Wooden jaws, axis B: face");
    let circles: Vec<f64> = face
        .ink
        .0
        .iter()
        .filter_map(|item| match item {
            Item::Circle { radius, .. } => Some(*radius),
            _ => None,
        })
        .collect();
    for diameter in [jaws.block.diameter_mm, jaws.mouth_mm, jaws.girth_mm, jaws.block.screw_circle_mm] {
        assert!(circles.contains(&(diameter / 2.0)), "{diameter} in {circles:?}");
    }
    assert_eq!(circles.len(), 4 + (jaws.block.segments * jaws.block.screws_each) as usize);
    let card = titled("Wooden jaws, axis B: card of the recess");
    let Some(Item::Line { points, closed: true, .. }) = card.ink.0.first() else { panic!("no card") };
    let radius = scoop.ball_diameter_mm / 2.0;
    let in_recess: Vec<_> =
        points.iter().filter(|point| point.y >= 0.0 && point.x > 0.5 && point.x < radius + 5.0).collect();
    assert!(in_recess.len() >= jaws.recess.len() - 1);
    for point in in_recess {
        near(point.x.hypot(point.y - jaws.past_girth_mm), radius, 0.02);
    }
}

/// In section the jaws touch the ball and nothing else: no corner of theirs lies in the wood, and one half is cut away where
/// the handle is.
#[test]
fn the_drawn_jaws_stand_around_the_bowl() {
    let worked = worked(&RoundBowlScoop::default().design("round"));
    let jaws = jaws_of(&worked);
    let axis = *worked.piece.axis(AxisName::B).unwrap();
    let rings = rings(&jaws, &axis);
    assert_eq!(rings.len(), 2);
    let centre = axis.point(0.0, 0.0, 0.0);
    let state = worked.piece.solid.finished();
    for ring in &rings {
        for point in ring {
            let off = (point.x - centre.s).hypot(point.y - centre.y);
            assert!(off > jaws.girth_mm / 2.0 - 0.05, "{point:?}");
            let inside = Vector::new(0.0, point.y, point.x);
            assert!(!state.contains(inside) || off < jaws.girth_mm / 2.0 + 0.02, "{point:?} is wood");
        }
    }
    let highest = |ring: &[Point]| ring.iter().fold(f64::NEG_INFINITY, |most, point| most.max(point.y));
    let (head, tail) = match rings[0].iter().any(|point| point.x > centre.s + 40.0) {
        true => (&rings[0], &rings[1]),
        false => (&rings[1], &rings[0]),
    };
    near(highest(tail) - highest(head), jaws.slot.unwrap().depth_mm, 1e-6);
}

/// The words of the swing stay on the sheet, though its edge is that of the sheet.
#[test]
fn the_swing_across_is_written_on_the_sheet() {
    let design = RoundBowlScoop::default().design("round");
    let worked = worked(&design);
    let cut = design.cuts.len() - 1;
    let scene = StepScene::new(
        &worked.piece.solid,
        cut,
        cut + 1,
        spinning(&design, &worked, cut),
        Units::from(&Shop::default()),
    )
    .in_jaws(rings_of(&worked, cut).unwrap());
    for width in [200.0, 340.0, 460.0] {
        let picture = svg::to_svg(width, 0.7 * width, |area, sheet: Sheet| {
            draw_step(area, &scene, &Theme::LIGHT, &step_view::fit(&scene, sheet))
        })
        .unwrap();
        let texts: Vec<&str> = picture.split("<text ").filter(|text| text.contains("swing")).collect();
        let [swing] = texts.as_slice() else { panic!("{texts:?}") };
        // Ten units to a pixel, as the view box says; the words are centred.
        let middle: f64 = swing.split('"').nth(1).unwrap().parse::<f64>().unwrap() / 10.0;
        let words = swing.split(['>', '<']).nth(1).unwrap().trim();
        let half = text::width(words, text::SMALL) / 2.0;
        assert!(middle - half >= 0.0 && middle + half <= width, "{middle} and {half} of {width}: {words}");
    }
}
