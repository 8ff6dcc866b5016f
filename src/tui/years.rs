//! The year curve, the band under it, and the findings with their eras under that.

use ratatui::text::Span;

use super::app::{App, Screen};
use super::canvas::Row;
use super::msg::Msg;
use super::wrap::{fit, pad};
use crate::core::evidence::{Entry, Seen, Sure};
use crate::words::reasons::clue_name;
use crate::words::scales::percent;
use crate::words::summary;

/// Eighths of a cell, from empty to full.
const EIGHTHS: [char; 9] = [' ', '▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'];

/// Shades for the eras, from nothing to full.
const SHADES: [char; 4] = [' ', '░', '▒', '▓'];

/// Steps of the axis, the finest that fits is used.
const STEPS: [i16; 4] = [20, 50, 100, 200];

/// Cells a year and the space after it need.
const YEAR_CELLS: usize = 6;

/// Cells before the curve, for what each row is about.
pub fn gutter(cells: usize) -> usize {
    (cells * 3 / 10).clamp(11, 40).min(cells / 2)
}

/// Band, middle year and rarity in one line; shorter where there is little room.
pub fn brief(app: &App, cells: usize) -> String {
    let verdict = app.case().verdict();
    let (band, rarity) = (verdict.band(), verdict.rarity.score);
    let share = percent(band.share);
    let long = format!(
        "{} ({share} of the chance), middle year {}, rarity {rarity:.0} of 100",
        summary::years(&band),
        verdict.median.0
    );
    if super::wrap::width(&long) <= cells {
        long
    } else {
        format!(
            "{}–{} ({share}), middle {}, rarity {rarity:.0}",
            band.from.0, band.to.0, verdict.median.0
        )
    }
}

/// A curve of `height` rows and the band under it.
pub fn curve(app: &App, cells: usize, gutter: usize, height: usize) -> Vec<Row> {
    let columns = cells.saturating_sub(gutter).max(1);
    let heights = chances(&app.case().verdict().years, columns);
    let mut out: Vec<Row> = (0..height)
        .rev()
        .map(|row| {
            let text: String = heights
                .iter()
                .map(|h| {
                    let eighths = h * 8.0 * height as f64 - 8.0 * row as f64;
                    EIGHTHS[eighths.round().clamp(0.0, 8.0) as usize]
                })
                .collect();
            let label = if row == 0 { "when made" } else { "" };
            labelled(app, label, gutter, Span::styled(text, app.theme.bar))
        })
        .collect();
    out.push(band(app, columns, gutter));
    out
}

/// The years along the foot of the curve.
pub fn axis(app: &App, cells: usize, gutter: usize) -> Row {
    let axes = &app.expert().engine.model.axes;
    let columns = cells.saturating_sub(gutter).max(1);
    let step = STEPS
        .into_iter()
        .find(|step| columns * usize::from(step.unsigned_abs()) >= YEAR_CELLS * axes.years())
        .unwrap_or(STEPS[3]);
    let mut text = String::new();
    for offset in (0..axes.years()).filter(|o| axes.year(*o).0 % step == 0) {
        let at = column(offset, columns, axes.years());
        if at + 4 <= columns {
            text = pad(&text, at) + &axes.year(offset).0.to_string();
        }
    }
    labelled(app, "", gutter, Span::styled(text, app.theme.quiet))
}

/// The last findings, at most `most` rows, each with the years it speaks for.
pub fn eras(app: &App, cells: usize, gutter: usize, most: usize) -> Vec<Row> {
    let columns = cells.saturating_sub(gutter).max(1);
    let entries = app.case().evidence().entries();
    let mut out = Vec::new();
    let mut left = entries;
    if entries.len() > most && most > 0 {
        left = &entries[entries.len() - (most - 1)..];
        let text = format!("and {} earlier: v shows all", entries.len() - left.len());
        out.push(Row::new(&fit(&text, cells), app.theme.quiet).click(Msg::Verdict));
    }
    for entry in left.iter().take(most) {
        let era = app.eras.iter().find(|(e, _)| e == entry);
        let strip: String = era.map_or(String::new(), |(_, era)| {
            peaks(era, columns)
                .iter()
                .map(|h| SHADES[(h * 3.0).round().clamp(0.0, 3.0) as usize])
                .collect()
        });
        let strip = Span::styled(strip, app.theme.era);
        let label = label(app, entry);
        out.push(labelled(app, &label, gutter, strip).click(Msg::GoTo(entry.clue)));
    }
    out
}

/// What was said, in short; on the verdict `!` before what is at odds with the rest. Not while
/// questions are asked: it would have all reasons worked out at every answer.
fn label(app: &App, entry: &Entry) -> String {
    let odd = app.screen() == Screen::Verdict
        && app
            .case()
            .verdict()
            .explanation
            .at_odds
            .iter()
            .any(|o| o.entry == *entry);
    let sign = if odd { "! " } else { "" };
    let said = match entry.seen {
        Seen::Finding(f) => app.expert().base.finding(entry.clue, f).words.clone(),
        Seen::Year(y) => y.0.to_string(),
        Seen::CantTell => "can't tell".to_owned(),
    };
    let doubt = match entry.sure {
        Sure::Sure => "",
        Sure::Unsure => "? ",
        Sure::Guess => "?? ",
    };
    format!(
        "{sign}{doubt}{}: {said}",
        clue_name(app.expert(), entry.clue)
    )
}

fn labelled(app: &App, label: &str, gutter: usize, picture: Span<'static>) -> Row {
    let label = match gutter {
        0 => String::new(),
        _ => pad(label, gutter - 1) + " ",
    };
    Row::of(vec![Span::styled(label, app.theme.quiet), picture])
}

/// Which column a year offset falls in.
fn column(offset: usize, columns: usize, years: usize) -> usize {
    offset * columns / years
}

/// Mean chance of a year in each column, scaled so that the highest column is 1. The mean, because
/// columns do not all hold the same number of years, and a sum would draw peaks that are not there.
fn chances(years: &[f64], columns: usize) -> Vec<f64> {
    let mut out = vec![(0.0, 0u32); columns];
    for (offset, p) in years.iter().enumerate() {
        let (sum, n) = &mut out[column(offset, columns, years.len())];
        *sum += p;
        *n += 1;
    }
    let mut last = 0.0;
    let means: Vec<f64> = out
        .into_iter()
        .map(|(sum, n)| {
            // A window wider than the years repeats the year before.
            if n > 0 {
                last = sum / f64::from(n);
            }
            last
        })
        .collect();
    let top = means.iter().copied().fold(f64::MIN_POSITIVE, f64::max);
    means.iter().map(|x| x / top).collect()
}

/// Highest year of each column: an era that lasts a single year is still seen.
fn peaks(heights: &[f64], columns: usize) -> Vec<f64> {
    let mut out = vec![None; columns];
    for (offset, h) in heights.iter().enumerate() {
        let most: &mut Option<f64> = &mut out[column(offset, columns, heights.len())];
        *most = Some(most.map_or(*h, |m| m.max(*h)));
    }
    let mut last = 0.0;
    out.into_iter()
        .map(|h| {
            last = h.unwrap_or(last);
            last
        })
        .collect()
}

/// The band and the middle year.
fn band(app: &App, columns: usize, gutter: usize) -> Row {
    let verdict = app.case().verdict();
    let axes = &app.expert().engine.model.axes;
    let at = |year| column(axes.offset(year).unwrap_or(0), columns, axes.years());
    let (from, to) = (at(verdict.band().from), at(verdict.band().to));
    let middle = at(verdict.median);
    let text: String = (0..columns)
        .map(|c| match c {
            c if c == middle => '●',
            c if c == from => '├',
            c if c == to => '┤',
            c if from < c && c < to => '─',
            _ => ' ',
        })
        .collect();
    let label = format!("{} band", percent(verdict.band().share));
    labelled(app, &label, gutter, Span::styled(text, app.theme.band))
}

#[cfg(test)]
mod tests {
    use super::{chances, peaks};

    #[test]
    fn even_years_make_a_flat_curve_at_any_width() {
        for columns in 1..400 {
            for h in chances(&[1.0 / 277.0; 277], columns) {
                assert!((h - 1.0).abs() < 1e-9, "{columns}");
            }
        }
    }

    #[test]
    fn a_single_year_is_seen_at_any_width() {
        let mut years = [0.0; 277];
        years[92] = 1.0;
        for columns in 1..400 {
            assert!(peaks(&years, columns).contains(&1.0), "{columns}");
        }
    }
}
