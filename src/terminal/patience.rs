//! The right to write, asked for once more where another program is just letting go of it.
//!
//! Must not know what is written.

use std::time::{Duration, Instant};

use crate::files::{Access, FilesError};

/// How long it is asked for before the stash is only looked at.
const PATIENCE: Duration = Duration::from_millis(300);

/// Asks, and for a moment again and again while another program has it: one that has ended may hold it a little longer.
///
/// # Errors
/// Those of `ask`.
pub(super) fn patiently(mut ask: impl FnMut() -> Result<Access, FilesError>) -> Result<Access, FilesError> {
    let began = Instant::now();
    loop {
        match ask()? {
            Access::OtherWriter if began.elapsed() < PATIENCE => {
                std::thread::sleep(Duration::from_millis(10));
            }
            access => return Ok(access),
        }
    }
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may stop at the first surprise")]
mod tests {
    use super::*;

    #[test]
    fn who_lets_go_in_a_moment_is_waited_for_and_who_stays_is_not() {
        let mut asked = 0;
        let given = patiently(|| {
            asked += 1;
            Ok(if asked < 3 { Access::OtherWriter } else { Access::ReadOnly })
        });
        assert!(matches!(given.unwrap(), Access::ReadOnly), "asked {asked} times");
        let mut asked = 0;
        let given = patiently(|| {
            asked += 1;
            Ok(Access::OtherWriter)
        });
        assert!(matches!(given.unwrap(), Access::OtherWriter) && asked > 1);
    }
}
