//! Rule files of a folder checked from a program of one's own: every problem with its place.
//!
//! `cargo run --release --example check_rules -- rules`

use std::error::Error;
use std::path::Path;

use printseam::{RuleBase, SourceFile};

/// All `.ron` files of a folder and of the folders in it, named as rule files are.
fn read(dir: &Path, under: &str, out: &mut Vec<SourceFile>) -> std::io::Result<()> {
    for entry in std::fs::read_dir(dir)? {
        let path = entry?.path();
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        if path.is_dir() {
            read(&path, &format!("{under}{name}/"), out)?;
        } else if path.extension().is_some_and(|e| e == "ron") {
            out.push(SourceFile {
                name: format!("{under}{name}"),
                text: std::fs::read_to_string(&path)?,
            });
        }
    }
    Ok(())
}

fn main() -> Result<(), Box<dyn Error>> {
    let dir = std::env::args().nth(1).unwrap_or("rules".to_owned());
    let mut files = Vec::new();
    read(Path::new(&dir), "", &mut files)?;
    match RuleBase::load(&files) {
        Ok(base) => println!("{} clues, version {}", base.clues.len(), base.version),
        Err(problems) => problems.iter().for_each(|p| println!("{p}")),
    }
    Ok(())
}
