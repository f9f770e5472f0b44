//! Every reference piece against its figures from an independent modeller: see `tests/reference/README.md`.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::LazyLock;

use serde::Deserialize;
use skewline::design::{Design, Shop};
use skewline::figures::clean_up::shares_at;
use skewline::figures::hold::Vessel;
use skewline::figures::{Worked, work_out};
use skewline::geometry::{Axis, Plane, SECTION_TOLERANCE, mass, section};
use skewline::shelf::{Imported, read};

/// Promised for volumes and areas, as a share.
const SHARE: f64 = 0.001;
/// Promised for moments of inertia, as a share.
const INERTIA_SHARE: f64 = 0.002;
/// Promised for pitches on a table, in degrees.
const PITCH_DEG: f64 = 0.01;
/// Promised for lengths, in mm.
const LENGTH_MM: f64 = 0.02;

/// The figures of one piece in `values.json` or `random_values.json`.
#[derive(Deserialize)]
struct Values {
    /// Of a random piece; the others are saved designs.
    design: Option<Design>,
    volume_mm3: f64,
    cavity_mm3: f64,
    centroid_mm: [f64; 3],
    inertia_mm5: [[f64; 3]; 3],
    /// In even directions in the side view, from s toward y.
    reach_mm: Vec<f64>,
    poses: Vec<PoseValues>,
    states: Vec<StateValues>,
    clean_ups: Vec<CleanUpValues>,
    sections: Vec<SectionValues>,
    holds: Vec<HoldValues>,
    breakthrough: bool,
    wall_min_mm: Option<f64>,
    overrun_depth_mm: Option<f64>,
}

/// A pose on a table. The mesh states how far its own pitch and margin may be off.
#[derive(Deserialize)]
struct PoseValues {
    pitch_deg: f64,
    pitch_off_deg: f64,
    margin_mm: f64,
    margin_off_mm: f64,
}

impl PoseValues {
    fn is_at(&self, pitch_deg: f64) -> bool {
        let apart = (pitch_deg - self.pitch_deg + 180.0).rem_euclid(360.0) - 180.0;
        apart.abs() <= PITCH_DEG + self.pitch_off_deg
    }
}

/// The wood before one pass.
#[derive(Deserialize)]
struct StateValues {
    cut: usize,
    swing_mm: f64,
    volume_mm3: f64,
    centroid_mm: [f64; 3],
    inertia_mm5: [[f64; 3]; 3],
}

/// How one pass cleans up.
#[derive(Deserialize)]
struct CleanUpValues {
    cut: usize,
    /// At the station with the least share of wood that the mesh was looked at.
    least: ShareValues,
    stations: Vec<ShareValues>,
}

/// Shares of a pass's circle at one station.
#[derive(Deserialize)]
struct ShareValues {
    at_mm: f64,
    wood: f64,
    cut_earlier: f64,
    in_hollow: f64,
    /// The share too near to a surface to be told, by what the mesh may be off and curves are flattened.
    undecided: f64,
}

/// A liquid at one pitch.
#[derive(Deserialize)]
struct HoldValues {
    pitch_deg: f64,
    volume_mm3: f64,
}

/// A section square to axis A.
#[derive(Deserialize)]
struct SectionValues {
    station_mm: f64,
    area_mm2: f64,
    centroid_x_mm: f64,
    centroid_y_mm: f64,
}

/// What does not agree, in sentences.
#[derive(Default)]
struct Disagreements(Vec<String>);

impl Disagreements {
    fn compare(&mut self, what: &str, found: f64, wanted: f64, tolerance: f64) {
        if (found - wanted).abs() > tolerance || !found.is_finite() {
            self.0.push(format!("{what}: {found:.5}, reference {wanted:.5}, off by {:.5}", found - wanted));
        }
    }

    /// A product of inertia may be next to nothing: it is held to the greatest moment.
    fn compare_inertia(&mut self, what: &str, found: [[f64; 3]; 3], wanted: [[f64; 3]; 3]) {
        let greatest = wanted.as_flattened().iter().fold(0.0, |most: f64, term| most.max(term.abs()));
        for (i, row) in wanted.into_iter().enumerate() {
            for (j, term) in row.into_iter().enumerate() {
                let tolerance = INERTIA_SHARE * if i == j { term } else { greatest };
                self.compare(&format!("{what}, inertia {i}{j}"), found[i][j], term, tolerance);
            }
        }
    }

    fn none(self) {
        assert!(self.0.is_empty(), "{}", self.0.join("\n"));
    }
}

fn folder() -> &'static Path {
    Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/reference"))
}

fn design(name: &str) -> Design {
    let text = std::fs::read_to_string(folder().join("pieces").join(format!("{name}.json"))).unwrap();
    match read(&text).unwrap() {
        Imported::Design(saved) => saved.design,
        other => panic!("{name} holds no design: {other:?}"),
    }
}

/// The figures of every piece of a file, by its name.
fn stored(file: &str) -> BTreeMap<String, Values> {
    serde_json::from_str(&std::fs::read_to_string(folder().join(file)).unwrap()).unwrap()
}

/// A piece worked out, with its name and reference figures.
type Checked = (String, Worked, Values);

/// Every piece worked out once for all tests: the saved ones and the random ones.
fn pieces() -> &'static [Checked] {
    static PIECES: LazyLock<Vec<Checked>> = LazyLock::new(|| {
        let (saved, random) = (stored("values.json"), stored("random_values.json"));
        let count = std::fs::read_dir(folder().join("pieces")).unwrap().count();
        assert_eq!(saved.len(), count, "values.json and pieces/ do not hold the same pieces");
        assert!(saved.len() >= 8 && random.len() >= 50);
        let worked_out = |(name, mut values): (String, Values)| {
            let design = values.design.take().unwrap_or_else(|| design(&name));
            let worked = work_out(&design, &Shop::default()).unwrap();
            (name, worked, values)
        };
        saved.into_iter().chain(random).map(worked_out).collect()
    });
    &PIECES
}

#[test]
fn volumes_centroids_and_inertia_agree() {
    let mut found = Disagreements::default();
    for (name, worked, values) in pieces() {
        let mass = mass(&worked.piece.solid.finished());
        let volume = values.volume_mm3;
        found.compare(&format!("{name}, volume"), mass.volume_mm3, volume, SHARE * volume);
        let centroid = [mass.centroid.x, mass.centroid.y, mass.centroid.s];
        for (i, wanted) in values.centroid_mm.iter().copied().enumerate() {
            found.compare(&format!("{name}, centroid {}", ["x", "y", "s"][i]), centroid[i], wanted, LENGTH_MM);
        }
        found.compare_inertia(name, mass.inertia(), values.inertia_mm5);
    }
    found.none();
}

/// The hull that lies on the table: of its corners there are the poses.
#[test]
fn what_touches_the_table_agrees() {
    let mut found = Disagreements::default();
    for (name, worked, values) in pieces() {
        let count = values.reach_mm.len();
        assert!(count >= 12);
        for (i, wanted) in values.reach_mm.iter().copied().enumerate() {
            let (y, s) = (std::f64::consts::TAU * i as f64 / count as f64).sin_cos();
            let outline = &worked.figures.rest.outline;
            let reach = outline.iter().map(|p| p[0] * s + p[1] * y).fold(f64::NEG_INFINITY, f64::max);
            found.compare(&format!("{name}, reach {i} of {count}"), reach, wanted, LENGTH_MM);
        }
    }
    found.none();
}

/// Each pose of the mesh is one of Skewline's, and the other way round. A mesh cannot tell poses that hardly hold:
/// those that the centre of mass leaves by rising 0.01 mm, which have margins under 1.5 mm.
#[test]
fn poses_on_a_table_agree() {
    const HARDLY_MM: f64 = 1.5;
    let mut found = Disagreements::default();
    for (name, worked, values) in pieces() {
        let poses = &worked.figures.rest.poses;
        for wanted in &values.poses {
            if !poses.iter().any(|pose| wanted.is_at(pose.pitch_deg)) {
                found.0.push(format!("{name}: no pose at {:.4} within {:.4}", wanted.pitch_deg, wanted.pitch_off_deg));
            }
        }
        for pose in poses.iter().filter(|pose| pose.rocks || pose.margin_mm > HARDLY_MM) {
            if !values.poses.iter().any(|wanted| wanted.is_at(pose.pitch_deg)) {
                found.0.push(format!("{name}: the mesh has no pose like {pose:?}"));
            }
        }
    }
    found.none();
}

/// Of poses that both find. Two in three margins of the mesh are off by less than 0.1 mm.
#[test]
fn margins_on_a_table_agree() {
    let mut found = Disagreements::default();
    let mut sharp = 0;
    for (name, worked, values) in pieces() {
        for wanted in &values.poses {
            let Some(pose) = worked.figures.rest.poses.iter().find(|pose| wanted.is_at(pose.pitch_deg)) else {
                continue;
            };
            let what = format!("{name} at {:.3} degrees, margin", wanted.pitch_deg);
            found.compare(&what, pose.margin_mm, wanted.margin_mm, LENGTH_MM + wanted.margin_off_mm);
            sharp += usize::from(wanted.margin_off_mm < 0.1);
        }
    }
    assert!(sharp >= 140, "{sharp}");
    found.none();
}

#[test]
fn swings_agree() {
    let mut found = Disagreements::default();
    for (name, worked, values) in pieces() {
        for state in &values.states {
            let turning = worked.figures.turning.iter().find(|turning| turning.cut == state.cut).unwrap();
            let what = format!("{name}, swing before cut {}", state.cut + 1);
            found.compare(&what, turning.swing.radius_mm, state.swing_mm, LENGTH_MM);
        }
    }
    found.none();
}

/// What the balance of every pass is made of.
#[test]
fn masses_of_the_work_agree() {
    let mut found = Disagreements::default();
    for (name, worked, values) in pieces() {
        for state in &values.states {
            let mass = mass(&worked.piece.solid.state(state.cut));
            let what = |figure| format!("{name} before cut {}, {figure}", state.cut + 1);
            found.compare(&what("volume"), mass.volume_mm3, state.volume_mm3, SHARE * state.volume_mm3);
            let centroid = [mass.centroid.x, mass.centroid.y, mass.centroid.s];
            for (i, wanted) in state.centroid_mm.into_iter().enumerate() {
                found.compare(&what(["centroid x", "centroid y", "centroid s"][i]), centroid[i], wanted, LENGTH_MM);
            }
            found.compare_inertia(&what("mass"), mass.inertia(), state.inertia_mm5);
        }
    }
    found.none();
}

/// The shares of circles at ten stations of every pass and at the lowest of many more; and the least share of the pass, which
/// is no more than that and, but for what the mesh's stations pass over, no less.
#[test]
fn clean_ups_agree() {
    const ROUNDING: f64 = 1e-4;
    const PROVEN: f64 = 0.001;
    const PASSED_OVER: f64 = 0.005;
    let mut found = Disagreements::default();
    let mut passes = 0;
    for (name, worked, values) in pieces() {
        for wanted in &values.clean_ups {
            let clean_up = worked.figures.clean_ups.iter().find(|clean_up| clean_up.cut == wanted.cut).unwrap();
            for at in wanted.stations.iter().chain([&wanted.least]) {
                let shares = shares_at(&worked.piece, wanted.cut, at.at_mm).unwrap();
                let named = [("wood", at.wood), ("cut earlier", at.cut_earlier), ("in a hollow", at.in_hollow)];
                for ((what, reference), share) in named.into_iter().zip(shares) {
                    let what = format!("{name}, cut {} at {}, share {what}", wanted.cut + 1, at.at_mm);
                    found.compare(&what, share, reference, at.undecided + ROUNDING);
                }
            }
            let (least, off) = (clean_up.least_share, wanted.least.undecided + ROUNDING);
            if !(wanted.least.wood - off - PASSED_OVER..=wanted.least.wood + off + PROVEN).contains(&least) {
                found.0.push(format!(
                    "{name}, cut {}: least share {least}, reference {}",
                    wanted.cut + 1,
                    wanted.least.wood
                ));
            }
            passes += 1;
        }
    }
    assert!(passes > 100);
    found.none();
}

/// Liquid at even pitches, in all pools together.
#[test]
fn liquid_agrees() {
    let mut found = Disagreements::default();
    for (name, worked, values) in pieces().iter().filter(|(.., values)| !values.holds.is_empty()) {
        let vessel = Vessel::new(&worked.piece.solid).unwrap();
        let tolerance = SHARE * values.cavity_mm3;
        found.compare(&format!("{name}, cavity"), vessel.cavity_mm3(), values.cavity_mm3, tolerance);
        for wanted in &values.holds {
            let volume = vessel.hold(wanted.pitch_deg.to_radians(), 0.0).volume_mm3;
            found.compare(&format!("{name} pitched {}, hold", wanted.pitch_deg), volume, wanted.volume_mm3, tolerance);
        }
    }
    found.none();
}

#[test]
fn sections_agree() {
    let mut found = Disagreements::default();
    for (name, worked, values) in pieces() {
        assert!(values.sections.len() >= 4 || name.starts_with("Random"));
        for wanted in &values.sections {
            let plane = Plane::square_to(&Axis::A, wanted.station_mm);
            let moments = section(&worked.piece.solid.finished(), &plane, SECTION_TOLERANCE).moments();
            let what = |figure| format!("{name} at {}, {figure}", wanted.station_mm);
            found.compare(&what("area"), moments.area_mm2, wanted.area_mm2, SHARE * wanted.area_mm2);
            found.compare(&what("centroid x"), moments.centroid[0], wanted.centroid_x_mm, LENGTH_MM);
            found.compare(&what("centroid y"), moments.centroid[1], wanted.centroid_y_mm, LENGTH_MM);
        }
    }
    found.none();
}

#[test]
fn least_walls_and_breakthroughs_agree() {
    let mut found = Disagreements::default();
    let mut broken = 0;
    for (name, worked, values) in pieces() {
        let walls = &worked.figures.walls;
        if walls.is_empty() {
            continue;
        }
        let least = walls.iter().filter_map(|w| w.least).map(|w| w.wall_mm).fold(f64::INFINITY, f64::min);
        let wanted = match (values.breakthrough, values.wall_min_mm, values.overrun_depth_mm) {
            (false, Some(wall), None) => wall,
            (true, None, Some(depth)) => -depth,
            _ => panic!("{name}: a wall or a breakthrough, one of the two"),
        };
        found.compare(&format!("{name}, least wall"), least, wanted, LENGTH_MM);
        assert_eq!(walls.iter().any(|w| !w.breakthroughs.is_empty()), values.breakthrough, "{name}");
        broken += usize::from(values.breakthrough);
    }
    assert!(broken >= 1);
    found.none();
}
