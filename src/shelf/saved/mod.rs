//! The saved document: a named, versioned envelope around a design, a shelf or the shop.
//!
//! ```json
//! { "format": "skewline-design", "version": 2, "design": { ... } }
//! { "format": "skewline-shelf", "version": 2, "saved_at_ms": 0, "designs": [ ... ], "shop": { ... }, "printers": { ... } }
//! { "format": "skewline-shop", "version": 2, "shop": { ... } }
//! ```
//!
//! `public/schema/skewline-2.json` is their JSON Schema, made from the types by `schema` in a native build.
//!
//! [`read`] is the only way in. It repairs nothing: a text either is a sound document, or is refused with the reason
//! and stays as it is.

mod error;
mod formats;
mod migration;
mod reading;
#[cfg(not(target_arch = "wasm32"))]
mod schema;

use serde::Serialize;
use thiserror::Error;

use crate::design::entry::Units;
use crate::design::{Design, Printers, Problem, Shop};

pub use error::ImportError;
use formats::megabytes;
pub use formats::{DESIGN_FORMAT, LARGEST_TEXT, SHELF_FORMAT, SHOP_FORMAT};
pub use migration::VERSION;
pub use reading::{Imported, Refused, SavedDesign, SavedShelf, read, read_bytes};
#[cfg(not(target_arch = "wasm32"))]
pub use schema::schema;

/// Why a document is not written.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum WriteError {
    /// It would be refused when read back.
    #[error("{}", invalid(.problems, Units::default()))]
    Invalid {
        /// Every problem.
        problems: Vec<Problem>,
    },
    /// It would be larger than what is read back.
    #[error(
        "The file would have {}, and a file of more than {} could not be brought back. Delete what was set aside, \
         or save designs to files of their own.",
        megabytes(*.bytes), megabytes(LARGEST_TEXT)
    )]
    TooLarge {
        /// Its size.
        bytes: usize,
    },
    /// The text could not be made; this is a fault of the program.
    #[error("It could not be turned into text ({detail}). This is a fault of Skewline: please report it.")]
    Fault {
        /// What was said.
        detail: String,
    },
}

impl WriteError {
    /// Why, with lengths in these units.
    #[must_use]
    pub fn told(&self, units: Units) -> String {
        match self {
            Self::Invalid { problems } => invalid(problems, units),
            Self::TooLarge { .. } | Self::Fault { .. } => self.to_string(),
        }
    }
}

fn invalid(problems: &[Problem], units: Units) -> String {
    format!("It is not saved, because something in it is wrong. {}", error::told(problems, units))
}

impl From<serde_json::Error> for WriteError {
    fn from(error: serde_json::Error) -> Self {
        Self::Fault { detail: error.to_string() }
    }
}

/// The envelope of one design; an entry of the shelf carries its revision and time as well.
#[derive(Serialize)]
struct DesignEnvelope<'a> {
    format: &'static str,
    version: u64,
    #[serde(skip_serializing_if = "Option::is_none")]
    revision: Option<u64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    saved_at_ms: Option<u64>,
    design: &'a Design,
}

#[derive(Serialize)]
struct ShelfEnvelope<'a> {
    format: &'static str,
    version: u64,
    saved_at_ms: u64,
    designs: Vec<&'a Design>,
    #[serde(skip_serializing_if = "Option::is_none")]
    shop: Option<&'a Shop>,
    #[serde(skip_serializing_if = "Option::is_none")]
    printers: Option<&'a Printers>,
    #[serde(skip_serializing_if = "<[_]>::is_empty")]
    set_aside: &'a [String],
}

#[derive(Serialize)]
struct ShopEnvelope<'a> {
    format: &'static str,
    version: u64,
    shop: &'a Shop,
}

/// One design as a file, in indented JSON.
///
/// # Errors
///
/// [`WriteError::Invalid`] when the design has problems: it could not be read back.
pub fn write_design(design: &Design) -> Result<String, WriteError> {
    refuse(design.problems())?;
    let envelope =
        DesignEnvelope { format: DESIGN_FORMAT, version: VERSION, revision: None, saved_at_ms: None, design };
    indented(&envelope)
}

/// One design as an entry of the shelf. `saved_at_ms` is in milliseconds since 1970.
///
/// # Errors
///
/// As [`write_design`].
pub fn write_entry(design: &Design, revision: u64, saved_at_ms: u64) -> Result<String, WriteError> {
    refuse(design.problems())?;
    let (revision, saved_at_ms) = (Some(revision), Some(saved_at_ms));
    compact(&DesignEnvelope { format: DESIGN_FORMAT, version: VERSION, revision, saved_at_ms, design })
}

/// A whole shelf as a file, in compact JSON: its designs, the shop, what printers measured, and the raw texts that were
/// set aside.
///
/// `saved_at_ms` is in milliseconds since 1970.
///
/// # Errors
///
/// [`WriteError::Invalid`] when a design, the shop or a printer has problems; [`WriteError::TooLarge`] when the file could
/// not be brought back.
pub fn write_shelf(
    designs: &[&Design],
    shop: Option<&Shop>,
    printers: Option<&Printers>,
    set_aside: &[String],
    saved_at_ms: u64,
) -> Result<String, WriteError> {
    refuse(designs.iter().flat_map(|design| design.problems()).collect())?;
    refuse(shop.map(Shop::problems).unwrap_or_default())?;
    refuse(printers.map(Printers::problems).unwrap_or_default())?;
    let text = serde_json::to_string(&ShelfEnvelope {
        format: SHELF_FORMAT,
        version: VERSION,
        saved_at_ms,
        designs: designs.to_vec(),
        shop,
        printers,
        set_aside,
    })?;
    if text.len() > LARGEST_TEXT { Err(WriteError::TooLarge { bytes: text.len() }) } else { Ok(text) }
}

/// The shop's settings, in indented JSON.
///
/// # Errors
///
/// [`WriteError::Invalid`] when the shop has problems.
pub fn write_shop(shop: &Shop) -> Result<String, WriteError> {
    refuse(shop.problems())?;
    indented(&ShopEnvelope { format: SHOP_FORMAT, version: VERSION, shop })
}

/// In compact JSON.
fn compact(document: &impl Serialize) -> Result<String, WriteError> {
    let mut writer = serde_json::Serializer::with_formatter(Vec::with_capacity(4096), OwnNumbers);
    document.serialize(&mut writer)?;
    String::from_utf8(writer.into_inner()).map_err(|error| WriteError::Fault { detail: error.to_string() })
}

/// Numbers as the standard library writes them, in the fewest digits that read back the same: the tables for it are in the
/// first file of the page already.
struct OwnNumbers;

impl serde_json::ser::Formatter for OwnNumbers {
    fn write_f64<W: std::io::Write + ?Sized>(&mut self, writer: &mut W, value: f64) -> std::io::Result<()> {
        write!(writer, "{value:?}")
    }
}

/// In indented JSON. Indented after it is written, so that the writer of documents is built once, for one way to write.
fn indented(document: &impl Serialize) -> Result<String, WriteError> {
    let text = compact(document)?;
    let mut indented = serde_json::Serializer::pretty(Vec::with_capacity(2 * text.len()));
    serde_transcode::transcode(&mut serde_json::Deserializer::from_str(&text), &mut indented)?;
    String::from_utf8(indented.into_inner()).map_err(|error| WriteError::Fault { detail: error.to_string() })
}

fn refuse(problems: Vec<Problem>) -> Result<(), WriteError> {
    if problems.is_empty() { Ok(()) } else { Err(WriteError::Invalid { problems }) }
}
