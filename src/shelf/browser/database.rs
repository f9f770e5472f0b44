//! The browser's database as the second place for every text. It commits within milliseconds, and holds far more than
//! the five megabytes of the first.

use std::cell::RefCell;

use js_sys::{Array, Promise};
use wasm_bindgen::prelude::{Closure, JsValue};
use wasm_bindgen::{JsCast, throw_val};
use wasm_bindgen_futures::{JsFuture, future_to_promise};
use web_sys::{IdbDatabase, IdbObjectStore, IdbOpenDbRequest, IdbRequest, IdbTransactionMode};

use crate::shelf::double::{Record, SecondPlace};

const NAME: &str = "skewline";
const VERSION: u32 = 1;
const TEXTS: &str = "texts";
/// How long the start of the page waits for the database, in milliseconds: it may hang where another tab holds it.
const PATIENCE_MS: i32 = 2_000;

/// The database of this page, and what it is still to commit.
#[derive(Default)]
pub struct Database {
    open: RefCell<Option<IdbDatabase>>,
    waiting: RefCell<Vec<Record>>,
    /// The write that is under way; it takes along what comes meanwhile.
    writing: RefCell<Option<Promise>>,
    /// Why the last write failed.
    failure: RefCell<Option<String>>,
}

impl Database {
    /// Opens the database; whether it can be used.
    pub async fn open(&'static self) -> bool {
        let opened = future_to_promise(async { opened().await.map(JsValue::from) });
        let first = JsFuture::from(Promise::race(&Array::of2(&opened, &pause(PATIENCE_MS)))).await;
        // A browser without the database, or that denies it, has the first place only.
        let database = first.ok().and_then(|it| it.dyn_into::<IdbDatabase>().ok());
        let can_be_used = database.is_some();
        *self.open.borrow_mut() = database;
        can_be_used
    }

    /// Every record; none where the database cannot be read.
    pub async fn records(&self) -> Vec<Record> {
        let Some((keys, values)) = self.texts(IdbTransactionMode::Readonly).and_then(|texts| {
            // Both are asked for before either is waited for: a transaction ends when nothing is asked of it.
            Some((texts.get_all_keys().ok()?, texts.get_all().ok()?))
        }) else {
            return Vec::new();
        };
        let (Ok(keys), Ok(values)) = (answer(&keys).await, answer(&values).await) else { return Vec::new() };
        let (keys, values): (Array, Array) = (keys.unchecked_into(), values.unchecked_into());
        keys.iter().zip(values.iter()).filter_map(|(key, value)| record(key.as_string()?, &value)).collect()
    }

    /// The record of one key; none where there is none.
    pub async fn record(&self, key: &str) -> Option<Record> {
        let request = self.texts(IdbTransactionMode::Readonly)?.get(&key.into()).ok()?;
        record(key.to_owned(), &answer(&request).await.ok()?)
    }

    /// Waits until everything noted so far is committed, or has failed; why, when it has.
    ///
    /// # Errors
    ///
    /// What the browser said of the last write that failed.
    pub async fn settled(&self) -> Result<(), String> {
        loop {
            let Some(writing) = self.writing.borrow().clone() else { break };
            // It answers nothing: what went wrong is noted.
            let _written = JsFuture::from(writing).await;
        }
        self.failure.borrow_mut().take().map_or(Ok(()), Err)
    }

    async fn write(&self) {
        while !self.waiting.borrow().is_empty() {
            let records = std::mem::take(&mut *self.waiting.borrow_mut());
            if let Err(error) = self.commit(&records).await {
                *self.failure.borrow_mut() = Some(super::words(&error));
            }
        }
        *self.writing.borrow_mut() = None;
    }

    async fn commit(&self, records: &[Record]) -> Result<(), JsValue> {
        let texts = self.texts(IdbTransactionMode::Readwrite).ok_or(JsValue::NULL)?;
        let transaction = texts.transaction();
        let done = Promise::new(&mut |resolve, reject| {
            transaction.set_oncomplete(Some(&resolve));
            transaction.set_onabort(Some(&reject));
        });
        for Record { key, sequence, text, only_here } in records {
            let text = text.as_deref().map_or(JsValue::NULL, JsValue::from);
            let value = Array::of3(&(*sequence as f64).into(), &text, &(*only_here).into());
            texts.put_with_key(&value, &key.into())?;
        }
        JsFuture::from(done).await.map(|_| ())
    }

    fn texts(&self, mode: IdbTransactionMode) -> Option<IdbObjectStore> {
        let open = self.open.borrow();
        let transaction = open.as_ref()?.transaction_with_str_and_mode(TEXTS, mode).ok()?;
        transaction.object_store(TEXTS).ok()
    }
}

impl SecondPlace for &'static Database {
    fn is_open(&self) -> bool {
        self.open.borrow().is_some()
    }

    fn note(&self, record: Record) {
        self.waiting.borrow_mut().push(record);
        let database: &'static Database = self;
        let idle = self.writing.borrow().is_none();
        if idle {
            let writing = future_to_promise(async {
                database.write().await;
                Ok(JsValue::UNDEFINED)
            });
            *self.writing.borrow_mut() = Some(writing);
        }
    }
}

async fn opened() -> Result<IdbDatabase, JsValue> {
    let window = web_sys::window().ok_or(JsValue::NULL)?;
    let request: IdbOpenDbRequest = window.indexed_db()?.ok_or(JsValue::NULL)?.open_with_u32(NAME, VERSION)?;
    let asked = request.clone();
    let make = Closure::once_into_js(move || {
        let made = asked.result().and_then(|it| it.unchecked_into::<IdbDatabase>().create_object_store(TEXTS));
        if let Err(error) = made {
            // The browser then gives up opening, which is what is waited for below.
            throw_val(error);
        }
    });
    request.set_onupgradeneeded(Some(make.unchecked_ref()));
    Ok(answer(&request).await?.unchecked_into())
}

/// Resolves after so many milliseconds; at once where there is no window to wait in.
fn pause(milliseconds: i32) -> Promise {
    Promise::new(&mut |resolve, _| {
        let window = web_sys::window();
        let set = window.map(|it| it.set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, milliseconds));
        if !matches!(set, Some(Ok(_))) {
            // Nothing is left to be done with an answer that nobody takes.
            let _ = resolve.call0(&JsValue::NULL);
        }
    })
}

/// Waits for what a request brings.
async fn answer(request: &IdbRequest) -> Result<JsValue, JsValue> {
    let done = Promise::new(&mut |resolve, reject| {
        request.set_onsuccess(Some(&resolve));
        request.set_onerror(Some(&reject));
    });
    JsFuture::from(done).await?;
    request.result()
}

fn record(key: String, value: &JsValue) -> Option<Record> {
    let fields: &Array = value.dyn_ref()?;
    let sequence = fields.get(0).as_f64().filter(|it| *it >= 0.0)? as u64;
    Some(Record { key, sequence, text: fields.get(1).as_string(), only_here: fields.get(2).as_bool()? })
}
