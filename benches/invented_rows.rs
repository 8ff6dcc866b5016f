//! Invented tables for `lot`: a column for each clue, twelve findings a row.

use printseam::internals::core::grid::{ClueId, FindingId, Year};
use printseam::internals::core::observation::{Evidence, Observation};
use printseam::internals::core::seeded::Seeded;
use printseam::internals::learn::hidden::{Eyes, Hidden};
use printseam::internals::piece::expert::Expert;
use printseam::internals::piece::notation::finding_id;

/// Findings a row.
const FINDINGS: usize = 12;

/// Where the findings of a row come from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rows {
    /// Drawn from the rules' own joint as a careful beginner would read them, twelve clues at random: what a
    /// house clearance is like.
    Drawn,
    /// Twelve clues and a finding of each, all alike likely: every row contradicts itself.
    Random,
}

/// What is told of row `n`.
pub fn evidence(expert: &Expert, rows: Rows, n: u64) -> Evidence {
    let model = &expert.engine().model;
    let mut stream = Seeded::part(20_261_126, n);
    let mut order: Vec<ClueId> = model.clue_ids().collect();
    stream.shuffle(&mut order);
    if rows == Rows::Drawn {
        let prior = &expert.engine().priors[0];
        let piece = Hidden::draw(model, prior, stream.number(), Eyes::Slipping);
        return piece.map_or(Evidence::new(), |p| p.seen(model, &order, FINDINGS));
    }
    let finding = |clue: ClueId| match expert.base.clue(clue).dated {
        Some(_) => Observation::year(clue, Year(1780 + stream.below(240) as i16)),
        None => {
            let findings = expert.base.clue(clue).findings.len();
            Observation::finding(clue, FindingId(stream.below(findings) as u16))
        }
    };
    order.into_iter().take(FINDINGS).map(finding).collect()
}

/// A table of rows `from..to`, with its first line; `asking` adds what is asked for each.
pub fn table(expert: &Expert, rows: Rows, (from, to): (u64, u64), asking: bool) -> String {
    let mut out = String::new();
    line(
        &mut out,
        expert,
        asking,
        |clue| expert.base.clue(clue).id.clone(),
        "asking",
    );
    for n in from..to {
        let evidence = evidence(expert, rows, n);
        let cell = |clue| {
            let said = evidence.of(clue);
            said.map_or(String::new(), |o| finding_id(&expert.base, o))
        };
        line(
            &mut out,
            expert,
            asking,
            cell,
            &(1 + n * 7 % 60).to_string(),
        );
    }
    out
}

fn line(
    out: &mut String,
    expert: &Expert,
    asking: bool,
    cell: impl Fn(ClueId) -> String,
    asked: &str,
) {
    let cells = expert.engine().model.clue_ids().map(cell);
    let asked = asking.then(|| asked.to_owned());
    let cells: Vec<String> = cells.chain(asked).collect();
    out.push_str(&cells.join(","));
    out.push('\n');
}
