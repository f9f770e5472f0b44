//! The wooden jaws of a design that has one hollow across the grain.

use skewline::design::{Design, Shop};
use skewline::figures::jaws::Jaws;
use skewline::figures::{Worked, work_out};

/// The figures of a design in the usual shop.
pub fn worked(design: &Design) -> Worked {
    work_out(design, &Shop::default()).unwrap()
}

/// Its jaws.
pub fn jaws_of(worked: &Worked) -> Jaws {
    let [planned] = worked.figures.jaws.as_slice() else { panic!("one hollow") };
    planned.jaws.value().unwrap_or_else(|| panic!("{:?}", planned.jaws.why_not())).clone()
}

/// Holds a number against another.
pub fn near(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "found {found}, expected {expected}");
}
