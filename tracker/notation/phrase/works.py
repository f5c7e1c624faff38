"""Stitches and their places: "2 sc in each of next 4 sts", "sc 7", "inc x 6", "dc across", "shell in next sc".

The cursor stands on a number or a stitch's name; items come out, or None with the cursor where it was.
"""

from dataclasses import replace

from tracker.notation.phrase.cursor import Cursor, Stitch, base_of, stitch_here
from tracker.notation.phrase.places import (
    PREPOSITIONS,
    _bare_place,
    kind_here,
    kinds_here,
    stop_here,
    where_here,
)
from tracker.notation.scan import T
from tracker.notation.tree import ANY, SPACE, Except, Group, Item, Kind, Repeat, Stop, Where, Which, Work
from tracker.trade.stitches import parts_of

_AFTER_STITCH = frozenset("loosely tightly loosley evenly only again st sts stitch stitches more".split())


def together(name: str) -> int:
    """How many stitches of the row below a name gathers."""
    return parts_of(name)[2]


def work_here(c: Cursor) -> list[Item] | None:
    """Stitches that stand here, with all the places the phrase names."""
    start = c.i
    number = c.value()
    ahead = 0
    if number is not None:
        ahead = 1
        if c.text(1) in ("more", "additional", "single" if c.text(2) != "crochet" else "\0"):
            ahead = 2
        if c.kind(1) is T.HYPHEN and stitch_here(c, 2) is not None:
            # "5-dc shell", "4-dc group": a number glued to its stitch
            ahead = 2
    while (
        c.text(ahead) in ("standing", "beg", "beginning", "chainless", "regular", "first", "plain")
        and stitch_here(c, ahead) is None
        and stitch_here(c, ahead + 1) is not None
    ):
        ahead += 1
    if c.text(ahead) == "a" and stitch_here(c, ahead + 1) is not None:
        ahead += 1
    stitch = stitch_here(c, ahead)
    if stitch is None:
        return None
    begins = any(c.text(k) in ("beg", "beginning", "first") for k in range(ahead))
    c.i += ahead + stitch.tokens
    if (changed := _spread(c, start, stitch, number)) is not None:
        return changed
    name, each = _resolved(c, stitch)
    if (
        stitch.name in ("inc", "dec")
        and c.value() == 1
        and c.text(1) in ("st", "stitch")
        and c.text(2) in PREPOSITIONS
    ):
        c.i += 2
    if c.kind() is T.OPEN and c.partners.get(c.i) and c.text(1) in ("see", "corner"):
        c.i = c.partners[c.i] + 1
    while c.text() in _AFTER_STITCH and not (c.text() == "evenly" and number) and not (c.text() == "more"):
        c.i += 1
    own_number = number
    after = None
    if number is None and c.kind() is T.NUMBER and not _is_place_number(c):
        after = c.value()
        c.i += 1
    loop = stitch.loop
    items: list[Item] = []
    if c.text() in ("evenly", "spaced") or (
        c.text() in ("along", "across", "around", "up", "down") and number is not None and _evenly_follows(c)
    ):
        if own_number is not None:
            return [_evenly(c, start, name, own_number)]
        while c.text() in ("evenly", "spaced"):
            c.i += 1
    count = (own_number or 1) * each
    # "inc x 6", "dec 3 times", "sc x 5", "6 inc"
    if each > 1 or together(name) > 1 or stitch.special is not None:
        pass
    i = c.i
    times = c.times_here()
    if times is not None and not _where_first(c):
        c.i += times[1]
        value = times[0]
        if c.text() in PREPOSITIONS and c.text() not in ("across", "around"):
            where = where_here(c)
            if where is not None:
                return _placed(c, start, name, count * value, where, stitch, loop)
        if each > 1:
            return [
                Work(name, each, Where(Which.NEXT, c.span_from(start), value, loop=loop), c.span_from(start))
            ]
        return [
            Work(
                name, count * value, Where(Which.STRAIGHT, c.span_from(start), loop=loop), c.span_from(start)
            )
        ]
    c.i = i
    wheres = _wheres(c, stitch, after)
    if wheres is None:
        stop = stop_here(c)
        span = c.span_from(start)
        if stop is not None:
            return (
                [
                    _excepting(
                        c,
                        Work(
                            name,
                            each if own_number is None or each > 1 else own_number * each,
                            Where(Which.EACH, span, 0, (Kind(ANY),), stop=stop, loop=loop),
                            span,
                        ),
                    )
                ]
                if own_number is None or stop.left == 0 and not own_number
                else [Work(name, own_number, Where(Which.STRAIGHT, span, loop=loop), span)]
            )
        amount = after or 1
        if begins and stitch.special is not None:
            return [Work(name, 1, Where(Which.SAME, span, loop=loop), span)]
        if each > 1:
            return [
                Work(name, each, Where(Which.NEXT, span, max(1, (own_number or 1) * amount), loop=loop), span)
            ]
        return [Work(name, count * amount, Where(Which.STRAIGHT, span, loop=loop), span)]
    if after is not None and own_number is None:
        count = after * each
    if each > 1 and own_number is not None:
        # "6 inc in ring" makes little sense otherwise
        items = _placed(c, start, name, each * own_number, wheres, stitch, loop)
    else:
        items = _placed(c, start, name, count, wheres, stitch, loop)
    return items


def _resolved(c: Cursor, stitch: Stitch) -> tuple[str, int]:
    """Name inside and how many are worked in each place, for "inc", "dec" and the plain ones."""
    context = c.context
    if stitch.name == "inc":
        return context.increase or context.base, context.increase_count
    if stitch.name.startswith("inc:"):
        return stitch.name[4:], 2
    if stitch.name == "dec":
        return (context.decrease or context.base) + f"{context.decrease_count}tog", 1
    if stitch.special is None and (plain := base_of(stitch.name)):
        context.base = plain
    return stitch.name, 1


def _is_place_number(c: Cursor) -> bool:
    """True when a number after a stitch belongs to what follows: "dc 2-ch sp", "sc 3 times", "sc 2 rows below"."""
    if c.kind(1) is T.HYPHEN or c.text(1) in (
        "ch",
        "chs",
        "row",
        "rows",
        "rnd",
        "rnds",
        "times",
        "time",
        "x",
        "more",
        "tog",
        "together",
    ):
        return True
    if c.kind(1) is T.TIMES:
        return True
    return stitch_here(c, 1) is not None


def _evenly_follows(c: Cursor) -> bool:
    words = []
    for n in range(9):
        if c.kind(n) is not T.WORD:
            break
        words.append(c.text(n))
    return "evenly" in words or bool({"side", "edge", "ends", "sides"} & set(words))


def _where_first(c: Cursor) -> bool:
    return False


def _spread(c: Cursor, start: int, stitch: Stitch, number: int | None) -> list[Item] | None:
    """ "inc 6 sts evenly spaced", "dec 1 st at each end": a change to the row as a whole."""
    if stitch.name not in ("inc", "dec"):
        return None
    i = c.i
    amount = c.value()
    if amount is not None:
        c.i += 1
    amount = amount or number
    plain = stitch_here(c)
    if plain is not None and plain.special is None:
        c.i += plain.tokens
    c.take_any("st", "sts", "stitch", "stitches", "times")
    if amount is not None and c.take("evenly"):
        while c.take_any(
            "spaced",
            "across",
            "around",
            "row",
            "rnd",
            "round",
            "along",
            "over",
            "the",
            "in",
            "this",
            "spread",
        ):
            pass
        span = c.span_from(start)
        return [Work(stitch.name + " evenly", amount, Where(Which.EVENLY, span), span)]
    c.take_any("at", "on")
    if c.take_any("each", "both"):
        if c.take_any("end", "ends", "side", "sides", "edge"):
            while c.take_any("of", "the", "row", "this", "next"):
                pass
            span = c.span_from(start)
            return [Work(stitch.name + " ends", amount or 1, Where(Which.EVENLY, span), span)]
    c.i = i
    return None


def _evenly(c: Cursor, start: int, name: str, number: int) -> Work:
    """ "24 sc evenly along row ends": everything up to the comma tells where."""
    while c.kind() in (T.WORD, T.NUMBER, T.ORDINAL, T.HYPHEN) and c.text() not in ("join", "turn", "sl"):
        if c.text() == "and" and (c.value(1) is not None or stitch_here(c, 1) is not None):
            break
        c.i += 1
    if c.kind() is T.OPEN and c.partners.get(c.i):
        c.i = c.partners[c.i] + 1
    span = c.span_from(start)
    return Work(name, number, Where(Which.EVENLY, span), span)


def _wheres(c: Cursor, stitch: Stitch, after: int | None) -> tuple[Where, ...] | None:
    """Places that follow a stitch's name, joined by "and"."""
    start = c.i
    i = c.i
    over = (
        c.text() in ("over", "across")
        and c.text(1) in ("next", "the", "first", "last", "following", "foll", "same")
        or c.text() == "over"
    )
    if c.text() == "all" and c.text(1) in ("in", "into"):
        return None
    if c.text() in ("across", "around", "round", "along") and not (
        over
        or c.text(1)
        in (
            "post",
            "next",
            "first",
            "each",
            "ea",
            "every",
            "1st",
            "both",
            "back",
            "blo",
            "ea",
            "every",
            "1st",
            "both",
            "back",
            "blo",
            "last",
            "same",
            "the",
            "corresponding",
            "st",
            "center",
            "centre",
        )
        or stitch_here(c, 1) is not None
        or c.text(1) in ("fp", "bp")
    ):
        c.i = i
        return None
    if (
        c.text() == "to"
        and c.text(1) in ("last", "end", "within", "marker", "next", "corner", "tch", "turning", "the", "m")
        and not (c.text(1) == "the" and c.text(2) not in ("last", "end", "next"))
    ):
        c.i = i
        return None
    where: tuple[Where, ...] | None
    if c.text() in PREPOSITIONS:
        where = where_here(c)
    elif c.text() in ("next", "each", "first", "last", "same", "ea", "every", "1st", "blo", "flo") or (
        c.text() in ("bl", "fl") and c.text(1) != "st"
    ):
        # "sc next 2 sts", "sc each st across", "sc blo in next 3"
        if c.text() in ("blo", "flo", "bl", "fl"):
            where = where_here(c, bare=True)
        else:
            where = _bare_place(c)
    else:
        return None
    if where is None:
        c.i = start
        return None
    if stitch.special is not None and "*" in stitch.special.base and where[0].many > 1:
        stitch.name = stitch.special.base.replace("*", str(where[0].many))
        return (replace(where[0], many=1),)
    gathered = together(stitch.name) if stitch.special is None else stitch.special.closes
    if c.text() in ("tog", "together"):
        c.i += 1
        many = sum(w.many for w in where)
        if stitch.special is None and together(stitch.name) == 1 and many >= 2:
            stitch.name = f"{stitch.name}{many}tog"
            return (replace(where[0], many=1),)
    if (
        gathered > 1
        and len(where) >= 1
        and (
            over
            or where[0].which in (Which.NEXT, Which.FIRST, Which.LAST)
            and where[0].many % gathered == 0
            and where[0].many > 1
        )
    ):
        total = sum(w.many for w in where)
        if where[0].which in (Which.NEXT, Which.FIRST, Which.LAST) and total >= gathered:
            first = where[0]
            return (
                replace(first, many=max(1, total // gathered), kinds=first.kinds if len(where) == 1 else ()),
            )
    elif over and gathered <= 1 and where[0].many > 1 and stitch.name in ("cl",):
        return where
    all_wheres = list(where)
    while True:
        i = c.i
        if c.kind() is T.COMMA and c.text(1) == "and" and c.text(2) in PREPOSITIONS:
            c.i += 1
        if (c.take("and") or (c.text() == "&" and _step(c)) or c.take("then")) and (
            c.text() in PREPOSITIONS or c.text() in ("each", "next", "ea", "every", "last", "again", "of")
        ):
            c.take("again")
            c.take("of")
            if c.text() in ("around", "across") and c.text(1) in ("", "to", "join"):
                c.i = i
                break
            more = where_here(c) if c.text() in PREPOSITIONS else _bare_place(c)
            if more is not None and not _begins_work(c):
                all_wheres.extend(more)
                continue
        c.i = i
        break
    return tuple(all_wheres)


def _begins_work(c: Cursor) -> bool:
    """True when a place just read opens a new phrase: "and in next sp work (…)"."""
    return c.text() in ("work", "make") or (c.kind() is T.COLON)


def _step(c: Cursor) -> bool:
    c.i += 1
    return True


def _placed(
    c: Cursor, start: int, name: str, count: int, wheres: tuple[Where, ...], stitch: Stitch, loop: str
) -> list[Item]:
    items: list[Item] = []
    if stitch.name != name and "tog" in stitch.name and "tog" not in name:
        name = stitch.name
    for at, where in enumerate(wheres):
        if loop and not where.loop:
            where = replace(where, loop=loop)
        span = c.span_from(start)
        if where.which is Which.STRAIGHT and where.loop and len(wheres) == 1:
            stop = stop_here(c)
            if stop is not None:
                where = Where(Which.EACH, span, 0, (Kind(ANY),), stop=stop, loop=where.loop)
        if where.which is Which.EACH and at == len(wheres) - 1 and (where.stop is None):
            stop = stop_here(c)
            if stop is not None:
                where = replace(where, stop=stop)
        items.append(_excepting(c, Work(name, count, where, span, joined=at > 0)))
    # "[2 dc in next sp] x 3" is a bracket's business, "2 dc in next sp 3 times" is ours
    times = c.times_here()
    if times is not None and times[0] < 10**6:
        more = "more" in (c.text(k) for k in range(times[1] + 1))
        c.i += times[1]
        c.take("more")
        if c.take("in") or c.take("into"):
            c.i -= 1
        return [Repeat(tuple(items), c.span_from(start), times[0] + (1 if more else 0))]
    return items


def _excepting(c: Cursor, work: Work) -> Work:
    """Adds ", working 3 sc in each corner ch-2 sp" to an EACH."""
    if work.where.which is not Which.EACH:
        return work
    excepting: list[Except] = []
    while True:
        i = c.i
        if c.kind() is T.COMMA:
            c.i += 1
        led = c.take_any("working", "with", "making", "placing", "putting", "work", "and")
        if not led and c.kind() is T.COMMA:
            c.i = i
            break
        if (
            c.i == i
            or (led in ("work", "and") and not _corner_within(c))
            or (not led and not _corner_within(c))
        ):
            c.i = i
            break
        except_ = _exception(c, work.where.stop == Stop() and bool(work.where.kinds))
        if except_ is None:
            c.i = i
            break
        excepting.append(except_)
    if not excepting:
        return work
    return replace(work, excepting=work.excepting + tuple(excepting))


def _corner_within(c: Cursor) -> bool:
    """True when a phrase before the next comma speaks of "each corner" or "each ch-2 sp"."""
    words = []
    depth = 0
    for n in range(24):
        kind = c.kind(n)
        if kind is T.OPEN:
            depth += 1
        elif kind is T.CLOSE:
            depth -= 1
        elif kind is T.END or (kind in (T.COMMA, T.SEMICOLON, T.PERIOD) and depth <= 0):
            break
        words.append(c.text(n))
    return (
        any(
            a in ("each", "every")
            and (
                "corner" in words[k : k + 5]
                or "sp" in words[k : k + 7]
                or "sps" in words[k : k + 7]
                or "lp" in words[k : k + 7]
            )
            for k, a in enumerate(words)
        )
        or (
            len(words) > 6
            and words[-6:-4] in (["sc", "in"], ["dc", "in"])
            and words[-4] == "ch"
            and words[-1] == "sp"
        )
        or "corners" in words
        and bool({"in", "into", "at"} & set(words))
    )


def _exception(c: Cursor, bare: bool = False) -> Except | None:
    """`bare` allows "3 sc in ch-2 sp", with no "each": after an "each … across" it can only be an exception."""
    from tracker.notation.phrase.row import bracket_items

    start = c.i
    items: tuple[Item, ...]
    if c.kind() is T.OPEN and c.partners.get(c.i):
        items = tuple(bracket_items(c))
    else:
        number = c.value()
        ahead = 1 if number is not None else 0
        stitch = stitch_here(c, ahead)
        if stitch is None:
            return None
        c.i += ahead + stitch.tokens
        name, each = _resolved(c, stitch)
        span = c.span_from(start)
        items = (Work(name, (number or 1) * each, Where(Which.STRAIGHT, span), span),)
    if not c.take_any("in", "into", "at", "on"):
        c.i = start
        return None
    if (
        not c.take_any("each", "every", "ea", "all", "the", "corner", "corners")
        and not (bare and c.text() == "ch" and c.kind(1) is T.HYPHEN)
        and c.text() not in ("center", "centre", "middle")
    ):
        c.i = start
        return None
    c.take("of")
    c.take_any("the")
    c.value() is not None and c.text(1) in ("corner", "corners", "ch") and c.kind(
        1
    ) is not T.HYPHEN and _step(c)
    kinds: tuple[Kind, ...]
    if c.text(-1) in ("corner", "corners"):
        c.i -= 1
    middle = c.text() in ("center", "centre", "middle")
    first = kind_here(c)
    if first is None:
        c.i = start
        return None
    if c.take("of"):
        c.take_any("each", "every", "the")
        group = kind_here(c)
        c.take_any("corner", "corners", "group", "shell")
        kinds = (first, Kind("middle of:" + (group.name if group else "group")))
    elif middle and first.name not in (SPACE, "ch"):
        c.take_any("corner", "corners")
        kinds = (Kind("corner"),)
    else:
        kinds = (first,)
    stop_here(c)
    return Except(kinds, items)


def grouped(items: list[Item], where: tuple[Where, ...], c: Cursor, start: int, name: str = "") -> list[Item]:
    """The items as groups, one for each place named."""
    out: list[Item] = []
    for place in where:
        if place.which is Which.EACH and place.stop is None:
            stop = stop_here(c)
            if stop is not None:
                place = replace(place, stop=stop)
        out.append(Group(tuple(items), place, c.span_from(start), name))
    return out


__all__ = ["grouped", "kinds_here", "together", "work_here"]
