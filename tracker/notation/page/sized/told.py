"""The names of as many sizes as the figures of a pattern tell, wherever they stand: in its title, a table, a sentence.

How many there are is known, so a list of as many names is enough, in whatever words it stands.
"""

import re
from collections.abc import Iterator

from tracker.expressions import expression

_NAME = r"[A-Za-z0-9][\w'’.+/½-]*(?:[ ][\w'’.+/½-]+){0,3}"
_LETTERS = r"(?:x{0,5}s|m|x{0,5}l|x{0,3}[sml]/x{0,3}[sml]|[1-9]x{0,2}l?|[1-9]xl?/[1-9]xl?)"
_WORDS = (
    r"(?:(?:x{1,3}|extra|\d+x?)[- ])?(?:small|medium|large|petite|regular|plus)|preemie|premature|newborn|nb|baby"
    r"|infants?"
    r"|toddlers?|child(?:ren)?|kids?|teens?|tweens?|junior|youth|adults?|wom[ae]n|m[ae]n|lad(?:y|ies)|gents?"
    r"|mini|midi|maxi|standard|grande|twin|full|queen|king|single(?:[ ]bed)?|double(?:[ ]bed)?|lovey|stroller|pram|crib"
    r"|cradle|cot|throw|lap|afghan|teacup|toy|giant|coaster|placemat|runner|pouch|clutch|tote|one[ ]size"
)
_WHO = (
    r"(?:adult|child|kids?|youth|wom[ae]n|m[ae]n|lad(?:y|ies)|misses|baby|toddler|large|small|unisex"
    r"|size)(?:['’]?s)?['’]?"
)
_KNOWN = expression(
    rf"(?:{_LETTERS}|(?:{_WHO}[ ])?(?:{_WORDS}|{_LETTERS})(?:[ ](?:adult|child|dog|size|bed|woman|man|hand|head))?"
    rf"|(?:{_WHO}[ ])?(?:size[ ])?\d{{1,3}}(?:[-–/]\d{{1,3}})?[ ]?"
    r"(?:m|mo|mos|months?|y|yrs?|years?|t|cm|in|inch(?:es)?)?"
    r"|\d(?:st|nd|rd|th)(?:[ ]size)?)\.?",
    re.IGNORECASE,
)
_SINGLE = expression(
    rf"(?<![\w/-])"
    rf"(?:(?-i:X{{0,4}}S|M|X{{0,4}}L|X?S/[SM]|[SM]/[ML]|[LM]/X{{0,2}}L|[2-9]XL?)|(?:{_WHO}[ ])?(?:{_WORDS})"
    r"|\d{1,2}(?:[-–/]\d{1,2})?[ ]?(?:mos?|months?|mths?|yrs?|years?)\b)(?![\w/-])",
    re.IGNORECASE,
)
"""A name in a sentence: a letter stands in capitals."""
_MEASURED = expression(r"[\d.½¼¾ ]+(?:cm|in|inch(?:es)?|\"|mm)", re.IGNORECASE)
_AGES = expression(r"\b(?:months?|mos?|mths?|years?|yrs?|dolls?|eu|shoe)\b", re.IGNORECASE)
""" "For 6 (12, 18) months", "a 14 (16, 18) inch doll": figures that can be names."""
_SIZE = expression(
    r"\b(?:siz(?:es?|ing)|ages?|fits?|bust|chest|head|foot|hand"
    r"|(?:instructions|directions|written)(?:[ ](?:are|given))*[ ]for)\b",
    re.IGNORECASE,
    ["siz", "age", "fit", "bust", "chest", "head", "foot", "hand", "tions", "written"],
)
_ORDER = expression(
    r"\b(?:sizes?|order|brackets?|parenthes[ei]s|given|numbers?|figures?|widths?|lengths?|written)\b|\([ ]?\)|\[[ ]?\]",
    re.IGNORECASE,
)
_IN_BRACKETS = expression(
    rf"(?P<first>{_NAME}),?[ ]?"
    rf"(?P<others>[(\[{{][^()\[\]{{}}\n]{{1,120}}[)\]}}](?:[ ]?[(\[{{][^()\[\]{{}}\n]{{1,80}}[)\]}}])*)"
)
_ALL_IN_ONE = expression(r"[(\[{](?P<all>[^()\[\]{}\n]{3,120})[)\]}]")
_PARTED = expression(
    r"[ ]?[,;:|/][ ]?(?:and[ ])?|[ ]and[ ]|[ ]?&[ ]?|[)\]}][ ]?[(\[{]|[ ][–—-][ ]|[ ]{3,}|\t"
)
_CLOSELY = expression(
    r"[ ]?[,;:|][ ]?(?:and[ ])?|[ ]and[ ]|[ ]?&[ ]?|[)\]}][ ]?[(\[{]|[ ]/[ ]|[ ][–—-][ ]|[ ]{3,}|\t"
)
"""The same, with names such as "S/M" and "XS/S" left whole."""
_HEAD = expression(
    r"^\W*(?:[\w' ]{0,30}[ ])?siz(?:es?|ing)(?:[ ](?:guide|chart))?(?:\([sS]\))?\W*$", re.IGNORECASE, ["siz"]
)
_LEAD = expression(r"^.*\b(?:sizes?|sizing|ages?|order|this)\b(?:\(s\))?[ ]*[:–—-]?[ ]*", re.IGNORECASE)
_ITEM = expression(
    rf"^[ ]*(?:[-•·*+▪][ ]+)?(?P<name>{_NAME}?)[ ]*(?:[:=(,|]|[–—-][ ]|[ ]{{2,}}|[ ]to fit\b|$)",
    re.IGNORECASE,
)
_CELLS = expression(r"[ ]*\|[ ]*")
_LETTERED = expression(r"\bsizes?[ ](?P<first>[A-H])\b", re.IGNORECASE, ["size"])
_NUMBERED = expression(r"\bsizes?[ ](?P<first>\d{1,3})\b", re.IGNORECASE, ["size"])
_NO_NAME = expression(
    r"\b(?:ch|chs|sc|hdc|dc|tr|sts?|rows?|rnds?|rounds?|rep|repeat|turn|hook|yarn|skeins?|balls?|yards?|yds?|metres?|meters?|g|gauge|mm)\b",
    re.IGNORECASE,
)
"""Words that no name of a size holds."""


def names_told(text: str, many: int) -> tuple[str, ...]:
    """The names of `many` sizes; empty where none are told.

    >>> names_told("Pebble Mitts — Child (Teen, Adult)", 3), names_told("Given for small, medium and large", 3)
    (('Child', 'Teen', 'Adult'), ('small', 'medium', 'large'))
    >>> names_told("Instructions are given for size 2. Sizes 4, 6 and 8 are in brackets.", 4)
    ('2', '4', '6', '8')
    """
    lines = [re.sub(r"[*_#>]+", "", line).strip(" ") for line in text[:6_000].split("\n")]
    for known in (True, False):
        for at, line in enumerate(lines):
            if line and (
                _NO_NAME.search(line) is None or (_SIZE.search(line) or _AGES.search(line)) is not None
            ):
                for names in (*_in_line(line, many, known), *_below(lines, at, many)):
                    if _may_name(names, many):
                        return names
    for line in lines:
        if _ORDER.search(line) is not None and (names := _in_sentence(line, many)):
            return names
    return ()


def _bare(name: str) -> str:
    """A name without the word "size" before it."""
    return re.sub(r"^sizes?[ ](?=\S)", "", name.strip(" ."), flags=re.IGNORECASE)


def _may_name(names: tuple[str, ...], many: int) -> bool:
    return len(names) == many and len({name.lower() for name in names}) == many


def _in_line(line: str, many: int, known: bool) -> Iterator[tuple[str, ...]]:
    """Lists of names in a line: those made of known ones, or, behind the word "sizes", any others."""
    sized = _SIZE.search(line) or _AGES.search(line)
    for hit in _IN_BRACKETS.finditer(line):
        rest = hit["others"][1:-1]
        for sign in (_CLOSELY, _PARTED):
            others = [piece.strip() for piece in sign.split(rest)]
            if len(others) != many - 1:
                continue
            first = _first_of(hit["first"], known)
            names = (first, *others)
            if _sound(names, known, sized is not None and (known or sized.start() <= hit.end()), line):
                yield tuple(_bare(name) for name in names)
    for hit in _ALL_IN_ONE.finditer(line):
        for sign in (_CLOSELY, _PARTED):
            names = tuple(piece.strip(" .") for piece in sign.split(hit["all"]))
            if len(names) == many and known and _sound(names, True, sized is not None, line):
                yield tuple(map(_bare, names))
    for told in dict.fromkeys((_LEAD.sub("", line), line)):
        for sign in (_CLOSELY, _PARTED):
            pieces = tuple(piece.strip(" .()[]{}") for piece in sign.split(told) if piece.strip(" .()[]{}"))
            if (
                len(pieces) == many
                and _sound(pieces, known, sized is not None, line)
                and (known or told != line)
            ):
                yield tuple(map(_bare, pieces))
            if known and len(pieces) == many + 1 and "|" in line and _sound(pieces[1:], True, True, line):
                # a table with the names at the heads of its columns
                yield pieces[1:]
            if (
                known
                and len(pieces) == many + 1
                and (_HEAD.match(pieces[0]) or _SIZE.search(pieces[0]) or _AGES.search(pieces[0]))
                and _sound(pieces[1:], True, True, line)
            ):
                yield pieces[1:]


def _first_of(words: str, known: bool) -> str:
    """The name in front of a bracket, without the words before it: "three sizes: small"."""
    pieces = words.split(" ")
    if not known:
        return words
    for start in range(len(pieces)):
        if _KNOWN.fullmatch(told := " ".join(pieces[start:])) is not None:
            return told
    return words


def _sound(names: tuple[str, ...], known: bool, sized: bool, line: str) -> bool:
    """True for names of sizes: known ones, or behind the word "sizes" any of a word or three."""
    measured = sum(_MEASURED.fullmatch(name) is not None for name in names)
    if 0 < measured < len(names):
        # "| XS | 32 in | 19 in |": a size and what it measures
        return False
    if known:
        if not all(_KNOWN.fullmatch(name) for name in names):
            return False
        if not all(name[:1].isdigit() for name in names):
            return True
        return sized and re.search(r"\b(?:gauge|tension)\b", line, re.IGNORECASE) is None
    return (
        sized
        and "size" in line.lower()
        and all(0 < len(name) <= 24 and name[0].isalnum() and name.count(" ") < 3 for name in names)
        and not all(name[:1].isdigit() for name in names)
        and not any(_NO_NAME.search(name) for name in names)
    )


def _below(lines: list[str], at: int, many: int) -> Iterator[tuple[str, ...]]:
    """Names one to a line below a heading, or at the head of each line of a table."""
    line = lines[at]
    cells = [cell for cell in _CELLS.split(line.strip("| ")) if cell] if "|" in line else []
    headed = _HEAD.match(line) is not None or bool(cells) and _HEAD.match(cells[0]) is not None
    if not headed and re.match(r"[-•·*+]?[ ]*sizes?[ ]\w", line, re.IGNORECASE) is None:
        return
    found: list[str] = []
    for below in lines[at + headed :]:
        told = below.strip("| ")
        if not re.sub(r"[|:\s-]", "", told):
            if found:
                break
            continue
        hit = _ITEM.match(told)
        name = hit["name"].strip() if hit is not None else ""
        if not name or _KNOWN.fullmatch(name) is None:
            break
        found.append(_bare(name))
    yield tuple(found)


def _in_sentence(line: str, many: int) -> tuple[str, ...]:
    """Names in the order in which a sentence about sizes speaks of them."""
    names = tuple(dict.fromkeys(_bare(hit.group()) for hit in _SINGLE.finditer(line)))
    if _may_name(names, many):
        return names
    for first, one in (
        (_LETTERED, r"(?<![\w-])[A-H](?![\w-])"),
        (_NUMBERED, r"(?<![\w.-])\d{1,3}(?!\.?\w|[%-])"),
    ):
        if (hit := first.search(line)) is not None:
            names = tuple(dict.fromkeys(re.findall(one, line[hit.start("first") :])))
            if _may_name(names, many):
                return names
    return ()
