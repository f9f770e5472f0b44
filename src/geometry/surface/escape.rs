//! What of a patch something takes, and where a point of it may escape.

use std::cell::OnceCell;

use smallvec::{SmallVec, smallvec};

use super::beside::SAME;
use super::kept::{Ending, HollowSurface, NEARLY, Shape};
use super::patch::{Bend, Tangent, View};
use crate::geometry::frame::station::Station;
use crate::geometry::frame::vector::Vector;
use crate::geometry::region::removed::Region;
use crate::geometry::region::revolved::{Fill, Revolved};
use crate::geometry::region::sawn::Sawn;
use crate::geometry::region::stock::{Section, Stock};

/// Bounds of how deep points of a patch lie behind the faces of what takes it: of a point that escapes one is negative.
pub(super) type Ways = SmallVec<[Tangent; 3]>;

/// The ways out of all that may take a part of a patch, found when first asked for.
pub(super) struct Escapes<'a, 'b> {
    surface: &'b HollowSurface<'a>,
    view: &'b View,
    found: OnceCell<Vec<Ways>>,
}

/// Depths are looked at this much farther than the patch reaches, in mm.
const FARTHER: f64 = 2.0 * NEARLY;
/// Of a profile near a patch no more straight pieces than this are looked at each by itself.
const MOST_LINES: usize = 3;
/// Of distances, in mm.
const ROUNDING: f64 = 1e-9;
/// How far beyond a disc another hollow is looked for that touches it back to back, in mm.
const BEHIND: f64 = 1e-4;

impl<'a, 'b> Escapes<'a, 'b> {
    pub(super) fn new(surface: &'b HollowSurface<'a>, view: &'b View) -> Self {
        Self { surface, view, found: OnceCell::new() }
    }

    /// Whether some ending has ways out like this.
    pub(super) fn any(&self, is_like: impl FnMut(&Ways) -> bool) -> bool {
        self.found.get_or_init(|| self.find()).iter().any(is_like)
    }

    /// Whether all of the patch is taken by one thing besides the outside.
    pub(super) fn are_none(&self) -> bool {
        let least = |depth: &Tangent| self.view.least(depth).0;
        self.any(|ways| ways.iter().all(|depth| least(depth) >= 0.0)) || self.are_none_back_to_back()
    }

    fn find(&self) -> Vec<Ways> {
        let (view, surface) = (self.view, self.surface);
        let within = surface.endings().iter().filter(|ending| !ending.is_outside());
        let mut all: Vec<Ways> = within.filter_map(|ending| of_ending(ending, view)).collect();
        if surface.sheet.is_way_out(view.at.place) {
            let stock = &surface.solid.stock;
            let end = Tangent::plane(view.at.point.s - stock.length - SAME, Vector::new(0.0, 0.0, 1.0));
            all.extend(sides(stock, view).into_iter().chain([end]).map(|depth| smallvec![depth]));
        }
        all
    }

    /// Whether all of a disc is taken by another hollow that touches it from behind.
    fn are_none_back_to_back(&self) -> bool {
        let view = self.view;
        let is_disc = view.is_disc();
        let mut hollows = self.surface.endings().iter().filter_map(|ending| match &ending.shape {
            Shape::Hollow(other, false) if is_disc => Some(*other),
            _ => None,
        });
        hollows.any(|other| {
            let touches = other.signed_distance(view.at.point).abs() <= SAME;
            let ways = if touches { of_hollow(other, view, SAME / 2.0) } else { None };
            ways.is_some_and(|ways| {
                ways.iter().all(|depth| {
                    let least = view.least(depth).0;
                    least >= 0.0 && least + depth.gradient.dot(view.at.into_wood) * BEHIND >= 0.6 * BEHIND
                })
            })
        })
    }
}

/// The ways out of one ending; `None` where it is too far away to take anything of the patch.
fn of_ending(ending: &Ending<'_>, view: &View) -> Option<Ways> {
    let at = &view.at;
    match &ending.shape {
        Shape::Hollow(other, true) => of_keeping_hollow(other, view),
        Shape::Hollow(other, false) => of_hollow(other, view, -NEARLY - ROUNDING),
        Shape::Region(Region::Sawn(sawn)) => of_saw(sawn, view),
        // Patches end where one about the same line does.
        Shape::Coaxial(..) => None,
        _ => {
            let clearance = ending.clearance(at);
            let slope = ending.slope().filter(|_| clearance < view.reach())?;
            Some(smallvec![Tangent::plane(-clearance, -slope)])
        }
    }
}

/// The ways out of a hollow that keeps what is nearly its surface. Only a point that is out by [`NEARLY`] has escaped: by so
/// much of one face, or less of each of two.
fn of_keeping_hollow(other: &Revolved, view: &View) -> Option<Ways> {
    let mut ways = of_hollow(other, view, 0.0)?;
    ways.retain(|depth| view.least(depth).0 < 0.0);
    let faces = ways.len() as f64;
    ways.iter_mut().for_each(|depth| depth.value += NEARLY / faces.sqrt() - ROUNDING);
    Some(ways)
}

/// Within a hollow lies what is past its first plane, before its last, and under its profile: under the line of the piece
/// at the middle of the patch, less what the profile falls short of it between two steps.
fn of_hollow(other: &Revolved, view: &View, spare: f64) -> Option<Ways> {
    let axis = &other.axis;
    let seen = axis.see(view.at.point);
    let (t, radius, reach) = (seen.t, seen.radius(), view.reach() + FARTHER);
    other.signed_distance_seen_below(t, radius, reach)?;
    let (meridian, along) = (&other.meridian, axis.along());
    let chain = meridian.points();
    let (start, end) = other.span();
    let (mut low, mut high) = (start.max(t - reach), end.min(t + reach));
    if low >= high {
        return None;
    }
    let pieces = &chain[meridian.piece_at(low)..=meridian.piece_at(high) + 1];
    // A step in reach bounds what is looked at, as the end planes do.
    for pair in pieces.windows(2).filter(|pair| pair[0].t == pair[1].t) {
        let at = pair[0].t;
        if at <= t {
            low = low.max(at);
        } else {
            high = high.min(at);
        }
    }
    let mut ways = Ways::new();
    if low > t - reach {
        ways.push(Tangent::plane(t - low + spare, along));
    }
    if high < t + reach {
        ways.push(Tangent::plane(high - t + spare, -along));
    }
    let mouth = if other.fill == Fill::WithinOpen { Some(chain[0]) } else { None };
    let out =
        if radius > 0.0 { (axis.right() * seen.right + axis.up() * seen.up) * (1.0 / radius) } else { return None };
    let around = along.cross(out);
    let before = mouth.filter(|mouth| low < mouth.t).map(|mouth| [Station::new(low, mouth.r), mouth]);
    for (line, slope) in lines_under(before, pieces, t, (low, high), MOST_LINES) {
        let scale = 1.0 / slope.hypot(1.0);
        let bend = Bend { inward: scale, out, around, radius };
        ways.push(Tangent::bent((line - radius) * scale + spare, (along * slope - out) * scale, bend));
    }
    Some(ways)
}

/// Lines, by their radius at a station and their slope: between two other stations, no point under all of them lies over the
/// profile. They are those of the piece at the station and of others that bend down from it, `count` at most, lowered where
/// that is not all.
fn lines_under(
    before: Option<[Station; 2]>,
    pieces: &[Station],
    t: f64,
    (low, high): (f64, f64),
    count: usize,
) -> SmallVec<[(f64, f64); 3]> {
    let middle = t.clamp(low, high);
    let all = || before.iter().map(|pair| &pair[..]).chain(pieces.windows(2)).filter(|pair| pair[1].t > pair[0].t);
    let own = all().find(|pair| pair[1].t >= middle).or_else(|| all().next_back());
    let at = |pair: &[Station], t: f64| pair[0].r + (pair[1].r - pair[0].r) * (t - pair[0].t) / (pair[1].t - pair[0].t);
    let mut lines: SmallVec<[&[Station]; 3]> = own.into_iter().collect();
    let mut most: f64 = 0.0;
    for pair in all().filter(|pair| pair[1].t > low && pair[0].t < high) {
        let (from, to) = (pair[0].t.max(low), pair[1].t.min(high));
        let over = |line: &[Station], t: f64| at(line, t) - at(pair, t);
        let over_piece = lines.iter().map(|line| over(line, from).max(over(line, to))).fold(f64::INFINITY, f64::min);
        if over_piece > ROUNDING && lines.len() < count {
            lines.push(pair);
        } else {
            most = most.max(over_piece);
        }
    }
    let slope = |line: &[Station]| (line[1].r - line[0].r) / (line[1].t - line[0].t);
    lines.into_iter().map(|line| (at(line, t) - most, slope(line))).collect()
}

/// [`lines_under`] of one line.
pub(super) fn line_under(pieces: &[Station], t: f64, stretch: (f64, f64)) -> (f64, f64) {
    lines_under(None, pieces, t, stretch, 1).first().copied().unwrap_or((0.0, 0.0))
}

/// Above a saw line lies what is before its handle-side end and over the line at the middle of the patch, and over all by
/// which the path rises above that.
fn of_saw(sawn: &Sawn, view: &View) -> Option<Ways> {
    let (point, reach) = (view.at.point, view.reach() + FARTHER);
    let (low, last) = (point.s - reach, sawn.ends().1);
    let high = last.min(point.s + reach);
    if low >= last {
        return None;
    }
    let near = || sawn.points().windows(2).filter(|pair| pair[1].x > low && pair[0].x < high);
    let own = near().find(|pair| pair[1].x >= point.s).or_else(|| near().next_back())?;
    let slope = (own[1].y - own[0].y) / (own[1].x - own[0].x);
    let line = |s: f64| own[0].y + slope * (s - own[0].x);
    let mut most: f64 = 0.0;
    for pair in near() {
        let inner = |s: f64| pair[0].y + (pair[1].y - pair[0].y) * (s - pair[0].x) / (pair[1].x - pair[0].x);
        for s in [pair[0].x.max(low), pair[1].x.min(high)] {
            most = most.max(inner(s) - line(s));
        }
    }
    let scale = 1.0 / slope.hypot(1.0);
    let over = (point.y - line(point.s) - most) * scale;
    if over < -2.0 * reach {
        return None;
    }
    let mut ways: Ways = smallvec![Tangent::plane(over, Vector::new(0.0, scale, -slope * scale))];
    if last < point.s + reach {
        ways.push(Tangent::plane(last - point.s, Vector::new(0.0, 0.0, -1.0)));
    }
    Some(ways)
}

/// Beyond the blank's sides the way out is no surface at all.
fn sides(stock: &Stock, view: &View) -> SmallVec<[Tangent; 4]> {
    let point = view.at.point;
    match stock.section {
        Section::Square { half_side } => [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)]
            .into_iter()
            .map(|(x, y)| Tangent::plane(x * point.x + y * point.y - half_side - SAME, Vector::new(x, y, 0.0)))
            .collect(),
        Section::Round { radius } => Vector::new(point.x, point.y, 0.0)
            .unit()
            .map(|out| Tangent::plane(point.radius() - radius - SAME, out))
            .into_iter()
            .collect(),
    }
}
