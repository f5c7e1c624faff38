"""How a chart too large for a page is cut into pages that overlap. A field and a page come in; windows go out."""

from math import ceil, floor

from tracker.records import dataclass

OVERLAP = 2
"""Squares or stitches shown on both of two neighbouring pages, at least."""


@dataclass(frozen=True, slots=True)
class Window:
    """The part of a field that one page shows."""

    column: int
    """Of the page in the chart, from 0 at the left."""
    row: int
    """From 0 at the top."""
    x: float
    y: float
    width: float
    height: float

    @property
    def name(self) -> str:
        """As pages are laid out on a table: A1 is at the top left.

        >>> Window(1, 2, 0, 0, 1, 1).name
        'B3'
        """
        letters, left = "", self.column
        while left >= 0:
            letters, left = chr(65 + left % 26) + letters, left // 26 - 1
        return f"{letters}{self.row + 1}"


def windows(
    width: float, height: float, step: float, room_across: float, room_down: float
) -> tuple[Window, ...]:
    """Windows that cover a field, the lowest row of pages first: that is where the work begins.

    >>> [(one.name, one.x) for one in windows(10.0, 3.0, 1.0, 6.0, 6.0)]
    [('A1', 0.0), ('B1', 4.0)]
    """
    across, down = _cuts(width, step, room_across), _cuts(height, step, room_down)
    return tuple(
        Window(column, row, x, y, wide, high)
        for row, (y, high) in reversed(tuple(enumerate(down)))
        for column, (x, wide) in enumerate(across)
    )


def _cuts(length: float, step: float, room: float) -> list[tuple[float, float]]:
    """Where the pages begin along one direction and how long they are, in whole steps and as even as they can be."""
    if length <= room:
        return [(0.0, length)]
    fresh = max(1, floor(room / step) - OVERLAP)
    steps = ceil(length / step - 1e-9)
    pages = ceil((steps - OVERLAP) / fresh)
    fresh = ceil((steps - OVERLAP) / pages)
    return [(at := nth * fresh * step, min((fresh + OVERLAP) * step, length - at)) for nth in range(pages)]
