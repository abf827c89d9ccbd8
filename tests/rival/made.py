"""Stash folders and page plans made from a seed; names and figures are invented.

Must not know the score nor what letter serves for which.
"""

from __future__ import annotations

import shutil
from dataclasses import dataclass
from pathlib import Path
from random import Random

from folder import wording
from spelled import toml

NAMES = "quay rope kelp tin buoy mast oar gull lamp tide reef pier net float cork foam slip cove dune wharf".split()
KINDS = "blocks caps letters tags script stamps floats rings".split()
TITLES = """
HARBOUR LIGHTS|LANTERN WALK|SALT AND ROPE|LOW TIDE|THE LAST FERRY|STORM GLASS|QUAYSIDE SUPPER|ANCHOR DAY|PIER WALK 1961|
FISH MARKET|BRINE & KELP|NET MENDERS|GULLS OVERHEAD|OUR LITTLE BOAT|MOORING SONGS|TO SEA|Evening Tide|Harbour Walk|
Little Oars|Rope And Sail|Seven Lanterns|CAFÉ AT THE QUAY|SLACK WATER|FOG-HORN NIGHT|SAILMAKER'S LOFT|ROUND THE BUOY
""".replace("\n", "").split("|")
SUBTITLES = """
on the last evening|with the whole crew|AUGUST 1961|by lamp light|down at the pier|FIRST OF MAY|when the boats came in|
seven at the table|OLD TOWN QUAY|salt in the air
""".replace("\n", "").split("|")
COLOURS = {
    "mustard": "#e0a53a", "sea": "#35a79c", "coral": "#f0806a", "heather": "#c27fc4", "kraft": "#b5a18a",
    "glow": "#f7dd9a", "sailcloth": "#f3ede1", "slate": "#2f3e46", "tar": "#22282b", "deep": "#1d5f73",
    "weed": "#6f8f3a", "rust": "#b5472f", "ice": "#cfe6ea", "plum": "#5d2e5a",
}  # fmt: skip
LIVELY = [name for name in COLOURS if name not in ("slate", "tar", "sailcloth", "ice")]
CAPITALS, SMALL = "ABCDEFGHIJKLMNOPQRSTUVWXYZ", "abcdefghijklmnopqrstuvwxyz"
FIGURES, MARKS = "0123456789", "&!?.,'-"


@dataclass
class Shape:
    """What a case is to be like; `letters` None: a wording of the list."""

    sheets: int
    letters: int | None = None
    scarce: bool = False
    heights: int = 4
    room: bool = False


def drawn_shape(seed: int, *, room: bool = False) -> Shape:
    """The shape of the case of a seed."""
    draw = Random(f"shape {seed}")
    heights = draw.choice([2, 3, 3, 4, 4, 5, 9])
    return Shape(draw.randint(10, 40), None, draw.random() < 0.5, heights, room)


def make(folder: Path, seed: int, shape: Shape | None = None) -> str:
    """Makes a stash in `folder`, which is emptied first; gives the name of the plan."""
    shutil.rmtree(folder, ignore_errors=True)
    for part in ("sheets", "pages"):
        (folder / part).mkdir(parents=True)
    maker = _Maker(Random(f"case {seed}"), shape or drawn_shape(seed), folder)
    maker.write("taste.toml", maker.taste())
    for name in maker.draw.sample([f"{a}-{b}" for a in NAMES for b in KINDS], maker.shape.sheets):
        maker.sheets[name] = maker.sheet()
        maker.write(f"sheets/{name}.toml", maker.sheets[name])
    maker.write("pages/walk.toml", maker.plan())
    if maker.draw.random() < 0.4:
        maker.write("pages/draft.toml", maker.draft())
    return "walk"


class _Maker:
    def __init__(self, draw: Random, shape: Shape, folder: Path) -> None:
        self.draw, self.shape, self.folder = draw, shape, folder
        self.sheets: dict[str, dict] = {}
        # A stash of few colours, now and then.
        self.hues = draw.sample(LIVELY, 2) if draw.random() < 0.2 else list(COLOURS)
        self.heights = draw.sample([9, 11, 14, 16, 17.5, 18, 19, 20, 21, 22, 23.5, 24, 25, 26, 28, 31], shape.heights)

    def write(self, name: str, data: dict) -> None:
        (self.folder / name).write_text(toml(data), encoding="utf-8")

    def chance(self, share: float) -> bool:
        return self.draw.random() < share

    def taste(self) -> dict:
        taste: dict = {"colours": COLOURS}
        if self.chance(0.3):
            changes = [
                ("height", "alike", 1.2), ("height", "slope", 55.5), ("ends", "points", 3.5), ("near", "most", 2.5),
                ("neighbours", "in-word", 4.7), ("monotony", "want", 4), ("monotony", "points", 0.0),
                ("scarce", "last", 7.3), ("fragment", "points", 5.1), ("colour", "reach", 12.5),
                ("missing", "points", 31.0), ("dominance", "points", 9.0), ("stand-in", "look-alike", 1.5),
                ("height", "within", "0.5 mm"), ("pale", "enough", 4.5), ("lead", "points", 11.1),
            ]  # fmt: skip
            for table, key, value in self.draw.sample(changes, 4):
                taste.setdefault(table, {})[key] = value
        return taste

    def colours(self, most: int) -> list[str]:
        return self.draw.sample(self.hues, min(len(self.hues), self.draw.randint(1, most)))

    def sheet(self) -> dict:
        draw, tile = self.draw, self.chance(0.4)
        sheet: dict = {"form": "tile" if tile else "die-cut", "height": f"{draw.choice(self.heights)} mm"}
        sheet["colour"] = self.colours(2) if self.chance(0.35) else draw.choice(self.hues)
        if not tile:
            sheet["height_of"] = draw.choices(["capital", "small", "tall"], [8, 1, 1])[0]
        if self.chance(0.3) and not tile:
            sheet["outline"] = draw.choice(["sailcloth", "tar", "glow"])
        if tile and self.chance(0.8):
            sheet["tile_colour"] = draw.choice(["sailcloth", "tar", "ice", "kraft"])
        if tile and self.chance(0.4):
            sheet["plain_tile"] = True
        if tile and self.chance(0.2):
            sheet["tile_width"] = "16 mm"
        if self.chance(0.3):
            sheet["finish"] = draw.choice(["gloss", "glitter", "foil", "puffy", "chipboard", "wood", "felt", "cork"])
        if self.chance(0.06):
            sheet["neutral"] = True
        if not tile and self.chance(0.12):
            sheet["joined"] = True
        letters = {"upper": CAPITALS, "lower": SMALL, "both": CAPITALS + SMALL}[
            draw.choices(["upper", "lower", "both"], [6, 2, 2])[0]
        ]
        extra = (FIGURES if self.chance(0.5) else "") + (MARKS if self.chance(0.5) else "")
        extra += "ÉÉé" if self.chance(0.2) else ""
        extra += "♥★" if self.chance(0.2) else ""
        sheet["letters"] = {one: self.entry() for one in dict.fromkeys(letters + extra) if self.chance(0.85)}
        return sheet

    def count(self) -> int:
        return self.draw.choice([0, 0, 0, 1, 1] if self.shape.scarce else [0, 1, 1, 2, 2, 3, 4])

    def entry(self) -> int | dict | list:
        entry: dict = {"left": self.count()}
        if self.chance(0.02):
            entry["width"] = f"{self.draw.randint(8, 26)} mm"
        if self.chance(0.01):
            entry["height"] = f"{self.draw.choice(self.heights)} mm"
        if self.chance(0.03):
            entry["colour"] = self.draw.choice(self.hues)
        if self.chance(0.03):
            return [entry, {"mark": "spare", "left": self.count(), "colour": self.draw.choice(list(COLOURS))}]
        return entry if len(entry) > 1 else entry["left"]

    def wording(self, texts: list[str]) -> str:
        if self.shape.letters is None:
            text = self.draw.choice(texts)
            return text.replace(" ", "\n", 1) if self.chance(0.15) else text
        text = ""
        while len(wording(text)) < self.shape.letters:
            text += " " + self.draw.choice(TITLES).upper()
        cut = next(end for end in range(len(text) + 1) if len(wording(text[:end])) == self.shape.letters)
        return text[:cut].strip()

    def plan(self) -> dict:
        draw = self.draw
        plan: dict = {"format": 1}
        if self.chance(0.6):
            plan["size"] = draw.choice(["12 x 12 in", "A4", "8 x 8 in", "300 x 300 mm"])
        if self.chance(0.8):
            plan["ground"] = draw.choice(list(COLOURS))
        kind = draw.choices(["colours", "elements", "both", "none"], [5, 4, 1, 1])[0]
        if kind in ("colours", "both"):
            plan["colours"] = draw.sample(LIVELY, draw.randint(1, 4))
        if kind in ("elements", "both"):
            plan["element"] = [self.element() for _ in range(draw.randint(1, 4))]
        plan["strip"] = [self.strip("title", TITLES)]
        if self.shape.letters is None and self.chance(0.5):
            plan["strip"].append(self.strip("subtitle", SUBTITLES))
        if self.shape.letters is None and self.chance(0.05):
            plan["strip"].append(self.strip("date", SUBTITLES))
        return plan

    def draft(self) -> dict:
        strip: dict = {"role": "title", "wording": self.draw.choice(TITLES)}
        self.fill(strip, 0.6, 0, 0.0)
        if self.chance(0.2):
            strip["stuck"] = 1
        return {"format": 1, "strip": [strip]}

    def element(self) -> dict:
        draw = self.draw
        sides = {key: [f"{draw.randint(low, high)} mm" for _ in "xy"] for key, low, high in
                 (("at", 0, 120), ("size", 20, 180))}  # fmt: skip
        element = {"kind": draw.choice(["photo", "photo", "mat", "paper", "border", "label"]), **sides}
        element["colours"] = self.colours(3)
        if self.chance(0.3):
            element["turn"] = draw.choice([-3, 2, 15])
        if self.chance(0.1):
            element["shape"] = "round"
        return element

    def strip(self, role: str, texts: list[str]) -> dict:
        draw, usual = self.draw, ["plain", "plain", "plain", "words", "lively"]
        strip: dict = {"role": role, "wording": self.wording(texts)}
        strip["mix"] = draw.choice(usual if role == "subtitle" else ["lively", "lively", "lively", "words", "plain"])
        strip["room"] = f"{draw.randint(120, 260)} mm" if self.shape.room else "4000 mm"
        strip["case"] = draw.choices(["any", "as-written", "upper", "lower"], [7, 1, 1, 1])[0]
        if self.chance(0.2):
            strip["forms"] = draw.choice(["tile", "die-cut"])
        if self.chance(0.4):
            low = draw.randint(8, 20)
            strip["tall"] = [f"{low} mm", f"{low + draw.randint(2, 16)} mm"]
        if self.chance(0.4):
            strip["on"] = draw.choice(list(COLOURS))
        if self.chance(0.1):
            strip["accepted"] = draw.sample(["ends", "lead", "scarce", "neighbours", "height", "near", "monotony"], 2)
        rate = draw.choice([0.0, 0.0, 0.15, 0.3])
        self.fill(strip, rate, draw.choice([0.0, 0.0, 0.08]), 0.6)
        if role != "title" and self.chance(0.05):
            strip["stuck"] = 1
        return strip

    def fill(self, strip: dict, stands: float, by_hand: float, pinned: float) -> None:
        """Some letters that stand already, as themselves, no more than there are."""
        strip["letter"] = []
        for slot, (asked, _, _) in enumerate(wording(strip["wording"]), 1):
            have = [name for name, sheet in self.sheets.items() if isinstance(sheet["letters"].get(asked), int)]
            letter = {"slot": slot, "for": asked}
            if self.chance(by_hand):
                colour = {"colour": self.draw.choice(list(COLOURS))} if self.chance(0.7) else {}
                strip["letter"].append({**letter, "by": "hand", "label": "button", "width": "18 mm", **colour})
            elif have and self.chance(stands):
                pin = {"pinned": True} if self.chance(pinned) else {}
                strip["letter"].append({**letter, "chip": f"{self.draw.choice(have)}/{asked}", **pin})
        if not strip["letter"]:
            del strip["letter"]
