//! The stock: what things are made of.

use super::blanks::{Blanks, blanks};
use super::fields::Fields;
use super::value::Val;
use crate::finding::{FaultName, Finding};
use crate::language::{At, Hole};
use crate::measure::{Amount, Exact, to_f64};
use crate::source::Span;
use std::collections::BTreeMap;
use std::sync::Arc;

macro_rules! stock {
    ($($(#[$doc:meta])* $name:ident { $($field:ident: $type:ty),+ $(,)? })+) => {
        $(
            $(#[$doc])*
            #[derive(Clone, Debug)]
            #[expect(missing_docs, reason = "each field is the statement of that word")]
            pub struct $name { pub name: String, pub span: Span, $(pub $field: $type),+ }
        )+
    };
}

stock! {
    /// Leather of uppers and linings.
    UpperLeather {
        substance: Val<Amount>,
        one_hide: bool,
        holds: Option<Val<Amount>>,
        hide: Option<Val<Amount>>,
        of_hide: Option<Val<Shares>>,
        cuts: Option<Val<Shares>>,
    }
    /// Leather of bottoms, by substances.
    SoleLeather { substances: Val<Vec<At<Amount>>>, tolerance: Option<Val<Amount>>, yields: Option<Val<Amount>> }
    /// A moulded outsole.
    Outsole {
        base: Val<Amount>,
        lug: Option<Val<Amount>>,
        channel: Option<Channel>,
        blanks: Option<Result<Blanks, Hole>>,
    }
    /// Sheet rubber.
    Rubber { thickness: Val<Amount> }
    /// Filler for a hollow of the bottom.
    Filler { thickness: Val<Amount> }
    /// A heel's cap.
    Cap { thickness: Val<Amount>, blanks: Option<Result<Blanks, Hole>> }
    /// Board or leather of counters and puffs.
    Stiffener { thickness: Val<Amount> }
    /// A thread.
    Thread {
        size: Val<Amount>,
        needle: Option<Val<Amount>>,
        strength: Option<Val<Amount>>,
        density: Val<Amount>,
        packing: Val<Amount>,
        diameter: Option<Val<Amount>>,
    }
    /// Heel lifts, by substances.
    Lift { substances: Val<Vec<At<Amount>>> }
    /// A nail, by lengths.
    Nail {
        lengths: Val<Vec<At<Amount>>>,
        shank: Option<Val<Amount>>,
        clinches: bool,
        sunk: Option<Val<Amount>>,
        weight: Option<Val<u32>>,
    }
    /// An eyelet or a hook.
    Hardware { punch: Val<Amount>, through: Option<Val<Amount>> }
    /// An adhesive.
    Adhesive {
        fit_for: Option<Val<Vec<&'static str>>>,
        coats: Option<Val<u32>>,
        coverage: Option<Val<Amount>>,
        open: Option<Val<Amount>>,
        film: Option<Val<Amount>>,
        press: Option<Val<Amount>>,
        set: Option<Val<Amount>>,
        reactivated: bool,
    }
}

/// A channel in the tread of an outsole.
#[derive(Clone, Debug)]
pub struct Channel {
    /// From which to which distance from the finished edge it runs.
    pub between: Val<Amount>,
    /// How deep it is; down to the base's face if the stock does not say.
    pub deep: Option<Val<Amount>>,
}
/// Shares by the zones of a hide.
pub type Shares = Vec<(&'static str, At<Amount>)>;

/// Everything in stock, by kind and name.
#[derive(Clone, Debug, Default)]
#[expect(missing_docs, reason = "each field is the kind of stock of that word")]
pub struct Stock {
    pub upper_leathers: BTreeMap<String, Arc<UpperLeather>>,
    pub sole_leathers: BTreeMap<String, Arc<SoleLeather>>,
    pub outsoles: BTreeMap<String, Arc<Outsole>>,
    pub rubbers: BTreeMap<String, Arc<Rubber>>,
    pub fillers: BTreeMap<String, Arc<Filler>>,
    pub caps: BTreeMap<String, Arc<Cap>>,
    pub stiffeners: BTreeMap<String, Arc<Stiffener>>,
    pub threads: BTreeMap<String, Arc<Thread>>,
    pub lifts: BTreeMap<String, Arc<Lift>>,
    pub nails: BTreeMap<String, Arc<Nail>>,
    pub eyelets: BTreeMap<String, Arc<Hardware>>,
    pub hooks: BTreeMap<String, Arc<Hardware>>,
    pub adhesives: BTreeMap<String, Arc<Adhesive>>,
}

impl Stock {
    /// Adds one declaration of the stock; `word` is the word that declares it.
    pub(super) fn add(&mut self, word: &str, name: &str, span: Span, fields: &Fields<'_>, findings: &mut Vec<Finding>) {
        let name = name.to_owned();
        match word {
            "upper-leather" => put(&mut self.upper_leathers, upper_leather(name, span, fields, findings)),
            "sole-leather" => put(&mut self.sole_leathers, sole_leather(name, span, fields, findings)),
            "outsole" => put(&mut self.outsoles, outsole(name, span, fields, findings)),
            "rubber" => {
                let thickness = fields.amount("thickness", findings);
                put(&mut self.rubbers, Rubber { name, span, thickness });
            }
            "filler" => {
                let thickness = fields.amount("thickness", findings);
                put(&mut self.fillers, Filler { name, span, thickness });
            }
            "cap" => {
                let thickness = fields.amount("thickness", findings);
                put(&mut self.caps, Cap { name, span, thickness, blanks: blanks(fields, findings) });
            }
            "stiffener" => {
                let thickness = fields.amount("thickness", findings);
                put(&mut self.stiffeners, Stiffener { name, span, thickness });
            }
            "thread" => put(&mut self.threads, thread(name, span, fields, findings)),
            "lift" => {
                let substances = list(fields, "substances", findings);
                put(&mut self.lifts, Lift { name, span, substances });
            }
            "nail" => put(&mut self.nails, nail(name, span, fields, findings)),
            "eyelet" => put(&mut self.eyelets, hardware(name, span, fields, findings)),
            "hook" => put(&mut self.hooks, hardware(name, span, fields, findings)),
            "adhesive" => put(&mut self.adhesives, adhesive(name, span, fields)),
            _ => {}
        }
    }
}

trait Item {
    fn name(&self) -> &str;
}

macro_rules! items {
    ($($type:ident)+) => { $(impl Item for $type { fn name(&self) -> &str { &self.name } })+ };
}
items! { UpperLeather SoleLeather Outsole Rubber Filler Cap Stiffener Thread Lift Nail Hardware Adhesive }

fn put<T: Item>(map: &mut BTreeMap<String, Arc<T>>, item: T) {
    map.entry(item.name().to_owned()).or_insert_with(|| Arc::new(item));
}

/// Whether a shelf has this measure of a piece; a fault at the measure if not. A shelf that was lost to a fault has all.
pub(super) fn on_the_shelf(
    (stock, what): (&str, &str),
    shelf: &Val<Vec<At<Amount>>>,
    measure: &Amount,
    span: Span,
    findings: &mut Vec<Finding>,
) -> Result<(), Hole> {
    let Ok(stocked) = shelf else { return Ok(()) };
    if stocked.it.iter().any(|known| known.it.exact() == measure.exact()) {
        return Ok(());
    }
    let finding = Finding::fault(FaultName::VALUE_NONSENSE, span, format!("`{stock}` is not stocked in this {what}"))
        .also(stocked.span(), "stocked in these")
        .help(format!("take one of the {what}s stocked, or add this one to the stock"));
    let hole = Hole { fault: finding.name, span };
    findings.push(finding);
    Err(hole)
}

/// A length in which the nail is stocked.
pub(super) fn stocked_length(length: Val<Amount>, nail: &Val<Arc<Nail>>, findings: &mut Vec<Finding>) -> Val<Amount> {
    let length = length?;
    if let Ok(nail) = nail {
        on_the_shelf((&nail.it.name, "length"), &nail.it.lengths, &length.it, length.span(), findings)?;
    }
    Ok(length)
}

fn list(fields: &Fields<'_>, word: &str, findings: &mut Vec<Finding>) -> Val<Vec<At<Amount>>> {
    fields.need(word, findings).and_then(|field| field.amounts(0))
}

fn upper_leather(name: String, span: Span, fields: &Fields<'_>, findings: &mut Vec<Finding>) -> UpperLeather {
    let shares = |word: &str| fields.get(word).map(|field| field.pairs(0));
    UpperLeather {
        name,
        span,
        substance: fields.amount("substance", findings),
        one_hide: fields.flag("one-hide"),
        holds: fields.maybe_amount("holds"),
        hide: fields.maybe_amount("hide"),
        of_hide: shares("of-hide").map(|shares| of_one_hide(shares, findings)),
        cuts: shares("cuts"),
    }
}

/// The zones of a hide lie side by side: together they are no more than all of it.
fn of_one_hide(shares: Val<Shares>, findings: &mut Vec<Finding>) -> Val<Shares> {
    let shares = shares?;
    let all: Exact = shares.it.iter().map(|(_, share)| share.it.exact()).sum();
    let Some(((_, last), others)) = shares.it.split_last().filter(|_| all > Exact::from_integer(100)) else {
        return Ok(shares);
    };
    let message = format!("the zones of one hide make {} % of it together, and it has 100 %", to_f64(all));
    let mut finding = Finding::fault(FaultName::VALUE_RANGE, last.span, message)
        .help("say of each zone what share of the whole hide it is");
    for (_, other) in others {
        finding = finding.also(other.span, "counted before");
    }
    let hole = Hole { fault: finding.name, span: shares.span() };
    findings.push(finding);
    Err(hole)
}

fn sole_leather(name: String, span: Span, fields: &Fields<'_>, findings: &mut Vec<Finding>) -> SoleLeather {
    let substances = list(fields, "substances", findings);
    SoleLeather {
        name,
        span,
        substances,
        tolerance: fields.maybe_amount("tolerance"),
        yields: fields.maybe_amount("yield"),
    }
}

fn outsole(name: String, span: Span, fields: &Fields<'_>, findings: &mut Vec<Finding>) -> Outsole {
    let channel = fields.get("channel");
    Outsole {
        name,
        span,
        base: fields.amount("base", findings),
        lug: fields.maybe_amount("lug"),
        channel: channel.map(|field| Channel { between: field.amount(0), deep: field.clause_amount("deep") }),
        blanks: blanks(fields, findings),
    }
}

fn thread(name: String, span: Span, fields: &Fields<'_>, findings: &mut Vec<Finding>) -> Thread {
    Thread {
        name,
        span,
        size: fields.amount("size", findings),
        needle: fields.maybe_amount("needle"),
        strength: fields.maybe_amount("strength"),
        density: fields.amount("density", findings),
        packing: fields.amount("packing", findings),
        diameter: fields.maybe_amount("diameter"),
    }
}

fn nail(name: String, span: Span, fields: &Fields<'_>, findings: &mut Vec<Finding>) -> Nail {
    let lengths = list(fields, "lengths", findings);
    let (shank, sunk) = (fields.maybe_amount("shank"), fields.maybe_amount("sunk"));
    let clinches = fields.flag("clinches") || fields.block.unread.is_some();
    Nail { name, span, lengths, shank, clinches, sunk, weight: fields.maybe_count("weight") }
}

fn hardware(name: String, span: Span, fields: &Fields<'_>, findings: &mut Vec<Finding>) -> Hardware {
    Hardware { name, span, punch: fields.amount("punch", findings), through: fields.maybe_amount("through") }
}

fn adhesive(name: String, span: Span, fields: &Fields<'_>) -> Adhesive {
    Adhesive {
        name,
        span,
        fit_for: fields.maybe_words("for"),
        coats: fields.maybe_count("coats"),
        coverage: fields.maybe_amount("coverage"),
        open: fields.maybe_amount("open"),
        film: fields.maybe_amount("film"),
        press: fields.maybe_amount("press"),
        set: fields.maybe_amount("set"),
        reactivated: fields.get("set").is_some_and(|field| field.has_clause("reactivated")),
    }
}

impl SoleLeather {
    /// The spread of a piece of the stated substance: the stock's tolerance stays with it.
    ///
    /// # Errors
    /// The hole of a tolerance that a fault took.
    pub fn spread_of(&self, substance: &Amount) -> Result<crate::measure::Spread, Hole> {
        let half = match &self.tolerance {
            Some(tolerance) => tolerance.as_ref().map_err(|hole| *hole)?.it.nominal(),
            None => 0.0,
        };
        Ok(crate::measure::Spread::around(substance.nominal(), half))
    }
}
