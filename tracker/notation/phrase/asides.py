"""What brackets and sentences say beside the stitches: counts, what a turning chain stands for, sides.

A list of tokens between two places is looked at; a value comes out when all of it is such a statement, else None.
"""

from tracker.notation.phrase.cursor import Context, Cursor, key_of, stitch_here
from tracker.notation.phrase.places import _spaced, turning_chain
from tracker.notation.scan import T, Token
from tracker.notation.tree import ANY, Stated, Turning
from tracker.problems import Span

_FILLER = frozenset(
    "made now total in all each a of the you will should have has there are is be with and plus rem remain remaining left per corner corners around counting including incl not st "
    "number count counts here at end row rnd round on side sides every both long across this foundation after before done altogether worked stitch "
    "excluding excl ends edge unworked".split()
)
_CHANGE = frozenset("inc'd increased incd dec'd decreased decd inc dec added more fewer".split())
_THINGS = frozenset("st sts stitch stitches".split())
_SPACES = frozenset("sp sps space spaces lp lps loop loops arch arches".split())
_LOOSE = frozenset(
    "shells shell fans fan petals petal groups group points point corners corner v vs clusters windows window meshes mesh squares square blocks block bl om sps spokes rays ridges leaves leaf picots "
    "triangles scallops waves chevrons peaks valleys bars lacets wedges sections cables crosses x granny 3 eyelets ribs loops tiles tile trebles eyelet knots bumps motifs repeats repeat".split()
)


def inner(c: Cursor, start: int, end: int) -> Cursor:
    """A cursor over the tokens from `start` up to, not including, `end`."""
    tokens = c.tokens[start:end]
    at = c.tokens[end].start if end < len(c.tokens) else c.tokens[-1].end
    return Cursor([*tokens, Token(T.END, "", at, at)], c.context)


def count_list(c: Cursor, bare: bool) -> Stated | None:
    """ "24 sts", "11 dc, 10 ch-2 sps", "12 hdc + 4 puffs", "6 sts inc'd"; all tokens must belong to it.

    `bare` also takes a number alone: "(24)".
    """
    start = c.i
    counts: list[tuple[str, int]] = []
    change = partial = lost = False
    c.kind() is T.EQUALS and _step(c)
    while c.kind() is T.DASH:
        c.i += 1
    while c.take_any(
        "you",
        "will",
        "should",
        "now",
        "have",
        "there",
        "are",
        "total",
        "of",
        "a",
        "for",
        "makes",
        "making",
        "gives",
        "stitch",
        "count",
        "counts",
        "is",
        "made",
        "approx",
    ):
        pass
    if c.kind() in (T.COLON, T.EQUALS):
        c.i += 1
    while c.kind() is not T.END:
        if c.text() in ("not", "excluding", "excl", "ignoring", "without"):
            # "24 dc, not counting ch-3": the rest says what is left out
            while c.kind() is not T.END:
                c.i += 1
            break
        if c.text() in ("counting", "including", "incl", "beg", "with") and counts:
            while c.kind() is not T.END and c.kind() is not T.COMMA:
                c.i += 1
            continue
        if c.text() in ("remain", "remaining", "unworked", "left") and counts and c.kind(1) is not T.END:
            partial = True
        if (
            c.text() in ("at", "on", "along", "in", "each", "per", "between", "for", "from", "after")
            and counts
        ):
            words = []
            while c.kind() not in (T.END, T.COMMA, T.SEMICOLON, T.PERIOD):
                words.append(c.text())
                c.i += 1
                if len(words) > 9:
                    return None
            partial = (
                partial
                or bool(
                    {"side", "sides", "between", "each", "edge", "long", "short", "section", "corner"}
                    & set(words)
                )
                and "total" not in words
                and "all" not in words
            )
            if any(w in ("next", "same", "first") for w in words) or (
                words[0] == "in" and words[1:2] not in (["all"], ["total"])
            ):
                return None
            continue
        if c.kind() is T.OPEN and counts and c.partners.get(c.i):
            c.i = c.partners[c.i] + 1
            continue
        value = c.value()
        if value is None:
            if (
                c.kind() in (T.COMMA, T.SEMICOLON, T.DASH, T.COLON, T.EQUALS, T.PERIOD)
                or c.text() in ("+", "&", "and", "plus", "/", '"', "=", "*", "~")
                or c.text() in _FILLER
            ):
                c.i += 1
                continue
            if c.text() in _CHANGE:
                change = True
                c.i += 1
                continue
            if c.text() in ("a", "an", "no", "one"):
                c.i += 1
                save = c.i
                name = _counted(c) if c.text(-1) != "no" else None
                if name is not None and not name.startswith("?"):
                    counts.append((name, 1))
                else:
                    c.i = save
                continue
            return None
        # "3-dc groups", "ch-2 sps", "2-ch sps" come after their number
        c.i += 1
        save = c.i
        if c.kind() is T.HYPHEN and c.text(1) not in ("ch", "chain"):
            return None
        name = _counted(c)
        if name is None:
            c.i = save
            if c.kind() in (T.END, T.PERIOD) and not counts and bare:
                counts.append(("", value))
                continue
            if (
                c.text() in ("total", "in", "now", "each", "made", "inc'd", "increased")
                and bare
                and not counts
            ):
                counts.append(("", value))
                continue
            if c.kind() is T.WORD and c.text() in _LOOSE | _FILLER and counts:
                c.i += 1
                lost = True
                continue
            if c.kind() is T.WORD and (c.text() in _LOOSE or c.text(1) in _LOOSE):
                c.i += 1
                lost = True
                counts.append(("?" + c.text(-1), value))
                while c.kind() is T.WORD and c.text() in _LOOSE | _FILLER:
                    c.i += 1
                continue
            return None
        counts.append((name, value))
        if c.text() in _CHANGE:
            change = True
            c.i += 1
    if not counts:
        return None
    del lost
    kept = tuple(counts)
    return Stated(kept, c.span_from(start), change, partial)


def _step(c: Cursor) -> bool:
    c.i += 1
    return True


def _counted(c: Cursor) -> str | None:
    """The noun of a count; "?" before one that cannot be checked."""
    while (
        c.text()
        in (
            "rem",
            "remaining",
            "corner",
            "new",
            "more",
            "beg",
            "edge",
            "total",
            "complete",
            "full",
            "side",
            "large",
            "small",
            "single",
            "x",
        )
        and not (c.text() == "single" and c.text(1).startswith("crochet"))
        and c.kind(1) is not T.END
    ):
        if c.text() == "corner" and c.text(1) in _SPACES:
            c.i += 2
            return "corner sp"
        c.i += 1
    if c.text() in ("post", "raised") and c.text(1) in _THINGS:
        c.i += 2
        return "post"
    space = _spaced(c)
    if space is not None:
        return f"ch-{space.chains} sp" if space.chains is not None else "sp"
    if c.text() in ("ch", "chs", "chain", "chains"):
        n = 2 if c.kind(1) is T.HYPHEN else 1
        amount = c.value(n)
        if amount is not None and n == 2:
            c.i += 3
            if c.text() in ("corner", "corners"):
                c.i += 1
                c.take_any(*_SPACES)
            return f"ch-{amount} sp"
        c.i += 1
        return "ch"
    if c.text() in _THINGS:
        c.i += 1
        return ANY
    if c.text() in ("post", "raised") or (c.text() in ("fp", "bp") and c.text(1) in _THINGS):
        c.i += 2
        return "post"
    stitch = stitch_here(c)
    if stitch is not None and stitch.name not in ("inc", "dec"):
        c.i += stitch.tokens
        c.take_any("st", "sts", "stitches", "stitch", "group", "groups")
        if c.kind() is T.HYPHEN:
            return None
        if stitch.special is not None and stitch.special.base in ("window", "block"):
            return "?" + stitch.name
        if c.text() in ("corners", "corner"):
            c.i += 1
            return "?corner"
        return stitch.name
    if stitch is not None:
        c.i += stitch.tokens
        return "?" + stitch.name
    if (
        c.kind() is T.WORD
        and c.text(1) in (*_SPACES, "lps")
        and c.text() in ("ch", "corner", "picot", "open", "mesh")
    ):
        c.i += 2
        return "sp"
    if c.text() in _SPACES:
        c.i += 1
        return "sp"
    if c.kind() is T.WORD and c.text() in _LOOSE:
        word = c.text()
        c.i += 1
        if c.kind() is T.HYPHEN:
            c.i += 2
        return "?" + key_of(word)
    return None


_NOT = frozenset("not doesn't doesnt don't dont never no isn't isnt".split())
_THROUGHOUT = frozenset("throughout anywhere always here every hereafter elsewhere".split())


def turning_statement(c: Cursor, strict: bool = True) -> Turning | None:
    """ "counts as dc, ch 2", "does not count as a st", "= 1 dc", "first dc and ch-1 sp made", "not a st".

    With `strict` the tokens must be nothing else.
    """
    words = {token.text for token in c.tokens[: c.end]}
    start = c.i
    made = bool({"made", "formed"} & words) and bool({"first", "beg", "ch"} & words)
    counts = bool({"count", "counts", "counted", "counting", "equals", "replaces"} & words)
    is_a = c.kind() is T.EQUALS or (
        any(t.kind is T.EQUALS for t in c.tokens[: c.end])
        and bool({"ch", "chs", "chain", "skipped", "missed"} & words)
    )
    not_a = bool(_NOT & words) and bool({"st", "stitch", "sts"} & words)
    stands = bool(
        {"stands", "for"} <= words or {"acts", "as"} <= words or {"forms"} <= words and "first" in words
    )
    if not (counts or is_a or not_a or made or stands):
        return None
    if {"marker", "rows", "repeat"} & words:
        return None
    negative = bool(_NOT & words)
    throughout = bool(_THROUGHOUT & words) or ("all" in words and "rows" in words)
    # what it counts as: the stitches after "as", "=", or all of them for "first dc made"
    at = next(
        (
            i
            for i, token in enumerate(c.tokens[: c.end])
            if token.text in ("as", "=", "for", "replaces", "equals", "forms")
        ),
        None,
    )
    c.i = 0 if at is None else at + 1
    if at is None and not (made or counts):
        c.i = 0
    stitches: list[tuple[str, int]] = []
    loose = 0
    while c.kind() is not T.END:
        space = _spaced(c)
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
            c.i += 1
            continue
        if c.value() is not None and c.text(1) in ("ch", "chs") and at is not None:
            stitches.append(("sp", c.value() or 1))
            c.i += 2
            continue
        if c.value() is not None and c.text(1) in ("base", "unworked", "skipped", "foundation"):
            while c.kind() not in (T.END, T.COMMA) and c.text() not in ("and", "+"):
                c.i += 1
            continue
        amount = c.value() or 1
        ahead = 1 if c.value() is not None else 0
        stitch = stitch_here(c, ahead)
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
    if not named and not ({"st", "stitch", "sts"} & words) and not counts:
        return None
    if strict and loose > 22:
        return None
    first = named[0] if named else None
    space_chains = next((n for name, n in stitches if name == "sp"), 0)
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


def context_name(context: Context) -> str | None:
    """The row being read, for reports."""
    return context.row


__all__ = ["context_name", "count_list", "inner", "side_here", "turning_chain", "turning_statement"]
