//! The worker's side: the same program, begun in a worker, does the work that the page sends it.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;

use js_sys::{Array, Uint8Array};
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::{DedicatedWorkerGlobalScope, MessageEvent, Worker, WorkerOptions, WorkerType};

use crate::app::browser;
use crate::beside::{Order, Report, do_work};
use crate::shelf::browser::{moment, now_ms, pause_for};

/// So long the worker works before it looks for messages, in milliseconds.
const TURN_MS: u64 = 30;
/// How often work that rests looks whether it may go on, in milliseconds.
const REST_MS: i32 = 100;

/// Starts the program once more in a worker. `None` where the browser has no workers that load modules, or forbids them.
pub fn start() -> Option<Worker> {
    // The script stands beside the program, whose address the page names.
    let program = browser::document()?.query_selector("link[rel=modulepreload][href$='/skewline.js']").ok()??;
    let address =
        program.unchecked_ref::<web_sys::Element>().get_attribute("href")?.replace("skewline.js", "beside.js");
    let options = WorkerOptions::new();
    options.set_type(WorkerType::Module);
    Worker::new_with_options(&address, &options).ok()
}

/// Works until the page ends, where the program has begun in a worker.
pub fn work() {
    let Ok(scope) = js_sys::global().dyn_into::<DedicatedWorkerGlobalScope>() else { return };
    let wanted = Rc::new(RefCell::new(BTreeMap::new()));
    let post = {
        let scope = scope.clone();
        move |report: &Report| {
            if let Some((text, bytes)) = report.packed() {
                // A page that is gone hears nothing.
                let _ = scope.post_message(&Array::of2(&JsValue::from_str(&text), &Uint8Array::from(&bytes[..])));
            }
        }
    };
    let hear = {
        let post = post.clone();
        move |event: MessageEvent| {
            let Some(order) = event.data().as_string().and_then(|text| serde_json::from_str(&text).ok()) else {
                return;
            };
            obey(order, &wanted, post.clone());
        }
    };
    let hear = Closure::<dyn FnMut(MessageEvent)>::new(hear);
    scope.set_onmessage(Some(hear.as_ref().unchecked_ref()));
    // It lives as long as the worker.
    hear.forget();
    post(&Report::Ready);
}

/// What the worker says; `None` for what is none of its reports.
pub fn read(message: &JsValue) -> Option<Report> {
    let message = message.dyn_ref::<Array>()?;
    let bytes = message.get(1).dyn_into::<Uint8Array>().ok()?;
    Report::unpacked(&message.get(0).as_string()?, &bytes.to_vec())
}

/// The work that is wanted, by name, and whether each is left for now.
type Wanted = Rc<RefCell<BTreeMap<u32, bool>>>;

fn obey(order: Order, wanted: &Wanted, post: impl Fn(&Report) + 'static) {
    match order {
        Order::Drop { number } => {
            wanted.borrow_mut().remove(&number);
        }
        Order::Rest { number, is_resting } => {
            if let Some(it) = wanted.borrow_mut().get_mut(&number) {
                *it = is_resting;
            }
        }
        Order::Begin { number, work } => {
            wanted.borrow_mut().insert(number, false);
            let wanted = wanted.clone();
            spawn_local(async move {
                let turn_began_ms = std::cell::Cell::new(now_ms());
                let breathe = async || {
                    if now_ms() < turn_began_ms.get() + TURN_MS {
                        return true;
                    }
                    moment().await;
                    while rests(&wanted, number) {
                        pause_for(REST_MS).await;
                    }
                    turn_began_ms.set(now_ms());
                    wanted.borrow().contains_key(&number)
                };
                do_work(*work, |part| post(&Report::Of { number, part }), breathe).await;
                wanted.borrow_mut().remove(&number);
            });
        }
    }
}

fn rests(wanted: &Wanted, number: u32) -> bool {
    wanted.borrow().get(&number) == Some(&true)
}
