//! Texts that cannot be read: kept, explained, and offered for download.

use leptos::prelude::*;

use crate::app::keeping::keeping;
use crate::app::notice::Notice;
use crate::app::state::state;
use crate::shelf::SetAside;
use crate::shelf::browser::files::download;
use crate::shelf::browser::{now_ms, random};

/// Every text that is set aside.
#[component]
pub fn SetAsideList(
    /// The texts.
    texts: Vec<SetAside>,
) -> impl IntoView {
    view! {
        <section class="card" aria-labelledby="set-aside">
            <h2 id="set-aside">"Set aside"</h2>
            <p>"These cannot be read by this version. They are kept as they are: save them to a file, and delete them only
            when you are sure."</p>
            <ul class="plain-list">{texts.into_iter().map(one).collect_view()}</ul>
        </section>
    }
    .into_any()
}

fn one(text: SetAside) -> AnyView {
    let (state, keeping) = (state(), keeping());
    let name = text.key.replace('/', "-");
    let (raw, key) = (text.raw, text.key);
    let save = move |_| {
        if let Err(error) = download(&format!("{name}.txt"), &raw, "text/plain") {
            state.notices.say(Notice::lasting(error.to_string()));
        }
    };
    let remove = move |_| {
        let deleted = keeping.act(state, |shelf| Ok(shelf.delete_set_aside(&key, now_ms())?)).flatten();
        if let Some(deleted) = deleted {
            let back = move || {
                keeping.act(state, |shelf| Ok(shelf.undelete(&deleted, random())?));
            };
            state.notices.say(Notice::plain("The text is deleted.").with_action("Undo", back));
        }
    };
    view! {
        <li>
            <p>{move || text.reason.told(state.units())}</p>
            <div class="buttons">
                <button type="button" class="button" on:click=save>"Save its text to a file"</button>
                <button type="button" class="button quiet" on:click=remove>"Delete"</button>
            </div>
        </li>
    }
    .into_any()
}
