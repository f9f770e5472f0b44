//! Names of files.

/// Most letters taken from a design's name.
const MOST_LETTERS: usize = 60;

/// The name of a file for something of this name, fit for every system: `larkspur-coffee-scoop.skewline.json`.
///
/// `extension` is what stands after the last dot. Letters and digits of any script stay, in small letters; everything
/// else becomes a hyphen.
#[must_use]
pub fn file_name(name: &str, extension: &str) -> String {
    let mut kept = String::new();
    for letter in name.chars().take(MOST_LETTERS).flat_map(char::to_lowercase) {
        match letter.is_alphanumeric() {
            true => kept.push(letter),
            false if kept.is_empty() || kept.ends_with('-') => {}
            false => kept.push('-'),
        }
    }
    let kept = kept.trim_end_matches('-');
    let kept = if kept.is_empty() { "design" } else { kept };
    format!("{kept}.skewline.{extension}")
}

#[cfg(test)]
mod tests {
    use super::file_name;

    #[test]
    fn names_of_files_are_fit_for_every_system() {
        assert_eq!(file_name("Larkspur coffee scoop", "json"), "larkspur-coffee-scoop.skewline.json");
        assert_eq!(file_name("  ../1 3/8\" L\u{f6}ffel?  ", "svg"), "1-3-8-l\u{f6}ffel.skewline.svg");
        assert_eq!(file_name("...", "json"), "design.skewline.json");
        assert_eq!(file_name(&"x".repeat(500), "json").len(), 60 + ".skewline.json".len());
    }
}
