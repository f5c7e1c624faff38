"""Yarn: how much a fabric takes. Rows come in, and what a swatch weighed or measured; lengths and weights with a
range go out.

Stitches are counted in single crochets by what each takes (the table of stitches; common practice, no source). With
a swatch the range is 10 %; without one typical lengths are used, marked as rough, with a range of 30 %.
"""

import re
from collections.abc import Mapping

from tracker.fabric.model import CH, HIDDEN, SP, Element, Fabric, WorkedRow
from tracker.records import dataclass
from tracker.trade.stitches import STITCHES, parts_of

CHAIN = 0.5
"""Of one chain, in single crochets (common practice, no source)."""
ROUGH_CM = {0: 1.8, 1: 2.5, 2: 3.2, 3: 3.8, 4: 4.6, 5: 6.0, 6: 8.5, 7: 13.0}
"""Centimetres of yarn in one sc, by weight of yarn (from memory, rough)."""
YARD, OUNCE = 0.9144, 28.3495
"""Metres in a yard, grams in an ounce (by definition)."""
SURE, ROUGH, FINISHED = 0.10, 0.30, 0.05
"""Parts of a length by which it may be off: with a swatch, without one, with finished copies weighed."""
TAIL_CM = 15.0
"""Of each end to weave in (common practice, no source)."""


class NoYarn(Exception):
    """Figures that say nothing of yarn; the message shows how they are written."""


@dataclass(frozen=True, slots=True)
class Use:
    """Yarn in single crochets."""

    whole: float
    by_colour: Mapping[str, float]
    """By the pattern's letter; empty when there is one colour."""
    by_row: tuple[tuple[int, float], ...]
    """By index of the row; of a piece that is listed only by stretches, the first pass of each."""
    by_kind: Mapping[str, float]
    """How many of each stitch there are, chains among them."""


@dataclass(frozen=True, slots=True)
class Need:
    """How much yarn, with its range."""

    metres: float
    least_m: float
    most_m: float
    rough: bool
    """True when no swatch was measured."""
    grams: float | None = None
    balls: int | None = None
    """To buy, by the upper end of the range."""
    range_g: tuple[float, float] | None = None
    """Least and most grams, where they were weighed and nothing tells how long so many grams are."""


@dataclass(frozen=True, slots=True)
class Swatch:
    """What a swatch told."""

    in_sc: float
    """Its stitches in single crochets."""
    cm: float
    """Yarn in it."""
    spread: float = SURE
    """Part of a length by which it may be off."""

    @property
    def cm_per_sc(self) -> float:
        return self.cm / self.in_sc


def of_element(element: Element) -> float:
    """An element in single crochets."""
    if element.kind in (SP, CH):
        return CHAIN * max(1, element.chains)
    if element.kind == HIDDEN or element.turning:
        row = STITCHES.get(element.kind)
        return CHAIN * (element.chains or (row.height if row else 1) or 1)
    _, base, together = parts_of(element.kind)
    row = STITCHES.get(base)
    return (row.yarn if row else 1.9) * together * (0.9 if together > 1 else 1.0)


def of_row(row: WorkedRow) -> float:
    """A whole row in single crochets."""
    return sum(map(of_element, row.elements))


def use_of(
    fabric: Fabric,
    letters: Mapping[int, tuple[str, ...]] | None = None,
    copies: Mapping[str, int] | None = None,
) -> Use:
    """The whole piece; `letters`: the colour of each element, by index of the row; `copies`: of each part, by name."""
    whole, by_colour, by_row = 0.0, dict[str, float](), []
    by_kind: dict[str, float] = {}
    many = copies or {}
    for first, stretch in zip(fabric.first, fabric.stretches, strict=True):
        for nth, placed in enumerate(stretch.rows):
            amount = of_row(placed.worked)
            times = stretch.times * many.get(placed.part or "", 1)
            whole += amount * times
            for element in placed.worked.elements:
                kind = CH if element.kind in (SP, CH, HIDDEN) or element.turning else element.kind
                worth = of_element(element) / CHAIN if kind == CH else 1
                by_kind[kind] = by_kind.get(kind, 0.0) + worth * times
            by_row.append((first + nth, amount))
    first_row = fabric.row(1).worked if fabric.length else None
    if first_row is not None and first_row.below and first_row.below[0].kind == CH:
        whole += CHAIN * len(first_row.below)
        by_kind[CH] = by_kind.get(CH, 0.0) + len(first_row.below)
    for index, row_letters in (letters or {}).items():
        placed = fabric.row(index)
        times = many.get(placed.part or "", 1)
        for element, letter in zip(placed.worked.elements, row_letters, strict=False):
            by_colour[letter] = by_colour.get(letter, 0.0) + of_element(element) * times
    return Use(whole, by_colour, tuple(by_row), by_kind)


def need(
    in_sc: float,
    swatch: Swatch | None = None,
    weight: int = 4,
    copies: int = 1,
    grams_per_m: float | None = None,
    ball_m: float | None = None,
    ends: int = 2,
    weighed: tuple[float, float] | None = None,
) -> Need:
    """Metres for so many single crochets, tails included.

    `weighed`: grams of one single crochet and by what part that may be off, where no label makes metres of it.
    """
    each = swatch.cm_per_sc if swatch else ROUGH_CM[weight]
    spread = swatch.spread if swatch else ROUGH
    tails = ends * TAIL_CM / 100 * copies
    metres = in_sc * each / 100 * copies
    least, most = metres * (1 - spread) + tails, metres * (1 + spread) + tails
    balls = None if not ball_m else -int(-most // ball_m)
    if weighed is not None:
        mass = in_sc * copies * weighed[0]
        range_g = mass * (1 - weighed[1]), mass * (1 + weighed[1])
        return Need(metres + tails, least, most, True, mass, balls, range_g)
    grams = None if grams_per_m is None else (metres + tails) * grams_per_m
    return Need(metres + tails, least, most, swatch is None, grams, balls)


def enough(left_m: float, row_sc: float, cm_per_sc: float) -> str:
    """Whether what is left does for a row, in one sentence."""
    takes = row_sc * cm_per_sc / 100
    if left_m >= takes * (1 + SURE) + TAIL_CM / 100:
        return f"Enough for this row: it takes about {takes:.1f} m and there are {left_m:.1f} m."
    if left_m >= takes:
        return (
            f"It may just do: the row takes about {takes:.1f} m and there are "
            f"{left_m:.1f} m; leave a tail or join now."
        )
    return f"Not enough for this row: it takes about {takes:.1f} m and there are {left_m:.1f} m; join a new ball first."


def told(need: Need, name: str = "") -> str:
    """The need in one sentence."""
    head = f"{name}: " if name else ""
    if need.range_g is not None and need.grams is not None:
        return (
            f"{head}about {need.grams:.0f} g ({need.grams / OUNCE:.1f} oz), between {need.range_g[0]:.0f} and "
            f"{need.range_g[1]:.0f} g. Roughly {need.metres:.0f} m ({need.metres / YARD:.0f} yd); the ball's label "
            "tells it better: --ball metres,grams."
        )
    rough = " That is rough: weigh or measure a swatch to know better." if need.rough else ""
    grams = f", {need.grams:.0f} g ({need.grams / OUNCE:.1f} oz)" if need.grams is not None else ""
    balls = f"; {need.balls} ball{'s' if need.balls != 1 else ''}" if need.balls is not None else ""
    return (
        f"{head}about {need.metres:.0f} m ({need.metres / YARD:.0f} yd){grams}, between {need.least_m:.0f} and "
        f"{need.most_m:.0f} m{balls}.{rough}"
    )


def pair_of(words: str, how: str) -> tuple[str, str]:
    """Two things with a comma between them; NoYarn says how they are written."""
    first, mark, second = words.partition(",")
    if not mark or not first.strip() or not second.strip():
        raise NoYarn(f"{how}; {words!r} is not that.")
    return first.strip(), second.strip()


def figure_of(words: str) -> float:
    """A number above 0."""
    try:
        figure = float(words)
    except ValueError:
        figure = 0.0
    if not 0 < figure < 1e9:
        raise NoYarn(
            f"{words!r} is no number of stitches; write it such as 400, or rows of the pattern such as 1-10."
        )
    return figure


def length_of(words: str, ball: tuple[float, float] | None) -> float:
    """Metres of yarn, measured or weighed; a weight needs the ball's metres and grams.

    >>> length_of("18m", None), length_of("12g", (105.0, 50.0)), length_of("1800", None)
    (18.0, 25.2, 18.0)
    """
    hit = re.fullmatch(r"(\d+(?:\.\d+)?)\s*(cm|m|yd|g|oz)?", words.strip())
    if hit is None or not float(hit[1]):
        raise NoYarn(f"{words!r} is no amount of yarn; write it such as 18m, 20yd, 12g or 0.5oz.")
    amount, unit = float(hit[1]), hit[2] or "cm"
    if unit in ("g", "oz"):
        if ball is None or not ball[1]:
            raise NoYarn(
                "A weight says how long the yarn is only with the ball's label: --ball metres,grams."
            )
        return amount * (OUNCE if unit == "oz" else 1.0) * ball[0] / ball[1]
    return amount * {"cm": 0.01, "m": 1.0, "yd": YARD}[unit]


def ball_of(words: str | None) -> tuple[float, float] | None:
    """Metres in a ball and its grams, 0 when those are not written."""
    how = "--ball takes metres in a ball and, after a comma, grams, such as 105,50"
    if words is None:
        return None
    first, _, second = words.partition(",")
    try:
        pair = float(first), float(second or 0)
    except ValueError:
        pair = (0.0, 0.0)
    if not 0 < pair[0] < 1e9 or not 0 <= pair[1] < 1e9:
        raise NoYarn(f"{how}; {words!r} is not that.")
    return pair
