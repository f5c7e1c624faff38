"""Stars in a row, and the "repeat to end" of a row that has none."""

from tracker.notation.phrase.cursor import STOPS, Cursor
from tracker.notation.phrase.places.stops import stop_here
from tracker.notation.phrase.repeats.endings import ending_here
from tracker.notation.phrase.repeats.often import often_here
from tracker.notation.phrase.row.going_on import (
    attach,
)
from tracker.notation.phrase.row.reading import Reading
from tracker.notation.phrase.row.remarked.prose import lone_star
from tracker.notation.scan import T
from tracker.notation.tree import (
    Group,
    Item,
    Mark,
    Prose,
    Repeat,
    Say,
    Turning,
    Which,
    Work,
)
from tracker.problems import Span


def star(c: Cursor, items: list[Item]) -> None:
    """A star: the beginning of a repeat, or the end of one that began with the same sign."""
    start = c.i
    sign = c.text()
    c.i += 1
    opened = [k for k, item in enumerate(items) if isinstance(item, Mark) and item.sign == sign]
    if opened and items[opened[-1] + 1 :]:
        i = c.i
        if c.kind() is T.COMMA:
            c.i += 1
        c.take_any("rep", "repeat")
        if c.text() in ("from", "between") or c.kind() is T.STAR:
            c.i = i
        else:
            often = often_here(c)
            if often is not None:
                at = opened[-1]
                body = items[at + 1 :]
                times = often.times or often.further
                items[at:] = [
                    Repeat(
                        tuple(item for item in body if not isinstance(item, Mark)),
                        Span(body[0].span.start, c.span_from(start).end),
                        times,
                        stop=often.stop,
                    )
                ]
                ending = ending_here(c)
                if ending is not None:
                    attach(items, ending)
                return
            c.i = i
    elif _ends_what_none_begins(c, items, start):
        lone_star(c, start)
    items.append(Mark(sign, c.span_from(start)))


def _ends_what_none_begins(c: Cursor, items: list[Item], start: int) -> bool:
    """True for the star of "2 sc, inc* around", the only one of its row."""
    sign = c.tokens[start].text
    ahead = int(c.kind() is T.COMMA)
    ahead += c.text(ahead) in ("rep", "repeat", "repeated")
    often = (
        c.text(ahead) in ("around", "across", "to")
        or c.value(ahead) is not None
        and c.text(ahead + 1) in _TIMES
    )
    alone = sum(token.text == sign for token in c.tokens) == 1
    return often and alone and isinstance(items[-1] if items else None, (Work, Group, Repeat))


_TIMES = ("times", "more", "x")


def repeats_unstarred(c: Cursor, reading: Reading, start: int) -> bool:
    """ "Dc in 6th ch from hook, ch 1, skip 1, dc in next ch; repeat to end": what follows the first stitch, again.

    Where nothing tells what is meant the row is not read, for it is longer than its words.
    """
    items = reading.items
    worked = [k for k, item in enumerate(items) if isinstance(item, (Work, Group, Repeat, Mark, Prose))]
    stop = stop_here(c)
    if not worked or stop is None or stop.at or c.kind() not in STOPS:
        return False
    at, one = worked[0], items[worked[0]]
    alone = (
        isinstance(one, Work) and one.where.which in (Which.FROM_HOOK, Which.FIRST) and one.where.many == 1
    )
    body = [item for item in items[at + 1 :] if not isinstance(item, (Say, Turning))]
    span = c.span_from(start)
    if not alone or len(body) < 2 or any(isinstance(item, (Mark, Repeat, Prose)) for item in items):
        items.append(Prose("", span))
        reading.unread = True
        return True
    told = [item for item in items[at + 1 :] if isinstance(item, Turning)]
    items[at + 1 :] = [*told, Repeat(tuple(body), Span(body[0].span.start, span.end), None, stop=stop)]
    return True
