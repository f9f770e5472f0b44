//! Points and directions, axes, planes, and the half-plane of an axis.

pub mod axis;
pub mod plane;
pub mod station;
pub mod tolerance;
pub mod vector;
