//! Arbitrary choices of patterns.

use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;
use skewline::design::pattern::{
    BlankOnHand, BoredEndScoop, GroovedHead, HandleEnd, Opening, Outside, RoundBowlScoop, SidedSpindle, Spreader,
    Wanted,
};
use skewline::design::{Choices, Chuck, Design, Pattern};

/// Choices for a bored-end scoop that make a sound design.
pub fn bored_end_scoop() -> impl Strategy<Value = BoredEndScoop> {
    let bowl = (20.0..60.0, 20.0..60.0, 0.0..20.0, 1.0..8.0, 1.0..12.0, -0.6..0.6);
    let handle =
        (prop_oneof![1 => Just(0.0), 3 => 0.5..14.0], -360.0..360.0, 20.0..180.0, 8.0..30.0, 8.0..40.0, 80.0..250.0);
    let other = (0_usize..4, any::<[bool; 2]>(), 20.0..120.0, 0.0..1.0, (20.0..50.0, 60.0..100.0, 4.0..20.0));
    (option::of(wanted()), bowl, handle, other).prop_map(
        |(wanted, bowl, handle, (end, [join, arc], side, play, jaws))| BoredEndScoop {
            wanted,
            bore_diameter_mm: bowl.0,
            bore_depth_mm: bowl.1,
            rounding_mm: bowl.2,
            wall_mm: bowl.3,
            floor_mm: bowl.4,
            lip_share: bowl.5,
            outside: if join { Outside::Join } else { Outside::RoundOver },
            tilt_deg: handle.0,
            toward_deg: handle.1,
            crossing_mm: handle.2,
            neck_diameter_mm: handle.3,
            handle_diameter_mm: handle.4,
            handle_mm: handle.5,
            handle_end: HandleEnd::ALL[end],
            opening: if arc { Opening::Arc } else { Opening::Straight },
            plug_play_mm: play,
            blank_side_mm: side,
            chuck: Chuck { jaw_from_mm: jaws.0, jaw_to_mm: jaws.1, jaw_depth_mm: jaws.2, ..Chuck::default() },
        },
    )
}

fn wanted() -> impl Strategy<Value = Wanted> {
    let blank = option::of((20.0..100.0, option::of(100.0..400.0)));
    (1.0e3..1.0e5, blank, any::<[bool; 2]>()).prop_map(|(holds_mm3, blank, [most_tilt, own_bits_only])| Wanted {
        holds_mm3,
        blank: blank.map(|(side_mm, length_mm)| BlankOnHand { side_mm, length_mm }),
        most_tilt,
        own_bits_only,
    })
}

/// Choices of any kind, inside their bounds.
pub fn choices() -> impl Strategy<Value = Choices> {
    let others = select(vec![
        Choices::RoundBowlScoop(RoundBowlScoop::default()),
        Choices::RoundBowlScoop(RoundBowlScoop::straight()),
        Choices::Spreader(Spreader::default()),
        Choices::SidedSpindle(SidedSpindle::default()),
        Choices::GroovedHead(GroovedHead::default()),
    ]);
    let varied = (others, vec(0.85..1.2_f64, 24), vec(0_usize..8, 4)).prop_map(|(mut choices, shares, picks)| {
        for (place, share) in shares.into_iter().enumerate() {
            let bound = choices.look(place).map(|look| look.bound);
            if let Some((number, bound)) = choices.number_mut(place).zip(bound) {
                *number = (*number * share).clamp(bound.from, bound.to);
            }
        }
        for (list, which) in picks.into_iter().enumerate() {
            choices.pick(list, which);
        }
        choices
    });
    prop_oneof![1 => bored_end_scoop().prop_map(Choices::BoredEndScoop), 1 => varied]
}

/// The design of choices, of usual wood.
pub fn design_of(choices: Choices) -> Design {
    match choices {
        Choices::BoredEndScoop(it) => it.design("any"),
        Choices::RoundBowlScoop(it) => it.design("any"),
        Choices::Spreader(it) => it.design("any"),
        Choices::SidedSpindle(it) => it.design("any"),
        Choices::GroovedHead(it) => it.design("any"),
        Choices::OvalBowlScoop(it) => it.design("any"),
        Choices::Ladle(it) => it.design("any"),
    }
}

/// A pattern with some of its parts made the turner's own.
pub fn pattern() -> impl Strategy<Value = Pattern> {
    (choices(), any::<u64>()).prop_map(|(choices, own)| {
        let parts = choices.made().parts().into_iter().enumerate().filter(|(place, _)| own >> place & 1 == 1);
        let own = parts.map(|(_, part)| part).collect();
        Pattern { choices, own }
    })
}
