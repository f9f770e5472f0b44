//! Checks of the hollow: breakthrough, wall, floor, the bit's point, the opening, the boring.

use super::check::{Check, CheckName, Verdict, Words};
use super::fields;
use crate::design::text::capital;
use crate::design::{Cut, Design, Limits};
use crate::figures::boring::{Boring, BoringWarning};
use crate::figures::report::Figures;
use crate::figures::wall::{Wall, WallPoint};
use crate::form::Field;
use crate::geometry::line::order::sort_by_number;

/// The checks that hollows bring.
pub(super) fn checks(design: &Design, figures: &Figures, limits: &Limits, words: Words) -> Vec<Check> {
    let mut all: Vec<Check> = figures.borings.iter().map(|boring| check_boring(design, boring, words)).collect();
    // A hollow of which others take all is no hollow of its own.
    let none_left = figures.walls.iter().all(|wall| wall.least.is_none());
    for wall in figures.walls.iter().filter(|wall| none_left || wall.least.is_some()) {
        all.push(breakthrough(design, figures, wall, words));
        all.push(thinnest(design, wall, limits.wall_mm, words));
        all.extend(floor(design, wall, limits.floor_mm, words));
        all.extend(bit_point(design, wall, figures, limits, words));
    }
    if !figures.walls.is_empty() {
        all.extend(openings(design, figures, words));
    }
    all
}

/// What limits a wall, as the turner calls it.
fn whose(design: &Design, point: &WallPoint) -> String {
    point.limited_by_cut.map_or_else(|| "the outside of the blank".into(), |cut| design.cut_name(cut))
}

/// The field that moves what limits a wall.
pub(super) fn limiting_field(design: &Design, point: &WallPoint) -> String {
    let field = match point.limited_by_cut {
        None => Field::BlankWidth,
        Some(cut) => match design.cuts.get(cut) {
            Some(Cut::Pass(pass)) => {
                fields::tilt(design, pass.axis).unwrap_or_else(|| fields::diameter(design, cut, point.place.station_mm))
            }
            _ => Field::PlaneAt(cut),
        },
    };
    field.path(design)
}

fn breakthrough(design: &Design, figures: &Figures, wall: &Wall, words: Words) -> Check {
    let Some(worst) = wall.breakthroughs.first() else {
        return Check::ok(CheckName::Breakthrough, "The outside stays clear of the hollow.");
    };
    let point = &worst.deepest;
    let start = figures.nearest_starts.iter().find(|s| Some(s.cut) == point.limited_by_cut);
    let cure = match start {
        Some(start) => {
            format!("From {} on it clears the hollow; or tilt less.", words.length(words.up(start.nearest_from_mm)))
        }
        None => "Make the hollow smaller there, or the outside larger.".into(),
    };
    Check::fault(
        CheckName::Breakthrough,
        Verdict::Stop,
        format!(
            "{} breaks into the hollow, {} deep, {}.",
            capital(&whose(design, point)),
            words.length(-point.wall_mm),
            words.place(&point.place)
        ),
        cure,
    )
    .measured(point.wall_mm, 0.0)
    .at(point.place)
    .cured_at(limiting_field(design, point))
}

/// That nothing is left of a wall or a floor, in a sentence; `None` where something is.
fn gone(what: &str, least: &WallPoint, words: Words) -> Option<String> {
    let (place, depth) = (words.place(&least.place), words.length(-least.wall_mm));
    (least.wall_mm < 0.0).then(|| format!("No {what} is left, {place}: the outside goes {depth} into the hollow."))
}

/// The place where a wall or a floor is below its limit, of any hollow, if one is.
pub(super) fn too_thin<'a>(figures: &'a Figures, limits: &Limits) -> Option<&'a WallPoint> {
    let below = |point: &&WallPoint, limit: f64| Verdict::of_thickness(point.wall_mm, limit) != Verdict::Ok;
    let wall = |wall: &'a Wall| wall.least.as_ref().filter(|least| below(least, limits.wall_mm));
    let floor = |wall: &'a Wall| wall.floor.as_ref().map(|it| &it.least).filter(|least| below(least, limits.floor_mm));
    figures.walls.iter().find_map(|it| wall(it).or_else(|| floor(it)))
}

fn thinnest(design: &Design, wall: &Wall, limit: f64, words: Words) -> Check {
    let Some(least) = &wall.least else {
        let cure = "Lower the saw line, or bore deeper.";
        return Check::fault(CheckName::Wall, Verdict::Stop, "Nothing of the hollow is left to hold anything.", cure)
            .cured_in(design, fields::depth(design, wall.cut));
    };
    let thin = || format!("The thinnest wall is {}, {}.", words.length(least.wall_mm), words.place(&least.place));
    let found = gone("wall", least, words).unwrap_or_else(thin);
    let verdict = Verdict::of_thickness(least.wall_mm, limit);
    let check = if verdict == Verdict::Ok {
        Check::ok(CheckName::Wall, found)
    } else {
        let cure = format!(
            "The limit is {}: leave more on {}, or make the hollow smaller there.",
            words.length(limit),
            whose(design, least)
        );
        Check::fault(CheckName::Wall, verdict, found, cure).cured_at(limiting_field(design, least))
    };
    check.measured(least.wall_mm, limit).at(least.place)
}

fn floor(design: &Design, wall: &Wall, limit: f64, words: Words) -> Option<Check> {
    let Some(floor) = wall.floor else {
        // A hollow of which nothing is kept is told by its wall; a floor inside another hollow by that one's.
        wall.least.as_ref().filter(|_| !wall.has_end_taken)?;
        let found = "Nothing is kept of the hollow's end: its floor cannot be measured.";
        let cure = "Keep saw and passes off the end of the hollow, or hollow less deep.";
        let check = Check::fault(CheckName::Floor, Verdict::Tight, found, cure);
        return Some(check.cured_in(design, fields::depth(design, wall.cut)));
    };
    let least = &floor.least;
    let thick = || format!("The floor is {} thick, {}.", words.length(least.wall_mm), words.place(&least.place));
    let found = gone("floor", least, words).unwrap_or_else(thick);
    let verdict = Verdict::of_thickness(least.wall_mm, limit);
    let check = if verdict == Verdict::Ok {
        Check::ok(CheckName::Floor, found)
    } else {
        let cure = format!("The limit is {}: bore less deep, or start the neck later.", words.length(limit));
        Check::fault(CheckName::Floor, verdict, found, cure).cured_in(design, fields::depth(design, wall.cut))
    };
    Some(check.measured(floor.least.wall_mm, limit).at(floor.least.place))
}

fn bit_point(design: &Design, wall: &Wall, figures: &Figures, limits: &Limits, words: Words) -> Option<Check> {
    let name = CheckName::BitPoint;
    let boring = figures.borings.iter().find(|boring| boring.cut == wall.cut)?;
    let deepest = boring.steps.iter().max_by(|a, b| a.point_depth_mm.total_cmp(&b.point_depth_mm))?;
    let below = deepest.point_depth_mm - boring.depth_mm;
    let depth = |check: Check| check.cured_in(design, fields::depth(design, wall.cut));
    // The wood behind it is judged where there is a floor to bore toward.
    let left = wall.floor.and_then(|floor| floor.at_bit_point_mm);
    if let Some(left) = left.filter(|left| *left < limits.floor_mm / 2.0) {
        let verdict = if left <= 0.0 { Verdict::Stop } else { Verdict::Tight };
        let found = format!("The point of the deepest bit leaves {} of floor.", words.length(left.max(0.0)));
        let cure = "Bore less deep with it, or use a bit with a shorter point.";
        return Some(depth(Check::fault(name, verdict, found, cure).measured(left, limits.floor_mm / 2.0)));
    }
    if below > NO_DIMPLE {
        let point = deepest.point_depth_mm - deepest.depth_mm;
        let found = format!(
            "The point of the {} bit goes {} below the finished floor and leaves a dimple.",
            words.length(deepest.diameter_mm),
            words.length(below)
        );
        let cure =
            format!("Stop that bit at {} and scrape the rest.", words.length((boring.depth_mm - point).max(0.0)));
        let check = Check::fault(name, Verdict::Tight, found, cure);
        return Some(depth(check.measured(deepest.point_depth_mm, boring.depth_mm)));
    }
    let found = format!("The points of the bits stay {} above the finished floor.", words.length((-below).max(0.0)));
    Some(Check::ok(name, found).measured(deepest.point_depth_mm, boring.depth_mm))
}

/// A point this little below the floor is scraped away with it, in mm.
const NO_DIMPLE: f64 = 0.02;

/// Every saw and facing, and whether there is one at all.
fn openings(design: &Design, figures: &Figures, words: Words) -> Vec<Check> {
    let all = || figures.walls.iter().flat_map(|wall| &wall.openings);
    let mut cuts: Vec<usize> = all().map(|opening| opening.cut).collect();
    sort_by_number(&mut cuts, |cut| *cut as f64);
    cuts.dedup();
    if cuts.is_empty() {
        return vec![Check::ok(CheckName::Opening, "The hollow is open at its mouth only.")];
    }
    let deepest =
        |cut: usize| all().filter(move |o| o.cut == cut).max_by(|a, b| a.depth_mm.total_cmp(&b.depth_mm)).copied();
    let check = |reach: crate::figures::wall::OpeningReach| {
        let name = design.cut_name(reach.cut);
        if reach.depth_mm > 0.0 && reach.depth_mm < AT_MOUTH_MM {
            let sentence = format!("{} opens the hollow at its own mouth.", capital(&name));
            return Check::ok(CheckName::Opening, sentence).measured(reach.depth_mm, 0.0);
        }
        if reach.depth_mm > 0.0 {
            let sentence = format!("{} opens {} of the hollow.", capital(&name), words.length(reach.depth_mm));
            return Check::ok(CheckName::Opening, sentence).measured(reach.depth_mm, 0.0);
        }
        let sentence = format!(
            "The opening of {name} misses the hollow by {}, {}.",
            words.length(-reach.depth_mm),
            words.place(&reach.place)
        );
        let cure = "Lower it until it opens the hollow.";
        Check::fault(CheckName::Opening, Verdict::Stop, sentence, cure)
            .measured(reach.depth_mm, 0.0)
            .at(reach.place)
            .cured_in(design, fields::opening(design, reach.cut))
    };
    cuts.into_iter().filter_map(deepest).map(check).collect()
}

/// A hollow that is opened by less than this begins where it is opened, in mm.
const AT_MOUTH_MM: f64 = 0.1;

fn check_boring(design: &Design, boring: &Boring, words: Words) -> Check {
    // Once its middle is drilled.
    if matches!(design.cuts.get(boring.cut), Some(Cut::Hollow(hollow)) if design.is_across(hollow.axis)) {
        return Check::ok(CheckName::Boring, "It is hollowed across the grain, with gouge and scraper.");
    }
    let Some(warning) = boring.warnings.first() else {
        let bits = boring.steps.len();
        let plural = if bits == 1 { "bit" } else { "bits" };
        let sentence = format!(
            "{bits} {plural} you own bore it; the scraper takes up to {}.",
            words.length(boring.most_to_scrape_mm)
        );
        return Check::ok(CheckName::Boring, sentence);
    };
    match *warning {
        BoringWarning::NoBitFits => Check::fault(
            CheckName::Boring,
            Verdict::Stop,
            "None of the bits you own fits this bore.",
            "Add a narrower bit to the shop, or widen the bore.",
        )
        .cured_in(design, fields::bore(design, boring.cut)),
        BoringWarning::Deep { limit_mm } => Check::fault(
            CheckName::Boring,
            Verdict::Tight,
            format!(
                "The bore is {} deep; past about {} it is hard to bore true and to smooth.",
                words.length(boring.depth_mm),
                words.length(limit_mm)
            ),
            "Bore less deep, or lift the bit often to clear the chips and sharpen the scraper.",
        )
        .measured(boring.depth_mm, limit_mm)
        .cured_in(design, fields::depth(design, boring.cut)),
        BoringWarning::BitTooWide { diameter_mm, limit_mm } => Check::fault(
            CheckName::Boring,
            Verdict::Tight,
            format!("The {} bit is more than the lathe drives, {}.", words.length(diameter_mm), words.length(limit_mm)),
            "Bore with a narrower bit and scrape to size.",
        )
        .measured(diameter_mm, limit_mm)
        .cured_in(design, fields::bore(design, boring.cut)),
        BoringWarning::StopsShort { left_mm } => Check::fault(
            CheckName::Boring,
            Verdict::Tight,
            format!("The bits stop {} short of the floor.", words.length(left_mm)),
            "Scrape the rest, or add a longer or a narrower bit to the shop.",
        )
        .measured(left_mm, 0.0)
        .cured_in(design, fields::depth(design, boring.cut)),
    }
}
