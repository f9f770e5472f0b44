//! Two hollows about one line: what one takes of the other's surface runs all round, and is known exactly.

use super::beside::{SAME, beside};
use super::sheet::Sheet;
use crate::geometry::frame::axis::Axis;
use crate::geometry::frame::station::Station;
use crate::geometry::line::intervals::Intervals;
use crate::geometry::region::revolved::{Ray, Revolved};
use crate::geometry::surface::Spot;

/// Whether two axes lie on one line, to [`SAME`] over a metre.
pub(super) fn on_one_line(a: &Axis, b: &Axis) -> bool {
    a.along().cross(b.along()).length() < 1e-10 && a.see(b.origin()).radius() < SAME / 10.0
}

/// The stretches of a sheet's meridian that another hollow about the same line takes, in mm along it.
///
/// Both meridians are chains of straight pieces. Between the places where one meets the other, or passes one of the
/// other's corners, nothing changes, so that the middle of each stretch speaks for all of it.
pub(super) fn taken(sheet: &Sheet<'_>, other: &Revolved, is_first: bool) -> Intervals {
    let corners: Vec<_> = sheet.corners().collect();
    let theirs: Vec<Station> = other.meridian.points().iter().map(|p| seen(sheet, other, *p)).collect();
    let mut taken = Intervals::none();
    for pair in corners.windows(2) {
        let ((from, t0, r0), (to, t1, r1)) = (pair[0], pair[1]);
        if to <= from {
            continue;
        }
        let mut places = vec![0.0, 1.0];
        let within = |part: &f64| (0.0..=1.0).contains(part);
        places.extend(
            theirs.iter().flat_map(|Station { t, r }| [(t - t0) / (t1 - t0), (r - r0) / (r1 - r0)]).filter(within),
        );
        let axis = &sheet.hollow().axis;
        let start = axis.point(t0, r0, 0.0);
        let ray = Ray { start, direction: axis.point(t1, r1, 0.0) - start };
        places.extend(other.along(ray).iter().flat_map(|(p, q)| [p, q]).filter(within));
        places.sort_unstable_by(f64::total_cmp);
        for stretch in places.windows(2) {
            let (p, q) = (from + (to - from) * stretch[0], from + (to - from) * stretch[1]);
            if q > p && beside(other, is_first, &sheet.see(Spot::new(f64::midpoint(p, q), 0.0))) <= 0.0 {
                // Past the sheet's own ends nothing is kept either.
                let p = if p <= 0.0 { f64::NEG_INFINITY } else { p };
                taken.push_rising(p, if q >= sheet.length() { f64::INFINITY } else { q });
            }
        }
    }
    taken
}

/// A point of the other's meridian by station and radius about the sheet's own axis.
fn seen(sheet: &Sheet<'_>, other: &Revolved, Station { t, r }: Station) -> Station {
    Station::new(sheet.hollow().axis.see(other.axis.point(t, 0.0, 0.0)).t, r)
}

/// How far a place along the meridian is from the stretches, in mm: not positive in them.
pub(super) fn clearance(taken: &Intervals, u: f64) -> f64 {
    let beyond = |(from, to): (f64, f64)| (from - u).max(u - to);
    taken.iter().map(beyond).fold(f64::INFINITY, f64::min)
}
