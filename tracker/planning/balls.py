"""What a maker's own weighing tells of the yarn: what each single crochet takes, what is left. Weighings come in;
figures and sentences go out.

A ball weighed twice tells what was worked in between took; a finished piece that was weighed tells it better. Grams
throughout. A kitchen scale shows whole grams, so a difference of few grams is known only roughly (common practice, no
source).
"""

import re

from tracker.planning.yarn import FINISHED, OUNCE, ROUGH, ROUGH_CM, SURE
from tracker.records import dataclass
from tracker.trade.numbers import spoken_number

SCALE_G = 1.0
"""What a scale may be off by, of a difference between two weighings."""
TAIL_SC = 6.0
"""A tail, in single crochets: what must be left over for a row to be safe (common practice, no source)."""


MOST_TENTHS = 1_000_000
"""Tenths of a gram: nothing that is crocheted weighs more than a hundred kilograms."""


def tenths_of(words: str) -> int:
    """A weight as it is typed, in tenths of a gram; 0 for words that are none.

    >>> tenths_of("41.5 g"), tenths_of("2 oz"), tenths_of("40"), tenths_of("much")
    (415, 567, 400, 0)
    """
    hit = re.fullmatch(
        r"(\d{1,6}(?:[.,]\d+)?)\s*(g|grams?|oz|ounces?)?\.?", " ".join(words.split()), re.IGNORECASE
    )
    if hit is None:
        return 0
    amount = float(hit[1].replace(",", ".")) * (OUNCE if (hit[2] or "").lower().startswith("o") else 1.0)
    return min(MOST_TENTHS, round(amount * 10))


@dataclass(frozen=True, slots=True)
class Took:
    """Some work and what it took."""

    in_sc: float
    """In single crochets."""
    grams: float
    finished: bool = False
    """True for finished pieces, weighed whole."""


@dataclass(frozen=True, slots=True)
class Rate:
    """What a single crochet takes."""

    grams: float
    spread: float
    """Part by which it may be off."""
    weighed_g: float
    """Yarn that it was told by."""
    finished: bool
    """True when finished pieces were among what was weighed."""


@dataclass(frozen=True, slots=True)
class Left:
    """How far what is left goes."""

    grams: float
    """Left at the place in hand."""
    takes_g: float
    """What the rest of the row takes."""
    verdict: str
    """"enough", "just" or "short"."""
    further: int
    """Whole rows after this one that it does for too, safely."""


def rate_of(took: tuple[Took, ...]) -> Rate | None:
    """The rate that all of it tells together; None when there is nothing to tell it by.

    >>> rate_of((Took(100, 10), Took(300, 30))).grams
    0.1
    """
    some = [one for one in took if one.in_sc > 0 and one.grams > 0]
    if not some:
        return None
    grams, in_sc = sum(one.grams for one in some), sum(one.in_sc for one in some)
    finished = any(one.finished for one in some)
    spread = max(FINISHED if finished else SURE, min(ROUGH, SCALE_G / grams))
    return Rate(grams / in_sc, spread, grams, finished)


def rough_rate(weight: int, metres: float, grams: float) -> Rate:
    """A rate by the label alone: typical lengths, and how long so many grams are."""
    return Rate(ROUGH_CM[weight] / 100 * grams / metres, ROUGH, 0.0, False)


def reach(left_g: float, rest_sc: float, rows_sc: tuple[float, ...], rate: Rate) -> Left:
    """How far what is left goes: the rest of this row, then the rows after it, in single crochets."""
    dear = rate.grams * (1 + rate.spread)
    tail = TAIL_SC * rate.grams
    takes = rest_sc * rate.grams
    if left_g < takes:
        return Left(left_g, takes, "short", 0)
    if left_g < rest_sc * dear + tail:
        return Left(left_g, takes, "just", 0)
    over, further = left_g - rest_sc * dear - tail, 0
    for row in rows_sc:
        over -= row * dear
        if over < 0:
            break
        further += 1
    return Left(left_g, takes, "enough", further)


def told(left: Left, what: str, last: bool) -> str:
    """Whether it does, in a sentence or two. `what`: "row five". `last`: nothing comes after it.

    >>> told(Left(20, 3, "enough", 4), "row five", False)
    'Enough for row five: it takes about three grams, and about twenty are left; that does for about four rows more.'
    """
    takes, there = grams_said(left.takes_g), grams_said(left.grams)
    about = f"takes about {takes}, and about {there.partition(' ')[0]} {_is(there)} left"
    if left.verdict == "short":
        return f"Not enough for {what}: it {about}. Join a new ball first."
    if left.verdict == "just":
        return (
            f"It may just do for {what}: it {about}. Join a new ball at its start, or leave a tail in time."
        )
    if last or not left.further:
        return f"Enough for {what}: it {about}."
    rows = "row" if left.further == 1 else "rows"
    return f"Enough for {what}: it {about}; that does for about {spoken_number(left.further)} {rows} more."


def grams_said(grams: float) -> str:
    """A weight as it is said; under a gram it is "under a gram".

    >>> grams_said(0.4), grams_said(1.2), grams_said(30.6)
    ('under a gram', 'one gram', 'thirty-one grams')
    """
    whole = round(grams)
    if whole < 1:
        return "under a gram"
    return f"{spoken_number(whole)} gram{'s' if whole > 1 else ''}"


def _is(said: str) -> str:
    return "is" if said.startswith(("under", "one ")) else "are"
