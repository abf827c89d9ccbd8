//! What a printed order is called, for programs that list, search or read out its file.
//!
//! Must not know in which form an order is written.

use crate::order::Order;

use super::column::printable;
use super::text::Head;

/// What a file says of the order in it. No text holds a control character; unlike what is set on the sheets, it may hold
/// characters that the faces lack.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct About {
    /// What the strips say, in the plan's order, each on one line: `LANTERN WALK; home by the quay`. Never empty.
    pub title: String,
    /// What the plan is called, or its file; never empty.
    pub name: String,
    /// The language of its words (BCP 47).
    pub language: &'static str,
}

impl About {
    /// Of an order with that head.
    #[must_use]
    pub fn of(order: &Order, head: &Head) -> Self {
        let on_one_line = |text: &str| {
            let words: Vec<&str> = text.split_whitespace().collect();
            printable(&words.join(" "))
        };
        let wordings = order.strips.iter().map(|strip| on_one_line(&strip.wording));
        let said: Vec<String> = wordings.filter(|wording| !wording.is_empty()).collect();
        let called = order.name.as_deref().or(head.file.as_deref()).map(on_one_line);
        let name = called.filter(|name| !name.is_empty()).unwrap_or_else(|| "a page without a name".into());
        let title = if said.is_empty() { name.clone() } else { said.join("; ") };
        Self { title, name, language: "en-GB" }
    }
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::*;
    use crate::order::trial;
    use crate::page::Page;
    use crate::plan::Plan;
    use crate::title::Role;

    fn about(name: Option<&str>, wordings: &[&str], file: Option<&str>) -> About {
        let roles = [Role::title(), Role::subtitle()];
        let strips = roles.into_iter().zip(wordings).map(|(role, wording)| trial::strip(role, wording, &[]));
        let plan = Plan::new(name.map(Into::into), Page::default(), strips.collect()).unwrap();
        let head = Head { date: None, file: file.map(Into::into) };
        About::of(&Order::of(&plan, &trial::stash()), &head)
    }

    #[test]
    fn it_is_called_what_its_strips_say() {
        let told = about(Some("The\u{1b} walk"), &["LANTERN\nWALK", "提灯"], Some("walk"));
        assert_eq!((told.title.as_str(), told.name.as_str()), ("LANTERN WALK; 提灯", "The\\u{1b} walk"));
        assert_eq!(about(None, &["O"], Some("walk")).name, "walk");
        assert_eq!(about(Some(" "), &["O"], None).name, "a page without a name");
    }
}
