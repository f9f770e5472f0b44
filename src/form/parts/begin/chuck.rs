//! The tenon that the chuck holds, and cuts that it has to hold the piece for.

use super::along::pass;
use super::tenths::to_tenth;
use crate::design::tenon::is_tenon;
use crate::design::{AxisName, Chuck, Cut, Design, Node};
use crate::form::parts::Addition;
use crate::form::parts::bodies::Bench;

/// How much narrower a tenon is than the blank, or than the widest that the jaws grip, in mm.
const TENON_SHOULDER_MM: f64 = 4.0;
const NO_TENON: &str = "The chuck would hold it, and there is no tenon.";

pub(super) fn has_tenon(design: &Design) -> bool {
    (0..design.cuts.len()).any(|cut| is_tenon(design, cut))
}

/// Whether a pass stands on another axis than A, which is turned after all that the chuck holds.
pub(super) fn is_moved(design: &Design) -> bool {
    design.cuts.iter().any(|cut| matches!(cut, Cut::Pass(pass) if pass.axis != AxisName::A))
}

/// The cut at a place, with a tenon where it needs one that the design has not.
pub(super) fn in_chuck(bench: Bench<'_>, place: usize, cut: Cut) -> Result<Addition, &'static str> {
    let tenon = match has_tenon(bench.design) {
        true => None,
        false => Some((0, tenon(bench).ok_or(NO_TENON)?)),
    };
    Ok(Addition { cuts: std::iter::once((place, cut)).chain(tenon).collect(), ..Addition::default() })
}

/// The tenon that the jaws grip, where the design has none.
pub(super) fn tenon(bench: Bench<'_>) -> Option<Cut> {
    let (design, chuck) = (bench.design, &bench.shop.chuck);
    let length_mm = design.blank.length_mm;
    let widest_mm = 2.0 * bench.half_mm() - TENON_SHOULDER_MM;
    let diameter_mm =
        to_tenth(widest_mm.min(chuck.jaw_to_mm - TENON_SHOULDER_MM).max(chuck.jaw_from_mm).min(widest_mm));
    let from_mm = to_tenth(length_mm - Chuck::tenon_mm(chuck.jaw_depth_mm));
    let nodes = vec![Node::line(from_mm, diameter_mm), Node::line(length_mm, diameter_mm)];
    (!has_tenon(design) && !is_moved(design)).then(|| pass(design, "tenon", AxisName::A, nodes))
}
