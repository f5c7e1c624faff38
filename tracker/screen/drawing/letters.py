"""Big letters for a terminal: words to be read from two metres, drawn in pixels of our own.

Comes in: a text and the room in cells. Goes out: rows of block characters in the largest of three sizes
that fits, or None when none does. A text with a character that is not here
gives None.

A letter is eight pixels high: two above, five of body, one below. Rows are parted by "/", and written from the row its
name says; what is not written is empty.
"""

from functools import cache

from tracker.records import dataclass

HIGH = 8
_GAP = 1
_SPACE = 3

_BODY = {  # rows 2 to 7
    "a": ".xx./...x/.xxx/x..x/.xxx", "c": ".xxx/x.../x.../x.../.xxx", "e": ".xx./x..x/xxxx/x.../.xxx",
    "g": ".xxx/x..x/x..x/.xxx/...x/xxx.", "m": "xx.x./x.x.x/x.x.x/x.x.x/x.x.x",
    "n": "xxx./x..x/x..x/x..x/x..x",
    "o": ".xx./x..x/x..x/x..x/.xx.", "p": "xxx./x..x/x..x/xxx./x.../x...",
    "q": ".xxx/x..x/x..x/.xxx/...x/...x",
    "r": "x.xx/xx../x.../x.../x...", "s": ".xxx/x.../.xx./...x/xxx.", "u": "x..x/x..x/x..x/x..x/.xxx",
    "v": "x...x/x...x/.x.x./.x.x./..x..", "w": "x...x/x...x/x.x.x/x.x.x/.x.x.",
    "x": "x...x/.x.x./..x../.x.x./x...x",
    "y": "x..x/x..x/x..x/.xxx/...x/xxx.", "z": "xxxx/...x/.xx./x.../xxxx",
    "-": ".../.../xxx", "+": ".../.x./xxx/.x.", "×": ".../x.x/.x./x.x", "=": ".../xxx/.../xxx",
    ":": "./x/./x", ".": "././././x",
    ",": "../../../.x/.x/x.", ";": "../.x/../.x/.x/x.",
}  # fmt: skip
_TALL = {  # rows 0 to 7
    "b": "x.../x.../xxx./x..x/x..x/x..x/xxx.", "d": "...x/...x/.xxx/x..x/x..x/x..x/.xxx",
    "f": ".xx/x../xxx/x../x../x../x..",
    "h": "x.../x.../xxx./x..x/x..x/x..x/x..x", "i": "x/./x/x/x/x/x",
    "j": "..x/.../..x/..x/..x/..x/..x/xx.",
    "k": "x.../x.../x..x/x.x./xx../x.x./x..x", "l": "x./x./x./x./x./x./.x",
    "t": ".../.x./xxx/.x./.x./.x./..x",
    "0": ".xx./x..x/x..x/x..x/x..x/x..x/.xx.", "1": ".x./xx./.x./.x./.x./.x./xxx",
    "2": ".xx./x..x/...x/..x./.x../x.../xxxx",
    "3": "xxx./...x/...x/.xx./...x/...x/xxx.", "4": "...x./..xx./.x.x./x..x./xxxxx/...x./...x.",
    "5": "xxxx/x.../xxx./...x/...x/x..x/.xx.",
    "6": ".xx./x.../x.../xxx./x..x/x..x/.xx.", "7": "xxxx/...x/...x/..x./..x./.x../.x..",
    "8": ".xx./x..x/x..x/.xx./x..x/x..x/.xx.",
    "9": ".xx./x..x/x..x/.xxx/...x/...x/.xx.", "(": ".x/x./x./x./x./x./.x", ")": "x./.x/.x/.x/.x/.x/x.",
    "[": "xx/x./x./x./x./x./xx",
    "]": "xx/.x/.x/.x/.x/.x/xx", "{": ".xx/.x./.x./x../.x./.x./.xx", "}": "xx./.x./.x./..x/.x./.x./xx.",
    "*": "x.x/.x./x.x", "/": "..x/..x/.x./.x./.x./x../x..",
    "'": "x/x", "\"": "x.x/x.x", "?": ".xx./x..x/...x/..x./..x./..../..x.", "!": "x/x/x/x/x/./x",
    "&": ".x../x.x./.x../x.x./x..x/x.x./.x.x",
}  # fmt: skip
_CAPITAL = {  # rows 0 to 6
    "A": ".xx./x..x/x..x/xxxx/x..x/x..x/x..x", "B": "xxx./x..x/x..x/xxx./x..x/x..x/xxx.",
    "C": ".xx./x..x/x.../x.../x.../x..x/.xx.", "D": "xxx./x..x/x..x/x..x/x..x/x..x/xxx.",
    "E": "xxxx/x.../x.../xxx./x.../x.../xxxx", "F": "xxxx/x.../x.../xxx./x.../x.../x...",
    "G": ".xxx/x.../x.../x.xx/x..x/x..x/.xxx", "H": "x..x/x..x/x..x/xxxx/x..x/x..x/x..x",
    "I": "xxx/.x./.x./.x./.x./.x./xxx", "J": "..xx/...x/...x/...x/...x/x..x/.xx.",
    "K": "x..x/x..x/x.x./xx../x.x./x..x/x..x", "L": "x.../x.../x.../x.../x.../x.../xxxx",
    "M": "x...x/xx.xx/x.x.x/x.x.x/x...x/x...x/x...x", "N": "x...x/xx..x/xx..x/x.x.x/x..xx/x..xx/x...x",
    "O": ".xx./x..x/x..x/x..x/x..x/x..x/.xx.", "P": "xxx./x..x/x..x/xxx./x.../x.../x...",
    "Q": ".xx./x..x/x..x/x..x/x..x/x.x./.x.x", "R": "xxx./x..x/x..x/xxx./x.x./x..x/x..x",
    "S": ".xxx/x.../x.../.xx./...x/...x/xxx.", "T": "xxxxx/..x../..x../..x../..x../..x../..x..",
    "U": "x..x/x..x/x..x/x..x/x..x/x..x/.xx.", "V": "x...x/x...x/x...x/.x.x./.x.x./.x.x./..x..",
    "W": "x...x/x...x/x...x/x.x.x/x.x.x/xx.xx/x...x", "X": "x...x/x...x/.x.x./..x../.x.x./x...x/x...x",
    "Y": "x...x/x...x/.x.x./..x../..x../..x../..x..", "Z": "xxxx/...x/..x./..x./.x../x.../xxxx",
}  # fmt: skip
_SAME = {"–": "-", "—": "-", "‑": "-", "’": "'", "‘": "'", "“": '"', "”": '"'}

_QUARTERS = " ▘▝▀▖▌▞▛▗▚▐▜▄▙▟█"
"""By the sum of upper left 1, upper right 2, lower left 4, lower right 8."""
_HALVES = " ▀▄█"


@dataclass(frozen=True, slots=True)
class Size:
    """How many cells a pixel takes."""

    across: int
    """Cells for two pixels."""
    down: int
    """Rows for two pixels."""

    @property
    def rows(self) -> int:
        """Rows of one line of letters."""
        return HIGH // 2 * self.down


SIZES = (Size(4, 2), Size(2, 1), Size(1, 1))
"""The largest first."""


@cache
def pixels(letter: str) -> tuple[str, ...] | None:
    """The eight rows of a letter; None for one that is not drawn here."""
    letter = _SAME.get(letter, letter)
    if letter == " ":
        return ("." * (_SPACE - _GAP),) * HIGH
    drawn, above = (_BODY[letter], 2) if letter in _BODY else ((_TALL | _CAPITAL).get(letter, ""), 0)
    if not drawn:
        return None
    rows = drawn.split("/")
    wide = max(map(len, rows))
    empty = "." * wide
    rows = [row.ljust(wide, ".") for row in rows]
    return tuple([empty] * above + rows + [empty] * (HIGH - above - len(rows)))


def big(text: str, width: int, height: int, sizes: tuple[Size, ...] = SIZES) -> tuple[str, ...] | None:
    """The text as rows of blocks in the largest of the sizes that fits the room, or None.

    >>> print("\\n".join("|" + row.rstrip() for row in big("dc 2", 12, 4)))
    | ▐    ▗▀▖
    |▞▜▗▀▘  ▗▘
    |▌▐▐   ▗▘
    |▝▀ ▀▘ ▝▀▘
    """
    if any(pixels(letter) is None for letter in text):
        return None
    for size in sizes:
        lines = _lines(text, width * 2 // size.across, height // size.rows)
        if lines:
            # A row between two lines, where there is one to spare, keeps a g from standing on a d.
            gap = len(lines) * (size.rows + 1) - 1 <= height
            rows = [row for line in lines for row in (*_drawn(line, size), *([""] if gap else []))]
            return tuple(rows[:-1] if gap else rows)
    return None


def wide(text: str) -> int:
    """Pixels that a text takes in one line."""
    return sum(len((pixels(letter) or ("",))[0]) + _GAP for letter in text) - _GAP if text else 0


def _lines(text: str, across: int, most: int) -> list[str]:
    """The text broken at spaces; empty when it does not fit."""
    out: list[str] = []
    for word in text.split():
        if wide(word) > across:
            return []
        if out and wide(f"{out[-1]} {word}") <= across:
            out[-1] += f" {word}"
        else:
            out.append(word)
    return out if len(out) <= most else []


def _drawn(line: str, size: Size) -> list[str]:
    rows = [
        "".join(row + "." for row in column)
        for column in zip(*(pixels(letter) or () for letter in line), strict=True)
    ]
    if size.across == 4:  # a pixel is two cells of one row
        return ["".join("██" if dot == "x" else "  " for dot in row) for row in rows]
    out = []
    for top, bottom in zip(rows[::2], rows[1::2], strict=True):
        if size.across == 2:
            out.append(
                "".join(_HALVES[(a == "x") + 2 * (b == "x")] for a, b in zip(top, bottom, strict=True))
            )
            continue
        top, bottom = top + "." * (len(top) % 2), bottom + "." * (len(bottom) % 2)
        out.append(
            "".join(
                _QUARTERS[
                    (top[k] == "x")
                    + 2 * (top[k + 1] == "x")
                    + 4 * (bottom[k] == "x")
                    + 8 * (bottom[k + 1] == "x")
                ]
                for k in range(0, len(top), 2)
            )
        )
    return out
