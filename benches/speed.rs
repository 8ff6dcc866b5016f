//! Speed of the main job on the shipped rule base, on one core.
//!
//! `cargo bench` prints the figures quoted in README and DEVELOPERS; nothing here is a test.

use std::sync::Arc;

use divan::{Bencher, black_box};
use printseam::internals::core::grid::{FindingId, Year};
use printseam::internals::core::model::Gate;
use printseam::internals::core::observation::{Evidence, Observation};
use printseam::internals::core::sensitivity::turning_points;
use printseam::internals::piece::Piece;
use printseam::internals::piece::expert::Expert;
use printseam::internals::piece::judgement::Judgement;
use printseam::internals::rulebase::ids::SettingId;
use printseam::internals::screens::app::App;
use printseam::internals::screens::kit::theme::Theme;
use printseam::internals::screens::state::input::{Key, keys};
use printseam::internals::screens::state::shown::Shown;
use ratatui::Terminal;
use ratatui::backend::TestBackend;

mod shipped_rules;
use shipped_rules::expert;

fn main() {
    divan::main();
}

/// What is known of a piece whose first `answers` open clues show their first finding.
fn answered(expert: &Arc<Expert>, answers: usize) -> Evidence {
    let mut evidence = Evidence::new();
    for clue in expert.engine().model.clue_ids() {
        if evidence.observations().len() == answers {
            break;
        }
        if expert.engine().model.gate(clue, &evidence) != Gate::Closed {
            evidence.add(match expert.base.clue(clue).dated {
                Some(_) => Observation::year(clue, Year(1850)),
                None => Observation::finding(clue, FindingId(0)),
            });
        }
    }
    evidence
}

/// Rule files to tables and priors.
#[divan::bench]
fn load_shipped_rules(bencher: Bencher) {
    bencher.bench(|| {
        let expert = expert();
        expert.engine();
        expert.spoken();
        expert
    });
}

/// Rule files to the first frame, which needs no tables.
#[divan::bench]
fn first_frame(bencher: Bencher) {
    bencher.bench(|| screens(""));
}

/// Judging alone: kinds, places, years, bands.
#[divan::bench(args = [0, 5, 10, 20, 40, 60])]
fn judgement(bencher: Bencher, answers: usize) {
    let expert = expert();
    let evidence = answered(&expert, answers);
    bencher.bench_local(|| Judgement::new(&expert, black_box(SettingId(1)), &evidence));
}

/// One answer changed: new kinds, band, rarity and the next question.
#[divan::bench(args = [0, 5, 10, 20, 40, 60])]
fn answer_to_verdict(bencher: Bencher, answers: usize) {
    let expert = expert();
    let evidence = answered(&expert, answers);
    bencher.bench_local(|| {
        let piece = Piece::new(expert.clone(), black_box(SettingId(1)), evidence.clone());
        let verdict = (piece.judgement().band(), piece.rarity().score);
        (verdict, piece.advice().looks.len())
    });
}

/// The reasons of a verdict: decibans in order, leave-one-out, findings at odds.
#[divan::bench(args = [5, 20, 60])]
fn reasons(bencher: Bencher, answers: usize) {
    let expert = expert();
    let evidence = answered(&expert, answers);
    bencher.bench_local(|| {
        let piece = Piece::new(expert.clone(), black_box(SettingId(1)), evidence.clone());
        (piece.explanation().steps.len(), piece.at_odds().len())
    });
}

/// The fewest changes that would turn the answer; worked out on the verdict screen only.
#[divan::bench(args = [5, 20])]
fn turning_points_of(bencher: Bencher, answers: usize) {
    let expert = expert();
    let evidence = answered(&expert, answers);
    let piece = Piece::new(expert.clone(), SettingId(0), evidence.clone());
    let answer = (piece.judgement().leading().0, piece.judgement().band());
    let (model, prior) = (&expert.engine().model, &expert.engine().priors[0]);
    bencher.bench_local(|| turning_points(model, prior, &evidence, answer));
}

/// 10,000 characters of noise read as a mark.
#[divan::bench]
fn read_noise(bencher: Bencher) {
    let expert = expert();
    let mut seed: u32 = 20_261_125;
    let noise: String = (0..10_000)
        .map(|_| {
            seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            b"ABCDEFGHIJKLMNOPQRSTUVWXYZ 0123456789?/"[(seed >> 16) as usize % 39] as char
        })
        .collect();
    bencher.bench_local(|| {
        let base = &expert.base;
        base.wording
            .read(&base.registry, black_box(&noise))
            .phrases
            .len()
    });
}

/// One frame of the screens after these keys, at 80 by 24; escape closes the first glance.
#[divan::bench(args = ["<enter><esc>", "<enter><esc>11111111", "<enter><esc>11111111v", "<enter><esc>j", "<enter><esc>?", "<enter><esc>1g"])]
fn frame(bencher: Bencher, typed: &str) {
    let (app, mut terminal) = screens(typed);
    bencher.bench_local(|| {
        let mut shown = Shown::default();
        let drawn = terminal.draw(|frame| shown = app.draw(frame)).is_ok();
        black_box((drawn, shown))
    });
}

/// A letter typed on a ticket and its frame, after this many answers, and the erasing of it.
#[divan::bench(args = [5, 20])]
fn ticket_letter(bencher: Bencher, answers: usize) {
    let evidence = answered(&expert(), answers);
    let mut app = App::opened(
        expert(),
        Theme::sixteen(),
        SettingId(0),
        evidence.observations(),
    );
    let Ok(mut terminal) = Terminal::new(TestBackend::new(80, 24));
    for key in keys("t1840").unwrap_or_default() {
        app.press(key);
    }
    bencher.bench_local(|| {
        app.press(Key::Char('s'));
        let drawn = terminal.draw(|frame| drop(app.draw(frame))).is_ok();
        app.press(Key::Backspace);
        black_box(drawn)
    });
}

/// A finding flipped in a trial and its frame.
#[divan::bench]
fn trial_flip(bencher: Bencher) {
    let (mut app, mut terminal) = screens("<enter><esc>11111111w<up>");
    bencher.bench_local(|| {
        app.press(Key::Right);
        black_box(terminal.draw(|frame| drop(app.draw(frame))).is_ok())
    });
}

/// A key that answers a question, the frame that shows what follows, and the undo: two weighings.
#[divan::bench]
fn key_to_frame(bencher: Bencher) {
    let (mut app, mut terminal) = screens("<enter><esc>111111111");
    bencher.bench_local(|| {
        app.press(Key::Char('1'));
        let drawn = terminal.draw(|frame| drop(app.draw(frame))).is_ok();
        app.press(Key::Char('u'));
        black_box(drawn)
    });
}

fn screens(typed: &str) -> (App, Terminal<TestBackend>) {
    let mut app = App::new(expert(), Theme::sixteen());
    let Ok(mut terminal) = Terminal::new(TestBackend::new(80, 24));
    let mut draw = |app: &mut App| {
        let mut shown = Shown::default();
        if terminal.draw(|frame| shown = app.draw(frame)).is_ok() {
            app.drawn(shown);
        }
    };
    draw(&mut app);
    for key in keys(typed).unwrap_or_default() {
        app.press(key);
        draw(&mut app);
    }
    (app, terminal)
}
