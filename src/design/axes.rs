//! The axes of a design, placed in the blank's frame.

use thiserror::Error;

use super::axis_name::AxisName;
use super::cut::AxisChoice;
use super::document::Design;
use super::plug::tail_face;
use crate::geometry::{Axis, AxisError, Vector};

/// An axis that cannot be placed.
#[derive(Clone, Copy, Debug, PartialEq, Error)]
#[error("axis {axis} cannot be placed: {source}")]
pub struct MisplacedAxis {
    /// Which.
    pub axis: AxisName,
    /// Why.
    pub source: AxisError,
}

impl Design {
    /// Whether an axis goes square across the blank.
    #[must_use]
    pub fn is_across(&self, axis: AxisName) -> bool {
        let choice = axis.index().checked_sub(1).and_then(|index| self.axes.get(index));
        matches!(choice, Some(AxisChoice::Across { .. }))
    }
}

/// The axes of a design, A first.
///
/// # Errors
/// The first axis that cannot be placed.
pub(crate) fn placed_axes(design: &Design) -> Result<Vec<Axis>, MisplacedAxis> {
    let tail_face = tail_face(design);
    let mut axes = vec![Axis::A];
    for (i, choice) in design.axes.iter().enumerate() {
        let name = AxisName::from_index(i + 1).unwrap_or(AxisName::A);
        let placed = place_axis(choice, tail_face, design.blank.length_mm);
        axes.push(placed.map_err(|source| MisplacedAxis { axis: name, source })?);
    }
    Ok(axes)
}

/// Unit direction in the (x, y) plane for a clock direction as held, in degrees.
fn clock_direction(clock_deg: f64) -> (f64, f64) {
    let (sin, cos) = clock_deg.to_radians().sin_cos();
    (sin, cos)
}

fn place_axis(choice: &AxisChoice, tail_face: f64, head_face: f64) -> Result<Axis, AxisError> {
    match *choice {
        AxisChoice::Marks { tail_x_mm, tail_y_mm, head_x_mm, head_y_mm } => {
            Axis::through(Vector::new(tail_x_mm, tail_y_mm, tail_face), Vector::new(head_x_mm, head_y_mm, head_face))
        }
        AxisChoice::Tilt { tilt_deg, toward_deg, crossing_mm } => {
            let (x, y) = clock_direction(toward_deg);
            let (sin, cos) = tilt_deg.to_radians().sin_cos();
            let along = Vector::new(x * sin, y * sin, cos);
            let offset = -crossing_mm * sin / cos;
            Axis::new(Vector::new(x * offset, y * offset, 0.0), along)
        }
        AxisChoice::Across { station_mm, from_deg } => {
            let (x, y) = clock_direction(from_deg);
            Axis::new(Vector::new(0.0, 0.0, station_mm), Vector::new(-x, -y, 0.0))
        }
    }
}
