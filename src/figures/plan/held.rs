//! How the work is held, in words, from what carries it.

use super::bench::Bench;
use super::step::Step;
use crate::design::AxisName;
use crate::figures::support::{HeadEnd, Support, TailEnd};

impl Bench<'_> {
    /// What carries the next piece of work of the order.
    pub(super) fn support(&self) -> Support {
        self.supports.get(self.done).copied().unwrap_or(Support::BENCH)
    }

    /// Says how a step is held, and by what it is carried.
    pub(super) fn carry(&self, step: &mut Step, support: &Support) {
        step.held = holding(support);
        step.carried = *support;
    }
}

/// How the work is held, by what carries it.
pub(super) fn holding(support: &Support) -> String {
    let axis = support.axis.unwrap_or(AxisName::A);
    let tail = match support.tail {
        TailEnd::LiveCentreOnPlug => format!(", the live centre in mark {axis} of the plug"),
        TailEnd::LiveCentreOnWood => format!(", the live centre in mark {axis} of the bowl end"),
        TailEnd::Cone => ", a cone in the mouth of the bore".to_owned(),
        TailEnd::Steady => ", a steady close to the bowl end".to_owned(),
        TailEnd::Nothing => String::new(),
    };
    match support.head {
        HeadEnd::Jaws => format!("In the chuck by its tenon{tail}."),
        HeadEnd::DriveCentre => {
            format!("Between centres on axis {axis}: the drive centre in mark {axis} of the head end{tail}.")
        }
        HeadEnd::Carrier => "In a carrier made for it.".to_owned(),
        HeadEnd::Bench | HeadEnd::Nothing => "On the bench.".to_owned(),
    }
}
