//! The page's side of the work that is done beside it: begins it, hears of it, and drops it. One worker for all; where the
//! browser lets none begin, the page does the work itself, a little at a time.

pub mod worker;

use std::cell::Cell;
use std::collections::BTreeMap;
use std::rc::Rc;

use gloo_timers::callback::Timeout;
use leptos::ev;
use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::*;
use web_sys::{MessageEvent, Worker};

use crate::beside::{Order, Part, Report, Work, do_work};
use crate::shelf::browser::{moment, now_ms, pause_for};

/// A worker that is not ready after so long, in milliseconds, is not waited for: a slow network may still be fetching it.
const PATIENCE_MS: u32 = 20_000;
/// So long the page works before it looks up, in milliseconds: a slice may take it as long again.
const TURN_MS: u64 = 4;
/// How often work that rests looks whether it may go on, in milliseconds.
const REST_MS: i32 = 100;

/// Who hears what comes of a work.
type Hears = Rc<dyn Fn(Part)>;

/// What does the work.
#[derive(Default)]
enum Hand {
    /// Nothing yet: nothing was asked.
    #[default]
    None,
    /// A worker that is not ready.
    Starting(Started),
    /// A worker.
    Worker(Started),
    /// The page itself.
    Page,
}

/// A worker, and what listens to it.
struct Started {
    worker: Worker,
    _hears: Closure<dyn FnMut(MessageEvent)>,
    _fails: Closure<dyn FnMut(ev::ErrorEvent)>,
}

impl Drop for Started {
    fn drop(&mut self) {
        self.worker.set_onmessage(None);
        self.worker.set_onerror(None);
        self.worker.terminate();
    }
}

/// A work that is under way.
#[derive(Clone)]
struct UnderWay {
    work: Work,
    hears: Hears,
    /// Whether the page does it.
    by_page: bool,
    /// Whether it is left for now.
    is_resting: bool,
}

/// Work beside the page, from any component.
#[derive(Clone, Copy, Debug)]
pub struct Beside {
    hand: StoredValue<Hand, LocalStorage>,
    under_way: StoredValue<BTreeMap<u32, UnderWay>, LocalStorage>,
    last: StoredValue<u32>,
    /// Whether the page has to do the work itself.
    is_on_page: RwSignal<bool>,
}

/// A work that was begun. It is dropped by name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Begun(u32);

impl Beside {
    /// Nothing is asked yet, and nothing started.
    pub fn new() -> Self {
        Self {
            hand: StoredValue::new_local(Hand::None),
            under_way: StoredValue::new_local(BTreeMap::new()),
            last: StoredValue::new(0),
            is_on_page: RwSignal::new(false),
        }
    }

    /// Whether the page has to do the work itself, because the browser let no worker begin.
    pub fn is_on_page(self) -> bool {
        self.is_on_page.get()
    }

    /// Begins a work; `hears` is told each part of what comes of it, until it is done or dropped. Until the worker is
    /// ready, the page does what is urgent.
    pub fn begin(self, work: Work, hears: impl Fn(Part) + 'static) -> Begun {
        if !work.is_urgent() {
            self.start_worker();
        }
        let by_page = self.hand.with_value(|hand| match hand {
            Hand::Page => true,
            Hand::Worker(_) => false,
            Hand::None | Hand::Starting(_) => work.is_urgent(),
        });
        self.begin_by(by_page, work, hears)
    }

    /// As [`begin`](Self::begin), on the page in any case.
    pub fn begin_on_page(self, work: Work, hears: impl Fn(Part) + 'static) -> Begun {
        self.begin_by(true, work, hears)
    }

    fn begin_by(self, by_page: bool, work: Work, hears: impl Fn(Part) + 'static) -> Begun {
        let number = self.last.get_value().wrapping_add(1);
        self.last.set_value(number);
        let under_way = UnderWay { work, hears: Rc::new(hears), by_page, is_resting: false };
        self.under_way.update_value(|all| {
            all.insert(number, under_way.clone());
        });
        self.hand_out(number, under_way);
        Begun(number)
    }

    /// Gives a work to whichever is to do it; a worker that is starting is given it when it is ready.
    fn hand_out(self, number: u32, UnderWay { work, by_page, is_resting, .. }: UnderWay) {
        if by_page {
            return self.work_on_page(number, work);
        }
        self.tell_worker(|| Order::Begin { number, work: Box::new(work) });
        if is_resting {
            self.tell_worker(|| Order::Rest { number, is_resting });
        }
    }

    /// Leaves a work for now, or goes on with it.
    pub fn rest(self, Begun(number): Begun, is_resting: bool) {
        let by_page = self.under_way.try_update_value(|all| {
            let it = all.get_mut(&number)?;
            it.is_resting = is_resting;
            Some(it.by_page)
        });
        if by_page.flatten() == Some(false) {
            self.tell_worker(|| Order::Rest { number, is_resting });
        }
    }

    /// Starts the worker, where none was asked for yet.
    pub fn start_worker(self) {
        if self.hand.with_value(|hand| matches!(hand, Hand::None)) {
            self.start();
        }
    }

    fn tell_worker(self, order: impl FnOnce() -> Order) {
        self.hand.with_value(|hand| {
            if let Hand::Worker(started) = hand {
                send(&started.worker, &order());
            }
        });
    }

    /// The work is no longer wanted: nothing more is heard of it.
    pub fn drop(self, Begun(number): Begun) {
        let was = self.under_way.try_update_value(|all| all.remove(&number)).flatten();
        if was.is_some_and(|it| !it.by_page) {
            self.tell_worker(|| Order::Drop { number });
        }
    }

    /// Whether a work that the page is to go on with is left for now; `None` for others.
    fn rests_on_page(self, number: u32) -> Option<bool> {
        let state = |it: &UnderWay| it.by_page.then_some(it.is_resting);
        self.under_way.try_with_value(|all| all.get(&number).and_then(state)).flatten()
    }

    /// Starts the worker, or leaves the work to the page.
    fn start(self) {
        let hears = Closure::<dyn FnMut(MessageEvent)>::new(move |event: MessageEvent| self.hear(&event));
        let fails = Closure::<dyn FnMut(ev::ErrorEvent)>::new(move |event: ev::ErrorEvent| {
            // It is dealt with here.
            event.prevent_default();
            self.failed();
        });
        let Some(worker) = worker::start() else { return self.leave_to_page() };
        worker.set_onmessage(Some(hears.as_ref().unchecked_ref()));
        worker.set_onerror(Some(fails.as_ref().unchecked_ref()));
        self.hand.set_value(Hand::Starting(Started { worker, _hears: hears, _fails: fails }));
        let lose_patience = move || {
            if self.hand.try_with_value(|hand| matches!(hand, Hand::Starting(_))).unwrap_or_default() {
                self.leave_to_page();
            }
        };
        Timeout::new(PATIENCE_MS, lose_patience).forget();
    }

    fn hear(self, event: &MessageEvent) {
        match worker::read(&event.data()) {
            Some(Report::Ready) => self.ready(),
            Some(Report::Of { number, part }) => self.tell(number, part),
            // A worker of another build of the page: its work is not understood.
            None => self.failed(),
        }
    }

    fn ready(self) {
        let is_new = self.hand.try_update_value(|hand| match std::mem::take(hand) {
            Hand::Starting(started) => {
                *hand = Hand::Worker(started);
                true
            }
            other => {
                *hand = other;
                false
            }
        });
        if !is_new.unwrap_or_default() {
            return;
        }
        // What the page began meanwhile is handed over too: the worker begins it anew.
        self.under_way.update_value(|all| all.values_mut().for_each(|it| it.by_page = false));
        for (number, under_way) in self.under_way.with_value(Clone::clone) {
            self.hand_out(number, under_way);
        }
    }

    fn tell(self, number: u32, part: Part) {
        let heard = self.under_way.try_update_value(|all| match part {
            Part::Done => all.remove(&number),
            _ => all.get(&number).cloned(),
        });
        if let Some(UnderWay { hears, .. }) = heard.flatten() {
            hears(part);
        }
    }

    /// A worker that could not begin leaves the work to the page. One that broke down at its work is started anew when it is
    /// next asked, and what it was doing is given up: the page would break down over it as well.
    fn failed(self) {
        if self.hand.with_value(|hand| matches!(hand, Hand::Starting(_))) {
            return self.leave_to_page();
        }
        self.hand.set_value(Hand::None);
        let given_up = self.under_way.try_update_value(std::mem::take).unwrap_or_default();
        for UnderWay { hears, .. } in given_up.into_values() {
            hears(Part::Done);
        }
    }

    fn leave_to_page(self) {
        self.hand.set_value(Hand::Page);
        self.is_on_page.set(true);
        let mut waiting = self.under_way.with_value(Clone::clone);
        waiting.retain(|_, it| !it.by_page);
        self.under_way.update_value(|all| all.values_mut().for_each(|it| it.by_page = true));
        for (number, under_way) in waiting {
            self.hand_out(number, UnderWay { by_page: true, ..under_way });
        }
    }

    fn work_on_page(self, number: u32, work: Work) {
        spawn_local(async move {
            let turn_began_ms = Cell::new(0);
            let breathe = async || {
                if now_ms() >= turn_began_ms.get() + TURN_MS {
                    moment().await;
                    while self.rests_on_page(number) == Some(true) {
                        pause_for(REST_MS).await;
                    }
                    turn_began_ms.set(now_ms());
                }
                self.rests_on_page(number).is_some()
            };
            if breathe().await {
                do_work(work, |part| self.tell(number, part), breathe).await;
            }
        });
    }
}

/// A worker that is gone hears nothing, and its end is told by its error.
fn send(worker: &Worker, order: &Order) {
    if let Ok(text) = serde_json::to_string(order) {
        let _ = worker.post_message(&JsValue::from_str(&text));
    }
}

/// Work beside the page, from any component.
pub fn beside() -> Beside {
    expect_context()
}
