//! What stands on a template: lines, circles and words in mm, right and down, at full size.

use crate::drawings::frame::{Bounds, Point};
use crate::drawings::text;

/// A kind of line, after ISO 128.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stroke {
    /// Continuous and thick: cut or saw here.
    Cut,
    /// Continuous and thin.
    Thin,
    /// Dashed: fold here, or a hidden edge.
    Dashed,
    /// Long-dash-dot: an axis.
    Axis,
    /// Dotted: the edge of the safe area.
    Dotted,
}

impl Stroke {
    /// Width in mm, and the lengths of dashes and gaps in mm.
    pub(super) const fn style(self) -> (f64, &'static str) {
        match self {
            Self::Cut => (0.5, ""),
            Self::Thin => (0.18, ""),
            Self::Dashed => (0.25, "3 1.5"),
            Self::Axis => (0.25, "8 1.5 1 1.5"),
            Self::Dotted => (0.3, "0.6 1.2"),
        }
    }
}

/// Where words stand to their place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// They start there.
    Start,
    /// They are centred on it.
    Middle,
    /// They end there.
    End,
}

/// One thing on a template.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// A chain of straight lines.
    Line {
        /// Its points.
        points: Vec<Point>,
        /// Whether the last is joined to the first.
        closed: bool,
        /// How it is drawn.
        stroke: Stroke,
    },
    /// A circle.
    Circle {
        /// Its middle.
        at: Point,
        /// Its radius, in mm.
        radius: f64,
        /// How it is drawn.
        stroke: Stroke,
    },
    /// A filled shape, such as an arrow head.
    Filled {
        /// Its corners.
        points: Vec<Point>,
    },
    /// Words.
    Words {
        /// On their base line.
        at: Point,
        /// What they say.
        words: String,
        /// Height of the letters' body, in mm.
        size: f64,
        /// How they stand to their place.
        anchor: Anchor,
        /// Whether they run upward.
        upward: bool,
    },
}

/// How much wider the letters of some systems are than ours.
const WIDER: f64 = 1.15;

impl Item {
    /// The box it needs; words by a guess that is rather too wide.
    #[must_use]
    pub fn bounds(&self) -> Bounds {
        match self {
            Self::Line { points, stroke, .. } => grown(Bounds::around(points.iter().copied()), *stroke),
            Self::Filled { points } => Bounds::around(points.iter().copied()),
            Self::Circle { at, radius, stroke } => {
                let box_of_it = Bounds::EMPTY
                    .with(Point::new(at.x - radius, at.y - radius))
                    .with(Point::new(at.x + radius, at.y + radius));
                grown(box_of_it, *stroke)
            }
            Self::Words { at, words, size, anchor, upward } => {
                let long = WIDER * text::width(words, *size);
                let start = match anchor {
                    Anchor::Start => 0.0,
                    Anchor::Middle => -long / 2.0,
                    Anchor::End => -long,
                };
                let corner = |along: f64, over: f64| match upward {
                    false => Point::new(at.x + along, at.y - over),
                    true => Point::new(at.x - over, at.y - along),
                };
                Bounds::EMPTY.with(corner(start, -0.3 * *size)).with(corner(start + long, *size))
            }
        }
    }

    /// The same moved right and down.
    #[must_use]
    pub(super) fn moved(&self, by: Point) -> Self {
        let point = |p: &Point| Point::new(p.x + by.x, p.y + by.y);
        let mut moved = self.clone();
        match &mut moved {
            Self::Line { points, .. } | Self::Filled { points } => points.iter_mut().for_each(|p| *p = point(p)),
            Self::Circle { at, .. } | Self::Words { at, .. } => *at = point(at),
        }
        moved
    }
}

/// The box of a line with half its width around it.
fn grown(bounds: Bounds, stroke: Stroke) -> Bounds {
    let half = stroke.style().0 / 2.0;
    bounds
        .with(Point::new(bounds.low.x - half, bounds.low.y - half))
        .with(Point::new(bounds.high.x + half, bounds.high.y + half))
}

/// A list of things, with the short ways to add one.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ink(pub Vec<Item>);

impl Ink {
    /// A chain of straight lines.
    pub fn line(&mut self, points: Vec<Point>, stroke: Stroke) {
        self.0.push(Item::Line { points, closed: false, stroke });
    }

    /// A closed chain.
    pub fn ring(&mut self, points: Vec<Point>, stroke: Stroke) {
        self.0.push(Item::Line { points, closed: true, stroke });
    }

    /// A circle; none without a radius.
    pub fn circle(&mut self, at: Point, radius: f64, stroke: Stroke) {
        if radius > 0.0 {
            self.0.push(Item::Circle { at, radius, stroke });
        }
    }

    /// Words on a level line.
    pub fn words(&mut self, at: Point, words: impl Into<String>, size: f64, anchor: Anchor) {
        self.0.push(Item::Words { at, words: words.into(), size, anchor, upward: false });
    }

    /// Words that run upward, centred on their place.
    pub fn words_upward(&mut self, at: Point, words: impl Into<String>, size: f64) {
        self.0.push(Item::Words { at, words: words.into(), size, anchor: Anchor::Middle, upward: true });
    }

    /// An arrow with its head at `to`.
    pub fn arrow(&mut self, from: Point, to: Point) {
        self.line(vec![from, to], Stroke::Thin);
        if let Some(head) = crate::drawings::line::arrow_head(to, from, 4.0) {
            self.0.push(Item::Filled { points: head.to_vec() });
        }
    }

    /// The box around all of it.
    #[must_use]
    pub fn bounds(&self) -> Bounds {
        self.0.iter().fold(Bounds::EMPTY, |all, item| {
            let one = item.bounds();
            all.with(one.low).with(one.high)
        })
    }
}
