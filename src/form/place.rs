//! The parts of a design that hold its numbers: the design itself, an axis, a cut, a node and a point of a saw line.
//! Each is found to be read and to be changed, and has a path in the saved document.

use crate::design::{AxisChoice, BlankSection, Cut, Design, HollowShape, Node, PassProfile, SawPath, SawPoint};

/// The same walk twice: for a design that is read, and for one that is changed.
macro_rules! places {
    ($get:ident, $as_ref:ident, $number:ident, $nodes:ident, $(#[$nodes_doc:meta])* $(, $mutable:tt)?) => {
        pub fn whole(design: & $($mutable)? Design, []: [usize; 0]) -> Option<& $($mutable)? Design> {
            Some(design)
        }

        pub fn width(design: & $($mutable)? Design, []: [usize; 0]) -> Option<& $($mutable)? BlankSection> {
            Some(& $($mutable)? design.blank.section)
        }

        pub fn choice(design: & $($mutable)? Design, [place]: [usize; 1]) -> Option<& $($mutable)? f64> {
            (design.pattern. $as_ref()?).choices. $number(place)
        }

        pub fn axis(design: & $($mutable)? Design, [axis]: [usize; 1]) -> Option<& $($mutable)? AxisChoice> {
            design.axes.$get(axis)
        }

        pub fn cut(design: & $($mutable)? Design, [cut]: [usize; 1]) -> Option<& $($mutable)? Cut> {
            design.cuts.$get(cut)
        }

        pub fn node(design: & $($mutable)? Design, [cut, node]: [usize; 2]) -> Option<& $($mutable)? Node> {
            $nodes(design.cuts.$get(cut)?)?.$get(node)
        }

        pub fn point(design: & $($mutable)? Design, [cut, point]: [usize; 2]) -> Option<& $($mutable)? SawPoint> {
            let Cut::Saw(saw) = design.cuts.$get(cut)? else { return None };
            match (& $($mutable)? saw.path, point) {
                (SawPath::Lines { points }, point) => points.$get(point),
                (SawPath::Arc { from, .. }, 0) => Some(from),
                (SawPath::Arc { to, .. }, 1) => Some(to),
                _ => None,
            }
        }

        $(#[$nodes_doc])*
        pub fn $nodes(cut: & $($mutable)? Cut) -> Option<& $($mutable)? Vec<Node>> {
            match cut {
                Cut::Pass(pass) => match & $($mutable)? pass.profile {
                    PassProfile::Drawn { nodes } => Some(nodes),
                    PassProfile::Join => None,
                },
                Cut::Hollow(hollow) => match & $($mutable)? hollow.shape {
                    HollowShape::Drawn { nodes } => Some(nodes),
                    HollowShape::RoundEnded { .. } => None,
                },
                _ => None,
            }
        }
    };
}

/// To be read.
pub(super) mod read {
    use super::*;

    places!(get, as_ref, number, nodes_of, /** The nodes of a drawn pass or of a drawn hollow. */ #[must_use]);
}

/// To be changed.
pub(super) mod change {
    use super::*;

    places!(get_mut, as_mut, number_mut, nodes_of_mut, /** As [`nodes_of`](super::nodes_of), to be changed. */, mut);
}

pub(super) use change::nodes_of_mut;
pub use read::nodes_of;

/// Where a number stands in the saved document, by the name it has in its part. The names of kinds (`pass`, `drawn`) are
/// left out.
pub(super) mod path {
    use super::*;

    pub fn whole(_: &Design, []: [usize; 0], name: &str) -> String {
        name.to_owned()
    }

    pub fn width(design: &Design, []: [usize; 0], name: &str) -> String {
        let which = if matches!(design.blank.section, BlankSection::Square { .. }) { "side" } else { "diameter" };
        format!("blank.section.{which}{name}")
    }

    pub fn choice(design: &Design, [place]: [usize; 1], _: &str) -> String {
        let look = design.pattern.as_ref().and_then(|pattern| pattern.choices.look(place));
        format!("pattern.choices.{}", look.map_or("", |look| look.name))
    }

    pub fn axis(_: &Design, [axis]: [usize; 1], name: &str) -> String {
        format!("axes[{axis}].{name}")
    }

    pub fn cut(_: &Design, [cut]: [usize; 1], name: &str) -> String {
        format!("cuts[{cut}].{name}")
    }

    pub fn node(design: &Design, [cut, node]: [usize; 2], name: &str) -> String {
        let nodes = if matches!(design.cuts.get(cut), Some(Cut::Hollow(_))) { "shape" } else { "profile" };
        format!("cuts[{cut}].{nodes}.nodes[{node}].{name}")
    }

    pub fn point(design: &Design, [cut, point]: [usize; 2], name: &str) -> String {
        let arc = matches!(design.cuts.get(cut), Some(Cut::Saw(saw)) if matches!(saw.path, SawPath::Arc { .. }));
        match (arc, point) {
            (true, 0) => format!("cuts[{cut}].path.from.{name}"),
            (true, _) => format!("cuts[{cut}].path.to.{name}"),
            (false, _) => format!("cuts[{cut}].path.points[{point}].{name}"),
        }
    }
}
