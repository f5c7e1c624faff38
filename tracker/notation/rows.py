"""Blocks of a page into blocks of the tree: rows, foundations, asides.

Keeps what one row hands to the following one: a turning chain printed at the end of the row before.
"""

import re
from collections.abc import Sequence

from tracker.expressions import expression
from tracker.notation.again import ReadBefore, changes_the_row, repeated_otherwise
from tracker.notation.definitions.numbers import bordered
from tracker.notation.definitions.squares import in_tiles
from tracker.notation.first_rows import FIRST_ROW, row_within, told_at_first_row
from tracker.notation.growing import (
    changes_count,
    fits_any_width,
    goes_on_alike,
    goes_on_shaping,
    grown,
    grown_until,
    names_the_last,
    one_in,
    shaped,
    step_told,
    told_to_grow,
)
from tracker.notation.joined import Joined
from tracker.notation.leading import handed_on, lead_told, risen, said_of_chain, shut
from tracker.notation.moved import as_told
from tracker.notation.page.block import Block, Page
from tracker.notation.page.called import rounds_called_rows
from tracker.notation.page.labels import edging_named, named
from tracker.notation.page.row_names import called, one_of_range
from tracker.notation.page.signs import BEGUN
from tracker.notation.page.sizes import chosen, numbers_of_size
from tracker.notation.phrase.cursor import Context, Cursor
from tracker.notation.phrase.repeats.unmarked import in_every
from tracker.notation.phrase.rerun import led_in, rerun_here
from tracker.notation.phrase.row.counts import told_in_label
from tracker.notation.phrase.row.prose import tell_unknown_in
from tracker.notation.phrase.row.sentences import read_row
from tracker.notation.phrase.spelling import renamed
from tracker.notation.phrase.told.even import rows_as_before
from tracker.notation.phrase.told.rows import count_of_rows
from tracker.notation.phrase.told.shaping import shaping_after, shaping_here
from tracker.notation.row_tokens import RowTokens
from tracker.notation.scan import T, Token, scan
from tracker.notation.tiled import tiles_in, tiles_of
from tracker.notation.tree import (
    Aside,
    Edge,
    Group,
    Item,
    Join,
    Prose,
    Repeat,
    Rerun,
    Row,
    Setup,
    Travel,
    Work,
)
from tracker.notation.unlabelled import (
    left_behind,
    pattern_said,
    repeats_unread,
    shaped_rows,
    starred,
    tells_the_end,
    to_the_last,
    unread_work,
    works_otherwise,
)
from tracker.problems import Source, Span
from tracker.records import replace

_MANY_OF_SIZES = expression(r"\d+(?:\s*[(\[{][\d,:;/\s–—-]*[)\]}])+|\d+(?:\s?[:/]\s?\d+)+")
"""Of "Next 9[11][13] rows": how many in each size."""
_SHORT = expression(r"r?\s?\d+(?!\d*(?:st|nd|rd|th)\b)", re.IGNORECASE)
"""A label that names neither rows nor rounds: "R3:", "3."."""
_TURNS = expression(r"(?<!not )(?<!n't )\bturn\b", re.IGNORECASE)
_JOINS_ROUND = expression(
    r"(?:\b(?:sl(?:ip)?[\s-]?st(?:itch)?|ss|join)\b[^.;(]{0,24}?\b(?:first|top|beg\w*|to\s+(?:join|close))\b"
    r"|\bjoin(?=\s*(?:[,;.]|turn|rnd|round|with\s+(?:a\s+)?(?:sl|ss))))[^.;(]{0,24}\.?\s*(?:[(\[].*)?$",
    re.IGNORECASE,
)
"""How a round ends, turned or not: "sl st to first sc. (28)"."""
_IN_ROUNDS = expression(
    r"\b(?:rounds?|rnds?|rings?|circle|spiral\w*|join\w*|a?mr\d*|mc\d+|around"
    r"|(?:ss|sl(?:ip)?[\s-]?st(?:itch)?)\s+(?:to|in|into)\s+(?:the\s+)?first)\b",
    re.IGNORECASE,
)
"""Words of a piece that goes round."""


class RowReader:
    """Blocks of a page into blocks of the tree; keeps what one row hands to the following one."""

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
        self.shaping: dict[int, tuple[Sequence[Item], bool]] = {}
        """By identity of a row's items as first read: themselves, so that they live on, and whether they shape."""
        self.by_number: dict[int, Row] = {}  # the last of each number that tells its own stitches
        self.tiles: int | None = None
        """How many tiles the last row has that says so; None before the first."""
        self.short_rows: dict[str | None, bool] = {}
        """By part: True where "R3:" is a row, because the part turns."""
        self.round_rows: set[str | None] = set()
        """Parts whose rounds are called rows: begun in a ring, closed each, and never turned."""
        self.joined = Joined([], 1)
        self.labelled: set[str | None] = set()
        """Parts that have rows with labels of their own."""

    def _shapes(self, row: Row) -> bool:
        """What `shaped` says, told once of rows that are printed in the same words."""
        items = as_told(row.items)
        if id(items) not in self.shaping:
            self.shaping[id(items)] = items, shaped(row)
        return self.shaping[id(items)][1]

    def blocks(self, page: Page) -> list[Setup | Row | Aside]:
        """Everything the page holds for the size that was chosen, in order."""
        out: list[Setup | Row | Aside] = []
        self._short_labels(page)
        tiled = any(special.base == "tile" for special in self.context.specials.values())
        self.labelled = {block.part for block in page.blocks if block.job == "row"}
        joined = self.joined = Joined(page.parts, page.copies)
        for block in page.blocks:
            if block.sizes and self.sizes and self.sizes[self.index] not in block.sizes:
                continue
            if block.job in ("aside", "note"):
                joined.told(self.source.text[block.start : block.end])
            if block.job in ("row", "rerun"):
                if block.label is None:
                    left_behind(out, self.source.text[block.start : block.end])
                out.extend(self.row(block))
                if out and tiled:
                    self.tiles = tiles_of(out[-1]) or self.tiles
            elif (block.job == "aside" or block.job == "setup" and out and edging_named(block.part)) and (
                row := self._begun_anew(block)
            ) is not None:
                out.append(row)
            elif block.job == "setup":
                out.extend(self.setup(block, page))
            elif block.job == "aside" and (
                grow := self._shaped_until(block, self.tokens.of(block.start, block.end))
            ):
                out.extend(grow)
            elif block.job == "aside" and (row := unread_work(block, self.source)) is not None:
                out.append(row)
            elif block.job == "aside" or block.job == "note" and out:
                span = Span(block.start, block.end)
                words = self.source.words(span)
                out.append(Aside(words, span, block.part))
                self.carried = lead_told(words, span, self.tokens.of, self.context) or self.carried
        return to_the_last(out, self.source.text)

    def _shaped_until(self, block: Block, tokens: list[Token]) -> list[Row] | None:
        """ "Continue to increase in this way until there are 72 sc": the rows that takes; None for other words."""
        rows = grown_until(tokens, self.shaped, block) if self.shaped is not None else None
        self.shaped = rows[-1] if rows else self.shaped
        return rows

    def _short_labels(self, page: Page) -> None:
        """ "R3:" is a row where the part turns or nothing speaks of rounds, a round where it doesn't."""
        for block in page.blocks:
            if block.label is not None and block.job == "row":
                text = self.source.text[block.start : block.end]
                if _SHORT.match(text):
                    turns = _TURNS.search(text) is not None and _JOINS_ROUND.search(text) is None
                    self.short_rows[block.part] = self.short_rows.get(block.part, False) or turns
        whole = any(self.short_rows.values())
        if self.short_rows and not whole and not _IN_ROUNDS.search(self.source.text):
            self.short_rows = dict.fromkeys(self.short_rows, True)
        for part, turns in self.short_rows.items():
            self.short_rows[part] = turns or (whole and part is None)
        self.round_rows = rounds_called_rows(page, self.source.text)

    def setup(self, block: Block, page: Page) -> list[Setup | Row | Aside]:
        """What comes before the first row of a part; also a first row that is told together with its chain."""
        self.context.row, self.context.part = None, block.part
        self.carried = []
        before = len(self.context.problems)
        named = FIRST_ROW.search(self.source.text, block.start, block.end)
        if named is None:
            tokens = self.tokens.of(block.start, block.end)
        else:
            tokens = [
                *self.tokens.of(block.start, named.start())[:-1],
                *self.tokens.of(named.end(), block.end),
            ]
        reading = read_row(Cursor(tokens, self.context))
        span = Span(block.start, block.end)
        items = tuple(reading.items)
        told = row_within(items, named.group() if named else "", block, page)
        if told is None:
            told_at_first_row(self.context.problems, before, block, page)
            kept, self.carried = handed_on(list(items), ring=True)
            return [Setup(tuple(kept), span, block.part)]
        worked, kind, label = told
        begun_at = items[worked].span.start
        self.context.row = label
        rest = items[worked:]
        whole = Span(begun_at, block.end)
        unread = reading.unread or any(isinstance(item, Prose) for item in rest)
        numbers, stated = (1,) if label.endswith("1") else (), tuple(reading.stated)
        row = Row(
            kind, numbers, label, whole, tuple(self._hand_on(list(rest))), stated, whole, block.part, reading.side,
            unread=unread, sizes=block.sizes,
        )  # fmt: skip
        if row.unread:
            tell_unknown_in(self.context, self.source, label, row.span)
        return [Setup(items[:worked], Span(block.start, begun_at), block.part), row]

    def row(self, block: Block) -> list[Row | Aside]:
        """The row, or several, that a block tells; an aside when it tells none."""
        label = block.label
        span = Span(block.start, block.end)
        context = self.context
        context.part = block.part
        kind = label.kind if label else "row"
        if label is not None and _SHORT.match(self.source.text, block.start):
            kind = "row" if self.short_rows.get(block.part) else "round"
        if label is not None and block.part in self.round_rows:
            kind = "round"
        context.row = named(label, kind) if label else "This row"
        context.rows_named = len(label.numbers) if label else 0
        words = None
        if label and label.many is None and len(label.numbers) < 2 and not (self.sizes or self.carried):
            words = self.before.words_of(block)
            same = self.before.row(words, block, kind)
            if same is not None:
                self.shaped = same if self._shapes(same) else self.shaped
                return [same]
        faults = len(context.problems)
        tokens = self.tokens.of(block.text_start if label else block.start, block.end)
        numbers = label.numbers if label else ()
        many = label.many if label else None
        if label is not None and len(numbers) >= 1 and self.sizes:
            head = self.source.text[block.start : block.text_start]
            numbers = numbers_of_size(head, numbers, len(self.sizes), self.index)
        if label is not None and many is not None and len(self.sizes) > 1:
            label_tokens = scan(self.source.text, block.start, block.text_start)
            figures, _ = chosen(label_tokens, len(self.sizes), self.index)
            many = next((t.value for t in figures if t.kind is T.NUMBER), many)
        cursor = Cursor(tokens, context)
        if label is None:
            led_in(cursor)
        if label is None and (turns := starred(cursor)):
            text = self.source.words(span)[:60]
            return [Row("row", (), text, block.label_span, (), (), span, block.part, rerun=r) for r in turns]
        if label is None:
            many, body = count_of_rows(cursor, kind)
            if many is not None:
                kind = body
        while label is not None and cursor.kind() in (T.DASH, T.COLON):
            cursor.i += 1
        if (
            label is not None
            and (tiled := tiles_in(block, numbers, kind, self.tiles, tokens, context)) is not None
        ):
            return [*tiled]
        shaping = None if many is not None else shaping_here(cursor)
        more_shaping = [shaping] if shaping is not None else []
        while more_shaping and (further := shaping_after(cursor, more_shaping[-1])) is not None:
            more_shaping.append(further)
        rerun = rerun_here(cursor, counted=label is None and many is not None) if shaping is None else None
        if rerun is not None and rerun.as_set and label is None and rerun.until and rerun.up_to is None:
            rerun = None  # "Work even until it measures 30 cm" adds no row that could be counted
        if rerun is None and label is None and (grow := self._shaped_until(block, tokens)):
            return [*grow]
        if rerun is None and label is None and many is None and shaping is None:
            untold = repeats_unread(block, self.source) or unread_work(block, self.source)
            if untold is not None:
                return [untold]
            return [Aside(self.source.words(span), span, block.part)]
        words_only = False
        if rerun is None and shaping is None and numbers and goes_on_alike(tokens):
            # "Continue in this way, increasing 1 dc at each end of every row"
            before = self.by_number.get(numbers[0] - 1)
            if before is not None and fits_any_width(before):
                rerun = Rerun(before.numbers, 0, None, False, "", span)
                cursor.i = next((k for k, token in enumerate(tokens) if token.kind is T.OPEN), cursor.end)
            elif not step_told(tokens) or self.shaped is None:
                words_only = True
        otherwise = repeated_otherwise(cursor, rerun, self.by_number)
        rerun = rerun if otherwise is None else None
        reading = read_row(cursor, again=rerun is not None or shaping is not None or otherwise is not None)
        if label is not None and not reading.stated:
            whole = block.start, block.text_start
            reading.stated.extend(
                told_in_label(self.source.text, *whole, context, (len(self.sizes), self.index))
            )
        if words_only:
            reading.items = [Prose("", Span(block.text_start, block.end))]
        reading.items[:0] = otherwise or ()
        if any(isinstance(item, Edge) for item in reading.items):
            self.carried = [item for item in self.carried if not isinstance(item, Edge)]
        if isinstance(next(iter(reading.items), None), (Travel, Join)):
            self.carried = [item for item in self.carried if not isinstance(item, Travel)]
        lone = label is None and many is None or in_tiles(reading.items, context.specials)
        if rerun is not None and label is None:
            # the rows that are worked again have a turning chain of their own
            self.carried = []
        self.carried = risen(self.carried, reading.items)
        items = [*self.carried, *(reading.items if lone else in_every(reading.items))]
        self.carried = []
        items = said_of_chain(items)
        items = shut(items, self.source.text[block.start : block.end])
        items = self._hand_on(pattern_said(items, self.source))
        items = bordered(items, context.border) if rerun is None else items
        items = self.joined.about(block, self.source.text[block.start : block.end], items)
        text = label.text if label else self.source.words(span)[:60]
        if label is not None:
            text = called(kind, numbers) if numbers != label.numbers and numbers else named(label, kind)
            if label.many is not None and len(self.sizes) > 1:
                text = _MANY_OF_SIZES.sub(str(many), text)
        renamed(context, faults, text)
        if (
            many is not None
            and rerun is None
            and not any(isinstance(i, (Work, Group, Repeat, Prose)) for i in items)
        ):
            # "Work 2 rows."
            if as_before := rows_as_before(tokens):
                rerun = Rerun((), 0, None, False, "", span, as_set=as_before)
            else:
                items = [*items, Prose("", Span(block.text_start, block.end))]
        unread = reading.unread or any(isinstance(item, Prose) for item in items)
        if (rerun is not None or shaping is not None) and unread:
            # words behind a reference that change nothing do not make it unread
            unread = changes_the_row(tokens) or works_otherwise(reading.items, tokens)
        if rerun is None and label and tells_the_end(items):
            return [Aside(self.source.words(span), span, block.part)]
        step = step_told(tokens) if len(numbers) > 1 and self.shaped is not None else 0
        if step and rerun and self.shaped and not names_the_last(rerun, self.shaped, numbers):
            step = 0
        if unread and not step:
            tell_unknown_in(self.context, self.source, text, span)
        side = (label.side if label else None) or reading.side
        stated = (*reading.stated, *(told_to_grow(tokens) if rerun is not None else ()))
        row = Row(
            kind, numbers, text, block.label_span, tuple(items), stated, span, block.part, side, rerun, unread,
            bool(label and label.alternate), block.sizes, label.called if label else "",
        )  # fmt: skip
        if shaping is not None and not (label and numbers):
            return [each for told in more_shaping for each in shaped_rows(row, told)]
        if many == 0:
            # "Work – (–, 2) more rows": a size in which none is worked
            return []
        if many is not None and not numbers and rerun is not None:
            return [replace(row, rerun=replace(rerun, total_rows=many))]
        if many is not None and many > 1 and not numbers:
            # "Next 2 rows: hdc2tog, …, hdc2tog. [44 hdc]": the count is that of the last
            before = replace(row, stated=() if changes_count(items) else row.stated)
            most = min(many, 2000) - 1
            named_alone = [replace(before, label=one_of_range(text, k)) for k in range(most)]
            return [*named_alone, replace(row, label=one_of_range(text, most))]
        if (
            step
            and self.shaped is not None
            and (
                goes_on_shaping([token.text for token in tokens[:8] if token.kind is T.WORD])
                or not any(isinstance(item, (Work, Group, Repeat)) for item in items)
            )
        ):
            told = grown(row, self.shaped, step, one_in(tokens))
            if told is not None:
                self.shaped = next((r for r in reversed(told) if shaped(r)), self.shaped)
                return list(told)
            tell_unknown_in(self.context, self.source, text, span)
        if words is not None and not self.carried and len(context.problems) == faults:
            self.before.remember(words, row, block, reading.side)
        if shaped(row):
            self.shaped = row
        if rerun is None and len(numbers) == 1:
            self.by_number[numbers[0]] = row
        return [row]

    def _begun_anew(self, block: Block) -> Row | None:
        """A row that nobody labelled: yarn is joined, or a part is an edging, and stitches worked. None for prose."""
        edging = block.part if block.part not in self.labelled and edging_named(block.part) else None
        begins = BEGUN.match(self.source.text, block.start, block.end) is not None
        if block.part == "Finishing" or not (begins or edging):
            return None
        faults = len(self.context.problems)
        kind, label = ("edging", edging) if edging else ("row", "Next row")
        self.context.row, self.context.part = label, block.part
        reading = read_row(Cursor(self.tokens.of(block.start, block.end), self.context))
        worked = any(isinstance(item, (Work, Group, Repeat)) for item in reading.items)
        if not worked or reading.unread or any(isinstance(item, Prose) for item in reading.items):
            del self.context.problems[faults:]
            return None
        span = Span(block.start, block.end)
        items, self.carried = [*self.carried, *reading.items], []
        self.labelled.add(block.part)
        return Row(
            kind, (), label, span, tuple(self._hand_on(items)), tuple(reading.stated), span, block.part,
            reading.side, sizes=block.sizes,
        )  # fmt: skip

    def _hand_on(self, items: list[Item]) -> list[Item]:
        """Moves "ch 3, turn" printed at a row's end to the row it belongs to."""
        kept, carried = handed_on(items)
        self.carried = carried or self.carried
        return kept
