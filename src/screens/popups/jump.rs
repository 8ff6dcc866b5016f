//! Any clue, by station, found by typing.

use ratatui::style::Style;
use ratatui::text::Span;

use crate::core::grid::ClueId;
use crate::core::model::{Gate, Station};
use crate::hearing::search::Search;
use crate::say::reasons::{capital, clue_name, seen};
use crate::screens::app::App;
use crate::screens::canvas::Row;
use crate::screens::msg::Msg;
use crate::screens::wrap::fit;

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

/// Clues in which every word typed occurs, by station: first those that have them in their name
/// or question, then those that have them in a finding or in a spoken form of one.
pub fn found(app: &App, search: &str) -> Vec<ClueId> {
    let search = Search::new(search);
    let base = &app.expert().base;
    let (mut named, mut others) = (Vec::new(), Vec::new());
    for (station, name) in STATIONS {
        for id in app.expert().engine.model.clue_ids() {
            let clue = base.clue(id);
            if clue.station != station {
                continue;
            }
            let heading = [name, &clue.id, &clue.question];
            let findings = clue.findings.iter().flat_map(|finding| {
                let spoken = finding.spoken.iter().map(String::as_str);
                spoken.chain([finding.words.as_str()])
            });
            if search.fits(heading) {
                named.push(id);
            } else if search.fits(heading.into_iter().chain(findings)) {
                others.push(id);
            }
        }
    }
    named.extend(others);
    named
}

/// The list under the stations' names, with what was said of each clue.
pub fn rows(app: &App, search: &str, cursor: usize, cells: usize) -> Vec<Row> {
    let (expert, theme) = (app.expert(), app.theme);
    let evidence = app.piece().evidence();
    let mut out = Vec::new();
    let mut station = None;
    for (i, id) in found(app, search).into_iter().enumerate() {
        let clue = expert.base.clue(id);
        if station != Some(clue.station) {
            station = Some(clue.station);
            let name = capital(station_name(clue.station));
            out.push(Row::new(&name, theme.heading));
        }
        let name = clue_name(expert, id);
        let (sign, text, style) = match evidence.of(id) {
            Some(entry) => (
                "✓ ",
                format!("{name}: {}", seen(expert, entry)),
                Style::new(),
            ),
            None if expert.engine.model.gate(id, evidence) == Gate::Closed => {
                ("– ", format!("{name}: does not apply"), theme.quiet)
            }
            None => ("  ", format!("{name}: {}", clue.question), Style::new()),
        };
        let row = Row::of(vec![
            Span::styled(sign, theme.band),
            Span::styled(fit(&text, cells.saturating_sub(3)), style),
        ]);
        out.push(row.click(Msg::Choose(i)).chosen(i == cursor));
    }
    if out.is_empty() {
        out.push(Row::new("No clue has these words.", theme.quiet));
    }
    out
}
