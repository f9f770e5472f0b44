//! A host that was updated after the first file of the program came and before the later one was asked for: the later
//! file of this build is gone, and only the page of the newer build can go on.

use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::JsValue;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Response, Window};

use crate::app::browser::{document, window};

/// Where the session notes which build it has left, so that a host stuck half way is not asked in circles.
const LEFT_BUILD: &str = "skewline/left-build";

/// Loads the page again when the host now serves another build. Does nothing without a network, and nothing a second
/// time for the same build.
pub async fn follow_host() {
    let Some((window, program)) = window().zip(program_address()) else { return };
    let session = window.session_storage().ok().flatten();
    let left = session.as_ref().and_then(|it| it.get_item(LEFT_BUILD).ok().flatten());
    if left.as_ref() == Some(&program) {
        return;
    }
    // Without an answer there is no newer page to go to.
    let Ok(page) = page_at_host(&window).await else { return };
    if page.contains(&program) {
        return;
    }
    let noted = session.is_some_and(|it| it.set_item(LEFT_BUILD, &program).is_ok());
    if noted && window.location().reload().is_err() {
        // A browser that refuses leaves the page as it is, with its offer to try again.
    }
}

/// The address of this build's program, as the page names it.
fn program_address() -> Option<String> {
    let link = document()?.query_selector("link[rel=modulepreload]").ok()??;
    link.get_attribute("href")
}

async fn page_at_host(window: &Window) -> Result<String, JsValue> {
    let response: Response = JsFuture::from(window.fetch_with_str("./")).await?.dyn_into()?;
    if !response.ok() {
        return Err(response.status().into());
    }
    let text = JsFuture::from(response.text()?).await?;
    text.as_string().ok_or(text)
}
