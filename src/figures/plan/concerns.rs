//! Which steps a check is about, so that nobody works past one that stops.

use super::step::StepKind;
use crate::figures::checks::{Check, CheckName, Verdict};

impl StepKind {
    /// Whether going on past such a step goes against this check. Before the blank is cut every check counts.
    #[must_use]
    pub fn concerns(self, check: CheckName) -> bool {
        use CheckName as Name;
        use StepKind as Kind;
        let kinds: &[Self] = match check {
            Name::Breakthrough | Name::Wall | Name::Floor => &[Kind::Bore, Kind::Scrape, Kind::Turn],
            Name::BitPoint | Name::Boring => &[Kind::Bore],
            Name::Join | Name::ShoulderClearance | Name::Fin | Name::NeckStrength => &[Kind::Turn],
            Name::WasteStrength => &[Kind::Turn, Kind::Remount],
            Name::Flats => &[Kind::Rough, Kind::Turn],
            Name::DriveCentre | Name::LiveCentre => &[Kind::Mark, Kind::Remount, Kind::Turn],
            Name::Opening => &[Kind::Saw],
            Name::Ends => &[Kind::Turn, Kind::Part],
            Name::Swing | Name::OutOfBalance | Name::Speed => {
                &[Kind::Rough, Kind::Tenon, Kind::Bore, Kind::Remount, Kind::Turn]
            }
            Name::Jaws | Name::Headstock => &[Kind::Jaws, Kind::Bore],
            Name::Lathe => &[Kind::Rough, Kind::Tenon, Kind::Bore],
            Name::Tenon => &[Kind::Rough, Kind::Tenon, Kind::Bore],
            Name::Overhang => &[Kind::Bore],
            Name::Plug => &[Kind::MakePlug, Kind::FitPlug, Kind::Turn],
            Name::Marks => &[Kind::Mark, Kind::Remount],
            Name::RoughEnd => &[Kind::Turn, Kind::Part],
            // What carries the work is asked about at every step.
            Name::Carried => return true,
            Name::Blank | Name::Length | Name::Moisture | Name::GrainSlope | Name::HoldsAsItLies | Name::Tips => &[],
        };
        self == Kind::Blank || kinds.contains(&self)
    }
}

/// The checks that stop and concern a step, in their order.
pub fn stops_at(checks: &[Check], kind: StepKind) -> impl Iterator<Item = &Check> {
    checks.iter().filter(move |check| check.verdict == Verdict::Stop && kind.concerns(check.name))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stop(name: CheckName) -> Check {
        Check::fault(name, Verdict::Stop, "found", "cure")
    }

    #[test]
    fn a_stop_is_asked_about_before_the_blank_is_cut_and_at_its_own_step() {
        let checks = [stop(CheckName::Opening), stop(CheckName::Wall), Check::ok(CheckName::Floor, "good")];
        let at = |kind| stops_at(&checks, kind).map(|check| check.name).collect::<Vec<_>>();
        assert_eq!(at(StepKind::Blank), [CheckName::Opening, CheckName::Wall]);
        assert_eq!(at(StepKind::Saw), [CheckName::Opening]);
        assert_eq!(at(StepKind::Turn), [CheckName::Wall]);
        assert_eq!(at(StepKind::Finish), []);
    }
}
