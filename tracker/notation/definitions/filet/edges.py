"""What a pattern calls the widening and narrowing of its filet rows: "To inc 1 blk at beg of row: ch 5, turn, …".

The text of the notes goes in and what each name stands for comes out; later the tokens of a row go in and come out with
the words of the definition in place of the name.
"""

import re
from collections.abc import Mapping

from tracker.expressions import expression
from tracker.notation.pattern import Special
from tracker.notation.scan import T, Token, scan
from tracker.notation.tree import Where, Which, Work
from tracker.problems import Span
from tracker.records import replace
from tracker.trade.spellings import stitch_named

_NAME = (
    r"(?P<how>inc|dec|add|narrow|widen)(?:rease|reasing|ing|s)?\s+(?:(?:of\s+)?(?P<many>1|one|a|an)\s+)?"
    r"(?P<what>bl(?:oc)?k?s?|sp(?:ace)?s?|squares?|sq|mesh|om|window)\b\s*"
    r"(?:(?:at|in|on)\s+(?:the\s+)?(?P<where>beg(?:inning)?|start|end)\.?(?:\s+of\s+(?:the\s+|a\s+|each\s+)?row)?)?"
)
EDGE_DEFINED = expression(
    rf"^[^\S\n]*(?:to\s+)?{_NAME}\s*(?:[:=—–]|\s-\s)\s*(?P<body>(?:[^\n.]|\n(?=\s*[a-z(]))+)",
    re.IGNORECASE | re.MULTILINE,
    ["inc", "dec", "add", "narrow", "widen"],
)
_WORDS = {"add": "inc", "widen": "inc", "narrow": "dec"}
_HOW = frozenset("inc increase dec decrease add narrow widen".split())

Edges = Mapping[tuple[str, str, str], list[Token]]
"""Tokens by what is done, to which square ("b" or "s"), and where ("beg", "end")."""


def edges_of(text: str) -> dict[tuple[str, str, str], list[Token]]:
    """What the notes of a pattern say of its edges; empty for a text that says nothing of them."""
    found: dict[tuple[str, str, str], list[Token]] = {}
    for hit in EDGE_DEFINED.finditer(text):
        tokens = scan(text, hit.start("body"), hit.end("body"))[:-1]
        where = "end" if (hit["where"] or "").lower() == "end" else "beg"
        found.setdefault((_how(hit["how"]), _what(hit["what"]), where), tokens)
    return found


_CALLED = expression(
    r"\b(?P<stitch>sc|hdc|dc|tr|htr|(?:half )?(?:single|double) crochet|(?:half )?treble)\b"
    r"[^.\n]{0,120}\b(?:written|called|shown|given|abbreviated|noted)\s+(?:as\s+)?"
    r"(?:['\"](?P<name>[A-Za-z][A-Za-z ]{0,11})['\"]|(?P<letter>(?-i:[A-Z]{1,2}))\b)",
    re.IGNORECASE,
    ["written", "called", "shown", "given", "abbreviated", "noted"],
)


def edge_stitches(text: str, uk: bool) -> list[Special]:
    """Stitches that a note gives a name of its own: "a sc in the first and last st; these are written as 'edge'"."""
    out: list[Special] = []
    for hit in _CALLED.finditer(text):
        plain = stitch_named(hit["stitch"], uk)
        if plain is not None:
            span = Span(hit.start(), hit.end())
            inside = Work(plain.name, 1, Where(Which.STRAIGHT, span), span)
            name = (hit["name"] or hit["letter"]).lower()
            out.append(Special(name, (inside,), 0, "", True, span, hit.group()))
    return out


def spelled_out(tokens: list[Token], edges: Edges) -> list[Token]:
    """A row's tokens with the words of the definition for each name of an edge; the names' spans stay."""
    out: list[Token] = []
    i = 0
    while i < len(tokens):
        named = _named(tokens, i, not out) if tokens[i].text in _HOW else None
        body = edges.get(named[0]) if named else None
        if named is None or body is None:
            out.append(tokens[i])
            i += 1
            continue
        start, end = tokens[i].start, tokens[named[1] - 1].end
        out.extend(replace(token, start=start, end=end, fresh=False) for token in body)
        i = named[1]
    return out


def _named(tokens: list[Token], i: int, first: bool) -> tuple[tuple[str, str, str], int] | None:
    """The name that begins at a token, and the index behind it; `first` where the row begins."""
    how, k = _how(tokens[i].text), i + 1
    if tokens[k].text in ("1", "one", "a", "an"):
        k += 1
    elif tokens[k].kind is T.NUMBER:
        return None
    what = _what(tokens[k].text) if tokens[k].kind is T.WORD else ""
    if not what:
        return None
    k += 1
    where = "beg" if first else "end"
    if tokens[k].text in ("at", "in", "on"):
        behind = k + 2 if tokens[k + 1].text == "the" else k + 1
        place = tokens[behind].text
        if place.startswith("beg") or place in ("start", "end"):
            where, k = ("end" if place == "end" else "beg"), behind + 1
            if tokens[k].text == "of" and "row" in (tokens[k + 1].text, tokens[k + 2].text):
                k += 2 if tokens[k + 1].text == "row" else 3
    return (how, what, where), k


def _how(word: str) -> str:
    return _WORDS.get(word.lower(), word.lower()[:3])


def _what(word: str) -> str:
    """ "b" for a block, "s" for a window, "" for anything else."""
    low = word.lower()
    if re.fullmatch(r"bl(?:oc)?k?s?|squares?|sq", low):
        return "b"
    return "s" if re.fullmatch(r"sp(?:ace)?s?|mesh|om|window", low) else ""
