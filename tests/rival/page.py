"""The page colours: which there are, which lead, what is the ground's; and what lies under a strip.

Must not know letters.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from colour import Rgb, chroma, difference, hue, lab
from figures import rounded
from folder import Element, Plan, Strip

#: Colours that look like one on a page, in hundredths.
SAME = 600
#: ("page", place), ("neutral", shade) or ("hue", sector).
Family = tuple[str, int]


@dataclass
class Share:
    """How much of the page shows a colour."""

    colour: Rgb
    area: float
    ground: bool
    placed: bool

    def take_in(self, other: Share) -> None:
        self.area += other.area
        self.ground |= other.ground
        self.placed |= other.placed


class Palette:
    """The colours of a page, by rank."""

    def __init__(self, plan: Plan, taste: dict[str, int]) -> None:
        self.taste = taste
        self.colours: list[Rgb] = []
        self.grounds: list[bool] = []
        self.main: int | None = None
        self.second: int | None = None
        if plan.colours:
            self.colours = plan.colours
            self.grounds = [plan.ground is not None and difference(one, plan.ground) <= SAME for one in plan.colours]
            self.main, self.second = 0, 1 if len(plan.colours) > 1 else None
        elif plan.elements:
            self._see(plan)

    def _see(self, plan: Plan) -> None:
        shares = [one for one in _shares(plan) if one.area > 0 or (one.ground and plan.size is None)]
        shares = _joined(_joined(shares, 0), SAME)
        self.colours = [one.colour for one in shares]
        self.grounds = [one.ground for one in shares]
        strong = [
            place
            for place, one in enumerate(shares)
            if one.area > 0 and chroma(one.colour) >= self.taste["colour.neutral"]
        ]
        strong.sort(key=lambda place: (not shares[place].placed, -shares[place].area))
        self.main, self.second = [*strong[:2], None, None][:2]

    def nearest(self, rgb: Rgb) -> tuple[int, int] | None:
        """Difference to the nearest page colour, and its place."""
        return min(((difference(one, rgb), place) for place, one in enumerate(self.colours)), default=None)

    def family(self, colours: list[Rgb]) -> tuple[Family, int | None]:
        """What `colours` belong to, and the difference to the nearest page colour."""
        near = min((self.nearest(one) for one in colours), default=None) if self.colours else None
        if near and near[0] <= self.taste["colour.reach"]:
            return ("page", near[1]), near[0]
        apart = near[0] if near else None
        if chroma(colours[0]) < self.taste["colour.neutral"]:
            lightness = lab(colours[0])[0]
            return ("neutral", 0 if lightness >= 70 else 1 if lightness >= 30 else 2), apart
        return ("hue", int((hue(colours[0]) + 22.5) // 45) % 8), apart

    def is_main(self, colours: list[Rgb]) -> bool:
        """Whether the first of `colours` is the main colour."""
        near = self.nearest(colours[0])
        return bool(near) and near[0] <= self.taste["colour.reach"] and near[1] == self.main

    def variety(self) -> int:
        """How many colours a title should have."""
        want = self.taste["monotony.want"]
        return min(want, self.grounds.count(False)) if self.colours else want


def under(strip: Strip, plan: Plan) -> Rgb | None:
    """What lies under a strip that says so itself or is not placed."""
    if strip.on:
        return strip.on
    if "at" in strip.given and plan.elements:
        raise ValueError("what lies under a strip that is placed among things is not found here; give it `on`")
    return plan.ground


def _shares(plan: Plan) -> list[Share]:
    bare, areas = _areas(plan)
    shares = [Share(plan.ground, bare, ground=True, placed=False)] if plan.ground else []
    for element, area in zip(plan.elements, areas):
        others = len(element.colours) - 1
        for place, one in enumerate(element.colours):
            part = area if not others else area / 2 if place == 0 else area / 2 / others
            shares.append(Share(one, part, ground=False, placed=element.kind != "photo"))
    return shares


def _areas(plan: Plan) -> tuple[float, list[float]]:
    """Square millimetres of bare ground and of each thing that show, counted by the centres of cells of 1 mm."""
    if plan.size is None:
        return 0.0, [one.size[0] / 1e6 * (one.size[1] / 1e6) for one in plan.elements]
    # Centres short of the far edge.
    x, y = (np.arange(rounded(side / 1e6) + 1) + 0.5 for side in plan.size)
    x, y = x[x < plan.size[0] / 1e6], y[y < plan.size[1] / 1e6]
    top = np.zeros((len(y), len(x)), dtype=int)
    for place, element in enumerate(plan.elements, 1):
        top[_covered(element, x[None, :], y[:, None])] = place
    counts = np.bincount(top.ravel(), minlength=len(plan.elements) + 1)
    return float(counts[0]), [float(count) for count in counts[1:]]


def _covered(element: Element, x: np.ndarray, y: np.ndarray) -> np.ndarray:
    half = [side / 2e6 for side in element.size]
    dx, dy = x - element.at[0] / 1e6 - half[0], y - element.at[1] / 1e6 - half[1]
    angle = np.radians(element.turn)
    across = (dx * np.cos(angle) + dy * np.sin(angle)) / half[0]
    down = (dy * np.cos(angle) - dx * np.sin(angle)) / half[1]
    return across**2 + down**2 <= 1 if element.round else (abs(across) <= 1) & (abs(down) <= 1)


def _joined(shares: list[Share], within: int) -> list[Share]:
    """Joined with the first earlier one within a difference; 0: the very same colour. The most seen first."""
    joined: list[Share] = []
    for share in shares:
        same = (one for one in joined if one.colour == share.colour)
        near = (one for one in joined if within and difference(one.colour, share.colour) <= within)
        found = next(near if within else same, None)
        if found:
            found.take_in(share)
        else:
            joined.append(Share(**vars(share)))
    return joined if within else sorted(joined, key=lambda one: -one.area)
