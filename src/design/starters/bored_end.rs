//! The bored-end scoop: bored from the end, opened by a saw, its handle on axis A or on an axis of its own.

use crate::design::axis_name::AxisName;
use crate::design::document::{
    AxisChoice, Blank, BlankSection, Cut, Design, Duty, EndPlane, Hollow, HollowShape, Pass, PassProfile, Plug,
    PlugTenon, SawCut, SawPath, SawPoint, Side, Wood,
};
use crate::design::profile::Node;
use crate::design::shop::{Chuck, LimitChoices};
use crate::design::validation::largest_bulge_mm;

/// What the turner chooses; everything else follows.
#[derive(Clone, Debug, PartialEq)]
pub struct BoredEndScoop {
    /// Diameter of the bore, in mm.
    pub bore_diameter_mm: f64,
    /// Depth of the bore, in mm.
    pub bore_depth_mm: f64,
    /// Rounding of its floor, in mm.
    pub rounding_mm: f64,
    /// Wall around the bore, in mm.
    pub wall_mm: f64,
    /// Floor at the end of the bore, in mm.
    pub floor_mm: f64,
    /// How the outside of the bowl is found.
    pub outside: Outside,
    /// Angle of the handle to the bowl, in degrees; 0 turns the handle on axis A.
    pub tilt_deg: f64,
    /// Where the handle's axis crosses axis A, in mm.
    pub crossing_mm: f64,
    /// Diameter of the neck, in mm.
    pub neck_diameter_mm: f64,
    /// Greatest diameter of the handle, in mm.
    pub handle_diameter_mm: f64,
    /// Length of the finished scoop, in mm.
    pub length_mm: f64,
    /// How the handle ends.
    pub handle_end: HandleEnd,
    /// How the bowl is opened.
    pub opening: Opening,
    /// How high the saw cut begins at the lip, over the bore's axis, as a share of the bore's radius: -1 is its bottom,
    /// 1 its top.
    pub lip_share: f64,
    /// What the spigot of the plug is smaller than the bore, in mm: 0 is a snug fit.
    pub plug_play_mm: f64,
    /// Side of the square blank, in mm; a wider one is taken where the chuck's smallest tenon asks for it.
    pub blank_side_mm: f64,
    /// The chuck that holds it, from which the tenon follows.
    pub chuck: Chuck,
    /// What it is made of: a name from the table of species.
    pub species: String,
    /// What it is for: a name from the table of contents.
    pub contents: String,
}

/// How the outside of the bowl is found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outside {
    /// The proposed join: straight tapers that follow every change.
    Join,
    /// Drawn, with a round-over to the neck.
    RoundOver,
}

/// How the handle ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HandleEnd {
    /// With a round end on the handle's own axis.
    Round,
    /// With a hook, turned on axis A past the end of the handle.
    Hooked,
}

/// The line of the saw cut that opens the bowl.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Opening {
    /// Straight.
    Straight,
    /// An arc that sags.
    Arc,
}

impl Default for BoredEndScoop {
    /// An invented coffee scoop for a small lathe.
    fn default() -> Self {
        Self {
            // 1 5/8 in.
            bore_diameter_mm: 41.275,
            bore_depth_mm: 48.0,
            rounding_mm: 12.0,
            wall_mm: 4.0,
            floor_mm: 5.0,
            outside: Outside::Join,
            tilt_deg: 7.5,
            crossing_mm: 102.0,
            // Stout enough to bear a catch twice while it is turned.
            neck_diameter_mm: 20.0,
            handle_diameter_mm: 24.0,
            length_mm: 204.0,
            handle_end: HandleEnd::Hooked,
            opening: Opening::Arc,
            lip_share: USUAL_LIP_SHARE,
            plug_play_mm: 0.0,
            blank_side_mm: 68.0,
            chuck: Chuck::default(),
            species: "Black cherry".to_owned(),
            contents: "coffee, ground".to_owned(),
        }
    }
}

/// How high the saw cut of a scoop begins at the lip: a little below the bore's axis, as a share of the bore's radius.
pub const USUAL_LIP_SHARE: f64 = -0.3;

/// Waste between the finished end and the tenon, for the parting tool, in mm. Common practice, no source.
const WASTE_MM: f64 = 10.0;
/// Thickness of the plug's disc, in mm. Common practice, no source.
const PLUG_MM: f64 = 10.0;
/// Shoulder of the disc around its tenon, in mm. Common practice, no source.
const PLUG_SHOULDER_MM: f64 = 3.0;
/// Wood of the plug beyond the centre mark, in mm: a live centre's footprint, its margin, and room to tilt a little
/// more. Common practice, no source.
const PLUG_MARGIN_MM: f64 = 12.0;
/// Length of the cove from the bowl to the neck, in mm.
const COVE_MM: f64 = 12.0;
/// Length of the cove from the handle to the hook, in mm.
const HOOK_COVE_MM: f64 = 4.0;
/// What that cove is wider than the handle where it meets the hook, in mm.
const HOOK_FLARE_MM: f64 = 3.0;
/// What the cove is wider than the neck where it meets the bowl, in mm.
const FLARE_MM: f64 = 7.0;
/// What a drawn outside leaves over what the handle needs, in mm on the radius.
const SPARE_MM: f64 = 1.0;
/// Length of the hook, in mm.
const HOOK_MM: f64 = 15.0;

/// How much farther from the bowl than need be the handle's shoulder stands, in mm.
const SHOULDER_SPARE_MM: f64 = 0.2;

impl BoredEndScoop {
    /// The same scoop with its handle on axis A.
    #[must_use]
    pub fn straight() -> Self {
        Self {
            outside: Outside::RoundOver,
            tilt_deg: 0.0,
            handle_end: HandleEnd::Round,
            blank_side_mm: 58.0,
            ..Self::default()
        }
    }

    /// The design of this name.
    ///
    /// Choices inside their bounds give a design without problems as long as the scoop is long enough for its parts;
    /// whether it is strong enough and fits its blank is for the checks to say.
    #[must_use]
    pub fn design(&self, name: &str) -> Design {
        let tilted = self.tilt_deg > 0.0;
        let axis = AxisChoice::Tilt { tilt_deg: self.tilt_deg, toward_deg: 0.0, crossing_mm: self.crossing_mm };
        Design {
            name: name.to_owned(),
            notes: String::new(),
            wood: Wood { species: self.species.clone(), moisture_percent: 8.0, ..Wood::default() },
            blank: Blank {
                section: BlankSection::Square { side_mm: self.side_mm() },
                length_mm: self.length_mm + WASTE_MM + self.tenon_mm(),
            },
            axes: if tilted { vec![axis] } else { Vec::new() },
            cuts: self.cuts(),
            contents: self.contents.clone(),
            duty: Duty::default(),
            limits: self.limits(),
            done: Vec::new(),
            log: Vec::new(),
        }
    }

    /// The join keeps the wall and floor that the limits ask for; a drawn outside has them drawn.
    fn limits(&self) -> LimitChoices {
        match self.outside {
            Outside::Join => {
                LimitChoices { wall_mm: Some(self.wall_mm), floor_mm: Some(self.floor_mm), ..LimitChoices::default() }
            }
            Outside::RoundOver => LimitChoices::default(),
        }
    }

    /// In the order of the work at the lathe.
    fn cuts(&self) -> Vec<Cut> {
        let mut cuts = vec![Cut::Pass(self.tenon()), Cut::Hollow(self.bore()), Cut::FitPlug(self.plug())];
        cuts.push(Cut::Pass(self.bowl()));
        if self.handle_end == HandleEnd::Hooked {
            // Before the handle: on the same marks as the bowl, and while the neck is still stout.
            cuts.push(Cut::Pass(self.hook()));
        }
        cuts.push(Cut::Pass(self.handle()));
        let end = EndPlane { axis: self.end_axis(), at_mm: self.end_mm(), removes: Side::Head };
        // The plug carries the tail end until the piece is parted.
        cuts.extend([Cut::Part(end), Cut::TakeOutPlug, Cut::Saw(SawCut { path: self.saw_path() })]);
        cuts
    }

    fn handle_axis(&self) -> AxisName {
        if self.tilt_deg > 0.0 { AxisName::B } else { AxisName::A }
    }

    /// The axis on which the piece ends.
    fn end_axis(&self) -> AxisName {
        match self.handle_end {
            HandleEnd::Round => self.handle_axis(),
            HandleEnd::Hooked => AxisName::A,
        }
    }

    /// Where the piece ends, along that axis.
    fn end_mm(&self) -> f64 {
        if self.end_axis() == AxisName::A { self.length_mm } else { self.along_handle(self.length_mm) }
    }

    /// Tilt in radians.
    fn tilt(&self) -> f64 {
        self.tilt_deg.to_radians()
    }

    /// Height of the handle's axis over axis A, in mm.
    fn height(&self, station: f64) -> f64 {
        (station - self.crossing_mm) * self.tilt().tan()
    }

    /// The station along the handle's axis that lies at a station of the blank; 0 is at the bowl-end face on both.
    fn along_handle(&self, station: f64) -> f64 {
        station / self.tilt().cos()
    }

    /// Length of the tenon, in mm.
    fn tenon_mm(&self) -> f64 {
        Chuck::tenon_mm(self.chuck.jaw_depth_mm)
    }

    /// Side of the blank, in mm.
    fn side_mm(&self) -> f64 {
        self.blank_side_mm.max(self.chuck.jaw_from_mm)
    }

    fn outside_diameter(&self) -> f64 {
        self.bore_diameter_mm + 2.0 * self.wall_mm
    }

    /// How far a plane square to the handle leans along the blank within the corners of the blank, in mm.
    fn lean(&self) -> f64 {
        self.side_mm() * std::f64::consts::FRAC_1_SQRT_2 * self.tilt().tan()
    }

    /// Where the handle's pass starts, in mm along its axis: its leaning shoulder keeps off the flat of the floor.
    fn handle_from(&self) -> f64 {
        let flat = (self.bore_diameter_mm / 2.0 - self.rounding_mm).max(0.0);
        let (sin, cos) = self.tilt().sin_cos();
        // How far along the handle's axis the floor's edge and its rounding reach, on the side the handle leans to.
        let rounding = self.rounding_mm.min(self.bore_diameter_mm / 2.0);
        let along = |depth: f64| depth * cos + (flat + self.crossing_mm * sin / cos) * sin;
        let floor = along(self.bore_depth_mm) + self.floor_mm;
        let wall = along(self.bore_depth_mm - rounding) + rounding + self.wall_mm;
        floor.max(wall) + SHOULDER_SPARE_MM
    }

    /// Where the handle's pass ends, in mm along its axis.
    fn handle_to(&self) -> f64 {
        match self.handle_end {
            HandleEnd::Round => self.along_handle(self.length_mm),
            HandleEnd::Hooked => self.along_handle(self.length_mm - HOOK_MM),
        }
    }

    /// The handle's diameter before a hook, in mm.
    fn slim(&self) -> f64 {
        self.handle_diameter_mm * 0.8
    }

    fn tenon(&self) -> Pass {
        let from_mm = self.length_mm + WASTE_MM;
        let to_mm = from_mm + self.tenon_mm();
        let diameter = self.chuck.tenon_diameter_mm(self.side_mm());
        let nodes = vec![Node::line(from_mm, diameter), Node::line(to_mm, diameter)];
        pass("tenon", AxisName::A, from_mm, to_mm, PassProfile::Drawn { nodes })
    }

    fn bore(&self) -> Hollow {
        Hollow {
            axis: AxisName::A,
            mouth_mm: 0.0,
            shape: HollowShape::RoundEnded {
                diameter_mm: self.bore_diameter_mm,
                depth_mm: self.bore_depth_mm,
                rounding_mm: self.rounding_mm,
            },
        }
    }

    /// A plug with a tenon wide enough for the handle's mark on its end.
    fn plug(&self) -> Plug {
        let length_mm = self.tenon_mm();
        let mark = self.height(-PLUG_MM - length_mm).abs();
        let diameter_mm = (2.0 * (mark + PLUG_MARGIN_MM)).min(self.chuck.jaw_to_mm).max(self.chuck.jaw_from_mm);
        let tenon = PlugTenon { diameter_mm, length_mm };
        Plug {
            disc_diameter_mm: self.outside_diameter().max(tenon.diameter_mm + 2.0 * PLUG_SHOULDER_MM),
            thickness_mm: PLUG_MM,
            spigot_diameter_mm: self.bore_diameter_mm - self.plug_play_mm,
            spigot_length_mm: (self.bore_depth_mm - self.rounding_mm).min(15.0),
            tenon: Some(tenon),
        }
    }

    /// The outside of the bowl; it runs on past the leaning start of the handle, so that no fin stays.
    fn bowl(&self) -> Pass {
        let handle_from = self.handle_from() * self.tilt().cos();
        let to_mm = if self.tilt_deg > 0.0 { handle_from + self.lean() + 2.0 } else { handle_from };
        let profile = match self.outside {
            Outside::Join => PassProfile::Join,
            Outside::RoundOver => PassProfile::Drawn { nodes: self.round_over(handle_from, to_mm) },
        };
        pass("bowl", AxisName::A, 0.0, to_mm, profile)
    }

    /// Straight over the bore, rounded over toward the neck, and wide enough for all that the handle needs.
    fn round_over(&self, handle_from: f64, to_mm: f64) -> Vec<Node> {
        let outside = self.outside_diameter();
        let neck_start = self.neck_diameter_mm + FLARE_MM;
        let needed = |station: f64| {
            let reach = self.height(station).abs() + neck_start / 2.0;
            (2.0 * (reach + SPARE_MM)).min(outside)
        };
        // The handle's shoulder leans: at the bottom of the bowl it starts later.
        let from = (handle_from + needed(handle_from) / 2.0 * self.tilt().tan()).min(to_mm);
        // The floor asks for more than the wall, and asks it all around the rounding.
        let more = (self.floor_mm - self.wall_mm).max(0.0);
        let start = Node::line((self.bore_depth_mm - self.rounding_mm + more).max(0.0), outside);
        let end = Node::line(from, needed(from));
        let mut nodes = vec![Node::line(0.0, outside), rounded(start, &end, Bend::Out), end];
        if to_mm > from {
            nodes.push(Node::line(to_mm, needed(to_mm).min(end.diameter_mm)));
        }
        nodes
    }

    fn handle(&self) -> Pass {
        let (from_mm, to_mm) = (self.handle_from(), self.handle_to());
        let neck_at = from_mm + COVE_MM;
        let slim_at = to_mm - self.handle_end_length();
        let widest_at = neck_at + (slim_at - neck_at) * 0.65;
        let flare = Node::line(from_mm, self.neck_diameter_mm + FLARE_MM);
        let neck = Node::ogee(neck_at, self.neck_diameter_mm);
        let slim = Node::line(slim_at, self.slim());
        let (end, bend) = match self.handle_end {
            HandleEnd::Round => (Node::line(to_mm, self.slim() - 1.8 * self.handle_end_length()), Bend::Out),
            HandleEnd::Hooked => (Node::line(to_mm, self.slim() + HOOK_FLARE_MM), Bend::In),
        };
        let nodes = vec![
            rounded(flare, &neck, Bend::In),
            neck,
            Node::ogee(widest_at, self.handle_diameter_mm),
            rounded(slim, &end, bend),
            end,
        ];
        pass("handle", self.handle_axis(), from_mm, to_mm, PassProfile::Drawn { nodes })
    }

    /// The length of the handle's round end, or of its cove before a hook, in mm.
    fn handle_end_length(&self) -> f64 {
        match self.handle_end {
            HandleEnd::Round => self.slim() * 0.45,
            HandleEnd::Hooked => HOOK_COVE_MM,
        }
    }

    /// A round about axis A that leaves the whole end of the handle, hangs below it, and is rounded over at its end.
    fn hook(&self) -> Pass {
        let handle_to = self.length_mm - HOOK_MM;
        let from_mm = handle_to - self.lean() - 2.0;
        let reach = self.height(handle_to).abs() + (self.slim() + HOOK_FLARE_MM) / 2.0;
        let diameter = 2.0 * (reach + SPARE_MM);
        let rounding = (0.6 * HOOK_MM).min(0.3 * diameter);
        let round = Node::line(self.length_mm - rounding, diameter);
        let end = Node::line(self.length_mm, diameter - 2.0 * rounding);
        let nodes = vec![Node::line(from_mm, diameter), rounded(round, &end, Bend::Out), end];
        pass("hook", AxisName::A, from_mm, self.length_mm, PassProfile::Drawn { nodes })
    }

    /// From the lip up through the top of the bowl, short of the floor.
    fn saw_path(&self) -> SawPath {
        let radius = self.outside_diameter() / 2.0;
        let from = SawPoint { at_mm: -3.0, height_mm: self.lip_share * self.bore_diameter_mm / 2.0 };
        let to = SawPoint { at_mm: self.bore_depth_mm - 2.0, height_mm: radius + 2.0 };
        match self.opening {
            Opening::Straight => SawPath::Lines { points: vec![from, to] },
            Opening::Arc => SawPath::Arc { from, to, bulge_mm: -0.1 * (to.at_mm - from.at_mm) },
        }
    }
}

fn pass(name: &str, axis: AxisName, from_mm: f64, to_mm: f64, profile: PassProfile) -> Pass {
    Pass { name: name.to_owned(), axis, from_mm, to_mm, profile }
}

/// Which way an arc stands off its chord.
#[derive(Clone, Copy)]
enum Bend {
    /// Away from the axis: a bead.
    Out,
    /// Toward the axis: a cove.
    In,
}

/// The node followed by an arc to the next that runs parallel to the axis where it is widest, for a bead, or narrowest,
/// for a cove.
fn rounded(node: Node, next: &Node, bend: Bend) -> Node {
    let (along, out) = (next.at_mm - node.at_mm, (next.diameter_mm - node.diameter_mm) / 2.0);
    // The arc leaves its chord by as much as the chord leans.
    let parallel = along.hypot(out) / 2.0 * (out.abs().atan2(along) / 2.0).tan();
    let bulge = parallel.min(largest_bulge_mm(&node, next));
    Node::arc(node.at_mm, node.diameter_mm, if matches!(bend, Bend::Out) { bulge } else { -bulge })
}
