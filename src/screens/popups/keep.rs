//! The piece in a file: what was seen, to be opened again, or a page to take away. The text is made
//! here; whoever shows the screens writes it, and never over a file that is there.

use ratatui::layout::Rect;

use super::popup::{Effect, Opening, Popup};
use crate::piece::Piece;
use crate::piece::sighting_file;
use crate::report::markdown;
use crate::report::sheet::Sheet;
use crate::screens::kit::canvas::Canvas;
use crate::screens::kit::rows::{Row, paragraph};
use crate::screens::state::input::Key;
use crate::screens::state::keys::usual::{CLOSE, ERASE, enter};
use crate::screens::state::keys::{Binding, KeyTable, Writes};
use crate::screens::state::msg::Msg;
use crate::screens::state::orders::{Order, worth_weighing};
use crate::screens::state::save::Save;
use crate::screens::state::session::Session;
use crate::screens::state::typed_line::TypedLine;

/// Rows of the frame.
const ROWS: u16 = 8;

/// What can be kept.
struct Form {
    ending: &'static str,
    /// What it is, and what it is good for.
    about: &'static str,
    text: fn(&Piece) -> Result<String, String>,
}

const FORMS: &[Form] = &[
    Form {
        ending: ".ron",
        about: "What was seen. Open it again with: printseam FILE.ron",
        text: |piece| {
            let (base, setting) = (&piece.expert().base, piece.setting());
            Ok(sighting_file::write(base, setting, piece.evidence()))
        },
    },
    Form {
        ending: ".md",
        about: "The verdict with its reasons, as Markdown: for notes and letters.",
        text: |piece| Ok(markdown::page(&Sheet::new(piece, "", None))),
    },
    #[cfg(feature = "pages")]
    Form {
        ending: ".html",
        about: "The verdict with its reasons, as a page for browser and printer.",
        text: |piece| {
            crate::report::html::page(&Sheet::new(piece, "", None)).map_err(|e| e.to_string())
        },
    },
];

pub const OPENING: Opening = Opening {
    order: Order::opening(
        'k',
        "Keep the piece in a file: what was seen, or a page.",
        |session| worth_weighing(session).then_some("keep"),
    ),
    open: |session, _| Effect::open(Keep::new(session)),
};

/// The name typed, and the form of the file.
#[derive(Debug)]
pub struct Keep {
    line: TypedLine,
    /// Its place among the forms.
    form: usize,
}

impl Keep {
    /// A name that tells the piece from others: the likeliest kind and the middle year.
    fn new(session: &Session) -> Keep {
        let judgement = session.piece().judgement();
        let (kind, _) = judgement.leading();
        let kind = &session.expert().base.kinds[usize::from(kind.0)].id;
        let name = format!("{kind}-{}{}", judgement.median.0, FORMS[0].ending);
        Keep {
            line: TypedLine::from(&name),
            form: 0,
        }
    }

    /// Another form, and its ending in place of the one that is there.
    fn next_form(&mut self) {
        let name = self.line.text();
        let stem = FORMS.iter().find_map(|f| name.strip_suffix(f.ending));
        let stem = stem.unwrap_or(name).to_owned();
        self.form = (self.form + 1) % FORMS.len();
        self.line = TypedLine::from(&(stem + FORMS[self.form].ending));
    }

    /// The file's name, with the ending of its form.
    fn name(&self) -> String {
        let (name, ending) = (self.line.text().trim(), FORMS[self.form].ending);
        match name.ends_with(ending) {
            true => name.to_owned(),
            false => format!("{name}{ending}"),
        }
    }

    fn save(&self, piece: &Piece) -> Effect {
        if self.line.text().trim().is_empty() {
            return Effect::Notify("Type a name for the file.".to_owned());
        }
        match (FORMS[self.form].text)(piece) {
            Ok(text) => Effect::Save(Save {
                name: self.name(),
                text,
            }),
            Err(why) => Effect::Notify(why),
        }
    }
}

impl Popup for Keep {
    fn title(&self) -> &'static str {
        "Keep in a file"
    }

    fn keys(&self, _: &Session) -> KeyTable {
        let write = enter("write it", "Write the file.");
        let help = "What was seen, Markdown, or a page for the browser.";
        let form = Binding::new(Key::Tab, Msg::Next, "other form", help);
        KeyTable::new(vec![write, form, ERASE, CLOSE]).writing(Writes::Text)
    }

    fn update(&mut self, msg: Msg, session: &Session) -> Effect {
        match msg {
            Msg::Take => return self.save(session.piece()),
            Msg::Next => self.next_form(),
            _ if self.line.edit(msg) => self.read(session),
            _ => return Effect::Pass,
        }
        Effect::Stay
    }

    fn line(&mut self) -> Option<&mut TypedLine> {
        Some(&mut self.line)
    }

    /// An ending that is typed says what the file is.
    fn read(&mut self, _: &Session) {
        let name = self.line.text().trim();
        let typed = FORMS.iter().position(|f| name.ends_with(f.ending));
        self.form = typed.unwrap_or(self.form);
    }

    fn draw(&self, _: &Session, canvas: &mut Canvas, inside: Rect) {
        let theme = canvas.theme;
        let rest = canvas.typed_line(inside, "File: ", self.line.text());
        let cells = usize::from(inside.width);
        let mut rows = vec![Row::blank()];
        rows.extend(paragraph(FORMS[self.form].about, cells, theme.instruction));
        let whole = "A file that is there already is left as it is.";
        rows.extend(paragraph(whole, cells, theme.quiet));
        canvas.rows(rest, &rows);
    }

    fn height(&self) -> Option<u16> {
        Some(ROWS)
    }
}
