//! The nearest value at which there is a piece.

/// The value nearest to the one wanted, on the way to the farthest that is offered, at which there is a piece: by doubling
/// the distance until there is one, and then by halving between whole steps.
pub(super) async fn nearest<T>(
    wanted: f64,
    farthest: f64,
    step: f64,
    at: impl AsyncFn(f64) -> Option<Box<T>>,
) -> Option<Box<T>> {
    let toward = step.copysign(farthest - wanted);
    let value = |steps: i32| ((wanted + f64::from(steps) * toward) / step).round() * step;
    let most = ((farthest - wanted).abs() / step).floor() as i32;
    let (mut fails, mut works) = (0, 1.min(most));
    let mut best = loop {
        if works <= fails {
            return None;
        }
        if let Some(found) = at(value(works)).await {
            break found;
        }
        (fails, works) = (works, (2 * works).min(most));
    };
    while works - fails > 1 {
        let middle = i32::midpoint(fails, works);
        match at(value(middle)).await {
            Some(found) => (works, best) = (middle, found),
            None => fails = middle,
        }
    }
    Some(best)
}
