//! Every crate that goes into the program may be given on under a licence we can keep.

use std::collections::BTreeSet;
use std::path::Path;
use std::process::Command;

use serde_json::Value;

/// Licences whose terms a binary with a list of its parts keeps.
const KEPT: [&str; 10] = [
    "MIT",
    "MIT-0",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "Unlicense",
    "Zlib",
    "0BSD",
    "BSL-1.0",
    "CC0-1.0",
    "Unicode-3.0",
];

/// Licences of crates that only tests and benches are built with.
const IN_TESTS: [&str; 1] = ["MPL-2.0"];

/// True when an SPDX expression can be met by these licences alone. `/` is an old way to write OR.
fn met(expression: &str, kept: &[&str]) -> bool {
    let text = expression.replace('/', " OR ").replace(['(', ')'], " ");
    // No expression here has OR below AND but in one pair of brackets at the beginning.
    let any = |part: &str| part.split(" OR ").any(|l| kept.contains(&l.trim()));
    text.split(" AND ").all(any)
}

#[test]
fn expressions_are_read_as_meant() {
    let kept = ["MIT", "Unicode-3.0"];
    assert!(met("MIT", &kept));
    assert!(met("Apache-2.0 OR MIT", &kept));
    assert!(met("Apache-2.0/MIT", &kept));
    assert!(met("(MIT OR Apache-2.0) AND Unicode-3.0", &kept));
    assert!(!met("GPL-3.0", &kept));
    assert!(!met("MIT AND GPL-3.0", &kept));
    assert!(!met("(MIT OR Apache-2.0) AND GPL-3.0", &kept));
    assert!(!met("LGPL-2.1-or-later", &kept));
}

/// What cargo knows of the crates for this machine.
fn metadata() -> Value {
    let version = Command::new("rustc").arg("-vV").output().unwrap();
    let version = String::from_utf8(version.stdout).unwrap();
    let host = version
        .lines()
        .find_map(|l| l.strip_prefix("host: "))
        .unwrap();
    let output = Command::new(env!("CARGO"))
        .args(["metadata", "--format-version", "1", "--locked", "--offline"])
        .args(["--filter-platform", host])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .unwrap();
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    serde_json::from_slice(&output.stdout).unwrap()
}

/// Ids of the crates that are built into the program or build it.
fn shipped(metadata: &Value) -> BTreeSet<&str> {
    let nodes = metadata["resolve"]["nodes"].as_array().unwrap();
    let mut found: BTreeSet<&str> = BTreeSet::new();
    let mut next = vec![metadata["resolve"]["root"].as_str().unwrap()];
    while let Some(id) = next.pop() {
        if !found.insert(id) {
            continue;
        }
        let node = nodes.iter().find(|n| n["id"] == id).unwrap();
        for dep in node["deps"].as_array().unwrap() {
            let kinds = dep["dep_kinds"].as_array().unwrap();
            if kinds.iter().any(|k| k["kind"] != "dev") {
                next.push(dep["pkg"].as_str().unwrap());
            }
        }
    }
    found
}

#[test]
fn every_crate_may_be_given_on() {
    let metadata = metadata();
    let shipped = shipped(&metadata);
    let packages = metadata["packages"].as_array().unwrap();
    let resolved = metadata["resolve"]["nodes"].as_array().unwrap();
    let mut bad = Vec::new();
    for node in resolved {
        let id = node["id"].as_str().unwrap();
        let package = packages.iter().find(|p| p["id"] == id).unwrap();
        let licence = package["license"].as_str().unwrap_or("none given");
        let ok = met(licence, &KEPT)
            || (!shipped.contains(id) && met(licence, &[&KEPT[..], &IN_TESTS].concat()));
        if !ok {
            bad.push(format!("{}: {licence}", package["name"]));
        }
    }
    assert!(bad.is_empty(), "{}", bad.join("\n"));
}

/// Crates that a build really has, by `cargo tree`: what cargo knows of has more, which no feature asks for.
fn built(edges: &str) -> usize {
    let output = Command::new(env!("CARGO"))
        .args([
            "tree",
            "--locked",
            "--offline",
            "--prefix",
            "none",
            "--format",
            "{p}",
        ])
        .args(["--edges", edges])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .unwrap();
    let text = String::from_utf8(output.stdout).unwrap();
    // "name v1.2.3 (proc-macro) (*)": the first two words tell it.
    let crates: BTreeSet<Vec<&str>> = text
        .lines()
        .map(|l| l.split(' ').take(2).collect())
        .collect();
    // The program itself is none of them.
    crates.len() - 1
}

/// DEVELOPERS.md says how many crates the program is made of.
#[test]
fn the_number_of_crates_is_stated() {
    let (inside, all) = (built("normal,build"), built("normal,build,dev"));
    let page = Path::new(env!("CARGO_MANIFEST_DIR")).join("DEVELOPERS.md");
    let page = std::fs::read_to_string(page).unwrap();
    let said =
        format!("{inside} crates go into the program, {all} with those of tests and benches");
    if cfg!(all(target_os = "linux", target_env = "gnu")) {
        assert!(page.contains(&said), "DEVELOPERS.md should say: {said}");
    }
}
