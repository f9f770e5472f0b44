//! The wood of a design: a row of the table, or one of the turner's own.

use super::coefficients::{Coefficients, coefficients};
use crate::design::text::same_name;
use crate::design::{Design, OwnSpecies, Shop};
use crate::figures::tables::{Basis, Species};

/// What is known of a wood.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Timber<'a> {
    /// Its name.
    pub name: &'a str,
    /// Whether it is known to be a softwood.
    pub softwood: bool,
    /// Density at 12 percent moisture, water included, in kg/m3.
    pub density_12_kg_m3: Option<f64>,
    /// Modulus of rupture at 12 percent moisture, straight grain, in MPa.
    pub rupture_mpa: Option<f64>,
    /// Shear along the grain, in MPa.
    pub shear_mpa: Option<f64>,
    /// Radial and tangential shrinkage from green to ovendry, percent.
    pub shrink_percent: Option<[f64; 2]>,
    /// Radial and tangential change for each percent of moisture, as shares.
    pub change: Coefficients,
    /// Where the figures come from.
    pub source: &'a str,
    /// How they were come by; absent for the turner's own.
    pub basis: Option<Basis>,
    /// Remarks.
    pub note: &'a str,
    /// How its pores lie, as in the table; empty when it is not known.
    pub porosity: &'a str,
}

/// The source of a wood of the turner's own.
const OWN: &str = "your own figures";

impl<'a> Timber<'a> {
    /// The wood of a design: the turner's own of that name first, else the table's.
    #[must_use]
    pub fn of(design: &Design, shop: &'a Shop) -> Option<Self> {
        Self::named(&design.wood.species, shop)
    }

    /// The wood of this name, capitals or not.
    #[must_use]
    pub fn named(name: &str, shop: &'a Shop) -> Option<Self> {
        if let Some(own) = own_named(name, shop) {
            return Some(Self {
                name: &own.name,
                softwood: Species::named(name).is_some_and(|wood| wood.softwood),
                density_12_kg_m3: Some(own.density_kg_m3),
                rupture_mpa: own.rupture_mpa,
                shear_mpa: None,
                shrink_percent: both(own.shrink_radial_percent, own.shrink_tangential_percent),
                change: None,
                source: OWN,
                basis: None,
                note: &own.note,
                porosity: "",
            });
        }
        let wood = Species::named(name)?;
        Some(Self {
            name: wood.name,
            softwood: wood.softwood,
            density_12_kg_m3: wood.density_12_kg_m3,
            rupture_mpa: wood.rupture_mpa,
            shear_mpa: wood.shear_mpa,
            shrink_percent: both(wood.shrink_radial_percent, wood.shrink_tangential_percent),
            change: coefficients(wood.name),
            source: wood.source,
            basis: Some(wood.basis),
            note: wood.notes,
            porosity: wood.porosity,
        })
    }

    /// Density at a moisture content (percent), water included, in kg/m3; `None` where it is not known.
    ///
    /// The figure at 12 percent, with the water's share changed and the volume kept: within about 2 % from 6 to 20
    /// percent of moisture; green wood is up to 8 % lighter.
    #[must_use]
    pub fn density_kg_m3(&self, moisture_percent: f64) -> Option<f64> {
        Some(self.density_12_kg_m3? * (100.0 + moisture_percent.max(0.0)) / 112.0)
    }
}

/// What a wood of the turner's own begins with: the figures of the wood of this name, and where they are from. `None` for
/// a wood that is not known, and for one of the table without a density.
#[must_use]
pub fn own_copy(name: &str, shop: &Shop) -> Option<OwnSpecies> {
    if let Some(own) = own_named(name, shop) {
        return Some(own.clone());
    }
    let wood = Species::named(name)?;
    let memory = if wood.basis == Basis::Memory { "from memory of " } else { "" };
    Some(OwnSpecies {
        name: wood.name.to_owned(),
        density_kg_m3: wood.density_12_kg_m3?,
        rupture_mpa: wood.rupture_mpa,
        shrink_radial_percent: wood.shrink_radial_percent,
        shrink_tangential_percent: wood.shrink_tangential_percent,
        note: format!("To begin with as {}: {memory}{}.", wood.name, wood.source),
    })
}

fn own_named<'a>(name: &str, shop: &'a Shop) -> Option<&'a OwnSpecies> {
    shop.own_species.iter().find(|wood| same_name(&wood.name, name))
}

/// The names of the woods to choose from: the table's, but for those of which the turner has figures of their own, then the
/// turner's own.
#[must_use]
pub fn wood_names(shop: &Shop) -> Vec<String> {
    let table = Species::all().map(|wood| wood.name).filter(|name| own_named(name, shop).is_none());
    table.chain(shop.own_species.iter().map(|wood| wood.name.as_str())).map(str::to_owned).collect()
}

fn both(radial: Option<f64>, tangential: Option<f64>) -> Option<[f64; 2]> {
    Some([radial?, tangential?])
}
