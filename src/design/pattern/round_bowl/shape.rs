//! From the choices to blank, axes and cuts.
//!
//! Angles on the ball count from the axis of a pass at the ball's centre toward the head end, in radians. The ball is
//! round about both axes, so that the pass on either turns the same ball; they overlap on purpose.

use std::f64::consts::{FRAC_1_SQRT_2, PI};

use super::RoundBowlScoop;
use crate::design::axis_name::AxisName;
use crate::design::cut::{
    AxisChoice, Blank, BlankSection, Cut, EndPlane, Hollow, HollowShape, Pass, SawCut, SawPath, Side,
};
use crate::design::pattern::across::{
    ARCS, HandleLine, MOST_STUB, NUB_MM, NUB_RADIUS_MM, OVER_OPENING_MM, SAWN_OVER_MM, STUB_MARGIN_MM, TAIL_WASTE_MM,
    WASTE_MM, egg, level, pass,
};
use crate::design::pattern::made::Made;
use crate::design::profile::Node;
use crate::design::shop::Chuck;

/// How much earlier than need be the handle's pass starts on the ball, in mm, so that no fin stays.
const OVERLAP_MM: f64 = 2.0;
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
        self.handle_line().root_mm()
    }

    fn handle_line(&self) -> HandleLine {
        HandleLine {
            neck_diameter_mm: self.neck_diameter_mm,
            diameter_mm: self.handle_diameter_mm,
            end: self.handle_end,
        }
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
        let mut nodes = Vec::new();
        if self.is_tilted() {
            nodes = self.round(centre, self.handle_from_angle(), self.root_angle());
            nodes.pop();
        }
        nodes.extend(self.handle_line().nodes((root_at, self.root_mm()), self.handle_to()));
        let handle = pass("handle", self.handle_axis(), nodes);
        if self.is_tilted() { self.of_ball(handle) } else { handle }
    }

    /// The pass, as one of those that shape the ball.
    fn of_ball(&self, pass: Pass) -> Pass {
        Pass { shapes: Some(BALL_PART.to_owned()), ..pass }
    }

    /// The ball about a centre from one angle to a lesser one, as arcs.
    fn round(&self, centre_mm: f64, from: f64, to: f64) -> Vec<Node> {
        egg(ARCS, centre_mm, (self.radius_mm(), self.radius_mm()), (from, to))
    }

    /// Level, from before the ball to where the handle leaves it.
    fn saw_path(&self) -> SawPath {
        let back = self.radius_mm() * self.ball_to_angle().cos();
        let edge = self.hollow_radius_mm() + SAWN_OVER_MM;
        level(self.opening_mm(), self.centre_mm() + back.max(edge))
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
        let nodes = egg(ARCS, -mouth_mm, (deep, wide), (from, 0.0));
        Hollow { axis: AxisName::B, mouth_mm, shape: HollowShape::Drawn { nodes } }
    }
}
