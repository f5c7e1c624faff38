"""Sentences that tell something and work nothing: kept word for word as remarks."""

from collections.abc import Iterable

from tracker.notation.phrase.cursor import SLIPS, STOPS, Cursor
from tracker.notation.phrase.deeds.deed import deed_here
from tracker.notation.phrase.places.nouns import PREPOSITIONS
from tracker.notation.phrase.row.counts import count_in, sentence_end
from tracker.notation.phrase.row.remarked.bearing import alters, bears
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.phrase.told.turning import turning_statement
from tracker.notation.scan import T, Token
from tracker.notation.tree import Chain, Item, Join, Say, Work
from tracker.problems import Span
from tracker.trade.numbers import NUMBER_WORDS

_WORKABLE = frozenset(
    "in into next each ch chs sk skip skipping miss same last first rep repeat repeating across "
    "around st sts sp sps work rem remaining unworked "
    "inc dec increase decrease stitch stitches space spaces lp lps loop tog together evenly".split()
)

_AGAIN = frozenset("rep repeat repeating".split())
"""Of these, the ones that alone make work of a sentence: "Repeat between asterisks to end."."""


def workable(c: Cursor, start: int, end: int) -> bool:
    """True when tokens speak of stitches in a way that could change the work."""
    numbers = words = 0
    i = c.i
    for k in range(start, end):
        token = c.tokens[k]
        if token.kind in (T.NUMBER, T.ORDINAL, T.STAR):
            numbers += 1
        elif token.kind is T.WORD:
            c.i = k
            if token.text in _WORKABLE:
                words += 2 if token.text in _AGAIN else 1
            elif token.text in ("end", "ends") and c.text(-1) in ("row", "rows"):
                words += 2  # "and row end around": what else is worked into
            elif token.text in NUMBER_WORDS and token.text != "one":
                numbers += 1
            elif stitch_here(c) is not None and token.text not in ("p", "block", "spike", "slip", "blocks"):
                words += 2
    c.i = i
    return words >= 2 or (words >= 1 and numbers >= 1)


_REMARK_STARTS = frozenset(
    "note tip it this these that you your if be remember mark check count stuff insert weave block "
    "there hint photo see i we sure always don't take put sew close attach pull thread press let by "
    "pm move hold fold seam whipstitch steam wash lay embroider".split()
)
"""Words that begin a remark; those that may begin work as well are not among them."""
_OF_THE_WORK = frozenset(
    "it this these that you your if be remember there see i we sure always don't take put by let".split()
)
"""Of these, the ones that may tell how a row is worked, not what is done with the piece."""
_CHAIN_STARTS = frozenset(
    "ch turning beg the chain chs tch this these do skipped counts does starting first".split()
)
"""Words that begin a statement about the turning chain."""


_ROWS = ("row", "rows", "rnd", "rnds", "round", "rounds")
_BEGIN = frozenset("begins begin starts start ends end".split())
_SEAMED = frozenset("ends end edges edge sides side".split())
"""What a seam closes."""
_SEAMS = frozenset((*SLIPS, "sc", "dc", "crochet", "join", "whipstitch", "bring", "lay", "match"))
"""What a seam is made with, or begins with."""
_BEGINNINGS = frozenset("foundation beginning starting beg first".split())
_TO_THE_MAKER = frozenset("it you i we your remember if".split())
"""Of these, the ones that begin a remark whatever else is said."""


def remark_ahead(c: Cursor, items: list[Item], fastened: bool) -> bool:
    """A sentence after the first that tells something and works nothing: kept as a remark.

    `fastened`: the yarn was fastened off before it.
    """
    end = sentence_end(c)
    first = c.text()
    if fastened:
        if c.kind() is T.OPEN and c.i in c.partners and count_in(c, c.partners[c.i]) is not None:
            return False
        if not _labelled_work(c, end):
            say(c, items, end)
            return True
    statement = turning_statement(_outside(c, c.i, end))
    if statement is not None and first in _CHAIN_STARTS and end - c.i < 24 and not _works_behind(c, end):
        if (made := _made_there(c, items, end)) is not None:
            items.append(made)
        items.append(statement)
        c.i = end
        return True
    words = {c.tokens[k].text for k in range(c.i, end)}
    if {"spiral", "spirals", "continuous"} & words and not any(
        c.tokens[k].kind is T.NUMBER for k in range(c.i, end)
    ):
        say(c, items, end)
        return True
    if seam_ahead(c, items):
        return True
    if first in ("each", "every", "all") and c.text(1) in _ROWS and _BEGIN & words:
        # "Each row after the first begins with ch 1, turn."
        say(c, items, end)
        return True
    if (
        first in ("note", "nb", "tip", "hint", "remember", "mark", "photo")
        or first == "make"
        and c.text(1) == "sure"
    ):
        say(c, items, end, bearing=first not in ("mark", "photo") and alters(c.tokens[c.i : end]))
        return True
    if first in _REMARK_STARTS and (not words & {"rep", "repeat"} or first in _TO_THE_MAKER):
        say(c, items, end, bearing=first in _OF_THE_WORK and bears(c.tokens[c.i : end]))
        return True
    if not workable(c, c.i, end):
        i = c.i
        deed = deed_here(c)
        c.i = i
        if deed is None and stitch_here(c) is None and c.kind() is T.WORD:
            say(c, items, end, "words", bears(c.tokens[c.i : end]))
            return True
    return False


def seam_ahead(c: Cursor, items: list[Item]) -> bool:
    """ "Sl st short ends together.", "Sc first and last rows together", "Ss last row to foundation ch".

    It closes the piece, and no stitch of it is the row's; taken as a remark.
    """
    if c.text() not in _SEAMS:
        return False
    end = sentence_end(c)
    told = [c.tokens[k].text for k in range(c.i, end)]
    words = set(told)
    both = words & _SEAMED or {"first", "last"} <= words and words & set(_ROWS)
    together = {"together", "tog"} & words and both
    what = next((word for word in told[1:] if word not in ("st", "stitch", "the")), "")
    to_the_first = (
        "to" in words
        and _BEGINNINGS & words
        and what in ("last", "this", *_ROWS)
        and (told[0] == "join" or told[0] in SLIPS)
        and words & set(_ROWS)
    )
    side = told[0] in SLIPS and words & {"seam", "seams"}
    # "sc 2 sts together at both ends" is worked
    worked = words & {"each", "every", "sts", "stitches", "next"}
    if not (together or to_the_first or side) or worked:
        return False
    say(c, items, end)
    return True


def fastens_off(items: Iterable[Item]) -> bool:
    """True where the yarn is fastened off among items."""
    return any(isinstance(item, Say) and item.kind == "fasten off" for item in items)


def begins_anew(c: Cursor, items: Iterable[Item]) -> bool:
    """True for "Rnd 5: Fasten off pink. Join white in any sp. …": the old yarn goes before anything is worked."""
    for item in items:
        if not isinstance(item, Say):
            return False
        if item.kind == "fasten off":
            break
    return any(token.text in _NEW_YARN for token in c.tokens) and workable(c, c.i, c.end)


_NEW_YARN = frozenset("join rejoin attach with using change switch standing".split())


def _works_behind(c: Cursor, end: int) -> bool:
    """True for "ch 3, which counts as dc, 2 dc in same st": said of a chain that is made there, with work behind it."""
    i, found = c.i, False
    for k in range(c.i, end - 1):
        if c.tokens[k].text == "and" and c.tokens[k + 1].text in ("work", "make"):
            # "chain 3 to count as the first dc and work 11 more dc into the ring"
            found = True
        if c.tokens[k].kind in (T.COMMA, T.SEMICOLON):
            c.i = k + 1
            c.take_any("and", "then", "now")
            number = int(c.value() is not None)
            stitch = stitch_here(c, number)
            past = number + (stitch.tokens if stitch is not None else 0)
            behind = c.text(past) in PREPOSITIONS | {"next", "each"}
            alone = number and c.i + past == end  # "…, 11 dc."
            found = found or c.text() in _DOES or stitch is not None and bool(behind or alone)
    c.i = i
    return found


def _made_there(c: Cursor, items: list[Item], end: int) -> Chain | None:
    """ "Ch 3 = 1 dc.", "Ch 3, which is your first dc.", ahead of the first stitches: the chain is made there too."""
    chains = c.value(1)
    said = c.text(3) if c.kind(2) is T.COMMA else c.text(2)
    made = said in ("which", "to") or c.kind(2) is T.COMMA and said in ("this", "it", "counts", "counting")
    told = chains is not None and (c.kind(2) is T.EQUALS or made) and c.kind(end - c.i) is T.PERIOD
    begun = [item for item in items if not isinstance(item, Say)]
    ring = all(
        isinstance(item, (Chain, Join)) or isinstance(item, Work) and item.stitch == "slst" for item in begun
    )
    if not told or not ring or any(isinstance(item, Chain) and item.count == chains for item in begun):
        return None
    return Chain(chains or 0, Span(c.tokens[c.i].start, c.tokens[c.i + 1].end))


_DOES = frozenset("turn work make sk skip miss join".split())
"""What begins work behind a statement."""


def _outside(c: Cursor, start: int, end: int) -> Cursor:
    """The tokens of a sentence without what stands in brackets."""
    tokens = []
    i = start
    while i < end:
        if c.tokens[i].kind is T.OPEN and i in c.partners:
            i = c.partners[i] + 1
            continue
        tokens.append(c.tokens[i])
        i += 1
    at = c.tokens[min(end, len(c.tokens) - 1)].start
    return Cursor([*tokens, Token(T.END, "", at, at)], c.context)


def _labelled_work(c: Cursor, end: int) -> bool:
    """True for a sentence behind "fasten off" that begins the next piece of work."""
    words = {c.tokens[k].text for k in range(c.i, end)}
    chains = any(
        c.tokens[k].text == "ch" and T.NUMBER in (c.tokens[k - 1].kind, c.tokens[k + 1].kind)
        for k in range(c.i, end)
    )
    return "join" in words and chains and workable(c, c.i, end)


def beside(c: Cursor) -> Say | None:
    """Takes what is said beside a list of stitches that goes on behind it: "1 hdc (it may curl), 3 dc", "see photo 3,".

    The cursor stands on a bracket, or behind a comma. None, with the cursor where it was, for what may be work.
    """
    start, close = c.i, c.partners.get(c.i)
    if c.kind() is T.OPEN and close is not None:
        inside, end = c.i + 1, close
        c.i = close + 1
    elif c.kind() is T.WORD:
        inside, end = c.i, c.i
        while end < c.end and c.tokens[end].kind in (T.WORD, T.NUMBER, T.OTHER):
            end += 1
        c.i = end
    else:
        return None
    goes_on = c.kind() is T.COMMA
    c.i = inside
    shown = shown_elsewhere(c, inside, end)
    told = goes_on and not (deed_here(c) or stitch_here(c)) and (shown or not workable(c, inside, end))
    c.i = start
    counted = c.kind() is T.OPEN and close is not None and not shown and count_in(c, close) is not None
    if not told or counted:
        return None
    c.i = end + (c.kind() is T.OPEN)
    return Say("remark", "", c.span_from(start))


_SHOWN = frozenset(
    "pic pics picture pictures photo photos fig figs figure figures image images img diagram diagrams chart video "
    "illustration page tip tips step steps note notes tutorial gif clip".split()
)
"""What shows elsewhere how something is done, by its number."""
_REFERS = frozenset("see look at in on the and to as shown or of ref refer also below above min no".split())
"""Words beside it."""


PICTURES = ("pic", "pics")
"""What a picture is called for short, and a picot too."""


def picture_here(c: Cursor, items: list[Item]) -> bool:
    """Takes "Pic 4", a picture by its number; "4 pic" are picots, as is "pic" alone."""
    if c.value(1) is None or stitch_here(c, 1) is not None:
        return False
    start = c.i
    c.i += 2
    items.append(Say("remark", "", c.span_from(start)))
    return True


SHAPES = ("inc", "increase", "increasing", "dec", "decrease", "decreasing")
"""What a row may be called that changes the count."""


def kind_of_row(c: Cursor, items: list[Item]) -> bool:
    """Takes the "Increase row." that a row begins with: what it is, and no stitch of it."""
    if c.text(1) not in _ROWS or c.kind(2) not in STOPS or any(not isinstance(item, Say) for item in items):
        return False
    start = c.i
    c.i += 2
    items.append(Say("remark", "", c.span_from(start)))
    return True


def shown_elsewhere(c: Cursor, start: int, end: int) -> bool:
    """True for "see photo 4", "Fig. 3", "Pics 2-4": the number counts nothing. "4 pics" are picots."""
    shown = False
    for token in c.tokens[start:end]:
        if token.kind is T.WORD:
            shown = shown or token.text in _SHOWN
            if token.text not in _SHOWN | _REFERS:
                return False
        elif token.kind is T.NUMBER and not shown or token.kind in (T.OPEN, T.CLOSE, T.STAR, T.TIMES):
            return False
    return shown


def say(c: Cursor, items: list[Item], end: int, kind: str = "remark", bearing: bool = False) -> None:
    """Keeps everything up to a token as a remark, or as words of which no more is known than that they work nothing.

    `bearing` where they may change what is worked.
    """
    span = Span(c.tokens[c.i].start, c.tokens[max(c.i, end - 1)].end)
    items.append(Say(kind, "", span, bearing))
    c.i = max(end, c.i + 1)
