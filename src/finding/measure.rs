//! The bore that holds a measure: its depth, and how high its lip is where the deepest bore is not enough.

use std::f64::consts::PI;

use super::wants::Wants;
use crate::design::pattern::{BoredEndScoop, USUAL_LIP_SHARE};
use crate::design::{Cut, Design, Shop};
use crate::figures::handle::handle_level;
use crate::figures::hold::Vessel;
use crate::figures::summary::{holds_liquid, repose};
use crate::geometry::frame::tolerance::SAME_MM;
use crate::piece::Piece;

/// Depth over diameter of the shallowest bore that is still a bowl. A choice of ours, no source.
const SHALLOWEST: f64 = 0.5;
/// The highest lip, as a share of the bore's radius: a spoon still goes in over it. A choice of ours, no source.
const HIGHEST_LIP_SHARE: f64 = 0.4;
/// The blank in which a bore is measured, over its diameter, at the least.
const ROOM_FOR_BORE: f64 = 2.0;
/// A depth is found in steps of this, in mm, and a lip in steps of this share.
const DEPTH_STEP_MM: f64 = 0.05;
const LIP_STEP: f64 = 0.002;
/// The rounding of the floor over the bore's diameter, and the most of it, in mm.
const ROUNDING_SHARE: f64 = 0.3;
const MOST_ROUNDING_MM: f64 = 12.0;
/// How near the measure is met, as a share of it.
pub(super) const NEAR: f64 = 0.005;

/// The scoop with this bore.
pub(super) fn bored(scoop: &BoredEndScoop, diameter_mm: f64, depth_mm: f64) -> BoredEndScoop {
    let rounding_mm = (ROUNDING_SHARE * diameter_mm).min(MOST_ROUNDING_MM).min(depth_mm);
    BoredEndScoop { bore_diameter_mm: diameter_mm, bore_depth_mm: depth_mm, rounding_mm, ..scoop.clone() }
}

/// How deep this bore may be in this shop, in mm: neither deeper than is bored well, nor than the bit reaches.
pub(super) fn deepest_mm(shop: &Shop, diameter_mm: f64) -> f64 {
    let reach =
        shop.bits.iter().filter(|bit| bit.diameter_mm <= diameter_mm + SAME_MM).map(|bit| bit.reach_mm - bit.point_mm);
    shop.limits.bore_depth_mm.min(reach.fold(0.0, f64::max))
}

/// Whether a bore of this diameter may hold the measure at all: the whole of it, straight and full to its lip.
pub(super) fn may_hold(shop: &Shop, diameter_mm: f64, wanted_mm3: f64) -> bool {
    PI / 4.0 * diameter_mm * diameter_mm * deepest_mm(shop, diameter_mm) >= wanted_mm3
}

/// The scoop bored with this diameter so that it holds the measure level with its handle within [`NEAR`]: as deep as it
/// takes with the usual lip, or as deep as goes with a higher one. `Err` is the most it can hold, or the least, in mm3.
pub(super) fn holding(
    scoop: &BoredEndScoop,
    shop: &Shop,
    diameter_mm: f64,
    wants: &Wants,
) -> Result<BoredEndScoop, f64> {
    let wanted_mm3 = wants.holds_mm3;
    let holds_mm3 = |scoop: &BoredEndScoop| holds_mm3(wants.design(scoop), shop);
    let (least, most) = (SHALLOWEST * diameter_mm, deepest_mm(shop, diameter_mm));
    if most <= least {
        return Err(0.0);
    }
    // What the bore holds does not hang on the blank, as long as it is wide enough.
    let wide_mm = scoop.blank_side_mm.max(ROOM_FOR_BORE * diameter_mm);
    let low_lip = BoredEndScoop { lip_share: USUAL_LIP_SHARE, blank_side_mm: wide_mm, ..scoop.clone() };
    let by_depth = |depth_mm: f64| bored(&low_lip, diameter_mm, depth_mm);
    let (shallow, deep) = (holds_mm3(&by_depth(least)), holds_mm3(&by_depth(most)));
    if wanted_mm3 < shallow {
        return Err(shallow);
    }
    let found = if wanted_mm3 <= deep {
        root(least..most, (shallow, deep), DEPTH_STEP_MM, wanted_mm3, |depth| holds_mm3(&by_depth(depth))).map(by_depth)
    } else {
        let by_lip = |lip_share: f64| BoredEndScoop { lip_share, ..by_depth(most) };
        let full = holds_mm3(&by_lip(HIGHEST_LIP_SHARE));
        if wanted_mm3 > full {
            return Err(full);
        }
        let lips = USUAL_LIP_SHARE..HIGHEST_LIP_SHARE;
        root(lips, (deep, full), LIP_STEP, wanted_mm3, |lip| holds_mm3(&by_lip(lip))).map(by_lip)
    };
    found.map(|found| BoredEndScoop { blank_side_mm: scoop.blank_side_mm, ..found }).ok_or(deep)
}

/// What the hollow of a scoop holds level with its handle, in mm3, its outside not yet turned.
pub(super) fn holds_mm3(mut design: Design, shop: &Shop) -> f64 {
    let level = Piece::resolve(&design, &design.limits.over(&shop.limits)).map(|piece| handle_level(&design, &piece));
    let (liquid, repose) = (holds_liquid(&design), repose(&design));
    design.cuts.retain(|cut| matches!(cut, Cut::Hollow(_) | Cut::Saw(_)));
    let (Ok(level), Ok(piece)) = (level, Piece::resolve(&design, &design.limits.over(&shop.limits))) else {
        return 0.0;
    };
    let Ok(vessel) = Vessel::new(&piece.solid) else { return 0.0 };
    match liquid {
        true => vessel.hold(level, 0.0).volume_mm3,
        false => vessel.struck(level, repose).volume_mm3,
    }
}

/// Most halvings of a search.
const MOST_STEPS: usize = 24;

/// Where a rising quantity comes to `wanted`, rounded to steps of `step`; `None` where it is not met within [`NEAR`] there.
/// False position, with the weight of an end that stays halved each time (the Illinois rule).
pub(super) fn root(
    within: std::ops::Range<f64>,
    ends: (f64, f64),
    step: f64,
    wanted: f64,
    of: impl Fn(f64) -> f64,
) -> Option<f64> {
    let (mut low, mut high) = ((within.start, ends.0 - wanted), (within.end, ends.1 - wanted));
    let near = |off: f64| off.abs() <= 0.2 * NEAR * wanted;
    let mut at = if near(high.1) { high.0 } else { low.0 };
    let mut off = if near(high.1) { high.1 } else { low.1 };
    for _ in 0..MOST_STEPS {
        if near(off) || high.0 - low.0 < step {
            break;
        }
        at = low.0 + (high.0 - low.0) * (-low.1 / (high.1 - low.1)).clamp(0.05, 0.95);
        off = of(at) - wanted;
        if off < 0.0 {
            low = (at, off);
            high.1 /= 2.0;
        } else {
            high = (at, off);
            low.1 /= 2.0;
        }
    }
    let rounded = ((at / step).round() * step).clamp(within.start, within.end);
    ((of(rounded) - wanted).abs() <= NEAR * wanted).then_some(rounded)
}
