"""What a pattern calls the things it works into: "st", "sc and ch", "ch-2 sp", "shell", "tch".

The cursor stands on the first word; it moves past a noun, or stays where it was.
"""

from tracker.notation.phrase.cursor import STOPS, Cursor
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.scan import T
from tracker.notation.tree import ANY, SPACE, Kind

PREPOSITIONS = frozenset(
    "in into to over around on through round along onto inside at across under between bet betw btwn".split()
)
STS = frozenset("st sts stitch stitches sts. loops".split())


SPACES = frozenset(
    "sp sps space spaces lp lps loop loops arch arches gap gaps chsp chsps lace bar bars handle handles "
    "eyelet eyelets hole holes opening openings buttonhole buttonholes slit slits".split()
)


CHAINS = frozenset("ch chs chain chains".split())
CHAINING = CHAINS | {"chaining"}
POSTS = ("post", "stem")
"""What a raised stitch goes around."""
GAP_WORDS = ("between", "bet", "betw", "btwn")
_BEGINNINGS = (
    "turning beg beginning starting first skipped start initial foundation unworked missed prev previous"
).split()
"""What may stand before the chains of a turning chain."""
_GROUPS = frozenset("group groups grp grps cluster clusters petal petals".split())
_MESHES = frozenset("mesh window windows".split())
_MOTIFS = frozenset("fan fans shell shells motif scallop scallops point points".split())


_ADJECTIVES = frozenset(
    "corner side center centre middle unworked held resting waiting skipped made working main indicated little big "
    "standing underarm foundation unused free starting beginning beg corresponding adjacent large small long short "
    "solid open plain outer outside joined "
    "following foll facing turning heel toe thumb body cuff brim hand foot crown hem sole "
    "leg arm head neck sleeve flap ankle wrist palm instep gusset".split()
)


def spaced(c: Cursor) -> Kind | None:
    """ "ch-2 sp", "2-ch sp", "ch 2 sp", "ch sp", "ch-sp", "ch-3 lp", "5-ch loop": the cursor moves past it."""
    i = c.i
    chains: int | None = None
    if c.text() in CHAINS:
        n = 1
        if c.kind(n) is T.HYPHEN:
            n += 1
        if (value := c.value(n)) is not None:
            chains, n = value, n + 1
        if c.kind(n) is T.HYPHEN:
            n += 1
        if c.text(n) in ("corner", "turning") and c.text(n + 1) in SPACES:
            n += 1
        if c.text(n) in SPACES:
            c.i += n + 1
            return Kind(SPACE, chains)
        c.i = i
        return None
    if c.value() is not None:
        n = 1
        if c.kind(n) is T.HYPHEN:
            n += 1
        if c.text(n) in CHAINS:
            m = n + 1
            if c.kind(m) is T.HYPHEN:
                m += 1
            if c.text(m) == "corner":
                m += 1
            if c.text(m) in SPACES:
                chains = c.value()
                c.i += m + 1
                return Kind(SPACE, chains)
    return None


def chain_at(c: Cursor, ahead: int) -> tuple[int, int] | None:
    """ "Ch-20", "the ch 20 handle": how many chains, and the tokens up to their end; None for a space or no chain."""
    n = ahead
    while c.text(n) in ("the", "next", "first", "last", "each"):
        n += 1
    if c.text(n) not in CHAINS:
        return None
    n += 1 + (c.kind(n + 1) is T.HYPHEN)
    chains = c.value(n)
    n += 1
    n += c.kind(n) is T.HYPHEN
    if chains is None or chains < MANY_CHAINED or c.text(n) in SPACES:
        return None
    return chains, n + (c.text(n) in ("handle", "handles", "strap", "chain", "chains"))


MANY_CHAINED = 5
"""Chains that are worked around as a whole; of fewer, "over ch-1" may mean the stitch below."""


def chain_told(c: Cursor) -> bool:
    """True for "to the ch 3", "to first ch 3": the chain of before, written as if it were still to be made."""
    said = (
        c.text(-1) in ("to", "into", "the") or c.text(-1) == "first" and c.text(-2) in ("to", "the", "into")
    )
    return (
        said
        and c.value(1) is not None
        and (c.kind(2) in (*STOPS, T.OPEN) or c.text(2) in ("with", "to", "and"))
    )


def turning_chain(c: Cursor) -> int | None:
    """Takes "tch", "turning ch", "beg ch-3", "3 ch", "ch-3", "t-ch", "skipped chs": chains, 0 when not said."""
    i = c.i
    c.take("the")
    begun = c.take_any("starting", "initial") if c.text(1) in _BEGINNINGS else ""
    if c.take_any("tch", "tchain"):
        return 0
    if c.text() == "t" and c.kind(1) is T.HYPHEN and c.text(2) in ("ch", "chain"):
        c.i += 3
        return 0
    adjective = c.take_any(*_BEGINNINGS) or begun
    if adjective and c.text() in ("skipped", "missed"):
        # "3rd ch of beg skipped ch"
        adjective = c.take_any("skipped", "missed")
    value = c.value()
    if value is not None and (c.text(1) in CHAINS or (c.kind(1) is T.HYPHEN and c.text(2) in CHAINS)):
        c.i += 2 if c.text(1) in CHAINS else 3
        if not adjective and (c.text() in SPACES or c.text() == "corner" and c.text(1) in SPACES):
            c.i = i
            return None
        c.take("sp")
        return value
    if c.text() in CHAINS:
        n = 1
        if c.kind(n) is T.HYPHEN:
            n += 1
        amount = c.value(n)
        if (
            amount is not None
            and c.text(n + 1) not in SPACES
            and not (c.text(n + 1) == "corner" and c.text(n + 2) in SPACES)
            and not (c.kind(n + 1) is T.HYPHEN and c.text(n + 2) in SPACES)
        ):
            c.i += n + 1
            return amount
        of_space = adjective != "turning" and amount is not None and SPACES & {c.text(n + 1), c.text(n + 2)}
        if adjective and adjective != "first" and c.text(1) not in SPACES and not of_space:
            c.i += 1
            return 0
    c.i = i
    return None


def kind_here(c: Cursor) -> Kind | None:
    """A noun: "st", "sc", "ch-2 sp", "ch", "shell", "tch"; the cursor moves past it."""
    i = c.i
    if c.text() in ("corner", "corners"):
        c.i += 1
        space = spaced(c)
        if space is not None:
            return Kind("corner sp", space.chains)
        if c.take_any("sp", "sps", "space", "spaces", "lp", "loop", "loops"):
            return Kind("corner sp")
        if c.text() in CHAINS and c.value(1) is None and c.kind(1) is not T.HYPHEN:
            c.i += 1  # "3 sc in corner ch", of a foundation
        c.take_any("st", "sts", "stitch", "sc", "lp", "loop", "loops", "dc", "hdc", "htr", "tr")
        return Kind("corner")
    if c.text() in ("single", "lone") and (alone := stitch_here(c, 1)) is not None:
        # "next single dc": one that stands alone, not one of a group
        c.i += 1 + alone.tokens
        return Kind("single " + alone.name)
    while (
        c.text() in _ADJECTIVES
        and not (c.text() == "turning" and c.text(1) in CHAINS)
        and not (c.text() in ("beg", "beginning", "starting", "initial") and c.text(1) in CHAINS)
    ):
        # "beg cluster", "beg-CL"
        c.i += 2 if c.kind(1) is T.HYPHEN and c.kind(2) is T.WORD and c.text(2) not in CHAINS else 1
    if c.text() in ("post", "raised") and c.text(1) in STS:
        c.i += 1
    if c.text() in ("strap", "straps", "handle", "handles", "armhole", "armholes"):
        # "24 sc over each strap chain"
        c.i += 1
        c.take_any(*CHAINS, *SPACES)
        return Kind(SPACE)
    if c.text() in STS and c.text() not in SPACES:
        c.i += 1
        if c.text() in STS:
            c.i += 1
        return Kind(ANY)
    if space := spaced(c):
        return space
    if c.value() is not None and c.kind(1) is T.HYPHEN and c.kind(2) is T.WORD:
        # "3-sc corner", "5-dc group"
        save = c.i
        c.i += 2
        stitch = stitch_here(c)
        if stitch:
            c.i += stitch.tokens
            if c.take_any("group", "grp", "groups", "corner", "cluster", "shell", "fan", "inc"):
                return Kind("group")
        c.i = save
    if c.text() in SPACES and c.text() not in ("bar", "bars"):
        c.i += 1
        return Kind(SPACE, _formed_by(c))
    begins_chain = (
        c.text() in ("tch", "tchain")
        or (c.text() == "t" and c.kind(1) is T.HYPHEN)
        or (c.text() in ("turning", "beg", "beginning", "starting", "initial") and c.text(1) in CHAINS)
    )
    if begins_chain and turning_chain(c) is not None:
        return Kind("tch")
    if c.text() in CHAINS:
        # "next ch": one chain; "next ch-3" with no noun after it: the space
        n = 2 if c.kind(1) is T.HYPHEN else 1
        amount = c.value(n) if n == 2 or chain_told(c) else None
        if amount is not None:
            c.i += n + 1
            c.take_any("handle", "handles", "strap", "straps", "opening", "openings")
            return Kind(SPACE, amount)
        if c.text(1) in SPACES and c.text(1) not in ("bar", "bars"):
            c.i += 2  # "4 dc in ch loop"
            return Kind(SPACE)
        c.i += 1
        return Kind("ch")
    stitch = stitch_here(c)
    if stitch is not None:
        c.i += stitch.tokens
        name = stitch.name.split(":")[-1]
        if c.text() in STS and c.text() not in SPACES:
            c.i += 1
        if not c.take_any("group", "groups", "grp", "grps") and stitch.special is not None:
            c.take_any("sp", "sps", "space", "spaces", "lp", "loop")  # "next shell sp": its middle
        return Kind("dec" if name == "dec" else name)
    if c.text() in _MOTIFS | _GROUPS:
        c.i += 1
        return Kind("group")
    if (
        c.text() == "v"
        and (c.kind(1) is T.HYPHEN and c.text(2) in STS or c.text(1) in STS)
        or c.text() == "vst"
    ):
        # a V that no list defines: the space in its middle
        c.i += 1 if c.text() == "vst" else 3 if c.kind(1) is T.HYPHEN else 2
        return Kind("corner sp")
    if c.text() in _MESHES:
        c.i += 1
        return Kind(SPACE)
    c.i = i
    return None


def _formed_by(c: Cursor) -> int | None:
    """Takes "formed by ch-5", "of 5 ch" behind a space: its chains; None, and nothing taken, for other words."""
    i = c.i
    if c.take_any("formed", "made") and c.take_any("by", "of", "with"):
        c.take_any("the", "a")
        hyphen = 1 + (c.kind(1) is T.HYPHEN)
        chains = c.value(hyphen) if c.text() in CHAINS else c.value() if c.text(hyphen) in CHAINS else None
        if chains is not None:
            c.i += hyphen + 1
            return chains
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
            or (c.kind() is T.OTHER and c.text() in ("&", "/") and c.step())
            or (c.kind() is T.COMMA and _list_goes_on(c, len(kinds) > 1))
        ):
            c.take("in") or c.take("into")
            c.take_any("each", "ea", "every", "all")
            c.take("of")
            c.take("the")
            if (
                c.value() is not None
                and c.text(1) in CHAINS
                and c.text(2) not in SPACES
                and c.text(-1) in ("the", "of")
            ):
                c.i += 1
            if c.value() is not None and not (c.kind(1) is T.HYPHEN or c.text(1) in CHAINS):
                c.i = i
                break
            more = kind_here(c)
            if (
                more is not None
                and c.kind() is not T.COLON
                and c.text() not in ("in", "into", "over")
                and not (more.name == "slst" and c.text() == "to")
                and not (
                    c.text() in ("around", "round")
                    and (c.text(1) in OWN_PLACE or stitch_here(c, 1) is not None)
                )
                and not (more.name == "ch" and c.value() is not None)
            ):
                kinds.append(more)
                continue
        c.i = i
        break
    return tuple(kinds)


OWN_PLACE = frozenset("next each every following foll post same first last".split())
"""Words of a place that a stitch named before "around" has for itself: "FPdc around next st and BPdc around next"."""


def _list_goes_on(c: Cursor, listed: bool) -> bool:
    """Takes a comma inside "sc, hdc and dc"; leaves one that ends the phrase. `listed`: behind others of the list."""
    i = c.i
    c.i += 1
    if c.text() in ("and", "&"):
        # "each sc, hdc, and ch-1 sp"; "sc in each dc, and dc in last st" works on
        c.i += 1
        last = kind_here(c)
        more = last is not None and (listed or last.name == SPACE) and c.text() not in ("in", "into", "over")
        c.i = i + 2 if more else i
        return more
    if c.text() in ("each", "every") and (c.text(-2) in STS or stitch_here(c, -2) is not None):
        # "each tr, each 1-ch sp and each dc": told of every one
        c.i += 1
        listed = kind_here(c) is not None and c.text() in ("and", "&") and c.text(1) in ("each", "every")
        c.i = i + 1 if listed else i
        return listed
    if c.text() in ("each", "every", "and") or c.value() is not None:
        c.i = i
        return False
    kind = kind_here(c)
    more = kind is not None and (
        c.text() in ("and", "&") or (c.kind() is T.COMMA and bool({"and", "&"} & {c.text(1), c.text(2)}))
    )
    more = more and (c.kind() is T.COMMA or noun_behind(c))
    c.i = i + 1 if more else i
    return more


def noun_behind(c: Cursor) -> bool:
    """True for an "and" before a further place; not in "7 sts, sc2tog and sc in last st", where that is worked."""
    i = c.i
    c.i += 1
    while c.take_any("in", "into", "each", "every", "all", "the", "of", "next"):
        pass
    named = c.value() is not None or kind_here(c) is not None and c.text() not in ("in", "into", "over")
    c.i = i
    return named


def number_here(c: Cursor) -> int | None:
    """A number of places, not the "2" of "2-ch sp"."""
    value = c.value()
    if value is None or stitch_here(c) is not None:
        return None
    if c.kind(1) is T.HYPHEN and c.text(2) in CHAINS:
        return None
    one_more = c.kind(2) is T.HYPHEN and c.value(3) is not None
    if (
        c.text(1) in CHAINS
        and not one_more
        and (c.text(2) in SPACES and c.text(2) != "lp" or c.kind(2) is T.HYPHEN)
    ):
        # "2 ch sp" is one space of two chains, "2 ch-3 sps" are two spaces
        return None
    c.i += 1
    return value


def many_of(many: int | None) -> int:
    """How many places: 1 when no number was said; 0 stays 0, a size in which nothing is worked there."""
    return 1 if many is None else many
