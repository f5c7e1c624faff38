"""Blocks of a page into blocks of the tree: rows, foundations, asides.

Keeps what one row hands to the following one: a turning chain printed at the end of the row before.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from tracker.notation.page.block import Block, Page
from tracker.notation.page.labels import called
from tracker.notation.page.sizes import chosen
from tracker.notation.phrase.cursor import Context, Cursor
from tracker.notation.phrase.rerun import rerun_here
from tracker.notation.phrase.row.sentences import read_row
from tracker.notation.scan import T, Token, scan
from tracker.notation.tree import (
    Aside,
    Chain,
    Group,
    Item,
    Mark,
    Prose,
    Repeat,
    Row,
    Say,
    Setup,
    Turn,
    Turning,
    Work,
)
from tracker.problems import Label, Problem, Severity, Source, Span

MAX_ROW_TOKENS = 20_000
"""Tokens of a row that are read; a long one has some hundreds."""


_CHANGES = frozenset(
    "except but omitting omit instead replacing replace beginning starting increasing decreasing inc dec only".split()
)
"""Words behind "rep Row 2" that make it another row."""


_SHORT = re.compile(r"r?\s?\d", re.IGNORECASE)
"""A label that names neither rows nor rounds: "R3:", "3."."""
_IN_ROUNDS = re.compile(r"\b(?:rounds?|rnds?|rings?|circle|spiral\w*|join\w*|mr|around)\b", re.IGNORECASE)
"""Words of a piece that goes round."""


class RowReader:
    """Blocks of a page into blocks of the tree; keeps what one row hands to the following one."""

    def __init__(self, source: Source, context: Context, sizes: tuple[str, ...], index: int) -> None:
        self.source = source
        self.context = context
        self.sizes = sizes
        self.index = index
        self.carried: list[Item] = []
        """A turning chain printed at the end of the row before."""
        self.short_rows: dict[str | None, bool] = {}
        """By part: True where "R3:" is a row, because the part turns."""

    def blocks(self, page: Page) -> list[Setup | Row | Aside]:
        """Everything the page holds for the size that was chosen, in order."""
        out: list[Setup | Row | Aside] = []
        self._short_labels(page)
        for block in page.blocks:
            if block.sizes and self.sizes and self.sizes[self.index] not in block.sizes:
                continue
            if block.job in ("row", "rerun"):
                out.extend(self.row(block))
            elif block.job == "setup":
                out.append(self.setup(block))
                self.carried = []
            elif block.job == "aside" or block.job == "note" and out:
                span = Span(block.start, block.end)
                out.append(Aside(self.source.words(span), span, block.part))
        return out

    def _short_labels(self, page: Page) -> None:
        """ "R3:" is a row where the part turns, a round where it doesn't."""
        for block in page.blocks:
            if block.label is not None and block.job == "row":
                text = self.source.text[block.start : block.end]
                if _SHORT.match(text):
                    turns = bool(re.search(r"(?<!not )(?<!n't )\bturn\b", text, re.IGNORECASE))
                    self.short_rows[block.part] = self.short_rows.get(block.part, False) or turns
        whole = any(self.short_rows.values())
        if self.short_rows and not whole and not _IN_ROUNDS.search(self.source.text):
            # no word of a ring, a round or a join anywhere: rows whose turns go without saying
            self.short_rows = dict.fromkeys(self.short_rows, True)
        for part, turns in self.short_rows.items():
            self.short_rows[part] = turns or (whole and part is None)

    def tokens(self, start: int, end: int) -> list[Token]:
        """Tokens of a stretch of the text, with the figures of one size in them."""
        tokens = scan(self.source.text, start, end)
        if len(tokens) > MAX_ROW_TOKENS:
            self.context.problems.append(
                Problem(
                    "T107",
                    Severity.WARNING,
                    "A row is longer than a row can be; the rest of it was not read",
                    Label(Span(start, min(end, start + 40))),
                )
            )
            tokens = [*tokens[:MAX_ROW_TOKENS], Token(T.END, "", end, end)]
        if len(self.sizes) > 1:
            tokens, odd = chosen(tokens, len(self.sizes), self.index)
            for wrong in odd:
                self.context.problems.append(
                    Problem(
                        "C211",
                        Severity.ERROR,
                        f"{self.context.row or 'The foundation'} lists {wrong.figures} figures, "
                        f"and there are {len(self.sizes)} sizes",
                        Label(Span(wrong.start, wrong.end), f"{wrong.figures} figures"),
                        self.context.row,
                        None,
                        self.context.part,
                        "Give one figure for each size, a dash for one that is not worked.",
                    )
                )
        return tokens

    def setup(self, block: Block) -> Setup:
        """What comes before the first row of a part."""
        self.context.row, self.context.part = None, block.part
        cursor = Cursor(self.tokens(block.start, block.end), self.context)
        reading = read_row(cursor)
        return Setup(tuple(reading.items), Span(block.start, block.end), block.part)

    def row(self, block: Block) -> list[Row | Aside]:
        """The row, or several, that a block tells; an aside when it tells none."""
        label = block.label
        span = Span(block.start, block.end)
        context = self.context
        context.part = block.part
        kind = label.kind if label else "row"
        if label is not None and _SHORT.match(self.source.text, block.start):
            kind = "row" if self.short_rows.get(block.part) else "round"
        context.row = label.text if label else "This row"
        tokens = self.tokens(block.text_start if label else block.start, block.end)
        numbers = label.numbers if label else ()
        many = label.many if label else None
        if label is not None and len(numbers) >= 1 and self.sizes:
            numbers = self._sized_numbers(block, numbers)
        if label is not None and many is not None and len(self.sizes) > 1:
            label_tokens = scan(self.source.text, block.start, block.text_start)
            figures, _ = chosen(label_tokens, len(self.sizes), self.index)
            many = next((t.value for t in figures if t.kind is T.NUMBER), many)
        cursor = Cursor(tokens, context)
        if label is None:
            many, body = _count_of_rows(cursor, kind)
            if many is not None:
                kind = body
        rerun = rerun_here(cursor)
        if rerun is None and label is None and many is None:
            text = self.source.words(span)
            return [Aside(text, span, block.part)]
        reading = read_row(cursor, again=rerun is not None)
        items = [*self.carried, *reading.items]
        self.carried = []
        items = self._hand_on(items)
        text = label.text if label else self.source.words(span)[:60]
        if label is not None and numbers != label.numbers and numbers:
            text = called(kind, numbers)
        elif label is not None and kind != label.kind:
            text = re.sub(r"^R(?:ow|nd)", "Rnd" if kind == "round" else "Row", text)
        label_span = Span(
            block.start, max(block.start + 1, block.text_start if label else min(block.end, block.start + 12))
        )
        unread = reading.unread or any(isinstance(item, Prose) for item in items)
        if rerun is not None and unread:
            # words behind a reference that change nothing do not make it unread
            unread = bool(_CHANGES & {token.text for token in tokens})
        if unread:
            self._tell_unread(items, text, span, block.part)
        side = (label.side if label else None) or reading.side
        row = Row(
            kind,
            numbers,
            text,
            label_span,
            tuple(items),
            tuple(reading.stated),
            span,
            block.part,
            side,
            rerun,
            unread,
            bool(label and label.alternate),
            block.sizes,
        )
        if many is not None and not numbers and rerun is not None:
            return [replace(row, rerun=replace(rerun, total_rows=many))]
        if many is not None and many > 1 and not numbers:
            return [replace(row) for _ in range(min(many, 2000))]
        return [row]

    def _sized_numbers(self, block: Block, numbers: Sequence[int]) -> Sequence[int]:
        """ "Rows 5-20 (24, 28)": the last row is the size's own; "Rnds 6-13 (6-14, 7-16)" gives the whole range."""
        head = self.source.text[block.start : block.text_start]
        hit = re.search(r"(\d+)(?:\s*-\s*(\d+))?((?:\s*[(\[]\s*[\d\s,–—-]+\s*[)\]])+)", head)
        if hit is None:
            return numbers
        pieces = [piece.strip() for piece in re.split(r"[,()\[\]]+", hit[3]) if piece.strip()]
        if len(pieces) != len(self.sizes) - 1 or self.index == 0:
            return numbers
        pick = pieces[self.index - 1]
        ends = [int(n) for n in re.findall(r"\d+", pick)]
        if not ends:
            return numbers
        first = int(hit[1])
        if hit[2] is None:
            return (ends[0],) if len(ends) == 1 else tuple(range(ends[0], ends[1] + 1))
        if len(ends) == 2:
            return tuple(range(ends[0], ends[1] + 1))
        return tuple(range(first, max(first, ends[0]) + 1))

    def _tell_unread(self, items: Sequence[Item], label: str, span: Span, part: str | None) -> None:
        """Says which words of a row could not be read; one note a row, unless an error tells of it already."""
        if any(
            problem.row == label and span.start <= problem.label.span.start < span.end
            for problem in self.context.problems
        ):
            return
        first = next((item.span for item in items if isinstance(item, Prose)), span)
        words = self.source.words(first)
        told = words if len(words) <= 60 else words[:57].rstrip() + "…"
        self.context.problems.append(
            Problem(
                "T101",
                Severity.NOTE,
                f"{label} has words that could not be read: “{told}”",
                Label(first, "told word for word"),
                label,
                None,
                part,
                "The row is followed as it is written, and its count is not claimed.",
            )
        )

    def _hand_on(self, items: list[Item]) -> list[Item]:
        """Moves "ch 3, turn" printed at a row's end to the row it belongs to."""
        last = len(items)
        while last and isinstance(items[last - 1], (Say, Turning, Mark)):
            last -= 1
        k = last
        while (
            k
            and isinstance(items[k - 1], (Turn, Chain, Turning))
            or k
            and isinstance(items[k - 1], Say)
            and k < last
        ):
            k -= 1
        tail = [item for item in items[k:last] if isinstance(item, (Turn, Chain, Turning))]
        chains = [item for item in tail if isinstance(item, Chain)]
        turned = any(isinstance(item, Turn) and item.turned for item in tail)
        if (
            not chains
            or not turned
            or k == 0
            or not any(isinstance(item, (Work, Group, Repeat)) for item in items[:k])
        ):
            return items
        says = [item for item in items[k:] if isinstance(item, Say)]
        self.carried = [
            Turn(next(item.span for item in tail if isinstance(item, Turn))),
            *(item for item in items[k:] if isinstance(item, (Chain, Turning))),
        ]
        return [*items[:k], *says]


def _rows_at_end(c: Cursor, kind: str) -> tuple[int | None, str]:
    """ "Work even in sc for 4 more rows": how many, and their kind; the cursor then ends before "for"."""
    if c.text() not in ("work", "continue", "cont"):
        return None, kind
    for k in range(c.i + 1, c.end - 1):
        if c.tokens[k].text == "for":
            save, c.i = c.i, k + 1
            c.take_any("the", "a", "another")
            c.take("next")
            value = c.value()
            c.i += 1
            c.take_any("more", "further", "additional")
            word = c.text()
            after = c.kind(1)
            c.i = save
            if (
                value is not None
                and word in _ROW_WORDS
                and after in (T.END, T.PERIOD, T.OPEN, T.DASH, T.COLON)
            ):
                at = c.tokens[k].start
                c.tokens[k:] = [Token(T.END, "", at, at)]
                c.end = k
                return min(value, 10_000), "row" if word.startswith("row") else "round"
            break
    return None, kind


_ROW_WORDS = frozenset("rows row rnds rnd rounds round".split())
_PLAINLY = frozenset("even in pattern of plain straight as follows each".split())
"""Words behind "work 9 rnds" that change nothing."""


def _count_of_rows(c: Cursor, kind: str) -> tuple[int | None, str]:
    """ "Work 9 rnds even:", "Next 8 rows:": how many, and their kind; the cursor moves past it."""
    start = c.i
    while c.take_any("work", "next", "for", "the", "another", "a", "further"):
        pass
    value = c.value()
    if value is None:
        c.i = start
        return _rows_at_end(c, kind)
    c.i += 1
    c.take_any("more", "further", "additional")
    word = c.take_any(*_ROW_WORDS)
    if not word:
        c.i = start
        return None, kind
    kind = "row" if word.startswith("row") else "round"
    while c.kind() is T.WORD and c.text() in _PLAINLY:
        c.i += 1
    if c.kind() in (T.COLON, T.COMMA, T.DASH):
        c.i += 1
    return min(value, 10_000), kind
