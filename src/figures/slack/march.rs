//! How far something may be off before the wall falls to one target after another.

/// Nothing is looked for farther than this, in mm: no turner is off by more.
pub const REACH_MM: f64 = 10.0;
/// Where it is found, it is found this closely, in mm.
const FINE_MM: f64 = 0.002;
/// The least step, in mm: a dip of the wall narrower than this may be missed. Where the wall does not fall it grows.
const LEAST_STEP_MM: f64 = 0.1;
const WIDEST_LEAST_STEP_MM: f64 = 1.0;
/// By how much, at most, the wall changes for each mm that something is off. A mark moves the axis by as much, and leans
/// it a little.
const STEEPEST: f64 = 1.5;

/// A search from 0 outward, one wall at a time. It never steps farther than the wall can have fallen, so that the first
/// crossing is the one that is found.
#[derive(Clone, Debug)]
pub(super) struct March {
    targets: [f64; 2],
    found: [Option<f64>; 2],
    seeking: usize,
    inside: f64,
    outside: Option<f64>,
    next: Option<f64>,
    /// The wall before, and the least step after it.
    before: f64,
    least_step: f64,
}

impl March {
    /// From the wall as designed to two targets, the greater first; all in mm.
    pub fn new(wall_mm: f64, targets: [f64; 2]) -> Self {
        let mut march = Self {
            targets,
            found: [None; 2],
            seeking: 0,
            inside: 0.0,
            outside: None,
            next: None,
            before: wall_mm,
            least_step: LEAST_STEP_MM,
        };
        while march.target().is_some_and(|target| wall_mm < target) {
            march.found[march.seeking] = Some(0.0);
            march.seeking += 1;
        }
        march.step_on(wall_mm);
        march
    }

    /// The next error to try, in mm; `None` when it is done.
    pub fn asks(&self) -> Option<f64> {
        self.next
    }

    /// How far off it may be before each target.
    pub fn found(&self) -> [Option<f64>; 2] {
        self.found
    }

    /// Takes the wall at the error asked for; `None` when such a piece cannot be made, which ends the search.
    pub fn learns(&mut self, wall_mm: Option<f64>) {
        let (Some(tried), Some(wall), Some(target)) = (self.next, wall_mm, self.target()) else {
            self.next = None;
            return;
        };
        if wall < target {
            self.outside = Some(tried);
        } else {
            self.inside = tried;
        }
        let Some(outside) = self.outside else { return self.step_on(wall) };
        if outside - self.inside > FINE_MM {
            self.next = Some(f64::midpoint(self.inside, outside));
            return;
        }
        self.found[self.seeking] = Some(self.inside);
        self.seeking += 1;
        self.outside = None;
        // At the crossing the wall is what it was sought for, unless it leaps there.
        self.step_on(if self.target().is_some_and(|next| wall > next) { wall } else { 0.0 });
    }

    fn target(&self) -> Option<f64> {
        self.targets.get(self.seeking).copied()
    }

    /// As far as is safe with this wall.
    fn step_on(&mut self, wall_mm: f64) {
        let falls = wall_mm < self.before - FINE_MM;
        self.least_step = if falls { LEAST_STEP_MM } else { (1.5 * self.least_step).min(WIDEST_LEAST_STEP_MM) };
        self.before = wall_mm;
        self.next = match self.target() {
            Some(target) if self.inside < REACH_MM => {
                let step = ((wall_mm - target) / STEEPEST).max(self.least_step);
                Some((self.inside + step).min(REACH_MM))
            }
            _ => None,
        };
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn finish(mut march: March, wall: impl Fn(f64) -> f64) -> [Option<f64>; 2] {
        for _ in 0..1000 {
            let Some(error) = march.asks() else { return march.found() };
            march.learns(Some(wall(error)));
        }
        panic!("it does not end");
    }

    #[test]
    fn the_first_crossing_of_each_target_is_found() {
        let straight = |e: f64| 4.0 - 0.7 * e;
        let [limit, zero] = finish(March::new(4.0, [3.0, 0.0]), straight);
        assert!((limit.unwrap() - 1.0 / 0.7).abs() < FINE_MM && (zero.unwrap() - 4.0 / 0.7).abs() < FINE_MM);
        // Down to 2.5 at 1.5 and up again, and no farther.
        let dip = |e: f64| 4.0 - (1.0 - (e - 1.5).abs()).max(0.0) * 1.5;
        let [limit, zero] = finish(March::new(4.0, [3.0, 0.0]), dip);
        assert!((limit.unwrap() - (0.5 + 1.0 / 1.5)).abs() < FINE_MM && zero.is_none());
        assert_eq!(finish(March::new(9.0, [3.0, 0.0]), |_| 9.0), [None, None]);
        assert_eq!(finish(March::new(-1.0, [3.0, 0.0]), |_| 9.0), [Some(0.0), Some(0.0)]);
        let [below, zero] = finish(March::new(2.0, [3.0, 0.0]), |e| 2.0 - e);
        assert!(below == Some(0.0) && (zero.unwrap() - 2.0).abs() < FINE_MM);
        // A leap from whole to broken: both at once.
        let [limit, zero] = finish(March::new(4.0, [3.0, 0.0]), |e| if e < 2.0 { 4.0 } else { -1.0 });
        assert!((limit.unwrap() - 2.0).abs() < FINE_MM && (zero.unwrap() - 2.0).abs() < FINE_MM);
        let mut refused = March::new(4.0, [3.0, 0.0]);
        refused.learns(None);
        assert_eq!((refused.asks(), refused.found()), (None, [None, None]));
    }
}
