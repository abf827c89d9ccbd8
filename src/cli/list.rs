//! A list that someone wrote: a file, or standard input, line by line, whatever its length.
//!
//! Must not know what the lines are for.

use std::fs::File;
use std::io::{self, BufRead, BufReader, ErrorKind, Read};
use std::path::Path;

use anyhow::Result;

use crate::files::{FilesError, escaped};

use super::say::Fault;

/// No line is longer, in bytes.
const LONGEST: u64 = 1 << 16;

/// A list, read as far as its last line that was asked for.
pub(super) struct List {
    reader: Box<dyn BufRead>,
    called: String,
    line: usize,
    bytes: Vec<u8>,
    text: String,
}

impl List {
    /// Opens the file, or standard input for `-`.
    pub(super) fn open(file: &Path) -> Result<Self> {
        let is_standard = file == Path::new("-");
        let reader: Box<dyn BufRead> = if is_standard {
            Box::new(io::stdin().lock())
        } else {
            // A folder opens like a file and fails only when it is read.
            let open = File::open(file).and_then(|open| {
                if open.metadata()?.is_dir() { Err(ErrorKind::IsADirectory.into()) } else { Ok(open) }
            });
            Box::new(BufReader::new(open.map_err(|error| fault(file, error))?))
        };
        let called = if is_standard { "standard input".into() } else { file.display().to_string() };
        Ok(Self { reader, called, line: 0, bytes: Vec::new(), text: String::new() })
    }

    /// The next line that is not blank and no comment, without white space around it; `None` at the end.
    pub(super) fn next_line(&mut self) -> Result<Option<&str>> {
        loop {
            self.bytes.clear();
            let read = self.reader.by_ref().take(LONGEST).read_until(b'\n', &mut self.bytes);
            if read.map_err(|error| fault(Path::new(&self.called), error))? == 0 {
                return Ok(None);
            }
            self.line += 1;
            if self.bytes.len() as u64 == LONGEST {
                return Err(self.at("this line is too long").into());
            }
            let bare = self.bytes.strip_prefix("\u{feff}".as_bytes()).filter(|_| self.line == 1);
            let Ok(text) = std::str::from_utf8(bare.unwrap_or(&self.bytes)) else {
                return Err(self.at("here is a byte that is no UTF-8; save the list as UTF-8").into());
            };
            self.text.clear();
            self.text.push_str(text.trim());
            if !self.text.is_empty() && !self.text.starts_with('#') {
                return Ok(Some(&self.text));
            }
        }
    }

    /// All that is left of it, as one text.
    pub(super) fn rest(&mut self) -> Result<String> {
        let mut text = String::new();
        while let Some(line) = self.next_line()? {
            text += line;
            text.push('\n');
        }
        Ok(text)
    }

    /// What is said of the line that was read last.
    pub(super) fn at(&self, said: &str) -> Fault {
        Fault::Input(format!("{}:{}: {said}", escaped(&self.called), self.line))
    }

    /// How messages call it.
    pub(super) fn called(&self) -> &str {
        &self.called
    }
}

/// A wrong name is the input's fault, a disk that fails the system's.
fn fault(file: &Path, source: io::Error) -> anyhow::Error {
    let is_wrong_name = matches!(source.kind(), ErrorKind::NotFound | ErrorKind::IsADirectory);
    let error = FilesError::Read { path: file.to_owned(), source };
    if is_wrong_name { Fault::Input(error.to_string()).into() } else { error.into() }
}
