//! How often a spoilt phrase is still read, how often something is read that is not there, and
//! how long noise takes. Fixed seeds; the rates are printed (`--nocapture`).

// A test stops at the first surprise.
#![allow(clippy::unwrap_used)]

use printseam::internals::core::observation::Sure;
use printseam::internals::hearing::fold::words;
use printseam::internals::hearing::mark::Reads;

use crate::marks::{BOOKS, read};

/// SplitMix64: the whole random source of these tests.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) % sides as u64) as usize
    }

    fn pick<'a>(&mut self, list: &[&'a str]) -> &'a str {
        list[self.roll(list.len())]
    }
}

fn letter_places(form: &str) -> Vec<usize> {
    form.char_indices()
        .filter(|(_, c)| c.is_alphanumeric())
        .map(|(i, _)| i)
        .collect()
}

fn replaced(form: &str, at: usize, with: char) -> String {
    form.char_indices()
        .map(|(i, c)| if i == at { with } else { c })
        .collect()
}

/// One letter in five unreadable, at least one.
fn unreadable(form: &str, dice: &mut Dice) -> String {
    let mut places = letter_places(form);
    let count = (places.len() / 5).max(1);
    let mut out = form.to_owned();
    for _ in 0..count {
        let at = places.swap_remove(dice.roll(places.len()));
        // Accented letters are longer than `?`: places are kept true from the back only.
        out = replaced(&out, at, '\u{1}');
    }
    out.replace('\u{1}', "?")
}

/// One letter read as another.
fn misread(form: &str, dice: &mut Dice) -> String {
    let places = letter_places(form);
    let at = places[dice.roll(places.len())];
    let old = form[at..].chars().next().unwrap().to_ascii_lowercase();
    let mut new = old;
    while new == old {
        new = char::from(b'a' + dice.roll(26) as u8);
    }
    replaced(form, at, new)
}

/// Forms of six letters or more, ASCII so that every byte place is a letter.
fn forms() -> Vec<(&'static str, &'static str)> {
    let mut out = Vec::new();
    for phrase in BOOKS.0.phrases() {
        if phrase.reads != Reads::Words && phrase.reads != Reads::Diamond {
            continue; // the others need figures after them
        }
        for form in &phrase.forms {
            let letters: usize = words(form).iter().map(|w| w.glyphs.len()).sum();
            if letters >= 6 && form.is_ascii() {
                out.push((phrase.id.as_str(), form.as_str()));
            }
        }
    }
    out
}

/// Share of spoilt forms whose phrase is read, and the failures.
fn rate(spoil: fn(&str, &mut Dice) -> String, seed: u64) -> (f64, usize, Vec<String>) {
    let mut dice = Dice(seed);
    let (mut right, mut all, mut wrong) = (0, 0, Vec::new());
    for (id, form) in forms() {
        for _ in 0..20 {
            let text = spoil(form, &mut dice);
            let reading = read(&text);
            all += 1;
            if reading.phrases.iter().any(|p| p.phrase == id) {
                right += 1;
            } else {
                let got: Vec<&str> = reading.phrases.iter().map(|p| p.phrase.as_str()).collect();
                wrong.push(format!("{text} ({form}): {got:?}"));
            }
        }
    }
    (f64::from(right) / f64::from(all), all as usize, wrong)
}

#[test]
fn whole_forms_are_read_surely() {
    for phrase in BOOKS.0.phrases() {
        if phrase.reads != Reads::Words {
            continue;
        }
        for form in &phrase.forms {
            let reading = read(form);
            let hit = reading.phrases.iter().find(|p| p.phrase == phrase.id);
            let hit = hit.unwrap_or_else(|| panic!("{}: {form}: {reading:?}", phrase.id));
            assert_eq!(hit.sure, Sure::Sure, "{form}");
            assert!(reading.unread.is_empty(), "{form}");
        }
    }
}

#[test]
fn one_letter_in_five_unreadable() {
    let (rate, all, wrong) = rate(unreadable, 20_260_101);
    println!(
        "one letter in five unreadable: {:.1} % of {all} read",
        rate * 100.0
    );
    for line in wrong.iter().take(40) {
        println!("  missed {line}");
    }
    assert!(rate >= 0.95, "{rate}");
}

#[test]
fn one_letter_misread() {
    let (rate, all, wrong) = rate(misread, 20_260_102);
    println!("one letter misread: {:.1} % of {all} read", rate * 100.0);
    for line in wrong.iter().take(40) {
        println!("  missed {line}");
    }
    assert!(rate >= 0.95, "{rate}");
}

/// Ordinary words of pattern names; none is a word of the phrase book.
const FIRST: &[&str] = &[
    "Blue", "Summer", "Garden", "Abbey", "River", "Autumn", "Willow", "Wild", "Indian", "Spring",
    "Italian", "Swiss", "Venetian", "Chinese", "Persian", "Alpine", "Forest", "Country", "Castle",
    "Rural", "Crimson", "Trailing", "Moss", "Meadow", "Lady", "Tower", "Harvest", "Bridge",
    "Sunlit", "Golden", "Gothic", "Roman", "Grecian", "Eastern", "Morning", "Silver", "Fallow",
    "Winter", "Northern", "Lakeside", "Spanish", "Byron", "Oriental", "Arctic", "Pagoda",
];
const SECOND: &[&str] = &[
    "Views",
    "Roses",
    "Birds",
    "Scenery",
    "Temple",
    "Sprays",
    "Vine",
    "Ivy",
    "Lace",
    "Festoon",
    "Pheasants",
    "Blossom",
    "Bouquet",
    "Flowers",
    "Ruins",
    "Deer",
    "Cottage",
    "Fountain",
    "Leaf",
    "Berries",
    "Landscape",
    "Hunt",
    "Lily",
    "Thistle",
    "Fern",
    "Vase",
    "Swans",
    "Ferry",
    "Shells",
    "Windmill",
    "Mansion",
    "Parrot",
    "Daisy",
    "Peony",
    "Chrysanthemum",
    "Harbour",
    "Cattle",
    "Gardens",
    "Palace",
    "Basket",
    "Wreathed",
    "Sheaf",
    "Bower",
    "Grove",
    "Cascade",
    "Holly",
];
/// Syllables of invented surnames.
const HEADS: &[&str] = &[
    "Bran", "Kel", "Thor", "Wim", "Os", "Har", "Pel", "Stan", "Grim", "Dun", "Mar", "Fen", "Cor",
    "Hol", "Ash", "Tam", "Rad", "Lin", "Bel", "Gos", "Wen", "Nor", "Pres", "Sil", "Bav", "Aus",
];
const TAILS: &[&str] = &[
    "wick", "ford", "ley", "ton", "by", "worth", "field", "ham", "son", "man", "er", "combe",
    "stead", "more", "den", "well", "ridge", "land", "gate", "ington", "sley", "bourne",
];

#[test]
fn nothing_is_read_that_is_not_there() {
    let mut dice = Dice(20_260_103);
    let mut wrong = Vec::new();
    let mut all = 0;
    for i in 0..2_000 {
        let text = if i % 2 == 0 {
            let (first, second) = (dice.pick(FIRST), dice.pick(SECOND));
            match dice.roll(3) {
                0 => format!("{first} {second}"),
                1 => format!("{} {second}", first.to_uppercase()),
                _ => format!("{first} {} {second}", dice.pick(SECOND)),
            }
        } else {
            let name = |dice: &mut Dice| format!("{}{}", dice.pick(HEADS), dice.pick(TAILS));
            let one = name(&mut dice);
            match dice.roll(3) {
                0 => one,
                1 => format!("{one} & {}", name(&mut dice)),
                _ => format!(
                    "{}. {}. {one}",
                    dice.pick(&["J", "T", "W"]),
                    dice.pick(&["H", "A", "C"])
                ),
            }
        };
        all += 1;
        let reading = read(&text);
        if let Some(p) = reading.phrases.first() {
            wrong.push(format!("{text}: {} from '{}'", p.phrase, p.text));
        }
    }
    let rate = wrong.len() as f64 / f64::from(all);
    println!("false recognitions: {:.2} % of {all} names", rate * 100.0);
    for line in wrong.iter().take(40) {
        println!("  false {line}");
    }
    assert!(rate <= 0.02, "{rate}");
}

/// 10,000 characters of noise are read to their end, each word accounted for. How long it takes is a
/// matter of `benches/speed.rs` (`read_noise`): a clock in a test counts what else the machine does.
#[test]
fn noise_is_read_to_its_end() {
    let mut dice = Dice(20_260_104);
    let letters: Vec<char> = "ETAOINSRHLDCUMFPGWYBVKXJQZ?0123456789 ,./&   eotaisn "
        .chars()
        .collect();
    let noise: String = (0..10_000)
        .map(|_| letters[dice.roll(letters.len())])
        .collect();
    let texts = [
        noise,
        "MADE IN ENGLND ".repeat(667),
        "? ".repeat(5_000),
        "E?G ".repeat(2_500),
        "A,1,1,W,".repeat(1_250),
        "Rd No 1?3?56 ".repeat(770),
        "a".repeat(10_000),
    ];
    for text in &texts {
        let reading = read(text);
        let inside = |span: &(usize, usize)| span.0 < span.1 && span.1 <= text.len();
        assert!(reading.phrases.iter().all(|p| inside(&p.span)));
        assert!(reading.unread.iter().all(|u| inside(&u.span)));
        assert!(!reading.phrases.is_empty() || !reading.unread.is_empty());
    }
}
