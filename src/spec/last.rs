//! A last as measured in its base size.

use super::fields::{Field, Fields, hole_of};
use super::sizes::Made;
use super::value::{Val, Valued};
use crate::finding::{FaultName, Finding};
use crate::geometry::{self, Outline};
use crate::language::{Hole, Value};
use crate::measure::{Amount, Size, System};
use crate::source::Span;

/// Half-breadths at one station of the base size.
#[derive(Clone, Debug, PartialEq)]
pub struct Station {
    /// Share of the bottom's length from the heel, 0 to 1.
    pub share: f64,
    /// Centre line to the inside edge, mm.
    pub inside: f64,
    /// Centre line to the outside edge, mm.
    pub outside: f64,
    /// Where it was written.
    pub span: Span,
}

/// Grade steps for one size, or for one width.
#[derive(Clone, Debug, Default)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Grade {
    pub stick: Option<Val<Amount>>,
    pub ball: Option<Val<Amount>>,
    pub tread: Option<Val<Amount>>,
    pub seat_breadth: Option<Val<Amount>>,
}

/// A last.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Last {
    pub name: String,
    pub title: String,
    pub span: Span,
    pub base: Val<Size>,
    pub stick: Val<Amount>,
    pub bottom: Val<Amount>,
    pub ball: Val<Amount>,
    pub tread: Option<Val<Amount>>,
    pub seat_breadth: Option<Val<Amount>>,
    pub joint_inside: Val<Amount>,
    pub joint_outside: Val<Amount>,
    pub breast: Val<Amount>,
    pub seat: Val<Amount>,
    pub slope: Val<Amount>,
    pub spring: Option<Val<Amount>>,
    pub plate: Val<&'static str>,
    pub overhang: Option<Val<Amount>>,
    pub made: Result<Made, Hole>,
    pub by_size: Grade,
    pub by_width: Grade,
    pub outline: Val<Vec<Station>>,
}

pub(super) fn last(name: &str, title: &str, span: Span, fields: &Fields<'_>, findings: &mut Vec<Finding>) -> Last {
    let joints = fields.need("joints", findings);
    let clause = |field: &Result<Field<'_>, Hole>, word: &str| match field {
        Ok(field) => field.need_clause(word, 0),
        Err(hole) => Err(*hole),
    };
    let seat = fields.need("seat", findings);
    let grade = |which: &str| {
        let of = fields.all("grade").into_iter().find(|field| field.word(0).is_ok_and(|word| word.it == which));
        of.and_then(|field| field.inner()).map(|fields| grade(&fields)).unwrap_or_default()
    };
    let made = fields.need("made", findings).and_then(|field| Made::read(&field, findings));
    let base = base(fields, &made, name, findings);
    let bottom = positive(fields.amount("bottom", findings), findings);
    Last {
        name: name.to_owned(),
        title: title.to_owned(),
        span,
        base,
        stick: positive(fields.amount("stick", findings), findings),
        bottom: bottom.clone(),
        ball: positive(fields.amount("ball", findings), findings),
        tread: fields.maybe_amount("tread"),
        seat_breadth: fields.maybe_amount("seat-breadth"),
        joint_inside: clause(&joints, "inside"),
        joint_outside: clause(&joints, "outside"),
        breast: fields.amount("breast", findings),
        seat: seat.as_ref().map_err(|hole| *hole).and_then(|field| field.amount(0)),
        slope: clause(&seat, "slope"),
        spring: fields.maybe_amount("spring"),
        plate: fields.word("plate", findings),
        overhang: fields.maybe_amount("overhang"),
        made,
        by_size: grade("size"),
        by_width: grade("width"),
        outline: outline(fields, &bottom, findings),
    }
    .in_order(findings)
    .fitted(findings)
}

fn base(fields: &Fields<'_>, made: &Result<Made, Hole>, name: &str, findings: &mut Vec<Finding>) -> Val<Size> {
    let value = fields.need("base", findings)?.value(0)?;
    let Value::Size(size) = value.it else { return Err(Hole { fault: "", span: value.span() }) };
    if let Ok(made) = made
        && (made.system != size.system || size.width.rank(size.system).is_none())
    {
        let message = format!(
            "the last `{name}` was measured in {} {size}, but is made in {}",
            size.system.name(),
            made.system.name()
        );
        let finding = Finding::fault(FaultName::SIZE_NOT_MADE, value.span(), message).also(made.span, "made in these");
        let hole = hole_of(&finding, value.span());
        findings.push(finding);
        return Err(hole);
    }
    if let Ok(made) = made
        && !(made.has_number(size.number) && made.has_width(size.width))
    {
        let message = format!("the last `{name}` was measured in {size}, but is not made in that size");
        let finding = Finding::fault(FaultName::SIZE_NOT_MADE, value.span(), message).also(made.span, "made in these");
        let hole = hole_of(&finding, value.span());
        findings.push(finding);
        return Err(hole);
    }
    Ok(value.map(|_| size))
}

fn grade(fields: &Fields<'_>) -> Grade {
    Grade {
        stick: fields.maybe_amount("stick"),
        ball: fields.maybe_amount("ball"),
        tread: fields.maybe_amount("tread"),
        seat_breadth: fields.maybe_amount("seat-breadth"),
    }
}

/// A length of zero is no last.
fn positive(value: Val<Amount>, findings: &mut Vec<Finding>) -> Val<Amount> {
    let value = value?;
    if value.it.nominal() > 0.0 {
        return Ok(value);
    }
    let finding = Finding::fault(FaultName::VALUE_NONSENSE, value.span(), "a last can't have a length of nothing");
    let hole = hole_of(&finding, value.span());
    findings.push(finding);
    Err(hole)
}

fn outline(fields: &Fields<'_>, bottom: &Val<Amount>, findings: &mut Vec<Finding>) -> Val<Vec<Station>> {
    let field = fields.need("outline", findings)?;
    let inner = field.inner().ok_or_else(|| field.lost())?;
    let rows = inner.all("at");
    if let Some(path) = inner.get("path") {
        return drawn(&path, rows.first(), bottom, findings);
    }
    let mut stations = Vec::with_capacity(rows.len());
    for row in &rows {
        let half = |word: &str| row.clause_amount(word).transpose();
        let (inside, outside) = (half("inside")?, half("outside")?);
        let share = row.amount(0)?;
        let span = row.force.statement.span;
        let (Some(inside), Some(outside)) = (&inside, &outside) else {
            let missing = if inside.is_none() { "inside" } else { "outside" };
            return Err(report(row, format!("the station has no `{missing}` half-breadth"), findings));
        };
        let (inside, outside) = (inside.it.nominal(), outside.it.nominal());
        stations.push(Station { share: share.it.nominal() / 100.0, inside, outside, span });
    }
    stations.sort_by(|a, b| a.share.total_cmp(&b.share));
    Ok(Valued { it: stations, origin: field.origin(field.force.statement.span) })
}

/// An outline drawn as an SVG path: stations are read off it.
fn drawn(
    path: &Field<'_>,
    at: Option<&Field<'_>>,
    bottom: &Val<Amount>,
    findings: &mut Vec<Finding>,
) -> Val<Vec<Station>> {
    let (text, bottom) = (path.text(0)?, bottom.as_ref().map_err(|hole| *hole)?.it.nominal());
    if let Some(at) = at {
        let message = "an outline is drawn, or measured at stations, not both".to_owned();
        return Err(report_as(FaultName::VALUE_NONSENSE, at.force.statement.span, message, findings));
    }
    match geometry::half_breadths(&text.it, bottom) {
        Ok(stations) => {
            let span = text.span();
            let share = |station: &geometry::Station| station.x / bottom;
            let read =
                |it: &geometry::Station| Station { share: share(it), inside: it.inside, outside: it.outside, span };
            Ok(text.map(|_| stations.iter().map(read).collect()))
        }
        Err(fault) => {
            Err(report_as(FaultName::OUTLINE_CROSSES, text.span(), format!("this is no outline: {fault}"), findings))
        }
    }
}

fn report_as(name: FaultName, span: Span, message: String, findings: &mut Vec<Finding>) -> Hole {
    let finding = Finding::fault(name, span, message);
    let hole = hole_of(&finding, span);
    findings.push(finding);
    hole
}

fn report(row: &Field<'_>, message: String, findings: &mut Vec<Finding>) -> Hole {
    report_as(FaultName::VALUE_MISSING, row.force.statement.span, message, findings)
}

impl Last {
    /// Joints lie before the breast and before the toe; a last where they don't is nonsense.
    fn in_order(mut self, findings: &mut Vec<Finding>) -> Self {
        let Ok(breast) = &self.breast else { return self };
        let at = breast.it.nominal();
        for joint in [&mut self.joint_inside, &mut self.joint_outside] {
            let Ok(value) = &*joint else { continue };
            let share = value.it.nominal();
            if share > at && share < 100.0 {
                continue;
            }
            let message = format!("a joint at {share} % must lie between the breast ({at} %) and the toe");
            let finding =
                Finding::fault(FaultName::VALUE_NONSENSE, value.span(), message).also(breast.span(), "the breast");
            let hole = hole_of(&finding, value.span());
            findings.push(finding);
            *joint = Err(hole);
        }
        self
    }

    /// An outline through which no curve goes, or that crosses itself, is no last's bottom.
    fn fitted(mut self, findings: &mut Vec<Finding>) -> Self {
        let (Ok(outline), Ok(bottom)) = (&self.outline, &self.bottom) else { return self };
        let Err(fault) = Outline::fit(&stations_mm(&outline.it, bottom.it.nominal())) else { return self };
        let at = fault.station().and_then(|station| outline.it.get(station)).map_or(outline.span(), |at| at.span);
        let finding = Finding::fault(FaultName::OUTLINE_CROSSES, at, format!("this is no outline: {fault}")).help(
            "measure again there; stations run from 0 % at the heel to 100 % at the toe, both on the centre line",
        );
        let hole = hole_of(&finding, at);
        findings.push(finding);
        self.outline = Err(hole);
        self
    }

    /// The system of its sizes.
    ///
    /// # Errors
    /// The hole of its base.
    pub fn system(&self) -> Result<System, Hole> {
        self.base.as_ref().map(|base| base.it.system).map_err(|hole| *hole)
    }
}

/// Stations of an outline on a bottom of the given length, mm.
#[must_use]
pub fn stations_mm(stations: &[Station], bottom: f64) -> Vec<geometry::Station> {
    let place = |station: &Station| geometry::Station {
        x: station.share * bottom,
        inside: station.inside,
        outside: station.outside,
    };
    stations.iter().map(place).collect()
}
