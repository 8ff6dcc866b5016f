//! What the terminal can show, as far as the environment tells.

use std::env;

/// What is known of the terminal.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Display {
    /// `TERM`; empty when it is not set.
    pub term: String,
    /// True when the locale says that letters beyond ASCII can't be shown. One that says nothing is
    /// taken for UTF-8, as terminals are today.
    pub ascii_only: bool,
    /// The variable that says so, with its value.
    pub locale: String,
    /// `NO_COLOR` is set.
    pub plain: bool,
}

impl Display {
    /// That of this process.
    pub fn of_process() -> Display {
        Display::told(&|name| env::var(name).ok().filter(|v| !v.is_empty()))
    }

    /// By the variables of an environment, those set to something.
    pub fn told(variable: &dyn Fn(&str) -> Option<String>) -> Display {
        // The first that is set decides (POSIX, 8.2).
        let named = ["LC_ALL", "LC_CTYPE", "LANG"];
        let locale = named
            .into_iter()
            .find_map(|name| Some((name, variable(name)?)));
        let lower = locale.as_ref().map(|(_, value)| value.to_lowercase());
        let ascii_only = lower.is_some_and(|l| !l.contains("utf-8") && !l.contains("utf8"));
        Display {
            term: variable("TERM").unwrap_or_default(),
            ascii_only: cfg!(unix) && ascii_only,
            locale: locale.map_or("no locale set".to_owned(), |(name, v)| {
                format!("{name}={v}")
            }),
            plain: variable("NO_COLOR").is_some(),
        }
    }

    /// Why the screens can't be shown; `None` when they can. Such a terminal writes on and on: it
    /// can't put anything in its place.
    pub fn refuses(&self) -> Option<String> {
        let writes_on = cfg!(unix) && (self.term == "dumb" || self.term.is_empty());
        writes_on.then(|| {
            format!(
                "this terminal can't show the screens (TERM is '{}'); use 'printseam ask', which asks \
                 the same questions line by line",
                self.term
            )
        })
    }
}

#[cfg(all(test, unix))]
mod tests {
    use super::Display;

    fn told(variables: &[(&str, &str)]) -> Display {
        Display::told(&|name| {
            let found = variables.iter().find(|(n, _)| *n == name);
            found.map(|(_, value)| (*value).to_owned())
        })
    }

    #[test]
    fn the_first_locale_that_is_set_decides() {
        assert!(!told(&[]).ascii_only);
        assert!(!told(&[("LANG", "en_GB.UTF-8")]).ascii_only);
        assert!(!told(&[("LANG", "C"), ("LC_ALL", "C.utf8")]).ascii_only);
        assert!(told(&[("LANG", "en_GB.UTF-8"), ("LC_ALL", "C")]).ascii_only);
        assert!(told(&[("LANG", "de_DE.ISO-8859-1")]).ascii_only);
        assert_eq!(told(&[("LC_CTYPE", "POSIX")]).locale, "LC_CTYPE=POSIX");
    }

    #[test]
    fn a_terminal_that_only_writes_on_is_refused() {
        assert!(told(&[("TERM", "dumb")]).refuses().is_some());
        assert!(told(&[]).refuses().is_some());
        assert_eq!(told(&[("TERM", "xterm-256color")]).refuses(), None);
        assert!(told(&[("NO_COLOR", "1")]).plain);
    }
}
