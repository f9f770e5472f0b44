//! Long work of a page, a slice at a time.

use std::future::Future;
use std::pin::Pin;
use std::rc::Rc;
use std::sync::Arc;
use std::task::Poll;

use super::parts::Parts;
use super::report::Worked;
use super::shape::Shape;
use super::slow::Slow;
use super::work_out::sound_piece_in_slices;
use crate::design::{Design, Shop};
use crate::geometry::line::pace::{Pace, poll_once, spent};

/// The work of one slice, in [units](crate::geometry::Pace): a millisecond or so natively, ten on a slow phone.
pub const SLICE: u64 = 50_000;
/// More work than this, in units, is given up: minutes natively.
pub const MOST_WORK: u64 = 6_000_000_000;

/// Work that is done a slice at a time, so that a screen stays free between the slices.
pub struct Sliced<T> {
    work: Pin<Box<dyn Future<Output = T>>>,
    pace: Rc<Pace>,
    units: u64,
}

impl<T> Sliced<T> {
    /// The work that `begin` makes with a pace; nothing is done yet.
    #[must_use]
    pub fn new<F: Future<Output = T> + 'static>(begin: impl FnOnce(Rc<Pace>) -> F) -> Self {
        let pace = Rc::new(Pace::in_slices(SLICE));
        Self { work: Box::pin(begin(pace.clone())), pace, units: 0 }
    }

    /// Does one slice; what the work comes to, once it is done. It must not be asked again after that.
    pub fn step(&mut self) -> Option<T> {
        let before = spent();
        let done = poll_once(self.work.as_mut());
        self.units += spent().wrapping_sub(before);
        match done {
            Poll::Ready(done) => Some(done),
            Poll::Pending => None,
        }
    }

    /// How much of the work is done, from 0 to 1. It only rises.
    #[must_use]
    pub fn share_done(&self) -> f64 {
        self.pace.share_done()
    }

    /// The work done so far, in units.
    #[must_use]
    pub fn units(&self) -> u64 {
        self.units
    }
}

/// A design with all that is worked out of it.
pub struct Whole {
    /// The design.
    pub design: Design,
    /// The shop.
    pub shop: Shop,
    /// Its shape, walls and all.
    pub shape: Arc<Shape>,
    /// Its figures and checks.
    pub worked: Worked,
}

/// Every figure of a design, of which nothing but the shape is worked out yet; it must be that of this design in this shop.
#[must_use]
pub fn in_slices(design: Design, shop: Shop, shape: Arc<Shape>) -> Sliced<Whole> {
    Sliced::new(async move |pace| {
        let parts = Parts::of(design, shop, shape.piece.clone()).in_slices(shape, &pace).await;
        pace.end_slice().await;
        finish(parts)
    })
}

/// The slow figures of a design, from its shape as far as it is known: that must be of this design in this shop. `None`
/// where there is neither a shape nor a sound design.
#[must_use]
pub fn slow_in_slices(design: Design, shop: Shop, begun: Option<Arc<Shape>>) -> Sliced<Option<Slow>> {
    Sliced::new(async move |pace| {
        let begun = match begun {
            Some(begun) => begun,
            None => {
                let piece = sound_piece_in_slices(&design, &shop, &pace).await.ok()?;
                Arc::new(Shape::without_walls(&design, &shop, Arc::new(piece)))
            }
        };
        Parts::of(design, shop, begun.piece.clone()).in_slices(begun, &pace).await.into_slow()
    })
}

/// Every figure of a design, from its slow ones, and its shape as far as it is known. All must be of this design in this
/// shop.
#[must_use]
pub fn whole_in_slices(design: Design, shop: Shop, begun: Arc<Shape>, mut slow: Slow) -> Sliced<Whole> {
    Sliced::new(async move |pace| {
        let shape = match slow.shape.take() {
            Some(shape) => shape,
            None => begun.walled_as(std::mem::take(&mut slow.walls), &design, &shop, &pace).await,
        };
        pace.end_slice().await;
        finish(Parts::of(design, shop, shape.piece.clone()).with(slow, shape))
    })
}

fn finish(parts: Parts) -> Whole {
    let shape = parts.shape_shared();
    let (design, shop, worked) = parts.finish();
    Whole { design, shop, shape, worked }
}
