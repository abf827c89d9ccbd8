"""Reads a stash folder and its page plans: sheets, taste, plans, as plain data.

Written from the form of the files alone. It takes every file to be sound and the ledger to hold nothing that the sheets
do not count yet. Must not know any rule of the score.
"""

from __future__ import annotations

import tomllib
import unicodedata
from dataclasses import dataclass, field
from pathlib import Path

from colour import Rgb, colour
from figures import length, page_size, rounded
from tables import TASTE

PLAIN = {"‘": "'", "’": "'", "“": '"', "”": '"', "–": "-", "—": "-", "\ufe0e": None, "\ufe0f": None}
FOLDED = str.maketrans(PLAIN)


def folded(text: str) -> str:
    """Text in NFC, curly quotes and dashes made plain."""
    return unicodedata.normalize("NFC", text).translate(FOLDED)


@dataclass
class Chip:
    """Letters of one kind on one sheet; lengths in nanometres."""

    id: str
    sheet: Sheet
    character: str
    left: int
    width: int | None
    height: int | None
    colours: list[Rgb]


@dataclass
class Sheet:
    """One sheet."""

    id: str
    tile: bool
    height: int
    height_of: str
    tile_width: int | None
    finish: str
    flags: dict[str, bool]
    colours: list[Rgb]
    outline: Rgb | None
    tile_colour: Rgb | None
    chips: list[Chip] = field(default_factory=list)


@dataclass
class Stood:
    """What a plan stands in a slot: a chip by its id, or a thing by hand."""

    chip: str | None
    kind: str | None
    pinned: bool
    colour: Rgb | None
    width: int
    height: int | None


@dataclass
class Strip:
    """One strip of a plan; `slots` are (character, word, line)."""

    role: str
    slots: list[tuple[str, int, int]]
    given: dict
    stood: list[Stood | None]
    on: Rgb | None
    tall: tuple[int, int] | None
    lengths: dict[str, int | None]

    @property
    def stuck(self) -> bool:
        return "stuck" in self.given

    @property
    def accepted(self) -> set[str]:
        return set(self.given.get("accepted", []))

    @property
    def mix(self) -> str:
        return self.given.get("mix", "plain" if self.role == "subtitle" else "lively")


@dataclass
class Element:
    """A thing on the page; lengths in nanometres."""

    kind: str
    at: tuple[int, int]
    size: tuple[int, int]
    turn: float
    round: bool
    colours: list[Rgb]


@dataclass
class Plan:
    """One page plan."""

    size: tuple[int, int] | None
    ground: Rgb | None
    margin: int
    colours: list[Rgb]
    elements: list[Element]
    strips: list[Strip]


class Folder:
    """A stash: its sheets in the order of their ids, taste, and every plan by its name."""

    def __init__(self, path: Path) -> None:
        taste = _read(path / "taste.toml") if (path / "taste.toml").exists() else {}
        self.own = taste.get("colours", {})
        self.taste = _taste(taste)
        self.sheets = [self._sheet(file) for file in sorted((path / "sheets").glob("*.toml"), key=lambda f: f.stem)]
        self.chips = {chip.id: chip for sheet in self.sheets for chip in sheet.chips}
        self.plans = {file.stem: self._plan(_read(file)) for file in sorted((path / "pages").glob("*.toml"))}

    def _colours(self, given: str | list[str] | None) -> list[Rgb]:
        names = [given] if isinstance(given, str) else given or []
        return [colour(name, self.own) for name in names]

    def _one(self, given: str | None) -> Rgb | None:
        return colour(given, self.own) if given else None

    def _sheet(self, file: Path) -> Sheet:
        read = _read(file)
        unit = read.get("unit", "mm")
        sheet = Sheet(
            id=file.stem,
            tile=read["form"] == "tile",
            height=length(read["height"], unit),
            height_of=read.get("height_of", "capital"),
            tile_width=_maybe(read.get("tile_width"), unit),
            finish=read.get("finish", "matte"),
            flags={key: read.get(key, False) for key in ("neutral", "joined", "plain_tile")},
            colours=self._colours(read["colour"]),
            outline=self._one(read.get("outline")),
            tile_colour=self._one(read.get("tile_colour")),
        )
        for name, value in read["letters"].items():
            for entry in value if isinstance(value, list) else [value]:
                entry = entry if isinstance(entry, dict) else {"left": entry}
                mark = f":{entry['mark']}" if "mark" in entry else ""
                colours = self._colours(entry.get("colour")) or sheet.colours
                size = (_maybe(entry.get(key), unit) for key in ("width", "height"))
                name = folded(name)
                sheet.chips.append(Chip(f"{sheet.id}/{name}{mark}", sheet, name, entry["left"], *size, colours))
        return sheet

    def _plan(self, read: dict) -> Plan:
        unit = read.get("unit", "mm")
        return Plan(
            size=page_size(read["size"], unit) if "size" in read else None,
            ground=self._one(read.get("ground")),
            margin=length(read.get("margin", "6 mm"), unit),
            colours=self._colours(read.get("colours")),
            elements=[self._element(one, unit) for one in read.get("element", [])],
            strips=[self._strip(one, place, unit) for place, one in enumerate(read["strip"])],
        )

    def _element(self, read: dict, unit: str) -> Element:
        at, size = (tuple(length(side, unit) for side in read[key]) for key in ("at", "size"))
        colours = self._colours(read.get("colours"))
        return Element(read["kind"], at, size, read.get("turn", 0), read.get("shape") == "round", colours)

    def _strip(self, read: dict, place: int, unit: str) -> Strip:
        slots = wording(read["wording"])
        stood: list[Stood | None] = [None] * len(slots)
        for letter in read.get("letter", []):
            if letter.get("for", slots[letter["slot"] - 1][0]) != slots[letter["slot"] - 1][0]:
                raise ValueError("a wording that was changed under its letters is not read here")
            stood[letter["slot"] - 1] = Stood(
                chip=folded(letter["chip"]) if "by" not in letter else None,
                kind=letter.get("as"),
                pinned=letter.get("pinned", False),
                colour=self._one(letter.get("colour")),
                width=length(letter.get("width", 0), unit),
                height=_maybe(letter.get("height"), unit),
            )
        tall = tuple(length(side, unit) for side in read["tall"]) if "tall" in read else None
        sizes = {key: _maybe(read.get(key), unit) for key in ("room", "gap", "word_gap")}
        role = read.get("role", ("title", "subtitle")[place] if place < 2 else "")
        return Strip(role, slots, read, stood, self._one(read.get("on")), tall, sizes)


def wording(text: str) -> list[tuple[str, int, int]]:
    """Slots as (character, word, line): each code point with the marks after it; white space parts words."""
    slots: list[tuple[str, int, int]] = []
    word = 0
    for line, row in enumerate(folded(text.strip()).splitlines()):
        for one in row.split():
            clusters: list[str] = []
            for point in one:
                if clusters and unicodedata.combining(point):
                    clusters[-1] += point
                else:
                    clusters.append(point)
            slots += [(cluster, word, line) for cluster in clusters]
            word += 1
    return slots


def _read(file: Path) -> dict:
    return tomllib.loads(file.read_text(encoding="utf-8"))


def _maybe(given: str | float | None, unit: str) -> int | None:
    return None if given is None else length(given, unit)


def _taste(read: dict) -> dict[str, int]:
    taste = {}
    for key, (measure, usual) in TASTE.items():
        table, name = key.split(".")
        given = read.get(table, {}).get(name)
        by = {"points": 10, "ratio": 100, "count": 1}.get(measure)
        taste[key] = usual if given is None else rounded(given * by) if by else length(given)
    return taste
