//! Contents that a ridge keeps apart.

use super::pitch::Pitch;
use super::strike::Strike;
use super::vessel::{Sum, Vessel, in_range};
use crate::geometry::{Fill, Revolved, Vector};

/// Elements nearer than this share of an element's size touch. They stand at most 0.85 of it apart, corner to corner.
const TOUCH: f64 = 0.9;

impl Vessel<'_> {
    /// The volumes of contents that ridges keep apart, in mm3, the largest first; struck or heaped. See
    /// [`Vessel::hold`] for the angles.
    ///
    /// A hollow that bulges nowhere inward holds one pool. In any other, covered surface is followed from element to
    /// element: a ridge that stays bare over less than about an element's width (a twentieth of the hollow) is not
    /// seen.
    #[must_use]
    pub fn pools_mm3(&self, pitch: f64, repose: f64, struck: bool) -> Vec<f64> {
        if self.is_one_pool() {
            let contents = if struck { self.struck(pitch, repose) } else { self.hold(pitch, repose) };
            return vec![contents.volume_mm3];
        }
        let (pitch, repose) = in_range(pitch, repose);
        let frame = Pitch::new(pitch);
        let strike = struck.then(|| Strike::new(self.solid, frame));
        let mut covered = Vec::new();
        self.visit(&self.elements, frame, repose, |i, element, top| {
            let top = strike.as_ref().map_or(top, |strike| top.min(strike.height(element)));
            let mut sum = Sum::default();
            sum.add(element, top);
            if top > element.height {
                covered.push((self.elements.position(i), sum.volume));
            }
        });
        separate(covered, TOUCH * self.element_size)
    }

    /// Whether contents can only lie in one pool: there is one hollow, and it bulges nowhere inward.
    pub(super) fn is_one_pool(&self) -> bool {
        matches!(self.hollows.as_slice(), [only] if bulges_nowhere(only))
    }
}

/// Whether a hollow is convex: its profile turns only toward the axis.
fn bulges_nowhere(hollow: &Revolved) -> bool {
    // An open mouth starts level with the axis, a closed one may start at any slope.
    let mut before = match hollow.fill {
        Fill::WithinOpen => 0.0,
        Fill::Within | Fill::Beyond => std::f64::consts::PI,
    };
    hollow.meridian.points().windows(2).all(|pair| {
        let heading = (pair[1].1 - pair[0].1).atan2(pair[1].0 - pair[0].0);
        let same = pair[0] == pair[1];
        let falls = same || heading <= before + 1e-9;
        before = if same { before } else { heading };
        falls
    })
}

/// Sums the volumes of elements that touch, directly or through others; what is below nothing joins the largest.
fn separate(mut covered: Vec<(Vector, f64)>, touch: f64) -> Vec<f64> {
    covered.sort_unstable_by(|a, b| a.0.s.total_cmp(&b.0.s));
    let mut parent: Vec<usize> = (0..covered.len()).collect();
    for i in 0..covered.len() {
        for j in i + 1..covered.len() {
            if covered[j].0.s - covered[i].0.s > touch {
                break;
            }
            if (covered[j].0 - covered[i].0).length_sq() <= touch * touch {
                let (a, b) = (root(&mut parent, i), root(&mut parent, j));
                parent[a] = b;
            }
        }
    }
    let mut sums = vec![0.0; covered.len()];
    for (i, (_, volume)) in covered.iter().enumerate() {
        sums[root(&mut parent, i)] += volume;
    }
    let below: f64 = sums.iter().filter(|v| **v < 0.0).sum();
    let mut pools: Vec<f64> = sums.into_iter().filter(|v| *v > 0.0).collect();
    pools.sort_unstable_by(|a, b| b.total_cmp(a));
    match pools.first_mut() {
        Some(largest) => *largest = (*largest + below).max(0.0),
        None => pools.push(0.0),
    }
    pools
}

fn root(parent: &mut [usize], mut i: usize) -> usize {
    while parent[i] != i {
        parent[i] = parent[parent[i]];
        i = parent[i];
    }
    i
}
