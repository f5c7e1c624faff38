"""What the numbers of rows stand for, and rows worked by turns: "Rep Rows 4 and 5, working 1 less sc each side of dec".

Rows come in as they are read; the row that a number means goes out, or those that are worked by turns.
"""

from collections.abc import Sequence

from tracker.notation.pattern import Row
from tracker.notation.rows.before.growing import changes_count, fits_any_width
from tracker.notation.tree import Rerun

Turns = tuple[Row | None, ...]
"""Rows that are worked in turn, None for the one that grows; nothing where no rows are."""


class Numbered:
    """The last row of each number."""

    def __init__(self) -> None:
        self.own: dict[int, Row] = {}
        """Rows that tell their own stitches."""
        self._alike: dict[int, Row] = {}
        """The rows that "Row 4: Rep Row 2" means."""

    def note(self, row: Row) -> None:
        """Notes what a row's number stands for from here on."""
        if len(row.numbers) != 1:
            return
        number, rerun = row.numbers[0], row.rerun
        if rerun is None:
            self.own[number] = row
            self._alike.pop(number, None)
        elif len(rerun.rows) == 1 and (meant := self._meant(rerun.rows[0])) is not None:
            self._alike[number] = meant

    def _meant(self, number: int) -> Row | None:
        return self._alike.get(number) or self.own.get(number)

    def by_turns(self, rerun: Rerun | None, numbers: Sequence[int], shaped: Row | None) -> Turns:
        """The rows that a range works in turn, of which only the one shaped last changes with the width."""
        named = rerun.rows if rerun is not None else ()
        grows = shaped.numbers[0] if shaped is not None and len(shaped.numbers) == 1 else 0
        if not 2 <= len(named) <= 8 or grows not in named or numbers[0] != named[-1] + 1:
            return ()
        turns = tuple(None if number == grows else self._meant(number) for number in named)
        plain = [row for row in turns if row and fits_any_width(row) and not changes_count(row.items)]
        return turns if len(plain) == len(named) - 1 else ()
