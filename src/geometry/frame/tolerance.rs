//! What counts as nothing: the tolerances of the core, each with its reason.
//!
//! A document holds lengths of up to 2,000 mm, so numbers of doubles there are 2.3e-13 mm apart, and a figure is the end
//! of some hundreds of operations. A tolerance that belongs to one search alone, such as how finely it halves, stands
//! beside that search.

/// Two lengths nearer than this, in mm, differ by rounding: some thousand times the step between doubles at 2,000 mm.
pub const ROUNDING_MM: f64 = 1e-9;

/// Two places nearer than this, in mm, are one place: lengths that were typed, shown, converted and read again differ by
/// less, and no tool or wood shows it.
pub const SAME_MM: f64 = 1e-6;

/// Two directions are one where the sine of the angle between them is less: over 1,000 mm they part by [`SAME_MM`].
pub const PARALLEL: f64 = 1e-9;

/// A part of a direction of length 1, or a share of the largest term of a sum, that is nothing but rounding.
pub const FLAT: f64 = 1e-12;
