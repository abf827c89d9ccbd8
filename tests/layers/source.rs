//! Rust source read just far enough: its paths, its functions, without comments and literals.
//!
//! Must not know the rules that are held against it.

/// A word, or one sign; `::` is one sign. With the line it stands in, from 1.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Token {
    pub(super) text: String,
    pub(super) line: usize,
}

/// A path such as `crate::title::Strip`, one for each leaf of a `use` tree, with its line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Path {
    pub(super) parts: Vec<String>,
    pub(super) line: usize,
}

/// A function with a body: its name, its first line and how many lines it takes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Function {
    pub(super) name: String,
    pub(super) line: usize,
    pub(super) lines: usize,
}

/// The tokens of a source, comments and literals left out.
pub(super) fn tokens(source: &str) -> Vec<Token> {
    let text: Vec<char> = source.chars().collect();
    let mut tokens = Vec::new();
    let (mut at, mut line) = (0, 1);
    while at < text.len() {
        let end = match text[at] {
            c if c.is_alphanumeric() || c == '_' => word_end(&text, at),
            '/' if text.get(at + 1) == Some(&'/') => {
                at + text[at..].iter().position(|c| *c == '\n').unwrap_or(text.len() - at)
            }
            '/' if text.get(at + 1) == Some(&'*') => comment_end(&text, at),
            '"' => string_end(&text, at, 0, true),
            '\'' => quote_end(&text, at),
            ':' if text.get(at + 1) == Some(&':') => at + 2,
            _ => at + 1,
        };
        let word: String = text[at..end].iter().collect();
        // The prefix of a literal is read as a word: the literal's own start comes next.
        let raw = matches!(word.as_str(), "r" | "br" | "cr").then(|| raw_string_end(&text, end)).flatten();
        let stop = raw.unwrap_or(end);
        if raw.is_none()
            && !word.starts_with(['"', '\'', ' ', '\n'])
            && !word.starts_with("//")
            && !word.starts_with("/*")
        {
            tokens.push(Token { text: word, line });
        }
        line += text[at..stop].iter().filter(|c| **c == '\n').count();
        at = stop;
    }
    tokens
}

fn word_end(text: &[char], at: usize) -> usize {
    at + text[at..].iter().take_while(|c| c.is_alphanumeric() || **c == '_').count()
}

fn comment_end(text: &[char], start: usize) -> usize {
    let (mut at, mut depth) = (start, 0);
    while at < text.len() {
        match (text[at], text.get(at + 1)) {
            ('/', Some('*')) => (at, depth) = (at + 2, depth + 1),
            ('*', Some('/')) => (at, depth) = (at + 2, depth - 1),
            _ => at += 1,
        }
        if depth == 0 {
            return at;
        }
    }
    at
}

/// The end of a string that opens at `start`, closed by a quote and so many `#`.
fn string_end(text: &[char], start: usize, hashes: usize, escapes: bool) -> usize {
    let mut at = start + 1;
    while at < text.len() {
        match text[at] {
            '\\' if escapes => at += 2,
            '"' if text[at + 1..].iter().take(hashes).filter(|c| **c == '#').count() == hashes => {
                return at + 1 + hashes;
            }
            _ => at += 1,
        }
    }
    text.len()
}

fn raw_string_end(text: &[char], at: usize) -> Option<usize> {
    let hashes = text[at..].iter().take_while(|c| **c == '#').count();
    (text.get(at + hashes) == Some(&'"')).then(|| string_end(text, at + hashes, hashes, false))
}

/// The end of a character literal, or of the bare quote that opens a lifetime.
fn quote_end(text: &[char], at: usize) -> usize {
    match (text.get(at + 1), text.get(at + 2)) {
        (Some('\\'), _) => {
            let rest = text.get(at + 3..).unwrap_or_default();
            at + 3 + rest.iter().position(|c| *c == '\'').map_or(rest.len(), |closing| closing + 1)
        }
        (Some(_), Some('\'')) => at + 3,
        _ => at + 1,
    }
}

/// Every path in the tokens: the leaves of `use` trees, and whatever words `::` joins elsewhere.
pub(super) fn paths(tokens: &[Token]) -> Vec<Path> {
    let mut found = Vec::new();
    let mut at = 0;
    while at < tokens.len() {
        // A bound `use<'a>` is no tree.
        if tokens[at].text == "use" && !is(tokens, at + 1, "<") {
            at = tree(tokens, at + 1, &[], &mut found);
        } else if is_word(&tokens[at]) {
            let mut parts = vec![tokens[at].text.clone()];
            let line = tokens[at].line;
            at += 1;
            while is(tokens, at, "::") && tokens.get(at + 1).is_some_and(is_word) {
                parts.push(tokens[at + 1].text.clone());
                at += 2;
            }
            if parts.len() > 1 {
                found.push(Path { parts, line });
            }
        } else {
            at += 1;
        }
    }
    found
}

/// Reads one `use` tree under a prefix; where it ends.
fn tree(tokens: &[Token], mut at: usize, prefix: &[String], found: &mut Vec<Path>) -> usize {
    let mut parts = prefix.to_vec();
    let line = tokens.get(at).map_or(0, |token| token.line);
    while let Some(token) = tokens.get(at) {
        match token.text.as_str() {
            "::" => at += 1,
            "{" => {
                at += 1;
                loop {
                    at = tree(tokens, at, &parts, found);
                    if !is(tokens, at, ",") {
                        return at + 1;
                    }
                    at += 1;
                    if is(tokens, at, "}") {
                        return at + 1;
                    }
                }
            }
            "as" => at += 2,
            "," | ";" | "}" => break,
            "self" if !parts.is_empty() => at += 1,
            word => {
                parts.push(word.to_owned());
                at += 1;
            }
        }
    }
    found.push(Path { parts, line });
    at
}

/// Every function that has a body.
pub(super) fn functions(tokens: &[Token]) -> Vec<Function> {
    let starts =
        (0..tokens.len()).filter(|at| tokens[*at].text == "fn" && tokens.get(at + 1).is_some_and(is_word));
    starts.filter_map(|at| function(tokens, at)).collect()
}

fn function(tokens: &[Token], at: usize) -> Option<Function> {
    let (mut depth, mut brackets) = (0_usize, 0_usize);
    for token in &tokens[at..] {
        match token.text.as_str() {
            "(" | "[" => brackets += 1,
            ")" | "]" => brackets = brackets.saturating_sub(1),
            ";" if depth == 0 && brackets == 0 => return None,
            "{" => depth += 1,
            "}" if depth == 1 => {
                let line = tokens[at].line;
                return Some(Function {
                    name: tokens[at + 1].text.clone(),
                    line,
                    lines: token.line + 1 - line,
                });
            }
            "}" => depth = depth.saturating_sub(1),
            _ => {}
        }
    }
    None
}

fn is(tokens: &[Token], at: usize, text: &str) -> bool {
    tokens.get(at).is_some_and(|token| token.text == text)
}

fn is_word(token: &Token) -> bool {
    token.text.starts_with(|c: char| c.is_alphabetic() || c == '_')
}
