//! Long work in slices, and how much work was done.
//!
//! A figure that may take long is an `async` function that calls [`Pace::pause`] between its items. Each poll of it does
//! one slice of work, so that a page can draw and answer between two polls. [`at_once`] runs such a function to its end.
//!
//! Work is counted, not timed: a piece of a profile that a question visits, or a cut that it asks, is one unit. The same
//! design always takes the same work, on every machine.

use std::cell::Cell;
use std::future::{Future, poll_fn};
use std::pin::pin;
use std::task::{Context, Poll, Waker};

thread_local! {
    static SPENT: Cell<u64> = const { Cell::new(0) };
}

/// Counts work that was done on this thread, in units.
pub(crate) fn spend(units: usize) {
    SPENT.with(|spent| spent.set(spent.get().wrapping_add(units as u64)));
}

/// The work done on this thread so far, in units.
#[must_use]
pub fn spent() -> u64 {
    SPENT.with(Cell::get)
}

/// How much work is done between two pauses.
#[derive(Debug)]
pub struct Pace {
    slice: u64,
    /// What was spent when the slice began.
    began: Cell<u64>,
    /// The share of the work that is done before the present part, and that is done with it.
    part: Cell<(f64, f64)>,
    share_done: Cell<f64>,
}

impl Pace {
    /// Without pauses.
    #[must_use]
    pub fn unbroken() -> Self {
        Self::in_slices(u64::MAX)
    }

    /// A pause after so many units of work, or as soon after them as an item ends.
    #[must_use]
    pub fn in_slices(units: u64) -> Self {
        Self { slice: units, began: Cell::new(spent()), part: Cell::new((0.0, 1.0)), share_done: Cell::new(0.0) }
    }

    /// Whether it never pauses.
    #[must_use]
    pub fn is_unbroken(&self) -> bool {
        self.slice == u64::MAX
    }

    /// The next of so many parts of the work, counted from 0, begins.
    pub fn begin_part(&self, number: u32, parts: u32) {
        let share = |number: u32| f64::from(number) / f64::from(parts);
        self.part.set((share(number), share(number + 1)));
        self.tell(0, 1);
    }

    /// So many of the items of the present part are done.
    pub fn tell(&self, done: usize, items: usize) {
        let (from, to) = self.part.get();
        let share = from + (to - from) * done as f64 / items.max(1) as f64;
        self.share_done.set(self.share_done.get().max(share.min(1.0)));
    }

    /// How much of the work is done, from 0 to 1. It only rises.
    #[must_use]
    pub fn share_done(&self) -> f64 {
        self.share_done.get()
    }

    /// Ends the slice if it has done its work.
    pub async fn pause(&self) {
        if spent().wrapping_sub(self.began.get()) >= self.slice {
            self.end_slice().await;
        }
    }

    /// Ends the slice.
    pub async fn end_slice(&self) {
        let mut paused = false;
        poll_fn(|_| if std::mem::replace(&mut paused, true) { Poll::Ready(()) } else { Poll::Pending }).await;
        self.began.set(spent());
    }
}

/// Runs paced work to its end.
pub fn at_once<T>(work: impl Future<Output = T>) -> T {
    let mut work = pin!(work);
    loop {
        if let Poll::Ready(done) = poll_once(work.as_mut()) {
            return done;
        }
    }
}

/// Runs paced work for one slice.
pub fn poll_once<T>(work: std::pin::Pin<&mut (impl Future<Output = T> + ?Sized)>) -> Poll<T> {
    work.poll(&mut Context::from_waker(Waker::noop()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn work_pauses_once_a_slice_is_done() {
        let pace = Pace::in_slices(10);
        let mut work = Box::pin(async {
            for _ in 0..10 {
                spend(4);
                pace.pause().await;
            }
        });
        let mut slices = 1;
        while poll_once(work.as_mut()).is_pending() {
            slices += 1;
        }
        // A pause after 12, 24 and 36 units; the last 4 end it.
        assert_eq!(slices, 4);
    }
}
