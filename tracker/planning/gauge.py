"""Gauge: from a swatch to a size and back, and the nearest counts that keep a repeat whole. Figures in, figures out.

Lengths are in centimetres. Nothing is rounded before the end.
"""

import re

from tracker.fabric.model import Fabric
from tracker.records import dataclass

INCH = 2.54
"""Centimetres."""
LEAST = 10.0
"""Centimetres a swatch should be larger than, to be measured inside its edges."""


class NoGauge(Exception):
    """Figures that are no gauge; the message says what is so and what to do."""


@dataclass(frozen=True, slots=True)
class Gauge:
    """Stitches and rows of a swatch over so many centimetres."""

    stitches: float
    rows: float
    across_cm: float
    down_cm: float
    of: str = "sts"
    """What is counted across: "sts", "sc", "squares"."""

    @property
    def width_cm(self) -> float:
        """Of one stitch."""
        return self.across_cm / self.stitches

    @property
    def height_cm(self) -> float:
        """Of one row; 0 when the rows were not said."""
        return self.down_cm / self.rows if self.rows else 0.0


@dataclass(frozen=True, slots=True)
class Count:
    """A number of stitches or rows and how long it comes out."""

    number: int
    cm: float


def length_cm(words: str) -> float:
    """A length in centimetres.

    >>> length_cm("4 in"), length_cm("45cm"), length_cm('10"')
    (10.16, 45.0, 25.4)
    """
    hit = re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*(cm|mm|m|inches|inch|in|\"|”)?\.?\s*", words)
    if hit is None or not float(hit[1]):
        raise NoGauge(f"{words!r} is no length; write it such as 45cm or 18in.")
    scale = {"mm": 0.1, "m": 100.0, "cm": 1.0, None: 1.0}.get(hit[2], INCH)
    return round(float(hit[1]) * scale, 6)


_STATED = re.compile(
    r"(?P<n>\d+(?:\.\d+)?|one)\s+(?P<of>squares|windows|sts|stitches|sc|hdc|dc|tr|meshes)\b(?:\s+(?:and|by|x|×)\s+(?P<r>\d+(?:\.\d+)?)\s+(?:rows|rnds|rounds))?"
    r"[^=.]*(?:=|to|over|measure\w*)\s*(?P<l>\d+(?:\.\d+)?)\s*(?P<u>cm|in\b|inches|inch|\"|”)",
    re.IGNORECASE,
)


def stated(notes: tuple[str, ...]) -> Gauge | None:
    """The gauge that a pattern's notes state, or None.

    >>> stated(("Gauge: 16 squares and 9 rows = 4 in (10 cm), blocked.",))
    Gauge(stitches=16.0, rows=9.0, across_cm=10.16, down_cm=10.16, of='squares')
    """
    for note in notes:
        hit = _STATED.search(note)
        if hit and hit["n"].lower() != "one" and float(hit["n"]):
            long = length_cm(f"{hit['l']} {hit['u'].lower()}")
            return Gauge(float(hit["n"]), float(hit["r"] or 0), long, long, hit["of"].lower())
    return None


def stitch_of(gauge: Gauge, fabric: Fabric) -> str:
    """The stitch that a swatch for a gauge is worked in: the one it counts, or what most of the piece is made of."""
    if gauge.of in ("sc", "hdc", "dc", "tr"):
        return gauge.of
    made: dict[str, int] = {}
    for stretch in fabric.stretches:
        for placed in stretch.rows:
            for element in placed.worked.elements:
                kind = element.kind if element.kind in ("sc", "hdc", "dc", "tr") else ""
                made[kind] = made.get(kind, 0) + 1
    made.pop("", None)
    return max(made, key=lambda kind: made[kind], default="dc")


def size(gauge: Gauge, stitches: float, rows: float) -> tuple[float, float]:
    """Width and height in centimetres."""
    return stitches * gauge.width_cm, rows * gauge.height_cm


def counts(wanted_cm: float, each_cm: float, multiple: int = 1, plus: int = 0) -> tuple[Count, ...]:
    """The nearest numbers that are a multiple plus some more, the nearest first: one or two of them.

    >>> counts(45, 0.7, 4, 2)
    (Count(number=66, cm=46.2), Count(number=62, cm=43.4))
    """
    if multiple < 1 or plus < 0 or each_cm <= 0 or wanted_cm <= 0:
        raise NoGauge(
            "A repeat is so many stitches, and some more at the edges, such as 4+2; lengths are above 0."
        )
    exact = (wanted_cm / each_cm - plus) / multiple
    low = max(0, int(exact))
    near = {many for many in (low, low + 1) if many * multiple + plus > 0}
    found = [Count(many * multiple + plus, round((many * multiple + plus) * each_cm, 2)) for many in near]
    found.sort(key=lambda one: (abs(one.cm - wanted_cm), one.number))
    return tuple(found[:1] if abs(found[0].cm - wanted_cm) < 1e-9 else found)


def swatch_told(across_cm: float) -> str:
    """Whether a swatch is large enough, in one sentence; empty when it is."""
    if across_cm >= LEAST:
        return ""
    return (
        f"The swatch is {across_cm:g} cm across; make it larger than {LEAST:g} "
        "cm, block it, and measure inside its edges."
    )
