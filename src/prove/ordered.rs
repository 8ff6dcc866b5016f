//! Work over all cores; results in the order of the cases, whatever thread did them.

use std::sync::atomic::{AtomicUsize, Ordering};

/// Told (what is being done, how many are done, of how many), from any thread.
pub type Progress<'a> = &'a (dyn Fn(&str, usize, usize) + Sync);

/// Maps every item.
#[cfg(feature = "terminal")]
pub fn map<'a, T: Sync, R: Send>(
    items: &'a [T],
    what: &str,
    progress: Progress,
    work: impl Fn(&'a T) -> R + Sync,
) -> Vec<R> {
    use rayon::prelude::{IntoParallelRefIterator, ParallelIterator};
    let done = AtomicUsize::new(0);
    let step = |item: &'a T| counted(&done, items.len(), what, progress, || work(item));
    items.par_iter().map(step).collect()
}

/// Maps every item.
#[cfg(not(feature = "terminal"))]
pub fn map<'a, T: Sync, R: Send>(
    items: &'a [T],
    what: &str,
    progress: Progress,
    work: impl Fn(&'a T) -> R + Sync,
) -> Vec<R> {
    let done = AtomicUsize::new(0);
    let step = |item: &'a T| counted(&done, items.len(), what, progress, || work(item));
    items.iter().map(step).collect()
}

/// Maps every item, which may keep notes in itself.
#[cfg(feature = "terminal")]
pub fn map_mut<T: Send, R: Send>(items: &mut [T], work: impl Fn(&mut T) -> R + Sync) -> Vec<R> {
    use rayon::prelude::{IntoParallelRefMutIterator, ParallelIterator};
    items.par_iter_mut().map(&work).collect()
}

/// Maps every item, which may keep notes in itself.
#[cfg(not(feature = "terminal"))]
pub fn map_mut<T: Send, R: Send>(items: &mut [T], work: impl Fn(&mut T) -> R + Sync) -> Vec<R> {
    items.iter_mut().map(work).collect()
}

fn counted<R>(
    done: &AtomicUsize,
    all: usize,
    what: &str,
    progress: Progress,
    work: impl FnOnce() -> R,
) -> R {
    let result = work();
    progress(what, done.fetch_add(1, Ordering::Relaxed) + 1, all);
    result
}
