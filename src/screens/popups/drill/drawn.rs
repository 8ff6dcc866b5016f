//! The picture of a finding, drawn once and shown at any size.

use ratatui::layout::Rect;

use crate::learn::item::Picture as Shown;
use crate::picture::{self, Picture};
use crate::piece::expert::Expert;
use crate::say::drill::DRAWN;
use crate::screens::kit::canvas::{Canvas, above};
use crate::screens::kit::picture::{COLOURS, in_colour, rows};
use crate::screens::kit::rows::{Row, paragraph};
use crate::screens::kit::theme::Theme;

/// A picture.
#[derive(Debug)]
pub(super) struct Drawn {
    picture: Picture,
    needs_colour: bool,
}

impl Drawn {
    /// Draws it; `None` where there is none.
    pub(super) fn of(expert: &Expert, shown: &Shown) -> Option<Drawn> {
        let clue = &expert.base.clue(shown.clue).id;
        let finding = &expert.base.finding(shown.clue, shown.finding).id;
        Some(Drawn {
            picture: picture::draw(clue, finding, shown.seed)?,
            needs_colour: picture::needs_colour(clue),
        })
    }

    /// Rows of at most this many; none where the theme could not show it.
    pub(super) fn rows(&self, theme: Theme, cells: usize, height: usize) -> Vec<Row> {
        match self.needs_colour && !in_colour(theme) {
            true => Vec::new(),
            false => rows(&self.picture, cells, height, theme),
        }
    }

    /// The whole area.
    pub(super) fn draw(&self, canvas: &mut Canvas, area: Rect) {
        let (theme, cells) = (canvas.theme, usize::from(area.width));
        let hidden = self.needs_colour && !in_colour(theme);
        let note = paragraph(if hidden { COLOURS } else { DRAWN }, cells, theme.quiet);
        let (top, foot) = above(area, area.height.saturating_sub(note.len() as u16));
        canvas.rows(top, &self.rows(theme, cells, usize::from(top.height)));
        canvas.rows(foot, &note);
    }
}
