"""Phrases that are no stitch in a place: chains, skips, turns, joins, edges, colours, markers, fastening off.

The cursor stands on the first word; items come out, or None with the cursor where it was.
"""

from dataclasses import replace

from tracker.notation.phrase.cursor import Cursor, stitch_here
from tracker.notation.phrase.places import PREPOSITIONS, _bare_place, where_here
from tracker.notation.scan import T
from tracker.notation.tree import (
    Chain,
    Edge,
    Item,
    Join,
    Kind,
    Leave,
    Say,
    Skip,
    Travel,
    Turn,
    Where,
    Which,
    Work,
)

_CH = frozenset("ch chs chain chains chaining".split())


def deed_here(c: Cursor) -> list[Item] | None:
    """The deed that stands here."""
    word = c.text()
    if (
        c.kind() is T.NUMBER
        or word in _CH
        or word in ("beg", "beginning", "starting")
        or word == "make"
        or word == "a"
    ):
        found = chain_here(c)
        if found is not None:
            return found
    reader = _READERS.get(word)
    return reader(c) if reader else None


def chain_here(c: Cursor) -> list[Item] | None:
    """ "ch 3", "ch-3", "3 ch", "chain three", "make 38 ch loosely"."""
    start = c.i
    c.take_any("make", "work")
    c.take_any("beg", "beginning", "starting", "a")
    if c.text() in _CH:
        c.i += 1
        c.take("st")
        c.take("sts")
        if c.kind() is T.PERIOD and c.value(1) is not None and c.token(1).start - c.token(0).end <= 1:
            c.i += 1
        if c.kind() is T.HYPHEN:
            c.i += 1
        value = c.value()
        if value is None:
            # "ch, dc in next": one chain, in terse patterns only
            if c.kind() in (T.COMMA, T.CLOSE, T.SEMICOLON, T.END, T.STAR):
                return [Chain(1, c.span_from(start))]
            if c.take("a"):
                if c.text() == "multiple":
                    return _to_period(c, start, "foundation")
            if c.text() in ("loosely",):
                c.i += 1
                value = c.value()
            if value is None:
                c.i = start
                return None
        c.i += 1
        c.take_any("loosely", "sts", "st", "chs", "ch", "stitches")
        if c.kind() is T.OPEN and c.text(1) in ("or", "or any", "multiple") and c.partners.get(c.i):
            c.i = c.partners[c.i] + 1
        return [Chain(value, c.span_from(start))]
    value = c.value()
    if value is not None:
        n = 1
        if c.kind(n) is T.HYPHEN:
            n += 1
        if c.text(n) in _CH:
            c.i += n + 1
            c.take_any("loosely", "sts")
            return [Chain(value, c.span_from(start))]
    c.i = start
    return None


def _skip(c: Cursor) -> list[Item] | None:
    start = c.i
    c.i += 1
    if c.text() == "a" or c.text() == "the":
        if c.text(1) in ("st", "stitch", "ch", "sp", "sc", "dc"):
            c.i += 1
    where: tuple[Where, ...] | None
    if c.text() in ("over",):
        c.i += 1
    if c.kind() is T.OPEN and c.partners.get(c.i):
        # "sk (ch 2, tr) once": what lies there is told
        close = c.partners[c.i]
        stitches: list[Item] = []
        c.i += 1
        while c.i < close:
            if c.text() in _CH or c.value() is not None and c.text(1) in _CH:
                got = chain_here(c)
                if got and isinstance(got[0], Chain):
                    stitches.append(
                        Skip(Where(Which.NEXT, got[0].span, 1, (Kind("sp", got[0].count),)), got[0].span)
                    )
                    continue
            ahead = 1 if c.value() is not None else 0
            stitch = stitch_here(c, ahead)
            if stitch is not None:
                many = c.value() or 1
                at = c.i
                c.i += ahead + stitch.tokens
                span = c.span_from(at)
                stitches.append(Skip(Where(Which.NEXT, span, many, (Kind(stitch.name),)), span))
                continue
            c.i += 1
        c.i = close + 1
        c.take_any("once")
        return stitches or None
    number = c.value()
    hyphened = c.kind(1) is T.HYPHEN
    if (
        number is not None
        and not hyphened
        and c.text(1) not in _CH
        and (
            c.kind(1) in (T.COMMA, T.SEMICOLON, T.PERIOD, T.END, T.CLOSE, T.STAR, T.OPEN)
            or c.text(1) in ("and", "then")
        )
    ):
        c.i += 1
        return [Skip(Where(Which.NEXT, c.span_from(start), number), c.span_from(start))]
    while (
        c.text() in ("next", "first", "last", "following", "foll") and c.text(1) in ("sp", "space") and False
    ):
        pass
    i = c.i
    where = _bare_place(c)
    if where is None:
        if c.text() in ("picot", "p"):
            c.i += 1
            where = (Where(Which.NEXT, c.span_from(i), 1, (Kind("picot"),)),)
        else:
            c.i = start
            return None
    if c.text() == "of" and c.text(1) in ("row", "rnd", "round"):
        c.i += 3
        where = tuple(replace(w, down=1) for w in where)
    where = tuple(replace(w, down=1) if w.down < 0 else w for w in where)
    if c.take_any("behind", "below") or (c.text() == "in" and c.text(1) in ("front", "back")):
        while c.kind() is T.WORD or c.kind() is T.NUMBER:
            c.i += 1
    return [Skip(w, c.span_from(start)) for w in where]


def _turn(c: Cursor) -> list[Item] | None:
    start = c.i
    word = c.text()
    if word in ("turn", "turning"):
        if c.text(1) in ("chain", "ch") and word == "turning":
            return None
        c.i += 1
        if c.take("work") or c.take("piece"):
            pass
        if c.value() is not None and c.text(1) in ("degrees",):
            c.i += 2
            return [Edge("side", c.span_from(start))]
        if c.kind() is T.OTHER or (c.value() == 90):
            while c.kind() in (T.NUMBER, T.OTHER, T.WORD):
                c.i += 1
            return [Edge("side", c.span_from(start))]
        if c.take("to"):
            c.take("work")
            while c.kind() is T.WORD and c.text() not in ("sc", "dc", "hdc", "ch", "tr"):
                c.i += 1
        return [Turn(c.span_from(start))]
    return None


def _do_not(c: Cursor) -> list[Item] | None:
    start = c.i
    if not (c.take("do", "not") or c.take("don't") or c.take("dont") or c.take("without")):
        return None
    turned = True
    joined: Item | None = None
    fasten = False
    while c.kind() in (T.WORD, T.OTHER, T.NUMBER) or (c.kind() is T.COMMA and c.text(1) in ("or",)):
        if c.text() in ("turn", "turning"):
            turned = False
        if c.text() in ("join", "joining"):
            joined = Say("no join", "", c.span_from(start))
        if c.text() in ("fasten", "break", "cut", "finish", "end"):
            fasten = True
        if c.text() in ("place", "pm", "mark", "move", "continue", "work", "ch") and c.i > start + 1:
            break
        c.i += 1
    span = c.span_from(start)
    out: list[Item] = []
    if not turned:
        out.append(Turn(span, False))
    if joined is not None:
        out.append(Say("no join", "", span))
    if not out or fasten:
        out.append(Say("remark", "", span))
    return out


def _join(c: Cursor) -> list[Item] | None:
    """ "join", "join with sl st in first sc", "join B with sl st in any ch-2 sp", "join with sc in first st"."""
    start = c.i
    c.i += 1
    words = [c.text(n) for n in range(12)]
    fresh = False
    # everything up to the stitch: the yarn
    n = 0
    if words[0] in ("rnd", "round"):
        n = 1
        words = words[1:]
    c.i += n
    i = c.i
    if (
        c.text() not in ("with", "in", "to", "into", "by", "at", "as", "and", "")
        and c.kind() is T.WORD
        and c.text() not in ("sl", "ss", "slst", "slip", "turn", "invisibly")
    ):
        # "join B …", "join new yarn …", "join yarn A …"
        fresh = True
        while c.kind() in (T.WORD, T.NUMBER, T.HYPHEN) and c.text() not in (
            "with",
            "in",
            "to",
            "into",
            "at",
            "by",
        ):
            c.i += 1
    if (
        c.take("in")
        and c.text() in ("new", "yarn", "a", "b", "c", "cc", "mc", "color", "colour")
        and c.text() not in ("a",)
    ):
        fresh = True
        while c.kind() in (T.WORD, T.NUMBER) and c.text() not in ("with", "in", "to", "into", "at", "by"):
            c.i += 1
    elif c.text(-1) == "in":
        c.i -= 1
    stitch = "slst"
    worked = False
    if c.take("with") or c.take("by"):
        c.take_any("a", "an", "the", "working")
        if c.text() in ("invisible", "inv"):
            c.i += 1
            c.take("join")
        elif c.text() in ("yarn", "color", "colour", "new", "a", "b", "c") and stitch_here(c) is None:
            fresh = True
            while c.kind() in (T.WORD, T.NUMBER) and c.text() not in ("in", "to", "into", "with"):
                c.i += 1
            c.take("with") and c.take_any("a")
        found = stitch_here(c)
        if found is not None:
            if c.text() == "standing":
                c.i += 1
            c.i += found.tokens
            stitch = found.name
            worked = stitch != "slst"
        elif c.take("standing"):
            found = stitch_here(c)
            if found is not None:
                c.i += found.tokens
                stitch = found.name
                worked = fresh = True
    else:
        found = stitch_here(c)
        if found is not None and found.name == "slst":
            c.i += found.tokens
    c.take_any("loosely", "tightly")
    where: tuple[Where, ...] | None = None
    if c.text() in PREPOSITIONS and c.text() not in ("around",):
        if c.text() in ("to", "in", "into") and c.text(1) in ("join", "form", "a", "close", "make"):
            pass
        else:
            where = where_here(c)
            if where is None and c.text() in ("in", "to", "into"):
                j = c.i
                c.i += 1
                while c.kind() in (T.WORD, T.NUMBER, T.ORDINAL, T.HYPHEN):
                    c.i += 1
                if c.i == j + 1:
                    c.i = j
    ring = False
    if c.text() in ("to", "into", "in", "forming", "and") and any(
        c.text(k) in ("ring", "circle", "tube", "loop") for k in range(1, 6)
    ):
        while c.kind() is T.WORD:
            c.i += 1
        ring = True
    elif c.take("to") and c.take("join"):
        pass
    c.take_any("around")
    span = c.span_from(start)
    del i
    if ring:
        return [Join(Where(Which.RING, span), span, "slst")]
    if c.tokens[start].text == "join" and where and any(t.text == "any" for t in c.tokens[start : c.i]):
        fresh = True
    if fresh:
        first: list[Item] = [Travel(where or (), span, fresh=True)]
        if worked:
            first.append(Work(stitch, 1, Where(Which.SAME, span), span))
        return first
    return [Join(where[0] if where else None, span, stitch)]


def _leave(c: Cursor) -> list[Item] | None:
    start = c.i
    c.i += 1
    if (
        c.text() in ("a", "about", "long", "tail", "an", "enough", "yarn", "end")
        or c.value() is not None
        and c.text(1) in ("cm", "in", "inch", "inches", '"')
    ):
        return _to_comma(c, start, "remark")
    if not (
        c.text() in ("the", "rem", "remaining", "last", "rest", "next", "all", "other", "remainder")
        or c.value() is not None
    ):
        c.i = start
        return None
    c.take("the")
    c.take("rest") or c.take("other")
    where = _bare_place(c)
    while c.kind() in (T.WORD, T.NUMBER) and c.text() not in ("turn", "join"):
        c.i += 1
    return [Leave(where[0] if where else None, c.span_from(start))]


def _to_comma(c: Cursor, start: int, kind: str) -> list[Item]:
    while c.kind() not in (T.COMMA, T.SEMICOLON, T.PERIOD, T.END, T.CLOSE, T.STAR, T.COLON):
        if c.kind() is T.OPEN and c.i in c.partners:
            if kind == "colour" and c.i > start:
                break
            c.i = c.partners[c.i]
        c.i += 1
    return [Say(kind, "", c.span_from(start))]


def _to_period(c: Cursor, start: int, kind: str) -> list[Item]:
    while c.kind() not in (T.PERIOD, T.END):
        if c.kind() is T.OPEN and c.i in c.partners and kind == "fasten off":
            # a count may stand behind it
            break
        if c.kind() is T.OPEN and c.i in c.partners:
            c.i = c.partners[c.i]
        c.i += 1
    return [Say(kind, "", c.span_from(start))]


def _fasten(c: Cursor) -> list[Item] | None:
    start = c.i
    word = c.text()
    if word == "fo" or c.text(1) in ("off",) or (word in ("cut", "break") and c.kind(1) is T.WORD):
        c.i += 1
        while c.kind() not in (T.COMMA, T.SEMICOLON, T.PERIOD, T.END, T.CLOSE, T.OPEN, T.DASH):
            c.i += 1
        return [Say("fasten off", "", c.span_from(start))]
    return None


def _colour(c: Cursor) -> list[Item] | None:
    start = c.i
    word = c.text()
    if word in ("with", "using"):
        if c.text(1) in ("last", "the") and c.text(2) in ("last",):
            return None
        if stitch_here(c, 1) is not None and c.text(1) not in ("a", "b", "c", "p"):
            return None
        c.i += 1
        while (
            c.kind() in (T.WORD, T.NUMBER, T.HYPHEN, T.ORDINAL)
            or c.kind() in (T.PERIOD, T.OTHER)
            and c.kind(1) in (T.NUMBER, T.WORD)
            and c.token(1).start == c.token().end
        ):
            if c.i > start + 1 and (
                c.text() in ("ch", "chain", "work", "join", "make", "sk", "sl", "rep", "repeat")
                or (c.text() != "a" and stitch_here(c) is not None)
            ):
                break
            if c.kind() is T.NUMBER and c.i > start + 1 and c.text(1) in _CH:
                break
            c.i += 1
        return [Say("colour", "", c.span_from(start))]
    if word in ("change", "changing", "switch", "drop", "carry", "carrying", "pick", "attach"):
        if word == "pick" and c.text(1) == "up" and (c.text(2) == "and" or c.value(2) is not None):
            return None
        c.i += 1
        return _to_comma(c, start, "colour")
    return None


def _marker(c: Cursor) -> list[Item] | None:
    start = c.i
    word = c.text()
    if word in ("pm", "sm", "mark", "marking", "move", "moving") or (
        word in ("place", "placing", "slip", "remove", "put", "use")
        and any("marker" in c.text(k) or c.text(k) in ("m", "markers") for k in range(1, 6))
    ):
        c.i += 1
        return _to_comma(c, start, "marker")
    return None


def _edge(c: Cursor) -> list[Item] | None:
    """ "working in free loops along other side of ch", "rotate to work along opposite side", "working in ends of rows"."""
    start = c.i
    words: list[str] = []
    n = 0
    while c.kind(n) in (T.WORD, T.HYPHEN, T.NUMBER, T.ORDINAL) and n < 24:
        words.append(c.text(n))
        n += 1
    low = set(words)
    if c.value() is not None or (
        {"each", "next", "every"} & low and not ({"rotate", "opposite", "other", "working", "turn"} & low)
    ):
        return None
    if words[:1] == ["work"] and words[1:2] not in (["along"], ["in"], ["across"], ["down"], ["up"], ["on"]):
        return None
    name = ""
    if (
        {"opposite", "other", "bottom", "underside", "back", "remaining", "free", "unused", "second"} & low
    ) and ({"ch", "chain", "chs", "chains", "foundation", "starting", "beg"} & low):
        name = "base"
    elif {"loops", "loop", "lps", "lp"} & low and {"free", "unused", "unworked", "remaining"} & low:
        name = "free"
    elif (
        {"ends", "end"} & low
        and {"rows", "row"} & low
        or {"side", "sides", "edge", "edges"} & low
        and {"rotate", "along", "down", "up"} & low
    ) or words[:1] in (["rotate"], ["rotating"]):
        name = "side"
    elif {"top", "across"} & low and {"edge"} & low:
        name = "top"
    if not name or words[:1] not in (
        ["working"],
        ["rotate"],
        ["rotating"],
        ["now"],
        ["working"],
        ["turn"],
        ["on"],
        ["along"],
        ["continue"],
        ["work"],
        ["down"],
        ["across"],
        ["then"],
    ):
        return None
    for k, word in enumerate(words):
        if k and (
            word in ("sc", "hdc", "dc", "tr", "ch")
            and word != "ch"
            or word == "work"
            and k > 1
            and words[k - 1] != "to"
        ):
            n = k
            break
    row = next((c.value(k + 1) for k, w in enumerate(words) if w in ("rnd", "row", "round")), None)
    c.i += n
    if (
        c.kind() is T.OPEN
        and c.i in c.partners
        and c.tokens[c.partners[c.i]].end - c.token().start < 40
        and "same" in [c.text(k) for k in range(1, 6)]
    ):
        c.i = c.partners[c.i] + 1
    return [Edge(name, c.span_from(start), row)]


def _working(c: Cursor) -> list[Item] | None:
    found = _edge(c)
    if found is not None:
        return found
    start = c.i
    words = [c.text(n) for n in range(1, 8)]
    if (
        c.text() in ("working", "work")
        and words[:1] == ["behind"]
        or words[:2] == ["in", "front"]
        or c.text() == "working"
        and words[:1] in (["over"], ["around"], ["loosely"], ["from"], ["left"], ["right"], ["in"])
        and (
            "continuous" in words
            or "spiral" in words
            or "left" in words
            or "front" in words
            or "carried" in words
        )
    ):
        return _to_comma(c, start, "remark")
    for k, word in enumerate(words):
        if (
            k > 2
            and c.value(k + 1) is not None
            and words[:1] in (["in"], ["behind"], ["over"])
            and stitch_here(c, k + 2) is not None
        ):
            # "working in front of these 1 rdtrf round …": the aside ends where stitches begin
            c.i += k + 1
            return [Say("remark", "", c.span_from(start))]
    if (
        c.text() == "working"
        and words[:1] in (["over"], ["behind"], ["in"], ["around"])
        and ("made" in words or "front" in words or "behind" in words or "skipped" in words)
    ):
        return _to_comma(c, start, "remark")
    if c.text() == "work" and words[:1] == ["even"]:
        c.i += 2
        while c.kind() is T.WORD and c.text() not in ("turn", "join"):
            c.i += 1
        span = c.span_from(start)
        return [Work("even", 1, Where(Which.EACH, span, 0, (Kind("st"),)), span)]
    if c.text() in ("work", "make") and c.kind(1) in (T.WORD, T.NUMBER):
        i = c.i
        c.i += 1
        from tracker.notation.phrase.works import work_here

        found_work = work_here(c) or chain_here(c)
        if found_work is not None:
            return found_work
        c.i = i
    return None


def _continue(c: Cursor) -> list[Item] | None:
    """ "cont in sc to end": a stitch goes on."""
    start = c.i
    c.i += 1
    c.take_any("in", "with", "working")
    stitch = stitch_here(c)
    if stitch is None or stitch.special is not None:
        c.i = start
        return None
    from tracker.notation.phrase.works import work_here

    found = work_here(c)
    if found is None:
        c.i = start
    return found


def _ring(c: Cursor) -> list[Item] | None:
    """ "magic ring", "make a magic circle", "MR"."""
    start = c.i
    c.take_any("make", "into", "in", "begin", "start", "with")
    c.take_any("with", "a", "an")
    c.take_any("a", "an")
    if c.take_any("magic", "adjustable", "slip", "sliding"):
        if c.take_any("ring", "circle", "loop", "knot"):
            if c.text(-1) == "knot":
                return [Say("remark", "", c.span_from(start))]
            return [Join(Where(Which.RING, c.span_from(start)), c.span_from(start), "magic")]
    elif c.take_any("mr", "ring") or (
        c.text() == "mc" and c.kind(1) in (T.COMMA, T.COLON, T.PERIOD, T.END) and _one(c)
    ) or c.take_any("loop"):
        return [Join(Where(Which.RING, c.span_from(start)), c.span_from(start), "magic")]
    c.i = start
    return None


def _commence(c: Cursor) -> list[Item] | None:
    """ "Commence with 28 ch"."""
    start = c.i
    c.i += 1
    c.take("with")
    found = chain_here(c)
    if found is None:
        c.i = start
    return found


def _starting(c: Cursor) -> list[Item] | None:
    """ "Starting in 2nd ch from hook": where the first stitch of a row goes."""
    start = c.i
    c.i += 1
    c.take("with")
    where = where_here(c) if c.text() in PREPOSITIONS else _bare_place(c)
    if where is None or where[0].which is not Which.FROM_HOOK:
        c.i = start
        return None
    return [Skip(where[0], c.span_from(start))]


def _one(c: Cursor) -> bool:
    c.i += 1
    return True


def _make(c: Cursor) -> list[Item] | None:
    return _ring(c) or _working(c)


def _close(c: Cursor) -> list[Item] | None:
    start = c.i
    if c.text(1) in ("rnd", "round", "with"):
        c.i += 2
        while c.kind() is T.WORD:
            c.i += 1
        return [Join(None, c.span_from(start))]
    return None


def _finish(c: Cursor) -> list[Item] | None:
    return _fasten(c)


def _work_even(c: Cursor) -> list[Item] | None:
    return _working(c) or _edge(c)


_READERS = {
    **dict.fromkeys(("sk", "skip", "miss", "skipping", "missing", "ski", "skp"), _skip),
    **dict.fromkeys(("turn", "turning"), lambda c: _edge(c) if c.text(1) == "to" else _turn(c)),
    **dict.fromkeys(("do", "don't", "dont", "without"), _do_not),
    **dict.fromkeys(("join", "joining"), _join),
    **dict.fromkeys(("leave", "leaving"), _leave),
    **dict.fromkeys(("fasten", "fo", "finish", "end", "cut", "break", "finishing"), _fasten),
    **dict.fromkeys(
        ("with", "using", "change", "changing", "switch", "drop", "carry", "carrying", "pick", "attach"),
        _colour,
    ),
    **dict.fromkeys(
        ("pm", "sm", "mark", "marking", "move", "moving", "place", "placing", "slip", "remove", "put", "use"),
        _marker,
    ),
    **dict.fromkeys(("working", "work"), _work_even),
    **dict.fromkeys(("rotate", "rotating", "along", "on", "now", "down", "across"), _edge),
    **dict.fromkeys(("cont", "continue", "continuing"), lambda c: _continue(c) or _edge(c)),
    **dict.fromkeys(("magic", "adjustable", "mr", "mc", "begin", "start", "sliding"), _ring),
    "commence": lambda c: _commence(c),
    **dict.fromkeys(("starting", "beginning"), lambda c: _starting(c)),
    "make": _make,
    "into": _ring,
    "in": _ring,
    "close": _close,
}
