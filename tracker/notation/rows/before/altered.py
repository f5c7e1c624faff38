"""A row worked again with a change: "Rep Row 2, dec 1 st at each end", "As Row 3, but in hdc", "… to last 2 sts".

The items of the row that is named come in; those of the row that is told come out.
"""

from collections.abc import Mapping, Sequence

from tracker.notation.moved import as_told
from tracker.notation.pattern import Row
from tracker.notation.phrase.cursor import Cursor, inner
from tracker.notation.phrase.rerun import rerun_here
from tracker.notation.phrase.row.sentences import read_row
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.rows.before.turns import into_others
from tracker.notation.scan import T
from tracker.notation.tree import (
    ANY,
    Chain,
    Group,
    Item,
    Join,
    Kind,
    Leave,
    Mark,
    Repeat,
    Rerun,
    Say,
    Stop,
    Travel,
    Turn,
    Turning,
    Where,
    Which,
    Work,
)
from tracker.records import replace

_AGAIN = ("rep", "repeat", "work", "as", "same")
_FARTHEST = 24  # tokens before "rep Row 2" in a row that begins otherwise
_STS = ("st", "sts", "stitch", "stitches")
_WORKING = ("working", "work", "making", "make", "using", "in", "with", "substituting", "replacing")
_INSTEAD = (
    ("in", "place", "of"),
    ("instead", "of"),
    ("rather", "than"),
    ("in", "lieu", "of"),
    ("for",),
    ("with",),
)
_ENDS = ("end", "ends", "side", "sides", "edge", "edges")


def alone(rerun: Rerun) -> bool:
    """True for a reference to one row that is worked once more."""
    if rerun.times or rerun.until or rerun.then or rerun.as_set or rerun.called or rerun.every > 1:
        return False
    return len(rerun.rows) == 1 or not rerun.rows and rerun.last == 1


def altered(c: Cursor, items: Sequence[Item]) -> list[Item] | None:
    """The items with the change that the cursor stands at, the cursor past it; None, and nothing taken, for none."""
    start = c.i
    for change in (_bounded, into_others, _exchanged, _at_ends):
        told = change(c, as_told(items))
        if told is not None:
            return told
        c.i = start
    return None


def begun_otherwise(c: Cursor, rows: Mapping[int, Row]) -> list[Item] | None:
    """ "With A, ch 1, turn, working in back loops only, rep Row 2": the items of that row behind a start of its own.

    The cursor moves past the reference; None, with the cursor where it was, for words that say no such thing.
    """
    start = c.i
    for k in range(start + 2, min(c.end, start + _FARTHEST)):
        if c.tokens[k].text not in _AGAIN or c.tokens[k - 1].kind not in (T.COMMA, T.SEMICOLON, T.PERIOD):
            continue
        c.i = k
        rerun = rerun_here(c)
        named = rows.get(rerun.rows[0]) if rerun is not None and rerun.rows and alone(rerun) else None
        begun = read_row(inner(c, start, k)).items if named is not None else []
        if named is None or not all(isinstance(item, (Chain, Turn, Say, Travel)) for item in begun):
            break
        # its own start stands in place of the other row's
        own = tuple(kind for kind in (Chain, Turn) if any(isinstance(item, kind) for item in begun))
        told = as_told(named.items)
        items = [item for at, item in enumerate(told) if at > 1 or not isinstance(item, own)]
        loops = [item.text for item in begun if isinstance(item, Say) and item.kind == "loop"]
        return [*begun, *(_through(items, loops[0]) if loops else items)]
    c.i = start
    return None


def reshaped(items: Sequence[Item], said: Sequence[Item]) -> tuple[list[Item], list[Item]] | None:
    """The items of the row named with what was read behind it, "dec 1 st at each end", "in back loops only"; and the
    rest of what was read. None where that changes nothing."""
    shaping = [
        item for item in said if isinstance(item, Work) and item.stitch.partition(" ")[0] in ("inc", "dec")
    ]
    loops = [item.text for item in said if isinstance(item, Say) and item.kind == "loop"]
    if not shaping and len(loops) != 1:
        return None
    told: list[Item] = list(as_told(items))
    if len(loops) == 1:
        told = _through(told, loops[0])
    told = _behind_work(told, shaping)
    return told, [item for item in said if item not in shaping]


def _bounded(c: Cursor, items: Sequence[Item]) -> list[Item] | None:
    """ "to last 2 sts": the row named, which goes on to its end, ends so much before it."""
    start = c.i
    if not (c.take("to") or c.take("until") or c.take("up", "to")):
        return None
    c.take("the")
    if not (c.take("last") or c.take("final")):
        return None
    many = c.value()
    c.i += many is not None
    stitch = stitch_here(c)
    if c.take_any(*_STS):
        pass
    elif stitch is not None and stitch.special is None:
        c.i += stitch.tokens
    else:
        return None
    span = c.span_from(start)
    at = _last_work(items)
    stop = Stop(1 if many is None else many)
    if at is None:
        return None
    last = items[at]
    if isinstance(last, Repeat) and not (last.times or last.further or last.ending or _bound(last.stop)):
        bounded: Item = replace(last, stop=stop)
    elif isinstance(last, Work) and last.where.which is Which.EACH and not _bound(last.where.stop):
        bounded = replace(last, where=replace(last.where, stop=stop))
    else:
        return None
    while c.kind() is T.COMMA:
        c.i += 1
    works = stitch_here(c) is not None or c.kind() in (T.NUMBER, T.OPEN) or c.text() in ("work", "dec", "inc")
    left: list[Item] = [] if works else [Leave(None, span)]
    return [*items[:at], bounded, *left]


def _bound(stop: Stop | None) -> bool:
    """True for what ends before the row does."""
    return stop is not None and stop != Stop()


def _exchanged(c: Cursor, items: Sequence[Item]) -> list[Item] | None:
    """ "but in hdc", "with tr instead of dc", "replacing sc with hdc": other stitches in the same places."""
    led = c.text()
    bare = not c.take_any(*_WORKING)
    if bare and c.text(-1) != "but":
        return None
    c.take_any("in", "only", "all")
    first = stitch_here(c)
    if first is None or first.special is not None or first.loop:
        return None
    c.i += first.tokens
    c.take_any(*_STS)
    second = None
    if any(c.take(*words) for words in _INSTEAD):
        second = stitch_here(c)
        if second is None or second.special is not None:
            return None
        c.i += second.tokens
        c.take_any(*_STS)
    if bare and second is None:
        return None
    c.take("throughout")
    c.take("only")
    if c.kind() not in (T.COMMA, T.SEMICOLON, T.PERIOD, T.OPEN, T.COLON, T.DASH) and c.i < c.end:
        return None
    old, new = (first, second) if led == "replacing" else (second, first)
    if new is None:
        return None
    worked = _stitches_of(items)
    if old is None and len(worked) != 1:
        return None
    given = next(iter(worked)) if old is None else old.name
    if given not in worked:
        return None
    return [_with_stitch(item, given, new.name) for item in items]


def _at_ends(c: Cursor, items: Sequence[Item]) -> list[Item] | None:
    """ "working sc2tog over last 2 sts", "2 sc in first and last sts", "first 2 sts tog": shaped at the ends."""
    start = c.i
    worked = _stitches_of(items)
    if len(worked) != 1:
        return None
    plain = next(iter(worked))
    led = c.take_any("working", "work", "making", "make", "with", "ending", "beginning", "having")
    c.take_any("with", "in")
    if not led and c.kind(-1) in (T.DASH, T.EQUALS, T.COLON):
        return None
    told = _tog_of(c, plain) or _made_at(c, plain)
    if told is None or (c.i < c.end and (stitch_here(c) is not None or c.value() is not None)):
        # "— 20 sc at end of Row 9" counts
        return None
    how, by = told
    span = c.span_from(start)
    return _behind_work(items, [Work(how, by, Where(Which.EVENLY, span), span)])


def _tog_of(c: Cursor, plain: str) -> tuple[str, int] | None:
    """ "first 2 sts tog": which end, and by how many it is narrowed."""
    start = c.i
    c.take_any("the")
    end = c.take_any("first", "last")
    many = c.value()
    c.i += many is not None
    stitch = stitch_here(c)
    named = not c.take_any(*_STS) and stitch is not None and stitch.name == plain
    c.i += stitch.tokens if named and stitch is not None else 0
    if end and many is not None and many > 1 and c.take_any("together", "tog"):
        return f"dec {end}", many - 1
    c.i = start
    return None


_MOST_IN_ONE = 5
"""Stitches of an increase at an edge: more of them "at end of row" are its count."""


def _made_at(c: Cursor, plain: str) -> tuple[str, int] | None:
    """ "sc2tog over last 2 sts", "2 sc in first st": which end, "ends" for both, and by how many."""
    many = c.value()
    stitch = stitch_here(c)
    if stitch is None and many is not None:
        c.i += 1
        stitch = stitch_here(c)
    if stitch is None:
        return None
    c.i += stitch.tokens
    base, together, _ = stitch.name.partition("tog")
    if together and base[:-1] == plain and base[-1:].isdigit():
        how, by = "dec", int(base[-1]) - 1
    elif stitch.name == plain and many is not None and 1 < many <= _MOST_IN_ONE:
        how, by = "inc", many - 1
    else:
        return None
    c.take_any("in", "into", "over", "at", "across")
    c.take("the")
    both = bool(c.take_any("each", "both", "either"))
    if both and c.take_any(*_ENDS) and (c.take("st") or _of_the_row(c)):
        return f"{how} ends", by
    if c.take_any("beg", "beginning", "start") and _of_the_row(c):
        return f"{how} first", by
    if not both and c.take("end") and _of_the_row(c):
        return f"{how} last", by
    which = {c.take_any("first", "last")}
    c.i += c.value() is not None
    c.take_any(*_STS)
    if c.take("and") or c.take("&"):
        c.take("the")
        which.add(c.take_any("first", "last"))
        c.i += c.value() is not None
        c.take_any(*_STS)
    if "" in which:
        return None
    return (f"{how} ends" if len(which) == 2 else f"{how} {which.pop()}"), by


def _of_the_row(c: Cursor) -> bool:
    """Takes "of row", "of the row", if they stand here; always true."""
    if c.take("of"):
        c.take_any("the", "this", "each", "every")
        c.take_any("row", "rnd", "round")
    return True


def _last_work(items: Sequence[Item]) -> int | None:
    """Where the last stitches of a row stand; None where it has none."""
    at = [k for k, item in enumerate(items) if isinstance(item, (Work, Group, Repeat))]
    return at[-1] if at else None


def _behind_work(items: Sequence[Item], more: Sequence[Item]) -> list[Item]:
    """Items with more behind the last stitches, before the row is turned or joined."""
    at = _last_work(items)
    cut = len(items) if at is None else at + 1
    last = items[at] if at is not None else None
    if at is not None and isinstance(last, Work) and len(more) == 1 and isinstance(more[0], Work):
        tall = any(isinstance(item, Chain) and item.count > 1 for item in items)
        if not tall and (edged := _edged(last, more[0])):
            return [*items[:at], *edged, *items[cut:]]
    return [*items[:cut], *more, *items[cut:]]


def _edged(each: Work, shaping: Work) -> list[Item]:
    """One in each with what shapes it at the ends, in the order worked; nothing for any other work or shaping.

    The chain a row begins with may count where it is tall: there the shaping is told of the row as a whole.
    """
    how, _, end = shaping.stitch.partition(" ")
    plain = each.where.which is Which.EACH and each.count == 1 and not each.excepting
    if not plain or _bound(each.where.stop) or end not in ("ends", "first", "last") or "tog" in each.stitch:
        return []
    by, span, loop = shaping.count, shaping.span, each.where.loop
    first = Where(Which.FIRST, span, kinds=(Kind(ANY),), loop=loop)
    edge = Work(f"{each.stitch}2tog", by, Where(Which.STRAIGHT, span, loop=loop), span)
    begins, ends = edge, edge
    if how == "inc":
        begins = Work(each.stitch, 1 + by, first, span)
        ends = replace(begins, where=replace(first, which=Which.LAST))
    left = 2 * by if how == "dec" else 1
    between = replace(each, where=replace(each.where, stop=Stop(left))) if end != "first" else each
    return [*([begins] if end != "last" else []), between, *([ends] if end != "first" else [])]


def _stitches_of(items: Sequence[Item]) -> set[str]:
    """The names of what the items work."""
    found: set[str] = set()
    for item in items:
        if isinstance(item, Work):
            found.add(item.stitch)
        if isinstance(item, (Group, Repeat)):
            found |= _stitches_of(item.items)
        if isinstance(item, Repeat) and item.ending is not None:
            found |= _stitches_of(item.ending.items)
    return found


def _with_stitch(item: Item, old: str, new: str) -> Item:
    """An item that works one stitch in place of another."""
    if isinstance(item, Work) and item.stitch == old:
        return replace(item, stitch=new)
    if isinstance(item, (Group, Repeat)):
        item = replace(item, items=tuple([_with_stitch(inside, old, new) for inside in item.items]))
    if isinstance(item, Repeat) and item.ending is not None:
        ending = tuple([_with_stitch(inside, old, new) for inside in item.ending.items])
        item = replace(item, ending=replace(item.ending, items=ending))
    return item


def _through(items: Sequence[Item], loop: str) -> list[Item]:
    """Items that work through one loop wherever they say none."""
    told: list[Item] = []
    for item in items:
        if isinstance(item, Work) and not item.where.loop and not item.where.around:
            item = replace(item, where=replace(item.where, loop=loop))
        elif isinstance(item, Repeat):
            item = replace(item, items=tuple(_through(item.items, loop)))
        told.append(item)
    return told


def restated(c: Cursor, items: Sequence[Item]) -> list[Item] | None:
    """ "As Rnd 3 – sc in ea st around", "Rep Rnd 3 (sc in each st around)": a plain row, told once more in full.

    The cursor moves past what is told; None, with the cursor where it was, for words that say anything else.
    """
    start = c.i
    while c.kind() in (T.COLON, T.DASH, T.COMMA) or c.text() in ("i", "e", "ie"):
        c.i += 1 + (c.text() in ("i", "e") and c.kind(1) is T.PERIOD)
    closing = c.partners.get(c.i) if c.kind() is T.OPEN else None
    first = c.i + (closing is not None)
    over = (T.OPEN, T.DASH, T.EQUALS, T.END)
    end = (
        closing
        if closing is not None
        else next(k for k in range(first, len(c.tokens)) if c.tokens[k].kind in over)
    )
    faults = len(c.context.problems)
    told = read_row(inner(c, first, end)).items if 2 <= end - first <= 24 else []
    del c.context.problems[faults:]
    again = [item for item in told if not isinstance(item, (Chain, Turn, Turning, Mark))]
    again = [
        item
        for item in again
        if not (isinstance(item, Join) or isinstance(item, Say) and item.kind == "remark")
    ]
    plain = [k for k, item in enumerate(items) if isinstance(item, (Work, Group, Repeat))]
    this = again[0] if len(again) == 1 else None
    that = items[plain[0]] if len(plain) == 1 else None
    if (
        not isinstance(this, Work)
        or not isinstance(that, Work)
        or (this.stitch, this.count, this.where.loop, this.where.around)
        != (that.stitch, that.count, that.where.loop, that.where.around)
        or not this.where.which is that.where.which is Which.EACH
        or this.excepting
        or that.excepting
        or _bound(this.where.stop)
        or _bound(that.where.stop)
    ):
        c.i = start
        return None
    c.i = end + (closing is not None)
    return [*items[: plain[0]], replace(that, where=this.where), *items[plain[0] + 1 :]]
