"""Definitions that only say what the trade means anyway, or which stitch "inc" doubles and "dec" works together."""

import re

from tracker.expressions import expression
from tracker.notation.phrase.cursor import Context, Cursor
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.scan import T, Token
from tracker.trade.spellings import stitch_named
from tracker.trade.stitches import STITCHES, parts_of


def increase(keys: list[str], body: str, tokens: list[Token], context: Context) -> bool:
    """True for what defines "inc" or "dec"; the context then knows which stitch is meant."""
    low = body.lower()
    inc = bool({"inc", "increase"} & set(keys))
    dec = bool({"dec", "decrease", "invdec", "invisibledecrease"} & set(keys))
    if not (inc or dec):
        return False
    c = Cursor(tokens, context)
    number = None
    name = ""
    while c.kind() is not T.END:
        if number is None and c.value() is not None:
            number = c.value()
        stitch = stitch_here(c)
        if stitch is not None and stitch.name not in ("inc", "dec", "slst") and stitch.special is None:
            name = stitch.name.split(":")[-1]
            break
        c.i += 1
    if inc:
        context.increase = parts_of(name)[1] if name else context.increase
        context.increase_count = number if number and 2 <= number <= 5 and "in" in low else 2
    else:
        _, base, together = parts_of(name)
        if name and base in ("sc", "hdc", "dc", "tr"):
            context.decrease = base
        if together > 1:
            context.decrease_count = together
        elif number == 3:
            context.decrease_count = 3
    return True


_ABBREVIATIONS = frozenset(
    "ch sk sp rep tch blo flo mr fo beg rs ws yo rnd st sts pm m tog lp lps sl".split()
)
"""What every list of abbreviations spells out."""


_BELOW = expression(r"\brows?\s+(?:below|down)\b", re.IGNORECASE, ["below", "down"])


def first_of_row(foundation: str, told: str, uk: bool) -> str:
    """The stitch that a foundation stitch's name stands for, where the pattern gives that name to a row's first stitch.

    "FDC (first double crochet): pull up a loop …", "Fdc = first dc, …"; "" for every other definition.
    """
    plain = foundation[1:]
    if foundation[:1] != "f" or plain not in STITCHES or "foundation" in told.lower():
        return ""
    hit = _FIRST_STITCH.search(told)
    named = stitch_named(hit["stitch"], uk) if hit is not None else None
    # an "FDC" of British terms is short for another foundation stitch than the treble it stands for
    return named.name if named is not None and named.name in STITCHES else ""


_FIRST_STITCH = expression(
    r"\b(?:first|beg(?:inning)?|starting|standing|chain-?less)\s+"
    r"(?P<stitch>(?:half\s+)?(?:single|double|treble|triple)(?:\s+crochet)?|sc|hdc|dc|htr|tr)\b",
    re.IGNORECASE,
)


def same_stitch(name: str, abbreviations: list[str], text: str, body: str, context: Context) -> bool:
    """True for lines of a list that only spell out what the trade means: "hdc = half double crochet"."""
    plain = stitch_named(name, context.uk)
    if plain is not None and plain.name.startswith("l") and _BELOW.search(body):
        # "LDC = dc in the unworked sc three rows below": no linked double crochet
        return False
    if name == "m" and "marker" not in body.lower():
        # "M = mosaic stitch: …"
        return False
    if plain is None:
        return name in _ABBREVIATIONS or name in ("sl st", "3rd loop", "magic ring", "magic circle")
    if first_of_row(plain.name, text, context.uk):
        return False
    if plain.name in STITCHES and STITCHES[plain.name].closes:
        return False
    if plain.name in ("picot", "spsc", "spdc", "tile"):
        return plain.name.startswith("sp")
    spelled = stitch_named(body.strip(" .;"), context.uk)
    if spelled is not None and spelled.name == plain.name:
        return True
    return parts_of(plain.name)[1] in STITCHES
