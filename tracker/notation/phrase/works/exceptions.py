"""Exceptions to an "each": ", working 3 sc in each corner ch-2 sp"."""

from collections.abc import Sequence

from tracker.notation.phrase.cursor import SLIPS, Cursor
from tracker.notation.phrase.places.nouns import SPACES, kind_here, kinds_here
from tracker.notation.phrase.places.stops import stop_here
from tracker.notation.phrase.row.sentences import bracket_items
from tracker.notation.phrase.stitches import resolved, stitch_here
from tracker.notation.scan import T
from tracker.notation.tree import SPACE, Chain, Except, Item, Kind, Stop, Where, Which, Work
from tracker.problems import Span
from tracker.records import replace


def excepting(c: Cursor, work: Work) -> Work:
    """Adds ", working 3 sc in each corner ch-2 sp" to an EACH."""
    if work.where.which is not Which.EACH:
        return work
    excepting: list[Except] = []
    while True:
        i = c.i
        if c.kind() is T.COMMA:
            c.i += 1
        led = c.take_any(
            "working", "with", "making", "placing", "putting", "work", "make", "place", "put", "and", "plus"
        )
        led == "and" and c.take_any("working", "work", "making", "make", "putting")
        last = work.where.stop in (None, Stop()) and bool(work.where.kinds) and _space_and_no_more(c)
        if (not led and c.kind() is T.COMMA) or (
            c.i == i
            or (
                led in ("work", "make", "and", "place", "put")
                and not last
                and not _corner_within(c)
                and not _bridges(c)
            )
            or (not led and not last and not _corner_within(c) and not _bridges(c))
        ):
            c.i = i
            break
        except_ = _exception(c, last, last or work.where.stop == Stop() and bool(work.where.kinds), work)
        if except_ is None:
            c.i = i
            break
        if except_.kinds == (Kind("ch"),) and _alike(except_.items, work):
            # "sc in each st, working sc in each ch of ch-3": the chains are worked into as the stitches are
            where = replace(work.where, kinds=(*work.where.kinds, Kind("ch")))
            work = replace(work, where=where, span=Span(work.span.start, c.tokens[c.i - 1].end))
            continue
        excepting.append(except_)
    if not excepting:
        return work
    # its words are what is read aloud: the exception belongs to them
    span = Span(work.span.start, max(work.span.end, c.tokens[c.i - 1].end))
    return replace(work, excepting=work.excepting + tuple(excepting), span=span)


def _alike(items: Sequence[Item], work: Work) -> bool:
    """True for items that are what is worked into each."""
    only = items[0] if len(items) == 1 else None
    return isinstance(only, Work) and (only.stitch, only.count) == (work.stitch, work.count)


def _space_and_no_more(c: Cursor) -> bool:
    """True for "6 sc in ch-6 sp" as the last work of a row: behind an "each st" that names no end, it lies on the way.

    Were more work to follow, the "each" would more likely go as far as the space and no further.
    """
    start = c.i
    if c.value() is not None:
        c.i += 1
    stitch = stitch_here(c)
    found = None
    if stitch is not None:
        c.i += stitch.tokens
        if c.take_any("in", "into"):
            c.take_any("the")
            found = kind_here(c)
            c.take_any("across", "around") or c.take("to", "end")
    ends = (
        c.kind() in (T.PERIOD, T.SEMICOLON, T.END, T.OPEN, T.DASH, T.COLON, T.EQUALS) or c.text(1) in _CLOSES
    )
    c.i = start
    return found is not None and found.name == SPACE and ends


_CLOSES = ("turn", "join", "close", "ending", "ends", *SLIPS)
"""What may stand behind the last work of a row or round but for its end."""


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
            and ("corner" in words[k : k + 5] or bool((SPACES | _HANDLES) & set(words[k : k + 7])))
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


_ONE = ("beg", "beginning", "first", "last", "next", "same", "final")
"""What says of a space which it is."""
_HANDLES = frozenset("handle handles strap straps opening openings".split())
_EXTRA = ("extra", "additional", "more")
"""What tells that so many are worked besides the one that is due in any case."""


def _bridges(c: Cursor) -> bool:
    """True before "ch 2, sk each ch-2 sp"."""
    start = c.i
    found = c.text() in ("ch", "chain") and _chained(c) is not None
    c.i = start
    return found


def _chained(c: Cursor) -> Except | None:
    """ "Ch 2 over each ch-2 sp", "ch 2 and sk each ch-2 sp": the space is bridged by another."""
    start = c.i
    hyphen = c.kind(1) is T.HYPHEN
    chains = c.value(1 + hyphen) if c.text() in ("ch", "chain") else None
    if chains is None and c.text(1) in ("ch", "chain"):
        # "1 ch over each 1-ch sp"
        chains, hyphen = c.value(), False
    if chains is not None and 0 < chains < 100:
        c.i += 2 + hyphen
        span = c.span_from(start)
        if c.take("and") or c.kind() is T.COMMA:
            c.i += c.kind() is T.COMMA
            over = bool(c.take_any("sk", "skip", "miss", "skipping", "missing"))
        else:
            over = bool(c.take_any("over", "above", "across", "at", "skipping", "missing"))
        if over and c.take_any("each", "every", "ea", "all"):
            kind = kind_here(c)
            if kind is not None and kind.name in (SPACE, "ch"):
                stop_here(c)
                return Except((kind,), (Chain(chains, span),))
    c.i = start
    return None


def _exception(c: Cursor, last: bool, bare: bool, along: Work) -> Except | None:
    """One exception, as "3 sc in each corner"; None, with the cursor where it was, for none.

    `bare` allows "3 sc in ch-2 sp", with no "each": after an "each … across" it can only be an exception. `last` allows
    any space, "4 sc in thumb opening": nothing is worked behind it.
    "1 extra sc in each corner" is one more than is worked `along` the sides.
    """
    start = c.i
    items: tuple[Item, ...]
    if c.kind() is T.OPEN and c.partners.get(c.i):
        items = tuple(bracket_items(c))
    else:
        number = 1 if c.text() in ("an", "one") else c.value()
        ahead = 1 if number is not None else 0
        extra = along.count if c.text(ahead) in _EXTRA else 0
        ahead += bool(extra)
        stitch = stitch_here(c, ahead)
        if stitch is None:
            return _chained(c)
        c.i += ahead + stitch.tokens
        name, each = resolved(c, stitch)
        span = c.span_from(start)
        items = (Work(name, (number or 1) * each + extra, Where(Which.STRAIGHT, span), span),)
    c.take_any("all", "worked", "made")
    if not c.take_any("in", "into", "at", "on", "around", "over", "along"):
        c.i = start
        return None
    if (
        not c.take_any("each", "every", "ea", "all", "the", "corner", "corners")
        and not (bare and (c.text() == "ch" or c.text(2) in ("ch", "chain")) and c.kind(1) is T.HYPHEN)
        and not (bare and c.text() == "ch" and c.value(1) is not None and c.text(2) in SPACES)
        and not (bare and c.value() is not None and c.text(1) in ("ch", "chain") and c.text(2) in SPACES)
        and not (bare and (c.text() in SPACES or c.text() in ("ch", "chain") and c.text(1) in SPACES))
        and c.text() not in ("center", "centre", "middle")
        and (not last or any(kind.name == SPACE for kind in along.where.kinds) or c.text() in _ONE)
    ):
        c.i = start
        return None
    c.take("of")
    c.take_any("the")
    space = c.text(1) == "ch" and c.text(2) in SPACES  # "each 2 ch sp": of two chains, not two of them
    if c.value() is not None and c.text(1) in ("corner", "corners", "ch") and not space:
        c.i += 1
    kinds: tuple[Kind, ...]
    if c.text(-1) in ("corner", "corners"):
        c.i -= 1
    middle = c.text() in ("center", "centre", "middle")
    named = c.i
    if c.take_any(*_HANDLES):
        # "with 8 sc around each handle", "over each strap chain": the chains that it is made of
        c.take_any("ch", "chain", "chains", "sp", "loop", "loops")
        return Except((Kind(SPACE),), items)
    first = kind_here(c)
    if first is None:
        c.i = start
        return None
    if c.take("of"):
        c.take_any("each", "every", "the")
        group = kind_here(c)
        c.take_any("corner", "corners", "group", "shell")
        within = Kind(group.name if group else "group", inside="middle")
        kinds = (first,) if first.name == "ch" and within.name == SPACE else (first, within)
    elif middle and first.name not in (SPACE, "ch"):
        c.take_any("corner", "corners")
        kinds = (Kind("corner"),)
    else:
        c.i = named
        kinds = kinds_here(c)
    stop_here(c)
    return Except(kinds, items)
