//! Hollows on one line as one hollow, and cuts made twice as one: what they share is kept once.

use std::borrow::Cow;

use crate::geometry::{Region, Removal, Role, Solid, joined};

/// The piece with hollows on one line as one, in the place of the first of them, and without cuts made once more.
pub(super) fn as_one(solid: &Solid) -> Cow<'_, Solid> {
    let mut removals: Vec<Cow<'_, Removal>> = Vec::with_capacity(solid.removals.len());
    for removal in &solid.removals {
        if removals.iter().any(|known| known.role == removal.role && known.region == removal.region) {
            continue;
        }
        let both = removals.iter_mut().find_map(|known| Some((both(known, removal)?, known)));
        match both {
            Some((region, known)) => *known = Cow::Owned(Removal { region, ..*known.as_ref() }),
            None => removals.push(Cow::Borrowed(removal)),
        }
    }
    if removals.len() == solid.removals.len() {
        return Cow::Borrowed(solid);
    }
    let removals = removals.into_iter().map(Cow::into_owned).collect();
    Cow::Owned(Solid { stock: solid.stock, removals, plugs: Vec::new() })
}

/// Two hollows as one, where they are hollows on one line.
fn both(first: &Removal, second: &Removal) -> Option<Region> {
    if first.role != Role::Inside || second.role != Role::Inside {
        return None;
    }
    match (&first.region, &second.region) {
        (Region::Revolved(a), Region::Revolved(b)) => joined(a, b).map(Region::Revolved),
        _ => None,
    }
}
