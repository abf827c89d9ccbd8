//! Reads many files on two threads: most machines that run this have two cores at least.
//!
//! Must not know what is read.

use std::panic;
use std::thread;

/// Below this many a second thread costs more than it saves.
const WORTH_IT: usize = 16;

/// `each` of `items`, in their order.
pub(super) fn map<T: Sync, R: Send>(items: &[T], each: impl Fn(&T) -> R + Sync) -> Vec<R> {
    if items.len() < WORTH_IT {
        return items.iter().map(each).collect();
    }
    let (first, second) = items.split_at(items.len() / 2);
    thread::scope(|scope| {
        let second = scope.spawn(|| second.iter().map(&each).collect::<Vec<R>>());
        let mut read: Vec<R> = first.iter().map(&each).collect();
        match second.join() {
            Ok(rest) => read.extend(rest),
            Err(panicked) => panic::resume_unwind(panicked),
        }
        read
    })
}
