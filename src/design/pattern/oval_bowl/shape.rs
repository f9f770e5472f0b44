//! From the choices to blank, axes and cuts.
//!
//! Angles on the spheroid are those of the circle that it is drawn out from, from axis A at its middle toward the head end,
//! in radians. A spheroid is round about axis A only: the handle's axis crosses A behind it, and there the first pass runs on
//! as a neck that leaves the handle its wood.

use std::f64::consts::{FRAC_1_SQRT_2, PI};

use super::OvalBowlScoop;
use crate::design::axis_name::AxisName;
use crate::design::cut::{AxisChoice, Blank, BlankSection, Cut, EndPlane, Pass, SawCut, Side};
use crate::design::pattern::across::{
    HandleLine, MOST_STUB, NUB_MM, NUB_RADIUS_MM, SAWN_OVER_MM, STUB_MARGIN_MM, TAIL_WASTE_MM, WASTE_MM, arcs, egg,
    level, pass,
};
use crate::design::pattern::made::Made;
use crate::design::profile::Node;
use crate::design::shop::Chuck;
use crate::design::validation::bounds;

/// How far past where the stub met the bowl its front is turned, in radians on the bowl.
const PAST_STUB: f64 = 0.1;
/// Length of the stub before it comes down to the bowl or the nub, in mm. A choice of ours, no source.
const WIDE_STUB_MM: f64 = 6.0;
/// How much later than need be the handle's pass starts behind the bowl, and how much farther the first pass runs on, in mm.
const CLEAR_MM: f64 = 0.5;
/// What the first pass leaves over the handle's root, in mm.
const LEFT_MM: f64 = 0.5;
/// What is turned in the waste takes at most this share of the blank's side, so that it asks for no wider one.
const MOST_OF_SIDE: f64 = 0.98;
/// Wood around the marks of the handle's axis at the head end, in mm: a drive centre's footprint and its margin. Common
/// practice, no source.
const HEAD_MARGIN_MM: f64 = 16.0;
/// The longest tenon, in mm, however deep the jaws: longer than any chuck grips.
const MOST_TENON_MM: f64 = 200.0;
/// The name of the bowl, as the part that its passes shape together.
const BOWL_PART: &str = "bowl";

impl OvalBowlScoop {
    /// Blank, axes and cuts.
    ///
    /// Choices inside their bounds make a sound design; whether the piece is strong enough, and its wall as thick as wanted
    /// where the nub leaves a flat, is for the checks to say.
    pub(in crate::design::pattern) fn make(&self) -> Made {
        let across = |from: f64| AxisChoice::Across { station_mm: self.middle_mm() + from, from_deg: 0.0 };
        let mut axes: Vec<AxisChoice> = self.stations_mm().into_iter().map(across).collect();
        if self.is_tilted() {
            let crossing_mm = self.crossing_mm();
            axes.push(AxisChoice::Tilt { tilt_deg: self.tilt_deg, toward_deg: self.toward_deg, crossing_mm });
        }
        Made {
            blank: Blank {
                section: BlankSection::Square { side_mm: self.side_mm() },
                length_mm: self.tenon_from_mm() + self.tenon_mm(),
            },
            thickness: None,
            axes,
            cuts: self.cuts(),
        }
    }

    /// In the order of the work: all that spins between centres before the bowl is opened. The front is turned last of that,
    /// once the handle's axis no longer bears on the stub.
    fn cuts(&self) -> Vec<Cut> {
        let mut cuts = Vec::new();
        if self.is_tilted() {
            cuts.extend([self.oval(), self.handle(), self.front()].map(Cut::Pass));
        } else {
            cuts.extend([self.tenon(), self.oval(), self.handle()].map(Cut::Pass));
        }
        let part = |axis: AxisName, at_mm: f64, removes: Side| Cut::Part(EndPlane { axis, at_mm, removes });
        let (handle, to) = (self.handle_axis(), self.handle_to());
        cuts.extend([part(AxisName::A, self.nub_at(), Side::Tail), part(handle, to, Side::Head)]);
        cuts.push(Cut::Saw(SawCut { path: level(self.opening_mm(), self.sawn_to_mm()) }));
        let hollow = |(i, from): (usize, f64)| Some(Cut::Hollow(self.hollow(AxisName::from_index(i + 1)?, from)));
        cuts.extend(self.stations_mm().into_iter().enumerate().filter_map(hollow));
        cuts
    }

    /// Half the length of the spheroid, in mm.
    fn along_mm(&self) -> f64 {
        self.bowl_length_mm / 2.0
    }

    /// Half its width, in mm.
    fn across_mm(&self) -> f64 {
        self.bowl_width_mm / 2.0
    }

    /// Station of its middle, in mm.
    fn middle_mm(&self) -> f64 {
        TAIL_WASTE_MM + self.along_mm()
    }

    fn tilt(&self) -> f64 {
        self.tilt_deg.to_radians()
    }

    fn handle_line(&self) -> HandleLine {
        HandleLine {
            neck_diameter_mm: self.neck_diameter_mm,
            diameter_mm: self.handle_diameter_mm,
            end: self.handle_end,
        }
    }

    fn handle_axis(&self) -> AxisName {
        let last = AxisName::from_index(self.stations_mm().len() + 1);
        if self.is_tilted() { last.unwrap_or(AxisName::A) } else { AxisName::A }
    }

    /// How far from its middle the spheroid is this wide, in mm.
    fn off_middle_mm(&self, radius_mm: f64) -> f64 {
        self.along_mm() * (1.0 - (radius_mm / self.across_mm()).min(1.0).powi(2)).sqrt()
    }

    /// The angle on the spheroid at which it is this wide on its handle side.
    fn angle(&self, radius_mm: f64) -> f64 {
        (radius_mm / self.across_mm()).min(1.0).asin()
    }

    fn nub_mm(&self) -> f64 {
        NUB_RADIUS_MM.min(MOST_STUB * self.across_mm())
    }

    /// Where the bowl is parted at its front, in mm.
    fn nub_at(&self) -> f64 {
        self.middle_mm() - self.off_middle_mm(self.nub_mm())
    }

    /// The handle's radius where it leaves the bowl, in mm.
    fn root_mm(&self) -> f64 {
        self.handle_line().root_mm().min(MOST_STUB * self.across_mm())
    }

    /// Where the spheroid is as narrow as the handle's root, in mm.
    fn root_at(&self) -> f64 {
        self.middle_mm() + self.off_middle_mm(self.root_mm())
    }

    /// Where the handle's axis crosses axis A, in mm: a plane square to it clears the spheroid there, from its root out.
    fn crossing_mm(&self) -> f64 {
        let (along, lean) = (self.along_mm(), self.across_mm() * self.tilt().tan());
        // The plane with this lean touches the spheroid here.
        let touches = self.across_mm() * lean / along.hypot(lean);
        let clears = if touches > self.root_mm() {
            self.middle_mm() + along.hypot(lean)
        } else {
            self.root_at() + self.root_mm() * self.tilt().tan()
        };
        clears + CLEAR_MM
    }

    /// Where the handle starts and ends, in mm along its own axis.
    fn handle_from(&self) -> f64 {
        if self.is_tilted() { self.crossing_mm() / self.tilt().cos() } else { self.root_at() }
    }

    fn handle_to(&self) -> f64 {
        self.handle_from() + self.handle_mm
    }

    /// Where the waste at the head end ends, in mm: past the leaning plane that the handle ends at, around the mark of axis A.
    fn tenon_from_mm(&self) -> f64 {
        if !self.is_tilted() {
            return self.handle_to() + WASTE_MM;
        }
        let tilt = self.tilt();
        self.crossing_mm() + self.handle_mm / tilt.cos() + HEAD_MARGIN_MM * tilt.tan() + WASTE_MM
    }

    /// A tilted handle needs the whole head face for the marks of both axes.
    fn tenon_mm(&self) -> f64 {
        if self.is_tilted() { 0.0 } else { Chuck::tenon_mm(self.chuck.jaw_depth_mm).min(MOST_TENON_MM) }
    }

    /// How far from axis A the handle's axis has its marks, in mm: at the bowl end and at the head end.
    fn marks_mm(&self) -> (f64, f64) {
        let lean = self.tilt().tan();
        (self.crossing_mm() * lean, (self.tenon_from_mm() - self.crossing_mm()) * lean)
    }

    fn side_mm(&self) -> f64 {
        let (tail, head) = self.marks_mm();
        let marks = if self.is_tilted() {
            2.0 * (tail + STUB_MARGIN_MM).max(head + HEAD_MARGIN_MM)
        } else {
            self.chuck.jaw_from_mm
        };
        self.blank_side_mm.max(marks).min(bounds::BLANK_WIDTH.to)
    }

    fn tenon(&self) -> Pass {
        let (from_mm, to_mm) = (self.tenon_from_mm(), self.tenon_from_mm() + self.tenon_mm());
        let diameter = self.chuck.tenon_diameter_mm(self.side_mm()).min(self.side_mm());
        pass("tenon", AxisName::A, vec![Node::line(from_mm, diameter), Node::line(to_mm, diameter)])
    }

    /// The stub and the spheroid, up to where the handle leaves it; with a tilted handle on past it. With the handle on the
    /// same axis the stub comes down to the nub at once.
    fn oval(&self) -> Pass {
        let stub = self.stub_mm();
        let from = if self.is_tilted() { stub.min(MOST_STUB * self.across_mm()) } else { self.nub_mm() };
        let mut nodes = vec![Node::line(0.0, 2.0 * stub)];
        if stub > from {
            nodes.push(Node::line(WIDE_STUB_MM, 2.0 * stub));
        }
        nodes.extend(self.round(self.angle(from), self.angle(self.root_mm())));
        if !self.is_tilted() {
            return pass("bowl", AxisName::A, nodes);
        }
        nodes.extend(self.runs_on());
        self.of_bowl(pass("bowl", AxisName::A, nodes))
    }

    /// The front of the bowl down to the nub, once the handle's axis no longer bears on the stub.
    fn front(&self) -> Pass {
        let before = Node::line(self.nub_at() - NUB_MM, 2.0 * (self.nub_mm() + NUB_MM));
        let met = self.angle(self.stub_mm().min(MOST_STUB * self.across_mm()));
        let round = self.round(self.angle(self.nub_mm()), PI - met - PAST_STUB);
        self.of_bowl(pass("front", AxisName::A, std::iter::once(before).chain(round).collect()))
    }

    /// The spheroid from an angle from its tip at the bowl end to one from that at the handle.
    fn round(&self, from: f64, to: f64) -> Vec<Node> {
        egg(arcs(self.half_axes()), self.middle_mm(), self.half_axes(), (PI - from, to))
    }

    /// Radius of the stub before the bowl, in mm: it carries the live centre in the marks of both axes.
    fn stub_mm(&self) -> f64 {
        let mark = if self.is_tilted() { self.marks_mm().0 } else { 0.0 };
        (mark + STUB_MARGIN_MM).min(MOST_OF_SIDE * self.side_mm() / 2.0)
    }

    pub(super) fn half_axes(&self) -> (f64, f64) {
        (self.along_mm(), self.across_mm())
    }

    /// What the first pass is behind the bowl: a neck that leaves the handle's root its wood on the side toward which it
    /// leans, and then a flare that takes all that stands before the handle's pass.
    fn runs_on(&self) -> Vec<Node> {
        let (tilt, root) = (self.tilt(), self.root_mm());
        let left = root + LEFT_MM;
        let crossing = self.crossing_mm() + CLEAR_MM;
        // Where the line of the handle's root, which leans by the tilt, meets the plane that its pass starts at.
        let (meet_along, meet_out) = (left * tilt.sin() / (2.0 * tilt).cos(), left * tilt.cos() / (2.0 * tilt).cos());
        let mut nodes = vec![
            Node::line(crossing - root * tilt.sin(), 2.0 * root),
            Node::line(crossing + meet_along, 2.0 * meet_out),
        ];
        // A blank that is narrower than the neck has nothing beyond it to be taken.
        let flare = MOST_OF_SIDE * self.side_mm() / 2.0;
        if flare > meet_out {
            let corner = self.side_mm() * FRAC_1_SQRT_2;
            nodes.extend([flare, corner].map(|out| Node::line(crossing + out * tilt.tan(), 2.0 * flare)));
        }
        nodes
    }

    fn handle(&self) -> Pass {
        let root = (self.handle_from(), self.root_mm());
        let handle = pass("handle", self.handle_axis(), self.handle_line().nodes(root, self.handle_to()));
        if self.is_tilted() { self.of_bowl(handle) } else { handle }
    }

    /// The pass, as one of those that shape the bowl.
    fn of_bowl(&self, pass: Pass) -> Pass {
        Pass { shapes: Some(BOWL_PART.to_owned()), ..pass }
    }

    /// Height of the opening over axis A, in mm.
    pub(super) fn opening_mm(&self) -> f64 {
        self.opening_share * self.across_mm()
    }

    /// To where the handle leaves the bowl.
    fn sawn_to_mm(&self) -> f64 {
        let last = self.stations_mm().into_iter().fold(0.0, f64::max);
        let edge = self.middle_mm() + last + self.hollow_half_axes(last).1 + SAWN_OVER_MM;
        self.root_at().max(edge)
    }
}
