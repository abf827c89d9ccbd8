"""One plan before one stash: what stays, what is free, the score of an arrangement, and the best one.

Must not know the program nor how it searches.
"""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import letters
import score
from folder import Folder
from letters import Bench, Fill

#: For each strip its slots: a chip and how it stands in, or None for nothing.
Arrangement = list[list[tuple[str, str | None] | None]]


class Model:
    """The problem of one plan."""

    def __init__(self, folder: Path, name: str) -> None:
        self.bench = Bench(Folder(folder), name)
        self.plan = self.bench.plan
        self.stays = [
            [self.bench.standing(strip, slot, stood) for slot, stood in enumerate(strip.stood)]
            for strip in self.plan.strips
        ]
        self.free = [
            [not strip.stuck and (one is None or (one.chip is not None and not one.pinned)) for one in strip.stood]
            for strip in self.plan.strips
        ]
        self.candidates: list[list[list[Fill]]] = [
            [self.bench.candidates(strip, slot) if free else [] for slot, free in enumerate(self.free[place])]
            for place, strip in enumerate(self.plan.strips)
        ]
        kept = Counter(
            fill.chip
            for place, strip in enumerate(self.plan.strips)
            if not strip.stuck
            for slot, fill in enumerate(self.stays[place])
            if fill and fill.chip and not self.free[place][slot]
        )
        chips = self.bench.folder.chips.values()
        self.capacity = {chip.id: max(0, chip.left - kept[chip.id]) for chip in chips}

    def fills(self, arrangement: Arrangement) -> list[score.Fills]:
        """What an arrangement stands in each slot; what stays is taken from the plan."""
        return [
            [self._fill(place, slot, put) for slot, put in enumerate(puts)] for place, puts in enumerate(arrangement)
        ]

    def _fill(self, place: int, slot: int, put: tuple[str, str | None] | None) -> Fill | None:
        if not self.free[place][slot]:
            return self.stays[place][slot]
        if put is None:
            return None
        serving = (fill for fill in self.candidates[place][slot] if (fill.chip, fill.kind) == put)
        fill = next(serving, None)
        if fill is None:
            raise ValueError(f"{put} does not serve in slot {slot + 1} of strip {place + 1}")
        return fill

    def as_it_lies(self) -> list[score.Fills]:
        """What stands in each slot now."""
        return self.stays

    def score(self, fills: list[score.Fills]) -> list[score.Terms]:
        """Tenths by term, strip by strip."""
        return [score.terms(strip, fills[place], self.bench) for place, strip in enumerate(self.plan.strips)]

    def total(self, fills: list[score.Fills]) -> int:
        """Tenths over all strips."""
        return sum(sum(terms.values()) for terms in self.score(fills))

    def overdrawn(self, arrangement: Arrangement) -> list[str]:
        """Chips that the free slots use more often than they are to be had."""
        used = Counter(
            put[0]
            for place, puts in enumerate(arrangement)
            for slot, put in enumerate(puts)
            if put and self.free[place][slot]
        )
        return [chip for chip, times in used.items() if times > self.capacity.get(chip, 0)]

    def room(self, place: int) -> int | None:
        """The longest line that a strip may have."""
        page = self.plan.size[0] - 2 * self.plan.margin if self.plan.size else 0
        return self.plan.strips[place].lengths["room"] or (page if page > 0 else None)

    def empty_width(self, place: int, slot: int) -> int:
        """The room that an empty slot is given: of what stands there now, else of a letter of the usual height."""
        strip, now = self.plan.strips[place], self.stays[place]
        if now[slot]:
            return now[slot].width
        bodies = sorted(letters.standing_body(strip, at, fill, self.bench) for at, fill in enumerate(now) if fill)
        usual = sum(strip.tall) // 2 if strip.tall else 24_000_000
        high = bodies[len(bodies) // 2] if bodies else usual
        return letters.scaled(high, letters.ink_width(letters.wanted(strip, slot)))

    def gaps(self, place: int, line: int) -> int:
        """The gaps of a line together."""
        strip = self.plan.strips[place]
        gap = strip.lengths["gap"] if strip.lengths["gap"] is not None else 1_500_000
        word_gap = strip.lengths["word_gap"] if strip.lengths["word_gap"] is not None else 7_000_000
        of = [in_word for slot, in_word in score.joints(strip) if strip.slots[slot][2] == line]
        return sum(gap if in_word else word_gap for in_word in of)

    def longest_over(self, fills: list[score.Fills]) -> int:
        """By how much the line that is most too long is over its room; 0 or less: all fit."""
        over = [0]
        for place, strip in enumerate(self.plan.strips):
            room = self.room(place)
            for line in {asked[2] for asked in strip.slots} if room and any(self.free[place]) else ():
                of = [slot for slot, asked in enumerate(strip.slots) if asked[2] == line]
                widths = (
                    fills[place][slot].width if fills[place][slot] else self.empty_width(place, slot) for slot in of
                )
                over.append(sum(widths) + self.gaps(place, line) - room)
        return max(over)
