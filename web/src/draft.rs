//! The piece on the table as a text, so that a page that was closed goes on where it was.

use std::sync::Arc;

use printseam::internals::piece::sighting_file;
use printseam::internals::screens::app::App;
use printseam::internals::screens::state::msg::Msg;
use printseam::internals::screens::state::place::Screen;
use printseam::internals::screens::theme::Theme;
use printseam::{Expert, SourceFile};
use serde_json::{Value, json};

/// The piece, the lines begun, and whether the verdict is open; `None` while there is nothing to lose.
pub fn write(app: &App) -> Option<String> {
    if app.screen() == Screen::Welcome {
        return None;
    }
    let piece = app.piece();
    let base = &piece.expert().base;
    let sighting = sighting_file::write(base, piece.setting(), piece.evidence());
    let verdict = app.screen() == Screen::Verdict;
    let lines = app.unfinished();
    Some(json!({"sighting": sighting, "lines": lines, "verdict": verdict}).to_string())
}

/// The screens as they were left; `None` for a text that today's rules can't read.
pub fn read(text: &str, expert: &Arc<Expert>, theme: Theme) -> Option<App> {
    let kept: Value = serde_json::from_str(text).ok()?;
    let file = SourceFile {
        name: "draft".to_owned(),
        text: kept["sighting"].as_str()?.to_owned(),
    };
    let sighting = sighting_file::read(&expert.base, &file).ok()?;
    let setting = sighting.setting.unwrap_or_default();
    let lines: Vec<(String, String)> = serde_json::from_value(kept["lines"].clone()).ok()?;
    let app = App::opened(expert.clone(), theme, setting, &sighting.saw);
    let mut app = app.with_unfinished(&lines);
    if kept["verdict"].as_bool()? {
        app.update(Msg::Verdict);
    }
    Some(app)
}

#[cfg(test)]
mod tests {
    use super::{read, write};
    use printseam::internals::screens::app::App;
    use printseam::internals::screens::state::input::keys;
    use printseam::internals::screens::theme::Theme;
    use printseam::{Expert, Year};
    use std::sync::Arc;

    fn after(typed: &str) -> App {
        let expert = Arc::new(Expert::shipped(Year(2026)).unwrap());
        let mut app = App::new(expert, Theme::mono());
        keys(typed).unwrap().into_iter().for_each(|k| app.press(k));
        app
    }

    #[test]
    fn what_was_seen_and_begun_comes_back() {
        assert_eq!(write(&after("2")), None);
        // Past the first glance two answers, a line of a mark begun and left open.
        for typed in [
            "2<enter><esc>1",
            "1<enter><esc>1<esc>2m",
            "1<enter><esc>1<esc>v",
        ] {
            let app =
                after(&(typed.to_owned() + if typed.ends_with('m') { "MADE IN" } else { "" }));
            let text = write(&app).unwrap();
            let again = read(&text, app.piece().expert(), Theme::mono()).unwrap();
            assert!(again.piece().same_as(app.piece()), "{typed}");
            assert_eq!(again.screen(), app.screen(), "{typed}");
            assert_eq!(again.unfinished(), app.unfinished(), "{typed}");
            assert_eq!(write(&again).unwrap(), text, "{typed}");
        }
        let mark = after("1<enter><esc>1<esc>mMADE IN");
        assert!(write(&mark).unwrap().contains("MADE IN"));
    }

    #[test]
    fn a_draft_of_other_rules_is_left() {
        let app = after("1<enter><esc>1");
        let text = write(&app)
            .unwrap()
            .replace("saw: [", "saw: [\\\"no-such=thing\\\",");
        assert!(read(&text, app.piece().expert(), Theme::mono()).is_none());
    }
}
