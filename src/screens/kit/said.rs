//! A frame in words: what its rows say and do, without the pictures, for those who hear a screen.
//!
//! It is kept while a frame is drawn, row by row as the canvas gets them, so that no screen and no popup
//! has to be told twice.

use ratatui::text::Line;

use super::rows::Row;
use super::theme::Theme;
use crate::screens::state::msg::Msg;

/// What one or several rows say.
#[derive(Clone, Debug, PartialEq)]
pub struct Said {
    pub text: String,
    /// What choosing it means, where it can be chosen.
    pub msg: Option<Msg>,
    pub heading: bool,
    /// The cursor is on it.
    pub chosen: bool,
}

/// What has been said so far in a frame.
#[derive(Debug, Default)]
pub struct Record(Vec<Said>);

impl Record {
    /// Forgets all: something lies over it now.
    pub(crate) fn covered(&mut self) {
        self.0.clear();
    }

    pub(crate) fn heading(&mut self, text: &str) {
        self.0.push(Said {
            text: words(text),
            msg: None,
            heading: true,
            chosen: false,
        });
    }

    /// Rows that have been put on the canvas together. Those that go on belong to the row before, and so
    /// do those of one item.
    pub(crate) fn rows(&mut self, rows: &[Row], theme: Theme) {
        let first = self.0.len();
        let mut before: Option<&Row> = None;
        for row in rows.iter().filter(|row| !row.unsaid) {
            let text = words(&row.text());
            let goes_on =
                row.goes_on || before.is_some_and(|b| b.msg.is_some() && b.msg == row.msg);
            before = Some(row);
            match self.0[first..].last_mut().filter(|_| goes_on) {
                _ if text.is_empty() => {}
                Some(said) => {
                    said.text.push(' ');
                    said.text.push_str(&text);
                }
                None => self.0.push(Said {
                    text,
                    msg: row.msg,
                    heading: row.msg.is_none() && is_heading(&row.line, theme),
                    chosen: row.chosen,
                }),
            }
        }
    }

    pub(crate) fn into_all(self) -> Vec<Said> {
        self.0
    }
}

fn is_heading(line: &Line, theme: Theme) -> bool {
    matches!(line.spans.as_slice(), [all] if all.style == theme.heading)
}

/// A text without the signs pictures are made of, and with single spaces.
fn words(text: &str) -> String {
    let is_drawn =
        |c: char| matches!(c, '\u{2500}'..='\u{25ff}' | '\u{2800}'..='\u{28ff}' | '·' | '_');
    let kept = text.chars().map(|c| if is_drawn(c) { ' ' } else { c });
    let kept: String = kept.collect();
    kept.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::{Record, Said};
    use crate::screens::kit::rows::{Row, item, paragraph};
    use crate::screens::kit::theme::Theme;
    use crate::screens::state::msg::Msg;
    use ratatui::style::Style;

    fn said(rows: &[Row]) -> Vec<Said> {
        let mut record = Record::default();
        record.rows(rows, Theme::mono());
        record.into_all()
    }

    #[test]
    fn lines_of_one_sentence_and_of_one_item_are_one() {
        let mut rows = paragraph("What does the edge look like?", 12, Theme::mono().heading);
        rows.extend(
            item("1  ", "clouded and soft", 10, Style::new())
                .into_iter()
                .map(|r| r.click(Msg::Choose(0))),
        );
        rows.push(
            Row::new(" 2  sharp", Style::new())
                .click(Msg::Choose(1))
                .chosen(true),
        );
        let told: Vec<_> = said(&rows)
            .into_iter()
            .map(|s| (s.text, s.msg, s.heading, s.chosen))
            .collect();
        let line = |text: &str| text.to_owned();
        assert_eq!(
            told,
            [
                (line("What does the edge look like?"), None, true, false),
                (
                    line("1 clouded and soft"),
                    Some(Msg::Choose(0)),
                    false,
                    false
                ),
                (line("2 sharp"), Some(Msg::Choose(1)), false, true),
            ]
        );
    }

    #[test]
    fn pictures_say_nothing() {
        let plain = Style::new();
        let rows = [
            Row::new("blue ███··· 43 %", plain),
            Row::new("▁▂▅█▂ ⣿⠁", plain),
            Row::new("1750 1800", plain).unsaid(),
        ];
        let texts: Vec<_> = said(&rows).into_iter().map(|s| s.text).collect();
        assert_eq!(texts, ["blue 43 %"]);
    }
}
