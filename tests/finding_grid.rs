//! The search against brute force over small grids of bits, depths, tilts, crossings and necks, which measures and judges
//! every piece itself: nothing on a grid does what is wanted better than what was found, or where nothing was found.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use std::f64::consts::PI;

use proptest::prelude::*;
use skewline::design::starters::BoredEndScoop;
use skewline::design::{Cut, Design, Shop};
use skewline::figures::checks::Verdict;
use skewline::figures::handle::handle_level;
use skewline::figures::hold::Vessel;
use skewline::figures::summary::{holds_liquid, repose};
use skewline::figures::work_out;
use skewline::finding::{Answer, BlankOnHand, Offer, TiltWanted, Wants, find_at_once};
use skewline::piece::Piece;

/// How near the measure is met, as a share of it: what the page promises.
const NEAR: f64 = 0.005;

/// A shop with these bits only, in sixteenths of an inch.
fn shop(sixteenths: &[f64]) -> Shop {
    let mut shop = Shop::default();
    let diameter_mm = |sixteenths: &f64| sixteenths * 25.4 / 16.0;
    shop.bits.retain(|bit| sixteenths.iter().any(|it| (bit.diameter_mm - diameter_mm(it)).abs() < 0.01));
    assert_eq!(shop.bits.len(), sixteenths.len());
    shop
}

fn usual(shop: &Shop) -> Wants {
    Wants::usual(shop)
}

fn design(scoop: &BoredEndScoop, wants: &Wants) -> Design {
    let mut design = scoop.design("any");
    design.wood.species.clone_from(&wants.species);
    design.contents.clone_from(&wants.contents);
    design
}

/// What the bore holds level with the handle, in mm3; 0 where there is no such piece.
fn holds_mm3(design: &Design, shop: &Shop) -> f64 {
    let limits = design.limits.over(&shop.limits);
    let Ok(piece) = Piece::resolve(design, &limits) else { return 0.0 };
    let level = handle_level(design, &piece);
    let mut bored = design.clone();
    bored.cuts.retain(|cut| matches!(cut, Cut::Hollow(_) | Cut::Saw(_)));
    let Ok(bored) = Piece::resolve(&bored, &limits) else { return 0.0 };
    Vessel::new(&bored.solid).map_or(0.0, |vessel| match holds_liquid(design) {
        true => vessel.hold(level, 0.0).volume_mm3,
        false => vessel.struck(level, repose(design)).volume_mm3,
    })
}

fn is_ok(design: &Design, shop: &Shop) -> bool {
    work_out(design, shop).is_ok_and(|worked| worked.checks.iter().all(|check| check.verdict == Verdict::Ok))
}

/// A grid: its steps in depth, and how many crossings and necks.
struct Grid {
    depth_mm: f64,
    crossings: usize,
    necks: usize,
}

impl Grid {
    /// Every scoop of the grid that does all that is wanted, with this tilt and blank.
    fn works(&self, wants: &Wants, shop: &Shop, like: &BoredEndScoop) -> Option<BoredEndScoop> {
        let at = |i: usize, from: f64, to: f64, count: usize| from + (to - from) * i as f64 / (count - 1) as f64;
        self.bored(wants, shop, like).into_iter().find_map(|bored| {
            (0..self.crossings * self.necks).find_map(|i| {
                let neck_diameter_mm = at(i % self.necks, 14.0, 34.0, self.necks);
                let (from, to) = (0.2 * bored.length_mm(), 0.8 * bored.length_mm());
                let scoop = BoredEndScoop {
                    crossing_mm: at(i / self.necks, from, to, self.crossings),
                    neck_diameter_mm,
                    handle_diameter_mm: bored.handle_diameter_mm.max(neck_diameter_mm + 3.0),
                    ..bored.clone()
                };
                let design = design(&scoop, wants);
                let fits = wants.blank.is_some() || design.plug_of_blank().is_some();
                (fits && is_ok(&design, shop)).then_some(scoop)
            })
        })
    }

    /// Every bit and depth of the grid with which the measure is met.
    fn bored(&self, wants: &Wants, shop: &Shop, like: &BoredEndScoop) -> Vec<BoredEndScoop> {
        let mut all = Vec::new();
        for bit in &shop.bits {
            let steps = (shop.limits.bore_depth_mm / self.depth_mm) as usize;
            let depth = |i: usize| BoredEndScoop {
                bore_diameter_mm: bit.diameter_mm,
                bore_depth_mm: self.depth_mm * i as f64,
                rounding_mm: (0.3 * bit.diameter_mm).min(12.0),
                ..like.clone()
            };
            // Full to its lip it holds no more than the whole bore.
            let most_mm3 = |depth_mm: f64| PI / 4.0 * bit.diameter_mm.powi(2) * depth_mm;
            let deep = (1..=steps).map(depth).filter(|scoop| {
                scoop.bore_depth_mm > scoop.rounding_mm + 1.0 && most_mm3(scoop.bore_depth_mm) >= wants.holds_mm3
            });
            all.extend(deep.filter(|scoop| {
                let holds = holds_mm3(&design(scoop, wants), shop);
                (holds / wants.holds_mm3 - 1.0).abs() <= NEAR
            }));
        }
        all
    }
}

/// What was found is what brute force would have let through.
fn judge(found: &Offer, wants: &Wants, shop: &Shop) {
    let design = design(&found.scoop, wants);
    assert!(is_ok(&design, shop), "{}", found.words);
    let holds = holds_mm3(&design, shop);
    assert!((holds / wants.holds_mm3 - 1.0).abs() <= NEAR, "{holds}: {}", found.words);
    assert!(shop.bits.iter().any(|bit| bit.diameter_mm <= found.scoop.bore_diameter_mm + 1e-6), "{}", found.words);
}

fn found(wants: &Wants, shop: &Shop) -> Offer {
    let Answer { found, why_not, .. } = find_at_once(wants, shop);
    found.unwrap_or_else(|| panic!("{why_not}"))
}

/// Nothing on the grid has more tilt than the most that was found, by these differences.
fn no_more_tilt(grid: &Grid, wants: &Wants, shop: &Shop, more_deg: &[f64]) {
    let wants = Wants { tilt: TiltWanted::AsMuchAsGoes, ..wants.clone() };
    let found = found(&wants, shop);
    judge(&found, &wants, shop);
    for more in more_deg {
        let like = BoredEndScoop { tilt_deg: found.scoop.tilt_deg + more, ..found.scoop.clone() };
        let better = grid.works(&wants, shop, &like);
        assert!(better.is_none(), "{} but {more} more: {better:?}", found.words);
    }
}

/// Nothing on the grid is cut from a blank less by so much than the least that was found.
fn no_lesser_blank(grid: &Grid, wants: &Wants, shop: &Shop, less_mm: &[f64]) {
    let found = found(wants, shop);
    judge(&found, wants, shop);
    for less in less_mm {
        let like = BoredEndScoop { blank_side_mm: found.scoop.blank_side_mm - less, ..found.scoop.clone() };
        let better = grid.works(wants, shop, &like);
        assert!(better.is_none(), "{} but {less} less: {better:?}", found.words);
    }
}

const ROUGH: Grid = Grid { depth_mm: 0.1, crossings: 7, necks: 2 };
const FINE: Grid = Grid { depth_mm: 0.05, crossings: 25, necks: 5 };

fn on_hand(side_mm: f64) -> Option<BlankOnHand> {
    Some(BlankOnHand { side_mm, length_mm: None })
}

#[test]
fn nothing_on_a_grid_has_more_tilt_or_a_lesser_blank() {
    let shop = shop(&[16.0, 18.0, 20.0, 22.0, 24.0, 26.0]);
    let wants = Wants { blank: on_hand(60.0), ..usual(&shop) };
    no_more_tilt(&ROUGH, &wants, &shop, &[0.2, 1.0]);
    no_lesser_blank(&ROUGH, &Wants { blank: None, tilt: TiltWanted::Degrees(9.0), ..wants }, &shop, &[1.0, 4.0]);
}

#[test]
#[ignore = "long: brute force over fine grids of bits, depths, crossings and necks"]
fn nothing_on_a_fine_grid_has_more_tilt_or_a_lesser_blank() {
    let shop = shop(&[16.0, 18.0, 20.0, 22.0, 24.0, 26.0]);
    for (side_mm, holds_mm3) in [(56.0, 25_000.0), (60.0, 30_000.0), (66.0, 35_000.0)] {
        let wants = Wants { blank: on_hand(side_mm), holds_mm3, ..usual(&shop) };
        no_more_tilt(&FINE, &wants, &shop, &[0.1, 0.4, 1.5]);
        for tilt_deg in [5.0, 8.0, 10.5] {
            let wants = Wants { blank: None, tilt: TiltWanted::Degrees(tilt_deg), ..wants.clone() };
            no_lesser_blank(&FINE, &wants, &shop, &[1.0, 3.0]);
        }
    }
}

/// Where the search finds nothing, no piece of the grid does what is wanted; what it finds, brute force lets through.
fn agrees(grid: &Grid, wants: &Wants, shop: &Shop) {
    let Answer { found, why_not, instead, .. } = find_at_once(wants, shop);
    if let Some(found) = &found {
        return judge(found, wants, shop);
    }
    let TiltWanted::Degrees(tilt_deg) = wants.tilt else { return };
    let Some(blank) = wants.blank else { return };
    let usual = instead.first().map_or_else(BoredEndScoop::default, |offer| offer.scoop.clone());
    let like = BoredEndScoop {
        tilt_deg,
        blank_side_mm: blank.side_mm,
        handle_mm: wants.handle_mm,
        handle_end: wants.handle_end,
        ..usual
    };
    let works = grid.works(wants, shop, &like);
    assert!(works.is_none(), "{why_not} But: {works:?}");
}

#[test]
fn where_nothing_is_found_nothing_on_a_grid_works() {
    let shop = shop(&[16.0, 18.0, 20.0, 22.0, 24.0, 26.0]);
    for (side_mm, tilt_deg) in [(54.0, 9.0), (50.0, 5.0)] {
        let wants = Wants { blank: on_hand(side_mm), tilt: TiltWanted::Degrees(tilt_deg), ..usual(&shop) };
        agrees(&ROUGH, &wants, &shop);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    #[ignore = "long: brute force over a grid for each of sixty wants"]
    fn where_nothing_is_found_for_any_want_nothing_on_a_grid_works(
        holds_mm3 in 12_000.0..50_000.0_f64,
        side_mm in 44.0..74.0_f64,
        tilt_deg in 0.0..13.0_f64,
        handle_mm in 60.0..200.0_f64,
    ) {
        let shop = shop(&[16.0, 18.0, 20.0, 22.0, 24.0, 26.0]);
        let wants = Wants {
            holds_mm3, blank: on_hand(side_mm), tilt: TiltWanted::Degrees(tilt_deg), handle_mm, ..usual(&shop)
        };
        agrees(&ROUGH, &wants, &shop);
    }
}
