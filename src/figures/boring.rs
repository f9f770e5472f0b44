//! Figure 8: which bits to which depths for the finished bore, and what is left for the scraper.

use serde::Serialize;

use crate::design::{Bit, BitKind, Cut, Design, Shop};
use crate::geometry::frame::tolerance::ROUNDING_MM;
use crate::geometry::line::order::sort_by_number_falling;
use crate::geometry::{Meridian, Revolved, Station};
use crate::piece::Piece;

/// The boring of one hollow.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Boring {
    /// The hollow, by its place in working order from 0.
    pub cut: usize,
    /// The bits in the order of use, widest first.
    pub steps: Vec<BoreStep>,
    /// The most the scraper takes anywhere, measured along the radius or along the axis, whichever is less, in mm.
    pub most_to_scrape_mm: f64,
    /// What the scraper takes in all, in mL.
    pub scraped_ml: f64,
    /// Depth of the finished bore, in mm.
    pub depth_mm: f64,
    /// The deepest that the point of any bit reaches, in mm from the mouth.
    pub deepest_point_mm: f64,
    /// What stands in the way.
    pub warnings: Vec<BoringWarning>,
}

/// What stands in the way of a bore.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum BoringWarning {
    /// No bit owned goes into it.
    NoBitFits,
    /// It is deeper than is easily bored and smoothed (common practice, no source: about 50 mm).
    Deep {
        /// The limit of the shop, in mm.
        limit_mm: f64,
    },
    /// A bit is more than the lathe can drive.
    BitTooWide {
        /// The bit, in mm.
        diameter_mm: f64,
        /// The widest the lathe drives, in mm.
        limit_mm: f64,
    },
    /// The bits stop far short of the floor.
    StopsShort {
        /// What is left along the axis, in mm.
        left_mm: f64,
    },
}

/// One bit to one depth.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct BoreStep {
    /// The bit's kind.
    pub kind: BitKind,
    /// The bit's diameter, in mm.
    pub diameter_mm: f64,
    /// How deep its cutting edge goes from the mouth, in mm.
    pub depth_mm: f64,
    /// How deep its point goes, in mm.
    pub point_depth_mm: f64,
    /// How far the bit stands out of the drill chuck: how deep it can bore, in mm.
    pub reach_mm: f64,
}

/// A further bit must go at least this much deeper to be worth fitting, in mm.
const WORTH_FITTING: f64 = 1.5;
/// Most bits for one bore.
const MOST_BITS: usize = 5;

/// The boring schedule of every hollow. Depths within 0.01 mm.
///
/// Each bit goes as deep as its corner stays inside the finished profile by the scraping allowance, along the axis and,
/// for bits narrower than the mouth less the allowance, along the radius: a bit as wide as the bore makes its side. The
/// point of each bit stops short of the finished floor by the allowance too, so that it leaves no dimple.
/// Checked against a fact of the trade: a second bit 1/2 in smaller, taken 1/4 in deeper, guides a 1/4 in rounding
/// (common practice, no source).
#[must_use]
pub fn schedules(design: &Design, piece: &Piece, shop: &Shop) -> Vec<Boring> {
    let hollows = design.cuts.iter().enumerate().filter(|(_, cut)| matches!(cut, Cut::Hollow(_)));
    hollows.filter_map(|(cut, _)| Some(schedule(cut, piece.revolved(cut)?, shop))).collect()
}

fn schedule(cut: usize, hollow: &Revolved, shop: &Shop) -> Boring {
    let profile = &hollow.meridian;
    let allowance = shop.limits.scraping_allowance_mm.max(0.0);
    let steps = choose(profile, &shop.bits, allowance);
    let depth_mm = profile.end() - profile.start();
    let mut boring = Boring {
        cut,
        most_to_scrape_mm: most_to_scrape(profile, &steps),
        scraped_ml: scraped(profile, &steps) / 1000.0,
        depth_mm,
        deepest_point_mm: steps.iter().map(|s| s.point_depth_mm).fold(0.0, f64::max),
        warnings: Vec::new(),
        steps,
    };
    boring.warnings = warnings(&boring, shop);
    boring
}

/// The widest bit that fits, then every narrower one that goes worthwhile deeper.
fn choose(profile: &Meridian, owned: &[Bit], allowance: f64) -> Vec<BoreStep> {
    let mut bits: Vec<Bit> =
        owned.iter().copied().filter(|b| b.diameter_mm.is_finite() && b.diameter_mm > 0.0).collect();
    sort_by_number_falling(&mut bits, |bit| bit.diameter_mm);
    let mut steps: Vec<BoreStep> = Vec::new();
    for bit in bits {
        let reached = steps.last().map_or(0.0, |s| s.depth_mm);
        let point = bit.point_mm.max(0.0);
        let above_the_floor = profile.end() - profile.start() - allowance - point;
        let depth = corner_depth(profile, bit.diameter_mm / 2.0, allowance).min(bit.reach_mm).min(above_the_floor);
        if depth > reached + WORTH_FITTING && steps.len() < MOST_BITS {
            steps.push(BoreStep {
                kind: bit.kind,
                diameter_mm: bit.diameter_mm,
                depth_mm: depth,
                point_depth_mm: depth + point,
                reach_mm: bit.reach_mm,
            });
        }
    }
    steps
}

/// How deep a bit of this radius may go from the mouth, in mm: 0 when it does not fit.
fn corner_depth(profile: &Meridian, radius: f64, allowance: f64) -> f64 {
    let mouth = profile.points()[0].r;
    let full_size = radius + allowance > mouth;
    let side = if full_size { radius } else { radius + allowance };
    let along_the_axis = first_below(profile, radius) - allowance;
    let along_the_radius = first_below(profile, side);
    (along_the_axis.min(along_the_radius) - profile.start()).max(0.0)
}

/// The first station where the profile is narrower than `radius`; its end if it never is.
fn first_below(profile: &Meridian, radius: f64) -> f64 {
    let wanted = radius - ROUNDING_MM;
    let points = profile.points();
    if points[0].r < wanted {
        return profile.start();
    }
    for pair in points.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        if b.r < wanted {
            let part = if a.r > b.r { (a.r - wanted) / (a.r - b.r) } else { 0.0 };
            return a.t + (b.t - a.t) * part.clamp(0.0, 1.0);
        }
    }
    profile.end()
}

/// The radius bored at a depth from the mouth.
fn bored_radius(steps: &[BoreStep], depth: f64) -> f64 {
    steps.iter().filter(|s| s.depth_mm >= depth).map(|s| s.diameter_mm / 2.0).fold(0.0, f64::max)
}

fn most_to_scrape(profile: &Meridian, steps: &[BoreStep]) -> f64 {
    let deepest_at =
        |radius: f64| steps.iter().filter(|s| s.diameter_mm / 2.0 >= radius).map(|s| s.depth_mm).fold(0.0, f64::max);
    let points = profile.points().iter().map(|Station { t, r }| {
        let depth = t - profile.start();
        let along_the_radius = r - bored_radius(steps, depth);
        let along_the_axis = depth - deepest_at(*r - ROUNDING_MM);
        along_the_radius.min(along_the_axis).max(0.0)
    });
    points.fold(0.0, f64::max)
}

/// Finished volume less bored volume, in mm3. Exact for the flattened profile.
fn scraped(profile: &Meridian, steps: &[BoreStep]) -> f64 {
    use std::f64::consts::PI;
    let frustum = |pair: &[Station]| {
        let (h, a, b) = (pair[1].t - pair[0].t, pair[0].r, pair[1].r);
        PI * h * (a * a + a * b + b * b) / 3.0
    };
    let finished: f64 = profile.points().windows(2).map(frustum).sum();
    let mut reached = 0.0;
    let bored: f64 = steps
        .iter()
        .map(|s| {
            let length = s.depth_mm - reached;
            reached = s.depth_mm;
            PI * s.diameter_mm * s.diameter_mm / 4.0 * length
        })
        .sum();
    (finished - bored).max(0.0)
}

fn warnings(boring: &Boring, shop: &Shop) -> Vec<BoringWarning> {
    let Some(first) = boring.steps.first() else { return vec![BoringWarning::NoBitFits] };
    let mut warnings = Vec::new();
    if boring.depth_mm > shop.limits.bore_depth_mm {
        warnings.push(BoringWarning::Deep { limit_mm: shop.limits.bore_depth_mm });
    }
    if first.diameter_mm > shop.lathe.largest_bit_mm {
        let (diameter_mm, limit_mm) = (first.diameter_mm, shop.lathe.largest_bit_mm);
        warnings.push(BoringWarning::BitTooWide { diameter_mm, limit_mm });
    }
    let left_mm = boring.depth_mm - boring.steps.last().map_or(0.0, |s| s.depth_mm);
    if left_mm > shop.limits.scraping_allowance_mm + MUCH_TO_SCRAPE {
        warnings.push(BoringWarning::StopsShort { left_mm });
    }
    warnings
}

/// More than this left along the axis, over the allowance, is worth a word, in mm: the point of a Forstner bit, about
/// 3 mm, always stays above the floor, and a bit that gains less than 1.5 mm is not fitted. Common practice, no source.
const MUCH_TO_SCRAPE: f64 = 5.0;
