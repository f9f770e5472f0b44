//! Every figure of a design, worked out a part at a time.

use std::sync::{Arc, OnceLock};

use super::blank::{Blank, blank};
use super::carried::carried;
use super::checks::checks;
use super::clean_up::{CleanUp, clean_ups};
use super::end::boring_length_mm;
use super::grip::grip;
use super::handle::handle_level;
use super::hold::{Asked, Hold, Vessel};
use super::known::Known;
use super::leave::{Join, joins};
use super::marks_apart::marks_apart;
use super::report::{Figures, Worked};
use super::rest::{Rest, rest};
use super::rough_end::rough_end;
use super::shape::Shape;
use super::start::{NearestStart, nearest_starts};
use super::strength::{Neck, Strength, in_use, strength};
use super::summary::{Summary, repose};
use super::turning::{StateMasses, Turning, end_speeds, turnings};
use super::wall::holes;
use super::wood::wood;
use crate::design::{Cut, Design, Piece, Shop};

/// A design of which every figure is being worked out: a step at a time, so that a screen stays free between the steps,
/// or all at once, on two threads where there are threads. The slow figures come one a step; what is quick comes with the
/// end.
#[derive(Clone, Debug)]
pub struct Parts {
    design: Design,
    shop: Shop,
    piece: Arc<Piece>,
    shape: OnceLock<Arc<Shape>>,
    passes: OnceLock<Passes>,
    masses: OnceLock<StateMasses>,
    blank: OnceLock<Blank>,
    rest: OnceLock<Rest>,
    hold: OnceLock<Known<Hold>>,
    turning: OnceLock<Vec<Turning>>,
    neck: OnceLock<Known<Neck>>,
    strength: OnceLock<Strength>,
    next: usize,
}

/// Figures 2 and 3, of each pass.
#[derive(Clone, Debug)]
struct Passes {
    joins: Vec<Join>,
    nearest_starts: Vec<NearestStart>,
    clean_ups: Vec<CleanUp>,
}

/// The slow figures, in the order in which they are worked out.
const SLOW: [fn(&Parts); 7] = [
    |parts| _ = parts.masses(),
    |parts| _ = parts.rest(),
    |parts| _ = parts.hold(),
    |parts| _ = parts.turning(),
    |parts| _ = parts.neck(),
    |parts| _ = parts.strength(),
    |parts| _ = parts.passes(),
];

impl Parts {
    /// Nothing but the shape is worked out yet; it must be that of this design in this shop.
    #[must_use]
    pub fn new(design: Design, shop: Shop, shape: Arc<Shape>) -> Self {
        let piece = shape.piece.clone();
        Self { shape: OnceLock::from(shape), ..Self::of(design, shop, piece) }
    }

    /// Nothing is worked out yet but the geometry, of this design in this shop.
    pub(super) fn of(design: Design, shop: Shop, piece: Arc<Piece>) -> Self {
        Self {
            design,
            shop,
            piece,
            shape: OnceLock::new(),
            passes: OnceLock::new(),
            masses: OnceLock::new(),
            blank: OnceLock::new(),
            rest: OnceLock::new(),
            hold: OnceLock::new(),
            turning: OnceLock::new(),
            neck: OnceLock::new(),
            strength: OnceLock::new(),
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
        #[cfg(not(target_arch = "wasm32"))]
        self.share();
        let (design, shop, piece, shape) = (&self.design, &self.shop, &self.piece, self.shape());
        let summary = Summary::of(design, shape, self.hold(), self.blank());
        let wood = wood(design, shop, piece, self.blank(), summary.holds_ml);
        let passes = self.passes().clone();
        let grip = grip(design, piece, &shop.chuck);
        let turned_on = |axis| design.cuts.iter().any(|cut| matches!(cut, Cut::Pass(pass) if pass.axis == axis));
        let figures = Figures {
            summary,
            marks: shape.marks.clone(),
            joins: passes.joins,
            nearest_starts: passes.nearest_starts,
            fins: shape.fins.clone(),
            rough_ends: rough_end(design, piece).into_iter().collect(),
            marks_apart: marks_apart(&shape.marks, turned_on, &shop.centres),
            boring_length_mm: boring_length_mm(grip.as_ref(), &shape.borings, shop),
            carried: carried(design, piece, shop),
            grip,
            clean_ups: passes.clean_ups,
            walls: shape.walls.clone(),
            hold: self.hold().clone(),
            rest: self.rest().clone(),
            borings: shape.borings.clone(),
            turning: self.turning().to_vec(),
            ends: end_speeds(design, piece, shop, self.density_kg_m3().value().copied(), self.masses(), self.turning()),
            blank: self.blank().clone(),
            strength: self.strength().clone(),
            wood,
        };
        let checks = checks(design, piece, shop, &figures, self.masses().finished());
        let worked = Worked { piece: piece.clone(), figures, checks };
        (self.design, self.shop, worked)
    }

    /// Works the slow figures out on two threads: the shape, what the piece holds, what each pass leaves and the neck on
    /// one, masses and what follows from them on this. A figure that both want is worked out by the first, and the other
    /// waits for it.
    #[cfg(not(target_arch = "wasm32"))]
    fn share(&self) {
        std::thread::scope(|threads| {
            let other = std::thread::Builder::new().spawn_scoped(threads, || {
                self.shape();
                self.hold();
                self.passes();
                self.neck();
            });
            // Without a second thread all of it is done by this one, in the end.
            drop(other);
            self.masses();
            self.turning();
            self.strength();
        });
    }

    fn shape(&self) -> &Shape {
        self.shape.get_or_init(|| Arc::new(Shape::of(&self.design, &self.shop, self.piece.clone())))
    }

    fn passes(&self) -> &Passes {
        self.passes.get_or_init(|| {
            let (design, piece) = (&self.design, &self.piece);
            Passes {
                joins: joins(design, piece, self.shop.length_unit),
                nearest_starts: nearest_starts(design, piece, &design.limits.over(&self.shop.limits)),
                clean_ups: clean_ups(design, piece),
            }
        })
    }

    fn masses(&self) -> &StateMasses {
        self.masses.get_or_init(|| StateMasses::of(&self.design, &self.piece))
    }

    fn blank(&self) -> &Blank {
        self.blank.get_or_init(|| {
            let finished = self.masses().finished();
            let (design, piece, shop) = (&self.design, &self.piece, &self.shop);
            blank(design, piece, &self.shape().marks, shop, finished)
        })
    }

    fn rest(&self) -> &Rest {
        self.rest.get_or_init(|| rest(&self.piece, self.masses().finished()))
    }

    fn hold(&self) -> &Known<Hold> {
        self.hold.get_or_init(|| {
            let piece = &self.piece;
            let lying = || {
                let rest = self.rest();
                Some(rest.poses.get(rest.opening_up?)?.pitch_deg.to_radians())
            };
            let asked = Asked { handle_level: handle_level(&self.design, piece), repose: repose(&self.design) };
            let vessel = Vessel::broken_at(&piece.solid, &holes(&self.shape().walls));
            Known::from(vessel.map(|vessel| vessel.report(&asked, lying)))
        })
    }

    fn turning(&self) -> &[Turning] {
        self.turning.get_or_init(|| {
            let (density, borings) = (self.density_kg_m3(), &self.shape().borings);
            turnings(&self.design, &self.piece, &self.shop, &density, self.masses(), borings)
        })
    }

    fn density_kg_m3(&self) -> Known<f64> {
        match &self.blank().weight {
            Known::Value(weight) => Known::Value(weight.density_kg_m3),
            Known::Missing { why_not } => Known::missing(why_not.as_str()),
        }
    }

    fn strength(&self) -> &Strength {
        let force_n = |cut: usize| {
            let known = self.turning().iter().find(|step| step.cut == cut).and_then(Turning::force_n);
            known.unwrap_or(self.shop.lathe.force_limit_n)
        };
        let strength = || strength(&self.design, &self.shop, &self.piece, self.neck().clone(), force_n);
        self.strength.get_or_init(strength)
    }

    fn neck(&self) -> &Known<Neck> {
        self.neck.get_or_init(|| in_use(&self.design, &self.shop, &self.piece, self.rest()))
    }
}
