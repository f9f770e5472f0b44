//! The command line.

/// How the command is called.
pub const USAGE: &str = "\
Prints every figure and check of a saved Skewline design as JSON.

    figures saved.json [--shop shop.json] [--at-station 20,40] [--slack]

    saved.json     a design exported from the page
    --shop         the shop's settings, as exported from the page; otherwise the default shop
    --at-station   also sections of the finished piece square to axis A at these stations, in mm
    --slack        also how far each mark, depth and diameter may be off; takes a second or so

Exit code 0: an answer. 1: {\"error\": ...}, the design cannot be worked out. 2: the command cannot be read.";

/// What was asked.
#[derive(Debug, Default, PartialEq)]
pub struct Arguments {
    /// Whether only the usage is wanted.
    pub help: bool,
    /// The saved design.
    pub design: String,
    /// The saved shop.
    pub shop: Option<String>,
    /// Stations of sections, in mm.
    pub stations_mm: Vec<f64>,
    /// Whether the slack is wanted.
    pub slack: bool,
}

impl Arguments {
    /// Reads the words after the command's name.
    ///
    /// # Errors
    /// A sentence that says what cannot be read.
    pub fn read(words: impl Iterator<Item = String>) -> Result<Self, String> {
        let mut arguments = Self::default();
        let mut words = words;
        while let Some(word) = words.next() {
            match word.as_str() {
                "--help" | "-h" => arguments.help = true,
                "--shop" => arguments.shop = Some(words.next().ok_or("--shop needs a file: --shop shop.json")?),
                "--slack" => arguments.slack = true,
                "--at-station" => {
                    let list = words.next().ok_or("--at-station needs stations in mm: --at-station 20,40")?;
                    arguments.stations_mm = stations(&list)?;
                }
                option if option.starts_with('-') => return Err(format!("there is no option {option}; see --help")),
                _ if arguments.design.is_empty() => arguments.design = word,
                _ => return Err(format!("one design at a time: {word:?} is one too many")),
            }
        }
        if arguments.design.is_empty() && !arguments.help {
            return Err("name a saved design: figures saved.json".into());
        }
        Ok(arguments)
    }
}

fn stations(list: &str) -> Result<Vec<f64>, String> {
    let station = |text: &str| {
        let number = text.trim().parse::<f64>().ok().filter(|n| n.is_finite());
        number.ok_or_else(|| format!("{text:?} is not a station in mm: write --at-station 20,40"))
    };
    list.split(',').map(station).collect()
}
