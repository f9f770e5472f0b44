//! Say what you want: a short form, the search, and the piece it finds or what works instead.

use leptos::prelude::*;

use super::groups::wood::Choice;
use super::keeping::keeping;
use super::searching::{Searching, Stage};
use super::state::{State, state};
use super::text_field::text_field;
use super::typing::drafted;
use crate::beside::{Found, Part, Work};
use crate::design::Shop;
use crate::design::pattern::HandleEnd;
use crate::figures::tables::Content;
use crate::figures::tables::measures::MM3_PER_ML;
use crate::figures::wood::wood_names;
use crate::finding::{Asked, CountedIn, KindAsked, SpreaderAsked, in_place_of};

/// How the names of the drafts of this form begin, for a new piece and for the one on the bench.
const DRAFTS: &str = "shop/wanted/";
const DRAFTS_OF_DESIGN: &str = "value/wanted/";
/// The two answers about bits, as they are called on screen.
const BITS: [&str; 2] = ["Only bits I own", "Any bit the lathe can drive"];

/// The lines of the form, as they are typed.
#[derive(Clone, Copy)]
struct Lines {
    kind: RwSignal<String>,
    holds: RwSignal<String>,
    counted_in: RwSignal<String>,
    contents: RwSignal<String>,
    species: RwSignal<String>,
    side: RwSignal<String>,
    length: RwSignal<String>,
    tilt: RwSignal<String>,
    handle: RwSignal<String>,
    end: RwSignal<String>,
    bits: RwSignal<String>,
    spreader: SpreaderLines,
}

/// Those of a spreader.
#[derive(Clone, Copy)]
struct SpreaderLines {
    length: RwSignal<String>,
    blade: RwSignal<String>,
    width: RwSignal<String>,
    thickness: RwSignal<String>,
}

impl Lines {
    /// As is usual in the shop, or as the design on the bench was wanted.
    fn new(state: State, of_design: bool) -> Self {
        let holds_mm3 = || state.finished(|it| it.worked.figures.summary.holds_ml.map(|ml| ml * MM3_PER_ML)).flatten();
        let wanted = |shop: &Shop| {
            of_design.then(|| state.design.with(|design| Asked::of_design(design, shop, holds_mm3()))).flatten()
        };
        let usual = untrack(|| state.shop.with(|shop| wanted(shop).unwrap_or_else(|| Asked::usual(shop))));
        let drafts = if of_design { DRAFTS_OF_DESIGN } else { DRAFTS };
        let line = |name: &str, proposed: String| drafted(format!("{drafts}{name}"), proposed);
        Self {
            kind: line("kind", usual.kind.name().to_owned()),
            holds: line("holds", usual.holds),
            counted_in: line("counted in", usual.counted_in.name().to_owned()),
            contents: line("contents", usual.contents),
            species: line("species", usual.species),
            side: line("side", usual.side),
            length: line("length", usual.length),
            tilt: line("tilt", usual.tilt),
            handle: line("handle", usual.handle),
            end: line("end", usual.handle_end.name().to_owned()),
            bits: line("bits", BITS[usize::from(!usual.own_bits_only)].to_owned()),
            spreader: SpreaderLines {
                length: line("whole length", usual.spreader.length),
                blade: line("blade", usual.spreader.blade),
                width: line("blade width", usual.spreader.width),
                thickness: line("blade thickness", usual.spreader.thickness),
            },
        }
    }

    /// The kind of piece that is picked.
    fn kind(self) -> KindAsked {
        self.kind.with(|kind| KindAsked::named(kind))
    }

    fn asked(self) -> Asked {
        untrack(|| Asked {
            kind: KindAsked::named(&self.kind.get()),
            holds: self.holds.get(),
            counted_in: CountedIn::named(&self.counted_in.get()),
            contents: self.contents.get(),
            species: self.species.get(),
            side: self.side.get(),
            length: self.length.get(),
            tilt: self.tilt.get(),
            handle: self.handle.get(),
            handle_end: HandleEnd::named(&self.end.get()),
            own_bits_only: self.bits.get() == BITS[0],
            spreader: SpreaderAsked {
                length: self.spreader.length.get(),
                blade: self.spreader.blade.get(),
                width: self.spreader.width.get(),
                thickness: self.spreader.thickness.get(),
            },
        })
    }
}

/// What came of a search.
#[derive(Clone)]
struct Answer {
    /// A piece as wanted.
    found: Option<Found>,
    /// What of it cannot be had together; empty where it was found.
    why_not: String,
    /// The nearest pieces that work.
    instead: Vec<Found>,
}

/// Begins a search for what is typed.
fn begin(state: State, searching: Searching<Answer>, asked: Asked) -> Result<(), String> {
    let shop = state.shop.get_untracked();
    asked.check(&shop)?;
    searching.begin(Work::Find { asked, shop }, |part| match part {
        Part::Answer { found, why_not, instead } => Some(Answer { found: found.map(|found| *found), why_not, instead }),
        _ => None,
    });
    Ok(())
}

/// The form, and what came of it.
#[component]
pub fn SayWhatYouWant(
    /// For the design on the bench: told once a piece is taken in its place. Without it, a piece becomes a design of its own.
    #[prop(optional)]
    changed: Option<Callback<()>>,
    /// For a new design: told when the turner wants nothing after all.
    #[prop(optional)]
    cancel: Option<Callback<()>>,
) -> impl IntoView {
    let state = state();
    let of_design = changed.is_some();
    let lines = Lines::new(state, of_design);
    let searching = Searching::new();
    let reason = RwSignal::new(None::<String>);
    let start = move |_| reason.set(begin(state, searching, lines.asked()).err());
    let unit = move || state.units().name(crate::design::units::Quantity::Length);
    let in_unit = move |what: &str| format!("{what}, {}", untrack(unit));
    view! {
        <section class="card" aria-labelledby="wanted">
            <h2 id="wanted" tabindex="-1">{if of_design { "What it is for" } else { "Say what you want" }}</h2>
            <p>{if of_design {
                "Skewline looks for a scoop that works from your wood, with your bits, and puts it in place of this one. What is yours follows again; Undo brings it back."
            } else {
                "Skewline looks for a piece that works from your wood, with your tools."
            }}</p>
            {(!of_design).then(|| view! {
                <Choice label="What it is" names=fixed(&KindAsked::ALL.map(KindAsked::name)) current=lines.kind.into() chosen=set(lines.kind) />
            })}
            {move || wanted_of_kind(lines, in_unit).into_any()}
            <Choice label="Wood" names=Signal::derive(move || state.shop.with(wood_names)) current=lines.species.into() chosen=set(lines.species) />
            {text_field(in_unit("Side of your blank, or empty for the least that will do"), lines.side, "text")}
            {text_field(in_unit("Length of your blank, or empty"), lines.length, "text")}
            {move || (lines.kind() == KindAsked::BoredEnd).then(|| view! {
                <Choice label="Bored with" names=fixed(&BITS) current=lines.bits.into() chosen=set(lines.bits) />
            })}
            <p class="value-reason" role="alert">{move || reason.get()}</p>
            {move || came_of(searching, start, changed)}
            {cancel.map(|cancel| {
                let cancel = move |_| {
                    state.forget_drafts(DRAFTS);
                    cancel.run(());
                };
                view! { <button type="button" class="button quiet" on:click=cancel>"Cancel"</button> }
            })}
        </section>
    }
    .into_any()
}

/// Takes what is picked from a list as its line.
fn set(line: RwSignal<String>) -> Callback<String> {
    Callback::new(move |chosen: String| line.set(chosen))
}

/// The names of a list that does not change.
fn fixed(names: &[&str]) -> Signal<Vec<String>> {
    Signal::stored(names.iter().map(|name| (*name).to_owned()).collect())
}

/// The lines that ask for what a kind of piece is wanted by. `in_unit` puts the unit of lengths after a name.
fn wanted_of_kind(lines: Lines, in_unit: impl Fn(&str) -> String) -> impl IntoView {
    if lines.kind() == KindAsked::Spreader {
        let SpreaderLines { length, blade, width, thickness } = lines.spreader;
        return view! {
            {text_field(in_unit("Length of the whole piece"), length, "text")}
            {text_field(in_unit("Length of the blade"), blade, "text")}
            {text_field(in_unit("Width of the blade"), width, "text")}
            {text_field(in_unit("Thickness of the blade in its middle"), thickness, "text")}
        }
        .into_any();
    }
    let ends: Vec<&str> = lines.kind().handle_ends().iter().map(|end| end.name()).collect();
    let contents: Vec<&str> = Content::all().map(|content| content.name).collect();
    let handle = untrack(|| state().shop.with(Asked::handle_range));
    view! {
        {text_field("It should hold, level with its handle", lines.holds, "text")}
        <Choice label="Counted in" names=fixed(&CountedIn::ALL.map(CountedIn::name)) current=lines.counted_in.into() chosen=set(lines.counted_in) />
        <Choice label="Of" names=fixed(&contents) current=lines.contents.into() chosen=set(lines.contents) />
        {text_field("Tilt of the handle in degrees, or empty for as much as goes", lines.tilt, "decimal")}
        {text_field(format!("Length of the handle, {handle}"), lines.handle, "text")}
        <Choice label="It ends in" names=fixed(&ends) current=lines.end.into() chosen=set(lines.end) />
    }
    .into_any()
}

/// The button that begins, the search, or its answer.
fn came_of(
    searching: Searching<Answer>,
    start: impl Fn(leptos::ev::MouseEvent) + Copy + 'static,
    changed: Option<Callback<()>>,
) -> AnyView {
    let again = move |name: &'static str| {
        view! { <div class="buttons"><button type="button" class="button" on:click=start>{name}</button></div> }
    };
    match searching.stage() {
        Stage::Idle => again("Find a piece").into_any(),
        Stage::Searching(trials) => view! {
            <p role="status">{format!("Looking: {trials} designs worked out so far\u{2026}")}</p>
            <div class="buttons">
                <button type="button" class="button" on:click=move |_| searching.stop()>"Stop"</button>
            </div>
        }
        .into_any(),
        Stage::Answered(answer) => {
            let found = answer.found.clone().map(|found| {
                view! {
                    <h3>"This one works: every check is OK"</h3>
                    {offered(&found, "Open it", changed)}
                }
            });
            let instead = (!answer.instead.is_empty()).then(|| {
                view! {
                    <h3>"These work"</h3>
                    {answer.instead.iter().map(|offer| offered(offer, "Open this one", changed)).collect_view()}
                }
            });
            view! {
                <div role="status">
                    <p>{answer.why_not.clone()}</p>
                    {found}
                    {instead}
                </div>
                {again("Look again")}
            }
            .into_any()
        }
    }
}

/// One piece that works, to be opened as a design of its own, or put in place of the one on the bench.
fn offered(offer: &Found, open: &'static str, changed: Option<Callback<()>>) -> AnyView {
    let (state, keeping, offer) = (state(), keeping(), offer.clone());
    let words = offer.words.clone();
    let take = move |_| match changed {
        None => keeping.open_new(state, offer.design.clone()),
        Some(changed) => {
            state.picked.set(None);
            state.change(|design| *design = in_place_of(&offer.design, design));
            state.forget_drafts(DRAFTS_OF_DESIGN);
            changed.run(());
        }
    };
    view! {
        <div class="offer">
            <p>{words}</p>
            <button type="button" class="button" on:click=take>
                {if changed.is_some() { "Change this design" } else { open }}
            </button>
        </div>
    }
    .into_any()
}
