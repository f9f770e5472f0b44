//! The wood of a piece: what is known of it, how moist it is and will be, how it shrinks, what it weighs.

mod coefficients;
pub mod moisture;
mod notes;
mod timber;

use serde::Serialize;

pub use coefficients::coefficients;
pub use timber::{Timber, own_copy, wood_names};

use super::blank::{Blank, Weight};
use super::known::Known;
use crate::design::{Design, Shop};
use crate::geometry::{Region, Role};
use crate::piece::Piece;
use moisture::{growth, in_use_percent};

/// The wood of a design.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WoodFigures {
    /// Where its figures come from; empty for a wood that is not known.
    pub source: String,
    /// How they were come by: "found", "memory" or "computed"; absent for the turner's own and for unknown woods.
    pub basis: Option<&'static str>,
    /// Remarks of the table, or the turner's own.
    pub note: String,
    /// What to know of its use with food and of its dust.
    pub cautions: Vec<&'static str>,
    /// What to know of its dust: what the table or the turner's own note says of it, or that it is to be looked up.
    pub dust: Vec<String>,
    /// Moisture while it is worked, percent of dry mass.
    pub moisture_percent: f64,
    /// Moisture in use, percent of dry mass.
    pub moisture_in_use_percent: f64,
    /// The finished piece at its moisture in use, in g, when the density is known.
    pub finished_in_use_g: Option<f64>,
    /// What drying does, when the wood's shrinkage is known.
    pub drying: Known<Drying>,
}

/// What the change from the moisture now to that in use does. Along the grain wood hardly moves: nothing is reckoned.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Drying {
    /// Growth across the growth rings, as a share; less than 0 for shrinkage.
    pub radial_share: f64,
    /// Growth along the growth rings, as a share.
    pub tangential_share: f64,
    /// What a side of the blank grows across the rings, in mm.
    pub blank_radial_mm: f64,
    /// What a side of the blank grows along the rings, in mm.
    pub blank_tangential_mm: f64,
    /// Every hollow.
    pub hollows: Vec<HollowDrying>,
    /// Growth of what it holds, as a share.
    pub capacity_share: f64,
    /// The same in mL; absent when it is not known what it holds.
    pub capacity_ml: Option<f64>,
}

/// What drying does to a hollow.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct HollowDrying {
    /// The hollow, by its place in working order from 0.
    pub cut: usize,
    /// Its greatest diameter now, in mm.
    pub diameter_mm: f64,
    /// What the diameter that changes least grows, in mm: across the rings, or along the grain in a bowl hollowed across it.
    pub least_growth_mm: f64,
    /// What the diameter along the rings grows, in mm.
    pub most_growth_mm: f64,
    /// How much one diameter is then greater than the other, in mm.
    pub oval_mm: f64,
}

/// The wood's figures. `holds_ml` is what it holds now.
#[must_use]
pub fn wood(design: &Design, shop: &Shop, piece: &Piece, blank: &Blank, holds_ml: Option<f64>) -> WoodFigures {
    let timber = Timber::of(design, shop);
    let (now, then) = (design.wood.moisture_percent, in_use_percent(&design.wood.in_use));
    let finished = |weight: &Weight| weight.finished_g * (100.0 + then) / (100.0 + now);
    let drying = match timber.and_then(|timber| Some((timber, timber.shrink_percent?))) {
        Some((timber, shrink)) => Known::Value(drying(piece, &timber, shrink, (now, then), holds_ml)),
        None => Known::missing(format!("The shrinkage of {:?} is not known.", design.wood.species)),
    };
    WoodFigures {
        source: timber.map_or_else(String::new, |timber| timber.source.to_owned()),
        basis: timber.and_then(|timber| timber.basis).map(|basis| basis.word()),
        note: timber.map_or_else(String::new, |timber| timber.note.to_owned()),
        cautions: notes::cautions(timber.as_ref()),
        dust: notes::dust(&design.wood.species, timber.as_ref()),
        moisture_percent: now,
        moisture_in_use_percent: then,
        finished_in_use_g: blank.weight.value().map(finished),
        drying,
    }
}

fn drying(
    piece: &Piece,
    timber: &Timber<'_>,
    shrink: [f64; 2],
    (now, then): (f64, f64),
    holds_ml: Option<f64>,
) -> Drying {
    let share = |i: usize| growth(timber.change.map(|change| change[i]), shrink[i], now, then);
    let (radial, tangential) = (share(0), share(1));
    let side = 2.0 * piece.solid.stock.half_width();
    let mut hollows = Vec::new();
    for removal in piece.solid.with_role(Role::Inside) {
        let Region::Revolved(hollow) = &removal.region else { continue };
        let diameter_mm = 2.0 * hollow.meridian.largest_radius();
        let lengthwise = hollow.axis.is_lengthwise();
        let least_growth_mm = if lengthwise { diameter_mm * radial } else { 0.0 };
        let most_growth_mm = diameter_mm * tangential;
        let oval_mm = (most_growth_mm - least_growth_mm).abs();
        hollows.push(HollowDrying { cut: removal.cut, diameter_mm, least_growth_mm, most_growth_mm, oval_mm });
    }
    let capacity_share = (1.0 + radial) * (1.0 + tangential) - 1.0;
    Drying {
        radial_share: radial,
        tangential_share: tangential,
        blank_radial_mm: side * radial,
        blank_tangential_mm: side * tangential,
        hollows,
        capacity_share,
        capacity_ml: holds_ml.map(|ml| ml * capacity_share),
    }
}
