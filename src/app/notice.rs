//! Short sentences at the foot of the page, some with something to press.

use std::sync::Arc;

use leptos::prelude::*;

/// What the page says when the first of the two copies was gone.
pub const BACK_FROM_SECOND_COPY: &str = "The browser had lost what was kept here. It is back from the second copy.";

/// How long a notice stays, in milliseconds. Long enough to read twice; errors stay until they are put away.
const STAYS_MS: u32 = 12_000;

/// What a button of a notice does. Not a `Callback`: a notice outlives the part of the page that raised it.
type Action = Arc<dyn Fn() + Send + Sync>;

/// One sentence, and what can be done about it.
#[derive(Clone)]
pub struct Notice {
    words: String,
    action: Option<(&'static str, Action)>,
    stays: bool,
}

impl Notice {
    /// A sentence that goes by itself.
    pub fn plain(words: impl Into<String>) -> Self {
        Self { words: words.into(), action: None, stays: false }
    }

    /// A sentence that stays until it is put away.
    pub fn lasting(words: impl Into<String>) -> Self {
        Self { stays: true, ..Self::plain(words) }
    }

    /// With a button.
    pub fn with_action(self, label: &'static str, action: impl Fn() + Send + Sync + 'static) -> Self {
        Self { action: Some((label, Arc::new(action))), ..self }
    }
}

/// The notices on screen, by number.
#[derive(Clone, Copy)]
pub struct Notices {
    shown: RwSignal<Vec<(u32, Notice)>>,
    next: StoredValue<u32>,
}

impl Default for Notices {
    /// None yet.
    fn default() -> Self {
        Self { shown: RwSignal::new(Vec::new()), next: StoredValue::new(0) }
    }
}

impl Notices {
    /// Shows a notice; the same words are shown once. One that goes by itself takes the place of those before it that do
    /// and have nothing to press, so that they never pile up.
    pub fn say(self, notice: Notice) {
        let number = self.next.try_update_value(|next| std::mem::replace(next, next.wrapping_add(1))).unwrap_or(0);
        let stays = notice.stays;
        self.shown.update(|shown| {
            let gives_way = |other: &Notice| !notice.stays && !other.stays && other.action.is_none();
            shown.retain(|(_, other)| other.words != notice.words && !gives_way(other));
            shown.push((number, notice));
        });
        if !stays {
            gloo_timers::callback::Timeout::new(STAYS_MS, move || self.put_away(number)).forget();
        }
    }

    fn put_away(self, number: u32) {
        self.shown.update(|shown| shown.retain(|(other, _)| *other != number));
    }
}

/// Shows the notices, and reads them out.
#[component]
pub fn NoticeList(
    /// The notices.
    notices: Notices,
) -> impl IntoView {
    let one = move |(number, notice): (u32, Notice)| {
        let with_button = notice.action.is_some();
        let action = notice.action.map(|(label, action)| {
            let press = move |_| {
                notices.put_away(number);
                action();
            };
            view! { <button type="button" class="button" on:click=press>{label}</button> }
        });
        view! {
            <li class="notice" class:with-button=with_button>
                <p>{notice.words}</p>
                <div class="buttons">
                    {action}
                    <button type="button" class="icon-button" on:click=move |_| notices.put_away(number)>
                        <svg viewBox="0 0 24 24" aria-hidden="true"><path d="M6 6l12 12M18 6l-12 12" /></svg>
                        <span class="unseen">"Dismiss"</span>
                    </button>
                </div>
            </li>
        }
    };
    view! {
        <div class="notices" role="status" aria-live="polite">
            <ul>
                <For each=move || notices.shown.get() key=|(number, _)| *number children=one />
            </ul>
        </div>
    }
    .into_any()
}
