"""Stitches told for the row as a whole: "inc 6 sts evenly spaced", "24 sc evenly along row ends"."""

from tracker.notation.phrase.cursor import SLIPS, STOPS, Cursor, inner
from tracker.notation.phrase.places.nouns import POSTS
from tracker.notation.phrase.places.stops import stop_here
from tracker.notation.phrase.stitches import Stitch, stitch_here
from tracker.notation.phrase.told.counts import count_list
from tracker.notation.scan import T
from tracker.notation.tree import ANY, Ending, Item, Kind, Repeat, Skip, Stop, Where, Which, Work
from tracker.trade.numbers import ORDINAL_WORDS
from tracker.trade.stitches import parts_of

_SPREAD = tuple("spaced across around row rnd round along over the in this spread".split())
"""What may stand behind "evenly"."""


_EDGES = frozenset("side edge ends sides foundation bottom brim cuff ribbing hem opening band".split())
"""Words of an edge along which stitches are worked whose places are not counted."""


def evenly_follows(c: Cursor) -> bool:
    """True when the words ahead speak of an edge, or of even spacing."""
    words: list[str] = []
    if c.text(1) in POSTS and c.text(2) == "of":
        return False
    for n in range(9):
        if c.kind(n) is not T.WORD:
            break
        words.append(c.text(n))
    return "evenly" in words or bool(_EDGES & set(words))


def along_an_edge(c: Cursor) -> bool:
    """True behind "sc evenly" when an edge is named and nothing says how many each row end takes."""
    if c.text() not in ("along", "across", "up", "down", "over", "on", "around"):
        return False
    words = [c.text(n) for n in range(18)]
    return evenly_follows(c) and not ({"row", "rows"} & set(words) and {"end", "ends"} & set(words))


def spread_here(c: Cursor, start: int, stitch: Stitch, number: int | None) -> list[Item] | None:
    """ "inc 6 sts evenly spaced", "dec 1 st at each end", "inc 1 at end of row": a change to the row as a whole."""
    change, _, told = stitch.name.partition(":")  # "inc 1 sc" is told with its stitch
    if change not in ("inc", "dec"):
        return _at_each_end(c, start, stitch, number)
    if told and (number is not None or c.text() not in ("at", "on", "each", "both")):
        return None
    i = c.i
    if number is None and (to := spread_to(c, start, change)) is not None:
        return [to]
    amount = c.value()
    if amount is not None:
        c.i += 1
    amount = amount or number
    plain = stitch_here(c)
    if plain is not None and plain.special is None:
        c.i += plain.tokens
    c.take_any("st", "sts", "stitch", "stitches", "times")
    if amount is not None and c.take("evenly"):
        while c.take_any(*_SPREAD):
            pass
        span = c.span_from(start)
        return [Work(change + " evenly", amount, Where(Which.EVENLY, span), span)]
    c.take_any("at", "on")
    if c.take_any("each", "both") and c.take_any("end", "ends", "side", "sides", "edge"):
        while c.take_any("of", "the", "row", "this", "next"):
            pass
        if c.text() in ("every", "each") and c.text(1) in ("row", "rnd", "round") and c.text(-1) == "of":
            # of every row of a range
            c.i += 2
        if c.kind() in (T.ORDINAL, T.NUMBER) or c.text() in _WHICH_ROWS:
            # "at each end of 3rd and every foll 3rd row": not of this row
            c.i = i
            return None
        span = c.span_from(start)
        return [Work(change + " ends", amount or 1, Where(Which.EVENLY, span), span)]
    c.take("the")
    end = c.take_any("beginning", "beg", "start", "end")
    if end and c.take("of"):
        c.take_any("the", "this", "next", "each", "every")
        if c.take_any("row", "rnd"):
            how = " last" if end == "end" else " first"
            span = c.span_from(start)
            return [Work(change + how, amount or 1, Where(Which.EVENLY, span), span)]
    c.i = i
    return None


_WHICH_ROWS = frozenset("every each alt alternate other foll following until till rs ws and".split())
"""Behind "at each end of": words that tell which rows are shaped."""


def _at_each_end(c: Cursor, start: int, stitch: Stitch, number: int | None) -> list[Item] | None:
    """ "Sc2tog at each end", "2 sc at both ends": shaping of the row as a whole, told by its stitch."""
    i = c.i
    gathers = parts_of(stitch.name)[2]
    told = number is None and gathers > 1 or number is not None and 1 < number < 4 and gathers == 1
    if (
        told
        and stitch.special is None
        and c.take("at")
        and c.take_any("each", "both", "either")
        and c.take_any("end", "ends", "edge", "edges", "side", "sides")
    ):
        if c.take("of"):
            c.take_any("the", "this")
            c.take_any("row", "rows")
        how, by = ("dec", gathers - 1) if gathers > 1 else ("inc", (number or 2) - 1)
        span = c.span_from(start)
        return [Work(f"{how} ends", by, Where(Which.EVENLY, span), span)]
    c.i = i
    return None


def spread_to(c: Cursor, start: int, how: str) -> Work | None:
    """ "Dec evenly to 36 sts", "inc to 48 sts evenly across": the change is told by what it comes to, not by how many.

    Such a Work has a count of 0, and its place is as wide as the row becomes.
    """
    i = c.i
    evenly = bool(c.take("evenly"))
    while c.take_any(*_SPREAD):
        pass
    if c.take("to") and (many := c.value()) is not None and many > 1:
        c.i += 1
        told = c.take_any("st", "sts", "stitch", "stitches") or _plain_here(c)
        while c.take_any("evenly", *_SPREAD):
            evenly = evenly or c.text(-1) == "evenly"
        if c.kind() in STOPS or (evenly or told) and c.kind() in (T.OPEN, T.DASH, T.EQUALS):
            span = c.span_from(start)
            return Work(f"{how} evenly", 0, Where(Which.EVENLY, span, many), span)
    c.i = i
    return None


def _plain_here(c: Cursor) -> str:
    """Takes the name of a plain stitch; "" where none stands here."""
    stitch = stitch_here(c)
    if stitch is None or stitch.special is not None:
        return ""
    c.i += stitch.tokens
    return stitch.name


def every_so_many(c: Cursor, start: int, name: str, each: int) -> list[Item] | None:
    """ "Inc every 3rd st", "dec every 4th and 5th st": plain stitches between, all the way round.

    A plain stitch in every other one has nothing between: the others are passed over.
    """
    i = c.i
    post, plain, gathers = parts_of(name)
    c.take_any("in", "into", "over")
    shapes = (each > 1 or gathers > 1) and not post
    if post or not c.take_any("every", "each"):
        c.i = i
        return None
    step = _ordinal(c)
    if step is None:
        c.i = i
        return None
    two = bool(c.take("and") or c.take("&"))
    if two:
        second = _ordinal(c)
        if second != step + 1:
            c.i = i
            return None
        step = second
    noun = c.take_any("st", "stitch", "sts", "stitches", "sc", "hdc", "dc", "tr")
    if two and gathers == 1 and each == 1 and c.take_any("together", "tog"):
        # "sc every 5th and 6th st together"
        name, gathers, shapes = f"{plain}2tog", 2, True
    elif two and gathers == 2:
        c.take_any("together", "tog")
    alone = c.kind() in STOPS or c.kind() is T.OPEN
    if not (noun or alone) or step <= gathers or two and gathers == 1:
        c.i = i
        return None
    stop_here(c)
    span = c.span_from(start)
    between = step - gathers
    if not shapes:
        passed = Skip(Where(Which.NEXT, span, step - 1, (Kind(ANY),)), span)
        into = Work(name, each, Where(Which.NEXT, span, 1, (Kind(ANY),)), span)
        return [Repeat((into, passed), span, None, stop=Stop(), ending=Ending("omit", (passed,), None, span))]
    shaping = Work(name, each, Where(Which.NEXT if each > 1 else Which.STRAIGHT, span), span)
    run = Work(plain, between, Where(Which.STRAIGHT, span), span)
    rest = Work(plain, 1, Where(Which.EACH, span, 0, (Kind(ANY),)), span)
    return [Repeat((run, shaping), span, None, stop=Stop()), rest]


def doubled(c: Cursor) -> list[Item] | None:
    """ "Double every 3rd st", "double each st", "crochet every 5th and 6th st together", as translators have it."""
    start = c.i
    verb = c.text()
    if c.text(1) not in ("every", "each"):
        return None
    c.i += 1
    each = 2 if verb == "double" else 1
    regular = every_so_many(c, start, c.context.base, each)
    if regular is not None:
        return regular if verb == "double" or len(regular) == 2 else None
    if verb == "double" and c.text(1) in ("st", "stitch"):
        c.i += 2
        stop = stop_here(c)
        span = c.span_from(start)
        return [Work(c.context.base, 2, Where(Which.EACH, span, 0, (Kind(ANY),), stop=stop or Stop()), span)]
    c.i = start
    return None


def _ordinal(c: Cursor) -> int | None:
    """ "3rd", "third", "other": how many stitches one is chosen from, taken."""
    if c.kind() is T.ORDINAL:
        c.i += 1
        return c.token(-1).value
    if c.take_any("other", "second", "alternate", "alt"):
        return 2
    if (value := ORDINAL_WORDS.get(c.text())) is not None:
        c.i += 1
        return value
    return None


def evenly_here(c: Cursor, start: int, name: str, number: int) -> Work:
    """ "24 sc evenly along row ends": everything up to the comma tells where; 0 for as many as it takes."""
    while c.kind() in (T.WORD, T.NUMBER, T.ORDINAL, T.HYPHEN) and c.text() not in ("join", "turn", *SLIPS):
        if c.text() == "and" and (c.value(1) is not None or stitch_here(c, 1) is not None):
            break
        if c.text(1) == "a" and c.text(2) == "total":
            break
        c.i += 1
    if c.kind() is T.OPEN and (close := c.partners.get(c.i)) and not _counts(c, close):
        c.i = close + 1
    span = c.span_from(start)
    return Work(name, number, Where(Which.EVENLY, span), span)


def _counts(c: Cursor, close: int) -> bool:
    """True for a bracket that holds the count of what was worked, and not how many each place takes."""
    if any(token.text in _IN_PLACES for token in c.tokens[c.i + 1 : close]):
        return False
    return count_list(inner(c, c.i + 1, close), bare=False) is not None


_IN_PLACES = frozenset("per each every in into along for about approx approximately".split())
