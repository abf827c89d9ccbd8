//! What a file says of the order that it holds, beside what is on its sheets.
//!
//! Must not know in which form the order is written.

use crate::order::Order;
use crate::title::Role;

use super::Head;

/// What viewers, searches and readers aloud are told of an order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct About {
    /// The wording of the page's title; the name of the page where there is none.
    pub title: String,
    /// What the order is for.
    pub subject: String,
    /// The language that it is told in, by BCP 47.
    pub language: &'static str,
}

impl About {
    /// Of an order.
    #[must_use]
    pub fn of(order: &Order, head: &Head) -> Self {
        let name = order.name.as_deref().or(head.file.as_deref()).unwrap_or("a page without a name");
        let of_title = order.strips.iter().find(|strip| strip.role == Role::title());
        let wording = of_title.or(order.strips.first()).map_or("", |strip| &strip.wording);
        let lines: Vec<&str> = wording.lines().map(str::trim).filter(|line| !line.is_empty()).collect();
        Self {
            title: if lines.is_empty() { name.to_owned() } else { lines.join(" / ") },
            subject: format!("placement order for {name}"),
            language: "en-GB",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::order::trial;

    #[test]
    fn the_wording_is_the_title() {
        let plan = trial::plan("LANE\nSEA", &["blocks/L"]);
        let about = About::of(&Order::of(&plan, &trial::stash()), &Head::default());
        assert_eq!(about.title, "LANE / SEA");
    }
}
