//! What the place of the find adds to what is seen.

use super::band;
use super::names::kind_name;
use super::odds::{against, odds};
use crate::piece::Piece;
use crate::piece::setting_effect;

/// Below this the piece is likelier one of which the setting tells nothing.
const TRUSTED: f64 = 0.5;

/// "From what is seen alone: 1826 to 1850; where it was found (thrift shelf) makes it later." `None`
/// when the setting does little to the years.
pub fn years_effect(piece: &Piece) -> Option<String> {
    let effect = setting_effect::years_effect(piece)?;
    let setting = &piece.expert().base.settings[piece.setting()].name;
    let way = if effect.moved > 0 { "later" } else { "earlier" };
    let mut out = format!(
        "From what is seen alone: made {}; where it was found ({setting}) makes it {way}.",
        band::years(effect.alone.from, effect.alone.to)
    );
    if effect.trusted < TRUSTED {
        out += " Few such pieces turn up there, so that counts for little.";
    }
    Some(out)
}

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
