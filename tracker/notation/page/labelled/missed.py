"""Labels in a style that no rule knows, found by the number that is missing between two that are known.

Lines with their labels come in; they go out with those labels added, and lines cut where a label stands within one. A
number is looked for only where the one before it and one behind it have been found.
"""

from collections.abc import Mapping
from itertools import pairwise

from tracker.expressions import expression
from tracker.notation.page.labelled.labels import NOT_A_LABEL, Label
from tracker.notation.page.labelled.row_names import called

_LOOSE = expression(
    r"[^\w\n(\[{]{0,8}(?:(?P<word>rows?|rnds?|rds?|rounds?|r|no|nr|course|rw|ro|roww|rrow|rwo|rn|rdn|rnf|rndd|rond|step|line|pass)\b\s?[.#]?\s?|(?P<short>r)(?=\d))?(?P<number>\d{1,3})"
    r"(?:\s?(?:-|–|to)\s?(?P<last>\d{1,3}))?(?![\d/%-])(?:\s(?:of|in)\s(?:the\s)?patt(?:ern)?\b)?(?P<remark>\s?[(\[][^)\]\n]{0,60}[)\]])?\s?"
    r"(?P<mark>[:.)\]|>=~]|[—–]|--?(?=\s))?",
)
_WITHIN = expression(
    r"(?<=[.;:)\]}!])\s+(?=(?:rows?|rnds?|rds?|rounds?|r|no|nr)\b\s?[.#]?\s?\d{1,3}(?!\d)|r\d{1,3}\b)"
)
_FURTHEST = 12
"""Numbers missing one after another that are looked for."""
Place = tuple[int, int]


def _missing(last: int, first: int) -> int:
    """The first number missing between two labels, also where numbers begin anew; 0 for none."""
    if last + 1 < first <= last + 1 + _FURTHEST:
        return last + 1
    return 1 if first == 2 and last > 1 else 0


def gaps(labels: Mapping[Place, Label | None]) -> bool:
    """True when a number is missing among the labels: looking closer is worth the while."""
    last = 0
    for label in labels.values():
        if label is not None and label.numbers:
            if _missing(last, label.numbers[0]):
                return True
            last = label.numbers[-1]
    return False


def with_missed(
    text: str, lines: list[Place], labels: Mapping[Place, Label | None]
) -> tuple[list[Place], dict[Place, Label | None]]:
    """The lines and labels with those that were missed."""
    found = dict(labels)
    low = text.lower()
    out: list[Place] = []
    before: Label | None = None
    waiting: list[Place] = []
    for place in lines:
        label = labels.get(place)
        if label is None or not label.numbers:
            waiting.append(place)
            continue
        first = label.numbers[0]
        last = before.numbers[-1] if before is not None else 0
        number = _missing(last, first) if waiting and (before is not None or first == 2) else 0
        if number:
            waiting = _looked_through(low, waiting, found, number, first, label)
        out += waiting
        out.append(place)
        waiting, before = [], label
    return out + waiting, found


def _looked_through(
    low: str, lines: list[Place], found: dict[Place, Label | None], number: int, end: int, like: Label
) -> list[Place]:
    """Lines between two labels, with what is missing between them found among them."""
    out: list[Place] = []
    for start, stop in lines:
        cuts = [start, *(hit.end() for hit in _WITHIN.finditer(low, start, min(stop, start + 4000))), stop]
        kept = start
        for at, until in pairwise(cuts):
            label = _loose(low, at, until, number, end, like)
            if label is None:
                continue
            if at > kept:
                out.append((kept, at))
            kept = at
            found[at, stop] = label
            number = label.numbers[-1] + 1
        out.append((kept, stop))
        if kept > start or (start, stop) in found:
            # a label holds for what reaches to the next cut
            for k, (a, b) in enumerate(out):
                if a >= start and (told := found.get((a, stop))) is not None and b != stop:
                    found[a, b] = told
                    out[k] = (a, b)
    return out


def _loose(low: str, at: int, until: int, number: int, end: int, like: Label) -> Label | None:
    """The label with the number that stands there, in whatever style; None where none does."""
    hit = _LOOSE.match(low, at, until) if number < end else None
    if hit is None or int(hit["number"]) != number or not (hit["word"] or hit["short"] or hit["mark"]):
        return None
    if not hit["mark"] and NOT_A_LABEL.match(low, hit.end(), until):
        return None
    if not low[hit.end() : until].strip(" .:)") and until - at > 40:
        return None
    last = int(hit["last"] or number)
    if not number <= last < end:
        return None
    numbers = tuple(range(number, last + 1))
    begun = hit.start("word") if hit["word"] else hit.start("number")
    if begun > at and low[begun - 1] == "r":
        begun -= 1
    return Label(like.kind, numbers, called(like.kind, numbers), begun - at, hit.end() - at)
