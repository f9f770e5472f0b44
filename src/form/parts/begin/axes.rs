//! Axes that may be added.

use super::kin::{All, Kin};
use super::tenths::to_tenth;
use crate::design::AxisChoice;
use crate::form::parts::Addition;
use crate::form::parts::bodies::Bench;

/// An axis beside A stands off it by this share of half the blank; one that leans does so by so many degrees.
const BESIDE_SHARE: f64 = 0.2;
const LEAN_DEG: f64 = 5.0;
/// Its mark on the head end is no farther from the centre than this share of half the blank.
const LEAN_SHARE: f64 = 0.4;
/// Where a leaning axis crosses A, as a share of the blank's length.
const CROSSING_SHARE: f64 = 0.35;

pub(super) fn all(bench: Bench<'_>, all: &mut All) {
    let blank = bench.design.blank;
    let off_mm = to_tenth(bench.half_mm() * BESIDE_SHARE);
    let beside = AxisChoice::Marks { tail_x_mm: 0.0, tail_y_mm: off_mm, head_x_mm: 0.0, head_y_mm: off_mm };
    let crossing_mm = to_tenth(blank.length_mm * CROSSING_SHARE);
    let most_deg = (bench.half_mm() * LEAN_SHARE).atan2(blank.length_mm - crossing_mm).to_degrees();
    let leaning = AxisChoice::Tilt { tilt_deg: to_tenth(most_deg).min(LEAN_DEG), toward_deg: 0.0, crossing_mm };
    let across = AxisChoice::Across { station_mm: to_tenth(bench.here_mm), from_deg: 0.0 };
    for (label, axis) in [("An axis beside A", beside), ("A leaning axis", leaning), ("An axis across, here", across)] {
        all.push((Kin::Axis, label.to_owned(), Ok(Addition { axis: Some(axis), ..Addition::default() })));
    }
}
