"""A plain alphabet of our own, so that a picture shows its words on a machine that has no fonts.

Words come in, one path of strokes goes out. Letters with accents lose them; a sign that is not in the table becomes a
small box, so that nothing vanishes without being seen.
"""

import unicodedata
from functools import lru_cache

from tracker.charts.drawing import Path, Segment

CAPITAL = 6
"""Height of a capital in the units of the table."""
_GAP = 1.7
"""Between two letters."""
_BLANK = 3.0

# A stroke is a row of points of two figures: x from 0, y from 0 with the line at 2, small letters up to 6,
# capitals to 8.
_TABLE = {
    "A": "02 38 62|14 54",
    "B": "02 08 38 47 46 35 05|35 54 53 42 02",
    "C": "57 48 18 07 03 12 42 53",
    "D": "02 08 38 56 54 32 02",
    "E": "42 02 08 48|05 35",
    "F": "02 08 48|05 35",
    "G": "57 48 18 07 03 12 42 53 55 35",
    "H": "02 08|52 58|05 55",
    "I": "02 22|08 28|12 18",
    "J": "03 12 22 33 38",
    "K": "02 08|48 04|15 52",
    "L": "08 02 42",
    "M": "02 08 35 68 62",
    "N": "02 08 52 58",
    "O": "04 06 17 28 38 47 56 54 43 32 22 13 04",
    "P": "02 08 38 57 56 45 05",
    "Q": "04 06 17 28 38 47 56 54 43 32 22 13 04|34 62",
    "R": "02 08 38 57 56 45 05|35 52",
    "S": "47 38 18 07 06 15 35 44 43 32 12 03",
    "T": "08 48|28 22",
    "U": "08 03 12 42 53 58",
    "V": "08 32 68",
    "W": "08 22 46 62 88",
    "X": "02 58|08 52",
    "Y": "08 35 68|35 32",
    "Z": "08 58 02 52",
    "a": "46 42|45 36 16 05 03 12 32 43",
    "b": "08 02|05 16 36 45 43 32 12 03",
    "c": "45 36 16 05 03 12 32 43",
    "d": "48 42|45 36 16 05 03 12 32 43",
    "e": "04 44 45 36 16 05 03 12 32 43",
    "f": "38 28 17 12|06 36",
    "g": "46 41 30 10 01|45 36 16 05 03 12 32 43",
    "h": "08 02|05 16 36 45 42",
    "i": "06 02|08 08",
    "j": "16 11 00|18 18",
    "k": "08 02|46 04|15 42",
    "l": "08 03 12",
    "m": "02 06|05 16 26 35 32|35 46 56 65 62",
    "n": "02 06|05 16 36 45 42",
    "o": "03 05 16 36 45 43 32 12 03",
    "p": "00 06|05 16 36 45 43 32 12 03",
    "q": "40 46|45 36 16 05 03 12 32 43",
    "r": "02 06|05 16 36",
    "s": "45 36 16 05 14 34 43 32 12 03",
    "t": "18 13 22 32|06 36",
    "u": "06 03 12 32 43|46 42",
    "v": "06 22 46",
    "w": "06 12 35 52 66",
    "x": "02 46|06 42",
    "y": "06 22|46 10 00",
    "z": "06 46 02 42",
    "0": "03 07 18 38 47 43 32 12 03",
    "1": "16 28 22|12 32",
    "2": "07 18 38 47 46 02 42",
    "3": "07 18 38 47 46 35 15|35 44 43 32 12 03",
    "4": "32 38 04 44",
    "5": "48 08 05 35 44 43 32 12 03",
    "6": "47 38 18 07 03 12 32 43 44 35 15 04",
    "7": "08 48 12",
    "8": "15 06 07 18 38 47 46 35 15 04 03 12 32 43 44 35",
    "9": "03 12 32 43 47 38 18 07 06 15 35 46",
    ".": "02 02",
    ",": "12 01",
    ":": "02 02|05 05",
    ";": "15 15|12 01",
    "-": "04 34",
    "(": "28 06 04 22",
    ")": "08 26 24 02",
    "[": "28 08 02 22",
    "]": "08 28 22 02",
    "/": "02 48",
    "+": "04 44|26 22",
    "=": "05 45|03 43",
    "'": "08 06",
    '"': "08 06|28 26",
    "!": "08 04|02 02",
    "?": "07 18 38 47 46 24|22 22",
    "&": "52 06 07 18 28 37 36 04 03 12 22 54",
    "#": "12 18|32 38|04 44|06 46",
    "*": "25 28|04 46|44 06",
    "%": "02 58|08 18 17 07 08|43 53 52 42 43",
    "<": "46 04 42",
    ">": "06 44 02",
    "→": "04 64|46 64 42",
    "←": "64 04|26 04 22",
    "↑": "22 28|06 28 46",
    "_": "02 42",
    "■": "02 07 57 52 02 07 52|02 57",
    "□": "02 07 57 52 02",
}
_SAME = {
    "’": "'",
    "‘": "'",
    "“": '"',
    "”": '"',
    "–": "-",
    "—": "-",
    "‑": "-",
    "×": "x",
    "⁄": "/",
    "·": "-",
    "…": "...",
}
_UNKNOWN = "02 08 48 42 02"


def plain(text: str) -> str:
    """The words in letters of the table: accents taken off, quotation marks and dashes made plain."""
    spelled = "".join(_SAME.get(letter, letter) for letter in text)
    apart = unicodedata.normalize("NFKD", spelled)
    return "".join(_SAME.get(letter, letter) for letter in apart if not unicodedata.combining(letter))


@lru_cache(maxsize=512)
def _strokes(letter: str) -> tuple[tuple[tuple[int, int], ...], ...]:
    drawn = _TABLE.get(letter, _UNKNOWN)
    return tuple(
        tuple((int(point[0]), int(point[1])) for point in stroke.split()) for stroke in drawn.split("|")
    )


def _advance(letter: str) -> float:
    if letter.isspace():
        return _BLANK
    return max(x for stroke in _strokes(letter) for x, _ in stroke) + _GAP


def length_of(text: str, size: float) -> float:
    """How long the words are, with capitals `size` high."""
    return max(0.0, sum(map(_advance, plain(text))) - _GAP) * size / CAPITAL


def path_of(text: str, x: float, y: float, size: float, anchor: str = "start") -> Path:
    """The strokes of the words, standing on y."""
    unit = size / CAPITAL
    at = x - {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor] * length_of(text, size)
    out: list[Segment] = []
    for letter in plain(text):
        if not letter.isspace():
            for stroke in _strokes(letter):
                points = [(at + px * unit, y - (py - 2) * unit) for px, py in stroke]
                if len(points) == 2 and points[0] == points[1]:
                    # A dot: a stroke without length is drawn by some media and dropped by others.
                    points[1] = (points[1][0] + 0.05 * unit, points[1][1])
                out.extend(("L" if nth else "M", point) for nth, point in enumerate(points))
        at += _advance(letter) * unit
    return tuple(out)
