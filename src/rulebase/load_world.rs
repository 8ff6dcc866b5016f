//! Sources, places, kinds, families, kernels and settings: all that clues speak of.

use super::base::RuleBase;
use super::definitions::{
    Country, Family, Frequency, Kernel, Kind, Made, Place, Setting, Source, Standing,
};
use super::ids::Sort;
use super::numbers::CURVE_YEARS;
use super::parse::{Files, each};
use super::possible;
use super::problem::Check;
use super::resolve::Resolver;
use super::schema::{
    CountryEntry, FamiliesFile, KernelsFile, KindEntry, KindsFile, MadeEntry, PlacesFile,
    SettingEntry, SettingsFile, SourcesFile,
};
use super::source::SourceFile;

pub(super) fn sources<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    files: Files<'a, SourcesFile<'a>>,
) {
    for (file, s) in each(files, |f| f.sources) {
        let fresh = r.define(Sort::Source, file, &s.id);
        let nameless = s.title.is_empty() && s.author.is_empty() && s.note.is_empty();
        if s.status == Standing::Published && nameless {
            let message = format!("'{}' is called published but names no work", s.id.value);
            let help = "give author, title, year and place, or call it FromMemory";
            r.problem(file, s.id.src, Check::BareSource, message, help);
        }
        if fresh {
            base.sources.push(Source {
                id: s.id.value,
                status: s.status,
                author: s.author,
                title: s.title,
                year: s.year,
                place: s.place,
                note: s.note,
            });
        }
    }
}

pub(super) fn places<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    files: Files<'a, PlacesFile<'a>>,
) {
    for (file, p) in each(files, |f| f.places) {
        if r.define(Sort::Place, file, &p.id) {
            base.places.push(Place {
                id: p.id.value,
                name: p.name,
            });
        }
    }
}

/// Kinds first, then groups: a group may name a kind of another file.
pub(super) fn kinds<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    files: Files<'a, KindsFile<'a>>,
) {
    let mut groups = Vec::new();
    for (file, written) in files {
        for k in written.kinds {
            kind(r, base, file, k);
        }
        groups.extend(written.groups.into_iter().map(|g| (file, g)));
    }
    for (file, (name, members)) in groups {
        let members = r.kinds(file, &members);
        if r.define(Sort::Group, file, &name) {
            r.groups.insert(name.value, members);
        }
    }
}

fn kind<'a>(r: &mut Resolver<'a>, base: &mut RuleBase, file: &'a SourceFile, k: KindEntry<'a>) {
    let fresh = r.define(Sort::Kind, file, &k.id);
    let before = r.problems.len();
    let made: Vec<Made> = k.made.iter().filter_map(|m| made(r, file, m)).collect();
    // Of a place or weight with a fault nothing more is said.
    if r.problems.len() == before {
        possible::kind(r, file, &k.id, &made);
    }
    let because = r.because(file, k.because, k.id.src);
    let sources = r.sources(file, &k.source, Some(k.id.src));
    if let Some(aat) = k.aat.as_ref().filter(|a| !is_aat(&a.value)) {
        let message = format!(
            "'{}' is no number of the Art & Architecture Thesaurus",
            aat.value
        );
        let help = "write its figures only, such as aat: \"300053922\"";
        r.problem(file, aat.src, Check::BadNumber, message, help);
    }
    if fresh {
        base.kinds.push(Kind {
            id: k.id.value,
            name: k.name.value,
            about: k.about.unwrap_or_default(),
            aat: k.aat.map(|a| a.value),
            made,
            because,
            sources,
        });
    }
}

fn is_aat(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit())
}

fn made(r: &mut Resolver, file: &SourceFile, written: &MadeEntry) -> Option<Made> {
    let place = r.lookup(file, &written.place);
    let weight = r.weight(file, written.weight);
    let curve = r.curve(file, &written.years, CURVE_YEARS);
    Some(Made {
        place: place?,
        weight,
        curve,
    })
}

pub(super) fn families<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    files: Files<'a, FamiliesFile<'a>>,
) {
    for (file, f) in each(files, |f| f.families) {
        let fresh = r.define(Sort::Family, file, &f.id);
        let delta = r.number(file, f.delta.value, f.delta.src, 0.0..=1.0, "delta");
        let because = r.because(file, f.because, f.id.src);
        let sources = r.sources(file, &f.source, Some(f.id.src));
        if fresh {
            base.families.push(Family {
                id: f.id.value,
                about: f.about.unwrap_or_default(),
                delta,
                because,
                sources,
            });
        }
    }
}

pub(super) fn kernels<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    files: Files<'a, KernelsFile<'a>>,
) {
    for (file, k) in each(files, |f| f.kernels) {
        let fresh = r.define(Sort::Kernel, file, &k.id);
        let before = r.problems.len();
        let lag = r.curve(file, &k.lag, -LONGEST_LAG..=LONGEST_LAG);
        if r.problems.len() == before {
            possible::kernel(r, file, &k.id, &lag, LONGEST_LAG as i16);
        }
        let because = r.because(file, k.because, k.id.src);
        let sources = r.sources(file, &k.source, Some(k.id.src));
        if fresh {
            base.kernels.push(Kernel {
                id: k.id.value,
                about: k.about.unwrap_or_default(),
                lag,
                because,
                sources,
            });
        }
    }
}

/// Longest lag a kernel speaks of, in years, either way.
const LONGEST_LAG: f64 = 400.0;

/// Kinds of place first, then each of them in each country.
pub(super) fn settings<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    files: Files<'a, SettingsFile<'a>>,
) {
    let mut countries = Vec::new();
    for (file, written) in files {
        for s in written.settings {
            setting(r, base, file, s);
        }
        countries.extend(written.countries.into_iter().map(|c| (file, c)));
    }
    for (file, c) in countries {
        country(r, base, file, c);
    }
    let places = base.settings.clone();
    for (at, country) in base.countries.iter().enumerate() {
        let there = places.iter().map(|s| s.in_country(at, country));
        base.settings.extend(there);
    }
}

fn setting<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    file: &'a SourceFile,
    s: SettingEntry<'a>,
) {
    let fresh = r.define(Sort::Setting, file, &s.id);
    let curve = r.curve(file, &s.years, CURVE_YEARS);
    let spread = r.optional(file, s.spread.as_ref(), 0.0..=100.0, "spread");
    let doubt = r.optional(file, s.doubt.as_ref(), 0.0..=1.0, "doubt");
    let factors: Vec<Frequency> = s.factors.iter().map(|f| r.frequency(file, f)).collect();
    let because = r.because(file, s.because, s.id.src);
    let sources = r.sources(file, &s.source, Some(s.id.src));
    if fresh {
        possible::setting(r, base, file, s.id.src, &curve, &factors);
        base.settings.push(Setting {
            id: s.id.value,
            name: s.name,
            about: s.about.unwrap_or_default(),
            curve,
            spread,
            doubt,
            country: None,
            factors,
            neutral: s.neutral,
            because,
            sources,
        });
    }
}

fn country<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    file: &'a SourceFile,
    c: CountryEntry<'a>,
) {
    let fresh = r.define(Sort::Country, file, &c.id);
    let factors: Vec<Frequency> = c.factors.iter().map(|f| r.frequency(file, f)).collect();
    let because = r.because(file, c.because, c.id.src);
    let sources = r.sources(file, &c.source, Some(c.id.src));
    if fresh {
        for place in &base.settings {
            let both = [&place.factors[..], &factors].concat();
            possible::setting(r, base, file, c.id.src, &place.curve, &both);
        }
        base.countries.push(Country {
            id: c.id.value,
            name: c.name,
            about: c.about.unwrap_or_default(),
            factors,
            because,
            sources,
        });
    }
}
