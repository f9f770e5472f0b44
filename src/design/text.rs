//! Small things done to names and sentences.

/// Whether two names are of one thing: capitals and the blanks around them or not.
#[must_use]
pub fn same_name(one: &str, other: &str) -> bool {
    one.trim().eq_ignore_ascii_case(other.trim())
}

/// A name, and where `all` have it which of them it is: `the hollow (2 of 3)`; `before` have it before this one.
#[must_use]
pub fn of_several(name: String, before: usize, all: usize) -> String {
    if all > 1 { format!("{name} ({} of {all})", before + 1) } else { name }
}

/// The text with its first letter a capital.
#[must_use]
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
