//! A round-bowl scoop from what is wanted: the ball that holds the measure, then the blank and the neck that bear it.

use super::measure::{NEAR, holds_mm3, root};
use super::neck::thickened;
use super::search::blank_step_mm;
use super::wants::{TiltWanted, Wants};
use crate::design::pattern::{HandleEnd, RoundBowlScoop};
use crate::design::{Design, Shop, Wood};
use crate::figures::checks::{Check, CheckName, Verdict, Words};
use crate::figures::{Worked, work_out};

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

/// Looks for a round-bowl scoop that does all that is wanted; a bit is not asked for.
///
/// The measure is met within 0.5 percent, tilt as much as goes to half a degree, the least blank to 1 mm or 1/8 in.
/// Deterministic, and bounded: at most 12 designs at a tilt are worked out in full.
///
/// # Errors
///
/// Why there is none, in a sentence with the check that stands in the way.
pub fn find_round_bowl(wants: &Wants, shop: &Shop) -> Result<Box<RoundBowl>, String> {
    match wants.tilt {
        TiltWanted::Degrees(tilt_deg) => at_tilt(wants, shop, tilt_deg),
        TiltWanted::AsMuchAsGoes => {
            let steps = (MOST_TILT_DEG / TILT_STEP_DEG) as u32;
            let steeper = (1..=steps).rev().find_map(|step| at_tilt(wants, shop, f64::from(step) * TILT_STEP_DEG).ok());
            steeper.map_or_else(|| at_tilt(wants, shop, 0.0), Ok)
        }
    }
}

fn at_tilt(wants: &Wants, shop: &Shop, tilt_deg: f64) -> Result<Box<RoundBowl>, String> {
    let base = base(wants, shop, tilt_deg);
    // Without a blank on hand each ball is looked at in one that it fits. The flat at the bowl end is taken off the wall.
    let of_ball = |ball_diameter_mm: f64| {
        let ball = RoundBowlScoop { ball_diameter_mm, ..base.clone() };
        let blank_side_mm = wants.blank.map_or(ball_diameter_mm + AROUND_BALL_MM, |blank| blank.side_mm);
        RoundBowlScoop { wall_mm: ball.wall_mm + ball.flat_mm(), blank_side_mm, ..ball }
    };
    let holds = |ball_mm: f64| holds_mm3(design(wants, &of_ball(ball_mm)), shop);
    let words = Words::of(shop);
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
