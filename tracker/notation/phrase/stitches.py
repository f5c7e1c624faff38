"""The name of a stitch as it stands in a row: "half double crochet", "dc 3 tog", "FPdc", a name of the pattern's own.

A cursor comes in and stays where it is; a Stitch comes out, or None where no name stands.
"""

from tracker.expressions import expression
from tracker.notation.pattern import Special
from tracker.notation.phrase.cursor import Cursor, key_of
from tracker.notation.scan import T
from tracker.records import dataclass
from tracker.trade.spellings import stitch_named
from tracker.trade.stitches import parts_of, written


@dataclass(slots=True)
class Stitch:
    """A stitch's name as it stands in a row."""

    name: str
    """Name inside; "inc" and "dec" for those; the special's own name for specials."""
    tokens: int
    """How many tokens it takes."""
    loop: str = ""
    """"back" or "front" when the name says one, "" when not."""
    special: Special | None = None
    """The definition, for a stitch of the pattern's own."""


_NOT_STITCHES = frozenset(
    "in into each next of and st sts sp sps the to rep from around across ch turn sk row rnd with "
    "work join block p s c a k m "
    "lp ps".split()
)
"""Words that are never a stitch by themselves."""
_OPENERS = frozenset("p block ps pc s c sp".split())
"""Words that are a stitch only together with what follows: "p st", "s c"."""
_JOINTS = frozenset("in into and to of next each st sts".split())
"""Words that end a name, except behind one of these:"""
_OF_SEVERAL = frozenset("cluster clusters cl cls bobble bobbles popcorn popcorns pc puff puffs".split())
"""Stitches that are told by how many others they are made of."""
_UNFINISHED = frozenset("sl slip sp puff popcorn bobble spike crab cluster reverse".split())
_INCREASES = frozenset("inc increase incs incr".split())
_DECREASES = frozenset("dec decrease decs invdec decr".split())
_CHANGES = expression(r"(?P<base>[a-z]+)(?P<n>[2-9])(?P<how>inc|dec)s?$")
"""Increases and decreases that name their stitch: "dc2inc", "htr3dec"."""
_POST = {"front": "fp", "back": "bp"}
_ADJECTIVES = {"extended": "e", "foundation": "f", "linked": "l", "spike": "sp"}


def stitch_here(c: Cursor, ahead: int = 0) -> Stitch | None:
    """The name of a stitch that stands at a place; names that the pattern defines win over the trade's."""
    if c.kind(ahead) is T.NUMBER:
        slashed = c.text(ahead + 1) == "/" and c.kind(ahead + 2) is T.NUMBER
        own = _own(c, ahead) if c.context.specials and (slashed or _glued(c, ahead)) else None
        return own or _of_several(c, ahead) or _so_many_together(c, ahead)
    if c.kind(ahead) is not T.WORD:
        return None
    if c.context.specials and (own := _own(c, ahead)) is not None:
        return own
    if c.text(ahead) in ("invisible", "inv") and c.kind(ahead + 1) is T.WORD:
        inner = stitch_here(c, ahead + 1)
        if inner is not None and inner.special is None:
            return Stitch("dec", inner.tokens + 1, inner.loop) if inner.name == "dec" else None
    built = _built(c, ahead)
    if built is not None:
        return built
    found = _words(c, ahead)
    if found is None or found.name in ("inc", "dec"):
        return found
    return _completed(c, ahead, found)


def _glued(c: Cursor, ahead: int) -> bool:
    """True for the number of "2dcCL" and of "3-dc cluster", which is part of the name."""
    return c.token(ahead).end == c.token(ahead + 1).start and c.kind(ahead + 1) in (T.WORD, T.HYPHEN)


def _of_several(c: Cursor, ahead: int) -> Stitch | None:
    """ "5-dc bobble", "2-dc cluster": how it is made, and then what it is."""
    if c.kind(ahead + 1) is not T.HYPHEN or c.kind(ahead + 2) is not T.WORD:
        return None
    of = stitch_here(c, ahead + 2)
    at = ahead + 2 + (of.tokens if of is not None else 0)
    if of is None or of.special is not None or c.text(at) not in _OF_SEVERAL:
        return None
    whole = stitch_here(c, at)
    return None if whole is None else Stitch(whole.name, at - ahead + whole.tokens, special=whole.special)


def _so_many_together(c: Cursor, ahead: int) -> Stitch | None:
    """ "2 dc tog": a decrease that is told by its number first."""
    many = c.value(ahead) or 0
    if c.text(ahead - 1) in ("next", "first", "last", "following", "foll", "over", "the", "of"):
        # "work next 2 sc tog" names what is worked together
        return None
    plain = stitch_here(c, ahead + 1) if 1 < many < 10 and c.kind(ahead + 1) is T.WORD else None
    if plain is None or plain.special is not None or base_of(plain.name) != plain.name:
        return None
    if c.text(ahead + 1 + plain.tokens) not in ("tog", "together"):
        return None
    return Stitch(f"{plain.name}{many}tog", plain.tokens + 2, plain.loop)


def _own(c: Cursor, ahead: int) -> Stitch | None:
    """The longest name here that the pattern defines."""
    specials = c.context.specials
    words = ""
    best: Stitch | None = None
    for n in range(6):
        kind = c.kind(ahead + n)
        slash = kind is T.OTHER and c.text(ahead + n) == "/" and n
        if kind not in (T.WORD, T.HYPHEN, T.NUMBER) and not slash:
            break
        if kind is T.HYPHEN or slash:
            # "X-st", and "2/2 RC" of cables
            continue
        words += c.text(ahead + n)
        key = key_of(words)
        special = (
            specials.get(key) or specials.get(key.removesuffix("s")) or specials.get(key.removesuffix("es"))
        )
        if key == "a" and c.kind(ahead + 1) is T.WORD and c.text(ahead + 1) != "x":
            special = None
        if special is not None and key:
            best = Stitch(special.name, n + 1, special=special)
            if c.text(ahead + n + 1) in ("st", "sts", "stitch", "stitches"):
                best.tokens += 1
    return best


def _built(c: Cursor, ahead: int) -> Stitch | None:
    """A stitch told by another: "front post dc", "raised treble front", "extended sc", "fp dc"."""
    first = c.text(ahead)
    if first in _POST and c.text(ahead + 1) == "post":
        inner = stitch_here(c, ahead + 2)
        if inner is not None and inner.special is None:
            return Stitch(_POST[first] + inner.name, inner.tokens + 2)
    if first == "raised":
        inner = stitch_here(c, ahead + 1)
        if inner is not None and c.text(ahead + 1 + inner.tokens) in _POST:
            return Stitch(_POST[c.text(ahead + 1 + inner.tokens)] + inner.name, inner.tokens + 2)
    if (first in ("fp", "bp") or first in _ADJECTIVES) and c.kind(ahead + 1) is T.WORD:
        inner = stitch_here(c, ahead + 1)
        if inner is not None and inner.special is None:
            if first in ("fp", "bp"):
                return Stitch(first + inner.name, inner.tokens + 1)
            uk = c.context.uk
            named = stitch_named(_ADJECTIVES[first] + written(inner.name, uk), uk)
            if named:
                return Stitch(named.name, inner.tokens + 1)
    return None


def _words(c: Cursor, ahead: int) -> Stitch | None:
    """A name of up to four words: "half double crochet", "sl st", "rev sc", "inc"."""
    found: Stitch | None = None
    words = ""
    for n in range(4):
        kind = c.kind(ahead + n)
        if n and kind is T.HYPHEN:
            continue
        if kind is not T.WORD or (n and c.text(ahead + n) in _JOINTS and words not in _UNFINISHED):
            break
        words += c.text(ahead + n)
        number_follows = c.value(ahead + n + 1) is not None
        if words in _INCREASES or words == "increasing" and number_follows:
            return _changed(c, ahead, "inc:{}") or Stitch("inc", n + 1)
        if words in _DECREASES or words == "decreasing" and number_follows:
            return _changed(c, ahead, "{}2tog") or Stitch("dec", n + 1)
        if n == 0 and words in _OPENERS:
            continue
        if n == 0 and words in _NOT_STITCHES:
            break
        named = stitch_named(words, c.context.uk)
        if named is not None:
            found = Stitch(named.name, n + 1, named.loop or "")
        elif n == 0 and (change := _CHANGES.match(words)) is not None:
            # "dc2inc", "dc2dec": the number says how many come of one, or how many become one
            plain = stitch_named(change["base"], c.context.uk)
            if plain is not None and base_of(plain.name):
                inc = change["how"] == "inc"
                many = change["n"]
                return Stitch(
                    f"inc{many if many != '2' else ''}:{plain.name}" if inc else f"{plain.name}{many}tog", 1
                )
    return found


def _changed(c: Cursor, ahead: int, how: str) -> Stitch | None:
    """ "Dec 1 htr", "inc 1 tr": one of a stitch that is named behind; None where none is."""
    if (
        c.value(ahead + 1) != 1
        or c.kind(ahead + 2) is not T.WORD
        or c.text(ahead + 2) in _INCREASES | _DECREASES
    ):
        return None
    plain = stitch_here(c, ahead + 2)
    if (
        plain is None
        or plain.special is not None
        or not base_of(plain.name)
        or plain.name != base_of(plain.name)
    ):
        return None
    return Stitch(how.format(plain.name), plain.tokens + 2)


def _completed(c: Cursor, ahead: int, found: Stitch) -> Stitch:
    """A name with what may stand behind it: "3 tog", "inc", "-blo"."""
    after = ahead + found.tokens
    hyphen = c.kind(after) is T.HYPHEN
    amount = c.value(after + hyphen)
    if amount is not None and 2 <= amount <= 40:
        # "sc 2 tog", "sc-2-tog", "sc 2 sts tog"
        behind = 1 + hyphen + (c.kind(after + 1 + hyphen) is T.HYPHEN)
        behind += c.text(after + behind) in ("st", "sts", "stitches")
        if c.text(after + behind) in ("tog", "together"):
            return Stitch(f"{found.name}{amount}tog", found.tokens + behind + 1, found.loop)
    if found.name == "picot" and (hyphen and amount or c.text(after) == "of" and c.value(after + 1)):
        # "picot-3", "picot of 3 ch"
        chained = c.text(after + 2) in ("ch", "chs", "chain", "chains")
        return Stitch(found.name, found.tokens + 2 + chained) if hyphen or chained else found
    if c.text(after + hyphen) in ("inc", "increase"):
        return Stitch("inc:" + found.name, found.tokens + hyphen + 1, found.loop)
    if c.text(after + hyphen) in ("dec", "decrease"):
        return Stitch(found.name + "2tog", found.tokens + hyphen + 1, found.loop)
    if c.kind(after) is T.HYPHEN and c.text(after + 1) in ("blo", "flo", "bl", "fl", "tbl"):
        return Stitch(found.name, found.tokens + 2, "front" if c.text(after + 1)[0] == "f" else "back")
    return found


def base_of(name: str) -> str:
    """The plain stitch a name is built on; "" for those that are none."""
    plain = parts_of(name)[1]
    return plain if plain in ("sc", "hdc", "dc", "tr", "dtr", "esc", "edc", "trtr", "ehdc") else ""


def together(name: str) -> int:
    """How many stitches of the row below a name gathers."""
    return parts_of(name)[2]


def resolved(c: Cursor, stitch: Stitch) -> tuple[str, int]:
    """Name inside and how many are worked in each place, for "inc", "dec" and the plain ones."""
    context = c.context
    if stitch.name == "inc":
        return context.increase or context.base, context.increase_count
    if stitch.name.startswith("inc") and ":" in stitch.name:
        how, name = stitch.name.split(":", 1)
        return name, int(how.removeprefix("inc") or 2)
    if stitch.name == "dec":
        return (context.decrease or context.base) + f"{context.decrease_count}tog", 1
    if stitch.special is None and (plain := base_of(stitch.name)):
        context.base = plain
    return stitch.name, 1
