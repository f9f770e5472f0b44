//! Keeps a whole copy of the page on the device, and tells when a newer build waits for a word from the user.
//!
//! The copy itself is made by the service worker, `public/sw.js`.

use js_sys::{Array, Function, Object, Reflect};
use leptos::ev::visibilitychange;
use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::{Closure, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    MessageChannel, MessageEvent, ServiceWorker, ServiceWorkerContainer, ServiceWorkerRegistration, ServiceWorkerState,
    VisibilityState,
};

use super::keeping::Keeping;
use super::notice::Notice;
use super::state::State;

const WORKER: &str = "./sw.js";

/// Whether a whole copy of the page is on the device.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LocalCopy {
    /// Being looked for or fetched.
    Fetching,
    /// Everything works without a network.
    Kept,
    /// Files of the copy are missing or damaged and could not be fetched again yet.
    Incomplete {
        /// How many.
        missing: u32,
    },
    /// There is none, so the page needs the network whenever it is opened: the browser allows no copies here (a
    /// private window, an address that is not secure), or fetching it failed and is tried again on the next visit.
    NotKept,
}

/// What the page knows about working without a network. Copies of it are the same thing.
#[derive(Clone, Copy, Debug)]
pub struct Offline {
    local_copy: RwSignal<LocalCopy>,
    newer_build: RwSignal<bool>,
    registration: StoredValue<Option<ServiceWorkerRegistration>, LocalStorage>,
}

impl Offline {
    /// Starts keeping the copy. To be called once.
    fn start() -> Self {
        let offline = Self {
            local_copy: RwSignal::new(LocalCopy::Fetching),
            newer_build: RwSignal::new(false),
            registration: StoredValue::new_local(None),
        };
        spawn_local(async move {
            match register().await {
                Some(registration) => offline.follow(registration),
                None => offline.local_copy.set(LocalCopy::NotKept),
            }
        });
        offline
    }

    /// Whether a whole copy is on the device.
    pub fn local_copy(self) -> LocalCopy {
        self.local_copy.get()
    }

    /// Checks the copy file by file; what is missing or damaged is fetched again where there is a network.
    pub fn check_copy(self) {
        let active = self.registration.with_value(|kept| kept.as_ref().and_then(ServiceWorkerRegistration::active));
        let Some(worker) = active else { return };
        let answered = move |missing: u32| {
            self.local_copy.set(if missing == 0 { LocalCopy::Kept } else { LocalCopy::Incomplete { missing } });
        };
        if ask_how_whole(&worker, answered).is_err() {
            self.local_copy.set(LocalCopy::NotKept);
        }
    }

    /// Whether a newer build is on the device and waits for [`take_over`](Self::take_over).
    fn newer_build_waits(self) -> bool {
        self.newer_build.get()
    }

    /// Lets the newer build take over and loads the page again. Whatever is to be kept must have been saved.
    pub fn take_over(self) {
        let waiting = self.registration.with_value(|kept| kept.as_ref().and_then(ServiceWorkerRegistration::waiting));
        let Some(worker) = waiting else { return reload() };
        let watched = worker.clone();
        worker.set_onstatechange(Some(&callback(move || {
            if watched.state() == ServiceWorkerState::Activated {
                reload();
            }
        })));
        if ask_to_take_over(&worker).is_err() {
            reload();
        }
    }

    /// Keeps the page on the device, and offers a newer build when one is ready; nothing changes until it is chosen.
    pub fn offer_newer_build(state: State, keeping: Keeping) {
        let offline = Self::start();
        provide_context(offline);
        let take_over = move || keeping.leave(state, move || offline.take_over());
        Effect::new(move |_| {
            if offline.newer_build_waits() {
                let notice = Notice::lasting("A new version of Skewline is ready. Your designs stay.");
                state.notices.say(notice.with_action("Use the new version", take_over));
            }
        });
    }

    fn follow(self, registration: ServiceWorkerRegistration) {
        let found = registration.clone();
        registration.set_onupdatefound(Some(&callback(move || self.watch(found.installing()))));
        self.watch(registration.installing());
        self.look_for_newer_builds();
        self.registration.set_value(Some(registration));
        self.look_again();
    }

    fn watch(self, worker: Option<ServiceWorker>) {
        if let Some(worker) = worker {
            worker.set_onstatechange(Some(&callback(move || self.look_again())));
        }
        self.look_again();
    }

    fn look_again(self) {
        self.registration.with_value(|kept| {
            let Some(registration) = kept else { return };
            let active = registration.active().is_some();
            let coming = registration.installing().is_some() || registration.waiting().is_some();
            self.newer_build.set(active && registration.waiting().is_some());
            self.local_copy.set(match (active, coming) {
                (true, _) => LocalCopy::Kept,
                (false, true) => LocalCopy::Fetching,
                (false, false) => LocalCopy::NotKept,
            });
        });
        self.check_copy();
    }

    /// A page on the home screen can stay open for weeks, so the browser's own look on loading is not enough.
    fn look_for_newer_builds(self) {
        let listener = window_event_listener(visibilitychange, move |_| {
            if document().visibility_state() == VisibilityState::Visible {
                let looking = self.registration.with_value(|kept| kept.as_ref().and_then(|kept| kept.update().ok()));
                spawn_local(async move {
                    if let Some(looking) = looking {
                        // Without a network this fails, and the copy at hand goes on being used.
                        let _found = JsFuture::from(looking).await;
                    }
                });
            }
        });
        on_cleanup(move || listener.remove());
    }
}

async fn register() -> Option<ServiceWorkerRegistration> {
    let container: ServiceWorkerContainer = window().navigator().service_worker();
    // Absent where the address is not secure.
    if container.is_undefined() {
        return None;
    }
    let registration = JsFuture::from(container.register(WORKER)).await.ok()?;
    registration.dyn_into().ok()
}

fn ask_to_take_over(worker: &ServiceWorker) -> Result<(), JsValue> {
    let message = Object::new();
    Reflect::set(&message, &"type".into(), &"take-over".into())?;
    worker.post_message(&message)
}

/// Asks the worker how many files of its copy are missing: it answers at once, and again when it has fetched some.
fn ask_how_whole(worker: &ServiceWorker, mut answered: impl FnMut(u32) + 'static) -> Result<(), JsValue> {
    let channel = MessageChannel::new()?;
    let heard = Closure::<dyn FnMut(MessageEvent)>::new(move |event: MessageEvent| {
        let missing = Reflect::get(&event.data(), &"missing".into()).ok().and_then(|it| it.as_f64());
        if let Some(missing) = missing {
            answered(missing as u32);
        }
    });
    channel.port1().set_onmessage(Some(heard.into_js_value().unchecked_ref()));
    let message = Object::new();
    Reflect::set(&message, &"type".into(), &"how-whole".into())?;
    worker.post_message_with_transferable(&message, &Array::of1(&channel.port2()))
}

/// Loads the page again. A browser that refuses leaves the old build running, which does no harm.
fn reload() {
    let _refused = window().location().reload();
}

/// A function the browser may call for as long as the page lives.
fn callback(action: impl FnMut() + 'static) -> Function {
    Closure::<dyn FnMut()>::new(action).into_js_value().unchecked_into()
}
