//! The range of every number of the document. Wide enough for any utensil; narrow enough that nothing overflows.

/// The unit of a length, as it stands after a number.
pub const MM: &str = " mm";

/// A range with both ends allowed, and its unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bound {
    /// The least value.
    pub from: f64,
    /// The greatest value.
    pub to: f64,
    /// The unit's name after a number, empty when there is none.
    pub unit: &'static str,
}

impl Bound {
    const fn mm(from: f64, to: f64) -> Self {
        Self { from, to, unit: MM }
    }

    /// Whether the value lies inside; never for NaN.
    #[must_use]
    pub fn holds(&self, value: f64) -> bool {
        (self.from..=self.to).contains(&value)
    }
}

/// The side or diameter of a blank.
pub const BLANK_WIDTH: Bound = Bound::mm(5.0, 500.0);
/// The length of a blank.
pub const BLANK_LENGTH: Bound = Bound::mm(10.0, 2000.0);
/// What a check line of 100 mm may measure on paper.
pub const CHECK_LINE: Bound = Bound::mm(50.0, 150.0);
/// A centre mark's x or y.
pub const MARK: Bound = Bound::mm(-500.0, 500.0);
/// The tilt of an axis.
pub const TILT_DEG: Bound = Bound { from: 0.0, to: 60.0, unit: " degrees" };
/// A clock direction.
pub const CLOCK_DEG: Bound = Bound { from: -360.0, to: 360.0, unit: " degrees" };
/// A station along any axis.
pub const STATION: Bound = Bound::mm(-500.0, 2500.0);
/// A diameter of a profile.
pub const DIAMETER: Bound = Bound::mm(0.0, 500.0);
/// The height of an arc over its chord.
pub const BULGE: Bound = Bound::mm(-250.0, 250.0);
/// The diameter of a bore or a plug.
pub const BORE_DIAMETER: Bound = Bound::mm(1.0, 400.0);
/// The depth of a hollow.
pub const DEPTH: Bound = Bound::mm(0.5, 1000.0);
/// The rounding of a floor.
pub const ROUNDING: Bound = Bound::mm(0.0, 200.0);
/// The thickness of a plug's disc.
pub const PLUG_THICKNESS: Bound = Bound::mm(1.0, 200.0);
/// The length of a plug's spigot.
pub const SPIGOT_LENGTH: Bound = Bound::mm(0.0, 500.0);
/// The length of a plug's tenon.
pub const PLUG_TENON_LENGTH: Bound = Bound::mm(1.0, 50.0);
/// The height of a saw line over axis A.
pub const HEIGHT: Bound = Bound::mm(-500.0, 500.0);
/// A limit or an allowance.
pub const LIMIT: Bound = Bound::mm(0.0, 50.0);
/// Moisture content, percent of dry mass; green wood can hold more water than wood.
pub const MOISTURE: Bound = Bound { from: 0.0, to: 200.0, unit: " percent" };
/// Temperature of the air: the range of the Wood Handbook's table of equilibrium moisture that a kitchen sees.
pub const TEMPERATURE_C: Bound = Bound { from: -1.0, to: 60.0, unit: " degrees Celsius" };
/// Relative humidity of the air.
pub const HUMIDITY: Bound = Bound { from: 0.0, to: 98.0, unit: " percent" };
/// Density of a wood: lighter than any, heavier than any.
pub const DENSITY: Bound = Bound { from: 50.0, to: 2000.0, unit: " kg/m3" };
/// Modulus of rupture of a wood.
pub const RUPTURE: Bound = Bound { from: 1.0, to: 500.0, unit: " MPa" };
/// Shrinkage of a wood from green to ovendry.
pub const SHRINKAGE: Bound = Bound { from: 0.0, to: 40.0, unit: " percent" };
/// How many times its load a neck should bear.
pub const STRENGTH_FACTOR: Bound = Bound { from: 1.0, to: 20.0, unit: "" };
/// The diameter of a bit.
pub const BIT_DIAMETER: Bound = Bound::mm(1.0, 150.0);
/// How far a bit's point reaches past its cutting edge.
pub const BIT_POINT: Bound = Bound::mm(0.0, 100.0);
/// A length of the lathe, the chuck, or a bit's reach.
pub const MACHINE: Bound = Bound::mm(1.0, 5000.0);
/// What a saw takes.
pub const KERF: Bound = Bound::mm(0.1, 10.0);
/// A speed of the lathe.
pub const SPEED: Bound = Bound { from: 1.0, to: 20_000.0, unit: " rpm" };
/// The out-of-balance force that is accepted.
pub const FORCE: Bound = Bound { from: 0.1, to: 10_000.0, unit: " N" };
/// How many times the gripped diameter the work may stand out of the jaws.
pub const OVERHANG: Bound = Bound { from: 0.5, to: 50.0, unit: "" };
/// How much of a footprint may overlap another.
pub const OVERLAP: Bound = Bound { from: 0.0, to: 100.0, unit: " percent" };
/// The diameter of a centre's footprint.
pub const FOOTPRINT: Bound = Bound::mm(0.0, 200.0);
/// The deepest bore before a warning.
pub const BORE_WARNING: Bound = Bound::mm(1.0, 1000.0);

/// A planned wall, diameter or depth: a wall can be less than nothing where a hollow breaks through.
pub const PLANNED: Bound = Bound::mm(-500.0, 1000.0);
/// A wall, diameter or depth as measured.
pub const MEASURED_LENGTH: Bound = Bound::mm(0.0, 1000.0);
/// A volume held.
pub const VOLUME: Bound = Bound { from: 0.0, to: 200_000.0, unit: " mL" };

/// Most axes besides A.
pub const AXES: usize = 12;
/// Most cuts.
pub const CUTS: usize = 60;
/// Most nodes of a profile, or points of a saw line.
pub const NODES: usize = 200;
/// Most nodes of all profiles and points of all saw lines together for which figures are worked out.
pub const NODES_IN_ALL: usize = 1200;
/// Most bits.
pub const BITS: usize = 100;
/// Most grits.
pub const GRITS: usize = 12;
/// A grit.
pub const GRIT: Bound = Bound { from: 20.0, to: 5000.0, unit: "" };
/// Most steps that can be ticked.
pub const STEPS: usize = 400;
/// Most makings in the log.
pub const MAKINGS: usize = 200;
/// Most lengths measured on one piece.
pub const MEASURED: usize = 60;
/// Most letters of a remark in the log.
pub const REMARK_LETTERS: usize = 2000;
/// Most woods of the turner's own.
pub const OWN_SPECIES: usize = 100;
/// Most letters of a name.
pub const NAME_LETTERS: usize = 120;
/// Most letters of the notes.
pub const NOTES_LETTERS: usize = 10_000;
/// The least length of a pass, and between two points of a saw line, in mm.
pub const LEAST_LENGTH_MM: f64 = 0.01;
