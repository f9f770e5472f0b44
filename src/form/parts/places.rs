//! Putting cuts into the list and taking them out, while those that are switched off keep their places between the
//! others.

use crate::design::{Cut, Design, OffCut};

/// Puts a cut at a place, or last.
pub(super) fn insert(design: &mut Design, place: usize, cut: Cut) {
    let place = place.min(design.cuts.len());
    for off in design.off.iter_mut().filter(|off| off.place > place) {
        off.place += 1;
    }
    design.cuts.insert(place, cut);
}

/// Takes the cut at a place out.
pub(super) fn take(design: &mut Design, place: usize) -> Option<Cut> {
    let cut = (place < design.cuts.len()).then(|| design.cuts.remove(place))?;
    for off in design.off.iter_mut().filter(|off| off.place > place) {
        off.place -= 1;
    }
    Some(cut)
}

/// Switches the cut at a place off: it stands after those that were switched off before it in the list.
pub(super) fn switch_off(design: &mut Design, place: usize) {
    let before = design.off.iter().take_while(|off| off.place <= place).count();
    if let Some(cut) = take(design, place) {
        design.off.insert(before, OffCut { place, cut });
    }
}

/// Switches a cut on again, among the others where it was.
pub(super) fn switch_on(design: &mut Design, off: usize) {
    if off >= design.off.len() {
        return;
    }
    let OffCut { place, cut } = design.off.remove(off);
    let place = place.min(design.cuts.len());
    for later in design.off.iter_mut().skip(off) {
        later.place = later.place.max(place) + 1;
    }
    design.cuts.insert(place, cut);
}

/// The cut that takes out the plug fitted at a place.
pub(super) fn taking_out(design: &Design, fit: usize) -> Option<usize> {
    design.cuts.get(fit).filter(|cut| matches!(cut, Cut::FitPlug(_)))?;
    let mut later = design.cuts.iter().enumerate().skip(fit + 1);
    let next = later.find(|(_, cut)| matches!(cut, Cut::FitPlug(_) | Cut::TakeOutPlug));
    next.filter(|(_, cut)| matches!(cut, Cut::TakeOutPlug)).map(|(place, _)| place)
}

/// The taking out that was switched off with a plug.
pub(super) fn taking_out_off(design: &Design, off: usize) -> Option<usize> {
    let is_fit = matches!(design.off.get(off)?.cut, Cut::FitPlug(_));
    let mut later = design.off.iter().enumerate().skip(off + 1);
    let next = later.find(|(_, other)| matches!(other.cut, Cut::FitPlug(_) | Cut::TakeOutPlug));
    next.filter(|(_, other)| is_fit && matches!(other.cut, Cut::TakeOutPlug)).map(|(place, _)| place)
}
