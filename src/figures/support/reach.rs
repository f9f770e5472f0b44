//! What a centre, a cone or the jaws find to bear on as the work goes on.

use super::ends::{HeadEnd, TailEnd};
use super::lack::LackKind;
use super::order::in_order;
use super::thinnest::{Thinnest, thinnest};
use super::work::Work;
use crate::design::{AxisName, Side};
use crate::geometry::{Axis, Region, Solid, State, Vector};
use crate::piece::Piece;

/// How deep under a face its wood is looked for, in mm.
const INTO_FACE: f64 = 0.2;
/// How far outside the bore's edge the wood that a cone bears on is looked for, in mm.
const RIM: f64 = 0.5;

/// A piece in working order, with what can still be reached.
pub(super) struct Reach<'a> {
    piece: &'a Piece,
    works: &'a [Work],
    order: &'a [usize],
    /// Without the waste's parting planes: a nub holds waste and piece together until the end of the turning.
    solid: Solid,
    overhang_times: f64,
}

impl<'a> Reach<'a> {
    pub(super) fn new(piece: &'a Piece, works: &'a [Work], order: &'a [usize], overhang_times: f64) -> Self {
        let mut solid = in_order(&piece.solid, order);
        let tenon = works.contains(&Work::Tenon);
        let stays = |removal: &crate::geometry::Removal| match order.get(removal.cut).and_then(|cut| works.get(*cut)) {
            Some(Work::Part { removes: Side::Tail, .. }) => tenon,
            Some(work) => !work.parts_the_head(),
            None => true,
        };
        solid.removals.retain(stays);
        Self { piece, works, order, solid, overhang_times }
    }

    /// The piece of work after `done` of them.
    pub(super) fn work(&self, done: usize) -> Option<Work> {
        self.works.get(*self.order.get(done)?).copied()
    }

    pub(super) fn thinnest(&self, done: usize, axis: AxisName) -> Option<Thinnest> {
        self.piece.axis(axis)?.centre(0.0)?;
        Some(thinnest(&self.solid, done + 1, self.order, self.piece.head_face))
    }

    fn before(&self, done: usize) -> impl Iterator<Item = Work> {
        self.order[..done.min(self.order.len())].iter().filter_map(|cut| self.works.get(*cut).copied())
    }

    fn has_tenon(&self, done: usize) -> bool {
        self.before(done).any(|work| work == Work::Tenon)
    }

    /// Whether something turned so far leaves only a nub, and nothing that spins comes after it: the piece is off.
    fn is_off(&self, done: usize) -> bool {
        let ends = |work: Work| work.parts_the_head() || matches!(work, Work::Pass { to_nothing: true, .. });
        let later = self.order.iter().skip(done).filter_map(|cut| self.works.get(*cut));
        self.before(done).any(ends) && !later.clone().any(|work| work.spins_on().is_some())
    }

    /// Whether the piece is still in the jaws.
    pub(super) fn in_jaws(&self, done: usize) -> bool {
        self.has_tenon(done) && !self.is_off(done)
    }

    pub(super) fn jaws(&self, done: usize) -> (HeadEnd, Option<LackKind>) {
        if self.has_tenon(done) { (HeadEnd::Jaws, None) } else { (HeadEnd::Nothing, Some(LackKind::NoTenon)) }
    }

    /// The jaws on axis A, where there is a tenon; else the drive centre.
    pub(super) fn head(&self, done: usize, axis: AxisName) -> (HeadEnd, Option<LackKind>) {
        if axis == AxisName::A && self.has_tenon(done) { (HeadEnd::Jaws, None) } else { self.drive(done, axis) }
    }

    /// The drive centre in the mark of an axis.
    pub(super) fn drive(&self, done: usize, axis: AxisName) -> (HeadEnd, Option<LackKind>) {
        let state = self.solid.state(done);
        let face = self.piece.head_face - INTO_FACE;
        let stands = self.piece.axis(axis).and_then(|it| it.centre(face)).is_some_and(|mark| state.contains(mark));
        if stands || self.leaves_nub(done, axis) {
            (HeadEnd::DriveCentre, None)
        } else {
            (HeadEnd::Nothing, Some(LackKind::HeadMark(axis)))
        }
    }

    /// Whether a pass on this axis came down to nothing: it leaves a nub in the axis's own line.
    fn leaves_nub(&self, done: usize, axis: AxisName) -> bool {
        self.before(done).any(|work| matches!(work, Work::Pass { axis: on, to_nothing: true, .. } if on == axis))
    }

    /// A steady for work that stands far out of the jaws.
    pub(super) fn steady(&self, done: usize) -> TailEnd {
        let tenons = self.order[..done.min(self.order.len())].iter().filter(|cut| self.works[**cut] == Work::Tenon);
        let stands_out = |cut: &usize| {
            let tenon = &self.piece.revolved(*cut)?.meridian;
            Some(tenon.start() > self.overhang_times * 2.0 * tenon.least_radius())
        };
        if tenons.filter_map(stands_out).any(|far| far) { TailEnd::Steady } else { TailEnd::Nothing }
    }

    /// What bears on the tail end on an axis.
    pub(super) fn tail(&self, done: usize, name: AxisName) -> (TailEnd, Option<LackKind>) {
        let Some(axis) = self.piece.axis(name) else { return (TailEnd::Nothing, Some(LackKind::TailMark(name))) };
        let state = self.solid.state(done);
        let is_wood = |s: f64| axis.centre(s).is_some_and(|mark| state.contains(mark));
        if let Some(plug) = state.plug {
            return if is_wood(plug.body.meridian.start() + INTO_FACE) || self.leaves_nub(done, name) {
                (TailEnd::LiveCentreOnPlug, None)
            } else {
                (TailEnd::Nothing, Some(LackKind::PlugMark(name)))
            };
        }
        let face = faced(&state, axis);
        if is_wood(face + INTO_FACE) || self.leaves_nub(done, name) {
            return (TailEnd::LiveCentreOnWood, None);
        }
        match self.open_bore(done, face) {
            Some(radius) if name == AxisName::A && has_rim(&state, face, radius) => (TailEnd::Cone, None),
            Some(_) => (TailEnd::Nothing, Some(LackKind::OpenBore(name))),
            None => (TailEnd::Nothing, Some(LackKind::TailMark(name))),
        }
    }

    /// The radius on the bowl-end face of a bore about axis A that is made, in mm.
    fn open_bore(&self, done: usize, face: f64) -> Option<f64> {
        let bored = self.order[..done.min(self.order.len())].iter().filter_map(|cut| match self.works.get(*cut)? {
            Work::Bore { .. } => self.piece.revolved(*cut),
            _ => None,
        });
        let radius =
            bored.map(|bore| bore.meridian.radius_after(bore.axis.centre(face).map_or(0.0, |c| bore.axis.see(c).t)));
        radius.reduce(f64::max)
    }
}

/// The station of the bowl-end face as it is now, where an axis pierces it, in mm.
fn faced(state: &State<'_>, axis: &Axis) -> f64 {
    let planes = state.removals.iter().filter_map(|removal| match &removal.region {
        Region::HalfSpace(half) if half.into.s < 0.0 => {
            let (start, next) = (axis.centre(0.0)?.dot(half.into), axis.centre(1.0)?.dot(half.into));
            (next < start).then(|| (half.offset - start) / (next - start))
        }
        _ => None,
    });
    planes.fold(0.0, f64::max)
}

/// Whether wood stands around a bore's mouth.
fn has_rim(state: &State<'_>, face: f64, radius: f64) -> bool {
    let around =
        (0..8).map(|i| Axis::A.point(face + INTO_FACE, radius + RIM, f64::from(i) * std::f64::consts::FRAC_PI_4));
    around.into_iter().all(|point: Vector| state.contains(point))
}
