"""Limbs that a round of the body catches as it passes: "hold the arm against the body and sc 3 through both layers".

The tokens of a row come in; they go out without the words that only tell how the limb is held, so that the stitches
behind them stand as they are worked.
"""

from collections.abc import Sequence

from tracker.notation.phrase.pieces import PIECES
from tracker.notation.scan import T, Token
from tracker.trade.spellings import stitch_named

_HOLDS = frozenset(
    "hold holding place placing position positioning take taking pick put putting grab line attach "
    "attaching join joining add adding lay laying set".split()
)
_WORKS_ON = frozenset("crochet work join attach add".split())
"""Verbs behind which the limb is worked on "with 3 sc"."""
_JOINTS = frozenset("and with by then & using".split())
_BEGINS = (T.COMMA, T.SEMICOLON, T.PERIOD, T.COLON, T.DASH)
_WORDS = (T.WORD, T.NUMBER, T.ORDINAL, T.HYPHEN)
_FURTHEST = 5
"""Words between the verb and the limb."""
_LONGEST = 24


def with_limbs(tokens: list[Token]) -> list[Token]:
    """The tokens without how a limb is held."""
    if not any(token.text in PIECES for token in tokens):
        return tokens
    out: list[Token] = []
    k = 0
    while k < len(tokens):
        begun = not k or tokens[k - 1].kind in _BEGINS or tokens[k - 1].text in ("and", "then", "&")
        end = _held(tokens, k) if begun and tokens[k].text in _HOLDS | _WORKS_ON else 0
        k = end or k
        if k < len(tokens):
            out.append(tokens[k])
        k += 1
    return out


def _held(tokens: Sequence[Token], start: int) -> int:
    """Where the work begins behind words that tell how a limb is held; 0 where these are no such words."""
    named = next(
        (k for k in range(start + 1, min(start + _FURTHEST + 1, len(tokens))) if tokens[k].text in PIECES), 0
    )
    if (
        not named
        or any(token.kind not in _WORDS for token in tokens[start:named])
        or tokens[start + 1].text == "to"
    ):
        return 0
    if any(_works(tokens, k) for k in range(start + 1, named)):
        return 0
    holds = tokens[start].text in _HOLDS
    for k in range(named + 1, min(named + _LONGEST, len(tokens) - 1)):
        token = tokens[k]
        if token.text in _JOINTS and _works(tokens, k + 1):
            return k + 1
        if token.kind in (T.COMMA, T.SEMICOLON, T.COLON):
            return k + 1 if holds and start and _works(tokens, k + 1) else 0
        if token.kind not in _WORDS:
            return 0
    return 0


def _works(tokens: Sequence[Token], k: int) -> bool:
    """True where stitches are told: "3 sc", "sc in next 3", "work 3 sc", "next 3 sc"."""
    while k < len(tokens) - 1 and tokens[k].text in (
        "work",
        "working",
        "next",
        "then",
        "the",
        "make",
        "crochet",
    ):
        k += 1
    k += tokens[k].kind is T.NUMBER
    found = stitch_named(tokens[k].text) if k < len(tokens) and tokens[k].kind is T.WORD else None
    return found is not None and found.name in _TALL


_TALL = frozenset("sc hdc dc tr".split())
