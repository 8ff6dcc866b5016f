//! What the place of the find adds to what is seen.

use super::names::kind_name;
use super::odds::{against, odds};
use crate::piece::Piece;
use crate::piece::setting_effect;

/// "From what is seen alone: flow blue, about 3 in 5; counting where it was found (thrift shelf),
/// later print in old taste is as likely." `None` when the setting decides nothing.
pub fn setting_effect(piece: &Piece) -> Option<String> {
    let expert = piece.expert();
    let effect = setting_effect::setting_effect(piece)?;
    let setting = &expert.base.settings[piece.setting()].name;
    let (kind, p) = effect.alone;
    let (gains, gained) = effect.gains;
    let here = if gains == kind {
        odds(gained).to_owned()
    } else if gained >= effect.alone_here {
        let much = against(gained, effect.alone_here);
        format!("{} is {much}", kind_name(expert, gains))
    } else {
        let less = odds(effect.alone_here);
        format!("{less}, as {} turns up there too", kind_name(expert, gains))
    };
    Some(format!(
        "From what is seen alone: {}, {}; counting where it was found ({setting}), {here}.",
        kind_name(expert, kind),
        odds(p),
    ))
}
