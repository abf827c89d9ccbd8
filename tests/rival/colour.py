"""Colours: names, CIE L*a*b*, the CIEDE2000 difference and the contrast, in hundredths where they are compared.

sRGB by IEC 61966-2-1 with D65 (seven-digit matrix as published by B. Lindbloom); CIEDE2000 by Sharma, Wu and Dalal,
"The CIEDE2000 color-difference formula", 2005; contrast by WCAG 2 with the luminance row of the same matrix, which the
standard gives to four digits. Names of CSS from the package `webcolors`. Must not know what is coloured.
"""

from __future__ import annotations

from functools import cache
from math import atan2, cos, degrees, exp, hypot, radians, sin, sqrt

import webcolors

from figures import rounded

Rgb = tuple[int, int, int]
MATRIX = ((0.4124564, 0.3575761, 0.1804375), (0.2126729, 0.7151522, 0.0721750), (0.0193339, 0.1191920, 0.9503041))
WHITE = (0.95047, 1.0, 1.08883)


def colour(name: str, own: dict[str, str]) -> Rgb:
    """The colour called `name`: the owner's own name, `#rrggbb`, `#rgb` or a name of CSS."""
    text = own.get(name, name).strip()
    found = webcolors.hex_to_rgb(text) if text.startswith("#") else webcolors.name_to_rgb(text)
    return (found.red, found.green, found.blue)


def _linear(channel: int) -> float:
    value = channel / 255
    return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4


def _xyz(rgb: Rgb) -> list[float]:
    linear = [_linear(channel) for channel in rgb]
    return [sum(part * value for part, value in zip(row, linear)) for row in MATRIX]


@cache
def lab(rgb: Rgb) -> tuple[float, float, float]:
    """CIE L*a*b*."""

    def bent(value: float) -> float:
        return value ** (1 / 3) if value > (6 / 29) ** 3 else value * 841 / 108 + 4 / 29

    x, y, z = (bent(value / white) for value, white in zip(_xyz(rgb), WHITE))
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def chroma(rgb: Rgb) -> int:
    """C* in hundredths."""
    _, a, b = lab(rgb)
    return rounded(hypot(a, b) * 100)


def hue(rgb: Rgb) -> float:
    """The hue angle in degrees, 0 to 360."""
    _, a, b = lab(rgb)
    return degrees(atan2(b, a)) % 360


@cache
def difference(one: Rgb, other: Rgb) -> int:
    """CIEDE2000 in hundredths."""
    return rounded(ciede2000(lab(one), lab(other)) * 100)


def ciede2000(one: tuple[float, float, float], other: tuple[float, float, float]) -> float:
    """The difference of two colours of L*a*b*, all weights 1."""
    (l1, a1, b1), (l2, a2, b2) = one, other
    mean7 = ((hypot(a1, b1) + hypot(a2, b2)) / 2) ** 7
    stretch = 1 + 0.5 * (1 - sqrt(mean7 / (mean7 + 25.0**7)))
    a1, a2 = a1 * stretch, a2 * stretch
    c1, c2 = hypot(a1, b1), hypot(a2, b2)
    h1, h2 = (degrees(atan2(b, a)) % 360 if a or b else 0.0 for a, b in ((a1, b1), (a2, b2)))
    grey = c1 * c2 == 0
    turn = 0.0 if grey else (h2 - h1 + 180) % 360 - 180
    if turn == -180 and h2 > h1:
        turn = 180.0
    middle = h1 + h2 if grey else (h1 + h2 + (360 if abs(h1 - h2) > 180 else 0)) / 2
    dl, dc, dh = l2 - l1, c2 - c1, 2 * sqrt(c1 * c2) * sin(radians(turn) / 2)
    light, strong = (l1 + l2) / 2, (c1 + c2) / 2
    t = 1 - 0.17 * cos(radians(middle - 30)) + 0.24 * cos(radians(2 * middle))
    t += 0.32 * cos(radians(3 * middle + 6)) - 0.20 * cos(radians(4 * middle - 63))
    sl = 1 + 0.015 * (light - 50) ** 2 / sqrt(20 + (light - 50) ** 2)
    sc, sh = 1 + 0.045 * strong, 1 + 0.015 * strong * t
    bend = 30 * exp(-(((middle - 275) / 25) ** 2))
    rt = -2 * sqrt(strong**7 / (strong**7 + 25.0**7)) * sin(radians(2 * bend))
    return sqrt((dl / sl) ** 2 + (dc / sc) ** 2 + (dh / sh) ** 2 + rt * (dc / sc) * (dh / sh))


@cache
def contrast(one: Rgb, other: Rgb) -> int:
    """The contrast ratio in hundredths."""
    dark, light = sorted(_xyz(rgb)[1] for rgb in (one, other))
    return rounded((light + 0.05) / (dark + 0.05) * 100)
