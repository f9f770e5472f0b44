//! Doing the work.

use super::messages::{Found, Part, Work};
use crate::design::{Design, Shop};
use crate::figures::slack::SlackSearch;
use crate::figures::stop_free::{StopFree, StopFreeSearch};
use crate::figures::{Sliced, Slow, slow_in_slices, sound_piece_in_slices};
use crate::finding::{Asked, Cures, KindAsked, cures, find, find_round_bowls, find_spreaders};
use crate::form::Field;

/// A range that takes more work than this, in units, is not looked for to the end: that of a heavy piece for seconds.
const MOST_WORK: u64 = 400_000_000;
/// Work on figures that takes no more than this, in units, is done before anyone asks how far it is.
const BRIEF: u64 = 10_000_000;

/// Does a piece of work and tells each part as it is found; the last is [`Part::Done`]. `breathe` is called every few
/// milliseconds of work, or between two designs: it lets others do theirs, and says whether the work is still wanted.
/// When it is not, nothing more is told.
pub async fn do_work(work: Work, tell: impl Fn(Part), breathe: impl AsyncFn() -> bool) {
    let is_whole = match work {
        Work::Figures { design, shop, begun } => figures(slow_in_slices(design, shop, begun), &tell, &breathe).await,
        Work::Slack { design, shop } => slack(design, shop, &tell, &breathe).await,
        Work::StopFree { design, shop, fields } => stop_free(&design, &shop, fields, &tell, &breathe).await,
        Work::Cures { design, shop, name } => {
            let found = cures(&design, &shop, name, async |tried| {
                tell(Part::Tried(tried));
                breathe().await
            });
            let Cures { found, why_none, .. } = found.await;
            let found = found.into_iter().map(|cure| Found { words: cure.words, design: cure.design }).collect();
            breathe().await.then(|| tell(Part::Cures { found, why_none })).is_some()
        }
        Work::Find { asked, shop } => {
            let answer = answer(&asked, &shop, async |tried| {
                tell(Part::Tried(tried));
                breathe().await
            });
            let answer =
                answer.await.unwrap_or_else(|why_not| Part::Answer { found: None, why_not, instead: Vec::new() });
            breathe().await.then(|| tell(answer)).is_some()
        }
    };
    if is_whole {
        tell(Part::Done);
    }
}

/// The answer to a search; `Err` says what of it cannot be read.
async fn answer(asked: &Asked, shop: &Shop, breathe: impl AsyncFn(usize) -> bool) -> Result<Part, String> {
    Ok(match asked.kind {
        KindAsked::BoredEnd => {
            let answer = find(&asked.read(shop)?, shop, breathe).await;
            let found = |offer: crate::finding::Offer| Found { words: offer.words, design: offer.design };
            answered(answer.found.map(found), answer.why_not, answer.instead.into_iter().map(found))
        }
        KindAsked::RoundBowl => {
            let answer = find_round_bowls(&asked.read(shop)?, shop, breathe).await;
            let found = |it: crate::finding::RoundBowl| Found { words: it.words, design: it.design };
            answered(answer.found.map(|it| found(*it)), answer.why_not, answer.instead.into_iter().map(found))
        }
        KindAsked::Spreader => {
            let found = |it: crate::finding::FoundSpreader| Found { words: it.words, design: it.design };
            match find_spreaders(&asked.read_spreader(shop)?, shop, breathe).await {
                Ok(it) => answered(Some(found(*it)), String::new(), std::iter::empty()),
                Err(none) => answered(None, none.sentence, none.instead.into_iter().map(found)),
            }
        }
    })
}

fn answered(found: Option<Found>, why_not: String, instead: impl Iterator<Item = Found>) -> Part {
    Part::Answer { found: found.map(Box::new), why_not, instead: instead.collect() }
}

/// Whether it came to its end.
async fn figures(mut work: Sliced<Option<Slow>>, tell: &impl Fn(Part), breathe: &impl AsyncFn() -> bool) -> bool {
    let mut told = 0;
    loop {
        if let Some(found) = work.step() {
            if let Some(slow) = found {
                tell(Part::Figures(Some(Box::new(slow))));
            }
            return true;
        }
        let percent = (work.share_done() * 100.0) as u8;
        if work.units() > BRIEF && percent > told {
            told = percent;
            tell(Part::Progress { percent, units: work.units() });
        }
        if !breathe().await {
            return false;
        }
    }
}

/// Whether it came to its end.
async fn slack(design: Design, shop: Shop, tell: &impl Fn(Part), breathe: &impl AsyncFn() -> bool) -> bool {
    let begin = Sliced::new(async move |pace| {
        let piece = sound_piece_in_slices(&design, &shop, &pace).await.ok()?;
        SlackSearch::in_slices(&design, &shop, &piece, &pace).await
    });
    let Some(begun) = whole(begin, breathe).await else { return false };
    // Without a wall there is nothing to find.
    let Some(mut search) = begun else { return true };
    loop {
        tell(Part::Slack { slack: search.so_far().clone(), is_whole: search.is_done() });
        if search.is_done() {
            return true;
        }
        let step = Sliced::new(async move |pace| {
            search.step_in_slices(&pace).await;
            search
        });
        let Some(stepped) = whole(step, breathe).await else { return false };
        search = stepped;
    }
}

/// What the work comes to; `None` once it is no longer wanted.
async fn whole<T>(mut work: Sliced<T>, breathe: &impl AsyncFn() -> bool) -> Option<T> {
    loop {
        if let Some(done) = work.step() {
            return Some(done);
        }
        if !breathe().await {
            return None;
        }
    }
}

/// Whether it came to its end.
async fn stop_free(
    design: &Design,
    shop: &Shop,
    fields: Vec<Field>,
    tell: &impl Fn(Part),
    breathe: &impl AsyncFn() -> bool,
) -> bool {
    for field in fields {
        let Some(search) = StopFreeSearch::new(design, shop, field) else {
            tell(Part::StopFree(field, None));
            continue;
        };
        let mut search = Sliced::new(async move |pace| search.in_slices(&pace).await);
        let found: Option<StopFree> = loop {
            if let Some(found) = search.step() {
                break found;
            }
            if search.units() > MOST_WORK {
                break None;
            }
            if !breathe().await {
                return false;
            }
        };
        tell(Part::StopFree(field, found));
        if !breathe().await {
            return false;
        }
    }
    true
}
