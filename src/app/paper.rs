//! What goes on paper: templates at full size, the sheet, and what the printer makes of a check line.

use gloo_timers::callback::Timeout;
use leptos::prelude::*;

use super::browser;
use super::later::later_part;
use super::notice::Notice;
use super::state::{Finished, State, state};
use super::steps::steps;
use super::text_field::typed_over;
use crate::design::units::Quantity;
use crate::design::validation::bounds;
use crate::design::{Printer, Printers, Units};
use crate::drawings::side_view;
use crate::drawings::svg::to_svg;
use crate::drawings::templates::{Paper, PrintScale, Template, bench_sheet, check_page, packed, templates};
use crate::drawings::{SideScene, Theme, draw_side_view};
use crate::shelf::browser::events::{Change, on_change_elsewhere};
use crate::shelf::browser::files::download;
use crate::shelf::browser::{BrowserStore, now_ms};
use crate::shelf::{Shelf, file_name};

/// How long the pages take to be ready for the printer, in milliseconds.
const READY_MS: u32 = 400;
/// Size of the drawing on the sheet, in CSS pixels.
const DRAWING_PX: kurbo::Size = kurbo::Size::new(700.0, 300.0);

/// The pages that are laid out for the printer.
#[derive(Clone, Copy)]
pub struct Printing {
    pages: RwSignal<Vec<String>>,
    printers: RwSignal<Printers>,
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

    fn paper(self) -> Paper {
        self.printers.with(|it| if it.letter { Paper::Letter } else { Paper::A4 })
    }

    /// What the chosen printer needs; a printer that is not known keeps its scale.
    fn scale(self) -> PrintScale {
        self.printers.with(|it| {
            let known = it.named(&it.name);
            known.and_then(|it| PrintScale::measured(it.across_mm, it.along_mm).ok()).unwrap_or_default()
        })
    }

    /// Lays pages out and opens the browser's own print dialog.
    fn print(self, pages: Vec<String>) {
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

/// Templates, the story stick, gauges, the wrap and the sheet.
#[component]
pub fn PaperCard() -> impl IntoView {
    let state = state();
    let printing = printing();
    let all = Memo::new(move |_| all_templates(state));
    let name = move || state.design.with_untracked(|design| design.name.clone());
    let pages = move |template: &Template| {
        let pages = template.pages(&name(), printing.paper(), printing.scale());
        pages.into_iter().map(|page| page.svg).collect::<Vec<_>>()
    };
    let print_all = move |_| {
        let pages = |all: &Vec<Template>| untrack(|| packed(all, &name(), printing.paper(), printing.scale()));
        printing.print(all.with_untracked(pages));
    };
    let print_sheet = move |_| match untrack(|| sheet(state, printing)) {
        Some(pages) => printing.print(pages),
        None => state.notices.say(Notice::plain("There is no sheet while the design has no figures.")),
    };
    let check = move |_| printing.print(untrack(|| check_page(printing.paper(), PrintScale::default())));
    let one = move |number: usize, template: &Template| {
        let title = template.title.clone();
        let print = move |_| {
            let made = all.with_untracked(|all| all.get(number).map(|it| untrack(|| pages(it))));
            printing.print(made.unwrap_or_default());
        };
        let save = move |_| {
            let made = all.with_untracked(|all| {
                all.get(number).map(|it| (it.title.clone(), it.svg(untrack(|| printing.scale()))))
            });
            if let Some((title, svg)) = made {
                let file = file_name(&format!("{} {title}", name()), "svg");
                if let Err(error) = download(&file, &svg, "image/svg+xml") {
                    state.notices.say(Notice::lasting(error.to_string()));
                }
            }
        };
        view! {
            <li>
                <h3>{title.clone()}</h3>
                <p class="hint">{template.note.clone()}</p>
                <div class="buttons">
                    <button type="button" class="button" on:click=print>"Print"<span class="unseen">" "{title.clone()}</span></button>
                    <button type="button" class="button quiet" on:click=save>"Save as SVG"<span class="unseen">" "{title}</span></button>
                </div>
            </li>
        }
    };
    let list = move || all.with(|all| all.iter().enumerate().map(|(number, it)| one(number, it)).collect_view());
    view! {
        <section class="card" aria-labelledby="paper">
            <h2 id="paper" tabindex="-1">"On paper"</h2>
            <p class="hint">
                "At full size, black on white. In the print dialog choose 100 % or actual size, and no margins of its own."
            </p>
            <PaperChoice />
            <PrinterValues />
            <div class="buttons">
                <button type="button" class="button" on:click=check>"Print the check lines"</button>
                <button type="button" class="button" on:click=print_sheet>"Print the sheet"</button>
                <button type="button" class="button" on:click=print_all>"Print every template"</button>
            </div>
            <ul class="plain-list">{list}</ul>
        </section>
    }
    .into_any()
}

fn all_templates(state: State) -> Vec<Template> {
    state.finished(|it| templates(&it.design, &it.worked, &it.shop)).unwrap_or_default()
}

/// The sheet with the side view over it.
fn sheet(state: State, printing: Printing) -> Option<Vec<String>> {
    let steps = steps();
    let pages = state.finished(|Finished { design, shop, worked }| {
        let mut scene = state.settled(|shape| SideScene::of(design, shape, shop))?;
        scene.handles.clear();
        scene.lengths = Units::from(shop);
        let drawing = to_svg(DRAWING_PX.width, DRAWING_PX.height, |area, sheet| {
            draw_side_view(area, &scene, &Theme::PRINT, &side_view::fit(&scene, sheet))
        });
        let made = steps.with_planned(|plan| bench_sheet(design, worked, shop, plan))?;
        let drawing = drawing.as_ref().ok().map(|svg| (svg.as_str(), DRAWING_PX));
        Some(made.pages(printing.paper(), printing.scale(), drawing))
    });
    pages.flatten()
}

#[component]
fn PaperChoice() -> impl IntoView {
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

/// What the check lines measured on paper, for the printer that is named.
#[component]
fn PrinterValues() -> impl IntoView {
    let printing = printing();
    let state = state();
    // What was typed and is not taken yet stays, whatever another tab keeps in the meantime.
    let typed = || RwSignal::new(None::<String>);
    let (name, across, along) = (typed(), typed(), typed());
    let reason = RwSignal::new(None::<String>);
    let used = move || printing.printers.with(|it| it.name.clone());
    let kept = move |line: fn(&Printer) -> f64| printing.printers.with(|it| it.named(&it.name).map(line));
    let shown = move |line: fn(&Printer) -> f64| {
        let mm = move || kept(line).map(|mm| state.units().show(mm, Quantity::Length));
        Signal::derive(move || mm().unwrap_or_default())
    };
    let lines_taken = move || {
        across.set(None);
        along.set(None);
        reason.set(None);
    };
    let take = move |_| {
        let units = untrack(|| state.units());
        let read = |typed: RwSignal<Option<String>>, line| match (typed.get_untracked(), untrack(|| kept(line))) {
            (None, Some(mm)) => Ok(mm),
            (typed, _) => units.read(&typed.unwrap_or_default(), Quantity::Length, &bounds::CHECK_LINE),
        };
        match (read(across, |it| it.across_mm), read(along, |it| it.along_mm)) {
            (Ok(across_mm), Ok(along_mm)) => {
                let printer = Printer { name: untrack(used), across_mm, along_mm };
                printing.printers.update(|it| it.take(printer));
                lines_taken();
                state.notices.say(Notice::plain("Every print is corrected by it from now on."));
            }
            (Err(why), _) => reason.set(Some(format!("Across: {why}"))),
            (_, Err(why)) => reason.set(Some(format!("Along: {why}"))),
        }
    };
    let rename = move |event| {
        let named = event_target_value(&event).trim().to_owned();
        printing.printers.update(|it| it.name = named);
        name.set(None);
        // A printer that is known brings its own lines.
        if printing.printers.with_untracked(|it| it.named(&it.name).is_some()) {
            lines_taken();
        }
    };
    let known = move || {
        printing.printers.with(|it| it.known.iter().map(|it| view! { <option value=it.name.clone() /> }).collect_view())
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
                        prop:value=move || name.get().unwrap_or_else(used)
                        on:input=move |event| name.set(Some(event_target_value(&event)))
                        on:change=rename
                        on:blur=move |_| name.set(None) />
                </label>
                <datalist id="known-printers">{known}</datalist>
                {typed_over("Across measures", across, shown(|it| it.across_mm), "decimal")}
                {typed_over("Along measures", along, shown(|it| it.along_mm), "decimal")}
                <p class="value-reason" role="alert">{move || reason.get()}</p>
                <button type="button" class="button" on:click=take>"Correct by it"</button>
            </div>
        </details>
    }
    .into_any()
}
