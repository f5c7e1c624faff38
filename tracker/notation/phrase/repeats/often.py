"""How often: "4 times", "4 more times", "once more", "across", "to last 3 sts"."""

from tracker.notation.phrase.cursor import STOPS, Cursor
from tracker.notation.phrase.places.stops import stop_here
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.scan import T
from tracker.notation.tree import Stop
from tracker.records import dataclass

_BEHIND = frozenset("ending omitting join turn until".split())
"""Words that end “as many times as needed”."""

_IN_ALL = frozenset("times time in all total altogether overall reps repeats".split())
"""Words of a bracket that tells how often something is in all."""


@dataclass(slots=True)
class Often:
    """How often a star is gone back to."""

    times: int | None = None
    further: int | None = None
    stop: Stop | None = None


def often_here(c: Cursor) -> Often | None:
    """ "4 times", "4 more times", "once more", "across", "to last 3 sts", "until 1 st remains"."""
    if (edges := once_an_edge(c)) is not None:
        return edges
    c.take("for")
    i = c.i
    often: Often | None = None
    if (told := in_brackets(c)) is not None:
        return told
    c.i += c.kind() is T.COMMA
    another = bool(c.take("another") or c.take("a", "further"))
    times = c.times_here()
    if times is None:
        c.i = i
    if times is not None:
        value, used = times
        words = [c.text(k) for k in range(used)]
        c.i += used
        more = (
            another
            or "more" in words
            or "further" in words
            or "additional" in words
            or bool(c.take_any("more", "further"))
        )
        total = bool(
            "total" in words
            or c.take_any("altogether", "overall", "total")
            or (c.take("in") and (c.take("all") or c.take("total")))
        )
        c.take_any("around", "across", "in")
        if c.text(-1) == "in":
            c.i -= 1
        if more:
            often = Often(times=value + 1)
            _told_once_more(c, value + 1)
        elif total:
            often = Often(times=value)
        else:
            often = Often(further=value)
    else:
        stop = stop_here(c)
        if stop is not None:
            often = Often(stop=stop)
            if (
                c.text() == "in"
                and (stitch := stitch_here(c, 1)) is not None
                and c.kind(1 + stitch.tokens) in STOPS
            ):
                # "rep around in sc", where colours were all that was told
                c.i += 1 + stitch.tokens
            more_times = c.times_here()
            if more_times is not None and stop == Stop():
                value, used = more_times
                c.i += used
                more = bool(c.take_any("more", "further")) or "more" in (c.text(-2), c.text(-1))
                often = Often(times=value + 1) if more else Often(further=value)
        elif c.take("as") or _in_some_way(c):
            # "as many times as needed", "in established pattern", "as established"
            while c.kind() in (T.WORD, T.NUMBER, T.HYPHEN) and c.text() not in _BEHIND:
                c.i += 1
            stop = stop_here(c)
            often = Often(stop=stop or Stop())
        elif c.text() in ("until", "till"):
            c.i = i
            return None
    return often


def once_an_edge(c: Cursor) -> Often | None:
    """ "For all four corners", "on each of the 4 sides": so many passes in all; None where no number is told.

    "For each of the other three corners": the first may have been worked before the star, or as its first pass.
    """
    i = c.i
    if c.take_any("for", "at", "on", "in", "along"):
        every = c.take_any("all", "each", "every", "the")
        c.take("of")
        c.take_any("the", "all")
        first = c.take("first")
        other = c.take_any("other", "remaining", "rem", "next", "following")
        many = c.value()
        c.i += many is not None
        other = other or c.take_any("other", "remaining", "rem")
        edge = c.take_any("corners", "sides", "edges", "points", "petals", "sections")
        if edge and many is not None and 1 < many < 13 and (every or other or first):
            return Often(further=many) if other else Often(times=many)
        if edge and other in ("other", "remaining", "rem") and many is None:
            return Often(stop=Stop())
    c.i = i
    return None


_WAYS = frozenset("pattern patt pat manner way fashion sequence order established est".split())


def _in_some_way(c: Cursor) -> bool:
    """Takes the "in" of "in established pattern", "in each ch-3 sp around"; not of "in V", which is a place."""
    if c.text(1) in ("each", "every", "all") and c.take("in"):
        return True
    ahead = 1
    while c.kind(ahead) is T.WORD and ahead < 5:
        if c.text() == "in" and c.text(ahead) in _WAYS:
            c.i += 1
            return True
        ahead += 1
    return False


def in_brackets(c: Cursor) -> Often | None:
    """ "(4 more times)": how often, when that is all a bracket holds; None, with the cursor where it was, else."""
    start, close = c.i, c.partners.get(c.i) if c.kind() is T.OPEN else None
    if close is None or close >= c.end or close - start > 8:
        return None
    c.i += 1
    if c.value() is not None or c.text() in ("another", "a", "twice", "once", "x", "×"):
        often = often_here(c)
        if often is not None and often.stop is None and c.i == close:
            c.i += 1
            return often
    c.i = start
    return None


def _told_once_more(c: Cursor, times: int) -> None:
    """Takes the "(5 in all)" behind "4 more times", when it says the same."""
    start, close = c.i, c.partners.get(c.i) if c.kind() is T.OPEN else None
    if close is None:
        return
    inside = [c.text(k) for k in range(1, close - start)]
    if c.value(1) == times and inside[1:] and set(inside[1:]) <= _IN_ALL:
        c.i = close + 1
