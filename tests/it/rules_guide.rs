//! The rule authors' guide is executed: each RON or CSV block is laid over the small base, and must load
//! clean or give exactly the text block that follows it.

use std::fs;
use std::path::Path;

use printseam::internals::rulebase::RuleBase;
use printseam::internals::rulebase::problem::Check;
use printseam::internals::rulebase::source::SourceFile;

use crate::rules_corpus::read_rules;

/// (first line of the block after ```, its text)
fn blocks(page: &str) -> Vec<(String, String)> {
    let mut out = Vec::new();
    let mut open: Option<(String, String)> = None;
    for line in page.lines() {
        match (line.strip_prefix("```"), &mut open) {
            (Some(info), None) => open = Some((info.to_owned(), String::new())),
            (Some(_), Some(_)) => out.extend(open.take()),
            (None, Some((_, text))) => {
                text.push_str(line);
                text.push('\n');
            }
            (None, None) => {}
        }
    }
    out
}

#[test]
fn every_example_of_the_guide_does_what_it_says() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let page = fs::read_to_string(root.join("rules/README.md")).unwrap();
    let blocks = blocks(&page);
    let base = read_rules(&root.join("tests/rules/ok/base"));
    let (mut good, mut bad, mut wrong) = (0, 0, Vec::new());
    for (i, (info, text)) in blocks.iter().enumerate() {
        let name = info
            .strip_prefix("ron ")
            .or_else(|| info.strip_prefix("csv "));
        let Some(name) = name else {
            continue;
        };
        let mut files = base.clone();
        files.retain(|f| f.name != name);
        files.push(SourceFile {
            name: name.to_owned(),
            text: text.clone(),
        });
        let wanted = blocks
            .get(i + 1)
            .filter(|b| b.0 == "text")
            .map(|b| b.1.as_str());
        let got = match RuleBase::load(&files) {
            Ok(_) => None,
            Err(problems) => Some(
                problems
                    .iter()
                    .map(|p| format!("{p}\n"))
                    .collect::<String>(),
            ),
        };
        if got.as_deref() != wanted {
            wrong.push(format!(
                "block {i}, {name}:\nwanted {wanted:?}\ngot {got:?}"
            ));
        }
        if wanted.is_some() {
            bad += 1
        } else {
            good += 1
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(good >= 2 && bad >= 5, "{good} good and {bad} bad examples");
}

/// Codes the guide explains: what each line of its last part begins with.
fn explained(page: &str) -> Vec<&str> {
    let (_, checks) = page.split_once("\n## All checks\n").unwrap();
    let mut codes: Vec<&str> = checks
        .lines()
        .filter_map(|line| line.strip_prefix("- `")?.split_once("`: "))
        .map(|(code, _)| code)
        .collect();
    codes.sort_unstable();
    codes
}

#[test]
fn the_guide_explains_the_checks_there_are_and_no_others() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let page = fs::read_to_string(root.join("rules/README.md")).unwrap();
    let mut codes: Vec<&str> = Check::ALL.iter().map(|c| c.code()).collect();
    codes.sort_unstable();
    assert_eq!(explained(&page), codes);
    let kebab = |c: char| c.is_ascii_lowercase() || c == '-';
    assert!(
        codes.iter().all(|code| code.chars().all(kebab)),
        "{codes:?}"
    );
}

#[test]
fn the_shares_of_origins_are_the_true_ones() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let page = fs::read_to_string(root.join("rules/README.md")).unwrap();
    let base = &crate::shipped::expert().base;
    let words = printseam::internals::rulebase::origins::origins(base).words();
    assert!(page.contains(&words), "the guide should say: {words}");
}
