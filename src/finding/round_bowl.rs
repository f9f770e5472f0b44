//! A round-bowl scoop from what is wanted: the ball that holds the measure, then the blank and the neck that bear it.

use std::cell::Cell;

use super::measure::{NEAR, holds_mm3, root};
use super::nearest::nearest;
use super::neck::thickened;
use super::search::{HANDLE_STEP_MM, SHORTEST_HANDLE_MM, blank_step_mm};
use super::wants::{TiltWanted, Wants};
use crate::design::pattern::{HandleEnd, RoundBowlScoop};
use crate::design::{Design, Shop, Wood};
use crate::figures::checks::{Check, CheckName, Verdict, Words};
use crate::figures::jaws::{LEAST_UNDERCUT_MM, PROUD_MM, Recess};
use crate::figures::{Worked, work_out};
use crate::geometry::at_once;

/// A round-bowl scoop that works: it holds what is wanted and every check of it is ok.
#[derive(Clone, Debug)]
pub struct RoundBowl {
    /// What it is, in a few words with numbers.
    pub words: String,
    /// The choices it was made from.
    pub scoop: RoundBowlScoop,
    /// The design.
    pub design: Design,
    /// Its figures.
    pub worked: Worked,
}

/// The least and the greatest ball that are thought of, in mm, and the steps in which one is found.
const BALLS_MM: std::ops::Range<f64> = 34.0..140.0;
const BALL_STEP_MM: f64 = 0.05;
/// Wall and floor over their limits, in mm.
const OVER_LIMIT_MM: f64 = 0.5;
/// Wood of the blank around the ball, in mm.
const AROUND_BALL_MM: f64 = 2.0;
/// How often a scoop is set right before it is given up.
const ROUNDS: usize = 12;
/// The thickest neck, as a share of the ball. A choice of ours, no source.
const THICKEST_NECK: f64 = 0.5;
/// Where as much tilt as goes is wanted, it is looked for down from here, in degrees, in steps of this.
const MOST_TILT_DEG: f64 = 12.0;
const TILT_STEP_DEG: f64 = 0.5;

/// What came of a search: a round bowl that does all that is wanted, or why there is none and what works instead.
#[derive(Clone, Debug)]
pub struct RoundBowls {
    /// A piece as wanted.
    pub found: Option<Box<RoundBowl>>,
    /// What stands in the way, in a sentence; empty where one was found.
    pub why_not: String,
    /// The nearest pieces that work, each with one want given up.
    pub instead: Vec<RoundBowl>,
}

/// Looks for a round-bowl scoop that does all that is wanted; a bit is not asked for. `breathe` is called as in
/// [`find`](super::find).
///
/// The measure is met within 0.5 percent, tilt as much as goes to half a degree, the least blank to 1 mm or 1/8 in.
/// Deterministic, and bounded: at most 12 designs at a tilt are worked out in full.
pub async fn find_round_bowls(wants: &Wants, shop: &Shop, breathe: impl AsyncFn(usize) -> bool) -> RoundBowls {
    let search = RoundSearch { shop, breathe, tried: Cell::new(0) };
    let why_not = match search.solve(wants).await {
        Ok(found) => return RoundBowls { found: Some(found), why_not: String::new(), instead: Vec::new() },
        Err(why_not) => why_not,
    };
    let instead = search.instead(wants).await;
    RoundBowls { found: None, why_not, instead }
}

/// The piece alone, without a pause.
///
/// # Errors
///
/// Why there is none, in a sentence with the check that stands in the way.
pub fn find_round_bowl(wants: &Wants, shop: &Shop) -> Result<Box<RoundBowl>, String> {
    let search = RoundSearch { shop, breathe: async |_| true, tried: Cell::new(0) };
    at_once(search.solve(wants))
}

struct RoundSearch<'a, B> {
    shop: &'a Shop,
    breathe: B,
    /// How many designs were worked out in full.
    tried: Cell<usize>,
}

impl<B: AsyncFn(usize) -> bool> RoundSearch<'_, B> {
    async fn solve(&self, wants: &Wants) -> Result<Box<RoundBowl>, String> {
        if let TiltWanted::Degrees(tilt_deg) = wants.tilt {
            return self.at_tilt(wants, tilt_deg).await;
        }
        let steps = (MOST_TILT_DEG / TILT_STEP_DEG) as u32;
        for step in (1..=steps).rev() {
            if let Ok(found) = self.at_tilt(wants, f64::from(step) * TILT_STEP_DEG).await {
                return Ok(found);
            }
        }
        self.at_tilt(wants, 0.0).await
    }

    /// The nearest that work, each with one want given up, which its words begin with.
    async fn instead(&self, wants: &Wants) -> Vec<RoundBowl> {
        let words = Words::of(self.shop);
        let mut offers = Vec::new();
        let mut offer = |found: Option<Box<RoundBowl>>, given_up: &str| {
            offers.extend(found.map(|it| RoundBowl { words: format!("{given_up} {}", it.words), ..*it }));
        };
        if wants.blank.is_some() {
            offer(self.solve(&Wants { blank: None, ..wants.clone() }).await.ok(), "From another blank.");
        }
        let with_handle = async |handle_mm: f64| self.solve(&Wants { handle_mm, ..wants.clone() }).await.ok();
        let shorter = nearest(wants.handle_mm, SHORTEST_HANDLE_MM, HANDLE_STEP_MM, with_handle).await;
        let told = shorter.as_ref().map_or_else(String::new, |it| words.length(it.scoop.handle_mm));
        offer(shorter, &format!("With a shorter handle, {told}."));
        if let TiltWanted::Degrees(tilt_deg) = wants.tilt {
            let other = self.solve(&Wants { tilt: TiltWanted::AsMuchAsGoes, ..wants.clone() }).await.ok();
            let is_less = other.as_ref().is_some_and(|it| it.scoop.tilt_deg < tilt_deg);
            offer(other, if is_less { "With less tilt." } else { "With more tilt." });
        }
        offers
    }

    async fn at_tilt(&self, wants: &Wants, tilt_deg: f64) -> Result<Box<RoundBowl>, String> {
        let (shop, words) = (self.shop, Words::of(self.shop));
        let mut scoop = of_measure(wants, shop, tilt_deg)?;
        let mut why_not = String::new();
        for _ in 0..ROUNDS {
            let design = design(wants, &scoop);
            if let Some(has_mm) =
                wants.blank.and_then(|blank| blank.length_mm).filter(|has| design.length_to_cut_mm() > *has)
            {
                let needs = words.length(design.length_to_cut_mm());
                return Err(told(
                    wants,
                    words,
                    &format!("It takes {needs} of blank, and yours is {} long.", words.length(has_mm)),
                ));
            }
            if !(self.breathe)(self.tried.get()).await {
                return Err(STOPPED.to_owned());
            }
            self.tried.set(self.tried.get() + 1);
            let worked = work_out(&design, shop).map_err(|error| told(wants, words, &error.to_string()))?;
            let faults: Vec<&Check> = worked.checks.iter().filter(|check| check.verdict != Verdict::Ok).collect();
            let Some(first) = faults.first() else { return found(wants, words, scoop, design, worked) };
            why_not = format!("{}: {}", first.name.title(), first.sentence);
            let before = scoop.clone();
            for check in faults {
                if !cure(&mut scoop, check, wants, shop) {
                    return Err(told(wants, words, &format!("{}: {}", check.name.title(), check.sentence)));
                }
            }
            if scoop == before {
                break;
            }
        }
        Err(told(wants, words, &why_not))
    }
}

/// What is said of a search that was stopped.
pub(super) const STOPPED: &str = "The search was stopped.";

/// The scoop with the ball that holds the measure, in a blank that it fits where none is on hand. The flat at the bowl end
/// is taken off the wall.
fn of_measure(wants: &Wants, shop: &Shop, tilt_deg: f64) -> Result<RoundBowlScoop, String> {
    let (base, words) = (base(wants, shop, tilt_deg), Words::of(shop));
    let of_ball = |ball_diameter_mm: f64| {
        let ball = RoundBowlScoop { ball_diameter_mm, ..base.clone() };
        let blank_side_mm = wants.blank.map_or(ball_diameter_mm + AROUND_BALL_MM, |blank| blank.side_mm);
        let opening_share = ball.opening_share.max(least_opening(ball_diameter_mm / 2.0));
        RoundBowlScoop { wall_mm: ball.wall_mm + ball.flat_mm(), blank_side_mm, opening_share, ..ball }
    };
    let holds = |ball_mm: f64| holds_mm3(design(wants, &of_ball(ball_mm)), shop);
    let widest_mm = wants.blank.map_or(BALLS_MM.end, |blank| blank.side_mm.min(BALLS_MM.end));
    if widest_mm <= BALLS_MM.start {
        return Err(told(
            wants,
            words,
            &format!("A blank {} square is too small for a ball.", words.length(widest_mm)),
        ));
    }
    let (least, most) = (holds(BALLS_MM.start), holds(widest_mm));
    if !(least..=most).contains(&wants.holds_mm3) {
        let (from, to) = (words.volume(least), words.volume(most));
        return Err(format!(
            "A round bowl holds {from} to {to} here, and {} is wanted.",
            words.volume(wants.holds_mm3)
        ));
    }
    let ball_mm = root(BALLS_MM.start..widest_mm, (least, most), BALL_STEP_MM, wants.holds_mm3, holds);
    let ball_mm = ball_mm.ok_or_else(|| format!("No ball holds {}.", words.volume(wants.holds_mm3)))?;
    let mut scoop = of_ball(ball_mm);
    if wants.blank.is_none() {
        scoop.blank_side_mm = up_to_step(ball_mm + AROUND_BALL_MM, shop);
    }
    Ok(scoop)
}

/// Undercut of the jaws over what they need, in mm.
const OVER_UNDERCUT_MM: f64 = 0.05;

/// The least height of the opening, as a share of the ball's radius, at which jaws hold the ball by their lip.
fn least_opening(radius_mm: f64) -> f64 {
    (PROUD_MM + Recess::past_girth_for_mm(radius_mm, LEAST_UNDERCUT_MM + OVER_UNDERCUT_MM)) / radius_mm
}

/// The scoop before it has its ball.
fn base(wants: &Wants, shop: &Shop, tilt_deg: f64) -> RoundBowlScoop {
    let usual = RoundBowlScoop::default();
    let hooked = wants.handle_end == HandleEnd::Hooked;
    RoundBowlScoop {
        wanted: Some(wants.wanted()),
        wall_mm: shop.limits.wall_mm + OVER_LIMIT_MM,
        floor_mm: shop.limits.floor_mm + OVER_LIMIT_MM,
        tilt_deg,
        handle_mm: wants.handle_mm,
        handle_end: if hooked { HandleEnd::Round } else { wants.handle_end },
        blank_side_mm: wants.blank.map_or(usual.blank_side_mm, |blank| blank.side_mm),
        chuck: shop.chuck,
        ..usual
    }
}

fn design(wants: &Wants, scoop: &RoundBowlScoop) -> Design {
    let design = scoop.design("Scoop");
    let wood = Wood { species: wants.species.clone(), ..design.wood.clone() };
    Design { wood, contents: wants.contents.clone(), ..design }
}

/// A length up to the next step in which blanks are asked for, in mm.
pub(super) fn up_to_step(mm: f64, shop: &Shop) -> f64 {
    let step = blank_step_mm(shop);
    (mm / step - 1e-9).ceil() * step
}

/// Sets right what is not ok; whether anything that is set here may cure it.
fn cure(scoop: &mut RoundBowlScoop, check: &Check, wants: &Wants, shop: &Shop) -> bool {
    let missing = check.limit.zip(check.value).map_or(1.0, |(limit, value)| (limit - value).abs());
    match check.name {
        CheckName::Blank | CheckName::DriveCentre | CheckName::Flats if wants.blank.is_none() => {
            scoop.blank_side_mm = up_to_step(scoop.blank_side_mm + missing.clamp(0.1, 10.0), shop);
            true
        }
        CheckName::NeckStrength | CheckName::WasteStrength => {
            let now = (scoop.neck_diameter_mm, scoop.handle_diameter_mm);
            (scoop.neck_diameter_mm, scoop.handle_diameter_mm) =
                thickened(check, now, THICKEST_NECK * scoop.ball_diameter_mm);
            true
        }
        _ => false,
    }
}

fn found(
    wants: &Wants,
    words: Words,
    scoop: RoundBowlScoop,
    mut design: Design,
    worked: Worked,
) -> Result<Box<RoundBowl>, String> {
    let holds_mm3 = worked.figures.summary.holds_ml.unwrap_or_default() * 1000.0;
    if (holds_mm3 - wants.holds_mm3).abs() > NEAR * wants.holds_mm3 {
        return Err(told(wants, words, &format!("What works holds {}.", words.volume(holds_mm3))));
    }
    let said = format!(
        "A ball of {}, hollowed across, handle at {}, from a blank {} square, {} long. It needs wooden jaws made for it.",
        words.length(scoop.ball_diameter_mm),
        words.angle(scoop.tilt_deg),
        words.length(scoop.blank_side_mm),
        words.length(design.length_to_cut_mm())
    );
    design.name = format!("Round bowl, {}", words.volume(wants.holds_mm3));
    Ok(Box::new(RoundBowl { words: said, scoop, design, worked }))
}

fn told(wants: &Wants, words: Words, because: &str) -> String {
    let (measure, handle) = (words.volume(wants.holds_mm3), words.length(wants.handle_mm));
    format!("A round bowl for {measure} with a handle {handle} long cannot be had as wanted. {because}")
}
