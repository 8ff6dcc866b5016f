//! Starting guesses of prices: every figure within reason, with a reason and an origin, every kind
//! in at most one group.

use std::ops::RangeInclusive;

use super::base::RuleBase;
use super::ids::{ClueId, Id, Sort};
use super::parse::Files;
use super::prices::{AgeFactor, ChannelGuess, Defect, PriceFactor, PriceGuesses};
use super::prices::{PricedClue, TraitClass};
use super::problem::Check;
use super::resolve::{Index, Resolver};
use super::schema::{Names, Text};
use super::schema_prices::{
    AgeEntry, ChannelEntry, ClassEntry, DefectEntry, GroupEntry, PricesFile, TraitEntry,
};
use super::source::{Located, SourceFile};

/// A factor beyond these is a slip of the pen (common practice, no source).
const FACTORS: RangeInclusive<f64> = 0.001..=1000.0;

/// Shares of a selling price (common practice, no source).
const SHARES: RangeInclusive<f64> = 0.0..=0.95;

/// Amounts, weeks, days and sales (common practice, no source).
const AMOUNTS: RangeInclusive<f64> = 0.0..=1e9;
const POSITIVE: RangeInclusive<f64> = 0.001..=1e9;

/// Loads `market.ron`. A later file replaces an earlier one as a whole: half a price list of
/// one's own over half of another's would be neither.
pub(super) fn prices<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    files: Files<'a, PricesFile<'a>>,
) {
    for (file, written) in files {
        base.prices = Some(guesses(r, base, file, written));
    }
}

fn guesses<'a>(
    r: &mut Resolver<'a>,
    base: &RuleBase,
    file: &'a SourceFile,
    w: PricesFile<'a>,
) -> PriceGuesses {
    let start = figure(r, file, &w.start.price, POSITIVE, "price");
    origin(r, file, w.start.price.src, w.start.because, &w.start.source);
    // A guess of half a sale would leave waiting times and spread without a mean.
    let worth = figure(r, file, &w.worth.sales, 1.0..=1000.0, "worth");
    origin(r, file, w.worth.sales.src, w.worth.because, &w.worth.source);
    let spread = figure(r, file, &w.spread.factor, 1.01..=100.0, "spread");
    let spread_worth = figure(r, file, &w.spread.sales, 2.0..=1000.0, "sales");
    let at = w.spread.factor.src;
    origin(r, file, at, w.spread.because, &w.spread.source);
    let half_life = figure(r, file, &w.half_life.days, 1.0..=1e6, "half-life");
    let at = w.half_life.days.src;
    origin(r, file, at, w.half_life.because, &w.half_life.source);
    let waiting_worth = figure(r, file, &w.waiting.worth, 2.0..=1000.0, "worth");
    let at = w.waiting.worth.src;
    origin(r, file, at, w.waiting.because, &w.waiting.source);
    let hour = figure(r, file, &w.look.hour, AMOUNTS, "hour");
    let longest_look = figure(r, file, &w.look.longest, AMOUNTS, "longest look");
    origin(r, file, w.look.hour.src, w.look.because, &w.look.source);
    if !w.rates.is_empty() {
        r.sources(file, &w.rates_source, Some(w.rates[0].0.src));
    }
    for code in w.rates.iter().map(|(code, _)| code).chain([&w.currency]) {
        currency(r, file, code);
    }
    let (groups, group_of_kind) = groups(r, base, file, w.groups);
    let channels = channels(r, file, w.channels);
    PriceGuesses {
        start,
        worth,
        spread,
        spread_worth,
        half_life,
        groups,
        group_of_kind,
        ages: ages(r, file, w.ages, w.currency.src),
        traits: w
            .traits
            .into_iter()
            .filter_map(|t| priced_clue(r, base, file, t, &channels))
            .collect(),
        defects: defects(r, base, file, w.defects),
        channels,
        waiting_worth,
        hour,
        longest_look,
        rates: w
            .rates
            .iter()
            .map(|(code, rate)| {
                let rate = figure(r, file, rate, 1e-6..=1e9, "rate");
                (code.value.clone(), rate)
            })
            .collect(),
        currency: w.currency.value,
    }
}

fn figure(
    r: &mut Resolver,
    file: &SourceFile,
    written: &Located<f64>,
    range: RangeInclusive<f64>,
    what: &str,
) -> f64 {
    r.number(file, written.value, written.src, range, what)
}

fn origin(r: &mut Resolver, file: &SourceFile, at: &str, because: Option<String>, sources: &Names) {
    r.because(file, because, at);
    r.sources(file, sources, Some(at));
}

fn currency(r: &mut Resolver, file: &SourceFile, code: &Text) {
    let three = code.value.len() == 3 && code.value.bytes().all(|b| b.is_ascii_uppercase());
    if !three {
        let message = format!("'{}' is no currency", code.value);
        let help = "write the three capital letters of ISO 4217, such as USD";
        r.problem(file, code.src, Check::BadWord, message, help);
    }
}

/// The record all factors share; `index` refuses a second one of the same id.
fn factor<'a>(
    r: &mut Resolver<'a>,
    file: &'a SourceFile,
    index: &mut Index<'a>,
    id: &Text<'a>,
    written: (String, &Located<f64>, Option<String>, &Names),
) -> PriceFactor {
    r.define_in(index, Sort::Price, file, id);
    let (name, factor, because, sources) = written;
    PriceFactor {
        factor: figure(r, file, factor, FACTORS, "factor"),
        because: r.because(file, because, id.src),
        sources: r.sources(file, sources, Some(id.src)),
        id: id.value.clone(),
        name,
    }
}

/// The groups, and which one each kind is in. A kind of the user's own may be in none, and then
/// has no factor.
fn groups<'a>(
    r: &mut Resolver<'a>,
    base: &RuleBase,
    file: &'a SourceFile,
    written: Vec<GroupEntry<'a>>,
) -> (Vec<PriceFactor>, Vec<Option<usize>>) {
    let mut index = Index::default();
    let mut of_kind: Vec<Option<usize>> = vec![None; base.kinds.len()];
    let mut out = Vec::new();
    for g in written {
        for kind in r.kinds(file, &g.kinds) {
            if of_kind[kind.index()].replace(out.len()).is_some() {
                let name = &base.kinds[kind].id;
                let message = format!("kind '{name}' is in two groups of prices");
                r.problem(file, g.id.src, Check::DuplicateId, message, "");
            }
        }
        let shared = (g.name, &g.factor, g.because, &g.source);
        out.push(factor(r, file, &mut index, &g.id, shared));
    }
    (out, of_kind)
}

fn ages(r: &mut Resolver, file: &SourceFile, written: Vec<AgeEntry>, at: &str) -> Vec<AgeFactor> {
    let mut out: Vec<AgeFactor> = Vec::new();
    if written.is_empty() {
        let message = "no age has a factor".to_owned();
        r.problem(
            file,
            at,
            Check::NothingDefined,
            message,
            "add ages: [(years: 0, …)]",
        );
    }
    for a in written {
        let years = figure(r, file, &a.years, 0.0..=1000.0, "age");
        if out.last().is_some_and(|before| years <= before.years) {
            let message = format!("age {years} does not rise");
            let help = "write the ages in rising order";
            r.problem(file, a.years.src, Check::YearsReversed, message, help);
        }
        out.push(AgeFactor {
            years,
            factor: figure(r, file, &a.factor, FACTORS, "factor"),
            because: r.because(file, a.because, a.years.src),
            sources: r.sources(file, &a.source, Some(a.years.src)),
        });
    }
    out
}

fn priced_clue<'a>(
    r: &mut Resolver<'a>,
    base: &RuleBase,
    file: &'a SourceFile,
    written: TraitEntry<'a>,
    channels: &[ChannelGuess],
) -> Option<PricedClue> {
    let clue: ClueId = r.lookup(file, &written.clue)?;
    let mut index = Index::default();
    let mut seen = Vec::new();
    let mut classes = Vec::new();
    for c in written.classes {
        let class = class(r, base, file, &mut index, clue, c, channels);
        for finding in &class.findings {
            if seen.contains(finding) {
                let name = &base.finding(clue, *finding).id;
                let message = format!("finding '{name}' is in two classes");
                r.problem(file, written.clue.src, Check::DuplicateId, message, "");
            }
        }
        seen.extend(class.findings.iter().copied());
        classes.push(class);
    }
    let ids = base.clue(clue).finding_ids();
    let unsaid = written.unsaid.as_ref();
    Some(PricedClue {
        clue,
        name: written.name,
        unsaid: unsaid.and_then(|f| r.finding(file, f, ids)),
        classes,
    })
}

fn class<'a>(
    r: &mut Resolver<'a>,
    base: &RuleBase,
    file: &'a SourceFile,
    index: &mut Index<'a>,
    clue: ClueId,
    c: ClassEntry<'a>,
    channels: &[ChannelGuess],
) -> TraitClass {
    let ids = base.clue(clue).finding_ids();
    let findings = c.findings.iter();
    let findings = findings.filter_map(|f| r.finding(file, f, ids.clone()));
    let findings = findings.collect();
    let mut weeks = vec![None; channels.len()];
    for (channel, mean) in &c.weeks {
        let at = channels.iter().position(|g| g.factor.id == channel.value);
        match at {
            Some(at) => weeks[at] = Some(figure(r, file, mean, POSITIVE, "weeks")),
            None => {
                let message = format!("unknown channel '{}'", channel.value);
                r.problem(file, channel.src, Check::UnknownChannel, message, "");
            }
        }
    }
    let shared = (c.name, &c.factor, c.because, &c.source);
    TraitClass {
        factor: factor(r, file, index, &c.id, shared),
        findings,
        weeks,
    }
}

fn defects<'a>(
    r: &mut Resolver<'a>,
    base: &RuleBase,
    file: &'a SourceFile,
    written: Vec<DefectEntry<'a>>,
) -> Vec<Defect> {
    let mut index = Index::default();
    let mut out = Vec::new();
    for d in written {
        let mut seen = Vec::new();
        for (clue, finding) in &d.seen {
            if let Some(clue) = r.lookup::<ClueId>(file, clue) {
                let ids = base.clue(clue).finding_ids();
                seen.extend(r.finding(file, finding, ids).map(|f| (clue, f)));
            }
        }
        if d.seen.is_empty() {
            let message = format!("no finding shows '{}'", d.id.value);
            r.problem(
                file,
                d.id.src,
                Check::NoCases,
                message,
                "add seen: [(\"clue\", \"finding\")]",
            );
        }
        let shared = (d.name, &d.factor, d.because, &d.source);
        out.push(Defect {
            factor: factor(r, file, &mut index, &d.id, shared),
            seen,
        });
    }
    out
}

fn channels<'a>(
    r: &mut Resolver<'a>,
    file: &'a SourceFile,
    written: Vec<ChannelEntry<'a>>,
) -> Vec<ChannelGuess> {
    let mut index = Index::default();
    let mut out = Vec::new();
    for c in written {
        let commission = figure(r, file, &c.commission, SHARES, "commission");
        let margin = figure(r, file, &c.margin, SHARES, "margin");
        let amounts = [&c.fee, &c.postage, &c.packing, &c.rent];
        let [fee, postage, packing, rent] = amounts.map(|a| figure(r, file, a, AMOUNTS, "amount"));
        let shared = (c.name, &c.factor, c.because, &c.source);
        out.push(ChannelGuess {
            factor: factor(r, file, &mut index, &c.id, shared),
            commission,
            fee,
            postage,
            packing,
            rent,
            margin,
        });
    }
    out
}
