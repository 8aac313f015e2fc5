//! Typefaces: what a letter measures, what a face lacks, and the cut-down fonts that go
//! into documents.
//!
//! A face is read once in a run. Cutting it down to the characters in use is done once
//! too: [`Typefaces`] is shared by all documents, in any thread.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

use allsorts::binary::read::ReadScope;
use allsorts::error::ParseError;
use allsorts::font::read_cmap_subtable;
use allsorts::font_data::{DynamicFontTableProvider, FontData};
use allsorts::subset::{CmapTarget, SubsetProfile, subset};
use allsorts::tables::cmap::Cmap;
use allsorts::tables::{FontTableProvider, HeadTable, HheaTable, HmtxTable, MaxpTable};
use allsorts::tag;
use printpdf::{FontId, ParsedFont};
use rayon::prelude::*;

use super::Error;
use super::font::FontObjects;
use super::write::deflate;

/// A face of the `DejaVu` family.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Style {
    #[default]
    Regular,
    Bold,
    Condensed,
    CondensedBold,
    Mono,
}

impl Style {
    pub const ALL: [Style; 5] = [Style::Regular, Style::Bold, Style::Condensed, Style::CondensedBold, Style::Mono];

    /// Height of a capital in parts of the size, the same in all faces.
    pub const CAP_HEIGHT: f64 = 0.729;

    /// The top of the H in the outlines themselves, in parts of the size.
    #[cfg(test)]
    pub(super) fn top_of_h(self) -> f64 {
        let table = |name| {
            let tables = provider(self).unwrap();
            tables.read_table_data(name).unwrap().into_owned()
        };
        let glyph = usize::from(self.metrics().glyph('H').unwrap().id);
        let loca = &table(tag::LOCA)[glyph * 4..][..4];
        let start = u32::from_be_bytes(loca.try_into().unwrap()) as usize;
        let top = &table(tag::GLYF)[start + 8..][..2];
        f64::from(i16::from_be_bytes(top.try_into().unwrap())) / 2048.0
    }

    fn file(self) -> &'static [u8] {
        match self {
            Style::Regular => dejavu::sans::regular(),
            Style::Bold => dejavu::sans::bold(),
            Style::Condensed => dejavu::sans_condensed::regular(),
            Style::CondensedBold => dejavu::sans_condensed::bold(),
            Style::Mono => dejavu::sans_mono::regular(),
        }
    }

    fn name(self) -> &'static str {
        match self {
            Style::Regular => "DejaVuSans",
            Style::Bold => "DejaVuSans-Bold",
            Style::Condensed => "DejaVuSansCondensed",
            Style::CondensedBold => "DejaVuSansCondensed-Bold",
            Style::Mono => "DejaVuSansMono",
        }
    }

    /// The name under which pages call the face. F1 to F14 would be taken for builtin faces.
    pub(super) fn resource(self) -> &'static str {
        match self {
            Style::Regular => "TR",
            Style::Bold => "TB",
            Style::Condensed => "TC",
            Style::CondensedBold => "TCB",
            Style::Mono => "TM",
        }
    }

    pub(super) fn font_id(self) -> FontId {
        FontId(self.resource().into())
    }

    pub(super) fn metrics(self) -> &'static Metrics {
        static READ: [LazyLock<Metrics>; 5] = [
            LazyLock::new(|| Metrics::read(Style::Regular)),
            LazyLock::new(|| Metrics::read(Style::Bold)),
            LazyLock::new(|| Metrics::read(Style::Condensed)),
            LazyLock::new(|| Metrics::read(Style::CondensedBold)),
            LazyLock::new(|| Metrics::read(Style::Mono)),
        ];
        &READ[self as usize]
    }

    pub(super) fn fault(self, reason: &impl ToString) -> Error {
        Error::Typeface { style: self, reason: reason.to_string() }
    }
}

/// A glyph and its advance in thousandths of the size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Glyph {
    pub id: u16,
    pub advance: u16,
}

/// The glyphs of a whole face by character.
pub(super) struct Metrics {
    latin: [Option<Glyph>; 256],
    all: Vec<(u32, Glyph)>,
}

impl Metrics {
    /// A face that can't be read has no glyphs; `Typefaces` says why.
    fn read(style: Style) -> Self {
        let all = glyphs(style).unwrap_or_default();
        let mut latin = [None; 256];
        for &(code, glyph) in all.iter().take_while(|(code, _)| *code < 256) {
            latin[code as usize] = Some(glyph);
        }
        Self { latin, all }
    }

    pub fn glyph(&self, character: char) -> Option<Glyph> {
        let code = u32::from(character);
        if let Some(glyph) = self.latin.get(code as usize) {
            return *glyph;
        }
        let found = self.all.binary_search_by_key(&code, |(code, _)| *code);
        found.ok().map(|index| self.all[index].1)
    }
}

fn provider(style: Style) -> Result<DynamicFontTableProvider<'static>, Error> {
    let data = ReadScope::new(style.file()).read::<FontData<'_>>().map_err(|error| style.fault(&error))?;
    data.table_provider(0).map_err(|error| style.fault(&error))
}

fn glyphs(style: Style) -> Result<Vec<(u32, Glyph)>, Error> {
    read_glyphs(&provider(style)?).map_err(|error| style.fault(&error))
}

fn read_glyphs(tables: &impl FontTableProvider) -> Result<Vec<(u32, Glyph)>, ParseError> {
    let head = tables.read_table_data(tag::HEAD)?;
    let head = ReadScope::new(&head).read::<HeadTable>()?;
    let maxp = tables.read_table_data(tag::MAXP)?;
    let maxp = ReadScope::new(&maxp).read::<MaxpTable>()?;
    let hhea = tables.read_table_data(tag::HHEA)?;
    let hhea = ReadScope::new(&hhea).read::<HheaTable>()?;
    let hmtx = tables.read_table_data(tag::HMTX)?;
    let counts = (maxp.num_glyphs.into(), hhea.num_h_metrics.into());
    let hmtx = ReadScope::new(&hmtx).read_dep::<HmtxTable<'_>>(counts)?;
    let cmap = tables.read_table_data(tag::CMAP)?;
    let cmap = ReadScope::new(&cmap).read::<Cmap<'_>>()?;
    let (_, mappings) = read_cmap_subtable(&cmap)?.ok_or(ParseError::MissingValue)?;

    let mut all = Vec::new();
    mappings.mappings_fn(|code, id| {
        let advance = hmtx.horizontal_advance(id).unwrap_or(0);
        let advance = thousandths(advance, head.units_per_em);
        all.push((code, Glyph { id, advance }));
    })?;
    all.sort_unstable_by_key(|(code, _)| *code);
    Ok(all)
}

/// An advance as the document states it: printpdf cuts off the fraction, and what we
/// measure has to be what the viewer sets.
fn thousandths(advance: u16, units_per_em: u16) -> u16 {
    (f32::from(advance) * 1000.0 / f32::from(units_per_em)) as u16
}

/// A face cut down to the characters in use.
pub(super) struct Cut {
    pub style: Style,
    /// Its objects, made once for all documents.
    pub objects: FontObjects,
    /// Glyphs of the first 256 characters, and of all.
    latin: [Option<u16>; 256],
    all: BTreeMap<u32, u16>,
}

impl Cut {
    fn of(style: Style, characters: &BTreeSet<char>) -> Result<Option<Self>, Error> {
        let metrics = style.metrics();
        let wanted: BTreeMap<u32, u16> =
            characters.iter().filter_map(|&c| Some((u32::from(c), metrics.glyph(c)?.id))).collect();
        if wanted.is_empty() {
            return Ok(None);
        }
        let program = cut(style, wanted.values().copied())?;
        let font = parsed(style, &program, &wanted)?;
        let all = font.codepoint_to_glyph.clone();
        let mut latin = [None; 256];
        for (code, glyph) in all.range(..256) {
            latin[*code as usize] = Some(*glyph);
        }
        let objects = FontObjects::of(style, font, deflate(&program)?)?;
        Ok(Some(Self { style, objects, latin, all }))
    }

    pub fn has(&self, character: char) -> bool {
        self.glyph(character).is_some()
    }

    pub fn glyph(&self, character: char) -> Option<u16> {
        let code = u32::from(character);
        self.latin.get(code as usize).copied().unwrap_or_else(|| self.all.get(&code).copied())
    }
}

/// The font program with `.notdef` and these glyphs, without the table of names.
fn cut(style: Style, glyphs: impl Iterator<Item = u16>) -> Result<Vec<u8>, Error> {
    let glyphs: BTreeSet<u16> = glyphs.chain([0]).collect();
    let glyphs: Vec<u16> = glyphs.into_iter().collect();
    let tables = vec![tag::CMAP, tag::HEAD, tag::CVT, tag::FPGM, tag::HHEA, tag::HMTX, tag::MAXP, tag::POST, tag::PREP];
    let profile = SubsetProfile::Custom(tables);
    subset(&provider(style)?, &glyphs, &profile, CmapTarget::Unicode).map_err(|error| style.fault(&error))
}

fn parsed(style: Style, program: &[u8], wanted: &BTreeMap<u32, u16>) -> Result<ParsedFont, Error> {
    let mut font = ParsedFont::from_bytes(program, 0, &mut Vec::new())
        .ok_or_else(|| style.fault(&"the cut-down font can't be read"))?;
    font.codepoint_to_glyph.retain(|code, _| wanted.contains_key(code));
    if font.codepoint_to_glyph.len() != wanted.len() {
        return Err(style.fault(&"the cut-down font lost characters"));
    }
    font.font_name = Some(format!("{}+{}", mark(program), style.name()));
    Ok(font)
}

/// Six capitals from the content, as the names of cut-down fonts begin.
fn mark(program: &[u8]) -> String {
    let hash = blake3::hash(program);
    let letters = hash.as_bytes()[..6].iter();
    letters.map(|byte| char::from(b'A' + byte % 26)).collect()
}

/// All faces, cut down to the characters of a run.
pub struct Typefaces {
    cuts: Vec<Cut>,
}

impl Typefaces {
    /// Cuts the faces down. A character that a face lacks is left out of it; a page that
    /// uses it there is refused when it is written.
    ///
    /// # Errors
    /// A face that can't be read or cut.
    pub fn for_text(characters: impl IntoIterator<Item = char>) -> Result<Self, Error> {
        let characters: BTreeSet<char> = characters.into_iter().map(printed).collect();
        let cuts: Result<Vec<_>, Error> = Style::ALL.par_iter().map(|&style| Cut::of(style, &characters)).collect();
        let cuts = cuts?.into_iter().flatten().collect();
        Ok(Self { cuts })
    }

    pub(super) fn cuts(&self) -> &[Cut] {
        &self.cuts
    }

    pub(super) fn cut(&self, style: Style) -> Option<&Cut> {
        self.cuts.iter().find(|cut| cut.style == style)
    }
}

/// The no-break space only matters to line breaking; on paper it is a space.
pub(super) fn printed(character: char) -> char {
    match character {
        '\u{a0}' => ' ',
        other => other,
    }
}
