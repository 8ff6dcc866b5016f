//! Many pieces one after another: the same answers as each by itself.

use printseam::internals::core::bulk::{Ground, Outline, Scratch, outline_at_length};
use printseam::internals::core::foreseen::{Bins, Foreseen};
use printseam::internals::core::grid::{ClueId, FindingId, Grid, KindId, PlaceId, Year};
use printseam::internals::core::model::{Clause, ClueModel, Gate, Model, Station};
use printseam::internals::core::observation::{Evidence, Observation, Observed, Sure, Weights};
use printseam::internals::core::posterior::{Inference, Prior, posterior};
use printseam::internals::core::table::Table;
use printseam::internals::piece::brief::Briefs;
use printseam::internals::piece::expert::Expert;
use printseam::{Piece, SettingId};
use proptest::prelude::{ProptestConfig, any, proptest};

use crate::invented_rows::{Rows, evidence, table};
use crate::random_model::{Plain, Random};
use crate::shipped::EXPERT;

fn close(a: &[f64], b: &[f64]) -> bool {
    let near = |(a, b): (&f64, &f64)| (a - b).abs() <= 1e-12 + 1e-10 * b.abs();
    a.len() == b.len() && a.iter().zip(b).all(near)
}

fn same(a: &Outline, b: &Outline) -> bool {
    close(&a.kinds, &b.kinds)
        && close(&a.years, &b.years)
        && close(&a.kind_ages, &b.kind_ages)
        && a.unlikely == b.unlikely
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    /// Small random rule bases: families, gates, dated clues, soft and doubtful findings.
    #[test]
    fn outlines_are_those_of_the_long_road(seed in any::<u64>()) {
        let plain = Plain::random(seed);
        let (model, prior) = plain.compile();
        let ground = Ground::new(&model, &prior);
        let mut scratch = Scratch::default();
        // One after another in the same room: nothing of the last piece may be left in it.
        for n in 0..3 {
            let evidence = plain.evidence(seed.wrapping_add(n));
            let (short, long) = (ground.outline(&evidence, &mut scratch), outline_at_length(&model, &prior, &evidence));
            assert!(same(&short, &long), "{short:?}\n{long:?}");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    /// What is foreseen of a look is what comes of it: against the posterior with the finding.
    #[test]
    fn what_is_foreseen_comes_to_pass(seed in any::<u64>()) {
        let plain = Plain::random(seed);
        let (model, prior) = plain.compile();
        let evidence = plain.evidence(seed);
        let known = Inference::new(&model, &prior, &evidence);
        let (kinds, years) = (model.grid.kinds(), model.grid.years());
        let groups: Vec<usize> = (0..kinds).map(|k| k % 2).collect();
        let spans: Vec<usize> = (0..years).map(|y| y / 5).collect();
        let bins = Bins {
            group_of_kind: &groups,
            groups: 2,
            span_of_year: &spans,
            spans: years.div_ceil(5),
        };
        for clue in model.clue_ids() {
            let of = &plain.clues[usize::from(clue.0)];
            let open = model.gate(clue, &evidence) == Gate::Open;
            if evidence.of(clue).is_some() || of.kernel.is_some() || !open {
                continue;
            }
            let foreseen = Foreseen::new(&known, (clue, Sure::Sure), bins);
            for f in (0..of.findings as u16).map(FindingId) {
                let mut more = evidence.clone();
                more.add(Observation::finding(clue, f));
                let then = posterior(&model, &prior, &more);
                let (short, long) = (foreseen.after(f), bins.of(&model, then.cells()));
                assert!(close(&short, &long), "{short:?}\n{long:?}");
            }
        }
    }
}

/// Some of it doubtful, soft, or not to be told.
fn blurred(expert: &Expert, evidence: &Evidence, r: &mut Random) -> Evidence {
    let each = evidence.observations().iter().cloned().map(|o| {
        let n = expert.base.clue(o.clue).findings.len();
        let soft = matches!(o.seen, Observed::Finding(_)) && r.unit() < 0.1;
        let any = [0; 2].map(|_| FindingId(r.below(n.max(1)) as u16));
        let seen = match Weights::any_of(&any, n).filter(|_| soft) {
            Some(weights) => Observed::Soft(weights),
            None if r.unit() < 0.05 => Observed::CantTell,
            None => o.seen,
        };
        let sure = [Sure::Sure, Sure::Sure, Sure::Unsure, Sure::Guess][r.below(4)];
        Observation::new(o.clue, seen).sure(sure)
    });
    each.collect()
}

/// All that a table prints, of drawn and of contradictory pieces in several settings.
#[test]
fn briefs_are_those_of_pieces() {
    let expert = &*EXPERT;
    let briefs = Briefs::new(expert);
    let mut scratch = Scratch::default();
    let mut r = Random(20_261_126);
    let mut odd = 0;
    for n in 0..60 {
        let rows = [Rows::Drawn, Rows::Random][n % 2];
        let told = evidence(expert, rows, n as u64);
        let told = if n % 3 == 0 {
            told
        } else {
            blurred(expert, &told, &mut r)
        };
        let setting = SettingId((n % 3) as u16);
        let brief = briefs.of(setting, &told, &mut scratch);
        let piece = Piece::new(expert.clone(), setting, told);
        let (kind, p) = piece.judgement().leading();
        assert_eq!(brief.kind.0, kind);
        assert!((brief.kind.1 - p).abs() < 1e-10);
        assert_eq!(
            (brief.band, brief.median),
            (piece.judgement().band(), piece.judgement().median)
        );
        assert!((brief.rarity - piece.rarity().score).abs() < 1e-8);
        assert!(close(&brief.years, &piece.judgement().years));
        let at_odds: Vec<_> = piece.at_odds().iter().map(|o| o.observation.clue).collect();
        assert_eq!(brief.unlikely, at_odds, "row {n}");
        odd += at_odds.len();
    }
    assert!(odd > 20, "{odd} at odds: too few to have tried anything");
}

/// A kind of print and a kind of brush, told apart by a clue each; the second is asked of prints only. A brush stroke shuts
/// it, and what was said of it speaks again when the stroke is left out: then the stroke is at odds with it.
#[test]
fn what_a_finding_silences_speaks_against_it() {
    let pairs = vec![(KindId(0), PlaceId(0)), (KindId(1), PlaceId(0))];
    let grid = Grid::new(pairs, 2, 1, Year(1850), Year(1850));
    let telling = || Table::listed(&grid, vec![0, 1], &[vec![1.0, 0.0], vec![0.0, 1.0]], 2, 0.0);
    let clue = |gate: Vec<Clause>| ClueModel {
        table: telling(),
        family: None,
        gate,
        station: Station::Loupe,
        seconds: 5.0,
        present: 1.0,
    };
    let of_prints = Clause {
        clue: ClueId(0),
        any_of: vec![FindingId(0)],
    };
    let model = Model {
        clues: vec![clue(Vec::new()), clue(vec![of_prints])],
        families: Vec::new(),
        grid: grid.clone(),
    };
    let prior = Prior::new(vec![0.5, 0.5]);
    let seen = |first, second| -> Evidence {
        let each = [(0, first), (1, second)];
        let each = each.map(|(c, f)| Observation::finding(ClueId(c), FindingId(f)));
        each.into_iter().collect()
    };
    let unlikely = |evidence: &Evidence| {
        let short = Ground::new(&model, &prior).outline(evidence, &mut Scratch::default());
        assert!(
            same(&short, &outline_at_length(&model, &prior, evidence)),
            "{short:?}"
        );
        short.unlikely
    };
    assert_eq!(unlikely(&seen(1, 0)), [ClueId(0)]);
    assert_eq!(unlikely(&seen(1, 1)), []);
    assert_eq!(unlikely(&seen(0, 0)), []);
}

/// More findings than are multiplied without scaling in between.
#[test]
fn a_piece_with_very_many_findings_takes_the_long_road() {
    let expert = &*EXPERT;
    let model = &expert.engine().model;
    let many: Evidence = model
        .clue_ids()
        .filter(|c| expert.base.clue(*c).dated.is_none())
        .map(|c| Observation::finding(c, FindingId(0)))
        .collect();
    assert!(many.observations().len() > 60);
    let ground = Ground::new(model, &expert.engine().priors[0]);
    let outline = ground.outline(&many, &mut Scratch::default());
    assert!((outline.kinds.iter().sum::<f64>() - 1.0).abs() < 1e-9);
    assert!((outline.years.iter().sum::<f64>() - 1.0).abs() < 1e-9);
}

/// From the table's text to the table's text.
#[test]
fn a_table_says_what_briefs_say() {
    let expert = &*EXPERT;
    let text = table(expert, Rows::Drawn, (0, 30), false);
    let output = crate::running::run(&["lot", "-"], text.as_bytes());
    assert_eq!(output.status.code(), Some(0));
    let mut reader = csv::Reader::from_reader(output.stdout.as_slice());
    let names = reader.headers().unwrap().clone();
    let column = |name: &str| names.iter().position(|n| n == name).unwrap();
    let briefs = Briefs::new(expert);
    let mut scratch = Scratch::default();
    let mut rows = 0;
    for (n, row) in reader.records().enumerate() {
        let row = row.unwrap();
        let told = evidence(expert, Rows::Drawn, n as u64);
        let brief = briefs.of(SettingId(0), &told, &mut scratch);
        assert_eq!(row[column("kind")], expert.base.kinds[brief.kind.0].id);
        assert_eq!(row[column("kind_p")], format!("{:.4}", brief.kind.1));
        assert_eq!(row[column("edtf")], brief.band.edtf());
        assert_eq!(
            row[column("rarity")],
            format!("{:.0}", brief.rarity.round())
        );
        rows += 1;
    }
    assert_eq!(rows, 30);
}
