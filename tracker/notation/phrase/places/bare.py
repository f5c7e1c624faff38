"""Places without a preposition: "next 7 sts", "first dc", "same st", "each ch-1 sp across", "top of ch-3"."""

from tracker.notation.phrase.cursor import STOPS, Cursor, key_of
from tracker.notation.phrase.places.fixed import fixed_place, nth_place, top_of
from tracker.notation.phrase.places.gaps import between, between_stitches, gap_behind, of_several
from tracker.notation.phrase.places.loops import loop_words
from tracker.notation.phrase.places.nouns import (
    CHAINS,
    GAP_WORDS,
    SPACES,
    STS,
    chain_told,
    kind_here,
    kinds_here,
    many_of,
    number_here,
    turning_chain,
)
from tracker.notation.phrase.places.runs import FREE, of_row, run
from tracker.notation.phrase.places.stops import stop_here
from tracker.notation.scan import T
from tracker.notation.tree import ANY, OWN_IF_ANY, SKIPPED, SPACE, Kind, Stop, Where, Which
from tracker.records import replace
from tracker.trade.numbers import ORDINAL_WORDS

_LEADS = {
    "next": Which.NEXT,
    "following": Which.NEXT,
    "foll": Which.NEXT,
    "any": Which.NEXT,
    "first": Which.FIRST,
    "1st": Which.FIRST,
    "last": Which.LAST,
    "final": Which.LAST,
}
"""What a run of places begins with."""
_OTHERS = ("remaining", "rem", "others", "left")
_EACH = frozenset("each every ea all".split())


def bare_place(c: Cursor) -> tuple[Where, ...] | None:
    """The place that stands here; None when none does, and the cursor no further than behind an article."""
    start = c.i
    if c.text() in ("a", "an") and c.text(1) in ("magic", "ring", "circle", "mr", "loop"):
        c.i += 1
    else:
        c.take("the")
    fixed = fixed_place(c, start)
    if fixed is not None:
        return fixed
    word = c.text()
    if word == "top":
        return top_of(c, start)
    nth = c.token().value if c.kind() is T.ORDINAL else ORDINAL_WORDS.get(word)
    if nth is not None and not (word in ("first", "1st") and not _nth_chain_follows(c)):
        if (
            c.text(1) in ("and", "&")
            and c.kind(2) is T.ORDINAL
            and c.token(2).value == nth + 1
            and c.text(4) == "from"
        ):
            # "sc2tog over 2nd and 3rd ch from hook"
            c.i += 2
            both = nth_place(c, start, nth)
            return None if both is None else (replace(both[0], many=2),)
        return nth_place(c, start, nth)
    if word in _LEADS:
        c.i += 1
        found = run(c, start, _LEADS[word])
        if word == "any" and found:
            return (replace(found[0], nth=-2), *found[1:])
        return found
    if word in _EACH:
        return _each(c, start)
    if word in ("rem", "remaining"):
        return _remaining(c, start)
    if word in _REST:
        return _rest(c, start)
    if (at := _at_middle(c, start)) is not None:
        return at
    turning = _turning(c, start)
    if turning is not None:
        return turning
    if (
        word in ("center", "centre", "middle", "central")
        or word == "marked"
        and c.text(1) in STS | SPACES | CHAINS
    ):
        return _middle(c, start)
    return _noun(c, start)


_REST = frozenset("rest remainder others".split())


def _rest(c: Cursor, start: int) -> tuple[Where, ...]:
    """ "Sc in the rest", "in the rest of the sts": every one that is left."""
    c.i += 1
    if c.text() == "of" and c.text(1) == "the" and c.text(2) in (*STS, "row", "round", "rnd"):
        c.i += 3
    return (Where(Which.EACH, c.span_from(start), 0, (Kind(ANY),), stop=Stop()),)


def _nth_chain_follows(c: Cursor) -> bool:
    """True for "first ch from hook": "first" is an ordinal there."""
    return c.text(1) in ("ch", "chain") and c.text(2) == "from"


def _free_loops(c: Cursor, start: int, many: int) -> tuple[Where, ...] | None:
    """ "The 14 free front loops of Rnd 11": so many loops that a round left."""
    i = c.i
    c.i += 1
    loop = loop_words(c)
    if not loop.startswith("free"):
        c.i = i
        return None
    return of_row(c, (Where(Which.NEXT, c.span_from(start), many, (Kind("st"),), loop=loop),))


def _each(c: Cursor, start: int) -> tuple[Where, ...] | None:
    """ "Each st across", "each of next 3 sts", "all ch-1 sps"."""
    word = c.text()
    if word == "every" and c.text(1) in ("other", "alternate", "alt", "second", "2nd"):
        # one of two is meant, and no reader of places knows which
        return None
    c.i += 1
    if c.text() in ("skipped", "missed") and "below" not in (c.text(3), c.text(4), c.text(5)):
        # "around each skipped st": all that were just passed over
        i = c.i
        c.i += 1
        if kind_here(c) is not None:
            return of_row(c, (Where(Which.MADE, c.span_from(start), 0, (Kind(SKIPPED),)),))
        c.i = i
    word == "all" and c.text(1) in ("rest", "others", "remainder") and c.take("the")
    if c.take("of"):
        c.take("the")
        many = c.value()
        if many is not None and c.text(1) in ("skipped", "missed"):
            c.i += 2
            kind_here(c)
            return (Where(Which.MADE, c.span_from(start), many or 1, (Kind(SKIPPED),)),)
        if many is not None and c.text(1) in _OTHERS and c.kind(2) in (*STOPS, T.OPEN):
            # "in each of the 7 remaining"
            c.i += 2
            return (Where(Which.NEXT, c.span_from(start), many, (Kind(ANY),)),)
        if many is not None and (free := _free_loops(c, start, many)) is not None:
            return free
        lead = c.text()
        if lead in ("following", "foll", "other") and (along := _following(c, start)) is not None:
            return along
        if lead in ("next", "following", "foll", "first", "1st", "last"):
            c.i += 1
            return run(c, start, _LEADS[lead])
        if lead in ("center", "centre", "middle", "central") and c.value(1) is not None:
            return _middle(c, c.i)
    if c.take("of"):
        # "each of of the next two", as hands type it
        c.take("the")
    c.take_any("rem", "remaining", "following", "foll")
    lead = c.text()
    if lead in ("next", "first", "last"):
        c.i += 1
        return run(c, start, _LEADS[lead])
    if c.take_any("side", "end"):
        return None
    if word == "all" and c.take_any("rest", "others", "remainder"):
        # "hdc in 3rd ch from hook and in all the rest"
        return (Where(Which.EACH, c.span_from(start), 0, (Kind(ANY),), stop=stop_here(c)),)
    if c.text() in ("space", "sp", "gap") and c.text(1) in GAP_WORDS:
        c.i += 2
        return between(c, start, 0, Which.EACH)
    many = number_here(c)
    kinds = kinds_here(c)
    if many is not None and kinds:
        return (Where(Which.NEXT, c.span_from(start), many, kinds),)
    if many is not None and c.text(-2) == "of" and (c.kind() in STOPS or c.kind() in (T.OPEN, T.EQUALS)):
        # "2 sc in each of 3, sc in 9": the noun goes without saying
        return (Where(Which.NEXT, c.span_from(start), many, (Kind(ANY),)),)
    if not kinds and (
        c.text() in ("across", "around", "along")
        or c.kind() in (T.COMMA, T.SEMICOLON, T.PERIOD, T.END, T.CLOSE, T.OPEN, T.DASH, T.EQUALS, T.STAR)
        or c.text() == "to"
        and c.text(1) in ("end", "last", "the")
    ):
        # "sc in each (24)": the noun goes without saying
        kinds = (Kind(ANY),)
    if not kinds:
        c.i = start
        return None
    _narrowed(c)
    stop = stop_here(c)
    return (Where(Which.EACH, c.span_from(start), 0, kinds, stop=stop),)


def _following(c: Cursor, start: int) -> tuple[Where, ...] | None:
    """ "Each of the following dc", "each of the other eleven ch": as many as are told, or all there are."""
    i = c.i
    other = c.text() == "other"
    c.i += 1
    many = number_here(c)
    if many is not None and not other or not (kinds := kinds_here(c)):
        c.i = i
        return None
    if many is not None:
        return (Where(Which.NEXT, c.span_from(start), many, kinds),)
    return (Where(Which.EACH, c.span_from(start), 0, kinds, stop=stop_here(c)),)


def _narrowed(c: Cursor) -> None:
    """Takes "of each V-st" behind "each ch-1 sp": it narrows nothing that matters."""
    i = c.i
    if c.take("of"):
        c.take_any("each", "every", "the", "next")
        if kind_here(c) is None:
            c.i = i


def _remaining(c: Cursor, start: int) -> tuple[Where, ...]:
    """ "Remaining sts", "rem 4 dc"."""
    c.i += 1
    many = number_here(c)
    kinds = kinds_here(c)
    stop = stop_here(c)
    if many is None:
        return (Where(Which.EACH, c.span_from(start), 0, kinds or (Kind(ANY),), stop=stop),)
    return (Where(Which.NEXT, c.span_from(start), many, kinds),)


def _turning(c: Cursor, start: int) -> tuple[Where, ...] | None:
    """ "Tch", "beg ch-3", "ch-3" with no noun behind it; also "beg dc", the first."""
    word = c.text()
    if c.value() is not None and c.kind(1) is T.HYPHEN and c.text(2) in CHAINS and c.kind(3) is not T.HYPHEN:
        # "2 dc in the 2-ch"
        if c.text(3) not in SPACES and turning_chain(c) is not None:
            return (Where(Which.TOP, c.span_from(start), nth=0),)
        return None
    if word not in ("tch", "beg", "beginning", "turning", "t", "starting", "initial") and not (
        word in CHAINS and (c.kind(1) is T.HYPHEN or chain_told(c))
    ):
        return None
    i = c.i
    beside = (Kind(SPACE),)
    if word == "turning" and c.text(1) in CHAINS and c.text(2) in SPACES:
        c.i += 3
        return (Where(Which.TOP, c.span_from(start), kinds=beside, nth=0),)
    if turning_chain(c) is not None:
        if word == "turning" and c.kind() is T.HYPHEN and c.value(1) is not None:
            c.i += 2
        if word in ("turning", "t", "tch") and c.take_any(*SPACES):
            return (Where(Which.TOP, c.span_from(start), kinds=beside, nth=0),)
        if c.text() not in SPACES:
            return (Where(Which.TOP, c.span_from(start), nth=0),)
    c.i = i
    if word in ("beg", "beginning", "starting"):
        c.i += 1
        kind = kind_here(c)
        if kind is not None and kind.name == SPACE and kind.chains is None:
            # "5 sc in beg lp": the one the round began in
            return (Where(Which.SAME, c.span_from(start), kinds=(kind,), nth=-3),)
        if kind and (word == "beg" or kind.name == SPACE):
            return (Where(Which.FIRST, c.span_from(start), kinds=(kind,)),)
        c.i = i
    return None


def _middle(c: Cursor, start: int) -> tuple[Where, ...] | None:
    """ "Center dc of next shell", "middle st"."""
    c.i += 1
    many = number_here(c)
    kind = kind_here(c)
    if many is None and (several := of_several(c, start, kind, "middle")) is not None:
        return several
    if kind is None:
        c.i = start
        return None
    if many is not None:
        return (Where(Which.NEXT, c.span_from(start), many, (kind,)),)
    if c.take("of"):
        if c.text(1) in _GROUP_LEADS:
            # "of the next scallop"
            c.take("the")
        c.take_any(*_GROUP_LEADS, "the", "a")
        lead = c.text(-1)
        each = lead in ("each", "every")
        group = kind_here(c)
        stop = stop_here(c) if each else None
        if group is not None:
            which = Which.EACH if each else Which.NEXT
            # "of petal", "of corner": of the one the hook has come into, where that is one
            own = "own " if lead in ("of", "the", "a") else ""
            # "of next 3-sc corner"
            name = "corner" if c.text(-1) == "corner" and group.name == "group" else group.name
            kinds = (kind, Kind(name, group.chains, own + "middle"))
            nth = -2 if lead == "any" else 0
            return (Where(which, c.span_from(start), 1, kinds, nth, stop=stop),)
    inside = (kind, Kind("group", inside=OWN_IF_ANY)) if kind.name not in (SPACE, ANY, "ch") else (kind,)
    return (Where(Which.NEXT, c.span_from(start), 1, inside),)


_GROUP_LEADS = ("each", "every", "next", "last", "first", "following", "same", "any")


def _at_middle(c: Cursor, start: int) -> tuple[Where, ...] | None:
    """ "Dc at center of next shell", "the st in the middle of next fan"; None, and nothing taken, for other words."""
    i = c.i
    kind = kind_here(c)
    if kind is not None and c.take_any("at", "in", "from"):
        c.take("the")
        if c.text() in ("center", "centre", "middle") and c.text(1) == "of":
            c.i += 2
            if c.text(1) in _GROUP_LEADS:
                c.take("the")
            lead = c.take_any(*_GROUP_LEADS, "the")
            if (group := kind_here(c)) is not None:
                each = lead in ("each", "every")
                kinds = (kind, Kind(group.name, group.chains, "middle"))
                stop = stop_here(c) if each else None
                return (Where(Which.EACH if each else Which.NEXT, c.span_from(start), 1, kinds, stop=stop),)
    c.i = i
    return None


def _count_behind(c: Cursor) -> bool:
    """True at the bracket of a count that ends a row: "hdc in 3 (26)"."""
    close = c.partners.get(c.i) if c.kind() is T.OPEN and c.value(1) is not None else None
    return close is not None and c.kind(close - c.i + 1) in (T.END, T.PERIOD)


def _noun(c: Cursor, start: int) -> tuple[Where, ...] | None:
    """A noun with no article: "in ch-3 sp", "into dc", "sp of each V-st"; or a number that ends the phrase."""
    many = number_here(c)
    kinds = kinds_here(c)
    if not kinds:
        if many is not None and (c.kind() in STOPS or _count_behind(c)):
            # "over 7": a number alone is too thin unless something closes it
            return (Where(Which.NEXT, c.span_from(start), many),)
        c.i = start
        return None
    if many is None and kinds[0].name == SPACE and c.text() in GAP_WORDS and c.text(1) in ("them", "these"):
        # "… and in ch-1 sp between them"
        c.i += 2
        _ = number_here(c), kind_here(c)
        return (Where(Which.NEXT, c.span_from(start), 1, (replace(kinds[0], inside="passed"),)),)
    kinds = between_stitches(c, kinds) if many is None else kinds
    if many is None and (gap := gap_behind(c, start, kinds[0])) is not None:
        return gap
    if many is None and c.text() == "just" and c.text(1) in ("made", "worked", "formed"):
        # "around the sc just made"
        c.i += 2
        if kinds == (Kind(SPACE),) or kinds[0].name == SPACE and c.text(-1) == "formed":
            # "sc in the arch just formed": the one that the round before ended with
            return (Where(Which.SAME, c.span_from(start), kinds=(Kind(SPACE),)),)
        return (Where(Which.MADE, c.span_from(start), 1, kinds),)
    if many is None and kinds[0].name[:2] in ("fp", "bp") and c.text() in ("and", "as", "across", "around"):
        span = c.span_from(start)
        return (Where(Which.EACH, span, 0, kinds, stop=stop_here(c)),)
    if (
        many is not None
        and c.text() == "of"
        and c.text(1) in ("row", "rnd", "round", "r")
        and c.value(2) is not None
    ):
        # "in the 4 unworked sts of Row 3"
        unworked = any(t.text in FREE for t in c.tokens[start : c.i])
        return of_row(c, (Where(Which.NEXT, c.span_from(start), many, kinds),), unworked)
    if many is None and c.take("of"):
        # "ch-1 sp of each V-st"
        c.take("the")
        each = c.take_any("each", "every", "ea")
        lead = c.take_any("next", "first", "last", "same", "previous", "prev", "corner", "any")
        amount = number_here(c) or 1
        if (group := kind_here(c)) is not None:
            stop = stop_here(c) if each else None
            if (
                kinds[0].name == SPACE
                and (
                    key_of(group.name) in c.context.specials
                    or group.name == "group"
                    and (lead == "next" or c.text(-1) in ("shell", "fan"))
                )
                and lead in ("", "next", "first", "any")
            ):
                # of several spaces that look alike, the one inside
                kinds = (kinds[0], Kind(group.name, inside="middle" if lead else "own middle"))
                lead = lead if lead == "any" else "next"
            nth = -2 if lead == "any" else 0
            which = {"last": Which.LAST, "same": Which.SAME, "first": Which.FIRST}.get(lead, Which.NEXT)
            if each:
                which, amount = Which.EACH, 0
            return (Where(which, c.span_from(start), amount, kinds, nth, stop=stop),)
        c.i -= 1
    plural = c.text(-1).endswith("s") and c.text(-1) != "ss"
    if (
        many is None
        and plural
        and kinds[0].name in (SPACE, ANY, "ch")
        and c.text() in ("across", "around", "to")
    ):
        return (Where(Which.EACH, c.span_from(start), 0, kinds, stop=stop_here(c)),)
    return (Where(Which.NEXT, c.span_from(start), many_of(many), kinds, nth=-1 if many is None else 0),)
