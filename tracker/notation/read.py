"""A text into a Pattern.

Any text comes in; a Pattern comes out with the problems of reading it. What is not read is kept word for word;
nothing raises, and nothing is lost.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from tracker.notation.definitions import define, keys_of
from tracker.notation.page.clean import clean
from tracker.notation.page.layout import Block, Page, lay_out
from tracker.notation.page.sizes import chosen
from tracker.notation.phrase.asides import turning_statement
from tracker.notation.phrase.cursor import Context, Cursor
from tracker.notation.phrase.rerun import rerun_here
from tracker.notation.phrase.row import Reading, read_row
from tracker.notation.scan import T, Token, scan
from tracker.notation.tree import (
    Aside,
    Chain,
    Group,
    Habits,
    Item,
    Join,
    Mark,
    Pattern,
    Prose,
    Repeat,
    Row,
    Say,
    Setup,
    Special,
    Turn,
    Turning,
    Where,
    Which,
    Work,
)  # fmt: skip
from tracker.problems import Label as Words
from tracker.problems import Problem, Severity, Source, Span
from tracker.trade.terms import terms_of

MAX_TEXT = 2_000_000
"""Characters that are read; a pattern is a few thousand."""
MAX_ROW_TOKENS = 20_000


def source_of(name: str, text: str) -> Source:
    """A source as everything else expects it: cleaned, and no longer than is read."""
    return Source(name, clean(text[:MAX_TEXT]))


def read(source: Source, size: str | None = None) -> tuple[Pattern, tuple[Problem, ...]]:
    """The pattern in a source made by `source_of`, for one of its sizes (the first when None)."""
    page = lay_out(source.text)
    terms = terms_of(source.text)
    context = Context(uk=terms.uk, colours=_colours(source.text))
    sizes = page.sizes
    index = next((i for i, name in enumerate(sizes) if size is not None and name.lower() == size.lower()), 0)
    if not sizes:
        sizes = _unnamed_sizes(source.text, page)
        index = min(index, max(0, len(sizes) - 1))
        if size is not None:
            index = next((i for i, name in enumerate(sizes) if name.lower() == size.lower()), 0)
    if terms.against:
        start, end, word = terms.against[0]
        label = next((b.label.text for b in page.blocks if b.label and b.start <= start < b.end), None)
        context.problems.append(
            Problem(
                "T105", Severity.ERROR, f"“{word}” is a {'US' if terms.uk else 'UK'} name in a pattern in {'UK' if terms.uk else 'US'} terms",
                Words(Span(start, end), "the other terms"), label, None, None,
                "Find out which terms the designer used, and write every stitch in them.",
            )
        )  # fmt: skip
    for block in page.blocks:
        if block.job == "define":
            text = source.text[block.start : block.end]
            found = define(text, block.start, context, source)
            for special in found:
                for key in keys_of(text):
                    context.specials.setdefault(key, special)
    habits = _habits(source, page, context)
    reader = _Reader(source, context, sizes, index)
    blocks = reader.blocks(page)
    if page.cut:
        context.problems.append(
            Problem(
                "T107",
                Severity.WARNING,
                "The text is longer than a pattern can be; the rest was not read",
                Words(Span(0, 1)),
                help="Split it into its parts.",
            )
        )
    notes = tuple(source.words(Span(b.start, b.end)) for b in page.blocks if b.job in ("note", "define"))
    specials = tuple(dict.fromkeys(context.specials.values()))
    pattern = Pattern(
        page.title or source.name, terms.uk, terms.stated, sizes, sizes[index] if sizes else None, tuple(blocks), specials, habits, notes,
        tuple(dict.fromkeys(page.parts)), page.copies,
    )  # fmt: skip
    return pattern, tuple(context.problems)


def _colours(text: str) -> frozenset[str]:
    """Names that a pattern gives its colours: "a", "b", "mc"."""
    found = re.findall(
        r"\b(?:colou?rs?|yarn|shade|with|in)\s+(?:\()?([A-H])\b|\b(MC|CC\d?|C\d)\b|\(([A-H])\)\s*\d|\b([A-H])\s*[:=–—-]\s*\w",
        text[:100_000],
    )
    return frozenset(name.lower() for groups in found for name in groups if name)


def _unnamed_sizes(text: str, page: Page) -> tuple[str, ...]:
    """Sizes of a pattern that lists figures for several and names none: called "1", "2", …"""
    for block in page.blocks:
        if block.job in ("setup", "row"):
            hit = re.search(
                r"\bch(?:ain)?\s+\d+\s*[(\[]\s*(\d+(?:\s*,\s*\d+)+)\s*[)\]]",
                text[block.start : block.end],
                re.IGNORECASE,
            )
            if hit:
                return tuple(str(n + 1) for n in range(hit[1].count(",") + 2))
    return ()


_SPIRAL = re.compile(
    r"\b(?:spirals?|continuous(?:ly)?|do not join|don't join|no joining|without joining|not joined|unjoined)\b",
    re.IGNORECASE,
)
_JOINED = re.compile(
    r"\bjoin(?:ing)?\s+(?:every|each|all|at the end)|\b(?:each|every|all)\s+(?:rnds?|rounds?)\b[^.]{0,50}\bjoin|\bjoined rounds\b",
    re.IGNORECASE,
)
_TURNED = re.compile(
    r"\bturn\s+(?:after|at (?:the )?end of)\s+(?:each|every)\b|\bworked (?:flat|back and forth)\b",
    re.IGNORECASE,
)
_STATEMENT = re.compile(r"[^.\n]*\b(?:count|counts|counted)\b[^.\n]*", re.IGNORECASE)


def _habits(source: Source, page: Page, context: Context) -> Habits:
    """What notes say once for all rows."""
    turning: list[tuple[int | str, Turning]] = []
    joins: bool | None = None
    turns: bool | None = None
    for block in page.blocks:
        if block.job not in ("note", "define", "title", "aside"):
            continue
        text = source.text[block.start : block.end]
        if _SPIRAL.search(text):
            joins = False if joins is None else joins
        if _JOINED.search(text):
            joins = True
        if _TURNED.search(text):
            turns = True
        if block.job == "define":
            continue
        for hit in re.finditer(r"[^.!]+(?:[.!]|$)", text):
            sentence = hit.group()
            if not re.search(r"\bch(?:ain)?s?\b|\btch\b", sentence, re.IGNORECASE) or not re.search(
                r"\bcounts?\b|\bcounted\b|\bnot a st|=", sentence, re.IGNORECASE
            ):
                continue
            tokens = scan(source.text, block.start + hit.start(), block.start + hit.end())
            statement = turning_statement(Cursor(tokens, context), strict=False)
            if statement is None:
                continue
            amount = re.search(r"\bch(?:ain)?s?[\s-]*(\d+)|\b(\d+)[\s-]*ch\b", sentence, re.IGNORECASE)
            key: int | str = int(amount[1] or amount[2]) if amount else ""
            turning.append((key, replace(statement, throughout=True)))
    return Habits(tuple(turning), joins, turns)


class _Reader:
    """Blocks of a page into blocks of the tree; keeps what one row hands to the following one."""

    def __init__(self, source: Source, context: Context, sizes: tuple[str, ...], index: int) -> None:
        self.source = source
        self.context = context
        self.sizes = sizes
        self.index = index
        self.carried: list[Item] = []
        """A turning chain printed at the end of the row before."""
        self.short_rows: dict[str | None, bool] = {}

    def blocks(self, page: Page) -> list[Setup | Row | Aside]:
        out: list[Setup | Row | Aside] = []
        self._short_labels(page)
        for block in page.blocks:
            if block.sizes and self.sizes and self.sizes[self.index] not in block.sizes:
                continue
            if block.job == "row" or block.job == "rerun":
                out.extend(self.row(block))
            elif block.job == "setup":
                out.append(self.setup(block))
                self.carried = []
            elif block.job == "aside" or block.job == "note" and out:
                out.append(
                    Aside(
                        self.source.words(Span(block.start, block.end)),
                        Span(block.start, block.end),
                        block.part,
                    )
                )
        return out

    def _short_labels(self, page: Page) -> None:
        """ "R3:" is a row where the part turns, a round where it doesn't."""
        for block in page.blocks:
            if block.label is not None and block.job == "row":
                text = self.source.text[block.start : block.end]
                head = text[:3].lower()
                short = (
                    head[:1] == "r"
                    and (head[1:2].isdigit() or head[1:2] == " " and head[2:3].isdigit())
                    or head[:1].isdigit()
                )
                if short:
                    turns = bool(re.search(r"(?<!not )(?<!n't )\bturn\b", text, re.IGNORECASE))
                    self.short_rows[block.part] = self.short_rows.get(block.part, False) or turns
        whole = any(self.short_rows.values())
        for part, turns in self.short_rows.items():
            self.short_rows[part] = turns or (whole and part is None)

    def tokens(self, start: int, end: int) -> list[Token]:
        tokens = scan(self.source.text, start, end)
        if len(tokens) > MAX_ROW_TOKENS:
            self.context.problems.append(
                Problem(
                    "T107",
                    Severity.WARNING,
                    "A row is longer than a row can be; the rest of it was not read",
                    Words(Span(start, min(end, start + 40))),
                )
            )
            tokens = [*tokens[:MAX_ROW_TOKENS], Token(T.END, "", end, end)]
        if len(self.sizes) > 1:
            tokens, odd = chosen(tokens, len(self.sizes), self.index)
            for wrong in odd:
                self.context.problems.append(
                    Problem(
                        "C211", Severity.ERROR, f"{self.context.row or 'The foundation'} lists {wrong.figures} figures, and there are {len(self.sizes)} sizes",
                        Words(Span(wrong.start, wrong.end), f"{wrong.figures} figures"), self.context.row, None, self.context.part,
                        "Give one figure for each size, a dash for one that is not worked.",
                    )
                )  # fmt: skip
        return tokens

    def setup(self, block: Block) -> Setup:
        self.context.row, self.context.part = None, block.part
        cursor = Cursor(self.tokens(block.start, block.end), self.context)
        reading = read_row(cursor)
        return Setup(tuple(reading.items), Span(block.start, block.end), block.part)

    def row(self, block: Block) -> list[Row | Aside]:
        label = block.label
        span = Span(block.start, block.end)
        context = self.context
        context.part = block.part
        kind = label.kind if label else "row"
        if (
            label is not None
            and self.source.text[block.start : block.start + 2].lower().rstrip("0123456789") in ("r", "")
            and not self.source.text[block.start : block.start + 3].lower().startswith(("rn", "ro"))
        ):
            kind = "row" if self.short_rows.get(block.part) else "round"
        context.row = label.text if label else "This row"
        context.round = kind == "round"
        tokens = self.tokens(block.text_start if label else block.start, block.end)
        numbers = label.numbers if label else ()
        many = label.many if label else None
        if label is not None and len(numbers) >= 1 and self.sizes:
            numbers = self._sized_numbers(block, numbers)
        if label is not None and many is not None and len(self.sizes) > 1:
            head, _ = chosen(
                scan(self.source.text, block.start, block.text_start), len(self.sizes), self.index
            )
            many = next((t.value for t in head if t.kind is T.NUMBER), many)
        cursor = Cursor(tokens, context)
        if label is None:
            many, body = _count_of_rows(cursor, kind)
            if many is not None:
                kind = body
        rerun = rerun_here(cursor)
        if rerun is None and label is None and many is None:
            text = self.source.words(span)
            return [Aside(text, span, block.part)]
        reading = read_row(cursor)
        items = [*self.carried, *reading.items]
        self.carried = []
        items = self._hand_on(items)
        text = label.text if label else self.source.words(span)[:60]
        if label is not None and numbers != label.numbers and numbers:
            from tracker.notation.page.labels import called

            text = called(kind, numbers)
        elif label is not None and kind != label.kind:
            text = re.sub(r"^R(?:ow|nd)", "Rnd" if kind == "round" else "Row", text)
        label_span = Span(
            block.start, max(block.start + 1, block.text_start if label else min(block.end, block.start + 12))
        )
        unread = reading.unread or any(isinstance(item, Prose) for item in items)
        if rerun is not None and unread:
            words = {token.text for token in tokens[cursor.i if cursor.i < len(tokens) else 0 :]} | {
                t.text for t in tokens
            }
            unread = bool(
                words
                & {
                    "except",
                    "but",
                    "omitting",
                    "omit",
                    "instead",
                    "replacing",
                    "replace",
                    "beginning",
                    "starting",
                    "increasing",
                    "decreasing",
                    "inc",
                    "dec",
                    "only",
                }
            )
        side = (label.side if label else None) or reading.side
        row = Row(
            kind, numbers, text, label_span, tuple(items), tuple(reading.stated), span, block.part, side, rerun, unread,
            bool(label and label.alternate), block.sizes,
        )  # fmt: skip
        if many is not None and not numbers and rerun is not None:
            return [replace(row, rerun=replace(rerun, total_rows=many))]
        if many is not None and many > 1 and not numbers:
            row = replace(row, numbers=(), rerun=row.rerun, label=text)
            return [
                row,
                *(
                    [_again(row, label_span)]
                    if False
                    else [replace(row, rerun=None) for _ in range(min(many, 2000) - 1)]
                ),
            ]
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


def _again(row: Row, span: Span) -> Row:
    return replace(row, label_span=span)


def _count_of_rows(c: Cursor, kind: str) -> tuple[int | None, str]:
    """ "Work 9 rnds even:", "Next 8 rows:": how many, and their kind; the cursor moves past it."""
    start = c.i
    while c.take_any("work", "next", "for", "the", "another", "a", "further"):
        pass
    value = c.value()
    if value is None:
        c.i = start
        return None, kind
    c.i += 1
    c.take_any("more", "further", "additional")
    word = c.take_any("rows", "row", "rnds", "rnd", "rounds", "round")
    if not word:
        c.i = start
        return None, kind
    kind = "row" if word.startswith("row") else "round"
    even = False
    while c.kind() is T.WORD and c.text() in (
        "even",
        "in",
        "pattern",
        "of",
        "plain",
        "straight",
        "as",
        "follows",
        "each",
    ):
        even = even or c.text() == "even"
        c.i += 1
    if c.kind() in (T.COLON, T.COMMA, T.DASH):
        c.i += 1
    if c.kind() in (T.END, T.PERIOD, T.OPEN) and even:
        span = c.span_from(start)
        from tracker.notation.tree import Kind

        c.tokens.insert(c.end, Token(T.END, "", span.end, span.end))
        del Kind
    return min(value, 10_000), kind


__all__ = ["Join", "Reading", "Special", "Where", "Which", "read", "source_of"]
