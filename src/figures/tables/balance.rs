//! Balance grades of machine rotors: a yardstick for how a blank shakes. They are not written for wood on a lathe.

use super::Basis;

/// A balance quality grade: eccentricity times angular speed, in mm/s.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BalanceGrade {
    /// Its name, "G 16".
    pub name: &'static str,
    /// The most it allows, in mm/s.
    pub mm_per_s: f64,
    /// Machines balanced to it.
    pub machines: &'static str,
}

/// Where the grades come from: ISO 21940-11:2016 replaces ISO 1940-1:2003.
pub const SOURCE: &str = "ISO 21940-11:2016 Table 1 as reproduced by a balancing-machine page";
/// How they were come by.
pub const BASIS: Basis = Basis::Found;

impl BalanceGrade {
    /// The finest grade that allows an eccentricity times angular speed in mm/s; `None` past the coarsest, and for a
    /// number that is none.
    #[must_use]
    pub fn of(mm_per_s: f64) -> Option<&'static Self> {
        GRADES.iter().rev().find(|grade| mm_per_s <= grade.mm_per_s)
    }
}

/// Every grade, the coarsest first.
#[rustfmt::skip]
pub const GRADES: &[BalanceGrade] = &[
    BalanceGrade { name: "G 4000", mm_per_s: 4000.0, machines: "large slow marine diesel crankshaft drives, inherently unbalanced" },
    BalanceGrade { name: "G 1600", mm_per_s: 1600.0, machines: "large slow marine diesel crankshaft drives" },
    BalanceGrade { name: "G 630", mm_per_s: 630.0, machines: "crankshaft drives, inherently unbalanced, elastically mounted" },
    BalanceGrade { name: "G 250", mm_per_s: 250.0, machines: "crankshaft drives, inherently unbalanced, rigidly mounted" },
    BalanceGrade { name: "G 100", mm_per_s: 100.0, machines: "complete reciprocating engines for cars, trucks, locomotives" },
    BalanceGrade { name: "G 40", mm_per_s: 40.0, machines: "car wheels, wheel sets, drive shafts; inherently balanced crankshaft drives, elastically mounted" },
    BalanceGrade { name: "G 16", mm_per_s: 16.0, machines: "agricultural machinery; crushing machines; cardan and propeller shafts" },
    BalanceGrade { name: "G 6.3", mm_per_s: 6.3, machines: "fans, pumps, gears, general machinery, machine tools, electric motors" },
    BalanceGrade { name: "G 2.5", mm_per_s: 2.5, machines: "compressors, turbines, machine-tool drives, textile machines" },
    BalanceGrade { name: "G 1", mm_per_s: 1.0, machines: "audio and video drives, grinding machine drives" },
    BalanceGrade { name: "G 0.4", mm_per_s: 0.4, machines: "gyroscopes, high-precision spindles" },
];
