//! The figures that take their time: worked out after each change a part at a time, between frames, so that the drawing
//! follows the finger. One that is begun is brought to its end before the newest is begun, so that figures and checks
//! keep coming while a value is swept.

use std::sync::Arc;

use gloo_timers::callback::Timeout;
use leptos::prelude::*;

use super::state::{Finished, State};
use crate::figures::{Parts, Shape};

/// What is being worked out, and of what.
struct UnderWay {
    parts: Parts,
    of: Arc<Shape>,
}

/// Where the work is done.
#[derive(Clone, Copy)]
struct Bench {
    state: State,
    under_way: StoredValue<Option<UnderWay>, LocalStorage>,
    /// The next step of the work; there is never more than one.
    next: StoredValue<Option<Timeout>, LocalStorage>,
    /// A change is on its way to the screen: until it has been painted, the work waits.
    painting: StoredValue<bool>,
}

/// Works the figures out whenever the shape changes.
pub fn follow(state: State) {
    let bench = Bench {
        state,
        under_way: StoredValue::new_local(None),
        next: StoredValue::new_local(None),
        painting: StoredValue::new(false),
    };
    Effect::new(move |_| {
        let shaped = state.shaped.get();
        state.coming.set(shaped.is_ok());
        if shaped.is_err() {
            state.settled.set(None);
            state.finished.set(None);
        }
        if !bench.painting.get_value() {
            bench.painting.set_value(true);
            request_animation_frame(move || bench.painted());
        }
    });
}

impl Bench {
    fn painted(self) {
        self.painting.set_value(false);
        self.go_on_soon();
    }

    fn go_on_soon(self) {
        self.next.set_value(Some(Timeout::new(0, move || self.go_on())));
    }

    fn go_on(self) {
        if self.painting.get_value() {
            return;
        }
        if self.under_way.with_value(Option::is_none) {
            return self.begin();
        }
        let more = self.under_way.try_update_value(|it| Some(it.as_mut()?.parts.step())).flatten();
        match more {
            None => (),
            Some(true) => self.go_on_soon(),
            Some(false) => self.finish(),
        }
    }

    /// Begins with the newest shape, and shows that first; does nothing where there is none.
    fn begin(self) {
        let of = self.state.shaped.get_untracked();
        let (design, shop) = (self.state.made.get_untracked(), self.state.shop.get_untracked());
        let Ok(of) = of else { return };
        self.under_way.set_value(Some(UnderWay { parts: Parts::new(design, shop, of.clone()), of: of.clone() }));
        self.state.settled.set(Some(of));
        self.go_on_soon();
    }

    fn finish(self) {
        let Some(UnderWay { parts, of }) = self.under_way.try_update_value(Option::take).flatten() else { return };
        let newest = self.state.shaped.get_untracked();
        let (design, shop, worked) = parts.finish();
        if newest.is_ok() {
            self.state.finished.set(Some(Arc::new(Finished { design, shop, worked })));
        }
        match newest {
            Ok(newest) if !Arc::ptr_eq(&newest, &of) => self.go_on_soon(),
            _ => self.state.coming.set(false),
        }
    }
}
