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
        let now = judged(&self.worked.checks);
        let is_worse = |(name, verdict): (&&str, &Verdict)| *verdict > before.get(name).copied().unwrap_or(Verdict::Ok);
        now.get(name.title()) == Some(&Verdict::Ok) && !now.iter().any(is_worse)
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
