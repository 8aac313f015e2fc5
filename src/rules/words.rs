//! Numbers in words.

/// A number with as many decimals as its margin needs: two, more where that would hide what is wrong.
#[must_use]
pub fn number(value: f64, margin: f64) -> String {
    let places = if margin.abs() >= 0.01 || margin == 0.0 { 2 } else { 6 };
    let text = format!("{value:.places$}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}
