//! The surface of a hollow as a sheet: along its outline from the mouth, and around its axis.

use std::f64::consts::TAU;

use super::{WallMap, WallPoint, limiting_cut};
use crate::figures::Place;
use crate::geometry::{Intervals, Ray, Region, Removal, Revolved, Role, Solid, Vector};

/// Rows of the field, evenly along the outline.
pub(super) const ROWS: usize = 32;
/// Columns of the field, evenly around the axis.
pub(super) const COLUMNS: usize = 48;

/// A surface kept less far before the mouth than this, in mm, is not looked at.
const LEAST_REACH: f64 = 0.005;

/// A point counts as inside another hollow when it is this deep in it, in mm: surfaces that touch are kept.
const INSIDE: f64 = 1e-6;

/// The surface of one hollow of a piece.
pub(super) struct HollowSurface<'a> {
    pub(super) solid: &'a Solid,
    pub(super) hollow: &'a Revolved,
    openings: Vec<&'a Removal>,
    others: Vec<&'a Revolved>,
    outline: Vec<OutlinePoint>,
    mirrored: bool,
}

/// A corner of the hollow's outline.
#[derive(Clone, Copy)]
struct OutlinePoint {
    along: f64,
    t: f64,
    r: f64,
}

/// One point of the field.
#[derive(Clone, Copy)]
pub(super) struct FieldPoint {
    pub(super) along: f64,
    pub(super) clock: f64,
    pub(super) point: Vector,
    /// `None` where the surface is not kept.
    pub(super) wall: Option<f64>,
}

/// The field: `rows[i][j]` is row i, column j.
pub(super) type Field = Vec<Vec<FieldPoint>>;

impl<'a> HollowSurface<'a> {
    pub(super) fn new(solid: &'a Solid, hollow: &'a Revolved, cut: usize) -> Self {
        let others = solid.with_role(Role::Inside).filter(|r| r.cut != cut).filter_map(|r| match &r.region {
            Region::Revolved(revolved) => Some(revolved),
            Region::Sawn(_) | Region::HalfSpace(_) => None,
        });
        Self {
            solid,
            hollow,
            openings: solid.with_role(Role::Opening).collect(),
            others: others.collect(),
            outline: outline(hollow),
            mirrored: solid.is_mirrored(),
        }
    }

    /// The columns from which the sheet is known all around: one half of them where the other is its mirror image.
    pub(super) fn columns(&self) -> usize {
        if self.mirrored { COLUMNS / 2 + 1 } else { COLUMNS }
    }

    /// The surface outward of the mouth, where the hollow goes on at its first radius, as a sheet of its own; `None`
    /// where nothing of it is kept within the stock.
    pub(super) fn before_mouth(&self) -> Option<Self> {
        let (mouth, radius) = self.hollow.meridian.points()[0];
        let clocks = (0..self.columns()).map(column_clock);
        let reach = clocks.map(|clock| self.kept_before_mouth(mouth, radius, clock)).fold(0.0, f64::max);
        if reach < LEAST_REACH {
            return None;
        }
        let ends = [(mouth - reach, 0.0), (mouth, reach)];
        Some(Self {
            solid: self.solid,
            hollow: self.hollow,
            openings: self.openings.clone(),
            others: self.others.clone(),
            outline: ends.map(|(t, along)| OutlinePoint { along, t, r: radius }).to_vec(),
            mirrored: self.mirrored,
        })
    }

    /// How far outward of the mouth the surface is kept within the stock, in one clock direction, in mm.
    fn kept_before_mouth(&self, mouth: f64, radius: f64, clock: f64) -> f64 {
        let ray = Ray { start: self.hollow.axis.point(mouth, radius, clock), direction: -self.hollow.axis.along() };
        let mut kept = self.solid.stock.along(ray).intersection(&Intervals::one(0.0, f64::INFINITY));
        for opening in &self.openings {
            kept = kept.minus(&opening.region.along(ray));
        }
        for other in &self.others {
            kept = kept.minus(&other.along(ray));
        }
        kept.last_end().unwrap_or(0.0)
    }

    /// Length of the outline from the mouth to the axis, in mm.
    pub(super) fn length(&self) -> f64 {
        self.outline.last().map_or(0.0, |p| p.along)
    }

    /// Station and radius at a distance along the outline.
    pub(super) fn outline_at(&self, along: f64) -> (f64, f64) {
        let next = self.outline.partition_point(|p| p.along < along).clamp(1, self.outline.len() - 1);
        let (a, b) = (self.outline[next - 1], self.outline[next]);
        let part = if b.along > a.along { ((along - a.along) / (b.along - a.along)).clamp(0.0, 1.0) } else { 0.0 };
        (a.t + (b.t - a.t) * part, a.r + (b.r - a.r) * part)
    }

    /// The point at a distance along the outline and a clock direction, in radians.
    pub(super) fn point(&self, along: f64, clock: f64) -> Vector {
        let (t, r) = self.outline_at(along);
        self.hollow.axis.point(t, r, clock)
    }

    /// Whether a point of the surface is kept: at or past the bowl-end face, under every saw, in no other hollow.
    pub(super) fn keeps(&self, point: Vector) -> bool {
        point.s >= -1e-9
            && !self.openings.iter().any(|o| o.region.contains(point))
            && !self.others.iter().any(|o| o.signed_distance(point) < -INSIDE)
    }

    /// The saws and facings of the piece.
    pub(super) fn openings(&self) -> &[&'a Removal] {
        &self.openings
    }

    /// A point of the sheet whose wall is below a limit, and that wall, in mm; `None` where it is not below, or the point
    /// is not kept or off the sheet.
    pub(super) fn thinner(&self, along: f64, clock: f64, limit_mm: f64) -> Option<(f64, Vector)> {
        if !(0.0..=self.length()).contains(&along) {
            return None;
        }
        let point = self.point(along, clock);
        let wall_mm = self.solid.to_outside_below(point, limit_mm)?.distance;
        self.keeps(point).then_some((wall_mm, point))
    }

    /// The wall at any point.
    pub(super) fn wall_at(&self, point: Vector) -> WallPoint {
        let outside = self.solid.to_outside(point);
        WallPoint {
            wall_mm: outside.distance,
            place: Place::of(point),
            limited_by_cut: limiting_cut(outside.limit),
            point,
        }
    }

    /// The field of walls.
    pub(super) fn field(&self) -> Field {
        let directions = self.hollow.axis.directions(COLUMNS);
        let row = |i: usize| {
            let along = self.length() * i as f64 / (ROWS - 1) as f64;
            let (t, r) = self.outline_at(along);
            let point = |j: usize| self.hollow.axis.point_toward(t, r, directions[j]);
            let wall = |point| self.keeps(point).then(|| self.solid.to_outside(point).distance);
            let measured: Vec<_> = (0..self.columns()).map(|j| wall(point(j))).collect();
            let column = |j| FieldPoint {
                along,
                clock: column_clock(j),
                point: point(j),
                wall: measured.get(j).copied().unwrap_or_else(|| measured[COLUMNS - j]),
            };
            (0..COLUMNS).map(column).collect()
        };
        (0..ROWS).map(row).collect()
    }

    /// The field as reported.
    pub(super) fn map(&self, field: &Field) -> WallMap {
        let along_mm: Vec<f64> = field.iter().map(|row| row[0].along).collect();
        WallMap {
            station_mm: along_mm.iter().map(|along| self.outline_at(*along).0).collect(),
            along_mm,
            clock_deg: (0..COLUMNS).map(|j| column_clock(j).to_degrees()).collect(),
            wall_mm: field.iter().map(|row| row.iter().map(|p| p.wall).collect()).collect(),
        }
    }
}

/// Clock direction of a column, in radians.
pub(super) fn column_clock(column: usize) -> f64 {
    TAU * column as f64 / COLUMNS as f64
}

/// The outline from the mouth to the axis, end face included.
fn outline(hollow: &Revolved) -> Vec<OutlinePoint> {
    let chain = hollow.meridian.points();
    let end = (hollow.meridian.end(), 0.0);
    let mut points: Vec<OutlinePoint> = Vec::with_capacity(chain.len() + 1);
    for (t, r) in chain.iter().copied().chain([end]) {
        let along = points.last().map_or(0.0, |p| p.along + (t - p.t).hypot(r - p.r));
        points.push(OutlinePoint { along, t, r });
    }
    points
}
