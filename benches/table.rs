//! How long figures take: a table of pieces from easy to hard, of random ones, and of how the time grows.
//!
//!     cargo bench --bench table              all tables
//!     cargo bench --bench table -- PART      pieces, heaviest, random or growth
//!     cargo bench --bench table -- =NAME     the pieces with this in their names
//!     cargo bench --bench table -- meshes    volume, section and least wall, as JSON: tests/reference/side_by_side.py
#![allow(missing_docs, reason = "a bench is a program of its own")]
#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a bench may stop at once, and prints")]

use std::hint::black_box;
use std::time::Instant;

use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::TestRunner;
use skewline::design::{Design, Shop};
use skewline::figures::wall::least_wall_mm;
use skewline::figures::{shape, work_out};
use skewline::geometry::{Axis, Plane, SECTION_TOLERANCE, mass, section};
use skewline::piece::Piece;

#[path = "../tests/support/mod.rs"]
mod support;
use support::speed::Timed;
use support::{arbitrary, heavy, speed};

/// How long one thing is repeated, in ms, and how often at least and at most.
const REPEATED_MS: f64 = 400.0;
const TIMES: (usize, usize) = (3, 200);
/// What takes longer than this, in ms, is timed once.
const LONG_MS: f64 = 1000.0;
/// How many random pieces are timed.
const RANDOM: usize = 200;
/// Where the one section is taken, in mm from the bowl end.
const STATION_MM: f64 = 30.0;

/// How long something takes, in ms.
struct Took {
    /// The median.
    wall_ms: f64,
    /// What all threads had of the processors, the mean; 0 where the system does not say. Steadier on a busy machine.
    processor_ms: f64,
}

fn time<T>(mut work: impl FnMut() -> T) -> Took {
    let mut once = || {
        let began = Instant::now();
        black_box(work());
        began.elapsed().as_secs_f64() * 1e3
    };
    let before = processor_ms();
    let first = once();
    let count = if first > LONG_MS { 0 } else { ((REPEATED_MS / first) as usize).clamp(TIMES.0, TIMES.1) };
    let mut all = vec![first];
    all.extend((0..count).map(|_| once()));
    all.sort_by(f64::total_cmp);
    Took { wall_ms: all[all.len() / 2], processor_ms: (processor_ms() - before) / all.len() as f64 }
}

/// What this program has had of the processors so far, in ms, to 10.
fn processor_ms() -> f64 {
    let text = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    // After the name, which may hold spaces: times in the 12th and 13th place, in hundredths of a second.
    let after = text.rsplit_once(')').map_or("", |(_, after)| after);
    after.split_whitespace().skip(11).take(2).filter_map(|ticks| ticks.parse::<f64>().ok()).sum::<f64>() * 10.0
}

fn median_ms<T>(work: impl FnMut() -> T) -> f64 {
    time(work).wall_ms
}

fn all(design: &Design) -> Took {
    let shop = Shop::default();
    time(|| work_out(black_box(design), &shop).map(|worked| worked.checks.len()))
}

fn table(pieces: Vec<Timed>) {
    println!("\n| piece | shape, ms | all, ms | shape, of a processor | all, of both |\n|---|---|---|---|---|");
    let shop = Shop::default();
    for piece in pieces {
        assert!(piece.design.problems().is_empty(), "{}: {:?}", piece.name, piece.design.problems());
        let shape = time(|| shape(black_box(&piece.design), &shop).map(|shape| shape.walls.len()));
        let all = all(&piece.design);
        println!(
            "| {} | {:.2} | {:.1} | {:.2} | {:.1} |",
            piece.name, shape.wall_ms, all.wall_ms, shape.processor_ms, all.processor_ms
        );
    }
}

/// Random pieces that have figures, each timed once: the median and the worst.
fn random() {
    let (mut runner, shop) = (TestRunner::deterministic(), Shop::default());
    let mut all: Vec<(f64, usize)> = Vec::new();
    for number in 0.. {
        let design = arbitrary::design().new_tree(&mut runner).unwrap().current();
        let began = Instant::now();
        if work_out(&design, &shop).is_ok() {
            all.push((began.elapsed().as_secs_f64() * 1e3, number));
        }
        if all.len() == RANDOM {
            break;
        }
    }
    all.sort_by(|a, b| a.0.total_cmp(&b.0));
    println!("\n| piece | all, ms |\n|---|---|");
    println!("| {RANDOM} random pieces, median | {:.1} |", all[RANDOM / 2].0);
    for (ms, number) in all[RANDOM - 5..].iter().rev() {
        println!("| random piece {number}, of the five worst | {ms:.1} |");
    }
}

/// How the time of all figures grows with one number; a power of 1 is linear.
fn growth(what: &str, counts: &[usize], design: impl Fn(usize) -> Design) {
    println!("\n| {what} | all, ms | power |\n|---|---|---|");
    let mut before: Option<(usize, f64)> = None;
    for &count in counts {
        let ms = all(&design(count)).wall_ms;
        let power = before.map_or(String::new(), |(fewer, less)| {
            format!("{:.1}", (ms / less).ln() / (count as f64 / fewer as f64).ln())
        });
        println!("| {count} | {ms:.1} | {power} |");
        before = Some((count, ms));
    }
}

/// Volume, section and least wall of the pieces that a mesh kernel can build too, as one JSON object.
fn beside_meshes() {
    let limits = Shop::default().limits;
    let rows = speed::pieces().into_iter().filter_map(|timed| Some((timed.reference?, timed))).map(|(name, timed)| {
        let resolve = || Piece::resolve(black_box(&timed.design), &limits).unwrap();
        let piece = resolve();
        let plane = Plane::square_to(&Axis::A, STATION_MM);
        let volume = || mass(&black_box(&piece).solid.finished()).volume_mm3;
        let area = || section(&black_box(&piece).solid.finished(), &plane, SECTION_TOLERANCE).moments().area_mm2;
        let wall = || least_wall_mm(&black_box(&piece).solid);
        let row = serde_json::json!({
            "name": timed.name,
            "station_mm": STATION_MM,
            "piece_ms": median_ms(resolve),
            "volume_ms": median_ms(volume),
            "section_ms": median_ms(area),
            "wall_ms": median_ms(wall),
            "volume_mm3": volume(),
            "area_mm2": area(),
            "wall_mm": wall(),
        });
        (name.to_owned(), row)
    });
    println!("{}", serde_json::Value::Object(rows.collect()));
}

fn main() {
    let asked: Vec<String> = std::env::args().skip(1).filter(|it| it != "--bench").collect();
    if let Some(name) = asked.iter().find_map(|it| it.strip_prefix('=')) {
        let all = speed::pieces().into_iter().chain(speed::heaviest());
        return table(all.filter(|piece| piece.name.contains(name)).collect());
    }
    let is_asked = |part: &str| asked.is_empty() || asked.iter().any(|it| it == part);
    if asked.iter().any(|it| it == "meshes") {
        return beside_meshes();
    }
    if is_asked("pieces") {
        table(speed::pieces());
    }
    if is_asked("heaviest") {
        table(speed::heaviest());
    }
    if is_asked("random") {
        random();
    }
    if is_asked("growth") {
        growth("passes of 5 nodes on 3 axes", &[3, 6, 12, 24, 48], |count| heavy::passes(count, 5, 3));
        growth("axes, for 12 passes of 5 nodes", &[1, 2, 4, 8, 12], |count| heavy::passes(12, 5, count));
        growth("nodes of each of 6 passes on 3 axes", &[5, 10, 20, 40, 80, 160], |count| heavy::passes(6, count, 3));
        growth("hollows across", &[2, 4, 8, 16, 32], heavy::hollows);
    }
}
