//! The first screen is built a part at a time, so that no task of the browser takes long. The frame that index.html draws
//! stands in its place until it is whole.

use gloo_timers::callback::Timeout;
use leptos::prelude::*;

use super::browser;

/// So many parts are built one by one. The rest of what a first screen may have comes with the last.
const PARTS: usize = 13;

/// A part of the first screen, in the order in which they are built.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// The row at the top.
    Top = 1,
    /// The drawings.
    Drawings,
    /// The figures that matter.
    Figures,
    /// The row of groups.
    Groups,
    /// The panel, without its values.
    Panel,
    /// The row of rooms.
    Rooms,
}

/// How much of the first screen is built.
#[derive(Clone, Copy, Debug)]
pub struct Mounting {
    parts: RwSignal<usize>,
}

impl Mounting {
    /// Begins; `when_whole` runs once all of it is on screen.
    pub fn begin(when_whole: impl FnOnce() + 'static) -> Self {
        let it = Self { parts: RwSignal::new(0) };
        it.go_on(when_whole);
        it
    }

    fn go_on(self, when_whole: impl FnOnce() + 'static) {
        let build = move || {
            self.parts.update(|parts| *parts += 1);
            if self.parts.get_untracked() < PARTS {
                return self.go_on(when_whole);
            }
            take_frame_away();
            when_whole();
        };
        Timeout::new(0, build).forget();
    }

    /// Whether it is whole.
    pub fn is_whole(self) -> bool {
        self.parts.get() >= PARTS
    }

    /// So many sections of the panel are built, and so many value rows of each.
    pub fn rows(self) -> usize {
        match self.parts.get() {
            PARTS.. => usize::MAX,
            parts => parts.saturating_sub(Part::Rooms as usize),
        }
    }

    /// A part of the screen, once it is its turn.
    pub fn when(self, part: Part, view: impl Fn() -> AnyView + Send + 'static) -> impl IntoView {
        let is_here = Memo::new(move |_| self.parts.get() >= part as usize);
        move || is_here.get().then(|| untrack(&view))
    }
}

/// How much of the first screen is built, from any component.
pub fn mounting() -> Mounting {
    expect_context()
}

/// The frame that index.html draws has done its part.
pub fn take_frame_away() {
    if let Some(frame) = browser::document().and_then(|document| document.get_element_by_id("loading")) {
        frame.remove();
    }
}
