//! Where the finished piece ends toward the head, how long a blank it needs, and the room for boring on the lathe.

use serde::Serialize;

use super::boring::Boring;
use super::grip::{Grip, Gripped};
use super::known::Known;
use crate::design::{Cut, Design, PassProfile, Shop, Side};
use crate::geometry::{Region, Role};
use crate::piece::Piece;

/// The length of blank that a piece needs.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct NeededLength {
    /// Where the finished piece ends, the farthest of it along the blank, in mm.
    pub piece_mm: f64,
    /// From there to the tenon, the jaws or the drive centre, in mm: negative when they reach into the piece.
    pub waste_mm: f64,
    /// The waste that a parting tool and a stub to saw through need, in mm.
    pub least_waste_mm: f64,
    /// The length that holds the piece, that waste, and what is gripped, as the tenon stands, in mm.
    pub needed_mm: f64,
}

/// Waste between the piece and what holds it, for the parting tool and a stub, in mm. Common practice, no source.
const PARTING_MM: f64 = 5.0;

/// Where the finished piece ends toward the head, the farthest of it along the blank, in mm; `None` where nothing parts
/// it. Of a plane square to a tilted axis the edge counts that the passes on that axis leave.
#[must_use]
pub fn end_mm(design: &Design, piece: &Piece) -> Option<f64> {
    let parted = design.cuts.iter().filter_map(|cut| match cut {
        Cut::Part(plane) if plane.removes == Side::Head => {
            let axis = piece.axis(plane.axis)?;
            let same = piece.solid.with_role(Role::Outside).filter_map(|removal| match &removal.region {
                Region::Revolved(pass) if pass.axis == *axis => Some(&pass.meridian),
                _ => None,
            });
            let over = same.filter(|profile| (profile.start()..=profile.end()).contains(&plane.at_mm));
            let radius = over.map(|profile| profile.radius_before(plane.at_mm)).reduce(f64::min).unwrap_or(0.0);
            Some(axis.point(plane.at_mm, 0.0, 0.0).s + radius * axis.tilt().sin())
        }
        _ => None,
    });
    parted.reduce(f64::min).or_else(|| come_to_nothing(design, piece).reduce(f64::max))
}

/// Where passes come to nothing at their head ends, as stations along the blank.
fn come_to_nothing<'a>(design: &'a Design, piece: &'a Piece) -> impl Iterator<Item = f64> + 'a {
    design.cuts.iter().enumerate().filter_map(|(cut, choice)| {
        let turned = match choice {
            Cut::Pass(pass) if !matches!(pass.profile, PassProfile::Join) => piece.revolved(cut)?,
            _ => return None,
        };
        let end = turned.meridian.end();
        (turned.meridian.radius_before(end) < TO_NOTHING).then(|| turned.axis.point(end, 0.0, 0.0).s)
    })
}

/// A pass this thin, in mm of radius, has come to nothing.
const TO_NOTHING: f64 = 0.5;

/// The blank length that a piece needs.
#[must_use]
pub fn needed_length(design: &Design, piece: &Piece, grip: Option<&Grip>, jaw_depth_mm: f64) -> Known<NeededLength> {
    let Some(end_mm) = end_mm(design, piece) else {
        return Known::missing("Nothing parts the piece from its waste, so that the length it needs is not known.");
    };
    let tenon = grip.and_then(|grip| piece.revolved(grip.cut.filter(|_| grip.what != Gripped::Round)?));
    let (holds_from, needed_mm) = match (tenon, grip) {
        (Some(tenon), _) => (tenon.meridian.start(), tenon.meridian.end().max(end_mm + PARTING_MM)),
        (None, Some(_)) => (piece.head_face - jaw_depth_mm, end_mm + PARTING_MM + jaw_depth_mm),
        (None, None) => (piece.head_face, end_mm + PARTING_MM),
    };
    Known::Value(NeededLength {
        piece_mm: end_mm,
        waste_mm: holds_from - end_mm,
        least_waste_mm: PARTING_MM,
        needed_mm,
    })
}

/// The length of lathe that boring takes, in mm: chuck, work, the longest bit before it, and the drill chuck; `None`
/// where nothing is bored along axis A.
#[must_use]
pub fn boring_length_mm(grip: Option<&Grip>, borings: &[Boring], shop: &Shop) -> Option<f64> {
    let overhang_mm = grip?.overhang_mm?;
    let bits = borings.iter().flat_map(|boring| &boring.steps);
    let longest = bits.map(|bit| bit.reach_mm).reduce(f64::max)?;
    Some(shop.chuck.length_mm + overhang_mm + longest + shop.lathe.drill_chuck_mm)
}
