"""What is told and changes no stitch: colours, markers, fastening off, stitches left unworked."""

from tracker.notation.phrase.cursor import SLIPS, Cursor
from tracker.notation.phrase.places.bare import bare_place
from tracker.notation.phrase.places.nouns import CHAINING
from tracker.notation.phrase.row.remarked.bearing import alters, bears
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.scan import T
from tracker.notation.tree import Item, Leave, Say, Skip, Which


def leave_here(c: Cursor) -> list[Item] | None:
    """ "Leave remaining sts unworked", "leave a long tail"."""
    start = c.i
    c.i += 1
    if (
        c.text() in ("a", "about", "long", "tail", "an", "enough", "yarn", "end")
        or c.value() is not None
        and c.text(1) in ("cm", "in", "inch", "inches", '"')
    ):
        to_comma(c, start, "remark")
        gap = not _OPEN.isdisjoint(token.text for token in c.tokens[start : c.i])
        return [Say("remark", "", c.span_from(start), gap)]
    if not (
        c.text()
        in ("the", "rem", "remaining", "last", "rest", "next", "all", "other", "remainder", "these", "those")
        or c.value() is not None
    ):
        c.i = start
        return None
    c.take_any("the", "these", "those")
    c.take_any("rest", "other")
    where = bare_place(c)
    placed = c.i
    while c.kind() in (T.WORD, T.NUMBER) and c.text() not in ("turn", "join"):
        if c.text() in ("and", "then") and _stitch_follows(c):
            break
        c.i += 1
    if _BY_TURNS & {token.text for token in c.tokens[placed : c.i]}:
        # "leaving 2 sts free at each end"
        c.i = start
        return None
    if where is not None and where[0].which in (Which.NEXT, Which.FIRST) and _stitch_follows(c):
        # "ch 1, leave next st unworked, dc in next st": passed over
        return [Skip(at, c.span_from(start)) for at in where]
    return [Leave(where[0] if where else None, c.span_from(start))]


_OPEN = frozenset("gap gaps hole holes slit slits opening openings buttonhole buttonholes spare".split())
"""What is made of stitches that are passed over, where nobody tells how many."""
_BY_TURNS = frozenset("each every both either other alternate alternating opposite".split())
"""What makes more of stitches left than so many at the end of a row."""


def _stitch_follows(c: Cursor) -> bool:
    """True where stitches are worked on in this row behind what is told here, and behind a bracket about it."""
    start = c.i
    if c.kind() is T.OPEN and c.i in c.partners:
        c.i = c.partners[c.i] + 1
    c.i += c.kind() is T.STAR
    follows = _worked_on(c)
    c.i = start
    return follows


def _worked_on(c: Cursor) -> bool:
    if c.kind() is T.CLOSE:
        behind = c.tokens[c.i + 1] if c.i + 1 < len(c.tokens) - 1 else None
        return behind is not None and (
            behind.kind in (T.NUMBER, T.TIMES) or behind.text in ("x", "across", "around", "twice")
        )
    ahead = 1
    while c.kind(ahead - 1) in (T.COMMA, T.SEMICOLON) or c.text(ahead - 1) in ("and", "then"):
        if c.text(ahead) in ("rep", "repeat"):
            return True
        if c.text(ahead) in ("and", "then"):
            ahead += 1
            continue
        if c.text(ahead) in ("in", "into") and c.text(ahead + 1) in ("next", "the", "each", "following"):
            return True
        if c.text(ahead) in ("work", "make", "place", "put") or c.kind(ahead) in (T.OPEN, T.STAR):
            ahead += 1
        made = ahead + (c.value(ahead) is not None)
        if c.text(made) in CHAINING or c.text(ahead) in CHAINING:
            # "ch 2, dc in next st": the chain may lead on
            ahead = made + 2 if c.text(ahead) in CHAINING else made + 1
            ahead += 1
            continue
        stitch = stitch_here(c, made)
        return stitch is not None and stitch.name != "slst"
    return False


def left_here(c: Cursor) -> list[Item] | None:
    """ "Rem 4 sts left unworked", "last 4 sts are not worked"."""
    start = c.i
    words: list[str] = []
    while c.kind(len(words)) in (T.WORD, T.NUMBER) and len(words) < 9:
        words.append(c.text(len(words)))
    if words[-1:] not in (["unworked"], ["worked"]) or words[-1] == "worked" and "not" not in words:
        return None
    where = bare_place(c)
    if where is None or not c.take_any("left", "are", "remain", "is", "stay", "unworked", "to"):
        c.i = start
        return None
    c.i = start + len(words)
    return [Leave(where[0], c.span_from(start))]


def _amended(c: Cursor, start: int) -> bool:
    """True for "with an extra st", "with a gap": no colour."""
    return alters(c.tokens[start : c.i]) or not _OPEN.isdisjoint(
        token.text for token in c.tokens[start : c.i]
    )


def to_comma(c: Cursor, start: int, kind: str) -> list[Item]:
    """Everything up to the comma, as something told."""
    while c.kind() not in (T.COMMA, T.SEMICOLON, T.PERIOD, T.END, T.CLOSE, T.STAR, T.COLON):
        if c.kind() is T.OPEN and c.i in c.partners:
            if kind == "colour" and c.i > start:
                break
            c.i = c.partners[c.i]
        named = c.text(-2) == "to" or c.text(-1) in c.context.colours
        if kind == "colour" and c.kind() is T.NUMBER and named and _counts_stitches(c):
            break  # "change to white 4 sc"
        c.i += 1
    dropped = c.tokens[start].text == "drop" and bears(c.tokens[start + 1 : c.i])
    return [Say(kind, "", c.span_from(start), dropped or alters(c.tokens[start + 1 : c.i]))]


def to_period(c: Cursor, start: int, kind: str) -> list[Item]:
    """Everything up to the end of the sentence, as something told."""
    while c.kind() not in (T.PERIOD, T.END):
        if c.kind() is T.OPEN and c.i in c.partners:
            c.i = c.partners[c.i]
        c.i += 1
    return [Say(kind, "", c.span_from(start))]


def fasten_here(c: Cursor) -> list[Item] | None:
    """ "Fasten off", "FO and weave in ends", "cut yarn"."""
    start = c.i
    word = c.text()
    if word == "fo" or c.text(1) == "off" or (word in ("cut", "break") and c.kind(1) is T.WORD):
        c.i += 1
        while c.kind() not in (T.COMMA, T.SEMICOLON, T.PERIOD, T.END, T.CLOSE, T.OPEN, T.DASH):
            if c.text() in ("and", "then") and c.text(1) in _JOINS:
                # "cut pink and join white in any ch-2 space"
                break
            c.i += 1
        if c.kind() in (T.COMMA, T.SEMICOLON) and not _works_on(c):
            while c.kind() not in (T.PERIOD, T.END, T.CLOSE, T.OPEN):
                c.i += 1
        return [Say("fasten off", "", c.span_from(start))]
    return None


_JOINS = ("join", "rejoin", "attach")


def _works_on(c: Cursor) -> bool:
    """True when the rest of a sentence that fastens off begins the next work: "fasten off, join B in any sp"."""
    k = 0
    while c.kind(k) not in (T.PERIOD, T.END, T.CLOSE):
        if c.text(k) in (*_JOINS, "with", "ch", "turn", "rep", "repeat"):
            return True
        k += 1
    return False


def colour_here(c: Cursor) -> list[Item] | None:
    """ "With B", "with RS facing", "change to MC in last st", "drop A"."""
    start = c.i
    word = c.text()
    if word in ("with", "using"):
        if c.text(1) in ("last", "the") and c.text(2) == "last":
            return None
        if stitch_here(c, 1) is not None and c.text(1) not in ("a", "b", "c", "p"):
            return None
        if c.text(1) in ("a", "an") and "a" not in c.context.colours and stitch_here(c, 2) is not None:
            return None  # "with a bobble in the middle st"
        if c.value(1) is not None and (c.text(2) in ("in", "into") or c.text(2).startswith(("inc", "dec"))):
            return None  # "with 2 in the last", "with 6 incs"
        c.i += 1
        while (
            c.kind() in (T.WORD, T.NUMBER, T.HYPHEN, T.ORDINAL)
            or c.kind() in (T.PERIOD, T.OTHER)
            and c.kind(1) in (T.NUMBER, T.WORD)
            and c.token(1).start == c.token().end
        ):
            if c.i > start + 1 and (
                c.text() in ("ch", "chain", "work", "join", "make", "sk", *SLIPS, "rep", "repeat")
                or (c.text() != "a" and stitch_here(c) is not None)
            ):
                break
            if c.kind() is T.NUMBER and c.i > start + 1 and (c.text(1) in CHAINING or _counts_stitches(c)):
                break
            if c.text(-1) == "facing" and (
                c.text() == "working" or c.text() == "and" and c.text(1) == "working"
            ):
                # "with RS facing and working in free loops of foundation ch, …": where it goes is told behind it
                break
            c.i += 1
        told = {c.text(at - c.i) for at in range(start, c.i)}
        facing = "facing" in told and bool(told & {"rs", "ws", "side", "sides"})
        return [Say("side" if facing else "colour", "", c.span_from(start), _amended(c, start))]
    if word in ("color", "colour", "yarn", "shade") and c.text(1) in c.context.colours:
        # "Row 2: Color B. 1 sc, …"
        c.i += 2
        return [Say("colour", "", c.span_from(start))]
    if word in ("change", "changing", "switch", "drop", "carry", "carrying", "pick", "attach", "rejoin"):
        if word == "pick" and c.text(1) == "up" and (c.text(2) == "and" or c.value(2) is not None):
            return None
        if word in ("change", "changing", "switch") and c.text(1) == "to" and stitch_here(c, 2) is not None:
            return None  # "changing to dc half way" is no colour
        c.i += 1
        return to_comma(c, start, "colour")
    return None


def _counts_stitches(c: Cursor) -> bool:
    """True for the number of "with grey 10 sc": of stitches, and none that the yarn or the hook goes by."""
    return c.text(-1) not in _NUMBERED_THINGS and stitch_here(c, 1) is not None


_NUMBERED_THINGS = frozenset("color colour yarn shade size no number hook needle ball".split())


def marker_here(c: Cursor) -> list[Item] | None:
    """ "PM", "move marker up", "place marker in first st"."""
    start = c.i
    word = c.text()
    if word in ("pm", "sm", "mark", "marking", "move", "moving") or (
        word in ("place", "placing", "slip", "remove", "put", "use")
        and any("marker" in c.text(k) or c.text(k) in ("m", "markers") for k in range(1, 6))
    ):
        c.i += 1
        to_comma(c, start, "marker")
        while c.kind() is T.COMMA and c.kind(1) is T.ORDINAL:
            # "after the 6th, 14th and 26th st"
            c.i += 1
            to_comma(c, start, "marker")
        return [Say("marker", _where_marked(c, start), c.span_from(start))]
    return None


def _where_marked(c: Cursor, start: int) -> str:
    """Where a marker hangs: "here" between stitches, "in 4", "after 6 14", "in last" of what was worked, "in last tog"
    or "in last sp" of that kind; or "".
    """
    tokens = c.tokens[start : c.i]
    words = [token.text for token in tokens]
    if words[0] in ("remove", "mark", "marking", "use") or {"row", "rnd", "round", "side", "join"} & set(
        words
    ):
        return ""
    told = [str(token.value) for token in tokens if token.kind is T.ORDINAL]
    if told:
        return " ".join([("after" if "after" in words else "in"), *told])
    if {"in", "into", "on", "to", "around", "at", "up", "each", "between"} & set(words):
        moved = words[0] in ("move", "moving") or {"this", "just", "made", "same"} & set(words)
        if moved and any(word.endswith("tog") or word in ("dec", "decrease") for word in words):
            return "in last tog"  # "move marker up to the new sc3tog", whatever was worked behind it
        if moved and {"sp", "space"} & set(words):
            return "in last sp"
        return "in last" if moved else ""
    return "here" if words[0] in ("pm", "sm", "slip", "place", "placing", "put") else ""


_MOTIFS = frozenset(
    "motif motifs square squares hexagon hexagons hex medallion medallions snowflake flower block circle "
    "triangle octagon half piece panel medallion".split()
)
_OTHERS = frozenset(
    "previous prev adjacent adjoining neighboring neighbouring first second other another completed last next one "
    "joined finished earlier".split()
)


def to_other_motif(c: Cursor) -> list[Item] | None:
    """ "Sl st in corresponding sp of previous motif": it ties two pieces together and makes nothing of this one."""
    start = c.i
    n = 1
    named = other = False
    while c.kind(n) in (T.WORD, T.NUMBER, T.HYPHEN, T.ORDINAL) and n < 26:
        half = c.text(n) == "half" and stitch_here(c, n) is not None  # "in next half double crochet"
        named = named or c.text(n) in _MOTIFS and c.text(n - 1) in _OTHERS and not half
        other = other or c.text(n) in _OTHERS | {"corresponding"}
        n += 1
    to_part = not (named and other) and _other_part_named(c, n)
    if not (named and other or to_part):
        return None
    c.i += n
    return [Say("remark", "", c.span_from(start))]


def _other_part_named(c: Cursor, length: int) -> bool:
    """True where so many tokens name another part: "sl st in next 2 dc of Row 6 of Band", at its edge."""
    here = (c.context.part or "").lower()
    own = set(here.split())
    for k in range(2, length):
        if c.text(k - 1) not in ("of", "on", "along") and c.text(k - 2) not in ("of", "on", "along"):
            continue
        for part in c.context.parts:
            words = part.split("(")[0].lower().split()
            if words and not own & set(words) and [c.text(k + n) for n in range(len(words))] == words:
                return True
        led = "next" in [c.text(n) for n in range(1, 5)]
        if led and c.text(k) in _WORN and c.text(k) not in own:
            return True
        closed = c.kind(length) in (T.END, T.PERIOD, T.OPEN) or c.text(length + 1) == "turn"
        if led and closed and c.text(k) in _ROUNDS and (c.context.row or "").startswith("Row"):
            # "sl st in next 2 sc of Rnd 20" at the end of a row: the edge that the rows are worked onto
            return True
    return False


_ROUNDS = ("rnd", "round", "rd")


_WORN = frozenset(
    "hat cap beret beanie bonnet crown cowl mitten mitt glove sock slipper bootie bag basket blanket throw "
    "shawl yoke bodice sweater cardigan jumper pullover garment".split()
)
"""What an edge is worked onto sideways: "sl st in next 2 sts of hat", where no part goes by the name."""
