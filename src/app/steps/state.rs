//! What the page knows of the steps: the plan of the design on the bench, and which step is looked at.

use std::sync::Arc;

use leptos::prelude::*;

use crate::app::later::later_part;
use crate::app::notice::Notice;
use crate::app::state::{Finished, State, state};
use crate::figures::plan::{Plan, PlanError, Step, plan};

/// The plan, or why there is none.
pub type Planned = Result<Plan, PlanError>;

/// The steps of the design on the bench.
#[derive(Clone, Copy)]
pub struct Steps {
    state: State,
    /// The plan. Worked out only while something shows it.
    plan: Memo<Arc<Option<Planned>>>,
    /// The step that was opened by hand; none for the first that is not ticked.
    opened: RwSignal<Option<usize>>,
}

impl Steps {
    /// Follows the design on the bench.
    pub fn new(state: State) -> Self {
        let plan = Memo::new(move |_| {
            Arc::new(state.finished(|Finished { design, shop, worked }| plan(design, worked, shop)))
        });
        Self { state, plan, opened: RwSignal::new(None) }
    }

    /// Something of the plan; `None` when there is no plan.
    pub fn with_plan<T>(self, read: impl FnOnce(&Plan) -> T) -> Option<T> {
        self.with_planned(|planned| planned.as_ref().ok().map(read)).flatten()
    }

    /// Something of the plan, or of why it cannot be made; `None` while the design has no figures.
    pub fn with_planned<T>(self, read: impl FnOnce(&Planned) -> T) -> Option<T> {
        self.plan.with(|plan| plan.as_ref().as_ref().map(read))
    }

    /// Something of a step; `None` when there is no such step.
    pub fn with_step<T>(self, number: usize, read: impl FnOnce(&Step) -> T) -> Option<T> {
        self.with_plan(|plan| plan.steps.get(number).map(read)).flatten()
    }

    /// Why there is no plan.
    pub fn why_not(self) -> Option<String> {
        match self.with_planned(|planned| planned.as_ref().err().map(ToString::to_string)) {
            Some(why) => why,
            None => self.state.why_no_figures(),
        }
    }

    /// How many steps there are.
    pub fn count(self) -> usize {
        self.with_plan(|plan| plan.steps.len()).unwrap_or(0)
    }

    /// Whether a step is ticked.
    pub fn is_done(self, number: usize) -> bool {
        self.with_step(number, |step| self.state.design.with(|design| design.done.contains(&step.name)))
            .unwrap_or(false)
    }

    /// How many steps are ticked.
    pub fn done_count(self) -> usize {
        (0..self.count()).filter(|number| self.is_done(*number)).count()
    }

    /// The step that is looked at: the one opened by hand, else the first that is not ticked.
    pub fn open(self) -> usize {
        let count = self.count();
        let first = || (0..count).find(|number| !self.is_done(*number)).unwrap_or(count.saturating_sub(1));
        self.opened.get().filter(|number| *number < count).unwrap_or_else(first)
    }

    /// The step that was opened by hand, for the address of the page.
    pub fn opened(self) -> RwSignal<Option<usize>> {
        self.opened
    }

    /// Looks at a step.
    pub fn look_at(self, number: usize) {
        self.opened.set(Some(number.min(untrack(|| self.count()).saturating_sub(1))));
    }

    /// Ticks a step or takes its tick away. The tick is kept with the design and is no step to undo.
    pub fn tick(self, number: usize, done: bool) {
        let Some(name) = untrack(|| self.with_step(number, |step| step.name.clone())) else { return };
        self.state.note(|design| {
            design.done.retain(|other| *other != name);
            if done {
                design.done.push(name);
            }
        });
    }

    /// Takes every tick away, with a way back.
    pub fn start_again(self) {
        let before = self.state.design.with_untracked(|design| design.done.clone());
        if before.is_empty() {
            return;
        }
        self.state.note(|design| design.done.clear());
        self.opened.set(None);
        let state = self.state;
        let bring_back = move || state.note(|design| design.done.clone_from(&before));
        self.state.notices.say(Notice::plain("Every tick is taken away.").with_action("Undo", bring_back));
    }
}

/// The steps, from any component.
pub fn steps() -> Steps {
    let make = || Steps::new(state());
    later_part().only(make).unwrap_or_else(make)
}
