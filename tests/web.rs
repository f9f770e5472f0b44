//! What only a browser can show: the page itself, mounted for real.
#![cfg(target_arch = "wasm32")]
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "tests may stop at once")]

use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

fn document() -> web_sys::Document {
    web_sys::window().and_then(|window| window.document()).expect("a browser has a document")
}

/// A moment for the page to go on.
async fn moment() {
    let wait = |resolve: js_sys::Function, _| {
        web_sys::window().unwrap().set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, 20).unwrap();
    };
    wasm_bindgen_futures::JsFuture::from(js_sys::Promise::new(&mut { wait })).await.unwrap();
}

#[wasm_bindgen_test]
async fn mounting_takes_the_place_of_the_loading_text() {
    let body = document().body().expect("the page has a body");
    let loading = document().create_element("main").unwrap();
    loading.set_id("loading");
    body.append_child(&loading).unwrap();

    skewline::app::mount();

    // First the page asks whether the browser keeps a second copy of what the first has lost.
    for _ in 0..250 {
        if document().get_element_by_id("loading").is_none() {
            break;
        }
        moment().await;
    }
    assert!(document().get_element_by_id("loading").is_none());
    let heading = body.query_selector("h1").unwrap().expect("the app has a heading");
    assert!(heading.text_content().unwrap().contains("Skewline"));

    // Nothing is checked yet, and nothing says that all is well.
    let pill = body.query_selector(".pill").unwrap().expect("the verdict is in sight");
    assert!(pill.text_content().unwrap().contains("checking"));
    assert!(!pill.class_name().contains("good"), "{}", pill.class_name());
}
