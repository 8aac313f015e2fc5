//! Words that are nearly another.

/// The candidate nearest to `word`, if it is near enough to be meant: one slip in a short word, two in a
/// longer one, three in a long one.
#[must_use]
pub fn nearest<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Option<&'c str> {
    // The first of the nearest, so that the answer does not hang on the order of a tie.
    all_nearest(word, candidates).first().copied()
}

/// All candidates that are equally near to `word` and nearer than any other, in their order by letters.
#[must_use]
pub(super) fn all_nearest<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Vec<&'c str> {
    let lower = word.to_lowercase();
    let reach = match lower.chars().count() {
        0..=2 => 1,
        3..=5 => 1 + usize::from(lower.len() > 4),
        6..=9 => 2,
        _ => 3,
    };
    let mut near: Vec<(usize, &str)> = candidates
        .into_iter()
        .map(|candidate| (strsim::osa_distance(&lower, candidate), candidate))
        .filter(|(distance, candidate)| *distance <= reach && *distance < candidate.chars().count())
        .collect();
    near.sort_unstable();
    let least = near.first().map_or(0, |(distance, _)| *distance);
    near.into_iter().take_while(|(distance, _)| *distance == least).map(|(_, candidate)| candidate).collect()
}

/// Words as a list for a message: "`a`, `b` or `c`".
#[must_use]
pub fn or_list(words: &[&str]) -> String {
    let quoted: Vec<String> = words.iter().map(|word| format!("`{word}`")).collect();
    match quoted.split_last() {
        None => String::new(),
        Some((only, [])) => only.clone(),
        Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_is_found_and_another_word_is_not() {
        let words = ["rows", "pitch", "thread", "needle", "on", "of", "enters-turnout"];
        assert_eq!(nearest("pich", words), Some("pitch"));
        assert_eq!(nearest("Rows", words), Some("rows"));
        assert_eq!(nearest("off", words), Some("of"));
        assert_eq!(nearest("enters-turnotu", words), Some("enters-turnout"));
        assert_eq!(nearest("glue", words), None);
        assert_eq!(or_list(&["a", "b", "c"]), "`a`, `b` or `c`");
    }
}
