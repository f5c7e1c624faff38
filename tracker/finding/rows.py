"""Mistakes of whole rows: worked twice, left out, taken for their look-alike, begun on the wrong side.

A fabric and what is seen of it come in; mistakes come out, likeliest first. Nothing raises.
"""

from tracker.fabric.model import Fabric
from tracker.finding.causes.parts import row_word
from tracker.finding.causes.table import CAUSES
from tracker.finding.evidence import Tally, fits
from tracker.records import dataclass

NEAR = 40
"""Rows up and down among which look-alikes are sought."""


@dataclass(frozen=True, slots=True)
class RowMistake:
    """A whole row done wrong."""

    cause: str
    """"row_repeated", "row_left_out" or "wrong_side"."""
    index: int
    """The row that was really worked, from 1."""
    label: str
    headline: str


def row_mistakes(fabric: Fabric, index: int, have: Tally) -> tuple[RowMistake, ...]:
    """What a count tells of whole rows: it is that of the row before, or of the row after."""
    out: list[RowMistake] = []
    for other, cause in ((index - 1, "row_repeated"), (index + 1, "row_left_out")):
        if not 1 <= other <= fabric.length:
            continue
        placed = fabric.row(other)
        if fits(have, placed.worked.makes, placed.worked.stitches):
            headline = CAUSES[cause].headline.format(other=placed.label, row=row_word(placed))
            out.append(RowMistake(cause, other, placed.label, headline))
    return tuple(out)


def look_alikes(fabric: Fabric, index: int) -> tuple[int, ...]:
    """Rows near by that the same stitches stand on, nearest first, and that go on differently.

    A maker who takes one for the other goes wrong in the row after it, so rows with the same one after them are no
    danger and are left out.
    """
    here = fabric.row(index)
    after = fabric.row(index + 1).worked.elements if index < fabric.length else ()
    out: list[int] = []
    for off in range(1, NEAR + 1):
        for other in (index - off, index + off):
            if not 1 <= other <= fabric.length:
                continue
            placed = fabric.row(other)
            follows = fabric.row(other + 1).worked.elements if other < fabric.length else ()
            if placed.worked.makes == here.worked.makes and follows != after:
                out.append(other)
    return tuple(out)


def wrong_row(fabric: Fabric, index: int, have: Tally) -> tuple[RowMistake, ...]:
    """Rows that were worked in place of this one, the row before being taken for a look-alike of it."""
    out: list[RowMistake] = []
    here = fabric.row(index)
    for before in look_alikes(fabric, index - 1) if index > 1 else ():
        if before >= fabric.length or abs(before + 1 - index) < 2:
            continue
        placed = fabric.row(before + 1)
        if placed.worked.makes == here.worked.makes or not fits(
            have, placed.worked.makes, placed.worked.stitches
        ):
            continue
        cause = "row_repeated" if before + 1 < index else "row_left_out"
        words = (
            f"This is {placed.label}: {fabric.row(before).label} looks like {fabric.row(index - 1).label}."
        )
        out.append(RowMistake(cause, before + 1, placed.label, words))
    return tuple(out)


def wrong_side(fabric: Fabric, index: int, side: str) -> RowMistake | None:
    """A row begun on the wrong side: the side that faces the maker is not the row's own."""
    placed = fabric.row(index)
    if placed.worked.side in (None, side):
        return None
    words = "right" if placed.worked.side == "RS" else "wrong"
    headline = (
        f"{placed.label} is worked with the {words} side facing: turn, or a row was left out or worked twice."
    )
    return RowMistake("wrong_side", index, placed.label, headline)
