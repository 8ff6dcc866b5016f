//! Tables of many pieces: the same answers as `judge`, in the same order, and what goes wrong with a row.

use std::io::Write;

use printseam::internals::lot::mean_date::{MeanDate, south};

use crate::commands::folder;
use crate::running::{command, run, text};

fn rows(output: &[u8]) -> Vec<std::collections::BTreeMap<String, String>> {
    let mut reader = csv::Reader::from_reader(output);
    let header = reader.headers().unwrap().clone();
    let names = || header.iter().map(str::to_owned);
    let records = reader
        .records()
        .map(|r| names().zip(r.unwrap().iter().map(str::to_owned)).collect());
    records.collect()
}

const TABLE: &str = "\u{feff}shelf,print-colour,notes,mark,registered,setting,kind\n\
    A,blue,\"willow, clouded edges\",ENGLAND,,,mine\n\
    B,,brown birds and fans,,Rd 61234,antiques-fair,\n\
    C,bleu,,,,,\n\
    D,,,,,attic,\n\
    \"E, with a comma\",black,,,1868,museum-drawer,\n";

#[test]
fn every_row_is_judged_as_judge_would() {
    let output = run(&["lot", "-"], TABLE.as_bytes());
    assert_eq!(output.status.code(), Some(1), "two rows have a problem");
    let rows = rows(&output.stdout);
    let shelves: Vec<&str> = rows.iter().map(|r| r["shelf"].as_str()).collect();
    assert_eq!(shelves, ["A", "B", "C", "D", "E, with a comma"]);
    assert_eq!(rows[0]["in_kind"], "mine");
    let same: [(usize, &[&str]); 3] = [
        (
            0,
            &[
                "--saw",
                "print-colour=blue",
                "--notes",
                "willow, clouded edges",
                "--mark",
                "ENGLAND",
            ],
        ),
        (
            1,
            &[
                "--notes",
                "brown birds and fans",
                "--saw",
                "registered=1886",
                "--setting",
                "antiques-fair",
            ],
        ),
        (
            4,
            &[
                "--saw",
                "print-colour=black",
                "--saw",
                "registered=1868",
                "--setting",
                "museum-drawer",
            ],
        ),
    ];
    for (row, arguments) in same {
        let arguments = [&["judge", "--json"][..], arguments].concat();
        let judged: serde_json::Value =
            serde_json::from_slice(&run(&arguments, b"").stdout).unwrap();
        let row = &rows[row];
        assert_eq!(
            row["kind"],
            judged["kinds"][0]["id"].as_str().unwrap(),
            "{row:?}"
        );
        let p: f64 = row["kind_p"].parse().unwrap();
        assert!(
            (p - judged["kinds"][0]["p"].as_f64().unwrap()).abs() < 1e-4,
            "{row:?}"
        );
        assert_eq!(
            row["edtf"],
            judged["band"]["edtf"].as_str().unwrap(),
            "{row:?}"
        );
        assert_eq!(row["median"], judged["median"].to_string(), "{row:?}");
        assert_eq!(
            row["rarity"],
            format!("{:.0}", judged["rarity"]["score"].as_f64().unwrap())
        );
        assert_eq!(row["problem"], "");
    }
    assert!(rows[2]["problem"].contains("bleu"), "{:?}", rows[2]);
    assert_eq!(rows[2]["edtf"], "");
    assert!(rows[3]["problem"].contains("attic"), "{:?}", rows[3]);
    let told = text(&output.stderr);
    for wanted in [
        "line 4: ",
        "line 5: ",
        "5 rows, 2 with a problem",
        "South's formula",
    ] {
        assert!(told.contains(wanted), "{told}");
    }
}

#[test]
fn a_near_miss_of_a_clue_warns_and_anything_else_passes_through() {
    let table = "print-color,colour of box,length\nblue,red,9\n";
    let output = run(&["lot", "-", "--json"], table.as_bytes());
    assert_eq!(output.status.code(), Some(0));
    let told = text(&output.stderr);
    assert!(
        told.contains("'print-color'") && told.contains("'print-colour'"),
        "{told}"
    );
    assert!(!told.contains("length"), "{told}");
    let answers: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(answers[0]["colour of box"], "red");
    assert_eq!(answers[0]["problem"], serde_json::Value::Null);
    assert!(answers[0]["kind"].is_string());
}

#[test]
fn a_table_without_rows_or_with_a_doubled_column() {
    let none = run(&["lot", "-"], b"notes\n");
    assert_eq!(none.status.code(), Some(0));
    assert_eq!(text(&none.stdout).lines().count(), 1);
    for bad in ["", "notes,notes\nx,y\n"] {
        let output = run(&["lot", "-"], bad.as_bytes());
        assert_eq!(output.status.code(), Some(2), "{bad:?}");
        assert_eq!(
            text(&output.stderr).lines().count(),
            1,
            "{}",
            text(&output.stderr)
        );
    }
}

#[test]
fn long_tables_keep_their_order_and_files_are_written_whole() {
    let folder = tempfile::tempdir().unwrap();
    let (table, out) = (folder.path().join("in.csv"), folder.path().join("out.csv"));
    let mut file = std::fs::File::create(&table).unwrap();
    writeln!(file, "n,print-colour").unwrap();
    for n in 0..2500 {
        writeln!(file, "{n},{}", ["blue", "black", "green"][n % 3]).unwrap();
    }
    drop(file);
    let path = |p: &std::path::Path| p.to_str().unwrap().to_owned();
    let arguments = ["lot", &path(&table), "-o", &path(&out)].map(str::to_owned);
    let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
    assert_eq!(run(&arguments, b"").status.code(), Some(0));
    let judged = rows(&std::fs::read(&out).unwrap());
    assert_eq!(judged.len(), 2500);
    for (n, row) in judged.iter().enumerate() {
        assert_eq!(row["n"], n.to_string());
        assert_eq!(row["kind"], judged[n % 3]["kind"]);
    }
    // A file of ours may be written again, another's not.
    assert_eq!(run(&arguments, b"").status.code(), Some(0));
    std::fs::write(&out, "a letter to my aunt").unwrap();
    assert_eq!(run(&arguments, b"").status.code(), Some(2));
    assert_eq!(
        std::fs::read_to_string(&out).unwrap(),
        "a letter to my aunt"
    );
}

/// Counts and middle years: a page of sherds from a homestead (nine printed: 16,705.5 / 9), and an
/// example in South's manner (192,137 / 109; from memory).
#[test]
fn the_mean_date_is_souths() {
    let printed = [
        (3.0, 1845.0),
        (1.0, 1850.0),
        (2.0, 1850.0),
        (1.0, 1850.0),
        (1.0, 1855.0),
        (1.0, 1915.5),
    ];
    assert!((south(printed.into_iter()).unwrap() - 16_705.5 / 9.0).abs() < 1e-9);
    let cream = [(31.0, 1771.0), (22.0, 1758.0), (56.0, 1760.0)];
    assert!((south(cream.into_iter()).unwrap() - 1_762.724_770_642).abs() < 1e-6);
    assert_eq!(south(std::iter::empty()), None);
    assert_eq!(MeanDate::default().south(), None);
}

#[test]
fn a_row_with_a_price_is_decided_as_shelf_decides() {
    let table = "edge,form,asking,condition\n\
        clouded,dinner-plate,1,sound\n\
        clouded,dinner-plate,5000,\"chip,hairline\"\n\
        clouded,dinner-plate,,chip\n\
        clouded,dinner-plate,twelve,\n\
        clouded,dinner-plate,£3,\n\
        clouded,dinner-plate,12,chipp\n";
    let output = run(&["lot", "-"], table.as_bytes());
    assert_eq!(output.status.code(), Some(1));
    let rows = rows(&output.stdout);
    for (row, asking, condition) in [(0, "1", "sound"), (1, "5000", "chip,hairline")] {
        let saw = ["--saw", "edge=clouded", "--saw", "form=dinner-plate"];
        let priced = ["--asking", asking, "--condition", condition, "--json"];
        let output = run(&[&["shelf"], &saw[..], &priced[..]].concat(), b"");
        let answer: serde_json::Value = serde_json::from_str(&text(&output.stdout)).unwrap();
        assert_eq!(answer["advice"], rows[row]["advice"]);
        let most = answer["most_to_pay"]["minor"].as_i64().unwrap();
        let written = rows[row]["most_to_pay"].replace('.', "");
        assert_eq!(written.parse::<i64>().unwrap(), most, "{:?}", rows[row]);
    }
    assert_ne!(rows[0]["advice"], rows[1]["advice"]);
    // A chip and a hairline take something off.
    let most = |row: usize| rows[row]["most_to_pay"].parse::<f64>().unwrap();
    assert!(most(1) < most(0));
    assert_eq!(
        (rows[2]["advice"].as_str(), rows[2]["problem"].as_str()),
        ("", "")
    );
    for (row, says) in [
        (3, "asking: 'twelve' is no amount"),
        (4, "asking: 3.00 GBP: write what is asked in USD"),
        (5, "nearest: chip"),
    ] {
        assert!(rows[row]["problem"].contains(says), "{:?}", rows[row]);
        assert_eq!(rows[row]["advice"], "");
    }
}

#[test]
fn a_reader_that_goes_away_from_a_long_table_is_no_error() {
    let file = folder("lot-reader").join("in.csv");
    std::fs::write(&file, format!("notes\n{}", "blue plate\n".repeat(3_000))).unwrap();
    let file = file.to_str().unwrap();
    for arguments in [&["lot", file][..], &["lot", file, "--json"]] {
        let mut child = command(arguments).spawn().unwrap();
        drop(child.stdout.take());
        let output = child.wait_with_output().unwrap();
        let said = text(&output.stderr);
        assert!(output.status.success(), "{arguments:?}: {said}");
        assert!(!said.contains("printseam:"), "{said}");
    }
}
