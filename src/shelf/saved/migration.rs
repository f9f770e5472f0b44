//! Bringing older documents up to date, one version at a time.

use serde_json::Value;

/// From one version to the next.
#[derive(Clone, Copy)]
pub(super) struct Migration {
    /// Rewrites a design.
    pub(super) design: fn(Value) -> Value,
    /// Rewrites the shop.
    pub(super) shop: fn(Value) -> Value,
    /// Rewrites what printers measured.
    pub(super) printers: fn(Value) -> Value,
}

/// The migration at place `n` leads from version `n + 1` to version `n + 2`.
pub(super) const MIGRATIONS: &[Migration] = &[];

/// The version that is written; versions count from 1.
pub const VERSION: u64 = MIGRATIONS.len() as u64 + 1;

/// Applies every migration after `version`, oldest first. Versions count from 1.
pub(super) fn bring_up(
    value: Value,
    version: u64,
    migrations: &[Migration],
    part: fn(&Migration) -> fn(Value) -> Value,
) -> Value {
    let first = usize::try_from(version.saturating_sub(1)).unwrap_or(usize::MAX);
    migrations.iter().skip(first).fold(value, |value, migration| part(migration)(value))
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
        Migration { design: |value| stamp(">2", value), shop: |value| value, printers: |value| value },
        Migration {
            design: |value| stamp(">3", value),
            shop: |value| stamp(">shop 3", value),
            printers: |value| stamp(">printers 3", value),
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
