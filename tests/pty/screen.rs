//! A real pseudo-terminal with the program on it: keys go in, an emulator's screen comes out.
//!
//! Must not know what the program shows. Nothing here sleeps: every wait is for bytes or for the end, with a deadline.

use portable_pty::{Child, ChildKiller, CommandBuilder, MasterPty, PtyPair, PtySize, native_pty_system};
use std::ffi::OsStr;
use std::io::{Read, Write};
use std::num::NonZeroU16;
use std::process::Command;
use std::sync::mpsc::{self, Receiver, RecvTimeoutError};
use std::thread;
use std::time::{Duration, Instant};

/// How long anything may take before the test fails. On a machine at ease everything is there within milliseconds.
const DEADLINE: Duration = Duration::from_secs(30);

/// The program under test.
pub(super) const ODDMENT: &str = env!("CARGO_BIN_EXE_oddment");

/// A program on a pseudo-terminal, with what its screen shows.
pub(super) struct Screen {
    emulator: vt100::Parser,
    /// Everything the program has written, for the messages of a test that fails.
    written: Vec<u8>,
    output: Receiver<Vec<u8>>,
    /// Both `None` once the terminal is gone.
    input: Option<Box<dyn Write + Send>>,
    master: Option<Box<dyn MasterPty + Send>>,
    process: u32,
    killer: Box<dyn ChildKiller + Send + Sync>,
    ending: Receiver<u32>,
}

impl Screen {
    /// Starts `oddment` with these arguments and these variables beside the plainest environment, on a screen of so many
    /// columns and rows. It leads its own session, as if a terminal's window had been opened for it alone.
    pub(super) fn start<A: AsRef<OsStr>>(args: &[A], env: &[(&str, &OsStr)], size: (u16, u16)) -> Self {
        Self::start_program(ODDMENT, args, env, size)
    }

    /// Starts a shell with job control that runs this script; `"$ODDMENT"` in it is the program.
    pub(super) fn start_in_shell(script: &str, env: &[(&str, &OsStr)], size: (u16, u16)) -> Self {
        let mut env = env.to_vec();
        env.push(("ODDMENT", OsStr::new(ODDMENT)));
        Self::start_program("sh", &["-mc", script], &env, size)
    }

    /// Starts any program.
    pub(super) fn start_program<A: AsRef<OsStr>>(
        program: &str,
        args: &[A],
        env: &[(&str, &OsStr)],
        (columns, rows): (u16, u16),
    ) -> Self {
        // The emulator's size first: the program's first words must not meet a smaller screen.
        let emulator = vt100::Parser::new(cells(rows), cells(columns), 0);
        let PtyPair { master, slave } = native_pty_system().openpty(pty_size(columns, rows)).unwrap();
        let mut command = CommandBuilder::new(program);
        command.args(args);
        command.env_clear();
        command.env("PATH", std::env::var_os("PATH").unwrap_or_default());
        command.env("TERM", "xterm-256color");
        for (name, value) in env {
            command.env(name, value);
        }
        let child = slave.spawn_command(command).unwrap();
        drop(slave);
        let output = read_on_a_thread(master.try_clone_reader().unwrap());
        let input = Some(master.take_writer().unwrap());
        Self {
            emulator,
            written: Vec::new(),
            output,
            input,
            master: Some(master),
            process: child.process_id().unwrap(),
            killer: child.clone_killer(),
            ending: wait_on_a_thread(child),
        }
    }

    /// Types these bytes; escape sequences are keys.
    pub(super) fn keys(&mut self, keys: &str) {
        let input = self.input.as_mut().unwrap();
        input.write_all(keys.as_bytes()).unwrap();
        input.flush().unwrap();
    }

    /// Pastes a text, marked as a paste.
    pub(super) fn paste(&mut self, text: &str) {
        self.keys(&format!("\x1b[200~{text}\x1b[201~"));
    }

    /// Reads until the screen is as asked. Fails with the screen when the program ends first, or the deadline passes.
    #[track_caller]
    pub(super) fn wait_for(&mut self, asked: impl Fn(&vt100::Screen) -> bool) {
        let by = Instant::now() + DEADLINE;
        while !asked(self.emulator.screen()) {
            if let Err(why) = self.read(by) {
                assert!(
                    asked(self.emulator.screen()),
                    "{why:?} before the screen was as asked:\n{}",
                    self.told()
                );
                return;
            }
        }
    }

    /// Reads until this text stands somewhere on the screen.
    #[track_caller]
    pub(super) fn wait_for_text(&mut self, text: &str) {
        self.wait_for(|screen| screen.contents().contains(text));
    }

    /// Gives the screen another size.
    pub(super) fn resize(&mut self, columns: u16, rows: u16) {
        self.emulator.set_size(cells(rows), cells(columns));
        self.master.as_ref().unwrap().resize(pty_size(columns, rows)).unwrap();
    }

    /// Sends the program a signal by its name, such as `TERM`.
    pub(super) fn signal(&self, name: &str) {
        let id = self.process.to_string();
        let sent = Command::new("kill").args(["-s", name, &id]).status().unwrap();
        assert!(sent.success(), "kill -s {name} {id}");
    }

    /// Closes the terminal's window: the program is left without it. It must be one that draws on a new size.
    pub(super) fn hang_up(&mut self) {
        // The thread that reads has a handle of its own. It lets go when its next bytes find nobody to take them.
        self.output = mpsc::channel().1;
        let size = self.emulator.screen().size();
        self.resize(size.1.get() - 1, size.0.get());
        self.input = None;
        self.master = None;
    }

    /// Waits for the program's end, reads what it wrote last, and gives its exit code.
    #[track_caller]
    pub(super) fn exit_code(&mut self) -> u32 {
        let by = Instant::now() + DEADLINE;
        let code = self.ending.recv_timeout(DEADLINE);
        while code.is_ok() && self.read(by).is_ok() {}
        assert!(code.is_ok(), "the program has not ended:\n{}", self.told());
        code.unwrap()
    }

    /// The screen as text, a line a row, without the blanks at their ends.
    pub(super) fn contents(&self) -> String {
        self.emulator.screen().contents()
    }

    /// The emulator's screen: cells, colours, the cursor, which modes are on.
    pub(super) fn emulated(&self) -> &vt100::Screen {
        self.emulator.screen()
    }

    /// Whether the terminal is as a shell expects it: its own screen, a cursor, nothing reported.
    pub(super) fn is_restored(&self) -> bool {
        let screen = self.emulator.screen();
        let quiet =
            screen.mouse_protocol_mode() == vt100::MouseProtocolMode::None && !screen.bracketed_paste();
        quiet && !screen.alternate_screen() && !screen.hide_cursor()
    }

    fn read(&mut self, by: Instant) -> Result<(), RecvTimeoutError> {
        let bytes = self.output.recv_timeout(by.saturating_duration_since(Instant::now()))?;
        self.emulator.process(&bytes);
        self.written.extend(bytes);
        Ok(())
    }

    fn told(&self) -> String {
        let tail = &self.written[self.written.len().saturating_sub(2000)..];
        format!("{}\n--- written last ---\n{}", self.contents(), tail.escape_ascii())
    }
}

impl Drop for Screen {
    fn drop(&mut self) {
        // A test that failed may have left it running; one that has ended cannot be ended again.
        let _ = self.killer.kill();
    }
}

fn wait_on_a_thread(mut child: Box<dyn Child + Send + Sync>) -> Receiver<u32> {
    let (tell, ending) = mpsc::channel();
    thread::spawn(move || {
        if let Ok(status) = child.wait() {
            // A test that has ended needs no word.
            let _ = tell.send(status.exit_code());
        }
    });
    ending
}

fn read_on_a_thread(mut reader: Box<dyn Read + Send>) -> Receiver<Vec<u8>> {
    let (tell, output) = mpsc::channel();
    thread::spawn(move || {
        let mut buffer = [0; 1 << 14];
        // Linux reports the end of a pseudo-terminal as an error.
        while let Ok(count @ 1..) = reader.read(&mut buffer) {
            if tell.send(buffer[..count].to_vec()).is_err() {
                return;
            }
        }
    });
    output
}

fn cells(count: u16) -> NonZeroU16 {
    NonZeroU16::new(count).unwrap()
}

fn pty_size(columns: u16, rows: u16) -> PtySize {
    PtySize { rows, cols: columns, pixel_width: 0, pixel_height: 0 }
}
