//! What keeps a bowl in its jaws: the lean of the lip, and friction as an assumption.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

use super::recess::leaves_at_n;
use crate::figures::strength::CATCH_N;

/// Coefficient of friction of dry, smooth wood on wood: the low end of what handbooks give for it at rest, 0.3 to 0.5. From
/// memory of the Wood Handbook, chapter 5.
pub const FRICTION: f64 = 0.3;
/// How hard all jaws together press on the bowl, in N, tightened firmly by hand with the key: common practice, no source. A
/// scroll gives several times as much, which would crush the wood.
pub const PRESS_N: f64 = 2000.0;

/// What the grip rests on.
pub const ASSUMPTIONS: [&str; 4] = [
    "The jaws press with 2000 N in all, tightened firmly by hand (common practice, no source).",
    "Wood slides on dry wood with a coefficient of friction of 0.3 (low end of 0.3 to 0.5, from memory of the Wood Handbook).",
    "A catch pulls with 300 N straight out of the jaws, which is its worst direction (common practice, no source).",
    "The sideways pull of the handle at the highest speed takes its whole force off what the jaws press with.",
];

/// What keeps the bowl in the jaws.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct JawGrip {
    /// How hard the jaws press in all, in N: an assumption.
    pub press_n: f64,
    /// The coefficient of friction: an assumption.
    pub friction: f64,
    /// The sideways pull of the handle at the highest speed to use, in N.
    pub sideways_n: f64,
    /// The pull out of the jaws under which the bowl leaves them, in N.
    pub leaves_at_n: f64,
    /// The pull of a catch, in N.
    pub catch_n: f64,
    /// How many times the catch it bears.
    pub factor: f64,
}

impl JawGrip {
    /// What holds the bowl, in a sentence, and what that rests on.
    #[must_use]
    pub fn why(&self) -> Vec<String> {
        let found = format!(
            "Pulled straight out, the bowl would leave its jaws at {:.0} N, {:.1} times the pull of a catch; at the highest speed the \
             handle pulls sideways with {:.0} N.",
            self.leaves_at_n, self.factor, self.sideways_n
        );
        std::iter::once(found).chain(ASSUMPTIONS.iter().map(|it| (*it).to_owned())).collect()
    }

    /// Of a lip that leans by `lip` radians over the bowl, while the handle pulls sideways with a force in N.
    pub(super) fn new(lip: f64, sideways_n: f64) -> Self {
        let leaves_at_n = leaves_at_n(PRESS_N - sideways_n, lip, FRICTION);
        let factor = leaves_at_n / CATCH_N;
        Self { press_n: PRESS_N, friction: FRICTION, sideways_n, leaves_at_n, catch_n: CATCH_N, factor }
    }
}
