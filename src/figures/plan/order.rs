//! The order of the work: the design's own, changed only where a rule asks for it.

use std::fmt::Write as _;

use thiserror::Error;

use super::rules::{Rule, rule};
use crate::design::Design;
use crate::figures::support::{Lack, Work};

/// One piece of work that has to come before another, by their places in the design from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Before {
    /// What comes first.
    pub first: usize,
    /// What comes after it.
    pub then: usize,
    /// Why.
    pub rule: Rule,
}

/// Why there is no plan.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum PlanError {
    /// Some cuts would each have to come before the next, round in a circle.
    #[error("{sentence}")]
    Circle {
        /// The circle; the last leads back to the first.
        links: Vec<Before>,
        /// It in words.
        sentence: String,
    },
    /// Nothing carries a piece of work.
    #[error("{sentence}")]
    NothingCarries {
        /// The first piece of work that nothing carries.
        lack: Lack,
        /// It in words.
        sentence: String,
    },
    /// A plug's spigot has no bore to go into.
    #[error("The plug has no bore to go into: bore the end before it, or leave the plug out.")]
    PlugWithoutBore {
        /// The cut that fits it, from 0.
        cut: usize,
    },
}

/// The places of all work in the order in which it is done: always the earliest of the design that may come next.
///
/// # Errors
/// [`PlanError`] when no order keeps every rule, or a plug has no bore.
pub fn order(design: &Design, works: &[Work]) -> Result<Vec<usize>, PlanError> {
    let mut order = Vec::with_capacity(works.len());
    let mut left: Vec<usize> = (0..works.len()).collect();
    while !left.is_empty() {
        let free = left.iter().position(|b| left.iter().all(|a| rule(works, *a, *b).is_none()));
        let Some(next) = free else {
            let links = circle(works, &left);
            let sentence = told(design, &links);
            return Err(PlanError::Circle { links, sentence });
        };
        order.push(left.remove(next));
    }
    plugs_have_bores(design, works, &order)?;
    Ok(order)
}

fn plugs_have_bores(design: &Design, works: &[Work], order: &[usize]) -> Result<(), PlanError> {
    let mut bored = false;
    for &place in order {
        match (works[place], design.cuts.get(place)) {
            (Work::Bore { .. }, _) => bored = true,
            (Work::Fit, Some(crate::design::Cut::FitPlug(plug))) if !bored && plug.spigot_length_mm > 0.0 => {
                return Err(PlanError::PlugWithoutBore { cut: place });
            }
            _ => {}
        }
    }
    Ok(())
}

/// The shortest circle among work of which none can be next.
fn circle(works: &[Work], left: &[usize]) -> Vec<Before> {
    let mut shortest: Vec<usize> = Vec::new();
    for &start in left {
        let found = way_back(works, left, start);
        if !found.is_empty() && (shortest.is_empty() || found.len() < shortest.len()) {
            shortest = found;
        }
    }
    let next = shortest.iter().cycle().skip(1);
    shortest
        .iter()
        .zip(next)
        .filter_map(|(a, b)| Some(Before { first: *a, then: *b, rule: rule(works, *a, *b)? }))
        .collect()
}

/// The shortest way from a piece of work by the rules back to itself; empty when there is none.
fn way_back(works: &[Work], left: &[usize], start: usize) -> Vec<usize> {
    let mut came_from: Vec<Option<usize>> = vec![None; works.len()];
    let mut waiting = vec![start];
    let mut reached = 0;
    while let Some(&here) = waiting.get(reached) {
        reached += 1;
        for &next in left.iter().filter(|next| rule(works, here, **next).is_some()) {
            if next == start {
                let mut way = vec![here];
                while let Some(before) = way.last().and_then(|at| came_from[*at]) {
                    way.push(before);
                }
                way.reverse();
                return way;
            }
            if came_from[next].is_none() {
                came_from[next] = Some(here);
                waiting.push(next);
            }
        }
    }
    Vec::new()
}

fn told(design: &Design, links: &[Before]) -> String {
    let mut sentence = String::from("The cuts cannot be put in order:");
    for (i, link) in links.iter().enumerate() {
        let joint = if i == 0 { "" } else { "; and" };
        let (first, then, because) = (design.cut_name(link.first), design.cut_name(link.then), link.rule.because());
        // Writing to a text cannot fail.
        let _ = write!(sentence, "{joint} {first} has to come before {then}, because {because}");
    }
    sentence.push_str(". Change or move one of them.");
    sentence
}
