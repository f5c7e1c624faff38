"""Chains and places passed over: "ch 3", "make 38 ch loosely", "sk next 2 sts", "starting in 2nd ch from hook"."""

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.deeds.said import to_comma, to_period
from tracker.notation.phrase.places.bare import bare_place
from tracker.notation.phrase.places.nouns import CHAINING, PREPOSITIONS, kind_here, kinds_here
from tracker.notation.phrase.places.stops import stop_here
from tracker.notation.phrase.places.where import where_here
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.phrase.works.work import work_here
from tracker.notation.scan import T
from tracker.notation.tree import (
    ANY,
    EITHER,
    REST,
    SPACE,
    Chain,
    Group,
    Item,
    Kind,
    Say,
    Skip,
    Travel,
    Where,
    Which,
    Work,
)
from tracker.records import replace


def chain_here(c: Cursor) -> list[Item] | None:
    """ "ch 3", "ch-3", "3 ch", "chain three", "make 38 ch loosely"."""
    start = c.i
    c.take_any("make", "work", "create")
    while c.take_any("beg", "beginning", "starting", "a", "foundation", "base", "loose"):
        pass
    if c.text() in CHAINING:
        c.i += 1
        c.take_any("of", "on") if c.value(1) is not None else None
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
            if c.take("a") and c.text() == "multiple":
                return to_period(c, start, "foundation")
            if c.take("loosely"):
                value = c.value()
            if value is None:
                c.i = start
                return None
        c.i += 1
        c.take_any("loosely", "sts", "st", "chs", "ch", "stitches")
        if c.text() == "for" and any(
            c.text(n) in ("loop", "hanger", "tie", "cord", "hanging") for n in range(1, 5)
        ):
            # "ch 10 for a hanging loop": made beside the fabric, unless it goes over stitches
            chains = Chain(value, c.span_from(start))
            behind = c.i
            told = to_comma(c, start, "remark")
            over = c.kind() is T.COMMA and c.text(1) in ("sk", "skip", "miss")
            return [chains, Say("remark", "", c.span_from(behind))] if over else told
        if c.text() in ("+", "plus") and (more := c.value(1)) is not None and _adds_up(c):
            value += more
        if c.kind() is T.OPEN and c.text(1) in ("or", "multiple") and c.partners.get(c.i):
            c.i = c.partners[c.i] + 1
        return [Chain(value, c.span_from(start))]
    value = c.value()
    if value is not None:
        n = 1
        if c.kind(n) is T.HYPHEN:
            n += 1
        if c.text(n) in CHAINING:
            c.i += n + 1
            c.take_any("loosely", "sts")
            if c.text() in ("+", "plus") and (more := c.value(1)) is not None and _adds_up(c):
                value += more
            return [Chain(value, c.span_from(start))]
    c.i = start
    return None


def completed_here(c: Cursor) -> list[Item] | None:
    """ "Ch 3, complete shell as before": what is left of a group behind the chain that stands for its first stitch."""
    start = c.i
    c.i += 1
    while c.take_any("a", "the", "first", "this", "one"):
        pass
    found = stitch_here(c)
    special = found.special if found is not None else None
    first = special.items[0] if special is not None and special.items else None
    if found is None or special is None or not isinstance(first, Work) or not special.one_place:
        c.i = start
        return None
    c.i += found.tokens
    if c.take_any("as"):
        c.take_any("before", "above", "usual", "described")
    same = where_here(c) if c.text() in ("in", "into") and c.text(1) == "same" else None
    where = same[0] if same else Where(Which.SAME, c.span_from(start))
    left = [replace(first, count=first.count - 1)] if first.count > 1 else []
    return [Group((*left, *special.items[1:]), where, c.span_from(start))]


def _adds_up(c: Cursor) -> bool:
    """Takes "+ 1", "+ 3 turning ch", "+ 3 for the turn": what the first row rises on is chained as well."""
    i = c.i
    c.i += 2
    c.take_any("extra", "more")
    c.take("turning")
    chains = c.take_any(*CHAINING)
    if c.take("for") or c.take("to"):
        while c.take_any("the", "first", "turning", "turn", "ch", "chain", "row", "1"):
            pass
    if chains or c.kind() in (T.PERIOD, T.COMMA, T.SEMICOLON, T.END, T.OPEN):
        return True
    c.i = i
    return False


def commence_here(c: Cursor) -> list[Item] | None:
    """ "Commence with 28 ch", "start with 21 chains", "begin by making 21 ch"."""
    start = c.i
    c.i += 1
    c.take("off")
    c.take_any("with", "by", "from")
    c.take_any("making", "working", "chaining") if c.text() != "chaining" else None
    found = chain_here(c)
    if found is None and (c.text() == "standing" or c.take("a") and c.text() == "standing"):
        # "Begin with a standing sc in any ch-1 sp"
        found = work_here(c)
    if found is None:
        c.i = start
    return found


def starting_here(c: Cursor) -> list[Item] | None:
    """ "Starting in 2nd ch from hook": where the first stitch of a row goes."""
    start = c.i
    c.i += 1
    c.take_any("with", "from")
    where = where_here(c) if c.text() in PREPOSITIONS else bare_place(c)
    if where is not None and where[0].which is Which.NTH and where[0].kinds == (Kind("ch"),):
        # "starting in 2nd ch", with the hook not named
        where = (replace(where[0], which=Which.FROM_HOOK, kinds=()),)
    if where is not None and where[0].which is Which.NEXT and where[0].nth == -2 and start < 3:
        # "starting in any ch-3 sp with B": where a round begins
        if c.take("with"):
            while c.kind() is T.WORD:
                c.i += 1
        return [Travel(where, c.span_from(start), fresh=True)]
    if where is None or where[0].which is not Which.FROM_HOOK:
        c.i = start
        return None
    return [Skip(where[0], c.span_from(start))]


def skip_here(c: Cursor) -> list[Item] | None:
    """ "Sk next 2 sts", "miss 1 ch", "skip 3"."""
    start = c.i
    c.i += 1
    if c.text() in ("a", "the") and c.text(1) in ("st", "stitch", "ch", "sp", "sc", "dc"):
        c.i += 1
    c.take("over")
    if (
        c.text() in ("centre", "center", "middle")
        and (c.value(1) or 0) > 1
        and c.kind(3) in (T.PERIOD, T.END)
    ):
        c.i = start
        return None  # "miss centre 4 sts": how many lie before them nobody tells
    if (rest := _rest_of(c, start)) is not None:
        return rest
    if c.text() in ("all", "each", "every") and (over := _up_to(c, start)) is not None:
        return over
    ends = 1 if c.text() in ("next", "first", "last") else 0
    if (
        c.text(ends + 1) == "row"
        and c.text(ends + 2) in ("end", "ends")
        and (many := c.value(ends)) is not None
    ):
        # "miss 1 row end"
        c.i += ends + 3
        return [Skip(Where(Which.ROW_END, c.span_from(start), many), c.span_from(start))]
    if ends and c.text(1) == "row" and c.text(2) in ("end", "ends"):
        c.i += 3
        return [Skip(Where(Which.ROW_END, c.span_from(start), 1), c.span_from(start))]
    if c.kind() is T.OPEN and c.partners.get(c.i):
        return _skipped_list(c)
    number = c.value()
    hyphened = c.kind(1) is T.HYPHEN
    if (
        number is not None
        and not hyphened
        and c.text(1) not in CHAINING
        and (
            c.kind(1) in (T.COMMA, T.SEMICOLON, T.PERIOD, T.END, T.CLOSE, T.STAR, T.OPEN)
            or c.text(1) in ("and", "then", "for")
        )
    ):
        c.i += 1
        return [Skip(Where(Which.NEXT, c.span_from(start), number), c.span_from(start))]
    i = c.i
    where = bare_place(c)
    if where is None:
        if c.text() in ("picot", "p"):
            c.i += 1
            where = (Where(Which.NEXT, c.span_from(i), 1, (Kind("picot"),)),)
        else:
            c.i = start
            return None
    if c.text() == "or" and len(where) == 1 and _or_space(c, where[0]):
        where = (replace(where[0], kinds=(Kind(EITHER),)),)
    if c.text() == "of" and c.text(1) in ("row", "rnd", "round"):
        c.i += 3
        where = tuple(replace(w, down=1) for w in where)
    where = _within_group(c, where, i)
    # whatever row is named, what is passed over lies in the row below
    where = tuple(replace(w, down=1) if w.down < 0 else w for w in where)
    while c.text() in ("and", "&") and (c.text(1) in ("next", "following") or c.text(1) == "the"):
        # "sk 2 dc and next ch-2 sp"
        j = c.i
        c.i += 1
        more = bare_place(c)
        if more is None or c.text() in ("work", "make") or c.kind() is T.COLON:
            c.i = j
            break
        where = (*where, *more)
    if c.value() is not None and c.text(1) in ("row", "rows", "rnds", "rounds") and c.text(2) == "below":
        # "sk next FPdc 2 rows below": what stands over it is passed over
        below = 1 + min(c.value() or 1, 90)
        c.i += 3
        where = tuple(replace(w, kinds=(Kind(ANY),), down=below) for w in where)
    if c.take_any("behind", "below") or (c.text() == "in" and c.text(1) in ("front", "back")):
        while c.kind() in (T.WORD, T.NUMBER, T.HYPHEN):
            c.i += 1
    if len(where) == 1 and _passed_over(c, where[0], i):
        # "7 sc in each loop, skipping all sc": they lie between, and nothing goes into them
        return [Say("remark", "", c.span_from(start))]
    if [kind.name for kind in where[0].kinds] == ["ch"]:
        # "sk 2 ch from hook", "sk the ch nearest the hook": which they are is plain
        j = c.i
        c.i += c.text() == "that" and c.text(1) == "is"
        named = c.take("from") or c.take_any("nearest", "closest", "next") and (c.take("to") or True)
        c.take_any("the", "your")
        if not (named and c.take_any("hook", "hk")):
            c.i = j
    if where[0].which is Which.FROM_HOOK and where[0].nth == 1:
        # "skip first 2 ch from hook": all of them
        where = (replace(where[0], which=Which.FIRST, nth=0, kinds=(Kind("ch"),)),)
    return [Skip(w, c.span_from(start)) for w in where]


def _within_group(c: Cursor, where: tuple[Where, ...], start: int) -> tuple[Where, ...]:
    """ "Sk last 2 dc of shell", "sk the remaining 2 dc of fan": those that lie ahead in the group the hook is at."""
    if c.text() == "of" and len(where) == 1:
        i = c.i
        c.i += 1
        c.take_any("the", "this", "that", "same", "next")
        if kind_here(c) is None:
            c.i = i
    only = where[0]
    words = [token.text for token in c.tokens[start : c.i]]
    if (
        len(where) > 1
        or only.which not in (Which.LAST, Which.FIRST)
        or "of" not in words
        or len(only.kinds) != 1
    ):
        return where
    behind = start + words.index("of") + 1 - c.i
    while c.text(behind) in ("the", "this", "that", "same", "next", "each") and behind < 0:
        behind += 1
    named = stitch_here(c, behind)
    group = named is not None and named.special is not None or c.text(behind).rstrip("s") in _GROUPS
    return (replace(only, which=Which.NEXT),) if group and behind < 0 else where


_GROUPS = frozenset("group shell fan cluster v scallop".split())


def _passed_over(c: Cursor, where: Where, start: int) -> bool:
    """True for "all sc", "every dc", "the sts", of which no one is next, and no end is told."""
    stitches = bool(where.kinds) and not {k.name for k in where.kinds} & {SPACE, "ch", ANY}
    if where.which is Which.EACH:
        return stitches and where.stop is None and not where.loop and where.down == 1
    several = c.text(-1).endswith("s") and c.text(-1) not in ("ss", "sts")
    return where.nth == -1 and where.many == 1 and stitches and several and c.tokens[start].text == "the"


def _up_to(c: Cursor, start: int) -> list[Item] | None:
    """ "Skip all dc of sleeve to next ch-1 sp": everything up to it."""
    i = c.i
    c.i += 1
    c.take("of")
    c.take("the")
    kinds = kinds_here(c)
    if kinds and c.take_any("of", "for", "on"):
        c.take("the")
        while c.take_any(
            "sleeve", "first", "second", "left", "right", "other", "back", "front", "armhole", "arm"
        ):
            pass
    stop = stop_here(c) if kinds and c.text() in ("to", "until", "till", "up") else None
    if stop is None:
        c.i = i
        return None
    span = c.span_from(start)
    return [Skip(Where(Which.EACH, span, 0, kinds, stop=stop), span)]


def _or_space(c: Cursor, where: Where) -> bool:
    """Takes "or the dc" behind a space, "or ch-1 sp" behind a stitch; False, and nothing taken, for other words."""
    i = c.i
    c.i += 1
    while c.take_any("the", "next", "in"):
        pass
    other = kind_here(c)
    if other is not None and where.kinds and (other.name == SPACE) != (where.kinds[0].name == SPACE):
        return True
    c.i = i
    return False


def _rest_of(c: Cursor, start: int) -> list[Item] | None:
    """ "Sk rest of fan", "skip remainder of shell": whatever is left of the group the hook is in."""
    i = c.i
    c.take("the")
    if c.take_any("rest", "remainder") and c.take("of"):
        c.take_any("the", "this", "same", "that")
        if kind_here(c) is not None:
            span = c.span_from(start)
            return [Skip(Where(Which.NEXT, span, 1, (Kind(REST),)), span)]
    c.i = i
    return _half_of(c, start)


def _half_of(c: Cursor, start: int) -> list[Item] | None:
    """ "Skip half shell": half a group at a row's edge, where the pattern has no such stitch of its own."""
    i = c.i
    c.take_any("the", "next", "first", "last")
    if c.text() == "half" and kind_here(c) is None:
        c.i += 1
        c.i += c.kind() is T.HYPHEN
        if (
            c.text().rstrip("s") in _GROUPS
            or (named := stitch_here(c)) is not None
            and named.special is not None
        ):
            c.i += 1
            span = c.span_from(start)
            return [Skip(Where(Which.NEXT, span, 1, (Kind(REST, inside="half"),)), span)]
    c.i = i
    return None


def _skipped_list(c: Cursor) -> list[Item] | None:
    """ "Sk (ch 2, tr) once": what lies there is told in a bracket."""
    close = c.partners[c.i]
    stitches: list[Item] = []
    c.i += 1
    while c.i < close:
        if c.text() in CHAINING or c.value() is not None and c.text(1) in CHAINING:
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
