//! Figure 14: the blank that all of it can be cut from, what is cut away, and what it weighs.

use serde::Serialize;

use super::kept;
use super::known::Known;
use super::marks::AxisMarks;
use super::wood::Timber;
use crate::design::{Design, Piece, Shop};
use crate::geometry::Mass;

/// The blank a piece needs.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Blank {
    /// The least side of a square blank that every pass finds wood in and every drive centre a footing, in mm.
    pub least_square_side_mm: f64,
    /// The least diameter of a round blank, in mm.
    pub least_round_diameter_mm: f64,
    /// The length as designed, tenon and waste included, in mm.
    pub length_mm: f64,
    /// Volume of the blank as designed, in mL.
    pub blank_ml: f64,
    /// Volume of the finished piece, in mL.
    pub finished_ml: f64,
    /// The share of the blank that is cut away, 0 to 1.
    pub cut_away_share: f64,
    /// Weights, when the density of the wood is known.
    pub weight: Known<Weight>,
}

/// Weights at the moisture the wood has while it is worked.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Weight {
    /// Density, water included, in kg/m3.
    pub density_kg_m3: f64,
    /// The blank, in g.
    pub blank_g: f64,
    /// The finished piece, in g.
    pub finished_g: f64,
}

/// Directions around each pass. A multiple of four, so that upright and level are among them; between them a round
/// stands out by at most 1 - cos(TAU / 48) of its radius, 0.9 %.
const CLOCKS: usize = 24;
/// Steps along each pass, in mm.
const STEP: f64 = 8.0;

/// The blank a piece needs. Sides within 0.1 mm and diameters within 0.2 mm, volumes within 0.1 %, weights as far as the wood is
/// like the table's average.
#[must_use]
pub fn blank(design: &Design, piece: &Piece, marks: &[AxisMarks], shop: &Shop, finished: &Mass) -> Blank {
    let stock = &piece.solid.stock;
    let points = kept::points(piece, &kept::even_clocks(CLOCKS), STEP, kept::kept_by_passes(piece));
    let within = points.iter().filter(|p| (0.0..=stock.length).contains(&p.s));
    let footing = shop.centres.drive_diameter_mm / 2.0 + shop.centres.margin_mm;
    let mut half_side: f64 =
        marks.iter().map(|m| m.head.x_mm.abs().max(m.head.y_mm.abs()) + footing).fold(0.0, f64::max);
    let mut radius: f64 = marks.iter().map(|m| m.head.distance_mm + footing).fold(0.0, f64::max);
    for point in within {
        half_side = half_side.max(point.x.abs()).max(point.y.abs());
        radius = radius.max(point.radius());
    }
    let blank_mm3 = stock.area() * stock.length;
    Blank {
        least_square_side_mm: 2.0 * half_side,
        least_round_diameter_mm: 2.0 * radius,
        length_mm: stock.length,
        blank_ml: blank_mm3 / 1000.0,
        finished_ml: finished.volume_mm3 / 1000.0,
        cut_away_share: (1.0 - finished.volume_mm3 / blank_mm3).clamp(0.0, 1.0),
        weight: weight(design, shop, blank_mm3, finished),
    }
}

fn weight(design: &Design, shop: &Shop, blank_mm3: f64, finished: &Mass) -> Known<Weight> {
    let name = &design.wood.species;
    let density = Timber::named(name, shop).and_then(|wood| wood.density_kg_m3(design.wood.moisture_percent));
    let Some(density_kg_m3) = density else {
        return Known::missing(format!("The density of {name:?} is not in the table: choose a wood from the list."));
    };
    // 1 kg/m3 is 1e-6 g/mm3.
    let grams = |mm3: f64| mm3 * density_kg_m3 * 1e-6;
    Known::Value(Weight { density_kg_m3, blank_g: grams(blank_mm3), finished_g: grams(finished.volume_mm3) })
}
