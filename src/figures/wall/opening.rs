//! What saws and facings do to a hollow.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

use super::sheet::{COLUMNS, Field, FieldPoint, ROWS, WallSheet};
use crate::figures::Place;
use crate::geometry::surface::Spot;
use crate::geometry::surface::{Ending, SheetPoint, Taker};
use crate::geometry::{Pace, Region, Removal, Vector};

/// Whether a saw or a facing reaches the hollow.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct OpeningReach {
    /// The saw or facing, by its place in working order from 0.
    pub cut: usize,
    /// How deep it goes into the hollow at most, in mm; negative when it misses, by that much.
    pub depth_mm: f64,
    /// Where it comes deepest, or nearest.
    pub place: Place,
}

/// What each saw and facing does to the hollow, judged on the points of the field.
pub(super) async fn reaches(sheet: &WallSheet<'_, '_>, field: &Field, pace: &Pace) -> Vec<OpeningReach> {
    let mut reaches = Vec::new();
    for opening in sheet.openings() {
        let deepest = deepest(sheet, &opening.region, field);
        let reach = |(depth_mm, point)| OpeningReach { cut: opening.cut, depth_mm, place: Place::of(point) };
        reaches.extend(deepest.map(reach));
        pace.pause().await;
    }
    reaches
}

/// The deepest point of the field in a region, or the nearest to it.
fn deepest(sheet: &WallSheet<'_, '_>, region: &Region, field: &Field) -> Option<(f64, Vector)> {
    let mut deepest: Option<(f64, Vector)> = None;
    let mut last: Option<(f64, Vector)> = None;
    let points = field.iter().flat_map(|row| &row[..sheet.columns()]).map(|p| p.point);
    for point in points.filter(|p| p.s >= 0.0) {
        // The depth changes by no more than the way from the point measured last.
        let at_most = last.map_or(f64::INFINITY, |(depth, from)| depth + (point - from).length());
        if deepest.is_some_and(|best| at_most <= best.0) {
            continue;
        }
        let depth = -region.signed_distance(point);
        last = Some((depth, point));
        if deepest.is_none_or(|best| depth >= best.0) {
            deepest = last;
        }
    }
    deepest
}

/// The sharpest angle of wood between a saw cut and the hollow's surface, in degrees, along the rim.
pub(super) async fn rim_edge_deg(sheet: &WallSheet<'_, '_>, field: &Field, pace: &Pace) -> Option<f64> {
    let mut least: Option<f64> = None;
    for saw in sheet.openings().filter(|opening| matches!(opening.region, Region::Sawn(_))) {
        let angle = sharpest(sheet, saw, field);
        least = least.into_iter().chain(angle).reduce(f64::min);
        pace.pause().await;
    }
    least
}

/// The sharpest angle along the rim that one saw cuts. Of mirror images, one side is looked at.
fn sharpest(sheet: &WallSheet<'_, '_>, saw: &Removal, field: &Field) -> Option<f64> {
    let columns = sheet.columns();
    let row = |row: &Vec<FieldPoint>| (0..=columns).map(|j| saw.region.contains(row[j % COLUMNS].point)).collect();
    let sawn: Vec<Vec<bool>> = field.iter().map(row).collect();
    let mut sharpest: Option<f64> = None;
    for i in 0..ROWS - 1 {
        for j in 0..columns {
            let here = Spot::new(field[i][j].u, field[i][j].clock);
            let (u, clock) = (field[i + 1][j].u, here.clock + std::f64::consts::TAU / COLUMNS as f64);
            for ((a, b), other) in [((i, j + 1), Spot { clock, ..here }), ((i + 1, j), Spot { u, ..here })] {
                if sawn[i][j] == sawn[a][b] {
                    continue;
                }
                let (kept, taken) = if sawn[i][j] { (other, here) } else { (here, other) };
                let angle = rim_angle_deg(sheet, saw, kept, taken);
                sharpest = sharpest.into_iter().chain(angle).reduce(f64::min);
            }
        }
    }
    sharpest
}

/// The angle of wood where a saw's rim passes between two places; `None` where something else has taken the rim.
fn rim_angle_deg(sheet: &WallSheet<'_, '_>, saw: &Removal, kept: Spot, taken: Spot) -> Option<f64> {
    let surface = sheet.surface;
    let is_saw = |ending: &&Ending<'_>| ending.taker == Taker::Opening(saw.cut);
    let ending = surface.endings().iter().find(is_saw)?;
    let rim = surface.rim_between(kept, taken, |at: &SheetPoint| ending.clearance(at));
    let at = surface.sheet.see(rim);
    let others = surface.endings().iter().filter(|ending| !ending.is_outside() && !is_saw(ending));
    if others.into_iter().any(|other| other.clearance(&at) <= 0.0) {
        return None;
    }
    edge_angle_deg(sheet, &saw.region, at.point)
}

/// The angle of wood at a rim point: a right angle and what the two surfaces' normals lean toward each other.
fn edge_angle_deg(sheet: &WallSheet<'_, '_>, saw: &Region, rim: Vector) -> Option<f64> {
    let saw_normal = gradient(|p| -saw.signed_distance(p), rim)?;
    let hollow_normal = gradient(|p| -sheet.surface.sheet.hollow().signed_distance(p), rim)?;
    // Both point out of the wood; the wood's own angle is what is left of half a turn.
    Some(180.0 - saw_normal.dot(hollow_normal).clamp(-1.0, 1.0).acos().to_degrees())
}

/// The direction in which a value grows fastest.
fn gradient(value: impl Fn(Vector) -> f64, at: Vector) -> Option<Vector> {
    const STEP: f64 = 1e-4;
    let slope = |d: Vector| value(at + d * STEP) - value(at - d * STEP);
    Vector::new(slope(Vector::new(1.0, 0.0, 0.0)), slope(Vector::new(0.0, 1.0, 0.0)), slope(Vector::new(0.0, 0.0, 1.0)))
        .unit()
}
