//! What becomes of each thing heard: counted as it stands, as unsure, turned round by a denial, or
//! heard and not counted.

use std::collections::BTreeMap;
use std::ops::Range;

use super::belongs::{colour_only, near, of_colour};
use super::hearings::{Denied, Group, Heard, Meaning, Named, NotCounted, Notes, Spoken, WhyNot};
use super::phrases::Line;
use super::sizes::measures;
use crate::core::grid::{ClueId, FindingId};
use crate::core::observation::{Observation, Observed, Sure, Weights};

/// Goes through all groups and kinds of a line.
pub(super) fn judge(
    spoken: &Spoken,
    line: &Line,
    groups: &[Group],
    kinds: &[Named],
    notes: &mut Notes,
) {
    let things = things(line, groups);
    let spoken_of = spoken_of(line, groups);
    let mut places: Vec<Range<usize>> = groups.iter().map(|g| g.words.clone()).collect();
    places.extend(kinds.iter().map(|k| k.words.clone()));
    places.sort_by_key(|r| (r.start, r.end));
    places.dedup();
    let denied = reached(line, &places, &line.denials, true);
    let hedged = reached(line, &places, &line.hedges, false);
    let parts = two_parts(line, groups, &things);
    let mut said: Vec<(Range<usize>, Observation)> = Vec::new();
    for group in groups {
        let not = |why| {
            let words = with_denial(line, &denied, &places, &group.words);
            NotCounted {
                text: line.cut(&words),
                span: line.span(&words),
                why,
            }
        };
        if line
            .cant_tell
            .iter()
            .any(|c| line.together(c.start, group.words.start))
        {
            notes.not_counted.push(not(WhyNot::CantTell));
            continue;
        }
        let is_denied = denied.contains(&group.words);
        let excepted = |e: &Range<usize>| e.start == group.words.end;
        if is_denied && line.exceptions.iter().any(excepted) {
            notes.not_counted.push(not(WhyNot::Except));
            continue;
        }
        let sure = if hedged.contains(&group.words) {
            Sure::Unsure
        } else {
            Sure::Sure
        };
        let sure = sure.max(group.sure);
        if let Some(says) = parts.get(&(group.words.start, group.words.end)) {
            for (clue, finding) in says {
                said.push((
                    group.words.clone(),
                    Observation::finding(*clue, *finding).sure(sure),
                ));
            }
            continue;
        }
        if let Some(thing) = elsewhere(line, group, &things, &spoken_of) {
            let of = &line.ear.things[thing];
            let colour = colour_only(line, &group.words);
            let says = if colour {
                colour_of(line, group, thing)
            } else {
                None
            };
            match says.filter(|_| !is_denied) {
                Some((clue, finding)) => {
                    let seen = Observation::finding(clue, finding).sure(sure);
                    said.push((group.words.clone(), seen));
                }
                None => notes.not_counted.push(not(WhyNot::Of(of.name.clone()))),
            }
            continue;
        }
        let mut by_clue: BTreeMap<ClueId, Vec<(Observed, Denied, Sure)>> = BTreeMap::new();
        let mut reason = None;
        for meaning in &group.meanings {
            match meaning {
                Meaning::Finding {
                    clue,
                    seen,
                    denied,
                    sure,
                    ..
                } => {
                    by_clue
                        .entry(*clue)
                        .or_default()
                        .push((seen.clone(), *denied, *sure));
                }
                Meaning::NotCounted(i) => reason = Some(line.ear.not_counted[*i].0.clone()),
                Meaning::Kind(_) => {}
            }
        }
        let mut counted = false;
        for (clue, all) in by_clue {
            let own = all.iter().map(|(_, _, s)| *s).max().unwrap_or_default();
            if let Some(seen) = combined(spoken, clue, &all, is_denied) {
                counted = true;
                let seen = Observation::new(clue, seen).sure(sure.max(own));
                said.push((group.words.clone(), seen));
            }
        }
        if !counted {
            notes.not_counted.push(not(match reason {
                Some(reason) => WhyNot::NoClue(reason),
                None => WhyNot::Denied,
            }));
        }
    }
    alternatives(spoken, line, &mut said);
    for (words, observation) in said {
        let words = with_denial(line, &denied, &places, &words);
        notes.heard.push(Heard {
            text: line.cut(&words),
            span: line.span(&words),
            observation,
        });
    }
}

/// The words of something heard, from the denial on when it is what the denial speaks of first.
fn with_denial(
    line: &Line,
    denied: &[Range<usize>],
    places: &[Range<usize>],
    words: &Range<usize>,
) -> Range<usize> {
    let said_not = denied.iter().any(|d| d.start == words.start);
    let denial = line.denials.iter().rfind(|d| d.end <= words.start);
    let Some(denial) = denial.filter(|_| said_not) else {
        return words.clone();
    };
    let between = |p: &Range<usize>| denial.end <= p.start && p.start < words.start;
    match places.iter().any(between) {
        true => words.clone(),
        false => denial.start..words.end,
    }
}

/// Marks the kinds that are denied.
pub(super) fn deny(line: &Line, groups: &[Group], kinds: &mut [Named]) {
    let mut places: Vec<Range<usize>> = groups.iter().map(|g| g.words.clone()).collect();
    places.extend(kinds.iter().map(|k| k.words.clone()));
    places.sort_by_key(|r| (r.start, r.end));
    let denied = reached(line, &places, &line.denials, true);
    for kind in kinds {
        kind.denied = denied.contains(&kind.words);
    }
}

/// One observation of what is said of one clue in the same words.
fn combined(
    spoken: &Spoken,
    clue: ClueId,
    all: &[(Observed, Denied, Sure)],
    is_denied: bool,
) -> Option<Observed> {
    let count = spoken.counts.get(usize::from(clue.0)).copied().unwrap_or(0);
    let of = |wanted: &[Denied]| -> Vec<FindingId> {
        let all = all.iter().filter(|(_, d, _)| wanted.contains(d));
        let mut out: Vec<FindingId> = all.filter_map(|(seen, ..)| seen.finding()).collect();
        out.sort_by_key(|f| f.0);
        out.dedup();
        out
    };
    let any = |findings: &[FindingId]| match findings {
        [] => None,
        [one] => Some(Observed::Finding(*one)),
        several => Weights::any_of(several, count).map(Observed::Soft),
    };
    if !is_denied {
        let year = all
            .iter()
            .find(|(seen, ..)| matches!(seen, Observed::Year(_)));
        return year
            .map(|(seen, ..)| seen.clone())
            .or_else(|| any(&of(&[Denied::Not])));
    }
    let given = of(&[Denied::Gives]);
    if !given.is_empty() {
        return any(&given);
    }
    let ruled_out = of(&[Denied::Not, Denied::RulesOut]);
    if ruled_out.is_empty() {
        return None;
    }
    Weights::none_of(&ruled_out, count).map(Observed::Soft)
}

/// "Blue or black": either.
fn alternatives(spoken: &Spoken, line: &Line, said: &mut Vec<(Range<usize>, Observation)>) {
    let mut i = 0;
    while i + 1 < said.len() {
        let (first, a) = &said[i];
        let clue = a.clue;
        let next = said[i + 1..].iter().position(|(words, b)| {
            b.clue == clue && first.end < words.start && line.joins(first.end..words.start)
        });
        let Some(next) = next.map(|n| n + i + 1) else {
            i += 1;
            continue;
        };
        let (second, b) = said[next].clone();
        let weights = |seen: &Observed| match seen {
            Observed::Finding(f) => Some(vec![*f]),
            Observed::Soft(w) => {
                let open = (0u8..).zip(w.by_finding()).filter(|(_, w)| **w > 0.0);
                Some(open.map(|(f, _)| FindingId(f.into())).collect())
            }
            _ => None,
        };
        let count = spoken.counts.get(usize::from(clue.0)).copied().unwrap_or(0);
        let both = weights(&said[i].1.seen)
            .zip(weights(&b.seen))
            .and_then(|(mut x, y)| {
                x.extend(y);
                Weights::any_of(&x, count)
            });
        let Some(both) = both else {
            i += 1;
            continue;
        };
        let open: Vec<&f64> = both.by_finding().iter().filter(|w| **w > 0.0).collect();
        if open.len() > 1 {
            // The "or" is the doubt already.
            said[i].1 = Observation::new(clue, Observed::Soft(both));
        }
        said[i].0 = said[i].0.start..second.end;
        said.remove(next);
    }
}

/// The places that denials or hedges speak of: the first after each and what is joined to it by
/// "or"; a hedge at the end speaks of what stands before it.
fn reached(
    line: &Line,
    places: &[Range<usize>],
    speakers: &[Range<usize>],
    denials: bool,
) -> Vec<Range<usize>> {
    let mut out = Vec::new();
    for speaker in speakers {
        let scope = match denials {
            true => line.scope(speaker),
            false => speaker.end..line.end(speaker.start),
        };
        let in_scope = |r: &&Range<usize>| scope.contains(&r.start);
        let mut last: Option<Range<usize>> = None;
        for place in places.iter().filter(in_scope) {
            let next = last
                .as_ref()
                .is_none_or(|l| place.start < l.end || line.joins(l.end..place.start));
            if !next {
                break;
            }
            out.push(place.clone());
            last = Some(place.clone());
        }
        if last.is_none() && !denials {
            let alone = line.start(speaker.start) == speaker.start;
            let before = places.iter().rfind(|r| r.end <= speaker.start);
            out.extend(
                before
                    .filter(|r| alone || line.together(r.start, speaker.start))
                    .cloned(),
            );
        }
    }
    out
}

/// Things named, and findings that are a thing.
fn things(line: &Line, groups: &[Group]) -> Vec<(Range<usize>, usize)> {
    let mut out: Vec<(Range<usize>, usize)> = Vec::new();
    for group in groups.iter().filter(|g| !colour_only(line, &g.words)) {
        let of = |m: &Meaning| match m {
            Meaning::Finding { clue, .. } => {
                line.ear.things.iter().position(|t| t.clues.contains(clue))
            }
            Meaning::NotCounted(_) | Meaning::Kind(_) => None,
        };
        if let Some(thing) = group.meanings.iter().find_map(of) {
            out.push((group.words.clone(), thing));
        }
    }
    for (words, thing) in &line.things {
        if out
            .iter()
            .all(|(r, _)| r.end <= words.start || words.end <= r.start)
        {
            out.push((words.clone(), *thing));
        }
    }
    out.sort_by_key(|(r, _)| r.start);
    out
}

/// Things named by their own word: in "clouded edges" the edge is that of the colour, not of the plate.
fn spoken_of(line: &Line, groups: &[Group]) -> Vec<(Range<usize>, usize)> {
    let otherwise = |words: &Range<usize>, thing: usize| {
        let clues = &line.ear.things[thing].clues;
        let mut within = groups.iter().filter(|g| {
            g.words.len() > words.len() && g.words.start <= words.start && words.end <= g.words.end
        });
        within.any(|g| {
            g.meanings.iter().all(|m| match m {
                Meaning::Finding { clue, .. } => !clues.contains(clue),
                Meaning::NotCounted(_) | Meaning::Kind(_) => false,
            })
        })
    };
    let all = line.things.iter().cloned();
    all.filter(|(words, thing)| !otherwise(words, *thing))
        .collect()
}

/// The other thing that a colour or picture is of; the first thing listed is the print itself.
fn elsewhere(
    line: &Line,
    group: &Group,
    things: &[(Range<usize>, usize)],
    spoken_of: &[(Range<usize>, usize)],
) -> Option<usize> {
    let of = |clues: &[ClueId]| {
        group.meanings.iter().any(|m| match m {
            Meaning::Finding {
                clue, about: None, ..
            } => clues.contains(clue),
            _ => false,
        })
    };
    let thing = if colour_only(line, &group.words) && of(&line.ear.colour_clues) {
        let thing = of_colour(line, &group.words, things);
        // The name of a ware is no word for its clay: in "mulberry ironstone" the print is mulberry,
        // unless the clay itself can have that colour.
        let literal = of_colour(line, &group.words, &line.things) == thing;
        let cannot = |t: usize| {
            !line.ear.things[t].colours.is_empty() && colour_of(line, group, t).is_none()
        };
        thing.filter(|t| literal || !cannot(*t))
    } else if of(&line.ear.picture_clues) {
        let takes = |t: usize| {
            line.ear.things[t]
                .clues
                .iter()
                .any(|c| !line.ear.picture_clues.contains(c))
        };
        near(line, &group.words, spoken_of, takes)
    } else {
        None
    };
    thing.filter(|t| *t != 0)
}

fn colour_of(line: &Line, group: &Group, thing: usize) -> Option<(ClueId, FindingId)> {
    let colours = &line.ear.things[thing].colours;
    let says = |words: &std::collections::BTreeSet<String>| {
        words.is_empty() || group.words.clone().any(|i| words.contains(&line.folded[i]))
    };
    colours
        .iter()
        .find(|(words, _)| says(words))
        .map(|(_, says)| *says)
}

/// Two things of different colours that say something together, by the words of the colours.
fn two_parts(
    line: &Line,
    groups: &[Group],
    things: &[(Range<usize>, usize)],
) -> BTreeMap<(usize, usize), Vec<(ClueId, FindingId)>> {
    let mut of: BTreeMap<usize, Vec<&Group>> = BTreeMap::new();
    for group in groups.iter().filter(|g| colour_only(line, &g.words)) {
        if let Some(thing) = of_colour(line, &group.words, things) {
            of.entry(thing).or_default().push(group);
        }
    }
    let mut out = BTreeMap::new();
    for (a, b, says) in &line.ear.two_parts {
        if let (Some(first), Some(second)) = (of.get(a), of.get(b))
            && line.cut(&first[0].words) != line.cut(&second[0].words)
        {
            for group in first.iter().chain(second) {
                out.insert((group.words.start, group.words.end), says.clone());
            }
        }
    }
    out
}

/// What measures say of the forms beside them; gives back the words of all measures.
pub(super) fn measured(
    spoken: &Spoken,
    line: &Line,
    groups: &[Group],
    notes: &mut Notes,
) -> Vec<Range<usize>> {
    let all = measures(line);
    for (words, mm) in &all {
        let may_be = |(clue, finding): &(ClueId, FindingId)| {
            groups.iter().any(|g| {
                g.meanings.iter().any(|m| {
                    matches!(m, Meaning::Finding { clue: c, seen: Observed::Finding(f), .. }
                        if c == clue && f == finding)
                })
            })
        };
        let fits = |s: &&super::ear_words::Size| *mm > s.over && s.of.iter().all(may_be);
        let sizes = line.ear.sizes.iter().filter(fits);
        let best = sizes.max_by(|a, b| a.over.total_cmp(&b.over));
        let (text, span) = (line.cut(words), line.span(words));
        match best.filter(|s| usize::from(s.says.0.0) < spoken.counts.len()) {
            Some(size) => {
                let sure = notes
                    .heard
                    .iter()
                    .find(|h| size.of.iter().any(|(c, _)| *c == h.observation.clue));
                let sure = sure.map_or(Sure::Sure, |h| h.observation.sure);
                let observation = Observation::finding(size.says.0, size.says.1).sure(sure);
                notes.heard.push(Heard {
                    text,
                    span,
                    observation,
                });
            }
            None => notes.not_counted.push(NotCounted {
                text,
                span,
                why: WhyNot::NoClue("a measure that no clue asks for here".to_owned()),
            }),
        }
    }
    all.into_iter().map(|(words, _)| words).collect()
}
