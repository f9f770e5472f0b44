//! The slider of a value row.

use leptos::ev;
use leptos::html;
use leptos::prelude::*;

use crate::app::stop_free::Range;
use crate::design::entry::{share, snapped};
use crate::drawings::slide::{Slide, Track};
use crate::form::Row;
use crate::geometry::Point;

/// The slider of a value row.
#[component]
pub fn Slider(
    row: Signal<Row>,
    value: Signal<f64>,
    step: Signal<f64>,
    spoken: Signal<String>,
    range: Option<Signal<Range>>,
    /// The id of the words that say how far it may go.
    describe: String,
    offer: Callback<f64, bool>,
    end: Callback<()>,
) -> impl IntoView {
    let slider = NodeRef::<html::Input>::new();
    let held = RwSignal::new(false);
    let stretch = Memo::new(move |last: Option<&(f64, f64)>| {
        // What is under a finger stays where it is, unless the value leaves it.
        let last = last.filter(|(from, to)| held.get() && (*from..=*to).contains(&value.get()));
        last.copied().unwrap_or_else(|| {
            let about = range.and_then(|range| range.with(|range| range.last));
            row.with(|row| match about {
                Some((low, high)) => row.slider_about(value.get(), low, high),
                None => row.slider(value.get()),
            })
        })
    });
    let it = Sliding { slider, row, value, step, offer, end, stretch, held, slide: StoredValue::new(None) };
    Effect::new(move |_| it.show());
    let percent = |part: f64| format!("{:.2}%", part * 100.0);
    let part = move || {
        let ends = |range: &Range| range.words.as_ref().map(|words| (words.low.0, words.high.0));
        let (from, to) = it.stretch.get();
        let ends = range.and_then(|range| range.with(ends));
        ends.map_or((0.0, 1.0), |(low, high)| (share(low, from, to), share(high, from, to)))
    };
    view! {
        <span
            class="value-slide"
            on:pointerdown=move |event| it.down(&event)
            on:mousedown=move |event: ev::MouseEvent| event.prevent_default()
            on:pointermove=move |event| it.moved(&event)
            on:pointerup=move |_| it.up()
            on:pointercancel=move |_| it.cancelled()
        >
            <input
                class="value-slider"
                node_ref=slider
                type="range"
                aria-label=move || row.with(|row| format!("{}, slider", row.label))
                aria-valuetext=spoken
                aria-describedby=describe
                style=("--stop-free-from", move || percent(part().0))
                style=("--stop-free-past", move || percent(1.0 - part().1))
                on:input=move |_| it.on_input()
                on:change=move |_| end.run(())
            />
        </span>
    }
    .into_any()
}

/// A slider under a finger, the mouse or keys.
#[derive(Clone, Copy)]
struct Sliding {
    slider: NodeRef<html::Input>,
    row: Signal<Row>,
    value: Signal<f64>,
    step: Signal<f64>,
    offer: Callback<f64, bool>,
    end: Callback<()>,
    /// The ends of the slider.
    stretch: Memo<(f64, f64)>,
    /// Whether it is under a finger or the mouse.
    held: RwSignal<bool>,
    slide: StoredValue<Option<Slide>>,
}

impl Sliding {
    /// Gives the slider its ends, its step and its value, in this order: it keeps its value inside the ends it has at the
    /// time.
    fn show(self) {
        if let Some(slider) = self.slider.get() {
            let (from, to) = self.stretch.get();
            slider.set_min(&from.to_string());
            slider.set_max(&to.to_string());
            slider.set_step(&self.step.get().to_string());
            slider.set_value(&self.value.get().to_string());
        }
    }

    /// Offers the step nearest to a wish, inside the bound; whether it is taken.
    fn slide_to(self, wanted: f64) -> bool {
        let bound = self.row.with_untracked(|row| row.bound);
        self.offer.run(snapped(wanted, self.step.get_untracked()).clamp(bound.from, bound.to))
    }

    fn on_input(self) {
        let Some(slider) = self.slider.get_untracked() else { return };
        let wanted = slider.value_as_number();
        if wanted.is_finite() && !self.slide_to(wanted) {
            slider.set_value(&self.value.get_untracked().to_string());
        }
    }

    fn down(self, event: &ev::PointerEvent) {
        let slider = self.slider.get_untracked().filter(|_| event.button() == 0 && event.is_primary());
        let Some(slider) = slider else { return };
        let (from, to) = self.stretch.get_untracked();
        self.held.set(true);
        let track = Track { from, to, width_px: slider.get_bounding_client_rect().width() };
        let (value, place) = (self.value.get_untracked(), place_on(event, &slider));
        if event.pointer_type() != "mouse" {
            return self.slide.set_value(Some(Slide::by_finger(track, value, place)));
        }
        let (begun, at_once) = Slide::by_mouse(track, value, place);
        self.slide.set_value(Some(begun));
        capture(event);
        // The press goes to what lies around the slider: the slider takes the focus as if it had been pressed itself.
        let _ = slider.focus();
        if let Some(wanted) = at_once {
            self.slide_to(wanted);
        }
    }

    fn moved(self, event: &ev::PointerEvent) {
        let Some(slider) = self.slider.get_untracked() else { return };
        let place = place_on(event, &slider);
        if let Some(wanted) = self.slide.try_update_value(|slide| slide.as_mut()?.moved(place)).flatten() {
            self.slide_to(wanted);
        }
    }

    fn up(self) {
        self.held.set(false);
        let dragged = self.slide.try_update_value(Option::take).flatten().filter(Slide::is_dragging);
        if dragged.is_some() {
            self.end.run(());
        }
    }

    /// The browser scrolls or zooms after all.
    fn cancelled(self) {
        if let Some(before) = self.slide.get_value().filter(Slide::is_dragging).map(|slide| slide.before()) {
            self.offer.run(before);
        }
        self.up();
    }
}

fn place_on(event: &ev::PointerEvent, slider: &web_sys::Element) -> Point {
    let corner = slider.get_bounding_client_rect();
    Point::new(f64::from(event.client_x()) - corner.left(), f64::from(event.client_y()) - corner.top())
}

/// Follows a pointer that leaves what it pressed.
fn capture(event: &ev::PointerEvent) {
    let pressed =
        event.current_target().and_then(|target| wasm_bindgen::JsCast::dyn_into::<web_sys::Element>(target).ok());
    if let Some(pressed) = pressed {
        // A pointer that is gone already cannot be followed, and needs not be.
        let _ = pressed.set_pointer_capture(event.pointer_id());
    }
}
