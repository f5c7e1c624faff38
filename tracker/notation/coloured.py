"""Signs between colours that part them as commas do: "6 MC / 8 CC / 6 MC", "5 A + 10 B + 5 A".

The tokens of a row come in; they go out with commas in place of such signs.
"""

from collections.abc import Collection, Sequence, Set

from tracker.notation.scan import T, Token
from tracker.records import replace

SIGNS = ("/", "+", "·", "•", "→", "←", ">", "|")
"""Signs that may part colours."""


def parted(tokens: Sequence[Token], colours: Set[str]) -> list[Token]:
    """The tokens with a comma for each sign that stands between two colours with their numbers."""
    out = list(tokens)
    for k in range(2, len(out) - 2):
        if (
            out[k].text in SIGNS
            and _counted(out[k - 2], out[k - 1], colours)
            and _counted(out[k + 1], out[k + 2], colours)
        ):
            out[k] = replace(out[k], kind=T.COMMA, text=",")
    return out


def _counted(one: Token, other: Token, colours: Set[str]) -> bool:
    """True for a colour beside a number: "6 MC", "MC 6"."""
    return (
        one.kind is T.NUMBER
        and other.text in colours
        or other.kind is T.NUMBER
        and (one.text in colours or one.kind is T.TIMES or one.text == "x")
    )


def squares_parted(tokens: Sequence[Token], squares: Collection[str]) -> list[Token]:
    """The tokens with a comma between squares told one behind the other: "1bl 8sp 1bl"."""
    out: list[Token] = []
    for k, token in enumerate(tokens):
        if (
            2 <= k < len(tokens) - 1
            and token.kind is T.NUMBER
            and tokens[k - 2].kind is T.NUMBER
            and _square(tokens[k - 1], squares)
            and _square(tokens[k + 1], squares)
        ):
            out.append(Token(T.COMMA, ",", token.start, token.start))
        out.append(token)
    return out


def _square(token: Token, squares: Collection[str]) -> bool:
    return token.kind is T.WORD and (token.text in squares or token.text.removesuffix("s") in squares)


def numbered(tokens: Sequence[Token], colours: Set[str]) -> list[Token]:
    """The tokens with "C1" as one word, where that is a colour."""
    out: list[Token] = []
    for token in tokens:
        last = out[-1] if out else token
        if (
            token.kind is T.NUMBER
            and last.kind is T.WORD
            and last.end == token.start
            and f"{last.text}{token.text}" in colours
        ):
            out[-1] = replace(last, text=f"{last.text}{token.text}", end=token.end)
            continue
        out.append(token)
    return out
