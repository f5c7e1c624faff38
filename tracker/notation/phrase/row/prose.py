"""Phrases that can't be read: kept word for word, and reported when they name what nobody explains."""

from tracker.notation.phrase.cursor import STOPS, Cursor
from tracker.notation.phrase.row.reading import Reading
from tracker.notation.phrase.row.remarks import workable
from tracker.notation.phrase.spelling import abbreviates, report_unknown
from tracker.notation.scan import T
from tracker.notation.tree import Item, Prose, Say

_ASIDES = frozenset(
    "incl including pushing being taking keeping pulling holding catching inserting crossing letting "
    "remembering".split()
)
"""Words that begin a remark about how something is done."""


_COMPLETES = ("form", "complete", "finish", "close")
"""What stands behind "to" where it only says what a stitch completes: "dc in first sc to form last loop"."""


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
