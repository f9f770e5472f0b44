//! Skewline plans wooden utensils that are turned on more than one axis.
//!
//! Dependencies point downward only:
//! [`geometry`] <- [`design`] <- [`piece`] <- [`form`] <- [`figures`] <- [`finding`], [`drawings`], [`shelf`], `app`.

pub mod beside;
pub mod design;
pub mod drawings;
pub mod figures;
pub mod finding;
pub mod form;
pub mod geometry;
pub mod piece;
pub mod shelf;

#[cfg(target_arch = "wasm32")]
pub mod app;
