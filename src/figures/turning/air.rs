//! Figure 10: how much of each turn the tool spends in air.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

use super::looked::{INSIDE_MM, Looked};
use super::step::Step;
use crate::figures::place::blank_station;
use crate::geometry::Pace;

/// The air met by one pass.
#[derive(Clone, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct AirCut {
    /// Stations along the axis, rising; those without wood are left out.
    pub stations: Vec<AirAt>,
    /// The stretch where the tool goes deepest before it cuts without a break; absent when it does so from the first
    /// touch on.
    pub worst: Option<WorstAir>,
}

/// The air at one station. Radii are from the axis of the pass.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct AirAt {
    /// Station along the axis, in mm.
    pub at_mm: f64,
    /// Station of the axis there along the blank, in mm.
    pub station_mm: f64,
    /// The radius the pass turns to, in mm.
    pub size_mm: f64,
    /// The radius where the tool first touches wood, in mm: the swing there.
    pub first_touch_mm: f64,
    /// The radius where the circle is first wholly in wood, in mm; absent when the pass is at size before that.
    pub full_cut_mm: Option<f64>,
    /// The share of a turn in air, 0 to 1, at five even radii from first touch to full cut or, without one, to size.
    pub air_shares: [f64; 5],
    /// Its mean over those radii: what a tool meets that is fed in at a constant rate.
    pub mean_air_share: f64,
}

impl AirAt {
    /// How deep the tool goes while its cut is broken, in mm.
    #[must_use]
    pub fn broken_mm(&self) -> f64 {
        (self.first_touch_mm - self.full_cut_mm.unwrap_or(self.size_mm)).max(0.0)
    }
}

/// The worst stretch of a pass.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct WorstAir {
    /// Where it starts, in mm along the axis.
    pub from_mm: f64,
    /// Where it ends, in mm along the axis.
    pub to_mm: f64,
    /// The most that the tool goes in before it cuts without a break, in mm.
    pub broken_mm: f64,
    /// The station where that is, in mm along the axis.
    pub at_mm: f64,
    /// The greatest mean share of a turn in air in the stretch, 0 to 1.
    pub mean_air_share: f64,
}

/// The worst stretch goes on while the broken cut is at least this share of the deepest.
const AS_BAD: f64 = 0.9;
/// A broken cut no deeper than this is none, in mm.
const BROKEN_MM: f64 = 0.05;

/// The air of a pass. Radii within 0.02 mm; shares within 0.004 of a turn, their mean over radius within 0.001.
pub(super) async fn air_cut(step: &Step<'_>, looked: &[Looked<'_>], pace: &Pace) -> Option<AirCut> {
    if !step.is_pass {
        return None;
    }
    let turned = step.turned;
    let size = |t: f64| turned.meridian.least_at(t);
    let mut stations: Vec<AirAt> = Vec::with_capacity(looked.len());
    for look in looked {
        let at_mm = look.at_mm;
        stations.extend(air_at(look, blank_station(&turned.axis, at_mm), size(at_mm)));
        pace.pause().await;
    }
    let worst = worst(&stations);
    Some(AirCut { stations, worst })
}

fn air_at(look: &Looked<'_>, station_mm: f64, size_mm: f64) -> Option<AirAt> {
    let Looked { at_mm, around, farthest } = look;
    let at_mm = *at_mm;
    let first_touch_mm = farthest.as_ref()?.radius;
    // Wood within the size is not cut: there is no air to speak of.
    let cuts = first_touch_mm > size_mm;
    let full_cut_mm = if cuts { around.wholly_wood(size_mm) } else { None };
    let last = full_cut_mm.unwrap_or(size_mm).min(first_touch_mm);
    let mut air_shares = [1.0; 5];
    if first_touch_mm - last < INSIDE_MM {
        let share = if cuts { 0.0 } else { 1.0 };
        return Some(AirAt {
            at_mm,
            station_mm,
            size_mm,
            first_touch_mm,
            full_cut_mm,
            air_shares: [share; 5],
            mean_air_share: share,
        });
    }
    for (i, share) in air_shares.iter_mut().enumerate().skip(1) {
        let is_full = i == 4 && full_cut_mm.is_some();
        let radius = first_touch_mm + (last - first_touch_mm) * i as f64 / 4.0;
        *share = if is_full { 0.0 } else { around.air_share(radius) };
    }
    let mean_air_share = around.mean_air_share(last, first_touch_mm);
    Some(AirAt { at_mm, station_mm, size_mm, first_touch_mm, full_cut_mm, air_shares, mean_air_share })
}

fn worst(stations: &[AirAt]) -> Option<WorstAir> {
    let mut deepest: Option<(usize, f64)> = None;
    for (i, air) in stations.iter().enumerate() {
        if air.broken_mm() > deepest.map_or(BROKEN_MM, |known| known.1) {
            deepest = Some((i, air.broken_mm()));
        }
    }
    let (at, broken_mm) = deepest?;
    let as_bad = |i: &usize| stations[*i].broken_mm() >= AS_BAD * broken_mm;
    let first = (0..at).rev().take_while(as_bad).last().unwrap_or(at);
    let last = (at + 1..stations.len()).take_while(as_bad).last().unwrap_or(at);
    let stretch = &stations[first..=last];
    Some(WorstAir {
        from_mm: stretch[0].at_mm,
        to_mm: stretch[stretch.len() - 1].at_mm,
        broken_mm,
        at_mm: stations[at].at_mm,
        mean_air_share: stretch.iter().map(|air| air.mean_air_share).fold(0.0, f64::max),
    })
}
