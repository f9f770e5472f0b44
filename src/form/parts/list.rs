//! The axes and cuts of a design as a list on screen.

use super::PartId;
use super::axes::letter;
use crate::design::nodes::hollow_nodes;
use crate::design::text::of_several;
use crate::design::units::{Quantity, format_number};
use crate::design::{AxisChoice, Cut, Design, Units};
use crate::form::moves::{Movable, movables};
use crate::form::sections::cut_title;

/// A part in the list.
#[derive(Clone, Debug, PartialEq)]
pub struct PartRow {
    /// Which it is.
    pub id: PartId,
    /// What it is called.
    pub title: String,
    /// From where to where it reaches along its axis, or how an axis stands.
    pub extent: String,
    /// The name of a pass, which may be changed.
    pub name: Option<String>,
}

/// Every axis after A, then every cut in working order, those that are switched off in their places.
#[must_use]
pub fn parts(design: &Design, units: Units) -> Vec<PartRow> {
    let axes = (0..design.axes.len()).map(|place| axis_row(design, place, units));
    let mut off = design.off.iter().enumerate().peekable();
    let mut cuts = Vec::with_capacity(design.cuts.len() + design.off.len());
    for (place, cut) in design.cuts.iter().enumerate() {
        while let Some((before, _)) = off.next_if(|(_, off)| off.place <= place) {
            cuts.extend(off_row(design, before, units));
        }
        cuts.push(row(PartId::Cut(place), title(design, place), cut, units));
    }
    cuts.extend(off.filter_map(|(left, _)| off_row(design, left, units)));
    axes.chain(cuts).collect()
}

fn row(id: PartId, title: String, cut: &Cut, units: Units) -> PartRow {
    let name = match cut {
        Cut::Pass(pass) if matches!(id, PartId::Cut(_)) => Some(pass.name.clone()),
        _ => None,
    };
    PartRow { id, title, extent: extent(cut, units), name }
}

/// The heading of a cut, and of several alike which of them it is.
fn title(design: &Design, cut: usize) -> String {
    let plain = |cut: usize| cut_title(design, cut).unwrap_or_else(|| "Plug out".to_owned());
    let own = plain(cut);
    let before = (0..cut).filter(|other| plain(*other) == own).count();
    let all = (0..design.cuts.len()).filter(|other| plain(*other) == own).count();
    of_several(own, before, all)
}

/// A plug's taking out goes with the plug.
fn off_row(design: &Design, off: usize, units: Units) -> Option<PartRow> {
    let cut = &design.off.get(off)?.cut;
    let title = match cut {
        Cut::TakeOutPlug => return None,
        cut => cut_title(&Design { cuts: vec![cut.clone()], off: Vec::new(), ..design.clone() }, 0)?,
    };
    Some(row(PartId::Off(off), title, cut, units))
}

fn axis_row(design: &Design, place: usize, units: Units) -> PartRow {
    let length = |mm: f64| units.show_with_unit(mm, Quantity::Length);
    let extent = design.axes.get(place).map_or_else(String::new, |axis| match *axis {
        AxisChoice::Marks { tail_x_mm, tail_y_mm, head_x_mm, head_y_mm } => {
            let (tail, head) = (tail_x_mm.hypot(tail_y_mm), head_x_mm.hypot(head_y_mm));
            format!("marks {} and {} from the centre", length(tail), length(head))
        }
        AxisChoice::Tilt { tilt_deg, crossing_mm, .. } => {
            format!("leans {}\u{b0}, crosses A at {}", format_number(tilt_deg, 1), length(crossing_mm))
        }
        AxisChoice::Across { station_mm, .. } => format!("across the blank at {}", length(station_mm)),
    });
    PartRow { id: PartId::Axis(place), title: format!("Axis {}", letter(place)), extent, name: None }
}

fn extent(cut: &Cut, units: Units) -> String {
    let length = |mm: f64| units.show_with_unit(mm, Quantity::Length);
    let span = |from_mm: f64, to_mm: f64| format!("{} to {}", units.show(from_mm, Quantity::Length), length(to_mm));
    match cut {
        Cut::Pass(pass) => span(pass.from_mm, pass.to_mm),
        Cut::Hollow(hollow) => {
            let depth_mm = hollow_nodes(&hollow.shape).last().map_or(0.0, |node| node.at_mm);
            span(hollow.mouth_mm, hollow.mouth_mm + depth_mm)
        }
        Cut::Face(plane) | Cut::Part(plane) => format!("at {}", length(plane.at_mm)),
        Cut::Saw(saw) => {
            let (from, to) = match &saw.path {
                crate::design::SawPath::Lines { points } => (points.first(), points.last()),
                crate::design::SawPath::Arc { from, to, .. } => (Some(from), Some(to)),
            };
            from.zip(to).map_or_else(String::new, |(from, to)| span(from.at_mm, to.at_mm))
        }
        Cut::FitPlug(plug) => format!("spigot {}", length(plug.spigot_length_mm)),
        Cut::TakeOutPlug => String::new(),
    }
}

/// What of a part is picked on the drawing: a point about its middle.
#[must_use]
pub fn first_movable(design: &Design, id: PartId) -> Option<Movable> {
    let is_of = |thing: &Movable| match id {
        PartId::Cut(cut) => thing.cut() == Some(cut),
        PartId::Axis(axis) => thing.axis() == Some(axis),
        PartId::Off(_) => false,
    };
    let all: Vec<Movable> = movables(design).into_iter().filter(is_of).collect();
    all.get(all.len() / 2).copied()
}
