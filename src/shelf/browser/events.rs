//! Events that bear on keeping: the page hides, another tab changes the shelf.

use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Event, EventTarget, StorageEvent};

use crate::shelf::designs::DESIGN_PREFIX;
use crate::shelf::double::SEQUENCE_KEY;
use crate::shelf::history::HISTORY_PREFIX;
use crate::shelf::id::DesignId;
use crate::shelf::printers::PRINTERS_KEY;
use crate::shelf::settings::SHOP_KEY;

/// What another tab has changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Change {
    /// A design was saved or deleted.
    Design(DesignId),
    /// The shop's settings.
    Shop,
    /// What printers measured, the printer that is used, or the paper.
    Printers,
    /// Anything, everything: the storage was emptied, or a part without a name of its own changed.
    Other,
}

/// Keeps listeners on; dropping it takes them off.
#[must_use = "the listeners go when this is dropped"]
pub struct Listening {
    listeners: Vec<Listener>,
}

struct Listener {
    target: EventTarget,
    event: &'static str,
    deed: Closure<dyn FnMut(Event)>,
}

impl Drop for Listening {
    fn drop(&mut self) {
        for Listener { target, event, deed } in &self.listeners {
            // A target that has no such listener needs no taking off.
            let _ = target.remove_event_listener_with_callback(event, deed.as_ref().unchecked_ref());
        }
    }
}

impl Listening {
    fn on(mut self, target: Option<EventTarget>, event: &'static str, deed: impl FnMut(Event) + 'static) -> Self {
        let deed = Closure::<dyn FnMut(Event)>::new(deed);
        if let Some(target) = target
            && target.add_event_listener_with_callback(event, deed.as_ref().unchecked_ref()).is_ok()
        {
            self.listeners.push(Listener { target, event, deed });
        }
        self
    }
}

/// Runs the deed whenever the page goes out of sight or ends. It may be the last that runs: no waiting in it.
pub fn on_page_hide(deed: impl Fn() + Clone + 'static) -> Listening {
    let window = web_sys::window();
    let document = window.as_ref().and_then(|window| window.document());
    let hidden = {
        let (document, deed) = (document.clone(), deed.clone());
        move |_| {
            if document.as_ref().is_some_and(|document| document.hidden()) {
                deed();
            }
        }
    };
    Listening { listeners: Vec::new() }.on(document.map(EventTarget::from), "visibilitychange", hidden).on(
        window.map(EventTarget::from),
        "pagehide",
        move |_| deed(),
    )
}

/// Runs the deed whenever another tab of this browser has changed the storage.
pub fn on_change_elsewhere(deed: impl Fn(Change) + 'static) -> Listening {
    let window = web_sys::window().map(EventTarget::from);
    Listening { listeners: Vec::new() }.on(window, "storage", move |event| {
        let key = event.dyn_ref::<StorageEvent>().and_then(StorageEvent::key);
        // The number of another tab's last write is no change by itself, and its steps are nothing that a page shows.
        let unseen = |key: &str| key == SEQUENCE_KEY || key.starts_with(HISTORY_PREFIX);
        if !key.as_deref().is_some_and(unseen) {
            deed(change(key.as_deref()));
        }
    })
}

fn change(key: Option<&str>) -> Change {
    let design = key.and_then(|key| key.strip_prefix(DESIGN_PREFIX)).and_then(DesignId::from_text);
    match (key, design) {
        (_, Some(id)) => Change::Design(id),
        (Some(SHOP_KEY), None) => Change::Shop,
        (Some(PRINTERS_KEY), None) => Change::Printers,
        _ => Change::Other,
    }
}
