"""Where the hook goes: "in each of next 7 sts", "into 3rd of 5 ch", "around post of next dc", "to last 2 sts".

The cursor stands on a preposition, or on the first word of the place; a tuple of Where comes out, or None with
the cursor where it was.
"""

from dataclasses import replace

from tracker.notation.phrase.cursor import Cursor, stitch_here
from tracker.notation.scan import T
from tracker.notation.tree import ANY, SPACE, Kind, Stop, Where, Which
from tracker.problems import Span
from tracker.trade.numbers import ORDINAL_WORDS

PREPOSITIONS = frozenset(
    "in into to over around on through round along onto inside at across under between bet betw btwn".split()
)
_STS = frozenset("st sts stitch stitches sts. loops".split())
_SPACES = frozenset(
    "sp sps space spaces lp lps loop loops arch arches gap gaps chsp chsps lace bar bars".split()
)
_CHAINS = frozenset("ch chs chain chains".split())
_RINGS = frozenset("ring circle mr mc loop lp".split())
_ADJECTIVES = frozenset(
    "corner side center centre middle unworked skipped made working main indicated little big foundation unused free starting beginning beg corresponding adjacent large small long short solid open "
    "following foll facing turning".split()
)


def _spaced(c: Cursor) -> Kind | None:
    """ "ch-2 sp", "2-ch sp", "ch 2 sp", "ch sp", "ch-sp", "ch-3 lp", "5-ch loop": the cursor moves past it."""
    i = c.i
    chains: int | None = None
    if c.text() in _CHAINS:
        n = 1
        if c.kind(n) is T.HYPHEN:
            n += 1
        if (value := c.value(n)) is not None:
            chains, n = value, n + 1
        if c.kind(n) is T.HYPHEN:
            n += 1
        if c.text(n) in ("corner", "turning") and c.text(n + 1) in _SPACES:
            n += 1
        if c.text(n) in _SPACES:
            c.i += n + 1
            return Kind(SPACE, chains)
        c.i = i
        return None
    if c.value() is not None:
        n = 1
        if c.kind(n) is T.HYPHEN:
            n += 1
        if c.text(n) in _CHAINS:
            m = n + 1
            if c.kind(m) is T.HYPHEN:
                m += 1
            if c.text(m) in ("corner",):
                m += 1
            if c.text(m) in _SPACES:
                chains = c.value()
                c.i += m + 1
                return Kind(SPACE, chains)
    return None


def turning_chain(c: Cursor) -> int | None:
    """Takes "tch", "turning ch", "beg ch-3", "3 ch", "ch-3", "t-ch", "skipped chs": chains, 0 when not said."""
    i = c.i
    c.take("the")
    c.take("starting") or c.take("initial")
    if c.take_any("tch", "tchain"):
        return 0
    if c.text() == "t" and c.kind(1) is T.HYPHEN and c.text(2) in ("ch", "chain"):
        c.i += 3
        return 0
    adjective = c.take_any(
        "turning",
        "beg",
        "beginning",
        "starting",
        "first",
        "skipped",
        "start",
        "initial",
        "foundation",
        "unworked",
        "missed",
        "prev",
        "previous",
    )
    value = c.value()
    if value is not None and (c.text(1) in _CHAINS or (c.kind(1) is T.HYPHEN and c.text(2) in _CHAINS)):
        c.i += 2 if c.text(1) in _CHAINS else 3
        if c.text() in _SPACES and not adjective:
            c.i = i
            return None
        c.take("sp")
        return value
    if c.text() in _CHAINS:
        n = 1
        if c.kind(n) is T.HYPHEN:
            n += 1
        amount = c.value(n)
        if (
            amount is not None
            and c.text(n + 1) not in _SPACES
            and not (c.kind(n + 1) is T.HYPHEN and c.text(n + 2) in _SPACES)
        ):
            c.i += n + 1
            return amount
        if adjective and adjective != "first" and c.text(1) not in _SPACES:
            c.i += 1
            return 0
    c.i = i
    return None


def kind_here(c: Cursor) -> Kind | None:
    """A noun: "st", "sc", "ch-2 sp", "ch", "shell", "tch"; the cursor moves past it."""
    i = c.i
    if c.text() in ("corner", "corners"):
        c.i += 1
        space = _spaced(c)
        if space is not None:
            return Kind("corner sp", space.chains)
        if c.take_any("sp", "sps", "space", "spaces", "lp", "loop", "loops"):
            return Kind("corner sp")
        c.take_any("st", "sts", "stitch", "sc", "lp", "loop", "loops", "dc")
        return Kind("corner")
    while (
        c.text() in _ADJECTIVES
        and not (c.text() == "turning" and c.text(1) in _CHAINS)
        and not (c.text() in ("beg", "beginning", "starting") and c.text(1) in _CHAINS)
    ):
        c.i += 1
    if c.text() in ("single", "double", "half", "treble", "front", "back"):
        pass
    elif c.text() in _STS and c.text() not in _SPACES:
        c.i += 1
        if c.text() in _STS:
            c.i += 1
        return Kind(ANY)
    if space := _spaced(c):
        return space
    if c.value() is not None and c.kind(1) is T.HYPHEN and c.kind(2) is T.WORD:
        # "3-sc corner", "5-dc group"
        save = c.i
        c.i += 2
        inner = stitch_here(c)
        if inner:
            c.i += inner.tokens
            if c.take_any("group", "grp", "groups", "corner", "cluster", "shell", "fan", "inc"):
                return Kind("group")
        c.i = save
    if c.text() in _SPACES and c.text() not in ("bar", "bars"):
        c.i += 1
        return Kind(SPACE)
    if (
        c.text() in ("tch", "tchain")
        or (c.text() == "t" and c.kind(1) is T.HYPHEN)
        or (c.text() in ("turning", "beg", "beginning") and c.text(1) in _CHAINS)
    ):
        if turning_chain(c) is not None:
            return Kind("tch")
    if c.text() in _CHAINS:
        # "next ch": one chain; "next ch-3" with no noun after it: the space
        n = 2 if c.kind(1) is T.HYPHEN else 1
        amount = c.value(n) if n == 2 else None
        if amount is not None:
            c.i += 3
            return Kind(SPACE, amount)
        c.i += 1
        return Kind("ch")
    stitch = stitch_here(c)
    if stitch is not None:
        c.i += stitch.tokens
        name = stitch.name.removeprefix("inc:")
        if c.text() in _STS and c.text() not in _SPACES:
            c.i += 1
        c.take_any("group", "groups", "grp", "grps")
        return Kind("dec" if name == "dec" else name)
    if c.text() in ("fan", "fans", "shell", "shells", "motif", "scallop", "scallops", "point", "points"):
        c.i += 1
        return Kind("group")
    if c.text() in (
        "group",
        "groups",
        "grp",
        "grps",
        "cluster",
        "clusters",
        "mesh",
        "window",
        "windows",
        "corner",
        "corners",
        "petal",
        "petals",
    ):
        word = c.text()
        c.i += 1
        return Kind(
            "group"
            if word.startswith(("gr", "cl", "pet"))
            else ("corner" if word.startswith("corner") else SPACE)
        )
    c.i = i
    return None


def kinds_here(c: Cursor) -> tuple[Kind, ...]:
    """Nouns joined by "and": "dc and each ch-1 sp", "sc and ch"; empty when there is none."""
    first = kind_here(c)
    if first is None:
        return ()
    kinds = [first]
    while True:
        i = c.i
        if (
            c.take("and")
            or (c.kind() is T.OTHER and c.text() in ("&", "/") and _step(c))
            or (c.kind() is T.COMMA and _list_goes_on(c))
        ):
            c.take("in") or c.take("into")
            c.take_any("each", "ea", "every", "all")
            c.take("of")
            c.take("the")
            if (
                c.value() is not None
                and c.text(1) in _CHAINS
                and c.text(2) not in _SPACES
                and c.text(-1) in ("the", "of")
            ):
                c.i += 1
            if c.value() is not None and not (c.kind(1) is T.HYPHEN or c.text(1) in _CHAINS):
                c.i = i
                break
            more = kind_here(c)
            if (
                more is not None
                and c.kind() is not T.COLON
                and c.text() not in ("in", "into", "over")
                and not (c.text() == "around" and stitch_here(c, 1) is not None)
                and not (more.name == "ch" and c.value() is not None)
            ):
                kinds.append(more)
                continue
        c.i = i
        break
    return tuple(kinds)


def _many(many: int | None) -> int:
    """How many places: 1 when no number was said; 0 stays 0, a size in which nothing is worked there."""
    return 1 if many is None else many


def _step(c: Cursor) -> bool:
    c.i += 1
    return True


def _list_goes_on(c: Cursor) -> bool:
    """Takes a comma inside "sc, hdc and dc"; leaves one that ends the phrase."""
    i = c.i
    c.i += 1
    if c.text() in ("each", "every", "and") or c.value() is not None:
        c.i = i
        return False
    kind = kind_here(c)
    more = kind is not None and (
        c.text() in ("and", "&") or (c.kind() is T.COMMA and c.text(2) in ("and", "&"))
    )
    c.i = i + 1 if more else i
    return more


def _count(c: Cursor) -> int | None:
    """A number of places, not the "2" of "2-ch sp"."""
    value = c.value()
    if value is None:
        return None
    if c.kind(1) is T.HYPHEN and c.text(2) in _CHAINS:
        return None
    if c.text(1) in _CHAINS and (c.text(2) in _SPACES and c.text(2) != "lp" or c.kind(2) is T.HYPHEN):
        return None
    c.i += 1
    return value


def loop_words(c: Cursor) -> str:
    """Takes "blo", "in back lps only", "both loops", "3rd loop": "back", "front", "both", "third" or ""."""
    i = c.i
    c.take_any("in", "into", "through", "thru", "using", "working", "work", "under")
    c.take_any("in", "into", "through")
    c.take_any("the", "any", "each", "next") if c.text(1) in (
        "unused",
        "free",
        "unworked",
        "front",
        "back",
    ) else c.take("the")
    unused = c.take_any("unused", "free", "remaining", "unworked")
    if unused and c.text() in ("loop", "loops", "lp", "lps"):
        c.i += 1
        return "free"
    word = c.text()
    if word in ("blo", "flo") or (word in ("bl", "fl", "blp", "flp", "tbl") and c.text(1) not in ("st",)):
        c.i += 1
        c.take("only")
        side = "front" if word[0] == "f" else "back"
    elif word in ("back", "front", "both", "third", "3rd", "horizontal", "rear") and (
        c.text(1) in ("loop", "loops", "lp", "lps") or (c.text(1) in ("bar", "hump", "bump"))
    ):
        c.i += 2
        c.take("only")
        side = {"3rd": "third", "horizontal": "third", "rear": "back"}.get(word, word)
    else:
        c.i = i
        return ""
    if c.take("left"):
        c.take("free")
        unused = "free"
    return f"free {side}" if unused and side in ("front", "back") else side


def _after_of(c: Cursor, where: tuple[Where, ...] | None, loop: str) -> tuple[Where, ...] | None:
    if where is None:
        return None
    if loop == "free":
        return where
    return tuple(replace(w, loop=loop) for w in where)


def where_here(c: Cursor, bare: bool = False) -> tuple[Where, ...] | None:
    """The places a phrase names; `bare` when no preposition is wanted ("next 2 sts", "first dc")."""
    start = c.i
    preposition = "" if bare else c.take_any(*PREPOSITIONS)
    if not preposition and not bare:
        return None
    if preposition in ("in", "into", "to", "on") and c.text() in ("to", "top") and c.text() == "to":
        c.i += 1
    found = _place(c, preposition, start)
    if found is None:
        c.i = start
    return found


def _place(c: Cursor, preposition: str, start: int) -> tuple[Where, ...] | None:
    around = preposition in ("around", "round")
    if loop := loop_words(c):
        # "in back loop of each st", "blo of next 5"; a bare "in blo" is said of the stitch by itself
        if c.text() == "of" and c.text(1) in ("row", "rnd", "round", "r") and c.value(2) is not None:
            number = c.value(2) or 0
            c.i += 3
            if c.take("below"):
                _bare_place(c)
            return (Where(Which.NEXT, c.span_from(start), loop=loop, down=-number),)
        if c.take("of"):
            down = 1
            inner = _place(c, "", start)
            inner = _after_of(c, inner, loop)
            del down
            return inner
        inner = (
            where_here(c)
            if c.text() in PREPOSITIONS and c.text() not in ("around", "across", "round")
            else _bare_place(c)
        )
        if inner is not None:
            return _after_of(c, inner, loop)
        return (Where(Which.STRAIGHT, c.span_from(start), loop=loop),)
    if c.text() in ("post", "the") and ("post" in (c.text(), c.text(1))):
        c.i += 1 if c.text() == "post" else 2
        if c.take("of") or c.take("on"):
            inner = _place(c, "around", start)
            return None if inner is None else tuple(replace(w, around=True) for w in inner)
        c.i = start
        return None
    if c.text() in ("side", "sides", "end", "ends", "edge") and c.text(1) in ("of", "edge"):
        c.i += 2
        each = c.take_any("each", "every", "next", "rows", "row", "dc", "last")
        many = _count(c) or 1
        kind = stitch_here(c)
        if kind:
            c.i += kind.tokens
        c.take_any("row", "rows", "st", "stitch")
        if kind is None and not each:
            c.i = start
            return None
        return (Where(Which.ROW_END, c.span_from(start), many if each == "next" else 0),)
    if (
        c.text() in ("each", "all")
        and c.text(1) == "of"
        and c.value(2) is not None
        and c.text(3) in ("row", "side")
        and c.text(4) in ("ends", "end", "edges")
    ):
        many = c.value(2) or 0
        c.i += 5
        return (Where(Which.ROW_END, c.span_from(start), many),)
    for gap in ("each", "next", "first", "last", ""):
        n = 1 if gap else 0
        if (
            (not gap or c.text() == gap)
            and c.text(n) == "row"
            and c.text(n + 1) in ("end", "ends")
            or (gap and c.text() == gap and c.text(n) in ("row-end",))
        ):
            c.i += n + 2
            return (Where(Which.ROW_END, c.span_from(start), 1 if gap in ("next", "first", "last") else 0),)
    if c.text() == "row" and c.text(1) in ("ends", "end"):
        c.i += 2
        return (Where(Which.ROW_END, c.span_from(start), 0),)
    where = _bare_place(c)
    if where is None:
        return None
    if around:
        where = tuple(replace(w, around=True) for w in where)
    return _qualified(c, where, start)


def _qualified(c: Cursor, where: tuple[Where, ...], start: int, unworked: bool = False) -> tuple[Where, ...]:
    """Adds "2 rows below", "of Rnd 3", "below" and the like to places just read."""
    i = c.i
    amount = c.value()
    if (
        amount is not None
        and c.text(1) in ("row", "rows", "rnd", "rnds", "round", "rounds")
        and c.text(2) == "below"
    ):
        c.i += 3
        if c.text() in ("next", "the"):
            _bare_place(c)
        return tuple(
            replace(w, down=1 + amount if amount < 99 else 1, span=c.span_from(start)) for w in where
        )
    if c.take("below"):
        return where
    if c.take_any("formed", "made") and c.text() in ("by", "with", "between"):
        while c.kind() in (T.WORD, T.HYPHEN, T.NUMBER):
            c.i += 1
        return where
    c.i = i
    if c.take("of") or c.take("in") or c.take("on"):
        c.take("the")
        c.take_any("previous", "prev", "last", "current")
        if c.text() in ("row", "rnd", "round", "rows", "rnds") or (
            c.text() == "r" and c.value(1) is not None
        ):
            c.i += 1
            number = c.value()
            if number is not None:
                c.i += 1
                if c.take("below"):
                    return tuple(replace(w, down=1 + number) for w in where)
                if unworked:
                    return where
                return tuple(replace(w, nth=w.nth, down=-number) for w in where)
            c.take("below")
            return where
        if c.take_any("foundation", "beg", "beginning", "body", "brim", "foot", "panel"):
            c.take_any("ch", "chain", "ring")
            return where
    c.i = i
    return where


_ORDINALS_FIRST = frozenset(("first", "1st"))


def _ordinal(c: Cursor, ahead: int = 0) -> int | None:
    if c.kind(ahead) is T.ORDINAL:
        return c.token(ahead).value
    word = c.text(ahead)
    return ORDINAL_WORDS.get(word) if word in ORDINAL_WORDS else None


def _bare_place(c: Cursor) -> tuple[Where, ...] | None:
    start = c.i

    def span() -> Span:
        return c.span_from(start)

    if not (c.text() in ("a", "an") and c.text(1) in ("magic", "ring", "circle", "mr", "loop")):
        c.take("the")
    else:
        c.i += 1
    word = c.text()
    if word == "magic" and c.text(1) in ("ring", "circle", "loop"):
        c.i += 2
        return (Where(Which.RING, span()),)
    if word in ("it", "this", "that") and c.text(1) in ("st", "sp", "space", "loop", "lp", "stitch"):
        c.i += 2
        return (Where(Which.SAME, span()),)
    if word in ("here", "place", "indicated", "specified", "stated"):
        c.i += 1
        while c.take_any("indicated", "specified", "stated", "given"):
            pass
        return (Where(Which.SAME, span()),)
    if (
        word in ("skipped", "missed", "sts", "st", "first", "2", "3", "second", "unworked", "last")
        and "skipped" in (c.text(), c.text(1), c.text(2), c.text(3))
        and not (c.text() == "first" and c.value(1) is not None)
        and "ch" not in (c.text(1), c.text(2), c.text(3))
        and "chs" not in (c.text(1), c.text(2), c.text(3))
    ):
        many = c.value() or (c.value(1) if c.text() == "skipped" else None) or 1
        while c.kind() in (T.WORD, T.NUMBER) and c.text() in (
            "first",
            "second",
            "last",
            "skipped",
            "just",
            "st",
            "sts",
            "stitch",
            "dc",
            "sc",
            "tr",
            "hdc",
            "2",
            "3",
            "4",
            "missed",
        ):
            c.i += 1
        return (Where(Which.MADE, span(), many),)
    if word in _RINGS and not (word in ("loop", "lp") and c.text(1) in ("just",)):
        if word in ("mc",) and c.text(1) not in ("ring",):
            pass
        c.i += 1
        c.take_any("ring")
        return (Where(Which.RING, span()),)
    if word in ("center", "centre", "magic") and c.text(1) in ("of", "ring", "circle", "loop"):
        c.i += 2
        if c.text() in ("the", "ring", "circle"):
            c.take("the")
            c.take_any("ring", "circle")
        return (Where(Which.RING, span()),)
    if word in ("sp", "space", "sps", "spaces") and c.text(1) in ("between", "bet", "betw", "btwn"):
        c.i += 2
        return _between(c, start, 1, Which.NEXT)
    if (
        word in ("lp", "loop", "sp", "space", "st", "p", "picot")
        and c.text(1) == "just"
        and c.text(2) in ("made", "formed")
    ):
        c.i += 3
        return (Where(Which.SAME, span(), kinds=(Kind(SPACE),)),)
    if word == "same":
        c.i += 1
        kinds: tuple[Kind, ...] = ()
        if c.take_any("place", "spot"):
            pass
        else:
            got = kind_here(c)
            kinds = (got,) if got else ()
        if c.take("as"):
            while c.take_any("last", "previous", "prev", "first", "the", "beg", "of"):
                pass
            if c.value() is not None:
                c.i += 1
            c.take_any("join", "joining", "ss", "slst", "joined", "tch") or (
                c.take("sl") and c.take("st")
            ) or kind_here(c)
            c.take("was")
            c.take_any("made", "worked", "joining", "join")
        elif c.take("used"):
            pass
        return (Where(Which.SAME, span(), kinds=kinds),)
    # tops and chains of the turning chain
    if word == "top":
        n = c.i
        c.i += 1
        c.take("st")
        if c.take("of") or True:
            c.take("the")
            first = c.take_any("first", "next")
            chain = turning_chain(c)
            if chain is not None:
                return (Where(Which.TOP, span(), nth=0),)
            stitch = kind_here(c)
            if stitch is not None:
                return (Where(Which.TOP if first == "first" else Which.FIRST, span(), kinds=(stitch,)),)
        c.i = n
        return None
    ordinal = _ordinal(c)
    if ordinal is not None and not (word in _ORDINALS_FIRST and not _nth_chain_follows(c)):
        i = c.i
        c.i += 1
        if c.take_any("ch", "chain", "chs") or c.text() == "of":
            if c.take("from"):
                c.take_any("the", "your")
                c.take_any("hook", "hk")
                return (Where(Which.FROM_HOOK, span(), nth=ordinal),)
            if c.take("of"):
                c.take("the")
                c.take("first")
                chain = turning_chain(c)
                if chain is not None:
                    return (Where(Which.TOP, span(), nth=ordinal),)
                if c.take("it") or c.take("tch"):
                    return (Where(Which.TOP, span(), nth=ordinal),)
            elif c.text(-1) in ("ch", "chain"):
                return (Where(Which.NTH, span(), kinds=(Kind("ch"),), nth=ordinal),)
        c.i = i + 1
        if c.take_any("loop", "lp"):
            c.i = i
            return None
        kind = kind_here(c)
        if kind is not None:
            if c.take("from"):
                c.take("the")
                c.take_any("hook", "hk")
                return (Where(Which.FROM_HOOK, span(), nth=ordinal),)
            save = c.i
            if c.take("of"):
                c.take("the")
                if turning_chain(c) is not None:
                    return (Where(Which.TOP, span(), nth=ordinal),)
                c.i = save
            return (Where(Which.NTH, span(), kinds=(kind,), nth=ordinal),)
        c.i = start
        return None
    for lead, which in (
        ("next", Which.NEXT),
        ("following", Which.NEXT),
        ("foll", Which.NEXT),
        ("first", Which.FIRST),
        ("1st", Which.FIRST),
        ("last", Which.LAST),
        ("final", Which.LAST),
        ("any", Which.NEXT),
    ):
        if word == lead:
            c.i += 1
            found = _run(c, start, which)
            if lead == "any" and found:
                return (replace(found[0], nth=-2), *found[1:])
            return found
    if word in ("each", "every", "ea", "all"):
        c.i += 1
        if c.take("of"):
            c.take("the")
            lead = c.text()
            if c.value() is not None and c.text(1) in ("skipped", "missed"):
                many = c.value() or 1
                c.i += 2
                kind_here(c)
                return (Where(Which.MADE, c.span_from(start), many),)
            if lead in ("next", "following", "foll", "first", "1st", "last"):
                c.i += 1
                return _run(
                    c,
                    start,
                    Which.NEXT
                    if lead in ("next", "following", "foll")
                    else (Which.LAST if lead == "last" else Which.FIRST),
                )
        if c.take("of"):
            c.take("the")
        rest = c.take_any("rem", "remaining", "following", "foll")
        del rest
        if c.text() in ("next", "first", "last"):
            lead = c.text()
            c.i += 1
            return _run(c, start, {"next": Which.NEXT, "first": Which.FIRST, "last": Which.LAST}[lead])
        if c.take_any("side", "end"):
            return None
        if c.text() in ("space", "sp") and c.text(1) in ("between", "bet", "betw", "btwn"):
            c.i += 2
            return _between(c, start, 0, Which.EACH)
        many = _count(c)
        kinds = kinds_here(c)
        if many is not None and kinds:
            return (Where(Which.NEXT, span(), many, kinds),)
        if not kinds and c.take_any("across", "around"):
            c.i -= 1
            kinds = (Kind(ANY),)
        if not kinds:
            c.i = start
            return None
        kinds = _inside(c, kinds)
        stop = stop_here(c)
        return (Where(Which.EACH, span(), 0, kinds, stop=stop),)
    if word in ("rem", "remaining"):
        c.i += 1
        many = _count(c)
        kinds = kinds_here(c)
        stop = stop_here(c)
        if many is None:
            return (Where(Which.EACH, span(), 0, kinds or (Kind(ANY),), stop=stop),)
        return (Where(Which.NEXT, span(), many, kinds),)
    chain = None
    if word in ("tch", "beg", "beginning", "turning", "t", "starting") or (
        word in _CHAINS and c.kind(1) is T.HYPHEN
    ):
        i = c.i
        chain = turning_chain(c)
        if chain is not None and c.text() not in _SPACES:
            return (Where(Which.TOP, span(), nth=0),)
        c.i = i
        if word == "beg":
            c.i += 1
            kind = kind_here(c)
            if kind:
                return (Where(Which.FIRST, span(), kinds=(kind,)),)
            c.i = i
    if word in ("center", "centre", "middle"):
        c.i += 1
        mid = True
        kind = kind_here(c)
        if kind is not None:
            if mid and c.take("of"):
                c.take_any("each", "every", "next", "the")
                each = c.text(-1) in ("each", "every")
                group = kind_here(c)
                stop = stop_here(c) if each else None
                if group is not None:
                    return (
                        Where(
                            Which.EACH if each else Which.NEXT,
                            span(),
                            1,
                            (kind, Kind("middle of:" + group.name, group.chains)),
                            stop=stop,
                        ),
                    )
            return (Where(Which.NEXT, span(), 1, (kind,)),)
        c.i = start
        return None
    # A noun with no article: "in ch-3 sp", "into dc", "sp", "side"
    i = c.i
    many = _count(c)
    kinds = kinds_here(c)
    if (
        kinds
        and many is None
        and kinds[0].name[:2] in ("fp", "bp")
        and c.text() in ("and", "as", "across", "around")
    ):
        return (Where(Which.EACH, span(), 0, kinds, stop=stop_here(c)),)
    if kinds:
        if many is None and c.take("of"):
            # "ch-1 sp of each V-st"
            c.take("the")
            each = c.take_any("each", "every", "ea")
            lead = c.take_any("next", "first", "last", "same", "previous", "prev", "corner")
            amount = _count(c) or 1
            group = kind_here(c)
            if group is not None:
                stop = stop_here(c) if each else None
                which = (
                    Which.EACH
                    if each
                    else {"last": Which.LAST, "same": Which.SAME, "first": Which.FIRST}.get(lead, Which.NEXT)
                )
                return (Where(which, span(), 0 if each else amount, kinds, stop=stop),)
            c.i -= 1
        plural = c.text(-1).endswith("s") and c.text(-1) not in ("ss",)
        if (
            many is None
            and plural
            and kinds[0].name in (SPACE, ANY, "ch")
            and c.text() in ("across", "around", "to")
        ):
            return (Where(Which.EACH, span(), 0, kinds, stop=stop_here(c)),)
        return (Where(Which.NEXT, span(), _many(many), kinds, nth=-1 if many is None else 0),)
    if many is not None:
        # "over 7", "in next" is above; "in 7" alone is too thin unless something closes it
        if c.kind() in (T.COMMA, T.SEMICOLON, T.PERIOD, T.END, T.CLOSE):
            return (Where(Which.NEXT, span(), many),)
    c.i = start
    return None


def _inside(c: Cursor, kinds: tuple[Kind, ...]) -> tuple[Kind, ...]:
    """ "each ch-1 sp", "each shell": a trailing "of each V-st" narrows nothing that matters."""
    i = c.i
    if c.take("of"):
        c.take_any("each", "every", "the", "next")
        if kind_here(c) is not None:
            return kinds
        c.i = i
    return kinds


def _nth_chain_follows(c: Cursor) -> bool:
    """True for "first ch from hook", "first ch of": "first" is an ordinal there."""
    return c.text(1) in ("ch", "chain") and c.text(2) == "from"


def _between(c: Cursor, start: int, many: int, which: Which) -> tuple[Where, ...]:
    """After "sp between": "next 2 dc", "groups", "first dc and first group"."""
    last = False
    while c.kind() in (T.WORD, T.NUMBER, T.ORDINAL, T.HYPHEN) and c.text() not in (
        "across",
        "around",
        "to",
        "in",
        "twice",
        "rep",
        "ch",
        "sk",
        "into",
    ):
        last = last or c.text() in ("last",)
        if (
            c.text() in ("and",)
            and c.value(1) is None
            and stitch_here(c, 1) is None
            and c.text(1) not in ("next", "first", "last", "tch", "turning", "group", "beg")
        ):
            break
        c.i += 1
    stop = stop_here(c) if which is Which.EACH else None
    return (
        Where(
            Which.BETWEEN,
            c.span_from(start),
            0 if which is Which.EACH else (_many(many)),
            (Kind(SPACE),),
            stop=stop,
            nth=-1 if last else 0,
        ),
    )


def _run(c: Cursor, start: int, which: Which) -> tuple[Where, ...] | None:
    """After "next", "first", "last": "7 sts", "dc, ch and dc", "2 dc and ch-1 sp", or nothing."""
    many = _count(c)
    c.take("of")
    if c.text() in ("sp", "space", "sps", "spaces") and c.text(1) in ("between", "bet", "betw"):
        c.i += 2
        return _between(c, start, _many(many), which)
    if c.text() in ("sp", "space") and c.kind(1) is T.WORD and c.text(1) in ("bet",):
        c.i += 1
    first = kind_here(c)
    if first is None and c.text() in ("unworked", "free"):
        c.i += 1
        first = kind_here(c)
    if c.take("unworked") or c.take("left"):
        c.take("unworked")
    if first is not None and (
        which is Which.LAST
        and c.take_any("made", "worked")
        or c.take("just")
        and c.take_any("made", "worked")
    ):
        return (Where(Which.MADE, c.span_from(start), _many(many), (first,)),)
    if first is not None and c.take("from"):
        c.take("the")
        if c.take_any("hook", "hk"):
            return (Where(Which.FROM_HOOK, c.span_from(start), nth=1),)
    if (
        first is not None
        and c.text() == "of"
        and c.text(1) in ("row", "rnd", "round", "r")
        and c.value(2) is not None
    ):
        unworked = any(
            t.text in ("unworked", "free", "unused", "rem", "remaining") for t in c.tokens[start : c.i]
        )
        return _qualified(c, (Where(which, c.span_from(start), _many(many), (first,)),), start, unworked)
    if (
        first is not None
        and c.text() == "of"
        and c.text(1) in ("row", "rnd", "round", "r")
        and c.value(2) is not None
    ):
        unworked = any(
            t.text in ("unworked", "free", "unused", "rem", "remaining") for t in c.tokens[start : c.i]
        )
        return _qualified(c, (Where(which, c.span_from(start), _many(many), (first,)),), start, unworked)
    if first is not None and c.take("of"):
        # "next ch of ch-3", "last ch of ...": the noun after it only says where the first lies
        i = c.i
        c.take_any("the", "each", "next", "same", "first", "last", "beg")
        if (
            turning_chain(c) is None
            and kind_here(c) is None
            and not c.take_any("row", "rnd", "round", "corner")
        ):
            c.i = i - 1
    wheres = [Where(which, c.span_from(start), _many(many), (first,) if first else ())]
    while first is not None:
        i = c.i
        comma = c.kind() is T.COMMA
        if comma:
            c.i += 1
        joined = c.take("and") or (c.text() == "&" and _step(c))
        if not (comma or joined):
            break
        each = c.take_any("in", "into")
        c.take_any("each", "ea")
        c.take("of")
        lead = c.take_any("next", "following", "foll", "last")
        if each or (comma and not joined and lead):
            c.i = i
            break
        n = c.i
        amount = _count(c)
        kind = kind_here(c)
        if comma and not joined and (amount is not None or c.text() not in ("and", "&")):
            c.i = i
            break
        if (
            kind is None
            or (comma and not joined and not (c.text() == "and" or c.kind() is T.COMMA))
            or (kind.name == "ch" and c.value() is not None)
            or (
                amount is not None
                and not lead
                and kind.name not in ("ch", SPACE, ANY)
                and which is not Which.NEXT
            )
            or (amount is not None and not lead and c.text() in PREPOSITIONS)
        ):
            c.i = i
            break
        del n
        wheres.append(
            Where(Which.NEXT if lead != "last" else Which.LAST, c.span_from(start), amount or 1, (kind,))
        )
        if joined:
            break
    return tuple(wheres)


def stop_here(c: Cursor) -> Stop | None:
    """ "across", "around", "to end", "to last 2 sts", "to next corner", "to marker"; None when nothing of it stands here.

    The cursor moves past it.
    """
    i = c.i
    c.take("evenly")
    found = False
    if c.take_any("across", "around", "round", "along"):
        found = True
        if c.text() in ("row", "rnd", "round", "edge") and c.text() != "round":
            c.i += 1
        if c.take("the"):
            c.take_any("row", "rnd", "round", "edge")
    if c.take("all"):
        if c.take_any("round", "around", "across", "along"):
            found = True
        else:
            c.i -= 1
    j = c.i
    while c.take_any("evenly", "even"):
        pass
    if c.take("until"):
        c.take("the")
        amount = c.take("last")
        value = _count(c)
        kinds = kinds_here(c)
        if (c.take_any("remain", "remains", "rem", "are", "left") or amount) and (
            value is not None or amount
        ):
            c.take_any("left", "remain", "unworked")
            return Stop(value or 1, kinds)
        c.i = j
    elif c.take_any("to", "till") or (c.take("up") and c.take("to")):
        c.take_any("within")
        c.take("the")
        if c.take("end"):
            if c.take("of"):
                c.take("the")
                c.take_any("row", "rnd", "round")
            return Stop()
        if c.take_any("last", "within", "final") or (c.value() is not None and c.text(-1) == "within"):
            value = _count(c)
            kinds = kinds_here(c)
            if value is None and not kinds:
                c.i = j
                return Stop() if found else None
            if c.text(-1) == "sts" or value is not None or kinds:
                if c.take("of"):
                    c.take_any("next", "the", "each")
                    if c.take("corner"):
                        c.take_any("sp", "space", "st", "ch")
                        return Stop(1 if value is None else value, kinds, at="corner")
                    c.take_any("row", "rnd")
                i2 = c.i
                if c.take("before") or c.take("at"):
                    if not (c.take("corner") or (c.take("marker"))):
                        c.i = i2
                more = 0
                return Stop((1 if value is None else value) + more, kinds)
        before = c.i
        ahead = _count(c)
        if ahead is not None:
            c.take_any("st", "sts", "stitch", "stitches", "sc", "dc", "hdc", "tr")
            if not (c.take("before") or c.take("from")):
                c.i, ahead = before, None
        c.take("the")
        if c.text() in ("center", "centre", "middle", "marked") and c.text(1) in (
            "st",
            "stitch",
            "sc",
            "dc",
            "hdc",
            "tr",
            "ch",
            "3",
            "sp",
        ):
            c.i += 1
            kind_here(c)
            if c.take("of"):
                c.take_any("the", "next")
                c.take("corner") or kind_here(c)
            return Stop(ahead or 0, at="center")
        if ahead is not None and c.take_any("marker", "m"):
            return Stop(ahead, at="center")
        if ahead is not None:
            c.i = before
        if c.text() in ("first", "next") and (c.text(1) in ("ch", "chain") or c.value(1) is not None):
            c.i += 1
        if c.text() in ("first", "next") and (c.text(1) in ("ch", "chain") or c.value(1) is not None):
            c.i += 1
        if space := (_spaced(c) if c.text() in ("ch", "chain", "corner") or c.value() is not None else None):
            return Stop(at="space", kinds=(space,))
        if c.take_any("next", "each") or c.text() in ("corner", "marker", "m", "tch"):
            if c.take("corner"):
                c.take_any("sp", "space", "st", "ch")
                return Stop(at="corner")
            if c.take_any("marker", "m"):
                return Stop(at="marker")
            if space := _spaced(c):
                return Stop(at="space", kinds=(space,))
            if c.take("tch"):
                return Stop(left=1, kinds=(Kind("tch"),))
        if c.text() in ("turning", "beg", "top") or c.text() in ("t",):
            c.take("top")
            c.take("of")
            if turning_chain(c) is not None:
                return Stop(left=1, kinds=(Kind("tch"),))
        if c.text() in _STS or c.value() is not None:
            value = _count(c)
            kinds = kinds_here(c)
            if c.take("before") or c.take("from"):
                c.take_any("the", "end", "marker", "corner", "last")
                return Stop(value or 0, kinds)
        c.i = j
        if not found:
            c.i = i
    elif c.take("ending") and c.text() == "at":
        c.i = j
    else:
        c.i = j
    if found:
        return Stop()
    c.i = i
    return None
