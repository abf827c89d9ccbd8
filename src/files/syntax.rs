//! What is no TOML, told in words: each trap of the notation that a hand-written sheet falls into.
//!
//! Must not know what the file holds.

use std::ops::Range;

use toml::de::DeTable;

/// Every place in `text` that is no TOML, with what would do. At least one where the text does not parse; one a line.
pub(super) fn problems(text: &str) -> Vec<(usize, String)> {
    let (_, errors) = DeTable::parse_recoverable(text);
    let mut told: Vec<(usize, String)> = Vec::new();
    let mut last_line = None;
    for error in &errors {
        let at = error.span().map_or(0, |span| span.start).min(text.len());
        let line = line_around(text, at);
        if last_line == Some(line.start) {
            continue;
        }
        told.push(in_words(text, &line, at, error.message()));
        last_line = Some(line.start);
    }
    if told.is_empty() {
        told.push((0, "this is no TOML".into()));
    }
    told
}

fn line_around(text: &str, at: usize) -> Range<usize> {
    let bytes = text.as_bytes();
    let start = bytes[..at].iter().rposition(|&byte| byte == b'\n').map_or(0, |newline| newline + 1);
    let end = bytes[at..].iter().position(|&byte| byte == b'\n').map_or(text.len(), |newline| at + newline);
    start..end
}

/// Place and sentence for one error on one line.
fn in_words(text: &str, line: &Range<usize>, at: usize, message: &str) -> (usize, String) {
    let whole = &text[line.clone()];
    let row = whole.trim();
    let start = line.start + whole.len() - whole.trim_start().len();
    if message.starts_with("duplicate key") {
        return (at, duplicate(text, line, at));
    }
    if let Some(key) = key_in_need_of_quotes(row) {
        let quoted = if key.contains('"') { format!("'{key}'") } else { format!("\"{key}\"") };
        let value = row.trim_start_matches(key).trim_start();
        let example: String = format!("{quoted} {value}").chars().take(LONGEST_EXAMPLE).collect();
        return (start, format!("{key} cannot stand bare; put it in quotes: {example}"));
    }
    if let Some((key, rest)) = row.split_once('=').filter(|(key, _)| !key.contains(['"', '\'', '[', '#'])) {
        let value = rest.split('#').next().unwrap_or_default().trim();
        let (key, value_at) = (key.trim(), start + row.len() - rest.trim_start().len());
        if value.is_empty() {
            return (at, format!("{key} has no value; write one after the ="));
        }
        let is_word = value.starts_with(char::is_alphanumeric)
            && value.contains(char::is_alphabetic)
            && !value.contains(['"', '\'']);
        if is_word {
            let example: String = format!("{key} = \"{value}\"").chars().take(LONGEST_EXAMPLE).collect();
            return (value_at, format!("a word cannot stand without quotes; write {example}"));
        }
    }
    (at, advice(row, message))
}

/// The longest line that a message shows as an example, in characters.
const LONGEST_EXAMPLE: usize = 48;

/// The key of a row where it is bare and may not be.
fn key_in_need_of_quotes(row: &str) -> Option<&str> {
    let (key, _) = row.split_once('=')?;
    let key = key.trim();
    let lone_quote = matches!(key, "\"" | "'");
    let bare = !row.starts_with(['[', '"', '\'', '#']) && needs_quotes(key);
    (lone_quote || bare).then_some(key)
}

/// Whether a bare key holds what only a quoted one may.
fn needs_quotes(key: &str) -> bool {
    let bare = |c: char| c.is_ascii_alphanumeric() || matches!(c, '_' | '-');
    let parts_ill = key.contains('.') && key.split('.').any(|part| part.trim().is_empty());
    key.is_empty() || parts_ill || !key.chars().all(|c| bare(c) || c == '.')
}

fn duplicate(text: &str, line: &Range<usize>, at: usize) -> String {
    let key_of = |row: &str| row.split('=').next().unwrap_or_default().trim().to_owned();
    let key = key_of(&text[line.clone()]);
    let headed = key.starts_with('[');
    let mut first = None;
    for (number, row) in text[..line.start].lines().enumerate() {
        if !headed && row.trim_start().starts_with('[') {
            first = None;
        } else if key_of(row) == key && first.is_none() {
            first = Some(number + 1);
        }
    }
    let name = if at >= line.start && line.end - line.start < 80 { key } else { "this".into() };
    match first {
        Some(first) => format!("{name} stands on line {first} already; keep one of the two"),
        None => format!("{name} stands here twice; keep one of the two"),
    }
}

/// What is wrong and would do, for what is no trap of its own.
fn advice(row: &str, message: &str) -> String {
    let known = if row.matches('"').count() % 2 == 1 {
        "a quote is opened and not closed on this line"
    } else if message.contains("array element")
        || message.contains("unclosed array") && !message.contains("table")
    {
        "a list is opened and not closed before this, or a comma is missing in it"
    } else if message.contains("inline table") || message.contains("key-value pairs") {
        "what is opened with { is not closed with }, or a comma is missing in it"
    } else if message.contains("table") && row.starts_with('[') {
        "a table's name stands in brackets on a line of its own, such as [letters]"
    } else if message.contains("leading zero") {
        "a number does not start with 0"
    } else if message.contains("must be quoted") {
        "this is neither a number nor a text in quotes"
    } else if message.contains("recurs") {
        "this is nested too deeply"
    } else if message.contains("key with no value") {
        "this line has no =; a line is key = value, such as E = 3 or height = \"12 mm\""
    } else {
        return format!(
            "{}; a line is key = value, such as E = 3 or height = \"12 mm\"",
            message.replace('\n', ", ")
        );
    };
    known.into()
}

/// Lines of `[letters]`, or of a sheet's in a list of them, that look like a count of the letter `#` and are a comment; the bytes at which they start.
pub(super) fn commented_hashes(text: &str) -> Vec<usize> {
    if !text.contains("# =") && !text.contains("#=") {
        return Vec::new();
    }
    let mut found = Vec::new();
    let (mut at, mut within) = (0, false);
    for line in text.split_inclusive('\n') {
        let row = line.trim();
        if row.starts_with('[') {
            within = row.starts_with("[letters]") || row.starts_with("[sheet.letters]");
        }
        let count = row.strip_prefix('#').and_then(|rest| rest.trim_start().strip_prefix('='));
        if within && count.is_some_and(|count| count.trim_start().starts_with(|c: char| c.is_ascii_digit())) {
            found.push(at + line.len() - line.trim_start().len());
        }
        at += line.len();
    }
    found
}
