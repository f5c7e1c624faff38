"""Places that one word tells: the ring, "same st", "here", a stitch just made or skipped."""

from tracker.notation.phrase.cursor import STOPS, Cursor, key_of
from tracker.notation.phrase.places.gaps import between, in_group, of_several
from tracker.notation.phrase.places.nouns import (
    CHAINS,
    GAP_WORDS,
    POSTS,
    SPACES,
    kind_here,
    spaced,
    turning_chain,
)
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.scan import T
from tracker.notation.tree import ANY, EITHER, SKIPPED, SPACE, Kind, Where, Which
from tracker.records import replace

_RINGS = frozenset("ring circle mr mc loop lp".split())
_SKIPPED_FIRST = frozenset("next skipped missed sts st first 2 3 second unworked last".split())
"""What a place among skipped stitches may begin with."""
_SKIPPED_WORDS = frozenset("first second last skipped just st sts stitch dc sc tr hdc 2 3 4 missed".split())
_BEGUN = ("beg", "beginning", "starting", "initial")
_THINGS = frozenset("st sts stitch sp sps space ch or loop".split())
"""What may stand behind "indicated"."""
_STANDING = frozenset("dc dcs sts stitches groups shells clusters tr hdc sc petals".split())
"""What a space may lie between."""
_HERE = frozenset("here place indicated specified stated".split())


def fixed_place(c: Cursor, start: int) -> tuple[Where, ...] | None:
    """The place that stands here, when its first words tell it."""
    word = c.text()
    if word in ("magic", "amigurumi", "adjustable", "sliding") and c.text(1) in ("ring", "circle", "loop"):
        c.i += 2
        return (Where(Which.RING, c.span_from(start)),)
    if word in ("it", "this", "that") and c.text(1) in ("st", "sp", "space", "loop", "lp", "stitch"):
        spaces = word != "it" and c.text(1) in ("sp", "space", "loop", "lp")
        c.i += 2
        return (Where(Which.SAME, c.span_from(start), kinds=(Kind(SPACE),) if spaces else ()),)
    if (at := _at_base(c)) is not None:
        c.i += at
        c.take("the")
        if turning_chain(c) is None:
            c.take_any("first", "last")
            kind_here(c)
        return (Where(Which.SAME, c.span_from(start)),)
    if word in _HERE:
        c.i += 1
        while c.take_any("indicated", "specified", "stated", "given", "st", "sp", "stitch", "space", "or"):
            pass
        while c.text() in _THINGS and (c.text(-1) in _HERE or c.text(-1) == "or" or c.text() == "or"):
            # "in indicated ch-2 sp"
            if spaced(c) is None:
                c.i += 1
        if c.text(-1) in _HERE:
            # "in indicated 2-ch sp"
            spaced(c)
        return (Where(Which.SAME, c.span_from(start)),)
    if _skipped_follows(c):
        many = c.value() or (c.value(1) if word in ("skipped", "next") else None) or 1
        if word in ("skipped", "missed") and c.value(1) is None and c.text(1) in _SEVERAL:
            many = 0  # "around the skipped sts": all of them
        c.take("next")
        if c.take("first") and c.text() == "of":
            many = 1
            c.take("of")
            c.take("the")
        while c.kind() is T.NUMBER or c.kind() is T.WORD and c.text() in _SKIPPED_WORDS:
            if c.value() is not None and c.text(1) in ("row", "rows"):
                break
            c.i += 1
        kind_here(c)
        rows = c.value()
        if rows is not None and c.text(1) in ("row", "rows") and c.text(2) == "below":
            # "in the skipped st two rows below": where a mosaic stitch goes
            c.i += 3
            return (Where(Which.NEXT, c.span_from(start), max(1, many), down=1 + min(rows, 90)),)
        return (Where(Which.MADE, c.span_from(start), many, (Kind(SKIPPED),)),)
    if word in _RINGS and not (word in ("loop", "lp") and c.text(1) in ("just", *GAP_WORDS)):
        c.i += 1
        c.take("ring")
        return (Where(Which.RING, c.span_from(start)),)
    if (
        word in ("center", "centre", "middle")
        and c.text(1) == "of"
        and (spot := _middle_of(c, start)) is not None
    ):
        return spot
    if word in ("center", "centre", "middle") and c.step():
        if (several := of_several(c, start, None, "middle")) is not None:
            return several
        c.i -= 1
    if word in ("center", "centre", "magic") and c.text(1) in ("of", "ring", "circle", "loop"):
        c.i += 2
        if c.text() in ("the", "ring", "circle"):
            c.take("the")
            c.take_any("ring", "circle")
        return (Where(Which.RING, c.span_from(start)),)
    if word in ("sp", "space", "sps", "spaces", "gap", "gaps") and (
        c.text(1) in GAP_WORDS
        or c.text(1) in ("before", "after")
        and c.text(2) in ("next", "the", "first", "last")
    ):
        before = c.text(1) == "before" and c.text(2) == "next" and stitch_here(c, 3) is not None
        c.i += 2
        gap = between(c, start, 1, Which.NEXT)
        if before and len(gap) == 1 and len(gap[0].kinds) == 1:
            # "in sp before next dc": there, be it in the midst of those made in one place
            return (replace(gap[0], kinds=(*gap[0].kinds, Kind("before"))),)
        return gap
    if (
        word in ("lp", "loop", "sp", "space", "arch", "gap", "st", "p", "picot")
        and c.text(1) == "just"
        and c.text(2) in ("made", "formed", "completed", "worked")
    ):
        c.i += 3
        return (Where(Which.SAME, c.span_from(start), kinds=(Kind(SPACE),)),)
    if word == "same":
        return _same(c, start)
    post = 2 if word in POSTS and c.text(1) == "of" else 0
    joining = c.text(post) in ("joining", "joined", "join")
    if joining and (
        c.text(post + 1) in ("st", "sp", "stitch", "space") or stitch_here(c, post + 1) is not None
    ):
        # "in joining st", "around post of joining dc": where the hook came out of it
        c.i += post + 2
        return (Where(Which.SAME, c.span_from(start)),)
    return None


def _at_base(c: Cursor) -> int | None:
    """How many words "st at base of", "same place as base of", "base of" take; None when they don't stand here."""
    words = [c.text(n) for n in range(7)]
    for n, word in enumerate(words):
        if word in ("base", "foot") and words[n + 1 : n + 2] == ["of"]:
            return n + 2
        if word == "base" and words[n - 1] in ("at", "the") and "at" in words[:n] and c.kind(n + 1) in STOPS:
            return n + 1  # "in st at base"
        if word not in (
            "same",
            "st",
            "sp",
            "stitch",
            "place",
            "space",
            "at",
            "as",
            "the",
            "dc",
            "tr",
            "sc",
            "htr",
        ):
            return None
    return None


def _middle_of(c: Cursor, begun: int) -> tuple[Where, ...] | None:
    """ "Centre of first loop": the space itself; None for the centre of a ring, a row or a shell."""
    before = [c.tokens[k].text for k in (begun - 2, begun - 1) if k >= 0]
    slips = bool({"st", "ss", "slst", "sts"} & set(before if before[-1:] == ["to"] else before[-1:]))
    start = c.i
    c.i += 2
    c.take("the")
    lead = c.take_any("next", "first", "same", "following", "corner", "last", "each", "every", "previous")
    kind = kind_here(c)
    special = c.context.specials.get(key_of(kind.name)) if kind is not None else None
    stands = special is not None and bool(special.items) and not special.closes
    if kind is not None and (kind.name == "group" or stands):
        # "sc in the center of the last shell": its middle stitch or space
        which = Which.EACH if lead in ("each", "every") else Which.NEXT
        inside = Kind(kind.name, kind.chains, "middle")
        return (Where(which, c.span_from(start), 0 if which is Which.EACH else 1, (Kind(EITHER), inside)),)
    if lead in ("last", "each", "every", "previous") or (
        kind is None
        or kind.name not in (SPACE, "corner", "corner sp")
        or not (lead or slips)
        and kind.chains is None
    ):
        c.i = start
        return None
    which = {"first": Which.FIRST, "same": Which.SAME}.get(lead, Which.NEXT)
    return (Where(which, c.span_from(start), 1, (kind,), 0 if lead else -1),)


def _chain_of_space(c: Cursor, start: int) -> tuple[Where, ...] | None:
    """ "2nd ch of first ch-3 lp", "of next ch-5": a chain of a space is as good as it; None where none is named."""
    i = c.i
    c.take("the")
    lead = c.take_any("next", "first", "same", "corner", "each")
    kind = kind_here(c) if lead else None
    told = c.text(-1) in SPACES or kind is not None and kind.chains is not None and lead in ("next", "each")
    if kind is None or kind.name not in (SPACE, "corner sp") or not told:
        c.i = i
        return None
    which = {"first": Which.FIRST, "same": Which.SAME, "each": Which.EACH}.get(lead, Which.NEXT)
    return (Where(which, c.span_from(start), 0 if lead == "each" else 1, (kind,)),)


_SEVERAL = frozenset("sts stitches scs hdcs dcs trs fpdcs fptrs".split())


def _skipped_follows(c: Cursor) -> bool:
    """True for "skipped st", "2 skipped sts", "first skipped dc"; not for chains skipped at a row's beginning."""
    # as far as a comma: in "dc in skipped st, ch 1" the chain is none of the place
    over = next((n for n in range(1, 4) if c.kind(n) in (T.COMMA, T.SEMICOLON, T.PERIOD)), 4)
    ahead = [*(c.text(n) for n in range(over)), *[""] * (4 - over)]
    if ahead[:2] == ["first", "of"]:
        n = 3 if ahead[2] == "the" else 2
        return c.value(n) is not None and c.text(n + 1) in ("skipped", "missed", "unworked")
    return (
        (ahead[0] in _SKIPPED_FIRST or c.value() is not None and ahead[1] in ("skipped", "missed"))
        and ("skipped" in ahead or "missed" in ahead)
        and not (ahead[0] == "first" and c.value(1) is not None)
        and not {"ch", "chs"} & set(ahead[1:])
    )


def _same(c: Cursor, start: int) -> tuple[Where, ...]:
    """ "Same st as joining", "same place as last dc", "same sp"."""
    c.i += 1
    kinds: tuple[Kind, ...] = ()
    if not c.take_any("place", "spot", "one"):
        kind = kind_here(c)
        kinds = (kind,) if kind else ()
    began = False
    if c.take("as"):
        while word := c.take_any("last", "previous", "prev", "first", "the", *_BEGUN, "of"):
            began = began or word == "first" or word in _BEGUN
            if word in _BEGUN:
                turning_chain(c)
        if c.kind() is T.ORDINAL and c.token().value == 1:
            began = bool(c.step())
        chained = 1 + (c.kind(1) is T.HYPHEN)
        if c.text() in ("ch", "chain") and c.value(chained) is not None:
            # "dc in same st as ch 3"
            c.i += chained
            began = True
        began = began or c.value() is not None and c.text(chained) in ("ch", "chain")  # "as 3-ch"
        if c.value() is not None:
            c.i += chained if c.text(chained) in ("ch", "chain") else 1
        # "as first half shell": what a round closes with completes the half that it began with
        began = bool(c.take("half")) or began
        if began and c.take_any("shell", "fan", "scallop", "group", "cluster", "petal"):
            return (Where(Which.SAME, c.span_from(start), kinds=kinds, nth=-3),)
        if not c.take_any("join", "joining", "ss", "slst", "joined", "tch") and not c.take("sl", "st"):
            c.take_any("sl", "slip")
            kind_here(c)
        c.take("was")
        c.take_any("made", "worked", "joining", "join")
    elif c.text() in GAP_WORDS and c.text(1) in _STANDING:
        # "in same sp between dc"
        c.i += 2
    else:
        c.take("used")
    return (Where(Which.SAME, c.span_from(start), kinds=kinds, nth=-3 if began else 0),)


def top_of(c: Cursor, start: int) -> tuple[Where, ...] | None:
    """ "Top of ch-3", "top of first dc"."""
    at = c.i
    c.i += 1
    if c.text(1) == "of":
        # "the top chain of the turning chain"
        c.take_any("ch", "chain", "loop", "lp")
    c.take_any("st", "stitch")
    c.take("of")
    c.take("the")
    if c.text(1) in ("row's", "round's", "rnd's"):
        # "the top of the previous row's ch-3"
        c.i += 2
    first = c.take_any("first", "next")
    if turning_chain(c) is not None:
        return (Where(Which.TOP, c.span_from(start), nth=0),)
    kind = kind_here(c)
    if kind is not None and c.text() == "just" and c.text(1) in ("made", "worked"):
        # "ch 2, sl st in top of tr just made"
        c.i += 2
        return (Where(Which.MADE, c.span_from(start), 1, (kind,)),)
    if kind is not None and kind.name == "ch":
        # "in top of ch": of the one that a row begins with
        return (Where(Which.TOP, c.span_from(start), nth=0),)
    if kind is not None:
        which = Which.TOP if first == "first" else Which.FIRST
        return (Where(which, c.span_from(start), kinds=(kind,)),)
    c.i = at
    return None


def _beginning_named(c: Cursor) -> bool:
    """Takes "beginning of previous row", from where the chains of a turning chain are counted."""
    if not c.take_any("beginning", "beg", "start", "base"):
        return False
    if c.take("of"):
        c.take("the")
        c.take_any("previous", "prev", "last")
        c.take_any("row", "rnd", "round", "ch")
    return True


def nth_place(c: Cursor, start: int, nth: int) -> tuple[Where, ...] | None:
    """ "4th ch from hook", "3rd ch of beg ch-3", "2nd st"."""
    at = c.i
    c.i += 1
    if c.take_any("ch", "chain", "chs") or c.text() == "of":
        if c.take("from"):
            c.take_any("the", "your")
            if _beginning_named(c):
                return (Where(Which.TOP, c.span_from(start), nth=nth),)
            c.take_any("hook", "hk")
            return (Where(Which.FROM_HOOK, c.span_from(start), nth=nth),)
        if c.take("of"):
            if (spot := _chain_of_space(c, start)) is not None:
                return spot
            c.take("the")
            c.take("first")
            any_chain = c.text() in CHAINS
            chains = turning_chain(c)
            if chains is not None or c.take("it") or c.take("tch"):
                # "of the ch-5" may be that of a space, where one is next
                kinds = (Kind(SPACE, chains),) if any_chain and chains else ()
                return (Where(Which.TOP, c.span_from(start), kinds=kinds, nth=nth),)
        elif c.text(-1) in ("ch", "chain"):
            return (Where(Which.NTH, c.span_from(start), kinds=(Kind("ch"),), nth=nth),)
    c.i = at + 1
    if (several := of_several(c, start, None, str(nth))) is not None:
        return several
    if c.take_any("loop", "lp"):
        c.i = at
        return None
    if (
        c.text() == "turning"
        and c.text(1) in ("ch", "chain")
        and c.value(2) is None
        and c.kind(2) is not T.HYPHEN
    ):
        # "in the 3rd turning chain"
        c.i += 2
        return (Where(Which.TOP, c.span_from(start), nth=nth),)
    kind = kind_here(c)
    if kind is None and c.tokens[at - 1].text == "the" and c.kind() in STOPS and c.kind() is not T.STAR:
        # "sc in each of the first two stitches, 2 sc in the third."
        kind = Kind(ANY)
    if kind is None:
        c.i = start
        return None
    if c.take("from"):
        c.take("the")
        c.take_any("hook", "hk")
        return (Where(Which.FROM_HOOK, c.span_from(start), nth=nth),)
    if (several := of_several(c, start, kind, str(nth))) is not None:
        return several
    behind = c.i
    if c.take("of"):
        c.take("the")
        if (within := in_group(c, start, kind, str(nth))) is not None:
            return within
        if turning_chain(c) is not None or kind.name == ANY and c.take_any("ch", "chain"):
            # "in 5th st of ch", as old books have it
            return (Where(Which.TOP, c.span_from(start), nth=nth),)
        c.i = behind
    return (Where(Which.NTH, c.span_from(start), kinds=(kind,), nth=nth),)
