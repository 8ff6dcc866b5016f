//! Speed of the main job on the shipped rule base, on one core.
//!
//! `cargo bench` prints the figures quoted in README and DEVELOPERS; nothing here is a test.

use std::sync::Arc;

use divan::{Bencher, black_box};
use printseam::core::grid::{FindingId, Year};
use printseam::core::model::Gate;
use printseam::core::observation::{Observation, Observed, Sure};
use printseam::piece::Piece;
use printseam::piece::expert::Expert;
use printseam::rulebase::ids::SettingId;
use printseam::screens::app::App;
use printseam::screens::canvas::Shown;
use printseam::screens::input::{Key, keys};
use printseam::screens::theme::Theme;
use ratatui::Terminal;
use ratatui::backend::TestBackend;

const PRESENT: Year = Year(2026);

fn main() {
    divan::main();
}

fn expert() -> Arc<Expert> {
    match Expert::shipped(PRESENT) {
        Ok(expert) => Arc::new(expert),
        Err(problems) => panic!("shipped rules: {}", problems[0]),
    }
}

/// A case with the first `answers` open clues answered, each with its first finding.
fn answered(expert: &Arc<Expert>, answers: usize) -> Piece {
    let mut case = Piece::new(expert.clone(), SettingId(0));
    for clue in expert.engine.model.clue_ids() {
        if case.evidence().entries().len() == answers {
            break;
        }
        if expert.engine.model.gate(clue, case.evidence()) != Gate::Closed {
            let seen = match expert.base.clue(clue).dated {
                Some(_) => Observed::Year(Year(1850)),
                None => Observed::Finding(FindingId(0)),
            };
            case.say(Observation {
                clue,
                seen,
                sure: Sure::Sure,
            });
        }
    }
    case
}

/// Rule files to tables and priors: most of the time to the first frame.
#[divan::bench]
fn load_shipped_rules(bencher: Bencher) {
    bencher.bench(expert);
}

/// One answer changed: new kinds, band, rarity and the next question.
#[divan::bench(args = [0, 5, 10, 20, 40, 60])]
fn answer_to_verdict(bencher: Bencher, answers: usize) {
    let expert = expert();
    let case = answered(&expert, answers);
    bencher.bench_local(|| {
        let mut next = case.clone();
        next.set_setting(black_box(SettingId(1)));
        next
    });
}

/// The reasons of a verdict: decibans in order, leave-one-out, findings at odds.
#[divan::bench(args = [5, 20, 60])]
fn reasons(bencher: Bencher, answers: usize) {
    let expert = expert();
    let case = answered(&expert, answers);
    bencher.bench_local(|| {
        let mut next = case.clone();
        next.set_setting(black_box(SettingId(1)));
        next.verdict().explanation.steps.len()
    });
}

/// The fewest changes that would turn the answer; worked out on the verdict screen only.
#[divan::bench(args = [5, 20])]
fn turning_points(bencher: Bencher, answers: usize) {
    let expert = expert();
    let case = answered(&expert, answers);
    bencher.bench_local(|| {
        case.verdict()
            .turning_points(&expert, case.setting(), case.evidence())
    });
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

/// One frame of the screens after these keys, at 80 by 24.
#[divan::bench(args = ["<enter>", "<enter>11111111", "<enter>11111111v", "<enter>j", "<enter>?", "<enter>1g"])]
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
    let case = answered(&expert(), answers);
    let mut app = App::opened(
        expert(),
        Theme::sixteen(),
        SettingId(0),
        case.evidence().entries(),
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
    let (mut app, mut terminal) = screens("<enter>11111111w<up>");
    bencher.bench_local(|| {
        app.press(Key::Right);
        black_box(terminal.draw(|frame| drop(app.draw(frame))).is_ok())
    });
}

/// A key that answers a question, the frame that shows what follows, and the undo: two weighings.
#[divan::bench]
fn key_to_frame(bencher: Bencher) {
    let (mut app, mut terminal) = screens("<enter>111111111");
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
    for key in keys(typed).unwrap_or_default() {
        app.press(key);
        let mut shown = Shown::default();
        if terminal.draw(|frame| shown = app.draw(frame)).is_ok() {
            app.drawn(shown);
        }
    }
    (app, terminal)
}
