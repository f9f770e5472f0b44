//! What is wanted of a piece.

use crate::design::pattern::{BlankOnHand, BoredEndScoop, HandleEnd, Wanted};
use crate::design::{Design, Shop, Wood};
use crate::figures::tables::measures::{Kitchen, MM3_PER_ML};

/// What is wanted of a scoop that is bored from the end.
#[derive(Clone, Debug, PartialEq)]
pub struct Wants {
    /// What it holds level with its handle, in mm3: dry goods struck, a liquid as it stands.
    pub holds_mm3: f64,
    /// What it is for: a name from the table of contents.
    pub contents: String,
    /// What it is made of: a name from the table of species, or of the turner's own woods.
    pub species: String,
    /// The blank on hand; without one the least that will do is found.
    pub blank: Option<BlankOnHand>,
    /// The angle of the handle to the bowl.
    pub tilt: TiltWanted,
    /// Length of the handle from behind the floor of the bowl to its end, in mm.
    pub handle_mm: f64,
    /// How the handle ends.
    pub handle_end: HandleEnd,
    /// Whether only bits that the shop has are bored with.
    pub own_bits_only: bool,
}

/// The angle of the handle to the bowl.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TiltWanted {
    /// So many degrees; 0 is a straight handle.
    Degrees(f64),
    /// As much as goes.
    AsMuchAsGoes,
}

/// Share of a cup that a first scoop holds: an eighth, a coffee measure. A choice of ours, no source.
const FIRST_SHARE_OF_CUP: f64 = 0.125;

impl Wants {
    /// A sensible beginning in this shop: a coffee measure, the least blank that will do, a handle of 140 mm.
    #[must_use]
    pub fn usual(shop: &Shop) -> Self {
        Self {
            holds_mm3: FIRST_SHARE_OF_CUP * Kitchen::of(shop.length_unit).cup().volume_ml * MM3_PER_ML,
            contents: "coffee, ground".to_owned(),
            species: "Black cherry".to_owned(),
            blank: None,
            tilt: TiltWanted::Degrees(7.5),
            handle_mm: 140.0,
            handle_end: HandleEnd::Round,
            own_bits_only: true,
        }
    }

    /// What the choices of a piece do not say themselves.
    pub(super) fn wanted(&self) -> Wanted {
        Wanted {
            holds_mm3: self.holds_mm3,
            blank: self.blank,
            most_tilt: self.tilt == TiltWanted::AsMuchAsGoes,
            own_bits_only: self.own_bits_only,
        }
    }

    /// The design of these choices, of the wood and for the contents that are wanted.
    pub(super) fn design(&self, scoop: &BoredEndScoop) -> Design {
        let design = scoop.design("Scoop");
        let wood = Wood { species: self.species.clone(), ..design.wood.clone() };
        Design { wood, contents: self.contents.clone(), ..design }
    }
}
