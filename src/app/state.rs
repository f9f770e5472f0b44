//! What the page knows: plain data in signals, and the few ways it may change.

use std::sync::Arc;

use leptos::prelude::*;

use super::browser;
use super::notice::{Notice, Notices};
pub use super::on_screen::{Panel, Room, Tab};
use super::remembered::{Choices, ThemeChoice};

use crate::design::entry::Units;
use crate::design::history::History;
use crate::design::{Design, Making, Problem, Shop};
use crate::drawings::HandleId;
use crate::figures::{FiguresError, Shape, Worked, outline_within};
use crate::form::edit::{accepted, with_number};
use crate::form::own_woods::follow_rename;
use crate::form::{Field, Group, shown, shown_in_design};
use crate::shelf::choices::station_on_blank;
use crate::shelf::drafts::Drafts;

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

/// How the names of the drafts of a design's values begin: they go with the design.
pub const VALUE_DRAFTS: &str = "value/";

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

    /// Sets a number of the design. `gesture` is true while a slider or a stepper is swept: one step to undo.
    ///
    /// # Errors
    ///
    /// The sentence that says why not; the design stays as it was.
    pub fn set_number(self, field: Field, value: f64, gesture: bool) -> Result<(), String> {
        let design = self.design.get_untracked();
        let changed = with_number(&design, field, value).map_err(|problem| self.told(&problem))?;
        let path = gesture.then(|| field.path(&design));
        self.moving.set_value(Some(field));
        self.take(changed, path.as_deref());
        self.moving.set_value(None);
        Ok(())
    }

    /// Changes the design as one step, when the change leaves it sound; says why when it would not.
    pub fn change(self, change: impl FnOnce(&mut Design)) {
        match accepted(&self.design.get_untracked(), change) {
            Ok(changed) => self.take(changed, None),
            Err(problem) => self.notices.say(Notice::plain(self.told(&problem))),
        }
    }

    /// Puts a changed design on the bench; `gesture` names what is being dragged or swept.
    pub fn take(self, changed: Design, gesture: Option<&str>) {
        let before = self.design.get_untracked();
        if before == changed {
            return;
        }
        self.history.update(|history| history.before_change(&before, gesture));
        self.design.set(changed);
    }

    /// The finger is lifted.
    pub fn end_gesture(self) {
        self.design.with_untracked(|present| self.history.update(|history| history.end_gesture(present)));
    }

    /// Whether a drag or a sweep is under way.
    pub fn is_sweeping(self) -> bool {
        self.history.with(History::is_mid_gesture)
    }

    /// What was typed in a line and not taken.
    pub fn draft(self, name: &str) -> Option<String> {
        self.drafts.with_untracked(|drafts| drafts.get(name).map(str::to_owned))
    }

    /// Whether something was typed and not taken in a line whose name begins so.
    pub fn has_drafts(self, prefix: &str) -> bool {
        self.drafts.with_untracked(|drafts| drafts.has_any(prefix))
    }

    /// Notes what is typed in a line, or that it is not any more.
    pub fn set_draft(self, name: &str, text: Option<&str>) {
        if self.drafts.with_untracked(|drafts| drafts.get(name) != text) {
            self.drafts.update(|drafts| drafts.set(name, text));
        }
    }

    /// What was typed in the lines whose names begin so is taken, or let go.
    pub fn forget_drafts(self, prefix: &str) {
        if self.has_drafts(prefix) {
            self.drafts.update(|drafts| drafts.forget(prefix));
        }
    }

    /// Something of the steps back and forward.
    pub fn with_history<T>(self, read: impl FnOnce(&History<Design>) -> T) -> T {
        self.history.with_untracked(read)
    }

    /// Brings back the steps of an earlier visit, unless there are newer ones.
    pub fn bring_history(self, history: History<Design>) {
        if !untrack(|| self.can_undo() || self.can_redo()) {
            self.history.set(history);
        }
    }

    /// One step back.
    pub fn undo(self) {
        let earlier = self.history.try_update(|history| history.undo(&self.design.get_untracked()));
        self.bring_back(earlier.flatten());
    }

    /// One step forward again.
    pub fn redo(self) {
        let later = self.history.try_update(|history| history.redo(&self.design.get_untracked()));
        self.bring_back(later.flatten());
    }

    /// What was done at the lathe stays done, whatever is undone at the drawing board.
    fn bring_back(self, design: Option<Design>) {
        if let Some(design) = design {
            let (done, log) = self.design.with_untracked(|now| (now.done.clone(), now.log.clone()));
            self.picked.set(None);
            self.design.set(Design { done, log, ..design });
        }
    }

    /// Notes something beside the design: a tick, a making. It is kept, and is no step to undo. Says why when it would
    /// leave the design unsound.
    pub fn note(self, change: impl FnOnce(&mut Design)) {
        if let Err(why) = self.noted(change) {
            self.notices.say(Notice::plain(why));
        }
    }

    fn noted(self, change: impl FnOnce(&mut Design)) -> Result<(), String> {
        let changed = accepted(&self.design.get_untracked(), change).map_err(|problem| self.told(&problem))?;
        self.design.set(changed);
        Ok(())
    }

    /// Keeps the design on its wood when that is named anew. It is no step to undo, and no step leads back to the old
    /// name: the shop has no wood of that name any more.
    pub fn follow_rename(self, before: &str, after: &str) {
        let follow = |design: &mut Design| follow_rename(design, before, after);
        self.history.update(|history| history.change_throughout(follow));
        self.note(follow);
    }

    /// Adds a making to the log.
    ///
    /// # Errors
    ///
    /// The sentence that says why not; the log stays as it was.
    pub fn add_making(self, making: Making) -> Result<(), String> {
        self.noted(|design| design.log.push(making))
    }

    /// Takes a making out of the log, with a way back.
    pub fn remove_making(self, number: usize) {
        let Some(making) = self.design.with_untracked(|design| design.log.get(number).cloned()) else { return };
        self.note(|design| {
            design.log.remove(number);
        });
        let bring_back = move || {
            let making = making.clone();
            self.note(|design| design.log.insert(number.min(design.log.len()), making));
        };
        self.notices.say(Notice::plain("The making is taken out of the log.").with_action("Undo", bring_back));
    }

    /// Takes what the log offers as the shop's usual error.
    pub fn take_usual_error(self, usual_error_mm: f64) {
        self.shop.update(|shop| shop.limits.usual_error_mm = usual_error_mm);
        self.notices.say(Notice::plain("It is the shop's usual error now."));
    }

    /// Whether there is something to undo.
    pub fn can_undo(self) -> bool {
        self.history.with(History::can_undo)
    }

    /// Whether there is something to redo.
    pub fn can_redo(self) -> bool {
        self.history.with(History::can_redo)
    }

    /// Puts another design on the bench, with nothing to undo.
    pub fn open(self, design: Design) {
        self.picked.set(None);
        self.history.set(History::default());
        self.forget_drafts(VALUE_DRAFTS);
        self.section_mm.update(|station_mm| *station_mm = on_blank(&design, *station_mm));
        self.design.set(design);
        self.room.set(Room::Design);
    }

    /// Opens the values that the rest of the design hangs on.
    pub fn show_first_values(self) {
        self.panel.set(self.design.with_untracked(Panel::first));
    }

    /// Picks a handle, and shows the values it moves.
    pub fn pick(self, handle: HandleId) {
        self.picked.set(Some(handle));
        let HandleId::Part(thing) = handle else { return };
        let field = Field::moved_by(thing);
        let row = self.design.with_untracked(|design| shown_in_design(design, &field.path(design), None));
        if let Some(row) = row
            && let Some(group) = row.group
        {
            self.panel.set(Panel::Values(group));
            browser::show_soon(&browser::input_id(&row.path));
        }
    }

    /// Moves the section to a station, kept on the blank.
    pub fn look_at_section(self, station_mm: f64) {
        self.section_mm.set(self.design.with_untracked(|design| on_blank(design, station_mm)));
    }

    /// Leads to the value that a check names as its cure; `near_mm` is the station that the check is about.
    pub fn show_field(self, path: &str, near_mm: Option<f64>) {
        let Some(row) = self.design.with_untracked(|design| shown(design, path, near_mm)) else { return };
        match row.group {
            None => self.room.set(Room::Shop),
            Some(group) => {
                self.room.set(Room::Design);
                self.panel.set(Panel::Values(group));
            }
        }
        if let Some(thing) = row.picked {
            self.picked.set(Some(HandleId::Part(thing)));
        }
        browser::focus_soon(&browser::input_id(&row.path));
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
