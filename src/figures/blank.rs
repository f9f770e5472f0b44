//! Figure 14: the blank that all of it can be cut from, tenon and waste included, what is cut away, and what it weighs.

use serde::Serialize;

use super::end::{NeededLength, needed_length};
use super::grip::grip;
use super::known::Known;
use super::marks::AxisMarks;
use super::section_needed::{SectionNeeded, section_needed};
use super::wood::Timber;
use crate::design::{BlankSection, Design, Shop};
use crate::geometry::{Mass, grams};
use crate::piece::Piece;

/// The blank a piece needs.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Blank {
    /// The least side of a square blank that every pass finds wood in, every centre that bears on it a footing, and the
    /// plug made from it its disc, in mm.
    pub least_square_side_mm: f64,
    /// The least diameter of a round blank, in mm.
    pub least_round_diameter_mm: f64,
    /// The length as designed from the bowl end on, tenon and waste included, in mm.
    pub length_mm: f64,
    /// The length of wood to cut, in mm: as designed, and before the bowl end what the plug needs that is made from it.
    pub length_to_cut_mm: f64,
    /// The length that the piece, the waste for parting it and what is gripped need.
    pub needed: Known<NeededLength>,
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

/// A blank is asked for in steps of this, in mm.
const STEP_MM: f64 = 0.5;
/// Search error of the least blank, in mm.
const ROUNDING_MM: f64 = 0.1;

impl Blank {
    /// The least side or diameter of a blank of this shape, in mm.
    #[must_use]
    pub fn least_mm(&self, section: &BlankSection) -> f64 {
        match section {
            BlankSection::Square { .. } => self.least_square_side_mm,
            BlankSection::Round { .. } => self.least_round_diameter_mm,
        }
    }

    /// The side or diameter to ask for, in mm: the least one and its search error, rounded up to 0.5 mm.
    #[must_use]
    pub fn wanted_mm(&self, section: &BlankSection) -> f64 {
        ((self.least_mm(section) + ROUNDING_MM) / STEP_MM).ceil() * STEP_MM
    }
}

/// The blank a piece needs. Sides and diameters within 0.1 mm, volumes within 0.1 %, weights as far as the wood is like the
/// table's average.
#[must_use]
pub fn blank(design: &Design, piece: &Piece, marks: &[AxisMarks], shop: &Shop, finished: &Mass) -> Blank {
    let grip = grip(design, piece, &shop.chuck);
    let stock = &piece.solid.stock;
    let SectionNeeded { mut half_side_mm, mut radius_mm } = section_needed(piece);
    let has_plug = !piece.solid.plugs.is_empty();
    let ends = [(true, shop.centres.drive_diameter_mm), (!has_plug, shop.centres.live_diameter_mm)];
    for axis in marks {
        for (mark, (bears, diameter_mm)) in [&axis.head, &axis.tail].into_iter().zip(ends) {
            let footing = diameter_mm / 2.0 + shop.centres.margin_mm;
            if bears {
                half_side_mm = half_side_mm.max(mark.x_mm.abs().max(mark.y_mm.abs()) + footing);
                radius_mm = radius_mm.max(mark.distance_mm + footing);
            }
        }
    }
    // A disc that does not come out of the blank has to be found elsewhere.
    if let Some((_, plug)) = design.plug_of_blank() {
        half_side_mm = half_side_mm.max(plug.disc_diameter_mm / 2.0);
        radius_mm = radius_mm.max(plug.disc_diameter_mm / 2.0);
    }
    let blank_mm3 = stock.area() * stock.length;
    Blank {
        least_square_side_mm: 2.0 * half_side_mm,
        least_round_diameter_mm: 2.0 * radius_mm,
        length_mm: stock.length,
        length_to_cut_mm: design.length_to_cut_mm(),
        needed: needed_length(design, piece, grip.as_ref(), shop.chuck.jaw_depth_mm),
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
    let weighs = |mm3: f64| grams(mm3, density_kg_m3);
    Known::Value(Weight { density_kg_m3, blank_g: weighs(blank_mm3), finished_g: weighs(finished.volume_mm3) })
}
