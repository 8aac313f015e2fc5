//! The names of what can be wrong with a text, each with a line that says what it is.

/// A registered name of a fault.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct FaultName(pub &'static str);

macro_rules! faults {
    ($($ident:ident $name:literal $what:literal;)+) => {
        impl FaultName {
            $(#[doc = $what] pub const $ident: FaultName = FaultName($name);)+

            /// Every fault with what it means, in the order of the reference.
            pub const FAULTS: &[(FaultName, &str)] = &[$((FaultName::$ident, $what)),+];
        }
    };
}

faults! {
    FILE_UNREADABLE "file/unreadable" "a file named by `use` is missing, a folder or cannot be read";
    FILE_NOT_UTF8 "file/not-utf8" "a file is not in UTF-8";
    FILE_CONTROL "file/control-character" "a NUL, another control character or an odd space stands in a text";
    FILE_EMPTY "file/empty" "a file given declares nothing";
    FILE_CYCLE "file/cycle" "files use each other in a circle";
    FILE_TWICE "file/twice" "one file is used twice";
    LIMIT_DEPTH "limit/depth" "blocks are nested too deep";
    LIMIT_SIZES "limit/sizes" "a run has too many size-widths";
    LIMIT_FAULTS "limit/faults" "there are more faults than are shown";
    LIMIT_CHAIN "limit/chain" "a chain of `like` is too long";
    SHAPE_UNCLOSED_BLOCK "shape/unclosed-block" "a `{` has no `}`";
    SHAPE_STRAY_CLOSE "shape/stray-close" "a `}` has no `{`";
    SHAPE_UNCLOSED_TEXT "shape/unclosed-text" "a text has no closing quote";
    SHAPE_BLOCK_PLACE "shape/block-place" "a `{` stands on a line of its own";
    SHAPE_NO_BLOCK "shape/no-block" "a statement that needs a block has none";
    SHAPE_SPARE_BLOCK "shape/spare-block" "a block stands where none is wanted";
    SHAPE_UNEXPECTED "shape/unexpected" "something stands where nothing more is wanted";
    WORD_UNKNOWN "word/unknown" "a word that is no statement here";
    WORD_CASE "word/case" "a word in capitals";
    WORD_CLAUSE_ALONE "word/clause-alone" "a clause on a line of its own";
    WORD_CHOICE "word/choice" "none of the words that may stand here";
    STATEMENT_TWICE "statement/twice" "a statement that stands once is there twice";
    STATEMENT_MISSING "statement/missing" "a statement that is needed is not there";
    VALUE_MISSING "value/missing" "a value is missing";
    VALUE_NO_UNIT "value/no-unit" "a number has no unit";
    VALUE_UNIT "value/unit" "a unit that Hobnail does not know";
    VALUE_KIND "value/kind" "a value of another kind than the one needed";
    VALUE_NUMBER "value/number" "a number that cannot be held";
    VALUE_SHAPE "value/shape" "a value written in a way that the language does not have";
    VALUE_RANGE "value/range" "a range upside down, a tolerance larger than its value, shares over 100 %";
    VALUE_NONSENSE "value/nonsense" "a value that no boot, machine or last can have";
    NAME_MISSING "name/missing" "a name is missing";
    NAME_UNKNOWN "name/unknown" "nothing of that name is declared";
    NAME_IS_WORD "name/is-word" "a word of the language stands where a name belongs";
    NAME_SHAPE "name/shape" "something stands where a name belongs that can't be one";
    NAME_TWICE "name/twice" "two things of one kind have the same name";
    SHOP_TWICE "shop/twice" "a model sees two shops";
    SHOP_MISSING "shop/missing" "a model sees no shop";
    LIKE_CYCLE "like/cycle" "models are like each other in a circle";
    WITHOUT_NOTHING "without/nothing" "`without` removes what is not there";
    SIZE_NOT_MADE "size/not-made" "a size or width in which the last is not made";
    SIZE_TWICE "size/twice" "a size stands twice in one run";
    SIZE_STEP "size/step" "a step of nothing between sizes";
    TEXT_UNPRINTABLE "text/unprintable" "a character that the typefaces of the sheets do not have";
    NOT_JUDGED "check/not-judged" "what a fault or a refusal kept from being judged";
    OUTLINE_CROSSES "outline/crosses" "the outline of a last's bottom crosses itself or runs backwards";
}
