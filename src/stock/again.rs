//! A stored piece judged with today's rules: what changed, and why.
//!
//! Mark and notes are read anew, since reading them belongs to the rules. What was said outright
//! counts as it was said; what the mark or the notes once said and today's reading does not hear is
//! left out and told.

use std::sync::Arc;

use super::entry::{Entry, KeptFinding, KeptSighting, KeptVerdict};
use super::keep;
use crate::core::observation::{Observation, Origin};
use crate::piece::Piece;
use crate::piece::expert::Expert;
use crate::piece::intake::{Taken, Told, intake};
use crate::piece::notation::{self, Refused};

/// One finding that is not as it was.
#[derive(Clone, Debug, PartialEq)]
pub enum Difference {
    /// Heard today in what was told then.
    Heard(KeptFinding),
    /// Heard then, and not today.
    NotHeard(KeptFinding),
    /// The rules don't know it any longer, and why.
    NotKnown(KeptFinding, Refused),
}

/// A stored piece, then and now.
#[derive(Debug)]
pub struct Again {
    pub then: Option<KeptVerdict>,
    pub now: KeptVerdict,
    pub sighting: KeptSighting,
    pub differences: Vec<Difference>,
    pub piece: Piece,
    pub taken: Taken,
}

impl Again {
    /// True when another kind leads or the band has moved.
    pub fn answer_changed(&self) -> bool {
        let answer = |v: &KeptVerdict| (v.kind.clone(), v.from, v.to);
        self.then.as_ref().map(answer) != Some(answer(&self.now))
    }

    /// True when the rules are others than then.
    pub fn rules_changed(&self) -> bool {
        self.then
            .as_ref()
            .is_none_or(|then| then.rules != self.now.rules)
    }
}

/// Judges an entry with today's rules.
///
/// # Errors
/// When nothing can be made of what was told.
pub fn judge(expert: &Arc<Expert>, entry: &Entry) -> Result<Again, Refused> {
    let told = &entry.sighting;
    let (outright, mut unknown) = outright(expert, told);
    let taken = intake(
        expert,
        &Told {
            mark: &told.mark,
            mark_complete: told.mark_complete,
            notes: &told.notes,
            saw: &outright,
            ..Told::default()
        },
    )?;
    let setting = expert.base.setting(&told.setting);
    if setting.is_none() && !told.setting.is_empty() {
        let lost = KeptFinding {
            said: format!("setting {}", told.setting),
            origin: Origin::Hand,
        };
        unknown.push((
            lost,
            Refused("judged as if found in the first setting of the rules".into()),
        ));
    }
    let setting = setting.unwrap_or_default();
    let piece = Piece::new(expert.clone(), setting, taken.evidence.clone());
    let sighting = keep::sighting(&piece, &told.mark, told.mark_complete, &told.notes);
    let mut differences = differences(&told.findings, &sighting.findings, &unknown);
    differences.extend(
        unknown
            .into_iter()
            .map(|(f, why)| Difference::NotKnown(f, why)),
    );
    Ok(Again {
        then: entry.verdict.clone(),
        now: keep::verdict(&piece),
        sighting,
        differences,
        piece,
        taken,
    })
}

type Unknown = Vec<(KeptFinding, Refused)>;

/// What does not come from a mark or notes that are read anew, and what the rules don't know. Of a
/// piece entered on the screens only the findings are kept, wherever they came from.
fn outright(expert: &Expert, told: &KeptSighting) -> (Vec<Observation>, Unknown) {
    let read_anew = |origin| match origin {
        Origin::Mark => !told.mark.is_empty(),
        Origin::Notes => !told.notes.is_empty(),
        Origin::Hand | Origin::Registration | Origin::Ticket | Origin::File => false,
    };
    let (mut known, mut unknown) = (Vec::new(), Vec::new());
    for finding in &told.findings {
        match notation::parse(&expert.base, &finding.said) {
            Ok(_) if read_anew(finding.origin) => {}
            Ok(seen) => known.push(seen.from(finding.origin)),
            Err(why) => unknown.push((finding.clone(), why)),
        }
    }
    (known, unknown)
}

fn differences(then: &[KeptFinding], now: &[KeptFinding], unknown: &Unknown) -> Vec<Difference> {
    let said = |list: &[KeptFinding], f: &KeptFinding| list.iter().any(|o| o.said == f.said);
    let told = |f: &KeptFinding| unknown.iter().any(|(u, _)| u == f);
    let heard = now
        .iter()
        .filter(|f| !said(then, f))
        .cloned()
        .map(Difference::Heard);
    let lost = then.iter().filter(|f| !said(now, f) && !told(f)).cloned();
    heard.chain(lost.map(Difference::NotHeard)).collect()
}
