"""A row beside others: what it makes of the one below, ": thirty-six becomes thirty", and which of several alike it is.

A place or a row comes in; words, or "", go out.
"""

from tracker.fabric.model import Placed
from tracker.program.cues import printed_range
from tracker.program.open_rows import going_on
from tracker.program.places import Place, Program
from tracker.program.row.groups import Sort
from tracker.session.wording.made.telling import capital, row_name
from tracker.trade.numbers import spoken_number, spoken_ordinal


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


def alike_said(program: Program, row: int) -> str:
    """ "Fourth of six alike." in a round printed in a range of plain ones, "As round six." in "Rnds 6, 8 and 10"."""
    first, last = printed_range(program, row)
    if (earlier := _printed_with(program, row)) is not None:
        return f"As {row_name(earlier)}."
    which, of = row - first + 1, last - first + 1
    if of < 3 or going_on(program, row) is not None:
        return ""
    if program.fabric.row(first).worked.row is not program.fabric.row(last).worked.row:
        return ""
    word = "First" if which == 1 else "Last" if which == of else capital(spoken_ordinal(which))
    return f"{word} of {spoken_number(of)} alike."


def _printed_with(program: Program, row: int) -> Placed | None:
    """The first of rows that are printed in the same words and do not follow one another; None for that itself."""
    placed = program.fabric.row(row)
    numbers = placed.worked.row.numbers
    if placed.number is None or len(numbers) < 2 or len(numbers) > MANY or placed.number not in numbers[1:]:
        return None
    if numbers[-1] - numbers[0] + 1 == len(numbers) or placed.as_number is not None:
        return None
    earlier = program.fabric.row(max(1, row - placed.number + numbers[0]))
    return earlier if earlier.number == numbers[0] and earlier.worked.row is placed.worked.row else None


MANY = 60
"""Numbers of one label that are looked through."""
