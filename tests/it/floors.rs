//! Imports only go down. A rule that is only written in prose erodes.

use std::fs;
use std::path::{Path, PathBuf};

/// Module -> crate modules it may name.
const FLOORS: &[(&str, &[&str])] = &[
    ("core", &["core"]),
    ("registry", &["core", "registry"]),
    ("hearing", &["core", "hearing", "registry"]),
    ("rulebase", &["core", "hearing", "registry", "rulebase"]),
    (
        "piece",
        &["core", "hearing", "piece", "registry", "rulebase"],
    ),
    (
        "claim",
        &["claim", "core", "hearing", "piece", "registry", "rulebase"],
    ),
    (
        "say",
        &[
            "claim", "core", "hearing", "piece", "registry", "rulebase", "say",
        ],
    ),
    (
        "report",
        &[
            "claim", "core", "hearing", "piece", "registry", "report", "rulebase", "say",
        ],
    ),
    (
        "prove",
        &[
            "core", "hearing", "piece", "prove", "registry", "rulebase", "say",
        ],
    ),
    (
        "setup",
        &["core", "hearing", "piece", "registry", "rulebase", "setup"],
    ),
    (
        "cli",
        &[
            "claim", "cli", "core", "hearing", "piece", "prove", "registry", "report", "rulebase",
            "say", "setup",
        ],
    ),
    (
        "screens",
        &[
            "claim", "core", "hearing", "piece", "registry", "report", "rulebase", "say", "screens",
        ],
    ),
];

/// Words that must not occur below floor 5 and setup, per module.
const BANNED: &[(&str, &[&str])] = &[
    (
        "core",
        &[
            "std::fs",
            "std::io",
            "std::env",
            "std::time",
            "std::thread",
            "serde",
            "ron::",
            "rusqlite",
            "ratatui",
            "println!",
            "HashMap",
            "HashSet",
        ],
    ),
    (
        "rulebase",
        &[
            "std::fs",
            "std::env",
            "std::time",
            "std::thread",
            "println!",
        ],
    ),
    (
        "registry",
        &[
            "std::fs",
            "std::io",
            "std::env",
            "std::time",
            "std::thread",
            "println!",
        ],
    ),
    (
        "hearing",
        &[
            "std::fs",
            "std::io",
            "std::env",
            "std::time",
            "std::thread",
            "println!",
        ],
    ),
    (
        "piece",
        &[
            "std::fs",
            "std::env",
            "std::time",
            "std::thread",
            "println!",
        ],
    ),
    (
        "say",
        &[
            "std::fs",
            "std::env",
            "std::time",
            "std::thread",
            "println!",
        ],
    ),
    (
        "claim",
        &[
            "std::fs",
            "std::env",
            "std::time",
            "std::thread",
            "println!",
        ],
    ),
    (
        "report",
        &[
            "std::fs",
            "std::env",
            "std::time",
            "std::thread",
            "println!",
        ],
    ),
    (
        "prove",
        &[
            "std::fs",
            "std::env",
            "std::time",
            "std::thread",
            "println!",
        ],
    ),
];

fn rust_files(dir: &Path, out: &mut Vec<PathBuf>) {
    let Ok(entries) = fs::read_dir(dir) else {
        return;
    };
    for entry in entries.flatten() {
        let path = entry.path();
        if path.is_dir() {
            rust_files(&path, out);
        } else if path.extension().is_some_and(|e| e == "rs") {
            out.push(path);
        }
    }
}

/// The floor's name of a file: the first folder or file below `src`.
fn module(src: &Path, file: &Path) -> String {
    let first = file.strip_prefix(src).unwrap().components().next().unwrap();
    first
        .as_os_str()
        .to_string_lossy()
        .trim_end_matches(".rs")
        .to_owned()
}

/// Code lines only: comments may say what they like.
fn code(text: &str) -> impl Iterator<Item = (usize, &str)> {
    text.lines()
        .enumerate()
        .filter(|(_, l)| !l.trim_start().starts_with("//"))
}

/// Upward imports in one file's text.
fn upward(module: &str, text: &str) -> Vec<String> {
    let Some((_, allowed)) = FLOORS.iter().find(|(m, _)| *m == module) else {
        return vec![format!("no floor is known for src/{module}")];
    };
    let banned = BANNED
        .iter()
        .find(|(m, _)| *m == module)
        .map_or(&[][..], |(_, b)| *b);
    let mut found = Vec::new();
    for (n, line) in code(text) {
        for part in line.split("crate::").skip(1) {
            // `use crate::{a, b}` would hide names from this test: not allowed.
            let name: String = part
                .chars()
                .take_while(|c| c.is_alphanumeric() || *c == '_')
                .collect();
            if !allowed.contains(&name.as_str()) {
                found.push(format!("line {}: {module} names crate::{name}", n + 1));
            }
        }
        for word in banned.iter().filter(|w| line.contains(**w)) {
            found.push(format!("line {}: {module} uses {word}", n + 1));
        }
        if line.contains("process::exit") {
            found.push(format!("line {}: {module} exits", n + 1));
        }
    }
    found
}

#[test]
fn imports_only_go_down() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut files = Vec::new();
    rust_files(&src, &mut files);
    assert!(files.len() > 20);
    let mut found = Vec::new();
    for file in files {
        let module = module(&src, &file);
        if module == "lib" || module == "main" {
            continue;
        }
        let text = fs::read_to_string(&file).unwrap();
        found.extend(
            upward(&module, &text)
                .into_iter()
                .map(|f| format!("{}: {f}", file.display())),
        );
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
}

#[test]
fn an_upward_import_is_seen() {
    assert_eq!(upward("core", "use crate::rulebase::RuleBase;").len(), 1);
    assert_eq!(upward("core", "use std::fs;").len(), 1);
    assert_eq!(upward("core", "// use std::fs; in a comment").len(), 0);
    assert_eq!(upward("cli", "use crate::screens::app::App;").len(), 1);
    assert_eq!(upward("piece", "use crate::{core::grid::Year};").len(), 1);
    assert_eq!(upward("nowhere", "").len(), 1);
}
