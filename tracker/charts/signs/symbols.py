"""The signs of a stitch chart, as paths drawn by us after the Craft Yarn Council's table of crochet chart symbols.

Names of stitches come in, symbols go out: a sign stands on 0, 0 and grows upwards (to negative y) to its own
height. A stitch that the table has no sign for is drawn as a box with its abbreviation, so that nothing is left
out. (The shapes of the table are from memory: ch an oval, sl st a dot, sc a cross, hdc a T, dc, tr, dtr a T with
one, two, three strokes, stitches worked together under one bar, post stitches with a hook at the foot, loops as an
arc under the stitch.)
"""

from functools import lru_cache
from math import atan2, degrees, hypot

from tracker.charts.drawing import Path, Shape, Symbol, ellipse, line, moved, turned
from tracker.charts.signs.letters import length_of, path_of
from tracker.trade.stitches import STITCHES, parts_of

STITCH = 14.0
"""Points from stitch to stitch."""
CHAIN = 8.0
"""Points along one chain."""
_LINE = 1.3

_HEIGHTS = {0: 7.0, 1: 13.0, 2: 20.0, 3: 27.0, 4: 34.0, 5: 41.0, 6: 48.0, 7: 55.0}
_STROKES = {"esc": 0, "hdc": 0, "dc": 1, "edc": 1, "tr": 2, "dtr": 3, "trtr": 4}
"""Strokes across the stem, by the table's key of the sign."""


def height_of(kind: str) -> float:
    """Points from foot to top of a stitch's sign."""
    row = STITCHES.get(parts_of(kind)[1])
    if row is None:
        return _HEIGHTS[3]
    return _HEIGHTS[row.height]


@lru_cache(maxsize=1024)
def symbol_of(kind: str, high: float = 0.0) -> Symbol:
    """The sign of a stitch that stands in one place, `high` points from foot to top; its own height when 0."""
    post, base, together = parts_of(kind)
    row = STITCHES.get(base)
    name = f"st-{kind}" + (f"-{high:g}" if high else "")
    high = high or height_of(kind)
    shapes: tuple[Shape, ...]
    if row is None:
        shapes = _boxed(kind, high)
    elif base == "slst":
        shapes = (Shape(ellipse(0, -3.5, 3.2, 2.6), fill="ink"),)
    elif row.symbol in ("sc", "revsc", "spsc"):
        shapes = _cross(row.symbol, post, together)
    elif base == "picot":
        shapes = tuple(
            Shape(moved(ellipse(0, -6, 1.7, 3), turned(0, -3, turn)), stroke="ink", width=1)
            for turn in (-55, 0, 55)
        )
    elif base == "tile":
        shapes = (
            Shape(line((-6, -1), (6, -1), (6, -high), (-6, -high), (-6, -1)), stroke="ink", width=_LINE),
        )
    elif base == "puff":
        shapes = (*_petals(high, 3, (0, 0, 0)), _bar(high))
    elif base in ("bo", "cl"):
        shapes = (*_petals(high, 5 if base == "bo" else 3, (1,)), _bar(high))
    elif base == "pop":
        shapes = (
            *_petals(high - 4, 5, (1,)),
            Shape(ellipse(0, -high + 2, 6, 2.4), stroke="ink", width=_LINE),
        )
    elif together > 1:
        shapes = (*_petals(high, together, (_STROKES.get(row.symbol, 0),)), _bar(high))
    else:
        shapes = (*leg(kind, high), _bar(high))
    return Symbol(name, shapes)


@lru_cache(maxsize=1024)
def leg_of(kind: str, high: float = 0.0) -> Symbol:
    """One leg of several worked together, without the bar: it stands where the leg goes in."""
    _, base, _ = parts_of(kind)
    name = f"leg-{kind}" + (f"-{high:g}" if high else "")
    high = high or height_of(kind)
    row = STITCHES.get(base)
    if row is not None and row.symbol == "sc":
        return Symbol(name, (Shape(line((0, 0), (0, -high)), stroke="ink", width=_LINE),))
    return Symbol(name, leg(kind, high))


def parted(kind: str) -> tuple[Shape, ...]:
    """The sign of a stitch where its feet are not told: of several worked together the legs stand apart."""
    _, base, together = parts_of(kind)
    row = STITCHES.get(base)
    if together < 2 or row is None or row.symbol in ("sc", "revsc", "spsc"):
        return symbol_of(kind).shapes
    high, wide = height_of(kind), min(12.0, 6.0 * together)
    out: list[Shape] = []
    for nth in range(together):
        foot = wide * (nth / (together - 1) - 0.5)
        place = turned(foot, 0, -degrees(atan2(foot, high)), 1.0, hypot(foot, high) / high)
        out += [
            Shape(moved(one.path, place), one.fill, one.stroke, one.width, one.dashed)
            for one in leg(kind, high)
        ]
    return (*out, _bar(high))


def leg(kind: str, high: float) -> tuple[Shape, ...]:
    """A stem with its strokes, and for a post stitch the hook at its foot."""
    post, base, _ = parts_of(kind)
    row = STITCHES.get(base)
    strokes = _STROKES.get(row.symbol, 0) if row else 0
    foot = 0.0 if not post else -5.0
    out = [Shape(line((0, foot), (0, -high)), stroke="ink", width=_LINE)]
    if post:
        # Around the post from the front: the hook opens to one side, from the back to the other.
        way = 1 if post == "fp" else -1
        hook: Path = (("M", (0, -5)), ("C", (0, 0, way * 5, 1.5, way * 5, -3)))
        out.append(Shape(hook, stroke="ink", width=_LINE))
    for nth in range(strokes):
        y = -high + 8 + nth * 5
        out.append(Shape(line((-3.4, y + 1.8), (3.4, y - 1.8)), stroke="ink", width=_LINE))
    if row is not None and row.symbol in ("esc", "edc") or kind.startswith("ehdc"):
        out.append(Shape(ellipse(0, -4, 1.6, 2.4), stroke="ink", width=1))
    if base.startswith("l") and base in ("ldc", "ltr"):
        out.append(Shape(line((0, -high * 0.45), (6, -high * 0.45)), stroke="ink", width=_LINE))
    return tuple(out)


BAR = Symbol("bar", (Shape(line((-4.2, 0), (4.2, 0)), stroke="ink", width=_LINE),))
"""The top of stitches worked together."""
CHAINED = Symbol("ch", (Shape(ellipse(0, 0, CHAIN / 2 - 0.7, 2.1), stroke="ink", width=1.0),))
"""One chain, lying."""
BACK_LOOP = Symbol(
    "loop-back", (Shape((("M", (-4, 2.5)), ("C", (-3, -1, 3, -1, 4, 2.5))), stroke="ink", width=1.0),)
)
FRONT_LOOP = Symbol(
    "loop-front", (Shape((("M", (-4, 0)), ("C", (-3, 3.5, 3, 3.5, 4, 0))), stroke="ink", width=1.0),)
)
START = Symbol("start", (Shape((("M", (0, -4)), ("L", (6, 0)), ("L", (0, 4)), ("Z", ())), fill="ink"),))
"""Where a row or a round begins, and the way it runs."""


def _bar(high: float) -> Shape:
    return Shape(line((-4.2, -high), (4.2, -high)), stroke="ink", width=_LINE)


def _cross(symbol: str, post: str, together: int) -> tuple[Shape, ...]:
    if together > 1:
        feet = [(-4.0 + 8.0 * nth / (together - 1)) for nth in range(together)]
        legs = tuple(Shape(line((x, -1), (0, -12)), stroke="ink", width=_LINE) for x in feet)
        return (*legs, Shape(line((-4, -12), (4, -12)), stroke="ink", width=_LINE))
    out = [
        Shape(line((-3.6, -2.4), (3.6, -9.6)), stroke="ink", width=_LINE),
        Shape(line((3.6, -2.4), (-3.6, -9.6)), stroke="ink", width=_LINE),
    ]
    if symbol == "revsc":
        wave: Path = (("M", (-4.5, -11.5)), ("C", (-2, -15, 2, -8.5, 4.5, -12)))
        out.append(Shape(wave, stroke="ink", width=1.1))
    elif symbol == "spsc":
        out.append(Shape(line((0, -6), (0, 9)), stroke="ink", width=_LINE))
    if post:
        way = 1 if post == "fp" else -1
        hook: Path = (("M", (0, -6)), ("L", (0, -2)), ("C", (0, 2, way * 5, 3, way * 5, -1)))
        out.append(Shape(hook, stroke="ink", width=_LINE))
    return tuple(out)


def _petals(high: float, legs: int, strokes: tuple[int, ...]) -> tuple[Shape, ...]:
    """Legs that leave one place, part, and meet again at the top."""
    out = []
    for nth in range(legs):
        wide = 0.0 if legs == 1 else -6.0 + 12.0 * nth / (legs - 1)
        bow: Path = (("M", (0, 0)), ("C", (wide, -high * 0.3, wide, -high * 0.7, 0, -high)))
        out.append(Shape(bow, stroke="ink", width=1.1))
        for stroke in range(strokes[0]):
            y = -high / 2 + stroke * 4 - (strokes[0] - 1) * 2
            x = wide * 0.75
            out.append(Shape(line((x - 1.8, y + 1), (x + 1.8, y - 1)), stroke="ink", width=1.0))
    return tuple(out)


def _boxed(kind: str, high: float) -> tuple[Shape, ...]:
    size = min(5.0, 5.0 * 11 / max(1.0, length_of(kind, 5)))
    long = length_of(kind, size)
    box = line((-7, -2), (7, -2), (7, -high), (-7, -high), (-7, -2))
    return (
        Shape(box, stroke="ink", width=1.0),
        Shape(path_of(kind, -long / 2, -high / 2 - 1 + size / 2, size), stroke="ink", width=0.8),
    )
