//! Rule files that must load, and rule files that must give exactly the problems beside them.
//!
//! `tests/rules/err/NAME/` holds a whole small rule base with one topic spoilt, or single files
//! laid over `tests/rules/base`; `tests/rules/err/NAME.out` holds the exact lines.
//! Run with `RULES_CORPUS=overwrite` to write the `.out` files anew, then read the difference.

use std::fs;
use std::path::{Path, PathBuf};

use printseam::rulebase::RuleBase;
use printseam::rulebase::source::SourceFile;

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/rules")
}

/// All `.ron` files below a folder, sorted, named relative to it.
pub fn read_rules(dir: &Path) -> Vec<SourceFile> {
    fn walk(root: &Path, dir: &Path, out: &mut Vec<SourceFile>) {
        let mut paths: Vec<PathBuf> = fs::read_dir(dir)
            .unwrap()
            .map(|e| e.unwrap().path())
            .collect();
        paths.sort();
        for path in paths {
            if path.is_dir() {
                walk(root, &path, out);
            } else if path.extension().is_some_and(|e| e == "ron") {
                let name = path
                    .strip_prefix(root)
                    .unwrap()
                    .to_string_lossy()
                    .replace('\\', "/");
                out.push(SourceFile {
                    name,
                    text: fs::read_to_string(&path).unwrap(),
                });
            }
        }
    }
    let mut out = Vec::new();
    walk(dir, dir, &mut out);
    out
}

/// The good base with the files of `over` laid over it.
fn laid_over(over: &Path) -> Vec<SourceFile> {
    let mut files = read_rules(&root().join("ok/base"));
    for file in read_rules(over) {
        files.retain(|f| f.name != file.name);
        files.push(file);
    }
    files
}

#[test]
fn good_rules_load_clean() {
    let mut seen = 0;
    for entry in fs::read_dir(root().join("ok")).unwrap() {
        let path = entry.unwrap().path();
        if let Err(problems) = RuleBase::load(&read_rules(&path)) {
            let all: Vec<String> = problems.iter().map(|p| p.to_string()).collect();
            panic!("{}:\n{}", path.display(), all.join("\n"));
        }
        seen += 1;
    }
    assert!(seen > 0);
}

#[test]
fn bad_rules_give_exactly_their_problems() {
    let mut wrong = Vec::new();
    let mut seen = 0;
    let mut folders: Vec<PathBuf> = fs::read_dir(root().join("err"))
        .unwrap()
        .map(|e| e.unwrap().path())
        .filter(|p| p.is_dir())
        .collect();
    folders.sort();
    for folder in folders {
        seen += 1;
        let got = match RuleBase::load(&laid_over(&folder)) {
            Ok(_) => "loads without a problem\n".to_owned(),
            Err(problems) => problems.iter().map(|p| format!("{p}\n")).collect(),
        };
        let out = folder.with_extension("out");
        if std::env::var("RULES_CORPUS").is_ok_and(|v| v == "overwrite") {
            fs::write(&out, &got).unwrap();
        }
        let wanted = fs::read_to_string(&out).unwrap_or_default();
        if got != wanted {
            wrong.push(format!(
                "== {}\n-- wanted\n{wanted}-- got\n{got}",
                folder.display()
            ));
        }
    }
    assert!(seen >= 15, "{seen}");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_shipped_list_equals_the_folder() {
    let rules = Path::new(env!("CARGO_MANIFEST_DIR")).join("rules");
    let mut folder: Vec<String> = read_rules(&rules).into_iter().map(|f| f.name).collect();
    let mut list: Vec<String> = printseam::rulebase::shipped::files()
        .into_iter()
        .map(|f| f.name)
        .collect();
    folder.sort();
    list.sort();
    assert_eq!(folder, list);
}
