//! What opens over a screen does what it says: the diamond, a ticket checked, a trial change, and
//! the glossary.

use std::any::Any;

use printseam::internals::claim::{Challenge, ClaimAnswer};
use printseam::internals::core::observation::{Observed, Sure};
use printseam::internals::rulebase::ids::SettingId;
use printseam::internals::screens::app::App;
use printseam::internals::screens::popups::ticket::Ticket;
use printseam::internals::screens::state::input::{Input, Key};
use printseam::internals::screens::state::msg::Msg;
use printseam::internals::screens::state::place::Screen;
use printseam::internals::screens::state::shown::Shown;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Modifier;

use crate::screens::{SIZES, after, frame, played, small, text, title};
use crate::shipped::expert;

const SIZE: (u16, u16) = (80, 24);

fn said(app: &App, clue: &str) -> Option<Observed> {
    let clue = app.piece().expert().base.clue_id(clue).unwrap();
    app.piece().evidence().of(clue).map(|e| e.seen.clone())
}

/// The ticket that is open, and how it stands.
fn answer(app: &App) -> &Result<Challenge, String> {
    let popup: &dyn Any = app.popup().unwrap();
    popup.downcast_ref::<Ticket>().unwrap().answer().unwrap()
}

/// The text of an area.
fn words_at(buffer: &Buffer, at: Rect) -> String {
    let cells = at.left()..at.right();
    cells
        .map(|x| buffer[(x, at.y)].symbol().to_owned())
        .collect()
}

fn clicked(app: App, msg: Msg) -> (App, Buffer, Shown) {
    let mut app = app;
    let (_, shown) = frame(&app, SIZE);
    let at = shown.area_of(msg).unwrap();
    app.drawn(shown);
    app.handle(Input::Click { x: at.x, y: at.y });
    let (buffer, shown) = frame(&app, SIZE);
    (app, buffer, shown)
}

#[test]
fn a_diamond_typed_on_the_screen_moves_the_band() {
    for size in SIZES {
        let (app, _) = after(expert(), "<enter>01", size);
        let before = app.piece().judgement().band();
        let (app, buffer) = played(app, "m<tab>a<right>12<down>3<left>w", size);
        let shown = text(&buffer);
        // What a letter stands for needs the picture, or a turn of the page.
        let low = size.1 < 20;
        for wanted in [
            "1845-03-12",
            "top",
            "right",
            "bottom",
            "left",
            "month letter",
        ] {
            let there = shown.contains(wanted) || (low && wanted == "month letter");
            assert!(there, "{size:?} {wanted}\n{shown}");
        }
        assert_eq!(app.piece().judgement().band(), before, "nothing counts yet");
        let (app, _) = played(app, "<enter>", size);
        assert_eq!(title(&app), None);
        let registered = said(&app, "registered");
        assert_eq!(
            registered,
            Some(Observed::Year(printseam::internals::core::grid::Year(1845)))
        );
        assert_ne!(app.piece().judgement().band(), before);
        let (app, _) = played(app, "u", size);
        assert_eq!(app.piece().judgement().band(), before);
    }
}

/// The order of the fields is the order a mark is read in.
#[test]
fn corners_are_typed_in_order_or_by_their_side() {
    let (a, one) = after(expert(), "<enter>m<tab>a,12,3,w,iv", SIZE);
    let (b, two) = after(
        expert(),
        "<enter>m<tab><left>w<up>a<down>3<right>12<tab><tab><tab>iv",
        SIZE,
    );
    assert_eq!(text(&one), text(&two));
    assert_eq!(format!("{:?}", a.popup()), format!("{:?}", b.popup()));
    assert!(text(&one).contains("1845-03-12"));
    let (_, clicked_on, _) = clicked(a, Msg::Field(2));
    assert!(text(&clicked_on).contains("1845-03-12"));
}

#[test]
fn a_diamond_that_cannot_be_says_so_and_an_empty_one_takes_nothing() {
    let (_, buffer) = after(expert(), "<enter>m<tab>31,s,d,2", SIZE);
    assert!(text(&buffer).contains("September"), "{}", text(&buffer));
    let (app, buffer) = after(expert(), "<enter>m<tab><enter>", SIZE);
    assert_eq!(title(&app), Some("Registration diamond"));
    assert!(app.piece().evidence().is_empty());
    assert!(text(&buffer).contains("Type what stands"));
    // Esc goes back to the wording of the mark.
    let (app, _) = played(app, "<esc>", SIZE);
    assert_eq!(title(&app), Some("Read the back"));
}

/// A word that is not there speaks only when the person says that nothing else stands there.
#[test]
fn a_missing_word_speaks_only_of_a_whole_mark() {
    let (part, _) = after(expert(), "<enter>mIRONSTONE CHINA<enter>", SIZE);
    assert_eq!(said(&part, "country-word"), None);
    let (whole, buffer) = after(expert(), "<enter>mIRONSTONE CHINA<right>", (120, 40));
    assert!(text(&buffer).contains("country word"), "{}", text(&buffer));
    let (whole, _) = played(whole, "<enter>", SIZE);
    assert!(said(&whole, "country-word").is_some());
    let (taken_back, _) = after(
        expert(),
        "<enter>mIRONSTONE CHINA<right><right><enter>",
        SIZE,
    );
    assert_eq!(taken_back.piece().evidence(), part.piece().evidence());
}

#[test]
fn a_ticket_is_judged_as_the_command_judges_it() {
    let (app, _) = after(expert(), "<enter>mMADE IN ENGLAND<enter>tGeorgian", SIZE);
    let answer = answer(&app).as_ref().unwrap();
    assert_eq!(answer.answer, ClaimAnswer::RuledOut);
    use printseam::internals::claim::{challenge, evenly, read};
    let claim = read(app.piece().expert(), "Georgian").unwrap();
    // Whatever setting the screens are in: a ticket is judged each year alike.
    let even = evenly(app.piece());
    assert_eq!(even.setting(), even.expert().base.neutral());
    assert_eq!(*answer, challenge(&even, claim));
}

#[test]
fn a_ticket_lies_over_the_picture_where_its_years_are() {
    for size in SIZES {
        let (app, _) = after(expert(), "<enter>01t1760s", size);
        let (_, early) = played(app, "", size);
        let (app, _) = after(expert(), "<enter>01t1990s", size);
        let (_, late) = played(app, "", size);
        let place = |buffer: &Buffer| {
            let shown = text(buffer);
            let marked = |l: &&str| l.contains(['╞', '◆']);
            let line = shown
                .lines()
                .find(marked)
                .unwrap_or_else(|| panic!("{shown}"));
            line.chars()
                .position(|c| "╞◆".contains(c))
                .unwrap_or_else(|| panic!("{shown}"))
        };
        assert!(place(&early) < place(&late), "{size:?}");
    }
}

#[test]
fn enter_on_a_ticket_goes_to_the_look_that_settles() {
    let (app, _) = after(expert(), "<enter>01t1840s", SIZE);
    let look = answer(&app).as_ref().unwrap().look.unwrap();
    let (app, _) = played(app, "<enter>", SIZE);
    assert_eq!((title(&app), app.clue()), (None, Some(look.clue)));
}

#[test]
fn a_ticket_that_cannot_be_read_says_what_can() {
    let (app, buffer) = after(expert(), "<enter>01tgrandmother<enter>", SIZE);
    assert!(text(&buffer).contains("Victorian"), "{}", text(&buffer));
    assert_eq!(title(&app), Some("Check a ticket"));
}

#[test]
fn nothing_is_changed_by_a_trial_until_it_is_accepted() {
    for size in SIZES {
        let (app, _) = after(expert(), "<enter>0101", size);
        let before = app.piece().clone();
        let (app, buffer) = played(app, "w<up><right><right>", size);
        let shown = text(&buffer);
        assert!(shown.contains("now") && shown.contains("then"), "{shown}");
        assert_eq!(app.piece().evidence(), before.evidence());
        let (dropped, _) = played(app, "<esc>", size);
        assert_eq!(dropped.piece().evidence(), before.evidence());
        let (app, _) = played(dropped, "w<up><right><right><enter>", size);
        assert_eq!(title(&app), None);
        assert_ne!(app.piece().evidence(), before.evidence());
        let (app, _) = played(app, "u", size);
        assert_eq!(app.piece().evidence(), before.evidence());
    }
}

/// What stands under "then" is what comes true when it is accepted.
#[test]
fn a_trial_foretells_the_verdict() {
    let (app, buffer) = after(expert(), "<enter>0101w<up><right>", SIZE);
    let foretold = text(&buffer);
    let (app, _) = played(app, "<enter>", SIZE);
    let judgement = app.piece().judgement();
    let band = format!("{}–{}", judgement.band().from.0, judgement.band().to.0);
    let line = foretold.lines().find(|l| l.contains("80 % band")).unwrap();
    assert!(
        line.trim_end_matches('│').trim_end().ends_with(&band),
        "{line} {band}"
    );
    let middle = foretold.lines().find(|l| l.contains("middle year"));
    let middle = middle.unwrap().trim_end_matches('│').trim_end();
    assert!(
        middle.ends_with(&judgement.median.0.to_string()),
        "{middle}"
    );
}

#[test]
fn a_trial_goes_round_all_findings_and_not_looked_at() {
    let (app, _) = after(small(), "<enter>01", SIZE);
    let clue = app.piece().evidence().observations()[0].clue;
    let findings = app.piece().expert().base.clue(clue).findings.len();
    let round = "<right>".repeat(findings + 1);
    let (app, buffer) = played(app, &format!("w<up>{round}"), SIZE);
    assert!(text(&buffer).contains("Nothing is changed yet"));
    let (app, buffer) = played(app, "f", (120, 40));
    let shown = text(&buffer);
    assert!(
        shown.contains("not looked at,") && shown.contains("was blue"),
        "{shown}"
    );
    let (app, _) = played(app, "<right>s<enter>", SIZE);
    let entry = app.piece().evidence().of(clue).unwrap();
    assert_eq!(entry.sure, Sure::Unsure);
}

#[test]
fn every_trade_word_is_explained_on_a_key() {
    let expert = expert();
    let (mut app, _) = after(expert.clone(), "<enter>", (120, 40));
    for term in &expert.base.glossary {
        for written in term.written() {
            app.press(Key::Char('g'));
            written.chars().for_each(|c| app.press(Key::Char(c)));
            let shown = text(&frame(&app, (120, 40)).0);
            app.press(Key::Esc);
            let word = shown.to_lowercase();
            assert!(
                word.contains(&format!("· {}:", term.term.to_lowercase())),
                "{written}\n{shown}"
            );
        }
    }
}

/// Words of a question are underlined where they stand, and a tap on one explains it.
#[test]
fn trade_words_of_a_question_lead_to_the_glossary() {
    let expert = expert();
    let mut found = 0;
    let mut app = after(expert.clone(), "<enter>", SIZE).0;
    for clue in expert.engine().model.clue_ids() {
        app.update(Msg::GoTo(clue));
        let (buffer, shown) = frame(&app, SIZE);
        for (i, term) in expert.base.glossary.iter().enumerate() {
            let Some(at) = shown.area_of(Msg::Word(i)) else {
                continue;
            };
            found += 1;
            let words = words_at(&buffer, at).to_lowercase();
            let mut written = term.written().map(str::to_lowercase);
            assert!(written.any(|w| w == words), "{words}");
            let style = buffer[(at.x, at.y)].modifier;
            assert!(style.contains(Modifier::UNDERLINED), "{words}");
            let (clicked, buffer, _) = clicked(app, Msg::Word(i));
            assert_eq!(title(&clicked), Some("Trade words"));
            let explained = format!("· {}", term.term.to_lowercase());
            assert!(text(&buffer).to_lowercase().contains(&explained));
            app = clicked;
            app.press(Key::Esc);
            assert_eq!((title(&app), app.clue()), (None, Some(clue)));
        }
    }
    assert!(found >= 10, "{found}");
}

#[test]
fn words_of_the_screen_come_before_the_others() {
    let (app, buffer) = after(expert(), "<enter>01v", SIZE);
    assert_eq!(app.screen(), Screen::Verdict);
    drop(buffer);
    let (_, buffer) = played(app, "g", (120, 40));
    let shown = text(&buffer);
    let here = shown
        .find("On the screen")
        .unwrap_or_else(|| panic!("{shown}"));
    if let Some(others) = shown.find("All others") {
        assert!(here < others);
    }
}

/// A setting changed by mistake is not a change for good.
#[test]
fn another_setting_can_be_undone() {
    let (app, _) = after(small(), "<enter>0101", SIZE);
    let before = app.piece().judgement().band();
    let (app, _) = played(app, "c3", SIZE);
    assert_eq!(app.piece().setting(), SettingId(2));
    let (app, _) = played(app, "u", SIZE);
    assert_eq!(app.piece().setting(), SettingId(0));
    assert_eq!(app.piece().judgement().band(), before);
}

/// A clue is found by any word its findings are said in, whatever the case, accents or hyphens.
#[test]
fn a_clue_is_found_by_a_spoken_form() {
    let (app, buffer) = after(expert(), "<enter>01jBlue-dyed", SIZE);
    assert!(!text(&buffer).contains("No clue has"), "{}", text(&buffer));
    let (app, _) = played(app, "<enter>", SIZE);
    let body = app.clue().unwrap();
    let forms = |f: &printseam::internals::rulebase::definitions::Finding| f.spoken.join(" ");
    let said = app
        .piece()
        .expert()
        .base
        .clue(body)
        .findings
        .iter()
        .map(forms);
    assert!(said.collect::<String>().contains("blue-dyed"));
}
