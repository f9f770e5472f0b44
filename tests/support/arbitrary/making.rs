//! Arbitrary makings of the log.

use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;
use skewline::design::{AxisName, Making, Measured, MeasuredHold, MeasuredWhat};

use super::text::text;

/// An arbitrary making without problems.
pub fn making() -> impl Strategy<Value = Making> {
    let date = (1_u32..10_000, 1_u32..13, 1_u32..29).prop_map(|(y, m, d)| format!("{y:04}-{m:02}-{d:02}"));
    let holds = option::of((0.0..5000.0, 0.0..5000.0));
    (date, text(), vec(measured(), 0..6), holds, "\\PC{0,60}", "\\PC{0,60}").prop_map(
        |(date, wood, measured, holds, went_wrong, change_next)| Making {
            date,
            wood,
            measured,
            holds: holds.map(|(planned_ml, measured_ml)| MeasuredHold { planned_ml, measured_ml }),
            went_wrong,
            change_next,
        },
    )
}

fn measured() -> impl Strategy<Value = Measured> {
    let what = select(vec![MeasuredWhat::Wall, MeasuredWhat::Floor, MeasuredWhat::Diameter, MeasuredWhat::Depth]);
    (what, 0_usize..5, -300.0..900.0, -20.0..300.0, 0.0..300.0).prop_map(
        |(what, axis, at_mm, planned_mm, measured_mm)| Measured {
            what,
            axis: AxisName::from_index(axis).unwrap(),
            at_mm,
            planned_mm,
            measured_mm,
        },
    )
}
