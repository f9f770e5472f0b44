//! Bringing older documents up to date, one version at a time.

use serde_json::Value;

/// From one version to the next.
#[derive(Clone, Copy)]
pub(super) struct Migration {
    /// Rewrites a design.
    pub(super) design: Step,
    /// Rewrites the shop.
    pub(super) shop: Step,
    /// Rewrites what printers measured.
    pub(super) printers: Step,
}

/// Rewrites a part of a document; `None` where a version has changed nothing that was there before.
pub(super) type Step = Option<fn(Value) -> Value>;

/// The migration at place `n` leads from version `n + 1` to version `n + 2`.
///
/// From 1 to 2 a design may say which pattern it follows. What a design of version 1 says is read as it is, and its
/// pattern is recognised afterwards.
pub(super) const MIGRATIONS: &[Migration] = &[Migration { design: None, shop: None, printers: None }];

/// The first version whose designs may name their pattern.
pub(super) const NAMES_PATTERN: u64 = 2;

/// The version that is written; versions count from 1.
pub const VERSION: u64 = MIGRATIONS.len() as u64 + 1;

/// The steps after `version`, oldest first. Versions count from 1.
fn steps(
    version: u64,
    migrations: &[Migration],
    part: fn(&Migration) -> Step,
) -> impl Iterator<Item = fn(Value) -> Value> {
    let first = usize::try_from(version.saturating_sub(1)).unwrap_or(usize::MAX);
    migrations.iter().skip(first).filter_map(part)
}

/// Whether a part of this version is written otherwise now.
pub(super) fn is_rewritten(version: u64, part: fn(&Migration) -> Step) -> bool {
    steps(version, MIGRATIONS, part).next().is_some()
}

/// Applies every migration after `version`, oldest first.
pub(super) fn bring_up(value: Value, version: u64, migrations: &[Migration], part: fn(&Migration) -> Step) -> Value {
    steps(version, migrations, part).fold(value, |value, step| step(value))
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    fn stamp(mark: &str, value: Value) -> Value {
        let before = value.as_str().unwrap_or_default().to_owned();
        Value::from(before + mark)
    }

    const TWO_STEPS: [Migration; 2] = [
        Migration { design: Some(|value| stamp(">2", value)), shop: None, printers: None },
        Migration {
            design: Some(|value| stamp(">3", value)),
            shop: Some(|value| stamp(">shop 3", value)),
            printers: Some(|value| stamp(">printers 3", value)),
        },
    ];

    #[test]
    fn migrations_run_from_the_version_found_and_in_order() {
        let design = |version| bring_up(json!("v"), version, &TWO_STEPS, |it| it.design);
        assert_eq!(design(1), json!("v>2>3"));
        assert_eq!(design(2), json!("v>3"));
        assert_eq!(design(3), json!("v"));
        assert_eq!(design(u64::MAX), json!("v"));
        assert_eq!(bring_up(json!("v"), 1, &TWO_STEPS, |it| it.shop), json!("v>shop 3"));
        assert_eq!(bring_up(json!("v"), 1, &TWO_STEPS, |it| it.printers), json!("v>printers 3"));
    }
}
