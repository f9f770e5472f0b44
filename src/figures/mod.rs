//! The figures: one file a figure or close group, each a pure function of a design.
//!
//! Lengths in mm, angles in radians inside and degrees in what is reported (`_deg`). A figure that cannot be computed
//! says why; it is never shown as a number that looks right.

pub mod blank;
pub mod boring;
pub mod carried;
pub mod checks;
pub mod clean_up;
pub mod end;
pub mod fin;
pub mod grip;
pub mod handle;
pub mod hold;
pub mod jaws;
pub mod known;
pub mod leave;
pub mod marks;
pub mod marks_apart;
mod parts;
pub mod place;
pub mod plan;
pub mod report;
pub mod rest;
pub mod ridge;
pub mod rough_end;
mod section_needed;
pub mod shape;
pub mod sides;
pub mod slack;
pub mod slices;
pub mod slow;
pub mod start;
pub mod stop_free;
pub mod strength;
pub mod summary;
pub mod support;
pub mod tables;
pub mod to_measure;
pub mod turning;
pub mod usual_error;
pub mod wall;
pub mod wood;
mod work_out;

pub use known::Known;
pub use place::Place;
pub use report::{Figures, Worked};
pub use shape::{Extent, FiguresError, Shape, outline_within, shape, shape_within, wall_in_words};
pub use slices::{Sliced, Whole, in_slices, slow_in_slices, whole_in_slices};
pub use slow::Slow;
pub use work_out::{sound_piece_in_slices, work_out};
