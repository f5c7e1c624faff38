"""Turns and joins: "turn", "do not turn", "join B with sl st in any ch-2 sp"."""

from tracker.notation.phrase.cursor import SLIPS, STOPS, Cursor
from tracker.notation.phrase.deeds.edges import edge_here
from tracker.notation.phrase.pieces import piece_here
from tracker.notation.phrase.places.loops import LEFT_FREE
from tracker.notation.phrase.places.nouns import POSTS, PREPOSITIONS
from tracker.notation.phrase.places.where import where_here
from tracker.notation.phrase.row.remarked.bearing import bears
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.scan import T
from tracker.notation.tree import ANY, Edge, Item, Join, Kind, Say, Travel, Turn, Where, Which, Work


def turn_here(c: Cursor) -> list[Item] | None:
    """ "Turn", "turn 90 degrees"."""
    start = c.i
    if c.text() == "turning" and c.text(1) in ("chain", "ch"):
        return None
    if {"other", "opposite", "upside"} & {c.text(k) for k in range(1, 7)} and (
        other := edge_here(c)
    ) is not None:
        return other
    c.i += 1
    c.take_any("your", "the", "this")
    if c.take_any("corner", "corners") and c.kind() in STOPS:
        # "turn corner, work 8 sc down row ends": it is gone round
        return [Say("remark", "", c.span_from(start))]
    c.take("work") or c.take("piece")
    c.text() == "over" and c.kind(1) is not T.WORD and c.step()
    if c.value() is not None and c.text(1) == "degrees":
        c.i += 2
        return [Edge("side", c.span_from(start))]
    if c.kind() is T.OTHER or c.value() == 90:
        # as far as what is worked there: "turn 90° and work 9 sc down the side"
        while c.kind() in (T.NUMBER, T.OTHER, T.WORD) and c.text() not in ("and", "then", "to", "work", "&"):
            c.i += 1
        return [Edge("side", c.span_from(start))]
    if c.take("to"):
        c.take("work")
        while c.kind() is T.WORD and c.text() not in ("sc", "dc", "hdc", "ch", "tr"):
            c.i += 1
    return [Turn(c.span_from(start))]


def do_not_here(c: Cursor) -> list[Item] | None:
    """ "Do not turn", "do not join or turn", "without joining"."""
    start = c.i
    if not (c.take("do", "not") or c.take("don't") or c.take("dont") or c.take("without")):
        return None
    turned = joined = True
    fasten = False
    while c.kind() in (T.WORD, T.OTHER, T.NUMBER) or (c.kind() is T.COMMA and c.text(1) == "or"):
        if c.text() in ("turn", "turning"):
            turned = False
        if c.text() in ("join", "joining"):
            joined = False
        if c.text() in ("fasten", "break", "cut", "finish", "end"):
            fasten = True
        if c.text() == "ch" and c.text(-1) in _BEFORE_SPACE:
            # "do not make a tile in last ch-3 sp"
            c.i += 2 if c.kind(1) is T.HYPHEN else 1
        elif c.text() in ("place", "pm", "mark", "move", "continue", "work", "ch") and c.i > start + 1:
            break
        c.i += 1
    span = c.span_from(start)
    out: list[Item] = []
    if not turned:
        out.append(Turn(span, False))
    if not joined:
        out.append(Say("no join", "", span))
    if not out or fasten:
        told = start + (2 if c.tokens[start].text == "do" else 1)
        tiles = any(special.base == "tile" for special in c.context.specials.values())
        working = told < c.i and not tiles and c.tokens[told].text not in _NOT_DONE
        out.append(Say("remark", "", span, working and not fasten and bears(c.tokens[told : c.i])))
    return out


_NOT_DONE = frozenset(
    "turn turning join joining fasten break cut finish end skip miss forget worry pull stretch twist twisting count "
    "counting weave sew stuff block tie let press iron increase decrease increasing decreasing shaping any "
    "further drop carry leave be have need".split()
)
"""What is not to be done, and changes nothing where it is not."""
_BEFORE_SPACE = ("last", "first", "next", "final", "the", "same", "in", "into")
"""What stands before the name of a space."""
_BEHIND_YARN = ("with", "in", "to", "into", "at", "by", "between", "around", "on")
"""What ends the name of a yarn."""


def join_here(c: Cursor) -> list[Item] | None:
    """ "join", "join with sl st in first sc", "join B with sl st in any ch-2 sp", "join with sc in first st"."""
    start = c.i
    c.i += 1
    fresh = False
    c.take_any("rnd", "round")
    if c.text() in ("last", "final", "the") and c.text(1) in ("ch", "chain", "last", "sp", "loop"):
        # "joining last ch 3 to 3rd ch of ch 6"
        while c.kind() in (T.WORD, T.NUMBER, T.HYPHEN) and c.text() not in _BEHIND_YARN:
            c.i += 1
    # everything up to the stitch: the yarn
    if (
        c.text() not in ("with", "in", "to", "into", "by", "at", "as", "and", "")
        and c.kind() is T.WORD
        and c.text() not in (*SLIPS, "turn", "invisibly")
    ):
        # "join B …", "join new yarn …", "join yarn A …", "join new yarn (B) …"
        fresh = True
        while c.kind() in (T.WORD, T.NUMBER, T.HYPHEN) and c.text() not in _BEHIND_YARN:
            c.i += 1
        if c.text(-1) in ("st", "sts", "stitches"):
            # "joining the last 2 sts" is no yarn
            c.i = start
            return None
        if c.kind() is T.OPEN and c.partners.get(c.i, 0) - c.i in (2, 3) and stitch_here(c, 1) is None:
            c.i = c.partners[c.i] + 1
    if c.take("in") and c.text() in ("new", "yarn", "b", "c", "cc", "mc", "color", "colour"):
        fresh = True
        while c.kind() in (T.WORD, T.NUMBER) and c.text() not in _BEHIND_YARN:
            c.i += 1
    elif c.text(-1) == "in":
        c.i -= 1
    stitch = "slst"
    worked = False
    piece = c.text() == "to" and piece_here(c) or 0
    c.i += piece
    if c.text() == "by" and c.text(1) in ("pulling", "drawing"):
        # "join B by pulling up a loop in any sc"
        while c.kind() is T.WORD and c.text() not in ("in", "into", "to", "at", "from"):
            c.i += 1
    elif c.take("with") or c.take("by"):
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
            c.take("standing")
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
    closing = c.text() in ("to", "in", "into") and c.text(1) in ("join", "form", "a", "close", "make")
    posts = c.text() != "around" or bool({*POSTS, "any", "skipped"} & {c.text(1), c.text(2)})
    if fresh and (length := _other_side(c)):
        c.i += length
        span = c.span_from(start)
        return [Edge("base", span), Travel((), span, fresh=True)]
    if c.text() in PREPOSITIONS and posts and not closing:
        where = where_here(c)
        if where is None and c.text() in ("in", "to", "into", "at"):
            j = c.i
            c.i += 1
            while c.kind() in (T.WORD, T.NUMBER, T.ORDINAL, T.HYPHEN) and c.text() != "with":
                c.i += 1
            if c.i == j + 1:
                c.i = j
    if fresh and where is not None and ("of" in (c.text(), c.text(-1))) and c.kind() is T.WORD:
        # "join in center st of one short end with sl st"
        while c.kind() is T.WORD and c.text() != "with":
            c.i += 1
    if (where is not None or fresh) and not worked and (tall := _stitch_behind(c)):
        # "join B in corner with standing dc"
        stitch, worked, fresh = tall, True, True
    ring = False
    if c.text() in ("to", "into", "in", "forming", "and") and any(
        c.text(k) in ("ring", "circle", "tube", "loop") for k in range(1, 6)
    ):
        while c.kind() is T.WORD:
            c.i += 1
        ring = True
    elif c.text() == "to" and c.text(1) in _PURPOSES and c.value(2) is None:
        # "join with sl st in top of ch-3 to work in rounds"
        while c.kind() is T.WORD:
            c.i += 1
    elif c.text() == "to" and not (c.text(1) in ("make", "give", "total") and c.value(2) is not None):
        c.i += 1
        c.take("join")
    c.take("around")
    span = c.span_from(start)
    if ring:
        return [Join(Where(Which.RING, span), span, "slst")]
    if c.tokens[start].text == "join" and where and any(t.text == "any" for t in c.tokens[start : c.i]):
        fresh = True
    if piece and worked and where is None:
        # "ch 3 and join to the first leg with a sc": the first stitch along that leg
        leg = Where(Which.NEXT, span, kinds=(Kind(ANY),))
        return [Work(stitch, 1, leg, span), Say("piece", "", span)]
    if fresh:
        first: list[Item] = [Travel(where or (), span, fresh=True)]
        if worked:
            first.append(Work(stitch, 1, Where(Which.SAME, span), span))
        return first
    return [Join(where[0] if where else None, span, stitch)]


_PURPOSES = frozenset("work begin start continue cont make close complete finish end".split())
"""What a join may be good for, which is no part of it."""


def _other_side(c: Cursor) -> int:
    """How many words tell "to opposite side of starting ch", "in free loops of foundation ch"; 0 for another place."""
    n = 0
    if c.text() not in ("to", "in", "into", "along", "at", "on"):
        return 0
    while c.kind(n) in (T.WORD, T.HYPHEN) and n < 12:
        n += 1
    words = {c.text(k) for k in range(n)}
    away = {"opposite", "other", "bottom", *LEFT_FREE} & words
    return (
        n if away and {"ch", "chs", "chain", "foundation"} & words and not {"next", "skipped"} & words else 0
    )


def _stitch_behind(c: Cursor) -> str:
    """Takes "with a standing dc" behind the place of a join: the stitch; "" where none is told, or a slip stitch."""
    i = c.i
    if c.take("with"):
        c.take_any("a", "an")
        c.take_any("standing", "chainless", "starting")
        found = stitch_here(c)
        if found is not None and found.special is None:
            c.i += found.tokens
            return "" if found.name == "slst" else found.name
    c.i = i
    return ""


def attach_here(c: Cursor) -> list[Item] | None:
    """ "Attach B in any ch-2 sp", "rejoin yarn to next unworked st": a fresh start, where a place is named."""
    start = c.i
    found = join_here(c)
    if found and isinstance(found[0], Join) and found[0].where is not None:
        where = found[0].where
        found = [Travel((where,), found[0].span, fresh=True)] if where.which is not Which.RING else None
    elif not found or not (isinstance(found[0], Travel) and found[0].where):
        found = None
    if found is None:
        c.i = start
    return found


def begun_anew(c: Cursor) -> list[Item] | None:
    """ "Tie B in any ch-2 sp", "start C in any corner", "start in first dc of any group": the yarn is joined there."""
    at = next((n for n in range(2, 9) if c.text(n) == "any"), 0)
    within = c.text(at - 1) == "of" and c.text(1) in ("in", "at", "with")
    if (
        not at
        or not within
        and (at > 5 or c.text(at - 1) not in ("in", "to", "into", "at", "between"))
        or stitch_here(c, 1)
        or c.value(1) is not None
    ):
        return None
    return attach_here(c)


def loop_drawn(c: Cursor) -> list[Item] | None:
    """ "Draw up a loop of B in any ch-2 sp", "insert hook in any sc and pull up a loop": where a round begins."""
    start = c.i
    if any(token.kind is not T.COMMA and token.text not in _WITH_YARN for token in c.tokens[:start]):
        yarn = start and c.tokens[0].text in ("with", "using") and start < 6
        if not yarn:
            return None
    where: tuple[Where, ...] | None = None
    if c.take("insert"):
        c.take_any("your", "the")
        if not (c.take("hook") and (where := where_here(c)) is not None and c.take("and")):
            c.i = start
            return None
    drawn = c.take_any("draw", "pull", "drawing", "pulling") and c.take_any("up", "through")
    if not (drawn and c.take_any("a", "the") and c.take_any("loop", "lp")):
        c.i = start
        return None
    if c.take_any("of", "with"):
        while c.kind() is T.WORD and c.text() not in _BEHIND_YARN:
            c.i += 1
    where = where or where_here(c)
    if where is None:
        c.i = start
        return None
    return [Travel(where, c.span_from(start), fresh=True)]


_WITH_YARN = ("next", "then", "now", "and")


def new_yarn_here(c: Cursor) -> list[Item] | None:
    """ "New color in any ch-1 sp.", "Colour B in any dc:": yarn is joined there."""
    start = c.i
    new = c.take_any("new", "next", "fresh")
    if not c.take_any("color", "colour", "yarn", "shade"):
        c.i = start
        return None
    if not new and len(c.text()) < 3:
        c.i += 1
    if c.text() in ("in", "into", "to") and any(c.text(k) == "any" for k in (1, 2, 3)):
        where = where_here(c)
        if where is not None:
            return [Travel(where, c.span_from(start), fresh=True)]
    c.i = start
    return None


def slipped_to_join(c: Cursor, found: list[Item], start: int) -> list[Item]:
    """ "Sl st in first sc to join", "slip stitch to the first sc to close": a join, in a round or in a border."""
    only = found[0]
    if (
        len(found) == 1
        and isinstance(only, Work)
        and only.stitch == "slst"
        and only.count == only.where.many == 1
        and only.where.which in (Which.FIRST, Which.TOP)
        and c.text() == "to"
        and c.text(1) in ("join", "close")
        and c.kind(2) is not T.WORD
    ):
        c.i += 2
        return [Join(only.where, c.span_from(start))]
    return found


def close_here(c: Cursor) -> list[Item] | None:
    """ "Close rnd with a sl st", "close with sl st in top of ch-3"."""
    start = c.i
    if c.text(1) in ("rnd", "round", "with"):
        c.i += 2
        c.take("with")
        c.take("a")
        stitch = stitch_here(c)
        if stitch is not None and stitch.name == "slst":
            c.i += stitch.tokens
            where = where_here(c)
            if where is not None:
                return [Join(where[0], c.span_from(start))]
        while c.kind() is T.WORD:
            c.i += 1
        return [Join(None, c.span_from(start))]
    return None
