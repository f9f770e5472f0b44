//! The rule along the bottom of a drawing: its numbers never touch one another.

#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

mod scoops;

use proptest::prelude::*;
use skewline::design::{LengthUnit, Rounding, Shop};
use skewline::drawings::rule::RULE_PX;
use skewline::drawings::{SideScene, Theme, draw_side_view, side_view, svg};
use skewline::figures::shape;
use skewline::geometry::Point;

/// How wide a letter is, in its font's size: in DejaVu Sans 2.37, the font of many systems and a broad one. Advance
/// widths from the tables of the font and of its bold, in units of 1/2048.
fn letter_em(letter: char, bold: bool) -> f64 {
    let units = match (letter, bold) {
        ('/', false) => 690.0,
        ('/', true) => 748.0,
        (' ' | '.', false) => 651.0,
        (' ', true) => 713.0,
        ('.', true) => 778.0,
        ('-', false) => 739.0,
        ('-', true) => 850.0,
        (digit, false) if digit.is_ascii_digit() => 1303.0,
        (digit, true) if digit.is_ascii_digit() => 1425.0,
        // As wide as a minus, the widest sign that a number has.
        _ => 1716.0,
    };
    units / 2048.0
}

/// Left end, right end and words of every text on the rule, in pixels, from left to right.
fn on_the_rule(picture: &str, height_px: f64) -> Vec<(f64, f64, String)> {
    let mut texts: Vec<_> = picture
        .split("<text ")
        .skip(1)
        .filter_map(|text| {
            let (head, rest) = text.split_once('>')?;
            let number =
                |name: &str| head.split_once(&format!(" {name}=\"")).or(head.split_once(&format!("{name}=\"")));
            let value = |name: &str| number(name)?.1.split('"').next()?.parse::<f64>().ok();
            let (x, y, size) = (value("x")? / 10.0, value("y")? / 10.0, value("font-size")? / 10.0);
            let words = rest.split('<').next()?.trim().to_owned();
            let bold = head.contains("bold");
            let half = words.chars().map(|letter| letter_em(letter, bold)).sum::<f64>() * size / 2.0;
            (y > height_px - RULE_PX).then_some((x - half, x + half, words))
        })
        .collect();
    texts.sort_by(|a, b| a.0.total_cmp(&b.0));
    texts
}

const ROUNDINGS: [Rounding; 4] =
    [Rounding::Decimal, Rounding::Sixteenths, Rounding::ThirtySeconds, Rounding::SixtyFourths];

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, ..ProptestConfig::default() })]

    #[test]
    fn numbers_on_the_rule_never_touch(
        inches in any::<bool>(),
        rounding in 0..ROUNDINGS.len(),
        width in 300.0..900.0,
        closer in 0.0..4.0_f64,
        by in -300.0..300.0,
        station in -20.0..280.0,
    ) {
        let unit = if inches { LengthUnit::Inches } else { LengthUnit::Millimetres };
        let shop = Shop { length_unit: unit, rounding: ROUNDINGS[rounding], ..Shop::default() };
        let design = scoops::angled_scoop();
        let mut scene = SideScene::of(&design, &shape(&design, &shop).unwrap(), &shop);
        scene.station_mm = Some(station);
        let height = 338.0;
        let picture = svg::to_svg(width, height, |area, sheet| {
            let whole = side_view::fit(&scene, sheet);
            let view = whole.zoomed(closer.exp2(), Point::new(width / 2.0, 100.0)).panned(Point { x: by, y: 0.0 });
            draw_side_view(area, &scene, &Theme::LIGHT, &view)
        });
        let texts = on_the_rule(&picture.unwrap(), height);
        prop_assert!(texts.len() > 1, "numbers on the rule: {texts:?}");
        for pair in texts.windows(2) {
            prop_assert!(pair[0].1 + 2.0 <= pair[1].0, "{pair:?} of {texts:?}");
        }
    }
}
