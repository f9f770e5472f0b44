//! The geometry core: axes, profiles, regions of revolution, what is left of a bar after cuts.
//!
//! No trade words beyond the frame, no input or output, no browser. Lengths in mm, angles in radians. `s` runs along
//! the bar, (x, y, s) is right-handed.

pub mod around;
mod around_air;
pub mod axis;
pub mod bending;
pub mod circle;
pub mod clearance;
mod cone;
mod conic;
pub mod curve;
pub mod envelope;
mod farthest;
mod farthest_at;
mod farthest_wood;
pub mod intervals;
pub mod joined;
mod keep;
pub mod mass;
pub mod meridian;
mod near_half;
pub mod order;
pub mod pace;
pub mod plane;
pub mod polygon;
pub mod quadratic;
mod quadrature;
pub mod region;
pub mod revolved;
pub mod sawn;
pub mod search;
pub mod section;
pub mod shadow;
mod slice;
mod slice_edges;
pub mod solid;
pub mod spin;
pub mod spokes;
pub mod station;
pub mod stock;
pub mod surface;
pub mod swept;
pub mod tapers;
mod trace;
mod turned;
pub mod unroll;
pub mod vector;
mod wave;

pub use around::Around;
pub use axis::{Axis, AxisError, NearestPoints, Seen};
pub use bending::Bending;
pub use circle::Circle;
pub use curve::{Segment, arc_points, arc_start_slope};
pub use intervals::Intervals;
pub use joined::joined;
pub use mass::{Mass, mass, masses, masses_in_slices};
pub use meridian::{Meridian, MeridianError};
pub use pace::{Pace, at_once};
pub use plane::Plane;
pub use polygon::{AreaMoments, Outline};
pub use region::{HalfSpace, Region};
pub use revolved::{Fill, Ray, Revolved};
pub use sawn::Sawn;
pub use section::{CutFace, SECTION_TOLERANCE, region_outlines, section};
pub use shadow::{Corner, Flats, finer, finer_in_slices, shadow, shadow_in_slices};
pub use solid::{FittedPlug, Limit, Removal, Role, Solid, State, ToOutside};
pub use spin::{Farthest, Outermost, Spin};
pub use spokes::{spokes, square_parts, square_section};
pub use station::Station;
pub use stock::{Section, Stock};
pub use swept::Swept;
pub use unroll::{OnSurface, Unrolled, cut_around};
pub use vector::Vector;

pub use kurbo::{Point, Vec2};

/// How far the chords of a flattened curve may stand off the curve, in mm.
pub const FLATTENING: f64 = 0.01;
