//! One step at the lathe or the bench.

use serde::Serialize;

use crate::design::AxisName;
use crate::figures::checks::Words;
use crate::figures::known::Known;
use crate::figures::support::Support;
use crate::figures::turning::Operation;

/// What kind of work a step is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum StepKind {
    /// Cut the blank, and mark it.
    Blank,
    /// Take the corners off.
    Rough,
    /// Turn the tenon.
    Tenon,
    /// Turn the plug: its disc, or its spigot to fit.
    MakePlug,
    /// Bore the hollow, or hollow it across the grain.
    Bore,
    /// Make the wooden jaws.
    Jaws,
    /// Scrape and sand the hollow.
    Scrape,
    /// Fit the plug.
    FitPlug,
    /// Turn an outside.
    Turn,
    /// Draw where the hollow ends.
    DepthLine,
    /// Mark an axis.
    Mark,
    /// Set the work on another axis.
    Remount,
    /// Take the plug out.
    TakeOutPlug,
    /// Face an end.
    Face,
    /// Part off, or down to the nub.
    Part,
    /// Saw the nub through, the lathe standing still.
    SawNub,
    /// Saw the opening.
    Saw,
    /// Sand through the grits.
    Sand,
    /// Put the finish on.
    Finish,
    /// Sand what was turned, on the lathe.
    SandTurned,
    /// Seal the ends of wet wood.
    Seal,
    /// Wet the wood and sand again.
    RaiseGrain,
    /// Sign it.
    Sign,
    /// Buff the finish.
    Buff,
}

/// A number to work by.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Number {
    /// What it is: "diameter at 70 mm from the bowl end".
    pub what: String,
    /// It as the shop writes lengths, with its unit.
    pub value: String,
    /// It in mm, where it is a length.
    pub mm: Option<f64>,
}

/// A range of speeds, in revolutions per minute.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Speed {
    /// The least: the lathe's lowest.
    pub from_rpm: f64,
    /// The most.
    pub to_rpm: f64,
}

impl Speed {
    /// The range in words, rounded down to tens so that the limit is never passed: "250 to 980 rpm".
    #[must_use]
    pub fn words(&self) -> String {
        let to = ((self.to_rpm / 10.0).floor() * 10.0).max(self.from_rpm);
        if to - self.from_rpm < 1.0 {
            format!("{:.0} rpm, the lathe's lowest", self.from_rpm)
        } else {
            format!("{:.0} to {to:.0} rpm", self.from_rpm)
        }
    }
}

/// How fast the work may turn for one operation of a step.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StepSpeed {
    /// What it is for: "finishing cuts", "bit of 41.3 mm".
    pub what: String,
    /// The operation.
    pub operation: Operation,
    /// The tool.
    pub tool: &'static str,
    /// The speeds, or why none is safe.
    pub range: Known<Speed>,
}

impl StepSpeed {
    /// The speeds in words, or why none is safe.
    #[must_use]
    pub fn words(&self) -> String {
        match &self.range {
            Known::Value(range) => range.words(),
            Known::Missing { why_not } => why_not.clone(),
        }
    }
}

/// One step.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Step {
    /// Its name for the ticks of a design; it stays while other steps come and go.
    pub name: String,
    /// What kind of work it is.
    pub kind: StepKind,
    /// What it is called.
    pub title: String,
    /// What to do.
    pub what: String,
    /// How the work is held.
    pub held: String,
    /// What carries it.
    pub carried: Support,
    /// The axis it turns on; absent when nothing turns under power on an axis of the design.
    pub axis: Option<AxisName>,
    /// Whether it turns on a moved axis, or was turned on one before.
    pub off_centre: bool,
    /// What the lathe is set by: marks with their axis, how wide the work swings, what it clears, where the rest stands.
    pub setting: Vec<Number>,
    /// With which tool.
    pub tool: &'static str,
    /// The numbers to work by.
    pub numbers: Vec<Number>,
    /// The slowest of its speeds; absent when nothing spins, or when one of them is not known.
    pub speed: Option<Speed>,
    /// The speed for each of its operations, in the order of the work; empty when nothing spins.
    pub speeds: Vec<StepSpeed>,
    /// What must be true before going on.
    pub until: Vec<String>,
    /// The cautions that apply.
    pub cautions: Vec<String>,
    /// The cut that this step makes, by its place in the design from 0.
    pub cut: Option<usize>,
    /// The hollow whose wooden jaws are made in this step, or hold the bowl in it, by its place in the design from 0.
    pub jaws: Option<usize>,
    /// How many pieces of work of [`Plan::order`](super::Plan::order) are done when it is done.
    pub state: usize,
}

impl Step {
    /// A step with nothing but its name and what to do.
    pub(super) fn new(kind: StepKind, name: String, title: String, what: String) -> Self {
        Self {
            name,
            kind,
            title,
            what,
            held: String::new(),
            carried: Support::BENCH,
            axis: None,
            off_centre: false,
            setting: Vec::new(),
            tool: "",
            numbers: Vec::new(),
            speed: None,
            speeds: Vec::new(),
            until: Vec::new(),
            cautions: Vec::new(),
            cut: None,
            jaws: None,
            state: 0,
        }
    }

    /// With a length to work by.
    pub(super) fn length(&mut self, words: Words, what: impl Into<String>, mm: f64) {
        self.numbers.push(Number { what: what.into(), value: words.length(mm), mm: Some(mm) });
    }

    /// With a length that the lathe is set by.
    pub(super) fn set_length(&mut self, words: Words, what: impl Into<String>, mm: f64) {
        self.setting.push(Number { what: what.into(), value: words.length(mm), mm: Some(mm) });
    }

    /// With a caution.
    pub(super) fn caution(&mut self, words: &str) {
        self.cautions.push(words.to_owned());
    }

    /// With something else to work by.
    pub(super) fn text(&mut self, what: impl Into<String>, value: impl Into<String>) {
        self.numbers.push(Number { what: what.into(), value: value.into(), mm: None });
    }
}
