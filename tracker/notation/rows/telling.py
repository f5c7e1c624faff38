"""One row while it is read: what its block is, what it refers to, what its words said."""

from collections.abc import Sequence

from tracker.notation.page.block import Block
from tracker.notation.page.labelled.labels import Label
from tracker.notation.page.labelled.row_names import one_of_range
from tracker.notation.pattern import Aside, Row
from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.row.reading import Reading
from tracker.notation.phrase.told.shaping import Shaping
from tracker.notation.rows.before.growing import changes_count
from tracker.notation.tree import Item, Rerun, Where, Which, Work
from tracker.problems import Span
from tracker.records import replace

MOST_ROWS = 2000
"""Rows that "next 5000 rows" lays out one by one."""


class Telling:
    """What is known of a row so far; each step of `RowReader.row` adds to it."""

    __slots__ = (
        "block",
        "cursor",
        "items",
        "kind",
        "label",
        "many",
        "numbers",
        "otherwise",
        "reading",
        "rerun",
        "row",
        "shapings",
        "span",
        "text",
        "tokens",
    )  # fmt: skip

    def __init__(
        self, block: Block, kind: str, numbers: Sequence[int], many: int | None, cursor: Cursor
    ) -> None:
        self.block = block
        self.label: Label | None = block.label
        self.span = Span(block.start, block.end)
        self.kind = kind
        """"row" or "round"."""
        self.numbers = numbers
        """Of the label, in the size that was chosen; empty without a label."""
        self.many = many
        """How many rows "next 3 rows" tells; None where no number of rows is told."""
        self.cursor = cursor
        self.tokens = cursor.tokens
        self.shapings: list[Shaping] = []
        """Each "dec 1 st at each end of next row" that the words begin with."""
        self.rerun: Rerun | None = None
        """The rows that are worked again; None where the row tells its own stitches."""
        self.otherwise = False
        """True for another row's words with a change: "Rep Row 2 to last 2 sts, …"."""
        self.reading = Reading()
        self.items: list[Item] = []
        self.text = ""
        """What the row is called."""
        self.row: Row | None = None
        """The row, where its words tell one and no more; None before that, and where they tell others."""

    @property
    def refers(self) -> bool:
        """True for words that begin with other rows or with a shaping of them."""
        return self.rerun is not None or bool(self.shapings)


def shaped_at_once(telling: Telling) -> list[Item]:
    """ "Rows 2-6: Dec 1 st at each end of every row": what each row of such a label does; nothing for other words."""
    if telling.label is None or not telling.numbers or len(telling.shapings) != 1:
        return []
    told = telling.shapings[0]
    if told.every != 1 or told.first != 1 or told.stitches is not None or told.at_once:
        return []
    if told.further not in (0, len(telling.numbers) - 1):
        return []
    return [Work(told.how, told.by, Where(Which.EVENLY, told.words), told.words)]


def several(row: Row, many: int) -> list[Row | Aside]:
    """ "Next 2 rows: hdc2tog, …, hdc2tog. [44 hdc]": so many rows, of which the count is that of the last."""
    if many == 0:
        # "Work – (–, 2) more rows": a size in which none is worked
        return []
    if row.rerun is not None:
        return [replace(row, rerun=replace(row.rerun, total_rows=many))]
    before = replace(row, stated=() if changes_count(row.items) else row.stated)
    most = min(many, MOST_ROWS) - 1
    named_alone = [replace(before, label=one_of_range(row.label, k)) for k in range(most)]
    return [*named_alone, replace(row, label=one_of_range(row.label, most))]
