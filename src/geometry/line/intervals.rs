//! Sets of stretches along a line.

use smallvec::SmallVec;

/// Disjoint closed stretches along a line, in rising order. Stretches of no length are dropped.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Intervals(SmallVec<[(f64, f64); 4]>);

impl Intervals {
    /// No stretch.
    #[must_use]
    pub fn none() -> Self {
        Self::default()
    }

    /// The whole line.
    #[must_use]
    pub fn all() -> Self {
        Self::one(f64::NEG_INFINITY, f64::INFINITY)
    }

    /// One stretch; none when it is empty or not a number.
    #[must_use]
    pub fn one(from: f64, to: f64) -> Self {
        let mut set = Self::none();
        if from < to {
            set.0.push((from, to));
        }
        set
    }

    /// The stretches, rising.
    pub fn iter(&self) -> impl DoubleEndedIterator<Item = (f64, f64)> + '_ {
        self.0.iter().copied()
    }

    /// Whether there is no stretch.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Adds a stretch that starts at or after every stretch so far, merging it with the last one it touches.
    pub(crate) fn push_rising(&mut self, from: f64, to: f64) {
        if from >= to || from.is_nan() || to.is_nan() {
            return;
        }
        match self.0.last_mut() {
            Some(last) if from <= last.1 => last.1 = last.1.max(to),
            _ => self.0.push((from, to)),
        }
    }

    /// What is in either set.
    #[must_use]
    pub fn union(&self, other: &Self) -> Self {
        let (mut a, mut b) = (self.0.iter().peekable(), other.0.iter().peekable());
        let mut set = Self::none();
        loop {
            let next = match (a.peek(), b.peek()) {
                (Some(p), Some(q)) if p.0 <= q.0 => a.next(),
                (Some(_), None) => a.next(),
                (_, Some(_)) => b.next(),
                (None, None) => return set,
            };
            if let Some(&(from, to)) = next {
                set.push_rising(from, to);
            }
        }
    }

    /// What is in both sets.
    #[must_use]
    pub fn intersection(&self, other: &Self) -> Self {
        let mut set = Self::none();
        let (mut i, mut j) = (0, 0);
        while let (Some(a), Some(b)) = (self.0.get(i), other.0.get(j)) {
            set.push_rising(a.0.max(b.0), a.1.min(b.1));
            if a.1 < b.1 {
                i += 1;
            } else {
                j += 1;
            }
        }
        set
    }

    /// The rest of the line.
    #[must_use]
    pub fn complement(&self) -> Self {
        let mut set = Self::none();
        let mut from = f64::NEG_INFINITY;
        for &(a, b) in &self.0 {
            set.push_rising(from, a);
            from = b;
        }
        set.push_rising(from, f64::INFINITY);
        set
    }

    /// What is in this set and not in the other.
    #[must_use]
    pub fn minus(&self, other: &Self) -> Self {
        if self.is_empty() || other.is_empty() {
            return self.clone();
        }
        self.intersection(&other.complement())
    }

    /// Keeps only what lies from `low` to `high`.
    pub(crate) fn clip(&mut self, low: f64, high: f64) {
        self.0.retain(|s| {
            *s = (s.0.max(low), s.1.min(high));
            s.0 < s.1
        });
    }

    /// Takes away what lies from `low` to `high`.
    pub(crate) fn cut_out(&mut self, low: f64, high: f64) {
        if low >= high || low.is_nan() || high.is_nan() {
            return;
        }
        let mut i = 0;
        while let Some(&(from, to)) = self.0.get(i) {
            let (before, after) = ((from, to.min(low)), (from.max(high), to));
            match (before.0 < before.1, after.0 < after.1) {
                (true, true) => {
                    self.0[i] = before;
                    self.0.insert(i + 1, after);
                    i += 2;
                }
                (true, false) => {
                    self.0[i] = before;
                    i += 1;
                }
                (false, true) => {
                    self.0[i] = after;
                    i += 1;
                }
                (false, false) => {
                    self.0.remove(i);
                }
            }
        }
    }

    /// Total length.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.iter().map(|(a, b)| b - a).sum()
    }

    /// The end of the last stretch.
    #[must_use]
    pub fn last_end(&self) -> Option<f64> {
        self.0.last().map(|s| s.1)
    }

    /// Whether a place is in the set, ends included.
    #[must_use]
    pub fn contains(&self, place: f64) -> bool {
        self.iter().any(|(a, b)| a <= place && place <= b)
    }
}
