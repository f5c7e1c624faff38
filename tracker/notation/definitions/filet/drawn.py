"""Filet that is drawn in its rows: "[ ] [X] [X] [ ]", told by a key such as "[ ] = ch 2, sk 2, dc in next dc".

A text comes in; where its key says what the squares are, they stand in words in what comes out: "1 open mesh,
2 closed mesh, 1 open mesh".
"""

import re
from itertools import groupby

from tracker.expressions import expression

_SIGN = r"(?:\[[ ]?\]|\[[xX#*■]\]|[□▢■◼◻☐☒▣])"
_KEY = expression(
    rf"^(?P<lead>[^\S\n]*(?:[-•*>][ ]+)*)(?P<sign>{_SIGN})"
    r"(?=[ ]*(?:[=:–—-]|is\b|an?\b|open|empty|closed|filled|solid|full|space|mesh|window|block))"
    r"[ ]*(?:[=:–—-]|\bis\b)?[ ]*(?:an?[ ])?"
    r"(?:(?P<name>open|empty|closed|filled|solid|full)[ ]+(?:mesh|square|block|space|box)"
    r"|(?P<alone>space|mesh|window|block))?"
    r"[ ]*(?:[=:–—-]|\bis\b)?[ ]*(?P<body>[^\n]*\b(?:dc|tr|double crochet|treble|d\.c\.)(?!\w)[^\n]*)$",
    re.IGNORECASE | re.MULTILINE,
)
""" "[ ] open mesh = ch 2, sk 2 sts, dc in next dc"."""
_RUN = expression(
    rf"(?P<many>\d{{1,2}}[ ]?[x×]?[ ]?)?(?P<run>{_SIGN}(?:[ ,]*{_SIGN})*)(?:[ ]?[x×][ ]?(?P<often>\d{{1,2}}))?"
)
_OPEN = ("open", "empty", "space", "mesh", "window")


def drawn_in_words(text: str) -> str:
    """The text with its squares in words, where it has a key for them.

    >>> drawn_in_words("[ ] = ch 2, sk 2, dc in next dc\\n[X] = 3 dc\\nRow 2: Ch 3, [X] [X] [ ]").split("\\n")[2]
    'Row 2: Ch 3, 2 closed mesh, 1 open mesh'
    """
    if not any(sign in text for sign in ("[ ]", "[]", "□", "▢", "◻", "☐")):
        return text
    names = {_plain(hit["sign"]): _named(hit) for hit in _KEY.finditer(text)}
    if set(names.values()) != {"open mesh", "closed mesh"} or len(names) != 2:
        return text
    text = _KEY.sub(lambda hit: f"{hit['lead']}{_named(hit).capitalize()} = {hit['body']}", text)

    def told(hit: re.Match[str]) -> str:
        signs = [_plain(sign) for sign in re.findall(_SIGN, hit["run"])]
        if any(sign not in names for sign in signs):
            return hit.group()
        runs = [(names[sign], len(list(some))) for sign, some in groupby(signs)]
        first = re.match(r"\d+", hit["many"]) if hit["many"] else None
        if hit["often"] or first:
            many = int(hit["often"] or (first.group() if first else 1))
            if len(signs) > 1:
                return hit.group()
            runs = [(runs[0][0], many)]
        return ", ".join(f"{many} {name}" for name, many in runs)

    return _RUN.sub(told, text)


def _plain(sign: str) -> str:
    return sign.replace(" ", "").lower()


def _named(hit: re.Match[str]) -> str:
    """What a square is called: by its name in the key, or by whether it is chained over."""
    name = (hit["name"] or hit["alone"] or "").lower()
    chained = re.search(r"\b(?:ch|chain)\b", hit["body"].split("(")[0], re.IGNORECASE) is not None
    return "open mesh" if name in _OPEN or not name and chained else "closed mesh"
