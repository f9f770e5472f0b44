//! Passes that shape one part together: where they overlap, that is meant.

use super::cut::Cut;
use super::document::Design;

impl Design {
    /// The other passes that shape one part with this cut, by their places in working order from 0.
    ///
    /// Empty for a cut that shapes no part with another: what it takes of another pass's wood is a flaw. What passes of one
    /// part take of each other is none: only what comes after all of them has to find its wood.
    #[must_use]
    pub fn shaped_with(&self, cut: usize) -> Vec<usize> {
        let Some(part) = self.part_shaped(cut) else { return Vec::new() };
        (0..self.cuts.len()).filter(|place| *place != cut && self.part_shaped(*place) == Some(part)).collect()
    }

    /// The name of the part that a cut shapes together with others, where it is said to.
    #[must_use]
    pub fn part_shaped(&self, cut: usize) -> Option<&str> {
        match self.cuts.get(cut)? {
            Cut::Pass(pass) => pass.shapes.as_deref(),
            _ => None,
        }
    }
}
