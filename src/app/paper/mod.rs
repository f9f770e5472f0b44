//! What goes on paper: templates at full size, the sheet, and what the printer makes of a check line.

mod printer;
mod printing;

use leptos::prelude::*;

use self::printer::{PaperChoice, PrinterValues};
pub use self::printing::{PrintPages, Printing, printing};
use super::notice::Notice;
use super::state::{Finished, State, state};
use super::steps::steps;
use crate::design::Units;
use crate::drawings::side_view;
use crate::drawings::svg::to_svg;
use crate::drawings::templates::{PrintScale, Template, bench_sheet, check_page, packed, templates};
use crate::drawings::{SideScene, Theme, draw_side_view};
use crate::shelf::browser::files::download;
use crate::shelf::file_name;

/// Size of the drawing on the sheet, in CSS pixels.
const DRAWING_PX: kurbo::Size = kurbo::Size::new(700.0, 300.0);

/// Templates, the story stick, gauges, the wrap and the sheet.
#[component]
pub fn PaperCard() -> impl IntoView {
    let state = state();
    let printing = printing();
    let all = Memo::new(move |_| all_templates(state));
    let print_all = move |_| {
        let pages = |all: &Vec<Template>| untrack(|| packed(all, &name(state), printing.paper(), printing.scale()));
        printing.print(all.with_untracked(pages));
    };
    let print_sheet = move |_| match untrack(|| sheet(state, printing)) {
        Some(pages) => printing.print(pages),
        None => state.notices.say(Notice::plain("There is no sheet while the design has no figures.")),
    };
    let check = move |_| printing.print(untrack(|| check_page(printing.paper(), PrintScale::default())));
    let list = move || {
        let rows = |all: &Vec<Template>| all.iter().map(|it| template_row(state, printing, it)).collect_view();
        all.with(rows)
    };
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

/// One template, to print or to save.
fn template_row(state: State, printing: Printing, template: &Template) -> AnyView {
    let title = template.title.clone();
    let note = template.note.clone();
    let template = StoredValue::new(template.clone());
    let print = move |_| {
        let pages = |it: &Template| it.pages(&name(state), printing.paper(), printing.scale());
        let pages = template.with_value(|it| untrack(|| pages(it)));
        printing.print(pages.into_iter().map(|page| page.svg).collect());
    };
    let save = move |_| {
        let (title, svg) = template.with_value(|it| (it.title.clone(), it.svg(untrack(|| printing.scale()))));
        let file = file_name(&format!("{} {title}", name(state)), "svg");
        if let Err(error) = download(&file, &svg, "image/svg+xml") {
            state.notices.say(Notice::lasting(error.to_string()));
        }
    };
    view! {
        <li>
            <h3>{title.clone()}</h3>
            <p class="hint">{note}</p>
            <div class="buttons">
                <button type="button" class="button" on:click=print>"Print"<span class="unseen">" "{title.clone()}</span></button>
                <button type="button" class="button quiet" on:click=save>"Save as SVG"<span class="unseen">" "{title}</span></button>
            </div>
        </li>
    }
    .into_any()
}

/// The name that the design has now.
fn name(state: State) -> String {
    state.design.with_untracked(|design| design.name.clone())
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
