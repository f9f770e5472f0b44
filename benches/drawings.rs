//! Every view of the demo: its scene from the figures, and drawing it as SVG.
#![allow(missing_docs, reason = "criterion's macros make undocumented items")]
#![allow(clippy::unwrap_used, reason = "a bench may stop at once")]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use skewline::design::{Shop, Units, starters};
use skewline::drawings::{
    EndScene, SectionScene, SideScene, Theme, WallMapScene, draw_end_faces, draw_section, draw_side_view,
    draw_wall_map, end_faces, section_view, side_view, svg,
};
use skewline::figures::{shape, work_out};

/// A phone's share of the screen for drawings, in CSS pixels.
const SIZE: (f64, f64) = (390.0, 338.0);

fn drawings(criterion: &mut Criterion) {
    let (design, shop, theme) = (starters::demo(), Shop::default(), Theme::LIGHT);
    let worked = work_out(&design, &shop).unwrap();
    let shape = shape(&design, &shop).unwrap();
    let lengths = Units::from(&shop);
    let (piece, figures) = (&worked.piece, &worked.figures);

    let mut scenes = criterion.benchmark_group("scenes");
    scenes.bench_function("side", |b| b.iter(|| SideScene::of(black_box(&design), &shape, &shop)));
    scenes.bench_function("section", |b| b.iter(|| SectionScene::new(black_box(piece), 30.0, 3.0, lengths)));
    scenes.finish();

    let side = SideScene::of(&design, &shape, &shop);
    let ends = EndScene::new(piece, &figures.marks, &shop.centres, lengths);
    let section = SectionScene::new(piece, 30.0, 3.0, lengths);
    let map = WallMapScene::new(piece, &figures.walls[0], 3.0, lengths).unwrap();
    let (w, h) = SIZE;
    let mut views = criterion.benchmark_group("views");
    views.bench_function("side", |b| {
        b.iter(|| svg::to_svg(w, h, |area, s| draw_side_view(area, &side, &theme, &side_view::fit(&side, s))))
    });
    views.bench_function("ends", |b| {
        b.iter(|| svg::to_svg(w, h, |area, s| draw_end_faces(area, &ends, &theme, &end_faces::fit(&ends, s))))
    });
    views.bench_function("section", |b| {
        b.iter(|| svg::to_svg(w, h, |area, s| draw_section(area, &section, &theme, &section_view::fit(&section, s))))
    });
    views.bench_function("wall_map", |b| b.iter(|| svg::to_svg(w, h, |area, s| draw_wall_map(area, &map, &theme, s))));
    views.finish();
}

criterion_group!(benches, drawings);
criterion_main!(benches);
