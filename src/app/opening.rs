//! Which design is being opened. One whose opening did not come to an end is not opened by itself again, so that no
//! design can lock the shelf away.

use crate::shelf::browser::BrowserStore;
use crate::shelf::{DesignId, Store};

/// Where the note is kept.
const KEY: &str = "skewline:opening";

/// Notes that a design is being opened. A storage that does not take the note locks nothing away either.
pub fn begin(id: &DesignId) {
    let _ = BrowserStore.set(KEY, id.as_str());
}

/// The page works: the design that was being opened is open, or the page is being closed in good order.
pub fn end() {
    let _ = BrowserStore.remove(KEY);
}

/// The design whose opening did not come to an end last time, if any.
pub fn unfinished() -> Option<DesignId> {
    BrowserStore.get(KEY).ok().flatten().as_deref().and_then(DesignId::from_text)
}
