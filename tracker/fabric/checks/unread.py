"""T101 — allow no words that could not be read.

A row that holds words nobody knows is told word for word, and what it makes is not claimed; nothing else can honestly
be said to be wrong with it. So it says one thing only: which words they are, what becomes of the counts, and what
would let them be read.

    Row 3: Ch 1, grumble the next fiddle twice, turn. (24 sc)     “grumble the next fiddle twice” could not be read
    Row 3: Ch 1, 2 sc in next 4 sts, sc in each st across, turn. (24 sc)                                   (mended)
"""

from collections.abc import Iterator, Sequence

from tracker.fabric.faults.unexplained import unexplained
from tracker.fabric.model import Fabric, Placed, Unread
from tracker.fabric.rows.outcome import Outcome
from tracker.fabric.stated import from_stated
from tracker.notation.pattern import Pattern, Row
from tracker.notation.tree import Chain, Group, Item, Mark, Prose, Repeat, Say, Skip, Work
from tracker.problems import Label, Problem, Severity, Source, Span
from tracker.problems.headline import headline

NEVER_CLOSED = "nothing goes back to it"
"""Said of a star."""
NOWHERE = "told of nowhere"
"""Said of a name whose definition is missing."""
_QUOTED = 60
"""Letters of the words that are quoted in a headline."""
_SHOWN = 3
"""Phrases of one row that are quoted."""
_NAME = 9
"""Letters of a word that may be the name of a stitch."""
_PLACES = frozenset("in into across around next each every over".split())
"""Words that follow a stitch."""
_MARKS = " \t\r\n:,;.–—-"
_OPENED = _MARKS + "([{"
_OF_THE_WORDS = ("T10", "R301")
_UNKNOWN = "cannot be followed: what is to be worked again is not known"
_UNFOLLOWED = "does not come out as read"


def unread_of(row: Row, extra: Row | None, outcome: Outcome, sure: bool) -> tuple[Unread, ...]:
    """What keeps a worked row from being understood; nothing where it is.

    `extra` refers to the row as printed. Of a row worked onto what is not known (not `sure`) only words of its own.
    """
    if outcome.understood:
        return ()
    told = [Unread(fault.span, fault.says, fault.help) for fault in outcome.found if fault.code == "T101"]
    rows = [row] if extra is None else [extra, row]
    words = [span for one in rows for span in _spans(one.items, read=False)]
    if not words and not told:
        words = [span for one in rows for span in _spans(one.items, read=True)]
    found = [*(Unread(span) for span in words), *told]
    if found or not sure:
        return tuple(dict.fromkeys(found))
    if not rows[0].items:
        return (Unread(_whole(rows[0]), _UNKNOWN, "Check the rows that are named, and that each is there."),)
    return (Unread(_whole(rows[0]), _UNFOLLOWED, "Check what it is worked into, and what it counts."),)


def _spans(items: Sequence[Item], read: bool) -> Iterator[Span]:
    """Words that could not be read, those inside of repeats too; with `read`, those only taken for a remark."""
    for item in items:
        if isinstance(item, (Group, Repeat)):
            yield from _spans(item.items, read)
            if isinstance(item, Repeat) and item.ending is not None:
                yield from _spans(item.ending.items, read)
        elif (
            isinstance(item, Say) and (item.kind == "unsure" or item.bears)
            if read
            else isinstance(item, Prose)
        ):
            yield item.span


def _whole(row: Row) -> Span:
    """All the words of a row between its label and its count."""
    start = row.label_span.end if row.label_span.end <= row.span.end else row.span.start
    end = min((told.span.start for told in row.stated if told.span.start > start), default=row.span.end)
    return Span(start, end)


def told_unread(
    pattern: Pattern, fabric: Fabric, source: Source, of_reading: Sequence[Problem]
) -> Iterator[Problem]:
    """A note for each row that was not understood, save where an error of reading tells of its words already.

    Where the words name a stitch that the pattern tells nothing of, an error at the first row that works it.
    """
    named = {source.words(p.label.span).lower() for p in of_reading if p.code == "T104"}
    told = [p.label.span.start for p in of_reading if p.code.startswith(_OF_THE_WORDS)]
    wrong = {p.index for p in of_reading if p.code.startswith("C") and p.severity is not Severity.NOTE}
    seen: set[Span] = set()
    for stretch, index in zip(fabric.stretches, fabric.first, strict=True):
        for at, placed in enumerate(stretch.rows):
            unread = placed.worked.unread
            if not unread and index + at not in wrong or placed.label_span in seen:
                continue
            seen.add(placed.label_span)
            span = placed.worked.row.span
            star = _never_closed(placed, source)
            if star is not None and (not unread or unread[0].why == _UNFOLLOWED):
                yield _no_end(placed, index + at, star)
                continue
            if not unread:
                continue
            if any(span.start <= start < span.end for start in told):
                continue
            words = [_trimmed(one, source.text) for one in unread]
            lost = _lost(words, pattern, source)
            if lost is None:
                yield _note(placed, index + at, words, source)
            elif (name := source.words(lost).lower()) not in named:
                named.add(name)
                yield _named_nowhere(placed, index + at, lost, source)


def _never_closed(placed: Placed, source: Source) -> Mark | None:
    """The only star of a row, with work behind it and nothing that goes back to it; None where there is none."""
    row = placed.worked.row
    marks = [k for k, item in enumerate(row.items) if isinstance(item, Mark)]
    if len(marks) != 1 or placed.label_span != row.label_span:
        return None
    mark = row.items[marks[0]]
    behind = row.items[marks[0] + 1 :]
    works = any(isinstance(item, (Work, Group, Skip, Chain)) for item in behind)
    alone = isinstance(mark, Mark) and source.words(row.span).count(mark.sign) == 1
    return mark if works and alone and isinstance(mark, Mark) else None


def _no_end(placed: Placed, index: int, mark: Mark) -> Problem:
    """What is wrong with a row that begins a repeat and never ends it."""
    return Problem(
        "T103",
        Severity.ERROR,
        headline(placed.printed, f"begins a repeat with “{mark.sign}”, and nothing goes back to it"),
        Label(mark.span, NEVER_CLOSED),
        placed.printed,
        index,
        placed.part,
        f"Put a “{mark.sign}” where the repeat ends, or say “rep from {mark.sign}” and how often.",
    )


def _lost(unread: Sequence[Unread], pattern: Pattern, source: Source) -> Span | None:
    """The first name among words that the pattern tells nothing of."""
    told = (unexplained(source.words(one.span), one.span, pattern, source) for one in unread if not one.why)
    return next((span for span in told if span is not None), None)


def _named_nowhere(placed: Placed, index: int, name: Span, source: Source) -> Problem:
    """What is wrong with a row that works a stitch whose definition is missing."""
    word = source.words(name)
    return Problem(
        "T104",
        Severity.ERROR,
        headline(placed.printed, f"works “{word}”, and nothing in the pattern says what that is"),
        Label(name, NOWHERE),
        placed.printed,
        index,
        placed.part,
        f"Look for its definition where the pattern came from; a line such as “{word}: 2 dc in one st” in the notes"
        " gives it.",
    )


def _note(placed: Placed, index: int, unread: Sequence[Unread], source: Source) -> Problem:
    """What could not be read, and what would help."""
    first = unread[0]
    words = [source.words(one.span) for one in unread if not one.why]
    if first.why or not words:
        says, cure = first.why or "could not be understood", first.cure
    else:
        told = [f"“{w if len(w) <= _QUOTED else w[: _QUOTED - 3].rstrip() + '…'}”" for w in words[:_SHOWN]]
        more = f" and {len(words) - _SHOWN} more" if len(words) > _SHOWN else ""
        says = f"has words that could not be read: {', '.join(told)}{more}"
        cure = _cure(words[0])
    stated = placed.worked.row.stated
    if from_stated(stated) is not None:
        count = source.words(stated[-1].span).strip("()[]{} .=–—-:")
        then = f"counts go on from the {count} that it states."
    else:
        then = "rows worked onto it are not counted until one says what it makes."
    return Problem(
        "T101",
        Severity.NOTE,
        headline(placed.printed, says),
        Label(first.span, "told word for word"),
        placed.printed,
        index,
        placed.part,
        f"It is told word for word as written; {then} {cure}",
    )


def _cure(words: str) -> str:
    """What would let words be read: the line that explains a name, or other words."""
    named = words.lower().split()
    if named and not named[0].isalpha() and len(named) > 1:
        named = named[1:]
    if len(named) > 1 and named[0].isalpha() and named[1] in _PLACES:
        return f"A line such as “{named[0]}: 2 dc in one st” in the pattern's notes would explain it."
    if len(named) == 1 and named[0].isalpha() and len(named[0]) <= _NAME:
        return f"Where “{named[0]}” is a stitch, a line in the pattern's notes that tells how it is made would help."
    return "Said as patterns say it, “sc in next 5 sts” or “rep from * across”, it would be counted."


def _trimmed(one: Unread, text: str) -> Unread:
    """Without the blanks and marks around the words."""
    start, end = one.span.start, min(one.span.end, len(text))
    while start < end and text[start] in _MARKS:
        start += 1
    while end > start and text[end - 1] in _OPENED:
        end -= 1
    return Unread(Span(start, end), one.why, one.cure) if start < end else one
