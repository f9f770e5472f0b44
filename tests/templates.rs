//! Templates at full size: what is on the paper is read back from the SVG, in millimetres.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use skewline::design::entry::Units;
use skewline::design::starters::{bored_end_scoop_straight, demo};
use skewline::design::{AxisChoice, Cut, LengthUnit, Rounding};
use skewline::drawings::templates::{Item, Paper, PrintScale, Stroke, check_page, templates};
use skewline::figures::plan::plan;

mod on_paper;
mod scoops;
use on_paper::{Point, Shape, designs, find, read, settings, sheet_pages, worked};

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
