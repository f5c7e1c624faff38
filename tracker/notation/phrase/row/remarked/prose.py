"""Phrases that can't be read: kept word for word, and reported when they name what nobody explains."""

from itertools import pairwise

from tracker.notation.phrase.cursor import SLIPS, STOPS, Context, Cursor
from tracker.notation.phrase.repeats.stars import NO_STAR_BEFORE
from tracker.notation.phrase.repeats.unmarked import last_again
from tracker.notation.phrase.row.reading import Reading
from tracker.notation.phrase.row.remarked.bearing import bears
from tracker.notation.phrase.row.remarked.bounds import bounds, chained_between
from tracker.notation.phrase.row.remarked.remarks import workable
from tracker.notation.phrase.spelling import abbreviates, report_unknown, tell_unknown, unknown_word
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.scan import T, scan
from tracker.notation.tree import Chain, Group, Item, Prose, Repeat, Say, Which, Work
from tracker.problems import Label, Problem, Severity, Source, Span
from tracker.problems.headline import headline

_ASIDES = frozenset(
    "incl including pushing being taking keeping pulling holding catching inserting crossing letting "
    "remembering".split()
)
"""Words that begin a remark about how something is done."""


_POINTS = frozenset("that's that this here's there's these those".split())
"""What points at something that was worked: "that's a corner", "this forms the first petal"."""
_OVER_AGAIN = frozenset("round around into in over behind".split())
_ALIGNS = frozenset("working keeping placing putting making lining".split())
""" "As Round 2, working the raised sts over the raised sts"."""
_CHANGES = frozenset(
    "inc dec increase decrease increasing decreasing each every twice extra more last first".split()
)
"""Words that make more of it than a remark."""
_IS = frozenset("is are makes make forms form was were becomes will".split())
"""What then follows."""
_COMPLETES = ("form", "complete", "finish", "close")
"""What stands behind "to" where it only says what a stitch completes: "dc in first sc to form last loop"."""


_CLOSES = frozenset((*SLIPS, "join", "turn", "fasten"))
"""What closes a round, behind whatever else is said."""


def names_edge(c: Cursor) -> bool:
    """True for the widening or narrowing of filet, "inc 1 blk", which only the pattern's own definition explains."""
    if c.text() not in ("inc", "increase", "dec", "decrease") or c.value(1) is None:
        return False
    special = stitch_here(c, 2)
    return special is not None and special.special is not None and special.special.base in ("window", "block")


def prose(c: Cursor, reading: Reading, items: list[Item]) -> None:
    """Keeps a phrase that can't be read, word for word."""
    start = c.i
    if last_again(c, items):
        return
    often = c.times_here()
    often_alone = often is not None and c.kind(often[1]) in STOPS
    while c.kind() not in STOPS:
        if c.kind() is T.OPEN and c.i in c.partners:
            if c.i > start:
                break
            c.i = c.partners[c.i]
        if c.i > start and c.text() in ("and", "then") and c.text(1) in _CLOSES:
            break  # "curl round and sl st to first sc"
        c.i += 1
    if c.i == start:
        c.i += 1
        return
    span = c.span_from(start)
    words = {c.tokens[k].text for k in range(start, c.i)}
    if c.tokens[start].text == "per" and _spread_told(items, span):
        return
    if c.tokens[start].text == "to" and start + 1 < c.i and c.tokens[start + 1].text in _COMPLETES:
        items.append(Say("remark", "", span))
        return
    told = (
        c.text(start - c.i) in ("starting", "beginning", "beg")
        and {"standing", "in", "with"} & words
        and not {"hook", "hk"} & words
        and not _name_in_place(c, start)
    )
    shared = c.tokens[start].text == "inserting" and {"next", "used", "same"} & words
    asides = (
        c.tokens[start].text in _ASIDES
        and not shared
        and not any(
            c.tokens[k].kind is T.NUMBER and not {"top", "tch", "turning"} & words for k in range(start, c.i)
        )
    )
    first, second = c.tokens[start].text, c.tokens[min(start + 1, c.i - 1)].text
    points = first in _POINTS and (first.endswith("'s") or second in _IS)
    # "in the st you just passed" says which stitch, and nothing to the maker
    glued = start > 0 and c.tokens[start - 1].text in _PLACED and first in ("you", "we", "it")
    to_maker = (
        (points or first in ("you", "we", "i", "it"))
        and not glued
        and not any(c.tokens[k].kind is T.NUMBER for k in range(start, c.i))
    )
    along = items[-1] if items else None
    landing = first == "last" and second in ("one", "st", "stitch") and {"tch", "turning"} & words
    # "As Round 2, working round the raised tr": what the row is, is said already
    again = reading.again and not _CHANGES & words
    again = again and (
        first == "working" and second in _OVER_AGAIN or first in _ALIGNS and bool(_OVER_AGAIN & words)
    )
    if (
        to_maker
        or landing
        or again
        and not any(c.tokens[k].kind is T.NUMBER for k in range(start, c.i))
        or asides
        or (
            isinstance(along, Work)
            and along.where.which is Which.EVENLY
            and {"row", "rows"} & words
            and {"each", "every", "per"} & words
        )
        or c.text(start - c.i) == "per"
        or told
        or c.text(start - c.i - 1) in ("not", "don't", "never")
        or {"manner", "way"} & words
        and "same" in words
    ):
        spread = isinstance(along, Work) and along.where.which is Which.EVENLY
        items.append(Say("remark", "", span, not (landing or spread) and bears(c.tokens[start : c.i])))
        return
    if c.i - start == 1 and c.tokens[start].text in ("x", "o"):
        # a sign of a drawing, and nobody says what it stands for
        reading.unread = True
        items.append(Prose("", span))
        return
    unknown = (
        _names_unknown(c, start, c.i)
        or _explained_name(c, start, c.i)
        or abbreviates(c, start)
        or _name_in_place(c, start)
    )
    # "the last time working 3 dc only": what the last pass is otherwise
    unknown = unknown or second == "last" and first != "one" and bool(words & {"time", "repeat", "rep"})
    # "in the middle treble of the next zorp": it says where that stitch is
    unknown = (
        unknown
        or first == "of"
        and start > 0
        and c.tokens[start - 1].text in _PLACED
        and not words & {"row", "rnd", "round"}
        and (bool(words & _PARTS) or any(c.tokens[k].kind is T.NUMBER for k in range(start, c.i)))
    )
    # "sc in next 6 sc, make a loop": a chain of a length that nobody tells
    looped = first in ("make", "making", "form") and {"loop", "loops", "lp"} & words
    closed = isinstance(along, Chain) or isinstance(along, Work) and along.stitch == "slst"
    unknown = unknown or bool(looped) and isinstance(along, (Work, Group, Repeat)) and not closed
    if chained_between(c, start, items):
        return
    if not (shared or often_alone or workable(c, start, c.i) or unknown or bounds(c, start, items)):
        # several words that no remark begins with: whether they work anything, the row's count tells
        sure = not glued and (c.i - start < 3 or c.tokens[start].text in _LEADS or not _WORKED & words)
        bearing = bears(c.tokens[start : c.i]) or _place_of(c, start, along) or _cut_off(c, start, along)
        bearing = bearing and not _at_marker(along, words)
        each = isinstance(along, Work) and along.where.which is Which.EACH and c.context.rows_named == 1
        # "sc in each st for 8 cm": how far one row goes
        bearing = bearing or each and first == "for" and bool(words & {"cm", "inch", "inches", '"', "mm"})
        items.append(Say("words" if sure else "unsure", "", span, bearing))
        return
    reading.unread = True
    if (
        c.kind(start - c.i - 1) is T.STAR
        and c.tokens[start].text in ("x", "×")
        and c.kind(start - c.i + 1) is T.NUMBER
    ):
        # "sc 2, inc* x 5", and no star before it
        lone_star(c, start - 1)
    report_unknown(c, start)
    items.append(Prose("", span))


def _at_marker(along: Item | None, words: set[str]) -> bool:
    """True for the "before marker" of "sc to 2 sts before marker": how many are left is told ahead of it."""
    left = isinstance(along, Work) and along.where.stop is not None and along.where.stop.left > 0
    return left and words <= {"before", "of", "the", "marker", "next", "first", "second"}


def _place_of(c: Cursor, start: int, along: Item | None) -> bool:
    """True for the "at base" of "1 dc at base": where a stitch goes that nothing else places."""
    bare = isinstance(along, Work) and (
        along.where.which is Which.STRAIGHT or along.where.which is Which.NEXT and not along.where.kinds
    )
    told = (
        start > 0
        and c.tokens[start - 1].kind in (T.WORD, T.NUMBER)
        and c.tokens[start + 1].text not in _NO_PLACE
    )
    return bare and told and c.tokens[start].text in _INTO


def _cut_off(c: Cursor, start: int, along: Item | None) -> bool:
    """True for the "armhole" of "sc to the start of the armhole": the words before it are not all that they say."""
    before = c.tokens[start - 1] if start else None
    ends = isinstance(along, Work) and before is not None and along.span.end == before.end
    return ends and before is not None and before.text in ("the", "of", "a", "an", "its", "your")


_NO_PLACE = frozenset(
    "that those row rows round rounds rnd rnds before set follows beginning beg start".split()
)
_INTO = ("in", "into", "at", "between", "through", "under", "where", "as")


def _spread_told(items: list[Item], span: Span) -> bool:
    """ "9 sc along the edge, 1 sc per row": what is told of stitches spread along an edge is no more of them."""
    if len(items) < 2 or not isinstance(last := items[-1], Work) or last.where.which is not Which.STRAIGHT:
        return False
    along = items[-2]
    if isinstance(along, Work) and along.where.which is Which.EVENLY:
        items[-1] = Say("remark", "", Span(last.span.start, span.end))
        return True
    return False


_PLACED = frozenset("st stitch sts stitches sp space sps spaces loop lp dc sc hdc tr htr treble one".split())
"""What a place may end with."""
_PARTS = frozenset("next each every first last same following".split())
"""What is said of the thing that a stitch is part of."""
_WORKED = frozenset(
    "next each last first same twice thrice once again times increase decrease inc dec rem".split()
)
"""What words that work something say of it."""
_LEADS = frozenset(
    "a an the for at to in on by of from or and but as if so with without until till when while where which who "
    "ending thus made making foundation corner color colour rs ws rnd rnds round rounds row rows even one two three "
    "just now not no still here there this that these those then before after behind over under near along "
    "working buttonhole neck front back left right top bottom edge side hole left-hand right-hand".split()
)
"""What begins words that only say more of others."""


def _name_in_place(c: Cursor, start: int) -> bool:
    """True for "shell in center of shell" where nobody tells what a shell is: it is worked all the same.

    So is whatever else stands where a stitch would, with its place behind it: "pc in ring", "beg fan in next sp".
    """
    begun = start + 1 < c.end and c.tokens[start].text in ("beg", "beginning", "first", "last")
    at = start + begun
    name, *behind = (token.text for token in c.tokens[at : min(at + 4, c.end)])
    if not behind or behind[0] not in ("in", "into", "over", "across", "around"):
        return False
    if name.removesuffix("s") in _GROUPS:
        return True
    plain = c.tokens[at].kind is T.WORD and 1 < len(name) <= _LONGEST_NAME and not name.endswith(_NO_NAMES)
    place = [word for word in behind[1:] if word != "the"][:1]
    return plain and bool(place) and place[0] in _PLACE and name not in _LEADS | _WORKED | _BESIDE


_LONGEST_NAME = 6
"""Letters of a word that may be short for a stitch."""
_NO_NAMES = ("ing", "ed", "ly")
_PLACE = frozenset("ring next each first last same".split())
"""What says of a place which it is."""
_BESIDE = frozenset(
    "work worked made join turn sl slst ss ch chain chains sk skip miss rep repeat place marker pm all both only also "
    "end ends back up down out off hook yarn stop finish fasten leave tie knot bead beads done seen shown told fall "
    "falls pull tuck it them is are be go goes sit sits lie lies".split()
)
"""Words before a place that are no name."""


_GROUPS = frozenset("shell fan scallop petal cluster vst bobble popcorn puff group motif leaf wave".split())


def lone_star(c: Cursor, at: int) -> None:
    """Reports a star that ends a repeat which no star begins."""
    sign = c.tokens[at].text
    c.context.problems.append(
        Problem(
            "T103",
            Severity.ERROR,
            headline(c.context.row or "A row", f"closes a repeat with “{sign}”, and there is none before it"),
            Label(Span(c.tokens[at].start, c.tokens[at].end), NO_STAR_BEFORE),
            c.context.row,
            None,
            c.context.part,
            f"Put a “{sign}” where the repeat begins.",
        )
    )


def _names_unknown(c: Cursor, start: int, end: int) -> bool:
    """True when words stand where a stitch would: "2 zorps", "6 more open meshes"."""
    words = [c.tokens[k] for k in range(start, end)]
    if words[0].kind is T.NUMBER and len(words) <= 5:
        return not _MEASURES & {t.text for t in words}
    if (
        3 <= len(words) <= 4
        and words[-1].kind is T.NUMBER
        and (words[-2].kind is T.TIMES or words[-2].text == "x")
    ):
        # "zorp x 3"
        return not _MEASURES & {t.text for t in words}
    if any(
        words[k].kind is T.WORD
        and words[k + 1].kind is T.NUMBER
        and words[k + 2].kind is T.WORD
        and words[k].end == words[k + 1].start
        and words[k + 1].end == words[k + 2].start
        for k in range(len(words) - 2)
    ):
        # "C4F", a cable that nobody explains
        return True
    if len(words) == 1 and len(words[0].text) == 1 and words[0].kind is T.WORD:
        # a letter that stands for a stitch and that nobody explains
        return words[0].text not in ("a", "i", "x", "o")
    return len(words) <= 2 and any(t.kind is T.NUMBER for t in words)


def _explained_name(c: Cursor, start: int, end: int) -> bool:
    """True for a phrase that is a name and nothing else: "C4F", or "edge" where the notes explain it.

    What it makes is not known then, and it is no remark.
    """
    words = c.tokens[start:end]
    if len(words) == 1:
        word = words[0].text
        return word in c.context.named - c.context.colours and word not in _SIDES
    glued = all(one.end == other.start for one, other in pairwise(words))
    letters = words[0].kind is T.WORD and len(words[0].text) <= 3 and words[0].text not in _MEASURES
    named = c.context.colours & {"".join(token.text for token in words[:2]), words[0].text}
    return glued and letters and words[1].kind is T.NUMBER and len(words) == 3 and not named


_SIDES = ("rs", "ws", "mc", "cc", "note", "turn", "join")


_MEASURES = frozenset(
    "cm mm m in inch inches yd yds yard yards g oz ball balls skein skeins row rows rnd rnds round rounds times time "
    "degree degrees minutes hours end ends tail strand strands strips button buttons color colors colour colours "
    "marker markers side sides needle needles cut fasten break yarn".split()
)
"""What may be told by number and is no stitch."""


def tell_unknown_in(context: Context, source: Source, label: str, span: Span) -> None:
    """Reports the first word of an unread row that stands for a stitch and that nobody explains, if there is one.

    Not where an error tells of the row already. Which words could not be read is said of the row that is worked.
    """
    if any(span.start <= problem.label.span.start < span.end for problem in context.problems):
        return
    word = unknown_word(scan(source.text, span.start, span.end), context)
    if word is not None:
        tell_unknown(word, context, label)
