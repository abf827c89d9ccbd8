"""Holds the program against the rival, case by case: its scores, and that what it calls best is the best.

Must not know how either comes by its answer. Exit 1 on any difference; the folders of those cases are kept.
"""

from __future__ import annotations

import argparse
import json
import random
import shutil
import subprocess
import sys
from collections import Counter
from pathlib import Path

import made
from milp import solve
from model import Arrangement, Model
from spelled import stand

ROOT = Path(__file__).resolve().parents[2]
KEPT = ROOT / "target" / "rival-cases"


def tenths(points: float) -> int:
    """Points as JSON tells them, in tenths."""
    return round(points * 10)


class Program:
    """The program at a path."""

    def __init__(self, path: Path) -> None:
        self.path = path

    def answer(self, folder: Path, *arguments: str) -> dict:
        command = [self.path, "--stash", folder, *arguments, "--json"]
        done = subprocess.run(command, capture_output=True, text=True, timeout=300, check=False)
        if done.returncode > 1:
            raise RuntimeError(f"{arguments}: exit {done.returncode}: {done.stderr.strip()}")
        return json.loads(done.stdout)


def drawn(model: Model, draw: random.Random) -> Arrangement:
    """Any letters that serve, counts disregarded; now and then nothing."""

    def put(fills: list) -> tuple[str, str | None] | None:
        fill = draw.choice(fills) if fills and draw.random() < 0.92 else None
        return fill and (fill.chip, fill.kind)

    return [[put(fills) for fills in strip] for strip in model.candidates]


def checked(program: Program, folder: Path, model: Model, notes: Counter) -> list[str]:
    """Differences between what the program says of the plan as it lies and the score of the model."""
    said = program.answer(folder, "check", "walk")
    found = []
    notes["plans"] += 1
    for place, (strip, terms) in enumerate(zip(said["strips"], model.score(model.as_it_lies()))):
        told: Counter = Counter()
        for one in said["findings"]:
            if one["strip"] == strip["role"] and not one["accepted"] and one["level"] != "stop":
                told[one["id"]] += tenths(one["points"])
        mine = Counter({term: points for term, points in terms.items() if term != "near"})
        notes.update(terms.keys())
        told = Counter({term: points for term, points in told.items() if points})
        if tenths(strip["score"]) != sum(terms.values()) or told != mine:
            found.append(
                f"strip {place + 1}: program {strip['score']}, model {sum(terms.values()) / 10}; "
                f"told {dict(told)}, model {dict(terms)} in tenths"
            )
    return found


def check_case(program: Program, folder: Path, seed: int, times: int, notes: Counter) -> list[str]:
    """The plan as made, then with letters drawn anew."""
    draw, found = random.Random(f"letters {seed}"), []
    for turn in range(times):
        model = Model(folder, "walk")
        if turn:
            stand(folder / "pages" / "walk.toml", model, drawn(model, draw))
            model = Model(folder, "walk")
        found += checked(program, folder, model, notes)
        if found:
            break
    return found


def returned(answer: dict) -> Arrangement:
    """The arrangement of the first suggestion."""
    strips = answer["suggestions"][0]["strips"]
    return [[one["chip"] and (one["chip"], one["as"]) for one in strip["letters"]] for strip in strips]


def suggest_case(program: Program, folder: Path, limit: float, notes: Counter) -> list[str]:
    """Differences between what the program suggests and what is proved of the model."""
    model = Model(folder, "walk")
    said = program.answer(folder, "suggest", "walk", "--seconds", str(limit))
    proof = solve(model, limit)
    notes[said["outcome"]] += 1
    notes["proved by HiGHS" if proof.proved else "not proved by HiGHS in time"] += 1
    if said["outcome"] == "best-so-far" and proof.proved:
        first = said["suggestions"][0]["score"]
        print(f"{folder.name}: {first} with a bound of {said['bound']} in {said['milliseconds']:.0f} ms; "
              f"HiGHS proves {(proof.best or 0) / 10} in {proof.seconds * 1000:.0f} ms")  # fmt: skip
    if said["outcome"] == "impossible":
        served = any(fills for strip in model.candidates for fills in strip)
        return ["the program calls it impossible"] if served and proof.best is not None else []
    arrangement = returned(said)
    fills = model.fills(arrangement)
    score, bound = tenths(said["suggestions"][0]["score"]), tenths(said["bound"])
    found = [f"uses {chip} more often than it is left" for chip in model.overdrawn(arrangement)]
    found += _kept(model, arrangement)
    terms = model.score(fills)
    for strip, mine in zip(said["suggestions"][0]["strips"], terms):
        if tenths(strip["score"]) != sum(mine.values()):
            found.append(f"{strip['role']}: scored {strip['score']}, the model says {dict(mine)} in tenths")
    if model.longest_over(fills) > 0:
        found.append(f"a line is {model.longest_over(fills) / 1e6} mm longer than its room")
    if proof.infeasible:
        return [*found, "the program has an arrangement, HiGHS says that there is none"]
    if said["outcome"] == "best":
        if proof.best is not None and proof.best < score:
            found.append(f"called best at {score / 10}, HiGHS has {proof.best / 10}: {proof.arrangement}")
        if proof.proved and proof.best > score:
            found.append(f"at {score / 10}, below the {proof.best / 10} that HiGHS proves")
        if bound != score:
            found.append(f"called best at {score / 10} with a bound of {bound / 10}")
    if bound > score or (proof.best is not None and bound > proof.best):
        found.append(f"a bound of {bound / 10} above {min(score, proof.best or score) / 10}")
    if proof.bound > score + 0.5:
        found.append(f"a score of {score / 10} below HiGHS's bound of {proof.bound / 10}")
    return found


def _kept(model: Model, arrangement: Arrangement) -> list[str]:
    """What is pinned, by hand or stuck must stay."""
    found = []
    for place, puts in enumerate(arrangement):
        for slot, put in enumerate(puts):
            stays = model.stays[place][slot]
            if not model.free[place][slot] and (put and put[0]) != (stays and stays.chip):
                found.append(f"strip {place + 1}, slot {slot + 1}: {put} where {stays and stays.chip} stays")
    return found


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--cases", type=int, default=25)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--limit", type=float, default=20.0, help="seconds for each search")
    parser.add_argument("--program", type=Path, default=ROOT / "target" / "release" / "oddment")
    parser.add_argument("--check-only", action="store_true", help="hold the score of plans alone")
    parser.add_argument("--times", type=int, default=3, help="plans of each case in --check-only")
    parser.add_argument("--rooms", action="store_true", help="with lines that may have too little room")
    parser.add_argument("--verbose", action="store_true", help="tell of each case as it goes")
    given = parser.parse_args()
    program, notes, wrong = Program(given.program), Counter(), 0
    for seed in range(given.seed, given.seed + given.cases):
        folder = KEPT / str(seed)
        made.make(folder, seed, made.drawn_shape(seed, room=given.rooms))
        if given.check_only:
            found = check_case(program, folder, seed, given.times, notes)
        else:
            found = suggest_case(program, folder, given.limit, notes)
        if found:
            wrong += 1
            print(f"case {seed} ({folder}):", *found, sep="\n  ", flush=True)
        else:
            shutil.rmtree(folder)
        if given.verbose:
            print(seed, dict(notes), file=sys.stderr, flush=True)
    told = ", ".join(f"{what} {count}" for what, count in notes.items())
    print(f"{given.cases} cases, {wrong} with a difference{': ' + told if told else ''}")
    return int(wrong > 0)


if __name__ == "__main__":
    sys.exit(main())
