//! The figures that take their time: worked out after each change a part at a time, between frames, so that the drawing
//! follows the finger. One that is begun is brought to its end before the newest is begun, so that figures and checks
//! keep coming while a value is swept.

use std::sync::Arc;

use gloo_timers::callback::Timeout;
use leptos::prelude::*;

use super::state::{Finished, Shaped, State};
use crate::figures::Parts;

/// What is being worked out, and of what.
struct UnderWay {
    parts: Parts,
    of: Shaped,
}

type Bench = StoredValue<Option<UnderWay>, LocalStorage>;

/// Works the figures out whenever the shape changes.
pub fn follow(state: State) {
    let bench = StoredValue::new_local(None::<UnderWay>);
    Effect::new(move |_| {
        state.shaped.track();
        if bench.with_value(Option::is_none) {
            begin_soon(state, bench);
        }
    });
}

/// Begins once the frame that shows the change has been painted.
fn begin_soon(state: State, bench: Bench) {
    let of = state.shaped.get_untracked();
    let (design, shop) = (state.made.get_untracked(), state.shop.get_untracked());
    let under_way = of.clone().ok().map(|shape| UnderWay { parts: Parts::new(design, shop, shape), of });
    match under_way {
        None => state.finished.set(None),
        Some(under_way) => {
            bench.set_value(Some(under_way));
            request_animation_frame(move || go_on_soon(state, bench));
        }
    }
}

fn go_on_soon(state: State, bench: Bench) {
    Timeout::new(0, move || go_on(state, bench)).forget();
}

fn go_on(state: State, bench: Bench) {
    let more = bench.try_update_value(|it| it.as_mut().is_some_and(|it| it.parts.step())).unwrap_or(false);
    if more {
        return go_on_soon(state, bench);
    }
    let Some(UnderWay { parts, of }) = bench.try_update_value(Option::take).flatten() else { return };
    let (design, shop, worked) = parts.finish();
    state.finished.set(Some(Arc::new(Finished { design, shop, worked })));
    let newest = state.shaped.get_untracked();
    let is_newest = match (&newest, &of) {
        (Ok(newest), Ok(of)) => Arc::ptr_eq(newest, of),
        _ => false,
    };
    if !is_newest {
        begin_soon(state, bench);
    }
}
