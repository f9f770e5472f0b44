//! What something is, and how much: one line of a list of facts.

use leptos::prelude::*;

/// One line of a list of facts.
pub fn fact(what: impl Into<String>, value: impl Into<String>) -> AnyView {
    view! { <div><dt>{what.into()}</dt><dd>{value.into()}</dd></div> }.into_any()
}
