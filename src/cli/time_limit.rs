//! How long a search may take, as an argument tells it.
//!
//! Must not know what is searched.

use std::time::Duration;

/// Reads a time in seconds.
pub(super) fn seconds(text: &str) -> Result<Duration, String> {
    let seconds = text.parse().ok().filter(|&seconds: &f64| seconds > 0.0);
    let time = seconds.and_then(|seconds| Duration::try_from_secs_f64(seconds).ok());
    time.ok_or_else(|| "a time is a number of seconds above 0, such as 10 or 0.5".into())
}
