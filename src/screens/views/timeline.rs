//! Pictures over the years: the curve of a probability, a band, a guess, and the findings with
//! their eras, all on one axis.

use ratatui::style::Style;
use ratatui::text::Span;

use crate::core::grid::{Grid, Year};
use crate::core::interval::Band;
use crate::core::observation::{Observation, Sure};
use crate::piece::Piece;
use crate::say::band;
use crate::say::names::clue_name;
use crate::say::observation::seen;
use crate::say::scales::percent;
use crate::screens::kit::columns::{chances, column, peaks};
use crate::screens::kit::rows::{Row, paragraph};
use crate::screens::kit::theme::Theme;
use crate::screens::kit::wrap::{fit, pad, width};
use crate::screens::state::msg::Msg;
use crate::screens::state::place::Screen;
use crate::screens::state::session::Session;

/// Eighths of a cell, from empty to full.
const EIGHTHS: [char; 9] = [' ', '▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'];

/// Shades for the eras, from nothing to full.
const SHADES: [char; 4] = [' ', '░', '▒', '▓'];

/// Steps of the axis, the finest that fits is used.
const STEPS: [i16; 4] = [20, 50, 100, 200];

/// Cells a year and the space after it need.
const YEAR_CELLS: usize = 6;

/// Band, middle year and rarity in one line; shorter where there is little room.
pub(crate) fn brief(piece: &Piece, cells: usize) -> String {
    let judgement = piece.judgement();
    let (band, rarity) = (judgement.band(), piece.rarity().score);
    let share = percent(band.share);
    let long = format!(
        "{} ({share} of the chance), middle year {}, rarity {rarity:.0} of 100",
        band::years(band.from, band.to),
        judgement.median.0
    );
    if width(&long) <= cells {
        long
    } else {
        format!(
            "{}–{} ({share}), middle {}, rarity {rarity:.0}",
            band.from.0, band.to.0, judgement.median.0
        )
    }
}

/// From this width on a label stands before its picture, else above it.
const BESIDE: usize = 60;

/// Rows of pictures that share an axis: a label in the gutter or in a row above, then the years.
pub(crate) struct Timeline<'a> {
    piece: &'a Piece,
    theme: Theme,
    /// Findings at odds with the rest are marked. Not while questions are asked: it would have all
    /// reasons worked out at every answer.
    marks_odd: bool,
    cells: usize,
    gutter: usize,
    /// Years of a guess, marked in every picture.
    guess: Option<(Year, Year)>,
}

impl<'a> Timeline<'a> {
    /// Pictures `cells` wide, labelled so that the labels can be read.
    pub(crate) fn new(session: &'a Session, theme: Theme, cells: usize) -> Timeline<'a> {
        match cells < BESIDE {
            true => Timeline::bare(session, theme, cells),
            false => Timeline::labelled(session, theme, cells),
        }
    }

    /// Pictures with a short label before each, however narrow.
    pub(crate) fn labelled(session: &'a Session, theme: Theme, cells: usize) -> Timeline<'a> {
        Timeline {
            piece: session.piece(),
            theme,
            marks_odd: session.screen() == Screen::Verdict,
            cells,
            gutter: (cells * 3 / 10).clamp(11, 40).min(cells / 2),
            guess: None,
        }
    }

    /// Pictures over the whole width.
    fn bare(session: &'a Session, theme: Theme, cells: usize) -> Timeline<'a> {
        Timeline {
            gutter: 0,
            ..Timeline::labelled(session, theme, cells)
        }
    }

    /// With the years of a guess laid over.
    pub(crate) fn with_guess(self, from: Year, to: Year) -> Timeline<'a> {
        Timeline {
            guess: Some((from, to)),
            ..self
        }
    }

    /// The verdict's curve in `height` rows, and its band.
    pub(crate) fn verdict(&self, height: usize) -> Vec<Row> {
        let judgement = self.piece.judgement();
        let mut out = self.curve("when made", &judgement.years, height);
        let label = format!("{} band", percent(judgement.band().share));
        out.push(self.band(&label, &judgement.band(), judgement.median));
        out
    }

    /// A probability over years in `height` rows.
    pub(crate) fn curve(&self, label: &str, years: &[f64], height: usize) -> Vec<Row> {
        let heights = chances(years, self.columns());
        let row = |row: usize| {
            let eighth = |h: &f64| {
                let eighths = h * 8.0 * height as f64 - 8.0 * row as f64;
                EIGHTHS[eighths.round().clamp(0.0, 8.0) as usize]
            };
            let text = heights.iter().map(eighth).collect();
            let row = self.picture(if row == 0 { label } else { "" }, text, self.theme.bar);
            row.unsaid()
        };
        (0..height).rev().map(row).collect()
    }

    /// A band and the middle year.
    pub(crate) fn band(&self, label: &str, band: &Band, middle: Year) -> Row {
        let (from, to) = (self.column(band.from), self.column(band.to));
        let middle = self.column(middle);
        let sign = |c: usize| match c {
            c if c == middle => '●',
            c if c == from => '├',
            c if c == to => '┤',
            c if from < c && c < to => '─',
            _ => ' ',
        };
        let text = (0..self.columns()).map(sign).collect();
        self.picture(label, text, self.theme.band).unsaid()
    }

    /// The years guessed, when there is a guess.
    pub(crate) fn guess(&self, label: &str) -> Vec<Row> {
        let Some((from, to)) = self.guess_columns() else {
            return Vec::new();
        };
        let sign = |c: usize| match c {
            _ if from == to && c == from => '◆',
            c if c == from => '╞',
            c if c == to => '╡',
            c if from < c && c < to => '═',
            _ => ' ',
        };
        let text = (0..self.columns()).map(sign).collect();
        self.titled(label, text, self.theme.caution)
    }

    /// The years along the foot.
    pub(crate) fn axis(&self) -> Row {
        let (grid, columns) = (self.grid(), self.columns());
        let step = STEPS
            .into_iter()
            .find(|step| columns * usize::from(step.unsigned_abs()) >= YEAR_CELLS * grid.years())
            .unwrap_or(STEPS[3]);
        let mut text = String::new();
        for offset in (0..grid.years()).filter(|o| grid.year(*o).0 % step == 0) {
            let at = column(offset, columns, grid.years());
            if at + 4 <= columns {
                text = pad(&text, at) + &grid.year(offset).0.to_string();
            }
        }
        let style = self.theme.quiet;
        Row::of(vec![self.label(""), Span::styled(text, style)]).unsaid()
    }

    /// The last findings, at most `most` rows, each with the years it speaks for.
    pub(crate) fn findings(&self, most: usize) -> Vec<Row> {
        let (piece, columns) = (self.piece, self.columns());
        // A label above its picture takes a row more.
        let most = if self.gutter == 0 { most / 2 } else { most };
        let entries = piece.evidence().observations();
        let mut out = Vec::new();
        let mut left = entries;
        if entries.len() > most && most > 0 {
            left = &entries[entries.len() - (most - 1)..];
            let text = format!("and {} earlier: v shows all", entries.len() - left.len());
            out.push(Row::new(&fit(&text, self.cells), self.theme.quiet).click(Msg::Verdict));
        }
        for entry in left.iter().take(most) {
            let era = piece.eras().iter().find(|(e, _)| e == entry);
            let shade = |h: &f64| SHADES[(h * 3.0).round().clamp(0.0, 3.0) as usize];
            let strip = match era {
                Some((_, era)) => peaks(era, columns).iter().map(shade).collect(),
                None => " ".repeat(columns),
            };
            let rows = self.titled(&self.named(entry), strip, self.theme.era);
            out.extend(rows.into_iter().map(|row| row.click(Msg::GoTo(entry.clue))));
        }
        out
    }

    fn grid(&self) -> &Grid {
        &self.piece.expert().engine().model.grid
    }

    fn columns(&self) -> usize {
        self.cells.saturating_sub(self.gutter).max(1)
    }

    fn column(&self, year: Year) -> usize {
        let grid = self.grid();
        let offset = grid.offset(year).unwrap_or(0);
        column(offset, self.columns(), grid.years())
    }

    fn guess_columns(&self) -> Option<(usize, usize)> {
        let (from, to) = self.guess?;
        Some((self.column(from), self.column(to)))
    }

    fn label(&self, label: &str) -> Span<'static> {
        let label = match self.gutter {
            0 => String::new(),
            _ => pad(label, self.gutter - 1) + " ",
        };
        Span::styled(label, self.theme.quiet)
    }

    /// A picture whose label can be read: before it, else in rows above it.
    fn titled(&self, label: &str, text: String, style: Style) -> Vec<Row> {
        let mut out = match self.gutter {
            0 => paragraph(label, self.cells, self.theme.instruction),
            _ => Vec::new(),
        };
        out.push(self.picture(label, text, style));
        out
    }

    /// A label and one sign a column. The years of a guess have a line at either end and their own
    /// style between.
    fn picture(&self, label: &str, text: String, style: Style) -> Row {
        let mut spans = vec![self.label(label)];
        match self.guess_columns() {
            None => spans.push(Span::styled(text, style)),
            Some((from, to)) => {
                let parts: [(usize, usize, Style); 3] = [
                    (0, from, style),
                    (from, to + 1, style.patch(self.theme.caution)),
                    (to + 1, usize::MAX, style),
                ];
                let signs: Vec<char> = text.chars().collect();
                for (start, end, style) in parts {
                    let here = signs.iter().enumerate().take(end).skip(start);
                    let text: String = here
                        .map(|(c, sign)| match sign {
                            ' ' if c == from || c == to => '┊',
                            sign => *sign,
                        })
                        .collect();
                    spans.push(Span::styled(text, style));
                }
            }
        }
        Row::of(spans)
    }

    /// A finding in short, with signs for doubt and for being at odds with the rest.
    fn named(&self, entry: &Observation) -> String {
        let expert = self.piece.expert();
        let at_odds = || self.piece.at_odds().iter();
        let odd = self.marks_odd && at_odds().any(|o| o.observation == *entry);
        let sign = if odd { "! " } else { "" };
        let doubt = match entry.sure {
            Sure::Sure => "",
            Sure::Unsure => "? ",
            Sure::Guess => "?? ",
        };
        let name = clue_name(expert, entry.clue);
        let finding = seen(expert, &entry.clone().sure(Sure::Sure));
        format!("{sign}{doubt}{name}: {finding}")
    }
}
