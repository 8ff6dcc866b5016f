//! The loop: an event means a message, by the table of whatever has the keys; the message goes to
//! the popup on top or to the screen; what the popup answers is carried out here.

use std::sync::Arc;

use ratatui::Frame;
use ratatui::layout::{Position, Rect};

use super::draw;
use super::kit::said::Said;
use super::kit::theme::Theme;
use super::popups::drill::DrillScreen;
use super::popups::popup::{Effect, Popup};
use super::popups::remarks::Remarks;
use super::popups::words;
use super::screen_keys::{open, screen_keys};
use super::state::input::{Input, Key};
use super::state::keys::{KeyTable, Writes};
use super::state::msg::Msg;
use super::state::place::Screen;
use super::state::save::Save;
use super::state::session::{AtHand, Session};
use super::state::shown::Shown;
use super::update;
use crate::buy::Terms;
use crate::core::grid::ClueId;
use crate::core::observation::Observation;
use crate::learn::round::Sitting;
use crate::piece::Piece;
use crate::piece::expert::Expert;
use crate::piece::intake::Taken;
use crate::piece::typed_mark::words_to_type;
use crate::rulebase::ids::SettingId;
use crate::say::taken;
use crate::stock::store::{Answer, Ask, Outbox, Ticket, Trouble};

/// The screens: what they know, and what is open over them.
#[derive(Debug)]
pub struct App {
    theme: Theme,
    session: Session,
    popups: Vec<Box<dyn Popup>>,
    /// The first figure of an item's number, waiting for a second one.
    figure: Option<usize>,
    /// A file that should be written.
    wanted: Option<Save>,
    outbox: Outbox,
    /// The message to the stock book whose answer the popup on top waits for.
    awaited: Option<Ticket>,
    /// True when the program should end.
    pub done: bool,
    /// True when the program should be put aside; whoever shows the screens does it.
    pub aside: bool,
}

impl App {
    /// The welcome screen, with the first setting chosen.
    pub fn new(expert: Arc<Expert>, theme: Theme) -> App {
        App::with(Session::new(expert), theme)
    }

    /// The same, past the welcome, with findings already given.
    pub fn opened(
        expert: Arc<Expert>,
        theme: Theme,
        setting: SettingId,
        saw: &[Observation],
    ) -> App {
        App::with(Session::opened(expert, setting, saw), theme)
    }

    fn with(session: Session, theme: Theme) -> App {
        session.work_out();
        App {
            theme,
            session,
            popups: Vec::new(),
            figure: None,
            wanted: None,
            outbox: Outbox::default(),
            awaited: None,
            done: false,
            aside: false,
        }
    }

    /// The same with what a file told; what was understood of it and what was not is read first.
    pub fn of_file(expert: Arc<Expert>, theme: Theme, setting: SettingId, told: &Taken) -> App {
        let remarks = taken::lines_with_opinion(&expert, told);
        let mut app = App::opened(expert, theme, setting, told.evidence.observations());
        if !remarks.is_empty() {
            app.popups.push(Box::new(Remarks::of_file(remarks)));
        }
        app
    }

    /// The same with lines begun and not taken, as `unfinished` gives them.
    pub fn with_unfinished(mut self, lines: &[(String, String)]) -> App {
        for (title, line) in lines {
            self.session.keep_unfinished(title, line);
        }
        self
    }

    /// Lines begun and not taken, each with the title of what it is typed into.
    pub fn unfinished(&self) -> Vec<(String, String)> {
        let open = self.popups.iter().rev();
        let open = open.filter_map(|p| Some((p.title().to_owned(), p.unfinished()?.to_owned())));
        let mut lines: Vec<(String, String)> = Vec::new();
        for (title, line) in open.chain(self.session.unfinished.iter().cloned()) {
            if !line.is_empty() && lines.iter().all(|(t, _)| *t != title) {
                lines.push((title, line));
            }
        }
        lines
    }

    /// Leaves so many columns free at the end of the first row, for whoever shows the screens.
    pub fn leave_corner(&mut self, columns: u16) {
        self.session.corner = columns;
    }

    /// Can't be put aside from now on: where the screens are there is no shell.
    pub fn stay(&mut self) {
        self.session.stays = true;
    }

    /// Another theme from now on.
    pub fn set_theme(&mut self, theme: Theme) {
        self.theme = theme;
    }

    /// The same with a stock book to speak to.
    pub fn with_stock(mut self, at_hand: AtHand) -> App {
        self.session.stock = Some(at_hand);
        self
    }

    /// The same with somebody who sits down to drill, where there is a book to keep what is learnt.
    pub fn drilling(mut self, sitting: Sitting) -> App {
        if let Some(at_hand) = self.session.stock() {
            self.popups
                .push(Box::new(DrillScreen::new(at_hand, sitting)));
            self.send();
        }
        self
    }

    /// The user's own terms of selling from now on; without them the usual ones hold.
    pub fn set_terms(&mut self, terms: Option<Terms>) {
        self.session.terms = terms;
    }

    /// Messages to the stock book, the oldest first; the answers go to `answered`.
    pub fn messages(&mut self) -> Vec<(Ticket, Ask)> {
        self.outbox.collect()
    }

    /// Has every message answered, and those that follow from the answers.
    pub fn deliver(&mut self, clerk: &mut dyn FnMut(Ask) -> Result<Answer, Trouble>) {
        loop {
            let messages = self.messages();
            if messages.is_empty() {
                return;
            }
            for (ticket, ask) in messages {
                self.answered(ticket, clerk(ask));
            }
        }
    }

    /// Takes an answer of the stock book. One that nobody waits for any longer is dropped.
    pub fn answered(&mut self, ticket: Ticket, answer: Result<Answer, Trouble>) {
        if self.awaited != Some(ticket) {
            return;
        }
        self.awaited = None;
        if let Some(popup) = self.popups.last_mut() {
            let effect = popup.answered(answer, &self.session);
            self.carry_out(effect, Msg::Nothing);
        }
        self.send();
        self.session.work_out();
    }

    /// Puts what the popup on top has to ask into the outbox.
    fn send(&mut self) {
        if let Some(ask) = self.popups.last_mut().and_then(|popup| popup.ask()) {
            self.awaited = Some(self.outbox.ask(ask));
        }
    }

    /// Takes one event.
    pub fn handle(&mut self, input: Input) {
        let before = self.figure.take();
        let msg = match input {
            Input::Key(key) => return self.key(key, before),
            Input::Paste(text) => return self.paste(&text),
            Input::Click { x, y } => self.session.shown().at(Position::new(x, y)),
            Input::Wheel { down: true } => Some(Msg::Down),
            Input::Wheel { down: false } => Some(Msg::Up),
        };
        if let Some(msg) = msg {
            self.update(msg);
        }
    }

    /// A key; `before`: the figure typed just before.
    fn key(&mut self, key: Key, before: Option<usize>) {
        let keys = self.keys();
        let meaning = keys.meaning(key, before);
        if let Some(msg) = meaning.msg {
            self.update(msg);
        }
        self.figure = meaning.typed;
        if let Some(number) = meaning.typed.filter(|n| *n > 0) {
            let most = (10 * number + 9).min(keys.items);
            let least = 10 * number;
            let then = match least == most {
                true => format!("{least}"),
                false => format!("one of {least} to {most}"),
            };
            self.session.notify(format!(
                "{number}: Enter takes it; a second figure makes it {then}."
            ));
        }
        if let Some(number) = meaning.none_such {
            let all = keys.items;
            self.session
                .notify(format!("There is no {number}: choose from 1 to {all}."));
        }
    }

    /// A text that came all at once: into the field that is open, read once.
    fn paste(&mut self, text: &str) {
        let left_out = match self.keys().writes {
            Writes::Nothing => {
                let nothing = "Pasted text goes into a field: l opens a line of notes.";
                return self.session.notify(nothing);
            }
            Writes::Figures => self.session.paste_figures(text),
            Writes::Text => match self.popups.last_mut() {
                Some(popup) => popup.paste(text, &self.session),
                None => return,
            },
        };
        self.session.notify(match left_out {
            0 => String::new(),
            1 => "1 letter has no room here and was left out.".to_owned(),
            n => format!("{n} letters have no room here and were left out."),
        });
        self.send();
        self.session.work_out();
    }

    /// The file that should be written now; asked for once.
    pub fn wanted(&mut self) -> Option<Save> {
        self.wanted.take()
    }

    /// How the writing went: where the file is, or why there is none.
    pub fn saved(&mut self, written: Result<String, String>) {
        match written {
            Ok(place) => {
                self.popups.pop();
                self.session.notify(format!("Written to {place}."));
            }
            Err(why) => self.session.notify(why),
        }
    }

    /// A key as if pressed; for tests and other backends.
    pub fn press(&mut self, key: Key) {
        self.handle(Input::Key(key));
    }

    /// Every key that works now.
    pub fn keys(&self) -> KeyTable {
        match self.popup() {
            Some(popup) => popup.keys(&self.session),
            None => screen_keys(&self.session),
        }
    }

    /// Does what was asked.
    pub fn update(&mut self, msg: Msg) {
        self.session.notify("");
        let (before, had_words) = (self.screen(), self.has_words_to_type());
        match self.popups.last_mut() {
            Some(popup) => {
                let effect = popup.update(msg, &self.session);
                self.carry_out(effect, msg);
            }
            None => self.below(msg),
        }
        self.offer(msg, before, had_words);
        self.send();
        // So that drawing only reads.
        self.session.work_out();
    }

    /// Draws one frame. Give what comes back to `drawn`, so that clicks find their mark.
    pub fn draw(&self, frame: &mut Frame) -> Shown {
        let (area, buf) = (frame.area(), frame.buffer_mut());
        let keys = self.keys();
        draw::draw(&self.session, &self.popups, &keys, self.theme, area, buf)
    }

    /// The frame in words and what can be chosen, for whoever hears the screens; a choice goes to
    /// `update`.
    pub fn in_words(&self) -> Vec<Said> {
        draw::in_words(&self.session, &self.popups, &self.keys())
    }

    /// Remembers where the frame put things.
    pub fn drawn(&mut self, shown: Shown) {
        self.session.keep_shown(shown);
    }

    /// What is said after the last message; empty when nothing is.
    pub fn notice(&self) -> &str {
        self.session.notice()
    }

    /// Where the last frame has what means this.
    pub fn area_of(&self, msg: Msg) -> Option<Rect> {
        self.session.shown().area_of(msg)
    }

    /// The piece on the table.
    pub fn piece(&self) -> &Piece {
        self.session.piece()
    }

    /// The screen that fills the window.
    pub fn screen(&self) -> Screen {
        self.session.screen()
    }

    /// The popup on top.
    pub fn popup(&self) -> Option<&dyn Popup> {
        self.popups.last().map(Box::as_ref)
    }

    /// The clue being asked: one gone to, or the best next look; `None` when it is time to stop.
    pub fn clue(&self) -> Option<ClueId> {
        self.session.clue()
    }

    /// A message while nothing is open over the screen.
    fn below(&mut self, msg: Msg) {
        match msg {
            Msg::Open(_) | Msg::Word(_) | Msg::Leave | Msg::Aside => self.anywhere(msg),
            _ => update::update(&mut self.session, msg),
        }
    }

    /// True when it is known that there is a mark, and its words have not been typed.
    fn has_words_to_type(&self) -> bool {
        let piece = self.piece();
        !words_to_type(piece.expert(), piece.evidence()).is_empty()
    }

    /// Opens what the message led to: the first glance at the start, and the mark to be typed as
    /// soon as there is one. What is taken back is not offered again.
    fn offer(&mut self, msg: Msg, before: Screen, had_words: bool) {
        if self.screen() != Screen::Look || !self.popups.is_empty() || msg == Msg::Undo {
            return;
        }
        let begins = before == Screen::Welcome || msg == Msg::NewPiece;
        if begins && self.piece().evidence().is_empty() {
            self.anywhere(Msg::Open('e'));
        } else if !had_words && self.has_words_to_type() {
            self.anywhere(Msg::Open('m'));
        }
    }

    /// A message that means the same whatever is open.
    fn anywhere(&mut self, msg: Msg) {
        match msg {
            Msg::Open(letter) => {
                let effect = open(&self.session, letter);
                self.carry_out(effect, Msg::Nothing);
            }
            Msg::Word(term) => {
                let effect = words::explain(&self.session, term);
                self.carry_out(effect, Msg::Nothing);
            }
            Msg::Close => self.close(),
            Msg::Leave => self.done = true,
            Msg::Aside => self.aside = !self.session.stays,
            _ => {}
        }
    }

    /// Closes the popup on top; a line typed in it is there when it is opened again.
    fn close(&mut self) {
        if let Some(popup) = self.popups.pop()
            && let Some(line) = popup.unfinished()
        {
            self.session.keep_unfinished(popup.title(), line);
        }
    }

    /// Closes all: what was typed has been taken, and is not kept.
    fn taken(&mut self) {
        for popup in self.popups.drain(..) {
            if popup.unfinished().is_some() {
                self.session.keep_unfinished(popup.title(), "");
            }
        }
    }

    /// Does what the popup on top answered to a message.
    fn carry_out(&mut self, effect: Effect, msg: Msg) {
        match effect {
            Effect::Stay => {}
            Effect::Pass => self.anywhere(msg),
            Effect::Open(popup) => self.popups.push(popup),
            Effect::Below(msg) => {
                self.close();
                self.below(msg);
            }
            Effect::GoTo(clue) => {
                while !self.popups.is_empty() {
                    self.close();
                }
                self.session.look(Some(clue));
            }
            Effect::Take(observations) if observations.is_empty() => {
                self.session.notify("Nothing here was understood.");
            }
            Effect::Take(observations) => {
                self.taken();
                self.session.take(&observations);
            }
            Effect::Make(changes) => {
                self.popups.clear();
                self.session.make(&changes);
            }
            Effect::TakeUp(piece) => {
                self.popups.clear();
                self.session.take_up(piece);
            }
            Effect::Done(words) => {
                self.popups.pop();
                self.session.notify(words);
            }
            Effect::SetSetting(setting) => {
                self.popups.pop();
                self.session.set_setting(setting);
            }
            Effect::Save(save) => self.wanted = Some(save),
            Effect::Notify(words) => self.session.notify(words),
            Effect::Leave => self.done = true,
        }
    }
}
