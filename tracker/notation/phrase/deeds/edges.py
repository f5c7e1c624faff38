"""Work that moves to another edge, or goes on: "working along other side of ch", "work even", "cont in sc"."""

from tracker.notation.phrase.cursor import SLIPS, STOPS, Cursor
from tracker.notation.phrase.deeds.chains import chain_here, starting_here
from tracker.notation.phrase.deeds.said import to_comma
from tracker.notation.phrase.places.bare import bare_place
from tracker.notation.phrase.places.loops import LEFT_FREE
from tracker.notation.phrase.places.stops import stop_here
from tracker.notation.phrase.places.where import where_here
from tracker.notation.phrase.stitches import base_of, stitch_here
from tracker.notation.phrase.works.work import work_here
from tracker.notation.scan import T
from tracker.notation.tree import Edge, Item, Kind, Leave, Repeat, Say, Stop, Where, Which, Work
from tracker.records import replace
from tracker.trade.numbers import ORDINAL_WORDS

_EDGE_STARTS = frozenset(
    "working rotate rotating now turn turning on along continue continuing cont work down across then "
    "going go pivot flip keep crochet crocheting return returning".split()
)
"""What a phrase about another edge begins with."""


_OTHER_SIDE = frozenset(
    "working work now turn turning rotate to and on along down continue continuing cont keep going the other opposite "
    "side then underside".split()
)
_ON_CHAINS = frozenset(
    "in into along on down across back up the of over your foundation sl st sts stitches slst hdc only".split()
)
_CHAIN_WORDS = frozenset("ch chs chain chains bump bumps hump humps".split())
_POINTED_AT = frozenset("these them those it made sts stitches chs chains".split())
"""What an aside such as "working in front of sts just made" may end with."""
_INTO = frozenset("in into around round on".split())


_OVER = (*STOPS, T.EQUALS, T.DASH, T.OPEN)
"""What stands behind the last words of a row."""


def edge_here(c: Cursor) -> list[Item] | None:
    """ "Working in free loops along other side of ch", "rotate to work along opposite side", "in ends of rows"."""
    start = c.i
    words: list[str] = []
    n = 0
    while c.kind(n) in (T.WORD, T.HYPHEN, T.NUMBER, T.ORDINAL) and n < 24:
        words.append(c.text(n))
        n += 1
    if "underside" in words[:4]:
        # "on the underside dc in next 3 ch": where the edge is told ends before the stitches
        n = next((k for k in range(len(words)) if _names_stitch(words, k)), n)
        del words[n:]
    counted = next(
        (k for k in range(1, len(words)) if c.kind(k) is T.NUMBER and _names_stitch(words, k + 1)), 0
    )
    if counted:
        # "on the other side 2 sc": they are worked there
        n = counted
        del words[n:]
    low = set(words)
    if c.value() is not None or (
        {"each", "next", "every"} & low and not ({"rotate", "opposite", "other", "working", "turn"} & low)
    ):
        return None
    if words[:1] in (["work"], ["crochet"]) and words[1:2] not in (
        ["along"], ["in"], ["across"], ["down"], ["up"], ["on"], ["back"], ["around"],
    ):  # fmt: skip
        return None
    if "forth" in low:
        return None  # "work back and forth along one side": rows, on part of what stands
    name = ""
    if ({"opposite", "other", "bottom", "underside", "back", "second", *LEFT_FREE} & low) and (
        {"ch", "chain", "chs", "chains", "foundation", "starting", "beg"} & low
    ):
        name = "base"
    elif {"other", "opposite", "underside"} & low and low <= _OTHER_SIDE:
        # "on the other side:": of the chain, where the row goes along one
        name = "other"
    elif {"loops", "lps"} & low and LEFT_FREE & low and _turned_over(low):
        # "working in remaining loops along other side": of the chain as well
        name = "other"
    elif {"loops", "loop", "lps", "lp"} & low and LEFT_FREE & low:
        name = "free"
    elif (
        {"ends", "end"} & low
        and {"rows", "row"} & low
        or {"side", "sides", "edge", "edges"} & low
        and {"rotate", "along", "down", "up", "other", "opposite"} & low
        or {"bottom", "underside", "upside"} & low
    ) or words[:1] in (["rotate"], ["rotating"]):
        name = "side"
    elif {"top", "across"} & low and {"edge"} & low:
        name = "top"
    if not name or not words or words[0] not in _EDGE_STARTS:
        return None
    for k, word in enumerate(words):
        if k and (_names_stitch(words, k) or word == "work" and k > 1 and words[k - 1] != "to"):
            if word == "work" and words[k + 1 : k + 2] in _ALONG and not any(w.isdigit() for w in words[k:]):
                continue  # "turn the piece and work into the free loops of the chain"
            n = k
            break
    if words in (["rotate"], ["rotate", "work"], ["rotate", "piece"]) and _edge_follows(c, n):
        # "rotate work, continue along bottom of ch": the edge is told behind
        c.i += n
        return [Say("remark", "", c.span_from(start))]
    named = [k for k, w in enumerate(words) if w in ("rnd", "row", "round", "r")]
    loops = next((k for k, w in enumerate(words) if w in ("loops", "loop", "lps", "lp")), 0)
    # "behind Rnd 2 in unused loops of Rnd 1": whose loops they are is told behind them
    named = [k for k in named if k > loops] or named
    row = c.value(named[0] + 1) if named else None
    c.i += n
    if (
        c.kind() is T.OPEN
        and c.i in c.partners
        and c.tokens[c.partners[c.i]].end - c.token().start < 40
        and "same" in [c.text(k) for k in range(1, 6)]
    ):
        c.i = c.partners[c.i] + 1
    return [Edge(name, c.span_from(start), row)]


def _turned_over(low: set[str]) -> bool:
    """True for "along other side", "upside down": of what the row goes along, where no row is named."""
    side = {"other", "opposite"} & low and {"side", "edge"} & low or "upside" in low
    return bool(side) and not {"row", "rnd", "round", "rows", "rnds"} & low


def _names_stitch(words: list[str], k: int) -> bool:
    """True for "sc", "half treble", "double crochet" among the words of an edge: there the work begins."""
    if k >= len(words):
        return False
    behind = words[k + 1] if k + 1 < len(words) else ""
    whole = words[k] in ("single", "half", "double", "treble") and behind in ("crochet", "double", "treble")
    return whole or words[k] in ("sc", "hdc", "dc", "tr", "htr")


_PLACED = ("next", "each", "same", "first", "last", "every")
"""What names a place to work in, where an aside would only tell what the work lies before or behind."""
_ALONG = (["in"], ["into"], ["along"], ["on"], ["across"], ["down"], ["up"], ["back"])
"""What follows "work" where an edge is told and no stitch."""


def _edge_follows(c: Cursor, ahead: int) -> bool:
    """True when a comma and the words of another edge stand there."""
    start = c.i
    c.i += ahead + 1
    found = edge_here(c) if c.kind(-1) is T.COMMA else None
    c.i = start
    return found is not None


def loops_here(c: Cursor) -> list[Item] | None:
    """ "In remaining loops on opposite side of ch, sc in next 4": the edge, told before what is worked along it."""
    n = 0
    while c.kind(n) is T.WORD and n < 14:
        n += 1
    low = {c.text(k) for k in range(n)}
    if (
        c.kind(n) in (T.COMMA, T.COLON)
        and {"loops", "loop", "lps", "side"} & low
        and {"opposite", "other", *LEFT_FREE} & low
        and _CHAIN_WORDS & low
        and not {"next", "each", "first", "last", "same", "skipped"} & low
    ):
        start = c.i
        c.i += n
        return [Edge("base", c.span_from(start))]
    return None


def working_here(c: Cursor) -> list[Item] | None:
    """ "Working behind ch-3 loops", "work even", "work 3 sc": an aside, or stitches behind a verb."""
    if c.text() in ("working", "work") and c.text(1) in ("in", "into", "from"):
        at = 3 if c.text(2) == "the" else 2
        nth = c.kind(at) is T.ORDINAL or c.text(at) in ORDINAL_WORDS
        from_hook = nth and c.text(at + 1) in ("ch", "chain") and c.text(at + 2) == "from"
        if from_hook and (begun := starting_here(c)) is not None:
            # "working in the 2nd ch from hook, sc in each ch across"
            return begun
    found = edge_here(c)
    if found is not None:
        return found
    start = c.i
    words = [c.text(n) for n in range(1, 8)]
    if words[:1] in (["in"], ["behind"], ["over"]) and words[1] not in _PLACED and words[2] not in _PLACED:
        for k in range(len(words)):
            if c.kind(k + 1) in (T.PERIOD, T.OPEN):
                # "work in a spiral. (40 sc)": what comes behind is another sentence, or a count
                break
            stitch = stitch_here(c, k + 2) if k > 2 and c.value(k + 1) is not None else None
            pointed = k > 2 and stitch is None and words[k - 1] in _POINTED_AT
            placed = stitch_here(c, k + 1) if pointed else None
            if stitch is not None or placed is not None and c.text(k + 1 + placed.tokens) in _INTO:
                # "working in front of these 1 rdtrf round …": the aside ends where stitches begin
                c.i += k + 1
                return [Say("remark", "", c.span_from(start))]
    if (
        c.text() in ("working", "work")
        and words[0] == "behind"
        or words[:2] == ["in", "front"]
        or words[:1] == ["in"]
        and {"spiral", "spirals", "continuous"} & set(words[:4])
        or c.text() == "working"
        and words[0] in ("over", "around", "loosely", "from", "left", "right", "in")
        and {"continuous", "spiral", "left", "front", "carried"} & set(words)
    ):
        return to_comma(c, start, "remark")
    if (
        c.text() == "working"
        and words[:1] in (["over"], ["behind"], ["in"], ["around"])
        and ("made" in words or "front" in words or "behind" in words or "skipped" in words)
    ):
        return to_comma(c, start, "remark")
    if c.text() == "working" and _along_the_chains(c):
        return to_comma(c, start, "remark")
    if c.text() in ("work", "continue", "cont") and words[:1] == ["even"]:
        c.i += 2
        if (
            c.text() in ("in", "with")
            and (stitch := stitch_here(c, 1)) is not None
            and stitch.special is None
        ):
            c.i += 1 + stitch.tokens
            span = c.span_from(start)
            return [Work(stitch.name, 1, Where(Which.EACH, span, 0, (Kind("st"),)), span)]
        while c.kind() is T.WORD and c.text() not in ("turn", "join"):
            c.i += 1
        span = c.span_from(start)
        return [Work("even", 1, Where(Which.EACH, span, 0, (Kind("st"),)), span)]
    if (
        c.text(1) == "each"
        and (stitch := stitch_here(c, 2)) is not None
        and _colours_kept(c, 2 + stitch.tokens)
    ):
        # "work each sc in the color it was worked in below"
        while c.kind() in (T.WORD, T.NUMBER, T.HYPHEN):
            c.i += 1
        span = c.span_from(start)
        return [Work(stitch.name, 1, Where(Which.EACH, span, 0, (Kind("st"),), stop=Stop()), span)]
    if c.text() in ("work", "make", "place", "put") and c.kind(1) in (T.WORD, T.NUMBER):
        i = c.i
        c.i += 1
        if (gathered := _gathered(c, start)) is not None:
            return gathered
        found_work = work_here(c) or chain_here(c)
        if found_work is not None:
            return found_work
        c.i = i
    return None


def _colours_kept(c: Cursor, ahead: int) -> bool:
    """True for "in the color it was worked in", "in its own colour": what is said of colours, and no place."""
    words = [c.text(ahead + n) for n in range(5)]
    return words[0] in ("in", "with") and bool({"color", "colour", "colors", "colours", "shade"} & set(words))


def _along_the_chains(c: Cursor) -> bool:
    """True for "working in chs:", "working back along the chain,": where a first row goes in any case."""
    n, chains = 1, False
    while c.kind(n) is T.WORD and c.text(n) in _ON_CHAINS | _CHAIN_WORDS:
        chains = chains or c.text(n) in _CHAIN_WORDS
        n += 1
    return chains and c.kind(n) in (T.COLON, T.COMMA, T.SEMICOLON)


_RUNS = ("next", "following", "foll", "first", "last")


def _gathered(c: Cursor, start: int) -> list[Item] | None:
    """ "Work next 2 sc together", "work the last 2 sts tog in sc": so many of the row below become one stitch."""
    i = c.i
    where = bare_place(c) if c.text(c.text() == "the") in _RUNS else None
    if where and where[0].many > 1 and c.take_any("tog", "together"):
        named = where[0].kinds[0].name if where[0].kinds else "st"
        plain = named if base_of(named) == named else c.context.base
        told = stitch_here(c, 1) if c.text() in ("in", "as", "with") else None
        if told is not None and base_of(told.name) == told.name:
            # "work next 2 sts together in sc"
            plain = told.name
            c.i += 1 + told.tokens
        name, span = f"{plain}{where[0].many}tog", c.span_from(start)
        c.i += c.kind() is T.COMMA and c.value(1) is not None and c.text(2) == "times"
        if (often := c.times_here()) is not None:
            # "work 2 stitches together 6 times"
            c.i += often[1]
            return [Work(name, often[0], Where(Which.STRAIGHT, span), c.span_from(start))]
        if c.text() in ("around", "across") and (stop := stop_here(c)) is not None:
            once = Work(name, 1, Where(Which.STRAIGHT, span), span)
            return [Repeat((once,), c.span_from(start), None, stop=stop)]
        return [Work(name, 1, replace(where[0], many=1), span)]
    c.i = i
    return None


def pick_up_here(c: Cursor) -> list[Item] | None:
    """ "Pick up and sc 64 sts along the edge": stitches whose places are not counted."""
    start = c.i
    stitch = stitch_here(c, 3) if c.text(1) == "up" and c.text(2) == "and" else None
    many = c.value(3 + stitch.tokens) if stitch is not None else None
    if stitch is None or many is None or stitch.special is not None:
        return None
    c.i += 4 + stitch.tokens
    while c.kind() in (T.WORD, T.NUMBER, T.HYPHEN) and c.text() not in ("join", "turn", *SLIPS):
        c.i += 1
    span = c.span_from(start)
    return [Work(stitch.name, many, Where(Which.EVENLY, span), span)]


def continue_here(c: Cursor) -> list[Item] | None:
    """ "cont in sc to end", "continue even in sc": a stitch goes on."""
    start = c.i
    c.i += 1
    if c.text() == "on" and c.text(1) in ("these", "those", "this"):
        # "Cont on these 10 dc."
        while c.kind() not in (T.PERIOD, T.COMMA, T.SEMICOLON, T.END, T.COLON):
            c.i += 1
        return [Leave(None, c.span_from(start))]
    if (where := where_here(c)) is not None and where[0].which is Which.FIRST and c.kind() in _OVER:
        # "sk the other 15 sts and continue in the first st of this round": so it does in any case
        return [Say("remark", "", c.span_from(start))]
    c.i = start + 1
    c.take_any("to") and c.take_any("work", "crochet")
    c.take_any("even", "straight", "evenly")
    c.take_any("in", "with", "working")
    stitch = stitch_here(c)
    if stitch is None or stitch.special is not None:
        c.i = start
        return None
    found = work_here(c)
    if found is None:
        c.i = start
    return found
