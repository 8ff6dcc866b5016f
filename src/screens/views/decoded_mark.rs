//! What a mark says: registrations decoded, findings, phrases, and what was not recognised.

use crate::piece::expert::Expert;
use crate::piece::reading::MarkHeard;
use crate::registry::decoded::Decoded;
use crate::say::names::clue_name;
use crate::say::observation::seen;
use crate::say::registration::{self, REGISTRATION_IS_A_FLOOR, registered};
use crate::screens::kit::rows::{Row, item};
use crate::screens::kit::theme::Theme;

/// More runs of days than this are summed up, and stand in full further down.
const MOST_DATES: usize = 3;

/// Registrations decoded, findings, each phrase with what it dates, and what was not recognised.
pub(crate) fn rows(expert: &Expert, mark: &MarkHeard, theme: Theme, cells: usize) -> Vec<Row> {
    let mut out = Vec::new();
    let registrations = &mark.reading.registered;
    for decoded in registrations {
        if let Some(problem) = registration::problem(decoded) {
            out.extend(item("! ", &problem, cells, theme.caution));
        }
        if let (n, Some((from, to))) = (decoded.dates.len(), decoded.years())
            && n > MOST_DATES
        {
            let line = format!("registered between {from} and {to}, in one of {n} runs of days");
            out.extend(item("✓ ", &line, cells, theme.band));
        } else {
            out.extend(dates(decoded, theme, cells));
        }
        let again = registration::look_again_all(decoded);
        if !again.is_empty() {
            let line = format!("look again at: {}", again.join(", "));
            out.extend(item("! ", &line, cells, theme.caution));
        }
    }
    for observation in &mark.entries {
        let name = clue_name(expert, observation.clue);
        let line = format!("{name}: {}", seen(expert, observation));
        out.extend(item("✓ ", &line, cells, theme.key));
    }
    for decoded in registrations {
        for why in &decoded.why {
            out.extend(item("  ", &registration::why(why), cells, theme.quiet));
        }
    }
    if registrations.iter().any(|d| !d.dates.is_empty()) {
        out.extend(item("  ", REGISTRATION_IS_A_FLOOR, cells, theme.quiet));
    }
    for decoded in registrations.iter().filter(|d| d.dates.len() > MOST_DATES) {
        out.extend(dates(decoded, theme, cells));
    }
    for phrase in &mark.reading.phrases {
        let line = format!("{}: {}", phrase.text, phrase.because);
        out.extend(item("· ", &line, cells, theme.quiet));
    }
    for unread in mark.reading.unread.iter().filter(|u| !u.name) {
        let line = format!("{} (not recognised)", unread.text);
        out.extend(item("? ", &line, cells, theme.caution));
    }
    out
}

fn dates(decoded: &Decoded, theme: Theme, cells: usize) -> Vec<Row> {
    let lines = decoded.dates.iter().map(registered);
    lines
        .flat_map(|line| item("✓ ", &line, cells, theme.band))
        .collect()
}
