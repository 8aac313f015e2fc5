//! Reads a written document back, with its forms opened in place.

use std::collections::BTreeMap;

use lopdf::content::{Content, Operation};
use lopdf::{Dictionary, Document, Object, ObjectId};

const MM: f64 = 25.4 / 72.0;

pub struct Book {
    pub pdf: Document,
    pages: Vec<ObjectId>,
}

type Place = (f64, f64);

/// A text as shown: its face, its codes and the matrix before it.
struct Shown {
    face: Vec<u8>,
    codes: Vec<u16>,
    start: Place,
}

impl Book {
    pub fn read(bytes: &[u8]) -> Self {
        let pdf = Document::load_mem(bytes).unwrap();
        let pages = pdf.get_pages().into_values().collect();
        Self { pdf, pages }
    }

    fn resources(&self) -> &Dictionary {
        let page = self.pdf.get_dictionary(self.pages[0]).unwrap();
        self.follow(page.get(b"Resources").unwrap()).as_dict().unwrap()
    }

    fn follow<'a>(&'a self, object: &'a Object) -> &'a Object {
        self.pdf.dereference(object).unwrap().1
    }

    fn entry<'a>(&'a self, dict: &'a Dictionary, key: &str) -> &'a Object {
        self.follow(dict.get(key.as_bytes()).unwrap())
    }

    /// The operations of a page, forms in the place of their calls.
    fn operations(&self, page: usize) -> Vec<Operation> {
        let content = self.pdf.get_page_content(self.pages[page]);
        let forms = self.entry(self.resources(), "XObject").as_dict().unwrap();
        let mut all = Vec::new();
        for operation in Content::decode(&content).unwrap().operations {
            if operation.operator != "Do" {
                all.push(operation);
                continue;
            }
            let name = operation.operands[0].as_name().unwrap();
            let form = self.follow(forms.get(name).unwrap()).as_stream().unwrap();
            let content = form.decompressed_content().unwrap();
            all.extend(Content::decode(&content).unwrap().operations);
        }
        all
    }

    /// Operators with their operands, from the first that sets a colour.
    pub fn drawn(&self, page: usize) -> Vec<String> {
        let operations = self.operations(page).into_iter();
        let told = operations.map(|Operation { operator, operands }| {
            let numbers = operands.iter().map(|operand| match operand.as_float() {
                Ok(number) => format!("{number}"),
                Err(_) => format!("{operand:?}"),
            });
            format!("{} {operator}", numbers.collect::<Vec<_>>().join(" "))
        });
        let colour = |line: &String| !line.ends_with(" G") && !line.ends_with(" g");
        told.skip_while(colour).collect()
    }

    fn shown(&self, page: usize) -> Vec<Shown> {
        let (mut face, mut start, mut all) = (Vec::new(), (0.0, 0.0), Vec::new());
        for operation in self.operations(page) {
            let operands = &operation.operands;
            match operation.operator.as_str() {
                "Tf" => face = operands[0].as_name().unwrap().to_vec(),
                "Tm" => start = place(&operands[4..]),
                "Tj" => all.push(Shown { face: face.clone(), codes: codes(operands[0].as_str().unwrap()), start }),
                "TJ" => panic!("texts are shown whole"),
                _ => {}
            }
        }
        all
    }

    fn font(&self, face: &[u8]) -> &Dictionary {
        let fonts = self.entry(self.resources(), "Font").as_dict().unwrap();
        self.follow(fonts.get(face).unwrap()).as_dict().unwrap()
    }

    pub fn texts(&self, page: usize) -> Vec<String> {
        let texts = self.shown(page).into_iter().map(|shown| {
            let map = self.entry(self.font(&shown.face), "ToUnicode");
            let map = map.as_stream().unwrap().decompressed_content().unwrap();
            let map = unicode(&String::from_utf8(map).unwrap());
            shown.codes.iter().map(|code| map[code]).collect()
        });
        texts.collect()
    }

    /// The width of each text in mm at a size, by the widths that its font states.
    pub fn widths(&self, page: usize, size: f64) -> Vec<f64> {
        let widths = self.shown(page).into_iter().map(|shown| {
            let descendants = self.entry(self.font(&shown.face), "DescendantFonts");
            let descendant = self.follow(&descendants.as_array().unwrap()[0]);
            let stated = stated(self.entry(descendant.as_dict().unwrap(), "W"));
            let sum: i64 = shown.codes.iter().map(|code| stated[code]).sum();
            sum as f64 / 1000.0 * size * MM
        });
        widths.collect()
    }

    pub fn starts(&self, page: usize) -> Vec<Place> {
        self.shown(page).into_iter().map(|shown| shown.start).collect()
    }

    /// Straight lines of two points in mm, from the bottom left corner.
    pub fn lines(&self, page: usize) -> Vec<(Place, Place)> {
        let operations = self.operations(page);
        let lines = operations.windows(3).filter(|three| {
            let named = ["m", "l", "S"];
            three.iter().zip(named).all(|(operation, name)| operation.operator == name)
        });
        lines.map(|three| (place(&three[0].operands), place(&three[1].operands))).collect()
    }

    pub fn forms(&self) -> usize {
        let streams = self.pdf.objects.values().filter_map(|object| object.as_stream().ok());
        let form =
            |dict: &Dictionary| dict.get(b"Subtype").is_ok_and(|s| s.as_name().is_ok_and(|name| name == b"Form"));
        streams.filter(|stream| form(&stream.dict)).count()
    }

    /// Titles, those of twigs after the title of their branch.
    pub fn outline(&self) -> Vec<String> {
        let root = self.entry(self.pdf.catalog().unwrap(), "Outlines").as_dict().unwrap();
        let mut all = Vec::new();
        self.titles(root, "", &mut all);
        assert_eq!(root.get(b"Count").unwrap().as_i64().unwrap(), all.len() as i64);
        all
    }

    fn titles(&self, parent: &Dictionary, above: &str, all: &mut Vec<String>) {
        let mut next = parent.get(b"First").ok();
        while let Some(entry) = next {
            let entry = self.follow(entry).as_dict().unwrap();
            let title = string(entry.get(b"Title").unwrap());
            let title = format!("{above}{title}");
            all.push(title.clone());
            self.titles(entry, &format!("{title} / "), all);
            next = entry.get(b"Next").ok();
        }
    }

    /// Names in the order of the tree; each file is a hundredfold of its name's letters.
    pub fn attachments(&self) -> Vec<String> {
        let catalog = self.pdf.catalog().unwrap();
        let files = self.entry(catalog, "Names").as_dict().unwrap();
        let files = self.entry(files, "EmbeddedFiles").as_dict().unwrap();
        let names = self.entry(files, "Names").as_array().unwrap();
        assert_eq!(self.entry(catalog, "AF").as_array().unwrap().len() * 2, names.len());
        let named = names.chunks(2).map(|pair| {
            let name = string(&pair[0]);
            let spec = self.follow(&pair[1]).as_dict().unwrap();
            let file = self.entry(spec, "EF").as_dict().unwrap();
            let file = self.entry(file, "F").as_stream().unwrap();
            let bytes = file.decompressed_content().unwrap();
            assert_eq!(bytes, name.as_bytes().repeat(40));
            name
        });
        named.collect()
    }

    pub fn labels(&self) -> Vec<String> {
        let labels = self.entry(self.pdf.catalog().unwrap(), "PageLabels");
        let numbers = self.entry(labels.as_dict().unwrap(), "Nums").as_array().unwrap();
        let labels = numbers.chunks(2).map(|pair| pair[1].as_dict().unwrap());
        labels.map(|label| label.get(b"P").map(string).unwrap_or_default()).collect()
    }
}

fn place(operands: &[Object]) -> Place {
    let number = |object: &Object| f64::from(object.as_float().unwrap()) * MM;
    (number(&operands[0]), number(&operands[1]))
}

fn codes(bytes: &[u8]) -> Vec<u16> {
    let pairs = bytes.chunks_exact(2);
    pairs.map(|pair| u16::from_be_bytes([pair[0], pair[1]])).collect()
}

fn string(object: &Object) -> String {
    let bytes = object.as_str().unwrap();
    match bytes.strip_prefix(&[0xFE, 0xFF]) {
        Some(utf16) => String::from_utf16(&codes(utf16)).unwrap(),
        None => String::from_utf8(bytes.to_vec()).unwrap(),
    }
}

/// The lines `<code> <character>` of a character map.
fn unicode(map: &str) -> BTreeMap<u16, char> {
    let pairs = map.lines().filter_map(|line| {
        let (code, character) = line.strip_prefix('<')?.strip_suffix('>')?.split_once("> <")?;
        let number = |hex| u32::from_str_radix(hex, 16).ok();
        Some((number(code)? as u16, char::from_u32(number(character)?)?))
    });
    pairs.filter(|(_, character)| *character != '\u{ffff}').collect()
}

/// Runs of a first code and the widths from there on.
fn stated(widths: &Object) -> BTreeMap<u16, i64> {
    let runs = widths.as_array().unwrap().chunks(2);
    let each = runs.flat_map(|run| {
        let first = run[0].as_i64().unwrap() as u16;
        let widths = run[1].as_array().unwrap().iter();
        widths.zip(first..).map(|(width, code)| (code, width.as_i64().unwrap()))
    });
    each.collect()
}
