"""Lengths in whole nanometres, points in whole tenths, ratios and colour differences in whole hundredths.

Each figure is rounded once, half away from zero. Must not know what is measured or what it costs.
"""

from __future__ import annotations

import math
import re
from fractions import Fraction

PARTS = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
#: In nanometres; an inch is 25.4 mm exactly.
UNITS = {"mm": 1_000_000, "cm": 10_000_000, "in": 25_400_000, '"': 25_400_000}
#: Width and height in nanometres.
PAGES = {
    "a4": (210_000_000, 297_000_000),
    "a5": (148_000_000, 210_000_000),
    "letter": (215_900_000, 279_400_000),
}


def rounded(value: float | Fraction) -> int:
    """To the nearest whole number, half away from zero."""
    whole = math.floor(abs(value))
    whole += abs(value) - whole >= Fraction(1, 2)
    return whole if value >= 0 else -whole


def length(given: str | float, unit: str = "mm") -> int:
    """A length as files spell it: `12 mm`, `1.2 cm`, `1/2 in`, `1-1/4 in`, `1¼"`, or a bare number in `unit`."""
    text = str(given).strip()
    for name in UNITS:
        if text.endswith(name):
            text, unit = text[: -len(name)].strip(), name
            break
    for sign, plain in PARTS.items():
        text = text.replace(sign, " " + plain)
    negative = text.startswith("-")
    pieces = re.split(r"[\s-]+", text.lstrip("-").strip())
    size = sum(Fraction(piece) for piece in pieces) * UNITS[unit]
    return rounded(-size if negative else size)


def page_size(text: str, unit: str = "mm") -> tuple[int, int]:
    """Width and height of a page: `12 x 12 in`, `A4`; the unit of the second side serves both."""
    named = PAGES.get(text.strip().lower())
    if named:
        return named
    width, height = re.split("[xX×]", text)
    stated = next((name for name in UNITS if height.strip().endswith(name)), unit)
    return length(width, stated), length(height, unit)


def scaled(nm: int, by: float) -> int:
    """A length times a figure, in whole nanometres."""
    return rounded(nm * by)


def ratio(a: int, b: int) -> int:
    """The larger over the smaller, in hundredths."""
    small, large = sorted((a, b))
    return (200 * large + small) // (2 * small)


def weighted(weight: int, amount: int) -> int:
    """Hundredths of a point times hundredths of something, in tenths of a point."""
    product = weight * amount
    return (product + 500) // 1000 if product >= 0 else -((500 - product) // 1000)
