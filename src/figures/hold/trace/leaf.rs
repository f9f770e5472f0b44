//! The smallest patches: cut by the end line through them, or halved until one chord does.

use smallvec::SmallVec;

use super::cell::{Cell, Spot, share_of};
use super::{Active, Chord, MOST_PATCHES, Tracer};
use crate::figures::hold::bound::RimEdge;
use crate::figures::hold::elements::Pile;

/// A leaf is plainly on one side when its clearances are more than this share of its reach.
const PLAIN: f64 = 0.25;
/// An end line's chords stay this near to the line itself, in mm; of a small hollow, by this share of an element's side.
const CHORD: (f64, f64) = (0.006, 0.0015);
/// Shorter end lines, in mm, come of a corner that lies on a border by rounding.
const SHORTEST: f64 = 1e-6;
/// A leaf is halved this often more to bring its chord near to the line.
const FINEST: u32 = 9;

/// A place and the least clearance there.
pub(super) type Known = (Spot, f64);
/// Places round the kept part of a patch; with a bound where one of its end lines crosses the border.
type Outline = SmallVec<[(Spot, Option<usize>); 8]>;

impl Tracer<'_> {
    /// The kept part of a patch, walked round: its kept corners, and where an end line crosses its border, with the bound
    /// that the line belongs to.
    fn outline(&self, active: &Active, corners: [Known; 4]) -> Outline {
        let mut outline = Outline::new();
        for i in 0..4 {
            let (a, b) = (corners[i], corners[(i + 1) % 4]);
            if a.1 > 0.0 {
                outline.push((a.0, None));
            }
            if (a.1 > 0.0) != (b.1 > 0.0) {
                let (place, bound) = self.crossing(active, a, b);
                outline.push((place, Some(bound)));
            }
        }
        outline
    }

    /// Takes the kept part of one of the smallest patches, and the end line through it.
    pub(super) fn leaf(&mut self, cell: &Cell, active: &Active, corners: [Known; 4], level: u32, pile: &mut Pile) {
        self.patches += 1;
        let outline = self.outline(active, corners);
        let uncut = outline.iter().all(|o| o.1.is_none());
        if let Some(hole) = self.hole_in(cell).filter(|_| uncut && !outline.is_empty()) {
            if level < FINEST {
                self.quarter(cell, active, corners, level, pile);
                return;
            }
            let (point, bound) = (self.sheet.point(hole), self.least(active, hole).1);
            self.out.chords.push(Chord { from: point, to: point, edge: self.bounds[bound].edge });
        }
        let may_hide = || !cell.fits(self.smallest) && !self.is_plainly_one_sided(cell, active, &corners);
        if uncut && level < FINEST && self.patches < MOST_PATCHES && may_hide() {
            self.quarter(cell, active, corners, level, pile);
            return;
        }
        if outline.is_empty() {
            return;
        }
        let next = |i: usize| (i + 1) % outline.len();
        let ends = |i: &usize| outline[*i].1.is_some() && outline[next(*i)].1.is_some();
        // A leaf cut once has one end line. Its outline is walked kept corner, crossing, crossing.
        let lines: SmallVec<[usize; 2]> = (0..outline.len()).filter(ends).collect();
        let off = |i: usize| {
            let (a, b) = (outline[i].0, outline[next(i)].0);
            self.least(active, Spot::new((a.u + b.u) / 2.0, (a.clock + b.clock) / 2.0)).0.abs()
        };
        let chord = self.chord();
        let turns_off = |i: usize| outline[i].1 != outline[next(i)].1 || off(i) > chord;
        let finer = level < FINEST && self.patches < MOST_PATCHES;
        if finer && (lines.len() > 1 || lines.iter().any(|&i| turns_off(i))) {
            self.quarter(cell, active, corners, level, pile);
            return;
        }
        for &i in &lines {
            let (a, b) = (outline[i], outline[next(i)]);
            let edge = |end: Option<usize>| self.bounds[end.unwrap_or_default()].edge;
            let inward = |edge: RimEdge| matches!(edge, RimEdge::Hollow(_));
            if inward(edge(a.1)) || inward(edge(b.1)) {
                self.out.seams.push(self.sheet.point(a.0));
            } else {
                self.add_chords(a.0, b.0, edge(a.1));
            }
        }
        let places: SmallVec<[Spot; 8]> = outline.iter().map(|o| o.0).collect();
        let (middle, share) = share_of(cell, &places);
        if share > 0.0 {
            self.add(cell, middle, share, pile);
        }
    }

    fn chord(&self) -> f64 {
        CHORD.0.min(CHORD.1 * self.size)
    }

    /// Adds the end line between two places: in as many chords as keep near to the curved surface.
    fn add_chords(&mut self, a: Spot, b: Spot, edge: RimEdge) {
        let at =
            |part: f64| self.sheet.point(Spot::new(a.u + (b.u - a.u) * part, a.clock + (b.clock - a.clock) * part));
        let (mut from, end) = (at(0.0), at(1.0));
        if (end - from).length_sq() < SHORTEST * SHORTEST {
            return;
        }
        let off = (at(0.5) - (from + end) * 0.5).length();
        let count = (off / self.chord()).sqrt().ceil().clamp(1.0, 8.0);
        for i in 1..=count as usize {
            let to = if i == count as usize { end } else { at(i as f64 / count) };
            self.out.chords.push(Chord { from, to, edge });
            from = to;
        }
    }

    /// Whether a leaf with all corners on one side lies on it plainly: its middle too, and the least of the five
    /// clearances outweighs both how far the leaf is from flat and a share of its size.
    fn is_plainly_one_sided(&self, cell: &Cell, active: &Active, corners: &[Known; 4]) -> bool {
        let middle = self.least(active, cell.middle()).0;
        let unevenness = (middle - corners.iter().map(|c| c.1).sum::<f64>() / 4.0).abs();
        let least = corners.iter().fold(middle.abs(), |least, c| least.min(c.1.abs()));
        let reach = (cell.half_length().powi(2) + cell.half_arc().powi(2)).sqrt();
        (middle > 0.0) == (corners[0].1 > 0.0) && least > (2.0 * unevenness).max(PLAIN * reach)
    }

    fn quarter(&mut self, cell: &Cell, active: &Active, corners: [Known; 4], level: u32, pile: &mut Pile) {
        let known = |place: Spot| (place, self.least(active, place).0);
        let between = |a: Known, b: Known| known(Spot::new((a.0.u + b.0.u) / 2.0, (a.0.clock + b.0.clock) / 2.0));
        let sides: [Known; 4] = std::array::from_fn(|i| between(corners[i], corners[(i + 1) % 4]));
        let middle = between(sides[0], sides[2]);
        for (i, quarter) in cell.quarters().iter().enumerate() {
            // Each quarter starts at the corner of its own number; its corners go round as the cell's do.
            let mut own = [corners[i], sides[i], middle, sides[(i + 3) % 4]];
            own.rotate_right(i);
            self.leaf(quarter, active, own, level + 1, pile);
        }
    }

    /// Where the least clearance is nothing, between a place where it is positive and one where it is not.
    fn crossing(&self, active: &Active, a: Known, b: Known) -> (Spot, usize) {
        let at = |p: f64| Spot::new(a.0.u + (b.0.u - a.0.u) * p, a.0.clock + (b.0.clock - a.0.clock) * p);
        let (mut low, mut high) = ((0.0, a.1), (1.0, b.1));
        let mut found = (0.0, 0);
        let mut stayed = None;
        for _ in 0..40 {
            let secant = low.0 - low.1 * (high.0 - low.0) / (high.1 - low.1);
            let p = if secant.is_finite() { secant.clamp(low.0, high.0) } else { (low.0 + high.0) / 2.0 };
            let (value, bound) = self.least(active, at(p));
            found = (p, bound);
            if value.abs() < 1e-10 || high.0 - low.0 < 1e-12 {
                break;
            }
            // An end that stays twice is halved in value, so that it moves too.
            let low_moves = (value > 0.0) == (low.1 > 0.0);
            let again = stayed == Some(low_moves);
            stayed = Some(low_moves);
            if low_moves {
                low = (p, value);
                high.1 *= if again { 0.5 } else { 1.0 };
            } else {
                high = (p, value);
                low.1 *= if again { 0.5 } else { 1.0 };
            }
        }
        (at(found.0), found.1)
    }
}
