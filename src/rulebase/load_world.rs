//! Sources, places, kinds, families, kernels, settings and cautions: all but the clues.

use super::RuleBase;
use super::definitions::{Caution, Family, Kernel, Kind, Place, Setting, Source};
use super::load::parse;
use super::numbers::CURVE_YEARS;
use super::resolve::Resolver;
use super::schema::{
    CautionsFile, FamiliesFile, KernelsFile, KindsFile, PlacesFile, SettingsFile, SourcesFile,
};
use super::source::SourceFile;

pub fn sources(r: &mut Resolver, base: &mut RuleBase, file: &SourceFile) {
    let Some(parsed) = parse::<SourcesFile>(r, file) else {
        return;
    };
    for s in parsed.sources {
        let fresh = r.define("source", |r| &mut r.sources, file, &s.id);
        let nameless = s.title.is_empty() && s.author.is_empty() && s.note.is_empty();
        if s.status == super::schema::Status::Published && nameless {
            r.problem(
                file,
                s.id.src,
                "bare-source",
                format!("'{}' is called published but names no work", s.id.value),
                "give author, title, year and place, or call it FromMemory".into(),
            );
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

pub fn places(r: &mut Resolver, base: &mut RuleBase, file: &SourceFile) {
    let Some(parsed) = parse::<PlacesFile>(r, file) else {
        return;
    };
    for p in parsed.places {
        if r.define("place", |r| &mut r.places, file, &p.id) {
            base.places.push(Place {
                id: p.id.value,
                name: p.name,
            });
        }
    }
}

/// Kinds first, then groups: a group may name a kind of another file.
pub fn kinds(r: &mut Resolver, base: &mut RuleBase, files: &[&SourceFile]) {
    let parsed: Vec<(&SourceFile, KindsFile)> = files
        .iter()
        .filter_map(|f| parse::<KindsFile>(r, f).map(|p| (*f, p)))
        .collect();
    let mut groups = Vec::new();
    for (file, p) in parsed {
        for k in p.kinds {
            let fresh = r.define("kind", |r| &mut r.kinds, file, &k.id);
            let made = k
                .made
                .iter()
                .filter_map(|m| {
                    let place = r.lookup("place", |r| &r.places, file, &m.place);
                    let weight = r.weight(file, &m.weight);
                    let curve = r.curve(file, &m.years, CURVE_YEARS);
                    place.map(|p| (p, weight, curve))
                })
                .collect();
            let because = r.because(file, k.because, k.id.src);
            let sources = r.sources(file, &k.source, Some(k.id.src));
            if k.made.is_empty() {
                let help = "add made: [(place: \"…\", weight: …)]".to_owned();
                r.problem(
                    file,
                    k.id.src,
                    "never-made",
                    format!("kind '{}' is made nowhere", k.id.value),
                    help,
                );
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
        groups.push((file, p.groups));
    }
    for (file, groups) in groups {
        for (name, members) in groups {
            let members = r.kinds(file, &Some(members)).unwrap_or_default();
            if r.groups.insert(name.value.clone(), members).is_some() {
                let message = format!("group '{}' is defined twice", name.value);
                r.problem(
                    file,
                    name.src,
                    "duplicate-id",
                    message,
                    "give one another name".into(),
                );
            }
        }
    }
}

pub fn families(r: &mut Resolver, base: &mut RuleBase, file: &SourceFile) {
    let Some(parsed) = parse::<FamiliesFile>(r, file) else {
        return;
    };
    for f in parsed.families {
        let fresh = r.define("family", |r| &mut r.families, file, &f.id);
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

pub fn kernels(r: &mut Resolver, base: &mut RuleBase, file: &SourceFile) {
    let Some(parsed) = parse::<KernelsFile>(r, file) else {
        return;
    };
    for k in parsed.kernels {
        let fresh = r.define("kernel", |r| &mut r.kernels, file, &k.id);
        let lag = r.curve(file, &k.lag, -400.0..=400.0);
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

pub fn settings(r: &mut Resolver, base: &mut RuleBase, file: &SourceFile) {
    let Some(parsed) = parse::<SettingsFile>(r, file) else {
        return;
    };
    for s in parsed.settings {
        let fresh = !base.settings.iter().any(|have| have.id == s.id.value);
        if !fresh {
            let message = format!("setting '{}' is defined twice", s.id.value);
            r.problem(
                file,
                s.id.src,
                "duplicate-id",
                message,
                "give one another id".into(),
            );
        }
        let curve = r.curve(file, &s.years, CURVE_YEARS);
        let factors = s.factors.iter().map(|f| r.case(file, f)).collect();
        let because = r.because(file, s.because, s.id.src);
        let sources = r.sources(file, &s.source, Some(s.id.src));
        if fresh {
            base.settings.push(Setting {
                id: s.id.value,
                name: s.name,
                about: s.about.unwrap_or_default(),
                curve,
                factors,
                neutral: s.neutral,
                because,
                sources,
            });
        }
    }
}

pub fn cautions(r: &mut Resolver, base: &mut RuleBase, file: &SourceFile) {
    let Some(parsed) = parse::<CautionsFile>(r, file) else {
        return;
    };
    const WHEN: [&str; 6] = ["always", "stock", "uv", "broken", "value", "food"];
    for c in parsed.cautions {
        let because = r.because(file, c.because, c.id.src);
        let sources = r.sources(file, &c.source, Some(c.id.src));
        if !WHEN.contains(&c.when.value.as_str()) {
            let message = format!("'{}' is no occasion: use {}", c.when.value, WHEN.join(", "));
            r.problem(file, c.when.src, "unknown-occasion", message, String::new());
        }
        base.cautions.push(Caution {
            id: c.id.value,
            when: c.when.value,
            text: c.text,
            because,
            sources,
        });
    }
}
