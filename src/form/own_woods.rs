//! The woods of the turner's own: added, changed, renamed, taken off the list, and what is said of it.

use super::row::Row;
use super::shop::accepted;
use crate::design::text::same_name;
use crate::design::validation::bounds;
use crate::design::{Design, OwnSpecies, Problem, Shop};

/// The numbers of a wood.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WoodNumber {
    /// Density at 12 percent moisture.
    Density,
    /// Modulus of rupture at 12 percent moisture.
    Rupture,
    /// Radial shrinkage, green to ovendry.
    Radial,
    /// Tangential shrinkage, green to ovendry.
    Tangential,
}

impl WoodNumber {
    /// All four.
    pub const ALL: [Self; 4] = [Self::Density, Self::Rupture, Self::Radial, Self::Tangential];

    /// How it looks on screen.
    #[must_use]
    pub fn row(self) -> Row {
        let shrinkage = |label| {
            Row::new(label, bounds::SHRINKAGE, 0.0, 15.0).fine().note("From green to ovendry, of the green size.")
        };
        match self {
            Self::Density => Row::new("Density, kg/m\u{b3}", bounds::DENSITY, 300.0, 1200.0)
                .note("At 12 percent moisture, water included."),
            Self::Rupture => Row::new("Modulus of rupture, MPa", bounds::RUPTURE, 30.0, 200.0)
                .note("What straight grain bears in bending at 12 percent moisture."),
            Self::Radial => shrinkage("Radial shrinkage, percent"),
            Self::Tangential => shrinkage("Tangential shrinkage, percent"),
        }
    }

    /// What it means that it is not known.
    #[must_use]
    pub const fn unknown(self) -> &'static str {
        match self {
            Self::Density => "",
            Self::Rupture => "Not known: until it is, the strength of a neck cannot be judged.",
            Self::Radial | Self::Tangential => "Not known: what drying does is reckoned once both shrinkages are.",
        }
    }

    /// Whether it may be left unknown.
    #[must_use]
    pub const fn may_be_unknown(self) -> bool {
        !matches!(self, Self::Density)
    }

    /// The number of a wood; `None` where it is not known, or there is no such wood.
    #[must_use]
    pub fn of(self, shop: &Shop, wood: usize) -> Option<f64> {
        let wood = shop.own_species.get(wood)?;
        match self {
            Self::Density => Some(wood.density_kg_m3),
            Self::Rupture => wood.rupture_mpa,
            Self::Radial => wood.shrink_radial_percent,
            Self::Tangential => wood.shrink_tangential_percent,
        }
    }
}

/// The shop with this number of a wood changed; `None` for a number that is not known. A density stays.
///
/// # Errors
///
/// The first problem that the change would bring in.
pub fn set_wood_number(shop: &Shop, wood: usize, number: WoodNumber, value: Option<f64>) -> Result<Shop, Box<Problem>> {
    changed(shop, wood, |wood| match number {
        WoodNumber::Density => wood.density_kg_m3 = value.unwrap_or(wood.density_kg_m3),
        WoodNumber::Rupture => wood.rupture_mpa = value,
        WoodNumber::Radial => wood.shrink_radial_percent = value,
        WoodNumber::Tangential => wood.shrink_tangential_percent = value,
    })
}

/// The shop with a wood named anew, without blanks around its name.
///
/// # Errors
///
/// The first problem that the change would bring in: no name, or one that another wood has.
pub fn rename_wood(shop: &Shop, wood: usize, name: &str) -> Result<Shop, Box<Problem>> {
    changed(shop, wood, |wood| name.trim().clone_into(&mut wood.name))
}

/// The shop with what is noted of a wood changed.
///
/// # Errors
///
/// The first problem that the change would bring in.
pub fn set_wood_note(shop: &Shop, wood: usize, note: &str) -> Result<Shop, Box<Problem>> {
    changed(shop, wood, |wood| note.trim().clone_into(&mut wood.note))
}

fn changed(shop: &Shop, wood: usize, change: impl FnOnce(&mut OwnSpecies)) -> Result<Shop, Box<Problem>> {
    accepted(shop, |changed| {
        if let Some(wood) = changed.own_species.get_mut(wood) {
            change(wood);
        }
    })
}

/// The shop with one more wood, the last of the list: of this name, its figures as given.
///
/// # Errors
///
/// The first problem that it would bring in: no name, one that another wood has, a figure out of bounds, a full list.
pub fn add_wood(shop: &Shop, name: &str, figures: OwnSpecies) -> Result<Shop, Box<Problem>> {
    put_wood(shop, usize::MAX, OwnSpecies { name: name.trim().to_owned(), ..figures })
}

/// The shop with a wood put into its list at this place, or at its end.
///
/// # Errors
///
/// As [`add_wood`].
pub fn put_wood(shop: &Shop, place: usize, wood: OwnSpecies) -> Result<Shop, Box<Problem>> {
    // Judged as the last of the list, so that it is this wood that is told of, and put in its place then.
    let mut added = accepted(shop, |added| added.own_species.push(wood))?;
    if let Some([here @ .., new]) = added.own_species.get_mut(place..) {
        here.iter_mut().for_each(|other| std::mem::swap(other, new));
    }
    Ok(added)
}

/// Takes a wood off the list; `None` when there is no such wood.
pub fn take_off_wood(shop: &mut Shop, wood: usize) -> Option<OwnSpecies> {
    (wood < shop.own_species.len()).then(|| shop.own_species.remove(wood))
}

/// Whether a design is of the wood of this name, capitals or not.
#[must_use]
pub fn is_of(design: &Design, name: &str) -> bool {
    same_name(&design.wood.species, name)
}

/// Keeps a design on its wood when that is named anew: the design is of `after` where it was of `before`.
pub fn follow_rename(design: &mut Design, before: &str, after: &str) {
    if is_of(design, before) {
        after.clone_into(&mut design.wood.species);
    }
}

/// Which designs are of a wood.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct WoodUses {
    /// The design on the bench is.
    pub on_bench: bool,
    /// How many others on the shelf are.
    pub on_shelf: usize,
}

impl WoodUses {
    /// As the start of a sentence; `None` when no design is of the wood.
    fn who(self) -> Option<String> {
        Some(match (self.on_bench, self.on_shelf) {
            (false, 0) => return None,
            (true, 0) => "The design on the bench is".to_owned(),
            (true, 1) => "The design on the bench and another on the shelf are".to_owned(),
            (true, others) => format!("The design on the bench and {others} others on the shelf are"),
            (false, 1) => "A design on the shelf is".to_owned(),
            (false, others) => format!("{others} designs on the shelf are"),
        })
    }

    /// What is said when a wood is taken off the list. `in_table`: the table has a wood of that name.
    #[must_use]
    pub fn when_taken_off(self, name: &str, in_table: bool) -> String {
        let done = format!("\u{201c}{name}\u{201d} is taken off the list.");
        match (self.who(), in_table) {
            (None, _) => done,
            (Some(who), true) => format!("{done} {who} of it, and now by the table's figures for that name."),
            (Some(who), false) => format!("{done} {who} of it: weight, strength and drying are no longer known."),
        }
    }

    /// What is said when a wood is named anew, and the design on the bench with it.
    #[must_use]
    pub fn when_renamed(self, before: &str, after: &str) -> String {
        let mut said = format!("\u{201c}{before}\u{201d} is now \u{201c}{after}\u{201d}.");
        if self.on_bench {
            said.push_str(" The design on the bench goes along.");
        }
        match self.on_shelf {
            0 => {}
            1 => said.push_str(" A design on the shelf still has the old name: choose its species anew."),
            others => {
                said.push_str(&format!(" {others} designs on the shelf still have the old name: choose theirs anew."));
            }
        }
        said
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::history::History;

    fn plum() -> OwnSpecies {
        OwnSpecies { name: "Plum".to_owned(), density_kg_m3: 750.0, rupture_mpa: Some(90.0), ..OwnSpecies::default() }
    }

    fn shop(names: [&str; 3]) -> Shop {
        names.into_iter().fold(Shop::default(), |shop, name| add_wood(&shop, name, plum()).unwrap())
    }

    fn names(shop: &Shop) -> Vec<&str> {
        shop.own_species.iter().map(|wood| wood.name.as_str()).collect()
    }

    #[test]
    fn a_wood_is_added_with_its_name_tidied() {
        let shop = add_wood(&Shop::default(), "  Damson ", plum()).unwrap();
        assert_eq!(names(&shop), ["Damson"]);
        assert_eq!(WoodNumber::Density.of(&shop, 0), Some(750.0));
        assert_eq!((WoodNumber::Radial.of(&shop, 0), WoodNumber::Density.of(&shop, 1)), (None, None));
    }

    #[test]
    fn names_stay_unique_and_given() {
        let shop = shop(["Plum", "Damson", "Medlar"]);
        for refused in ["", "  ", "DAMSON", " medlar"] {
            let why = rename_wood(&shop, 0, refused).unwrap_err();
            assert!(why.field.starts_with("own_species["), "{why}");
            let why = add_wood(&shop, refused, plum()).unwrap_err();
            assert_eq!(why.field, "own_species[3].name");
        }
        assert!(rename_wood(&shop, 0, &"x".repeat(bounds::NAME_LETTERS + 1)).is_err());
        assert_eq!(names(&rename_wood(&shop, 1, " damson ").unwrap()), ["Plum", "damson", "Medlar"]);
    }

    #[test]
    fn every_number_is_set_within_its_bound_and_forgotten_but_for_the_density() {
        let shop = shop(["Plum", "Damson", "Medlar"]);
        for number in WoodNumber::ALL {
            let look = number.row();
            assert!(look.bound.holds(look.from) && look.bound.holds(look.to) && look.from < look.to);
            let set = set_wood_number(&shop, 1, number, Some(look.to)).unwrap();
            assert_eq!(number.of(&set, 1), Some(look.to));
            assert_eq!(number.of(&set, 0), number.of(&shop, 0), "the others stay");
            for bad in [f64::NAN, f64::INFINITY, -1.0, look.bound.to * 1.001] {
                assert!(set_wood_number(&shop, 1, number, Some(bad)).is_err(), "{number:?} {bad}");
            }
            let forgotten = set_wood_number(&set, 1, number, None).unwrap();
            assert_eq!(number.of(&forgotten, 1).is_none(), number.may_be_unknown());
            assert_eq!(set_wood_number(&shop, 9, number, Some(look.to)).unwrap(), shop, "no such wood");
        }
    }

    #[test]
    fn a_wood_taken_off_comes_back_to_its_place_unless_its_name_is_taken() {
        let before = shop(["Plum", "Damson", "Medlar"]);
        for place in 0..3 {
            let mut after = before.clone();
            let wood = take_off_wood(&mut after, place).unwrap();
            assert_eq!(after.own_species.len(), 2);
            assert_eq!(put_wood(&after, place, wood.clone()).unwrap(), before);
            let taken = add_wood(&after, &wood.name, plum()).unwrap();
            assert_eq!(put_wood(&taken, place, wood).unwrap_err().field, "own_species[3].name");
        }
        assert_eq!(take_off_wood(&mut before.clone(), 3), None);
    }

    #[test]
    fn a_full_list_takes_no_more() {
        let full = (0..bounds::OWN_SPECIES)
            .fold(Shop::default(), |shop, i| add_wood(&shop, &format!("Plum {i}"), plum()).unwrap());
        assert_eq!(add_wood(&full, "One more", plum()).unwrap_err().field, "own_species");
    }

    #[test]
    fn designs_of_a_wood_are_told_of() {
        let said = |on_bench, on_shelf| WoodUses { on_bench, on_shelf }.when_taken_off("Plum", false);
        assert_eq!(said(false, 0), "\u{201c}Plum\u{201d} is taken off the list.");
        assert!(said(true, 0).contains("The design on the bench is of it: weight, strength"));
        assert!(said(true, 3).contains("The design on the bench and 3 others on the shelf are of it"));
        assert!(said(false, 1).contains("A design on the shelf is of it"));
        assert!(WoodUses { on_bench: true, on_shelf: 0 }.when_taken_off("Pear", true).contains("the table's figures"));
        let renamed = WoodUses { on_bench: true, on_shelf: 1 }.when_renamed("Plum", "Damson");
        assert!(renamed.contains("goes along") && renamed.contains("still has the old name"));
        assert!(!WoodUses::default().when_renamed("Plum", "Damson").contains("shelf"));
    }

    #[test]
    fn a_design_is_of_a_wood_capitals_or_not() {
        let mut design = crate::design::starters::demo();
        design.wood.species = " PLUM".to_owned();
        assert!(is_of(&design, "plum ") && !is_of(&design, "plums"));
    }

    #[test]
    fn no_step_back_or_forward_leads_to_a_name_the_shop_has_not() {
        let mut design = crate::design::starters::demo();
        let mut history = History::default();
        for species in ["Plum", "Ash", " PLUM "] {
            history.before_change(&design, None);
            species.clone_into(&mut design.wood.species);
        }
        design = history.undo(&design).unwrap();
        let rename = |design: &mut Design| follow_rename(design, "Plum", "Damson");
        rename(&mut design);
        history.change_throughout(rename);
        assert_eq!(design.wood.species, "Ash", "a design of another wood stays on it");
        let ahead = history.redo(&design).unwrap();
        assert_eq!(ahead.wood.species, "Damson");
        let back = history.undo(&ahead).unwrap();
        assert_eq!(history.undo(&back).unwrap().wood.species, "Damson");
    }
}
