//! The ends that a handle may have, whatever it is the handle of.

use serde::{Deserialize, Serialize};

use super::arcs::{Bend, rounded};
use crate::design::profile::Node;

/// A handle over its greatest diameter where it is slim, before its end. A choice of ours, no source.
const SLIM: f64 = 0.8;
/// The length of a round end over the slim diameter, and what it is narrower at its end, over its length.
const ROUND_LENGTH: f64 = 0.45;
const ROUND_NARROWER: f64 = 1.8;
/// Length of the cove from the handle to the hook, in mm, and what it is wider than the handle where it meets the hook.
const HOOK_COVE_MM: f64 = 4.0;
const HOOK_FLARE_MM: f64 = 3.0;
/// A knob over the handle's greatest diameter: its length, the throat before it, and its end; and where it is widest, as
/// a share of its length from its end. Choices of ours, no source.
const KNOB_LENGTH: f64 = 1.0;
const KNOB_THROAT: f64 = 0.7;
const KNOB_END: f64 = 0.2;
const KNOB_WIDEST: f64 = 0.45;

/// How the handle ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum HandleEnd {
    /// With a round end on the handle's own axis.
    Round,
    /// With a hook, turned on axis A past the end of the handle.
    Hooked,
    /// With a knob on the handle's own axis.
    Knob,
    /// Parted off as it is.
    Plain,
}

impl HandleEnd {
    /// All of them, the usual first.
    pub const ALL: [Self; 4] = [Self::Round, Self::Hooked, Self::Knob, Self::Plain];
    /// Those on the handle's own axis: a hook is turned on axis A, where some handles may not be.
    pub const UNHOOKED: [Self; 3] = [Self::Round, Self::Knob, Self::Plain];
    /// Their names on screen, in the order of [`UNHOOKED`](Self::UNHOOKED).
    pub const UNHOOKED_NAMES: [&str; 3] = [Self::Round.name(), Self::Knob.name(), Self::Plain.name()];
    /// Their names on screen, in the order of [`ALL`](Self::ALL).
    pub const NAMES: [&str; 4] = ["A round end", "A hook to hang it by", "A knob", "Parted off plain"];

    /// Its name on screen.
    #[must_use]
    pub const fn name(self) -> &'static str {
        Self::NAMES[self as usize]
    }

    /// The one of this name; the usual where there is none.
    #[must_use]
    pub fn named(name: &str) -> Self {
        Self::ALL.into_iter().find(|end| end.name() == name).unwrap_or(Self::Round)
    }

    /// The length of a round end or knob, or of the cove before a hook, in mm, on a handle of this greatest diameter.
    pub(super) fn length_mm(self, greatest_mm: f64) -> f64 {
        match self {
            Self::Round => slim_mm(greatest_mm) * ROUND_LENGTH,
            Self::Hooked => HOOK_COVE_MM,
            Self::Knob => KNOB_LENGTH * greatest_mm,
            Self::Plain => 0.0,
        }
    }

    /// The diameter at which the handle's own pass meets a hook, in mm.
    pub(super) fn at_hook_mm(greatest_mm: f64) -> f64 {
        slim_mm(greatest_mm) + HOOK_FLARE_MM
    }

    /// The nodes of an end of this length up to `to_mm`, from where the handle is slim.
    pub(super) fn nodes(self, greatest_mm: f64, to_mm: f64, length_mm: f64) -> Vec<Node> {
        let slim_at = to_mm - length_mm;
        let slim = Node::line(slim_at, slim_mm(greatest_mm));
        match self {
            Self::Round => {
                let end = Node::line(to_mm, slim.diameter_mm - ROUND_NARROWER * length_mm);
                vec![rounded(slim, &end, Bend::Out), end]
            }
            Self::Hooked => {
                let end = Node::line(to_mm, Self::at_hook_mm(greatest_mm));
                vec![rounded(slim, &end, Bend::In), end]
            }
            Self::Knob => {
                let throat = Node::line(slim_at, KNOB_THROAT * greatest_mm);
                let widest = Node::line(to_mm - KNOB_WIDEST * length_mm, greatest_mm);
                let end = Node::line(to_mm, KNOB_END * greatest_mm);
                vec![rounded(throat, &widest, Bend::Out), rounded(widest, &end, Bend::Out), end]
            }
            Self::Plain => vec![Node::line(to_mm, slim.diameter_mm)],
        }
    }
}

/// The diameter of a handle before its end, in mm.
fn slim_mm(greatest_mm: f64) -> f64 {
    greatest_mm * SLIM
}
