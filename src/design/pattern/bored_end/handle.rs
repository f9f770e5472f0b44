//! The handle: its neck, its swell and its end.

use super::BoredEndScoop;
use super::frame::{FLARE_MM, HANDLE_PART, HOOK_MM, SPARE_MM, pass};
use crate::design::axis_name::AxisName;
use crate::design::cut::{Pass, PassProfile};
use crate::design::pattern::arcs::{Bend, rounded};
use crate::design::pattern::handle_end::HandleEnd;
use crate::design::profile::Node;

/// Length of the cove from the bowl to the neck, in mm.
const COVE_MM: f64 = 12.0;
/// The most of a short handle's pass that its cove, and that its end may take.
const MOST_OF_HANDLE: f64 = 0.25;

impl BoredEndScoop {
    pub(super) fn handle(&self) -> Pass {
        let (from_mm, to_mm) = (self.handle_from(), self.handle_to());
        let most = MOST_OF_HANDLE * (to_mm - from_mm);
        let neck_at = from_mm + COVE_MM.min(most);
        let end_length = self.handle_end.length_mm(self.handle_diameter_mm).min(most);
        let slim_at = to_mm - end_length;
        let widest_at = neck_at + (slim_at - neck_at) * 0.65;
        let flare = Node::line(from_mm, self.neck_diameter_mm + FLARE_MM);
        let neck = Node::ogee(neck_at, self.neck_diameter_mm);
        let mut nodes = vec![rounded(flare, &neck, Bend::In), neck, Node::ogee(widest_at, self.handle_diameter_mm)];
        nodes.extend(self.handle_end.nodes(self.handle_diameter_mm, to_mm, end_length));
        let handle = pass("handle", self.handle_axis(), from_mm, to_mm, PassProfile::Drawn { nodes });
        let hooked = self.handle_end == HandleEnd::Hooked;
        Pass { shapes: hooked.then(|| HANDLE_PART.to_owned()), ..handle }
    }

    /// A round about axis A that leaves the whole end of the handle, hangs below it, and is rounded over at its end. It
    /// shapes the handle's end together with the handle.
    pub(super) fn hook(&self) -> Pass {
        let handle_to = self.length_mm() - HOOK_MM;
        let from_mm = handle_to - self.lean() - 2.0;
        let reach = self.height(handle_to).abs() + HandleEnd::at_hook_mm(self.handle_diameter_mm) / 2.0;
        let diameter = 2.0 * (reach + SPARE_MM);
        let rounding = (0.6 * HOOK_MM).min(0.3 * diameter);
        let round = Node::line(self.length_mm() - rounding, diameter);
        let end = Node::line(self.length_mm(), diameter - 2.0 * rounding);
        let nodes = vec![Node::line(from_mm, diameter), rounded(round, &end, Bend::Out), end];
        let hook = pass("hook", AxisName::A, from_mm, self.length_mm(), PassProfile::Drawn { nodes });
        Pass { shapes: Some(HANDLE_PART.to_owned()), ..hook }
    }
}
