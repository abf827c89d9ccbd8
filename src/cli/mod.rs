//! The commands: the same acts as on the screens, for shells, tests and other programs.
//!
//! One file a command, or a folder where it has much to tell. Must not know how a screen is drawn.

mod args;
mod at_hand;
mod check;
mod completions;
mod count;
mod ideas;
mod list;
mod man;
mod mend;
mod new;
mod opened;
mod order;
mod places;
mod restock;
mod say;
mod sheet_called;
mod spell;
mod spell_args;
mod stash;
mod stick;
mod suggest;
mod take_in;
mod time_limit;
mod today;
mod wishes;

use std::process::ExitCode;

use anyhow::Result;
use clap::Parser;

use crate::terminal;

use args::{Args, Command};
use say::{Fault, report};

/// Reads the arguments, does what they say, and gives back the exit status: 0 done; 1 done, but the answer is no; 2 wrong
/// use or bad input; 3 the system failed.
#[must_use]
pub fn run() -> ExitCode {
    let args = match Args::try_parse() {
        Ok(args) => args,
        Err(error) => {
            let code = if error.use_stderr() { 2 } else { 0 };
            // Help and version go to standard output; a broken pipe is nobody's fault.
            let _ = error.print();
            return ExitCode::from(code);
        }
    };
    match act(&args) {
        Ok(code) => code,
        Err(error) => report(&error),
    }
}

fn act(args: &Args) -> Result<ExitCode> {
    if args.command.is_some() && (args.plan.is_some() || args.sample) {
        let text = "a plan or --sample before a command is for the bench; name the plan after the command";
        return Err(Fault::Input(text.into()).into());
    }
    match &args.command {
        None => bench(args),
        Some(Command::New(new)) => new::run(args, new),
        Some(Command::Check(check)) => check::run(args, check),
        Some(Command::Suggest(suggest)) => suggest::run(args, suggest),
        Some(Command::Places(places)) => places::run(args, places),
        Some(Command::Order(order)) => order::run(args, order),
        Some(Command::Spell(spell)) => spell::run(args, spell),
        Some(Command::Wishes(wishes)) => wishes::run(args, wishes),
        Some(Command::Ideas(ideas)) => ideas::run(args, ideas),
        Some(Command::Restock(restock)) => restock::run(args, restock),
        Some(Command::Stash(stash)) => stash::run(args, stash),
        Some(Command::TakeIn(take)) => take_in::run(args, take),
        Some(Command::Count(count)) => count::run(args, count),
        Some(Command::Stick(stick)) => stick::stick(args, stick),
        Some(Command::Lift(lift)) => stick::lift(args, lift),
        Some(Command::Mend(mend)) => mend::run(args, mend),
        Some(Command::Completions { shell }) => completions::run(*shell),
        Some(Command::Man) => man::run(),
    }
}

fn bench(args: &Args) -> Result<ExitCode> {
    let colours = terminal::ready().map_err(|refusal| Fault::Input(refusal.to_string()))?;
    let folder = if args.sample { None } else { Some(args.folder()?) };
    let ending = terminal::bench(folder, args.plan.as_deref(), colours)?;
    Ok(ExitCode::from(ending.exit_code()))
}
