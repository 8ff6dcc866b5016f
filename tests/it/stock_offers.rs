//! The stock book and money: what own sales teach, decisions kept, tickets and listings.

use std::fs;

use printseam::internals::stock::id::EntryId;

use crate::running::{run, text};
use crate::stock_book::{Book, three};

/// `shelf` on a clouded plate, with this book's sales.
fn shelf_says(book: &Book, asking: &str) -> serde_json::Value {
    let file = book.0.display().to_string();
    let all = [
        "shelf",
        "--saw",
        "edge=clouded",
        "--saw",
        "form=dinner-plate",
        "--asking",
        asking,
        "--condition",
        "sound",
        "--stock",
        &file,
        "--today",
        "2026-12-20",
        "--json",
    ];
    let output = run(&all, b"");
    assert_eq!(text(&output.stderr), "");
    serde_json::from_str(&text(&output.stdout)).unwrap()
}

#[test]
fn own_sales_teach_the_shelf_and_it_says_so() {
    let book = Book::new("stock-teaches");
    let most = |answer: &serde_json::Value| answer["most_to_pay"]["minor"].as_i64().unwrap();
    let reasons = |answer: &serde_json::Value| answer["reasons"].to_string();
    let guessed = shelf_says(&book, "9");
    assert_eq!(guessed["own_sales"], 0);
    assert!(!book.0.exists(), "asking makes no book");
    let plate = ["--saw", "edge=clouded", "--saw", "form=dinner-plate"];
    let facts = ["--condition", "sound", "--channel", "stall", "--paid", "5"];
    let ids: Vec<String> = (0..6)
        .map(|_| book.add(&[&plate[..], &facts[..]].concat()))
        .collect();
    let held = shelf_says(&book, "9");
    assert_eq!(held["own_sales"], 0, "what waits has no price");
    for id in &ids {
        book.done_on("2026-12-15", &["sold", id, "--for", "90"]);
    }
    // Nothing was seen of this one.
    let unseen = book.add(&["--title", "a box", "--paid", "1"]);
    book.done_on("2026-12-15", &["sold", &unseen, "--for", "90"]);
    let taught = shelf_says(&book, "9");
    assert_eq!(taught["own_sales"], 6);
    assert!(taught["own_share"].as_f64().unwrap() > 0.0);
    assert!(most(&taught) > most(&guessed), "{taught} {guessed}");
    assert!(reasons(&taught).contains("your own 6 sales"), "{taught}");
    assert!(
        reasons(&taught).contains("1 of your sales could not be counted"),
        "{taught}"
    );
    // What is taken out of the lists teaches nothing.
    book.done(&["remove", &ids[0]]);
    assert_eq!(shelf_says(&book, "9")["own_sales"], 5);
}

#[test]
fn a_decision_is_kept_and_today_adds_up_to_the_budget() {
    let book = Book::new("stock-decides");
    let plate = ["demo/clouded-plate.ron", "--condition", "sound"];
    let cheap = book.add(&[&plate[..], &["--paid", "2"]].concat());
    let dear = book.add(&[&plate[..], &["--draft", "--asking", "5000"]].concat());
    let untold = book.add(&["--title", "a box", "--asking", "5"]);
    let kept = |id: &str| {
        let said = book.done(&["show", id, "--json"]);
        serde_json::from_str::<serde_json::Value>(&said).unwrap()
    };
    assert_eq!(kept(&cheap)["advice"], "buy");
    assert_eq!(kept(&dear)["advice"], "leave");
    assert_eq!(kept(&dear)["most_to_pay"], kept(&cheap)["most_to_pay"]);
    assert_eq!(kept(&untold)["advice"], "", "nothing was seen of it");
    let today = book.done(&["today", "--budget", "1.50"]);
    let most = kept(&cheap)["most_to_pay"].as_str().unwrap().to_owned();
    for part in [
        format!("decided: buy: {most} USD is the most to pay"),
        "2.00 USD spent so far, 0.50 USD over".to_owned(),
        format!("decided: leave it: {most} USD is the most to pay"),
    ] {
        assert!(today.contains(&part), "{part}: {today}");
    }
    // A lower price is another decision.
    book.done(&["edit", &dear, "--asking", "2"]);
    assert_eq!(kept(&dear)["advice"], "buy");
}

#[test]
fn a_listing_is_as_sure_as_the_evidence() {
    let book = Book::new("stock-listing");
    let listing = |id: &str| {
        let said = book.done(&["listing", id, "--json"]);
        let value: serde_json::Value = serde_json::from_str(&said).unwrap();
        let title = value["title"].as_str().unwrap();
        assert!(
            title.chars().count() <= 80 && title.contains("probably "),
            "{title}"
        );
        value
    };
    let antique = |value: &serde_json::Value| {
        let words = value["description"].to_string() + &value["title"].to_string();
        let said = words.to_lowercase().contains("antique");
        assert_eq!(value["antique"], said, "{value}");
        said
    };
    let long = "Antique plate, a very long title of the seller's own that goes on and on far beyond the room";
    let late = book.add(&[
        "--mark",
        "DISHWASHER SAFE",
        "--title",
        long,
        "--condition",
        "chip",
        "--asking",
        "5",
    ]);
    let late = listing(&late);
    assert!(!antique(&late));
    assert!(
        late["before"][0].as_str().unwrap().contains("antique"),
        "{late}"
    );
    assert_eq!(late["mark"], "DISHWASHER SAFE");
    assert_eq!(late["condition"], "a chip.");
    let photos = late["photograph"].to_string();
    for part in ["the mark", "edge", "foot", "a chip"] {
        assert!(photos.contains(part), "{photos}");
    }
    // What early findings agree on.
    let early = book.add(&[
        "--saw",
        "stilt-marks=three-groups",
        "--saw",
        "line-make=engraved",
        "--saw",
        "print-colour=blue",
        "--saw",
        "registered=1850",
        "--setting",
        "antiques-fair",
        "--title",
        long,
    ]);
    let early = listing(&early);
    assert!(antique(&early));
    assert!(
        early["title"]
            .as_str()
            .unwrap()
            .starts_with("Antique plate"),
        "{early}"
    );
    assert!(early["before"].to_string().contains("chips"), "{early}");
    // A band that ends too late.
    let doubtful = book.add(&["--saw", "edge=clouded", "--saw", "print-colour=blue?"]);
    let doubtful = listing(&doubtful);
    let year = doubtful["title"].as_str().unwrap();
    let last: i32 = year[year.len() - 4..].parse().unwrap();
    assert!(last <= 1926 || !antique(&doubtful), "{doubtful}");
    assert!(
        !doubtful["attributes"].to_string().contains("Print colour"),
        "unsure: {doubtful}"
    );
    let box_ = book.add(&["--title", "a box"]);
    book.refused_in_a_line(&["listing", &box_], "nothing has been seen");
    book.refused_in_a_line(&["ticket", &box_], "nothing has been seen");
}

#[test]
fn a_ticket_tells_what_it_is_and_what_it_costs() {
    let book = Book::new("stock-ticket");
    let [plate, ..] = three(&book);
    let said = book.done(&["ticket", &plate]);
    for part in ["low blue", "Condition: chip, hairline", "Price: 45.00 USD"] {
        assert!(said.contains(part), "{part}: {said}");
    }
    let page = book.beside("ticket.html");
    book.done(&["ticket", &plate, &format!("--card={page}")]);
    let page = fs::read_to_string(page).unwrap();
    assert!(
        page.contains("45.00 USD") && page.contains("<html"),
        "{page}"
    );
}

/// An output with every id, which is drawn anew each time, as the same word.
fn without_ids(said: &str) -> String {
    let line = |line: &str| {
        let at = ["Added: ", "Sold: "].iter().find(|w| line.starts_with(**w));
        let (word, rest) = line.split_at(at.map_or(0, |w| w.len()));
        match rest.split_once("  ") {
            Some((id, rest)) if EntryId::read(id).is_some() => format!("{word}ID  {rest}\n"),
            _ => format!("{line}\n"),
        }
    };
    said.lines().map(line).collect()
}

/// The demo's invented sale, line by line: the advice changes, and the last one says why. Where README and demo tell
/// figures of it they are these.
#[cfg(unix)]
#[test]
fn the_invented_sale_runs_through() {
    let root = env!("CARGO_MANIFEST_DIR");
    let mut script = std::process::Command::new("sh");
    script
        .arg("demo/sale.sh")
        .current_dir(root)
        .env("PRINTSEAM", env!("CARGO_BIN_EXE_printseam"))
        .env("PRINTSEAM_NOW", "2026")
        .env("XDG_CONFIG_HOME", "/nonexistent")
        .env("XDG_DATA_HOME", "/nonexistent");
    let output = script.output().unwrap();
    assert_eq!(text(&output.stderr), "");
    assert!(output.status.success());
    let said = without_ids(&text(&output.stdout));
    insta::assert_snapshot!("the_invented_sale", said);
    let parts: Vec<&str> = said.split("\n== ").collect();
    let (first, last) = (parts[2], parts[parts.len() - 1]);
    assert!(first.contains("no sale of your own is recorded"), "{first}");
    assert!(last.contains("comes from your own 6 sales"), "{last}");
    assert!(last.contains("Buy it"), "{last}");
    let page = |name: &str| fs::read_to_string(format!("{root}/{name}")).unwrap();
    let told = page("README.md") + &page("demo/README.md").replace('\n', " ");
    for (said, tells) in [
        (first, "Offer up to "),
        (last, "and up to "),
        (last, "About "),
    ] {
        let figure = said.split(tells).nth(1).unwrap();
        let figure = figure.split(' ').next().unwrap();
        assert!(told.contains(figure), "{tells}{figure} is not told of");
    }
}
