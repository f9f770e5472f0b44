//! Every view of invented utensils, as pictures that can be opened, and what must hold of any picture.

#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

mod scoops;

use skewline::design::{Design, Piece, Shop};
use skewline::drawings::hold_curve::{HoldCurve, HoldMark};
use skewline::drawings::{
    EndScene, HoldScene, Lengths, SectionScene, Sheet, SideScene, Theme, WallMapScene, draw_end_faces, draw_hold_curve,
    draw_section, draw_side_view, draw_wall_map, end_faces, section_view, side_view, svg,
};
use skewline::figures::marks::marks;

/// A phone's share of the screen for drawings, and a wide screen's.
const SIZES: [(f64, f64); 2] = [(390.0, 338.0), (800.0, 420.0)];

fn resolve(design: &Design) -> Piece {
    assert_eq!(design.problems(), vec![], "the design is sound");
    Piece::resolve(design, &design.limits.over(&Shop::default().limits)).unwrap()
}

fn side_svg(scene: &SideScene, theme: &Theme, (width, height): (f64, f64)) -> String {
    svg::to_svg(width, height, |area, sheet: Sheet| draw_side_view(area, scene, theme, &side_view::fit(scene, sheet)))
        .unwrap()
}

#[test]
fn side_views() {
    for (name, design) in [("angled", scoops::angled_scoop()), ("three_axes", scoops::three_axes())] {
        let piece = resolve(&design);
        let mut scene = SideScene::new(&design, &piece, Lengths::default());
        scene.station_mm = Some(40.0);
        for size in SIZES {
            let picture = side_svg(&scene, &Theme::LIGHT, size);
            insta::assert_binary_snapshot!(&format!("side_{name}_{}.svg", size.0), picture.into_bytes());
        }
    }
}

fn end_svg(scene: &EndScene, theme: &Theme, (width, height): (f64, f64)) -> String {
    svg::to_svg(width, height, |area, sheet| draw_end_faces(area, scene, theme, &end_faces::fit(scene, sheet))).unwrap()
}

fn end_scene(design: &Design) -> EndScene {
    let (piece, centres) = (resolve(design), Shop::default().centres);
    EndScene::new(&piece, &marks(design, &piece, &centres), &centres, Lengths::default())
}

#[test]
fn end_face_views() {
    for (name, design) in [("angled", scoops::angled_scoop()), ("three_axes", scoops::three_axes())] {
        for size in SIZES {
            let picture = end_svg(&end_scene(&design), &Theme::LIGHT, size);
            insta::assert_binary_snapshot!(&format!("ends_{name}_{}.svg", size.0), picture.into_bytes());
        }
    }
}

fn section_svg(scene: &SectionScene, theme: &Theme, (width, height): (f64, f64)) -> String {
    svg::to_svg(width, height, |area, sheet| draw_section(area, scene, theme, &section_view::fit(scene, sheet)))
        .unwrap()
}

#[test]
fn section_views() {
    for (name, design, station) in
        [("angled", scoops::angled_scoop(), 30.0), ("three_axes", scoops::three_axes(), 44.0)]
    {
        let scene = SectionScene::new(&resolve(&design), station, Lengths::default());
        for size in SIZES {
            let picture = section_svg(&scene, &Theme::LIGHT, size);
            insta::assert_binary_snapshot!(&format!("section_{name}_{}.svg", size.0), picture.into_bytes());
        }
    }
}

/// An invented field of thickness: thinner toward 6 o'clock and the middle, open at 12 o'clock.
fn invented_wall() -> WallMapScene {
    let stations_mm: Vec<f64> = (0..=25).map(|i| f64::from(i) * 2.0).collect();
    let clocks_deg: Vec<f64> = (0..=36).map(|i| f64::from(i) * 10.0).collect();
    let thickness = |s: f64, clock: f64| {
        let sawn = (clock - 180.0).abs() > 100.0 + s;
        let turn = (clock - 150.0).to_radians().cos();
        (!sawn).then_some(5.0 - 2.4 * turn * (s / 50.0 * std::f64::consts::PI).sin() + s / 30.0)
    };
    let thickness_mm = stations_mm.iter().flat_map(|s| clocks_deg.iter().map(|c| thickness(*s, *c))).collect();
    let least = Some((20.0, 150.0, 3.383));
    WallMapScene { stations_mm, clocks_deg, thickness_mm, limit_mm: 4.0, least, lengths: Lengths::default() }
}

#[test]
fn wall_maps() {
    for (width, height) in SIZES {
        let picture =
            svg::to_svg(width, height, |area, sheet| draw_wall_map(area, &invented_wall(), &Theme::LIGHT, sheet))
                .unwrap();
        insta::assert_binary_snapshot!(&format!("wall_map_{width}.svg"), picture.into_bytes());
    }
}

/// An invented pair of curves.
fn invented_hold() -> HoldScene {
    let curve = |words: &str, most: f64, lean: f64| HoldCurve {
        words: words.to_owned(),
        points: (-40..=60)
            .map(|deg| (f64::from(deg), (most * (1.0 - ((f64::from(deg) - lean) / 60.0).powi(2))).max(0.0)))
            .collect(),
    };
    HoldScene {
        curves: vec![curve("liquid", 38.0, 18.0), curve("heaped", 61.0, 14.0)],
        marks: vec![
            HoldMark { at: (0.0, 34.58), words: "handle level".to_owned() },
            HoldMark { at: (18.0, 38.0), words: "best".to_owned() },
        ],
    }
}

#[test]
fn hold_curves() {
    for (width, height) in SIZES {
        let picture =
            svg::to_svg(width, height, |area, sheet| draw_hold_curve(area, &invented_hold(), &Theme::LIGHT, sheet))
                .unwrap();
        insta::assert_binary_snapshot!(&format!("hold_{width}.svg"), picture.into_bytes());
    }
}
