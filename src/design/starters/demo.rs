//! The design that is open at the first visit.

use crate::design::document::Design;
use crate::design::pattern::{BoredEndScoop, Outside};
use crate::design::shop::Chuck;

/// A finished coffee scoop, invented for Skewline; every check of it is good with the default shop.
#[must_use]
pub fn demo() -> Design {
    demo_for(Chuck::default())
}

/// The same for another chuck.
pub(super) fn demo_for(chuck: Chuck) -> Design {
    let scoop = BoredEndScoop { outside: Outside::RoundOver, chuck, ..BoredEndScoop::default() };
    let mut design = scoop.design("Larkspur coffee scoop");
    design.notes = "An example, invented for Skewline. Change anything: it is yours.".to_owned();
    design
}
