//! What must hold of any drawing: as it is seen, where it was asked for, and drawable whatever it is given.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

mod scoops;
mod support;

use proptest::prelude::*;
use skewline::design::{AxisChoice, Design, Shop, Units};
use skewline::drawings::bar::{Grade, WallBar};
use skewline::drawings::handles::HandleId;
use skewline::drawings::hold_curve::{HoldCurve, HoldMark};
use skewline::drawings::scene::{JoinShape, Measure, Note};
use skewline::drawings::text::{Block, width};
use skewline::drawings::{
    Bounds, EndScene, HoldScene, Margins, SectionScene, Sheet, SideScene, Theme, Viewport, WallMapScene,
    draw_end_faces, draw_hold_curve, draw_section, draw_side_view, draw_wall_map, end_faces, nearest, section_view,
    side_view, svg,
};
use skewline::figures::marks::marks;
use skewline::figures::{shape, work_out};
use skewline::form::moves::{Movable, apply};
use skewline::geometry::Point;
use skewline::piece::Piece;

fn resolve(design: &Design) -> Option<Piece> {
    Piece::resolve(design, &design.limits.over(&Shop::default().limits)).ok()
}

fn end_scene(design: &Design, piece: &Piece) -> EndScene {
    let centres = Shop::default().centres;
    EndScene::new(piece, &marks(design, piece, &centres), &centres, Units::default())
}

/// Every number of a picture: none is missing, none is far off the sheet.
fn judge(picture: &str) -> Result<(), TestCaseError> {
    prop_assert!(!picture.contains("NaN") && !picture.contains("inf"), "a number is missing");
    let body = picture.split_once('\n').map_or("", |(_, body)| body);
    for quoted in body.split("points=\"").skip(1).filter_map(|part| part.split('"').next()) {
        for number in quoted.split([',', ' ']).filter(|n| !n.is_empty()) {
            let units: i64 = number.parse().map_err(|_| TestCaseError::fail(format!("{number} is no whole number")))?;
            prop_assert!(units.abs() < 20_000, "{units} is far off the sheet");
        }
    }
    Ok(())
}

/// A mark right of the centre as held stands left on the bowl end, as its looker sees it, and right on the head end.
#[test]
fn the_bowl_end_is_drawn_as_it_is_seen() {
    let mut design = scoops::angled_scoop();
    design.axes[0] = AxisChoice::Marks { tail_x_mm: 7.0, tail_y_mm: -3.0, head_x_mm: 5.0, head_y_mm: 4.0 };
    let scene = end_scene(&design, &resolve(&design).unwrap());
    let (tail, head) = (&scene.tail.marks[1], &scene.head.marks[1]);
    assert_eq!((tail.letter, tail.at), ('B', Point::new(-7.0, -3.0)));
    assert_eq!(tail.words[1], "left 7.0, down 3.0");
    assert_eq!((head.letter, head.at), ('B', Point::new(5.0, 4.0)));
    assert_eq!(head.words[1], "right 5.0, up 4.0");

    // And so on the sheet: find the dot of mark B, in its colour, beside the dot of mark A.
    let sheet_px = (800.0, 420.0);
    let theme = Theme::LIGHT;
    let picture = svg::to_svg(sheet_px.0, sheet_px.1, |area, sheet| {
        draw_end_faces(area, &scene, &theme, &end_faces::fit(&scene, sheet))
    })
    .unwrap();
    let dots = |axis: usize| -> Vec<(f64, f64)> {
        let colour = theme.axis(axis);
        let fill = format!("fill=\"#{:02X}{:02X}{:02X}\"", colour.0, colour.1, colour.2);
        let number = |line: &str, name: &str| -> f64 {
            line.split_once(&format!(" {name}=\"")).unwrap().1.split_once('"').unwrap().0.parse().unwrap()
        };
        let discs = picture.lines().filter(|line| line.starts_with("<circle") && line.contains(&fill));
        discs.map(|line| (number(line, "cx"), number(line, "cy"))).collect()
    };
    let (a, b) = (dots(0), dots(1));
    assert_eq!((a.len(), b.len()), (2, 2));
    let px_per_mm = svg_px_per_mm(&scene, sheet_px);
    for (face, (right, up)) in [(0, (-7.0, -3.0)), (1, (5.0, 4.0))] {
        let off = (b[face].0 - a[face].0, b[face].1 - a[face].1);
        let wanted = (right * px_per_mm, -up * px_per_mm);
        assert!((off.0 - wanted.0).abs() <= 1.0 && (off.1 - wanted.1).abs() <= 1.0, "{off:?} is not {wanted:?}");
    }
    // The bowl end is on the left of the sheet.
    assert!(a[0].0 < a[1].0);
}

/// Units of the picture in one mm of the piece.
fn svg_px_per_mm(scene: &EndScene, (width, height): (f64, f64)) -> f64 {
    end_faces::fit(scene, Sheet::new(width, height, 1.0)).px_per_mm * 10.0
}

#[test]
fn a_place_on_the_sheet_and_the_place_on_the_piece_are_one() {
    let bounds = Bounds::around([Point::new(-12.0, -31.0), Point::new(250.0, 31.0)]);
    let margins = Margins { left: 30.0, top: 60.0, right: 20.0, bottom: 50.0 };
    let view = Viewport::fit(Sheet::new(390.0, 338.0, 3.0), bounds, margins);
    let (low, high) = (view.to_pixel(Point::new(-12.0, 0.0)), view.to_pixel(Point::new(250.0, 0.0)));
    assert!((low.x - 30.0).abs() < 1e-9 && (high.x - 370.0).abs() < 1e-9);
    assert!(view.to_pixel(Point::new(0.0, 31.0)).y < view.to_pixel(Point::new(0.0, -31.0)).y, "up is up");
    let closer = view.zoomed(2.5, Point::new(100.0, 200.0)).panned(Point::new(13.0, -7.0));
    let (before, after) = (view.to_mm(Point::new(100.0, 200.0)), closer.to_mm(Point::new(113.0, 193.0)));
    assert!((before.x - after.x).abs() < 1e-9 && (before.y - after.y).abs() < 1e-9, "{before:?} {after:?}");
    let round = closer.to_mm(closer.to_pixel(Point::new(33.0, -4.0)));
    assert!((round.x - 33.0).abs() < 1e-9 && (round.y + 4.0).abs() < 1e-9);
}

#[test]
fn the_nearest_handle_is_taken_and_none_out_of_reach() {
    let design = scoops::angled_scoop();
    let piece = resolve(&design).unwrap();
    let scene = SideScene::new(&design, &piece, Units::default());
    let view = side_view::fit(&scene, Sheet::new(390.0, 338.0, 1.0));
    let crossing = HandleId::Part(Movable::Crossing { axis: 0 });
    let Point { x, y } = view.to_pixel(Point::new(62.0, 0.0));
    let found = nearest(&scene.handles, &view, Point::new(x + 3.0, y - 4.0), 22.0).unwrap();
    assert_eq!((found.id, found.label.as_str()), (crossing, "Axis B crosses A"));
    assert_eq!(nearest(&scene.handles, &view, Point::new(x, 5.0), 22.0), None);

    // Dragged by 26 px along the sheet.
    let mut moved = design.clone();
    assert!(apply(&mut moved, &piece, Movable::Crossing { axis: 0 }, view.to_mm(Point::new(x + 26.0, y))));
    let AxisChoice::Tilt { crossing_mm, .. } = moved.axes[0] else { panic!("axis B is tilted") };
    assert!((crossing_mm - 62.0 - 26.0 / view.px_per_mm).abs() < 1e-9);
}

/// The texts of a picture: words, middle or left end, and size, in CSS pixels.
fn texts(picture: &str) -> Vec<(String, (f64, f64), f64)> {
    let number = |tag: &str, name: &str| -> f64 {
        tag.split_once(&format!(" {name}=\"")).unwrap().1.split_once('"').unwrap().0.parse().unwrap()
    };
    let parts = picture.split("<text").skip(1).map(|part| part.split_once('>').unwrap());
    parts
        .map(|(tag, rest)| {
            let words = rest.split('<').next().unwrap().trim().to_owned();
            let (size, y) = (number(tag, "font-size") / 10.0, number(tag, "y") / 10.0);
            let half = if tag.contains("start") { width(&words, size) / 2.0 } else { 0.0 };
            (words, (number(tag, "x") / 10.0 + half, y), size)
        })
        .collect()
}

#[test]
fn texts_are_at_least_14_px_on_the_sheet_and_apart() {
    let shop = Shop::default();
    let mut count = 0;
    // With marks far off the wood.
    let mut steep = scoops::angled_scoop();
    steep.axes[0] = AxisChoice::Tilt { tilt_deg: 35.0, toward_deg: 0.0, crossing_mm: 102.0 };
    for design in [scoops::angled_scoop(), scoops::three_axes(), steep] {
        let worked = work_out(&design, &shop).unwrap();
        let mut side = SideScene::of(&design, &shape(&design, &shop).unwrap(), &shop);
        side.station_mm = Some(40.0);
        let section = SectionScene::new(&worked.piece, 40.0, 3.0, Units::default());
        let ends = end_scene(&design, &worked.piece);
        for (w, h) in [(390.0, 338.0), (800.0, 420.0)] {
            let theme = Theme::LIGHT;
            let pictures = [
                svg::to_svg(w, h, |area, sheet| draw_side_view(area, &side, &theme, &side_view::fit(&side, sheet))),
                svg::to_svg(w, h, |area, sheet| {
                    draw_section(area, &section, &theme, &section_view::fit(&section, sheet))
                }),
                svg::to_svg(w, h, |area, sheet| draw_end_faces(area, &ends, &theme, &end_faces::fit(&ends, sheet))),
            ];
            for picture in pictures {
                let texts = texts(&picture.unwrap());
                count += texts.len();
                let block = |t: &(String, (f64, f64), f64)| Block::around(t.1.into(), width(&t.0, t.2), t.2 * 0.75);
                for (i, text) in texts.iter().enumerate() {
                    assert!(text.2 >= 14.0 - 1e-9, "{text:?} is small");
                    let (low, high) = (block(text).low, block(text).high);
                    assert!(low.x >= -4.0 && low.y >= 0.0 && high.x <= w + 4.0 && high.y <= h, "{text:?} is off");
                    for other in &texts[..i] {
                        let both = block(text).overlap(&block(other));
                        assert!(both < 3.0, "{text:?} and {other:?} overlap by {both}");
                    }
                }
            }
        }
    }
    assert!(count > 150, "{count}");
}

/// A number that is often absurd.
fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        6 => -400.0..400.0_f64,
        1 => prop_oneof![Just(f64::NAN), Just(f64::INFINITY), Just(f64::NEG_INFINITY), Just(1e300), Just(-1e300)],
        1 => -1e9..1e9_f64,
        1 => Just(0.0),
    ]
}

fn point() -> impl Strategy<Value = Point> {
    (number(), number()).prop_map(Point::from)
}

fn chains() -> impl Strategy<Value = Vec<Vec<Point>>> {
    proptest::collection::vec(proptest::collection::vec(point(), 0..9), 0..4)
}

fn viewport() -> impl Strategy<Value = Viewport> {
    let sheet = (1.0..900.0, 1.0..900.0_f64).prop_map(|(w, h)| Sheet::new(w, h, 10.0));
    (sheet, point(), point(), number(), point()).prop_map(|(sheet, a, b, zoom, about)| {
        let margins = Margins { left: 20.0, top: 30.0, right: 20.0, bottom: 40.0 };
        Viewport::fit(sheet, Bounds::around([a, b]), margins).zoomed(zoom.abs(), about).panned(about)
    })
}

fn wall_bar() -> impl Strategy<Value = WallBar> {
    (point(), point(), number()).prop_map(|(inside, outside, mm)| WallBar {
        inside,
        outside,
        thickness_mm: mm,
        grade: Grade::of_thickness(mm, 3.0),
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn any_side_scene_can_be_drawn(
        view in viewport(),
        (wood, hollows, saws, leave) in (chains(), chains(), chains(), chains()),
        bar in wall_bar(),
        (a, b, station) in (point(), point(), number()),
    ) {
        let design = scoops::angled_scoop();
        let piece = resolve(&design).unwrap();
        let mut scene = SideScene::new(&design, &piece, Units::default());
        scene.fins = vec![Note { at: a, words: "fin".to_owned() }];
        scene.measures = vec![Measure { between: [a, b], words: "length".to_owned() }];
        scene.boundaries = vec![[[a, b], [b, a]]];
        scene.joins = vec![JoinShape { tapers: saws.clone(), leave }];
        scene.axes[1].ends = [a, b];
        scene.handles[0].at_mm = a;
        (scene.wood, scene.hollows, scene.saws) = (wood.clone(), hollows, saws);
        (scene.stock, scene.plugs) = (wood.clone(), wood);
        (scene.thin_wall, scene.station_mm) = (Some(bar), Some(station));
        let size = (view.sheet.width_px, view.sheet.height_px);
        let picture = svg::to_svg(size.0, size.1, |area, sheet| {
            draw_side_view(area, &scene, &Theme::DARK, &Viewport { sheet, ..view })
        });
        judge(&picture.unwrap())?;
    }

    #[test]
    fn any_section_can_be_drawn(
        view in viewport(),
        (wood, hollows, stock) in (chains(), chains(), proptest::collection::vec(point(), 0..9)),
        (wall, at, station_mm) in (wall_bar(), point(), number()),
    ) {
        let lengths = Units::default();
        let scene = SectionScene { station_mm, wood, stock, hollows, axes: vec![(1, 'B', at)], wall: Some(wall), lengths };
        let size = (view.sheet.width_px, view.sheet.height_px);
        for view in [view, section_view::fit(&scene, view.sheet)] {
            let picture = svg::to_svg(size.0, size.1, |area, sheet| {
                draw_section(area, &scene, &Theme::LIGHT, &Viewport { sheet, ..view })
            });
            judge(&picture.unwrap())?;
        }
    }

    #[test]
    fn any_wall_map_and_any_curve_can_be_drawn(
        (width, height) in (1.0..900.0, 1.0..900.0_f64),
        (along_mm, station_mm, clocks_deg) in (
            proptest::collection::vec(number(), 0..6),
            proptest::collection::vec(number(), 0..6),
            proptest::collection::vec(number(), 0..6),
        ),
        thickness_mm in proptest::collection::vec(proptest::option::of(number()), 0..36),
        (a, b, limit_mm) in (point(), point(), number()),
        curve in proptest::collection::vec(point(), 0..9),
    ) {
        let map = WallMapScene {
            along_mm,
            station_mm,
            clocks_deg,
            thickness_mm,
            floor_from_mm: a.x,
            limit_mm,
            least: Some((a.x, b.y, b.x)),
            lengths: Units::default(),
        };
        let picture = svg::to_svg(width, height, |area, sheet| draw_wall_map(area, &map, &Theme::LIGHT, sheet));
        judge(&picture.unwrap())?;
        let hold = HoldScene {
            curves: vec![HoldCurve { words: "liquid".to_owned(), points: curve }],
            marks: vec![HoldMark { at: a, words: "best".to_owned() }],
        };
        let picture = svg::to_svg(width, height, |area, sheet| draw_hold_curve(area, &hold, &Theme::LIGHT, sheet));
        judge(&picture.unwrap())?;
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn every_sound_design_can_be_drawn(
        design in support::arbitrary::design(),
        station in prop_oneof![3 => -50.0..500.0_f64, 1 => number()],
    ) {
        let Some(piece) = resolve(&design) else { return Ok(()) };
        let side = SideScene::new(&design, &piece, Units::default());
        let section = SectionScene::new(&piece, station, 3.0, Units::default());
        let ends = end_scene(&design, &piece);
        for (width, height) in [(390.0, 338.0), (800.0, 420.0)] {
            for zoom in [1.0, 30.0] {
                let about = Point::new(width / 3.0, height / 2.0);
                let pictures = [
                    svg::to_svg(width, height, |area, sheet| {
                        draw_side_view(area, &side, &Theme::LIGHT, &side_view::fit(&side, sheet).zoomed(zoom, about))
                    }),
                    svg::to_svg(width, height, |area, sheet| {
                        draw_section(area, &section, &Theme::LIGHT, &section_view::fit(&section, sheet).zoomed(zoom, about))
                    }),
                    svg::to_svg(width, height, |area, sheet| {
                        draw_end_faces(area, &ends, &Theme::DARK, &end_faces::fit(&ends, sheet).zoomed(zoom, about))
                    }),
                ];
                for picture in pictures {
                    judge(&picture.unwrap())?;
                }
            }
        }
    }
}
