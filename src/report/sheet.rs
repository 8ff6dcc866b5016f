//! Everything a takeaway report says, in the order it says it. Markdown and HTML lay it out.

use serde::Serialize;

use super::linked::{Linked, Linker, TermLine};
use super::{challenge as guess, svg};
use crate::claim::Challenge;
use crate::hearing::opinion::Opinion;
use crate::piece::Piece;
use crate::rulebase::ids::Id;
use crate::say::account::{self, COUNTS};
use crate::say::band::{self, years};
use crate::say::{
    caution, headline, leaning, names, observation, odds, opinion, origin, plain, rarity, scales,
    weight,
};

/// One takeaway report.
#[derive(Clone, Debug, Serialize)]
pub struct Sheet {
    pub title: String,
    /// The plain answer, as the text report gives it.
    pub plain: Vec<Linked>,
    /// What somebody takes it to be, beside what is seen.
    pub opinion: Vec<Linked>,
    /// Where it was made and how uncommon it is, in plain words.
    pub place_and_rarity: String,
    /// What each finding does, in plain words.
    pub plain_findings: Vec<Linked>,
    pub headline: String,
    pub setting: String,
    pub kinds: Vec<KindLine>,
    pub place: String,
    pub bands: Vec<BandLine>,
    pub ends: String,
    pub rarity: String,
    /// What it rests on, what speaks against it, what would change it, what to look at next.
    pub parts: Vec<Section>,
    pub stop: Option<String>,
    pub findings: Vec<FindingLine>,
    pub guess: Vec<Linked>,
    pub cautions: Vec<String>,
    pub glossary: Vec<TermLine>,
    pub sources: Vec<String>,
    /// Version of the rule base.
    pub rules: String,
    /// The eras picture.
    #[serde(skip)]
    pub picture: String,
    pub picture_alt: String,
}

#[derive(Clone, Debug, Serialize)]
pub struct Section {
    pub heading: &'static str,
    pub lines: Vec<Linked>,
}

#[derive(Clone, Debug, Serialize)]
pub struct KindLine {
    pub name: Linked,
    /// "about 4 in 5".
    pub odds: &'static str,
    pub chance: &'static str,
    pub percent: String,
    /// 0..=100, for a bar.
    pub width: f64,
    pub aat: Option<String>,
}

#[derive(Clone, Debug, Serialize)]
pub struct BandLine {
    pub share: String,
    pub years: String,
    pub edtf: String,
}

#[derive(Clone, Debug, Serialize)]
pub struct FindingLine {
    pub clue: String,
    pub seen: String,
    /// "▲", "▼" or "·": never by colour alone.
    pub sign: &'static str,
    pub decibans: String,
    pub leave_one_out: String,
    pub words: Linked,
    pub leaning: Linked,
}

impl Sheet {
    /// The report on a piece; `title` may be empty; `guess` is a challenged guess to show as well, with
    /// the piece in the setting it was put to.
    pub fn new(piece: &Piece, title: &str, guess: Option<(&Piece, &Challenge)>) -> Sheet {
        Sheet::beside(piece, title, None, guess)
    }

    /// The same with an opinion set beside the verdict.
    pub fn beside(
        piece: &Piece,
        title: &str,
        opinion: Option<&Opinion>,
        guess: Option<(&Piece, &Challenge)>,
    ) -> Sheet {
        let (expert, judgement) = (piece.expert(), piece.judgement());
        let base = &expert.base;
        let explanation = piece.explanation();
        let account = account::account(piece);
        let leanings = leaning::leanings_of(piece);
        let mut linker = Linker::new(base);
        let plain = linker.all(&plain::lines(piece));
        let opinion = opinion.map_or(Vec::new(), |o| opinion::lines(piece, o));
        let opinion = linker.all(&opinion);
        let steps = explanation.steps.iter();
        let plain_findings: Vec<String> = steps.map(|s| plain::finding(piece, s)).collect();
        let plain_findings = linker.all(&plain_findings);
        let kinds = plain::kinds(piece)
            .map(|(k, p)| {
                let kind = &base.kinds[usize::from(k.0)];
                KindLine {
                    name: linker.link(&kind.name),
                    odds: odds::odds(*p),
                    chance: scales::chance(*p),
                    percent: scales::percent(*p),
                    width: (1000.0 * p).round() / 10.0,
                    aat: kind.aat.clone(),
                }
            })
            .collect();
        let findings = explanation
            .steps
            .iter()
            .map(|step| FindingLine {
                clue: names::capital(&names::clue_name(expert, step.observation.clue)),
                seen: observation::seen(expert, &step.observation),
                sign: sign(step.decibans),
                decibans: format!("{:+.1}", step.decibans),
                leave_one_out: format!("{:+.1}", step.leave_one_out),
                words: linker.link(&weight::step(piece, step)),
                leaning: linker.link(leaning::leaning_of(&leanings, &step.observation)),
            })
            .collect();
        let (place, p) = judgement.places[0];
        let parts = account.sides().into_iter().chain(account.ahead());
        let parts = parts
            .map(|(heading, lines)| Section {
                heading,
                lines: linker.all(lines),
            })
            .collect();
        let guess_lines = guess.map_or(Vec::new(), |(ground, c)| guess::lines(ground, c));
        let mut sheet = Sheet {
            title: crate::piece::notation::printable(title.trim()),
            plain,
            opinion,
            place_and_rarity: plain::place_and_rarity(piece),
            plain_findings,
            headline: headline::headline(piece),
            setting: base.settings[piece.setting()].name.clone(),
            kinds,
            place: format!(
                "{} ({}, {})",
                base.places[usize::from(place.0)].name,
                scales::chance(p),
                scales::percent(p)
            ),
            bands: judgement
                .bands
                .iter()
                .map(|b| BandLine {
                    share: scales::percent(b.share),
                    years: years(b.from, b.to),
                    edtf: b.edtf(),
                })
                .collect(),
            ends: band::ends(expert, explanation),
            rarity: rarity::rarity_line(piece),
            parts,
            stop: account.stop,
            findings,
            guess: linker.all(&guess_lines),
            cautions: caution::cautions(expert, piece.evidence()),
            glossary: Vec::new(),
            sources: sources(piece),
            rules: base.version.clone(),
            picture: svg::eras(piece, guess.map(|(_, c)| c)),
            picture_alt: svg::alt(piece),
        };
        sheet.glossary = linker.words();
        sheet
    }
}

/// For, against, or hardly either.
fn sign(decibans: f64) -> &'static str {
    match decibans {
        d if d >= COUNTS => "▲",
        d if d <= -COUNTS => "▼",
        _ => "·",
    }
}

/// Sources of the clues that were answered, each once, in the rule base's order.
pub(super) fn sources(piece: &Piece) -> Vec<String> {
    let expert = piece.expert();
    let base = &expert.base;
    let mut used = vec![false; base.sources.len()];
    for step in &piece.explanation().steps {
        let named = origin::named(expert, &step.observation);
        named.iter().for_each(|s| used[s.index()] = true);
    }
    let cited = base.sources.iter().zip(&used).filter(|(_, used)| **used);
    cited.map(|(source, _)| source.line()).collect()
}
