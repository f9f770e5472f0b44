//! The JSON Schema of saved documents, made from the very types that read them.

use schemars::generate::SchemaSettings;
use schemars::transform::RecursiveTransform;
use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde_json::{Value, json};

use super::VERSION;
use super::reading::{DesignEnvelope, ShelfEnvelope, ShopEnvelope};

/// The JSON Schema (2020-12) of everything that is exported: a design, a shelf or the shop, of the version that is
/// written now. It is published as `public/schema/skewline-2.json`, the number being the version's.
///
/// It says which fields there are and of what kind. What the numbers may be is for
/// [`Design::problems`](crate::design::Design::problems) to say: some bounds depend on other numbers.
#[must_use]
pub fn schema() -> Value {
    let settings = SchemaSettings::draft2020_12().with_transform(RecursiveTransform(on_one_line));
    let mut generator = settings.into_generator();
    let kinds = [
        titled::<DesignEnvelope<'_>>(&mut generator, "A design"),
        titled::<ShelfEnvelope<'_>>(&mut generator, "A shelf"),
        titled::<ShopEnvelope<'_>>(&mut generator, "A shop"),
    ];
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": format!("skewline-{VERSION}.json"),
        "title": "A document saved by Skewline",
        "description": "One design, a whole shelf or the shop's settings. Lengths are in mm and their names end in _mm; \
            angles are in degrees and end in _deg. The program also judges the numbers, when it reads them.",
        "oneOf": kinds,
        "$defs": generator.take_definitions(true),
    })
}

/// A reference to the schema of one kind of document.
fn titled<Document: JsonSchema>(generator: &mut SchemaGenerator, title: &str) -> Value {
    let mut reference = generator.subschema_for::<Document>();
    reference.insert("title".to_owned(), title.into());
    reference.to_value()
}

/// Doc comments are broken where a line of the program ends.
fn on_one_line(schema: &mut Schema) {
    if let Some(Value::String(words)) = schema.get_mut("description") {
        *words = words.replace('\n', " ");
    }
}
