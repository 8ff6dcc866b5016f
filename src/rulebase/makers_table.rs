//! A user's own table of makers as written: comma-separated, each field with its place.

use super::problem::{Check, Problem};
use super::schema::Text;
use super::source::{Located, SourceFile};

/// The first line of the table.
const HEADER: [&str; 6] = ["name", "variants", "from", "to", "place", "source"];

/// One maker as written.
pub(super) struct MakerRow<'a> {
    pub name: Text<'a>,
    /// Other ways the name stands in marks.
    pub variants: Vec<Text<'a>>,
    pub from: Text<'a>,
    pub to: Text<'a>,
    pub place: Text<'a>,
    pub source: Text<'a>,
}

/// The makers of a file. Lines that are empty or begin with `#` are passed over.
pub(super) fn rows<'a>(file: &'a SourceFile, problems: &mut Vec<Problem>) -> Vec<MakerRow<'a>> {
    let text = file.text.strip_prefix('\u{feff}').unwrap_or(&file.text);
    let mut bad = |at: &str, message: String, help: &str| {
        problems.push(Problem::at(file, at, Check::BadTable, message, help));
    };
    let mut header_seen = false;
    let mut out = Vec::new();
    for line in text.lines() {
        if line.trim().is_empty() || line.starts_with('#') {
            continue;
        }
        let fields = match fields(line) {
            Ok(fields) => fields,
            Err(at) => {
                let help = "close it on the same line; a quote within is written twice";
                bad(at, "a quote is opened and not closed".to_owned(), help);
                continue;
            }
        };
        if !header_seen {
            header_seen = true;
            let names: Vec<String> = fields.iter().map(|f| f.value.to_lowercase()).collect();
            if names != HEADER {
                let message = format!("the first line must be {}", HEADER.join(","));
                bad(line, message, "columns are parted by commas");
                return out;
            }
            continue;
        }
        match <[Text; HEADER.len()]>::try_from(fields) {
            Ok([name, variants, from, to, place, source]) => out.push(MakerRow {
                variants: parted(&variants),
                name,
                from,
                to,
                place,
                source,
            }),
            Err(fields) => {
                let count = fields.len();
                let message = format!("{count} columns where there are {}", HEADER.len());
                let help =
                    "put a field that has a comma in it into quotes; leave what is not known empty";
                bad(line, message, help);
            }
        }
    }
    out
}

/// The fields of a line, or where a quote begins that never ends.
fn fields(line: &str) -> Result<Vec<Text<'_>>, &str> {
    let mut out = Vec::new();
    let mut rest = line;
    loop {
        let lead = rest.len() - rest.trim_start().len();
        let (src, after) = match rest[lead..].strip_prefix('"') {
            Some(_) => {
                let quoted = &rest[lead..];
                let end = closing(quoted).ok_or(quoted)?;
                let after = quoted[end..].find(',').map(|comma| end + comma);
                let after = after.map(|comma| &quoted[comma + 1..]);
                (&quoted[..end], after)
            }
            None => match rest.split_once(',') {
                Some((field, after)) => (field.trim(), Some(after)),
                None => (rest.trim(), None),
            },
        };
        let unquoted = src.strip_prefix('"').and_then(|s| s.strip_suffix('"'));
        let value = match unquoted {
            Some(inside) => inside.replace("\"\"", "\"").trim().to_owned(),
            None => src.to_owned(),
        };
        out.push(Located { value, src });
        match after {
            Some(after) => rest = after,
            None => return Ok(out),
        }
    }
}

/// The place after the quote that closes a quoted field.
fn closing(quoted: &str) -> Option<usize> {
    let mut at = 1;
    loop {
        at += quoted.get(at..)?.find('"')? + 1;
        match quoted[at..].starts_with('"') {
            true => at += 1,
            false => return Some(at),
        }
    }
}

/// The parts of a field between bars.
fn parted<'a>(field: &Text<'a>) -> Vec<Text<'a>> {
    let inside = field.src.trim_matches('"');
    let parts = inside.split('|').map(str::trim).filter(|p| !p.is_empty());
    parts
        .map(|src| Located {
            value: src.replace("\"\"", "\""),
            src,
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::fields;

    #[test]
    fn fields_are_parted_by_commas_outside_quotes() {
        let values = |line| -> Vec<String> {
            let fields = fields(line).unwrap_or_default();
            fields.into_iter().map(|f| f.value).collect()
        };
        assert_eq!(values("a, b ,,d"), ["a", "b", "", "d"]);
        assert_eq!(values("\"a, \"\"b\"\"\",c"), ["a, \"b\"", "c"]);
        assert_eq!(values(" \"a\" ,"), ["a", ""]);
        assert_eq!(fields("x,\"y").err(), Some("\"y"));
    }
}
