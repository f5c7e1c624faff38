"""Where the hook goes: "in each of next 7 sts", "into 3rd of 5 ch", "around post of next dc".

The cursor stands on a preposition, or on the first word of the place; a tuple of Where comes out, or None with
the cursor where it was.
"""

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.places.bare import bare_place
from tracker.notation.phrase.places.edge.row_ends import row_ends_here
from tracker.notation.phrase.places.gaps import between
from tracker.notation.phrase.places.loops import LOOP_WORDS, in_loop, loop_words
from tracker.notation.phrase.places.nouns import (
    GAP_WORDS,
    POSTS,
    PREPOSITIONS,
    chain_at,
    kind_here,
)
from tracker.notation.phrase.places.runs import of_row
from tracker.notation.phrase.places.stops import stop_here
from tracker.notation.scan import T
from tracker.notation.tree import ANY, SPACE, Kind, Where, Which
from tracker.records import replace


def where_here(c: Cursor, bare: bool = False) -> tuple[Where, ...] | None:
    """The places a phrase names; `bare` when no preposition is wanted ("next 2 sts", "first dc")."""
    start = c.i
    preposition = "" if bare else c.take_any(*PREPOSITIONS)
    if not preposition and not bare:
        return None
    if preposition in ("in", "into", "to", "on", "over", "across", "along"):
        c.take("to")
    found = place(c, preposition, start)
    if found is None:
        c.i = start
    return found


def place(c: Cursor, preposition: str, start: int) -> tuple[Where, ...] | None:
    """The places behind a preposition; `start` is where the phrase began."""
    around = preposition in ("around", "round")
    if (around or preposition == "over") and (chained := chain_at(c, 0)) is not None:
        # "24 sc around ch-20": over the whole of it, as into a space
        c.i += chained[1]
        return (Where(Which.NEXT, c.span_from(start), 1, (Kind(SPACE, chained[0]),)),)
    if preposition in GAP_WORDS:
        return between(c, start, 1, Which.EACH if c.text() in ("each", "every", "all") else Which.NEXT)
    if (led := _led_loop(c, start)) is not None:
        return (led,)
    if loop := loop_words(c):
        # "in back loop of each st", "blo of next 5"; a bare "in blo" is said of the stitch by itself
        if c.text() == "of" and c.text(1) in ("row", "rnd", "round", "r") and c.value(2) is not None:
            number = c.value(2) or 0
            c.i += 3
            if c.take("below"):
                bare_place(c)
            return (Where(Which.NEXT, c.span_from(start), loop=loop, down=-number),)
        if c.take("of"):
            return in_loop(place(c, "", start), loop)
        inner = (
            where_here(c)
            if c.text() in PREPOSITIONS and c.text() not in ("around", "across", "round")
            else bare_place(c)
        )
        if inner is not None:
            return in_loop(inner, loop)
        return (Where(Which.STRAIGHT, c.span_from(start), loop=loop),)
    if c.text() in POSTS or c.text() == "the" and c.text(1) in POSTS:
        c.i += 1 if c.text() in POSTS else 2
        if c.take("of") or c.take("on"):
            inner = place(c, "around", start)
            return None if inner is None else tuple(replace(w, around=True) for w in inner)
        c.i = start
        return None
    behind = next((n for n in range(3) if c.text(n) not in ("the", "unworked", "free", "unused")), 3)
    if c.text(behind) in ("back", "wrong") and c.text(behind + 1) == "of":
        # "in the back of the next sl st": the stitch itself, taken from behind
        c.i += behind + 2
    if (ends := row_ends_here(c, start)) is not None:
        return (ends,)
    if c.text() in ("other", "opposite") and c.text(1) == "side" and c.text(2) == "of":
        # "in other side of next 3 ch": the foundation from below
        c.i += 3
        where = bare_place(c)
        return None if where is None else tuple(replace(w, loop="base") for w in where)
    if c.text() in ("bottom", "underside") and c.text(1) == "of" or _opening_follows(c):
        # round an opening that was left: nothing of the row below is used up
        c.i += 2
        inner = bare_place(c)
        many = inner[0].many if inner is not None and inner[0].kinds else 1
        while c.kind() is T.WORD and c.text() in _OPENINGS or inner is None and c.text() in ("thumb", "the"):
            c.i += 1
        return (Where(Which.MADE, c.span_from(start), max(1, many)),)
    where = bare_place(c)
    if where is None:
        return None
    if (
        (around or preposition == "over")
        and where[0].which is Which.EACH
        and [k.name for k in where[0].kinds] == ["ch"]
    ):
        # "7 hdc around each chain": each run of them
        return (replace(where[0], kinds=(Kind(SPACE),)),)
    if around:
        where = tuple(
            # "1 sc round every ch": a chain is gone round where it is a space
            replace(w, kinds=tuple(Kind(SPACE, k.chains) if k.name == "ch" else k for k in w.kinds))
            if any(kind.name == "ch" for kind in w.kinds)
            else replace(w, around=True)
            for w in where
        )
    if c.text() == "or":
        _or_there(c)
    return qualified(c, where, start)


def _led_loop(c: Cursor, start: int) -> Where | None:
    """ "Each back loop around", "next 3 front loops": that loop of so many stitches; None for other words."""
    i = c.i
    lead = c.take_any(*_LOOP_LEADS)
    many = c.value()
    c.i += many is not None
    side = c.text()
    if not lead or side not in ("front", "back") or c.text(1) not in LOOP_WORDS or c.text(2) == "of":
        c.i = i
        return None
    c.i += 2
    if (which := _LOOP_LEADS[lead]) is Which.EACH:
        return Where(which, c.span_from(start), 0, (Kind(ANY),), stop=stop_here(c), loop=side)
    return Where(which, c.span_from(start), many or 1, (Kind(ANY),), loop=side)


_LOOP_LEADS = {
    "each": Which.EACH, "every": Which.EACH, "next": Which.NEXT, "first": Which.FIRST, "last": Which.LAST,
    "same": Which.SAME,
}  # fmt: skip


_OPENINGS = frozenset("opening hole gap slit".split())


def _opening_follows(c: Cursor) -> bool:
    """True for "corner of opening", "side of thumb hole", "edge of the gap"."""
    return (
        c.text() in ("corner", "corners", "side", "edge", "end", "ends")
        and c.text(1) in ("of", "at")
        and any(c.text(n) in _OPENINGS for n in range(2, 5))
    )


def _or_there(c: Cursor) -> None:
    """Takes "or space" behind "in same ring": a definition's second place, where it is worked the same way."""
    i = c.i
    c.i += 1
    c.take_any("in")
    c.take_any("the", "same", "next", "indicated", "a")
    if not c.take_any("ring") and kind_here(c) is None:
        c.i = i


def qualified(c: Cursor, where: tuple[Where, ...], start: int) -> tuple[Where, ...]:
    """Adds "2 rows below", "of Rnd 3", "below" and the like to places just read."""
    amount = c.value()
    if (
        amount is not None
        and c.text(1) in ("row", "rows", "rnd", "rnds", "round", "rounds")
        and c.text(2) in ("below", "down")
    ):
        c.i += 3
        if c.text() in ("next", "the"):
            bare_place(c)
        down = 1 + amount if amount < 99 else 1
        return tuple(replace(w, down=down, span=c.span_from(start)) for w in where)
    if c.take("below"):
        return where
    if c.text() == "behind" and {"picot", "picots"} & {c.text(1), c.text(2)}:
        # "sc in each sc behind the picots"
        c.i += 3 if c.text(1) == "the" else 2
        return where
    if _between_groups(c):
        return where
    i = c.i
    if (
        c.text() in ("on", "along", "across", "from")
        and len(where) == 1
        and where[0].kinds
        and where[0].kinds[0].name == "ch"
    ):
        c.i += 1
        c.take("the")
        if (
            c.take_any("other", "opposite", "under", "bottom")
            and c.take_any("side", "edge")
            and c.text() != "of"
        ):
            return (replace(where[0], loop="base", span=c.span_from(start)),)
    c.i = i
    if c.take_any("formed", "made") and c.text() in ("by", "with", "between"):
        while c.kind() in (T.WORD, T.HYPHEN, T.NUMBER):
            c.i += 1
        return where
    c.i = i
    left = where[0].which is Which.EACH and any(t.text == "unworked" for t in c.tokens[start : c.i])
    where = of_row(c, where, left and all(w.loop in ("", "back", "front") for w in where))
    _between_groups(c)
    return where


def _between_groups(c: Cursor) -> bool:
    """Takes "between petals", "between the next two shells" behind "the sl st": it only says where that lies."""
    start = c.i
    if c.take_any(*GAP_WORDS):
        while c.take_any("the", "next", "two", "2", "each", "these", "those", "same", "following"):
            pass
        if c.take_any("petals", "petal", "shells", "groups", "scallops", "fans", "points", "loops"):
            return True
    c.i = start
    return False
