//! The speed of every step that spins the work, for its own operation and tool.

use super::bench::Bench;
use super::step::{Speed, Step, StepSpeed};
use crate::design::entry::Units;
use crate::figures::known::Known;
use crate::figures::turning::{Operation, OperationSpeed, Spinning};

impl Bench<'_> {
    /// Adds the speeds of a pass, a bore or a hollow for some operations; of a facing or a parting as well.
    pub(super) fn speeds_of_cut(&self, step: &mut Step, cut: usize, wanted: &[Operation]) {
        let mut found: Vec<&OperationSpeed> =
            self.operations_of(cut).filter(|it| wanted.contains(&it.operation)).collect();
        found.sort_by_key(|it| wanted.iter().position(|operation| *operation == it.operation));
        let speeds = found.into_iter().map(|it| self.step_speed(it)).collect();
        self.add_speeds(step, speeds);
    }

    /// Adds the speed of one of the bits that bore a hollow, by its diameter in mm.
    pub(super) fn speed_of_bit(&self, step: &mut Step, cut: usize, bit_mm: f64) {
        let of_bit = self.operations_of(cut).filter(|it| it.bit_mm == Some(bit_mm));
        let speeds = of_bit.map(|it| self.step_speed(it)).collect();
        self.add_speeds(step, speeds);
    }

    /// The operations of a pass, a bore, a hollow, a facing or a parting.
    fn operations_of(&self, cut: usize) -> impl Iterator<Item = &OperationSpeed> {
        let turning = self.figures.turning.iter().find(|it| it.cut == cut).map(|it| &it.speed.operations);
        let end = || self.figures.ends.iter().find(|it| it.cut == cut).map(|it| &it.operations);
        turning.or_else(end).into_iter().flatten()
    }

    /// Adds the speeds of round work on its own axis, by its diameter in mm.
    pub(super) fn speeds_centred(&self, step: &mut Step, diameter_mm: f64, wanted: &[Operation]) {
        let work = Spinning { diameter_mm, off_centre: false, force_rpm: None };
        self.speeds_of(step, &work, wanted);
    }

    /// Adds the speed for taking the corners off the blank before a cut.
    pub(super) fn speeds_of_blank(&self, step: &mut Step, cut: usize) {
        let diameter_mm = 2.0 * self.piece.solid.stock.largest_radius();
        let turning = self.figures.turning.iter().find(|it| it.cut == cut && it.axis == crate::design::AxisName::A);
        let force_rpm = turning.and_then(|it| it.speed.force_rpm);
        self.speeds_of(step, &Spinning { diameter_mm, off_centre: false, force_rpm }, &[Operation::Roughing]);
    }

    /// Adds the lathe's lowest speed, at which a line is drawn around the work.
    pub(super) fn slowly(&self, step: &mut Step) {
        let lowest = self.shop.lathe.lowest_rpm;
        let range = Known::Value(Speed { from_rpm: lowest, to_rpm: lowest });
        let (what, tool) = Operation::Marking.words();
        self.add_speeds(step, vec![StepSpeed { what: what.to_owned(), operation: Operation::Marking, tool, range }]);
    }

    fn speeds_of(&self, step: &mut Step, work: &Spinning, wanted: &[Operation]) {
        let of = |operation: &Operation| {
            OperationSpeed::of(*operation, None, work, &self.shop.lathe, Units::from(self.shop))
        };
        let speeds = wanted.iter().filter_map(of).map(|it| self.step_speed(&it)).collect();
        self.add_speeds(step, speeds);
    }

    fn step_speed(&self, speed: &OperationSpeed) -> StepSpeed {
        let (name, tool) = speed.operation.words();
        let what = speed.bit_mm.map_or_else(|| name.to_owned(), |mm| format!("bit of {}", self.words.length(mm)));
        let range = match &speed.range {
            Known::Value(range) => Known::Value(Speed { from_rpm: range.from_rpm, to_rpm: range.to_rpm }),
            Known::Missing { why_not } => Known::missing(why_not.as_str()),
        };
        StepSpeed { what, operation: speed.operation, tool, range }
    }

    /// Adds speeds to a step; the slowest becomes its speed.
    fn add_speeds(&self, step: &mut Step, mut speeds: Vec<StepSpeed>) {
        if speeds.is_empty() && step.speeds.is_empty() {
            let (what, operation) = ("turning".to_owned(), Operation::Shaping);
            let range = Known::missing("No wood is left to turn.");
            speeds.push(StepSpeed { what, operation, tool: operation.words().1, range });
        }
        step.speeds.append(&mut speeds);
        let ranges: Option<Vec<Speed>> = step.speeds.iter().map(|it| it.range.value().copied()).collect();
        step.speed = ranges.and_then(|all| all.into_iter().min_by(|a, b| a.to_rpm.total_cmp(&b.to_rpm)));
    }
}
