//! The paper, and what the check lines measured on it, for the printer that is named.

use leptos::prelude::*;

use super::printing::{Printing, printing};
use crate::app::notice::Notice;
use crate::app::state::{State, state};
use crate::app::text_field::typed_over;
use crate::design::Printer;
use crate::design::units::Quantity;
use crate::design::validation::bounds;

/// A4 or US Letter.
#[component]
pub fn PaperChoice() -> impl IntoView {
    let printing = printing();
    let option = move |letter: bool, name: &'static str| {
        view! {
            <button type="button" class="segment"
                aria-pressed=move || (printing.printers.with(|it| it.letter) == letter).to_string()
                on:click=move |_| printing.printers.update(|it| it.letter = letter)>
                {name}
            </button>
        }
    };
    view! {
        <div class="choice" role="group" aria-label="Paper">
            <span class="choice-label">"Paper"</span>
            <div class="segments">{option(false, "A4")} {option(true, "US Letter")}</div>
        </div>
    }
    .into_any()
}

/// What is typed of a printer and is not taken yet: it stays, whatever another tab keeps in the meantime.
#[derive(Clone, Copy)]
struct Typing {
    printing: Printing,
    state: State,
    name: RwSignal<Option<String>>,
    across: RwSignal<Option<String>>,
    along: RwSignal<Option<String>>,
    /// Why it could not be taken.
    reason: RwSignal<Option<String>>,
}

impl Typing {
    fn new(printing: Printing, state: State) -> Self {
        let nothing = || RwSignal::new(None);
        Self { printing, state, name: nothing(), across: nothing(), along: nothing(), reason: nothing() }
    }

    /// The name of the printer that is used.
    fn used(self) -> String {
        self.printing.printers.with(|it| it.name.clone())
    }

    /// What this line of the printer measured, in mm; none for a printer that is not known.
    fn kept_mm(self, line: fn(&Printer) -> f64) -> Option<f64> {
        self.printing.printers.with(|it| it.named(&it.name).map(line))
    }

    fn shown(self, line: fn(&Printer) -> f64) -> Signal<String> {
        let words = move || self.kept_mm(line).map(|mm| self.state.units().show(mm, Quantity::Length));
        Signal::derive(move || words().unwrap_or_default())
    }

    /// Reads a line, in mm: as typed, or as kept where nothing was typed.
    fn read_mm(self, typed: RwSignal<Option<String>>, line: fn(&Printer) -> f64) -> Result<f64, String> {
        match (typed.get(), self.kept_mm(line)) {
            (None, Some(mm)) => Ok(mm),
            (typed, _) => self.state.units().read(&typed.unwrap_or_default(), Quantity::Length, &bounds::CHECK_LINE),
        }
    }

    /// Keeps what both lines measured, or says why not.
    fn take(self) {
        let lines = untrack(|| {
            let across_mm = self.read_mm(self.across, |it| it.across_mm).map_err(|why| format!("Across: {why}"))?;
            let along_mm = self.read_mm(self.along, |it| it.along_mm).map_err(|why| format!("Along: {why}"))?;
            Ok(Printer { name: self.used(), across_mm, along_mm })
        });
        match lines {
            Ok(printer) => {
                self.printing.printers.update(|it| it.take(printer));
                self.forget_lines();
                self.state.notices.say(Notice::plain("Every print is corrected by it from now on."));
            }
            Err(why) => self.reason.set(Some(why)),
        }
    }

    /// Names another printer. One that is known brings its own lines.
    fn rename(self, name: &str) {
        self.printing.printers.update(|it| it.name = name.to_owned());
        self.name.set(None);
        if self.printing.printers.with_untracked(|it| it.named(&it.name).is_some()) {
            self.forget_lines();
        }
    }

    fn forget_lines(self) {
        self.across.set(None);
        self.along.set(None);
        self.reason.set(None);
    }
}

/// What the check lines measured on paper, for the printer that is named.
#[component]
pub fn PrinterValues() -> impl IntoView {
    let typing = Typing::new(printing(), state());
    let known = move || {
        let option = |it: &Printer| view! { <option value=it.name.clone() /> };
        typing.printing.printers.with(|it| it.known.iter().map(option).collect_view())
    };
    view! {
        <details>
            <summary>"Does your printer keep its scale?"</summary>
            <div class="form">
                <p class="hint">"Print the check lines, measure the 100 mm lines across and along the paper, and type what they
                measure: every later print on this printer is corrected."</p>
                <label class="choice">
                    <span class="choice-label">"Printer"</span>
                    <input class="words" type="text" maxlength="60" autocomplete="off" list="known-printers"
                        prop:value=move || typing.name.get().unwrap_or_else(|| typing.used())
                        on:input=move |event| typing.name.set(Some(event_target_value(&event)))
                        on:change=move |event| typing.rename(event_target_value(&event).trim())
                        on:blur=move |_| typing.name.set(None) />
                </label>
                <datalist id="known-printers">{known}</datalist>
                {typed_over("Across measures", typing.across, typing.shown(|it| it.across_mm), "decimal")}
                {typed_over("Along measures", typing.along, typing.shown(|it| it.along_mm), "decimal")}
                <p class="value-reason" role="alert">{move || typing.reason.get()}</p>
                <button type="button" class="button" on:click=move |_| typing.take()>"Correct by it"</button>
            </div>
        </details>
    }
    .into_any()
}
