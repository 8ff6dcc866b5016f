//! Any clue, by station, found by typing.

use ratatui::text::Span;

use super::app::App;
use super::canvas::Row;
use super::msg::Msg;
use super::wrap::{fit, pad};
use crate::core::axes::ClueId;
use crate::core::model::Station;
use crate::words::reasons::seen;

/// Stations in the order a hand would follow.
const STATIONS: [(Station, &str); 6] = [
    (Station::Front, "front"),
    (Station::Shape, "shape"),
    (Station::Back, "back"),
    (Station::Mark, "mark"),
    (Station::Glaze, "glaze"),
    (Station::Loupe, "loupe"),
];

/// What a station is called.
pub fn station_name(station: Station) -> &'static str {
    let found = STATIONS.iter().find(|(s, _)| *s == station);
    found.map_or("", |(_, name)| name)
}

/// Clues whose id, question or station holds what was typed, by station.
pub fn found(app: &App, search: &str) -> Vec<ClueId> {
    let wanted = search.trim().to_lowercase();
    let base = &app.expert().base;
    let mut out = Vec::new();
    for (station, name) in STATIONS {
        for id in app.expert().engine.model.clue_ids() {
            let clue = base.clue(id);
            let text =
                format!("{} {} {name}", clue.id.replace('-', " "), clue.question).to_lowercase();
            if clue.station == station && (text.contains(&wanted) || clue.id.contains(&wanted)) {
                out.push(id);
            }
        }
    }
    out
}

/// The list, with what was said of each clue.
pub fn rows(app: &App, search: &str, cursor: usize, cells: usize) -> Vec<Row> {
    let expert = app.expert();
    found(app, search)
        .into_iter()
        .enumerate()
        .map(|(i, id)| {
            let clue = expert.base.clue(id);
            let said = app.case().evidence().of(id);
            let text = match said {
                Some(entry) => format!("{}: ✓ {}", clue.id.replace('-', " "), seen(expert, entry)),
                None => format!("{}: {}", clue.id.replace('-', " "), clue.question),
            };
            Row::of(vec![
                Span::styled(pad(station_name(clue.station), 6), app.theme.quiet),
                Span::raw(fit(&text, cells.saturating_sub(7))),
            ])
            .click(Msg::Choose(i))
            .chosen(i == cursor)
        })
        .collect()
}
