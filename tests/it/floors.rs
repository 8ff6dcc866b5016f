//! Imports only go down, and no files import each other in a circle. A rule that is only written
//! in prose erodes.
//!
//! Files are parsed, so that comments and texts may say what they like and no way of writing a path
//! escapes: nested braces, `super::super`, `self::`, `use crate as x`, paths within expressions.
//! `mod child;` declares and imports nothing; `pub use child::X` imports.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use syn::visit::Visit;

/// Rooms from the ground up; a room may name itself and rooms on lower floors only.
const FLOORS: &[&[&str]] = &[
    &["core"],
    &["registry"],
    &["hearing"],
    &["rulebase"],
    &["piece"],
    &["claim", "buy", "picture", "learn"],
    &["say"],
    &["report", "prove", "lot", "setup", "stock"],
    &["screens", "cli"],
];

/// Files above all floors.
const ABOVE: &[&str] = &["lib", "main", "internals"];

/// Paths that must not occur, per room.
const BANNED: &[(&[&str], &[&str])] = &[
    (
        &["core", "picture"],
        &["std::io", "serde", "ron", "rusqlite", "ratatui"],
    ),
    (
        &["core"],
        &["std::collections::HashMap", "std::collections::HashSet"],
    ),
    (&["registry", "hearing"], &["std::io"]),
    (
        &[
            "core", "registry", "hearing", "rulebase", "piece", "claim", "buy", "picture", "learn",
            "say", "report", "prove", "lot", "stock", "screens",
        ],
        &[
            "std::fs",
            "std::env",
            "std::time",
            "std::thread",
            "std::process",
            "std::net",
        ],
    ),
    (&["screens"], &["std::io"]),
    // The terminal's own file apart, nothing in the program knows which terminal it is.
    (
        &[
            "core", "registry", "hearing", "rulebase", "piece", "claim", "buy", "picture", "learn",
            "say", "report", "prove", "lot", "setup", "stock", "screens", "cli", "main", "lib",
        ],
        &["crossterm", "ratatui::crossterm"],
    ),
];

/// The one room of the screens that may touch the terminal.
const TERMINAL: &str = "screens::terminal";

/// A file as a module path, such as `core::grid`; `core/mod.rs` is `core`.
type Module = String;

/// Roots of paths: under another name, what follows could not be told.
const ROOTS: &[&str] = &["crate", "std", "core", "self", "super", "printseam"];

/// What one file names.
#[derive(Default)]
struct Names {
    /// Roots and banned rooms that are given another name: `use crate as c`, `extern crate std as s`.
    renamed: Vec<String>,
    /// Paths as written, segment by segment; `true` for those of a `use`.
    paths: Vec<(Vec<String>, bool)>,
    /// Macros called.
    macros: Vec<String>,
    /// Arguments of macros that are no expressions, without blanks.
    unparsed: Vec<String>,
}

impl<'ast> Visit<'ast> for Names {
    fn visit_item_use(&mut self, item: &'ast syn::ItemUse) {
        flatten(&item.tree, &mut Vec::new(), &mut self.paths);
        renames(&item.tree, &mut self.renamed);
    }

    fn visit_item_extern_crate(&mut self, item: &'ast syn::ItemExternCrate) {
        self.renamed
            .extend(item.rename.as_ref().map(|_| item.ident.to_string()));
    }

    fn visit_path(&mut self, path: &'ast syn::Path) {
        let segments = path.segments.iter().map(|s| s.ident.to_string()).collect();
        self.paths.push((segments, false));
        syn::visit::visit_path(self, path);
    }

    /// `pub(super)` says who may look, and imports nothing.
    fn visit_visibility(&mut self, _: &'ast syn::Visibility) {}

    fn visit_macro(&mut self, mac: &'ast syn::Macro) {
        let name = mac.path.segments.last();
        self.macros.extend(name.map(|s| s.ident.to_string()));
        // The arguments are tokens to the parser; nearly all are expressions parted by commas.
        let parser = syn::punctuated::Punctuated::<syn::Expr, syn::Token![,]>::parse_terminated;
        match mac.parse_body_with(parser) {
            Ok(args) => args.iter().for_each(|e| self.visit_expr(e)),
            // Such as the body of a macro of our own.
            Err(_) => self.unparsed.push(mac.tokens.to_string().replace(' ', "")),
        }
        syn::visit::visit_macro(self, mac);
    }
}

fn flatten(tree: &syn::UseTree, before: &mut Vec<String>, out: &mut Vec<(Vec<String>, bool)>) {
    match tree {
        syn::UseTree::Path(p) => {
            before.push(p.ident.to_string());
            flatten(&p.tree, before, out);
            before.pop();
        }
        syn::UseTree::Group(g) => g.items.iter().for_each(|t| flatten(t, before, out)),
        syn::UseTree::Name(n) => out.push(([&before[..], &[n.ident.to_string()]].concat(), true)),
        syn::UseTree::Rename(n) => out.push(([&before[..], &[n.ident.to_string()]].concat(), true)),
        syn::UseTree::Glob(_) => out.push((before.clone(), true)),
    }
}

/// Roots that a `use` gives another name.
fn renames(tree: &syn::UseTree, out: &mut Vec<String>) {
    let is_root = |ident: &syn::Ident| ROOTS.iter().any(|root| ident == root);
    match tree {
        // What lies below a module may be called anything.
        syn::UseTree::Path(p) if !is_root(&p.ident) => {}
        syn::UseTree::Path(p) => renames(&p.tree, out),
        syn::UseTree::Group(g) => g.items.iter().for_each(|t| renames(t, out)),
        syn::UseTree::Rename(n) => {
            out.extend(is_root(&n.ident).then(|| n.ident.to_string()));
        }
        syn::UseTree::Name(_) | syn::UseTree::Glob(_) => {}
    }
}

fn names(text: &str) -> Names {
    let mut names = Names::default();
    names.visit_file(&syn::parse_file(text).expect("a source file that compiles"));
    names
}

/// The module a path leads to, if it is one of ours: the longest beginning that is a file.
fn target(path: &[String], from: &str, modules: &BTreeSet<Module>) -> Option<Module> {
    let mut at: Vec<&str> = from.split("::").filter(|s| !s.is_empty()).collect();
    let mut rest = path.iter().map(String::as_str).peekable();
    match rest.peek().copied() {
        Some("crate" | "printseam") => {
            rest.next();
            at.clear();
        }
        Some("self") => {
            rest.next();
        }
        Some("super") => {
            while rest.peek() == Some(&"super") {
                rest.next();
                at.pop();
            }
        }
        // A child of this module, or a name from elsewhere.
        Some(first) => {
            let child = [&at[..], &[first]].concat().join("::");
            if !modules.contains(&child) {
                return None;
            }
        }
        None => return None,
    }
    for segment in rest {
        let next = [&at[..], &[segment]].concat().join("::");
        if !modules.contains(&next) {
            break;
        }
        at.push(segment);
    }
    Some(at.join("::"))
}

/// Which files each file imports from. `self::` names and unit tests within a file count as well.
fn imports(files: &BTreeMap<Module, String>) -> BTreeMap<Module, BTreeSet<Module>> {
    let modules: BTreeSet<Module> = files.keys().cloned().collect();
    let of = |(module, text): (&Module, &String)| {
        let found = names(text).paths.into_iter();
        let targets = found.filter_map(|(path, _)| {
            let inside_tests = path.first().is_some_and(|s| s == "super") && path.len() == 2;
            let to = target(&path, module, &modules)?;
            // `use super::X` in `mod tests { … }` is the file itself.
            (to != *module && !(inside_tests && text_has_tests_of(text, &path[1]))).then_some(to)
        });
        (module.clone(), targets.collect())
    };
    files.iter().map(of).collect()
}

/// True when the file defines what its unit tests import by `super::`.
fn text_has_tests_of(text: &str, name: &str) -> bool {
    text.contains("mod tests") && text.contains(&format!(" {name}"))
}

/// Files from which a way of imports leads back to themselves.
fn circles(imports: &BTreeMap<Module, BTreeSet<Module>>) -> BTreeSet<Module> {
    let returns = |start: &Module| {
        let mut seen: BTreeSet<&Module> = BTreeSet::new();
        let mut next: Vec<&Module> = imports[start].iter().collect();
        while let Some(module) = next.pop() {
            if module == start {
                return true;
            }
            if seen.insert(module) {
                next.extend(&imports[module]);
            }
        }
        false
    };
    imports.keys().filter(|m| returns(m)).cloned().collect()
}

fn room(module: &str) -> &str {
    module.split("::").next().unwrap_or_default()
}

/// The floor of a room, from the ground.
fn floor(room: &str) -> Option<usize> {
    FLOORS.iter().position(|rooms| rooms.contains(&room))
}

/// Imports from a higher floor, or from another room on the same one.
fn upward(imports: &BTreeMap<Module, BTreeSet<Module>>) -> Vec<String> {
    let mut found = Vec::new();
    for (module, targets) in imports {
        let here = room(module);
        if ABOVE.contains(&here) || here.is_empty() {
            continue;
        }
        let Some(level) = floor(here) else {
            found.push(format!("{module}: no floor is known for this room"));
            continue;
        };
        for to in targets {
            let there = room(to);
            let down = there == here || floor(there).is_some_and(|f| f < level);
            if !down {
                found.push(format!("{module} imports {to}"));
            }
        }
    }
    found
}

/// Paths that a room must not name, and ends of the process.
fn banned(module: &str, text: &str) -> Vec<String> {
    let names = names(text);
    let here = room(module);
    let mut found = Vec::new();
    for (path, _) in &names.paths {
        let written = path.join("::");
        let of_room = BANNED.iter().filter(|(rooms, _)| rooms.contains(&here));
        for word in of_room.flat_map(|(_, words)| *words) {
            let begins = written == **word || written.starts_with(&format!("{word}::"));
            let at_the_terminal = module == TERMINAL || module.starts_with("screens::terminal::");
            if begins && !at_the_terminal {
                found.push(format!("{module} names {written}"));
            }
        }
        if written.ends_with("process::exit") {
            found.push(format!("{module} exits"));
        }
    }
    for tokens in &names.unparsed {
        let of_room = BANNED.iter().filter(|(rooms, _)| rooms.contains(&here));
        let words = of_room.flat_map(|(_, words)| *words);
        let hidden = words.filter(|word| word.contains("::") && tokens.contains(**word));
        found.extend(hidden.map(|word| format!("{module} names {word} in a macro")));
    }
    let renamed = names.renamed.iter();
    found.extend(renamed.map(|name| format!("{module} gives {name} another name")));
    let prints = ["print", "println", "eprint", "eprintln"];
    let whole_files = ["include_str", "include_bytes", "include"];
    for name in &names.macros {
        let embeds = whole_files.contains(&name.as_str())
            && !["rulebase::shipped", "report::html"].contains(&module);
        if prints.contains(&name.as_str()) || embeds {
            found.push(format!("{module} calls {name}!"));
        }
    }
    found
}

fn rust_files(dir: &Path, out: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(dir).unwrap().flatten() {
        let path = entry.path();
        if path.is_dir() {
            rust_files(&path, out);
        } else if path.extension().is_some_and(|e| e == "rs") {
            out.push(path);
        }
    }
}

/// Every file of `src`, by module.
fn sources() -> BTreeMap<Module, String> {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut files = Vec::new();
    rust_files(&src, &mut files);
    let module = |file: &Path| {
        let name = file.strip_prefix(&src).unwrap().with_extension("");
        let parts: Vec<String> = name
            .components()
            .map(|c| c.as_os_str().to_string_lossy().into_owned())
            .collect();
        let own = parts
            .iter()
            .filter(|p| *p != "mod")
            .cloned()
            .collect::<Vec<_>>();
        own.join("::")
    };
    files
        .iter()
        .map(|f| (module(f), fs::read_to_string(f).unwrap()))
        .collect()
}

#[test]
fn imports_only_go_down() {
    let files = sources();
    assert!(files.len() > 100);
    let found = upward(&imports(&files));
    assert!(found.is_empty(), "{}", found.join("\n"));
}

#[test]
fn no_files_import_each_other_in_a_circle() {
    let imports = imports(&sources());
    let round = circles(&imports);
    let shown: Vec<String> = round
        .iter()
        .map(|m| {
            let to = imports[m].iter().filter(|t| round.contains(*t));
            format!("{m} -> {}", to.cloned().collect::<Vec<_>>().join(", "))
        })
        .collect();
    assert!(round.is_empty(), "{}", shown.join("\n"));
}

#[test]
fn lower_rooms_touch_no_files_clocks_or_terminals() {
    let files = sources();
    let found: Vec<String> = files.iter().flat_map(|(m, text)| banned(m, text)).collect();
    assert!(found.is_empty(), "{}", found.join("\n"));
}

/// Every room of a floor is a folder or a file: none is kept for one that is gone or to come.
#[test]
fn every_floor_is_there() {
    let files = sources();
    for name in FLOORS.iter().flat_map(|f| f.iter()) {
        assert!(files.keys().any(|m| room(m) == *name), "no room {name}");
    }
}

/// Two would each keep a state of the terminal of their own.
#[test]
fn events_are_read_by_the_crossterm_that_ratatui_draws_with() {
    let lock = Path::new(env!("CARGO_MANIFEST_DIR")).join("Cargo.lock");
    let lock = fs::read_to_string(lock).unwrap();
    let crossterms = lock.lines().filter(|line| *line == "name = \"crossterm\"");
    assert_eq!(crossterms.count(), 1);
}

fn small(files: &[(&str, &str)]) -> BTreeMap<Module, BTreeSet<Module>> {
    let files = files
        .iter()
        .map(|(m, t)| ((*m).to_owned(), (*t).to_owned()));
    imports(&files.collect())
}

#[test]
fn an_upward_import_is_seen_however_it_is_written() {
    for text in [
        "use crate::rulebase::RuleBase;",
        "use crate::{core::grid::Year, rulebase::RuleBase};",
        "use super::super::rulebase as r;",
        "fn f() { crate::rulebase::load(); }",
        "fn f() -> crate::rulebase::RuleBase { todo!() }",
        "fn f() { format!(\"{}\", crate::rulebase::NAME); }",
    ] {
        let found = small(&[("core::grid", text), ("core", ""), ("rulebase", "")]);
        assert_eq!(upward(&found).len(), 1, "{text}");
    }
    let quiet = "// use crate::rulebase::RuleBase;\nconst A: &str = \"crate::rulebase\";";
    let found = small(&[("core::grid", quiet), ("core", ""), ("rulebase", "")]);
    assert!(upward(&found).is_empty());
    let across = small(&[
        ("cli", "use crate::screens::app::App;"),
        ("screens", ""),
        ("screens::app", ""),
    ]);
    assert_eq!(upward(&across).len(), 1);
    assert_eq!(upward(&small(&[("nowhere", "")])).len(), 1);
}

#[test]
fn a_circle_is_seen_through_a_re_export_and_at_any_length() {
    let through = small(&[
        ("core", "mod a; mod b; pub use b::B;"),
        ("core::a", "use super::b::B;"),
        ("core::b", "use super::B;"),
    ]);
    assert!(circles(&through).contains("core::b"));
    let long = small(&[
        ("core", "mod a; mod b; mod c;"),
        ("core::a", "use super::b::B;"),
        ("core::b", "use crate::core::c::C;"),
        ("core::c", "fn f() { super::a::go() }"),
    ]);
    assert_eq!(circles(&long).len(), 3);
    let none = small(&[
        ("core", "mod a; mod b; pub use a::A;"),
        (
            "core::a",
            "use super::b::B; mod tests { use super::A; } struct A;",
        ),
        ("core::b", ""),
    ]);
    assert!(circles(&none).is_empty());
}

#[test]
fn what_is_banned_is_seen() {
    assert_eq!(banned("core::grid", "use std::{fs};").len(), 1);
    assert_eq!(
        banned("core::grid", "fn f() { std::process::exit(1) }").len(),
        2
    );
    assert_eq!(banned("core::grid", "// use std::fs;").len(), 0);
    for hidden in [
        "use std::{collections::{BTreeMap}, fs::{self as files}};",
        "use std::fs as files;",
        "use std as s; fn f() { s::fs::read(\"x\"); }",
        "use crate as c; fn f() { c::rulebase::load(); }",
        "use super::{self as up, grid::Grid};",
        "extern crate std as s;",
        "fn f() -> std::process::Command { todo!() }",
        "/* std::fs */ use ::std::fs;",
        "fn f() { format!(\"{}\", std::fs::read_to_string(\"x\").unwrap()); }",
        "const A: &[u8] = include_bytes!(\"x\");",
        "fn f() { core::include_str!(\"x\"); }",
        "macro_rules! m { () => { std::fs::read(\"x\") } }",
    ] {
        assert_eq!(banned("core::grid", hidden).len(), 1, "{hidden}");
    }
    assert_eq!(banned("screens::app", "use crossterm::event;").len(), 1);
    assert_eq!(banned("cli::run", "use ratatui::crossterm::tty;").len(), 1);
    assert_eq!(
        banned("screens::terminal", "use crossterm::event;").len(),
        0
    );
    assert_eq!(banned("say::band", "fn f() { println!(\"x\") }").len(), 1);
    assert_eq!(
        banned("say::band", "const A: &str = include_str!(\"x\");").len(),
        1
    );
}
