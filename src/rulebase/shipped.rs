//! The rule files built into the program. A test holds this list equal to the folder `rules/`.

use super::source::SourceFile;

macro_rules! shipped {
    ($($name:literal),* $(,)?) => {
        /// Names and texts of the shipped files.
        const FILES: &[(&str, &str)] = &[$(($name, include_str!(concat!("../../rules/", $name)))),*];
    };
}

shipped![
    "sources.ron",
    "places.ron",
    "kinds.ron",
    "families.ron",
    "kernels.ron",
    "settings.ron",
    "clues/front.ron",
    "clues/loupe.ron",
    "clues/glaze.ron",
    "clues/back.ron",
    "clues/shape.ron",
    "clues/mark.ron",
    "clues/condition.ron",
    "marks/wording.ron",
    "marks/registry.ron",
    "rarity.ron",
    "market.ron",
    "counted.ron",
    "cautions.ron",
    "glossary.ron",
    "words.ron",
    "glance.ron",
    "lessons.ron",
];

/// The shipped files.
pub fn files() -> Vec<SourceFile> {
    FILES
        .iter()
        .map(|(name, text)| SourceFile {
            name: (*name).to_owned(),
            text: (*text).to_owned(),
        })
        .collect()
}
