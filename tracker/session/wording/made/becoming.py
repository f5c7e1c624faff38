"""What a round of increases or decreases makes of the one below: ": thirty-six becomes thirty".

A place comes in; words that stand behind how often, or "", go out.
"""

from tracker.program.places import Place, Program
from tracker.program.row.groups import Sort
from tracker.trade.numbers import spoken_number


def becomes(program: Program, place: Place) -> str:
    """The count below and the count made, where one group makes the whole row of another number; "" elsewhere.

    Chain spaces are counted apart, and what is not understood has no number: neither is told so.
    """
    row = place[2]
    if row <= program.parts[place[0]].first:
        return ""
    placed, below = program.fabric.row(row), program.fabric.row(row - 1)
    if not (placed.worked.understood and below.worked.understood) or placed.part != below.part:
        return ""
    if any(name == "tile" or name.endswith(" sp") for name in (*placed.worked.makes, *below.worked.makes)):
        return ""
    groups = [one for one in program.breaths(row) if one.sort not in (Sort.TURNING, Sort.JOIN)]
    was, now = below.worked.stitches, placed.worked.stitches
    if len(groups) != 1 or groups[0] is not program.breaths(row)[place[4]] or was == now:
        return ""
    return f": {spoken_number(was)} becomes {spoken_number(now)}"
