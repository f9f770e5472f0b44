//! The values of a design as a turner looks for them: in groups, each with a name, a bound and a sensible range.

mod group;
mod shown;

pub use group::{Group, group_of_cut};
pub use shown::{Shown, shown, shown_in_design};

use super::axis_name::AxisName;
use super::document::{AxisChoice, BlankSection, Cut, Design, Hollow, HollowShape, InUse, SawPath};
use super::fields::{Field, nodes_of};
use super::profile::Curve;
use super::shop::Limits;
use super::text::capital;
use super::units::Quantity;
use super::validation::bounds::{self, Bound};
use super::validation::largest_bulge_mm;

/// One value on screen.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Which number it is.
    pub field: Field,
    /// Its name on screen.
    pub label: String,
    /// A length, an angle or a plain number.
    pub quantity: Quantity,
    /// What may be typed.
    pub bound: Bound,
    /// Where its slider starts.
    pub from: f64,
    /// Where its slider ends.
    pub to: f64,
    /// A small length, moved in small steps.
    pub fine: bool,
    /// What it means, where the name does not say it all.
    pub note: &'static str,
}

impl Row {
    fn new(field: Field, label: &str, bound: Bound, from: f64, to: f64) -> Self {
        let quantity = match bound.unit {
            bounds::MM => Quantity::Length,
            " degrees" => Quantity::Angle,
            _ => Quantity::Number,
        };
        Self { field, label: label.to_owned(), quantity, bound, from, to, fine: false, note: "" }
    }

    fn fine(self) -> Self {
        Self { fine: true, ..self }
    }

    fn note(self, note: &'static str) -> Self {
        Self { note, ..self }
    }
}

/// Values that belong together under one heading.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// The heading.
    pub title: String,
    /// The cut it belongs to, by its place in the document.
    pub cut: Option<usize>,
    /// The axis it belongs to, by its place in the list of axes after A.
    pub axis: Option<usize>,
    /// Its values.
    pub rows: Vec<Row>,
}

impl Section {
    fn new(title: impl Into<String>, rows: Vec<Row>) -> Self {
        Self { title: title.into(), cut: None, axis: None, rows }
    }

    fn of_cut(cut: usize, title: impl Into<String>, rows: Vec<Row>) -> Self {
        Self { cut: Some(cut), ..Self::new(title, rows) }
    }
}

/// The sections of a group. Nodes of profiles and points of saw lines have rows of their own: see [`node_rows`] and
/// [`saw_point_rows`].
#[must_use]
pub fn sections(design: &Design, group: Group) -> Vec<Section> {
    let size = Size::of(design);
    let mut sections = match group {
        Group::Wood => wood(design),
        Group::Handle => design.axes.iter().enumerate().map(|(i, axis)| axis_section(i, axis, &size)).collect(),
        _ => Vec::new(),
    };
    // The tenon is turned early, and looked at last.
    let (tenons, others): (Vec<_>, Vec<_>) =
        design.cuts.iter().enumerate().partition(|(_, choice)| is_tenon(choice, &size));
    for (cut, choice) in others.into_iter().chain(tenons) {
        if group_of_cut(design, cut) == Some(group) {
            sections.extend(cut_section(design, cut, choice, &size));
        }
    }
    match group {
        Group::Hollow => sections.push(Section::new(
            "Wanted thickness",
            vec![
                Row::new(Field::WallLimit, "Thinnest wall", bounds::LIMIT, 0.5, 10.0).fine(),
                Row::new(Field::FloorLimit, "Thinnest floor", bounds::LIMIT, 0.5, 15.0).fine(),
            ],
        )),
        Group::Outside => sections.push(Section::new(
            "Join",
            vec![
                Row::new(Field::FinishingAllowance, "Finishing allowance", bounds::LIMIT, 0.0, 3.0)
                    .fine()
                    .note("Left on the radius for the later axis to clean up."),
                Row::new(Field::JoinSpare, "Spare over the join", bounds::LIMIT, 0.1, 5.0)
                    .fine()
                    .note("How far straight tapers may stand proud, so that there are fewer of them."),
            ],
        )),
        _ => {}
    }
    sections.retain(|section| !section.rows.is_empty() || section.cut.is_some());
    sections
}

/// A pass on A that starts past the middle of the blank and runs to its head end.
fn is_tenon(choice: &Cut, size: &Size) -> bool {
    matches!(choice, Cut::Pass(pass)
        if pass.axis == AxisName::A && pass.from_mm > size.length / 2.0 && pass.to_mm >= size.length)
}

/// Outer size of the blank, in mm.
struct Size {
    width: f64,
    length: f64,
}

impl Size {
    fn of(design: &Design) -> Self {
        let width = match design.blank.section {
            BlankSection::Square { side_mm } => side_mm,
            BlankSection::Round { diameter_mm } => diameter_mm,
        };
        Self { width, length: design.blank.length_mm }
    }
}

fn wood(design: &Design) -> Vec<Section> {
    let width_name = match design.blank.section {
        BlankSection::Square { .. } => "Side",
        BlankSection::Round { .. } => "Diameter",
    };
    let moisture = Row::new(Field::Moisture, "Moisture, percent", bounds::MOISTURE, 0.0, 60.0)
        .note("Kiln-dry wood has about 6 to 12, green wood 30 or more.");
    vec![
        Section::new(
            "Blank",
            vec![
                Row::new(Field::BlankWidth, width_name, bounds::BLANK_WIDTH, 20.0, 150.0),
                Row::new(Field::BlankLength, "Length", bounds::BLANK_LENGTH, 60.0, 600.0)
                    .note("From the bowl-end face to the head face, waste included."),
            ],
        ),
        Section::new("Wood", vec![moisture]),
        Section::new("In use", in_use(design)),
    ]
}

/// The air or the moisture that the wood comes to in use.
fn in_use(design: &Design) -> Vec<Row> {
    match design.wood.in_use {
        InUse::Moisture { .. } => {
            vec![Row::new(Field::UseMoisture, "Moisture, percent", bounds::MOISTURE, 0.0, 30.0)]
        }
        InUse::Air { .. } => vec![
            Row::new(Field::UseTemperature, "Temperature, \u{b0}C", bounds::TEMPERATURE_C, 0.0, 40.0),
            Row::new(Field::UseHumidity, "Humidity of the air, percent", bounds::HUMIDITY, 20.0, 90.0),
        ],
    }
}

fn axis_section(index: usize, axis: &AxisChoice, size: &Size) -> Section {
    let letter = AxisName::from_index(index + 1).map_or('?', AxisName::letter);
    let half = size.width / 2.0;
    let mark = |field, label| Row::new(field, label, bounds::MARK, -half, half);
    let rows = match axis {
        AxisChoice::Tilt { .. } => vec![
            Row::new(Field::AxisTilt(index), "Tilt", bounds::TILT_DEG, 0.0, 25.0)
                .note("The angle between this axis and the blank's own."),
            Row::new(Field::AxisCrossing(index), "Crosses axis A at", bounds::STATION, 0.0, size.length)
                .note("From the bowl end."),
            Row::new(Field::AxisToward(index), "Leans toward", bounds::CLOCK_DEG, 0.0, 360.0)
                .note("As held: 0\u{b0} is up, 90\u{b0} right, 180\u{b0} down."),
        ],
        AxisChoice::Marks { .. } => vec![
            mark(Field::TailX(index), "Tail mark, right"),
            mark(Field::TailY(index), "Tail mark, up"),
            mark(Field::HeadX(index), "Head mark, right"),
            mark(Field::HeadY(index), "Head mark, up"),
        ],
        AxisChoice::Across { .. } => vec![
            Row::new(Field::AcrossStation(index), "Station", bounds::STATION, 0.0, size.length),
            Row::new(Field::AcrossFrom(index), "Comes from", bounds::CLOCK_DEG, 0.0, 360.0)
                .note("As held: 0\u{b0} is up, 90\u{b0} right, 180\u{b0} down."),
        ],
    };
    Section { axis: Some(index), ..Section::new(format!("Axis {letter}"), rows) }
}

fn cut_section(design: &Design, cut: usize, choice: &Cut, size: &Size) -> Option<Section> {
    let station = |field, label| Row::new(field, label, bounds::STATION, 0.0, size.length);
    Some(match choice {
        Cut::Pass(pass) => {
            let title = format!("{} (axis {})", capital(&pass.name), pass.axis);
            Section::of_cut(cut, title, vec![station(Field::PassFrom(cut), "From"), station(Field::PassTo(cut), "To")])
        }
        Cut::Hollow(hollow) => Section::of_cut(cut, hollow_name(design, cut), hollow_rows(cut, hollow, size)),
        Cut::FitPlug(plug) => {
            let mut rows = vec![
                Row::new(Field::PlugDisc(cut), "Disc", bounds::BORE_DIAMETER, 10.0, size.width),
                Row::new(Field::PlugThickness(cut), "Thickness", bounds::PLUG_THICKNESS, 3.0, 50.0)
                    .note("The tail centre bears on the plug, this far before the bowl end."),
                Row::new(
                    Field::SpigotDiameter(cut),
                    "Spigot",
                    bounds::BORE_DIAMETER,
                    5.0,
                    plug.disc_diameter_mm.min(size.width),
                ),
                Row::new(Field::SpigotLength(cut), "Spigot length", bounds::SPIGOT_LENGTH, 0.0, 40.0),
            ];
            if plug.tenon.is_some() {
                let widest = plug.disc_diameter_mm.min(size.width);
                rows.extend([
                    Row::new(Field::PlugTenonDiameter(cut), "Tenon", bounds::BORE_DIAMETER, 5.0, widest)
                        .note("The chuck holds the plug by it; the tail centre bears on its end."),
                    Row::new(Field::PlugTenonLength(cut), "Tenon length", bounds::PLUG_TENON_LENGTH, 2.0, 20.0),
                ]);
            }
            Section::of_cut(cut, "Plug", rows)
        }
        Cut::Saw(saw) => {
            let rows = match &saw.path {
                SawPath::Arc { from, to, .. } => {
                    let most = (to.at_mm - from.at_mm).hypot(to.height_mm - from.height_mm) / 2.0;
                    vec![
                        Row::new(Field::SawBulge(cut), "Bow", bounds::BULGE, -most, most)
                            .note("How far the cut bows up from straight; below 0 it sags."),
                    ]
                }
                SawPath::Lines { .. } => Vec::new(),
            };
            Section::of_cut(cut, "Saw line", rows)
        }
        Cut::Face(plane) => {
            Section::of_cut(cut, format!("Facing (axis {})", plane.axis), vec![station(Field::PlaneAt(cut), "At")])
        }
        Cut::Part(plane) => {
            Section::of_cut(cut, format!("Parting off (axis {})", plane.axis), vec![station(Field::PlaneAt(cut), "At")])
        }
        Cut::TakeOutPlug => return None,
    })
}

/// Every hollow: its place among the cuts, and its name on screen.
#[must_use]
pub fn hollow_names(design: &Design) -> Vec<(usize, String)> {
    hollows(design).map(|(cut, _)| (cut, hollow_name(design, cut))).collect()
}

fn hollows(design: &Design) -> impl Iterator<Item = (usize, AxisName)> {
    design.cuts.iter().enumerate().filter_map(|(cut, choice)| match choice {
        Cut::Hollow(hollow) => Some((cut, hollow.axis)),
        _ => None,
    })
}

/// By its axis; those on one axis are numbered in working order.
fn hollow_name(design: &Design, cut: usize) -> String {
    let axis = hollows(design).find(|it| it.0 == cut).map_or(AxisName::A, |it| it.1);
    let alike: Vec<usize> = hollows(design).filter(|it| it.1 == axis).map(|it| it.0).collect();
    let number = match alike.iter().position(|it| *it == cut) {
        Some(before) if alike.len() > 1 => format!(" {}", before + 1),
        _ => String::new(),
    };
    match axis {
        AxisName::A => format!("Bore{number}"),
        axis => format!("Hollow{number} (axis {axis})"),
    }
}

fn hollow_rows(cut: usize, hollow: &Hollow, size: &Size) -> Vec<Row> {
    let HollowShape::RoundEnded { diameter_mm, depth_mm, .. } = hollow.shape else {
        return vec![Row::new(Field::HollowMouth(cut), "Mouth at", bounds::STATION, -size.width, size.length / 2.0)];
    };
    let most_rounding = (diameter_mm / 2.0).min(depth_mm);
    vec![
        Row::new(Field::BoreDiameter(cut), "Diameter", bounds::BORE_DIAMETER, 5.0, size.width),
        Row::new(Field::BoreDepth(cut), "Depth", bounds::DEPTH, 5.0, size.length.min(100.0))
            .note("From the mouth to the middle of the floor."),
        Row::new(Field::BoreRounding(cut), "Floor rounding", bounds::ROUNDING, 0.0, most_rounding)
            .note("Radius of the corner between side and floor."),
    ]
}

/// The values of one node of a drawn profile.
#[must_use]
pub fn node_rows(design: &Design, cut: usize, node: usize) -> Vec<Row> {
    let size = Size::of(design);
    let Some(nodes) = design.cuts.get(cut).and_then(nodes_of) else { return Vec::new() };
    let Some(here) = nodes.get(node) else { return Vec::new() };
    let at = |index: Option<usize>| index.and_then(|index| nodes.get(index)).map(|it| it.at_mm);
    let from = at(node.checked_sub(1)).unwrap_or(0.0);
    let to = at(Some(node + 1)).unwrap_or(size.length);
    let mut rows = vec![
        Row::new(Field::NodeAt(cut, node), "Station", bounds::STATION, from, to.max(from)),
        Row::new(Field::NodeDiameter(cut, node), "Diameter", bounds::DIAMETER, 0.0, size.width),
    ];
    if let (Curve::Arc { .. }, Some(next)) = (here.curve, nodes.get(node + 1)) {
        let most = largest_bulge_mm(here, next);
        rows.push(
            Row::new(Field::NodeBulge(cut, node), "Arc height", bounds::BULGE, -most, most)
                .fine()
                .note("Over the straight line to the next node; below 0 it is a cove."),
        );
    }
    rows
}

/// The values of one point of a saw line.
#[must_use]
pub fn saw_point_rows(design: &Design, cut: usize, point: usize) -> Vec<Row> {
    let size = Size::of(design);
    if Field::SawAt(cut, point).number(design).is_none() {
        return Vec::new();
    }
    let half = size.width / 2.0;
    let before = point.checked_sub(1).and_then(|before| Field::SawAt(cut, before).number(design)).unwrap_or(-10.0);
    let after = Field::SawAt(cut, point + 1).number(design).unwrap_or(size.length);
    vec![
        Row::new(Field::SawAt(cut, point), "Station", bounds::STATION, before, after.max(before)),
        Row::new(Field::SawHeight(cut, point), "Height", bounds::HEIGHT, -half, half)
            .note("Over axis A; below 0 is under it."),
    ]
}

/// What a limit is when the design leaves it to the shop.
#[must_use]
pub const fn shop_value(field: Field, shop: &Limits) -> Option<f64> {
    match field {
        Field::WallLimit => Some(shop.wall_mm),
        Field::FloorLimit => Some(shop.floor_mm),
        Field::FinishingAllowance => Some(shop.finishing_allowance_mm),
        Field::JoinSpare => Some(shop.join_spare_mm),
        _ => None,
    }
}

/// The slider's range, widened so that the value is on it.
#[must_use]
pub fn range_with(row: &Row, value: f64) -> (f64, f64) {
    (row.from.min(value), row.to.max(value))
}
