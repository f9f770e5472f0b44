//! Tables of outside values, as comma-separated text.
#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

/// The rows of a table as fields by heading; lines that start with `#` name its sources.
pub struct Table {
    heads: Vec<String>,
    /// Its rows.
    pub rows: Vec<Vec<String>>,
}

impl Table {
    /// Reads a table with its headings.
    pub fn read(text: &str) -> Self {
        let mut rows: Vec<_> = text.lines().filter(|l| !l.starts_with('#')).map(fields).collect();
        let heads = rows.remove(0);
        assert!(rows.iter().all(|row| row.len() == heads.len()), "a row has too many or too few fields");
        Self { heads, rows }
    }

    /// The field of a row under a heading.
    pub fn get<'a>(&self, row: &'a [String], head: &str) -> &'a str {
        let column = self.heads.iter().position(|h| h == head).unwrap();
        &row[column]
    }
}

/// Fields parted by commas, those with commas of their own in double quotes.
fn fields(line: &str) -> Vec<String> {
    let (mut all, mut quoted) = (vec![String::new()], false);
    for letter in line.chars() {
        match letter {
            '"' => quoted = !quoted,
            ',' if !quoted => all.push(String::new()),
            _ => all.last_mut().unwrap().push(letter),
        }
    }
    all
}
