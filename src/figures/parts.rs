//! Every figure of a design, worked out a part at a time.

use std::sync::{Arc, OnceLock};

use super::blank::{Blank, blank};
use super::carried::carried;
use super::checks::checks;
use super::clean_up::{clean_ups, clean_ups_in_slices};
use super::end::boring_length_mm;
use super::grip::grip;
use super::handle::handle_level;
use super::hold::{Asked, Hold, Vessel};
use super::jaws::{JawsFor, jaws, jaws_in_slices};
use super::known::Known;
use super::leave::joins;
use super::marks_apart::marks_apart;
use super::report::{Figures, Worked};
use super::rest::{Rest, rest, rest_in_slices};
use super::rough_end::rough_end;
use super::shape::Shape;
use super::slow::{Passes, Slow};
use super::start::{nearest_starts, nearest_starts_in_slices};
use super::strength::{Neck, Strength, in_use, in_use_in_slices, strength, strength_in_slices};
use super::summary::{Summary, repose};
use super::turning::{StateMasses, Turning, end_speeds, turnings, turnings_in_slices};
use super::wall::holes;
use super::wood::wood;
use crate::design::{Cut, Design, Shop};
use crate::geometry::Pace;
use crate::piece::Piece;

/// A design of which every figure is being worked out, at once on two threads where there are threads, or by
/// [`Slices`](super::Slices).
#[derive(Clone, Debug)]
pub(super) struct Parts {
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
    jaws: OnceLock<Vec<JawsFor>>,
    neck: OnceLock<Known<Neck>>,
    strength: OnceLock<Strength>,
}

/// How many figures are slow.
const SLOW: u32 = 10;

impl Parts {
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
            jaws: OnceLock::new(),
            neck: OnceLock::new(),
            strength: OnceLock::new(),
        }
    }

    /// Works out the slow figures one after the other, in slices. `begun` is the shape as far as it is known.
    pub(super) async fn in_slices(mut self, begun: Arc<Shape>, pace: &Pace) -> Self {
        let part = |number: u32| pace.begin_part(number, SLOW);
        part(0);
        let begun = begun.in_slices(&self.design, &self.shop, pace).await;
        self.piece = begun.piece.clone();
        let (design, shop, piece) = (&self.design, &self.shop, &self.piece);
        let shape = self.shape.get_or_init(|| begun);
        part(1);
        keep(&self.masses, StateMasses::in_slices(design, piece, pace).await);
        part(2);
        keep(&self.rest, rest_in_slices(piece, self.masses().finished(), pace).await);
        pace.pause().await;
        self.blank();
        pace.pause().await;
        part(3);
        let vessel = Vessel::in_slices(&piece.solid, &holes(&shape.walls), pace).await;
        let hold = match vessel {
            Ok(vessel) => Ok(vessel.report_in_slices(&self.asked(), || self.lying(), pace).await),
            Err(error) => Err(error),
        };
        keep(&self.hold, Known::from(hold));
        part(4);
        let density = self.density_kg_m3();
        let turning = turnings_in_slices(design, piece, shop, &density, self.masses(), &shape.borings, pace).await;
        keep(&self.turning, turning);
        part(5);
        keep(&self.jaws, jaws_in_slices(design, piece, shop, self.turning(), pace).await);
        part(6);
        keep(&self.neck, in_use_in_slices(design, shop, piece, self.rest(), pace).await);
        part(7);
        let (neck, force_n) = (self.neck().clone(), |cut| self.force_n(cut));
        keep(&self.strength, strength_in_slices(design, shop, piece, neck, force_n, pace).await);
        part(8);
        let joins = joins(design, piece, shop.length_unit);
        let limits = design.limits.over(&shop.limits);
        let nearest_starts = nearest_starts_in_slices(design, piece, &limits, pace).await;
        part(9);
        let clean_ups = clean_ups_in_slices(design, piece, pace).await;
        keep(&self.passes, Passes { joins, nearest_starts, clean_ups });
        self
    }

    /// The slow figures, of parts that were worked out [in slices](Self::in_slices).
    pub(super) fn into_slow(self) -> Option<Slow> {
        let shape = self.shape.into_inner()?;
        Some(Slow {
            walls: shape.walls.clone(),
            passes: self.passes.into_inner()?,
            masses: self.masses.into_inner()?,
            rest: self.rest.into_inner()?,
            hold: self.hold.into_inner()?,
            turning: self.turning.into_inner()?,
            jaws: self.jaws.into_inner()?,
            neck: self.neck.into_inner()?,
            strength: self.strength.into_inner()?,
            shape: Some(shape),
        })
    }

    /// With the slow figures of this design in this shop, and its whole shape.
    pub(super) fn with(self, slow: Slow, shape: Arc<Shape>) -> Self {
        keep(&self.shape, shape);
        keep(&self.passes, slow.passes);
        keep(&self.masses, slow.masses);
        keep(&self.rest, slow.rest);
        keep(&self.hold, slow.hold);
        keep(&self.turning, slow.turning);
        keep(&self.jaws, slow.jaws);
        keep(&self.neck, slow.neck);
        keep(&self.strength, slow.strength);
        self
    }

    /// The design, the shop and all that was worked out: what is left of it is worked out now.
    pub(super) fn finish(self) -> (Design, Shop, Worked) {
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
            jaws: self.jaws().to_vec(),
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
            self.jaws();
            self.strength();
        });
    }

    fn shape(&self) -> &Shape {
        self.shared()
    }

    /// The shape, to be kept apart.
    pub(super) fn shape_shared(&self) -> Arc<Shape> {
        self.shared().clone()
    }

    fn shared(&self) -> &Arc<Shape> {
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
            let vessel = Vessel::broken_at(&piece.solid, &holes(&self.shape().walls));
            Known::from(vessel.map(|vessel| vessel.report(&self.asked(), || self.lying())))
        })
    }

    fn asked(&self) -> Asked {
        Asked { handle_level: handle_level(&self.design, &self.piece), repose: repose(&self.design) }
    }

    /// The pitch at which it lies with the opening up, in radians.
    fn lying(&self) -> Option<f64> {
        let rest = self.rest();
        Some(rest.poses.get(rest.opening_up?)?.pitch_deg.to_radians())
    }

    fn turning(&self) -> &[Turning] {
        self.turning.get_or_init(|| {
            let (density, borings) = (self.density_kg_m3(), &self.shape().borings);
            turnings(&self.design, &self.piece, &self.shop, &density, self.masses(), borings)
        })
    }

    fn jaws(&self) -> &[JawsFor] {
        self.jaws.get_or_init(|| jaws(&self.design, &self.piece, &self.shop, self.turning()))
    }

    fn density_kg_m3(&self) -> Known<f64> {
        match &self.blank().weight {
            Known::Value(weight) => Known::Value(weight.density_kg_m3),
            Known::Missing { why_not } => Known::missing(why_not.as_str()),
        }
    }

    fn strength(&self) -> &Strength {
        let force_n = |cut| self.force_n(cut);
        let strength = || strength(&self.design, &self.shop, &self.piece, self.neck().clone(), force_n);
        self.strength.get_or_init(strength)
    }

    /// The out-of-balance force at a cut, in N; the most that is accepted where it is not known.
    fn force_n(&self, cut: usize) -> f64 {
        let known = self.turning().iter().find(|step| step.cut == cut).and_then(Turning::force_n);
        known.unwrap_or(self.shop.lathe.force_limit_n)
    }

    fn neck(&self) -> &Known<Neck> {
        self.neck.get_or_init(|| in_use(&self.design, &self.shop, &self.piece, self.rest()))
    }
}

/// Keeps what was worked out.
fn keep<T>(part: &OnceLock<T>, found: T) {
    // None is kept yet: a part is worked out once.
    let _ = part.set(found);
}
