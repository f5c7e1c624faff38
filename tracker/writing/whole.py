"""A loaded pattern written back as a text in clean standard notation.

A Loaded comes in; a text goes out that reads as the same pattern, in the terms asked for. What was not understood, and
what would not read back the same in clean words, stands in the designer's own. Never raises on a pattern.
"""

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence

from tracker.expressions import expression
from tracker.fabric.model import Placed
from tracker.load import Loaded, load
from tracker.notation.definitions.head import keys_of
from tracker.notation.definitions.specials import define
from tracker.notation.page.labelled.row_names import one_of_range
from tracker.notation.page.layout import lay_out
from tracker.notation.page.sized.conditions import condition_at
from tracker.notation.page.sized.size_names import size_names
from tracker.notation.pattern import Pattern, Row, Setup
from tracker.notation.phrase.cursor import Context, key_of
from tracker.notation.read import read, source_of
from tracker.problems import Span
from tracker.records import dataclass, replace
from tracker.trade.terms import terms_of
from tracker.writing.bare import bare
from tracker.writing.phrases import Writer
from tracker.writing.rows import label_words, row_line, setup_line, worked_line
from tracker.writing.words import Tongue, name_of_special, own_words

MOST_ROWS = 10_000
"""Rows that are spelled out; a piece with more keeps its references."""
TRIES = 8
"""How often what does not read back is put in other words."""

Worked = Row | Setup


@dataclass(slots=True)
class _Piece:
    """A stretch of the new text. Not frozen: its words change until they read back."""

    words: str
    printed: Worked | None
    """The row or foundation it stands for; None for prose."""
    own: str
    """The same in the designer's own words."""


def write(loaded: Loaded, terms: str | None = None, full: bool = False) -> str:
    """The pattern as text; terms "us" or "uk" (its own when None), every row spelled out when `full`."""
    tongue = _tongue(loaded, terms)
    spelled: set[int] | None = set() if full and loaded.fabric.length <= MOST_ROWS else None
    pieces = _pieces(loaded, tongue, spelled)
    text = _whole(pieces, tongue)
    while spelled is not None:
        odd = differing(loaded, text)
        rows = {placed.worked.row.span.start for _, placed in loaded.fabric.rows() if placed.label in odd}
        if not odd:
            return text
        if rows <= spelled:
            # the rows cannot be told apart from their references: they stay as they were printed
            spelled = None
        else:
            spelled |= rows
        pieces = _pieces(loaded, tongue, spelled)
        text = _whole(pieces, tongue)
    for _ in range(TRIES):
        wrong = _not_the_same(pieces, text, loaded.pattern)
        if not wrong:
            break
        for piece in wrong:
            piece.words = piece.own
        text = _whole(pieces, tongue)
    return text


def differing(loaded: Loaded, text: str) -> tuple[str, ...]:
    """Labels of the rows that a written text works otherwise than the pattern; empty when it is the same."""
    if loaded.fabric.length > MOST_ROWS:
        return ()
    again = load("written", text)
    renamed = _renamed(loaded.pattern, again.pattern)
    before = [(placed.label, _made(placed, {})) for _, placed in loaded.fabric.rows()]
    after = [(placed.label, _made(placed, renamed)) for _, placed in again.fabric.rows()]
    odd = [one[0] for one, other in zip(before, after, strict=False) if one[1] != other[1]]
    longer = before if len(before) > len(after) else after
    return (*odd, *(label for label, _ in longer[min(len(before), len(after)) :]))


def _made(placed: Placed, renamed: Mapping[str, str]) -> object:
    worked = placed.worked
    made = [(renamed.get(element.name, element.name), element.turning) for element in worked.elements]
    return made, worked.understood


# -- the pieces of the text


def _tongue(loaded: Loaded, terms: str | None) -> Tongue:
    pattern, source = loaded.pattern, loaded.source
    context = Context(uk=pattern.uk)
    for block in lay_out(source.text).blocks:
        if block.job == "define":
            text = source.text[block.start : block.end]
            for special in define(text, block.start, context, source):
                for key in keys_of(text):
                    context.specials.setdefault(key, special)
    context.problems.clear()
    index = pattern.sizes.index(pattern.size) if pattern.size in pattern.sizes else 0
    uk = pattern.uk if terms is None else terms.lower() == "uk"
    if uk is not pattern.uk:
        for special in tuple(context.specials.values()):
            context.specials.setdefault(key_of(name_of_special(special.name, pattern.uk, uk)), special)
    return Tongue(source, pattern, uk, context, index)


def _renamed(before: Pattern, after: Pattern) -> dict[str, str]:
    """Specials of the new text by their names in the old one."""
    if len(before.specials) != len(after.specials):
        return {}
    pairs = zip(before.specials, after.specials, strict=True)
    return {new.name: old.name for old, new in pairs if new.name != old.name}


_FIGURES = expression(r"\d+(?:\.?\s?[-–]\s?\d+)?[.:)]\s+")
"""A label that is a number alone."""
_NUMBER_LEFT = expression(r"(?:(?<=\n)|\A)[ \t]*\d+[.:)]\s*\Z")


def _pieces(loaded: Loaded, tongue: Tongue, spelled: set[int] | None) -> list[_Piece]:
    """The text in pieces, in the order of the pattern; what stands between its blocks is kept.

    With `spelled` every row is written out; it holds where the rows begin whose words stay the designer's.
    """
    pattern, source = loaded.pattern, loaded.source
    writer = Writer(tongue)
    spell = _spelled(loaded, writer, spelled) if spelled is not None else None
    printed: dict[int, Worked] = {}
    copies: Counter[int] = Counter()
    differ: set[int] = set()
    for each in pattern.blocks:
        if isinstance(each, (Row, Setup)):
            first = printed.setdefault(each.span.start, each)
            copies[each.span.start] += 1
            if each.items != first.items:
                differ.add(each.span.start)
    out: list[_Piece] = []
    at = 0
    for block in lay_out(source.text).blocks:
        worked = printed.get(block.start)
        # "1. Chain 20, join": a foundation is no row, and its number would make one of it
        number = _NUMBER_LEFT.search(source.text, at, block.start) if isinstance(worked, Setup) else None
        out += _prose(tongue, Span(at, number.start() if number is not None else block.start))
        at = max(at, block.end)
        span = Span(block.start, block.end)
        told_with_it = next((p for start, p in printed.items() if block.start < start < block.end), None)
        if isinstance(worked, Setup) and isinstance(told_with_it, Row):
            # "Ch 30; sc in 2nd ch from hook and in each ch across for Row 1": each on a line of its own
            for each in (worked, told_with_it):
                own = own_words(tongue, each.span)
                out.append(_Piece(_clean(writer, each, spell) or own, each, own))
            continue
        if worked is not None:
            own = own_words(tongue, span)
            if isinstance(worked, Row) and worked.numbers and (figures := _FIGURES.match(own)) is not None:
                # "16." among rows that are named is a number of something
                own = f"{label_words(worked)} {own[figures.end() :]}"
            unnamed = isinstance(worked, Row) and block.label is None and spell is None
            if unnamed and isinstance(worked, Row) and worked.rerun is None and block.start not in differ:
                # "For 10 rnds:" is a label that is no name
                word = "rnds" if worked.kind == "round" else "rows"
                worked, unnamed = replace(worked, label=f"Next {copies[block.start]} {word}"), False
            elif (
                isinstance(worked, Row)
                and block.label is not None
                and spell is None
                and worked.label == one_of_range(block.label.text, 0)
            ):
                # "Rows 22a-28a": rows that have a name each are told together again
                worked = replace(worked, label=block.label.text)
            # "(first shell)" in a row says what the word stands for in the rows behind it, and would be lost
            defines = any(span.start <= special.span.start < span.end for special in pattern.specials)
            kept = unnamed or defines and spell is None and isinstance(worked, Row)
            out.append(_Piece(own if kept else _clean(writer, worked, spell) or own, worked, own))
        elif not (block.sizes and pattern.size not in block.sizes and pattern.sizes):
            out += _prose(tongue, span)
    out += _prose(tongue, Span(at, len(source.text)))
    return out


def _clean(writer: Writer, worked: Worked, spell: Callable[[Row], str] | None) -> str:
    if isinstance(worked, Setup):
        return setup_line(writer, worked)
    if worked.unread and spell is None:
        return ""
    return (spell(worked) if spell is not None else "") or row_line(writer, worked)


def _spelled(loaded: Loaded, writer: Writer, in_own_words: set[int]) -> Callable[[Row], str]:
    """Gives for a printed row all the rows that are worked for it, a line each."""
    by_label: dict[int, list[Placed]] = {}
    for _, placed in loaded.fabric.rows():
        by_label.setdefault(placed.label_span.start, []).append(placed)

    def spell(row: Row) -> str:
        if row.rerun is not None and row.rerun.until and row.rerun.stitches is None:
            return ""
        found = by_label.get(row.label_span.start, [])
        lines = [
            worked_line(
                writer,
                placed,
                placed.worked.row.span.start in in_own_words,
                row if placed is found[-1] else None,
            )
            for placed in found
        ]
        return "\n".join(lines)

    return spell


def _prose(tongue: Tongue, span: Span) -> Iterator[_Piece]:
    """Words between the rows, line by line; a list of sizes becomes the one size that is written."""
    sizes = tongue.pattern.sizes
    for line in own_words(tongue, span, lines=True).split("\n"):
        if sizes and condition_at(line, sizes) is not None:
            line = ""
        if sizes and size_names(line):
            line = f"Size: {tongue.pattern.size}"
        yield _Piece(line.rstrip(), None, line)


def _whole(pieces: Sequence[_Piece], tongue: Tongue) -> str:
    lines: list[str] = []
    for piece in pieces:
        if piece.words.strip() or lines and lines[-1]:
            lines.append(piece.words.strip() if piece.printed is not None else piece.words)
    text = "\n".join(lines).strip("\n") + "\n"
    found = terms_of(source_of("", text).text)
    if not found.stated or found.uk is not tongue.uk:
        first, _, rest = text.partition("\n")
        text = f"{first}\n\nWritten in {'UK' if tongue.uk else 'US'} terms.\n{rest}"
    return text


def _not_the_same(pieces: Sequence[_Piece], text: str, pattern: Pattern) -> list[_Piece]:
    """Pieces that read differently now and are not yet in the designer's own words."""
    again, _ = read(source_of("written", text))
    worked = [piece for piece in pieces if piece.printed is not None]
    found: list[Worked] = []
    seen: set[int] = set()
    for block in again.blocks:
        if isinstance(block, (Row, Setup)) and block.span.start not in seen:
            seen.add(block.span.start)
            found.append(block)
    renamed = _renamed(pattern, again)
    wrong: list[_Piece] = []
    for k, piece in enumerate(worked):
        other = found[k] if k < len(found) else None
        if piece.printed is None or other is None or _said(piece.printed, {}) != _said(other, renamed):
            wrong.append(piece)
            if len(found) != len(worked):
                # from here on all would seem to differ: mend the first, and look again
                before = worked[k - 1 : k] if k else []
                if piece.words == piece.own and all(one.words == one.own for one in before):
                    continue
                wrong = [*before, piece]
                break
    return [piece for piece in wrong if piece.words != piece.own]


def _said(block: Worked, renamed: Mapping[str, str]) -> object:
    if isinstance(block, Setup):
        return bare(block.items, renamed)
    said = (
        block.kind,
        block.numbers,
        block.items,
        block.stated,
        block.side,
        block.rerun,
        block.unread,
        block.alternate,
    )
    return bare(said, renamed)
