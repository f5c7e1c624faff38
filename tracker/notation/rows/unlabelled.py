"""Rows told without a label of their own, and labels whose numbers differ from size to size."""

import re
from collections.abc import Sequence

from tracker.expressions import expression
from tracker.notation.page.block import Block
from tracker.notation.pattern import Aside, Row, Setup
from tracker.notation.phrase.cursor import Cursor, inner
from tracker.notation.phrase.repeats.often import often_here
from tracker.notation.phrase.rerun import rerun_here
from tracker.notation.phrase.told.even import pattern_told
from tracker.notation.phrase.told.numbers import numbers_here
from tracker.notation.phrase.told.shaping import Shaping, called_row
from tracker.notation.rows.before.growing import changes_count
from tracker.notation.scan import T
from tracker.notation.tree import ANY, Item, Kind, Leave, Prose, Rerun, Say, Where, Which, Work
from tracker.problems import Source, Span
from tracker.records import replace


def shaped_rows(row: Row, told: Shaping) -> list[Row]:
    """The rows before the first that is shaped, that one, and those that follow it; `row` holds what else is said."""
    span = row.span
    even = Work("even", 1, Where(Which.EACH, span, 0, (Kind(ANY),)), span)
    ends = Work(told.how, told.by, Where(Which.EVENLY, told.words), told.words)

    row = replace(row, label="Next row", kind="row")

    def worked(item: Item) -> Row:
        return replace(row, items=(item,), stated=(), rerun=None, unread=False)

    rows = [*(worked(even) for _ in range(told.first - 1)), worked(ends)]
    rows += [worked(ends) for _ in range(told.at_once)]
    if told.further == 0:
        return [*rows[:-1], replace(rows[-1], items=(ends, *row.items), stated=row.stated)]
    until = "" if told.stitches is None else f"until there are {told.stitches} sts"
    times = told.further if told.stitches is None else None
    again = Rerun((), 1, times, times is not None, until, span, stitches=told.stitches, every=told.every)
    return [*rows, replace(row, rerun=again, unread=False), *(worked(even) for _ in range(told.even_after))]


def pattern_said(items: Sequence[Item], source: Source) -> list[Item]:
    """The items with what says which rows are the pattern, "These 2 rows form the pattern", marked as such."""
    return [
        Say("pattern", words, item.span)
        if isinstance(item, (Say, Prose))
        and "patt" in (words := source.words(item.span)).lower()
        and pattern_told(words) != (0, ())
        else item
        for item in items
    ]


def starred(c: Cursor) -> list[Rerun]:
    """ "*Rep Plain Row 3 times, then Rows 2-5 once; rep from * 4 more times": the references, in order.

    Nothing where the words name rows but once, or anything in them cannot be read so. The cursor stays.
    """
    start = c.i
    if by_name := _by_names(c):
        return by_name
    star = c.kind() is T.STAR
    ends = [k for k in range(c.i, c.end - 2) if c.tokens[k].text in ("rep", "repeat") and _from_star(c, k)]
    told: list[Rerun] = []
    times = 1
    cut = c.end
    if star and ends:
        c.i, cut = ends[-1] + 3, ends[-1]
        often = often_here(c)
        times = 0 if often is None else often.times or (often.further or 0) + 1
    at = start + star
    marks = [k for k in range(at, cut) if c.tokens[k].text == "then"]
    while 0 < times <= 200 and at < cut:
        stop = next((k for k in marks if k > at), cut)
        piece = inner(c, at, stop)
        while piece.kind() in (T.COMMA, T.SEMICOLON) or piece.take_any("then", "and"):
            piece.i += piece.kind() in (T.COMMA, T.SEMICOLON)
        found = rerun_here(piece) or _named(piece)
        while piece.kind() in (T.COMMA, T.SEMICOLON, T.PERIOD):
            piece.i += 1
        if found is None or found.until or piece.kind() is not T.END:
            told = []
            break
        told.append(found)
        at = stop + (1 if stop < cut else 0)
    c.i = start
    return told * times if star and ends or len(told) > 1 and any(r.called for r in told) else []


def _by_names(c: Cursor) -> list[Rerun]:
    """ "Repeat Offset Row and Return Row 19 times more, then Offset Row once": rows that go by names, in their order.

    Nothing, with the cursor where it was, where fewer than two are named or other words stand among them.
    """
    start = c.i
    turns: list[Rerun] = []
    if not c.take_any("rep", "repeat", "work", "alternate", "repeating"):
        return []
    names = 0
    while c.kind() is not T.END:
        found: list[Rerun] = []
        while (name := called_row(c)) and len(found) < 12:
            found.append(Rerun((), 0, None, False, "", c.span_from(start), called=name))
            if not (c.text() in ("and", "&", "then") or c.kind() is T.COMMA and c.text(1) not in _HOW_OFTEN):
                break
            if c.text(1) in _HOW_OFTEN and c.text() == "then":
                break
            c.i += 1
            c.take_any("and", "then")
        times = c.times_here()
        c.i += times[1] if times else 0
        c.take_any("more", "further", "again")
        c.take("times")
        if not found or len(found) > 1 and times is None or times is not None and times[0] > 200:
            turns = []
            break
        names = max(names, len(found))
        turns += found * (times[0] if times else 1)
        if c.kind() is T.PERIOD or c.kind() is T.END:
            break
        while c.kind() in (T.COMMA, T.SEMICOLON) or c.text() in (
            "then",
            "and",
            "work",
            "end",
            "ending",
            "with",
            "rep",
        ):
            c.i += 1
    if names < 2 or not 0 < len(turns) <= 400:
        c.i = start
        return []
    return turns


_HOW_OFTEN = ("then", "until", "ending", "for")


def _from_star(c: Cursor, k: int) -> bool:
    return c.tokens[k + 1].text == "from" and c.tokens[k + 2].kind is T.STAR


def _named(c: Cursor) -> Rerun | None:
    """ "Bobble Row once", "Row 3 twice": rows with no word before them that says they are worked again."""
    start = c.i
    rows = numbers_here(c) or ()
    name = "" if rows else called_row(c)
    if not (rows or name):
        return None
    times = c.times_here()
    c.i += times[1] if times else 0
    return Rerun(rows, 0, times[0] if times else None, False, "", c.span_from(start), called=name)


def to_the_last(blocks: list[Setup | Row | Aside], text: str) -> list[Setup | Row | Aside]:
    """ "Fasten off after Row 12": how far "all even rows" go, where the last of them is named nowhere else."""
    if not any(isinstance(block, Row) and block.alternate for block in blocks):
        return blocks
    told = [int(hit[1]) for hit in _LAST_TOLD.finditer(text)]
    last = max(told, default=0)
    return [
        replace(block, numbers=(block.numbers[0], last))
        if isinstance(block, Row)
        and block.alternate
        and block.numbers[0] < last < 1000
        and (last - block.numbers[0]) % 2 == 0
        else block
        for block in blocks
    ]


_LAST_TOLD = expression(
    r"\b(?:fasten|finish|end|bind|tie)\s+off\s+(?:(?:after|at\s+(?:the\s+)?end\s+of)\s+)(?:row|rnd|round)\s+(\d{1,3})\b",
    re.IGNORECASE,
    ["off"],
)


def announced(blocks: list[Setup | Row | Aside], source: Source) -> list[Setup | Row | Aside]:
    """ "Dec 1 st at both ends of every row." above the row of the next number, which tells how: no row of its own."""
    out: list[Setup | Row | Aside] = []
    last = 0
    for k, block in enumerate(blocks):
        after = next((b for b in blocks[k + 1 :] if not isinstance(b, Aside)), None)
        if (
            isinstance(block, Row)
            and not block.numbers
            and all(isinstance(item, (Say, Prose)) for item in block.items[1:])
            and block.items
            and isinstance(only := block.items[0], Work)
            and only.where.which is Which.EVENLY
            and only.stitch in ("dec ends", "inc ends")
            and isinstance(after, Row)
            and after.numbers[:1] == (last + 1,)
            and after.part == block.part
            and changes_count(after.items)
        ):
            out.append(Aside(source.words(block.span), block.span, block.part))
            continue
        if isinstance(block, Row) and block.numbers:
            last = block.numbers[-1]
        out.append(block)
    return out


def left_behind(blocks: list[Setup | Row | Aside], words: str) -> None:
    """ "Work 20 rows on these 4 sts": the row before them leaves the others on purpose."""
    last = blocks[-1] if blocks else None
    told = isinstance(last, Row) and any(isinstance(item, Leave) for item in last.items)
    if isinstance(last, Row) and last.rerun is None and not told and _ON_THESE.search(words) is not None:
        blocks[-1] = replace(last, items=(*last.items, Leave(None, last.span)))


_ON_THESE = expression(r"\b(?:on|over) (?:these|those) (?:same |last |first )?(?:\d|[a-z]+ )?", re.IGNORECASE)
"""Words of rows that are worked on some stitches only."""


_WORKS = expression(
    r"(?:[^\n:.;]{0,40}[:.]\s*)?(?:\*|\(|\[|ch(?:ain)?[\s-]?\d|turn\b|(?:\d+\s?)?(?:sc|hdc|dc|htr|tr|single|double|half|treble)\b"
    r"|\d+\s?ch(?:ain)?\b)"
    r".*?(?:\bin(?:to)?\s+(?:each|every|ea)\b[^.]{0,30}?\b(?:sts?|stitch|sc|hdc|dc|tr|htr|ch|sps?)\b|\brep(?:eat)?\s+from\s+\*"
    r"|\bfor\s+(?:the\s+next\s+)?(?:\d{1,3}|two|three|four|five|six|seven|eight|nine|ten|twelve)\s+(?:rows|rnds|rounds)\b)",
    re.IGNORECASE | re.DOTALL,
)
"""A sentence that begins as a row does, perhaps behind a name, and works all along what stands."""
SEVERAL_ROWS = expression(
    r"\b(?:for|over)\s+(?:the\s+)?(?:next\s+)?(?:\d{1,3}|two|three|four|five|six|seven|eight|nine|ten|twelve)\s+(?:more\s+)?"
    r"(?:rows|rnds|rounds)\b",
    re.IGNORECASE,
    ["rows", "rnds", "rounds"],
)
"""Words that make several rows of one sentence."""
_SHAPES = expression(
    r"(?:(?:then|now)\b,?\s+)?(?:(?:cont(?:inue)?|keep|go on|carry on|work)\b[^.:;]{0,40}?\b)?"
    r"(?:inc|dec)(?:reas(?:es?|ing))?s?\b[^.:;]{0,60}\b(?:rows?|rnds?|rounds?)\b[^.:;]{0,30}\b(?:until|till|times|more|rem)\b",
    re.IGNORECASE,
)
"""A sentence that shapes several rows."""
_GOES_ON = expression(
    r"(?:then\s+|now\s+)?(?:cont(?:inue)?|keep|carry on|go on|work)\b[^.:;\n]{0,40}\b(?:until|till|for)\b[^.:;\n]{0,24}"
    r"\b(?:\d{1,3}|two|three|four|five|six|seven|eight|nine|ten|twelve)\s+(?:more\s+)?(?:rows|rnds|rounds)\b",
    re.IGNORECASE,
)
"""A sentence that goes on for so many rows."""
_MANY = r"(?:\d{1,3}|two|three|four|five|six|seven|eight|nine|ten|twelve)"
_SO_MANY = expression(
    rf"(?:(?:now|then|next)\b,?\s+)*(?:work|make|do|crochet)\s+(?:an?|one|another)\s+(?:more\s+)?(?:row|rnd|round)\s+"
    rf"(?:of|with|in)\b|(?:one|two|another)\s+(?:row|rnd|round)s?\s+(?:of|with)\b"
    rf"|(?:sc|hdc|dc|htr|tr)\s+(?:around|across|even)\s+(?:for|over)\b"
    rf"|(?:(?:work|make|do|add|then|now|another)\s+)*{_MANY}\s+(?:more|further|additional|other)\s+(?:rows|rnds|rounds)\s+"
    rf"(?:in|of|as|like|with|the\s+same|even|straight)\b|(?:sc|hdc|dc|htr|tr)\s+{_MANY}\s+(?:more\s+)?(?:rows|rnds|rounds)\b"
    rf"|rep(?:eat)?\b[^.:;\n]{{0,40}}\buntil\b[^.:;\n]{{0,24}}\b{_MANY}\s+(?:rows|rnds|rounds)\b"
    r"|(?:even|odd|rs|ws|alternate)\s+(?:rows|rnds|rounds)\b[^:\n]{0,20}:\s*(?:as|same|rep)\b"
    r"|(?:cont(?:inue)?|keep|go\s+on|carry\s+on)\s(?:\w+\s){0,3}?(?:inc|dec|shap)\w*\b[^.\n]{0,80}\b(?:until|till)\b",
    re.IGNORECASE,
)
"""Other sentences that work several rows."""
_UNTIL = expression(
    r"(?:(?:then|now)\b,?\s+)?(?:(?:cont(?:inue)?|keep|carry on|go on|proceed)\b|rows\s+(?:go|continue))[^.;\n]{0,90}?"
    rf"\b(?:until|till)\b[^.;\n]{{0,24}}\b{_MANY}\s+(?:sts?|stitches|sc|hdc|dc|htr|tr)\b",
    re.IGNORECASE,
    ["until", "till"],
)
"""A sentence that goes on until so many stitches stand."""
_LABELLED = expression(
    r"^(?:[A-Za-z]+\s+)?(?:rows?|rnds?|rounds?)\b[^\n:.;]{0,40}:\s*"
    r"(?:\*|\(|\[|ch\s?\d|turn\b|\d+\s?(?:ch|sc|hdc|dc|htr|tr)\b|(?:sc|hdc|dc|htr|tr)\b)"
    r"|^(?:step|line|pass|course|tier)\s?\d{1,3}[^\n:.;]{0,30}:\s*(?:\*|\(|\[|ch\s?\d|turn\b|\d+\s?(?:ch|sc|hdc|dc|htr|tr)\b"
    r"|(?:sc|hdc|dc|htr|tr)\b)"
    r"|^[(\[](?:rows?|rnds?|rounds?)\b[^\n:.;]{0,40}:\s*(?:\*|\(|\[|ch\s?\d|turn\b|(?:sc|hdc|dc|htr|tr)\b)",
    re.IGNORECASE | re.MULTILINE,
)
"""What is called a row, by a number or a name that no label has, and works stitches."""


def unread_work(block: Block, source: Source) -> Row | None:
    """The row that words between the rows tell, when they work stitches and no label of theirs is known.

    It is told word for word and never claimed, so that nothing behind it is taken for sure either.
    """
    span = Span(block.start, block.end)
    words = source.words(span)
    works = (
        _WORKS.match(words)
        or _SHAPES.match(words)
        or _GOES_ON.match(words)
        or _SO_MANY.match(words)
        or _UNTIL.match(words)
        or _LABELLED.search(words)
    )
    if block.part == "Finishing" or works is None:
        return None
    return Row("row", (), "Next row", span, (Prose(words, span),), (), span, block.part, unread=True)


_REPEATS = expression(
    r"(?:(?:then|now|next)\b,?\s+)?(?:keep\s+)?(?:rep(?:eat)?(?:ing)?|alternat(?:e|ing))\b[^.:;]{0,60}?\b"
    r"(?:rows?|rnds?|rounds?)\b(?!\s+(?:for|on)\s+(?:the\s+)?(?:other|second|opposite))[^.:;]{0,40}?"
    r"(?:\btimes\b|\bmore\b|\btwice\b|\bonce\b|\balternately\b|\d)",
    re.IGNORECASE,
)
"""A sentence that works rows again, so many times."""


def repeats_unread(block: Block, source: Source) -> Row | None:
    """The rows that "Repeat … rows 4 times" works where nobody can tell which: one row, told and never claimed.

    What follows it stands on rows that are not known, so that nothing of it is claimed before a row tells its count.
    """
    span = Span(block.start, block.end)
    words = source.words(span)
    if block.part == "Finishing" or _REPEATS.match(words) is None:
        return None
    return Row("row", (), "Next rows", span, (Prose(words, span),), (), span, block.part, unread=True)


def tells_the_end(items: Sequence[Item]) -> bool:
    """True for "6) Fasten off and hide the ends.": a number of its own, and nothing worked."""
    said = [item.kind for item in items if isinstance(item, Say)]
    return len(said) == len(items) and "fasten off" in said
