//! Arbitrary short texts.

use proptest::prelude::*;

pub(super) fn text() -> impl Strategy<Value = String> {
    "\\PC{0,20}"
}
