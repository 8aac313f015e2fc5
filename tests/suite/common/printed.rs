//! Sheets laid out and written in memory.

use super::memory::Memory;
use hobnail::build::Plan;
use hobnail::check::{Figured, Notice, SizeFilter};
use hobnail::report;
use hobnail::sheets::paper::{Op, Style};
use hobnail::sheets::{Job, Laid, Lang, Paper, Station, Units, lay, paper, typefaces};
use serde_json::Value;

pub const MODELS: [&str; 3] = ["specs/models/cairn-10.hob", "specs/models/muster-10.hob", "specs/models/scree-8.hob"];

/// What is asked of a print.
#[derive(Clone, Debug, Default)]
pub struct Wanted<'w> {
    pub lang: Lang,
    pub paper: Paper,
    pub units: Units,
    pub pairs: Option<u64>,
    pub notices: &'w [Notice],
    pub stations: &'w [Station],
    /// Whether the bytes are written too.
    pub bytes: bool,
}

/// One size of one model: what was laid out, the bytes, the attached JSON.
pub struct Printed {
    pub name: String,
    pub laid: Laid,
    pub bytes: Vec<u8>,
    pub json: Value,
}

impl Printed {
    /// Numbers in the face and weight of key numbers, with their points: what stands at the size of a heading or above
    /// it, below the head of its page.
    pub fn keys(&self) -> Vec<(String, f64)> {
        let pages = self.laid.document.pages.iter();
        let texts = pages.flat_map(|page| &page.ops).filter_map(|op| match op {
            Op::Text(text) => Some(text),
            _ => None,
        });
        let large = texts.filter(|text| text.style == Style::CondensedBold && text.size > 14.0 && text.at.y > 42.0);
        large.map(|text| (text.content.clone(), text.size)).collect()
    }
}

/// The models of a shop in the sizes wanted.
pub fn print_of(shop: &Memory, sizes: &dyn SizeFilter, wanted: &Wanted<'_>) -> Vec<Printed> {
    let (_, checked) = shop.check(&MODELS, sizes);
    let mut all = Vec::new();
    for model in &checked.models {
        let world = &checked.worlds[model.place.0];
        let shop = world.shop.as_ref().expect("the demo has a shop");
        let plan = Plan::new(&world.models[model.place.1], shop);
        let sizes = checked.figured(model);
        let cut = || typefaces(&shop.name, sizes.iter().map(|size| &size.figures)).expect("typefaces are cut");
        let faces = wanted.bytes.then(cut);
        for sized in &sizes {
            let Figured { checked: size, figures, fingerprint } = sized;
            let build = plan.build(size.size);
            let attachment = report::attachment(model, sized).expect("figures are finite");
            let json = serde_json::from_slice(&attachment).expect("the attachment is JSON");
            let Wanted { lang, paper: on, units, pairs, notices, stations, .. } = wanted.clone();
            let job = Job {
                build: &build,
                shop,
                figures,
                fingerprint,
                attachment,
                paper: on,
                lang,
                units,
                pairs,
                notices,
                stations,
            };
            let laid = lay(&job).expect("the demo has work for every station");
            let written = |faces| paper::write(&laid.document, faces).expect("the document is written");
            let bytes = faces.as_ref().map(written).unwrap_or_default();
            all.push(Printed { name: model.name.clone(), laid, bytes, json });
        }
    }
    all
}
