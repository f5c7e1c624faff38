"""The key of a stitch chart, and its signs in plain letters. Stitches drawn come in; entries and letters go out."""

import re
from collections.abc import Mapping

from tracker.charts.drawing import INK, Entry, Mark, Shape, Symbol, Use, Words, rectangle, turned
from tracker.charts.layout.colours import Colours, tint
from tracker.charts.layout.stand import Brush, stand
from tracker.charts.signs.symbols import BACK_LOOP, CHAINED, FRONT_LOOP, height_of
from tracker.fabric.model import HIDDEN, SP, Element
from tracker.notation.pattern import Pattern
from tracker.trade.stitches import STITCHES, parts_of, written

SIGNS = {
    "slst": "·",
    "sc": "x",
    "esc": "x",
    "hdc": "T",
    "dc": "†",
    "edc": "†",
    "tr": "‡",
    "dtr": "‡",
    "fsc": "x",
    "fdc": "†",
    "bo": "B",
    "puff": "P",
    "pop": "O",
    "cl": "C",
    "picot": "°",
    "tile": "■",
}
"""Of the plain letters: one for each stitch; chains are o, together ^, post stitches F and B of the letter's case."""


def name_of(kind: str, uk: bool, own: Mapping[str, str] = {}) -> str:
    """A stitch's abbreviation and its name in words; `own`: names the pattern gives."""
    post, base, together = parts_of(kind)
    row = STITCHES.get(base)
    if kind == "ch":
        return "ch: chain; standing at the beginning of a row, the turning chain"
    if kind in own:
        return f"{kind}: {own[kind]}"
    if row is None:
        return f"{kind}: as the pattern explains it"
    words = row.spoken_uk if uk else row.spoken
    around = {"fp": "front post ", "bp": "back post "}.get(post, "")
    many = f", {together} together" if together > 1 else ""
    return f"{abbreviated(kind, uk)}: {around}{words}{many}"


def abbreviated(kind: str, uk: bool) -> str:
    """A stitch as patterns print it: "sl st", "FPdc"; in reports it is all small letters."""
    if kind == "slst":
        return "sl st"
    short = written(kind, uk)
    return short[:2].upper() + short[2:] if parts_of(kind)[0] else short


def named_by(pattern: Pattern) -> dict[str, str]:
    """What the pattern says of the stitches of its own, by the name they are counted by."""
    return {
        special.base: re.split(r"[;.]\s", special.text + " ", maxsplit=1)[0][:70].rstrip()
        for special in pattern.specials
        if special.base == special.name
    }


def key_of(
    kinds: dict[str, str], colours: Colours, uk: bool, own: Mapping[str, str] = {}
) -> tuple[tuple[Entry, ...], tuple[Symbol, ...]]:
    """An entry for every sign used, the shortest stitch first, and then for every colour."""
    out: list[Entry] = []
    symbols: list[Symbol] = []
    for kind in sorted(
        kinds, key=lambda kind: (kind.startswith("loop"), kind != "ch", height_of(kind), kind)
    ):
        if kind in (BACK_LOOP.name, FRONT_LOOP.name):
            symbol = BACK_LOOP if kind == BACK_LOOP.name else FRONT_LOOP
            said = f"under a stitch: in the {'back' if symbol is BACK_LOOP else 'front'} loop only"
            out.append(Entry((Use(symbol.name, turned(13, 12)),), said))
            symbols.append(symbol)
        elif kind == "ch":
            out.append(Entry((Use("ch", turned(9, 12)), Use("ch", turned(17, 12))), name_of(kind, uk, own)))
            symbols.append(CHAINED)
        else:
            marks, used = _sample(kind)
            out.append(Entry(marks, name_of(kind, uk, own)))
            symbols += used
    for letter, paint in colours.paints.items():
        box = rectangle(4, 2, 18, 18)
        swatch = (
            Shape(box, fill=tint(paint)),
            Shape(box, stroke=INK, width=0.8),
            Words(letter, 13, 15, 8, "middle"),
        )
        name = colours.names.get(letter, "")
        out.append(Entry(swatch, f"colour {letter}" + (f": {name}" if name else "")))
    return tuple(out), tuple(symbols)


def _sample(kind: str) -> tuple[tuple[Mark, ...], list[Symbol]]:
    """The sign, fitted into its box."""
    _, base, together = parts_of(kind)
    row = STITCHES.get(base)
    brush = Brush()
    high = height_of(kind)
    foot = 12 + high / 2 - (0.5 if row is not None and row.symbol == "sc" else 0)
    middle, wide = 13.0, min(12.0, 6.0 * together)
    feet = (
        [middle + wide * (nth / (together - 1) - 0.5) for nth in range(together)]
        if together > 1
        else [middle]
    )
    stand(brush, Element(kind), tuple((x, foot) for x in feet), (middle, foot - high))
    scale = min(1.0, 21.0 / high)
    fitted = []
    for mark in brush.marks:
        if isinstance(mark, Use):
            a, b, c, d, e, f = mark.matrix
            x, y = middle + (e - middle) * scale, 12 + (f - 12) * scale
            fitted.append(Use(mark.symbol, (a * scale, b * scale, c * scale, d * scale, x, y)))
    return tuple(fitted), list(brush.symbols.values())


def sign_of(element: Element) -> str:
    """An element as one plain letter."""
    if element.kind == SP:
        return "o" * min(element.chains or 1, 9)
    if element.kind == HIDDEN:
        return ""
    post, base, together = parts_of(element.kind)
    if post:
        return "F" if post == "fp" else "B"
    if together > 1:
        return "^"
    return SIGNS.get(base, base[:1].upper() or "?")
