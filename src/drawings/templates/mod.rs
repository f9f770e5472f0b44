//! Templates at full size, black on white, for the browser's own print dialog and as files: end faces, story sticks,
//! gauges for outside and inside, and the wrap for the saw line.
//!
//! Each is plain data in mm first ([`Ink`]), then pages of SVG with millimetre units ([`Template::pages`]). A printer
//! that does not keep its scale is corrected by [`PrintScale`].

mod ends;
mod gauge;
mod ink;
mod jaws;
mod page;
mod paper;
pub mod sheet;
mod stick;
mod wrap;
mod written;

pub use ink::{Anchor, Ink, Item, Stroke};
pub use page::{Page, Template, packed};
pub use paper::{CHECK_MM, Paper, PrintScale, PrintScaleError};
pub use sheet::{BenchSheet, SheetLine, SheetSection, bench_sheet, check_page};

use crate::design::{Design, Shop, Units};
use crate::figures::Worked;
use crate::figures::checks::stops_by_name;

/// Every template of a design that is worked out: both end faces, story sticks, a gauge for each pass and each hollow, a wrap for each
/// saw line, the face and the card of wooden jaws.
#[must_use]
pub fn templates(design: &Design, worked: &Worked, shop: &Shop) -> Vec<Template> {
    let lengths = Units::from(shop);
    let mut all = ends::templates(worked, shop);
    all.extend(stick::templates(design, worked, lengths));
    all.extend(gauge::templates(design, worked, lengths));
    all.extend(wrap::templates(design, worked));
    all.extend(jaws::templates(&worked.figures, lengths));
    if let Some(names) = stops_by_name(&worked.checks) {
        for template in &mut all {
            template.note = format!("STOP: {names}. Change the design before you cut.\n{}", template.note);
        }
    }
    all
}
