//! The handle: its neck, its swell and its end.

use super::frame::{Bend, FLARE_MM, HOOK_MM, SPARE_MM, pass, rounded};
use super::{BoredEndScoop, HandleEnd};
use crate::design::axis_name::AxisName;
use crate::design::cut::{Pass, PassProfile};
use crate::design::profile::Node;

/// Length of the cove from the bowl to the neck, in mm.
const COVE_MM: f64 = 12.0;
/// Length of the cove from the handle to the hook, in mm.
const HOOK_COVE_MM: f64 = 4.0;
/// What that cove is wider than the handle where it meets the hook, in mm.
const HOOK_FLARE_MM: f64 = 3.0;
/// The most of a short handle's pass that its cove, and that its end may take.
const MOST_OF_HANDLE: f64 = 0.25;
/// A knob over the handle's greatest diameter: its length, where it is widest before its end, the throat before it, and
/// its end. Choices of ours, no source.
const KNOB_LENGTH: f64 = 1.0;
const KNOB_WIDEST: f64 = 0.45;
const KNOB_THROAT: f64 = 0.7;
const KNOB_END: f64 = 0.2;

impl BoredEndScoop {
    pub(super) fn handle(&self) -> Pass {
        let (from_mm, to_mm) = (self.handle_from(), self.handle_to());
        let most = MOST_OF_HANDLE * (to_mm - from_mm);
        let neck_at = from_mm + COVE_MM.min(most);
        let end_length = self.handle_end_length().min(most);
        let slim_at = to_mm - end_length;
        let widest_at = neck_at + (slim_at - neck_at) * 0.65;
        let flare = Node::line(from_mm, self.neck_diameter_mm + FLARE_MM);
        let neck = Node::ogee(neck_at, self.neck_diameter_mm);
        let mut nodes = vec![rounded(flare, &neck, Bend::In), neck, Node::ogee(widest_at, self.handle_diameter_mm)];
        nodes.extend(self.end_nodes(to_mm, end_length));
        pass("handle", self.handle_axis(), from_mm, to_mm, PassProfile::Drawn { nodes })
    }

    /// The nodes of the handle's end, of this length in mm, from where it is slim.
    fn end_nodes(&self, to_mm: f64, end_length: f64) -> Vec<Node> {
        let slim_at = to_mm - end_length;
        let slim = Node::line(slim_at, self.slim());
        match self.handle_end {
            HandleEnd::Round => {
                let end = Node::line(to_mm, self.slim() - 1.8 * end_length);
                vec![rounded(slim, &end, Bend::Out), end]
            }
            HandleEnd::Hooked => {
                let end = Node::line(to_mm, self.slim() + HOOK_FLARE_MM);
                vec![rounded(slim, &end, Bend::In), end]
            }
            HandleEnd::Knob => {
                let throat = Node::line(slim_at, KNOB_THROAT * self.handle_diameter_mm);
                let widest = Node::line(to_mm - KNOB_WIDEST * end_length, self.handle_diameter_mm);
                let end = Node::line(to_mm, KNOB_END * self.handle_diameter_mm);
                vec![rounded(throat, &widest, Bend::Out), rounded(widest, &end, Bend::Out), end]
            }
            HandleEnd::Plain => vec![Node::line(to_mm, self.slim())],
        }
    }

    /// The length of the handle's round end or knob, or of its cove before a hook, in mm.
    fn handle_end_length(&self) -> f64 {
        match self.handle_end {
            HandleEnd::Round => self.slim() * 0.45,
            HandleEnd::Hooked => HOOK_COVE_MM,
            HandleEnd::Knob => KNOB_LENGTH * self.handle_diameter_mm,
            HandleEnd::Plain => 0.0,
        }
    }

    /// A round about axis A that leaves the whole end of the handle, hangs below it, and is rounded over at its end.
    pub(super) fn hook(&self) -> Pass {
        let handle_to = self.length_mm() - HOOK_MM;
        let from_mm = handle_to - self.lean() - 2.0;
        let reach = self.height(handle_to).abs() + (self.slim() + HOOK_FLARE_MM) / 2.0;
        let diameter = 2.0 * (reach + SPARE_MM);
        let rounding = (0.6 * HOOK_MM).min(0.3 * diameter);
        let round = Node::line(self.length_mm() - rounding, diameter);
        let end = Node::line(self.length_mm(), diameter - 2.0 * rounding);
        let nodes = vec![Node::line(from_mm, diameter), rounded(round, &end, Bend::Out), end];
        pass("hook", AxisName::A, from_mm, self.length_mm(), PassProfile::Drawn { nodes })
    }
}
