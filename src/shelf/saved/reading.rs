//! The one door for texts from outside: files, dropped texts, entries of the storage.

use serde::Deserialize;
use serde::de::DeserializeOwned;
use serde_json::Value;
use serde_json::value::RawValue;

use super::error::ImportError;
use super::formats::{DESIGN_FORMAT, LARGEST_TEXT, SHELF_FORMAT, SHOP_FORMAT};
use super::migration::{MIGRATIONS, Migration, NAMES_PATTERN, Step, VERSION, bring_up, is_rewritten};
use crate::design::{Design, Printers, Problem, Shop};
use crate::form::recognised;

/// What a text holds.
#[derive(Clone, Debug, PartialEq)]
pub enum Imported {
    /// One design.
    Design(Box<SavedDesign>),
    /// A whole shelf.
    Shelf(Box<SavedShelf>),
    /// The shop's settings.
    Shop(Box<Shop>),
}

/// One design, and what the shelf notes beside it.
#[derive(Clone, Debug, PartialEq)]
pub struct SavedDesign {
    /// The design; it has no problems.
    pub design: Design,
    /// How often it had been saved, when it is an entry of a shelf.
    pub revision: Option<u64>,
    /// When it was saved, in milliseconds since 1970, when it is an entry of a shelf.
    pub saved_at_ms: Option<u64>,
}

/// A whole shelf. What could not be read stands in `refused`, so that one bad design does not hold up the others.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SavedShelf {
    /// When it was saved, in milliseconds since 1970.
    pub saved_at_ms: u64,
    /// The designs; none has problems.
    pub designs: Vec<Design>,
    /// The shop, when it is there and sound.
    pub shop: Option<Shop>,
    /// What printers measured, when it is there and sound; absent in backups from before it was kept in them.
    pub printers: Option<Printers>,
    /// Raw texts that had been set aside when the shelf was saved.
    pub set_aside: Vec<String>,
    /// Parts that are not taken in.
    pub refused: Vec<Refused>,
}

/// A part of a shelf that is not taken in.
#[derive(Clone, Debug, PartialEq)]
pub struct Refused {
    /// Which: "design 3", "the shop" or "what printers measured".
    pub which: String,
    /// Its raw text.
    pub raw: String,
    /// Why.
    pub reason: ImportError,
}

#[derive(Deserialize)]
struct Header {
    format: String,
    version: Value,
}

/// One design, alone or as an entry of the shelf.
#[derive(Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct DesignEnvelope<'a> {
    /// Which kind of document it is.
    #[serde(rename = "format")]
    #[cfg_attr(not(target_arch = "wasm32"), schemars(extend("const" = DESIGN_FORMAT)))]
    _format: String,
    /// The version of the document.
    #[serde(rename = "version")]
    #[cfg_attr(not(target_arch = "wasm32"), schemars(extend("const" = VERSION)))]
    _version: u64,
    /// How often it has been saved, in an entry of the shelf.
    #[serde(default)]
    revision: Option<u64>,
    /// When it was saved, in milliseconds since 1970, in an entry of the shelf.
    #[serde(default)]
    saved_at_ms: Option<u64>,
    /// The design.
    #[serde(borrow)]
    #[cfg_attr(not(target_arch = "wasm32"), schemars(with = "Design"))]
    design: &'a RawValue,
}

/// A whole shelf.
#[derive(Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct ShelfEnvelope<'a> {
    /// Which kind of document it is.
    #[serde(rename = "format")]
    #[cfg_attr(not(target_arch = "wasm32"), schemars(extend("const" = SHELF_FORMAT)))]
    _format: String,
    /// The version of the document.
    #[serde(rename = "version")]
    #[cfg_attr(not(target_arch = "wasm32"), schemars(extend("const" = VERSION)))]
    _version: u64,
    /// When it was saved, in milliseconds since 1970.
    saved_at_ms: u64,
    /// The designs.
    #[serde(borrow)]
    #[cfg_attr(not(target_arch = "wasm32"), schemars(with = "Vec<Design>"))]
    designs: Vec<&'a RawValue>,
    /// The shop's settings.
    #[serde(borrow, default)]
    #[cfg_attr(not(target_arch = "wasm32"), schemars(with = "Option<Shop>"))]
    shop: Option<&'a RawValue>,
    /// What printers measured, the printer that is used, and the paper.
    #[serde(borrow, default)]
    #[cfg_attr(not(target_arch = "wasm32"), schemars(with = "Option<Printers>"))]
    printers: Option<&'a RawValue>,
    /// Texts that could not be read when the shelf was saved, as they were found.
    #[serde(default)]
    set_aside: Vec<String>,
}

/// The shop's settings.
#[derive(Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct ShopEnvelope<'a> {
    /// Which kind of document it is.
    #[serde(rename = "format")]
    #[cfg_attr(not(target_arch = "wasm32"), schemars(extend("const" = SHOP_FORMAT)))]
    _format: String,
    /// The version of the document.
    #[serde(rename = "version")]
    #[cfg_attr(not(target_arch = "wasm32"), schemars(extend("const" = VERSION)))]
    _version: u64,
    /// The settings.
    #[serde(borrow)]
    #[cfg_attr(not(target_arch = "wasm32"), schemars(with = "Shop"))]
    shop: &'a RawValue,
}

/// As [`read`], from bytes.
///
/// # Errors
///
/// [`ImportError`], which reads as a sentence.
pub fn read_bytes(bytes: &[u8]) -> Result<Imported, ImportError> {
    if bytes.len() > LARGEST_TEXT {
        return Err(ImportError::TooLarge { bytes: bytes.len() });
    }
    read(std::str::from_utf8(bytes).map_err(|_| ImportError::NotText)?)
}

/// Reads a saved design, shelf or shop. Any text gives a sound document or an error; nothing is repaired.
///
/// # Errors
///
/// [`ImportError`], which reads as a sentence.
pub fn read(text: &str) -> Result<Imported, ImportError> {
    if text.len() > LARGEST_TEXT {
        return Err(ImportError::TooLarge { bytes: text.len() });
    }
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.trim().is_empty() {
        return Err(ImportError::Empty);
    }
    let header = header(text)?;
    let version = version(&header.version)?;
    match header.format.as_str() {
        DESIGN_FORMAT => design_envelope(text, version),
        SHELF_FORMAT => shelf_envelope(text, version),
        SHOP_FORMAT => {
            let envelope: ShopEnvelope<'_> = parse(text, "the shop's file")?;
            Ok(Imported::Shop(Box::new(shop(&mut Places::of(text), envelope.shop, version)?)))
        }
        _ => Err(ImportError::NotOurs),
    }
}

fn header(text: &str) -> Result<Header, ImportError> {
    let header = serde_json::from_str(text);
    header.map_err(|error| match ImportError::from_json(&error, "the file") {
        ImportError::Malformed { .. } => ImportError::NotOurs,
        error => error,
    })
}

fn version(version: &Value) -> Result<u64, ImportError> {
    match version.as_u64() {
        Some(number @ 1..=VERSION) => Ok(number),
        Some(number) if number > VERSION => Err(ImportError::Newer { version: number }),
        _ => Err(ImportError::NoSuchVersion { version: version.to_string().chars().take(20).collect() }),
    }
}

fn parse<'a, T: Deserialize<'a>>(text: &'a str, what: &'static str) -> Result<T, ImportError> {
    serde_json::from_str(text).map_err(|error| ImportError::from_json(&error, what))
}

fn design_envelope(text: &str, version: u64) -> Result<Imported, ImportError> {
    let envelope: DesignEnvelope<'_> = parse(text, "the design's file")?;
    Ok(Imported::Design(Box::new(SavedDesign {
        design: design(&mut Places::of(text), envelope.design, version)?,
        revision: envelope.revision,
        saved_at_ms: envelope.saved_at_ms,
    })))
}

fn shelf_envelope(text: &str, version: u64) -> Result<Imported, ImportError> {
    let envelope: ShelfEnvelope<'_> = parse(text, "the shelf's file")?;
    let mut shelf =
        SavedShelf { saved_at_ms: envelope.saved_at_ms, set_aside: envelope.set_aside, ..SavedShelf::default() };
    let mut places = Places::of(text);
    for (index, raw) in envelope.designs.into_iter().enumerate() {
        match design(&mut places, raw, version) {
            Ok(design) => shelf.designs.push(design),
            Err(reason) => shelf.refuse(format!("design {}", index + 1), raw, reason),
        }
    }
    if let Some(raw) = envelope.shop {
        match shop(&mut places, raw, version) {
            Ok(shop) => shelf.shop = Some(shop),
            Err(reason) => shelf.refuse("the shop".to_owned(), raw, reason),
        }
    }
    if let Some(raw) = envelope.printers {
        match printers(&mut places, raw, version) {
            Ok(printers) => shelf.printers = Some(printers),
            Err(reason) => shelf.refuse("what printers measured".to_owned(), raw, reason),
        }
    }
    Ok(Imported::Shelf(Box::new(shelf)))
}

impl SavedShelf {
    fn refuse(&mut self, which: String, raw: &RawValue, reason: ImportError) {
        self.refused.push(Refused { which, raw: raw.get().to_owned(), reason });
    }
}

fn design(places: &mut Places<'_>, raw: &RawValue, version: u64) -> Result<Design, ImportError> {
    let design = part(raw, version, "the design", |it| it.design, Design::problems);
    design.and_then(|design| with_pattern(design, version)).map_err(|error| error.moved(places.of_part(raw)))
}

/// A design from before patterns were kept, with its pattern where it is exactly one.
fn with_pattern(design: Design, version: u64) -> Result<Design, ImportError> {
    match design.pattern {
        _ if version >= NAMES_PATTERN => Ok(design),
        None => Ok(Design { pattern: recognised(&design), ..design }),
        Some(_) => {
            let detail = format!("unknown field `pattern` in a design of version {version}");
            Err(ImportError::Malformed { what: "the design", detail, line: 1, column: 1 })
        }
    }
}

fn shop(places: &mut Places<'_>, raw: &RawValue, version: u64) -> Result<Shop, ImportError> {
    let shop = part(raw, version, "the shop", |it| it.shop, Shop::problems);
    shop.map_err(|error| error.moved(places.of_part(raw)))
}

fn printers(places: &mut Places<'_>, raw: &RawValue, version: u64) -> Result<Printers, ImportError> {
    let printers = part(raw, version, "what printers measured", |it| it.printers, Printers::problems);
    printers.map_err(|error| error.moved(places.of_part(raw)))
}

/// Finds lines and columns of parts of a text. Counts on from the part found last, so that a file with an error in every
/// part is gone through once, not once an error.
struct Places<'a> {
    text: &'a str,
    /// Up to here, in bytes, the line ends are counted.
    counted: usize,
    line_ends: usize,
    /// Where the line at `counted` starts, in bytes.
    line_start: usize,
}

impl<'a> Places<'a> {
    fn of(text: &'a str) -> Self {
        Self { text, counted: 0, line_ends: 0, line_start: 0 }
    }

    /// The lines before a part of the text, and the columns before it on its line.
    fn of_part(&mut self, raw: &RawValue) -> (usize, usize) {
        // The part is borrowed from the text, so its address gives its offset.
        let offset = (raw.get().as_ptr() as usize).wrapping_sub(self.text.as_ptr() as usize);
        if offset < self.counted {
            *self = Self::of(self.text);
        }
        let more = self.text.as_bytes().get(self.counted..offset).unwrap_or_default();
        for (place, byte) in (self.counted..).zip(more) {
            if *byte == b'\n' {
                self.line_ends += 1;
                self.line_start = place + 1;
            }
        }
        self.counted += more.len();
        (self.line_ends, self.counted - self.line_start)
    }
}

/// A design, a shop or printers out of their envelope: brought up to date, read in full, and judged.
fn part<T: DeserializeOwned>(
    raw: &RawValue,
    version: u64,
    what: &'static str,
    migration: fn(&Migration) -> Step,
    problems: fn(&T) -> Vec<Problem>,
) -> Result<T, ImportError> {
    let part: T = match is_rewritten(version, migration) {
        // By way of its text, so that one reader serves every version.
        true => parse(&bring_up(parse(raw.get(), what)?, version, MIGRATIONS, migration).to_string(), what)?,
        false => parse(raw.get(), what)?,
    };
    let problems = problems(&part);
    if problems.is_empty() { Ok(part) } else { Err(ImportError::Invalid { problems }) }
}
