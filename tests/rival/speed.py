"""How long the program's search takes beside HiGHS on the same model: a table, medians by sheets and letters.

The program tells its own time of the search; of HiGHS only the solving is timed, not the making of the model. Both use
one thread. Must not know how either searches.
"""

from __future__ import annotations

import argparse
import shutil
import statistics
import sys
from pathlib import Path

import made
from compare import KEPT, ROOT, Program, tenths
from milp import solve
from model import Model

SHEETS, LETTERS = (4, 10, 20, 40), (6, 12, 20, 30)


def one(program: Program, shape: made.Shape, seed: int, limit: float) -> tuple[float, float, bool, bool]:
    """Milliseconds of the program and of HiGHS, and whether each proved its answer within the limit."""
    folder = KEPT / "speed"
    name = made.make(folder, seed, shape)
    said = program.answer(folder, "suggest", name, "--seconds", str(limit), "--count", "1")
    proof = solve(Model(folder, name), limit)
    shutil.rmtree(folder)
    proved = said["outcome"] in ("best", "impossible")
    if proved and proof.proved and said["suggestions"] and tenths(said["suggestions"][0]["score"]) != proof.best:
        print(f"{shape}, seed {seed}: {said['suggestions'][0]['score']} beside {proof.best}", file=sys.stderr)
    ours, theirs = said["milliseconds"], proof.seconds * 1000
    if not proved or ours > theirs:
        print(f"{shape}, seed {seed}: {said['outcome']} in {ours:.0f} ms beside {theirs:.0f}", file=sys.stderr)
    return ours, theirs, proved, proof.proved


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--cases", type=int, default=3, help="cases of each row")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--limit", type=float, default=60.0, help="seconds for each search")
    parser.add_argument("--program", type=Path, default=ROOT / "target" / "release" / "oddment")
    parser.add_argument("--sheets", type=int, nargs="*", default=SHEETS)
    parser.add_argument("--letters", type=int, nargs="*", default=LETTERS)
    given = parser.parse_args()
    program, ratios = Program(given.program), []
    print("| sheets | letters | stash | program ms | slowest | HiGHS ms | slowest | times quicker | proved |")
    print("| --- | --- | --- | --- | --- | --- | --- | --- | --- |")
    for sheets in given.sheets:
        for letters in given.letters:
            for scarce in (True, False):
                shape = made.Shape(sheets, letters, scarce)
                rows = [one(program, shape, given.seed + turn, given.limit) for turn in range(given.cases)]
                ours, theirs = [row[0] for row in rows], [row[1] for row in rows]
                ratios += [row[1] / max(row[0], 0.001) for row in rows]
                proved = f"{sum(row[2] for row in rows)} and {sum(row[3] for row in rows)} of {len(rows)}"
                times = statistics.median(ratios[-len(rows) :])
                print(
                    f"| {sheets} | {letters} | {'scarce' if scarce else 'rich'} | {statistics.median(ours):.2f} "
                    f"| {max(ours):.2f} | {statistics.median(theirs):.0f} | {max(theirs):.0f} | {times:.0f} | {proved} |",
                    flush=True,
                )
    print(f"\nTimes quicker, over all {len(ratios)} cases: median {statistics.median(ratios):.0f}, "
          f"least {min(ratios):.1f}.")  # fmt: skip


if __name__ == "__main__":
    main()
