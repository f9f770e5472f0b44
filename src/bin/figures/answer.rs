//! From files to the answer.

use serde_json::{Value, json};

use skewline::design::{Design, Problem, Shop};
use skewline::figures::{self, FiguresError, Known};
use skewline::geometry::{Axis, Plane, SECTION_TOLERANCE, section};
use skewline::piece::Piece;
use skewline::shelf::{ImportError, Imported, read};

use crate::arguments::Arguments;

/// Why there is no answer.
#[derive(Debug)]
pub struct Failure {
    kind: &'static str,
    sentence: String,
    problems: Vec<Problem>,
}

impl Failure {
    /// A command that cannot be read.
    pub fn command(sentence: String) -> Self {
        Self { kind: "command", sentence, problems: Vec::new() }
    }

    /// As printed.
    pub fn as_json(&self) -> Value {
        json!({ "error": { "kind": self.kind, "sentence": self.sentence, "problems": self.problems } })
    }
}

impl From<ImportError> for Failure {
    fn from(error: ImportError) -> Self {
        let sentence = error.to_string();
        match error {
            ImportError::Invalid { problems } => Self { kind: "problems", sentence, problems },
            _ => Self { kind: "file", sentence, problems: Vec::new() },
        }
    }
}

impl From<FiguresError> for Failure {
    fn from(error: FiguresError) -> Self {
        let sentence = error.to_string();
        match error {
            FiguresError::Problems(problems) => Self { kind: "problems", sentence, problems },
            FiguresError::Piece(_) => Self { kind: "geometry", sentence, problems: Vec::new() },
        }
    }
}

/// Every figure and check of the design named.
///
/// # Errors
/// [`Failure`]: a file that cannot be read, or a design that cannot be worked out.
pub fn work_out(arguments: &Arguments) -> Result<Value, Failure> {
    let design = design(&arguments.design)?;
    let shop = arguments.shop.as_deref().map_or_else(|| Ok(Shop::default()), shop)?;
    let worked = figures::work_out(&design, &shop)?;
    let plan = Known::from(figures::plan::plan(&design, &worked, &shop));
    let sections: Vec<Value> = arguments.stations_mm.iter().map(|s| section_at(&worked.piece, *s)).collect();
    let mut answer = json!({
        "format": "skewline-figures",
        "version": 1,
        "name": design.name,
        "figures": worked.figures,
        "checks": worked.checks,
        "plan": plan,
        "sections": sections,
    });
    if arguments.slack {
        answer["slack"] = json!(figures::slack::slack(&design, &shop, &worked.piece));
    }
    Ok(answer)
}

fn text(path: &str) -> Result<String, Failure> {
    std::fs::read_to_string(path).map_err(|error| Failure {
        kind: "file",
        sentence: format!("{path} cannot be read: {error}."),
        problems: Vec::new(),
    })
}

fn design(path: &str) -> Result<Design, Failure> {
    match read(&text(path)?)? {
        Imported::Design(saved) => Ok(saved.design),
        Imported::Shelf(_) | Imported::Shop(_) => Err(Failure {
            kind: "file",
            sentence: format!("{path} does not hold a single design: export one design from the shelf."),
            problems: Vec::new(),
        }),
    }
}

fn shop(path: &str) -> Result<Shop, Failure> {
    match read(&text(path)?)? {
        Imported::Shop(shop) => Ok(*shop),
        Imported::Design(_) | Imported::Shelf(_) => Err(Failure {
            kind: "file",
            sentence: format!("{path} does not hold a shop's settings."),
            problems: Vec::new(),
        }),
    }
}

/// The section of the finished piece square to axis A.
fn section_at(piece: &Piece, station_mm: f64) -> Value {
    let plane = Plane::square_to(&Axis::A, station_mm);
    let moments = section(&piece.solid.finished(), &plane, SECTION_TOLERANCE).moments();
    json!({
        "station_mm": station_mm,
        "area_mm2": moments.area_mm2,
        "centroid_x_mm": moments.centroid[0],
        "centroid_y_mm": moments.centroid[1],
        "second_vertical_mm4": moments.second_vertical_mm4,
        "second_sideways_mm4": moments.second_sideways_mm4,
        "product_mm4": moments.product_mm4,
    })
}
