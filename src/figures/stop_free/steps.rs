//! The values a number is tried at.

use crate::design::entry::snapped;

/// The values between the number as it is, step 0, and an end: whole steps, and the end itself as the last.
pub(super) struct Steps {
    now: f64,
    end: f64,
    step: f64,
    /// Of the first whole step past the number as it is.
    first: f64,
    pub count: u32,
}

/// What is left over of a step when a number stands on a whole one, as a share of the step.
const ON_A_STEP: f64 = 1e-6;

impl Steps {
    pub fn new(now: f64, end: f64, step: f64) -> Self {
        let up = end > now;
        let (first, last) = match up {
            true => ((now / step + ON_A_STEP).floor() + 1.0, (end / step - ON_A_STEP).ceil()),
            false => ((now / step - ON_A_STEP).ceil() - 1.0, (end / step + ON_A_STEP).floor()),
        };
        let count = if end == now { 0 } else { ((last - first).abs() + 1.0) as u32 };
        Self { now, end, step: if up { step } else { -step }, first, count }
    }

    pub fn value(&self, number: u32) -> f64 {
        match number {
            0 => self.now,
            number if number >= self.count => self.end,
            number => {
                snapped((self.first + self.step.signum() * f64::from(number - 1)) * self.step.abs(), self.step.abs())
            }
        }
    }

    /// The step at a share of the way, at least the first.
    pub fn share(&self, share: f64) -> u32 {
        ((f64::from(self.count) * share).ceil() as u32).min(self.count)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_whole_ones_and_end_at_the_end() {
        let up = Steps::new(7.53, 8.0, 0.1);
        let all: Vec<f64> = (0..=up.count).map(|number| up.value(number)).collect();
        assert_eq!(all, [7.53, 7.6, 7.7, 7.8, 7.9, 8.0]);
        let down = Steps::new(7.5, 7.22, 0.1);
        let all: Vec<f64> = (0..=down.count).map(|number| down.value(number)).collect();
        assert_eq!(all, [7.5, 7.4, 7.3, 7.22]);
        assert_eq!(Steps::new(5.0, 5.0, 0.1).count, 0);
    }
}
