//! Stretches along a line, roots, sorting, searches, quadrature, and the count of work.

pub mod intervals;
pub mod order;
pub mod pace;
pub mod quadratic;
pub(crate) mod quadrature;
pub mod search;
