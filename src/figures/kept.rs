//! Points of the outside that are kept: what later cuts leave of every pass's surface.

use crate::design::Piece;
use crate::geometry::{Region, Revolved, Role, Vector};

/// How deep under a surface its wood is looked for, in mm.
const UNDER: f64 = 2e-3;
/// How closely the edge of what is kept is found, in mm.
const EDGE: f64 = 1e-3;

/// Points on the surface of every pass where `is_wood` finds wood just under it, along lines at the given clock
/// directions, and where those lines leave the wood. Steps of at most `step_mm`.
pub(super) fn points(
    piece: &Piece,
    clocks: &[f64],
    step_mm: f64,
    is_wood: impl Fn(usize, Vector) -> bool,
) -> Vec<Vector> {
    let mut points = Vec::new();
    for removal in piece.solid.with_role(Role::Outside) {
        let Region::Revolved(pass) = &removal.region else { continue };
        let stations = stations(pass, step_mm);
        for clock in clocks {
            let (sin, cos) = clock.sin_cos();
            let toward = pass.axis.right() * sin + pass.axis.up() * cos;
            let kept = |t: f64| is_wood(removal.cut, under(pass, t, toward));
            let surface = |t: f64| pass.axis.point_toward(t, radius(pass, t), toward);
            let mut before: Option<(f64, bool)> = None;
            for &t in &stations {
                let here = kept(t);
                if let Some((last, was)) = before.filter(|b| b.1 != here) {
                    points.push(surface(edge(last, t, was, &kept)));
                }
                if here {
                    points.push(surface(t));
                }
                before = Some((t, here));
            }
        }
    }
    points
}

fn radius(pass: &Revolved, t: f64) -> f64 {
    let (before, after) = pass.meridian.radii(t);
    before.min(after)
}

/// The point just under the surface, and just inside the ends.
fn under(pass: &Revolved, t: f64, toward: Vector) -> Vector {
    let (from, to) = (pass.meridian.start(), pass.meridian.end());
    let t = t.clamp(from.min(to - UNDER) + UNDER.min(to - from), to - UNDER.min(to - from) / 2.0);
    pass.axis.point_toward(t, (radius(pass, t) - UNDER).max(0.0), toward)
}

/// Where a line along the surface passes from kept to not kept.
fn edge(a: f64, b: f64, kept_at_a: bool, kept: &impl Fn(f64) -> bool) -> f64 {
    let (mut p, mut q) = (a, b);
    while (q - p).abs() > EDGE {
        let middle = (p + q) / 2.0;
        if kept(middle) == kept_at_a { p = middle } else { q = middle }
    }
    if kept_at_a { p } else { q }
}

/// Even stations and the profile's corners, none closer than a third of a step but for the ends.
fn stations(pass: &Revolved, step: f64) -> Vec<f64> {
    let (from, to) = (pass.meridian.start(), pass.meridian.end());
    let count = ((to - from) / step).ceil().clamp(1.0, 300.0);
    let mut all: Vec<f64> = (0..=count as usize).map(|i| from + (to - from) * i as f64 / count).collect();
    all.extend(pass.meridian.points().iter().map(|p| p.0));
    all.sort_by(f64::total_cmp);
    all.dedup_by(|b, a| *b - *a < step / 3.0);
    all.push(to);
    all
}
