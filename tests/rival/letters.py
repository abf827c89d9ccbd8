"""What a letter of the stash is in a slot: whether it serves, how high it counts, and what it costs by itself.

Must not know its neighbours nor the other slots.
"""

from __future__ import annotations

import unicodedata
from collections import Counter
from dataclasses import dataclass, field

import tables
from colour import Rgb, chroma, contrast
from figures import ratio, rounded, scaled, weighted
from folder import Chip, Folder, Plan, Sheet, Stood, Strip
from page import Family, Palette, under

NEUTRAL, RIGID = ("foil", "wood", "cork"), ("chipboard", "wood", "puffy")


@dataclass(frozen=True)
class Fill:
    """What stands in a slot. `height`: None where none is compared; `points`: tenths, by term."""

    chip: str | None = None
    kind: str | None = None
    sheet: str | None = None
    family: Family | None = None
    main: bool = False
    joined: bool = False
    height: int | None = None
    width: int = 0
    points: dict[str, int] = field(default_factory=dict, hash=False)


def other_case(character: str) -> str | None:
    """The letter in its other case, where both cases are one character."""
    upper, lower = (unicodedata.normalize("NFC", one) for one in (character.upper(), character.lower()))
    other = upper if character == lower else lower
    return other if other != character and len(upper) == len(lower) == len(character) else None


def wanted(strip: Strip, slot: int) -> str:
    """The character that a slot asks for, by the strip's case rule."""
    written = strip.slots[slot][0]
    rule = strip.given.get("case", "any")
    cased = {"upper": written.upper(), "lower": written.lower()}.get(rule, written)
    return cased if len(cased) == len(written) else written


def body(character: str) -> float:
    """Height of a character's body over a capital's."""
    base = unicodedata.normalize("NFD", character)[0]
    if base in tables.ASCENDERS:
        return tables.ASCENDER / tables.CAP
    return tables.X_HEIGHT / tables.CAP if base.islower() else 1.0


def ink_width(character: str) -> float:
    """Width of a character over a capital's height."""
    return tables.WIDTHS[character] / tables.CAP


def stand_ins(character: str) -> list[tuple[str, str, int]]:
    """(used, kind, turn) of all that serve for `character`."""
    other = other_case(character)
    rows = [(other, "other-case", tables.UPRIGHT)] if other else []
    return rows + [row[1:] for row in tables.STAND_INS if row[0] == character]


def capital(sheet: Sheet) -> int:
    """Height of a capital of a die-cut sheet."""
    by = {"capital": 1.0, "small": tables.CAP / tables.X_HEIGHT, "tall": tables.CAP / tables.ASCENDER}
    return scaled(sheet.height, by[sheet.height_of])


def shown(chip: Chip) -> int:
    """Height of the sticker, upright."""
    if chip.height is not None or chip.sheet.tile:
        return chip.height or chip.sheet.height
    return scaled(capital(chip.sheet), body(chip.character))


def upright_width(chip: Chip) -> int:
    """Width of the sticker, upright."""
    if chip.width is not None:
        return chip.width
    if chip.sheet.tile:
        return chip.sheet.tile_width or shown(chip)
    measured = chip.height and scaled(chip.height, 1 / body(chip.character))
    return scaled(measured or capital(chip.sheet), ink_width(chip.character))


def standing_body(strip: Strip, slot: int, fill: Fill, bench: Bench) -> int:
    """Height of what stands in a slot, as it lies."""
    stood = strip.stood[slot]
    if fill.chip is None:
        return stood.height or stood.width
    chip = bench.folder.chips[fill.chip]
    on_side = (chip.character, fill.kind, tables.QUARTER) in stand_ins(wanted(strip, slot))
    return upright_width(chip) if on_side else shown(chip)


class Bench:
    """A stash before one of its plans: tells what can stand in a slot."""

    def __init__(self, folder: Folder, name: str) -> None:
        self.folder, self.taste = folder, folder.taste
        self.plan: Plan = folder.plans[name]
        self.palette = Palette(self.plan, self.taste)
        self.carrying: dict[str, list[Chip]] = {}
        for chip in folder.chips.values():
            self.carrying.setdefault(chip.character, []).append(chip)
        self.spoken = Counter(
            stood.chip
            for other, plan in folder.plans.items()
            if other != name
            for strip in plan.strips
            if not strip.stuck
            for stood in strip.stood
            if stood and stood.chip
        )

    def candidates(self, strip: Strip, slot: int) -> list[Fill]:
        """Every letter to be had that can stand in a slot, itself first."""
        asked = wanted(strip, slot)
        rows = [(asked, None, tables.UPRIGHT), *stand_ins(asked)]
        if strip.given.get("case", "any") != "any":
            rows = [row for row in rows if row[1] != "other-case"]
        found = []
        for used, kind, turn in rows:
            for chip in self.carrying.get(used, []):
                if chip.left > 0 and _can(chip.sheet, kind, turn):
                    found.append(self.letter(strip, slot, chip, kind))
        return found

    def standing(self, strip: Strip, slot: int, stood: Stood | None) -> Fill | None:
        """What the plan has in a slot; a chip that is gone is nothing."""
        if stood is None:
            return None
        if stood.chip is None:
            family = self.palette.family([stood.colour])[0] if stood.colour else None
            main = bool(stood.colour) and self.palette.is_main([stood.colour])
            return Fill(family=family, main=main, width=stood.width)
        chip = self.folder.chips.get(stood.chip)
        fill = self.letter(strip, slot, chip, stood.kind) if chip else None
        if fill and strip.stuck:
            # It is off the stash: no other letter is spared by taking another.
            fill.points.pop("scarce", None)
        return fill

    def letter(self, strip: Strip, slot: int, chip: Chip, kind: str | None) -> Fill:
        """`chip` in a slot, standing in as `kind`."""
        asked, sheet = wanted(strip, slot), chip.sheet
        rows = stand_ins(asked) if kind else []
        turn = next((turn for used, how, turn in rows if (used, how) == (chip.character, kind)), tables.UPRIGHT)
        size = upright_width(chip) if turn == tables.QUARTER else shown(chip)
        high = size if sheet.tile else scaled(size, 1 / body(asked))
        family, apart = self.palette.family(chip.colours)
        neutral = sheet.flags["neutral"] or sheet.finish in NEUTRAL or chroma(chip.colours[0]) < self.taste["colour.neutral"]
        points = {
            "stand-in": self._stand_in(asked, chip, kind),
            "scarce": self._scarce(chip),
            "pale": self._pale(chip, under(strip, self.plan)),
            "form": self._form(strip, sheet),
            **self._tone(apart, neutral),
        }
        # On its side it is as wide as its ink is high; without a descender or a round that is its body.
        width = shown(chip) if turn == tables.QUARTER else upright_width(chip)
        return Fill(
            chip=chip.id,
            kind=kind,
            sheet=sheet.id,
            family=family,
            main=self.palette.is_main(chip.colours),
            joined=sheet.flags["joined"],
            height=None if asked in tables.EXEMPT else high,
            width=width,
            points={term: tenths for term, tenths in points.items() if tenths},
        )

    def _tone(self, apart: int | None, neutral: bool) -> dict[str, int]:
        if apart is None or neutral:
            return {}
        over = apart - self.taste["colour.reach"]
        if over > 0:
            return {"stray": min(self.taste["stray.most"], self.taste["stray.points"] + weighted(100, over))}
        return {"near": min(self.taste["near.most"], weighted(10, apart))}

    def _stand_in(self, asked: str, chip: Chip, kind: str | None) -> int:
        same = kind == "other-case" and chip.character.lower() in tables.SAME_SHAPE
        return 0 if kind is None or same else self.taste[f"stand-in.{kind}"]

    def _scarce(self, chip: Chip) -> int:
        alike = (
            max(0, other.left - self.spoken[other.id])
            for other in self.carrying[chip.character]
            if ratio(shown(other), shown(chip)) <= self.taste["scarce.band"]
        )
        left = max(1, sum(alike))
        if left > 3:
            return 0
        full = self.taste[f"scarce.{('last', 'two', 'three')[left - 1]}"]
        return rounded(full * _need(chip.character))

    def _pale(self, chip: Chip, below: Rgb | None) -> int:
        ink, sheet, taste = chip.colours[0], chip.sheet, self.taste
        if sheet.tile:
            found = contrast(ink, sheet.tile_colour) if sheet.tile_colour else None
        elif below is None:
            found = None
        elif sheet.outline:
            found = max(contrast(ink, sheet.outline), contrast(sheet.outline, below))
        else:
            found = contrast(ink, below)
        if found is None or found >= max(taste["pale.enough"], taste["pale.faint"]):
            return 0
        if found < taste["pale.faint"]:
            return taste["pale.most"]
        return weighted(taste["pale.slope"], taste["pale.enough"] - found)

    def _form(self, strip: Strip, sheet: Sheet) -> int:
        rule = strip.given.get("forms", "any")
        return self.taste["form.points"] if rule in ("tile", "die-cut") and (rule == "tile") != sheet.tile else 0


def _can(sheet: Sheet, kind: str | None, turn: int) -> bool:
    if kind == "turned" and turn != tables.UPRIGHT:
        return not sheet.tile or sheet.flags["plain_tile"]
    if kind == "trimmed":
        return not sheet.tile and sheet.finish not in RIGID
    return True


def _need(character: str) -> float:
    """E = 1, down to 0 for K and all that are rarer."""
    if len(character) > 1 or not character.isascii() or not character.isalpha():
        return 0.0
    share = tables.SHARES[ord(character.upper()) - ord("A")]
    least, most = tables.SHARES[ord("K") - ord("A")], tables.SHARES[ord("E") - ord("A")]
    return max(0, share - least) / (most - least)
