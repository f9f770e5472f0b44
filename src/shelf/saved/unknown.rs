//! Fields that were read over: present in the text, absent from what was understood.

use serde_json::Value;

/// The paths of fields of `text` that `understood` does not have, in the order of the text.
///
/// A field that holds `null` counts as absent.
pub(super) fn unknown_fields(text: &Value, understood: &Value) -> Vec<String> {
    let mut found = Vec::new();
    compare(text, understood, "", &mut found);
    found
}

/// As deep as the texts, whose depth the reader limits.
fn compare(text: &Value, understood: &Value, path: &str, found: &mut Vec<String>) {
    match (text, understood) {
        (Value::Object(text), Value::Object(understood)) => {
            for (name, value) in text {
                let path = if path.is_empty() { name.clone() } else { format!("{path}.{name}") };
                match understood.get(name) {
                    Some(other) => compare(value, other, &path, found),
                    None if value.is_null() => {}
                    None => found.push(path),
                }
            }
        }
        (Value::Array(text), Value::Array(understood)) => {
            for (index, (value, other)) in text.iter().zip(understood).enumerate() {
                compare(value, other, &format!("{path}[{index}]"), found);
            }
        }
        _ => {}
    }
}
