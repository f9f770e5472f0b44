//! The pages of templates and the sheet for the bench: few, full, well formed, and nothing of a template off all of them.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use proptest::prelude::*;
use skewline::design::starters::{bored_end_scoop_straight, demo};
use skewline::design::{AxisChoice, Shop};
use skewline::drawings::templates::{Item, Paper, PrintScale, SheetLine, Template, bench_sheet, packed, templates};
use skewline::figures::checks::{Verdict, stops_by_name};
use skewline::figures::plan::plan;
use skewline::figures::work_out;

mod on_paper;
mod scoops;
mod support;
use on_paper::{Point, attribute, designs, settings, sheet_pages, worked};
use support::arbitrary;

/// Few pages, full ones: both end faces share a page, every template stands on one of them whole, and no two pages that are
/// shared would fit on one.
#[test]
fn templates_share_pages() {
    for (paper, scale) in settings() {
        for design in designs() {
            let (worked, shop) = worked(&design);
            let all = templates(&design, &worked, &shop);
            let pages = packed(&all, &design.name, paper, scale);
            let apart: usize = all.iter().map(|it| it.pages(&design.name, paper, scale).len()).sum();
            assert!(pages.len() <= apart, "{}", design.name);
            for template in &all {
                let heading = format!(">{}", escaped(&template.title));
                let own = template.pages(&design.name, paper, scale).len();
                assert_eq!(pages.iter().filter(|page| page.contains(&heading)).count(), own, "{}", template.title);
            }
        }
    }
    let (worked, shop) = worked(&demo());
    let all = templates(&demo(), &worked, &shop);
    for paper in [Paper::A4, Paper::Letter] {
        let pages = packed(&all, "", paper, PrintScale::default());
        assert!(pages.iter().any(|page| page.contains(">Bowl end") && page.contains(">Head end")), "{paper:?}");
    }
}

fn escaped(title: &str) -> String {
    title.replace('&', "&amp;").replace('<', "&lt;")
}

/// Every point of every template is seen on some page, and neighbouring pages show the same strip of at least 10 mm.
fn pages_cover(template: &Template, paper: Paper, scale: PrintScale) -> Result<(), TestCaseError> {
    let pages = template.pages("name", paper, scale);
    let seen = |p: Point| {
        pages.iter().any(|page| {
            let (x, y) = (p.x + page.origin.x, p.y + page.origin.y);
            let [low, high] = page.window;
            (low.x - 1e-6..=high.x + 1e-6).contains(&x) && (low.y - 1e-6..=high.y + 1e-6).contains(&y)
        })
    };
    let all = template.ink.bounds();
    for corner in [all.low, all.high, Point::new(all.low.x, all.high.y), Point::new(all.high.x, all.low.y)] {
        prop_assert!(seen(corner), "{} {:?}", template.title, corner);
    }
    for item in &template.ink.0 {
        if let Item::Line { points, .. } = item {
            prop_assert!(points.iter().all(|p| seen(*p)), "{}", template.title);
        }
    }
    let (width, height) = paper.size_mm();
    for page in &pages {
        let [low, high] = page.window;
        headings_stay_on_paper(&page.svg, width - 8.0)?;
        // The window lies on the paper once it is corrected.
        prop_assert!(low.x > 0.0 && high.x * scale.across() < width && high.y * scale.along() < height);
        let next = pages.iter().filter(|p| p.origin.y == page.origin.y && p.origin.x < page.origin.x);
        if let Some(step) = next.map(|p| page.origin.x - p.origin.x).reduce(f64::min) {
            prop_assert!(high.x - low.x - step >= 10.0);
        }
    }
    Ok(())
}

/// The lines over a template end before what no printer reaches. A letter of running text is about half its size wide: 0.48
/// of it as Chromium prints ours.
fn headings_stay_on_paper(svg: &str, right_mm: f64) -> Result<(), TestCaseError> {
    let over = svg.rsplit("</g>").next().unwrap_or_default();
    for tag in over.split("<text").skip(1).filter(|tag| !tag.contains("rotate") && tag.contains("\"start\"")) {
        let number = |name: &str| attribute(tag, name).unwrap().parse::<f64>().unwrap();
        let words = tag.split_once('>').unwrap().1.split('<').next().unwrap();
        let letters = words.replace("&amp;", "&").replace("&lt;", "<").replace("&gt;", ">").chars().count();
        let end = number("x") + 0.5 * number("font-size") * letters as f64;
        prop_assert!(end <= right_mm, "{words} ends {end} mm from the left");
    }
    Ok(())
}

#[test]
fn pages_cover_their_templates() {
    for (paper, scale) in settings() {
        for design in designs() {
            let (worked, shop) = worked(&design);
            for template in templates(&design, &worked, &shop) {
                pages_cover(&template, paper, scale).unwrap();
            }
        }
    }
}

#[test]
fn the_sheet_of_a_scoop_is_two_pages() {
    for paper in [Paper::A4, Paper::Letter] {
        for design in [demo(), bored_end_scoop_straight(), scoops::three_axes()] {
            assert!(sheet_pages(&design, paper).len() <= 2, "{}", design.name);
        }
    }
}

#[test]
fn every_print_begins_with_what_stops_by_name() {
    let mut design = demo();
    if let Some(AxisChoice::Tilt { tilt_deg, .. }) = design.axes.first_mut() {
        *tilt_deg = 24.0;
    }
    let (worked, shop) = worked(&design);
    let names = stops_by_name(&worked.checks).unwrap();
    assert!(names.contains("Wall"), "{names}");
    for template in templates(&design, &worked, &shop) {
        for page in template.pages(&design.name, Paper::A4, PrintScale::default()) {
            assert!(page.svg.contains(&format!("STOP: {names}.")), "{}", template.title);
        }
    }
    let sheet = bench_sheet(&design, &worked, &shop, &plan(&design, &worked, &shop));
    let stops = worked.checks.iter().filter(|check| check.verdict == Verdict::Stop);
    let first = &sheet.sections[0];
    assert!(first.heading.starts_with("STOP"), "{}", first.heading);
    assert_eq!(first.lines.len(), stops.clone().count());
    for (check, line) in stops.zip(&first.lines) {
        let SheetLine::Sentence(words) = line else { panic!("{line:?}") };
        assert!(words.starts_with(&format!("STOP, {}: ", check.name.title())), "{words}");
    }
    let broken = |line: &SheetLine| matches!(line, SheetLine::Sentence(words) if words.contains("broken through"));
    assert!(sheet.sections.iter().flat_map(|section| &section.lines).any(broken));
}

/// No heading and no name of a step stands alone at the foot of a column.
#[test]
fn headings_stay_with_what_follows() {
    let headings = [
        "STOP: change the design before you cut",
        "The piece",
        "Centre marks, as seen",
        "Boring",
        "Checks",
        "Steps",
        "Cautions",
    ];
    for paper in [Paper::A4, Paper::Letter] {
        for page in designs().iter().flat_map(|design| sheet_pages(design, paper)) {
            for left in [10.0, paper.size_mm().0 / 2.0 + 4.0] {
                let column = page.split("<text").filter_map(|tag| {
                    let number = |name: &str| attribute(tag, name)?.parse::<f64>().ok();
                    let words = tag.split_once('>')?.1.split_once('<')?.0;
                    ((number("x")? - left).abs() < 0.01).then_some((number("y")?, words))
                });
                let Some((_, last)) = column.reduce(|low, it| if it.0 > low.0 { it } else { low }) else { continue };
                let title = last.split_once("  ").is_some_and(|(number, _)| number.parse::<usize>().is_ok());
                assert!(!title && !headings.contains(&last), "{last} on {paper:?}");
            }
        }
    }
}

/// Whether every tag is closed and every letter allowed, as far as our documents go.
fn well_formed(svg: &str) -> Result<(), TestCaseError> {
    let mut open: Vec<&str> = Vec::new();
    for piece in svg.split('<').skip(1) {
        let Some(end) = piece.find('>') else { return Err(TestCaseError::fail(format!("no end of <{piece}"))) };
        let tag = &piece[..end];
        let name = tag.trim_start_matches('/').split([' ', '/']).next().unwrap_or("");
        prop_assert!(tag.matches('"').count() % 2 == 0, "{}", tag);
        match (tag.starts_with('/'), tag.ends_with('/')) {
            (true, _) => prop_assert_eq!(open.pop(), Some(name)),
            (false, true) => {}
            (false, false) => open.push(name),
        }
    }
    prop_assert!(open.is_empty());
    prop_assert!(svg.chars().all(|c| c == '\n' || !c.is_control()));
    for number in ["NaN", "inf", "\u{2013},", ",\u{2013}"] {
        prop_assert!(!svg.contains(&format!("=\"{number}")) && !svg.contains(&format!(" {number}")), "{}", number);
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn any_design_has_templates_that_fit_their_pages(design in arbitrary::design(), across in 90.0..110.0, along in 90.0..110.0) {
        let shop = Shop::default();
        let worked = work_out(&design, &shop).map_err(|error| TestCaseError::fail(error.to_string()))?;
        let scale = PrintScale::measured(across, along).unwrap();
        for template in templates(&design, &worked, &shop) {
            pages_cover(&template, Paper::Letter, scale)?;
            for page in template.pages(&design.name, Paper::A4, scale) {
                well_formed(&page.svg)?;
            }
            well_formed(&template.svg(scale))?;
        }
        let sheet = bench_sheet(&design, &worked, &shop, &plan(&design, &worked, &shop));
        for page in sheet.pages(Paper::A4, scale, None) {
            well_formed(&page)?;
        }
    }
}
