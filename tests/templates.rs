//! Templates at full size: what is on the paper is read back from the SVG, in millimetres.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use proptest::prelude::*;
use skewline::design::entry::Units;
use skewline::design::starters::{bored_end_scoop_straight, demo};
use skewline::design::{AxisChoice, BlankSection, Cut, Design, LengthUnit, Rounding, Shop};
use skewline::drawings::templates::{
    Item, Paper, PrintScale, SheetLine, Stroke, Template, bench_sheet, check_page, packed, templates,
};
use skewline::drawings::{Sheet, SideScene, Theme, draw_side_view, side_view, svg};
use skewline::figures::checks::{Verdict, stops_by_name};
use skewline::figures::plan::plan;
use skewline::figures::{Worked, shape, work_out};

mod scoops;
mod support;
use support::arbitrary;

type Point = skewline::geometry::Point;

/// One shape read back from a page, in mm of paper.
#[derive(Debug)]
struct Shape {
    tag: String,
    points: Vec<Point>,
    width: f64,
}

fn attribute<'a>(tag: &'a str, name: &str) -> Option<&'a str> {
    let start = tag.find(&format!(" {name}=\""))? + name.len() + 3;
    Some(&tag[start..start + tag[start..].find('"')?])
}

/// The lines, polygons and circles of a page; a circle as its middle and its radii. The page's units have to be mm.
fn read(svg: &str) -> Vec<Shape> {
    let head = &svg[..svg.find('>').unwrap()];
    let (w, h) = (attribute(head, "width").unwrap(), attribute(head, "height").unwrap());
    let view = format!("0 0 {} {}", w.strip_suffix("mm").unwrap(), h.strip_suffix("mm").unwrap());
    assert_eq!(attribute(head, "viewBox"), Some(view.as_str()));
    let number = |text: &str| text.parse::<f64>().unwrap();
    let tags = svg.split('<').skip(1).map(|tag| &tag[..tag.find('>').unwrap_or(tag.len())]);
    tags.filter_map(|tag| {
        let name = tag.split([' ', '/']).next()?;
        let points = match name {
            "polyline" | "polygon" => attribute(tag, "points")?
                .split_whitespace()
                .map(|p| p.split_once(',').map(|(x, y)| Point::new(number(x), number(y))).unwrap())
                .collect(),
            "ellipse" => {
                let [x, y, rx, ry] = ["cx", "cy", "rx", "ry"].map(|name| number(attribute(tag, name).unwrap()));
                vec![Point::new(x, y), Point::new(rx, ry)]
            }
            _ => return None,
        };
        Some(Shape { tag: name.to_owned(), points, width: attribute(tag, "stroke-width").map_or(0.0, number) })
    })
    .collect()
}

fn worked(design: &Design) -> (Worked, Shop) {
    let shop = Shop::default();
    assert_eq!(design.problems(), vec![]);
    (work_out(design, &shop).unwrap(), shop)
}

/// A scoop whose drawings need several pages either way.
fn large() -> Design {
    let mut design = scoops::angled_scoop();
    design.name = "Large <scoop> & co".to_owned();
    design.blank.section = BlankSection::Square { side_mm: 210.0 };
    design.blank.length_mm = 620.0;
    design
}

fn designs() -> [Design; 4] {
    [demo(), scoops::angled_scoop(), scoops::three_axes(), large()]
}

fn settings() -> Vec<(Paper, PrintScale)> {
    let scales = [PrintScale::default(), PrintScale::measured(106.0, 98.5).unwrap()];
    [Paper::A4, Paper::Letter].into_iter().flat_map(|paper| scales.map(|scale| (paper, scale))).collect()
}

fn find<'a>(all: &'a [Template], title: &str) -> &'a Template {
    all.iter().find(|t| t.title.starts_with(title)).unwrap_or_else(|| panic!("no {title}"))
}

/// How far apart two lengths may be on paper, in mm: the promise is 0.1; the file keeps thousandths.
const CLOSE: f64 = 0.002;

#[test]
fn check_lines_measure_a_hundred_millimetres_and_four_inches_both_ways() {
    for (paper, scale) in settings() {
        for design in designs() {
            let (worked, shop) = worked(&design);
            for template in templates(&design, &worked, &shop) {
                for page in template.pages(&design.name, paper, scale) {
                    let lines: Vec<[Point; 2]> = read(&page.svg)
                        .into_iter()
                        .filter_map(|s| <[Point; 2]>::try_from(s.points).ok().filter(|_| s.tag == "polyline"))
                        .collect();
                    let across =
                        lines.iter().any(|[a, b]| (b.x - a.x - 101.6 * scale.across()).abs() < CLOSE && a.y == b.y);
                    let along =
                        lines.iter().any(|[a, b]| (b.y - a.y - 101.6 * scale.along()).abs() < CLOSE && a.x == b.x);
                    assert!(across && along, "{} {paper:?}", template.title);
                }
            }
        }
    }
    assert_eq!(check_page(Paper::A4, PrintScale::default()).len(), 1);
}

/// A printer that made 106 mm of 100 is given 100 / 1.06, and so prints 100.
#[test]
fn what_the_check_line_measured_corrects_the_next_print() {
    let scale = PrintScale::measured(106.0, 98.0).unwrap();
    assert!((scale.across() * 106.0 - 100.0).abs() < 1e-12 && (scale.along() * 98.0 - 100.0).abs() < 1e-12);
    for (across, along) in [(0.0, 100.0), (100.0, 49.0), (f64::NAN, 100.0), (100.0, f64::INFINITY), (151.0, 100.0)] {
        let error = PrintScale::measured(across, along).unwrap_err().to_string();
        assert!(error.starts_with("The 100 mm line ") && error.ends_with('.'), "{error}");
    }
    let error = PrintScale::measured(100.0, 152.4).unwrap_err();
    let told =
        "The 100 mm line along the paper is said to measure 152.4 mm: measure it again, it lies within 50 to 150 mm.";
    assert_eq!(error.to_string(), told);
    let inches = Units { length: LengthUnit::Inches, rounding: Rounding::Decimal };
    let told =
        "The 100 mm line along the paper is said to measure 6 in: measure it again, it lies within 1.969 to 5.906 in.";
    assert_eq!(error.told(inches), told);
}

/// The marks, by the middles of their footprints, against the marks figure.
#[test]
fn marks_and_outlines_of_both_faces_are_at_full_size() {
    for (paper, scale) in settings() {
        for design in designs() {
            let (worked, shop) = worked(&design);
            let all = templates(&design, &worked, &shop);
            for (title, footprint) in
                [("Bowl end", shop.centres.live_diameter_mm), ("Head end", shop.centres.drive_diameter_mm)]
            {
                let tail = title == "Bowl end";
                let mut missing: Vec<Point> = Vec::new();
                let mut found: Vec<Point> = Vec::new();
                let mut extents: Vec<Point> = Vec::new();
                for page in find(&all, title).pages(&design.name, paper, scale) {
                    let on_template = |p: Point| {
                        Point::new(p.x / scale.across() - page.origin.x, p.y / scale.along() - page.origin.y)
                    };
                    for shape in read(&page.svg) {
                        if shape.tag == "ellipse"
                            && (shape.points[1].x / scale.across() - footprint / 2.0).abs() < CLOSE
                        {
                            assert!((shape.points[1].y / scale.along() - footprint / 2.0).abs() < CLOSE);
                            found.push(on_template(shape.points[0]));
                        }
                        if shape.tag == "polygon" {
                            extents.extend(shape.points.iter().map(|p| on_template(*p)));
                        }
                    }
                }
                for axis in &worked.figures.marks {
                    let mark = if tail { &axis.tail } else { &axis.head };
                    let expected = Point::new(mark.seen_right_mm, -mark.seen_up_mm);
                    let near = |p: &Point| (p.x - expected.x).hypot(p.y - expected.y) < 0.1;
                    if !found.iter().any(near) {
                        missing.push(expected);
                    }
                }
                assert_eq!(missing, vec![], "{title} of {} on {paper:?}", design.name);
                let half = worked.piece.solid.stock.half_width();
                for corner in [(half, half), (-half, half), (half, -half), (-half, -half)] {
                    assert!(extents.iter().any(|p| (p.x - corner.0).hypot(p.y - corner.1) < 0.1), "{title} {corner:?}");
                }
            }
        }
    }
}

/// Right of the centre as held is left on the bowl end as it is seen, and right on the head end.
#[test]
fn a_mark_that_is_right_as_held_is_left_on_the_bowl_end_template() {
    let mut design = scoops::angled_scoop();
    design.axes = vec![AxisChoice::Marks { tail_x_mm: 9.0, tail_y_mm: -4.0, head_x_mm: 11.0, head_y_mm: 7.0 }];
    let (worked, shop) = worked(&design);
    let all = templates(&design, &worked, &shop);
    let middles = |title: &str, diameter: f64| -> Vec<Point> {
        let page = &find(&all, title).pages("", Paper::A4, PrintScale::default())[0];
        let rings = read(&page.svg)
            .into_iter()
            .filter(|s| s.tag == "ellipse" && (s.points[1].x - diameter / 2.0).abs() < CLOSE);
        rings.map(|s| s.points[0]).collect()
    };
    let [a, b] = middles("Bowl end", shop.centres.live_diameter_mm)[..] else { panic!("two marks") };
    assert!((b.x - a.x + 9.0).abs() < CLOSE && (b.y - a.y - 4.0).abs() < CLOSE, "{a:?} {b:?}");
    let [a, b] = middles("Head end", shop.centres.drive_diameter_mm)[..] else { panic!("two marks") };
    assert!((b.x - a.x - 11.0).abs() < CLOSE && (b.y - a.y + 7.0).abs() < CLOSE, "{a:?} {b:?}");
}

/// Marks close to each other keep their letters apart, each nearest to its own.
#[test]
fn every_mark_has_its_letter_by_it() {
    let mut design = scoops::angled_scoop();
    let at = |x: f64, y: f64| AxisChoice::Marks { tail_x_mm: x, tail_y_mm: y, head_x_mm: -y, head_y_mm: x };
    for others in [[(5.0, -3.0), (-4.0, 6.0)], [(0.0, 4.0), (0.0, -4.0)], [(2.0, 2.0), (4.0, 4.0)]] {
        design.axes = others.map(|(x, y)| at(x, y)).to_vec();
        let (worked, shop) = worked(&design);
        for template in templates(&design, &worked, &shop).iter().filter(|t| t.title.contains(" end")) {
            let tail = template.title.starts_with("Bowl end");
            let seen = |axis: &skewline::figures::marks::AxisMarks| {
                let mark = if tail { &axis.tail } else { &axis.head };
                Point::new(mark.seen_right_mm, -mark.seen_up_mm)
            };
            let marks: Vec<Point> = worked.figures.marks.iter().map(seen).collect();
            let letters: Vec<(usize, Point)> = template.ink.0.iter().filter_map(letter).collect();
            assert_eq!(letters.len(), 3);
            for (own, middle) in &letters {
                let far = |mark: &Point| (mark.x - middle.x).hypot(mark.y - middle.y);
                assert!(
                    marks.iter().all(|mark| far(mark) >= far(&marks[*own]) - 1e-9),
                    "{own} of {marks:?} at {middle:?}"
                );
                let apart = |other: &Point| (other.x - middle.x).abs().max((other.y - middle.y).abs()) > 3.0;
                assert!(letters.iter().all(|(other, at)| other == own || apart(at)), "{letters:?}");
            }
        }
    }
}

/// Which mark a letter is of, and its middle: capitals are 0.72 of their size high.
fn letter(item: &Item) -> Option<(usize, Point)> {
    match item {
        Item::Words { words, at, size, .. } if words.len() == 1 => {
            Some(("ABCDEFG".find(words.as_str())?, Point::new(at.x, at.y - 0.36 * size)))
        }
        _ => None,
    }
}

/// A mark far off the wood does not stretch the template over dozens of pages; it is told in words.
#[test]
fn a_mark_far_off_the_wood_is_told_in_words() {
    let mut design = scoops::angled_scoop();
    design.axes = vec![AxisChoice::Tilt { tilt_deg: 60.0, toward_deg: 90.0, crossing_mm: -480.0 }];
    let (worked, shop) = worked(&design);
    let all = templates(&design, &worked, &shop);
    let face = find(&all, "Head end");
    assert_eq!(face.pages("", Paper::A4, PrintScale::default()).len(), 1);
    let told = |item: &Item| matches!(item, Item::Words { words, .. } if words.starts_with("B  ") && words.ends_with("overhangs the wood"));
    assert!(face.ink.0.iter().any(told));
}

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

/// The gauge's edge is the profile, and the stick is as long as the work, over every page.
#[test]
fn gauges_and_sticks_are_at_full_size_over_page_splits() {
    for (paper, scale) in settings() {
        for design in designs() {
            let (worked, shop) = worked(&design);
            let all = templates(&design, &worked, &shop);
            for (cut, choice) in design.cuts.iter().enumerate() {
                let Cut::Pass(pass) = choice else { continue };
                let Some(gauge) = all.iter().find(|t| t.title == format!("Gauge: {}", pass.name)) else {
                    assert_eq!(pass.name, "tenon");
                    continue;
                };
                let chain = &worked.piece.revolved(cut).unwrap().meridian;
                for page in gauge.pages(&design.name, paper, scale) {
                    let cards: Vec<Shape> =
                        read(&page.svg).into_iter().filter(|s| s.tag == "polygon" && s.width == 0.5).collect();
                    for Point { x, y } in cards.iter().flat_map(|s| &s.points).take(chain.points().len()) {
                        let (r, t) = (x / scale.across() - page.origin.x, y / scale.along() - page.origin.y);
                        let off = [chain.radius_before(t), chain.radius_after(t)].map(|e| (e - r).abs());
                        let steep = chain.distance(t, r);
                        assert!(off[0].min(off[1]).min(steep) < 0.1, "{} {r} {t}", pass.name);
                    }
                }
            }
            let stick = find(&all, "Story stick");
            let pages = stick.pages(&design.name, paper, scale);
            let mut ends = (f64::INFINITY, f64::NEG_INFINITY);
            for page in &pages {
                let [low, high] = page.window;
                for shape in read(&page.svg).iter().filter(|s| s.tag == "polyline" && s.width == 0.5) {
                    for p in &shape.points {
                        let on_page = (p.x / scale.across(), p.y / scale.along());
                        let seen = on_page.1 >= low.y && on_page.1 <= high.y;
                        let at = on_page.1 - page.origin.y;
                        if seen {
                            ends = (ends.0.min(at), ends.1.max(at));
                        }
                    }
                }
            }
            let (first, last) = (worked.piece.tail_face, worked.piece.head_face);
            assert!(ends.0 <= first + 0.1 && ends.1 >= last - 0.1, "{} {ends:?} {first} {last}", design.name);
            assert!(design.blank.length_mm < 600.0 || pages.len() > 1);
        }
    }
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

/// A gauge and a story stick of one axis give one station one number. The mark of an axis that tilts by an angle lies as far
/// before s = 0, along it, as the tail face does, over the angle's cosine.
#[test]
fn gauges_are_numbered_as_the_story_stick_is() {
    let design = demo();
    let (worked, shop) = worked(&design);
    let [AxisChoice::Tilt { tilt_deg, .. }] = design.axes[..] else { panic!("{:?}", design.axes) };
    let all = templates(&design, &worked, &shop);
    let mark = worked.piece.tail_face / tilt_deg.to_radians().cos();
    for (title, datum) in [("Gauge: bowl", 0.0), ("Gauge: handle", mark)] {
        let numbers = find(&all, title).ink.0.iter().filter_map(|item| match item {
            Item::Words { words, at, .. } => Some((words.parse::<f64>().ok()?, at.y - 1.1)),
            _ => None,
        });
        let numbers: Vec<_> = numbers.collect();
        assert!(numbers.len() > 3, "{title}");
        for (written, at) in numbers {
            assert!((at - datum - written).abs() < 1e-6, "{title}: {written} at {at}");
        }
    }
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

/// The wrap's line is the saw's: on a straight bowl about axis A, height = radius times cosine of arc over radius.
#[test]
fn the_wrap_of_a_straight_bowl_carries_the_saw_line() {
    for (first_mm, faced_mm) in [(-3.0, 0.0), (6.0, 0.0), (-3.0, 2.5)] {
        the_wrap_carries_a_saw_line(first_mm, faced_mm);
    }
}

/// The same slope drawn from another station: the saw goes on to the rim, and so does the wrap; also where so much is
/// faced off the bowl's end.
fn the_wrap_carries_a_saw_line(first_mm: f64, faced_mm: f64) {
    let mut design = bored_end_scoop_straight();
    let radius = 26.0;
    let height_at = |at_mm: f64| -6.0 + (at_mm + 3.0) * 36.0 / 45.0;
    for cut in &mut design.cuts {
        match cut {
            Cut::Pass(pass) if pass.name == "bowl" => {
                let nodes = vec![
                    skewline::design::Node::line(0.0, 2.0 * radius),
                    skewline::design::Node::line(pass.to_mm, 2.0 * radius),
                ];
                pass.profile = skewline::design::PassProfile::Drawn { nodes };
            }
            Cut::Saw(saw) => {
                let point = |at_mm, height_mm| skewline::design::SawPoint { at_mm, height_mm };
                saw.path = skewline::design::SawPath::Lines {
                    points: vec![point(first_mm, height_at(first_mm)), point(42.0, 30.0)],
                };
            }
            _ => {}
        }
    }
    if faced_mm > 0.0 {
        let removes = skewline::design::Side::Tail;
        let plane = skewline::design::EndPlane { axis: skewline::design::AxisName::A, at_mm: faced_mm, removes };
        design.cuts.insert(design.cuts.len() - 1, Cut::Face(plane));
    }
    let (worked, shop) = worked(&design);
    let rim = plan(&design, &worked, &shop).unwrap().steps.into_iter().flat_map(|step| step.numbers);
    let rim: Vec<_> =
        rim.filter(|number| number.what.starts_with("lip, from")).filter_map(|number| number.mm).collect();
    assert_eq!(rim, [faced_mm]);
    let all = templates(&design, &worked, &shop);
    let wrap = find(&all, "Saw line");
    assert!(wrap.note.ends_with("It lies exactly."), "{}", wrap.note);
    let page = &wrap.pages("", Paper::A4, PrintScale::default())[0];
    let line = read(&page.svg).into_iter().find(|s| s.tag == "polyline" && s.width == 0.5).unwrap();
    assert!(line.points.len() > 100);
    for Point { x, y } in line.points {
        // The paper begins at the rim.
        let (u, s) = (x - page.origin.x, y - page.origin.y + faced_mm);
        assert!((radius * (u / radius).cos() - height_at(s)).abs() < 0.01, "{u} {s}");
    }
    // The paper goes once round.
    let edge = wrap.ink.0.iter().find_map(|item| match item {
        Item::Line { points, closed: true, stroke: Stroke::Thin } => Some(points),
        _ => None,
    });
    let wide = edge.unwrap().iter().fold((0.0_f64, 0.0_f64), |w, p| (w.0.min(p.x), w.1.max(p.x)));
    assert!((wide.1 - wide.0 - 2.0 * std::f64::consts::PI * radius).abs() < 1e-6);
    assert!(edge.unwrap().iter().fold(f64::INFINITY, |low, p| low.min(p.y)).abs() < 1e-9);
}

fn sheet_pages(design: &Design, paper: Paper) -> Vec<String> {
    let (worked, shop) = worked(design);
    let plan = plan(design, &worked, &shop);
    let mut scene = SideScene::of(design, &shape(design, &shop).unwrap(), &shop);
    scene.handles.clear();
    let size = kurbo::Size::new(760.0, 300.0);
    let drawing = svg::to_svg(size.width, size.height, |area, sheet: Sheet| {
        draw_side_view(area, &scene, &Theme::PRINT, &side_view::fit(&scene, sheet))
    });
    bench_sheet(design, &worked, &shop, &plan).pages(paper, PrintScale::default(), Some((&drawing.unwrap(), size)))
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

#[test]
fn pictures_of_every_template() {
    let design = demo();
    let (worked, shop) = worked(&design);
    for template in templates(&design, &worked, &shop) {
        let name: String = template
            .title
            .to_lowercase()
            .split(|c: char| !c.is_alphanumeric())
            .filter(|w| !w.is_empty())
            .collect::<Vec<_>>()
            .join("_");
        let pages = template.pages(&design.name, Paper::A4, PrintScale::default());
        for (i, page) in pages.into_iter().enumerate() {
            insta::assert_binary_snapshot!(&format!("{name}_{}.svg", i + 1), page.svg.into_bytes());
        }
    }
    for (i, page) in sheet_pages(&design, Paper::A4).into_iter().enumerate() {
        insta::assert_binary_snapshot!(&format!("sheet_{}.svg", i + 1), page.into_bytes());
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
