"""How rows are numbered and called in print: "Rows 3-10", "2-5, 7 & 9", "dec row".

Words come in; numbers and names go out, and the other way round. The one owner of how rows are numbered.
"""

import re
from collections.abc import Sequence

from tracker.expressions import expression


def range_of(text: str) -> Sequence[int]:
    """The numbers that "2-5", "5, 7 & 9" and their mixtures name, in order; a range that falls names its ends only.

    >>> range_of("2-5, 8 & 9"), range_of("3 to 5")
    ((2, 3, 4, 5, 8, 9), (3, 4, 5))
    """
    if text.isdecimal():
        return (int(text),)
    whole = re.fullmatch(
        r"\s*(\d+)\s*(?:-|to|through|thru|up\s+to(?:\s+and\s+including)?)\s*(?:rows?|rnds?|rounds?|r)?\s*(\d+)\s*",
        text.lower(),
    )
    if whole is not None and int(whole[2]) - int(whole[1]) > 4_000:
        return range(int(whole[1]), int(whole[2]) + 1)
    numbers: list[int] = []
    if "including" in text:
        text = re.sub(r"\band\s+including\b", "", text)
    pieces = re.split(r"\s*(?:,|&|\band\b|/|\+)\s*", text.lower())
    for piece in pieces:
        ends = [int(n) for n in re.findall(r"\d+", piece)]
        if len(ends) == 2 and ends[0] < ends[1]:
            numbers.extend(range(ends[0], min(ends[1], ends[0] + 9_999) + 1))
        else:
            numbers.extend(ends)
    return tuple(numbers)


def as_kind(text: str, kind: str) -> str:
    """A label's text for the kind it turned out to be.

    >>> as_kind("Row 3", "round")
    'Rnd 3'
    """
    return re.sub(r"^R(?:ow|nd)", "Rnd" if kind == "round" else "Row", text)


def called(kind: str, numbers: Sequence[int]) -> str:
    """How reports call a row or a range: "Row 3", "Rows 3-10", "Rnds 5, 7, 9".

    >>> called("round", (3, 4, 5)), called("row", (5, 7, 9)), called("row", (2,))
    ('Rnds 3-5', 'Rows 5, 7, 9', 'Row 2')
    """
    word = "Rnd" if kind == "round" else "Row"
    if len(numbers) == 1:
        return f"{word} {numbers[0]}"
    if numbers[-1] - numbers[0] == len(numbers) - 1:
        return f"{word}s {numbers[0]}-{numbers[-1]}"
    return f"{word}s {', '.join(map(str, numbers[:20]))}"


def one_of_range(text: str, nth: int) -> str:
    """One of the rows of a second side by its own name, counted from 0; other texts as they are.

    >>> one_of_range("Rows 22a-28a", 1), one_of_range("Next 3 rows", 1)
    ('Row 23a', 'Next 3 rows')
    """
    hit = re.fullmatch(r"(R(?:ow|nd|ound))s (\d+)([a-f])\s*(?:-|[–—]|to|through)\s*\d+\3", text)
    return f"{hit[1]} {int(hit[2]) + nth}{hit[3]}" if hit else text


def kind_of(word: str) -> str:
    """ "round" for "Rnd", "Round" and "Rd", else "row"."""
    return "round" if word[:2].lower() in ("rn", "ro", "rd") and "ow" not in word.lower() else "row"


GROWS = frozenset("inc incs increase increasing increases".split())
SHRINKS = frozenset("dec decs decrease decreasing decreases".split())


def row_name(words: str) -> str:
    """The name rows are called by, whatever way it is spelled.

    >>> row_name("Increase Row"), row_name("Dec rnd"), row_name("RS")
    ('inc', 'dec', '')
    """
    if not words or len(words) > 30 or re.search(r"[\d,;]|\b(?:in|of|x)\b", words):
        # a bracket of work, or one that explains
        return ""
    kept = [word for word in re.findall(r"[a-z][a-z'-]*", words.lower()) if word not in _NO_NAME]
    return " ".join(_ONE_NAME.get(word, word) for word in kept)


_ONE_NAME = dict.fromkeys(GROWS, "inc") | dict.fromkeys(SHRINKS, "dec") | {"pattern": "patt"}
_NO_NAME = frozenset(
    "row rows rnd rnds rd rds round rounds r "
    "rs ws right wrong side facing next last same first previous prev these those all this and".split()
)


_EDGING = expression(
    r"\b(?:(?:edging|border|trim|ruffle)s?|heading|(?:top|side|upper|lower|outer) edge)\b", re.IGNORECASE
)


def edging_named(part: str | None) -> bool:
    """True for a part that is one row along an edge: "Edging", "Lace border"."""
    return part is not None and _EDGING.search(part) is not None


def twice_labelled(line: str, start: int, end: int) -> int:
    """ "5-6: 5-6: ch 1, turn": offset in the line where the row's own text begins behind a label that is told twice."""
    told = line[start:end].strip()
    rest = line[end:]
    ahead = len(rest) - len(rest.lstrip())
    return end + ahead + len(told) if told[-1:] in ":." and rest[ahead:].startswith(told) else end
