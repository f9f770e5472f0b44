//! Random hollowed pieces: hollows that share an axis, a diameter, a floor or a surface, or run askew; sunken mouths;
//! pieces that are broken through.

use proptest::prelude::*;
use skewline::geometry::{
    Axis, Fill, HalfSpace, Meridian, Point, Region, Removal, Revolved, Role, Sawn, Section, Segment, Solid, Station,
    Stock, Vector,
};

/// Any hollowed piece in a square bar of 70 mm.
pub fn hollowed() -> impl Strategy<Value = Solid> {
    (hollows(), outside(), openings()).prop_map(|(hollows, outside, openings)| {
        let inside = hollows.into_iter().map(|hollow| (Region::Revolved(hollow), Role::Inside));
        solid(outside.into_iter().chain(inside).chain(openings))
    })
}

/// A piece of cuts in working order, in a square bar of 70 mm.
pub fn solid(cuts: impl IntoIterator<Item = (Region, Role)>) -> Solid {
    let removals = cuts.into_iter().enumerate().map(|(cut, (region, role))| Removal { region, role, cut });
    Solid {
        stock: Stock { section: Section::Square { half_side: 35.0 }, length: 200.0 },
        removals: removals.collect(),
        plugs: vec![],
    }
}

/// The piece with one of its cuts made twice, the second time at the end.
pub fn with_twice(solid: &Solid, cut: usize) -> Solid {
    let mut twice = solid.clone();
    let again = Removal { cut: solid.removals.len(), ..solid.removals[cut].clone() };
    twice.removals.push(again);
    twice
}

/// One to three hollows.
fn hollows() -> impl Strategy<Value = Vec<Revolved>> {
    (first(), prop::collection::vec(further(), 0..3)).prop_map(|(first, further)| {
        let more: Vec<_> = further.iter().map(|further| further.beside(&first)).collect();
        std::iter::once(first).chain(more).collect()
    })
}

fn first() -> impl Strategy<Value = Revolved> {
    prop_oneof![3 => bore(), 1 => undercut(), 2 => dish()]
}

/// A hollow that has something to do with the first.
#[derive(Clone, Debug)]
enum Further {
    /// The same once more.
    Same,
    /// A round-ended bore on its axis, its radius and depth in parts of the first's.
    Coaxial { radius: f64, depth: f64, corner: f64 },
    /// A flat-ended one on an axis beside it, with its floor in one plane with the first's end.
    SameFloor { aside: (f64, f64), radius: f64 },
    /// One that has nothing to do with it.
    Other(Revolved),
}

fn further() -> impl Strategy<Value = Further> {
    let radius = || prop_oneof![1 => Just(1.0), 1 => 0.5..1.15_f64];
    prop_oneof![
        1 => Just(Further::Same),
        2 => (radius(), 0.4..1.3_f64, 0.0..1.0_f64)
            .prop_map(|(radius, depth, corner)| Further::Coaxial { radius, depth, corner }),
        1 => ((-9.0..9.0_f64, -9.0..9.0_f64), radius()).prop_map(|(aside, radius)| Further::SameFloor { aside, radius }),
        1 => bore().prop_map(Further::Other),
        2 => dish().prop_map(Further::Other),
    ]
}

impl Further {
    fn beside(&self, first: &Revolved) -> Revolved {
        let (mouth, end, radius) = (first.meridian.start(), first.meridian.end(), first.meridian.points()[0].r);
        match self {
            Self::Same => first.clone(),
            Self::Coaxial { radius: share, depth, corner } => {
                let (radius, depth) = (radius * share, (end - mouth) * depth);
                round_ended(first.axis, mouth, radius, depth, corner * radius.min(depth))
            }
            Self::SameFloor { aside, radius: share } => {
                let by = first.axis.right() * aside.0 + first.axis.up() * aside.1;
                let axis = Axis::new(first.axis.origin() + by, first.axis.along()).unwrap();
                round_ended(axis, mouth, radius * share, end - mouth, 0.0)
            }
            Self::Other(other) => other.clone(),
        }
    }
}

/// A round-ended bore about an axis near A; its mouth may be sunken.
fn bore() -> impl Strategy<Value = Revolved> {
    let mouth = prop_oneof![3 => Just(0.0), 1 => 1.0..8.0_f64];
    (lengthwise(), mouth, 12.0..24.0_f64, 25.0..60.0_f64, 0.0..1.0_f64).prop_map(
        |(axis, mouth, radius, depth, corner)| round_ended(axis, mouth, radius, depth, corner * radius.min(depth)),
    )
}

/// One that is wider within than at its mouth.
fn undercut() -> impl Strategy<Value = Revolved> {
    (lengthwise(), 10.0..17.0_f64, 1.05..1.5_f64, 30.0..55.0_f64, 0.2..0.8_f64, 0.2..1.0_f64).prop_map(
        |(axis, radius, wider, depth, widest, end)| {
            let nodes = [
                (0.0, radius, Segment::Ogee),
                (depth * widest, radius * wider, Segment::Line),
                (depth, radius * end, Segment::Line),
            ];
            revolved(axis, &nodes)
        },
    )
}

/// Across the grain from above, more or less upright: a round bowl or a flat-floored one, its mouth in the wood or over it.
fn dish() -> impl Strategy<Value = Revolved> {
    let place = (-4.0..4.0_f64, -12.0..6.0_f64, 22.0..48.0_f64);
    (place, -0.2..0.2_f64, -0.2..0.2_f64, 10.0..22.0_f64, 0.5..1.0_f64, any::<bool>()).prop_map(
        |((x, y, s), lean, pitch, radius, depth, round)| {
            let axis = Axis::new(Vector::new(x, y, s), Vector::new(lean, -1.0, pitch)).unwrap();
            let depth = radius * depth;
            let corner = if round { depth } else { 0.0 };
            round_ended(axis, 0.0, radius, depth, corner)
        },
    )
}

fn lengthwise() -> impl Strategy<Value = Axis> {
    let askew = (-3.0..3.0_f64, -3.0..3.0_f64, -0.15..0.15_f64, -0.1..0.1_f64)
        .prop_map(|(x, y, right, up)| Axis::new(Vector::new(x, y, 0.0), Vector::new(right, up, 1.0)).unwrap());
    prop_oneof![1 => Just(Axis::A), 2 => askew]
}

pub fn round_ended(axis: Axis, mouth: f64, radius: f64, depth: f64, corner: f64) -> Revolved {
    let bulge = corner * (1.0 - std::f64::consts::FRAC_1_SQRT_2);
    let nodes = [
        (mouth, radius, Segment::Line),
        (mouth + depth - corner, radius, Segment::Arc { bulge }),
        (mouth + depth, radius - corner, Segment::Line),
    ];
    revolved(axis, &nodes)
}

fn revolved(axis: Axis, nodes: &[(f64, f64, Segment)]) -> Revolved {
    Revolved { axis, meridian: Meridian::from_nodes(nodes, 0.01).unwrap(), fill: Fill::WithinOpen }
}

/// The outside, as one pass or two: mostly wider than the hollows, at times not.
fn outside() -> impl Strategy<Value = Vec<(Region, Role)>> {
    let pass = |axis, points| {
        let meridian = Meridian::new(points).unwrap();
        (Region::Revolved(Revolved { axis, meridian, fill: Fill::Beyond }), Role::Outside)
    };
    let handle = (lengthwise(), 45.0..80.0_f64, 7.0..14.0_f64).prop_map(move |(axis, from, radius)| {
        pass(axis, vec![Station::new(from, radius), Station::new(180.0, radius)])
    });
    (25.0..35.0_f64, prop::option::weighted(0.3, handle)).prop_map(move |(radius, handle)| {
        let bowl =
            pass(Axis::A, vec![Station::new(-1.0, radius), Station::new(70.0, radius), Station::new(95.0, 12.0)]);
        std::iter::once(bowl).chain(handle).collect()
    })
}

/// A saw line, a facing, both, or none.
fn openings() -> impl Strategy<Value = Vec<(Region, Role)>> {
    let line = (-4.0..6.0_f64, -18.0..4.0_f64, 30.0..75.0_f64, -6.0..25.0_f64)
        .prop_map(|(from, low, to, high)| vec![(from, low), (to, high)]);
    let bent = (-4.0..6.0_f64, -18.0..4.0_f64, 15.0..25.0_f64, -12.0..12.0_f64, 30.0..75.0_f64, -6.0..25.0_f64)
        .prop_map(|(from, low, middle, rise, to, high)| vec![(from, low), (middle, low + rise), (to, high)]);
    let saw = prop_oneof![2 => line, 1 => bent].prop_map(|points| {
        (Region::Sawn(Sawn::above(&points.into_iter().map(Point::from).collect::<Vec<_>>()).unwrap()), Role::Opening)
    });
    let facing = (-0.4..0.4_f64, -0.5..0.5_f64, -8.0..14.0_f64).prop_map(|(x, s, height)| {
        let into = Vector::new(x, 1.0, s).unit().unwrap();
        (Region::HalfSpace(HalfSpace { into, offset: height }), Role::Opening)
    });
    (prop::option::weighted(0.8, saw), prop::option::weighted(0.2, facing))
        .prop_map(|(saw, facing)| saw.into_iter().chain(facing).collect())
}
