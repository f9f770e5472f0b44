//! Mounts the app in the page.

#[cfg(target_arch = "wasm32")]
fn main() {
    skewline::app::mount();
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    // Nothing to mount outside a browser: `./dev serve` builds and serves the page.
}
