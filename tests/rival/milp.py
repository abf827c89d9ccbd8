"""The best arrangement as a mixed-integer programme, solved with HiGHS.

One binary for each letter that may stand in a free slot, one for each height that a line may be compared by; all that
the terms need besides is continuous and follows. Objective in whole tenths. Must not know the rules of a single letter.
"""

from __future__ import annotations

import time
from dataclasses import dataclass

import highspy
import numpy as np

import score
from letters import Fill
from model import Arrangement, Model
from programme import Expr, Programme, number, one, plus

#: No letter of a line is compared by its height.
NO_LINE = 0


@dataclass
class Answer:
    """What came of it; scores in tenths."""

    proved: bool
    infeasible: bool
    best: int | None
    bound: float
    arrangement: Arrangement | None
    seconds: float
    rounds: int


class Line:
    """One strip in the programme."""

    def __init__(self, programme: Programme, model: Model, place: int) -> None:
        self.programme, self.model, self.place = programme, model, place
        self.strip, self.bench, self.taste = model.plan.strips[place], model.bench, model.bench.taste
        self.band = score.suits(self.strip, model.plan)
        self.choices: list[list[tuple[Fill | None, Expr]]] = []
        for slot, free in enumerate(model.free[place]):
            fills = [None, *model.candidates[place][slot]] if free else [model.stays[place][slot]]
            fills = [one for one in fills if not free or one is None or model.capacity[one.chip] > 0]
            columns = [one(programme.column(whole=True)) if free else number(1) for _ in fills]
            self.choices.append(list(zip(fills, columns)))
            if free:
                programme.row(plus(*((1, column) for column in columns)), 1, 1)
        self._letters()
        self._heights()
        self._pairs()
        if self.strip.mix != "plain" and self.choices:
            self._places()
            self._counts()
        self._room()

    def that(self, slot: int, wanted) -> Expr:
        """1 where what stands in a slot is `wanted`."""
        return plus(*((1, column) for fill, column in self.choices[slot] if fill and wanted(fill)))

    def family(self, slot: int, family: tuple) -> Expr:
        return self.that(slot, lambda fill: fill.family == family)

    def sheet(self, slot: int, sheet: str) -> Expr:
        return self.that(slot, lambda fill: fill.sheet == sheet)

    def there(self, slot: int, of) -> set:
        """All that `of` tells of what may stand in a slot."""
        return {of(fill) for fill, _ in self.choices[slot] if fill and of(fill) is not None}

    def pay(self, term: str, expr: Expr, points: float) -> None:
        if term not in self.strip.accepted:
            self.programme.pay(expr, points)

    def debt(self, term: str, points: float, *, whole: bool = False, upper: float = 1) -> Expr | None:
        """A column that a row drives up, at `points`; None where it costs nothing."""
        if term in self.strip.accepted or points == 0:
            return None
        return one(self.programme.column(points, whole=whole, upper=upper))

    def _letters(self) -> None:
        for choices in self.choices:
            for fill, column in choices:
                if fill is None:
                    self.pay("missing", column, self.taste["missing.points"])
                else:
                    for term, points in fill.points.items():
                        self.pay(term, column, points)

    def _heights(self) -> None:
        """Exactly one height is chosen, one that a letter has; `self.under[slot][own][line]` says that both are so."""
        programme, taste = self.programme, self.taste
        owns = [self.there(slot, lambda fill: fill.height) for slot in range(len(self.choices))]
        self.lines = sorted({score.clamped(own, self.band) for of in owns for own in of})
        self.chosen = {line: one(programme.column(whole=True)) for line in [NO_LINE, *self.lines]}
        programme.row(plus(*((1, column) for column in self.chosen.values())), 1, 1)
        self.under: list[dict[int, dict[int, Expr]]] = []
        for slot, own in enumerate(owns):
            table: dict[int, dict[int, Expr]] = {high: {} for high in own}
            plain = plus(
                *((1, column) for fill, column in self.choices[slot] if fill is None or fill.height is None)
            )
            fixed = not self.model.free[self.place][slot]
            rest = {line: one(programme.column()) for line in self.chosen} if plain[0] or plain[1] else {}
            for high in own:
                for line in self.lines:
                    table[high][line] = self.chosen[line] if fixed else one(programme.column())
                together = plus(*((1, column) for column in table[high].values()))
                mine = self.that(slot, lambda fill, high=high: fill.height == high)
                programme.row(plus((1, together), (-1, mine)), 0, 0)
            if rest:
                programme.row(plus(*((1, column) for column in rest.values()), (-1, plain)), 0, 0)
            for line, column in self.chosen.items():
                parts = [table[high][line] for high in own if line in table[high]] + ([rest[line]] if rest else [])
                programme.row(plus(*((1, part) for part in parts), (-1, column)), 0, 0)
            for high in own:
                for line, column in table[high].items():
                    self.pay("height", column, score.height_points(high, line, taste))
                    self.pay("near", column, score.near_points(high, line, taste))
            self.under.append(table)
        for line in self.lines:
            having = plus(*((1, self._having(slot, line, line)) for slot in range(len(owns))))
            programme.row(plus((1, having), (-1, self.chosen[line])), 0)

    def _having(self, slot: int, line: int, other: int) -> Expr:
        """1 where `line` is chosen and the letter in a slot has the height `other`, brought into the band."""
        table = self.under[slot]
        return plus(*((1, table[own][line]) for own in table if score.clamped(own, self.band) == other))

    def hold(self, line: int, other: int) -> None:
        """`line` is chosen only if `other`, where a letter has it, is no better; at a tie the larger is chosen."""
        lead = 1 if other > line else 0
        parts, least = [], 0.0
        for table in self.under:
            gains = {own: self._gain(own, line, other) for own in table}
            parts += [(gains[own], table[own][line]) for own in table]
            least += min(0, *gains.values()) if gains else 0
        slack = lead - least
        if slack <= 0:
            return
        for slot in range(len(self.under)):
            having = self._having(slot, line, other)
            if having[0] or having[1]:
                self.programme.row(
                    plus(*parts, (slack - lead, self.chosen[line]), (-slack, having)), 0
                )

    def _gain(self, own: int, line: int, other: int) -> int:
        return score.height_points(own, other, self.taste) - score.height_points(own, line, self.taste)

    def _pairs(self) -> None:
        programme, taste, lively = self.programme, self.taste, self.strip.mix == "lively"
        whole = self._whole_words() if lively else {}
        for slot, in_word in score.joints(self.strip):
            before, word = slot - 1, self.strip.slots[slot][1]
            if lively:
                points = taste["neighbours.in-word" if in_word else "neighbours.across"]
                both = self.there(before, lambda fill: fill.family) & self.there(slot, lambda fill: fill.family)
                debt = self.debt("neighbours", points) if both else None
                for family in both if debt else ():
                    pair = plus((1, self.family(before, family)), (1, self.family(slot, family)))
                    programme.row(plus((1, debt), (-1, pair)), -1)
            if lively and in_word:
                both = self.there(before, lambda fill: fill.sheet) & self.there(slot, lambda fill: fill.sheet)
                debt = self.debt("fragment", taste["fragment.points"]) if both else None
                for sheet in both if debt else ():
                    pair = plus((1, self.sheet(before, sheet)), (1, self.sheet(slot, sheet)))
                    programme.row(plus((1, debt), (-1, pair), (1, whole[word, sheet])), -1)
            if in_word:
                self._script(before, slot)

    def _whole_words(self) -> dict[tuple[int, str], Expr]:
        """1 where all of a word is from one sheet."""
        found = {}
        for slots in score.words(self.strip):
            for sheet in set.union(*(self.there(slot, lambda fill: fill.sheet) for slot in slots)):
                column = one(self.programme.column())
                for slot in slots:
                    self.programme.row(plus((1, column), (-1, self.sheet(slot, sheet))), most=0)
                found[self.strip.slots[slots[0]][1], sheet] = column
        return found

    def _script(self, before: int, slot: int) -> None:
        joined = [
            (at, other, sheet)
            for at, other in ((before, slot), (slot, before))
            for sheet in self.there(at, lambda fill: fill.sheet if fill.joined else None)
        ]
        debt = self.debt("joined", self.taste["joined.points"]) if joined else None
        for at, other, sheet in joined if debt else ():
            strange = self.that(other, lambda fill, sheet=sheet: fill.sheet != sheet)
            self.programme.row(plus((1, debt), (-1, self.sheet(at, sheet)), (-1, strange)), -1)

    def _places(self) -> None:
        taste, palette, count = self.taste, self.bench.palette, len(self.choices)
        if palette.main is not None:
            for end in {0, count - 1}:
                self.pay("ends", self.that(end, lambda fill: not fill.main), taste["ends.points"])
            third = -(-count // 3)
            if count >= score.LONG:
                middle = [self.that(slot, lambda fill: fill.main) for slot in range(third, count - third)]
                self._some("anchor", middle, taste["anchor.points"])
        if palette.second is not None and count >= score.LONG:
            for part in (range(3), range(count - 3, count)):
                second = [self.family(slot, ("page", palette.second)) for slot in part]
                self._some("second", second, taste["second.points"])

    def _some(self, term: str, exprs: list[Expr], points: float) -> None:
        debt = self.debt(term, points)
        if debt:
            self.programme.row(plus((1, debt), *((1, expr) for expr in exprs)), 1)

    def _counts(self) -> None:
        programme, taste, palette, count = self.programme, self.taste, self.bench.palette, len(self.choices)
        if count < score.LONG:
            return
        slots = range(count)
        families = sorted(set.union(*(self.there(slot, lambda fill: fill.family) for slot in slots)))
        on = {family: plus(*((1, self.family(slot, family)) for slot in slots)) for family in families}
        if self.strip.mix == "lively":
            if palette.main is not None and (debt := self.debt("lead", taste["lead.points"], whole=True)):
                want = -(-count // 3)
                programme.row(plus((1, on.get(("page", palette.main), number(0))), (want, debt)), want)
            most = 3 * count // 5
            if debt := self.debt("dominance", taste["dominance.points"], whole=True):
                for expr in on.values():
                    programme.row(plus((1, expr), (most - count, debt)), most=most)
        want = score.families_wanted(self.strip, self.bench)
        debt = self.debt("monotony", taste["monotony.points"], upper=want)
        if debt:
            shown = [self._shown(family, on[family]) for family in families if score.counts_family(family, self.bench)]
            programme.row(plus((1, debt), *((1, column) for column in shown)), want)

    def _shown(self, family: tuple, anywhere: Expr) -> Expr:
        """1 where a family counts: on a letter, or where whole words count, on a whole word."""
        column = one(self.programme.column())
        if self.strip.mix == "words":
            wholes = []
            for slots in score.words(self.strip):
                whole = one(self.programme.column())
                for slot in slots:
                    self.programme.row(plus((1, whole), (-1, self.family(slot, family))), most=0)
                wholes.append((1, whole))
            anywhere = plus(*wholes)
        self.programme.row(plus((1, column), (-1, anywhere)), most=0)
        return column

    def _room(self) -> None:
        room, model = self.model.room(self.place), self.model
        if room is None or not any(model.free[self.place]):
            return
        for line in {asked[2] for asked in self.strip.slots}:
            parts, longest = [], model.gaps(self.place, line)
            gaps = longest
            for slot, choices in enumerate(self.choices):
                if self.strip.slots[slot][2] == line:
                    widths = [fill.width if fill else model.empty_width(self.place, slot) for fill, _ in choices]
                    parts += [(width / 1e6, column) for width, (_, column) in zip(widths, choices)]
                    longest += max(widths)
            if longest > room:
                self.programme.row(plus(*parts), most=(room - gaps) / 1e6 + 1e-7)


def solve(model: Model, limit: float) -> Answer:
    """The best arrangement; `limit` in seconds of HiGHS. The rule that picks a line's height is held where an answer
    breaks it, and the programme solved anew."""
    programme = Programme()
    lines = [Line(programme, model, place) for place in range(len(model.plan.strips))]
    _counts(programme, model, lines)
    spent, rounds, held = 0.0, 0, set()
    while True:
        rounds += 1
        highs = programme.solver(max(0.1, limit - spent))
        started = time.perf_counter()
        highs.run()
        spent += time.perf_counter() - started
        status, info = highs.getModelStatus(), highs.getInfo()
        if status == highspy.HighsModelStatus.kInfeasible:
            return Answer(True, True, None, np.inf, None, spent, rounds)
        optimal, bound = status == highspy.HighsModelStatus.kOptimal, info.mip_dual_bound
        if not np.isfinite(info.objective_function_value) or info.primal_solution_status != 2:
            return Answer(False, False, None, bound, None, spent, rounds)
        values = highs.getSolution().col_value
        arrangement = _arrangement(lines, values)
        best = model.total(model.fills(arrangement))
        broken = [pair for pair in _broken(model, lines, arrangement, values) if pair not in held]
        if optimal and broken:
            held.update(broken)
            for place, line, other in broken:
                lines[place].hold(line, other)
            continue
        if optimal and abs(best - info.objective_function_value) > 0.5:
            raise ValueError(f"the programme says {info.objective_function_value}, the score is {best}")
        return Answer(optimal, False, best, best if optimal else bound, arrangement, spent, rounds)


def _counts(programme: Programme, model: Model, lines: list[Line]) -> None:
    uses: dict[str, list[Expr]] = {}
    for line in lines:
        for choices in line.choices:
            for fill, column in choices:
                if fill and fill.chip and column[0]:
                    uses.setdefault(fill.chip, []).append(column)
    for chip, columns in uses.items():
        if len(columns) > model.capacity[chip]:
            programme.row(plus(*((1, column) for column in columns)), most=model.capacity[chip])


def _is_set(column: Expr, values: list[float]) -> bool:
    return any(values[place] > 0.5 for place in column[0])


def _arrangement(lines: list[Line], values: list[float]) -> Arrangement:
    def put(choices: list[tuple[Fill | None, Expr]]) -> tuple[str, str | None] | None:
        found = next((fill for fill, column in choices if _is_set(column, values)), None)
        return (found.chip, found.kind) if found and found.chip else None

    return [[put(choices) for choices in line.choices] for line in lines]


def _broken(
    model: Model, lines: list[Line], arrangement: Arrangement, values: list[float]
) -> list[tuple[int, int, int]]:
    """Strip, the height chosen and the one that the rule picks, where they differ."""
    broken = []
    for place, fills in enumerate(model.fills(arrangement)):
        line = lines[place]
        chosen = next(high for high, column in line.chosen.items() if _is_set(column, values))
        heights = [fill.height for fill in fills if fill and fill.height]
        true = score.line_height(heights, line.band, line.taste) or NO_LINE
        if chosen != true:
            broken.append((place, chosen, true))
    return broken
