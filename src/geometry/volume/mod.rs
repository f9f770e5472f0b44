//! Volumes and moments, slice by slice, and the hull in the side view.

pub mod mass;
pub mod shadow;
pub(crate) mod slice;
pub(crate) mod slice_edges;
mod slice_points;
