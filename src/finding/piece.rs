//! What the terms of a sum are: the things that lie on each other, and the measures that no thing has.
//!
//! They are values. Their texts, which findings, `explain` and the JSON say, are written from them and never read back.

use std::fmt;
use std::sync::Arc;

/// A layer's role. The order is the order from the foot down.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[expect(missing_docs, reason = "the roles of the vocabulary")]
pub enum Role {
    Insole,
    Arch,
    Shank,
    Pad,
    Filler,
    Midsole,
    Slip,
    Outsole,
}

impl Role {
    /// All roles from the foot down.
    pub const ALL: &'static [Role] =
        &[Role::Insole, Role::Arch, Role::Shank, Role::Pad, Role::Filler, Role::Midsole, Role::Slip, Role::Outsole];

    /// As written.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Role::Insole => "insole",
            Role::Arch => "arch",
            Role::Shank => "shank",
            Role::Pad => "pad",
            Role::Filler => "filler",
            Role::Midsole => "midsole",
            Role::Slip => "slip",
            Role::Outsole => "outsole",
        }
    }
}

/// Which piece of a layer it is: all of it, or one of the two of a moulded outsole.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "the pieces of a layer")]
pub enum LayerPiece {
    Whole,
    Base,
    Lug,
}

impl LayerPiece {
    /// Its name; a layer of one piece has none for it.
    #[must_use]
    pub fn name(self) -> Option<&'static str> {
        match self {
            LayerPiece::Whole => None,
            LayerPiece::Base => Some("base"),
            LayerPiece::Lug => Some("lug"),
        }
    }
}

/// What a thing is made of, as far as the kind of stock says it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "the kinds of stock")]
pub enum Material {
    UpperLeather,
    SoleLeather,
    Rubber,
    Filler,
    Adhesive,
}

/// How a part of the upper lies there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PartPlace {
    /// As it is.
    Whole,
    /// As a flat skive leaves it, or what is left at its edge.
    Skived,
    /// What is left at its edge, where a lap outside the turnout thins it.
    AtItsEdge,
    /// In the turn at the seat.
    LastedIn,
    /// The same part once more, on the other side of a closed seam.
    OtherSide,
    /// In the turn of a fold.
    InTheTurn,
}

/// Which layers of the heel's base.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "the words of the vocabulary")]
pub enum Lifted {
    Wedges,
    Lifts,
    ThinLifts,
}

impl Lifted {
    /// As written.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Lifted::Wedges => "wedges",
            Lifted::Lifts => "lifts",
            Lifted::ThinLifts => "thin-lifts",
        }
    }
}

/// What a term is.
#[derive(Clone, Debug, PartialEq)]
pub enum Piece {
    /// A layer of the bottom, or a piece of one.
    Layer {
        /// Its role.
        role: Role,
        /// Which piece of it.
        piece: LayerPiece,
        /// The name of what it is of.
        stock: Arc<str>,
        /// What that is made of.
        material: Material,
        /// By how many of a hundred it is hammered, if it is.
        hammered: Option<f64>,
    },
    /// The film of the adhesive over a layer.
    Film {
        /// The layer's role.
        over: Role,
        /// The adhesive's name.
        adhesive: Arc<str>,
    },
    /// What a channel in the tread takes away.
    Channel {
        /// The outsole's name.
        outsole: Arc<str>,
    },
    /// A part of the upper.
    Part {
        /// Its name.
        part: Arc<str>,
        /// Its leather's name.
        leather: Arc<str>,
        /// How it lies there.
        place: PartPlace,
    },
    /// The heel's cap, by its name.
    Cap(Arc<str>),
    /// Layers of the heel's base.
    Lifted(Lifted),
    /// A measure that is no thing's thickness, in words: `bite`.
    Measure(&'static str),
}

impl Piece {
    /// The role, if it is a layer of the bottom or a piece of one.
    #[must_use]
    pub fn role(&self) -> Option<Role> {
        if let Piece::Layer { role, .. } = self { Some(*role) } else { None }
    }

    /// Which piece of a layer it is, if it is a layer's.
    #[must_use]
    pub fn of_layer(&self) -> Option<LayerPiece> {
        if let Piece::Layer { piece, .. } = self { Some(*piece) } else { None }
    }

    /// What it is made of; none for a gap and for a mere measure.
    #[must_use]
    pub fn material(&self) -> Option<Material> {
        match self {
            Piece::Layer { material, .. } => Some(*material),
            Piece::Film { .. } => Some(Material::Adhesive),
            Piece::Part { .. } => Some(Material::UpperLeather),
            // Caps are stocked as blanks of rubber, lifts and wedges are of leather: common practice, no source.
            Piece::Cap(_) => Some(Material::Rubber),
            Piece::Lifted(_) => Some(Material::SoleLeather),
            Piece::Channel { .. } | Piece::Measure(_) => None,
        }
    }

    /// The layer or the part of the model of which it is, by the name under which the model states it.
    #[must_use]
    pub fn stated(&self) -> Option<&str> {
        match self {
            Piece::Layer { role, .. } | Piece::Film { over: role, .. } => Some(role.name()),
            Piece::Part { part, .. } => Some(part),
            Piece::Channel { .. } | Piece::Cap(_) | Piece::Lifted(_) | Piece::Measure(_) => None,
        }
    }

    /// The names in it that a shop typed.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        let (one, other): (Option<&str>, Option<&str>) = match self {
            Piece::Layer { stock: name, .. }
            | Piece::Film { adhesive: name, .. }
            | Piece::Channel { outsole: name }
            | Piece::Cap(name) => (Some(name), None),
            Piece::Part { part, leather, .. } => (Some(part), Some(leather)),
            Piece::Lifted(_) | Piece::Measure(_) => (None, None),
        };
        one.into_iter().chain(other)
    }

    /// The same part of the upper as it lies elsewhere; all else lies in one way only.
    #[must_use]
    pub fn placed(self, place: PartPlace) -> Self {
        match self {
            Piece::Part { part, leather, .. } => Piece::Part { part, leather, place },
            other => other,
        }
    }

    /// The same layer of leather, hammered by so many of a hundred.
    #[must_use]
    pub fn hammered(self, share: Option<f64>) -> Self {
        match self {
            Piece::Layer { role, piece, stock, material, .. } => {
                Piece::Layer { role, piece, stock, material, hammered: share }
            }
            other => other,
        }
    }

    /// Its text without the name of what it is made of: `outsole lug`, `vamp`.
    #[must_use]
    pub fn short(&self) -> String {
        match self {
            Piece::Layer { role, piece, .. } => match piece.name() {
                Some(piece) => format!("{} {piece}", role.name()),
                None => role.name().to_owned(),
            },
            Piece::Film { over, .. } => format!("film over the {}", over.name()),
            Piece::Part { part, place, .. } => match place {
                PartPlace::AtItsEdge => format!("{part} at its skived edge"),
                PartPlace::InTheTurn => format!("the turn takes {part}"),
                _ => part.to_string(),
            },
            Piece::Cap(_) => "cap".to_owned(),
            Piece::Lifted(lifted) => lifted.name().to_owned(),
            Piece::Measure(words) => (*words).to_owned(),
            Piece::Channel { outsole } => format!("channel of {outsole}"),
        }
    }
}

impl From<&'static str> for Piece {
    fn from(words: &'static str) -> Self {
        Piece::Measure(words)
    }
}

impl From<Lifted> for Piece {
    fn from(lifted: Lifted) -> Self {
        Piece::Lifted(lifted)
    }
}

impl fmt::Display for Piece {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.short())?;
        match self {
            Piece::Layer { stock, hammered, .. } => {
                write!(f, " ({stock})")?;
                hammered.map_or(Ok(()), |share| write!(f, ", hammered {share} %"))
            }
            Piece::Film { adhesive, .. } => write!(f, " ({adhesive})"),
            Piece::Cap(cap) => write!(f, " ({cap})"),
            Piece::Part { leather, place, .. } => match place {
                PartPlace::AtItsEdge => Ok(()),
                PartPlace::Whole | PartPlace::InTheTurn => write!(f, " ({leather})"),
                PartPlace::Skived => write!(f, " ({leather}), skived"),
                PartPlace::LastedIn => write!(f, " ({leather}), lasted in at the seat"),
                PartPlace::OtherSide => write!(f, " ({leather}), the other side"),
            },
            Piece::Channel { .. } | Piece::Lifted(_) | Piece::Measure(_) => Ok(()),
        }
    }
}

/// What varies together: terms of one of these are thick and thin at once.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Variation {
    /// All of a leather, which is cut from one hide.
    Hide(Arc<str>),
    /// A part of the upper.
    Part(Arc<str>),
    /// The other piece of a part of which a foot has more than one.
    OtherPiece(Arc<str>),
    /// A layer of the bottom, or a piece of one: what its stock is delivered with.
    Layer(Role, LayerPiece),
    /// The film over a layer.
    Film(Role),
    /// A channel of a stated depth.
    Channel,
    /// The heel's cap.
    Cap,
    /// The hand that skives a part at its edge, outside the turnout.
    Skive(Arc<str>),
    /// The same within the turnout.
    EdgeSkive {
        /// The part.
        part: Arc<str>,
        /// Its leather.
        leather: Arc<str>,
    },
    /// The hand that skives a part flat.
    FlatSkive {
        /// The part.
        part: Arc<str>,
        /// Its leather.
        leather: Arc<str>,
    },
}

impl fmt::Display for Variation {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Variation::Hide(leather) => write!(f, "leather {leather}"),
            Variation::Part(part) => write!(f, "part {part}"),
            Variation::OtherPiece(part) => write!(f, "part {part}, the other piece"),
            Variation::Layer(role, piece) => match piece.name() {
                Some(piece) => write!(f, "layer {} {piece}", role.name()),
                None => write!(f, "layer {}", role.name()),
            },
            Variation::Film(role) => write!(f, "film over {}", role.name()),
            Variation::Channel => f.write_str("channel"),
            Variation::Cap => f.write_str("cap"),
            Variation::Skive(part) => write!(f, "skive {part}"),
            Variation::EdgeSkive { part, leather } => write!(f, "edge skive of {part} ({leather})"),
            Variation::FlatSkive { part, leather } => write!(f, "flat skive of {part} ({leather})"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{LayerPiece, Material, PartPlace, Piece, Role, Variation};

    fn layer(piece: LayerPiece, hammered: Option<f64>) -> Piece {
        Piece::Layer { role: Role::Outsole, piece, stock: "bend".into(), material: Material::SoleLeather, hammered }
    }

    fn part(place: PartPlace) -> Piece {
        Piece::Part { part: "vamp".into(), leather: "oil-tan".into(), place }
    }

    /// As they are in JSON of the first schema.
    #[test]
    fn pieces_say_what_they_are() {
        let film = Piece::Film { over: Role::Slip, adhesive: "neoprene".into() };
        for (piece, text, short) in [
            (layer(LayerPiece::Whole, None), "outsole (bend)", "outsole"),
            (layer(LayerPiece::Whole, Some(5.0)), "outsole (bend), hammered 5 %", "outsole"),
            (layer(LayerPiece::Lug, None), "outsole lug (bend)", "outsole lug"),
            (film, "film over the slip (neoprene)", "film over the slip"),
            (Piece::Channel { outsole: "tread".into() }, "channel of tread", "channel of tread"),
            (part(PartPlace::Whole), "vamp (oil-tan)", "vamp"),
            (part(PartPlace::Skived), "vamp (oil-tan), skived", "vamp"),
            (part(PartPlace::AtItsEdge), "vamp at its skived edge", "vamp at its skived edge"),
            (part(PartPlace::LastedIn), "vamp (oil-tan), lasted in at the seat", "vamp"),
            (part(PartPlace::OtherSide), "vamp (oil-tan), the other side", "vamp"),
            (part(PartPlace::InTheTurn), "the turn takes vamp (oil-tan)", "the turn takes vamp"),
            (Piece::Cap("cap-low".into()), "cap (cap-low)", "cap"),
        ] {
            assert_eq!((piece.to_string().as_str(), piece.short().as_str()), (text, short));
        }
    }

    #[test]
    fn variations_say_what_varies_together() {
        let (part, leather) = (|| "vamp".into(), || "oil-tan".into());
        for (variation, text) in [
            (Variation::Hide(leather()), "leather oil-tan"),
            (Variation::Part(part()), "part vamp"),
            (Variation::OtherPiece(part()), "part vamp, the other piece"),
            (Variation::Layer(Role::Midsole, LayerPiece::Whole), "layer midsole"),
            (Variation::Layer(Role::Outsole, LayerPiece::Base), "layer outsole base"),
            (Variation::Film(Role::Midsole), "film over midsole"),
            (Variation::Channel, "channel"),
            (Variation::Cap, "cap"),
            (Variation::Skive(part()), "skive vamp"),
            (Variation::EdgeSkive { part: part(), leather: leather() }, "edge skive of vamp (oil-tan)"),
            (Variation::FlatSkive { part: part(), leather: leather() }, "flat skive of vamp (oil-tan)"),
        ] {
            assert_eq!(variation.to_string(), text);
        }
    }
}
