//! Every figure of a three-axis piece, and all of them together.
#![allow(missing_docs, reason = "criterion's macros make undocumented items")]
#![allow(clippy::unwrap_used, reason = "a bench may stop at once")]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use skewline::design::{AxisChoice, Cut, Design, Node, Pass, PassProfile, Shop};
use skewline::figures::hold::{Asked, Vessel};
use skewline::figures::turning::{StateMasses, turnings};
use skewline::figures::{
    Known, boring, clean_up, fin, leave, marks, plan, rest, shape, start, strength, wall, wood, work_out,
};
use skewline::geometry::mass;
use skewline::piece::Piece;

#[path = "../tests/support/pieces.rs"]
mod pieces;

/// A bored end, a handle on a second axis, and a hook on a third.
fn three_axis_scoop() -> Design {
    let mut design = pieces::scoop();
    design.axes.push(AxisChoice::Tilt { tilt_deg: 3.0, toward_deg: 80.0, crossing_mm: 150.0 });
    let nodes = vec![Node::line(185.0, 22.0), Node::arc(200.0, 16.0, 1.0), Node::line(215.0, 9.0)];
    design.cuts.push(Cut::Pass(Pass {
        name: "hook".into(),
        axis: skewline::design::AxisName::C,
        from_mm: 185.0,
        to_mm: 215.0,
        profile: PassProfile::Drawn { nodes },
        shapes: None,
    }));
    design
}

fn figures(criterion: &mut Criterion) {
    let (design, shop) = (three_axis_scoop(), Shop::default());
    let limits = design.limits.over(&shop.limits);
    let piece = Piece::resolve(&design, &limits).unwrap();
    let mut group = criterion.benchmark_group("figures");
    group.bench_function("resolve", |b| b.iter(|| Piece::resolve(black_box(&design), &limits)));
    group.bench_function("marks", |b| b.iter(|| marks::marks(&design, black_box(&piece), &shop.centres)));
    group.bench_function("joins", |b| b.iter(|| leave::joins(&design, black_box(&piece), shop.length_unit)));
    group.bench_function("nearest_starts", |b| b.iter(|| start::nearest_starts(&design, black_box(&piece), &limits)));
    group.bench_function("fins", |b| b.iter(|| fin::fins(&design, black_box(&piece))));
    group.bench_function("clean_ups", |b| b.iter(|| clean_up::clean_ups(&design, black_box(&piece))));
    group.bench_function("walls", |b| b.iter(|| wall::walls(black_box(&piece), |_| None)));
    let asked = Asked { handle_level: 0.14, repose: 0.6 };
    let lying = || Some(0.05);
    group.bench_function("hold", |b| b.iter(|| Vessel::new(black_box(&piece.solid)).unwrap().report(&asked, lying)));
    group.bench_function("borings", |b| b.iter(|| boring::schedules(&design, black_box(&piece), &shop)));
    let worked = work_out(&design, &shop).unwrap();
    group.bench_function("plan", |b| b.iter(|| plan::plan(&design, black_box(&worked), &shop)));
    group.bench_function("masses", |b| b.iter(|| StateMasses::of(&design, black_box(&piece))));
    let masses = StateMasses::of(&design, &piece);
    let density = Known::Value(640.0);
    group.bench_function("turnings", |b| {
        b.iter(|| turnings(&design, black_box(&piece), &shop, &density, &masses, &worked.figures.borings))
    });
    group.bench_function("finished_mass", |b| b.iter(|| mass(&black_box(&piece).solid.finished())));
    let finished = mass(&piece.solid.finished());
    let lies = rest::rest(&piece, &finished);
    let strong = || {
        let neck = strength::in_use(&design, &shop, black_box(&piece), &lies);
        strength::strength(&design, &shop, &piece, neck, |_| 60.0)
    };
    group.bench_function("strength", |b| b.iter(strong));
    let blank = &worked.figures.blank;
    group.bench_function("wood", |b| b.iter(|| wood::wood(&design, &shop, black_box(&piece), blank, None)));
    group.bench_function("slack_step", |b| b.iter(|| wall::least_wall_mm(black_box(&piece.solid))));
    group.bench_function("shape", |b| b.iter(|| shape(black_box(&design), &shop)));
    group.bench_function("all", |b| b.iter(|| work_out(black_box(&design), &shop)));
    group.finish();
}

criterion_group!(benches, figures);
criterion_main!(benches);
