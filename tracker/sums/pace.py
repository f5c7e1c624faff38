"""How fast this maker works, from the journals of their own pieces. A folder comes in, a log of rows goes out.

A row is believed when the maker went through it with "next" alone, from its start to the row after it. What cannot be
read is passed over: a guess takes its place, and no journal is ever opened for writing.
"""

from pathlib import Path

from tracker.journal import pieces, pieces_folder
from tracker.journal.sqlite.store import whole_of
from tracker.planning.time import PAUSE_S
from tracker.planning.yarn import of_row
from tracker.shelf.taking_up import program_of

MOST_PIECES, MOST_ROWS = 8, 400
"""Of the pieces worked last, and of the rows worked last in each."""


def own_log(folder: Path | None = None) -> tuple[tuple[float, float], ...]:
    """Seconds and single crochets of each row that was worked through, over the pieces worked last."""
    found, _ = pieces(folder or pieces_folder())
    out: list[tuple[float, float]] = []
    for piece in found[:MOST_PIECES]:
        try:
            out += _rows_of(piece.file)
        except ValueError:
            continue
    return tuple(out)


def _rows_of(file: Path) -> list[tuple[float, float]]:
    """The rows of one piece."""
    whole = whole_of(file)
    if whole.text is None:
        return []
    fabric = program_of(whole, "the piece", whole.text.text, None, None)[1].fabric
    out: list[tuple[float, float]] = []
    began: int | None = None
    before: tuple[int, ...] = ()
    latest = 0
    for entry in whole.entries:
        place = entry.place
        onward = entry.deed == "next" and len(place) == 7
        if not onward or entry.at_ms - latest > PAUSE_S * 1000:
            began = None
        elif began is not None and before and place[:3] != before[:3]:
            if 1 <= before[2] <= fabric.length:
                out.append(((entry.at_ms - began) / 1000, of_row(fabric.row(before[2]).worked)))
            began = None
        if onward and place[3:] == (0, 0, 0, 0):
            began = entry.at_ms
        before, latest = place, entry.at_ms
    return out[-MOST_ROWS:]
