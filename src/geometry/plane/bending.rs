//! How a section resists bending, whichever way it is bent.

use crate::geometry::plane::polygon::AreaMoments;
use crate::geometry::plane::section::CutFace;

/// A flat section as a beam bends it: plane sections stay plane, so stress grows straight with the distance from the
/// line through the centroid about which it bends. Where the product of inertia is not zero that line is not square to
/// the load; this is allowed for.
///
/// Source: unsymmetrical bending as in standard beam theory (Gere, Mechanics of Materials); from memory.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bending {
    /// Area, centroid and second moments.
    pub moments: AreaMoments,
    /// Places of the outline, counted from the centroid: the greatest stress is at one of them.
    fibres: Vec<[f64; 2]>,
    /// The inverse of the second moments `[[uu, uv], [uv, vv]]`, in 1/mm4; absent for a section that resists nothing.
    inverse: Option<[[f64; 2]; 2]>,
    /// The radius of a full round, whose outline is farthest everywhere, in mm.
    round: Option<f64>,
}

/// Which way the unit moment bends.
#[derive(Clone, Copy)]
enum Load {
    /// As a load in this direction.
    Along([f64; 2]),
    /// The worst way.
    Any,
}

impl Bending {
    /// Of a section as it is drawn. Exact for its outlines.
    #[must_use]
    pub fn of(face: &CutFace) -> Self {
        let outer = face.outlines.iter().filter(|outline| !outline.hole);
        Self::new(face.moments(), outer.flat_map(|outline| outline.points.iter().copied()).collect())
    }

    /// Of a full round of this radius, in mm, about the origin. Exact.
    #[must_use]
    pub fn of_round(radius: f64) -> Self {
        let area_mm2 = std::f64::consts::PI * radius * radius;
        let second = area_mm2 * radius * radius / 4.0;
        let moments = AreaMoments {
            area_mm2,
            second_vertical_mm4: second,
            second_sideways_mm4: second,
            ..AreaMoments::default()
        };
        Self { round: Some(radius), ..Self::new(moments, Vec::new()) }
    }

    /// Of moments and the places, in the same plane, that stand out farthest.
    #[must_use]
    pub fn new(moments: AreaMoments, outline: Vec<[f64; 2]>) -> Self {
        let [u, v] = moments.centroid;
        let fibres = outline.into_iter().map(|p| [p[0] - u, p[1] - v]).collect();
        Self { moments, fibres, inverse: inverse(&moments), round: None }
    }

    /// Section modulus against a load in the direction `[u, v]` of length 1, in mm3: the bending moment over the greatest
    /// stress. 0 for a section that resists nothing.
    #[must_use]
    pub fn modulus_mm3(&self, load: [f64; 2]) -> f64 {
        self.resist(Load::Along(load))
    }

    /// The least section modulus of all directions, in mm3.
    #[must_use]
    pub fn least_modulus_mm3(&self) -> f64 {
        self.resist(Load::Any)
    }

    /// The greatest stress, in MPa, of a pull or push of `newtons` square to the section at the place `[u, v]`.
    #[must_use]
    pub fn thrust_mpa(&self, newtons: f64, at: [f64; 2]) -> f64 {
        if self.moments.area_mm2 <= 0.0 {
            return f64::INFINITY;
        }
        let [u, v] = self.moments.centroid;
        let off = [at[0] - u, at[1] - v];
        let modulus = self.resist(Load::Along(off));
        // Without an offset nothing bends: the modulus is then endless.
        newtons / self.moments.area_mm2 + if modulus > 0.0 { newtons / modulus } else { f64::INFINITY }
    }

    /// The greatest shear stress, in MPa, of a twist in N mm: exact for rounds and rings, and less than 40 % too low for
    /// other full sections, whose corners carry little.
    #[must_use]
    pub fn twist_mpa(&self, twist_n_mm: f64) -> f64 {
        let polar = self.moments.second_vertical_mm4 + self.moments.second_sideways_mm4;
        let reach = self.fibres.iter().map(|p| p[0].hypot(p[1])).fold(self.round.unwrap_or(0.0), f64::max);
        if polar > 0.0 { twist_n_mm * reach / polar } else { f64::INFINITY }
    }

    /// How far the section reaches in a direction, from one side to the other, in mm.
    #[must_use]
    pub fn depth_mm(&self, load: [f64; 2]) -> f64 {
        if let Some(radius) = self.round {
            return 2.0 * radius;
        }
        let along = |p: &[f64; 2]| p[0] * load[0] + p[1] * load[1];
        let (low, high) = self.fibres.iter().map(along).fold((0.0_f64, 0.0_f64), |r, h| (r.0.min(h), r.1.max(h)));
        high - low
    }

    /// One over the greatest stress of a unit moment: `load . inverse . fibre`.
    fn resist(&self, load: Load) -> f64 {
        let Some(inverse) = self.inverse else { return 0.0 };
        if let Some(radius) = self.round {
            let strength = match load {
                Load::Along(load) => load[0].hypot(load[1]),
                Load::Any => 1.0,
            };
            return 1.0 / (strength * radius * inverse[0][0]);
        }
        let stress = |p: &[f64; 2]| {
            let curl = [inverse[0][0] * p[0] + inverse[0][1] * p[1], inverse[1][0] * p[0] + inverse[1][1] * p[1]];
            match load {
                Load::Along(load) => (curl[0] * load[0] + curl[1] * load[1]).abs(),
                Load::Any => curl[0].hypot(curl[1]),
            }
        };
        1.0 / self.fibres.iter().map(stress).fold(0.0, f64::max)
    }
}

fn inverse(moments: &AreaMoments) -> Option<[[f64; 2]; 2]> {
    let (uu, vv, uv) = (moments.second_sideways_mm4, moments.second_vertical_mm4, moments.product_mm4);
    let whole = uu * vv - uv * uv;
    // A sliver without breadth has no inverse worth having.
    (whole.is_finite() && whole > 1e-9 * (uu + vv) * (uu + vv) && whole > 0.0)
        .then(|| [[vv / whole, -uv / whole], [-uv / whole, uu / whole]])
}
