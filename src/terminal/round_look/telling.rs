//! Changes by another hand in a sentence.
//!
//! Must not know what is done about them.

use crate::files::{Change, How, Part, Problems};

use super::Said;

/// Files that are named in one sentence; of more the number is told.
const NAMED: usize = 4;

/// What is said of these changes but for the open plan's, which is told by what is done about it. Files with errors among
/// `problems` are marked.
pub(super) fn of_files(changes: &[Change], problems: &Problems) -> Vec<Said> {
    let of_stash = |change: &&Change| !matches!(change.part, Part::ThisPlan | Part::Keys);
    let mut names: Vec<String> =
        changes.iter().filter(of_stash).map(|change| name(change, problems)).collect();
    let mut said = Vec::new();
    if !names.is_empty() {
        if names.len() > NAMED {
            let more = names.len() - NAMED;
            names.truncate(NAMED);
            names.push(format!("{more} more"));
        }
        said.push(Said::plain(format!(
            "the stash's files were changed outside: {}; taken in",
            names.join(", ")
        )));
    }
    if changes.iter().any(|change| change.part == Part::Keys) {
        said.push(Said::plain("keys.toml was changed: its keys work from the next start"));
    }
    said
}

fn name(change: &Change, problems: &Problems) -> String {
    let file = change.file.as_str();
    let stem = file.rsplit(['/', '\\']).next().unwrap_or(file).trim_end_matches(".toml");
    let bad = problems.errors().any(|problem| problem.file == change.file);
    let how = match change.how {
        How::Gone => " (gone)",
        _ if bad => " (has errors)",
        How::Appeared => " (new)",
        How::Changed => "",
    };
    let kind = if change.part == Part::OtherPlan { "page " } else { "" };
    format!("{kind}{stem}{how}")
}
