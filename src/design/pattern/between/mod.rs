//! Pieces that are turned between centres, with no bowl: spreaders and stirrers, spindles with sides, grooved heads.
//!
//! The waste at both ends keeps the square of the blank and carries the marks of every axis until the piece is parted.
//! The outline is turned first, on axis A, while the wood is thick; then what is turned on moved axes; then the end.

mod bar;
mod grooved_head;
mod handle;
mod sides;
mod spindle;
mod spreader;

pub use grooved_head::GroovedHead;
pub use handle::Handle;
pub use sides::Section;
pub use spindle::SidedSpindle;
pub use spreader::Spreader;
