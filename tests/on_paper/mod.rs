//! Designs to print, and what is read back from their pages.
#![allow(dead_code, reason = "each test file uses some of it")]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use skewline::design::starters::demo;
use skewline::design::{BlankSection, Design, Shop};
use skewline::drawings::templates::{Paper, PrintScale, Template, bench_sheet};
use skewline::drawings::{Sheet, SideScene, Theme, draw_side_view, side_view, svg};
use skewline::figures::plan::plan;
use skewline::figures::{Worked, shape, work_out};

use super::scoops;

pub type Point = skewline::geometry::Point;

/// One shape read back from a page, in mm of paper.
#[derive(Debug)]
pub struct Shape {
    pub tag: String,
    pub points: Vec<Point>,
    pub width: f64,
}

pub fn attribute<'a>(tag: &'a str, name: &str) -> Option<&'a str> {
    let start = tag.find(&format!(" {name}=\""))? + name.len() + 3;
    Some(&tag[start..start + tag[start..].find('"')?])
}

/// The lines, polygons and circles of a page; a circle as its middle and its radii. The page's units have to be mm.
pub fn read(svg: &str) -> Vec<Shape> {
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

pub fn worked(design: &Design) -> (Worked, Shop) {
    let shop = Shop::default();
    assert_eq!(design.problems(), vec![]);
    (work_out(design, &shop).unwrap(), shop)
}

/// A scoop whose drawings need several pages either way.
pub fn large() -> Design {
    let mut design = scoops::angled_scoop();
    design.name = "Large <scoop> & co".to_owned();
    design.blank.section = BlankSection::Square { side_mm: 210.0 };
    design.blank.length_mm = 620.0;
    design
}

pub fn designs() -> [Design; 4] {
    [demo(), scoops::angled_scoop(), scoops::three_axes(), large()]
}

pub fn settings() -> Vec<(Paper, PrintScale)> {
    let scales = [PrintScale::default(), PrintScale::measured(106.0, 98.5).unwrap()];
    [Paper::A4, Paper::Letter].into_iter().flat_map(|paper| scales.map(|scale| (paper, scale))).collect()
}

pub fn find<'a>(all: &'a [Template], title: &str) -> &'a Template {
    all.iter().find(|t| t.title.starts_with(title)).unwrap_or_else(|| panic!("no {title}"))
}

pub fn sheet_pages(design: &Design, paper: Paper) -> Vec<String> {
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
