//! The wooden jaws that hold a bowl while it is hollowed across the grain: recess, slot, block, grip, and what the scoop
//! clears as it spins in them.
//!
//! Planned for bowls that are round about the axis across them. Stations along that axis grow from the opening into the
//! wood, so the front of the jaws faces the tailstock.

mod block;
mod bowl;
mod clear;
mod grip;
mod recess;
mod section;
mod slot;

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

pub use block::{Block, GAP_MM, SEGMENTS};
pub use clear::Clear;
pub use grip::{ASSUMPTIONS, FRICTION, JawGrip, PRESS_N};
pub use recess::{Recess, closes_by_mm, leaves_at_n};
pub use slot::{SLOT_ROOM_MM, Slot};

use super::handle::handle_axis;
use super::known::Known;
use super::turning::Turning;
use crate::design::units::Quantity;
use crate::design::{AxisName, Cut, Design, Shop, Units};
use crate::geometry::{Axis, Pace, Role, Solid, Vector, at_once};
use crate::piece::Piece;
use bowl::{Around, Bowl};

/// The jaws for one hollow across the grain.
#[derive(Clone, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct JawsFor {
    /// The hollow, by its place in working order from 0.
    pub cut: usize,
    /// Its axis.
    pub axis: AxisName,
    /// Its jaws, or why none are planned.
    pub jaws: Known<Jaws>,
}

/// Wooden jaws for one bowl.
#[derive(Clone, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Jaws {
    /// Diameter of the bowl at its girth, and of the recess there, in mm.
    pub girth_mm: f64,
    /// How far the front of the jaws lies past the girth, toward the opening, in mm: negative where the opening is too low for
    /// the jaws to reach the girth.
    pub past_girth_mm: f64,
    /// Station of the front of the jaws along the axis of the hollow, in mm.
    pub front_at_mm: f64,
    /// How far the rim stands proud of the front of the jaws, so that it can be faced, in mm.
    pub proud_mm: f64,
    /// Diameter of the rim at the opening, in mm.
    pub rim_mm: f64,
    /// Diameter of the recess at its mouth, in mm.
    pub mouth_mm: f64,
    /// By how much the mouth is narrower than the girth, in mm on the radius.
    pub undercut_mm: f64,
    /// How far the lip leans over the bowl, in degrees.
    pub lip_deg: f64,
    /// Depth of the recess under its middle, in mm, with the relief.
    pub depth_mm: f64,
    /// The recess by depth, from the front on.
    pub recess: Vec<RecessAt>,
    /// The share of the girth on which the bowl bears: the rest is handle, and flats.
    pub bears_share: f64,
    /// The slot for the handle; absent where nothing stands out of the bowl.
    pub slot: Option<Slot>,
    /// The wood that the jaws are made of.
    pub block: Block,
    /// How far each jaw has to move outward for the bowl to go in, in mm.
    pub open_by_mm: f64,
    /// The least girth that the same jaws hold, in mm of diameter.
    pub takes_from_mm: f64,
    /// What the scoop sweeps and clears.
    pub clear: Clear,
    /// What keeps the bowl in the jaws.
    pub grip: JawGrip,
}

/// The recess at one depth.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct RecessAt {
    /// Depth from the front of the jaws, in mm.
    pub depth_mm: f64,
    /// Its diameter there, in mm.
    pub diameter_mm: f64,
}

/// How far the rim stands proud of the jaws, in mm: for a facing cut and the corner of the tool. A choice of ours, no source.
pub const PROUD_MM: f64 = 1.5;
/// A lip that is undercut by less than this, in mm on the radius, is lost in a lining or in the give of the wood: common
/// practice, no source.
pub const LEAST_UNDERCUT_MM: f64 = 0.5;
/// How much deeper than the bowl the middle of the recess is turned, in mm, so that the bowl bears on its girth: common
/// practice, no source.
pub const RELIEF_MM: f64 = 1.0;
/// A bowl that differs from round by less than this bears on the jaws, in mm on the radius.
const FIT_MM: f64 = 0.3;
/// The least share of the girth that bears on jaws that are planned.
const LEAST_BEARING: f64 = 0.6;
/// Stations at which the recess is given.
const STATIONS: usize = 16;
/// Over so much of the lip, in mm, its lean is measured.
const LIP_MM: f64 = 0.5;

/// The jaws for every hollow across the grain, in working order. `turning` are the steps that spin the work.
#[must_use]
pub fn jaws(design: &Design, piece: &Piece, shop: &Shop, turning: &[Turning]) -> Vec<JawsFor> {
    at_once(jaws_in_slices(design, piece, shop, turning, &Pace::unbroken()))
}

/// As [`jaws`], in slices.
pub async fn jaws_in_slices(
    design: &Design,
    piece: &Piece,
    shop: &Shop,
    turning: &[Turning],
    pace: &Pace,
) -> Vec<JawsFor> {
    let mut all = Vec::new();
    for (cut, choice) in design.cuts.iter().enumerate() {
        let Cut::Hollow(hollow) = choice else { continue };
        let Some(axis) = piece.axis(hollow.axis).filter(|axis| !axis.is_lengthwise()) else { continue };
        let planned = match turning.iter().find(|step| step.cut == cut) {
            Some(turning) => plan(design, piece, shop, cut, axis, turning, pace).await,
            None => Err(NO_BOWL.to_owned()),
        };
        let jaws = planned.map_or_else(Known::missing, Known::Value);
        all.push(JawsFor { cut, axis: hollow.axis, jaws });
    }
    all
}

/// Why there are no jaws where there is no bowl.
const NO_BOWL: &str = "There is no wood for jaws to hold around this hollow.";

/// The outside with its openings before a hollow: what the jaws find.
fn opened(piece: &Piece, cut: usize) -> Solid {
    let mut solid = piece.solid.clone();
    let stays = |role: Role, of: usize| role == Role::Opening || (role == Role::Outside && of < cut);
    solid.removals.retain(|removal| stays(removal.role, removal.cut));
    solid.plugs.clear();
    solid
}

async fn plan(
    design: &Design,
    piece: &Piece,
    shop: &Shop,
    cut: usize,
    axis: &Axis,
    turning: &Turning,
    pace: &Pace,
) -> Result<Jaws, String> {
    let hollow = piece.revolved(cut).ok_or(NO_BOWL)?;
    let bowl = Bowl::new(opened(piece, cut), axis, hollow.meridian.start()).ok_or(NO_BOWL)?;
    let front = bowl.open + PROUD_MM;
    let girth = girth(&bowl).ok_or(NO_BOWL)?;
    let mut outside = Vec::with_capacity(STATIONS + 1);
    for i in 0..=STATIONS {
        // Closer together toward the bottom, where a ball closes fast.
        let share = (std::f64::consts::FRAC_PI_2 * i as f64 / STATIONS as f64).sin();
        let t = front + (bowl.bottom - front) * share;
        outside.push((t, bowl.around(t).ok_or(NO_BOWL)?));
        pace.pause().await;
    }
    let at_girth = bowl.around(girth).ok_or(NO_BOWL)?;
    let mouth = outside.first().map_or(0.0, |(_, around)| around.middle);
    let recess = Recess { girth_mm: at_girth.middle, mouth_mm: mouth, past_girth_mm: girth - front };
    let rim = bowl.around(bowl.open).map_or(mouth, |around| around.middle);
    let bears = |around: &Around| {
        around.radii.iter().filter(|radius| (**radius - around.middle).abs() <= FIT_MM).count() as f64
            / around.radii.len() as f64
    };
    let gripping = outside.iter().filter(|(t, _)| *t <= girth).map(|(_, around)| bears(around));
    let bears_share = gripping.fold(bears(&at_girth), f64::min);
    if bears_share < LEAST_BEARING {
        let apart = at_girth.radii.iter().fold(0.0, |most, radius| f64::max(most, at_girth.middle - radius));
        let apart = Units::from(shop).show_with_unit(apart, Quantity::Length);
        return Err(format!(
            "The bowl is not round about the axis it is hollowed on: its radius differs by {apart}. Jaws are planned for \
             round bowls only; make yours to fit it, over more than half its girth."
        ));
    }
    pace.pause().await;
    let lean = match bowl.around(front + LIP_MM) {
        Some(within) => ((within.middle - mouth) / LIP_MM).atan(),
        None => 0.0,
    };
    let block =
        Block::around(&recess, bowl.bottom - front + RELIEF_MM, shop, |radius| depth_at(&outside, front, radius));
    let toward = toward(axis, handle_axis(design, piece), turning);
    let slot = slot::slot(&bowl, toward, front, block.diameter_mm / 2.0);
    pace.pause().await;
    let spindle = front + block.thickness_mm + shop.carrier.reach_mm;
    let clear = clear::clear(&bowl, toward, turning.swing.radius_mm, spindle);
    Ok(Jaws {
        girth_mm: 2.0 * recess.girth_mm,
        past_girth_mm: recess.past_girth_mm,
        front_at_mm: front,
        proud_mm: PROUD_MM,
        rim_mm: 2.0 * rim,
        mouth_mm: 2.0 * recess.mouth_mm,
        undercut_mm: if recess.past_girth_mm > 0.0 { recess.undercut_mm().max(0.0) } else { 0.0 },
        lip_deg: lean.to_degrees(),
        depth_mm: bowl.bottom - front + RELIEF_MM,
        recess: outside
            .iter()
            .map(|(t, around)| RecessAt { depth_mm: t - front, diameter_mm: 2.0 * around.middle })
            .collect(),
        bears_share,
        slot,
        open_by_mm: recess.open_by_mm(SEGMENTS),
        takes_from_mm: 2.0 * (recess.girth_mm - closes_by_mm(GAP_MM - block::GAP_LEFT_MM, SEGMENTS)),
        clear,
        grip: JawGrip::new(lean, turning.force_n().unwrap_or(shop.lathe.force_limit_n)),
        block,
    })
}

/// The station where the bowl is widest, in mm: where the axis comes nearest to axis A, about which the outside is turned;
/// elsewhere where it is wider by more than it may differ from round. `None` where the axis misses the wood.
fn girth(bowl: &Bowl<'_>) -> Option<f64> {
    let near = bowl.axis.see(bowl.axis.nearest(&Axis::A).here).t.min(bowl.bottom);
    let wide = |t: f64| bowl.around(t).map(|around| around.middle);
    let mut best = (near, wide(near)? + FIT_MM);
    for i in 0..STATIONS {
        let t = bowl.open + (bowl.bottom - bowl.open) * i as f64 / STATIONS as f64;
        if let Some(radius) = wide(t).filter(|radius| *radius > best.1) {
            best = (t, radius);
        }
    }
    Some(best.0)
}

/// The direction from the axis in which the handle lies: along its own axis, to the side on which the farthest wood is.
fn toward(axis: &Axis, handle: &Axis, turning: &Turning) -> Vector {
    let far = turning.swing.place.map_or(Vector::ZERO, |place| {
        let (sin, cos) = place.clock_deg.unwrap_or(0.0).to_radians().sin_cos();
        Vector::new(place.radius_mm * sin, place.radius_mm * cos, place.station_mm)
    });
    let across = |vector: Vector| vector - axis.along() * vector.dot(axis.along());
    let far = across(far - axis.origin());
    let along = across(handle.along());
    let along = if along.dot(far) < 0.0 { Vector::ZERO - along } else { along };
    along.unit().or_else(|| far.unit()).unwrap_or(axis.up())
}

/// The greatest depth from the front at which the recess is at least this wide, in mm; 0 where it never is.
fn depth_at(outside: &[(f64, Around)], front: f64, radius: f64) -> f64 {
    outside.iter().rev().find(|(_, around)| around.middle >= radius).map_or(0.0, |(t, _)| t - front)
}
