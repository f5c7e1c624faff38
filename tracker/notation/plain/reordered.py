"""Places told by counting, signs that are no stars, and asides before a place, put as a row is read.

The tokens of a row come in and go out; those put in place of others have the span of what they stand for.
"""

from itertools import pairwise

from tracker.notation.plain.attached import with_limbs
from tracker.notation.scan import T, Token, scan
from tracker.records import replace
from tracker.trade.spellings import stitch_named

_STS = ("st", "sts", "stitch", "stitches")
_BETWEEN = ("between", "bet", "betw", "btwn")
_GAPS = ("gap", "gaps", "sp", "sps", "space", "spaces")
_GROUPS = frozenset(
    "group groups grp grps pair pairs shell shells fan fans cluster clusters petal petals vs".split()
)
_LEADS = frozenset("work working join rejoin attach".split())
_EACH = frozenset("each ea every next all".split())
_PARTS = (T.COMMA, T.PERIOD, T.COLON, T.SEMICOLON, T.OPEN, T.CLOSE, T.END, T.STAR, T.DASH)


def reordered(tokens: list[Token]) -> list[Token]:
    """The tokens with every such place and sign as the trade has it."""
    if any(token.text in _STS for token in tokens):
        tokens = by_position(tokens)
    if any(token.kind is T.ORDINAL for token in tokens):
        tokens = by_ordinal(_rows_numbered(tokens))
    if any(token.text in _SIGNS for token in tokens):
        tokens = _starred(tokens)
    if any(a.kind is T.CLOSE and b.text in _PLACES for a, b in pairwise(tokens)):
        tokens = _in_places(tokens)
    if any(token.text in _BETWEEN or token.text == "separated" for token in tokens):
        tokens = _place_before(tokens)
    if any(token.text in _BETWEEN for token in tokens):
        tokens = in_gaps(tokens)
    if any(token.kind is T.OPEN for token in tokens):
        tokens = without_asides(tokens)
    if any(token.kind is T.EQUALS for token in tokens):
        tokens = _count_apart(tokens)
    return with_limbs(tokens)


def _count_apart(tokens: list[Token]) -> list[Token]:
    """ "Sl st to the ch 3 = 20 dc": the count of the round, and not what the chain counts as."""
    out: list[Token] = []
    for k, token in enumerate(tokens):
        place = (
            k > 2
            and tokens[k - 3].text in ("the", "to", "in", "into", "of")
            and tokens[k - 2].text in _CHAINS
        )
        if token.kind is T.EQUALS and place and tokens[k - 1].kind is tokens[k + 1].kind is T.NUMBER:
            out.append(replace(token, kind=T.COMMA, text=",", end=token.start))
        out.append(token)
    return out


_CHAINS = ("ch", "chain")


def _place_before(tokens: list[Token]) -> list[Token]:
    """ "5 dc with ch 1 between in next st": the place stands with the stitches, and what lies between behind it."""
    for k in range(1, len(tokens) - 4):
        apart = tokens[k].text == "separated" and tokens[k + 1].text == "by"
        if not apart and tokens[k].text != "with" or tokens[k - 1].kind is not T.WORD:
            continue
        behind = next(j for j in range(k, len(tokens)) if tokens[j].kind in _PARTS)
        told = next((j for j in range(k + 1, behind) if tokens[j].text in _BETWEEN), k + 1 if apart else 0)
        place = next((j for j in range(told + 1, behind) if tokens[j].text in ("in", "into")), 0)
        chained = {token.text for token in tokens[k:place]} & {"ch", "chain"}
        if told and chained and place - told < (6 if apart else 4):
            return [*tokens[:k], *tokens[place:behind], *tokens[k:place], *_place_before(tokens[behind:])]
    return tokens


def in_gaps(tokens: list[Token]) -> list[Token]:
    """ "Working in the gaps between the pairs, 2 dc in each gap": told with each gap, where it was told once."""
    k = next(k for k, token in enumerate(tokens) if token.text in _BETWEEN)
    first = next((j for j in range(k, -1, -1) if tokens[j].kind in _PARTS), -1) + 1
    behind = next(j for j in range(k, len(tokens)) if tokens[j].kind in _PARTS)
    lead = {token.text for token in tokens[first:k]} & _LEADS
    words = {token.text for token in tokens[k:behind]}
    if not lead or tokens[behind].kind not in (T.COMMA, T.PERIOD, T.COLON, T.SEMICOLON):
        return tokens
    begun = not first or tokens[first - 1].kind in (T.PERIOD, T.COLON, T.DASH)
    working = bool(lead & {"work", "working"})
    if working and not begun or words & {"and", "in", "rnd", "round", "row", "rows", "rounds"}:
        return tokens
    told = f"between {'groups' if words & _GROUPS else 'sts'}"
    out = tokens[:first] if working else tokens[: behind + 1]
    named = False
    for at in range(behind + 1, len(tokens)):
        token, before = tokens[at], tokens[at - 1]
        out.append(token)
        number = before.kind is T.NUMBER and tokens[at - 2].text in (*_EACH, "of")
        if token.text in _GAPS and (before.text in _EACH or number) and tokens[at + 1].text not in _BETWEEN:
            out += [replace(word, start=token.start, end=token.end) for word in scan(told)[:-1]]
            named = True
    return out if named else tokens


def _in_places(tokens: list[Token]) -> list[Token]:
    """ "(3 dc, ch 2, 3 dc) next sp": in it, though the hurried leave the word out."""
    out: list[Token] = []
    for k, token in enumerate(tokens):
        if token.text in _PLACES and tokens[k - 1].kind is T.CLOSE and tokens[k + 1].text in _ONE_PLACE:
            out.append(replace(token, kind=T.WORD, text="in", end=token.start))
        out.append(token)
    return out


_PLACES = frozenset("next same ea each last first".split())
_ONE_PLACE = frozenset((*_GAPS, "lp", "loop", "lps", "loops", "corner", "cnr", "crnr", "ch"))


_PLACED = ("in", "into", "around", "round", "over")
"""What a place begins with."""
_WORDS_ONLY = (T.WORD, T.COMMA, T.HYPHEN, T.PERIOD, T.OTHER)
_NO_ASIDE = frozenset(
    "st sts stitch stitches ch chs chain chains sp sps loop loops lp lps sc hdc dc tr htr dtr sl ss join turn "
    "twice times back front blo flo bl fl both third side top rs ws corner fp bp post each every next same "
    "first last shell fan v cl cluster inc dec increase decrease together tog rep repeat sk skip miss a b c d "
    "mc cc x made one two three four five".split()
)
"""What an aside does not speak of: how often, where, through which loop, or in which colour."""


def without_asides(tokens: list[Token]) -> list[Token]:
    """ "5 dc (loosely, please) in next st": what a bracket says of how, between a stitch and its place, left out."""
    out: list[Token] = []
    k = 0
    while k < len(tokens):
        if tokens[k].kind is T.OPEN and out and out[-1].kind is T.WORD:
            end = k + 1
            while end < len(tokens) and tokens[end].kind in _WORDS_ONLY and tokens[end].text not in _NO_ASIDE:
                end += 1
            closed = end < len(tokens) - 1 and tokens[end].kind is T.CLOSE and end > k + 1
            if closed and tokens[end + 1].text in _PLACED and stitch_named(out[-1].text) is not None:
                k = end + 1
                continue
        out.append(tokens[k])
        k += 1
    return out


def by_position(tokens: list[Token]) -> list[Token]:
    """ "Sc in sts 1-3, bobble in st 4, sc in sts 5 to 9": positions as how many of the next stitches.

    Only where each goes on from the one before, from the first stitch; other positions stay as they are.
    """
    found: list[tuple[int, int, int]] = []
    reached = 0
    k = 1
    while k < len(tokens) - 1:
        named = tokens[k].text in _STS and tokens[k - 1].text in ("in", "into", "over")
        if not named or tokens[k + 1].kind is not T.NUMBER or tokens[k + 2].text in _STS:
            k += 1
            continue
        first = last = tokens[k + 1].value
        end = k + 2
        joint = tokens[end]
        if (joint.kind in (T.HYPHEN, T.DASH) or joint.text in ("to", "through")) and tokens[
            end + 1
        ].kind is T.NUMBER:
            last, end = tokens[end + 1].value, end + 2
        elif (
            joint.text in ("and", "&")
            and tokens[end + 1].kind is T.NUMBER
            and tokens[end + 1].value == first + 1
        ):
            last, end = first + 1, end + 2
        if first != reached + 1 or last < first:
            return tokens
        reached = last
        found.append((k, end, last - first + 1))
        k = end
    if len(found) < 2:
        return tokens
    out: list[Token] = []
    at = 0
    for start, end, many in found:
        out.extend(tokens[at:start])
        words = scan(f"next {many} sts")[:-1]
        out.extend(replace(word, start=tokens[start].start, end=tokens[end - 1].end) for word in words)
        at = end
    return [*out, *tokens[at:]]


def _starred(tokens: list[Token]) -> list[Token]:
    """ "+dc in next st, ch 1; rep from + across": a sign that is gone back to is a star, whatever it looks like."""
    named = {
        token.text
        for before, token in pairwise(tokens)
        if token.text in _SIGNS and before.text in ("from", "between")
    }
    return [replace(token, kind=T.STAR) if token.text in named else token for token in tokens]


_SIGNS = frozenset("+ @ % ~ & $ ° ¤ ◊ • ● ◆ ♦ ■ ▪ ~~ ++ @@".split())
"""What some print where others have a star."""


def _rows_numbered(tokens: list[Token]) -> list[Token]:
    """ "In a front loop of the 15th rnd": of the round that is called Rnd 15."""
    out: list[Token] = []
    for k, token in enumerate(tokens):
        at = len(out) - 1 - (bool(out) and out[-1].text == "the")
        named = token.kind is T.ORDINAL and tokens[k + 1].text in _ROWS and tokens[k + 2].text not in _DOWN
        if named and at > 0 and out[at].text == "of" and out[at - 1].text in _LOOPS:
            out[at + 1 :] = [tokens[k + 1], replace(token, kind=T.NUMBER)]
        elif not (k and out[-1:] and out[-1].kind is T.NUMBER and tokens[k - 1].kind is T.ORDINAL):
            out.append(token)
    return out


_ROWS = ("rnd", "round", "row")
_DOWN = ("below", "down")
_LOOPS = ("loop", "loops", "lp", "lps")


def by_ordinal(tokens: list[Token]) -> list[Token]:
    """ "2 sc in 1st st, sc in 2nd st", "sc in 1st, 2 sc in 2nd": places counted from the first, each the next one."""
    found = [
        k
        for k in range(1, len(tokens) - 1)
        if tokens[k].kind is T.ORDINAL
        and tokens[k - 1].text in ("in", "into")
        and (tokens[k + 1].text in (*_STS, "and", "&") or tokens[k + 1].kind in _PARTS)
    ]
    if len(found) < 2 or [tokens[k].value for k in found] != list(range(1, len(found) + 1)):
        return tokens
    return [
        replace(token, kind=T.WORD, text="next", value=0) if k in found else token
        for k, token in enumerate(tokens)
    ]
