//! A hollow's surface as a field of even points: along its outline from the mouth, and around its axis.

use std::f64::consts::TAU;

use super::point::{WallMap, WallPoint, limiting_cut};
use crate::figures::Place;
use crate::geometry::surface::Spot;
use crate::geometry::surface::{HollowSurface, Patch, Start};
use crate::geometry::{Fill, Intervals, Pace, Ray, Removal, Role, Vector};

/// Rows of the field, evenly along the outline.
pub(super) const ROWS: usize = 32;
/// Columns of the field, evenly around the axis.
pub(super) const COLUMNS: usize = 48;

/// A surface kept less far before the mouth than this, in mm, is not looked at.
const LEAST_REACH: f64 = 0.005;
/// The surface before the mouth is looked at this much farther out than it was seen to be kept, in mm.
const FARTHER: f64 = 0.5;

/// A stretch of the surface of one hollow.
pub(super) struct WallSheet<'a, 'b> {
    pub(super) surface: &'b HollowSurface<'a>,
    /// From and to along the meridian, in mm.
    pub(super) stretch: (f64, f64),
    mirrored: bool,
}

/// One point of the field.
#[derive(Clone, Copy)]
pub(super) struct FieldPoint {
    /// Length along the meridian, in mm.
    pub(super) u: f64,
    pub(super) clock: f64,
    pub(super) point: Vector,
    /// `None` where the surface is not kept.
    pub(super) wall: Option<f64>,
}

/// The field: `rows[i][j]` is row i, column j.
pub(super) type Field = Vec<Vec<FieldPoint>>;

impl<'a, 'b> WallSheet<'a, 'b> {
    /// The profile and the end face.
    pub(super) fn profile(surface: &'b HollowSurface<'a>) -> Self {
        let stretch = (surface.sheet.profile_from(), surface.sheet.length());
        Self { surface, stretch, mirrored: surface.solid.is_mirrored() }
    }

    /// The end face.
    pub(super) fn end_face(&self) -> Self {
        let sheet = &self.surface.sheet;
        Self { stretch: (sheet.disc_from(), sheet.length()), ..*self }
    }

    /// The surface before the profile: outward of an open mouth, where the hollow goes on at its first radius, or the first
    /// end face; `None` where nothing of it is kept within the stock.
    pub(super) fn before_profile(&self) -> Option<Self> {
        let sheet = &self.surface.sheet;
        let reach = match sheet.hollow().fill {
            Fill::WithinOpen => {
                (0..self.columns()).map(|j| self.kept_before_mouth(column_clock(j))).fold(0.0, f64::max)
            }
            Fill::Within | Fill::Beyond => sheet.profile_from(),
        };
        let from = (sheet.profile_from() - reach - FARTHER).max(0.0);
        (reach >= LEAST_REACH).then(|| Self { stretch: (from, sheet.profile_from()), ..*self })
    }

    /// How far outward of the mouth openings leave the surface within the stock, in one clock direction, in mm.
    fn kept_before_mouth(&self, clock: f64) -> f64 {
        let (sheet, solid) = (&self.surface.sheet, self.surface.solid);
        let ray =
            Ray { start: sheet.point(Spot::new(sheet.profile_from(), clock)), direction: -sheet.hollow().axis.along() };
        let mut kept = solid.stock.along(ray).intersection(&Intervals::one(0.0, f64::INFINITY));
        for opening in self.openings() {
            kept = kept.minus(&opening.region.along(ray));
        }
        kept.last_end().unwrap_or(0.0)
    }

    /// The columns from which the sheet is known all around: one half of them where the other is its mirror image.
    pub(super) fn columns(&self) -> usize {
        if self.mirrored { COLUMNS / 2 + 1 } else { COLUMNS }
    }

    /// The distance between rows, in mm.
    pub(super) fn row_height(&self) -> f64 {
        (self.stretch.1 - self.stretch.0) / (ROWS - 1) as f64
    }

    /// The wall at any point.
    pub(super) fn wall_at(&self, point: Vector) -> WallPoint {
        let outside = self.surface.solid.to_outside(point);
        WallPoint {
            wall_mm: outside.distance,
            place: Place::of(point),
            limited_by_cut: limiting_cut(outside.limit),
            point,
        }
    }

    /// The field of walls.
    pub(super) async fn field(&self, pace: &Pace) -> Field {
        let (surface, sheet) = (self.surface, &self.surface.sheet);
        let directions = sheet.hollow().axis.directions(COLUMNS);
        let row = |i: usize| {
            let u = self.stretch.0 + (self.stretch.1 - self.stretch.0) * i as f64 / (ROWS - 1) as f64;
            let mut row: Vec<FieldPoint> = Vec::with_capacity(COLUMNS);
            for (j, toward) in directions.iter().enumerate() {
                let at = sheet.see_toward(Spot::new(u, column_clock(j)), *toward);
                let wall = match j < self.columns() {
                    true if surface.keeps_within(&at) => Some(surface.solid.to_outside(at.point).distance),
                    true => None,
                    false => row[COLUMNS - j].wall,
                };
                row.push(FieldPoint { u, clock: at.place.clock, point: at.point, wall });
            }
            row
        };
        let mut field = Vec::with_capacity(ROWS);
        for i in 0..ROWS {
            field.push(row(i));
            pace.pause().await;
        }
        field
    }

    /// The patches around the points of the first columns of the field: together they cover the stretch, as far around.
    /// Rows no part of which is thinner than `enough` mm are left out.
    pub(super) fn starts(&self, field: &Field, columns: usize, enough: f64) -> Vec<Start> {
        let (height, width) = (self.row_height() / 2.0, TAU / COLUMNS as f64 / 2.0);
        let stretch = |u: f64| ((u - height).max(self.stretch.0), (u + height).min(self.stretch.1));
        let mut starts = Vec::new();
        for row in field {
            let u = stretch(row[0].u);
            let near = self.surface.near_around(u.0, u.1, enough);
            if near.is_none() {
                continue;
            }
            starts.extend(row[..columns].iter().map(|at| Start {
                patch: Patch { u, clock: (at.clock - width, at.clock + width) },
                place: Spot::new(at.u, at.clock),
                distance: at.wall,
                near,
            }));
        }
        starts
    }

    /// The field as reported.
    pub(super) fn map(&self, field: &Field) -> WallMap {
        WallMap {
            station_mm: field.iter().map(|row| self.surface.sheet.at(row[0].u).t).collect(),
            along_mm: field.iter().map(|row| row[0].u - self.stretch.0).collect(),
            clock_deg: (0..COLUMNS).map(|j| column_clock(j).to_degrees()).collect(),
            wall_mm: field.iter().map(|row| row.iter().map(|p| p.wall).collect()).collect(),
        }
    }

    /// The saws and facings of the piece.
    pub(super) fn openings(&self) -> impl Iterator<Item = &'a Removal> + use<'a> {
        self.surface.solid.with_role(Role::Opening)
    }
}

/// Clock direction of a column, in radians.
pub(super) fn column_clock(column: usize) -> f64 {
    TAU * column as f64 / COLUMNS as f64
}
