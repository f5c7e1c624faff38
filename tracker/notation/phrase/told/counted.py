"""What a count is of: "dc", "ch-2 sps", "petals". The tokens behind a number come in, a name goes out."""

from tracker.notation.phrase.cursor import Cursor, key_of
from tracker.notation.phrase.places.nouns import spaced
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.scan import T
from tracker.notation.tree import ANY

THINGS = frozenset("st sts stitch stitches".split())


SPACES = frozenset("sp sps space spaces lp lps loop loops arch arches hole holes".split())


LOOSE = frozenset(
    "shells shell fans fan petals petal groups group points point corners corner v vs v's clusters "
    "windows window meshes mesh squares square blocks block bl om sps spokes rays ridges leaves leaf "
    "picots triangles scallops waves chevrons peaks valleys bars lacets wedges sections cables crosses x "
    "granny 3 eyelets ribs loops tiles tile trebles eyelet knots bumps motifs repeats repeat".split()
)


_COUNT_ADJECTIVES = frozenset(
    "rem remaining corner new more beg edge total complete full side large small single x bigger larger little big "
    "outer inner tiny back front".split()
)


_AT_THE_EDGE = frozenset("edge end border selvedge selvage side".split())


def counted(c: Cursor) -> str | None:
    """The noun of a count; "?" before one that cannot be checked."""
    inner = stitch_here(c, 2) if c.kind() is T.NUMBER and c.kind(1) is T.HYPHEN else None
    if inner is not None and c.text(2 + inner.tokens).removesuffix("s") in (
        "group",
        "shell",
        "cluster",
        "fan",
    ):
        # "8 3-dc groups"
        c.i += 3 + inner.tokens
        return "?group"
    if c.text() in _AT_THE_EDGE and c.text(1) in THINGS:
        # "10 FPdc, 2 edge sts": of what kind they are is not said
        c.i += 2
        return "?edge"
    while (
        c.text() in _COUNT_ADJECTIVES
        and not (
            c.text() in ("single", "half")
            and c.text(1) in ("crochet", "crochets", "double", "dc", "tr", "treble")
        )
        and not (c.text() in ("front", "back") and c.text(1) == "post")
        and c.kind(1) not in (T.END, T.HYPHEN)
    ):
        if c.text() in ("corner", "side") and c.text(1) in SPACES:
            c.i += 2
            return "corner sp" if c.text(-2) == "corner" else "?side sp"
        c.i += 1
    if c.text() in ("post", "raised") and c.text(1) in THINGS:
        c.i += 2
        return "post"
    space = spaced(c)
    if space is not None:
        return f"ch-{space.chains} sp" if space.chains is not None else "sp"
    if c.text() in ("ch", "chs", "chain", "chains"):
        n = 2 if c.kind(1) is T.HYPHEN else 1
        amount = c.value(n)
        if amount is not None and n == 2:
            c.i += 3
            if c.kind() is T.OPEN and c.text(1) in ("ch", "chain") and (close := c.partners.get(c.i)):
                # "2 ch-4 (ch-5) sps": of other chains in other sizes
                c.i = close + 1
                return "sp" if c.take_any(*SPACES) else "ch"
            if c.text() in ("corner", "corners"):
                c.i += 1
                c.take_any(*SPACES)
            c.take_any(
                "handle", "handles", "strap", "straps", "buttonhole", "buttonholes", "opening", "openings"
            )
            return f"ch-{amount} sp"
        c.i += 1
        return "ch"
    if c.text() in THINGS:
        c.i += 1
        return ANY
    if c.text() in ("post", "raised") or (c.text() in ("fp", "bp") and c.text(1) in THINGS):
        c.i += 2
        return "post"
    stitch = stitch_here(c)
    if stitch is not None and stitch.name not in ("inc", "dec"):
        c.i += stitch.tokens
        c.take_any("st", "sts", "stitches", "stitch", "group", "groups")
        if c.kind() is T.HYPHEN:
            return None
        if stitch.special is not None and (
            stitch.special.base in ("window", "block") or stitch.special.name in c.context.inline
        ):
            return "?" + stitch.name
        if stitch.special is not None and stitch.special.base in ("tile", "beg tile"):
            return "tile"
        if c.text() in ("corners", "corner"):
            c.i += 1
            return "?corner"
        return stitch.name
    if stitch is not None:
        c.i += stitch.tokens
        return "?" + stitch.name
    if (
        c.kind() is T.WORD
        and c.text(1) in (*SPACES, "lps")
        and c.text() in ("ch", "corner", "picot", "open", "mesh")
    ):
        c.i += 2
        return "sp"
    if c.text() in SPACES:
        c.i += 1
        if (
            c.text() == "of"
            and (chains := c.value(1)) is not None
            and c.text(2) in ("ch", "chs", "chain", "chains")
        ):
            # "8 spaces of 1 ch"
            c.i += 3
            return f"ch-{chains} sp"
        return "sp"
    if c.kind() is T.WORD and c.text() in LOOSE:
        word = c.text()
        c.i += 1
        if c.kind() is T.HYPHEN:
            c.i += 2
        return "?" + key_of(word)
    return None
