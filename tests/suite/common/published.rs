//! A published value beside what the tool finds.

/// One value with everything that is to be said of it.
pub struct Published {
    /// Its number in the table of published values.
    pub id: &'static str,
    pub what: String,
    pub value: f64,
    /// Half a unit of the last place that was printed, or 0 for what is exact.
    pub within: f64,
    pub source: &'static str,
}

impl Published {
    /// Holds what the tool finds against it.
    pub fn is(&self, found: f64) {
        let Self { id, what, value, within, source } = self;
        let off = (found - value).abs();
        assert!(off <= within + 1e-9, "{id}, {what}: {found}, published {value} ({source})");
    }
}

/// `id`, what it is, the value, how exactly it was printed, where.
pub fn published(
    id: &'static str,
    what: impl Into<String>,
    value: f64,
    within: f64,
    source: &'static str,
) -> Published {
    Published { id, what: what.into(), value, within, source }
}
