//! Sections by a plane, and what they resist.

pub mod bending;
pub(crate) mod conic;
pub mod polygon;
pub mod section;
pub(crate) mod trace;
