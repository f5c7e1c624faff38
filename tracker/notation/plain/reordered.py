"""Places told by counting, and signs that are no stars, put as a row is read.

The tokens of a row come in and go out; those put in place of others have the span of what they stand for.
"""

from itertools import pairwise

from tracker.notation.scan import T, Token, scan
from tracker.records import replace

_STS = ("st", "sts", "stitch", "stitches")


def reordered(tokens: list[Token]) -> list[Token]:
    """The tokens with every such place and sign as the trade has it."""
    if any(token.text in _STS for token in tokens):
        tokens = by_ordinal(by_position(tokens))
    if any(token.text in _SIGNS for token in tokens):
        tokens = _starred(tokens)
    return tokens


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


def by_ordinal(tokens: list[Token]) -> list[Token]:
    """ "2 sc in 1st st, sc in 2nd st": places counted from the first, each the next one."""
    found = [
        k
        for k in range(1, len(tokens) - 1)
        if tokens[k].kind is T.ORDINAL and tokens[k - 1].text in ("in", "into") and tokens[k + 1].text in _STS
    ]
    if len(found) < 2 or [tokens[k].value for k in found] != list(range(1, len(found) + 1)):
        return tokens
    return [
        replace(token, kind=T.WORD, text="next", value=0) if k in found else token
        for k, token in enumerate(tokens)
    ]
