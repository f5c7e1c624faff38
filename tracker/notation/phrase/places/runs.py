"""Runs of places behind "next", "first", "last": "7 sts", "dc, ch and dc", "2 dc and ch-1 sp of Rnd 3"."""

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.other_part import part_here
from tracker.notation.phrase.places.gaps import between, between_stitches, gap_behind, in_group, of_several
from tracker.notation.phrase.places.nouns import (
    GAP_WORDS,
    OWN_PLACE,
    PREPOSITIONS,
    kind_here,
    many_of,
    noun_behind,
    number_here,
    turning_chain,
)
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.scan import T
from tracker.notation.tree import ANY, SPACE, Where, Which
from tracker.records import replace

FREE = frozenset("unworked free unused rem remaining held resting waiting".split())

_ENDS = {Which.FIRST: "1", Which.LAST: "last"}
"""Which one of a group "first dc of next fan" and "last dc of same fan" mean."""


def of_row(c: Cursor, where: tuple[Where, ...], unworked: bool = False) -> tuple[Where, ...]:
    """Takes "of Rnd 3", "in previous row", "on foundation ch" behind a place, and adds the row that is meant.

    Stitches said to be left `unworked` there lie at hand still: no row is added.
    """
    i = c.i
    if c.take_any("of", "in", "on", "into"):
        named = c.text(-1) == "of"
        c.take_any("the", "this")
        c.take_any("previous", "prev", "last", "current")
        c.take_any("long", "full", "whole", "complete")
        if named and c.kind() is T.ORDINAL and c.text(1) in ("row", "rnd", "round") and not unworked:
            # "around next tr of 2nd rnd"
            c.i += 2
            return tuple(replace(w, down=-c.token(-2).value) for w in where)
        if c.text() in ("row", "rnd", "round", "rows", "rnds") or (
            c.text() == "r" and c.value(1) is not None
        ):
            c.i += 1
            number = c.value()
            if number is not None:
                c.i += 1
                if c.take("below") and not named:
                    # "in row 2 below", but not "of Rnd 2 below", which is that round
                    return tuple(replace(w, down=1 + number) for w in where)
                if unworked or c.text() in ("of", "in") and part_here(c) is not None:
                    # "first 2 dc of Row 6 of Band": at hand beside this row
                    return where
                if named and (motif := stitch_here(c)) is not None and motif.special is not None:
                    # "in ch-3 sp of Row 1 block"
                    c.i += motif.tokens
                return tuple(replace(w, down=-number) for w in where)
            c.take("below")
            return where
        if c.take_any("foundation", "beg", "beginning", "body", "brim", "foot", "panel"):
            c.take_any("ch", "chain", "ring")
            return where
    c.i = i
    return where


def run(c: Cursor, start: int, which: Which) -> tuple[Where, ...] | None:
    """After "next", "first", "last": "7 sts", "dc, ch and dc", "2 dc and ch-1 sp", or nothing."""
    many = number_here(c)
    if many is None and which in _ENDS and (several := of_several(c, start, None, _ENDS[which])) is not None:
        return several
    c.take("of")
    if c.text() in ("sp", "space", "sps", "spaces", "gap", "gaps") and c.text(1) in GAP_WORDS:
        c.i += 2
        return between(c, start, many_of(many), which)
    first = kind_here(c)
    if first is not None and first.name == SPACE and many is None:
        (first,) = between_stitches(c, (first,))
    if first is not None and many is None and which is Which.NEXT:
        gap = gap_behind(c, start, first)
        if gap is not None:
            return gap
    if first is None and c.text() in ("unworked", "free"):
        c.i += 1
        first = kind_here(c)
    if c.take("unworked") or c.take("left"):
        c.take("unworked")
    if first is not None and (
        which is Which.LAST
        and c.take_any("made", "worked")
        or c.take("just")
        and c.take_any("made", "worked")
    ):
        return (Where(Which.MADE, c.span_from(start), many_of(many), (first,)),)
    if first is not None and c.take("from"):
        c.take("the")
        if c.take_any("hook", "hk"):
            return (Where(Which.FROM_HOOK, c.span_from(start), many_of(many), nth=1),)
    if (
        first is not None
        and c.text() == "of"
        and c.text(1) in ("row", "rnd", "round", "r")
        and c.value(2) is not None
    ):
        unworked = any(t.text in FREE for t in c.tokens[start : c.i])
        return of_row(c, (Where(which, c.span_from(start), many_of(many), (first,)),), unworked)
    if many is None and which in _ENDS and (several := of_several(c, start, first, _ENDS[which])) is not None:
        return several
    if first is not None and c.take("of"):
        # "next ch of ch-3", "last ch of ...": the noun after it only says where the first lies
        i = c.i
        c.take("the")
        if which is Which.LAST and first.name == "ch" and many is None and turning_chain(c) is not None:
            # "last ch of turning ch"
            return (Where(Which.TOP, c.span_from(start), nth=0),)
        if (
            many is None
            and which in _ENDS
            and (within := in_group(c, start, first, _ENDS[which])) is not None
        ):
            return within
        c.i = i
        c.take_any("the", "a", "an", "any", "each", "next", "same", "first", "last", "beg")
        if (
            turning_chain(c) is None
            and kind_here(c) is None
            and not c.take_any("row", "rnd", "round", "corner")
        ):
            c.i = i - 1
    if first is not None and first.name == "ch" and which is Which.FIRST:
        c.take_any("made", "worked")
    wheres = [Where(which, c.span_from(start), many_of(many), (first,) if first else ())]
    while first is not None and (more := _one_more(c, start, which)) is not None:
        where, last = more
        wheres.append(where)
        if last:
            break
    return tuple(wheres)


def _goes_into(c: Cursor) -> bool:
    """True for "in next sc", behind "in next sp and sc": what stands before it is worked, not worked into."""
    if c.text() in ("around", "round") and c.text(1) in OWN_PLACE:
        # "FPdc around next st and BPdc around next st"
        return True
    back = c.text() == "back"  # "dc in next st, and dc back in the skipped st"
    if c.times_here() is not None and c.value() is None:
        # "sc in next sc, and sc twice in next st"
        return True
    if c.text(back) not in ("in", "into"):
        return False
    ahead = back + (2 if c.text(back + 1) == "the" else 1)
    if c.kind(ahead) is T.ORDINAL:
        # "sc in last sp and sc in 3rd ch"
        return True
    return c.text(ahead) in (
        "next",
        "last",
        "first",
        "same",
        "each",
        "top",
        "following",
        "center",
        "centre",
        "final",
        "skipped",
        "missed",
    )


def _one_more(c: Cursor, start: int, run_of: Which) -> tuple[Where, bool] | None:
    """A further place of a run (", ch and dc"), and whether it was joined by "and", so that none can follow it."""
    i = c.i
    comma = c.kind() is T.COMMA
    if comma:
        c.i += 1
    joined = c.take("and") or (c.text() == "&" and c.step())
    if not (comma or joined):
        return None
    inside = c.take_any("in", "into")
    each = c.take_any("each", "ea")
    of = c.take("of")
    lead = c.take_any("next", "following", "foll", "last")
    if each and not inside and not (of or lead) and c.value() is None:
        # "next st and each st across": a place of its own, not one more of the run
        c.i = i
        return None
    if inside or (comma and not joined and lead):
        c.i = i
        return None
    amount = number_here(c)
    kind = kind_here(c)
    list_goes_on = joined or not comma or c.text() == "and" or c.kind() is T.COMMA
    if (
        kind is None
        or (
            comma
            and not joined
            and (amount is not None or c.text() not in ("and", "&") or not noun_behind(c))
        )
        or not list_goes_on
        or (kind.name == "ch" and c.value() is not None)
        or kind.name == "slst"
        and c.text() == "to"
        or amount is None
        and not lead
        and (_goes_into(c) or comma and joined and c.text() in ("in", "into"))
        or (
            amount is not None
            and not lead
            and (
                comma
                and joined
                and kind.name != SPACE
                or c.text() in PREPOSITIONS
                or kind.name not in ("ch", SPACE, ANY)
                and run_of is not Which.NEXT
            )
        )
    ):
        c.i = i
        return None
    which = Which.LAST if lead == "last" else Which.NEXT
    return Where(which, c.span_from(start), amount or 1, (kind,)), joined
