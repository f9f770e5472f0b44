//! Sorting by a number, with one sorting routine for all kinds of items: a sort of its own for each costs the page
//! some kilobytes.

/// Sorts by a number, the smallest first; equal ones stay in their order. What is not a number goes to the ends, as in
/// [`f64::total_cmp`].
///
/// Time: n log n.
pub fn sort_by_number<T>(items: &mut [T], number: impl Fn(&T) -> f64) {
    let mut order: Vec<(f64, usize)> = items.iter().map(number).enumerate().map(|(place, key)| (key, place)).collect();
    sort_pairs(&mut order);
    let mut goes_to = vec![0; items.len()];
    for (place, (_, was)) in order.iter().enumerate() {
        goes_to[*was] = place;
    }
    for i in 0..items.len() {
        while goes_to[i] != i {
            let place = goes_to[i];
            items.swap(i, place);
            goes_to.swap(i, place);
        }
    }
}

/// As [`sort_by_number`], the largest first; equal ones stay in their order.
pub fn sort_by_number_falling<T>(items: &mut [T], number: impl Fn(&T) -> f64) {
    sort_by_number(items, |item| -number(item));
}

/// Sorts pairs, the smallest first.
pub fn sort_pairs(pairs: &mut [(f64, usize)]) {
    // No two pairs are alike, so nothing is lost by the smaller routine, which does not keep the order of equals.
    pairs.sort_unstable_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn sorts_as_a_stable_sort_does(numbers in prop::collection::vec(-3_i8..4, 0..60)) {
            let items: Vec<(i8, usize)> = numbers.iter().copied().zip(0..).collect();
            let (mut rising, mut falling) = (items.clone(), items.clone());
            sort_by_number(&mut rising, |item| f64::from(item.0));
            sort_by_number_falling(&mut falling, |item| f64::from(item.0));
            let mut expected = items.clone();
            expected.sort_by_key(|item| item.0);
            prop_assert_eq!(rising, expected);
            let mut expected = items;
            expected.sort_by_key(|item| std::cmp::Reverse(item.0));
            prop_assert_eq!(falling, expected);
        }
    }

    #[test]
    fn what_is_not_a_number_goes_last() {
        let mut items = [f64::NAN, 2.0, f64::INFINITY, -1.0];
        sort_by_number(&mut items, |item| *item);
        assert_eq!(items[..3], [-1.0, 2.0, f64::INFINITY]);
        assert!(items[3].is_nan());
    }
}
