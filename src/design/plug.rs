//! The plugs of a design, and how a plug's spigot fits its bore.

use super::axis_name::AxisName;
use super::cut::{Cut, Hollow, Plug};
use super::document::Design;
use super::nodes::{geometry_nodes, hollow_nodes};
use crate::geometry::{FLATTENING, Meridian, Station};

/// The plugs of a design, each with the cut that fits it.
pub(crate) fn plugs(design: &Design) -> impl Iterator<Item = (usize, &Plug)> {
    design.cuts.iter().enumerate().filter_map(|(cut, choice)| match choice {
        Cut::FitPlug(plug) => Some((cut, plug)),
        _ => None,
    })
}

/// Station of the tail face, in mm: as far as a plug stands out, or 0.
pub(crate) fn tail_face(design: &Design) -> f64 {
    -plugs(design).map(|(_, plug)| plug.stands_out_mm()).fold(0.0, f64::max)
}

/// Rounding in figures typed to a thousandth is no misfit, in mm.
const SLACK_MM: f64 = 1e-3;

/// Why a spigot does not go into its bore.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Misfit {
    /// It is wider than the bore at the bowl-end face.
    Wider {
        /// The bore's diameter there, in mm.
        bore_mm: f64,
    },
    /// It reaches deeper than the bore is as wide as it.
    Longer {
        /// How deep the bore is that wide, in mm.
        deep_mm: f64,
    },
}

/// Why the spigot does not go into the bores about axis A; `None` when it does, when it has no length, or when no bore
/// about axis A is open at the bowl-end face.
///
/// Exact for bores flattened within 0.01 mm. A bore about another axis is not looked at.
pub(crate) fn misfit(design: &Design, plug: &Plug) -> Option<Misfit> {
    let bores: Vec<Meridian> = bores(design).collect();
    if bores.is_empty() || plug.spigot_length_mm <= 0.0 {
        return None;
    }
    let bore_mm = bores.iter().map(|bore| 2.0 * bore.radius_after(0.0)).fold(0.0, f64::max);
    if plug.spigot_diameter_mm > bore_mm + SLACK_MM {
        return Some(Misfit::Wider { bore_mm });
    }
    let radius = (plug.spigot_diameter_mm - SLACK_MM) / 2.0;
    let deep_mm = bores.iter().map(|bore| narrower_at(bore, radius)).fold(0.0, f64::max);
    (plug.spigot_length_mm > deep_mm + SLACK_MM).then_some(Misfit::Longer { deep_mm })
}

/// Makes every spigot as much narrower and shorter as its bore asks for.
pub(crate) fn fit_all(design: &mut Design) {
    for cut in 0..design.cuts.len() {
        let Some(Cut::FitPlug(plug)) = design.cuts.get(cut) else { continue };
        let mut plug = *plug;
        if let Some(Misfit::Wider { bore_mm }) = misfit(design, &plug) {
            plug.spigot_diameter_mm = bore_mm;
        }
        if let Some(Misfit::Longer { deep_mm }) = misfit(design, &plug) {
            plug.spigot_length_mm = deep_mm;
        }
        design.cuts[cut] = Cut::FitPlug(plug);
    }
}

/// Makes the spigots that fit a bore of one diameter fit one of another with the same play.
pub(crate) fn follow_bore(design: &mut Design, from_mm: f64, to_mm: f64) {
    for cut in &mut design.cuts {
        if let Cut::FitPlug(plug) = cut
            && plug.spigot_diameter_mm <= from_mm
            && (to_mm - from_mm).is_finite()
        {
            let wider = plug.spigot_diameter_mm + to_mm - from_mm;
            plug.spigot_diameter_mm = wider.max(0.5 * to_mm).min(plug.disc_diameter_mm);
        }
    }
}

/// The bores about axis A that are open at the bowl-end face and reach past it.
fn bores(design: &Design) -> impl Iterator<Item = Meridian> + '_ {
    let profile = |hollow: &Hollow| {
        let nodes = geometry_nodes(&hollow_nodes(&hollow.shape), hollow.mouth_mm);
        Meridian::from_nodes(&nodes, FLATTENING).ok().filter(|bore| bore.end() > 0.0)
    };
    design.cuts.iter().filter_map(move |cut| match cut {
        Cut::Hollow(hollow) if hollow.axis == AxisName::A => profile(hollow),
        _ => None,
    })
}

/// The first station past the bowl-end face where a bore is narrower than `radius`; its end when it never is.
fn narrower_at(bore: &Meridian, radius: f64) -> f64 {
    let mut before = Station::new(0.0, bore.radius_after(0.0));
    if before.r < radius {
        return 0.0;
    }
    for &point in bore.points().iter().filter(|point| point.t > 0.0) {
        if point.r < radius {
            let share = (before.r - radius) / (before.r - point.r);
            return before.t + (point.t - before.t) * share;
        }
        before = point;
    }
    bore.end()
}
