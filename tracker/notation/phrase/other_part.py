"""Another part of the pattern named in a row: "As first leg", "Rep Rnds 1-8 of Head", "work as for left mitten".

Names of parts come in as they stand above their rows; the one that the cursor stands on comes out.
"""

from tracker.expressions import expression
from tracker.notation.phrase.cursor import Cursor
from tracker.notation.scan import T
from tracker.notation.tree import AsFar

_AND = expression(r"\s+(?:and|&|/)\s+", holds=[" and ", "&", "/"])
"""What parts are named with where one text tells two of them."""


def part_here(c: Cursor) -> str | None:
    """Takes "of the first leg", "for Head": the part as it is called; None, with the cursor where it was, for none."""
    start = c.i
    while c.take_any("of", "for", "from", "as", "the", "in", "on"):
        pass
    longest = 0
    found: str | None = None
    if c.text() == "first" and c.text(1) == "one":
        # "work as the first one": as "First leg"
        found = next((part for part in reversed(c.context.parts) if part.lower().startswith("first ")), None)
        longest = 2 if found is not None else 0
    for part in c.context.parts:
        name = part.split("(")[0].lower()
        # "Back and Front (both alike)" is also called "back"
        for words in (name.split(), *(one.split() for one in _AND.split(name))):
            n = len(words)
            # but not "Side 2" for "Side"; "of back 3 times" names it
            longer = c.kind(n) is T.HYPHEN or c.kind(n) is T.NUMBER and c.text(n + 1) not in ("times", "more")
            if n > longest and [c.text(k) for k in range(n)] == words and not longer:
                longest, found = n, part
    if found is None:
        c.i = start
        return None
    c.i += longest
    return found


def as_far_as(c: Cursor) -> int | None:
    """Takes "through Rnd 15", "to end of Rnd 8" behind a part: the number of the last row that is worked so."""
    i = c.i
    rows = ("row", "rnd", "round", "r")
    if c.text() in ("until", "for") and (many := c.value(1)) is not None and c.text(2).rstrip("s") in rows:
        # "until 6 rows have been worked"
        c.i += 3
        while c.take_any(
            "have", "are", "has", "been", "is", "worked", "completed", "complete", "done", "in", "all"
        ):
            pass
        return many
    if c.take_any("through", "thru", "to", "until", "up"):
        while c.take_any("to", "the", "end", "of", "including"):
            pass
        if c.take_any(*rows) and c.value() is not None:
            c.i += 1
            return c.value(-1)
    c.i = i
    return None


def as_far_as_heading(c: Cursor) -> AsFar | None:
    """Takes "to armhole shaping", "until the neck shaping is completed" behind a part: how far it is worked so."""
    i = c.i
    through = False
    if c.text() == "as" and c.text(1) == "far":
        c.i += 2
    if c.take_any("to", "until", "till", "up", "as"):
        while c.take_any(
            "to", "the", "as", "start", "beg", "beginning", "end", "of", "you", "reach", "begin"
        ):
            through |= c.text(-1) == "end"
        at = c.i
        while c.text() in _SHAPED or c.text() in _SHAPING or c.text() in ("and", "the", "&"):
            c.i += 1
        names = shaping_named(" ".join(c.text(k) for k in range(at - c.i, 0)))
        if names and c.text() in ("is", "are", "has", "have"):
            while c.take_any("is", "are", "has", "have", "been"):
                pass
            through = bool(c.take_any("complete", "completed", "finished", "worked", "done"))
            names = names if through or c.take_any("reached") else frozenset()
        elif names:
            through |= bool(c.take_any("complete", "completed"))
        if names and c.kind() in (T.END, T.PERIOD, T.COMMA, T.SEMICOLON, T.DASH, T.OPEN):
            return AsFar(names, through)
    c.i = i
    return None


_SHAPING = frozenset("shape shaping shapings divide dividing".split())
_SHAPED = {
    "armhole": "armhole", "armholes": "armhole", "underarm": "armhole", "underarms": "armhole",
    "neck": "neck", "necks": "neck", "neckline": "neck",
    "shoulder": "shoulder", "shoulders": "shoulder",
    "side": "side", "sides": "side",
    "raglan": "raglan", "raglans": "raglan", "yoke": "yoke",
    "cap": "cap", "top": "cap", "crown": "crown", "waist": "waist", "toe": "toe",
}  # fmt: skip
"""What of a garment is shaped, by the words for it."""
_NOT_NAMED = frozenset(
    "shape shaping shapings divide dividing for the and of & first second right left side work".split()
)


def shaping_named(heading: str) -> frozenset[str]:
    """What a heading or a few words say is shaped; nothing where they say something else.

    >>> sorted(shaping_named("Shape neck and shoulders")), sorted(shaping_named("Neckband"))
    (['neck', 'shoulder'], [])
    """
    words = [word for word in _WORDS.split(heading.lower()) if word and word not in _NOT_NAMED]
    known = [_SHAPED[word] for word in words if word in _SHAPED]
    return frozenset(known) if len(known) == len(words) else frozenset()


_WORDS = expression(r"[^a-z&]+")
