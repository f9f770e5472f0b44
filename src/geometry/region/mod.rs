//! Profiles, what cuts take away, the stock, and what is kept.

pub mod clearance;
pub mod curve;
pub mod envelope;
pub mod joined;
pub(crate) mod keep;
pub mod meridian;
pub(crate) mod near_half;
pub mod removed;
pub mod revolved;
pub mod sawn;
pub mod solid;
mod special_clocks;
pub mod stock;
pub mod tapers;
pub(crate) mod turned;
