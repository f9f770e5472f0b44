//! How to use Skewline, what to mind, and where designs live.

use leptos::prelude::*;

use super::beside::beside;
use super::browser::window;
use super::offline::{LocalCopy, Offline};

/// Whether the browser has offered to install the page and it is not installed yet. Plain script in index.html notes the
/// offer, which comes before this part of the program may be here, and takes it up.
fn install_is_offered() -> bool {
    let offer = window().and_then(|window| js_sys::Reflect::get(&window, &"installOffer".into()).ok());
    offer.is_some_and(|offer| offer.is_object())
}

/// The room of help.
#[component]
pub fn HelpRoom() -> impl IntoView {
    expect_context::<Offline>().check_copy();
    view! {
        <main class="page" id="main" tabindex="0">
            <h1>"Skewline"</h1>
            <p>
                "Plans a scoop whose handle leaves the bowl at an angle: turned on one pair of centre marks, then on
                another. It tells you where the marks go, how much wood to leave, how thin the wall will be and what the
                scoop holds, before a tool touches the wood."
            </p>
            {how_to_use()}
            {before_the_lathe()}
            {what_figures_are()}
            {where_designs_live()}
        </main>
    }
    .into_any()
}

fn how_to_use() -> AnyView {
    view! {
        <section class="card">
            <h2>"How to use it"</h2>
            <ol>
                <li>"Whole piece: the values that move everything along: depth moves neck and saw line. What you change by
                hand in another group becomes yours and stays, until you let it follow again."</li>
                <li>"Wood: the blank you have. Shop: the bits you own."</li>
                <li>"Hollow: how wide and deep to bore."</li>
                <li>"Handle: how far it leans. Watch the thinnest wall while you move it."</li>
                <li>"Checks: what stands in the way, and the value that cures it."</li>
                <li>"Marks: the figures to carry to the lathe, and how far off they may be."</li>
                <li>"Steps: the work in order, what goes on paper, and the log of what came of it. Lathe: one step at a time, in large figures."</li>
            </ol>
            <p>"Type numbers as you like: 46.5, 46,5, 1 3/8 in, 1.375\". Drag the drawing to look around, pinch or turn the
            wheel to look closer, double tap to see it whole. Drag a round handle to move what it stands for."</p>
        </section>
    }
    .into_any()
}

fn before_the_lathe() -> AnyView {
    view! {
        <section class="card">
            <h2>"Before you start the lathe"</h2>
            <ul>
                <li>"Your machine's manual and your local rules come first."</li>
                <li>"Wear a full face shield over safety glasses whenever the lathe runs."</li>
                <li>"Take dust away at its source and wear a fitted dust mask; sanding makes the finest dust."</li>
                <li>"No gloves, loose sleeves, jewellery or loose hair near spinning work."</li>
                <li>"Turn the work by hand first: it must clear the rest and the bed."</li>
                <li>"Start at the lathe's lowest speed. If it shakes, slow down or stop."</li>
                <li>"Stop the lathe before you move the rest, the marks or the plug."</li>
                <li>"Hold the piece in a vice or cradle to saw or drill it, never in the hand."</li>
            </ul>
            <p class="hint">"The advice on face shields, speed and turning by hand follows turners' association safety
            recommendations; the rest is common practice, no source."</p>
        </section>
    }
    .into_any()
}

fn what_figures_are() -> AnyView {
    let beside = beside();
    let slower = move || {
        beside.is_on_page().then_some(
            "This browser lets no work run beside the page: how far values may go, cures and searches take longer here.",
        )
    };
    view! {
        <section class="card">
            <h2>"What the figures are"</h2>
            <p>"The wall is the nearest distance from the hollow to the outside, in any direction. What it holds is
            measured to the rim as you would fill it: level for a liquid, heaped or struck for dry goods. The figures
            come from the shapes you enter; the wood, the tools and the hand add their own."</p>
            <p>"Under each slider stands how far its value may go before a check stops, and which check: a tap on either
            number goes there. Where a check stops already, it says what that value can do about it."</p>
            <p>{slower}</p>
            <p>"Skewline plans. It cannot see your wood, your lathe or your hands: judge for yourself."</p>
        </section>
    }
    .into_any()
}

fn where_designs_live() -> AnyView {
    let offline = expect_context::<Offline>();
    let local_copy = move || copy_in_words(offline.local_copy());
    let install = install_is_offered().then(|| {
        view! {
            <button type="button" class="button" data-install="">"Put Skewline among your apps"</button>
        }
    });
    view! {
        <section class="card">
            <h2>"Where your designs live"</h2>
            <p>"In this browser, on this device, and nowhere else: no account, no server. "{local_copy}</p>
            {install}
            <p>"Clearing the browser's data clears them too, so save a backup file from the Shelf
            now and then."</p>
            <p>"Safari erases what a site keeps after seven days of use without a visit, unless the page is on the
            home screen."</p>
        </section>
    }
    .into_any()
}

/// How far the copy of the page on this device goes.
fn copy_in_words(copy: LocalCopy) -> String {
    match copy {
        LocalCopy::Fetching => "A copy of the page is being fetched: stay connected until it is here.".to_owned(),
        LocalCopy::Kept => "Everything works without a network.".to_owned(),
        LocalCopy::Incomplete { missing } => format!(
            "The copy of the page on this device lacks {missing} of its files. Connect to a network and open this page \
             again to mend it."
        ),
        LocalCopy::NotKept => {
            "The page itself needs the network each time it is opened: this browser keeps no copy of it.".to_owned()
        }
    }
}
