"""Headings of a pattern's sections as they are said: a part by its name, an instruction as one.

A heading as printed comes in ("BODY (BLACK)", "Ears", "Shape neck"); words go out. Only what stands in the heading is
said, in another order at most; what a hand cannot tell ("Brim first") is said as it stands.
"""

import re

from tracker.expressions import expression
from tracker.trade.numbers import spoken_number

_FIGURES = expression(r"\b\d{1,4}\b")
_BRACKET = expression(r"\s*[(\[{]\s*([^()\[\]{}]*?)\s*(?:[)\]}]|$)")
_AND = expression(r"\s+[&+]\s+")
_LETTER = expression(r"\b(colou?rs?|yarns?|shades?|sizes?)\s+([a-h])\b")
_CODE = expression(r"\b(mc|cc|rs|ws)(\d?)\b")
_CODES = {"mc": "main colour", "cc": "contrast colour", "rs": "right side", "ws": "wrong side"}
"""Abbreviations of the Craft Yarn Council's list (from memory)."""
_INSTRUCTS = expression(
    r"(?:shape|begin|start|divide|separate|split|continue|join|make|sew|attach|change|add|close|switch|set|assemble)\s"
    r"(?!.*\b(?:sections?|rows?|rounds?|rnds?|edging|edges?|bands?|borders?|parts?|pieces?|panels?|rings?)\W*$)"
)
"""A heading that says what to do; "Join round" and "Start section" are names."""
_DOES = expression(r"(?:start|begin|use|change|join)\b")
"""How a remark in a heading begins that says what to do."""
_MAKE = expression(r" \((?:make|work|crochet) [\w-]+\b[ ,;:-]*(?P<rest>[^()\n]{3,60})\)", re.IGNORECASE)
_USING = expression(r"(?:with|using)\s")
_NUMBERED = expression(r" (?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|[a-h])$")
"""The end of a name that is one of several by its number or letter: "leg two"."""
_THE = expression(r"\b(shape|for)\s+(?!the\b|a\b|an\b|both\b|each\b|\w+ing\b)")
_ONE = {
    "feet": "foot", "leaves": "leaf", "halves": "half", "cosies": "cosy", "ponies": "pony", "berries": "berry",
    "bunnies": "bunny", "daisies": "daisy", "teeth": "tooth", "mice": "mouse", "scarves": "scarf",
}  # fmt: skip
"""One of what does not just lose its s."""
_S_OF_ITS_OWN = ("ss", "us", "is")


def called(heading: str) -> str:
    """A heading in small letters, as it is said.

    >>> called("BODY (BLACK)"), called("HEAD & BODY"), called("Base (MC)"), called("Leg 1"), called("CAP (COLOR B)")
    ('body, black', 'head and body', 'base, main colour', 'leg one', 'cap, color B')
    """
    words = " ".join(heading.lower().split())
    words = _BRACKET.sub(lambda hit: f", {hit[1]}" if hit[1] else "", words).strip(" ,;:")
    words = _AND.sub(" and ", words)
    words = _LETTER.sub(lambda hit: f"{hit[1]} {hit[2].upper()}", words)
    words = _CODE.sub(lambda hit: f"{_CODES[hit[1]]}{f' {hit[2]}' if hit[2] else ''}", words)
    return _FIGURES.sub(lambda hit: spoken_number(int(hit[0])), words)


def one_of(heading: str) -> str:
    """What one of several is called whose heading names them all.

    >>> one_of("EARS"), one_of("Feet (pink)"), one_of("Remaining points"), one_of("Arms and legs"), one_of("Compass")
    ('ear', 'foot, pink', 'remaining point', 'arms and legs', 'compass')
    """
    words = called(heading)
    name, comma, rest = words.partition(",")
    before, _, last = name.rpartition(" ")
    if " and " in f" {name} ":
        return words
    return f"{before} {_single(last)}".strip() + comma + rest


def _single(word: str) -> str:
    if word in _ONE:
        return _ONE[word]
    if word.endswith(_S_OF_ITS_OWN) or not word.endswith("s"):
        return word
    return word[:-2] if word.endswith(("xes", "ches", "shes", "sses")) else word[:-1]


def instructs(heading: str) -> bool:
    """True for a heading that says what to do and names no part: "Shape neck", "Divide for body".

    >>> instructs("SHAPE NECK"), instructs("Begin decreasing"), instructs("Join round"), instructs("Neck")
    (True, True, False, False)
    """
    return _INSTRUCTS.match(called(heading)) is not None


def named(heading: str) -> str:
    """A heading as the name of what is in hand, in small letters: of shaping as makers call it.

    >>> named("Shape armholes"), named("Divide for body"), named("Sleeve")
    ('armhole shaping', 'divide for the body', 'sleeve')
    """
    words = called(heading)
    if not instructs(heading):
        return words
    if words.startswith("shape ") and "," not in words and " and " not in words:
        what = words.removeprefix("shape ").removeprefix("the ")
        return f"{one_of(what)} shaping"
    return _with_articles(words)


def _with_articles(words: str) -> str:
    """ "shape the neck", "divide for the body", of what is written without them."""
    return _THE.sub(r"\1 the ", words)


def beside(name: str, text: str) -> str:
    """What a heading says beside the name of a part and how many to make of it, in small letters; mostly "".

    >>> beside("Wings", "Wings (make 2 in brown, worked flat)"), beside("EARS", "EARS (make 2)")
    ('in brown, worked flat', '')
    """
    if not name or "(" not in text:
        return ""
    found = _MAKE.match(text, at + len(name)) if (at := text.find(f"{name} (")) >= 0 else None
    return called(found["rest"]) if found is not None else ""


def begun(heading: str) -> str:
    """What is said as its first row is reached: "Now the body.", "Now shape the neck.", "Now, with speckled yarn.".

    >>> begun("BODY (BLACK)"), begun("Shape neck"), begun("Begin decreasing"), begun("Using white")
    ('Now the body, black.', 'Now shape the neck.', 'Now begin decreasing.', 'Now, using white.')
    >>> begun("Body (start in brown)"), begun("LEG 2")
    ('Now the body. Start in brown.', 'Now leg two.')
    """
    words = called(heading)
    if not words:
        return ""
    name, comma, rest = words.partition(", ")
    if comma and _DOES.match(rest):
        return f"{begun(name)} {rest[:1].upper()}{rest[1:]}."
    if instructs(heading):
        return f"Now {_with_articles(words)}."
    if _USING.match(words):
        return f"Now, {words}."
    return f"Now {'' if words.startswith('the ') or _NUMBERED.search(name) else 'the '}{words}."
