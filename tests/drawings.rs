//! Every view of invented utensils, as pictures that can be opened, and what must hold of any picture.

#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

mod scoops;

use skewline::design::{AxisName, Cut, Design, Shop, Units};
use skewline::drawings::hold_curve::{HoldCurve, HoldMark};
use skewline::drawings::scene::{JoinShape, part_lines};
use skewline::drawings::step_view::{AirAt, Spinning};
use skewline::drawings::{
    EndScene, HoldScene, SectionScene, Sheet, SideScene, StepScene, Theme, WallMapScene, draw_end_faces,
    draw_hold_curve, draw_section, draw_side_view, draw_step, draw_wall_map, end_faces, section_view, side_view,
    step_view, svg,
};
use skewline::figures::marks::marks;
use skewline::figures::{shape, work_out};
use skewline::geometry::{Point, Vector};
use skewline::piece::Piece;

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

/// A join written out, so that the pictures change only with the drawing.
fn written_join() -> JoinShape {
    let both =
        |chain: &[(f64, f64)]| [1.0, -1.0].map(|side| chain.iter().map(|p| Point::new(p.0, side * p.1)).collect());
    let leave = [(58.0, 12.0), (62.0, 17.0), (70.0, 15.0), (76.0, 13.5)];
    JoinShape {
        tapers: both(&[(-12.0, 24.0), (46.0, 24.0), (58.0, 17.5), (76.0, 14.0)]).into(),
        leave: both(&leave).into(),
    }
}

#[test]
fn side_views() {
    for (name, design) in [("angled", scoops::angled_scoop()), ("three_axes", scoops::three_axes())] {
        let shop = Shop::default();
        let mut scene = SideScene::of(&design, &shape(&design, &shop).unwrap(), &shop);
        (scene.station_mm, scene.joins) = (Some(40.0), vec![written_join()]);
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
    EndScene::new(&piece, &marks(design, &piece, &centres), &centres, Units::default())
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
        let scene = SectionScene::new(&resolve(&design), station, 3.0, Units::default());
        for size in SIZES {
            let picture = section_svg(&scene, &Theme::LIGHT, size);
            insta::assert_binary_snapshot!(&format!("section_{name}_{}.svg", size.0), picture.into_bytes());
        }
    }
}

#[test]
fn wall_maps() {
    for (name, design) in [("angled", scoops::angled_scoop()), ("three_axes", scoops::three_axes())] {
        let shop = Shop::default();
        let worked = work_out(&design, &shop).unwrap();
        let scene = WallMapScene::new(&worked.piece, &worked.figures.walls[0], 3.0, Units::from(&shop)).unwrap();
        for (width, height) in SIZES {
            let picture =
                svg::to_svg(width, height, |area, sheet| draw_wall_map(area, &scene, &Theme::LIGHT, sheet)).unwrap();
            insta::assert_binary_snapshot!(&format!("wall_map_{name}_{width}.svg"), picture.into_bytes());
        }
    }
}

/// An invented pair of curves.
fn invented_hold() -> HoldScene {
    let curve = |words: &str, most: f64, lean: f64| HoldCurve {
        words: words.to_owned(),
        points: (-40..=60)
            .map(|deg| Point::new(f64::from(deg), (most * (1.0 - ((f64::from(deg) - lean) / 60.0).powi(2))).max(0.0)))
            .collect(),
    };
    HoldScene {
        curves: vec![curve("liquid", 38.0, 18.0), curve("heaped", 61.0, 14.0)],
        marks: vec![
            HoldMark { at: Point::new(0.0, 34.58), words: "handle level".to_owned() },
            HoldMark { at: Point::new(18.0, 38.0), words: "best".to_owned() },
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

/// The handle pass of a scoop on its second axis: what goes, what swings, and where the tool meets air.
#[test]
fn a_step_on_a_moved_axis() {
    let design = scoops::angled_scoop();
    let piece = resolve(&design);
    let (cut, name) = design
        .cuts
        .iter()
        .enumerate()
        .find_map(|(i, cut)| match cut {
            Cut::Pass(pass) if pass.axis == AxisName::B => Some((i, pass.axis)),
            _ => None,
        })
        .unwrap();
    let air = [60.0, 110.0, 160.0, 200.0].map(|t_mm| AirAt { t_mm, touch_mm: 40.0, full_mm: 22.0 }).to_vec();
    let spinning = Spinning { axis: *piece.axis(name).unwrap(), name, swing_mm: Some(48.0), air };
    let scene = StepScene::new(&piece.solid, cut, cut + 1, Some(spinning), Units::default());
    assert_ne!(scene.before, scene.after, "the step takes wood");
    for (width, height) in [(366.0, 240.0), (800.0, 300.0)] {
        let picture = svg::to_svg(width, height, |area, sheet: Sheet| {
            draw_step(area, &scene, &Theme::LIGHT, &step_view::fit(&scene, sheet))
        });
        insta::assert_binary_snapshot!(&format!("step_{width}.svg"), picture.unwrap().into_bytes());
    }
}

/// What is picked is shown whole: every point of a pass's lines lies on its profile, and a parting's on its plane.
#[test]
fn a_picked_cut_is_shown_whole() {
    let design = scoops::angled_scoop();
    let piece = resolve(&design);
    for (cut, choice) in design.cuts.iter().enumerate() {
        let lines = part_lines(&piece, cut);
        match choice {
            Cut::Pass(_) | Cut::Hollow(_) => {
                let turned = piece.revolved(cut).unwrap();
                assert_eq!(lines.len(), 2);
                for point in lines.iter().flatten() {
                    let seen = turned.axis.see(Vector::new(0.0, point.y, point.x));
                    let (low, high) = (turned.meridian.radius_after(seen.t), turned.meridian.radius_before(seen.t));
                    let off = (seen.radius() - low).abs().min((seen.radius() - high).abs());
                    assert!(off < 0.01 || seen.radius() > 30.0, "{point:?} is {off} off");
                }
            }
            Cut::Part(plane) | Cut::Face(plane) => {
                let axis = piece.axis(plane.axis).unwrap();
                assert_eq!(lines.len(), 1);
                for point in &lines[0] {
                    assert!((axis.see(Vector::new(0.0, point.y, point.x)).t - plane.at_mm).abs() < 1e-6, "{point:?}");
                }
            }
            Cut::Saw(_) => assert!(lines[0].len() >= 2),
            Cut::FitPlug(_) | Cut::TakeOutPlug => assert!(lines.is_empty()),
        }
    }
}
