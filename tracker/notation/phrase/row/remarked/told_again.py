"""What a row tells once more, and works no second time: how stitches before lie along an edge, where they go.

The items read so far come in; True when the words that stand here were such, with the cursor behind them.
"""

from tracker.notation.phrase.cursor import SLIPS, STOPS, Cursor
from tracker.notation.phrase.row.counts import sentence_end
from tracker.notation.phrase.stitches import base_of, stitch_here, together
from tracker.notation.phrase.works.placing import unplaced
from tracker.notation.phrase.works.spread import spread_to
from tracker.notation.phrase.works.work import work_here
from tracker.notation.scan import T
from tracker.notation.tree import (
    ANY,
    Chain,
    Edge,
    Group,
    Item,
    Kind,
    Repeat,
    Say,
    Stop,
    Where,
    Which,
    Work,
)
from tracker.problems import Span
from tracker.records import replace


def sews(c: Cursor, items: list[Item]) -> bool:
    """ "Fasten off; skip 22 sts and sew the end of the strap to the next 6": nothing is worked once the yarn is cut."""
    if not items or not isinstance(items[-1], Say) or items[-1].kind != "fasten off":
        return False
    end = sentence_end(c)
    if not any(token.text in ("sew", "sewing", "seam") for token in c.tokens[c.i : end]):
        return False
    items.append(Say("remark", "", Span(c.token().start, c.tokens[end - 1].end)))
    c.i = end
    return True


_SHUTS = frozenset("fold folding flatten press pinch close hold".split())
_BOTH = frozenset("layers sides thicknesses halves together closed opening".split())
"""What a piece that is shut is worked through."""


def folds(c: Cursor, items: list[Item], counted: bool) -> bool:
    """ "Rep Row 2. Fold in half; sl st through both layers. 11 sl sts": what is done with the rows that are there.

    `counted`: the row has told its count, so that what shuts the piece behind it is none of the row's.
    """
    behind = c.kind(-1) in (T.PERIOD, T.CLOSE)
    if counted and behind and c.text() in _SHUTS and _BOTH & {token.text for token in c.tokens[c.i : c.end]}:
        items.append(Say("remark", "", Span(c.token().start, c.tokens[c.end - 1].end)))
        c.i = c.end
        return True
    if c.text() not in ("fold", "folding", "flatten") or c.kind(-1) is not T.PERIOD:
        return False
    before = [token.text for token in c.tokens[max(0, c.i - 6) : c.i]]
    if "fasten" not in before and any(not isinstance(item, Say) for item in items):
        return False
    items.append(Say("remark", "", Span(c.token().start, c.tokens[c.end - 1].end)))
    c.i = c.end
    return True


def stops_short(c: Cursor, items: list[Item]) -> bool:
    """ "Block in each block, ending in last ch-3 sp without making a block": the last tile below takes none."""
    last = items[-1] if items else None
    special = c.context.specials.get(last.stitch) if isinstance(last, Work) else None
    if (
        c.text() not in ("ending", "end", "ends")
        or special is None
        or special.base != "tile"
        or not isinstance(last, Work)
        or last.where.which is not Which.EACH
    ):
        return False
    end = sentence_end(c)
    if not {"without", "no"} & {token.text for token in c.tokens[c.i : end]}:
        return False
    items[-1] = replace(last, where=replace(last.where, stop=Stop(1)))
    items.append(Say("remark", "", Span(c.token().start, c.tokens[end - 1].end)))
    c.i = end
    return True


def closes_spiral(c: Cursor, items: list[Item]) -> bool:
    """ "Sc in each st around. Sl st in next 2 sts. Fasten off.": a spiral is evened out, and no row made of it."""
    last = next((item for item in reversed(items) if not isinstance(item, Say)), None)
    whole = (
        isinstance(last, Work)
        and last.where.which is Which.EACH
        and last.where.stop in (None, Stop())
        or isinstance(last, Repeat)
        and last.times is None
        and last.stop in (None, Stop())
    )
    if not whole or c.text() not in SLIPS or c.kind(-1) not in (T.PERIOD, T.CLOSE):
        return False
    end = sentence_end(c)
    words = {token.text for token in c.tokens[c.i : end]}
    behind = {token.text for token in c.tokens[end : end + 3]} | words
    if (
        not {"next"} <= words
        or {"first", "join", "top", "ch"} & words
        or not {"fasten", "fo", "cut", "finish"} & behind
    ):
        return False
    start = c.i
    while c.i < end and c.kind() is not T.COMMA and c.text() not in ("fasten", "fo", "cut", "finish"):
        c.i += 1
    items.append(Say("remark", "", c.span_from(start)))
    return True


def told_twice(c: Cursor, items: list[Item]) -> bool:
    """ "Ch 3, dc in each st around, skipping the first st": the one that the chain stands on is passed over anyhow."""
    last = items[-1] if items else None
    if (
        c.text() != "skipping"
        or not isinstance(last, Work)
        or last.where.which is not Which.EACH
        or not any(isinstance(item, Chain) and item.count > 1 for item in items)
    ):
        return False
    start = c.i
    c.i += 1
    c.take("the")
    if c.take("first") and c.kind(1) in STOPS:
        c.i += 1
        items.append(Say("remark", "", c.span_from(start)))
        return True
    c.i = start
    return False


_SHAPINGS = ("dec", "decs", "decrease", "decreases", "inc", "incs", "increase", "increases")


def shapes_somewhere(c: Cursor, items: list[Item]) -> bool:
    """ "Sc in each st around, working 2 sc together once", "…, decreasing 4 sts evenly": anywhere along the row."""
    last = items[-1] if items else None
    if not isinstance(last, Work) or last.count != 1 or last.where.which is not Which.EACH:
        return False
    if last.where.stop not in (None, Stop()) or last.where.around:
        return False
    start = c.i
    verb = c.take_any("working", "making", "decreasing", "increasing", "dec'ing", "inc'ing", "with")
    many: int | None = None
    if (several := _so_many_at_both_ends(c, last)) is not None:
        # "2 sc at both ends"
        return _shaped_at_ends(c, items, last, "inc", several - 1, start)
    if (named := _named_at_both_ends(c, last)) is not None:
        return _shaped_at_ends(c, items, last, *named, start)
    if verb == "with":
        c.i = start
        return False
    how = "inc" if verb.startswith("inc") else "dec"
    if verb.startswith(("inc", "dec")) and (to := spread_to(c, start, how)) is not None:
        items.append(to)
        return True
    if verb in ("working", "making"):
        two = c.value()
        c.i += two is not None
        shaped = c.take_any(*_SHAPINGS) if two is not None else ""
        stitch = stitch_here(c) if not shaped else None
        c.i += stitch.tokens if stitch is not None and two == 2 else 0
        c.take_any("st", "sts", "stitches")
        if two == 2 and c.take_any("tog", "together"):
            times = c.times_here()
            many = times[0] if times is not None else None
            c.i += times[1] if times is not None else 0
        elif shaped:
            # "working 4 decreases evenly spaced"
            many, how = two, shaped[:3]
    elif verb:
        many = c.value()
        c.i += many is not None
        if not c.take_any("st", "sts", "stitch", "stitches", "time", "times", "sc", "dc", "hdc"):
            many = None
    if many is not None and verb not in ("working", "making") and _at_both_ends(c):
        return _shaped_at_ends(c, items, last, how, many, start)
    while many is not None and c.take_any(
        "evenly", "spaced", "around", "across", "only", "anywhere", "along", "the", "way"
    ):
        pass
    if many is None or not 0 < many < 100 or c.kind() not in STOPS and c.kind() is not T.OPEN:
        c.i = start
        return False
    span = c.span_from(start)
    shaping = (
        Work(f"{last.stitch}2tog", many, Where(Which.STRAIGHT, span, loop=last.where.loop), span)
        if how == "dec"
        else Work(last.stitch, 2, Where(Which.NEXT, span, many, loop=last.where.loop), span)
    )
    items[-1:] = [shaping, last]
    return True


def _so_many_at_both_ends(c: Cursor, last: Work) -> int | None:
    """Takes "2 sc at both ends", of the stitch that is worked in each: how many; None, and nothing taken, for else."""
    i = c.i
    many = c.value()
    stitch = stitch_here(c, 1) if many is not None else None
    if many is not None and many > 1 and stitch is not None and stitch.name == last.stitch:
        c.i += 1 + stitch.tokens
        if _at_both_ends(c):
            return many
    c.i = i
    return None


def _named_at_both_ends(c: Cursor, last: Work) -> tuple[str, int] | None:
    """Takes "a dec at each end", "sc2tog over the first and last 2 sts", "2 sc in first and last st": which shaping it
    is, and by how many at each end; None, and nothing taken, for else."""
    i = c.i
    c.take_any("a", "an", "one")
    many = c.value()
    c.i += many is not None
    shaped = c.take_any(*_SHAPINGS)
    stitch = stitch_here(c) if not shaped else None
    how, by = shaped[:3], 1
    if stitch is not None and stitch.special is None:
        c.i += stitch.tokens
        if together(stitch.name) > 1 and base_of(stitch.name) == last.stitch and many in (None, 1):
            how, by = "dec", together(stitch.name) - 1
        elif stitch.name == last.stitch and many is not None and many > 1:
            how, by = "inc", many - 1
    elif many not in (None, 1):
        how = ""
    if how and (_at_both_ends(c) or _first_and_last(c)):
        return how, by
    c.i = i
    return None


def _first_and_last(c: Cursor) -> bool:
    """Takes "in first and last st", "over the first and last 2 sts"."""
    i = c.i
    if c.take_any("in", "into", "at", "over", "on"):
        c.take("each", "of")
        c.take("the") or c.take("both")
        c.take("the")
        if c.take("first") and c.take_any("and", "&"):
            c.take("the")
            if c.take("last"):
                c.i += c.value() is not None
                if c.take_any("st", "sts", "stitch", "stitches", "sc", "hdc", "dc", "htr", "tr"):
                    return True
    c.i = i
    return False


def _at_both_ends(c: Cursor) -> bool:
    """Takes "at each end", "at both ends of row"."""
    i = c.i
    if (
        c.take_any("at", "on")
        and c.take_any("each", "both", "either")
        and c.take_any("end", "ends", "side", "sides")
    ):
        if c.take("of"):
            c.take_any("the", "this")
            c.take_any("row", "rows")
        return True
    c.i = i
    return False


def _shaped_at_ends(c: Cursor, items: list[Item], last: Work, how: str, many: int, start: int) -> bool:
    """Puts what "increasing 1 sc at each end" does at both ends of the stitches before it."""
    if not 0 < many < 20 or c.kind() not in STOPS and c.kind() is not T.OPEN:
        c.i = start
        return False
    span = c.span_from(start)
    if how == "dec":
        edge = Work(f"{last.stitch}2tog", many, Where(Which.STRAIGHT, span, loop=last.where.loop), span)
        between = replace(last, where=replace(last.where, stop=Stop(2 * many)))
        items[-1:] = [edge, between, edge]
        return True
    first = Where(Which.FIRST, span, kinds=(Kind(ANY),), loop=last.where.loop)
    between = replace(last, where=replace(last.where, stop=Stop(1)))
    items[-1:] = [
        Work(last.stitch, 1 + many, first, span),
        between,
        Work(last.stitch, 1 + many, replace(first, which=Which.LAST), span),
    ]
    return True


def changes_the_last(c: Cursor, items: list[Item]) -> bool:
    """ "Sc in each st, working 2 sc in last st", "… in top of ch-3": one of them is worked otherwise."""
    last = items[-1] if items else None
    if (
        c.text() not in ("working", "making", "placing", "with")
        or not isinstance(last, Work)
        or last.where.which is not Which.EACH
        or last.where.stop not in (None, Stop())
    ):
        return False
    start = c.i
    c.i += 1
    found = work_here(c)
    only = found[0] if found is not None and len(found) == 1 else None
    if isinstance(only, Work) and only.where.which is Which.TOP:
        items.append(only)
        return True
    if not isinstance(only, Work) or only.where.which is not Which.LAST or only.where.many != 1:
        c.i = start
        return False
    items[-1:] = [replace(last, where=replace(last.where, stop=Stop(1))), only]
    return True


def by_row_ends(c: Cursor, items: list[Item]) -> bool:
    """ "64 sc around the brim, working 1 sc in each row end": how the stitches before lie along the edge."""
    at = next((k for k in range(len(items) - 1, -1, -1) if not isinstance(items[k], Say)), 0)
    last = items[at] if items else None
    bare = c.value() == 1 and c.text(1) == "in" and c.text(2) == "each"
    if (
        not bare
        and c.text() not in ("working", "placing", "making", "with")
        or not isinstance(last, Work)
        or last.where.which not in (Which.EVENLY, Which.EACH)
    ):
        return False
    start = c.i
    if bare:
        # "work 28 sc around the cuff, one in each row end"
        c.i += 3
        if c.take("row") and c.take_any("end", "ends") and last.where.which is Which.EVENLY:
            items.append(Say("remark", "", c.span_from(start)))
            return True
        c.i = start
        return False
    c.i += 1
    found = work_here(c)
    only = found[0] if found is not None and len(found) == 1 else None
    if not isinstance(only, Work) or only.where.which is not Which.ROW_END:
        c.i = start
        return False
    items[at] = last if last.where.which is Which.EVENLY else only
    items.append(Say("remark", "", c.span_from(start)))
    return True


def as_before(c: Cursor, items: list[Item], found: list[Item]) -> list[Item]:
    """ "Spike sc as before": in such a place as the last one of its name."""
    last = found[-1]
    c.i += 2
    if isinstance(last, Work) and unplaced(last):
        told = next((i for i in reversed(items) if isinstance(i, Work) and i.stitch == last.stitch), None)
        if told is not None:
            return [*found[:-1], replace(last, where=told.where)]
    return found


def back_along(c: Cursor, items: list[Item], found: list[Item], start: int) -> list[Item]:
    """ "4 sc in last ch, 8 sc along the other side": back along the chain that the row goes round, one in each.

    What was found comes out as it is where no chain is gone round, or nothing is told of its other side.
    """
    only = found[0]
    told = {token.text for token in c.tokens[start : c.i]}
    if (
        len(found) != 1
        or not isinstance(only, Work)
        or only.where.which is not Which.EVENLY
        or not only.count
        or "side" not in told
        or not told & {"other", "opposite"}
        or told & {"row", "rows", "evenly"}
        or not any(isinstance(i, (Work, Group)) and i.where.which is Which.FROM_HOOK for i in items)
    ):
        return found
    span = Span(only.span.start, only.span.end)
    return [Edge("other", span), replace(only, where=Where(Which.STRAIGHT, span))]


def skips_chains(c: Cursor, items: list[Item]) -> bool:
    """Takes "skipping the ch-1 sps" behind "hdc in each hdc across": what is no hdc is passed over anyhow."""
    if c.text() not in ("skipping", "missing") or not items:
        return False
    start, last = c.i, items[-1]
    if not (isinstance(last, Work) and last.where.which is Which.EACH):
        return False
    end = next((k for k in range(c.i, c.end) if c.tokens[k].kind in STOPS), c.end)
    words = {c.tokens[k].text for k in range(c.i + 1, end) if c.tokens[k].kind is T.WORD}
    if not words or not words <= _OF_CHAINS or not words & {"ch", "chs", "chain", "chains"}:
        return False
    c.i = end
    items.append(Say("remark", "", c.span_from(start)))
    return True


_OF_CHAINS = frozenset("all the each every turning ch chs chain chains sp sps space spaces".split())
"""Words of what lies between stitches."""
