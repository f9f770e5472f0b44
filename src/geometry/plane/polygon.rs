//! Closed outlines in a plane, with their areas and moments.

/// A closed chain of straight edges, the last point joined to the first. Wood lies on its left: an outer outline runs
/// counter-clockwise, a hole clockwise.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    /// Its corners `[u, v]`, in mm.
    pub points: Vec<[f64; 2]>,
    /// Whether it bounds a hole.
    pub hole: bool,
}

/// Area, centroid and second moments of a flat shape about its centroid.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct AreaMoments {
    /// Area, in mm2.
    pub area_mm2: f64,
    /// Centroid `[u, v]`, in mm; the origin for an empty shape.
    pub centroid: [f64; 2],
    /// The integral of (v - centroid v)^2 over the area, in mm4: resists bending up and down.
    pub second_vertical_mm4: f64,
    /// The integral of (u - centroid u)^2 over the area, in mm4: resists bending to the sides.
    pub second_sideways_mm4: f64,
    /// The integral of (u - centroid u) (v - centroid v) over the area, in mm4: not zero where bending is skew.
    pub product_mm4: f64,
}

/// The signed area of a closed chain, in mm2: positive counter-clockwise. Exact.
#[must_use]
pub fn signed_area(points: &[[f64; 2]]) -> f64 {
    let Some(base) = points.first() else { return 0.0 };
    edges(points, *base).map(|(a, b)| a[0] * b[1] - a[1] * b[0]).sum::<f64>() / 2.0
}

/// The edges of a closed chain, shifted so that `base` is the origin, lest large coordinates cancel.
fn edges(points: &[[f64; 2]], base: [f64; 2]) -> impl Iterator<Item = ([f64; 2], [f64; 2])> + '_ {
    let shifted = move |p: &[f64; 2]| [p[0] - base[0], p[1] - base[1]];
    points.iter().zip(points.iter().cycle().skip(1)).map(move |(a, b)| (shifted(a), shifted(b)))
}

/// Area, centroid and second moments of the shape inside some outlines, holes taken off. Exact for the outlines, by
/// Green's theorem.
#[must_use]
pub fn area_moments(outlines: &[Outline]) -> AreaMoments {
    let Some(base) = outlines.iter().find_map(|o| o.points.first().copied()) else { return AreaMoments::default() };
    let mut sums = [0.0; 6];
    for outline in outlines {
        for (a, b) in edges(&outline.points, base) {
            let cross = a[0] * b[1] - a[1] * b[0];
            sums[0] += cross / 2.0;
            sums[1] += cross * (a[0] + b[0]) / 6.0;
            sums[2] += cross * (a[1] + b[1]) / 6.0;
            sums[3] += cross * (a[0] * a[0] + a[0] * b[0] + b[0] * b[0]) / 12.0;
            sums[4] += cross * (a[1] * a[1] + a[1] * b[1] + b[1] * b[1]) / 12.0;
            sums[5] += cross * (2.0 * (a[0] * a[1] + b[0] * b[1]) + a[0] * b[1] + b[0] * a[1]) / 24.0;
        }
    }
    let [area, su, sv, suu, svv, suv] = sums;
    if area <= 0.0 {
        return AreaMoments::default();
    }
    let (u, v) = (su / area, sv / area);
    AreaMoments {
        area_mm2: area,
        centroid: [base[0] + u, base[1] + v],
        second_vertical_mm4: svv - area * v * v,
        second_sideways_mm4: suu - area * u * u,
        product_mm4: suv - area * u * v,
    }
}

/// Whether a point is inside some outlines and not in a hole.
#[must_use]
pub fn encloses(outlines: &[Outline], point: [f64; 2]) -> bool {
    let crossed = |outline: &Outline| {
        edges(&outline.points, point)
            .filter(|(a, b)| (a[1] > 0.0) != (b[1] > 0.0))
            .filter(|(a, b)| a[0] - a[1] * (b[0] - a[0]) / (b[1] - a[1]) > 0.0)
            .count()
    };
    outlines.iter().map(crossed).sum::<usize>() % 2 == 1
}

/// The part of a convex polygon where `value + slope_u u + slope_v v >= 0`, given as `[value, slope_u, slope_v]`.
#[must_use]
pub fn clip_convex(polygon: &[[f64; 2]], side: [f64; 3]) -> Vec<[f64; 2]> {
    let height = |p: &[f64; 2]| side[0] + side[1] * p[0] + side[2] * p[1];
    let mut kept = Vec::with_capacity(polygon.len() + 1);
    for (a, b) in polygon.iter().zip(polygon.iter().cycle().skip(1)) {
        let (ha, hb) = (height(a), height(b));
        if ha >= 0.0 {
            kept.push(*a);
        }
        if (ha >= 0.0) != (hb >= 0.0) {
            let part = ha / (ha - hb);
            kept.push([a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part]);
        }
    }
    kept
}
