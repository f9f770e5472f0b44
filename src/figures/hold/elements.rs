//! The kept surface as points that each stand for a small piece of it.

use super::pitch::Pitch;
use crate::geometry::Vector;

/// Points of a surface, each with the vector area it stands for: square to the surface, into the air, in mm2.
///
/// Kept column by column, because every pass over them wants few of the columns.
#[derive(Clone, Debug, Default)]
pub(super) struct Elements {
    pub x: Vec<f64>,
    pub y: Vec<f64>,
    pub s: Vec<f64>,
    pub area_x: Vec<f64>,
    pub area_y: Vec<f64>,
    pub area_s: Vec<f64>,
    /// Neighbouring elements, from one to another, and a ball around them.
    pub groups: Vec<Group>,
}

/// A run of neighbouring elements.
#[derive(Clone, Copy, Debug)]
pub(super) struct Group {
    pub from: usize,
    pub to: usize,
    pub middle: Vector,
    pub radius: f64,
}

impl Elements {
    pub(super) fn len(&self) -> usize {
        self.x.len()
    }

    pub(super) fn position(&self, i: usize) -> Vector {
        Vector::new(self.x[i], self.y[i], self.s[i])
    }

    pub(super) fn area(&self, i: usize) -> Vector {
        Vector::new(self.area_x[i], self.area_y[i], self.area_s[i])
    }

    /// Adds neighbouring elements as one group.
    pub(super) fn push_group(&mut self, members: &[(Vector, Vector)]) {
        let from = self.len();
        let mut middle = Vector::ZERO;
        for (position, area) in members {
            self.x.push(position.x);
            self.y.push(position.y);
            self.s.push(position.s);
            self.area_x.push(area.x);
            self.area_y.push(area.y);
            self.area_s.push(area.s);
            middle = middle + *position * (1.0 / members.len() as f64);
        }
        let radius = members.iter().map(|(p, _)| (*p - middle).length()).fold(0.0, f64::max);
        self.groups.push(Group { from, to: self.len(), middle, radius });
    }

    /// Whether all of a group stands higher than `top` at a pitch.
    pub(super) fn is_above(&self, group: &Group, pitch: Pitch, top: f64) -> bool {
        pitch.height(group.middle) - group.radius > top
    }

    /// One element in place of each group.
    pub(super) fn coarse(&self) -> Self {
        let mut coarse = Self::default();
        for group in &self.groups {
            let mut pile = Pile::default();
            for i in group.from..group.to {
                pile.add(self.position(i), self.area(i));
            }
            coarse.push_group(&pile.into_element().map_or_else(Vec::new, |e| vec![e]));
        }
        coarse
    }
}

/// Small pieces of surface gathered into one element.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Pile {
    area: Vector,
    weighted: Vector,
    weight: f64,
}

impl Pile {
    /// Adds a piece of surface.
    pub(super) fn add(&mut self, position: Vector, area: Vector) {
        let weight = area.length();
        self.area = self.area + area;
        self.weighted = self.weighted + position * weight;
        self.weight += weight;
    }

    /// The pieces together, at the middle of their areas; `None` when there are none.
    pub(super) fn into_element(self) -> Option<(Vector, Vector)> {
        (self.weight > 0.0).then(|| (self.weighted * (1.0 / self.weight), self.area))
    }
}
