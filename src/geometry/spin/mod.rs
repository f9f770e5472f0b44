//! The wood around an axis.

pub mod around;
pub(crate) mod around_air;
pub mod circle;
pub(crate) mod cone;
pub(crate) mod farthest;
pub(crate) mod farthest_at;
pub(crate) mod farthest_wood;
pub mod spokes;
pub mod swept;
pub mod turning;
pub(crate) mod wave;
