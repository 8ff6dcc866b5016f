//! What a Rust file names: every path of its `use` trees and of its code, as full paths. The text is
//! read as tokens, so comments, strings and examples in docs don't count.

use proc_macro2::{Delimiter, TokenStream, TokenTree};

/// One path that a file names, such as `crate::core::grid::Year`.
#[derive(Clone, Debug, PartialEq)]
pub struct Named {
    /// The name it gets in this file, when it is imported; `None` for a path in code.
    pub imported_as: Option<String>,
    pub path: Vec<String>,
    /// Inline modules of the file it stands in, from the outermost.
    pub inside: Vec<String>,
    pub line: usize,
}

/// One Rust file.
#[derive(Debug, Default)]
pub struct Source {
    pub named: Vec<Named>,
    /// Inline modules (`mod x { … }`).
    pub inline: Vec<Vec<String>>,
    /// Macros called: (name without its path, line).
    pub macros: Vec<(String, usize)>,
}

impl Source {
    /// Reads a file.
    pub fn new(text: &str) -> Source {
        let tokens: TokenStream = text.parse().unwrap_or_else(|e| panic!("{e}\n{text}"));
        let mut source = Source::default();
        source.walk(tokens, &mut Vec::new());
        source
    }

    fn walk(&mut self, tokens: TokenStream, inside: &mut Vec<String>) {
        let tokens: Vec<TokenTree> = tokens.into_iter().collect();
        let mut at = 0;
        while at < tokens.len() {
            match &tokens[at] {
                TokenTree::Group(group) => {
                    self.walk(group.stream(), inside);
                    at += 1;
                }
                // `use<'a>` in a type names no path.
                TokenTree::Ident(word) if word == "use" && !is(&tokens, at + 1, '<') => {
                    at = self.use_tree(&tokens, at + 1, &[], inside);
                }
                TokenTree::Ident(word) if word == "mod" => at = self.module(&tokens, at, inside),
                TokenTree::Ident(_) => at = self.path(&tokens, at, inside),
                TokenTree::Punct(_) | TokenTree::Literal(_) => at += 1,
            }
        }
    }

    /// `mod x { … }` is walked as a module inside this file; `mod x;` declares, and names nothing.
    fn module(&mut self, tokens: &[TokenTree], at: usize, inside: &mut Vec<String>) -> usize {
        let (Some(name), Some(TokenTree::Group(body))) =
            (ident(tokens, at + 1), tokens.get(at + 2))
        else {
            return at + 2;
        };
        inside.push(name);
        self.inline.push(inside.clone());
        self.walk(body.stream(), inside);
        inside.pop();
        at + 3
    }

    /// `a::b::c` in code; what begins a longer expression is taken as far as it is a path.
    fn path(&mut self, tokens: &[TokenTree], mut at: usize, inside: &[String]) -> usize {
        let line = line(&tokens[at]);
        let mut path = vec![tokens[at].to_string()];
        at += 1;
        while is_colons(tokens, at) {
            let Some(next) = ident(tokens, at + 2) else {
                break;
            };
            path.push(next);
            at += 3;
        }
        // `a != b` calls nothing.
        if is(tokens, at, '!') && !is(tokens, at + 1, '=') {
            self.macros
                .extend(path.last().map(|name| (name.clone(), line)));
        }
        // One word alone is a variable, a keyword, or was imported under that name.
        if path.len() > 1 {
            self.named.push(Named {
                imported_as: None,
                path,
                inside: inside.to_vec(),
                line,
            });
        }
        at
    }

    /// One tree of a `use`; returns the place of what follows it.
    fn use_tree(
        &mut self,
        tokens: &[TokenTree],
        mut at: usize,
        before: &[String],
        inside: &[String],
    ) -> usize {
        let mut path = before.to_vec();
        let mut last = at;
        loop {
            if is_colons(tokens, at) {
                at += 2;
            } else if let Some(TokenTree::Group(group)) = tokens.get(at)
                && group.delimiter() == Delimiter::Brace
            {
                let tokens: Vec<TokenTree> = group.stream().into_iter().collect();
                let mut within = 0;
                while within < tokens.len() {
                    within = self.use_tree(&tokens, within, &path, inside);
                    // The comma between two trees.
                    within += 1;
                }
                return at + 1;
            } else if is(tokens, at, '*') {
                path.push("*".to_owned());
                last = at;
                at += 1;
            } else if let Some(name) = ident(tokens, at).filter(|name| name != "as") {
                path.push(name);
                last = at;
                at += 1;
            } else {
                break;
            }
        }
        // `a::{self}` names `a`.
        if path.len() > 1 && path.last().is_some_and(|name| name == "self") {
            path.pop();
        }
        let mut imported_as = path.last().cloned();
        if ident(tokens, at).is_some_and(|word| word == "as") {
            imported_as = ident(tokens, at + 1);
            at += 2;
        }
        let line = tokens.get(last).map_or(0, line);
        self.named.push(Named {
            imported_as,
            path,
            inside: inside.to_vec(),
            line,
        });
        at
    }

    /// Every path with the names imported in the same module put in full: after `use std::io`,
    /// `io::stdin` is `std::io::stdin`.
    pub fn full_paths(&self) -> impl Iterator<Item = (Vec<String>, &Named)> {
        self.named.iter().map(|named| {
            let import = self.named.iter().find(|other| {
                named.imported_as.is_none()
                    && other.inside == named.inside
                    && other.imported_as.as_ref() == Some(&named.path[0])
            });
            let path = match import {
                Some(import) => [&import.path[..], &named.path[1..]].concat(),
                None => named.path.clone(),
            };
            (path, named)
        })
    }
}

fn is(tokens: &[TokenTree], at: usize, sign: char) -> bool {
    matches!(tokens.get(at), Some(TokenTree::Punct(p)) if p.as_char() == sign)
}

fn is_colons(tokens: &[TokenTree], at: usize) -> bool {
    is(tokens, at, ':') && is(tokens, at + 1, ':')
}

fn ident(tokens: &[TokenTree], at: usize) -> Option<String> {
    match tokens.get(at) {
        Some(TokenTree::Ident(word)) => Some(word.to_string()),
        _ => None,
    }
}

fn line(token: &TokenTree) -> usize {
    token.span().start().line
}

/// The paths of a small text.
fn paths(text: &str) -> Vec<String> {
    Source::new(text)
        .full_paths()
        .map(|(path, _)| path.join("::"))
        .collect()
}

#[test]
fn use_trees_are_read_to_their_ends() {
    assert_eq!(paths("use std::fs;"), ["std::fs"]);
    assert_eq!(
        paths("pub(crate) use crate::{a, b::{self, c::D as E}, f::*};"),
        ["crate::a", "crate::b", "crate::b::c::D", "crate::f::*"]
    );
    assert_eq!(
        paths("use ::std::{fs as files, io::{Read, Write,},};"),
        ["std::fs", "std::io::Read", "std::io::Write"]
    );
    assert_eq!(
        paths("use super::super::x::Y;\nuse self::z;"),
        ["super::super::x::Y", "self::z"]
    );
    let source = Source::new("\n\nuse crate::{\n    a,\n    b,\n};");
    let lines: Vec<usize> = source.named.iter().map(|n| n.line).collect();
    assert_eq!(lines, [4, 5]);
}

#[test]
fn paths_in_code_are_read() {
    let text = "fn f(x: &crate::a::B) -> Vec<super::C> { crate::d::e::<u8>(x)?; println!(\"{}\", \
                crate::g::H); Vec::new() }";
    assert_eq!(
        paths(text),
        [
            "crate::a::B",
            "super::C",
            "crate::d::e",
            "crate::g::H",
            "Vec::new"
        ]
    );
    assert_eq!(paths("fn f() -> impl A + use<'_> { x.y::<Z>() }"), [""; 0]);
    assert_eq!(
        paths("#[derive(serde::Serialize)] struct S;"),
        ["serde::Serialize"]
    );
}

#[test]
fn comments_strings_and_examples_do_not_count() {
    let text = r##"
        //! use std::fs;
        /// ```
        /// use crate::a::B;
        /// ```
        // use std::io;
        /* std::env::var(); /* std::net */ std::time */
        const A: &str = "std::fs"; const B: &str = r#"crate::x " y"#; const C: char = '"';
        fn f<'a>(x: &'a str) -> &'a str { x }
    "##;
    assert_eq!(paths(text), [""; 0]);
}

#[test]
fn a_name_imported_stands_for_its_path() {
    assert_eq!(
        paths("use std::process; fn f() { process::exit(1) }"),
        ["std::process", "std::process::exit"]
    );
    assert_eq!(
        paths("use std::io as files; fn f() { files::stdin(); }"),
        ["std::io", "std::io::stdin"]
    );
    // What an inner module imports is unknown outside it.
    assert_eq!(
        paths("mod tests { use std::io; } fn f() { io::x(); }"),
        ["std::io", "io::x"]
    );
}

#[test]
fn inline_modules_are_entered_and_declared_ones_name_nothing() {
    let source = Source::new("mod a; pub mod b { mod c { use super::d; } }");
    assert_eq!(source.inline, [vec!["b"], vec!["b", "c"]]);
    assert_eq!(source.named[0].inside, ["b", "c"]);
    assert_eq!(source.named.len(), 1);
}
