//! What the first screen can do without: keeping, the other rooms, and every view behind a tap. It is a file of its
//! own beside the program, fetched as soon as the first screen stands.
//!
//! This module is all that the first screen knows of it. [`views`] is the way in on the other side: whatever is reached
//! only from there is in the later file.

pub mod fetching;
mod meanwhile;
mod updated;
mod views;

use std::pin::Pin;

use gloo_timers::callback::Timeout;
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::keeping::Start;
use super::state::{Panel, Room, State, Tab, state};
use crate::form::SectionKey;
use crate::shelf::DesignId;

use meanwhile::Meanwhile;

/// How long the first screen has to itself before the later part is fetched, in milliseconds.
const FIRST_SCREEN_MS: u32 = 100;

/// How long the later part may take before the page says that it has not come, in milliseconds. A slow network may need
/// longer: the page then carries on as soon as the part is here.
const PATIENCE_MS: u32 = 12_000;

/// A view of the later part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum View {
    /// What was not kept, and why.
    Trouble,
    /// A room other than the design.
    Room(Room),
    /// A panel of the design other than its values.
    Panel(Panel),
    /// Checks and marks beside the design, on a wide screen.
    Side,
    /// A drawing other than the side view.
    Drawing(Tab),
    /// What kind of piece it is, what it is for, and what does not follow.
    WholePiece,
    /// The lists to pick from under a heading of the pattern.
    ChoiceLists(&'static str),
    /// That what is under a heading does not follow the pattern.
    OwnMark(SectionKey),
    /// Wood and use.
    WoodChoices,
    /// The blank's shape, and what the wood comes to.
    Blank,
    /// Whether the moisture in use is given itself, or by the air.
    UseChoice,
    /// The profile of a pass: the proposed join, or drawn by hand.
    PassProfile(usize),
    /// The nodes of a hollow's profile.
    Nodes(usize),
    /// Whether a plug has a tenon of its own.
    PlugTenon(usize),
    /// The line of a saw cut.
    SawLine(usize),
    /// What to mind when the piece spins on a second axis.
    SecondAxis,
    /// What is laid out for the printer.
    PrintPages,
}

/// Ends with the names of the texts that have come back.
pub type Recovering = Pin<Box<dyn Future<Output = Vec<String>>>>;

/// Ends with the later part; with nothing when it could not be fetched.
pub type Fetching = Pin<Box<dyn Future<Output = Option<Later>>>>;

/// What the later part does.
#[derive(Clone, Copy)]
pub struct Later {
    /// Brings back what the browser's storage has lost; to be waited for before anything is read.
    pub recover: fn() -> Recovering,
    /// What was open last.
    pub recall: fn() -> Start,
    /// Starts keeping: the design, the choices of the screen, and a copy of the page. Takes what was recalled, and the names
    /// of the texts that were brought back.
    pub begin: fn(Option<Start>, &[String]),
    /// Works beside the page, in a worker.
    pub work_beside: fn(),
    /// Shows one of its views.
    pub show: fn(View) -> AnyView,
}

/// How far the later part has come.
#[derive(Clone, Copy)]
pub enum Arrival {
    /// It is on its way, or will be in a moment.
    Coming,
    /// It is here.
    Here(Later),
    /// It could not be fetched.
    Missing,
}

/// The later part, from any component.
#[derive(Clone, Copy)]
pub struct LaterPart {
    arrival: RwSignal<Arrival>,
    /// Fetches it.
    fetch: fn() -> Fetching,
    /// What was saved without it.
    meanwhile: RwSignal<Meanwhile>,
    /// Whether it has begun, and saves from now on.
    has_begun: StoredValue<bool>,
    /// The owner of what lives as long as the page.
    root: StoredValue<Option<Owner>>,
}

impl LaterPart {
    /// Not fetched yet. Only the root of the page names what fetches it, because that leads to every view.
    pub fn new(fetch: fn() -> Fetching) -> Self {
        Self {
            arrival: RwSignal::new(Arrival::Coming),
            fetch,
            meanwhile: RwSignal::new(Meanwhile::default()),
            has_begun: StoredValue::new(false),
            root: StoredValue::new(None),
        }
    }

    /// How far it has come.
    pub fn arrival(self) -> Arrival {
        self.arrival.get()
    }

    /// Fetches it, once the first screen stands.
    pub fn fetch_soon(self) {
        Timeout::new(FIRST_SCREEN_MS, move || self.fetch()).forget();
    }

    /// Fetches it now, or again when it could not be fetched.
    pub fn fetch(self) {
        self.arrival.set(Arrival::Coming);
        Timeout::new(PATIENCE_MS, move || self.lose_patience()).forget();
        spawn_local(async move {
            let Some(later) = (self.fetch)().await else {
                self.arrival.set(Arrival::Missing);
                if !self.has_changes() || self.kept_meanwhile().is_some() {
                    updated::follow_host().await;
                }
                return;
            };
            let recovered = (later.recover)().await;
            self.if_open(|| (later.begin)(None, &recovered));
            self.has_begun.set_value(true);
            // Its views are built in a task of their own: a slow phone answers in between.
            Timeout::new(0, move || self.arrival.set(Arrival::Here(later))).forget();
        });
    }

    fn lose_patience(self) {
        if matches!(self.arrival.get_untracked(), Arrival::Coming) {
            self.arrival.set(Arrival::Missing);
        }
    }

    /// The page is open: what begins now belongs to the owner that runs this.
    pub fn opened(self) {
        self.root.set_value(Owner::current());
    }

    /// Saves every change of the design until the later part is here.
    pub fn keep_meanwhile(self, state: State) {
        Effect::new(move |_| {
            if matches!(self.arrival(), Arrival::Here(_)) || self.has_begun.get_value() || !state.can_undo() {
                return;
            }
            let before = self.meanwhile.get_untracked();
            self.meanwhile.set(state.design.with(|design| meanwhile::saved(design, before)));
        });
    }

    /// The entry in which the design on the bench was saved without the later part.
    pub fn kept_meanwhile(self) -> Option<DesignId> {
        match self.meanwhile.get_untracked() {
            Meanwhile::Kept { id, .. } => Some(id),
            Meanwhile::Unchanged | Meanwhile::NotKept => None,
        }
    }

    /// Whether something was changed on the page that only the later part could save.
    fn has_changes(self) -> bool {
        let changed = || use_context::<State>().is_some_and(|state| untrack(|| state.can_undo()));
        self.root.get_value().is_some_and(|owner| owner.with(changed))
    }

    fn if_open(self, begin: impl FnOnce()) {
        if let Some(owner) = self.root.get_value() {
            owner.with(begin);
        }
    }

    /// What there is one of for the whole page: made when it is first asked for.
    pub fn only<T: Clone + Send + Sync + 'static>(self, make: impl FnOnce() -> T) -> Option<T> {
        let make = || {
            use_context::<T>().unwrap_or_else(|| {
                let made = make();
                provide_context(made.clone());
                made
            })
        };
        self.root.get_value().map(|owner| owner.with(make))
    }
}

/// The later part, from any component.
pub fn later_part() -> LaterPart {
    expect_context()
}

/// A view of the later part; a line that says so while it is coming.
pub fn later(view: View) -> AnyView {
    once_here(view, |coming| match coming {
        true => view! { <p class="hint" role="status">"Fetching the rest of Skewline\u{2026}"</p> }.into_any(),
        false => view! { <p class="hint">"This could not be fetched yet."</p> }.into_any(),
    })
}

/// As [`later`], for what is one of many on screen: nothing is shown while it is coming.
pub fn quietly_later(view: View) -> AnyView {
    once_here(view, |_| ().into_any())
}

/// A view of the later part; until it is here, what `meanwhile` makes of whether it is coming.
fn once_here(view: View, meanwhile: fn(bool) -> AnyView) -> AnyView {
    let part = later_part();
    (move || match part.arrival() {
        Arrival::Here(later) => (later.show)(view),
        Arrival::Coming => meanwhile(true),
        Arrival::Missing => meanwhile(false),
    })
    .into_any()
}

/// Says that the later part could not be fetched, and fetches it again. What is on the bench can be saved to a file.
#[component]
pub fn FetchAgain() -> impl IntoView {
    let (part, state) = (later_part(), state());
    let not_kept = move || part.meanwhile.with(|meanwhile| *meanwhile == Meanwhile::NotKept);
    let words = move || match not_kept() {
        true => "This browser does not keep what you change: save it to a file before you close the page.",
        false => "What you change here is kept on this device all the same.",
    };
    let address = move || state.design.with(meanwhile::address);
    // The whole page again, by the plain script of index.html, unless that would lose something.
    let again = move |_| {
        if untrack(not_kept) {
            part.fetch();
        }
    };
    view! {
        <div class="banner" role="alert">
            <p>"A part of Skewline could not be fetched. "{words}" Look whether there is a network, then try again."</p>
            <button type="button" class="button" data-try-again=move || (!not_kept()).then_some("") on:click=again>
                "Try again"
            </button>
            <a class="button quiet" download="skewline-design.json" href=address>"Save the design to a file"</a>
        </div>
    }
    .into_any()
}

/// As [`FetchAgain`], where what is kept cannot be opened. Plain script in index.html saves it to a file.
#[component]
pub fn FetchToOpen() -> impl IntoView {
    view! {
        <div class="banner" role="alert">
            <p>"A part of Skewline could not be fetched. What you have kept is safe, and cannot be opened without it. Look
            whether there is a network, then try again."</p>
            <button type="button" class="button" data-try-again="">"Try again"</button>
            <button type="button" class="button quiet" data-save-everything="">"Save everything kept here to a file"</button>
        </div>
    }
    .into_any()
}
