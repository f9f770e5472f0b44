//! The figures that take their time: worked out after each change a slice at a time, between frames, so that the drawing
//! follows the finger. One that is begun is brought to its end before the newest is begun, so that figures and checks
//! keep coming while a value is swept; but one that takes longer than a moment is begun anew by every change. Then a bar
//! says how far the work is, and it can be stopped.

use std::sync::Arc;

use gloo_timers::callback::Timeout;
use leptos::prelude::*;

use super::state::{Effort, Finished, State, state};
use crate::figures::slices::MOST_WORK;
use crate::figures::{Extent, Shape, Sliced, Whole, in_slices};
use crate::shelf::browser::now_ms;

/// Work that takes longer than this shows a bar, in milliseconds.
const LONG_MS: u64 = 1000;
/// So long the page works before it looks up, in milliseconds: a slice may take it as long again.
const TURN_MS: u64 = 8;

/// What is being worked out, and of what.
struct UnderWay {
    work: Sliced<Whole>,
    of: Arc<Shape>,
    began_ms: u64,
    /// More work than this, in units, is given up until the turner wants more.
    most: u64,
}

/// Where the work is done.
#[derive(Clone, Copy)]
struct Bench {
    state: State,
    under_way: StoredValue<Option<UnderWay>, LocalStorage>,
    /// The next turn of the work; there is never more than one.
    next: StoredValue<Option<Timeout>, LocalStorage>,
    /// A change is on its way to the screen: until it has been painted, the work waits.
    painting: StoredValue<bool>,
}

/// Works the figures out whenever the shape changes.
pub fn follow(state: State) {
    let bench = Bench {
        state,
        under_way: StoredValue::new_local(None),
        next: StoredValue::new_local(None),
        painting: StoredValue::new(false),
    };
    provide_context(bench);
    Effect::new(move |_| {
        let shaped = state.shaped.get();
        state.coming.set(shaped.is_ok());
        if state.effort.get_untracked() != Effort::Brief {
            bench.under_way.set_value(None);
            state.effort.set(Effort::Brief);
        }
        if shaped.is_err() {
            state.settled.set(None);
            state.finished.set(None);
        }
        if !bench.painting.get_value() {
            bench.painting.set_value(true);
            request_animation_frame(move || bench.painted());
        }
    });
}

impl Bench {
    fn painted(self) {
        self.painting.set_value(false);
        self.go_on_soon();
    }

    fn go_on_soon(self) {
        self.next.set_value(Some(Timeout::new(0, move || self.go_on())));
    }

    fn go_on(self) {
        if self.painting.get_value() || matches!(self.state.effort.get_untracked(), Effort::Stopped | Effort::TooBig) {
            return;
        }
        if self.under_way.with_value(Option::is_none) {
            return self.begin();
        }
        let turn_began_ms = now_ms();
        loop {
            let Some(done) = self.under_way.try_update_value(|it| Some(it.as_mut()?.work.step())).flatten() else {
                return;
            };
            if let Some(whole) = done {
                return self.finish(whole);
            }
            if now_ms() >= turn_began_ms + TURN_MS {
                break;
            }
        }
        self.show_progress();
        self.go_on_soon();
    }

    /// Begins with the newest shape, and shows that first; does nothing where there is none.
    fn begin(self) {
        let of = self.state.shaped.get_untracked();
        let (design, shop) = (self.state.made.get_untracked(), self.state.shop.get_untracked());
        let Ok(of) = of else { return };
        self.state.settled.set(Some(of.clone()));
        if matches!(of.extent, Extent::TooBig(_)) {
            return self.leave_off(Effort::TooBig);
        }
        let work = in_slices(design, shop, of.clone());
        self.under_way.set_value(Some(UnderWay { work, of, began_ms: now_ms(), most: MOST_WORK }));
        self.go_on_soon();
    }

    /// Shows a bar once the work takes long, and gives up what is too much.
    fn show_progress(self) {
        let read = |it: &UnderWay| (it.began_ms, it.work.share_done(), it.work.units() > it.most);
        let Some((began_ms, share, is_too_much)) = self.under_way.with_value(|it| it.as_ref().map(read)) else {
            return;
        };
        if is_too_much {
            return self.leave_off(Effort::Stopped);
        }
        let effort = Effort::Long((share * 100.0) as u8);
        if now_ms() >= began_ms + LONG_MS && self.state.effort.get_untracked() != effort {
            // Those on screen are of the design as it was.
            self.state.finished.set(None);
            self.state.effort.set(effort);
        }
    }

    /// No figures are known, and none are coming.
    fn leave_off(self, why: Effort) {
        self.state.finished.set(None);
        self.state.effort.set(why);
        self.state.coming.set(false);
    }

    /// Goes on with what was stopped.
    fn resume(self) {
        self.under_way.update_value(|it| {
            if let Some(it) = it {
                it.most = it.work.units() + MOST_WORK;
            }
        });
        self.state.effort.set(Effort::Long(
            self.under_way.with_value(|it| it.as_ref().map_or(0, |it| (it.work.share_done() * 100.0) as u8)),
        ));
        self.state.coming.set(true);
        self.go_on_soon();
    }

    fn finish(self, whole: Whole) {
        let Some(UnderWay { of, .. }) = self.under_way.try_update_value(Option::take).flatten() else { return };
        let newest = self.state.shaped.get_untracked();
        let Whole { design, shop, shape, worked } = whole;
        let is_newest = matches!(&newest, Ok(newest) if Arc::ptr_eq(newest, &of));
        if is_newest && of.extent != Extent::Whole {
            self.state.settled.set(Some(shape.clone()));
            self.state.whole.set(Some((of, shape)));
        }
        self.state.effort.set(Effort::Brief);
        if newest.is_ok() {
            self.state.finished.set(Some(Arc::new(Finished { design, shop, worked })));
        }
        if newest.is_ok() && !is_newest { self.go_on_soon() } else { self.state.coming.set(false) }
    }
}

/// Why no figures are known of the design; `None` while they are, or are coming.
pub fn not_worked_out(state: State) -> Option<String> {
    match state.effort.get() {
        Effort::Brief | Effort::Long(_) => None,
        Effort::Stopped => Some("The figures and checks of this design are not worked out.".to_owned()),
        Effort::TooBig => {
            let problem = state.shaped.with(|shaped| match shaped.as_deref().map(|shape| &shape.extent) {
                Ok(Extent::TooBig(problem)) => state.told(problem),
                _ => String::new(),
            });
            Some(format!("The figures and checks of this design are left out. {problem}"))
        }
    }
}

/// How far the work is once it takes long, with a way to stop it; then what is not known, with a way to go on.
#[component]
pub fn EffortBar() -> impl IntoView {
    let (state, bench) = (state(), expect_context::<Bench>());
    let stop = move |_| bench.leave_off(Effort::Stopped);
    let is_long = Memo::new(move |_| matches!(state.effort.get(), Effort::Long(_)));
    let percent = move || match state.effort.get() {
        Effort::Long(percent) => percent,
        _ => 0,
    };
    let bar = move || {
        view! {
            <div class="banner effort">
                <p id="effort-name">"Working out figures and checks: "{percent}" %"</p>
                <progress max="100" prop:value=percent aria-labelledby="effort-name"></progress>
                <button type="button" class="button" on:click=stop>"Stop"</button>
            </div>
        }
    };
    let why = Memo::new(move |_| not_worked_out(state));
    let left_off = move |why: String| {
        let go_on = (state.effort.get_untracked() == Effort::Stopped)
            .then(|| view! { <button type="button" class="button" on:click=move |_| bench.resume()>"Go on"</button> });
        view! { <div class="banner effort" role="status"><p>{why}</p>{go_on}</div> }
    };
    view! {
        {move || is_long.get().then(bar)}
        {move || why.get().map(left_off)}
    }
    .into_any()
}
