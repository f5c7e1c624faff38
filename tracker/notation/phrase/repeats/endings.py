"""What changes in the last pass: "ending last rep with …", "omitting last ch 2", "last dc in top of ch-3"."""

from tracker.notation.phrase.cursor import STOPS, Cursor
from tracker.notation.phrase.places.bare import bare_place
from tracker.notation.phrase.places.where import where_here
from tracker.notation.phrase.row.sentences import bracket_items, phrases_until
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.scan import T
from tracker.notation.tree import Chain, Ending, Group, Item, Mark, Repeat, Say, Where, Which, Work
from tracker.records import replace

BRACKET = "["
"""The sign of a mark where a bracket begins before which a last pass ends."""
BEHIND = "behind "
"""With a stitch, the sign of a mark behind it, where a last pass ends."""


_CHANGES_LAST = frozenset(
    "omit omitting leave leaving end ending finish finishing stop stopping replace replacing work working".split()
)
"""What may be said of a last pass behind its name."""


def ending_here(c: Cursor) -> Ending | None:
    """ "ending last rep with …", "omitting last ch 2", "working last dc in top of ch-3", or None."""
    i = start = c.i
    while c.kind() in (T.COMMA, T.SEMICOLON) or c.take_any("and", "but"):
        if c.kind() in (T.COMMA, T.SEMICOLON):
            c.i += 1
    if c.text() in ("on", "in", "at") and _on_last(c):
        # "…; on last repeat, end with ch 3", "in the final rep omit last ch 2"
        c.i += c.kind() is T.COMMA
        if c.text() not in _CHANGES_LAST:
            c.i = i
            return None
    word = c.text()
    if c.kind() is T.OPEN:
        close = c.partners.get(c.i)
        if close and c.text(1) in ("omit", "omitting", "ending", "end", "last", "working", "placing"):
            saved, c.end = c.end, close
            c.i += 1
            found = ending_here(c)
            c.end = saved
            if found is not None:
                c.i = close + 1
                return found
        c.i = i
        return None
    if word in ("omitting", "omit", "leaving", "less", "minus", "without", "except") and not (
        word == "leaving" and c.text(1) not in ("out", "off")
    ):
        c.i += 1
        c.take_any("out", "off")
        if _bracket_named(c):
            _on_last(c)
            return Ending("at", (Mark(BRACKET, c.span_from(start)),), None, c.span_from(start))
        c.take_any("the", "for")
        c.take_any("last", "final")
        dropped = _dropped(c)
        if dropped is None:
            c.i = i
            return None
        if c.text() in ("and", "&") and (c.value(1) is not None or c.text(1) in ("ch", "chs", "last")):
            # "omitting last tr and 1 ch"
            c.i += 1
            c.take("last")
            dropped = (*dropped, *(_dropped(c) or ()))
        _on_last(c)
        return Ending("omit", dropped, None, c.span_from(start))
    if word in ("replacing", "replace", "substituting"):
        c.i += 1
        c.take("the")
        if c.take_any("last", "final") and _dropped(c) is not None and c.take("with"):
            changed = phrases_until(c)
            if changed:
                return Ending("with", tuple(changed), None, c.span_from(start))
        c.i = i
        return None
    if word in ("ending", "end", "finishing", "finish", "ends", "stopping", "stop") and c.text(1) != "off":
        c.i += 1
        c.take_any("the", "each")
        last_rep = False
        if c.take_any("last", "final"):
            if c.take_any("rep", "repeat", "repetition"):
                last_rep = True
            else:
                c.i -= 1
        if c.text() in ("at", "before") and _bracket_named(c):
            return Ending("at", (Mark(BRACKET, c.span_from(start)),), None, c.span_from(start))
        if (behind := _behind_the(c)) is not None:
            return Ending("at", (Mark(behind, c.span_from(start)),), None, c.span_from(start))
        if c.take_any("at", "after", "on", "before") and (c.kind() is T.STAR or c.take("the")):
            if c.kind() is T.STAR:
                sign = c.text()
                c.i += 1
                if c.take("on"):
                    c.take("the")
                    if c.take_any("last", "final"):
                        c.take_any("rep", "repeat")
                return Ending("at", (Mark(sign, c.span_from(start)),), None, c.span_from(start))
            c.i = i
            return None
        if c.text() in ("in", "into", "on") and (landed := _lands_in(c, start)) is not None:
            return landed
        c.take_any("with", "in", "by")
        instead = _in_place_of(c, start)
        if instead is not None:
            return instead
        landing = _landing(c, start)
        if landing is not None:
            return landing
        changed = phrases_until(c)
        while changed and isinstance(changed[-1], Say):
            # "dc in first sc to form last lp": what it is good for is no part of it
            changed.pop()
        if not changed:
            c.i = i
            return None
        return Ending("with" if last_rep else "ending", tuple(changed), None, c.span_from(start))
    if word == "the" and c.text(1) in ("last", "final"):
        word = c.text(1)  # "rep from * to end, the last dc in 3rd of 5 ch"
    if word in ("working", "placing", "with", "making", "putting", "work", "place", "last", "final"):
        if word not in ("last", "final"):
            c.i += 1
        landing = _landing(c, start)
        if landing is not None:
            return landing
        if c.take("only"):
            # "working only 2 sc in last ch": in place of what the pass ends with
            changed = phrases_until(c)
            if changed:
                _on_last(c)
                return Ending("with", tuple(changed), None, c.span_from(start))
    c.i = i
    return None


def _bracket_named(c: Cursor) -> bool:
    """Takes "before the bracket", "the sts in brackets", "bracketed section": what the last pass is without."""
    start = c.i
    while c.take_any(
        "at", "before", "the", "in", "sts", "stitches", "part", "section", "instructions", "what", "is"
    ):
        pass
    if c.take_any("bracket", "brackets", "bracketed", "parentheses", "parenthesis"):
        c.take_any("section", "part", "sts", "stitches", "instructions", "group")
        return True
    c.i = start
    return False


def _behind_the(c: Cursor) -> str | None:
    """Takes "with the sl st", "after the second sc" without a place: the sign of a mark behind that stitch."""
    i = c.i
    if c.take_any("with", "after", "on") and c.take("the"):
        stitch = stitch_here(c)
        if stitch is not None and c.kind(stitch.tokens) in STOPS:
            c.i += stitch.tokens
            return BEHIND + stitch.name
    c.i = i
    return None


def ended(repeat: Repeat, ending: Ending) -> Repeat | None:
    """The repeat with an ending; None for one that stops before a bracket, where no bracket holds part of it."""
    sign = ending.items[0] if ending.how == "at" else None
    if isinstance(sign, Mark) and sign.sign.startswith(BEHIND):
        name = sign.sign.removeprefix(BEHIND)
        at = [k for k, item in enumerate(repeat.items) if isinstance(item, Work) and item.stitch == name]
        if not at and name == "slst" and isinstance(repeat.items[-1], Say):
            # of tiles, where the slip stitch between two of them is no item of its own
            return repeat
        if len(at) != 1:
            return None
        items = (*repeat.items[: at[0] + 1], sign, *repeat.items[at[0] + 1 :])
        return replace(repeat, items=items, ending=ending)
    if not isinstance(sign, Mark) or sign.sign != BRACKET:
        return replace(repeat, ending=ending)
    items = repeat.items
    for k in range(len(items) - 1, -1, -1):
        item = items[k]
        if isinstance(item, (Repeat, Group)):
            once = isinstance(item, Repeat) and item.times == 1 and not item.star
            mark = Mark(BRACKET, item.span)
            inside = item.items if once else (item,)
            return replace(repeat, items=(*items[:k], mark, *inside, *items[k + 1 :]), ending=ending)
    return None


def _lands_in(c: Cursor, start: int) -> Ending | None:
    """ "Ending in 3rd ch of ch-4": where the last stitch goes, whatever it is."""
    i = c.i
    where = where_here(c)
    if where is not None and where[-1].which in (Which.TOP, Which.LAST) and c.kind() is not T.WORD:
        return Ending("landing", (), where[-1], c.span_from(start))
    c.i = i
    return None


def _in_place_of(c: Cursor, start: int) -> Ending | None:
    """ "With sl st in first sc in place of sc": the join stands where the last stitch would, which is left out."""
    i = c.i
    stitch = stitch_here(c)
    if stitch is None or stitch.name != "slst":
        return None
    while c.kind() in (T.WORD, T.NUMBER, T.HYPHEN, T.ORDINAL):
        if c.take("in", "place", "of") or c.take("instead", "of") or c.take("in", "lieu", "of"):
            c.take_any("the", "last", "a")
            dropped = _dropped(c)
            if dropped is not None:
                return Ending("omit", dropped, None, c.span_from(start))
            break
        c.i += 1
    c.i = i
    return None


def _landing(c: Cursor, start: int) -> Ending | None:
    """ "last dc in top of ch-3": nothing is added, the last stitch goes there."""
    i = c.i
    c.take("the")
    if not c.take_any("last", "final"):
        c.i = i
        return None
    number = c.value()
    ahead = 1 if number is not None and c.kind(1) is not T.HYPHEN else 0
    stitch = stitch_here(c, ahead)
    if stitch is not None:
        c.i += ahead + stitch.tokens
        c.take_any("of")
    elif c.text(ahead) in ("in", "into"):
        # "with the last into the top of the ch 3", "the last 2 into the tch"
        c.i += ahead
    elif c.text(ahead) in ("st", "stitch", "one", "group", "shell", "sts", "stitches"):
        c.i += ahead + 1
    else:
        c.i = i
        return None
    c.take_any("worked", "placed", "made", "goes", "being", "is", "falls")
    c.take_any("worked", "made")
    if c.kind(1) is T.ORDINAL and c.text(2) in ("and", "&") and c.kind(3) is T.ORDINAL:
        # "last 2 sc in 4th and 3rd ch of turning ch": where the very last goes
        c.i += 3
        where = bare_place(c)
    else:
        where = where_here(c)
    if where is None:
        c.i = i
        return None
    _on_last(c)
    return Ending("landing", (), where[-1], c.span_from(start))


_GROUPS = ("group", "corner", "fan", "shell", "cluster", "petal", "scallop", "point", "v-st")
"""What several stitches in one place may be called, though nobody defines it."""


def _dropped(c: Cursor) -> tuple[Item, ...] | None:
    """What is left out: "ch 2", "sc", "2 sc", "ch-3", "(ch 1, sk 1)"."""
    start = c.i
    if c.kind() is T.OPEN and c.i in c.partners:
        found = bracket_items(c)
        return tuple(found) if found else None
    if c.text() in ("ch", "chs", "chain"):
        n = 2 if c.kind(1) is T.HYPHEN else 1
        amount = c.value(n)
        if amount is not None:
            c.i += n + 1
            c.take_any("sp", "sps", "space")
            return (Chain(amount, c.span_from(start)),)
        c.i += 1
        return (Chain(1, c.span_from(start)),)
    if c.value() is not None and c.text(1) in ("ch", "chs"):
        amount = c.value() or 1
        c.i += 2
        return (Chain(amount, c.span_from(start)),)
    number = c.value()
    ahead = 1 if number is not None else 0
    stitch = stitch_here(c, ahead)
    if stitch is None and c.take_any(*_GROUPS):
        span = c.span_from(start)
        return (Group((), Where(Which.STRAIGHT, span), span, name=c.text(-1)),)
    if stitch is None:
        return None
    c.i += ahead + stitch.tokens
    span = c.span_from(start)
    return (Work(stitch.name, number or 1, Where(Which.STRAIGHT, span), span),)


def _on_last(c: Cursor) -> bool:
    """ "on last rep", "of the final repeat", "at end of last rep", "in last repeat": taken, and told."""
    i = c.i
    while c.take_any("on", "of", "in", "at", "the", "for", "end", "from"):
        pass
    if c.take_any("last", "final") and c.take_any("rep", "repeat", "repetition", "pass", "side", "time"):
        return True
    if c.take_any("rnd", "round", "row", "rep", "repeat"):
        return False
    c.i = i
    return False
