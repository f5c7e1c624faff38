"""Stitches a row tells in hook movements: "(insert hook in next st, draw up a lp) twice, yo, draw through all lps".

The cursor stands on the bracket; a decrease comes out, or None with the cursor where it was.
"""

from tracker.notation.definitions.movements import MOVES, legs
from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.places.where import where_here
from tracker.notation.phrase.stitches import base_of, stitch_here, together
from tracker.notation.phrase.works.work import work_here
from tracker.notation.scan import T
from tracker.notation.tree import IN_ONE, SPACE, Item, Where, Which, Work
from tracker.records import replace

_OVER = frozenset("yo yrh yoh yarn".split())
_NAMED = frozenset("decreased dec made worked tog decrease together".split())
"""What a bracket behind the movements says of the stitch they make."""


def moved_together(c: Cursor) -> list[Item] | None:
    """Stitches begun in so many places and closed into one; those in one and the same place are left to their names."""
    start, close = c.i, c.partners.get(c.i)
    if close is None:
        return None
    words = " ".join(token.text for token in c.tokens[start + 1 : close])
    if not MOVES.search(words):
        return None
    if (cluster := _in_one_place(c, start, close, words)) is not None:
        return [cluster]
    if "same" in words or "next" not in words:
        return None
    c.i = close + 1
    times = c.times_here()
    base = legs(words) or ("hdc" if words.split()[0] in _OVER else "")
    if times is None or not base or not 2 <= times[0] <= 9:
        c.i = start
        return None
    c.i += times[1]
    if not _closes(c):
        c.i = start
        return None
    base = _named_behind(c) or base
    span = c.span_from(start)
    return [Work(f"{base}{times[0]}tog", 1, Where(Which.STRAIGHT, span), span)]


def _in_one_place(c: Cursor, start: int, close: int, words: str) -> Work | None:
    """ "[yo, insert hook in same sp, draw up a lp, yo, draw through 2 lps] 3 times, yo, draw through all": a cluster.

    Loops drawn up and not worked off, "(yo, insert hook in next sp, pull up a loop) 3 times", make a puff.
    """
    first = next((k for k in range(start + 1, close) if c.tokens[k].text in ("in", "into")), None)
    base = legs(words) or ("puff" if words.split()[0] in _OVER else "")
    if first is None or base not in ("dc", "puff") or not {"insert", "hook", "hk"} & set(words.split()):
        return None
    c.i = first
    inside = where_here(c)
    c.i = close + 1
    times = c.times_here()
    if inside is None or len(inside) != 1 or times is None or not 2 <= times[0] <= 9:
        c.i = start
        return None
    c.i += times[1]
    there = c.i
    c.take("all")
    behind = where_here(c) if c.text() in ("in", "into") else None
    if behind is None:
        c.i = there
    same = behind is not None and behind[0].which is Which.SAME
    where = inside[0]
    one = where.which in (Which.SAME, Which.RING) or bool(where.kinds) and where.kinds[0].name == SPACE
    if behind is not None and not same or not (one or same) or not _closes(c):
        c.i = start
        return None
    span = c.span_from(start)
    if base == "puff":
        return Work("puff", 1, where, span)
    return _of_legs(Work(base, times[0], where, span))


_LONGEST = 16
"""Words that tell of loops kept on the hook."""
HOLDING = frozenset("keeping leaving holding retaining withholding keep hold leave".split())
"""Words that keep the last loops of stitches on the hook."""


def held(c: Cursor, items: list[Item]) -> bool:
    """ "Keeping last loop of each on hook work 3 tr in next sp, yrh and draw through all loops": one stitch of three.

    So it is where the loops are told behind the stitches. True when it was that, with the cursor behind it.
    """
    start = c.i
    while c.kind() in (T.WORD, T.HYPHEN, T.ORDINAL) and c.i - start < _LONGEST:
        if c.text() in _OVER or c.text() in ("work", "make", "crochet", "thread", "draw", "pull", "and"):
            break
        c.i += 1
    words = {token.text for token in c.tokens[start : c.i]}
    told = words & {"hook", "hk"} or words & {"each", "of"}
    if not (words & {"loop", "loops", "lp", "lps"} and told and "last" in words):
        c.i = start
        return False
    closing = c.kind() is T.COMMA and c.text(1) in _OVER | {"and", "draw", "pull", "then", "thread"}
    if closing or c.text() in _OVER | {"and", "thread"}:
        last = items[-1] if items else None
        legs = _of_legs(last)
        if legs is not None and _closes(c):
            items[-1] = legs
            return True
        c.i = start
        return False
    if c.kind() is T.COMMA:
        c.i += 1
    c.take_any("work", "make", "crochet", "and")
    found = work_here(c)
    legs = _of_legs(found[0]) if found is not None and len(found) == 1 else None
    closing = c.kind() is T.COMMA and c.text(1) in _OVER | {"and", "draw", "pull", "then", "thread"}
    if legs is None or not (closing or c.text() in _OVER | {"and", "thread", "then"}) or not _closes(c):
        c.i = start
        return False
    items.append(replace(legs, span=c.span_from(start)))
    return True


def _of_legs(item: Item | None) -> Work | None:
    """Several stitches in one place, or one in each of several, as the one they make when they are closed together."""
    if not isinstance(item, Work) or together(item.stitch) != 1 or item.excepting:
        return None
    where = item.where
    many = where.many if item.count == 1 else item.count if where.many == 1 else 0
    if not 2 <= many <= 9 or where.which is Which.EACH:
        return None
    one_place = item.count > 1 and where.which is not Which.STRAIGHT
    plain = one_place and where.which is Which.NEXT and not (where.kinds and where.kinds[0].name == SPACE)
    place = replace(where, many=1, nth=IN_ONE if plain and where.nth == 0 else where.nth)
    return replace(item, stitch=f"{item.stitch}{many}tog", count=1, where=place)


def _closes(c: Cursor) -> bool:
    """Takes ", yo, draw through all 3 lps on hook"."""
    closed = False
    while c.kind() not in (T.END, T.PERIOD, T.OPEN, T.CLOSE, T.SEMICOLON):
        if c.kind() is T.COMMA and (
            closed or c.text(1) not in _OVER | {"and", "draw", "pull", "then", "thread"}
        ):
            break
        closed = closed or c.text() == "through"
        c.i += 1
    return closed


def _named_behind(c: Cursor) -> str:
    """Takes "(1 htr decreased)", "(dc2tog made)": the plain stitch it names; "" for none."""
    close = c.partners.get(c.i) if c.kind() is T.OPEN else None
    if (
        close is None
        or close > c.i + 7
        or not any(token.text in _NAMED or token.text.endswith("tog") for token in c.tokens[c.i + 1 : close])
    ):
        return ""
    named = next((s for k in range(1, close - c.i) if (s := stitch_here(c, k)) is not None), None)
    c.i = close + 1
    return base_of(named.name) if named is not None else ""
