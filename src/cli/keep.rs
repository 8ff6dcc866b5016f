//! A file the screens want written: they touch none themselves.

use std::path::{Path, PathBuf};

use crate::setup::write::{NotWritten, Over, write};

/// Writes a new file; gives its whole name, or in one line why there is none. A file that is there
/// already is left alone, unless it is empty: nobody sees on the screens what it holds.
///
/// # Errors
/// What is wrong, and what to do.
pub fn keep(name: &str, text: &str) -> Result<String, String> {
    let path = place(name, std::env::home_dir());
    match write(&path, text, Over::Ours(&|_| false)) {
        Ok(()) => {
            let whole = std::path::absolute(&path).unwrap_or(path);
            Ok(whole.display().to_string())
        }
        Err(NotWritten::NotOurs(path)) => Err(format!(
            "{}: is there already and was left alone; type another name.",
            path.display()
        )),
        Err(why) => Err(format!("{why}.")),
    }
}

/// `~/` is the user's folder, as in a shell.
fn place(name: &str, home: Option<PathBuf>) -> PathBuf {
    match (name.strip_prefix("~/"), home) {
        (Some(rest), Some(home)) => home.join(rest),
        _ => Path::new(name).to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::{keep, place};
    use std::path::{Path, PathBuf};

    #[test]
    fn a_file_that_is_there_is_left_alone() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("plate.ron");
        let name = file.to_str().unwrap();
        assert_eq!(keep(name, "one"), Ok(name.to_owned()));
        assert!(keep(name, "two").unwrap_err().contains("another name"));
        assert_eq!(std::fs::read_to_string(&file).unwrap(), "one");
        let missing = folder.path().join("none/plate.ron");
        assert!(keep(missing.to_str().unwrap(), "x").is_err());
    }

    #[test]
    fn the_users_folder_is_meant_as_in_a_shell() {
        let home = Some(PathBuf::from("/home/anna"));
        assert_eq!(place("~/a.md", home.clone()), Path::new("/home/anna/a.md"));
        assert_eq!(place("a~/b.md", home), Path::new("a~/b.md"));
        assert_eq!(place("~/a.md", None), Path::new("~/a.md"));
    }
}
