"""A block of a page into the row, or the rows, that it tells: its label, what it refers to, its words, its name.

Keeps what one row hands to the following one: a turning chain printed at its end, and how it was shaped.
"""

from collections.abc import Sequence

from tracker.expressions import expression
from tracker.notation.definitions.filet.squares import in_tiles
from tracker.notation.definitions.numbers import bordered
from tracker.notation.moved import as_told
from tracker.notation.page.block import Block
from tracker.notation.page.labelled.labels import named
from tracker.notation.page.labelled.row_names import called
from tracker.notation.page.sized.conditions import numbers_for
from tracker.notation.pattern import Aside, Row
from tracker.notation.phrase.cursor import Context, Cursor
from tracker.notation.phrase.repeats.loose import in_every, over_and_over
from tracker.notation.phrase.rerun import led_in, rerun_here
from tracker.notation.phrase.row.counts import told_in_label
from tracker.notation.phrase.row.remarked.prose import tell_unknown_in
from tracker.notation.phrase.row.sentences import read_row
from tracker.notation.phrase.spelling import renamed
from tracker.notation.phrase.told.even import rows_as_before
from tracker.notation.phrase.told.rows import count_of_rows
from tracker.notation.phrase.told.shaping import shaping_after, shaping_here
from tracker.notation.rows.before.again import ReadBefore, changes_the_row, only_grows, repeated_otherwise
from tracker.notation.rows.before.altered import alone, begun_otherwise, reshaped
from tracker.notation.rows.before.changing import ends_unread, may_change, may_grow, one_alone, told_to_grow
from tracker.notation.rows.before.growing import (
    MOST,
    fits_any_width,
    goes_on_alike,
    goes_on_shaping,
    goes_on_unsaid,
    grown,
    names_the_last,
    one_in,
    shaped,
    step_by_count,
    step_told,
)
from tracker.notation.rows.before.leading import handed_on, led_by, said_of_chain, shut, under_the_chain
from tracker.notation.rows.before.tiled import tiles_in
from tracker.notation.rows.before.turns import Numbered
from tracker.notation.rows.before.until import again_until, grown_until, middle_step
from tracker.notation.rows.joined import Joined
from tracker.notation.rows.kinds import Kinds
from tracker.notation.rows.telling import Telling, several, shaped_at_once
from tracker.notation.rows.tokens import RowTokens
from tracker.notation.rows.unlabelled import (
    pattern_said,
    repeats_unread,
    shaped_rows,
    starred,
    tells_the_end,
    unread_work,
)
from tracker.notation.scan import T, Token
from tracker.notation.tree import Edge, Group, Item, Join, Prose, Repeat, Rerun, Say, Travel, Work
from tracker.problems import Source, Span
from tracker.records import replace

_MANY_OF_SIZES = expression(r"\d+(?:\s*[(\[{][\d,:;/\s–—-]*[)\]}])+|\d+(?:\s?[:/]\s?\d+)+")
"""Of "Next 9[11][13] rows": how many in each size."""


class OneRow:
    """Blocks that are rows into rows, one at a time and in order."""

    def __init__(self, source: Source, context: Context, sizes: tuple[str, ...], index: int) -> None:
        self.source = source
        self.context = context
        self.sizes = sizes
        self.index = index
        self.tokens = RowTokens(source, context, sizes, index)
        self.before = ReadBefore(source.text, context)
        self.carried: list[Item] = []
        """A turning chain printed at the end of the row before."""
        self.shaped: Row | None = None
        """The last row that increases or decreases in its repeats; None before the first."""
        self.above: Row | None = None
        """The row before; None before the first."""
        self.shaping: dict[int, tuple[Sequence[Item], bool]] = {}
        """By identity of a row's items as first read: themselves, so that they live on, and whether they shape."""
        self.numbered = Numbered()
        self.tiles: int | None = None
        """How many tiles the last row has that says so; None before the first."""
        self.kinds = Kinds((), source)
        self.joined = Joined([], 1)

    def _shapes(self, row: Row) -> bool:
        """What `shaped` says, told once of rows that are printed in the same words."""
        items = as_told(row.items)
        if id(items) not in self.shaping:
            self.shaping[id(items)] = items, shaped(row)
        return self.shaping[id(items)][1]

    def row(self, block: Block) -> list[Row | Aside]:
        """The row, or several, that a block tells; an aside when it tells none."""
        kind, label = self.kinds.of(block), block.label
        self.context.part = block.part
        self.context.row = named(label, kind) if label else "This row"
        self.context.rows_named = len(label.numbers) if label else 0
        words = None
        if label and label.many is None and len(label.numbers) < 2 and not (self.sizes or self.carried):
            words = self.before.words_of(block)
            if (same := self.before.row(words, block, kind)) is not None:
                self.shaped = same if self._shapes(same) else self.shaped
                self.above = same
                self.numbered.note(same)
                return [same]
        faults = len(self.context.problems)
        telling = self._begun(block, kind)
        if (rows := self._without_stitches(telling)) is not None:
            return rows
        self._refer(telling)
        if (rows := self._unlabelled(telling)) is not None:
            return rows
        self._read(telling)
        self._gather(telling)
        renamed(self.context, faults, telling.text)
        told = self._rows(telling)
        last = told[-1] if told else None
        self.above = last if isinstance(last, Row) else self.above
        plain = len(told) == 1 and told[0] is telling.row and not self.carried
        if telling.row is not None and plain and words is not None and len(self.context.problems) == faults:
            self.before.remember(words, telling.row, block, telling.reading.side)
        return told

    def _begun(self, block: Block, kind: str) -> Telling:
        """A row before its words are read: its numbers, and how many rows it is, in the size that was chosen."""
        label = block.label
        tokens = self.tokens.of(block.text_start if label else block.start, block.end, block.sizes)
        cursor = Cursor(tokens, self.context)
        if label is None:
            led_in(cursor)
            return Telling(block, kind, (), None, cursor)
        numbers, many = label.numbers, label.many
        if numbers and self.sizes:
            head = self.source.text[block.start : block.text_start]
            numbers = numbers_for(head, numbers, self.sizes, self.index, block.sizes)
        if len(self.sizes) > 1:
            many = self.tokens.many_told(block, many)
        while cursor.kind() in (T.DASH, T.COLON):
            cursor.i += 1
        return Telling(block, kind, numbers, many, cursor)

    def _without_stitches(self, telling: Telling) -> list[Row | Aside] | None:
        """Rows told by a star's turns or by how many tiles they have; None for any other."""
        block, context = telling.block, self.context
        if telling.label is None:
            if turns := starred(telling.cursor):
                text, span = self.source.words(telling.span)[:60], block.label_span
                return [
                    Row("row", (), text, span, (), (), telling.span, block.part, rerun=rerun)
                    for rerun in turns
                ]
            telling.many, body = count_of_rows(telling.cursor, telling.kind)
            telling.kind = body if telling.many is not None else telling.kind
            return None
        tiled = tiles_in(block, telling.numbers, telling.kind, self.tiles, telling.tokens, context)
        return [*tiled] if tiled is not None else None

    def _refer(self, telling: Telling) -> None:
        """Takes the shaping or the rows to work again that a row begins with."""
        cursor, label = telling.cursor, telling.label
        shaping = None if telling.many is not None else shaping_here(cursor)
        while shaping is not None:
            telling.shapings.append(shaping)
            shaping = shaping_after(cursor, shaping)
        if not telling.shapings:
            rerun = rerun_here(cursor, counted=label is None and telling.many is not None)
            # "Work even until it measures 30 cm" adds no row that could be counted
            uncounted = rerun and rerun.as_set and label is None and rerun.until and rerun.up_to is None
            telling.rerun = None if uncounted else rerun

    def _unlabelled(self, telling: Telling) -> list[Row | Aside] | None:
        """What is told without a label, where it is no row to be read: it grows on, or tells none. None for a row."""
        if telling.rerun is not None or telling.label is not None:
            return None
        if grow := self.shaped_until(telling.block, telling.tokens):
            return [*grow]
        if telling.many is not None or telling.shapings:
            return None
        untold = repeats_unread(telling.block, self.source) or unread_work(telling.block, self.source)
        if untold is not None:
            return [untold]
        return [Aside(self.source.words(telling.span), telling.span, telling.block.part)]

    def _read(self, telling: Telling) -> None:
        """Reads the words behind the label, and behind what they refer to."""
        block, cursor = telling.block, telling.cursor
        words_only = self._goes_on(telling)
        rerun = telling.rerun
        named = self._named(rerun) if rerun is not None else []
        one = named[0] if len(named) == 1 else None
        otherwise = repeated_otherwise(cursor, rerun, one, self.above)
        if otherwise is None and not telling.refers and telling.label is not None:
            otherwise = begun_otherwise(cursor, self.numbered.own)
        if otherwise is not None:
            telling.rerun = None
        reading = read_row(cursor, again=telling.refers or otherwise is not None)
        if telling.label is not None and not reading.stated:
            reading.stated.extend(
                told_in_label(
                    self.source.text,
                    block.start,
                    block.text_start,
                    self.context,
                    (len(self.sizes), self.index),
                )
            )
        if words_only:
            reading.items = [Prose("", Span(block.text_start, block.end))]
        own = one if rerun is not None and alone(rerun) and otherwise is None else None
        if own is not None and (reshaping := reshaped(own.items, reading.items)) is not None:
            # "Rep Row 2, dec 1 st at each end": a row of its own
            telling.rerun = None
            otherwise, reading.items = reshaping
        telling.otherwise = otherwise is not None
        reading.items[:0] = otherwise or shaped_at_once(telling)
        telling.reading = reading

    def _goes_on(self, telling: Telling) -> bool:
        """ "Continue in this way, increasing 1 dc at each end": as the row before, where that fits any width.

        True where nobody can tell what is worked, so that the words are kept as they stand.
        """
        numbers, tokens = telling.numbers, telling.tokens
        if telling.refers or not numbers:
            return False
        if not goes_on_alike(tokens):
            return goes_on_unsaid(tokens) and not (self._by_count(telling) or step_told(tokens))
        before = self.numbered.own.get(numbers[0] - 1)
        if before is not None and fits_any_width(before) and not one_alone(before):
            telling.rerun = Rerun(before.numbers, 0, None, False, "", telling.span)
            cursor = telling.cursor
            cursor.i = next((k for k, token in enumerate(tokens) if token.kind is T.OPEN), cursor.end)
            return False
        return not step_told(tokens) or self.shaped is None

    def _gather(self, telling: Telling) -> None:
        """The items of the row, with what the row before handed on to it, and its name."""
        block, label, read = telling.block, telling.label, telling.reading.items
        text = self.source.text[block.start : block.end]
        if any(isinstance(item, Edge) for item in read):
            self.carried = [item for item in self.carried if not isinstance(item, Edge)]
        if isinstance(next(iter(read), None), (Travel, Join)):
            self.carried = [item for item in self.carried if not isinstance(item, Travel)]
        if telling.rerun is not None and label is None:
            # the rows that are worked again have a turning chain of their own
            self.carried = []
        lone = label is None and telling.many is None or in_tiles(read, self.context.specials)
        several = any(n > 1 for told in telling.reading.stated for _, n in told.counts)
        items = led_by(self.carried, read, read if lone else in_every(read, several))
        self.carried = []
        items = under_the_chain(said_of_chain(items), self.source.text)
        items = self.hand_on(pattern_said(shut(items, text), self.source))
        placed = any(isinstance(item, Say) and item.bears for item in items)
        items = items if telling.reading.stated or placed else over_and_over(items)
        items = bordered(items, self.context.border) if telling.rerun is None else items
        telling.items = self.joined.about(block, text, items)
        telling.text = self._name(telling)
        if (
            telling.many is not None
            and telling.rerun is None
            and not any(isinstance(i, (Work, Group, Repeat, Prose)) for i in telling.items)
        ):
            # "Work 2 rows."
            if as_before := rows_as_before(telling.tokens):
                telling.rerun = Rerun((), 0, None, False, "", telling.span, as_set=as_before)
            else:
                telling.items.append(Prose("", Span(block.text_start, block.end)))

    def _name(self, telling: Telling) -> str:
        """What the row is called, in the size that was chosen."""
        label, numbers = telling.label, telling.numbers
        if label is None:
            return self.source.words(telling.span)[:60]
        text = named(label, telling.kind)
        if numbers and numbers != label.numbers:
            text = called(telling.kind, numbers)
        if label.many is not None and len(self.sizes) > 1:
            text = _MANY_OF_SIZES.sub(str(telling.many), text)
        return text

    def _rows(self, telling: Telling) -> list[Row | Aside]:
        """The rows that were told."""
        block, label, tokens, items = telling.block, telling.label, telling.tokens, telling.items
        numbers, many, rerun = telling.numbers, telling.many, telling.rerun
        if rerun is None and label and tells_the_end(items):
            return [Aside(self.source.words(telling.span), telling.span, block.part)]
        unread = self._unread(telling)
        step = self._step(telling)
        if unread and not step:
            tell_unknown_in(self.context, self.source, telling.text, telling.span)
        side = (label.side if label else None) or telling.reading.side
        side = side or (telling.reading.faces(self.source) if len(numbers) < 2 else None)
        stated = (*telling.reading.stated, *(told_to_grow(tokens) if rerun is not None else ()))
        row = Row(
            telling.kind, numbers, telling.text, block.label_span, tuple(items), stated, telling.span, block.part,
            side, rerun, unread, bool(label and label.alternate), block.sizes, label.called if label else "",
            telling.otherwise,
        )  # fmt: skip
        if telling.shapings and not (label and numbers):
            return [each for told in telling.shapings for each in shaped_rows(row, told)]
        if many is not None and (many == 0 or not numbers and (rerun is not None or many > 1)):
            return several(row, many)
        told = self._grown(telling, row, step) if step else ()
        if told:
            return [*told]
        telling.row = row = row if told is not None else replace(row, unread=True)
        if shaped(row):
            self.shaped = row
        self.numbered.note(row)
        return [row]

    def _unread(self, telling: Telling) -> bool:
        """True when some of the words are not understood and may change the row."""
        reading = telling.reading
        unread = reading.unread or any(isinstance(item, Prose) or ends_unread(item) for item in telling.items)
        rerun = telling.rerun
        if rerun is not None:
            named = self._named(rerun)
            grows = not (named or rerun.as_set) or any(may_grow(row.items) for row in named)
            if may_change(rerun, reading.items, self.source, grows=grows):
                return True
        if unread and telling.refers:
            # words behind a reference that change nothing do not make it unread
            before = (
                self.numbered.own.get(rerun.rows[0]) if rerun is not None and len(rerun.rows) == 1 else None
            )
            if before is not None and only_grows(telling.tokens, before):
                return False
            return changes_the_row(telling.tokens)
        return unread

    def _named(self, rerun: Rerun) -> list[Row]:
        """The rows that are worked again, as far as they stand by their numbers or are the last one."""
        if rerun.rows:
            return [row for row in (self.numbered.own.get(n) for n in rerun.rows[:MOST]) if row is not None]
        above = self.above
        return [above] if rerun.last == 1 and above is not None and above.rerun is None else []

    def _step(self, telling: Telling) -> int:
        """By how much each row of a range grows that tells no more than that; 0 where it tells its stitches."""
        if not telling.numbers or self.shaped is None:
            return 0
        if (
            telling.rerun
            and not telling.rerun.as_set
            and not names_the_last(telling.rerun, self.shaped, telling.numbers)
            and not self.numbered.by_turns(telling.rerun, telling.numbers, self.shaped)
        ):
            return 0
        again = telling.rerun is not None and names_the_last(telling.rerun, self.shaped, telling.numbers)
        told = step_told(telling.tokens, again) if again or len(telling.numbers) > 1 else 0
        if not told and self.above is self.shaped and telling.rerun is None:
            told = middle_step(telling.tokens, self.shaped)
        return told or self._by_count(telling, again)

    def _by_count(self, telling: Telling, again: bool = False) -> int:
        """The step of "Cont to inc 12 dc each rnd" right behind a round that adds as many; 0 for all else."""
        behind = self.shaped is not None and self.shaped.numbers[-1:] == (telling.numbers[0] - 1,)
        return step_by_count(telling.tokens, self.shaped, again) if self.shaped is not None and behind else 0

    def _grown(self, telling: Telling, row: Row, step: int) -> Sequence[Row] | None:
        """The rows of a range that grow by a step as those before it; () where they do not, None where they cannot."""
        words = [token.text for token in telling.tokens[:8] if token.kind is T.WORD]
        # "as Row 3, with one dc fewer before and after": one is how many fewer, and no work
        works = len([1 for i in telling.items if isinstance(i, (Work, Group, Repeat))]) > bool(telling.rerun)
        if self.shaped is None or works and not goes_on_shaping(words):
            return ()
        told = grown(
            row,
            self.shaped,
            step,
            one_in(telling.tokens),
            self.numbered.by_turns(telling.rerun, telling.numbers, self.shaped),
        )
        if told is None:
            tell_unknown_in(self.context, self.source, telling.text, telling.span)
            return None
        self.shaped = next((r for r in reversed(told) if shaped(r)), self.shaped)
        return told

    def shaped_until(self, block: Block, tokens: list[Token]) -> list[Row] | None:
        """ "Continue to increase in this way until there are 72 sc": the rows that takes; None for other words."""
        rows = grown_until(tokens, self.shaped, block, self.above) if self.shaped is not None else None
        self.shaped = rows[-1] if rows else self.shaped
        if rows is None and self.above is not None and (again := again_until(tokens, self.above, block)):
            return [again]
        return rows

    def hand_on(self, items: list[Item]) -> list[Item]:
        """Moves "ch 3, turn" printed at a row's end to the row it belongs to."""
        kept, carried = handed_on(items)
        self.carried = carried or self.carried
        return kept
