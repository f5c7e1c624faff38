"""Lines that look like a definition: "Shell: 5 dc in one st", "Puff (puff): …", "inc = 2 sc in one st".

A line comes in; its name, abbreviation and body come out, or None when it is no such line.
"""

import re

from tracker.expressions import expression
from tracker.notation.phrase.cursor import key_of

_HEAD = expression(
    r"^\s*(?:[-*–]\s+)?(?:\d\.\s+|1\s+(?=[A-Za-z]+\s*[:=])|[Ee]ach\s+(?=[A-Za-z]+\s*=))?"
    r"(?P<name>[A-Za-z0-9][\w/' -]{0,44}?(?:\s*\+\s*[\w ]{1,12})?)"
    r"(?:\s+(?:over|worked|made|in)\b[^:=(\[\n]{0,40}?)?\s*(?:[(\[](?P<abbr>[^)\]\n]{1,44})[)\]])?"
    r"(?:\s+(?:over|worked|made|in)\b[^:=\n]{0,50}?)?\s*(?P<mark>:|=|—|–|\s-+\s)\s*(?P<body>\S.*)$",
    re.DOTALL,
)


_GENERIC = frozenset(
    "note notes gauge tension yarn hook hooks materials material size sizes finished color colors "
    "colour colours colorway skill level tip tips hint thread measurements row round rnd rows rnds a "
    "b c d mc cc cca ccb ca cb "
    "cd shade weight you supplies notions stitches multiple abbreviations terms instructions pattern "
    "edging border stuffing needle other designer level difficulty sts st turn with using foundation "
    "to "
    "approx instructions directions finishing assembly stitch blocking care setup set-up color-a "
    "throughout always color-b main by special spiral rounds sample fits fit worked join joining joined turning".split()
)


_LED = expression(
    r"^\s*(?:notes?\s*:\s*(?=[A-Z][\w -]{1,24}(?:\([\w -]{1,10}\)\s*)?=)"
    r"|(?:special(?:\s+sts?)?|(?:special\s+)?stitch(?:es)?|(?:[a-z]{2,12}\s+)?(?:abbreviations?|abbrev\.?|terms|key"
    r"|shorthand))(?:\s+used)?\s*:\s*(?=\S))",
    re.IGNORECASE,
    ["stitch", "special", "abbrev", "terms", "key", "shorthand", "note"],
)


_ROWS = frozenset("row rows rnd rnds round rounds".split())
_GOING_ON = frozenset("work for next rep repeat continue cont all every then".split())
"""Words that begin a row, or several, told without a label."""
_CHANGES = expression(
    r"\s*(?:(?:inc|dec|increase|decrease|invisible dec)|(?:\d\s*)?(?:sc|dc|hdc|htr|tr|single|double|treble)\b)",
    re.IGNORECASE,
)
"""What a letter stands for that is a stitch and no colour: "A = decrease (2 sc together)"."""

_PLACED = expression(
    r"\b(?:sc|hdc|dc|tr|htr)s?\s+(?:worked\s+)?(?:in|into|through|around|round)\b", re.IGNORECASE
)
"""The same, told after what it is called: "D = drop stitch: dc in front loop 2 rows below"."""

_SHORT = {
    "space": "sp",
    "open space": "sp",
    "block": "bl",
    "solid block": "bl",
    "open mesh": "om",
    "solid mesh": "sm",
}
"""What rows call a square of filet that is defined by its whole name."""
_REMARKS = ("make", "worked", "counts", "rs", "ws", "uses")
"""What a bracket begins with that holds no abbreviation."""


_EACH = expression(
    r"\s*(?:each|every|one|an?|to\s+(?:make|work)\s+(?:an?|the)"
    r"|(?:make|work)(?=\s(?:shell|cluster|picot|popcorn|puff|bobble|v-?st|fan)\b))\s+"
    r"(?=(?:[\w-]+\s+){0,2}[A-Za-z-]{2,}\s*(?:\([^()]{1,12}\)\s*)?[:=])",
    re.IGNORECASE,
    ["each ", "every ", "one ", "a ", "an ", "to make", "to work", "make ", "work "],
)
""" "Each block: dc in next 3 sts", "One fan = 3 dc in one sp"."""
_TURNED_ROUND = expression(r"\(|\d[ -]?(?:sc|dc|hdc|htr|tr)\b", re.IGNORECASE)
"""What "3-dc group = cluster" begins with, where the name stands behind."""


def head_of(text: str) -> re.Match[str] | None:
    """The name, abbreviation and body of a definition, or None when the line looks like none."""
    led = _LED.match(text)
    if led is not None:
        # blanks instead of the heading, so that offsets stay
        told = len(text) - led.end() > 8 or "=" in text[led.end() :]
        text = text[led.end() :].rjust(len(text)) if told else text
    if (each := _EACH.match(text)) is not None:
        text = text[each.end() :].rjust(len(text))
    # "Blk(s) = block(s): 3 tr": one or several
    hit = _HEAD.match(text.replace("(s)", "   "))
    if hit is None:
        return None
    if hit["mark"] == "=" and _TURNED_ROUND.match(text.lstrip()) and not re.search(r"\d", hit["body"]):
        return None
    words = hit["name"].lower().split()
    letter = len(hit["name"]) == 1 and (_CHANGES.match(hit["body"]) or _PLACED.search(hit["body"]))
    if not words or words[0] in _GENERIC and not letter or len(words) > 6 or words[-1] in ("only", "sizes"):
        return None
    if len(words) > 1 and words[0] in ("ch", "chain", "make") and words[1].isdigit():
        return None
    counted = any(word.isdigit() for word in words) and not hit["abbr"]
    if _ROWS & set(words) and (words[0] in _GOING_ON or counted):
        # "Work 9 rows even: …", "For the next 3 rows: …"
        return None
    return hit


_BARE = expression(r"(?:sc|hdc|dc|htr|tr|sl st|ss)\s*(?:[,;.]|$)", re.IGNORECASE)


def letter_for_stitch(head: re.Match[str]) -> bool:
    """True for the head of "K = sc", of a key that has a letter for each stitch."""
    return len(head["name"]) == 1 and head["mark"] == "=" and _BARE.match(head["body"]) is not None


_SAID = expression(
    r"(?<![\w'])(?P<name>[A-Z][A-Za-z]{0,3}|[xo])(?P<is>\s+(?:is|means|stands\s+for)\s+(?:an?\s+|one\s+)?)"
    r"(?:(?:sc|hdc|dc|tr|htr)\b|(?:single|double|half|treble)\s)[^.;\n]{4,160}",
    holds=(" is ", " means ", " stands "),
)
_LETTERED = expression(
    r"(?<![\w'])(?P<name>[A-Z])(?P<is>\s+(?:is|means|stands\s+for)\s+(?:an?\s+|one\s+)?)"
    r"(?P<square>(?:open|filled|closed|solid|empty|full)\s+(?:square|mesh|block|space|box|window))\s*\((?P<body>[^()]{6,160})\)",
    re.IGNORECASE,
    ("is", "means", "stands"),
)
""" "O is an open square (ch 2, sk 2, dc in next dc)"."""
_NO_NAMES = frozenset("it this that each turn row rnd here ch next all dc sc hdc tr htr st a".split())


def said(text: str) -> list[tuple[str, int]]:
    """Definitions told in a sentence, as if in a list, with the place where each begins.

    >>> said("How to read it: X is a dc in the front loop two rows below.")
    [('X =    dc in the front loop two rows below', 16)]
    """
    out = []
    for hit in _LETTERED.finditer(text):
        out.append(
            (
                f"{hit['name']} ={' ' * (len(hit['is']) - 2)}{text[hit.start('square') : hit.end()]}",
                hit.start(),
            )
        )
    for hit in _SAID.finditer(text):
        if hit["name"].lower() not in _NO_NAMES:
            at = hit.start()
            length = len(hit["is"]) - 2
            out.append((f"{hit['name']} ={' ' * length}{text[hit.end('is') : hit.end()]}", at))
    return out


def abbreviations_of(hit: re.Match[str]) -> list[str]:
    """The abbreviations in brackets behind a name; remarks that stand there are left out."""
    pieces = [p.strip().lower() for p in re.split(r",|;|/|\bor\b", hit["abbr"] or "") if p.strip()]
    words = [re.sub(r"^(?:abbreviated?|abbr\.?)\s+(?:as\s+)?", "", piece).strip(" '\"") for piece in pieces]
    return [a for a in words if len(a) < 24 and not a.startswith(_REMARKS)]


_BEHIND = expression(r"(?P<name>[A-Za-z][A-Za-z /-]{2,30}[a-z]\d?(?: \d)?):\s+\S", holds=":")
"""The name in full between an abbreviation and what it means: "C6 – cable 6: miss 3, …"."""
_NAMES = expression(r"[A-Za-z0-9][\w'-]*(?: [\w'-]+){0,5}$")
_LED_BY = expression(r"(?:make|work)\s+(?:a\s+)?", re.IGNORECASE)


def name_in_full(text: str) -> str:
    """What a definition calls its stitch, in full where it says so and as it is written; "" for no definition.

    >>> name_in_full("Drop-down double crochet (ddc): dc in …"), name_in_full("sh - shell: 5 dc in same st")
    ('Drop-down double crochet', 'shell')
    >>> name_in_full("MB (make bobble): …"), name_in_full("C4F: Skip next 2 sts"), name_in_full("X-st (crossed dc): …")
    ('bobble', 'C4F', 'crossed dc')
    """
    hit = head_of(text)
    if hit is None:
        return ""
    behind = _BEHIND.match(hit["body"]) if hit["mark"] != ":" else None
    names = [
        hit["name"],
        *re.split(r",|;|/|\bor\b", hit["abbr"] or ""),
        *([behind["name"]] if behind else []),
    ]
    names = [_LED_BY.sub("", " ".join(name.split())) for name in names]
    fits = [name for name in names if _NAMES.match(name) and not name.lower().startswith(_REMARKS)]
    return max(
        fits, key=lambda name: (len(re.findall("[aeiou]", name.lower())), len(name)), default=hit["name"]
    )


def keys_of(text: str) -> list[str]:
    """Every key by which rows may call what a definition defines."""
    hit = head_of(text)
    if hit is None:
        return []
    name = " ".join(hit["name"].split()).lower()
    names = [name]
    for piece in re.split(r",|;|\bor\b", hit["abbr"] or ""):
        words = re.sub(r"^(?:abbreviated?|abbr\.?)\s+(?:as\s+)?", "", piece.strip().lower())
        if words and len(words) < 24:
            names.append(words)
    for each in list(names):
        for tail in (" stitch", " stitches", " st", "-stitch", "-st"):
            if each.endswith(tail) and len(each) - len(tail) > 1:
                names.append(each[: -len(tail)])
    names.extend(short for long, short in _SHORT.items() if long in names and short not in names)
    return [key_of(each) for each in names if key_of(each)]


def begins(text: str) -> bool:
    """True for the definition of a stitch that begins a round: "Beg cl", "Starting popcorn"."""
    return re.match(r"\s*(?:beg(?:inning)?|start(?:ing)?|first|standing)\b", text, re.IGNORECASE) is not None


def short_name(name: str, abbreviations: list[str]) -> str:
    """What rows call it: the first abbreviation that is one, else the name."""
    for abbreviation in abbreviations:
        if len(name) <= 5 and " " not in name and len(abbreviation) > len(name):
            # "CL (3-dc cluster)": the bracket says it in full
            return name
        if 1 <= len(abbreviation) <= 14:
            return abbreviation
    return name
