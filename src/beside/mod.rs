//! Work that takes longer than a frame, done beside the page: in a worker of its own where the browser lets it, else on the
//! page between frames. What is asked and what is answered are plain data, so that both ways are one.

mod messages;
mod work;

pub use messages::{Found, Order, Part, Report, Work};
pub use work::do_work;
