"""The chart of a pattern: its words and its fabric come in, sheets go out, or one sentence why there can be none."""

from dataclasses import dataclass

from tracker.charts.drawing import Sheet
from tracker.charts.layout.squares import grid_of, sheet_of
from tracker.fabric.model import Fabric, Placed
from tracker.notation.tree import Pattern
from tracker.problems import Source

MOST_ROWS = 600
"""Rows on one chart; of more, a part has to be chosen."""


class NoChart(Exception):
    """A pattern that cannot be drawn; the message says why and what to do."""


@dataclass(frozen=True, slots=True)
class Wish:
    """What a maker asks of a chart."""

    left_handed: bool = False
    at: tuple[str, int] | None = None
    """The row to light by its index or label, and the square or stitch of it from 1; 0 for the whole row."""
    rows: tuple[int, int] | None = None
    """First and last index to draw; None for all."""
    tall: float = 1.0
    """Of filet: the height of a square in widths."""


def charted(source: Source, pattern: Pattern, fabric: Fabric, wish: Wish = Wish()) -> tuple[Sheet, ...]:
    """The sheets of a pattern, one for each part; NoChart when there is nothing to draw."""
    rows = tuple(fabric.rows(*(wish.rows or (1, MOST_ROWS + 1))))
    if not fabric.length:
        raise NoChart("No row was found in this text, so there is nothing to draw; check says what it lacks.")
    if not rows:
        raise NoChart(f"The pattern has {fabric.length} rows; choose some of those with --rows.")
    if len(rows) > MOST_ROWS:
        raise NoChart(f"The pattern has {fabric.length} rows, more than one chart can hold; choose some with --rows 1-{MOST_ROWS}.")
    lit = lit_row(rows, wish.at)
    sheets = []
    for part in dict.fromkeys(placed.part for _, placed in rows):
        own = tuple((index, placed) for index, placed in rows if placed.part == part)
        sheets.append(_sheet(source, pattern, fabric, own, part, lit, wish))
    return tuple(sheets)


def lit_row(rows: tuple[tuple[int, Placed], ...], at: tuple[str, int] | None) -> tuple[int, int] | None:
    """The row that `--at` names, by its index; NoChart for one that is not drawn."""
    if at is None:
        return None
    name = " ".join(at[0].lower().split())
    for index, placed in rows:
        if name == placed.label.lower() or name in (f"row {placed.number}", f"rnd {placed.number}", f"round {placed.number}"):
            return index, at[1]
    if name.isdigit():
        for index, _ in rows:
            if index == int(name):
                return index, at[1]
    raise NoChart(f"There is no row {at[0]} on this chart; it has rows {rows[0][0]} to {rows[-1][0]}.")


def _sheet(
    source: Source,
    pattern: Pattern,
    fabric: Fabric,
    rows: tuple[tuple[int, Placed], ...],
    part: str | None,
    lit: tuple[int, int] | None,
    wish: Wish,
) -> Sheet:
    title = pattern.title + (f", {part}" if part else "") + (f", size {pattern.size}" if pattern.size else "")
    grid = grid_of(pattern, fabric, rows, wish.left_handed)
    if grid is not None:
        return sheet_of(grid, title, _hand(wish, grid.rows[0].begins), lit, wish.tall)
    raise NoChart("This piece is no filet.")


def _hand(wish: Wish, begins: str) -> tuple[str, ...]:
    hand = "left" if wish.left_handed else "right"
    return (
        f"Seen from the right side, for the {hand} hand. Row 1 is at the bottom and begins at the {begins}.",
        "A row's number stands where the row begins.",
    )
