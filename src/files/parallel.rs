//! Reads many files on two threads: most machines that run this have two cores at least.
//!
//! Must not know what is read.

use std::panic;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

/// Below this many a second thread costs more than it saves.
const WORTH_IT: usize = 16;

/// `each` of `items`, in their order. Whichever thread is free takes the next one.
pub(super) fn map<T: Sync, R: Send>(items: &[T], each: impl Fn(&T) -> R + Sync) -> Vec<R> {
    if items.len() < WORTH_IT {
        return items.iter().map(each).collect();
    }
    let next = AtomicUsize::new(0);
    let read = || {
        let mut read = Vec::with_capacity(items.len());
        loop {
            let place = next.fetch_add(1, Ordering::Relaxed);
            let Some(item) = items.get(place) else { return read };
            read.push((place, each(item)));
        }
    };
    let (mut all, rest): (Vec<(usize, R)>, _) = both(read, read);
    all.extend(rest);
    all.sort_unstable_by_key(|(place, _)| *place);
    all.into_iter().map(|(_, read)| read).collect()
}

/// The answers of `here` and of `beside`, which runs on a thread of its own.
pub(super) fn both<A, B: Send>(here: impl FnOnce() -> A, beside: impl FnOnce() -> B + Send) -> (A, B) {
    thread::scope(|scope| {
        let beside = scope.spawn(beside);
        let here = here();
        match beside.join() {
            Ok(beside) => (here, beside),
            Err(panicked) => panic::resume_unwind(panicked),
        }
    })
}
