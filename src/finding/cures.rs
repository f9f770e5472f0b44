//! Cures of a check that is not ok: each was tried on the whole design before it is offered.

use std::cell::{Cell, RefCell};

use super::trying::{Judged, Tried, judged};
use super::value::{Value, values};
use crate::design::entry::Units;
use crate::design::{Design, Shop};
use crate::figures::Worked;
use crate::figures::checks::{Check, CheckName, Verdict};
use crate::form::Field;
use crate::form::edit::with_number;
use crate::form::own::follows;
use crate::geometry::at_once;
use crate::geometry::line::order::sort_by_number;

/// The most designs that are worked out in full for the cures of one check: for those of one or two values, and for those
/// of three.
pub const MOST_TRIED: usize = MOST_FOR_TWO + MOST_FOR_THREE;
const MOST_FOR_TWO: usize = 240;
const MOST_FOR_THREE: usize = 240;
/// How many cures are looked for.
const ENOUGH: usize = 3;
/// How often the gap between curing and not is halved.
const HALVINGS: usize = 6;
/// How many of the likeliest values are tried in pairs.
const TOGETHER: usize = 4;
/// How many are tried three together.
const THREE_OF: usize = 6;

/// A change that was tried on the whole design: with it the check is ok, and no other is worse.
#[derive(Clone, Debug)]
pub struct Cure {
    /// What changes, from what to what, and what else comes of it.
    pub words: String,
    /// The design with the change made.
    pub design: Design,
    /// How many values change.
    pub changes: usize,
    /// How much of their sliders the values move, for the order.
    pub moves: f64,
}

/// What came of looking for cures.
#[derive(Clone, Debug)]
pub struct Cures {
    /// The cures found, the one that changes least first.
    pub found: Vec<Cure>,
    /// Where there are none: that there are none, and what has to be given up, in sentences. Else empty.
    pub why_none: String,
    /// How many designs were worked out in full.
    pub tried: usize,
}

/// Looks for what cures a check: one value, or where no one value does it, two together, or three. `breathe` is called as
/// in [`find`](super::find).
///
/// Bounded: see [`MOST_TRIED`]. Each value is tried at growing steps either way over its slider, and the nearest that
/// cures is narrowed down by halving to what the shop reads off a rule: a cure between two steps may be missed, one that
/// is offered is sure.
pub async fn cures(design: &Design, shop: &Shop, name: CheckName, breathe: impl AsyncFn(usize) -> bool) -> Cures {
    let none = || Cures { found: Vec::new(), why_none: String::new(), tried: 0 };
    let Ok(before) = crate::figures::work_out(design, shop) else { return none() };
    let is_it = |check: &&Check| check.name == name && check.verdict != Verdict::Ok;
    let Some(check) = before.checks.iter().find(is_it).cloned() else { return none() };
    let search = CureSearch {
        design,
        shop,
        name,
        before: judged(&before.checks),
        was: before,
        breathe,
        tried: Cell::new(0),
        most: Cell::new(MOST_FOR_TWO),
        price: RefCell::new(None),
    };
    let (follows, values): (Vec<_>, Vec<_>) =
        values(design, &check).into_iter().partition(|value| follows(design, value.field));
    let mut found = search.one_value(&values).await;
    if found.is_empty() {
        // By hand, where no choice of the pattern does it.
        found = search.one_value(&follows).await;
    }
    if found.is_empty() {
        found = search.two_values(&values).await;
    }
    if found.is_empty() {
        found = search.three_values(&values).await;
    }
    sort_by_number(&mut found, |cure| cure.moves);
    let why_none = if found.is_empty() { search.why_none() } else { String::new() };
    Cures { found, why_none, tried: search.tried.get() }
}

/// The same without a pause.
#[must_use]
pub fn cures_at_once(design: &Design, shop: &Shop, name: CheckName) -> Cures {
    at_once(cures(design, shop, name, async |_| true))
}

struct CureSearch<'a, B> {
    design: &'a Design,
    shop: &'a Shop,
    name: CheckName,
    before: Judged,
    was: Worked,
    breathe: B,
    tried: Cell<usize>,
    /// How many designs may be tried.
    most: Cell<usize>,
    /// The least that one value costs which cures the check and makes others worse.
    price: RefCell<Option<Price>>,
}

/// What one value costs that cures the check.
struct Price {
    /// The change, in words.
    words: String,
    /// The checks that it makes worse.
    worse: Vec<&'static str>,
}

impl<B: AsyncFn(usize) -> bool> CureSearch<'_, B> {
    async fn one_value(&self, values: &[Value]) -> Vec<Cure> {
        let mut found = Vec::new();
        for value in values {
            if let Some((to, tried)) = self.nearest(self.design, value).await {
                found.push(self.cure(&[(value, to)], tried));
            }
            if found.len() >= ENOUGH {
                break;
            }
        }
        found
    }

    /// Two values together: the nearest of the first with which the second cures.
    async fn two_values(&self, values: &[Value]) -> Vec<Cure> {
        let movers: Vec<&Value> = values.iter().take(TOGETHER).collect();
        for (i, first) in movers.iter().enumerate() {
            for to in first.places() {
                let Ok(moved) = with_number(self.design, first.field, first.rounded(to, self.shop)) else {
                    continue;
                };
                for second in &movers[i + 1..] {
                    if let Some((second_to, tried)) = self.nearest(&moved, second).await {
                        let both = [(*first, first.rounded(to, self.shop)), (*second, second_to)];
                        return vec![self.cure(&both, tried)];
                    }
                }
            }
        }
        Vec::new()
    }

    /// Three values together: each in turn is moved to where the whole is least bad, and then back as far as still cures.
    async fn three_values(&self, values: &[Value]) -> Vec<Cure> {
        self.most.set(self.tried.get() + MOST_FOR_THREE);
        let mut movers: Vec<&Value> = values.iter().take(THREE_OF).collect();
        let (mut design, mut changes) = (self.design.clone(), Vec::new());
        for _ in 0..3 {
            let Some((mover, to, tried)) = self.least_bad(&design, &movers).await else { return Vec::new() };
            let value = movers.remove(mover);
            changes.push((value, to));
            let cures = tried.cures(self.name, &self.before);
            design = tried.design.clone();
            if cures {
                return vec![self.drawn_back(changes, tried).await];
            }
        }
        Vec::new()
    }

    /// Of one value moved, the move that leaves the least wrong: which of the values, to where, and what comes of it.
    async fn least_bad(&self, design: &Design, movers: &[&Value]) -> Option<(usize, f64, Tried)> {
        let mut best: Option<(f64, (usize, f64, Tried))> = None;
        for (mover, value) in movers.iter().enumerate() {
            for to in value.places() {
                let to = value.rounded(to, self.shop);
                let Some(tried) = self.work_out(design, value.field, to).await else { continue };
                let bad = tried.badness(self.name, &self.before);
                if best.as_ref().is_none_or(|(least, _)| bad < *least) {
                    best = Some((bad, (mover, to, tried)));
                }
            }
        }
        best.map(|(_, best)| best)
    }

    /// A cure with each of its values moved back, the last first, as far as it still cures.
    async fn drawn_back(&self, mut changes: Vec<(&Value, f64)>, mut tried: Tried) -> Cure {
        for (value, to) in changes.iter_mut().rev() {
            (*to, tried) = self.narrowed(&tried.design.clone(), value, *to, tried).await;
        }
        self.cure(&changes, tried)
    }

    /// The value nearest to where it is that cures, with what comes of it.
    async fn nearest(&self, design: &Design, value: &Value) -> Option<(f64, Tried)> {
        for to in value.places() {
            let to = value.rounded(to, self.shop);
            if let Some(tried) = self.try_on(design, value, to).await {
                return Some(self.narrowed(design, value, to, tried).await);
            }
        }
        None
    }

    /// A value that cures, moved back toward where it is by halving.
    async fn narrowed(&self, design: &Design, value: &Value, to: f64, tried: Tried) -> (f64, Tried) {
        let (mut to, mut tried, mut fails) = (to, tried, value.now);
        for _ in 0..HALVINGS {
            let middle = value.rounded(f64::midpoint(fails, to), self.shop);
            if (middle - to).abs() < 1e-9 || (middle - fails).abs() < 1e-9 {
                break;
            }
            match self.try_on(design, value, middle).await {
                Some(better) => (to, tried) = (middle, better),
                None => fails = middle,
            }
        }
        (to, tried)
    }

    /// The design with this number, when the check is then ok and no other worse.
    async fn try_on(&self, design: &Design, value: &Value, to: f64) -> Option<Tried> {
        let tried = self.work_out(design, value.field, to).await?;
        let worse = tried.worse(&self.before);
        if !tried.is_ok(self.name) {
            return None;
        }
        if !worse.is_empty() && std::ptr::eq(design, self.design) {
            self.note_price(value, to, worse);
            return None;
        }
        worse.is_empty().then_some(tried)
    }

    /// The design with this number, worked out; `None` where there is no such piece, or enough were tried.
    async fn work_out(&self, design: &Design, field: Field, to: f64) -> Option<Tried> {
        let changed = with_number(design, field, to).ok()?;
        if self.tried.get() >= self.most.get() || !(self.breathe)(self.tried.get()).await {
            self.most.set(self.tried.get());
            return None;
        }
        self.tried.set(self.tried.get() + 1);
        Tried::of(changed, self.shop)
    }

    /// Keeps the change that makes the fewest other checks worse.
    fn note_price(&self, value: &Value, to: f64, worse: Vec<&'static str>) {
        let mut price = self.price.borrow_mut();
        if price.as_ref().is_none_or(|known| worse.len() < known.worse.len()) {
            *price = Some(Price { words: self.change(value, to), worse });
        }
    }

    fn why_none(&self) -> String {
        let none =
            "No value cures it without making another check worse, nor do two or three of the likeliest together.";
        match &*self.price.borrow() {
            Some(Price { words, worse }) => {
                let worse = worse.join(" and ");
                format!("{none} {words} cures it, but makes {worse} worse: give one of the two up.")
            }
            None => format!("{none} Want less tilt, a shorter handle or a wider blank."),
        }
    }

    /// A change in words, from what to what.
    fn change(&self, value: &Value, to: f64) -> String {
        let units = Units::from(self.shop);
        let show = |number: f64| units.show_with_unit(number, value.row.quantity);
        format!("{} {} to {}", value.called, show(value.now), show(to))
    }

    fn cure(&self, changes: &[(&Value, f64)], tried: Tried) -> Cure {
        let moves = changes.iter().map(|(value, to)| (to - value.now).abs() / value.span()).sum();
        let all: Vec<String> = changes.iter().map(|(value, to)| self.change(value, *to)).collect();
        let words = format!("{}{}", all.join(" and "), tried.differs_from(&self.was, self.shop));
        Cure { words, design: tried.design, changes: changes.len(), moves }
    }
}
