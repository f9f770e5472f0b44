//! What the page knows: plain data in signals, and the few ways it may change.

mod changes;
mod drafts;
mod going;
mod log;

use std::sync::Arc;

use leptos::prelude::*;

use super::notice::Notices;
pub use super::on_screen::{Panel, Room, Tab};
use super::remembered::{Choices, ThemeChoice};

use crate::design::entry::Units;
use crate::design::history::History;
use crate::design::{Design, Problem, Shop};
use crate::drawings::HandleId;
use crate::figures::{FiguresError, Shape, Worked, outline_within};
use crate::form::{Field, Group};
use crate::shelf::choices::station_on_blank;
use crate::shelf::drafts::Drafts;
pub use drafts::VALUE_DRAFTS;

/// The shape of a design, or why it has none.
pub type Shaped = Result<Arc<Shape>, Arc<FiguresError>>;

/// How the work on the figures stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Effort {
    /// It is done, or takes a moment.
    Brief,
    /// It takes long; so many percent are done.
    Long(u8),
    /// It was stopped: no figures are known.
    Stopped,
    /// There is too much in the design: no figures will be known.
    TooBig,
}

/// A shape as it was begun with, and the whole of it.
type Begun = (Arc<Shape>, Arc<Shape>);

/// All figures, and what they are of.
pub struct Finished {
    /// The design, without ticks and log.
    pub design: Design,
    /// The shop.
    pub shop: Shop,
    /// The figures and checks.
    pub worked: Worked,
}

/// The work on a shape that the page does at once, in units: that of a common piece many times over, and no more than a
/// finger notices. What takes more is worked out in slices.
pub const AT_ONCE: u64 = 12_000_000;

/// Adds what of a shape comes with the later part of the page.
pub type Completes = fn(Shape) -> Shape;

/// Everything the components share.
#[derive(Clone, Copy)]
pub struct State {
    /// The design on the bench.
    pub design: RwSignal<Design>,
    /// The shop.
    pub shop: RwSignal<Shop>,
    /// The design without ticks and log, which change nothing of the piece.
    pub made: Memo<Design>,
    /// Its shape: worked out at once, the walls once the later part is here.
    pub shaped: Memo<Shaped>,
    /// Adds the walls to a shape, once the later part is here.
    pub completes: RwSignal<Option<Completes>>,
    /// The shape as it was when its first frame was painted: for all but the side view, which follows the finger.
    pub settled: RwSignal<Option<Arc<Shape>>>,
    /// Every figure and check: of the design as it was a moment ago while a value is swept, and none at first.
    pub finished: RwSignal<Option<Arc<Finished>>>,
    /// Whether the figures are still coming: those on screen are of the design as it was, or none yet.
    pub coming: RwSignal<bool>,
    /// How the work on the figures stands.
    pub effort: RwSignal<Effort>,
    /// The last shape that was worked out in slices.
    pub whole: RwSignal<Option<Begun>>,
    /// Whether nothing was kept when the page opened, and nothing was done since.
    pub first_visit: RwSignal<bool>,
    /// Whether the shelf opens with the form for a new design.
    pub wants_new: RwSignal<bool>,
    /// Where the page is.
    pub room: RwSignal<Room>,
    /// What the panel shows.
    pub panel: RwSignal<Panel>,
    /// The drawing shown on a narrow screen.
    pub tab: RwSignal<Tab>,
    /// The picked handle: a node, a point, an axis.
    pub picked: RwSignal<Option<HandleId>>,
    /// The station of the section, in mm.
    pub section_mm: RwSignal<f64>,
    /// Light, dark, or as the device.
    pub theme: RwSignal<ThemeChoice>,
    /// Whether the device is set to dark.
    pub device_dark: RwSignal<bool>,
    /// Whether the screen is wide enough for three columns.
    pub wide: RwSignal<bool>,
    /// What is said at the foot of the page.
    pub notices: Notices,
    /// What was typed and not taken yet.
    pub drafts: RwSignal<Drafts>,
    /// Counts up with whatever another tab has brought.
    elsewhere: RwSignal<u32>,
    /// The field that was set last.
    pub moving: StoredValue<Option<Field>>,
    history: RwSignal<History<Design>>,
}

impl State {
    /// The state at first open.
    pub fn new(design: Design, shop: Shop, choices: &Choices) -> Self {
        let section_mm = on_blank(&design, choices.section_mm);
        let design = RwSignal::new(design);
        let shop = RwSignal::new(shop);
        let made =
            Memo::new(move |_| design.with(|design| Design { done: Vec::new(), log: Vec::new(), ..design.clone() }));
        let completes = RwSignal::new(None::<Completes>);
        let outline = move || made.with(|made| shop.with(|shop| outline_within(made, shop, AT_ONCE)));
        let shape = move || {
            outline().map(|outline| match completes.get() {
                Some(complete) => complete(outline),
                None => outline,
            })
        };
        // News even where the shape is the same: the shop's settings decide more than that.
        let shaped = Memo::new_with_compare(move |_| shape().map(Arc::new).map_err(Arc::new), |_, _| true);
        Self {
            design,
            shop,
            made,
            shaped,
            completes,
            settled: RwSignal::new(None),
            finished: RwSignal::new(None),
            coming: RwSignal::new(true),
            effort: RwSignal::new(Effort::Brief),
            whole: RwSignal::new(None),
            first_visit: RwSignal::new(false),
            wants_new: RwSignal::new(false),
            room: RwSignal::new(Room::Design),
            panel: RwSignal::new(Panel::Values(Group::Handle)),
            tab: RwSignal::new(Tab::Side),
            picked: RwSignal::new(None),
            section_mm: RwSignal::new(section_mm),
            theme: RwSignal::new(choices.theme),
            device_dark: RwSignal::new(false),
            wide: RwSignal::new(false),
            notices: Notices::default(),
            drafts: RwSignal::new(Drafts::default()),
            elsewhere: RwSignal::new(0),
            moving: StoredValue::new(None),
            history: RwSignal::new(History::default()),
        }
    }

    /// Something of the shape; `None` while the design has none.
    pub fn shape<T>(self, read: impl FnOnce(&Shape) -> T) -> Option<T> {
        self.whole.with(|whole| {
            self.shaped.with(|shaped| {
                let shape = shaped.as_ref().ok()?;
                let whole = whole.as_ref().filter(|(begun, _)| Arc::ptr_eq(begun, shape));
                Some(read(whole.map_or(shape, |(_, whole)| whole)))
            })
        })
    }

    /// As [`shape`](Self::shape), without watching for changes.
    pub fn shape_untracked<T>(self, read: impl FnOnce(&Shape) -> T) -> Option<T> {
        untrack(|| self.shape(read))
    }

    /// Something of the shape a frame later; `None` while the design has none.
    pub fn settled<T>(self, read: impl FnOnce(&Shape) -> T) -> Option<T> {
        self.settled.with(|settled| settled.as_deref().map(read))
    }

    /// Something of the figures and what they are of; `None` while the design has none.
    pub fn finished<T>(self, read: impl FnOnce(&Finished) -> T) -> Option<T> {
        self.finished.with(|finished| finished.as_deref().map(read))
    }

    /// Something of the figures; `None` while the design has none.
    pub fn figure<T>(self, read: impl FnOnce(&Worked) -> T) -> Option<T> {
        self.finished(|finished| read(&finished.worked))
    }

    /// Why the design has no figures; `None` when it has, or will have them in a moment.
    pub fn why_no_figures(self) -> Option<String> {
        let told = |error: &FiguresError| self.design.with(|design| error.told(design, self.units()));
        self.shaped.with(|shaped| shaped.as_ref().err().map(|error| told(error)))
    }

    /// Whether the screen is dark: by choice, or because the device is.
    pub fn dark(self) -> bool {
        match self.theme.get() {
            ThemeChoice::Device => self.device_dark.get(),
            ThemeChoice::Light => false,
            ThemeChoice::Dark => true,
        }
    }

    /// Units and rounding of the screen.
    pub fn units(self) -> Units {
        self.shop.with(|shop| Units::from(shop))
    }

    /// What changes next is brought by another tab.
    pub fn hear_of_elsewhere(self) {
        self.elsewhere.update(|count| *count = count.wrapping_add(1));
    }

    /// Runs the deed whenever the value has changed by anything done in this tab. What another tab brings does not count:
    /// it must not take from under the fingers what is being typed here.
    pub fn when_changed_here<T: Clone + PartialEq + Send + Sync + 'static>(
        self,
        value: Signal<T>,
        deed: impl Fn() + Send + Sync + 'static,
    ) {
        Effect::new(move |before: Option<(T, u32)>| {
            let now = (value.get(), self.elsewhere.get());
            if before.is_some_and(|before| before.0 != now.0 && before.1 == now.1) {
                deed();
            }
            now
        });
    }

    /// A problem in words, in the units of the screen.
    pub fn told(self, problem: &Problem) -> String {
        problem.told(untrack(|| self.units()))
    }
}

/// The station of a section, kept on the blank.
fn on_blank(design: &Design, station_mm: f64) -> f64 {
    station_on_blank(station_mm, design.blank.length_mm)
}

/// The state, from any component.
pub fn state() -> State {
    expect_context()
}
