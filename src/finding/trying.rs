//! A changed design worked out in full, held against the one before.

use std::collections::BTreeMap;

use crate::design::{Design, Shop};
use crate::figures::checks::{Check, CheckName, Verdict, Words};
use crate::figures::tables::measures::MM3_PER_ML;
use crate::figures::{Worked, work_out};

/// The worst verdict of every check, by name.
pub(super) type Judged = BTreeMap<&'static str, Verdict>;

/// The worst verdict of every check.
pub(super) fn judged(checks: &[Check]) -> Judged {
    let mut all = Judged::new();
    for check in checks {
        let worst = all.entry(check.name.title()).or_insert(Verdict::Ok);
        *worst = (*worst).max(check.verdict);
    }
    all
}

/// A changed design, worked out.
pub(super) struct Tried {
    pub design: Design,
    worked: Worked,
}

/// What a check that is missed counts for, beside how far it is missed; the most that counts for; and the least limit that
/// shares are taken of.
const A_MISS: f64 = 0.25;
const MOST_MISSING: f64 = 4.0;
const LEAST_LIMIT: f64 = 1.0;

/// Weights and measures that differ by less are not told, in g and mL.
const SAME_G: f64 = 1.0;
const SAME_ML: f64 = 0.5;

impl Tried {
    /// `None` where the design has no figures.
    pub fn of(design: Design, shop: &Shop) -> Option<Self> {
        let worked = work_out(&design, shop).ok()?;
        Some(Self { design, worked })
    }

    /// Whether this check is ok, and no other worse than before.
    pub fn cures(&self, name: CheckName, before: &Judged) -> bool {
        self.is_ok(name) && self.worse(before).is_empty()
    }

    /// Whether this check is ok.
    pub fn is_ok(&self, name: CheckName) -> bool {
        judged(&self.worked.checks).get(name.title()) == Some(&Verdict::Ok)
    }

    /// The titles of the checks that are worse than before.
    pub fn worse(&self, before: &Judged) -> Vec<&'static str> {
        let now = judged(&self.worked.checks);
        now.into_iter().filter(|(title, verdict)| *verdict > was(before, title)).map(|(title, _)| title).collect()
    }

    /// How far from a cure it is: the shares of their limits by which this check, and those that are worse than before, miss
    /// them, the worst of each name. A check without a number counts as missing all of it.
    pub fn badness(&self, name: CheckName, before: &Judged) -> f64 {
        let is_bad = |check: &&Check| {
            let title = check.name.title();
            check.verdict != Verdict::Ok && (check.name == name || check.verdict > was(before, title))
        };
        let mut worst: BTreeMap<&'static str, f64> = BTreeMap::new();
        for check in self.worked.checks.iter().filter(is_bad) {
            let missing = check
                .value
                .zip(check.limit)
                .map_or(1.0, |(value, limit)| ((limit - value).abs() / limit.abs().max(LEAST_LIMIT)).min(MOST_MISSING));
            let known = worst.entry(check.name.title()).or_default();
            *known = known.max(A_MISS + missing);
        }
        worst.values().sum()
    }

    /// What else differs from the design before, as the end of a sentence: "; 60 g heavier, holds 3 mL less".
    pub fn differs_from(&self, was: &Worked, shop: &Shop) -> String {
        let words = Words::of(shop);
        let weight = |worked: &Worked| worked.figures.blank.weight.value().map(|weight| weight.finished_g);
        let mut all = Vec::new();
        if let Some((now, then)) = weight(&self.worked).zip(weight(was))
            && (now - then).abs() >= SAME_G
        {
            all.push(format!("{:.0} g {}", (now - then).abs(), if now > then { "heavier" } else { "lighter" }));
        }
        let holds = |worked: &Worked| worked.figures.summary.holds_ml;
        if let Some((now, then)) = holds(&self.worked).zip(holds(was))
            && (now - then).abs() >= SAME_ML
        {
            let by = words.volume((now - then).abs() * MM3_PER_ML);
            all.push(format!("holds {by} {}", if now > then { "more" } else { "less" }));
        }
        if all.is_empty() { String::new() } else { format!("; {}", all.join(", ")) }
    }
}

fn was(before: &Judged, title: &str) -> Verdict {
    before.get(title).copied().unwrap_or(Verdict::Ok)
}
