//! The curve of hold over pitch on screen. It is worked out only while it is looked at.

use std::sync::Arc;

use leptos::prelude::*;

use super::board::{Board, theme};
use super::subject::Subject;
use kurbo::Point;

use crate::app::state::{State, state};
use crate::drawings::Viewport;
use crate::drawings::hold_curve::{HoldCurve, HoldMark, HoldScene, draw_hold_curve};
use crate::figures::hold::{Filled, Vessel};
use crate::figures::summary::repose;
use crate::figures::tables::Content;
use crate::figures::tables::measures::MM3_PER_ML;
use crate::figures::wall::holes;

/// Pitches are this far apart, in degrees.
const STEP_DEG: f64 = 4.0;

/// The curve.
#[component]
pub fn HoldChart() -> impl IntoView {
    let state = state();
    let scene = Memo::new(move |_| hold_scene(state).map(Arc::new));
    let subject = Subject::still(
        move |sheet| scene.with(|scene| scene.is_some().then(|| Viewport::plain(sheet))),
        move |area, viewport, theme| {
            scene.get_untracked().map_or(Ok(()), |scene| draw_hold_curve(area, &scene, theme, viewport.sheet))
        },
    );
    let label = Signal::stored("What it holds as it is tipped. The figures stand in the table.".to_owned());
    view! { <Board subject=subject label=label theme=theme(state) /> }.into_any()
}

fn hold_scene(state: State) -> Option<HoldScene> {
    let (liquid, repose) = state
        .design
        .with(|design| (Content::named(&design.contents).is_some_and(|content| content.liquid), repose(design)));
    state
        .figure(|worked| {
            let points =
                Vessel::broken_at(&worked.piece.solid, &holes(&worked.figures.walls)).ok()?.curve(repose, STEP_DEG);
            let ml = |mm3: f64| mm3 / MM3_PER_ML;
            let curve = |words: &str, of: &dyn Fn(usize) -> f64| HoldCurve {
                words: words.to_owned(),
                points: points.iter().enumerate().map(|(i, point)| Point::new(point.pitch_deg, ml(of(i)))).collect(),
            };
            let of_liquid = curve("liquid", &|i| points[i].liquid_mm3);
            let of_dry = curve("heaped", &|i| points[i].dry_mm3);
            let hold = worked.figures.hold.value()?;
            let mark = |filled: &Filled, words: &str| HoldMark {
                at: Point::new(filled.pitch_deg, ml(filled.volume_mm3)),
                words: words.to_owned(),
            };
            Some(match liquid {
                true => HoldScene {
                    curves: vec![of_liquid],
                    marks: vec![mark(&hold.liquid_handle_level, "handle level"), mark(&hold.liquid_best, "best")],
                },
                false => HoldScene {
                    curves: vec![of_dry, of_liquid],
                    marks: vec![
                        mark(&hold.dry_handle_level.heaped, "handle level"),
                        mark(&hold.dry_best.heaped, "best"),
                    ],
                },
            })
        })
        .flatten()
}
