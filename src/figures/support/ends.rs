//! What can carry the work at either end.

use serde::Serialize;

/// What holds and drives the work at its head end.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum HeadEnd {
    /// The drive centre in the axis's mark.
    DriveCentre,
    /// The jaws of the chuck on a tenon.
    Jaws,
    /// A carrier made for the work: shop-made jaws, a faceplate, a block cut to the tilt.
    Carrier,
    /// A vice, a cradle or the bench: the work does not spin.
    Bench,
    /// Nothing does.
    Nothing,
}

/// What bears on the work at its tail end.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum TailEnd {
    /// The live centre, on the wood of the bowl end.
    LiveCentreOnWood,
    /// The live centre, on the plug.
    LiveCentreOnPlug,
    /// A cone in the mouth of the bore.
    Cone,
    /// A steady around the work, near the end that is bored or faced.
    Steady,
    /// Nothing.
    Nothing,
}
