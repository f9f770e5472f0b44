//! The hollow under its openings, as the volume of solids: for pieces whose openings do not all run across.

use crate::geometry::{
    Fill, HalfSpace, Meridian, Pace, Region, Removal, Revolved, Role, Solid, Station, masses_in_slices,
};

/// Volume of the hollows past s = 0, within the outside and under every opening, in mm3; within 0.1 %.
///
/// Each hollow in turn, without those before it: what is left of the blank when all beyond the hollow goes.
pub(super) async fn in_parts(solid: &Solid, pace: &Pace) -> f64 {
    let outside = solid.removals.iter().filter(|removal| removal.role != Role::Inside);
    let mut taken: Vec<Removal> = outside.cloned().collect();
    let mut volume = 0.0;
    for removal in solid.with_role(Role::Inside) {
        if let Region::Revolved(hollow) = &removal.region {
            let beyond = beyond(hollow, solid).into_iter();
            let part = Solid {
                stock: solid.stock,
                removals: beyond.map(outside_of).chain(taken.iter().cloned()).collect(),
                plugs: Vec::new(),
            };
            volume += masses_in_slices(&[part.finished()], pace).await.iter().map(|mass| mass.volume_mm3).sum::<f64>();
        }
        taken.push(removal.clone());
    }
    volume
}

fn outside_of(region: Region) -> Removal {
    Removal { region, role: Role::Outside, cut: 0 }
}

/// All that is not the hollow, in the blank.
fn beyond(hollow: &Revolved, solid: &Solid) -> Vec<Region> {
    let axis = hollow.axis;
    let chain = hollow.meridian.points();
    let (first, last) = (chain[0], chain[chain.len() - 1]);
    let reach = solid.stock.length + 2.0 * solid.stock.largest_radius() + axis.origin().length();
    let out = first.t.min(-reach) - reach;
    let mut points = chain.to_vec();
    let past = |t: f64, into| Region::HalfSpace(HalfSpace { into, offset: axis.point(t, 0.0, 0.0).dot(into) });
    let mut all = vec![past(last.t, axis.along())];
    match hollow.fill {
        Fill::WithinOpen => points.insert(0, Station::new(out, first.r)),
        Fill::Within | Fill::Beyond => all.push(past(first.t, -axis.along())),
    }
    let meridian = Meridian::new(points);
    all.extend(meridian.map(|meridian| Region::Revolved(Revolved { axis, meridian, fill: Fill::Beyond })));
    all
}
