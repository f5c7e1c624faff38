"""Phrases that can't be read: kept word for word, and reported when they name what nobody explains."""

from collections.abc import Sequence

from tracker.notation.phrase.cursor import STOPS, Context, Cursor
from tracker.notation.phrase.row.reading import Reading
from tracker.notation.phrase.row.remarks import workable
from tracker.notation.phrase.spelling import abbreviates, report_unknown, tell_unknown, unknown_word
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.scan import T, scan
from tracker.notation.tree import Item, Prose, Say
from tracker.problems import Label, Problem, Severity, Source, Span
from tracker.problems.headline import headline

_ASIDES = frozenset(
    "incl including pushing being taking keeping pulling holding catching inserting crossing letting "
    "remembering".split()
)
"""Words that begin a remark about how something is done."""


_COMPLETES = ("form", "complete", "finish", "close")
"""What stands behind "to" where it only says what a stitch completes: "dc in first sc to form last loop"."""


def names_edge(c: Cursor) -> bool:
    """True for the widening or narrowing of filet, "inc 1 blk", which only the pattern's own definition explains."""
    if c.text() not in ("inc", "increase", "dec", "decrease") or c.value(1) is None:
        return False
    special = stitch_here(c, 2)
    return special is not None and special.special is not None and special.special.base in ("window", "block")


def prose(c: Cursor, reading: Reading, items: list[Item]) -> None:
    """Keeps a phrase that can't be read, word for word."""
    start = c.i
    while c.kind() not in STOPS:
        if c.kind() is T.OPEN and c.i in c.partners:
            if c.i > start:
                break
            c.i = c.partners[c.i]
        c.i += 1
    if c.i == start:
        c.i += 1
        return
    span = c.span_from(start)
    words = {c.tokens[k].text for k in range(start, c.i)}
    if c.tokens[start].text == "to" and start + 1 < c.i and c.tokens[start + 1].text in _COMPLETES:
        items.append(Say("remark", "", span))
        return
    told = (
        c.text(start - c.i) in ("starting", "beginning", "beg")
        and {"standing", "in", "with"} & words
        and not {"hook", "hk"} & words
    )
    asides = c.tokens[start].text in _ASIDES and not any(
        c.tokens[k].kind is T.NUMBER and not {"top", "tch", "turning"} & words for k in range(start, c.i)
    )
    to_maker = c.tokens[start].text in ("you", "we", "i", "it") and not any(
        c.tokens[k].kind is T.NUMBER for k in range(start, c.i)
    )
    if (
        to_maker
        or asides
        or c.text(start - c.i) == "per"
        or told
        or {"manner", "way"} & words
        and "same" in words
    ):
        items.append(Say("remark", "", span))
        return
    unknown = _names_unknown(c, start, c.i) or abbreviates(c, start)
    if not workable(c, start, c.i) and not unknown:
        items.append(Say("remark", "", span))
        return
    reading.unread = True
    report_unknown(c, start)
    items.append(Prose("", span))


def _names_unknown(c: Cursor, start: int, end: int) -> bool:
    """True when words stand where a stitch would: "2 zorps", "6 more open meshes"."""
    words = [c.tokens[k] for k in range(start, end)]
    if words[0].kind is T.NUMBER and len(words) <= 5:
        return not _MEASURES & {t.text for t in words}
    if len(words) == 1 and len(words[0].text) == 1 and words[0].kind is T.WORD:
        # a letter that stands for a stitch and that nobody explains
        return words[0].text not in ("a", "i", "x", "o")
    return len(words) <= 2 and any(t.kind is T.NUMBER for t in words)


_MEASURES = frozenset(
    "cm mm m in inch inches yd yds yard yards g oz ball balls skein skeins row rows rnd rnds round rounds times time "
    "degree degrees minutes hours end ends tail strand strands strips button buttons color colors colour colours "
    "marker markers side sides needle needles cut fasten break yarn".split()
)
"""What may be told by number and is no stitch."""


def tell_unread(
    context: Context, source: Source, items: Sequence[Item], label: str, span: Span, part: str | None
) -> None:
    """Says which words of a row could not be read; one note a row, unless an error tells of it already."""
    if any(span.start <= problem.label.span.start < span.end for problem in context.problems):
        return
    word = unknown_word(scan(source.text, span.start, span.end), context)
    if word is not None:
        tell_unknown(word, context, label)
        return
    first = next((item.span for item in items if isinstance(item, Prose)), span)
    note_unread(context, source, first, label, part)


def note_unread(context: Context, source: Source, first: Span, label: str, part: str | None) -> None:
    """Notes that words of a row could not be read."""
    words = source.words(first)
    told = words if len(words) <= 60 else words[:57].rstrip() + "…"
    context.problems.append(
        Problem(
            "T101",
            Severity.NOTE,
            headline(label, f"has words that could not be read: “{told}”"),
            Label(first, "told word for word"),
            label,
            None,
            part,
            "The row is followed as it is written, and its count is not claimed.",
        )
    )
