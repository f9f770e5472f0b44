//! What is left when the program itself breaks: plain links that need nothing of it.

use wasm_bindgen::JsValue;

use super::browser::{document, window};
use super::{opening, remembered};
use crate::shelf::settings::OPEN_KEY;
use crate::shelf::{DesignId, entry_key};

/// From now on a panic is reported on the console, and the page shows what can still be done.
pub fn watch() {
    std::panic::set_hook(Box::new(|info| {
        console_error_panic_hook::hook(info);
        // There is nothing left to do where even that fails.
        let _shown = show();
    }));
}

fn show() -> Result<(), JsValue> {
    let Some((window, document)) = window().zip(document()) else { return Ok(()) };
    if document.get_element_by_id("broken").is_some() {
        return Ok(());
    }
    let saved = window.local_storage()?.and_then(|storage| {
        // One of the screen's choices may be what broke the program, and none is worth breaking it twice.
        storage.remove_item(remembered::KEY).ok()?;
        let id = DesignId::from_text(&storage.get_item(OPEN_KEY).ok()??)?;
        // The next visit begins with the shelf, not with this design.
        storage.set_item(opening::KEY, id.as_str()).ok()?;
        storage.get_item(&entry_key(&id)).ok()?
    });
    let banner = document.create_element("div")?;
    banner.set_id("broken");
    banner.set_attribute("role", "alert")?;
    banner.set_class_name("banner");
    let line = document.create_element("p")?;
    line.set_text_content(Some(
        "Something in Skewline broke. Everything up to your last change is kept on this device. Start again: the Shelf comes \
         up first.",
    ));
    banner.append_child(&line)?;
    let start = document.create_element("a")?;
    start.set_class_name("button");
    start.set_attribute("href", "./")?;
    start.set_text_content(Some("Start again"));
    banner.append_child(&start)?;
    if let Some(text) = saved {
        let file = document.create_element("a")?;
        file.set_class_name("button");
        file.set_attribute("download", "skewline-design.json")?;
        let encoded = String::from(js_sys::encode_uri_component(&text));
        file.set_attribute("href", &format!("data:application/json;charset=utf-8,{encoded}"))?;
        file.set_text_content(Some("Save the design to a file"));
        banner.append_child(&file)?;
    }
    if let Some(body) = document.body() {
        body.insert_before(&banner, body.first_child().as_ref())?;
    }
    Ok(())
}
