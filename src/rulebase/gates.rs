//! Gates: which findings of which clues open a clue, and that no clues wait for one another.

use super::base::RuleBase;
use super::ids::{ClueId, Id};
use super::problem::Check;
use super::resolve::Resolver;
use super::schema::{Names, Text};
use super::source::SourceFile;
use crate::core::model::Clause;

/// The gate of a clue as written.
pub(super) struct Waiting<'a> {
    pub file: &'a SourceFile,
    /// (clue, its findings that open the gate)
    pub clauses: Vec<(Text<'a>, Names<'a>)>,
}

/// Resolves the gates of all clues, one for each, in order.
pub(super) fn gates(r: &mut Resolver, base: &mut RuleBase, waiting: Vec<Waiting>) {
    // For each clue the clues it waits for, with the place that says so.
    let mut waits: Vec<Vec<(usize, &SourceFile, &str)>> = Vec::with_capacity(waiting.len());
    for (at, gate) in waiting.into_iter().enumerate() {
        let mut clauses = Vec::new();
        let mut named = Vec::new();
        for (clue, names) in gate.clauses {
            let Some(other) = r.lookup::<ClueId>(gate.file, &clue) else {
                continue;
            };
            if names.is_empty() {
                let message = format!("no finding of '{}' opens this gate", clue.value);
                let help = "name the findings that do";
                r.problem(gate.file, clue.src, Check::EmptyGate, message, help);
            }
            let known = base.clue(other).finding_ids();
            let any_of = names
                .iter()
                .filter_map(|name| r.finding(gate.file, name, known.clone()))
                .collect();
            clauses.push(Clause {
                clue: other,
                any_of,
            });
            named.push((other.index(), gate.file, clue.src));
        }
        base.clues[at].gate = clauses;
        waits.push(named);
    }
    circles(r, base, &waits);
}

/// Notes each circle of gates where it closes: its clues would never be asked.
///
/// A walk in depth, with a list of its own in place of recursion: chains may be long.
fn circles(r: &mut Resolver, base: &RuleBase, waits: &[Vec<(usize, &SourceFile, &str)>]) {
    #[derive(Clone, Copy, PartialEq)]
    enum Walked {
        Not,
        OnTheWay,
        Done,
    }
    let mut walked = vec![Walked::Not; waits.len()];
    for start in 0..waits.len() {
        // Clues on the way from `start`, each with how many of its gates have been followed.
        let mut way: Vec<(usize, usize)> = Vec::new();
        if walked[start] == Walked::Not {
            walked[start] = Walked::OnTheWay;
            way.push((start, 0));
        }
        while let Some((clue, followed)) = way.last_mut() {
            let Some(&(next, file, at)) = waits[*clue].get(*followed) else {
                walked[*clue] = Walked::Done;
                way.pop();
                continue;
            };
            *followed += 1;
            match walked[next] {
                Walked::Done => {}
                Walked::Not => {
                    walked[next] = Walked::OnTheWay;
                    way.push((next, 0));
                }
                Walked::OnTheWay => {
                    let on_way = way.iter().map(|(clue, _)| *clue);
                    let ids = on_way.skip_while(|clue| *clue != next);
                    let ids: Vec<&str> = ids.map(|c| base.clues[c].id.as_str()).collect();
                    let help = "clues that wait for one another are never asked: drop a gate";
                    r.problem(file, at, Check::GateCircle, circle(&ids), help);
                }
            }
        }
    }
}

/// "'a' waits for 'b', which waits for 'a'".
fn circle(ids: &[&str]) -> String {
    match ids {
        [] => String::new(),
        [alone] => format!("'{alone}' waits for itself"),
        [first, rest @ ..] => {
            let between: Vec<String> = rest
                .iter()
                .map(|id| format!("'{id}', which waits for "))
                .collect();
            format!("'{first}' waits for {}'{first}'", between.concat())
        }
    }
}
