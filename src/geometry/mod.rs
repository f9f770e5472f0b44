//! The geometry core: axes, profiles, regions of revolution, what is left of a bar after cuts.
//!
//! No trade words beyond the frame, no input or output, no browser. Lengths in mm, angles in radians. `s` runs along
//! the bar, (x, y, s) is right-handed.

pub mod frame;
pub mod line;
pub mod plane;
pub mod region;
pub mod spin;
pub mod surface;
pub mod volume;

pub use frame::axis::{Axis, AxisError, NearestPoints, Seen};
pub use frame::plane::Plane;
pub use frame::station::Station;
pub use frame::vector::Vector;
pub use line::intervals::Intervals;
pub use line::pace::{Pace, at_once};
pub use plane::bending::Bending;
pub use plane::polygon::{AreaMoments, Outline};
pub use plane::section::{CutFace, SECTION_TOLERANCE, region_outlines, section};
pub use region::curve::{Segment, arc_points, arc_start_slope};
pub use region::joined::joined;
pub use region::meridian::{Meridian, MeridianError};
pub use region::removed::{HalfSpace, Region};
pub use region::revolved::{Fill, Ray, Revolved};
pub use region::sawn::Sawn;
pub use region::solid::{FittedPlug, Limit, Removal, Role, Solid, State, ToOutside};
pub use region::stock::{Section, Stock};
pub use spin::around::Around;
pub use spin::circle::Circle;
pub use spin::spokes::{spokes, square_parts, square_section};
pub use spin::swept::Swept;
pub use spin::turning::{Farthest, Outermost, Spin};
pub use surface::unroll::{OnSurface, Unrolled, cut_around};
pub use volume::mass::{Mass, grams, kilograms, mass, masses, masses_in_slices};
pub use volume::shadow::{Corner, Flats, finer, finer_in_slices, shadow, shadow_in_slices};

pub use kurbo::{Point, Vec2};

/// How far the chords of a flattened curve may stand off the curve, in mm.
pub const FLATTENING: f64 = 0.01;
