//! How uncommon the piece is, and the bits each feature adds.

use crate::piece::Piece;

/// The score, what it means, and the bits each feature adds.
pub fn rarity(piece: &Piece) -> Vec<String> {
    let rarity = &piece.judgement().rarity;
    let mut out = vec![
        format!(
            "{:.0} of 100: that share of the pieces found in such a place are commoner than this one; not a price",
            rarity.score
        ),
        format!("kind and age add {:.1} bits", rarity.kind_and_age),
    ];
    for (feature, bits) in piece.expert().base.market.iter().zip(&rarity.features) {
        out.push(match bits {
            Some(bits) => format!("{} adds {bits:.1} bits", feature.name),
            None => format!("{} not seen, left out", feature.name),
        });
    }
    out
}

/// The same in one line.
pub fn rarity_line(piece: &Piece) -> String {
    format!("Rarity {}", rarity(piece).join("; "))
}
