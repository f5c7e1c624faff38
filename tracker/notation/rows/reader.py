"""Blocks of a page into blocks of the tree: rows, foundations, asides.

Keeps what one row hands to the following one: a turning chain printed at the end of the row before.
"""

from collections.abc import Sequence

from tracker.notation.moved import with_ends
from tracker.notation.orders import Ordered, given, orders_in
from tracker.notation.page.below import ALL_ROUND, JOINED_FOR, ROW_BEGUN
from tracker.notation.page.block import Block, Page
from tracker.notation.page.labelled.row_names import edging_named
from tracker.notation.page.signs import BEGUN
from tracker.notation.pattern import Aside, Row, Setup
from tracker.notation.phrase.cursor import Context, Cursor
from tracker.notation.phrase.row.remarked.prose import tell_unknown_in
from tracker.notation.phrase.row.sentences import read_row
from tracker.notation.phrase.stitches import base_of, stitch_here
from tracker.notation.rows.before.leading import handed_on, lead_told
from tracker.notation.rows.before.tiled import tiles_of
from tracker.notation.rows.first import FIRST_ROW, first_row_unread, row_within, told_at_first_row
from tracker.notation.rows.joined import Joined
from tracker.notation.rows.kinds import Kinds
from tracker.notation.rows.one_row import OneRow
from tracker.notation.rows.unlabelled import (
    SEVERAL_ROWS,
    announced,
    left_behind,
    to_the_last,
    unread_work,
)
from tracker.notation.tree import Chain, Group, Prose, Repeat, Say, Skip, Turning, Work
from tracker.problems import Source, Span

_LEAST = 3
"""Characters behind a row's count that can say something."""
_NEAR = 400
"""Characters of a part in which its stitch is looked for."""
_FEWEST = 3
"""Things worked that make a row of an edging's words, of which some are not understood."""


class RowReader:
    """Blocks of a page into blocks of the tree; keeps what one row hands to the following one."""

    def __init__(self, source: Source, context: Context, sizes: tuple[str, ...], index: int) -> None:
        self.source = source
        self.context = context
        self.sizes = sizes
        self.index = index
        self.rows = OneRow(source, context, sizes, index)
        self.labelled: set[str | None] = set()
        """Parts that have rows with labels of their own."""

    def blocks(self, page: Page) -> list[Setup | Row | Aside]:
        """Everything the page holds for the size that was chosen, in order."""
        out: list[Setup | Row | Aside] = []
        ordered: list[Ordered] = []
        self.rows.kinds = Kinds(page.blocks, self.source)
        tiled = any(special.base == "tile" for special in self.context.specials.values())
        self.labelled = {block.part for block in page.blocks if block.job == "row"}
        joined = self.rows.joined = Joined(page.parts, page.copies)
        begun: str | None = None
        for block in page.blocks:
            if block.label is not None and block.part != begun:
                begun = block.part
                end = max(b.end for b in page.blocks if b.part == begun and b.start >= block.start)
                self.context.base = self._plain_in(block.start, min(end, block.start + _NEAR))
            if block.sizes and self.sizes and self.sizes[self.index] not in block.sizes:
                continue
            here = [] if block.label is not None else self._orders(block, bool(out))
            if block.job in ("aside", "note"):
                joined.told(self.source.text[block.start : block.end])
            if here and any(one.standing for one in here):
                ordered += here
                span = Span(block.start, block.end)
                out.append(Aside(self.source.words(span), span, block.part))
            elif block.job in ("row", "rerun"):
                if block.label is None:
                    left_behind(out, self.source.text[block.start : block.end])
                out.extend(self.rows.row(block))
                ordered += here if out and isinstance(out[-1], Aside) else self._told_behind(out[-1:])
                if out and tiled:
                    self.rows.tiles = tiles_of(out[-1]) or self.rows.tiles
            elif (row := self._without_label(block, out)) is not None:
                out.append(row)
                here = []
            elif block.job == "setup":
                out.extend(self.setup(block, page))
            elif block.job == "aside" and (
                grow := self.rows.shaped_until(
                    block, self.rows.tokens.of(block.start, block.end, block.sizes)
                )
            ):
                out.extend(grow)
            elif block.job == "aside" and (row := unread_work(block, self.source)) is not None:
                out.append(row)
            elif block.job == "aside" or block.job == "note" and out:
                span = Span(block.start, block.end)
                words = self.source.words(span)
                out.append(Aside(words, span, block.part))
                self.rows.carried = (
                    lead_told(words, span, self.rows.tokens.of, self.context) or self.rows.carried
                )
            if block.job not in ("row", "rerun"):
                ordered += [one for one in here if one not in ordered]
        return given(announced(to_the_last(out, self.source.text), self.source), ordered)

    def _plain_in(self, start: int, end: int) -> str:
        """The first plain stitch that the rows of a part name; the one that was worked before where they name none."""
        faults = len(self.context.problems)
        cursor = Cursor(self.rows.tokens.of(start, end, ()), self.context)
        del self.context.problems[faults:]
        while cursor.i < cursor.end:
            stitch = stitch_here(cursor)
            if stitch is not None and stitch.special is None and (plain := base_of(stitch.name)):
                return plain
            cursor.i += 1
        return self.context.base

    def _orders(self, block: Block, begun: bool) -> list[Ordered]:
        """What a block without a label orders for rows; definitions and foundations only once rows have `begun`."""
        if block.job in ("define", "setup") and not begun:
            return []
        return list(orders_in(self.source.text, block.start, block.end, block.part))

    def _told_behind(self, last: Sequence[Setup | Row | Aside]) -> list[Ordered]:
        """What is ordered for rows to come behind the words of the last one."""
        row = last[0] if last else None
        if not isinstance(row, Row):
            return []
        taken = [end for _, end in with_ends(row.stated)][:1]
        if taken and row.span.end - taken[0] < _LEAST:
            return []
        taken += [end for item, end in with_ends(row.items) if not isinstance(item, Say)]
        told = orders_in(self.source.text, max(taken, default=row.span.end), row.span.end, row.part)
        return [one for one in told if one.scope != "this"]

    def setup(self, block: Block, page: Page) -> list[Setup | Row | Aside]:
        """What comes before the first row of a part; also a first row that is told together with its chain."""
        self.context.row, self.context.part = None, block.part
        self.rows.carried = []
        before = len(self.context.problems)
        named = FIRST_ROW.search(self.source.text, block.start, block.end)
        if named is None:
            tokens = self.rows.tokens.of(block.start, block.end, block.sizes)
        else:
            tokens = [
                *self.rows.tokens.of(block.start, named.start(), block.sizes)[:-1],
                *self.rows.tokens.of(named.end(), block.end, block.sizes),
            ]
        reading = read_row(Cursor(tokens, self.context))
        span = Span(block.start, block.end)
        items = tuple(reading.items)
        told = row_within(items, named.group() if named else "", block, page)
        if told is None:
            told_at_first_row(self.context.problems, before, block, page)
            kept, self.rows.carried = handed_on(list(items), ring=True)
            skipped = next((k for k, item in enumerate(kept) if isinstance(item, Skip)), len(kept))
            over = all(isinstance(item, (Skip, Say, Turning)) for item in kept[skipped:])
            if over and skipped and isinstance(kept[0], Chain):
                # "Ch 13. Skip the first chain (does not count).": the row begins behind it
                kept, self.rows.carried = kept[:skipped], [*kept[skipped:], *self.rows.carried]
            founded = Setup(tuple(kept), span, block.part)
            row = first_row_unread(items, block, page, self.source)
            return [founded] if row is None else [founded, row]
        worked, kind, label = told
        begun_at = items[worked].span.start
        self.context.row = label
        rest = items[worked:]
        whole = Span(begun_at, block.end)
        unread = reading.unread or any(isinstance(item, Prose) for item in rest)
        numbers, stated = (1,) if label.endswith("1") else (), tuple(reading.stated)
        row = Row(
            kind, numbers, label, whole, tuple(self.rows.hand_on(list(rest))), stated, whole, block.part, reading.side,
            unread=unread, sizes=block.sizes,
        )  # fmt: skip
        if row.unread:
            tell_unknown_in(self.context, self.source, label, row.span)
        return [Setup(items[:worked], Span(block.start, begun_at), block.part), row]

    def _without_label(self, block: Block, before: list[Setup | Row | Aside]) -> Row | None:
        """The row that a block without a label tells, read to the last; None where it tells none."""
        row = None
        if block.job == "aside" or block.job == "setup" and before and edging_named(block.part):
            row = self._begun_anew(block)
        if row is None and block.job in ("aside", "setup") and before:
            row = self._worked_anew(block, before)
        return row

    def _begun_anew(self, block: Block) -> Row | None:
        """A row that nobody labelled: yarn is joined, or a part is an edging, and stitches worked. None for prose."""
        edging = block.part if block.part not in self.labelled and edging_named(block.part) else None
        begins = BEGUN.match(self.source.text, block.start, block.end) is not None
        stitches = not begins and JOINED_FOR.match(self.source.text, block.start, block.end) is not None
        if block.part == "Finishing" or not (begins or edging or stitches):
            return None
        faults = len(self.context.problems)
        kind, label = ("edging", edging) if edging else ("row", "Next row")
        if stitches and not edging and ALL_ROUND.search(self.source.text, block.start, block.end) is not None:
            kind, label = "round", "Next rnd"
        self.context.row, self.context.part = label, block.part
        reading = read_row(Cursor(self.rows.tokens.of(block.start, block.end, block.sizes), self.context))
        worked = sum(isinstance(item, (Work, Group, Repeat)) for item in reading.items)
        unread = reading.unread or any(isinstance(item, Prose) for item in reading.items)
        if not worked or unread and not (begins or stitches) and not (edging and worked >= _FEWEST):
            del self.context.problems[faults:]
            return None
        span = Span(block.start, block.end)
        if unread:
            # so much is worked that it is a row, and told as one, whatever else it says
            tell_unknown_in(self.context, self.source, label, span)
        items, self.rows.carried = [*self.rows.carried, *reading.items], []
        self.labelled.add(block.part)
        return Row(
            kind, (), label, span, tuple(self.rows.hand_on(items)), tuple(reading.stated), span, block.part,
            reading.side, unread=unread, sizes=block.sizes,
        )  # fmt: skip

    def _worked_anew(self, block: Block, before: list[Setup | Row | Aside]) -> Row | None:
        """A row that nobody labelled, told below others: "Rev sc in each st across.". None for what works none.

        Only words that are read to the last are taken for one.
        """
        above = next((told for told in reversed(before) if isinstance(told, Row)), None)
        begins = ROW_BEGUN.match(self.source.text, block.start, block.end)
        if above is None or above.part != block.part or block.part == "Finishing" or begins is None:
            return None
        faults = len(self.context.problems)
        self.context.row, self.context.part = "Next row", block.part
        kind = "round" if above.kind == "round" else "row"
        label = "Next rnd" if kind == "round" else "Next row"
        begun = begins.end("lead") if begins["lead"] else block.start
        reading = read_row(Cursor(self.rows.tokens.of(begun, block.end, block.sizes), self.context))
        read = not reading.unread and not any(isinstance(item, Prose) for item in reading.items)
        if SEVERAL_ROWS.search(self.source.text, block.start, block.end) is not None:
            read = False
        if not read or not any(isinstance(item, (Work, Group, Repeat)) for item in reading.items):
            del self.context.problems[faults:]
            return None
        span = Span(block.start, block.end)
        items, self.rows.carried = [*self.rows.carried, *reading.items], []
        return Row(
            kind, (), label, span, tuple(self.rows.hand_on(items)), tuple(reading.stated), span, block.part,
            reading.side, sizes=block.sizes,
        )  # fmt: skip
