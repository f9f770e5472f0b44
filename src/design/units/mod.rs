//! Lengths and angles as they are typed and shown. Inside, lengths are in mm and angles in degrees.
//!
//! Reading takes mm, decimal inches and fractions of an inch, with a decimal point or comma, and says in a sentence
//! why a text is no length. Showing rounds to what a rule or caliper can read, and marks a fraction that is
//! noticeably off.

mod format;
mod parse;

pub use format::{format_angle, format_length, format_number, marks_explained, rounding_step_mm};
pub use parse::{
    LARGEST_ANGLE_DEG, LARGEST_LENGTH_MM, LARGEST_NUMBER, LONGEST_TEXT, Quantity, UnitError, parse_angle, parse_length,
    parse_number,
};

/// Millimetres in an inch, exactly (international inch, 1959).
pub const MM_PER_INCH: f64 = 25.4;
