"""What designers say in words of their own, put in the trade's before anything else reads it.

The tokens of a row come in and go out; where words were changed, those that take their place have the span of all of
them, so that the text stays as the maker has it.
"""

from collections.abc import Iterable, Mapping

from tracker.expressions import expression
from tracker.notation.phrase.places.nouns import CHAINS
from tracker.notation.plain import crossed, rounds
from tracker.notation.plain.alike import SETS
from tracker.notation.plain.reordered import reordered
from tracker.notation.plain.wordings import SAID
from tracker.notation.scan import T, Token, scan
from tracker.records import dataclass, replace
from tracker.trade.numbers import NUMBER_WORDS

_SET = expression(r"\$[a-z]+")


@dataclass(slots=True)
class _Wording:
    said: tuple[tuple[frozenset[str], bool], ...]
    """Words that may stand at each place, and whether none need be there."""
    plain: tuple[str, ...]
    second: frozenset[str] | None
    """Of which one must stand behind the first word; None where that tells nothing."""


_RULES: dict[str, list[_Wording]] = {}


def _lacks(word: str) -> bool:
    """True for "[a]", which may be missing."""
    return len(word) > 2 and word[0] == "[" and word[-1] == "]"


def _rules() -> Mapping[str, list[_Wording]]:
    """Wordings by their first word; made when they are first wanted."""
    if not _RULES:
        whole = _SET.sub(lambda hit: SETS[hit.group()], rounds.SAID + SAID.strip() + crossed.SAID)
        for line in whole.strip().splitlines():
            said, plain = line.split(" > ") if " > " in line else (line.removesuffix(" >"), "")
            places = tuple(
                (frozenset((word[1:-1] if _lacks(word) else word).split("|")), _lacks(word))
                for word in said.split()
            )
            told = len(places) > 1 and not (places[0][1] or places[1][1]) and "#" not in places[1][0]
            rule = _Wording(places, tuple(plain.split()), places[1][0] if told else None)
            for first in places[0][0]:
                _RULES.setdefault(first, []).append(rule)
    return _RULES


def said_plainly(tokens: list[Token], letters: Iterable[str]) -> list[Token]:
    """The tokens with the trade's words in place of others; `letters` stand for something in this pattern."""
    rules = _rules()
    tokens = reordered(tokens)
    out: list[Token] = []
    i = 0
    while i < len(tokens):
        token = tokens[i]
        if token.text in _HASTY and token.text not in letters and tokens[i + 1].kind is not T.HYPHEN:
            out.append(replace(token, text=_HASTY[token.text]))
            i += 1
            continue
        if token.text == "t" and _turns(tokens, i) and "t" not in letters:
            out.append(replace(token, text="turn"))
            i += 1
            continue
        found = rules.get("#" if token.kind is T.NUMBER else token.text)
        made = None
        if found:
            behind = tokens[i + 1].text if i + 1 < len(tokens) else ""
            for rule in found:
                if rule.second is None or behind in rule.second:
                    made = _matched(rule, tokens, i)
                    if made is not None:
                        break
        if made is not None and letters and _drops_own(tokens[i : made[1]], made[0], letters):
            made = None
        if made is None or token.kind is T.NUMBER and out and out[-1].text in CHAINS:
            out.append(token)
            i += 1
            continue
        plain, end = made
        start, stop = token.start, tokens[end - 1].end
        out.extend(
            replace(word, start=start, end=stop, fresh=token.fresh and k == 0) for k, word in enumerate(plain)
        )
        i = end
    return out


def _drops_own(said: list[Token], plain: list[Token], letters: Iterable[str]) -> bool:
    """True when a word that the pattern gives a meaning of its own would be lost, such as its "shell"."""
    if any(token.kind is T.OPEN for token in plain):
        return False  # "shell of (2 dc, ch 1, 2 dc)" says itself what it is
    kept = {token.text for token in plain}
    return any(len(t.text) > 2 and t.text not in kept and t.text.rstrip("s") in letters for t in said)


_HASTY = {
    "n": "and", "u": "you", "w": "with", "cnr": "corner", "crnr": "corner", "cnrs": "corners", "crnrs": "corners",
    "cntr": "center", "ctr": "center",
}  # fmt: skip
"""Letters that stand for words where the pattern gives them no meaning of its own."""


def _turns(tokens: list[Token], i: int) -> bool:
    """True for the letter of "ch 3, t;": it stands alone between the signs that part phrases."""
    before, behind = tokens[i - 1].kind if i else T.COMMA, tokens[i + 1].kind
    if i > 1 and before is T.NUMBER and tokens[i - 2].text in CHAINS and behind is not T.HYPHEN:
        # "ch1 t sc across", with no sign at all
        return tokens[i + 1].text not in CHAINS
    return before in (T.COMMA, T.SEMICOLON, T.PERIOD) and behind in (
        T.COMMA, T.SEMICOLON, T.PERIOD, T.OPEN, T.END, T.COLON, T.DASH,
    )  # fmt: skip


def _matched(rule: _Wording, tokens: list[Token], i: int) -> tuple[list[Token], int] | None:
    """The words that stand for those at a place, and where these end; None where others stand."""
    chosen: dict[frozenset[str], Token] = {}
    number: Token | None = None
    for words, may_lack in rule.said:
        token = tokens[i]
        if "#" in words and (token.kind is T.NUMBER or token.text in NUMBER_WORDS):
            number = chosen[words] = token
        elif token.text in words and token.kind is not T.END:
            chosen[words] = token
        elif may_lack:
            continue
        else:
            return None
        i += 1
    plain: list[Token] = []
    for word in rule.plain:
        kept = chosen.get(frozenset(word.split("|"))) if "|" in word or word == "#" else None
        if kept is None and word == "#":
            kept = number
        plain.extend([kept] if kept is not None else scan(word.split("|")[0])[:-1])
    return plain, i
