"""Tables that the rules of the score name but do not spell out, copied as data.

From `src/letter/stand_in.rs` (which character serves for which), `src/letter/frequency.rs` (how often English needs a
letter), `src/checks/taste.rs` (thresholds and what they usually are) and, for the proportions of letters, the bounding
boxes in the font file DejaVu Sans Bold 2.37 (units of 2048 to the em; read with fontTools). Must not know any rule.
"""

HALF, QUARTER, UPRIGHT = 180, 90, 0


def _rows(kind: str, turn: int, pairs: str) -> list[tuple[str, str, str, int]]:
    return [(pair[0], pair[1], kind, turn) for pair in pairs.split()]


#: Wanted, used, kind, turn. The other case goes before these and is no table.
STAND_INS = (
    _rows("turned", HALF, "MW WM mw wm nu un bq qb dp pd 69 96 AV VA")
    + _rows("turned", QUARTER, "NZ ZN -I -l")
    + _rows("turned", UPRIGHT, "',")
    + _rows("look-alike", UPRIGHT, "O0 0O Il lI I1 1I l1 1l S5 5S Z2 2Z B8 8B O♥ O★ O○ o♥ o★ o○")
    + _rows("trimmed", UPRIGHT, "OQ PR FE CG PB")
)
#: Letters whose two cases have one shape.
SAME_SHAPE = "cosvwxz"
ASCENDERS, DESCENDERS = "bdfhklti" + "j", "gpqy"
#: Marks too small to be compared by height.
EXEMPT = ".,-':;\"·"

#: A to Z, thousandths of a per cent of English text.
SHARES = (
    8167, 1492, 2782, 4253, 12702, 2228, 2015, 6094, 6966, 153, 772, 4025, 2406,
    6749, 7507, 1929, 95, 5987, 6327, 9056, 2758, 978, 2360, 150, 1974, 74,
)  # fmt: skip

CAP, X_HEIGHT, ASCENDER = 1493, 1120, 1556
#: Width of the ink.
WIDTHS = {
    "A": 1565, "B": 1229, "C": 1270, "D": 1405, "E": 1061, "F": 1039, "G": 1428, "H": 1338, "I": 385, "J": 688,
    "K": 1461, "L": 1061, "M": 1661, "N": 1338, "O": 1536, "P": 1229, "Q": 1536, "R": 1348, "S": 1178, "T": 1376,
    "U": 1287, "V": 1565, "W": 2134, "X": 1499, "Y": 1523, "Z": 1301, "a": 1133, "b": 1202, "c": 989, "d": 1202,
    "e": 1202, "f": 870, "g": 1202, "h": 1126, "i": 358, "j": 598, "k": 1229, "l": 358, "m": 1802, "n": 1126,
    "o": 1231, "p": 1202, "q": 1202, "r": 832, "s": 1016, "t": 905, "u": 1126, "v": 1274, "w": 1749, "x": 1259,
    "y": 1273, "z": 1002, "0": 1229, "1": 1053, "2": 1085, "3": 1125, "4": 1239, "5": 1124, "6": 1188, "7": 1125,
    "8": 1173, "9": 1188, "&": 1577, "!": 360, "?": 914, ".": 360, ",": 460, "'": 237, "-": 628, ":": 361,
    "♥": 1473, "★": 1570, "○": 1563, "É": 1061, "é": 1202,
}  # fmt: skip

#: Key of `taste.toml`: measure, usual value in tenths of points, hundredths, nanometres or whole numbers.
TASTE = {
    "missing.points": ("points", 2000), "height.alike": ("ratio", 115), "height.within": ("length", 1_500_000),
    "height.slope": ("ratio", 8000), "height.most": ("points", 400), "colour.reach": ("ratio", 1500),
    "colour.neutral": ("ratio", 1200), "stray.points": ("points", 40), "stray.most": ("points", 300),
    "pale.enough": ("ratio", 300), "pale.faint": ("ratio", 150), "pale.slope": ("ratio", 200),
    "pale.most": ("points", 120), "stand-in.turned": ("points", 30), "stand-in.look-alike": ("points", 40),
    "stand-in.other-case": ("points", 20), "stand-in.trimmed": ("points", 80), "scarce.last": ("points", 40),
    "scarce.two": ("points", 20), "scarce.three": ("points", 13), "scarce.band": ("ratio", 125),
    "near.most": ("points", 15), "form.points": ("points", 100), "ends.points": ("points", 60),
    "anchor.points": ("points", 40), "second.points": ("points", 20), "lead.points": ("points", 40),
    "monotony.want": ("count", 3), "monotony.points": ("points", 80), "dominance.points": ("points", 60),
    "neighbours.in-word": ("points", 30), "neighbours.across": ("points", 10), "fragment.points": ("points", 20),
    "joined.points": ("points", 100), "small.ratio": ("ratio", 60),
    "adrift.points": ("points", 200), "trapped.points": ("points", 10), "cover.points": ("points", 10),
    "edge.points": ("points", 40), "overlap.points": ("points", 10), "off.points": ("points", 600),
    "margin.points": ("points", 30),
}  # fmt: skip
