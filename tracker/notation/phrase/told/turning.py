"""What is said of turning chains, and of the side that faces: "counts as dc, ch 2", "RS".

A list of tokens between two places is looked at; a value comes out when all of it is such a statement, else None.
"""

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.places.nouns import spaced
from tracker.notation.phrase.stitches import base_of, stitch_here
from tracker.notation.scan import T, Token
from tracker.notation.tree import Turning
from tracker.problems import Span
from tracker.trade.stitches import height_of

_NOT = frozenset(
    "not doesn't doesnt don't dont never no isn't isnt aren't nothing "
    "ignore ignored ignoring disregard disregarded".split()
)


_IGNORED = frozenset("ignore ignored ignoring disregard disregarded disregarding".split())
_IGNORING = _IGNORED | frozenset(
    "it this that them these those the first two three 1 2 3 ch chs chain chains skipped missed you turning tch is are "
    "be to always throughout again".split()
)
"""All the words of "(ignore the two you skipped)"."""
_SAYS_AS = frozenset("as count counts counted".split())
_SERVES = frozenset("acts act stands stand serves serve used considered treated regarded taken".split())
"""What a chain does "as" a stitch, where it does not count as one."""
_STANDS_IN = ("replace", "replaces", "replacing", "substitute", "substitutes")
_TOTALS = frozenset("include includes included including leave leaves omit omits".split())
"""What is said of the numbers behind rows."""
_MOST = 2
"""Stitches that a chain stands for at most."""
_THROUGHOUT = frozenset("throughout anywhere always here every hereafter elsewhere".split())


def _counted_beside(c: Cursor) -> bool:
    """True where "counting" stands behind a count: "8 lps, counting the beg ch as one"."""
    words = [token.text for token in c.tokens[c.i : c.end]]
    at = words.index("counting")
    return at >= 2 and words[at + 1 : at + 2] != ["as"]


_BESIDE = frozenset("arch loop lp sp space".split())
"""What else a turning chain counts as, beside a stitch."""


def turning_statement(c: Cursor, strict: bool = True, chains: int = 0) -> Turning | None:
    """ "counts as dc, ch 2", "does not count as a st", "= 1 dc", "first dc and ch-1 sp made", "not a st".

    With `strict` the tokens must be nothing else; `chains` is how many the chain has, 0 where that is not known.
    """
    words = {token.text for token in c.tokens[: c.end]}
    start = c.i
    if c.kind() is T.NUMBER and "counting" in words and not _SAYS_AS & words:
        # "25 dc, counting beg ch-3": a count of the row
        return None
    if (
        c.kind() is T.NUMBER
        and c.text(1) not in ("ch", "chs", "chain", "chains")
        and "counting" in words
        and _counted_beside(c)
    ):
        # "8 sc, 8 lps counting the beg ch as one": a count of the row that says what is in it
        return None
    numbers = [token.value for token in c.tokens[: c.end] if token.kind is T.NUMBER]
    if (
        "count" in words
        and numbers
        and not {"as", "ch", "chs", "chain", "chains", "tch", "not", *_NOT} & words
    ):
        # "[st count 21]": of the row
        return None
    if {"you", "we"} & words and "as" in words and not {"first", "st", "stitch", "1", "a"} & words:
        # "counting as you go"
        return None
    made = bool({"made", "formed"} & words) and bool({"first", "beg", "ch"} & words)
    if made and ({"in", "into"} & words or any(token.kind is T.OPEN for token in c.tokens[: c.end])):
        # "[ch 3, sl st in 3rd ch (picot made), sc in next 3 sts]" is work
        made = False
    counts = bool({"count", "counts", "counted", "counting", "equals", *_STANDS_IN} & words)
    is_a = c.kind() is T.EQUALS or (
        any(t.kind is T.EQUALS for t in c.tokens[: c.end])
        and bool({"ch", "chs", "chain", "skipped", "missed"} & words)
    )
    not_a = bool(_NOT & words) and bool({"st", "stitch", "sts"} & words)
    stands = bool(
        {"stands", "for"} <= words
        or {"is", "first"} <= words
        and bool({"ch", "this", "that", "it"} & words or c.text() == "is")
        or {"stand", "for"} <= words
        or {"as"} <= words
        and bool(_SERVES & words)
        or {"forms"} <= words
        and "first" in words
    )
    if _IGNORED & words and words <= _IGNORING:
        return Turning(
            False, None, 0, bool(_THROUGHOUT & words), Span(c.tokens[start].start, c.tokens[c.end - 1].end)
        )
    if not (counts or is_a or not_a or made or stands):
        return None
    if {"marker", "rows", "repeat"} & words:
        return None
    if (
        is_a
        and not counts
        and any(
            token.kind is T.EQUALS and (c.value(k + 1 - c.i) or 0) > _MOST
            for k, token in enumerate(c.tokens[: c.end])
        )
    ):
        # "(= 24 sc)", "Ch 1, 24 sc in ring = 24 sc": a count of the row
        return None
    negative = bool(_NOT & words)
    if words & _TOTALS:
        # "counts as a stitch, but the numbers do not include it": of the numbers, and not of the chain
        if "as" not in words:
            return None
        said = [token.text for token in c.tokens[: c.end]]
        negative = any(text in _NOT and not _TOTALS & set(said[k : k + 4]) for k, text in enumerate(said))
    throughout = bool(_THROUGHOUT & words) or ("all" in words and "rows" in words)
    # what it counts as: the stitches after "as", "=", or all of them for "first dc made"
    at = next(
        (
            i
            for i, token in enumerate(c.tokens[: c.end])
            if token.text in ("as", "=", "for", "equals", "forms", *_STANDS_IN)
        ),
        None,
    )
    c.i = 0 if at is None else at + 1
    stitches: list[tuple[str, int]] = []
    loose = 0
    while c.kind() is not T.END:
        space = spaced(c)
        if space is not None:
            stitches.append(("sp", space.chains or 1))
            continue
        if c.text() in ("ch", "chs", "chain"):
            n = 2 if c.kind(1) is T.HYPHEN else 1
            value = c.value(n)
            if value is not None and at is not None:
                stitches.append(("sp", value))
                c.i += n + 1
                continue
            beside = c.text(-1) in ("+", "and", "&", "plus") and stitches and chains
            if beside and value is None and c.text(1) not in ("of", "space", "sp"):
                # "(counts as dc + ch)": the chains that its stitch does not take
                stitches.append(("sp", max(1, chains - height_of(stitches[0][0]))))
            c.i += 1
            continue
        if c.value() is not None and c.text(1) in ("ch", "chs", "chain", "chains") and at is not None:
            stitches.append(("sp", c.value() or 1))
            c.i += 2
            continue
        if c.value() is not None and c.text(1) in ("base", "unworked", "skipped", "foundation"):
            while c.kind() not in (T.END, T.COMMA) and c.text() not in ("and", "+"):
                c.i += 1
            continue
        whole = stitch_here(c) is not None
        amount = 1 if whole else c.value() or 1
        ahead = 1 if c.value() is not None and not whole else 0
        stitch = stitch_here(c, ahead)
        if stitch is not None and stitch.special is not None and stitch.special.base == "window":
            # "first open mesh made": a stitch and its space
            c.i += ahead + stitch.tokens
            stitches.extend([("dc", 1), ("sp", stitch.special.closes)])
            continue
        if (
            stitch is not None
            and stitch.special is not None
            and stitch.special.base in ("block", "beg block")
        ):
            # "first block made": the chain is the stitch it begins with
            c.i += ahead + stitch.tokens
            stitches.append(("dc", 1))
            continue
        if stitch is not None and stitch.name not in ("inc", "dec", "slst"):
            c.i += ahead + stitch.tokens
            stitches.extend([(stitch.name, 1)] * min(amount, 8))
            continue
        if c.kind() is T.WORD:
            loose += 1
        c.i += 1
    span = Span(c.tokens[start].start, c.tokens[max(start, c.end - 1)].end)
    if negative:
        if {"counting"} & words and not ({"count", "counts"} & words) and not not_a:
            return None
        return Turning(False, None, 0, throughout, span)
    named = [name for name, _ in stitches if name != "sp"]
    if made and not named and {"dec", "decrease"} & words:
        # "ch 2, dc in next dc (beg dec made)"
        return Turning(True, "dec", 0, throughout, span)
    if not named and not ({"st", "stitch", "sts"} & words) and not counts:
        return None
    if strict and loose > 22:
        return None
    first = named[0] if named else None
    space_chains = next((n for name, n in stitches if name == "sp"), 0)
    if first is not None and chains and not space_chains and _BESIDE & words and c.kind(-1) is not T.NUMBER:
        # "5 ch (counts as 1 tr and half arch)": the chains that its stitch does not take
        space_chains = max(0, chains - height_of(first))
    more = tuple(f"sp{n}" if name == "sp" else name for name, n in stitches[1:]) if len(stitches) > 2 else ()
    return Turning(True, first, space_chains, throughout, span, more)


def side_here(c: Cursor) -> str | None:
    """ "RS", "WS facing", "right side" as all of the tokens: "RS" or "WS"."""
    words = [token.text for token in c.tokens[: c.end] if token.kind is T.WORD]
    if not words or len(words) > 6:
        return None
    text = " ".join(words)
    if words[0] in ("rs", "ws") and len(words) <= 3:
        return words[0].upper()
    if text in (
        "right side",
        "right side facing",
        "wrong side",
        "wrong side facing",
        "with rs facing",
        "with ws facing",
    ):
        return "RS" if ("right" in words or "rs" in words) else "WS"
    return None


_STANDS = tuple(
    tuple(words.split())
    for words in (
        "for", "as", "in place of", "in lieu of", "instead of", "to replace", "to represent", "to equal",
        "replacing", "representing", "standing for", "standing in for", "to count as", "to stand for",
        "to stand in for", "to act as", "to be", "to make", "counting as", "acting as", "equal to", "to stand as",
        "to form", "to serve as", "making", "forming",
    )
)  # fmt: skip
"""What may stand between a turning chain and the stitch that it is."""
STANDS = frozenset(words[0] for words in _STANDS)


def stood_for(c: Cursor) -> Turning | None:
    """ "For first dc", "to count as 1 dc and ch 1" behind a chain; None, and nothing taken, for other words."""
    i = c.i
    lead = next((words for words in sorted(_STANDS, key=len, reverse=True) if c.take(*words)), ())
    counted = "count" in lead or "counting" in lead or "stand" in lead
    while c.take_any("the", "a", "your", "my", "one"):
        pass
    counted and c.value() == 1 and c.step()
    named = c.take_any("first", "1st", "beginning", "beg")
    stitch = stitch_here(c) if lead and (named or counted) else None
    if stitch is None or stitch.special is not None:
        c.i = i
        return None
    c.i += stitch.tokens
    space = 0
    if c.text() in ("and", "&", "plus", "+"):
        at = c.i
        c.i += 1
        c.take_any("the", "a", "first")
        if (sp := spaced(c)) is not None and sp.chains:
            space = sp.chains
        elif c.text() in ("ch", "chain") and c.value(1) is not None:
            space = c.value(1) or 0
            c.i += 2
        elif c.value() is not None and c.text(1) in ("ch", "chain"):
            space = c.value() or 0
            c.i += 2
        else:
            c.i = at
    return Turning(True, stitch.name, space, False, c.span_from(i))


_SAYS = frozenset(
    "counts count stands replaces equals acts does doesn't will is isn't counting serves".split()
)
SAYS = frozenset(
    "which that this these they it counts count counted counting stands serves acts replaces equals does doesn't do "
    "don't not is isn't never will".split()
)
"""Words by which something is said of the chain before them."""


def says_of(c: Cursor) -> Turning | None:
    """ ", which counts as your first hdc,", ", not counted as a st," behind a chain.

    None, with the cursor where it was, for other words.
    """
    start = c.i
    if c.text(1) not in _SAYS and c.text() not in SAYS:
        return None
    end = start
    while end < c.end and c.tokens[end].kind not in (T.COMMA, T.PERIOD, T.SEMICOLON, T.CLOSE, T.STAR):
        if c.tokens[end].text == "and" and c.tokens[end + 1].text in ("work", "make"):
            break
        end += 1
    found = turning_statement(Cursor([*c.tokens[start:end], Token(T.END, "", 0, 0)], c.context))
    if found is not None:
        c.i = end
    return found


def stands_for(c: Cursor) -> Turning | None:
    """ "dc + ch 1", "first dc and ch-2 sp", "first dc" as all of the tokens in a bracket behind a turning chain."""
    named = c.take_any("first", "1st", "1")
    stitch = stitch_here(c)
    if stitch is None or stitch.special is not None:
        return None
    c.i += stitch.tokens
    if named and c.kind() is T.END:
        return Turning(True, stitch.name, 0, False, Span(c.tokens[0].start, c.tokens[c.end - 1].end))
    if not (c.take_any("and", "plus", "&") or c.text() == "+" and c.step()):
        return None
    space = spaced(c)
    chains = space.chains if space is not None else None
    if space is None and c.take_any("ch", "chain"):
        if c.kind() is T.HYPHEN:
            c.i += 1
        chains = c.value()
        c.i += 1
    if chains is None or c.kind() is not T.END:
        return None
    return Turning(True, stitch.name, chains, False, Span(c.tokens[0].start, c.tokens[c.end - 1].end))


def named_first(c: Cursor) -> Turning | None:
    """ "First dc", "this is your first dc", "for 1st tr throughout", "1 dc" as all of the tokens behind a chain."""
    while c.take_any(*_NAMING):
        pass
    if c.value() == 1:
        c.i += 1
    stitch = stitch_here(c)
    if stitch is None or stitch.special is not None or base_of(stitch.name) != stitch.name:
        return None
    c.i += stitch.tokens
    throughout = False
    while word := c.take_any(*_NAMED_BEHIND, *_THROUGHOUT):
        throughout = throughout or word in _THROUGHOUT and word != "here"
    if c.kind() is not T.END:
        return None
    return Turning(True, stitch.name, 0, throughout, Span(c.tokens[0].start, c.tokens[c.end - 1].end))


_NAMED_BEHIND = frozenset(
    "made done now of the row rnd round already worked st and in all rows on each".split()
)
"""What may stand behind it."""
_NAMING = frozenset("this that it is it's your the a as ch chain now first 1st for".split())
"""What may stand before the stitch that a chain is."""


def left_out(c: Cursor) -> Turning | None:
    """ "Not included in st count" as all of the tokens in a bracket behind a chain: it does not count."""
    words = {token.text for token in c.tokens[: c.end]}
    if words & _NOT and words & _TOTALS and not (words & {"but", "as"}):
        throughout = bool(_THROUGHOUT & words)
        return Turning(False, None, 0, throughout, Span(c.tokens[0].start, c.tokens[c.end - 1].end))
    return None
