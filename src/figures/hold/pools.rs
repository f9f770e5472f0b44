//! Contents that a ridge keeps apart.

use super::elements::Elements;
use crate::geometry::line::order::{sort_by_number, sort_by_number_falling};
use crate::geometry::{Fill, Revolved, Vector};

/// Groups of elements touch when their middles are nearer than this many elements' sides.
const TOUCH: f64 = 1.15;

/// Which groups of elements touch.
pub(super) struct Neighbours {
    pairs: Vec<(usize, usize)>,
}

impl Neighbours {
    /// The groups that touch, on one hollow or across a seam where two hollows meet; `None` where contents can only
    /// lie in one pool: there is one hollow, and it bulges nowhere inward.
    pub(super) fn needed<'a>(
        mut hollows: impl Iterator<Item = &'a Revolved>,
        elements: &Elements,
        seams: &[Vector],
        size: f64,
    ) -> Option<Self> {
        if hollows.next().is_some_and(bulges_nowhere) && hollows.next().is_none() {
            return None;
        }
        let touch = TOUCH * size;
        let groups = &elements.groups;
        let mut order: Vec<usize> = (0..groups.len()).collect();
        sort_by_number(&mut order, |i| groups[*i].middle.s);
        let mut pairs = Vec::new();
        for (place, &i) in order.iter().enumerate() {
            let (here, facing) = (&groups[i], elements.area(groups[i].from));
            for &j in &order[place + 1..] {
                let there = &groups[j];
                if there.middle.s - here.middle.s > touch {
                    break;
                }
                let near = (there.middle - here.middle).length_sq() <= touch * touch;
                // Two sides of a thin wall face away from each other.
                if near && here.hollow == there.hollow && facing.dot(elements.area(there.from)) >= 0.0 {
                    pairs.push((i, j));
                }
            }
        }
        for seam in seams {
            let from = order.partition_point(|i| groups[*i].middle.s < seam.s - touch);
            let about = order[from..].iter().copied().take_while(|i| groups[*i].middle.s <= seam.s + touch);
            let mut touching = about.filter(|i| (groups[*i].middle - *seam).length_sq() <= touch * touch);
            if let Some(first) = touching.next() {
                pairs.extend(touching.map(|other| (first, other)));
            }
        }
        Some(Self { pairs })
    }

    /// Adds up the volumes of groups that touch, directly or through others; those of bare groups are 0. The largest
    /// first; ceilings on their own, below nothing, are taken from the largest.
    pub(super) fn pools(&self, volumes: impl Iterator<Item = f64>) -> Vec<f64> {
        let volumes: Vec<f64> = volumes.collect();
        let mut parent: Vec<usize> = (0..volumes.len()).collect();
        let covered = |i: usize| volumes[i] != 0.0;
        for &(i, j) in self.pairs.iter().filter(|(i, j)| covered(*i) && covered(*j)) {
            let (a, b) = (root(&mut parent, i), root(&mut parent, j));
            parent[a] = b;
        }
        let mut sums = vec![0.0; volumes.len()];
        for (i, volume) in volumes.iter().enumerate() {
            sums[root(&mut parent, i)] += volume;
        }
        let below: f64 = sums.iter().filter(|v| **v < 0.0).sum();
        let mut pools: Vec<f64> = sums.into_iter().filter(|v| *v > 0.0).collect();
        sort_by_number_falling(&mut pools, |volume| *volume);
        match pools.first_mut() {
            Some(largest) => *largest = (*largest + below).max(0.0),
            None => pools.push(0.0),
        }
        pools
    }
}

/// Whether a hollow is convex: its profile turns only toward the axis.
pub(super) fn bulges_nowhere(hollow: &Revolved) -> bool {
    // An open mouth starts level with the axis, a closed one may start at any slope.
    let mut before = match hollow.fill {
        Fill::WithinOpen => 0.0,
        Fill::Within | Fill::Beyond => std::f64::consts::PI,
    };
    hollow.meridian.points().windows(2).all(|pair| {
        let heading = (pair[1].r - pair[0].r).atan2(pair[1].t - pair[0].t);
        let same = pair[0] == pair[1];
        let falls = same || heading <= before + 1e-9;
        before = if same { before } else { heading };
        falls
    })
}

fn root(parent: &mut [usize], mut i: usize) -> usize {
    while parent[i] != i {
        parent[i] = parent[parent[i]];
        i = parent[i];
    }
    i
}
