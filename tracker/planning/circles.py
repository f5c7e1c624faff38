"""Flat circles: how many increases a round needs, and what more or fewer do. A stitch and numbers come in;
sentences go out.

A circle grows by 2π × the height of a round every round; measured in stitches that is 2π × height ÷ width. The
usual numbers (sc 6, hdc 8, dc 12, tr 16 to 18) are those teaching pages print; hdc 8 to 10 and dc 10 to 12 lie flat
by gauge.
"""

from math import pi

from tracker.records import dataclass

FLAT = {"sc": (6, 7), "hdc": (8, 10), "dc": (10, 12), "tr": (16, 18)}
"""By stitch: fewest and most increases a round with which a circle lies flat."""
USUAL = {"sc": 6, "hdc": 8, "dc": 12, "tr": 16}


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle of one stitch with so many increases a round."""

    stitch: str
    increases: int
    shape: str
    """"lies flat", "cups" or "ruffles"."""
    counts: tuple[int, ...]
    """Stitches of each round."""


def needed(height: float, width: float) -> float:
    """Increases a round that keep a circle flat, from the height and the width of a stitch in the same unit.

    >>> round(needed(1, 1), 1)
    6.3
    """
    return 2 * pi * height / width


def circle(stitch: str, increases: int, rounds: int = 6) -> Circle:
    """What the increases do; KeyError for a stitch that circles are not told for."""
    fewest, most = FLAT[stitch]
    shape = "cups" if increases < fewest else "ruffles" if increases > most else "lies flat"
    return Circle(stitch, increases, shape, tuple(increases * nth for nth in range(1, rounds + 1)))


def told(made: Circle) -> tuple[str, ...]:
    """The circle in sentences."""
    fewest, most = FLAT[made.stitch]
    counts = ", ".join(map(str, made.counts))
    more = {
        "cups": f"that is fewer than {fewest}, so the edge is too short for the circle: it cups like a bowl.",
        "ruffles": f"that is more than {most}, so the edge is too long for the circle: it ruffles.",
        "lies flat": "that lies flat.",
    }[made.shape]
    return (
        f"{made.increases} increases a round in {made.stitch}: {more}",
        f"Rounds of {counts} stitches. Stacked over one another the increases "
        "make a corner each; stagger them for a circle.",
    )
