//! Reading Rust as a list of words: enough to see what a file imports, and no more.

/// The words and marks of a source text, without comments, literals and the file's own tests (which stand at its end).
pub fn words(text: &str) -> Vec<String> {
    let bare = bare(text.split("#[cfg(test)]\nmod ").next().unwrap_or(text));
    let mut words = Vec::new();
    let mut rest = bare.trim_start();
    while let Some(first) = rest.chars().next() {
        let length = match first {
            _ if rest.starts_with("::") => 2,
            _ if is_of_a_name(first) => rest.find(|letter| !is_of_a_name(letter)).unwrap_or(rest.len()),
            _ => first.len_utf8(),
        };
        words.push(rest[..length].to_owned());
        rest = rest[length..].trim_start();
    }
    words
}

fn is_of_a_name(letter: char) -> bool {
    letter.is_alphanumeric() || letter == '_'
}

/// The text with a space in place of every comment, string and letter.
fn bare(text: &str) -> String {
    let mut bare = String::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let skipped = skipped(rest);
        if skipped > 0 {
            bare.push(' ');
            rest = &rest[skipped..];
        } else {
            bare.push(first);
            rest = &rest[first.len_utf8()..];
        }
    }
    bare
}

/// Length of the comment or literal that a text begins with, in bytes; 0 without one.
fn skipped(text: &str) -> usize {
    let until = |from: usize, end: &str| text[from..].find(end).map_or(text.len(), |at| from + at + end.len());
    if text.starts_with("//") {
        return until(2, "\n");
    }
    if text.starts_with("r#\"") {
        return until(3, "\"#");
    }
    if text.starts_with('"') {
        return quoted(text, '"');
    }
    let is_letter = text.starts_with("'\\") || text.chars().nth(2) == Some('\'');
    if text.starts_with('\'') && is_letter { quoted(text, '\'') } else { 0 }
}

/// Length of a quoted text, in bytes.
fn quoted(text: &str, mark: char) -> usize {
    let mut is_escaped = false;
    for (at, letter) in text.char_indices().skip(1) {
        match letter {
            _ if is_escaped => is_escaped = false,
            '\\' => is_escaped = true,
            _ if letter == mark => return at + letter.len_utf8(),
            _ => {}
        }
    }
    text.len()
}
