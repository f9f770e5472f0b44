//! The pages that are laid out for the printer, and what is known of the printers.

use gloo_timers::callback::Timeout;
use leptos::prelude::*;

use crate::app::browser;
use crate::app::later::later_part;
use crate::app::notice::Notice;
use crate::app::state::{State, state};
use crate::design::Printers;
use crate::drawings::templates::{Paper, PrintScale};
use crate::shelf::Shelf;
use crate::shelf::browser::events::{Change, on_change_elsewhere};
use crate::shelf::browser::{BrowserStore, now_ms};

/// How long the pages take to be ready for the printer, in milliseconds.
const READY_MS: u32 = 400;

/// The pages that are laid out for the printer.
#[derive(Clone, Copy)]
pub struct Printing {
    pages: RwSignal<Vec<String>>,
    /// The printers that are known, and which of them is used.
    pub printers: RwSignal<Printers>,
}

impl Printing {
    /// Nothing laid out yet.
    pub fn new() -> Self {
        let state = state();
        let printers = RwSignal::new(recalled());
        Effect::new(move |first: Option<()>| {
            printers.track();
            if first.is_some() {
                printers.with_untracked(|printers| keep(state, printers));
            }
        });
        let printing = Self { pages: RwSignal::new(Vec::new()), printers };
        // Kept as they are here, they would overwrite what another tab has measured.
        let elsewhere = StoredValue::new_local(on_change_elsewhere(move |change| {
            if change == Change::Printers {
                printing.recall();
            }
        }));
        on_cleanup(move || elsewhere.dispose());
        printing
    }

    /// Takes the printers as they are kept now: a backup or another tab has brought some in.
    pub fn recall(self) {
        let now = recalled();
        if self.printers.with_untracked(|here| *here != now) {
            self.printers.set(now);
        }
    }

    /// The paper that is chosen.
    pub fn paper(self) -> Paper {
        self.printers.with(|it| if it.letter { Paper::Letter } else { Paper::A4 })
    }

    /// What the chosen printer needs; a printer that is not known keeps its scale.
    pub fn scale(self) -> PrintScale {
        self.printers.with(|it| {
            let known = it.named(&it.name);
            known.and_then(|it| PrintScale::measured(it.across_mm, it.along_mm).ok()).unwrap_or_default()
        })
    }

    /// Lays pages out and opens the browser's own print dialog.
    pub fn print(self, pages: Vec<String>) {
        self.pages.set(pages);
        Timeout::new(READY_MS, || {
            // A browser without a print dialog shows the pages to no one; nothing is lost.
            let _ = browser::window().map(|window| window.print());
        })
        .forget();
    }
}

/// The printers that are kept; none where the storage cannot be read, and then the check lines are measured again.
fn recalled() -> Printers {
    Shelf::new(BrowserStore).printers().unwrap_or_default()
}

/// Keeps the printers. What cannot be kept holds for this visit, and is said.
fn keep(state: State, printers: &Printers) {
    if let Err(error) = Shelf::new(BrowserStore).save_printers(printers, now_ms()) {
        let why = error.told(untrack(|| state.units()));
        state.notices.say(Notice::lasting(format!("Paper and printer are only known until the page is closed. {why}")));
    }
}

/// What is laid out, from any component.
pub fn printing() -> Printing {
    later_part().only(Printing::new).unwrap_or_else(Printing::new)
}

/// The pages themselves: seen by the printer only.
#[component]
pub fn PrintPages() -> impl IntoView {
    let printing = printing();
    let page = |svg: &String| {
        let address = format!("data:image/svg+xml,{}", String::from(js_sys::encode_uri_component(svg)));
        view! { <img class="print-page" src=address alt="" /> }
    };
    view! {
        <div class="print-pages" class:letter=move || printing.printers.with(|it| it.letter) aria-hidden="true">
            {move || printing.pages.with(|pages| pages.iter().map(page).collect_view())}
        </div>
    }
    .into_any()
}
