//! The one writer of files: whole or not at all, and over nobody else's.
//!
//! The new text is written beside the old file, brought to the disk, and only then put in its place:
//! whatever goes wrong before, a full disk or a power cut, the old file is as it was. A file that this
//! program did not write is written over only when told to. A link is never followed: whoever names a
//! page means the page, not what somebody made it lead to.

use std::error::Error;
use std::fmt;
use std::fs::{self, File, Metadata};
use std::io::{self, BufWriter, ErrorKind, Read, Write};
use std::path::{Path, PathBuf};

use tempfile::{Builder, NamedTempFile};

/// What may be written over.
#[derive(Clone, Copy)]
pub enum Over<'a> {
    /// Files whose text this tells for one of ours, and empty ones.
    Ours(&'a dyn Fn(&str) -> bool),
    /// Any ordinary file: the user said so.
    Any,
}

/// Why a file was not written. Whatever stood there is untouched.
#[derive(Debug)]
pub enum NotWritten {
    Link(PathBuf),
    Folder(PathBuf),
    /// A device, a pipe, a socket.
    NoOrdinaryFile(PathBuf),
    /// Somebody else's.
    NotOurs(PathBuf),
    /// Whoever's it is.
    There(PathBuf),
    WriteProtected(PathBuf),
    Failed(PathBuf, io::Error),
}

impl fmt::Display for NotWritten {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        use NotWritten::{Failed, Folder, Link, NoOrdinaryFile, NotOurs, There, WriteProtected};
        match self {
            Link(path) => write!(f, "{}: is a link; name a file itself", path.display()),
            Folder(path) => write!(f, "{}: is a folder; name a file in it", path.display()),
            NoOrdinaryFile(path) => {
                let path = path.display();
                write!(f, "{path}: is no ordinary file; name one, or print with -")
            }
            NotOurs(path) => write!(
                f,
                "{}: is there already and was not written by this program; name another file, or \
                 write over it with --force",
                path.display()
            ),
            There(path) => write!(
                f,
                "{}: is there already; name another file, or write over it with --force",
                path.display()
            ),
            WriteProtected(path) => write!(
                f,
                "{}: is write-protected; name another file, or write over it with --force",
                path.display()
            ),
            Failed(path, why) => {
                write!(f, "{}: can't be written: {why}", path.display())?;
                match why.kind() {
                    ErrorKind::NotFound => write!(f, "; make its folder first"),
                    ErrorKind::StorageFull | ErrorKind::QuotaExceeded => {
                        write!(f, "; make room, or name a file on another disk")
                    }
                    ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => {
                        write!(f, "; name a file in a folder you may write in")
                    }
                    _ => Ok(()),
                }
            }
        }
    }
}

impl Error for NotWritten {}

/// Writes a whole file.
///
/// # Errors
/// When something stands at `path` that may not be written over, or when the new text can't be
/// brought to the disk. Then nothing has changed, and nothing is left beside it.
pub fn write(path: &Path, text: &str, over: Over) -> Result<(), NotWritten> {
    let whole = |out: &mut dyn Write| out.write_all(text.as_bytes());
    write_with(path, over, whole)
}

/// As `write`, for what is too long to be held at once: `fill` writes it piece by piece.
///
/// # Errors
/// As `write`; also those of `fill`.
pub fn write_with(
    path: &Path,
    over: Over,
    fill: impl FnOnce(&mut dyn Write) -> io::Result<()>,
) -> Result<(), NotWritten> {
    let failed = |why: io::Error| NotWritten::Failed(path.to_owned(), why);
    let old = match fs::symlink_metadata(path) {
        Ok(old) => Some(old),
        Err(e) if e.kind() == ErrorKind::NotFound => None,
        Err(e) => return Err(failed(e)),
    };
    if let Some(old) = &old {
        allow(path, old, over)?;
    }
    let folder = path.parent().filter(|p| !p.as_os_str().is_empty());
    let folder = folder.unwrap_or(Path::new("."));
    let beside = written_beside(folder, fill, old.as_ref()).map_err(failed)?;
    let in_place = match old {
        Some(_) => beside.persist(path),
        // Somebody may have put a file there in the meantime.
        None => beside.persist_noclobber(path),
    };
    in_place.map_err(|e| failed(e.error))?;
    // The name is safe only when the folder is; a system that can't do this is left to itself.
    if let Ok(folder) = File::open(folder) {
        let _ = folder.sync_all();
    }
    Ok(())
}

/// A new file that somebody else fills: `fill` gets the name of an empty file beside it, which is
/// put in place when it is full. With `over`, in the place of an ordinary file.
///
/// # Errors
/// Outside, as `write`; inside, those of `fill`. Then nothing has changed.
pub fn filled<E>(
    path: &Path,
    over: bool,
    fill: impl FnOnce(&Path) -> Result<(), E>,
) -> Result<Result<(), E>, NotWritten> {
    let failed = |why: io::Error| NotWritten::Failed(path.to_owned(), why);
    let old = fs::symlink_metadata(path).ok();
    if let Some(old) = &old {
        allow(path, old, Over::Any)?;
        if !over {
            return Err(NotWritten::There(path.to_owned()));
        }
    }
    let folder = path.parent().filter(|p| !p.as_os_str().is_empty());
    let folder = folder.unwrap_or(Path::new("."));
    let beside = written_beside(folder, |_| Ok(()), old.as_ref()).map_err(failed)?;
    if let Err(e) = fill(beside.path()) {
        return Ok(Err(e));
    }
    File::open(beside.path())
        .and_then(|f| f.sync_all())
        .map_err(failed)?;
    let in_place = match old {
        Some(_) => beside.persist(path),
        None => beside.persist_noclobber(path),
    };
    in_place.map_err(|e| failed(e.error))?;
    if let Ok(folder) = File::open(folder) {
        let _ = folder.sync_all();
    }
    Ok(Ok(()))
}

/// Refuses what may not be written over.
fn allow(path: &Path, old: &Metadata, over: Over) -> Result<(), NotWritten> {
    let kind = old.file_type();
    if kind.is_symlink() {
        return Err(NotWritten::Link(path.to_owned()));
    }
    if kind.is_dir() {
        return Err(NotWritten::Folder(path.to_owned()));
    }
    if !kind.is_file() {
        return Err(NotWritten::NoOrdinaryFile(path.to_owned()));
    }
    let Over::Ours(is_ours) = over else {
        return Ok(());
    };
    let is_ours = |text: String| text.is_empty() || is_ours(&text);
    let text = whole_text(path).map_err(|e| NotWritten::Failed(path.to_owned(), e))?;
    if !text.is_some_and(is_ours) {
        return Err(NotWritten::NotOurs(path.to_owned()));
    }
    if old.permissions().readonly() {
        return Err(NotWritten::WriteProtected(path.to_owned()));
    }
    Ok(())
}

/// Largest file that is looked into, in bytes: more than an export of a hundred thousand pieces has
/// (common practice, no source).
const MOST_BYTES: u64 = 100_000_000;

/// The text of a file; `None` when it is none, or longer than any of ours.
fn whole_text(path: &Path) -> io::Result<Option<String>> {
    let mut bytes = Vec::new();
    File::open(path)?
        .take(MOST_BYTES + 1)
        .read_to_end(&mut bytes)?;
    let whole = bytes.len() as u64 <= MOST_BYTES;
    Ok(String::from_utf8(bytes).ok().filter(|_| whole))
}

/// A new file in the folder, on the disk, with the rights of the old one. Removed when dropped.
fn written_beside(
    folder: &Path,
    fill: impl FnOnce(&mut dyn Write) -> io::Result<()>,
    old: Option<&Metadata>,
) -> io::Result<NamedTempFile> {
    let mut builder = Builder::new();
    builder.prefix(".printseam-").suffix(".part");
    // Readable as any new file is (the mask of the user applies), not by its owner alone.
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    let mut beside = builder
        .tempfile_in(folder)
        // The name of the part would only confuse.
        .map_err(|e| io::Error::from(e.kind()))?;
    let mut text = BufWriter::new(&mut beside);
    fill(&mut text)?;
    text.flush()?;
    drop(text);
    if let Some(old) = old {
        beside.as_file().set_permissions(old.permissions())?;
    }
    beside.as_file().sync_all()?;
    Ok(beside)
}
