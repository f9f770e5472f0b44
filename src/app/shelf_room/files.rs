//! Designs out to files, and in again.

use leptos::ev;
use leptos::html;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use crate::app::browser::day_for_file;
use crate::app::keeping::{Keeping, keeping};
use crate::app::notice::Notice;
use crate::app::paper::{Printing, printing};
use crate::app::state::{State, state};
use crate::shelf::browser::files::{chosen, download, dropped, read_file};
use crate::shelf::browser::{now_ms, random};
use crate::shelf::{Imported, TakenIn};

/// Import, by choosing or dropping, and export of the whole shelf.
#[component]
pub fn Files() -> impl IntoView {
    let (state, keeping, printing) = (state(), keeping(), printing());
    let over = RwSignal::new(false);
    let input = NodeRef::<html::Input>::new();
    let take_chosen = move |_| {
        if let Some(input) = input.get_untracked() {
            take_files((state, keeping, printing), chosen(&input));
        }
    };
    let take_dropped = move |event: ev::DragEvent| {
        event.prevent_default();
        over.set(false);
        take_files((state, keeping, printing), dropped(&event));
    };
    let choose = move |_| {
        if let Some(input) = input.get_untracked() {
            input.click();
        }
    };
    view! {
        <section
            class="card drop-target"
            class:over=move || over.get()
            aria-labelledby="files"
            on:dragover=move |event: ev::DragEvent| { event.prevent_default(); over.set(true); }
            on:dragleave=move |_| over.set(false)
            on:drop=take_dropped
        >
            <h2 id="files">"Files"</h2>
            <p>"A backup file holds every design, your shop, and your printers' check lines. Import it here again, or on another
            device."</p>
            <div class="buttons">
                <button type="button" class="button" on:click=move |_| export_shelf(state, keeping)>"Save a backup file"</button>
                <button type="button" class="button" on:click=choose>"Import a file"</button>
            </div>
            <input class="unseen" tabindex="-1" node_ref=input type="file" accept=".json,application/json,text/plain" multiple=true
                aria-label="File to import" on:change=take_chosen />
            <p class="hint">"You can also drop files here."</p>
        </section>
    }
    .into_any()
}

/// Saves the whole shelf as one file, and notes when.
pub fn export_shelf(state: State, keeping: Keeping) {
    keeping.flush(state);
    let now = now_ms();
    let Some(text) = keeping.act(state, |shelf| shelf.export(now)) else { return };
    let name = format!("skewline-shelf-{}.json", day_for_file(now));
    if let Err(error) = download(&name, &text, "application/json") {
        state.notices.say(Notice::lasting(error.to_string()));
        return;
    }
    keeping.act(state, |shelf| Ok(shelf.set_last_backup_ms(now)?));
}

/// What an import changes.
type Shared = (State, Keeping, Printing);

fn take_files(shared: Shared, files: Vec<web_sys::File>) {
    let (state, ..) = shared;
    for file in files {
        spawn_local(async move {
            let name = file.name();
            let units = untrack(|| state.units());
            let imported = read_file(&file).await.map_err(|error| error.told(units));
            state.notices.say(match imported.and_then(|imported| take_in(shared, imported)) {
                Ok(taken) if taken.is_whole() => Notice::plain(taken.told(&name, units)),
                Ok(taken) => Notice::lasting(taken.told(&name, units)),
                Err(why) => Notice::lasting(format!("\u{201c}{name}\u{201d} couldn\u{2019}t be imported. {why}")),
            });
        });
    }
}

fn take_in((state, keeping, printing): Shared, imported: Imported) -> Result<TakenIn, String> {
    let taken = keeping.with(|shelf| shelf.take_in(imported, random(), now_ms()));
    keeping.changes.update(|changes| *changes = changes.wrapping_add(1));
    printing.recall();
    let taken = taken.map_err(|error| error.to_string())?;
    if let Some(shop) = taken.shop.clone()
        && shop != state.shop.get_untracked()
    {
        let notice = Notice::lasting("The file also holds the settings of a shop.");
        state.notices.say(notice.with_action("Use them", move || state.shop.set(shop.clone())));
    }
    Ok(taken)
}
