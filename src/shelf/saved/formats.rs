//! The names of the formats, and the largest text.

/// The format's name of one design.
pub const DESIGN_FORMAT: &str = "skewline-design";
/// The format's name of a whole shelf.
pub const SHELF_FORMAT: &str = "skewline-shelf";
/// The format's name of the shop's settings.
pub const SHOP_FORMAT: &str = "skewline-shop";

/// The largest text that is read, and that is written, in bytes: what a page has the memory for several times over.
pub const LARGEST_TEXT: usize = 256_000_000;

/// A size in words, rounded up to whole megabytes.
pub(super) fn megabytes(bytes: usize) -> String {
    format!("{} MB", bytes.div_ceil(1_000_000))
}
