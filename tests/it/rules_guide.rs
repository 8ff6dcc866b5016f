//! The rule authors' guide is executed: each RON block is laid over the small base, and must load
//! clean or give exactly the text block that follows it.

use std::fs;
use std::path::Path;

use printseam::rulebase::RuleBase;
use printseam::rulebase::source::SourceFile;

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
        let Some(name) = info.strip_prefix("ron ") else {
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

#[test]
fn every_check_is_named_in_the_guide() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let page = fs::read_to_string(root.join("rules/README.md")).unwrap();
    let mut codes = 0;
    for file in [
        "load.rs",
        "load_clues.rs",
        "load_world.rs",
        "load_marks.rs",
        "load_words.rs",
        "word_lists.rs",
        "resolve.rs",
        "informative.rs",
    ] {
        let text = fs::read_to_string(root.join("src/rulebase").join(file)).unwrap();
        // Codes are the only kebab-case or one-word literals in the position of a `code` argument.
        for literal in text.split('"').skip(1).step_by(2) {
            let kebab = literal.contains('-')
                && literal.chars().all(|c| c.is_ascii_lowercase() || c == '-');
            let is_code = kebab && !literal.starts_with("common") && !literal.starts_with("line-");
            if is_code {
                codes += 1;
                assert!(
                    page.contains(literal),
                    "{file} has a check '{literal}' the guide does not name"
                );
            }
        }
    }
    assert!(codes > 15, "{codes}");
}

#[test]
fn the_shares_of_origins_are_the_true_ones() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let page = fs::read_to_string(root.join("rules/README.md")).unwrap();
    let base = &crate::shipped::expert().base;
    let words = printseam::rulebase::origins::origins(base).words();
    assert!(page.contains(&words), "the guide should say: {words}");
}
