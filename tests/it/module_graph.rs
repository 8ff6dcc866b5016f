//! Which file of a crate imports which, and the circles among them.
//!
//! A path is followed down the modules it names; the file that holds the last of them is imported. A
//! re-export is the import of the file it stands in. `mod child;` declares and imports nothing.

use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::fs;
use std::path::{Path, PathBuf};

use crate::rust_source::Source;

/// One file: its name below the crate's folder, with `/`.
pub struct File {
    pub name: String,
    /// Module path, empty for the root.
    pub module: Vec<String>,
    pub source: Source,
}

/// All files of a crate and what they import of each other.
pub struct ModuleGraph {
    pub files: Vec<File>,
    /// Module path to the file that holds it; inline modules are held by the file they stand in.
    modules: BTreeMap<Vec<String>, usize>,
    /// (importing file, imported file) to the first line that does.
    pub imports: BTreeMap<(usize, usize), usize>,
}

impl ModuleGraph {
    /// Reads all Rust files below a folder.
    pub fn read(folder: &Path) -> ModuleGraph {
        let mut paths = Vec::new();
        rust_files(folder, &mut paths);
        paths.sort();
        let name = |path: &PathBuf| {
            let below = path.strip_prefix(folder).unwrap().to_string_lossy();
            below.replace('\\', "/")
        };
        let texts = paths
            .iter()
            .map(|path| (name(path), fs::read_to_string(path).unwrap()));
        ModuleGraph::of(texts)
    }

    /// The graph of (name, text). The root is `lib.rs`; `main.rs` is a crate of its own and is left
    /// without imports.
    pub fn of(texts: impl Iterator<Item = (String, String)>) -> ModuleGraph {
        let files: Vec<File> = texts
            .map(|(name, text)| File {
                module: module_of(&name),
                source: Source::new(&text),
                name,
            })
            .collect();
        let mut modules = BTreeMap::new();
        for (i, file) in files.iter().enumerate().filter(|(_, f)| !f.is_binary()) {
            modules.insert(file.module.clone(), i);
            for inline in &file.source.inline {
                modules.insert([&file.module[..], inline].concat(), i);
            }
        }
        let mut graph = ModuleGraph {
            files,
            modules,
            imports: BTreeMap::new(),
        };
        graph.imports = graph.all_imports();
        graph
    }

    fn all_imports(&self) -> BTreeMap<(usize, usize), usize> {
        let mut imports = BTreeMap::new();
        for (i, file) in self
            .files
            .iter()
            .enumerate()
            .filter(|(_, f)| !f.is_binary())
        {
            for (path, named) in file.source.full_paths() {
                let here = [&file.module[..], &named.inside].concat();
                if let Some(target) = self.holder(&here, &path).filter(|target| *target != i) {
                    let line = imports.entry((i, target)).or_insert(named.line);
                    *line = named.line.min(*line);
                }
            }
        }
        imports
    }

    /// The file that holds the last module a path names, when it names one of this crate.
    fn holder(&self, here: &[String], path: &[String]) -> Option<usize> {
        let mut parts = path.iter().map(String::as_str).peekable();
        let mut module = match *parts.peek()? {
            "crate" => Vec::new(),
            "self" | "super" => here.to_vec(),
            child => {
                let child = [here, &[child.to_owned()]].concat();
                self.modules.contains_key(&child).then(|| here.to_vec())?
            }
        };
        parts.next_if(|part| ["crate", "self"].contains(part));
        for part in parts {
            if part == "super" {
                module.pop();
                continue;
            }
            module.push(part.to_owned());
            if !self.modules.contains_key(&module) {
                module.pop();
                break;
            }
        }
        self.modules.get(&module).copied()
    }

    /// Groups of files that import each other, directly or by way of others of the group.
    pub fn knots(&self) -> Vec<Vec<usize>> {
        let reached: Vec<BTreeSet<usize>> = (0..self.files.len())
            .map(|file| self.reached_from(file))
            .collect();
        let mut knots: Vec<Vec<usize>> = Vec::new();
        for (file, reach) in reached.iter().enumerate() {
            if reach.contains(&file) && !knots.iter().any(|knot| knot.contains(&file)) {
                let back = reach
                    .iter()
                    .filter(|other| reached[**other].contains(&file));
                knots.push(back.copied().collect());
            }
        }
        knots
    }

    fn reached_from(&self, file: usize) -> BTreeSet<usize> {
        let mut reached = BTreeSet::new();
        let mut open = vec![file];
        while let Some(from) = open.pop() {
            open.extend(self.imported_by(from).filter(|to| reached.insert(*to)));
        }
        reached
    }

    fn imported_by(&self, file: usize) -> impl Iterator<Item = usize> {
        let from_it = self.imports.range((file, 0)..(file + 1, 0));
        from_it.map(|((_, to), _)| *to)
    }

    /// The shortest circle through each file of each knot, each circle once, told with its lines.
    pub fn circles(&self) -> Vec<String> {
        let mut told = BTreeSet::new();
        for file in self.knots().into_iter().flatten() {
            let circle = self.shortest_circle(file);
            // The same circle begins at its first file, wherever it was entered.
            let first = (0..circle.len()).min_by_key(|i| circle[*i]).unwrap_or(0);
            told.insert([&circle[first..], &circle[..first]].concat());
        }
        told.iter().map(|circle| self.tell(circle)).collect()
    }

    /// The files of the shortest way from a file back to itself.
    fn shortest_circle(&self, file: usize) -> Vec<usize> {
        let mut came_from: BTreeMap<usize, usize> = BTreeMap::new();
        let mut open = VecDeque::from([file]);
        while let Some(from) = open.pop_front() {
            for to in self.imported_by(from) {
                if to == file {
                    let mut circle = vec![from];
                    while circle[0] != file {
                        circle.insert(0, came_from[&circle[0]]);
                    }
                    return circle;
                }
                if let std::collections::btree_map::Entry::Vacant(new) = came_from.entry(to) {
                    new.insert(from);
                    open.push_back(to);
                }
            }
        }
        Vec::new()
    }

    fn tell(&self, circle: &[usize]) -> String {
        let mut out = String::new();
        for (i, from) in circle.iter().enumerate() {
            let to = circle[(i + 1) % circle.len()];
            out += &format!(
                "{}:{} -> ",
                self.files[*from].name,
                self.imports[&(*from, to)]
            );
        }
        out + &self.files[circle[0]].name
    }
}

impl File {
    /// The program itself, which uses the library as others would.
    pub fn is_binary(&self) -> bool {
        self.name == "main.rs"
    }
}

/// `a/mod.rs` and `a.rs` are the module `a`, `lib.rs` the root.
fn module_of(name: &str) -> Vec<String> {
    let name = name.strip_suffix(".rs").unwrap_or(name);
    let name = name.strip_suffix("/mod").unwrap_or(name);
    match name {
        "lib" => Vec::new(),
        name => name.split('/').map(str::to_owned).collect(),
    }
}

fn rust_files(folder: &Path, out: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            rust_files(&path, out);
        } else if path.extension().is_some_and(|e| e == "rs") {
            out.push(path);
        }
    }
}

fn graph(texts: &[(&str, &str)]) -> ModuleGraph {
    let texts = texts
        .iter()
        .map(|(n, t)| ((*n).to_owned(), (*t).to_owned()));
    ModuleGraph::of(texts)
}

/// `importing imported`, by names of files.
fn imports(texts: &[(&str, &str)]) -> Vec<String> {
    let graph = graph(texts);
    let name = |file: usize| graph.files[file].name.as_str();
    let pairs = graph.imports.keys();
    pairs
        .map(|(a, b)| format!("{} {}", name(*a), name(*b)))
        .collect()
}

#[test]
fn a_path_leads_to_the_file_that_holds_the_module() {
    let lib = ("lib.rs", "pub mod a; pub mod b;");
    let a = ("a/mod.rs", "pub mod c; pub struct A;");
    let of = |c: &str, b: &str| imports(&[lib, a, ("a/c.rs", c), ("b.rs", b)]);
    assert_eq!(of("", "use crate::a::c::C;"), ["b.rs a/c.rs"]);
    assert_eq!(of("", "use crate::{a::{c}};"), ["b.rs a/c.rs"]);
    assert_eq!(of("", "use crate::a::A;"), ["b.rs a/mod.rs"]);
    assert_eq!(
        of("", "fn f() -> crate::a::c::C { todo!() }"),
        ["b.rs a/c.rs"]
    );
    assert_eq!(
        of("", "use crate::a; fn f(_: a::c::C) {}"),
        ["b.rs a/mod.rs", "b.rs a/c.rs"]
    );
    assert_eq!(of("use super::super::b::B;", ""), ["a/c.rs b.rs"]);
    assert_eq!(of("use super::A;", ""), ["a/c.rs a/mod.rs"]);
    assert_eq!(
        of("mod tests { use super::C; use super::super::A; }", ""),
        ["a/c.rs a/mod.rs"]
    );
    assert_eq!(of("use std::fmt; use serde::Serialize;", ""), [""; 0]);
    assert_eq!(of("use crate::Root;", ""), ["a/c.rs lib.rs"]);
}

#[test]
fn a_child_may_use_its_parent_unless_the_parent_imports_from_it() {
    let child = ("a/c.rs", "use super::A; pub struct C;");
    let with = |parent: &str| graph(&[("lib.rs", "mod a;"), ("a/mod.rs", parent), child]).circles();
    assert_eq!(with("mod c; pub struct A;"), [""; 0]);
    let circle = ["a/mod.rs:1 -> a/c.rs:1 -> a/mod.rs"];
    for import in [
        "use c::C;",
        "pub use c::C;",
        "pub use self::c::C;",
        "fn f() { c::f(); }",
    ] {
        assert_eq!(
            with(&format!("mod c; {import} pub struct A;")),
            circle,
            "{import}"
        );
    }
}

#[test]
fn circles_of_any_length_are_found() {
    let chain = |last: &str| {
        graph(&[
            ("a.rs", "use crate::b::B;\nuse crate::c::C;"),
            ("b.rs", "\nuse crate::c::C;"),
            ("c.rs", "use crate::d::D;"),
            ("d.rs", last),
            ("e.rs", "use crate::a::A;"),
        ])
    };
    assert_eq!(chain("").circles(), [""; 0]);
    assert!(chain("").knots().is_empty());
    let round = chain("use crate::b::B;");
    assert_eq!(round.circles(), ["b.rs:2 -> c.rs:1 -> d.rs:1 -> b.rs"]);
    assert_eq!(round.knots(), [[1, 2, 3]]);
    // The way by b is longer, and is told as well: b is in the knot.
    let two = chain("use crate::a::A;");
    assert_eq!(two.knots(), [[0, 1, 2, 3]]);
    assert_eq!(
        two.circles(),
        [
            "a.rs:1 -> b.rs:2 -> c.rs:1 -> d.rs:1 -> a.rs",
            "a.rs:2 -> c.rs:1 -> d.rs:1 -> a.rs"
        ]
    );
}
