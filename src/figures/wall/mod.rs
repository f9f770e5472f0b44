//! Figure 4: the wall, its least place and its whole map; breakthroughs; the floor; what the openings reach.
//!
//! The wall at a point of the hollow's kept surface is the nearest distance from there to the outside: not along the
//! radius, and not along the normal.

mod breakthrough;
mod floor;
mod least;
mod opening;
mod point;
mod sheet;

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

pub use breakthrough::Breakthrough;
pub use floor::Floor;
pub use opening::OpeningReach;
pub use point::{WallMap, WallPoint};

use crate::geometry::line::order::sort_by_number;
use crate::geometry::surface::HollowSurface;
use crate::geometry::{Pace, Solid, Vector, at_once};
use crate::piece::Piece;
use sheet::{Field, WallSheet};

/// The wall of one hollow.
#[derive(Clone, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Wall {
    /// The hollow, by its place in working order from 0.
    pub cut: usize,
    /// The thinnest wall; `None` when nothing of the hollow is kept.
    pub least: Option<WallPoint>,
    /// Places where the outside comes through, the deepest first. A hole across the mouth counts on either side of it.
    pub breakthroughs: Vec<Breakthrough>,
    /// The floor; `None` when nothing of it is kept.
    pub floor: Option<Floor>,
    /// Whether other hollows take all of the hollow's end, so that theirs are the floors.
    #[serde(skip)]
    pub has_end_taken: bool,
    /// The sharpest angle of wood between a saw cut and the hollow, in degrees, where a saw opens it.
    pub rim_edge_deg: Option<f64>,
    /// What each saw and facing does to this hollow.
    pub openings: Vec<OpeningReach>,
    /// The whole field.
    pub map: WallMap,
}

/// The walls of every hollow. Least walls and floors within 0.02 mm, but for slivers of a hollow narrower than 0.001 mm; of
/// hollows nearer than 0.002 mm to each other the surface of the first counts.
///
/// A hollow that shares a part of its surface with one before it leaves that part to the first; one of which other hollows
/// take all has no least wall.
///
/// `deepest_point` gives, for a hollow by its cut, how far from the mouth the point of a boring bit reaches, in mm.
#[must_use]
pub fn walls(piece: &Piece, deepest_point: impl Fn(usize) -> Option<f64>) -> Vec<Wall> {
    at_once(walls_in_slices(piece, deepest_point, &Pace::unbroken()))
}

/// As [`walls`], in slices.
pub async fn walls_in_slices(piece: &Piece, deepest_point: impl Fn(usize) -> Option<f64>, pace: &Pace) -> Vec<Wall> {
    let mut walls = Vec::new();
    let surfaces = HollowSurface::all(&piece.solid);
    for (done, surface) in surfaces.iter().enumerate() {
        pace.tell(done, surfaces.len());
        walls.push(wall(surface, deepest_point(surface.cut), pace).await);
    }
    walls
}

async fn wall(surface: &HollowSurface<'_>, deepest_point: Option<f64>, pace: &Pace) -> Wall {
    let sheet = WallSheet::profile(surface);
    let field = sheet.field(pace).await;
    let (mut least, mut breakthroughs) = thin_and_broken(&sheet, &field, pace).await;
    if let Some(before) = sheet.before_profile() {
        let (thinner, more) = thin_and_broken(&before, &before.field(pace).await, pace).await;
        least = least.into_iter().chain(thinner).min_by(|a, b| a.wall_mm.total_cmp(&b.wall_mm));
        breakthroughs.extend(more);
        sort_by_number(&mut breakthroughs, |it| it.deepest.wall_mm);
    }
    let floor = floor::floor(&sheet, deepest_point, pace).await;
    Wall {
        cut: surface.cut,
        breakthroughs,
        floor,
        has_end_taken: floor.is_none() && floor::is_taken_by_hollows(&sheet),
        rim_edge_deg: opening::rim_edge_deg(&sheet, &field, pace).await,
        openings: opening::reaches(&sheet, &field, pace).await,
        map: sheet.map(&field),
        least,
    }
}

/// A point in every hole of the walls, on the surface of the hollow.
#[must_use]
pub fn holes(walls: &[Wall]) -> Vec<Vector> {
    walls.iter().flat_map(|wall| &wall.breakthroughs).map(|hole| hole.deepest.point).collect()
}

/// The least wall over every hollow, in mm, and nothing else: within 0.02 mm. `None` when nothing of a hollow is kept.
#[must_use]
pub fn least_wall_mm(solid: &Solid) -> Option<f64> {
    at_once(least_wall_mm_in_slices(solid, &Pace::unbroken()))
}

/// As [`least_wall_mm`], in slices.
pub async fn least_wall_mm_in_slices(solid: &Solid, pace: &Pace) -> Option<f64> {
    let mut thinnest: Option<f64> = None;
    for surface in &HollowSurface::all(solid) {
        let sheet = WallSheet::profile(surface);
        let before = sheet.before_profile();
        for sheet in [Some(sheet), before].into_iter().flatten() {
            let found = least::least(&sheet, &sheet.field(pace).await, pace).await;
            let both = thinnest.into_iter().chain(found.least.map(|found| found.wall_mm));
            thinnest = both.reduce(f64::min);
        }
    }
    thinnest
}

/// The wall at even places over every hollow, in mm, always as many for the same hollows; `None` where nothing is kept.
#[must_use]
pub fn wall_samples(solid: &Solid) -> Vec<Option<f64>> {
    at_once(wall_samples_in_slices(solid, &Pace::unbroken()))
}

/// As [`wall_samples`], in slices.
pub async fn wall_samples_in_slices(solid: &Solid, pace: &Pace) -> Vec<Option<f64>> {
    let mut samples = Vec::new();
    for surface in &HollowSurface::all(solid) {
        for row in WallSheet::profile(surface).field(pace).await {
            samples.extend(row.iter().map(|point| point.wall));
        }
    }
    samples
}

/// The thinnest wall of a sheet, and where it is broken through.
async fn thin_and_broken(
    sheet: &WallSheet<'_, '_>,
    field: &Field,
    pace: &Pace,
) -> (Option<WallPoint>, Vec<Breakthrough>) {
    let least::Found { least, holes } = least::least(sheet, field, pace).await;
    let breakthroughs = breakthrough::find(sheet, &holes, least.as_ref(), pace).await;
    (least, breakthroughs)
}
