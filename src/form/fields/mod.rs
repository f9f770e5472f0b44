//! The numbers of a design, each by name: one table says where each stands in the document and how it looks on screen.

mod found;

use serde::{Deserialize, Serialize};

use super::place::{self, read};
use super::row::Row;
use crate::design::validation::{bounds, largest_bulge_mm};
use crate::design::{
    AxisChoice, Blank, BlankSection, Curve, Cut, Design, EndPlane, Hollow, HollowShape, InUse, LimitChoices, Node,
    Pass, Plug, PlugTenon, SawCut, SawPath, SawPoint, Wood,
};

/// The parts of a design that hold numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::form) enum Part {
    Whole,
    Width,
    Axis,
    Cut,
    Node,
    Point,
    Choice,
}

/// Where a field is, for what its slider depends on.
struct Here<'a> {
    design: &'a Design,
    /// The list's place and that in the list: of an axis or cut, and of a node or point.
    index: [usize; 2],
    /// Outer size of the blank, in mm.
    width: f64,
    length: f64,
}

impl<'a> Here<'a> {
    fn new(design: &'a Design, index: [usize; 2]) -> Self {
        let width = Field::BlankWidth.number(design).unwrap_or_default();
        Self { design, index, width, length: design.blank.length_mm }
    }

    /// How far a mark or a point of a saw line may be from axis A by the slider, in mm.
    fn half(&self) -> f64 {
        self.width / 2.0
    }

    /// The widest that fits a plug's disc, in mm.
    fn disc(&self) -> f64 {
        Field::PlugDisc(self.index[0]).number(self.design).map_or(self.width, |disc| disc.min(self.width))
    }

    /// The greatest rounding of a bore's floor, in mm.
    fn rounding(&self) -> f64 {
        let of = |field: fn(usize) -> Field| field(self.index[0]).number(self.design).unwrap_or_default();
        (of(Field::BoreDiameter) / 2.0).min(of(Field::BoreDepth))
    }

    /// The greatest bulge of the arc after a node, in mm.
    fn bulge(&self) -> f64 {
        let [cut, node] = self.index;
        let nodes = [node, node.saturating_add(1)].map(|node| read::node(self.design, [cut, node]));
        if let [Some(here), Some(next)] = nodes { largest_bulge_mm(here, next) } else { 0.0 }
    }

    /// The greatest bow of a saw arc, in mm.
    fn bow(&self) -> f64 {
        let cut = self.index[0];
        let end = |point: usize| read::point(self.design, [cut, point]);
        end(0).zip(end(1)).map_or(0.0, |(from, to)| (to.at_mm - from.at_mm).hypot(to.height_mm - from.height_mm) / 2.0)
    }

    /// A station between the neighbours in the list, or between these ends, in mm.
    fn between(&self, label: &'static str, station: fn(usize, usize) -> Field, first: f64) -> Row {
        let [cut, index] = self.index;
        let at = |index: usize| station(cut, index).number(self.design);
        let from = index.checked_sub(1).and_then(at).unwrap_or(first);
        Row::new(label, bounds::STATION, from, at(index.saturating_add(1)).unwrap_or(self.length).max(from))
    }

    /// A station anywhere along the blank.
    fn station(&self, label: &'static str) -> Row {
        Row::new(label, bounds::STATION, 0.0, self.length)
    }

    /// A choice of the design's pattern, with the words and the bound of its kind.
    fn choice(&self) -> Row {
        let choices = self.design.pattern.as_ref().map(|pattern| &pattern.choices);
        match choices.and_then(|choices| choices.look(self.index[0])) {
            Some(look) => {
                Row::new(look.label, look.bound, look.slider.0, look.slider.1).note(look.note).fine_if(look.fine)
            }
            None => Row::new("", bounds::DIAMETER, 0.0, 0.0),
        }
    }

    /// A mark's right or up.
    fn mark(&self, label: &'static str) -> Row {
        Row::new(label, bounds::MARK, -self.half(), self.half())
    }
}

/// A direction around the blank.
fn clock(label: &'static str) -> Row {
    Row::new(label, bounds::CLOCK_DEG, 0.0, 360.0).note("As held: 0\u{b0} is up, 90\u{b0} right, 180\u{b0} down.")
}

/// Makes the fields from the table: for each its name, the part that holds it, its place there as a pattern, its name in
/// the saved document, and its row.
macro_rules! fields {
    ($($(#[$doc:meta])* $name:ident $(($i:ident $(, $n:ident)?))? in $part:ident::$list:ident
        at $place:pat => $number:ident, $path:literal, $row:expr;)*) => {
        /// One number of a design. The first index is the place in the list of axes or cuts, the second that of a node or
        /// point.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
        pub enum Field {
            $($(#[$doc])* $name $((fields!(@index $i) $(, fields!(@index $n))?))?,)*
        }

        impl Field {
            /// The number as it stands, in the field's unit; `None` when the design has no such number, or leaves it to the
            /// shop.
            #[must_use]
            #[allow(irrefutable_let_patterns, reason = "some parts have the number whatever their kind")]
            pub fn number(self, design: &Design) -> Option<f64> {
                match self {
                    $(Self::$name $(($i $(, $n)?))? => {
                        if let $place = read::$list(design, [$($i $(, $n)?)?])? { Some(*$number) } else { None }
                    })*
                }
            }

            /// The number itself, to be written over; `None` as for [`number`](Self::number).
            ///
            /// Writing it leaves everything else alone: [`set`](super::edit::set) also moves what has to move with it.
            #[allow(irrefutable_let_patterns, reason = "some parts have the number whatever their kind")]
            pub fn slot(self, design: &mut Design) -> Option<&mut f64> {
                match self {
                    $(Self::$name $(($i $(, $n)?))? => {
                        let part = place::change::$list(design, [$($i $(, $n)?)?])?;
                        if let $place = part { Some($number) } else { None }
                    })*
                }
            }

            /// Where it stands in the saved document, as problems and checks name it, the names of kinds ("pass", "drawn")
            /// left out: `cuts[2].profile.nodes[1].diameter_mm`.
            #[must_use]
            pub fn path(self, design: &Design) -> String {
                match self {
                    $(Self::$name $(($i $(, $n)?))? => place::path::$list(design, [$($i $(, $n)?)?], $path),)*
                }
            }

            /// How it looks on screen.
            #[must_use]
            pub fn row(self, design: &Design) -> Row {
                match self {
                    $(Self::$name $(($i $(, $n)?))? => {
                        let row: fn(&Here<'_>) -> Row = $row;
                        row(&Here::new(design, fields!(@both $($i $(, $n)?)?)))
                    })*
                }
            }

            /// The fields that a part has in this design, in the order of the table.
            pub(in crate::form) fn of_part(design: &Design, part: Part, index: [usize; 2]) -> Vec<Self> {
                let [_first, _second] = index;
                let all = [$((Part::$part, fields!(@make $name _first _second $($i $(, $n)?)?)),)*];
                let here = all.into_iter().filter(|it| it.0 == part).map(|it| it.1);
                here.filter(|field| field.number(design).is_some()).collect()
            }
        }
    };
    (@index $i:ident) => { usize };
    (@both) => { [0, 0] };
    (@both $i:ident) => { [$i, 0] };
    (@both $i:ident, $n:ident) => { [$i, $n] };
    (@make $name:ident $first:ident $second:ident) => { Self::$name };
    (@make $name:ident $first:ident $second:ident $i:ident) => { Self::$name($first) };
    (@make $name:ident $first:ident $second:ident $i:ident, $n:ident) => { Self::$name($first, $second) };
}

fields! {
    /// A choice of the pattern, by its place among the numbers of its kind.
    Choice(i) in Choice::choice at number => number, "", |here| here.choice();
    /// Moisture of the wood, percent of dry mass.
    Moisture in Whole::whole at Design { wood: Wood { moisture_percent, .. }, .. } => moisture_percent,
        "wood.moisture_percent",
        |_| Row::new("Moisture, percent", bounds::MOISTURE, 0.0, 60.0)
            .note("Kiln-dry wood has about 6 to 12, green wood 30 or more.");
    /// Moisture of the wood in use, percent of dry mass.
    UseMoisture in Whole::whole
        at Design { wood: Wood { in_use: InUse::Moisture { moisture_percent }, .. }, .. } => moisture_percent,
        "wood.in_use.moisture_percent", |_| Row::new("Moisture, percent", bounds::MOISTURE, 0.0, 30.0);
    /// Temperature of the air it is used in, degrees Celsius.
    UseTemperature in Whole::whole
        at Design { wood: Wood { in_use: InUse::Air { temperature_c, .. }, .. }, .. } => temperature_c,
        "wood.in_use.temperature_c", |_| Row::new("Temperature, \u{b0}C", bounds::TEMPERATURE_C, 0.0, 40.0);
    /// Relative humidity of the air it is used in, percent.
    UseHumidity in Whole::whole
        at Design { wood: Wood { in_use: InUse::Air { humidity_percent, .. }, .. }, .. } => humidity_percent,
        "wood.in_use.humidity_percent", |_| Row::new("Humidity of the air, percent", bounds::HUMIDITY, 20.0, 90.0);
    /// Side or diameter of the blank, mm.
    BlankWidth in Width::width
        at BlankSection::Square { side_mm: width_mm } | BlankSection::Round { diameter_mm: width_mm } => width_mm,
        "_mm", |here| Row::new(width_name(here.design), bounds::BLANK_WIDTH, 20.0, 150.0);
    /// Length of the blank, mm.
    BlankLength in Whole::whole at Design { blank: Blank { length_mm, .. }, .. } => length_mm,
        "blank.length_mm", |_| Row::new("Length", bounds::BLANK_LENGTH, 60.0, 600.0)
            .note("From the bowl-end face to the head face, waste included.");
    /// Tilt of an axis, degrees.
    AxisTilt(i) in Axis::axis at AxisChoice::Tilt { tilt_deg, .. } => tilt_deg,
        "tilt_deg", |_| Row::new("Tilt", bounds::TILT_DEG, 0.0, 25.0)
            .note("The angle between this axis and the blank's own.");
    /// Where an axis crosses axis A, mm.
    AxisCrossing(i) in Axis::axis at AxisChoice::Tilt { crossing_mm, .. } => crossing_mm,
        "crossing_mm", |here| here.station("Axes cross at").note("From the bowl end.");
    /// Clock direction of an axis's tilt, degrees.
    AxisToward(i) in Axis::axis at AxisChoice::Tilt { toward_deg, .. } => toward_deg,
        "toward_deg", |_| clock("Leans toward");
    /// x of an axis's mark on the tail face, mm.
    TailX(i) in Axis::axis at AxisChoice::Marks { tail_x_mm, .. } => tail_x_mm,
        "tail_x_mm", |here| here.mark("Tail mark, right");
    /// y of an axis's mark on the tail face, mm.
    TailY(i) in Axis::axis at AxisChoice::Marks { tail_y_mm, .. } => tail_y_mm,
        "tail_y_mm", |here| here.mark("Tail mark, up");
    /// x of an axis's mark on the head face, mm.
    HeadX(i) in Axis::axis at AxisChoice::Marks { head_x_mm, .. } => head_x_mm,
        "head_x_mm", |here| here.mark("Head mark, right");
    /// y of an axis's mark on the head face, mm.
    HeadY(i) in Axis::axis at AxisChoice::Marks { head_y_mm, .. } => head_y_mm,
        "head_y_mm", |here| here.mark("Head mark, up");
    /// Station of an axis across the blank, mm.
    AcrossStation(i) in Axis::axis at AxisChoice::Across { station_mm, .. } => station_mm,
        "station_mm", |here| here.station("Position");
    /// Clock direction an axis across the blank comes from, degrees.
    AcrossFrom(i) in Axis::axis at AxisChoice::Across { from_deg, .. } => from_deg,
        "from_deg", |_| clock("Comes from");
    /// Start of a pass, mm along its axis.
    PassFrom(i) in Cut::cut at Cut::Pass(Pass { from_mm, .. }) => from_mm,
        "from_mm", |here| here.station("From");
    /// End of a pass, mm along its axis.
    PassTo(i) in Cut::cut at Cut::Pass(Pass { to_mm, .. }) => to_mm,
        "to_mm", |here| here.station("To");
    /// Station of a node of a pass or of a drawn hollow, mm.
    NodeAt(i, n) in Node::node at Node { at_mm, .. } => at_mm,
        "at_mm", |here| here.between("Position", Field::NodeAt, 0.0);
    /// Diameter at a node, mm.
    NodeDiameter(i, n) in Node::node at Node { diameter_mm, .. } => diameter_mm,
        "diameter_mm", |here| Row::new("Diameter", bounds::DIAMETER, 0.0, here.width);
    /// Height of the arc after a node, mm.
    NodeBulge(i, n) in Node::node at Node { curve: Curve::Arc { bulge_mm }, .. } => bulge_mm,
        "curve.bulge_mm", |here| Row::new("Arc height", bounds::BULGE, -here.bulge(), here.bulge())
            .fine().note("Over the straight line to the next point; below 0 it is a cove.");
    /// Mouth of a hollow, mm along its axis.
    HollowMouth(i) in Cut::cut at Cut::Hollow(Hollow { mouth_mm, .. }) => mouth_mm,
        "mouth_mm", |here| Row::new("Mouth at", bounds::STATION, -here.width, here.length / 2.0);
    /// Finished diameter of a bore, mm.
    BoreDiameter(i) in Cut::cut
        at Cut::Hollow(Hollow { shape: HollowShape::RoundEnded { diameter_mm, .. }, .. }) => diameter_mm,
        "shape.diameter_mm", |here| Row::new("Diameter", bounds::BORE_DIAMETER, 5.0, here.width);
    /// Finished depth of a bore, mm.
    BoreDepth(i) in Cut::cut
        at Cut::Hollow(Hollow { shape: HollowShape::RoundEnded { depth_mm, .. }, .. }) => depth_mm,
        "shape.depth_mm", |here| Row::new("Depth", bounds::DEPTH, 5.0, here.length.min(100.0))
            .note("From the mouth to the middle of the floor.");
    /// Rounding of a bore's floor, mm.
    BoreRounding(i) in Cut::cut
        at Cut::Hollow(Hollow { shape: HollowShape::RoundEnded { rounding_mm, .. }, .. }) => rounding_mm,
        "shape.rounding_mm", |here| Row::new("Floor rounding", bounds::ROUNDING, 0.0, here.rounding())
            .note("Radius of the corner between side and floor.");
    /// Diameter of a plug's disc, mm.
    PlugDisc(i) in Cut::cut at Cut::FitPlug(Plug { disc_diameter_mm, .. }) => disc_diameter_mm,
        "disc_diameter_mm", |here| Row::new("Disc", bounds::BORE_DIAMETER, 10.0, here.width);
    /// Thickness of a plug's disc, mm.
    PlugThickness(i) in Cut::cut at Cut::FitPlug(Plug { thickness_mm, .. }) => thickness_mm,
        "thickness_mm", |_| Row::new("Thickness", bounds::PLUG_THICKNESS, 3.0, 50.0)
            .note("The tail centre bears on the plug, this far before the bowl end.");
    /// Diameter of a plug's spigot, mm.
    SpigotDiameter(i) in Cut::cut at Cut::FitPlug(Plug { spigot_diameter_mm, .. }) => spigot_diameter_mm,
        "spigot_diameter_mm", |here| Row::new("Spigot", bounds::BORE_DIAMETER, 5.0, here.disc());
    /// Length of a plug's spigot, mm.
    SpigotLength(i) in Cut::cut at Cut::FitPlug(Plug { spigot_length_mm, .. }) => spigot_length_mm,
        "spigot_length_mm", |_| Row::new("Spigot length", bounds::SPIGOT_LENGTH, 0.0, 40.0);
    /// Diameter of a plug's tenon, mm.
    PlugTenonDiameter(i) in Cut::cut
        at Cut::FitPlug(Plug { tenon: Some(PlugTenon { diameter_mm, .. }), .. }) => diameter_mm,
        "tenon.diameter_mm", |here| Row::new("Tenon", bounds::BORE_DIAMETER, 5.0, here.disc())
            .note("The chuck holds the plug by it; the tail centre bears on its end.");
    /// Length of a plug's tenon, mm.
    PlugTenonLength(i) in Cut::cut
        at Cut::FitPlug(Plug { tenon: Some(PlugTenon { length_mm, .. }), .. }) => length_mm,
        "tenon.length_mm", |_| Row::new("Tenon length", bounds::PLUG_TENON_LENGTH, 2.0, 20.0);
    /// Station of a point of a saw line, mm.
    SawAt(i, n) in Point::point at SawPoint { at_mm, .. } => at_mm,
        "at_mm", |here| here.between("Position", Field::SawAt, -10.0);
    /// Height of a point of a saw line over axis A, mm.
    SawHeight(i, n) in Point::point at SawPoint { height_mm, .. } => height_mm,
        "height_mm", |here| Row::new("Height", bounds::HEIGHT, -here.half(), here.half())
            .note("Over axis A; below 0 is under it.");
    /// Height of a saw arc over its chord, mm.
    SawBulge(i) in Cut::cut at Cut::Saw(SawCut { path: SawPath::Arc { bulge_mm, .. }, .. }) => bulge_mm,
        "path.bulge_mm", |here| Row::new("Bow", bounds::BULGE, -here.bow(), here.bow())
            .note("How far the cut bows up from straight; below 0 it sags.");
    /// Where a facing or parting plane stands, mm along its axis.
    PlaneAt(i) in Cut::cut at Cut::Face(EndPlane { at_mm, .. }) | Cut::Part(EndPlane { at_mm, .. }) => at_mm,
        "at_mm", |here| here.station("At");
    /// This design's thinnest wall, mm; absent when the shop's counts.
    WallLimit in Whole::whole at Design { limits: LimitChoices { wall_mm: Some(limit_mm), .. }, .. } => limit_mm,
        "limits.wall_mm", |_| Row::new("Thinnest wall", bounds::LIMIT, 0.5, 10.0).fine();
    /// This design's thinnest floor, mm; absent when the shop's counts.
    FloorLimit in Whole::whole at Design { limits: LimitChoices { floor_mm: Some(limit_mm), .. }, .. } => limit_mm,
        "limits.floor_mm", |_| Row::new("Thinnest floor", bounds::LIMIT, 0.5, 15.0).fine();
    /// This design's finishing allowance, mm; absent when the shop's counts.
    FinishingAllowance in Whole::whole
        at Design { limits: LimitChoices { finishing_allowance_mm: Some(limit_mm), .. }, .. } => limit_mm,
        "limits.finishing_allowance_mm", |_| Row::new("Finishing allowance", bounds::LIMIT, 0.0, 3.0)
            .fine().note("Left on the radius for the later axis to clean up.");
    /// How far straight tapers may stand above the join, mm; absent when the shop's counts.
    JoinSpare in Whole::whole at Design { limits: LimitChoices { join_spare_mm: Some(limit_mm), .. }, .. } => limit_mm,
        "limits.join_spare_mm", |_| Row::new("Spare over the join", bounds::LIMIT, 0.1, 5.0)
            .fine().note("How far straight tapers may stand proud, so that there are fewer of them.");
}

/// What the width of the blank is called.
fn width_name(design: &Design) -> &'static str {
    match design.blank.section {
        BlankSection::Square { .. } => "Side",
        BlankSection::Round { .. } => "Diameter",
    }
}
