//! The stock book from the command line.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Output;

use crate::commands::{changed, folder, no_control, rules_copy};
use crate::running::{command, run, text};

/// A book in a folder of its own, not there yet.
pub struct Book(pub PathBuf);

impl Book {
    pub fn new(test: &str) -> Book {
        Book(folder(test).join("stock.db"))
    }

    fn arguments<'a>(&'a self, arguments: &[&'a str]) -> Vec<&'a str> {
        let own = [
            "stock",
            "--stock",
            self.0.to_str().unwrap(),
            "--today",
            "2026-11-26",
        ];
        [&own[..], arguments].concat()
    }

    /// The same on another day.
    pub fn done_on(&self, day: &str, arguments: &[&str]) -> String {
        let mut all = self.arguments(arguments);
        all[4] = day;
        let output = run(&all, b"");
        assert_eq!(text(&output.stderr), "", "{arguments:?}");
        text(&output.stdout)
    }

    pub fn run(&self, arguments: &[&str]) -> Output {
        run(&self.arguments(arguments), b"")
    }

    /// What is said when it can be done.
    pub fn done(&self, arguments: &[&str]) -> String {
        let output = self.run(arguments);
        assert_eq!(text(&output.stderr), "", "{arguments:?}");
        assert_eq!(output.status.code(), Some(0), "{arguments:?}");
        text(&output.stdout)
    }

    /// What is said when it can't; always one sentence, or with `lines` a line a row.
    pub fn refused(&self, arguments: &[&str], says: &str) -> String {
        let output = self.run(arguments);
        let said = text(&output.stderr);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}: {said}");
        assert!(
            said.starts_with("printseam: ") && said.contains(says),
            "{said}"
        );
        assert_eq!(text(&output.stdout), "");
        no_control(&output.stderr);
        said
    }

    pub fn refused_in_a_line(&self, arguments: &[&str], says: &str) {
        let said = self.refused(arguments, says);
        assert_eq!(said.lines().count(), 1, "{said}");
    }

    /// Adds a piece and gives its id.
    pub fn add(&self, arguments: &[&str]) -> String {
        let said = self.done(&[&["add", "--json"], arguments].concat());
        let value: serde_json::Value = serde_json::from_str(&said).unwrap();
        value["id"].as_str().unwrap().to_owned()
    }

    pub fn csv(&self) -> String {
        self.done(&["export", "-"])
    }

    pub fn beside(&self, name: &str) -> String {
        self.0.with_file_name(name).display().to_string()
    }
}

const FLOWN: [&str; 4] = ["--saw", "edge=clouded", "--mark", "ENGLAND"];

/// Three pieces with everything in them that a piece can have.
pub fn three(book: &Book) -> [String; 3] {
    let plate = [
        &FLOWN[..],
        &[
            "--title",
            "=Plate, \"blue\"",
            "--paid",
            "12",
            "--where=-Fair-\u{1b}[2J",
            "--asking",
            "45",
        ],
        &[
            "--channel",
            "stall",
            "--condition",
            "chip,hairline",
            "--photo",
            "a.jpg",
            "--photo",
            "b c.jpg",
        ],
    ];
    let plate = book.add(&plate.concat());
    let six = book.add(&[
        "--notes",
        "pink roses, gilt edge",
        "--quantity",
        "6",
        "--paid",
        "£10",
        "--remark",
        "+ a box\nof cups",
    ]);
    let draft = book.add(&[
        "--draft",
        "--saw",
        "edge=crisp?",
        "--setting",
        "family-attic",
    ]);
    book.done_on("2026-11-27", &["sold", &plate, "--for", "40.50"]);
    book.done(&[
        "edit",
        &plate,
        "--turned-out",
        "flow blue, 1905",
        "--by",
        "a catalogue",
    ]);
    [plate, six, draft]
}

#[test]
fn export_and_import_give_the_same_bytes() {
    let book = Book::new("stock-round");
    three(&book);
    let csv = book.csv();
    for name in ["out.csv", "out.json"] {
        let file = book.beside(name);
        book.done(&["export", &file]);
        // An export may be written over, a stranger's file not.
        book.done(&["export", &file]);
        let other = Book::new(&format!("stock-round-{name}"));
        assert_eq!(
            other.done(&["import", &file]),
            "3 new, 0 as they were, 0 told otherwise, 0 bad.\n"
        );
        assert_eq!(other.csv(), csv);
        let again = other.beside(name);
        other.done(&["export", &again]);
        assert_eq!(fs::read(&file).unwrap(), fs::read(&again).unwrap());
        assert_eq!(
            other.done(&["import", &file]),
            "0 new, 3 as they were, 0 told otherwise, 0 bad.\n"
        );
        fs::write(&again, "my own list").unwrap();
        other.refused_in_a_line(&["export", &again], "--force");
    }
    // The columns others rely on, in this order.
    let columns: Vec<&str> = csv.lines().next().unwrap().split(',').collect();
    let promised = [
        "id",
        "added",
        "notes",
        "mark",
        "findings",
        "kind",
        "from",
        "to",
        "paid",
        "currency",
        "condition",
        "asking",
        "channel",
        "sold_on",
        "sold_for",
        "rules",
    ];
    let mut places = promised
        .iter()
        .map(|p| columns.iter().position(|c| c == p).unwrap());
    assert!(places.by_ref().is_sorted());
    // Nothing in it is a formula or commands the terminal, and what was told is kept.
    assert!(csv.contains("\"'=Plate, \"\"blue\"\"\""), "{csv}");
    assert!(
        csv.contains("'-Fair-\u{fffd}[2J") && csv.contains("'+ a box\nof cups"),
        "{csv}"
    );
    assert!(
        csv.contains("country-word=england@mark; edge=clouded"),
        "{csv}"
    );
}

#[test]
fn bad_rows_are_told_with_their_lines_and_nothing_is_imported() {
    let book = Book::new("stock-bad");
    let file = book.beside("in.csv");
    let rows = "title,findings,paid,currency,sold_on,sold_for\n\
        good,edge=clouded; print-colour=blue,12.50,EUR,,\n\
        bad date,,3,EUR,2026-02-30,5\n\
        bad clue,egde=clouded,3,EUR,,\n\
        bad money,,3.999,EUR,,\n\
        short,,3\n\
        good too,edge=crisp,,EUR,2026-03-01,7\n";
    let none = "title,quantity\nno cup,0\n";
    fs::write(&file, none).unwrap();
    book.refused(&["import", &file], "line 2: quantity '0' is no piece");
    fs::write(&file, rows).unwrap();
    let said = book.refused(&["import", &file], "nothing was imported");
    for (line, why) in [
        (3, "sold_on '2026-02-30' is no day"),
        (4, "egde=clouded: unknown clue 'egde'; nearest: edge"),
        (5, "paid '3.999': EUR has 2 decimal places"),
        (6, "3 cells where"),
    ] {
        assert!(said.contains(&format!("line {line}: {why}")), "{said}");
    }
    assert!(
        !said.contains("line 2") && !said.contains("line 7"),
        "{said}"
    );
    assert_eq!(book.csv().lines().count(), 1);
    let skipped = book.run(&["import", &file, "--skip-bad"]);
    assert_eq!(skipped.status.code(), Some(1));
    assert!(text(&skipped.stdout).ends_with("2 new, 0 as they were, 0 told otherwise, 4 bad.\n"));
    // What comes without a verdict is judged, and known again although it has no id.
    let csv = book.csv();
    assert!(csv.contains("flow-blue"), "{csv}");
    let twice = book.run(&["import", &file, "--skip-bad"]);
    assert!(text(&twice.stdout).ends_with("0 new, 2 as they were, 0 told otherwise, 4 bad.\n"));
    assert_eq!(book.csv(), csv);

    fs::write(&file, "titel,piad\nx,1\n").unwrap();
    let said = book.refused(&["import", &file], "unknown column 'titel'; nearest: title");
    assert!(said.contains("nearest: paid"), "{said}");
    fs::write(&file, "title;paid\nx;1\n").unwrap();
    book.refused_in_a_line(&["import", &file], "not parted by commas");
    fs::write(&file, b"title\ncaf\xe9\n").unwrap();
    book.refused(&["import", &file], "line 2: not UTF-8");
    fs::write(&file, "{\"format\":1,\"pieces\":[{\"paid\":3}]}").unwrap();
    book.refused(&["import", &file], "piece 1: paid holds what it can't hold");
    fs::write(&file, "{\"format\":2,\"pieces\":[]}").unwrap();
    book.refused_in_a_line(&["import", &file], "format 2; this program reads format 1");
}

#[test]
fn a_conflict_is_shown_and_the_book_stays_as_it_is() {
    let book = Book::new("stock-conflict");
    let [plate, six, _] = three(&book);
    let file = book.beside("other.csv");
    fs::write(&file, book.csv().replace("b c.jpg", "d.jpg")).unwrap();
    book.done(&["remove", &six]);
    let before = book.csv();
    let output = book.run(&["import", &file]);
    assert_eq!(output.status.code(), Some(1));
    let said = text(&output.stdout);
    assert!(
        said.contains(&format!("{plate}: the book says otherwise")),
        "{said}"
    );
    assert!(
        said.contains("photos: book 'a.jpg / b c.jpg', file 'a.jpg / d.jpg'"),
        "{said}"
    );
    assert!(said.contains(&format!("{six}: was removed")), "{said}");
    assert_eq!(book.csv(), before);
    book.done(&["import", &file, "--replace"]);
    assert_eq!(book.csv(), fs::read_to_string(&file).unwrap());
}

#[test]
fn everything_can_be_corrected() {
    let book = Book::new("stock-correct");
    let [plate, six, draft] = three(&book);
    book.refused_in_a_line(&["sold", &plate, "--for", "3"], "sold already");
    book.done(&["unsold", &plate]);
    book.done(&["price", &plate, "39"]);
    let sold = ["sold", &plate, "--for", "38", "--on"];
    let of_day = |day| [&sold[..], &[day]].concat();
    book.refused_in_a_line(&of_day("2026-12-01"), "is still to come");
    book.refused_in_a_line(&of_day("2026-11-20"), "was bought on 2026-11-26");
    let online = [&sold[..4], &["--channel", "online"]].concat();
    book.done_on("2026-12-01", &online);
    book.refused_in_a_line(
        &["returned", &plate, "--on", "2026-11-25"],
        "after 2026-11-25",
    );
    book.done_on("2026-12-05", &["returned", &plate]);
    let said = book.done(&["show", &plate]);
    for line in [
        "asking 39.00 USD, was 45.00 USD",
        "returned; sold on 2026-12-01 for 38.00 USD",
        "Turned out: flow blue or flow mulberry, 1905, by a catalogue",
        "Stage: held",
    ] {
        assert!(said.contains(line), "{line}: {said}");
    }
    // Another currency is not added to these amounts.
    book.refused_in_a_line(&["price", &plate, "€3"], "are in USD");

    // Two of six cups: what was paid goes with them.
    book.refused_in_a_line(
        &["sold", &six, "--for", "9", "--quantity", "7"],
        "from 1 to 5",
    );
    let said = book.done(&["sold", &six, "--for", "9", "--quantity", "2"]);
    assert!(
        said.contains("2 pieces") && said.contains("paid 3.33 GBP"),
        "{said}"
    );
    assert!(
        said.contains("4 pieces") && said.contains("paid 6.67 GBP"),
        "{said}"
    );

    // A piece that was only looked at is taken up again, seen better, and bought.
    book.refused_in_a_line(&["sold", &draft, "--for", "3"], "not bought");
    let before = book.done(&["show", &draft, "--json"]);
    let said = book.done(&[
        "edit",
        &draft,
        "--bought",
        "--paid",
        "4",
        "--saw",
        "edge=clouded",
    ]);
    assert!(
        said.contains("paid 4.00 USD") && !said.contains("not bought"),
        "{said}"
    );
    let after: serde_json::Value =
        serde_json::from_str(&book.done(&["show", &draft, "--json"])).unwrap();
    assert_eq!(after["findings"][0], "edge=clouded");
    assert_eq!(after["setting"], "family-attic");
    assert!(before.contains("edge=crisp?"), "{before}");

    // A box: one price over pieces, to the last penny.
    book.done(&["split", "10", &plate, &draft]);
    let said = book.done(&["list", "--json"]);
    let list: serde_json::Value = serde_json::from_str(&said).unwrap();
    let paid: Vec<i64> = list["pieces"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|p| p["currency"] == "USD")
        .map(|p| p["paid"].as_i64().unwrap())
        .collect();
    assert_eq!(paid, [500, 500]);

    book.done(&["remove", &draft]);
    book.refused_in_a_line(&["price", &draft, "3"], "--undo puts it back");
    assert_eq!(book.done(&["list", "--drafts"]), "Nothing found.\n");
    book.done(&["remove", &draft, "--undo"]);
    book.done(&["price", &draft, "3"]);
    book.refused_in_a_line(&["show", "zzzz"], "no piece 'zzzz'");
    book.refused_in_a_line(&["show", "?"], "names no piece");
}

#[test]
fn what_is_looked_for_is_found_and_added_up() {
    let book = Book::new("stock-list");
    let [plate, six, draft] = three(&book);
    let ids = |arguments: &[&str]| {
        let said = book.done(&[&["list", "--json"], arguments].concat());
        let list: serde_json::Value = serde_json::from_str(&said).unwrap();
        let pieces = list["pieces"].as_array().unwrap().iter();
        pieces
            .map(|p| p["id"].as_str().unwrap().to_owned())
            .collect::<Vec<_>>()
    };
    assert_eq!(ids(&[]), [plate.clone(), six.clone(), draft.clone()]);
    assert_eq!(
        ids(&["--descending"]),
        [draft.clone(), six.clone(), plate.clone()]
    );
    assert_eq!(ids(&["ROSES"]), std::slice::from_ref(&six));
    // One letter missing, two the wrong way round; two slips are two too many.
    assert_eq!(ids(&["rses", "glit"]), std::slice::from_ref(&six));
    assert!(ids(&["rsse"]).is_empty());
    assert_eq!(ids(&["--sold"]), std::slice::from_ref(&plate));
    assert_eq!(
        ids(&["--sort", "paid"]),
        [six.clone(), plate.clone(), draft.clone()]
    );
    assert_eq!(
        ids(&["--held", "--drafts", "--limit", "1"]),
        std::slice::from_ref(&six)
    );
    let said = book.done(&["list"]);
    for line in [
        "6 pieces held, 1 sold.",
        "Paid 12.00 USD in all, 0.00 USD of it for what is still held",
        "Sold for 40.50 USD: 28.50 USD more",
        "stall: 1 sale for 40.50 USD, gain 28.50 USD, half of them within a day",
        "Paid 10.00 GBP in all",
    ] {
        assert!(said.contains(line), "{line}: {said}");
    }
    let today = book.done(&["today", "--budget", "20"]);
    assert!(
        today.contains("12.00 USD spent so far")
            && today.ends_with("8.00 USD left of 20.00 USD.\n"),
        "{today}"
    );
    let file = book.0.display().to_string();
    let earlier = ["stock", "--stock", &file, "--today", "2026-11-25", "today"];
    let said = text(&run(&earlier, b"").stdout);
    assert_eq!(said, "Nothing was entered on 2026-11-25.\n");
}

#[test]
fn a_piece_judged_again_tells_what_changed_and_why() {
    let book = Book::new("stock-again");
    let plate = book.add(&FLOWN);
    let said = book.done(&["again", &plate]);
    assert!(
        said.contains("Nothing has changed, and the rules are the same."),
        "{said}"
    );
    // Other rules: this finding has got another name, so the old one says nothing.
    let dir = rules_copy("stock-again-rules");
    let clues = changed("clues/loupe.ron", "id: \"clouded\"", "id: \"hazy\"");
    fs::write(dir.join("clues/loupe.ron"), clues).unwrap();
    // Whoever else names it is told the new name too.
    for (file, was, is) in [
        ("clues/back.ron", "[\"clouded\", ", "[\"hazy\", "),
        ("glance.ron", "finding: \"clouded\"", "finding: \"hazy\""),
    ] {
        fs::write(dir.join(file), changed(file, was, is)).unwrap();
    }
    let lessons = changed("lessons.ron", "\"clouded\"", "\"hazy\"");
    let lessons = lessons.replace("\"clouded\"", "\"hazy\"");
    fs::write(dir.join("lessons.ron"), lessons).unwrap();
    let rules = dir.display().to_string();
    let with = |arguments: &[&str]| {
        let output = run(
            &[&["--rules", &rules][..], &book.arguments(arguments)].concat(),
            b"",
        );
        assert_eq!(text(&output.stderr), "");
        text(&output.stdout)
    };
    let said = with(&["again", &plate]);
    assert!(said.contains("Then: flow blue"), "{said}");
    assert!(
        said.contains("! edge=clouded: unknown finding of edge 'clouded'"),
        "{said}"
    );
    assert!(
        said.contains("What each finding does now:\n  - Country word"),
        "{said}"
    );
    let said = with(&["again"]);
    assert!(
        said.ends_with("Judged again: 1; with another answer: 1.\n"),
        "{said}"
    );
    // Only looked at: the book still says what it said.
    assert!(book.done(&["show", &plate]).contains("Judged: flow blue"));
    with(&["again", &plate, "--keep"]);
    let said = book.done(&["show", &plate]);
    assert!(
        said.contains("judged again; was flow blue") && !said.contains("edge="),
        "{said}"
    );
}

#[test]
fn pieces_whose_date_is_known_prove_the_program() {
    let book = Book::new("stock-cases");
    three(&book);
    let file = book.beside("cases.csv");
    assert!(
        book.done(&["export", &file, "--cases"])
            .starts_with("1 written")
    );
    let proof = run(&["prove", &file, "--json"], b"");
    assert_eq!(text(&proof.stderr), "");
    let value: serde_json::Value = serde_json::from_slice(&proof.stdout).unwrap();
    assert_eq!(value["all"]["cases"], 1);
    let stock = book.0.display().to_string();
    let own = run(&["prove", "--stock", &stock, "--json"], b"");
    assert_eq!(own.stdout, proof.stdout);
}

#[test]
fn copies_of_the_program_work_side_by_side() {
    let book = Book::new("stock-beside");
    let start = |i: usize| {
        let title = format!("piece {i}");
        let arguments = book
            .arguments(&["add", "--title", &title])
            .into_iter()
            .map(str::to_owned);
        command(&arguments.collect::<Vec<_>>()).spawn().unwrap()
    };
    // Also the making of the file is a race.
    let running: Vec<_> = (0..6).map(start).collect();
    for child in running {
        let output = child.wait_with_output().unwrap();
        assert_eq!(text(&output.stderr), "");
        assert!(output.status.success());
    }
    assert!(book.done(&["list"]).contains("6 pieces held"));
}

#[test]
fn a_file_that_is_no_book_of_ours_is_left_alone() {
    use printseam::internals::stock::sqlite::FORMAT;
    let book = Book::new("stock-strange");
    let list = |says| book.refused_in_a_line(&["list"], says);
    let sql = |statements: &str| {
        let connection = rusqlite::Connection::open(&book.0).unwrap();
        connection.execute_batch(statements).unwrap();
    };
    fs::write(&book.0, "my shopping list, and it is longer than a hundred bytes, so that nobody could take it for an empty file; eggs, milk, flour").unwrap();
    list("is no stock book");
    fs::remove_file(&book.0).unwrap();
    sql("CREATE TABLE recipes (name TEXT)");
    let before = fs::read(&book.0).unwrap();
    list("is no stock book");
    assert_eq!(fs::read(&book.0).unwrap(), before);
    fs::remove_file(&book.0).unwrap();

    book.add(&FLOWN);
    sql(&format!("PRAGMA user_version = {}", FORMAT + 1));
    let before = fs::read(&book.0).unwrap();
    list("written by a newer printseam");
    assert_eq!(fs::read(&book.0).unwrap(), before);
    sql(&format!("PRAGMA user_version = {FORMAT}"));
    assert!(book.done(&["list"]).contains("1 piece held"));

    // Damaged in the middle: not copied as if it were whole.
    let mut bytes = fs::read(&book.0).unwrap();
    let end = bytes.len();
    bytes[4096..end].fill(0xa5);
    fs::write(&book.0, bytes).unwrap();
    list("is damaged");
    let copy = book.beside("copy.db");
    book.refused_in_a_line(&["backup", &copy], "is damaged");
    assert!(!Path::new(&copy).exists());
    // A book that is a folder, and one in a folder that is not there.
    let dir = book.0.parent().unwrap().display().to_string();
    Book(PathBuf::from(&dir)).refused_in_a_line(&["list"], "can't be opened");
    Book(PathBuf::from(dir).join("nowhere/stock.db"))
        .refused_in_a_line(&["list"], "is its folder there");
}

#[test]
fn a_backup_is_a_whole_book() {
    let book = Book::new("stock-backup");
    three(&book);
    let copy = book.beside("copy.db");
    book.done(&["backup", &copy]);
    assert_eq!(Book(PathBuf::from(&copy)).csv(), book.csv());
    book.refused_in_a_line(
        &["backup", &copy],
        "is there already; name another file, or write over it with --force",
    );
    // Put in the place of the book, a copy would take away what another program is just writing into the old one.
    for own in [
        "stock.db",
        "stock.db-wal",
        "stock.db-shm",
        "../stock-backup/stock.db",
    ] {
        let own = book.beside(own);
        book.refused_in_a_line(&["backup", &own, "--force"], "is the stock book itself");
    }
    book.add(&FLOWN);
    book.done(&["backup", &copy, "--force"]);
    assert_eq!(Book(PathBuf::from(&copy)).csv(), book.csv());
    let left = fs::read_dir(book.0.parent().unwrap()).unwrap().filter(|e| {
        let name = e.as_ref().unwrap().file_name();
        name.to_string_lossy().contains(".part")
    });
    assert_eq!(left.count(), 0);
}
