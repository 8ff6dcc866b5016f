//! How uncommon the piece is, and the bits each trait adds.

use crate::piece::Piece;

/// The score, what it means and leaves out, and the bits each trait adds.
pub fn rarity(piece: &Piece) -> Vec<String> {
    let rarity = piece.rarity();
    let mut out = vec![
        format!(
            "{:.0} of 100: that share of the pieces found in such a place are commoner than this one",
            rarity.score
        ),
        format!(
            "{:.0} of 100 among pieces of its kind and age",
            piece.rarity_of_its_kind()
        ),
        "rare is not dear, and size, series, condition and missing parts are left out".to_owned(),
        format!("kind and age add {:.1} bits", rarity.kind_and_age),
    ];
    for (feature, bits) in piece.expert().base.market.iter().zip(&rarity.traits) {
        out.push(match bits {
            Some(bits) => format!("{} adds {bits:.1} bits", feature.name),
            None => format!("{} not looked at, averaged over", feature.name),
        });
    }
    out
}

/// The same in one line.
pub fn rarity_line(piece: &Piece) -> String {
    format!("Rarity {}", rarity(piece).join("; "))
}
