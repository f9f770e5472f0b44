//! The shop's usual error: measured minus planned, over every piece that was made.

use serde::Serialize;

use super::known::Known;
use crate::design::{Design, MeasuredWhat};

/// What the log says about how near the pieces come to their plans.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct UsualError {
    /// Pieces with something measured.
    pub pieces: usize,
    /// Measured minus planned, kind by kind; only kinds that were measured.
    pub kinds: Vec<KindError>,
    /// What is offered as the shop's usual error in a length, in mm: the root mean square of measured minus planned,
    /// diameters counted by half (as a radius, the way a wall feels them). None from fewer than [`LEAST_LENGTHS`]
    /// lengths.
    pub offered_mm: Known<f64>,
    /// What the pieces hold, measured over planned, 1 for as planned; the mean of all that were filled.
    pub hold_share: Option<f64>,
}

/// Measured minus planned of one kind of length, in mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct KindError {
    /// The kind.
    pub what: MeasuredWhat,
    /// How many were measured.
    pub count: usize,
    /// The mean: positive where pieces come out larger than planned.
    pub mean_mm: f64,
    /// The root mean square.
    pub rms_mm: f64,
    /// The largest either way, as a size.
    pub largest_mm: f64,
}

/// Fewer lengths than this say nothing about a habit. A choice of ours, no source.
pub const LEAST_LENGTHS: usize = 5;

/// Summarises the logs of designs. Exact.
///
/// A line whose numbers are not finite is passed over; sound designs have none.
#[must_use]
pub fn usual_error<'a>(designs: impl IntoIterator<Item = &'a Design>) -> UsualError {
    let all = [MeasuredWhat::Wall, MeasuredWhat::Floor, MeasuredWhat::Diameter, MeasuredWhat::Depth];
    let mut errors: [Vec<f64>; 4] = Default::default();
    let mut shares = Vec::new();
    let mut pieces = 0;
    for making in designs.into_iter().flat_map(|design| &design.log) {
        pieces += usize::from(!making.measured.is_empty() || making.holds.is_some());
        for line in &making.measured {
            let error = line.measured_mm - line.planned_mm;
            if let Some(kind) = all.iter().position(|what| *what == line.what).filter(|_| error.is_finite()) {
                errors[kind].push(error);
            }
        }
        shares.extend(making.holds.map(|h| h.measured_ml / h.planned_ml).filter(|share| share.is_finite()));
    }
    let kinds = all.iter().zip(&errors).filter_map(|(what, errors)| kind(*what, errors)).collect();
    UsualError { pieces, kinds, offered_mm: offered(&all, &errors), hold_share: mean(&shares) }
}

fn kind(what: MeasuredWhat, errors: &[f64]) -> Option<KindError> {
    let largest_mm = errors.iter().fold(0.0, |most: f64, e| most.max(e.abs()));
    Some(KindError { what, count: errors.len(), mean_mm: mean(errors)?, rms_mm: root_mean_square(errors)?, largest_mm })
}

fn offered(all: &[MeasuredWhat], errors: &[Vec<f64>]) -> Known<f64> {
    let mut lengths = Vec::new();
    for (what, errors) in all.iter().zip(errors) {
        let share = if *what == MeasuredWhat::Diameter { 0.5 } else { 1.0 };
        lengths.extend(errors.iter().map(|e| e * share));
    }
    match root_mean_square(&lengths) {
        Some(rms) if lengths.len() >= LEAST_LENGTHS => Known::Value(rms),
        _ => Known::missing(format!(
            "There are {} lengths in the log, and it takes {LEAST_LENGTHS} to see a habit.",
            lengths.len()
        )),
    }
}

fn mean(values: &[f64]) -> Option<f64> {
    (!values.is_empty()).then(|| values.iter().sum::<f64>() / values.len() as f64)
}

fn root_mean_square(values: &[f64]) -> Option<f64> {
    (!values.is_empty()).then(|| (values.iter().map(|v| v * v).sum::<f64>() / values.len() as f64).sqrt())
}
