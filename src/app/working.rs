//! The figures that take their time: worked out after each change beside the page, so that the drawing follows the finger.
//! One that is begun is brought to its end before the newest is begun, so that figures and checks keep coming while a
//! value is swept; but one that takes longer than a moment is begun anew by every change. Then a bar says how far the work
//! is, and it can be stopped.

use std::sync::Arc;

use gloo_timers::callback::Timeout;
use leptos::prelude::*;

use super::beside::{Begun, Beside, beside};
use super::state::{Effort, Finished, State, state};
use crate::beside::{Part, Work};
use crate::design::{Design, Shop};
use crate::figures::slices::MOST_WORK;
use crate::figures::{Extent, Shape, Sliced, Slow, Whole, whole_in_slices};
use crate::shelf::browser::now_ms;

/// Work that takes longer than this shows a bar, in milliseconds.
const LONG_MS: u64 = 1000;

/// What is being worked out, and of what.
struct UnderWay {
    design: Design,
    shop: Shop,
    of: Arc<Shape>,
    stage: Stage,
    began_ms: u64,
    /// How far it is, in percent.
    percent: u8,
    /// The work done so far, in units.
    units: u64,
    /// More work than this, in units, is given up until the turner wants more.
    most: u64,
}

/// How far it has come.
enum Stage {
    /// The slow figures are worked out.
    Slow(Begun),
    /// The same, on the page after all: what was to do it beside the page has failed.
    SlowOnPage(Begun),
    /// What follows from them is.
    Rest(Sliced<Whole>),
}

/// Where the work is done.
#[derive(Clone, Copy)]
struct Bench {
    state: State,
    beside: Beside,
    under_way: StoredValue<Option<UnderWay>, LocalStorage>,
    /// The next turn of the page's own work; there is never more than one.
    next: StoredValue<Option<Timeout>, LocalStorage>,
    /// A change is on its way to the screen: until it has been painted, the work waits.
    painting: StoredValue<bool>,
}

/// Works the figures out whenever the shape changes.
pub fn follow(state: State) {
    let bench = Bench {
        state,
        beside: beside(),
        under_way: StoredValue::new_local(None),
        next: StoredValue::new_local(None),
        painting: StoredValue::new(false),
    };
    provide_context(bench);
    Effect::new(move |_| {
        let shaped = state.shaped.get();
        state.coming.set(shaped.is_ok());
        if state.effort.get_untracked() != Effort::Brief {
            bench.drop_work();
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
        // One slice a turn: the next frame comes first.
        let step = |it: &mut Option<UnderWay>| match &mut it.as_mut()?.stage {
            Stage::Rest(work) => Some(work.step()),
            Stage::Slow(_) | Stage::SlowOnPage(_) => None,
        };
        match self.under_way.try_update_value(step).flatten() {
            Some(Some(whole)) => self.finish(whole),
            Some(None) => self.go_on_soon(),
            None => {}
        }
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
        let work = Work::Figures { design: design.clone(), shop: shop.clone(), begun: Some(of.clone()) };
        let stage = Stage::Slow(self.beside.begin(work, move |part| self.hear(part)));
        let began_ms = now_ms();
        self.under_way.set_value(Some(UnderWay {
            design,
            shop,
            of,
            stage,
            began_ms,
            percent: 0,
            units: 0,
            most: MOST_WORK,
        }));
    }

    fn hear(self, part: Part) {
        match part {
            Part::Progress { percent, units } => self.show_progress(percent, units),
            Part::Figures(Some(slow)) => self.go_on_with(*slow),
            Part::Done => self.begin_again_on_page(),
            _ => {}
        }
    }

    /// What follows from the slow figures is worked out on the page.
    fn go_on_with(self, slow: Slow) {
        self.under_way.update_value(|it| {
            if let Some(it) = it {
                it.stage = Stage::Rest(whole_in_slices(it.design.clone(), it.shop.clone(), it.of.clone(), slow));
            }
        });
        self.go_on_soon();
    }

    /// Where the work ended without an answer, the page does it itself; where the page did, none is known.
    fn begin_again_on_page(self) {
        let failed = self.under_way.try_update_value(|it| {
            let it = it.as_mut()?;
            match it.stage {
                Stage::Rest(_) => None,
                Stage::SlowOnPage(_) => Some(false),
                Stage::Slow(_) => {
                    let (design, shop, begun) = (it.design.clone(), it.shop.clone(), Some(it.of.clone()));
                    let work = Work::Figures { design, shop, begun };
                    it.stage = Stage::SlowOnPage(self.beside.begin_on_page(work, move |part| self.hear(part)));
                    Some(true)
                }
            }
        });
        if failed.flatten() == Some(false) {
            self.under_way.set_value(None);
            self.leave_off(Effort::Stopped);
        }
    }

    /// Shows a bar once the work takes long, and gives up what is too much.
    fn show_progress(self, percent: u8, units: u64) {
        let noted = self.under_way.try_update_value(|it| {
            let it = it.as_mut()?;
            (it.percent, it.units) = (percent, units);
            Some((it.began_ms, units > it.most))
        });
        let Some((began_ms, is_too_much)) = noted.flatten() else { return };
        if is_too_much {
            return self.leave_off(Effort::Stopped);
        }
        if now_ms() >= began_ms + LONG_MS && self.state.effort.get_untracked() != Effort::Stopped {
            // Long work is the worker's, even where nothing else has asked for one yet.
            self.beside.start_worker();
            // Those on screen are of the design as it was.
            self.state.finished.set(None);
            self.state.effort.set(Effort::Long(percent));
        }
    }

    /// No figures are known, and none are coming.
    fn leave_off(self, why: Effort) {
        self.rest(true);
        self.state.finished.set(None);
        self.state.effort.set(why);
        self.state.coming.set(false);
    }

    /// Goes on with what was stopped.
    fn resume(self) {
        self.state.coming.set(true);
        let percent = self.under_way.try_update_value(|it| {
            let it = it.as_mut()?;
            it.most = it.units + MOST_WORK;
            Some(it.percent)
        });
        self.state.effort.set(percent.flatten().map_or(Effort::Brief, Effort::Long));
        self.rest(false);
        self.go_on_soon();
    }

    fn rest(self, is_resting: bool) {
        if let Some(begun) = self.begun() {
            self.beside.rest(begun, is_resting);
        }
    }

    fn drop_work(self) {
        if let Some(begun) = self.begun() {
            self.beside.drop(begun);
        }
        self.under_way.set_value(None);
    }

    /// The work that is not done on this bench.
    fn begun(self) -> Option<Begun> {
        self.under_way.with_value(|it| match it.as_ref()?.stage {
            Stage::Slow(begun) | Stage::SlowOnPage(begun) => Some(begun),
            Stage::Rest(_) => None,
        })
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
