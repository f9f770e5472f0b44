//! Mounts the app in the page.

#[cfg(target_arch = "wasm32")]
fn main() {
    console_error_panic_hook::set_once();
    skewline::app::mount();
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    // Nothing to mount outside a browser: `./dev serve` builds and serves the page.
}
