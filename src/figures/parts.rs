//! Every figure of a design, worked out a part at a time.

use std::cell::OnceCell;
use std::sync::Arc;

use super::blank::{Blank, blank};
use super::checks::checks;
use super::clean_up::clean_ups;
use super::handle::handle_level;
use super::hold::{Asked, Hold, Vessel};
use super::known::Known;
use super::leave::{joins, nearest_starts};
use super::report::{Figures, Worked};
use super::rest::{Rest, rest};
use super::shape::Shape;
use super::strength::{Strength, strength};
use super::summary::{Summary, repose};
use super::turning::{StateMasses, Turning, turnings};
use super::wood::wood;
use crate::design::{Design, Shop};

/// A design of which every figure is being worked out: a step at a time, so that a screen stays free between the steps,
/// or all at once. The slow figures come one a step; what is quick comes with the end.
#[derive(Clone, Debug)]
pub struct Parts {
    design: Design,
    shop: Shop,
    shape: Arc<Shape>,
    masses: OnceCell<StateMasses>,
    blank: OnceCell<Blank>,
    rest: OnceCell<Rest>,
    hold: OnceCell<Known<Hold>>,
    turning: OnceCell<Vec<Turning>>,
    strength: OnceCell<Strength>,
    next: usize,
}

/// The slow figures, in the order in which they are worked out.
const SLOW: [fn(&Parts); 5] = [
    |parts| _ = parts.masses(),
    |parts| _ = parts.rest(),
    |parts| _ = parts.hold(),
    |parts| _ = parts.turning(),
    |parts| _ = parts.strength(),
];

impl Parts {
    /// Nothing but the shape is worked out yet; it must be that of this design in this shop.
    #[must_use]
    pub fn new(design: Design, shop: Shop, shape: Arc<Shape>) -> Self {
        Self {
            design,
            shop,
            shape,
            masses: OnceCell::new(),
            blank: OnceCell::new(),
            rest: OnceCell::new(),
            hold: OnceCell::new(),
            turning: OnceCell::new(),
            strength: OnceCell::new(),
            next: 0,
        }
    }

    /// Works out the next part; whether more are left before [`finish`](Self::finish) has only quick ones to do.
    pub fn step(&mut self) -> bool {
        if let Some(part) = SLOW.get(self.next) {
            part(self);
            self.next += 1;
        }
        self.next < SLOW.len()
    }

    /// The design, the shop and all that was worked out: what is left of it is worked out now.
    #[must_use]
    pub fn finish(self) -> (Design, Shop, Worked) {
        let (design, shop, shape) = (&self.design, &self.shop, &*self.shape);
        let piece = &shape.piece;
        let summary = Summary::of(design, shape, self.hold(), self.blank());
        let wood = wood(design, shop, piece, self.blank(), summary.holds_ml);
        let figures = Figures {
            summary,
            marks: shape.marks.clone(),
            joins: joins(design, piece),
            nearest_starts: nearest_starts(design, piece, &design.limits.over(&shop.limits)),
            fins: shape.fins.clone(),
            clean_ups: clean_ups(design, piece),
            walls: shape.walls.clone(),
            hold: self.hold().clone(),
            rest: self.rest().clone(),
            borings: shape.borings.clone(),
            turning: self.turning().to_vec(),
            blank: self.blank().clone(),
            strength: self.strength().clone(),
            wood,
        };
        let checks = checks(design, piece, shop, &figures, self.masses().finished());
        let worked = Worked { piece: piece.clone(), figures, checks };
        (self.design, self.shop, worked)
    }

    fn masses(&self) -> &StateMasses {
        self.masses.get_or_init(|| StateMasses::of(&self.design, &self.shape.piece))
    }

    fn blank(&self) -> &Blank {
        self.blank.get_or_init(|| {
            let finished = self.masses().finished();
            blank(&self.design, &self.shape.piece, &self.shape.marks, &self.shop, finished)
        })
    }

    fn rest(&self) -> &Rest {
        self.rest.get_or_init(|| rest(&self.shape.piece, self.masses().finished()))
    }

    fn hold(&self) -> &Known<Hold> {
        self.hold.get_or_init(|| {
            let (rest, piece) = (self.rest(), &self.shape.piece);
            let lying = rest.opening_up.and_then(|i| rest.poses.get(i)).map(|pose| pose.pitch_deg.to_radians());
            let handle_level = handle_level(&self.design, piece);
            let asked = Asked { handle_level, lying, repose: repose(&self.design) };
            Known::from(Vessel::new(&piece.solid).map(|vessel| vessel.report(&asked)))
        })
    }

    fn turning(&self) -> &[Turning] {
        let density = || match &self.blank().weight {
            Known::Value(weight) => Known::Value(weight.density_kg_m3),
            Known::Missing { why_not } => Known::missing(why_not.as_str()),
        };
        self.turning.get_or_init(|| turnings(&self.design, &self.shape.piece, &self.shop, &density(), self.masses()))
    }

    fn strength(&self) -> &Strength {
        let force_n = |cut: usize| {
            let known = self.turning().iter().find(|step| step.cut == cut).and_then(Turning::force_n);
            known.unwrap_or(self.shop.lathe.force_limit_n)
        };
        self.strength.get_or_init(|| strength(&self.design, &self.shop, &self.shape.piece, self.rest(), force_n))
    }
}
