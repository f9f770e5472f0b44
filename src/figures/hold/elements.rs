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
    pub groups: Vec<Cluster>,
}

/// A run of neighbouring elements.
#[derive(Clone, Copy, Debug)]
pub(super) struct Cluster {
    pub from: usize,
    pub to: usize,
    pub middle: Vector,
    pub radius: f64,
    /// The hollow they are of, by its cut.
    pub hollow: usize,
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

    /// Lets every element stand for its mirror image too.
    pub(super) fn double(&mut self) {
        for areas in [&mut self.area_x, &mut self.area_y, &mut self.area_s] {
            areas.iter_mut().for_each(|area| *area *= 2.0);
        }
    }

    /// Adds neighbouring elements as one group.
    pub(super) fn push_group(&mut self, hollow: usize, members: &[(Vector, Vector)]) {
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
        self.groups.push(Cluster { from, to: self.len(), middle, radius, hollow });
    }

    /// One element in place of every few neighbouring groups, up to `size` mm apart.
    pub(super) fn coarse(&self, size: f64) -> Self {
        let mut coarse = Self::default();
        let mut from = 0;
        while let Some(first) = self.groups.get(from) {
            let apart = |g: &Cluster| (g.middle - first.middle).length_sq() > size * size || g.hollow != first.hollow;
            let rest = &self.groups[from..self.groups.len().min(from + MOST_JOINED)];
            let count = rest.iter().position(apart).unwrap_or(rest.len());
            let mut pile = Pile::default();
            for i in first.from..rest[count - 1].to {
                pile.add(self.position(i), self.area(i));
            }
            if let Some(element) = pile.into_element() {
                coarse.push_group(first.hollow, &[element]);
            }
            from += count;
        }
        coarse
    }
}

/// Groups that may be joined into one coarse element.
const MOST_JOINED: usize = 4;

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

/// An element in the frame of a pitched piece.
#[derive(Clone, Copy)]
pub(super) struct Raised {
    pub x: f64,
    pub level: f64,
    pub height: f64,
    /// Its area seen from above, in mm2: positive on a floor, negative on a ceiling.
    pub area: f64,
}

impl Raised {
    pub(super) fn new(position: Vector, area: Vector, frame: Pitch) -> Self {
        Self { x: position.x, level: frame.level(position), height: frame.height(position), area: frame.height(area) }
    }
}
