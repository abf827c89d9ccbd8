"""The score of an arrangement: every term of every strip, in tenths, written from its rule.

Must not know how the arrangement was found.
"""

from __future__ import annotations

from collections import Counter

from figures import ratio, weighted
from folder import Plan, Strip
from letters import Bench, Fill

#: From so many slots on the colours of a line are arranged.
LONG = 5

Fills = list[Fill | None]
Terms = Counter


def suits(strip: Strip, plan: Plan) -> tuple[int, int] | None:
    """The heights that suit a strip: least and most."""
    share = {"title": (6, 13), "subtitle": (2, 5)}.get(strip.role)
    if strip.tall or not share or not plan.size:
        return strip.tall
    side = min(plan.size)
    least, most = ((side * part + 50) // 100 for part in share)
    return least, most


def clamped(height: int, band: tuple[int, int] | None) -> int:
    """A height brought into the band that suits."""
    return min(max(height, band[0]), max(band)) if band else height


def height_points(own: int, line: int, taste: dict[str, int]) -> int:
    """What a letter costs in a line that is compared by another height."""
    apart = ratio(own, line)
    if apart <= taste["height.alike"] or abs(own - line) <= taste["height.within"]:
        return 0
    return min(taste["height.most"], weighted(taste["height.slope"], apart - taste["height.alike"]))


def near_points(own: int, line: int, taste: dict[str, int]) -> int:
    """The quiet part for closeness of height."""
    return min(taste["near.most"], ratio(own, line) - 100)


def line_height(heights: list[int], band: tuple[int, int] | None, taste: dict[str, int]) -> int | None:
    """The height that a line is compared by."""

    def cost(line: int) -> tuple[int, int]:
        return sum(height_points(own, line, taste) for own in heights), -line

    return min({clamped(own, band) for own in heights}, key=cost, default=None)


def words(strip: Strip) -> list[list[int]]:
    """The slots of each word."""
    found: dict[int, list[int]] = {}
    for slot, (_, word, _) in enumerate(strip.slots):
        found.setdefault(word, []).append(slot)
    return list(found.values())


def joints(strip: Strip) -> list[tuple[int, bool]]:
    """Each slot that has a neighbour before it, and whether the two are of one word."""
    asked = strip.slots
    pairs = (slot for slot in range(1, len(asked)) if asked[slot - 1][2] == asked[slot][2])
    return [(slot, asked[slot - 1][1] == asked[slot][1]) for slot in pairs]


def families_wanted(strip: Strip, bench: Bench) -> int:
    """How many families monotony asks for."""
    want = bench.palette.variety()
    return min(want, len(words(strip))) if strip.mix == "words" else want


def counts_family(family: tuple | None, bench: Bench) -> bool:
    """Whether a family counts against monotony."""
    return family is not None and (not bench.palette.colours or family[0] == "page")


def terms(strip: Strip, fills: Fills, bench: Bench) -> Terms:
    """Tenths of each term that counts in the strip's score."""
    taste, found = bench.taste, Counter()
    line = line_height([one.height for one in fills if one and one.height], suits(strip, bench.plan), taste)
    for fill in fills:
        if fill is None:
            found["missing"] += taste["missing.points"]
            continue
        found.update(fill.points)
        if fill.height:
            found["height"] += height_points(fill.height, line, taste)
            found["near"] += near_points(fill.height, line, taste)
    _pairs(strip, fills, taste, found)
    if strip.mix != "plain" and fills:
        _places(strip, fills, bench, found)
        _counts(strip, fills, bench, found)
    unheard = strip.accepted
    return Counter({term: tenths for term, tenths in found.items() if tenths and term not in unheard})


def _pairs(strip: Strip, fills: Fills, taste: dict[str, int], found: Terms) -> None:
    def one_of(word: list[int]) -> bool:
        return bool(fills[word[0]]) and len({fills[slot] and fills[slot].sheet for slot in word}) == 1

    whole = [word for word in words(strip) if one_of(word)]
    for slot, in_word in joints(strip):
        before, here = fills[slot - 1], fills[slot]
        if not before or not here:
            continue
        lively, one_sheet = strip.mix == "lively", before.sheet is not None and before.sheet == here.sheet
        if lively and before.family and before.family == here.family:
            found["neighbours"] += taste["neighbours.in-word" if in_word else "neighbours.across"]
        if lively and in_word and one_sheet and not any(slot in word for word in whole):
            found["fragment"] += taste["fragment.points"]
        if in_word and (before.joined or here.joined) and not one_sheet:
            found["joined"] += taste["joined.points"]


def _places(strip: Strip, fills: Fills, bench: Bench, found: Terms) -> None:
    taste, palette, count = bench.taste, bench.palette, len(fills)
    if palette.main is not None:
        ends = {0, count - 1}
        found["ends"] += taste["ends.points"] * sum(1 for end in ends if fills[end] and not fills[end].main)
        third = -(-count // 3)
        if count >= LONG and not any(fill and fill.main for fill in fills[third : count - third]):
            found["anchor"] += taste["anchor.points"]
    if palette.second is not None and count >= LONG:
        second = ("page", palette.second)
        for part in (fills[:3], fills[-3:]):
            if not any(fill and fill.family == second for fill in part):
                found["second"] += taste["second.points"]


def _counts(strip: Strip, fills: Fills, bench: Bench, found: Terms) -> None:
    taste, palette, count = bench.taste, bench.palette, len(fills)
    if count < LONG:
        return
    families = Counter(fill.family for fill in fills if fill and fill.family)
    if strip.mix == "lively":
        if palette.main is not None and 3 * families[("page", palette.main)] < count:
            found["lead"] += taste["lead.points"]
        if families and 5 * max(families.values()) > 3 * count:
            found["dominance"] += taste["dominance.points"]
        there = set(families)
    else:
        of = [{fills[slot] and fills[slot].family for slot in word} for word in words(strip)]
        there = {next(iter(word)) for word in of if len(word) == 1}
    there = {family for family in there if counts_family(family, bench)}
    found["monotony"] += taste["monotony.points"] * max(0, families_wanted(strip, bench) - len(there))
