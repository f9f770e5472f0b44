//! The browser's database as the second place for every text. It commits within milliseconds, and holds far more than
//! the five megabytes of the first.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use js_sys::{Array, Function, Object, Promise, Reflect};
use wasm_bindgen::prelude::{Closure, JsValue};
use wasm_bindgen::{JsCast, throw_val};
use wasm_bindgen_futures::{JsFuture, future_to_promise};
use web_sys::{
    IdbDatabase, IdbFactory, IdbObjectStore, IdbOpenDbRequest, IdbRequest, IdbTransaction, IdbTransactionMode,
};

use super::waiting::within;
use crate::shelf::double::{Record, SecondPlace};

const NAME: &str = "skewline";
const VERSION: u32 = 1;
const TEXTS: &str = "texts";
/// How long the start of the page waits for the database, in milliseconds: browsers are known to hang over it.
const PATIENCE_MS: i32 = 4_000;
/// How long it waits to hear whether there is a database at all, in milliseconds.
const ASKING_MS: i32 = 1_000;

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
    /// Opens the database; whether it can be used. One that takes too long is opened all the same: then `late` runs.
    pub async fn open(&'static self, late: impl FnOnce() + 'static) -> bool {
        let gave_up = Rc::new(Cell::new(false));
        let asked = Rc::clone(&gave_up);
        let opened = future_to_promise(async move {
            // A browser without the database, or that denies it, has the first place only.
            let database = opened().await?;
            *self.open.borrow_mut() = Some(database);
            if asked.get() {
                late();
            }
            Ok(JsValue::UNDEFINED)
        });
        // Either way it is told by what is open.
        let _first = within(&opened, PATIENCE_MS).await;
        gave_up.set(true);
        self.open.borrow().is_some()
    }

    /// Whether an earlier visit has made the database. A browser that does not say counts as one without.
    pub async fn exists() -> bool {
        let Some(asked) = names() else { return false };
        let Ok(list) = within(&asked, ASKING_MS).await else { return false };
        let name_of = |it: JsValue| Reflect::get(&it, &"name".into()).ok().and_then(|name| name.as_string());
        list.dyn_ref::<Array>().is_some_and(|list| list.iter().filter_map(name_of).any(|name| name == NAME))
    }

    /// Every record; none where the database cannot be read.
    pub async fn records(&self) -> Vec<Record> {
        let Some((keys, values)) = self.reading().and_then(|texts| {
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
        let request = self.reading()?.get(&key.into()).ok()?;
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
        let texts = self.writing().ok_or(JsValue::NULL)?;
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
        // Without it the browser commits only once it has found that nothing more is asked. Older ones do not have it.
        if let Some(commit) = function(&transaction, "commit") {
            commit.call0(&transaction)?;
        }
        JsFuture::from(done).await.map(|_| ())
    }

    fn reading(&self) -> Option<IdbObjectStore> {
        let open = self.open.borrow();
        let transaction = open.as_ref()?.transaction_with_str_and_mode(TEXTS, IdbTransactionMode::Readonly).ok()?;
        transaction.object_store(TEXTS).ok()
    }

    /// For a write that is on the disk itself when it is told as done: the power may fail, not only the browser.
    fn writing(&self) -> Option<IdbObjectStore> {
        let open = self.open.borrow();
        let database = open.as_ref()?;
        let options = Object::new();
        Reflect::set(&options, &"durability".into(), &"strict".into()).ok()?;
        // By name: the options have no binding. Older browsers pay no heed to them.
        let begun = function(database, "transaction")?.call3(database, &TEXTS.into(), &"readwrite".into(), &options);
        begun.ok()?.unchecked_into::<IdbTransaction>().object_store(TEXTS).ok()
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
    let request: IdbOpenDbRequest = factory().ok_or(JsValue::NULL)?.open_with_u32(NAME, VERSION)?;
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

fn factory() -> Option<IdbFactory> {
    web_sys::window()?.indexed_db().ok()?
}

/// The names of every database of this site, as they come.
fn names() -> Option<Promise> {
    let factory = factory()?;
    function(&factory, "databases")?.call0(&factory).ok()?.dyn_into().ok()
}

/// What has no binding, or is not in every browser.
fn function(of: &JsValue, name: &str) -> Option<Function> {
    Reflect::get(of, &name.into()).ok()?.dyn_into().ok()
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
