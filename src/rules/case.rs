//! What a judgement is a case of, where its rule says different words of one subject. Words are chosen by it; no rule reads
//! its own facts, places or labels back.

/// A case of a rule.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Case {
    /// The only one.
    #[default]
    Plain,
    /// A length of clinch nails.
    Clinch {
        /// The model states the length.
        stated: bool,
        /// Some length that is stocked serves.
        serves: bool,
    },
    /// A heel nail that ends in the ledge, outside the wall.
    Ledge,
    /// What is left of a part in the turnout is judged at the thin end.
    ThinEnd,
    /// Where a lap enters is held against something.
    Enters(Against),
    /// The thread's maker names its needles.
    NamedNeedle,
    /// A blank is held against the largest one.
    Blank(By),
}

/// What the place where a lap enters the turnout is held against.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Against {
    /// Where the turnout begins.
    Release,
    /// The lap behind it.
    Behind,
    /// The boot's other side.
    OtherSide,
}

/// What of a blank falls short.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    /// The size that it is numbered by.
    Size,
    /// Its length.
    Length,
    /// Its breadth.
    Breadth,
}
