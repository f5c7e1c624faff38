"""Spaces between stitches: "sp between next 2 dc", "sps between groups"."""

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.places.nouns import many_of
from tracker.notation.phrase.places.stops import stop_here
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.scan import T
from tracker.notation.tree import SPACE, Kind, Where, Which

_ENDS = frozenset("across around to in twice rep ch sk into".split())
"""Words that begin something new."""

_GROUPS = frozenset("group groups grp grps shell shells v vs cluster clusters fan fans".split())


_PLURAL = frozenset("groups grps shells clusters fans".split())


def between(c: Cursor, start: int, many: int, which: Which) -> tuple[Where, ...]:
    """After "sp between": "next 2 dc", "groups", "first dc and first group"."""
    last = groups = False
    down = 1
    while c.kind() in (T.WORD, T.NUMBER, T.ORDINAL, T.HYPHEN) and (
        c.text() not in _ENDS
        or c.text() == "ch"
        and (c.text(-1) in ("turning", "beg", "beginning", "starting", "-") or c.value(-1) is not None)
    ):
        last = last or c.text() == "last"
        groups = groups or c.text() in (_GROUPS if which is Which.EACH else _PLURAL)
        if (
            c.text() == "and"
            and c.value(1) is None
            and stitch_here(c, 1) is None
            and c.text(1) not in ("next", "first", "last", "tch", "turning", "group", "beg")
        ):
            break
        if c.text() == "of" and c.text(1) in ("rnd", "round", "row") and (row := c.value(2)) is not None:
            # "in sp between next 2 groups of Rnd 2"
            down = -row
            c.i += 3
            break
        c.i += 1
    stop = stop_here(c) if which is Which.EACH else None
    return (
        Where(
            Which.BETWEEN,
            c.span_from(start),
            0 if which is Which.EACH else (many_of(many)),
            (Kind(SPACE), Kind("group")) if groups else (Kind(SPACE),),
            stop=stop,
            nth=-1 if last or which is Which.LAST else 0,
            down=down,
        ),
    )
