//! From the choices to blank, axes and cuts.
//!
//! Angles on the ball count from the axis of a pass at the ball's centre toward the head end, in radians. The ball is
//! round about both axes, so that the pass on either turns the same ball; they overlap on purpose.

use std::f64::consts::{FRAC_1_SQRT_2, PI};

use super::RoundBowlScoop;
use crate::design::axis_name::AxisName;
use crate::design::cut::{
    AxisChoice, Blank, BlankSection, Cut, EndPlane, Hollow, HollowShape, Pass, PassProfile, SawCut, SawPath, SawPoint,
    Side,
};
use crate::design::pattern::arcs::{Bend, rounded};
use crate::design::pattern::made::Made;
use crate::design::profile::Node;
use crate::design::shop::Chuck;
use crate::design::validation::largest_bulge_mm;

/// Waste before the ball, for the live centre and the parting tool, in mm. Common practice, no source.
const TAIL_WASTE_MM: f64 = 12.0;
/// Radius of the nub at the bowl end, in mm: stout enough to bear the turning of the handle. The flat that it leaves on the
/// ball is carved and sanded away. A choice of ours, no source.
const NUB_RADIUS_MM: f64 = 7.5;
/// Length of the taper from the stub to the nub, in mm.
const NUB_MM: f64 = 4.0;
/// Wood of the stub around the marks that it bears, in mm: a live centre's footprint and its margin. Common practice, no
/// source.
const STUB_MARGIN_MM: f64 = 12.0;
/// The stub leaves at least this share of the ball's radius to be turned as a ball.
const MOST_STUB: f64 = 0.8;
/// Waste between the finished end and the tenon, for the parting tool, in mm. Common practice, no source.
const WASTE_MM: f64 = 10.0;
/// What the cove is wider than the neck where it meets the ball, in mm, and its length.
const FLARE_MM: f64 = 6.0;
const COVE_MM: f64 = 10.0;
/// The most of a short handle's pass that its cove, and that its end may take.
const MOST_OF_HANDLE: f64 = 0.25;
/// How much earlier than need be the handle's pass starts on the ball, in mm, so that no fin stays.
const OVERLAP_MM: f64 = 2.0;
/// A ball and a hollow are drawn as so many arcs: of an egg-shaped hollow they leave less than 0.01 mm.
const ARCS: usize = 8;
/// How far past the hollow's edge and past the ball the saw cut runs, in mm.
const SAWN_OVER_MM: f64 = 1.0;
const SAWN_BEYOND_MM: f64 = 3.0;
/// How far over the opening the hollow begins, in mm: a hair, so that the saw opens it, and depths are those from the rim.
const OVER_OPENING_MM: f64 = 0.01;
/// The name of the ball, as the part that its passes shape together.
const BALL_PART: &str = "ball";

impl RoundBowlScoop {
    /// Blank, axes and cuts.
    ///
    /// Choices inside their bounds make a sound design as long as ball, wall and handle leave room for each other; whether
    /// the piece is strong enough and fits its blank is for the checks to say.
    pub(super) fn make(&self) -> Made {
        let across = AxisChoice::Across { station_mm: self.centre_mm(), from_deg: 0.0 };
        let handle =
            AxisChoice::Tilt { tilt_deg: self.tilt_deg, toward_deg: self.toward_deg, crossing_mm: self.centre_mm() };
        Made {
            blank: Blank {
                section: BlankSection::Square { side_mm: self.side_mm() },
                length_mm: self.tenon_from_mm() + self.tenon_mm(),
            },
            thickness: None,
            axes: if self.is_tilted() { vec![across, handle] } else { vec![across] },
            cuts: self.cuts(),
        }
    }

    /// How much of the ball the flat takes that its nub leaves at the bowl end, in mm.
    #[must_use]
    pub fn flat_mm(&self) -> f64 {
        self.radius_mm() - self.before_centre_mm(NUB_RADIUS_MM)
    }

    /// In the order of the work: all that spins between centres before the ball is opened.
    fn cuts(&self) -> Vec<Cut> {
        let mut cuts = vec![Cut::Pass(self.tenon()), Cut::Pass(self.ball())];
        if self.is_tilted() {
            cuts.push(Cut::Pass(self.front()));
        }
        cuts.push(Cut::Pass(self.handle()));
        let part = |at_mm: f64, removes: Side| Cut::Part(EndPlane { axis: self.handle_axis(), at_mm, removes });
        let nub_at = self.centre_along_handle() - self.before_centre_mm(NUB_RADIUS_MM);
        cuts.extend([part(nub_at, Side::Tail), part(self.handle_to(), Side::Head)]);
        cuts.extend([Cut::Saw(SawCut { path: self.saw_path() }), Cut::Hollow(self.hollow())]);
        cuts
    }

    fn radius_mm(&self) -> f64 {
        self.ball_diameter_mm / 2.0
    }

    fn centre_mm(&self) -> f64 {
        TAIL_WASTE_MM + self.radius_mm()
    }

    fn tilt(&self) -> f64 {
        self.tilt_deg.to_radians()
    }

    fn tenon_mm(&self) -> f64 {
        Chuck::tenon_mm(self.chuck.jaw_depth_mm)
    }

    fn side_mm(&self) -> f64 {
        self.blank_side_mm.max(self.chuck.jaw_from_mm)
    }

    fn handle_axis(&self) -> AxisName {
        if self.is_tilted() { AxisName::C } else { AxisName::A }
    }

    /// How far before its centre the ball is this wide on its bowl-end side, in mm.
    fn before_centre_mm(&self, radius_mm: f64) -> f64 {
        let wide = radius_mm.min(self.radius_mm());
        (self.radius_mm().powi(2) - wide.powi(2)).sqrt()
    }

    /// The angle on the ball at which it is this wide on its bowl-end side.
    fn front_angle(&self, radius_mm: f64) -> f64 {
        PI - (radius_mm / self.radius_mm()).min(1.0).asin()
    }

    /// Radius of the stub before the ball, in mm: it carries the live centre in the marks of both axes.
    fn stub_mm(&self) -> f64 {
        let mark = self.centre_mm() * self.tilt().tan();
        (mark + STUB_MARGIN_MM).min(MOST_STUB * self.radius_mm())
    }

    /// The handle's radius where it leaves the ball, in mm.
    fn root_mm(&self) -> f64 {
        (self.neck_diameter_mm + FLARE_MM) / 2.0
    }

    /// The angle on the ball at which the handle leaves it.
    fn root_angle(&self) -> f64 {
        (self.root_mm() / self.radius_mm()).min(1.0).asin()
    }

    /// The angle on the ball, about axis A, past which only the handle's own axis turns it.
    fn ball_to_angle(&self) -> f64 {
        self.root_angle() + self.tilt()
    }

    /// The angle on the ball, about the handle's axis, from which the handle's pass turns it: its leaning shoulder comes
    /// before the end of the ball's pass, out to the corners of the blank.
    fn handle_from_angle(&self) -> f64 {
        if !self.is_tilted() {
            return self.root_angle();
        }
        let (sin, cos) = self.tilt().sin_cos();
        let corner = self.side_mm() * FRAC_1_SQRT_2;
        let along = self.radius_mm() * self.ball_to_angle().cos() * cos - corner * sin - OVERLAP_MM;
        (along / self.radius_mm()).clamp(-1.0, 1.0).acos()
    }

    /// The ball's centre along the handle's axis, in mm.
    fn centre_along_handle(&self) -> f64 {
        self.centre_mm() / self.tilt().cos()
    }

    /// How far a plane square to the handle leans along the blank within its corners, in mm.
    fn lean_mm(&self) -> f64 {
        self.side_mm() * FRAC_1_SQRT_2 * self.tilt().tan()
    }

    /// Where the handle ends, along its axis, in mm.
    fn handle_to(&self) -> f64 {
        self.centre_along_handle() + self.radius_mm() + self.handle_mm
    }

    /// Where the tenon starts, in mm: past all that the handle's pass reaches.
    fn tenon_from_mm(&self) -> f64 {
        let end = self.centre_mm() + (self.radius_mm() + self.handle_mm) * self.tilt().cos();
        end + self.lean_mm() + WASTE_MM
    }

    fn tenon(&self) -> Pass {
        let (from_mm, to_mm) = (self.tenon_from_mm(), self.tenon_from_mm() + self.tenon_mm());
        let diameter = self.chuck.tenon_diameter_mm(self.side_mm());
        pass("tenon", AxisName::A, vec![Node::line(from_mm, diameter), Node::line(to_mm, diameter)])
    }

    /// The stub and the ball, up to where the handle leaves it. With the handle on the same axis the stub comes down to the
    /// nub at once.
    fn ball(&self) -> Pass {
        let stub_mm = self.stub_mm();
        let (nodes, from) = if self.is_tilted() {
            (vec![Node::line(0.0, 2.0 * stub_mm)], stub_mm)
        } else {
            let nub_at = self.centre_mm() - self.before_centre_mm(NUB_RADIUS_MM);
            (vec![Node::line(0.0, 2.0 * stub_mm), Node::line(nub_at - NUB_MM, 2.0 * stub_mm)], NUB_RADIUS_MM)
        };
        let round = self.round(self.centre_mm(), self.front_angle(from), self.ball_to_angle());
        let ball = pass("ball", AxisName::A, nodes.into_iter().chain(round).collect());
        if self.is_tilted() { self.of_ball(ball) } else { ball }
    }

    /// The front of the ball about the handle's own axis, once no other axis bears on the stub, which comes down to the nub.
    fn front(&self) -> Pass {
        let centre = self.centre_along_handle();
        let nub_at = centre - self.before_centre_mm(NUB_RADIUS_MM);
        let stub = Node::line(nub_at - NUB_MM, 2.0 * (NUB_RADIUS_MM + NUB_MM));
        // Past where the stub meets the ball on the side toward which the axis moves away.
        let to = self.front_angle(self.stub_mm()) - 2.0 * self.tilt();
        let round = self.round(centre, self.front_angle(NUB_RADIUS_MM), to);
        self.of_ball(pass("front", self.handle_axis(), std::iter::once(stub).chain(round).collect()))
    }

    /// The back of the ball about the handle's own axis, and the handle.
    fn handle(&self) -> Pass {
        let centre = self.centre_along_handle();
        let root_at = centre + self.radius_mm() * self.root_angle().cos();
        let to_mm = self.handle_to();
        let most = MOST_OF_HANDLE * (to_mm - root_at);
        let neck_at = root_at + COVE_MM.min(most);
        let end_length = self.handle_end.length_mm(self.handle_diameter_mm).min(most);
        let widest_at = neck_at + (to_mm - end_length - neck_at) * 0.65;
        let root = Node::line(root_at, 2.0 * self.root_mm());
        let neck = Node::ogee(neck_at, self.neck_diameter_mm);
        let mut nodes = Vec::new();
        if self.is_tilted() {
            nodes = self.round(centre, self.handle_from_angle(), self.root_angle());
            nodes.pop();
        }
        nodes.extend([rounded(root, &neck, Bend::In), neck, Node::ogee(widest_at, self.handle_diameter_mm)]);
        nodes.extend(self.handle_end.nodes(self.handle_diameter_mm, to_mm, end_length));
        let handle = pass("handle", self.handle_axis(), nodes);
        if self.is_tilted() { self.of_ball(handle) } else { handle }
    }

    /// The pass, as one of those that shape the ball.
    fn of_ball(&self, pass: Pass) -> Pass {
        Pass { shapes: Some(BALL_PART.to_owned()), ..pass }
    }

    /// The ball about a centre from one angle to a lesser one, as arcs.
    fn round(&self, centre_mm: f64, from: f64, to: f64) -> Vec<Node> {
        egg(centre_mm, (self.radius_mm(), self.radius_mm()), from, to)
    }

    /// Level, from before the ball to where the handle leaves it.
    fn saw_path(&self) -> SawPath {
        let height_mm = self.opening_mm();
        let back = self.radius_mm() * self.ball_to_angle().cos();
        let edge = self.hollow_radius_mm() + SAWN_OVER_MM;
        let to = self.centre_mm() + back.max(edge);
        let from = TAIL_WASTE_MM - SAWN_BEYOND_MM;
        SawPath::Lines { points: vec![SawPoint { at_mm: from, height_mm }, SawPoint { at_mm: to, height_mm }] }
    }

    /// Height of the opening over the ball's centre, in mm.
    fn opening_mm(&self) -> f64 {
        self.opening_share * self.radius_mm()
    }

    fn hollow_radius_mm(&self) -> f64 {
        self.radius_mm() - self.wall_mm
    }

    /// Depth of the hollow under the ball's centre, in mm.
    fn hollow_depth_mm(&self) -> f64 {
        self.radius_mm() - self.floor_mm
    }

    /// A round hollow, or one that is flatter or deeper, about the axis across; its mouth is the opening.
    fn hollow(&self) -> Hollow {
        let (wide, deep) = (self.hollow_radius_mm(), self.hollow_depth_mm());
        let mouth_mm = -self.opening_mm() - OVER_OPENING_MM;
        // The opening is narrower than the hollow where it lies over the centre.
        let from = (mouth_mm / deep).clamp(-1.0, 1.0).acos();
        let nodes = egg(-mouth_mm, (deep, wide), from, 0.0);
        Hollow { axis: AxisName::B, mouth_mm, shape: HollowShape::Drawn { nodes } }
    }
}

/// An egg about an axis, round across it, from one angle to a lesser one as arcs: its half axes are along the axis and
/// across it, and angles are those of the circle that it is drawn out from.
fn egg(centre_mm: f64, (along_mm, across_mm): (f64, f64), from: f64, to: f64) -> Vec<Node> {
    let point = |angle: f64| (centre_mm + along_mm * angle.cos(), across_mm * angle.sin());
    let angle = |i: usize| from + (to - from) * i as f64 / ARCS as f64;
    let mut nodes: Vec<Node> =
        (0..=ARCS).map(|i| point(angle(i))).map(|(t, r)| Node::line(t, 2.0 * r.max(0.0))).collect();
    for i in 0..ARCS {
        let (a, b) = (nodes[i], nodes[i + 1]);
        let (middle, (t, r)) = (
            (f64::midpoint(a.at_mm, b.at_mm), (a.diameter_mm + b.diameter_mm) / 4.0),
            point(f64::midpoint(angle(i), angle(i + 1))),
        );
        let bulge = (t - middle.0).hypot(r - middle.1);
        nodes[i] = Node::arc(a.at_mm, a.diameter_mm, bulge.min(largest_bulge_mm(&a, &b)));
    }
    nodes
}

fn pass(name: &str, axis: AxisName, nodes: Vec<Node>) -> Pass {
    let end = |node: Option<&Node>| node.map_or(0.0, |node| node.at_mm);
    let (from_mm, to_mm) = (end(nodes.first()), end(nodes.last()));
    Pass { name: name.to_owned(), axis, from_mm, to_mm, profile: PassProfile::Drawn { nodes }, shapes: None }
}
