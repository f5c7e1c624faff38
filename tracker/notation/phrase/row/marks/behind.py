"""What stands behind a closed bracket, and what it makes of it: a group in one place, or a repeat."""

from collections.abc import Sequence

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.places.bare import bare_place
from tracker.notation.phrase.places.nouns import PREPOSITIONS
from tracker.notation.phrase.places.stops import stop_here
from tracker.notation.phrase.places.where import where_here
from tracker.notation.phrase.repeats.endings import ending_here
from tracker.notation.phrase.repeats.often import in_brackets, often_here, once_an_edge
from tracker.notation.phrase.works.placing import grouped, in_every_other
from tracker.notation.scan import T
from tracker.notation.tree import (
    Group,
    Item,
    Mark,
    Prose,
    Repeat,
    Say,
    Which,
    Work,
)
from tracker.records import replace


def after_bracket(c: Cursor, body: list[Item], start: int, starred: bool = False) -> list[Item] | None:
    """What follows a closed bracket says its job: a group in one place, or a repeat. None for neither.

    Behind a star, "…(picot made), repeat across" goes back to that.
    """
    real = [item for item in body if not isinstance(item, Mark)]
    if all(isinstance(item, Say) for item in real):
        # "(orange) in FLO: 12 sc": a remark is worked nowhere
        return None
    i = c.i
    if (
        c.kind() is T.COMMA
        and not starred
        and c.text(1) in ("rep", "repeat")
        and c.kind(2) is T.WORD
        and c.text(2) in ("across", "around", "to")
    ):
        c.i += 2
    again = 1 if c.text() in ("rep", "repeat") or c.kind() is T.COMMA else 0
    if again and (
        _times_at(c, 1) or c.kind() is T.WORD and c.text(1) in ("across", "around", "to", "until", "till")
    ):
        # "(…), 5 times", "[…] rep 5x", "[…] rep to last 3 sts"
        c.i += 1
    all_in = c.take("all")
    c.take("worked")
    if (told := in_brackets(c)) is not None:
        return _worked_times(c, real, start, told.times or told.further or 1)
    _lead_to_times(c)
    times = c.times_here()
    if times is not None and not all_in:
        c.i += times[1]
        return _worked_times(c, real, start, times[0])
    if any(map(_has_own_place, real)) and (edges := once_an_edge(c)) is not None:
        # "[(2 dc, ch 2, 2 dc) in next sp, dc in next 3 dc] for the next three corners"
        return [Repeat(tuple(real), c.span_from(start), edges.times or edges.further, None, edges.stop)]
    if c.text(1) == "every" and (placed := in_every_other(c, real, start)) is not None:
        return placed
    if _place_follows(c) and (placed := _worked_in(c, real, start)) is not None:
        return placed
    if not all_in:
        often = often_here(c)
        if often is not None and (often.stop is not None or often.times is not None):
            repeat = Repeat(tuple(real), c.span_from(start), often.times, often.further, often.stop)
            ending = ending_here(c)
            return [replace(repeat, span=c.span_from(start), ending=ending, told_at=c.span_from(start))]
    c.i = i
    return None


def _lead_to_times(c: Cursor) -> None:
    """Takes "for", "a total of", "for a total of" where "5 times" stands behind it."""
    start = c.i
    led = c.take("for")
    led = c.take("a", "total", "of") or led
    if not led or c.times_here() is None:
        c.i = start


def _times_at(c: Cursor, ahead: int) -> bool:
    """True where "5 times" stands so many tokens ahead."""
    i = c.i
    c.i += ahead
    found = c.times_here() is not None
    c.i = i
    return found


def _worked_times(c: Cursor, real: Sequence[Item], start: int, times: int) -> list[Item]:
    """ "[…] 4 times", "(…) twice in next sp"."""
    c.take("more")
    c.take("in", "total") or c.take("in", "all")
    inside = where_here(c) if c.text() in ("in", "into") else None
    repeat = Repeat(tuple(real), c.span_from(start), times)
    if inside is not None:
        return grouped([repeat], inside, c, start)
    i2 = c.i
    stop = stop_here(c)
    if stop is not None and stop.left:
        c.i = i2
    ending = ending_here(c)
    return [replace(repeat, span=c.span_from(start), ending=ending)]


def _place_follows(c: Cursor) -> bool:
    """True when a place stands here, and not the stop of a repeat ("across", "to last 2 sts")."""
    return (
        c.text() in PREPOSITIONS
        and not (
            c.text() in ("across", "around", "round", "along")
            and c.text(1) not in ("post", "stem", "next", "each")
        )
        and not (
            c.text() == "to"
            and c.text(1) in ("last", "end", "within", "marker", "next", "corner", "the", "tch", "turning")
        )
    )


def _has_own_place(item: Item) -> bool:
    """True for a stitch that names the place it goes into."""
    return isinstance(item, (Group, Work)) and item.where.which is Which.NEXT and bool(item.where.kinds)


def _worked_in(c: Cursor, real: Sequence[Item], start: int) -> list[Item] | None:
    """ "(…) in next sp and in each corner": a group in every place named."""
    where = where_here(c)
    if where is not None:
        wheres = list(where)
        while True:
            j = c.i
            if (c.take("and") or c.text() == "&" and c.step()) and (
                c.text() in PREPOSITIONS or c.text() in ("each", "next", "last")
            ):
                more = where_here(c) if c.text() in PREPOSITIONS else bare_place(c)
                if more is not None and c.text() not in ("work", "make"):
                    wheres.extend(more)
                    continue
            c.i = j
            break
        if len(real) > 1 and any(map(_has_own_place, real)):
            # "(sc in next st, dc) in next st": told to go into two places at once
            return [*real, Prose("", c.span_from(start))]
        out = grouped(real, tuple(wheres), c, start)
        again = c.times_here()
        if again is not None and c.text(again[1]) not in ("more",):
            c.i += again[1]
            return [Repeat(tuple(out), c.span_from(start), again[0])]
        return out
    return None
