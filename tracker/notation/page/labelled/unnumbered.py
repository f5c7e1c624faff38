"""Rows with no number in their label: rounds that are each a line behind a ring ("MR 6", "inc around (12)",
"(sc, inc) x 6 (18)"), and rows of which every second one is meant: "All even rows:", "WS rows: As Row 2.".

A text and its lines with their labels come in; the labels that such lines would have come out. The first only where
nothing in the text is numbered, and where most of those lines tell a count; the others only where others are numbered,
since their numbers tell which rows are left.
"""

import re
from collections.abc import Mapping

from tracker.expressions import expression
from tracker.notation.page.labelled.labels import ACTS, Label
from tracker.notation.page.labelled.row_names import called, kind_of
from tracker.notation.page.typed.wrapped import whole_line

Place = tuple[int, int]
_STITCH = r"(?:e?sc|hdc|dc|htr|tr|inc(?:rease)?s?|dec(?:rease)?s?|invdec|sts?)"
_RING = expression(
    r"(?:(?:make\s+an?\s+)?(?:mr|mc|magic\s+(?:ring|circle|loop)|adjustable\s+ring)\b[^\n\d]{0,16}\d"
    rf"|\d{{1,2}}\s?{_STITCH}\s+(?:in|into)\s+(?:an?\s+|the\s+)?(?:mr|mc|(?:magic\s+)?(?:ring|circle|loop))\b)",
    re.IGNORECASE,
)
_WORK = expression(
    rf"\s*(?:[*(\[{{]\s*)*(?:\d{{1,3}}\s?(?:x\s*)?)?(?:\[|\()?{_STITCH}\b[^.\n]{{0,90}}"
    r"(?:\baround\b|\beach\b|\ball\b|[x×]\s?\d|\d\s?(?:x|times)\b|[(\[{=–—-]\s?\d)",
    re.IGNORECASE,
)
_COUNTED = expression(
    r"[(\[{=–—-]\s?\d{1,3}(?:\s?(?:sts?|sc|hdc|dc|stitches))?\s?[)\]}]?\s*\.?\s*$", re.IGNORECASE
)
_OFTEN = expression(
    r"\b(?:for\s+|[x×]\s?)?(\d{1,2})\s+(?:more\s+)?(?:rounds?|rnds?|rds?|rows?)\b", re.IGNORECASE
)
_ENDS = expression(r"\s*(?:fasten|finish|cut|break|tie|close|fo\b|end\b)", re.IGNORECASE)
_FEWEST = 4
"""Lines that show how a pattern tells its rounds."""


def unnumbered(text: str, labels: Mapping[Place, Label | None]) -> dict[Place, Label]:
    """Labels for rounds that have none; none where anything is numbered, or where they may be something else."""
    if any(label is not None for label in labels.values()) or _RING.search(text) is None:
        return {}
    found: dict[Place, Label] = {}
    number = counted = 0
    for place in labels:
        line = text[slice(*place)]
        if _RING.match(line.lstrip()):
            number = 1
        elif not number or not _WORK.match(line):
            number = 0 if _ENDS.match(line) else number
            continue
        often = _OFTEN.search(line)
        numbers = tuple(range(number, number + min(99, int(often[1]) if often else 1)))
        if not numbers:
            return {}
        found[place] = Label("round", numbers, called("round", numbers), 0, 0)
        counted += _COUNTED.search(line) is not None or _RING.match(line.lstrip()) is not None
        number = numbers[-1] + 1
    return found if len(found) >= _FEWEST and 3 * counted >= 2 * len(found) else {}


_EVERY = expression(
    r"\s{0,12}(?P<name>(?:(?:all|every|each|the)\s+){0,2}(?:(?:remaining|following|foll)\s+)?"
    r"(?P<which>even|odd|rs|ws|right[ -]side|wrong[ -]side|other|alt(?:ernate)?)"
    r"(?:[ -]?numbered)?\s+(?P<word>rows?|rnds?|rounds?))\b"
    r"(?:\s*(?:,\s*)?\(?(?:from\s+|(?:rows?|rnds?|rounds?)\s+)?(?P<first>\d{1,3})"
    r"\s?(?:-|–|to|through|thru)\s?(?:row\s+)?(?P<last>\d{1,3})\)?"
    r"|\s+(?:through|thru|to|up to)\s+(?:row\s+|rnd\s+)?(?P<end>\d{1,3}))?"
    r"\s*(?:\((?:RS|WS)\)\s*)?(?P<mark>[:.,]|[—–]|\s-+\s|(?=\s(?:as|same|rep|like)\b))",
    re.IGNORECASE,
    ["row", "rnd", "round"],
)
_OTHERS = expression(
    r"\b(?:even|odd|rs|ws|right[ -]side|wrong[ -]side)(?:[ -]?numbered)?\s+(?:rows|rnds|rounds)\b",
    re.IGNORECASE,
)
_BEGIN = frozenset("aeorwt")
"""Letters with which such a line may begin."""


def every_second(text: str, labels: Mapping[Place, Label | None]) -> dict[Place, Label]:
    """Labels for lines that name every second row; none where no row is numbered."""
    numbered = {n for label in labels.values() if label is not None for n in label.numbers[:200]}
    if not numbered:
        return {}
    sides = {
        label.numbers[0]: label.side for label in labels.values() if label and label.numbers and label.side
    }
    found: dict[Place, Label] = {}
    for place, label in labels.items():
        begins = text[place[0] : place[1]].lstrip()[:1].lower()
        if label is not None and label.numbers or begins not in _BEGIN:
            continue
        hit = _EVERY.match(text, *place)
        if (
            hit is None
            or not ACTS.match(text, hit.end(), place[1])
            or _OTHERS.search(text, hit.end(), place[1])
        ):
            continue  # a line that goes on to tell of the others is no one row
        first = int(hit["first"]) if hit["first"] else _begins(hit["which"].lower(), numbered, sides)
        last = int(hit["last"] or hit["end"] or 0)
        if not first:
            continue
        numbers = tuple(range(first, last + 1, 2)) if last > first else (first,)
        kind, side = (
            kind_of(hit["word"]),
            hit["which"][:2].upper() if hit["which"][:1].lower() in "rw" else None,
        )
        side = {"RI": "RS", "WR": "WS"}.get(side or "", side)
        found[place] = Label(
            kind,
            numbers,
            called(kind, numbers),
            hit.start("name") - place[0],
            hit.end() - place[0],
            side,
            alternate=last <= first,
        )
    return found


def _begins(which: str, numbered: set[int], sides: Mapping[int, str | None]) -> int:
    """The first of the rows that are meant; 0 where nothing tells."""
    if which in ("even", "odd"):
        return 2 if which == "even" else 3 if 1 in numbered else 1
    if which[0] in "rw":
        side = "RS" if which[0] == "r" else "WS"
        told = next(((n, s) for n, s in sorted(sides.items())), (1, "RS"))
        same = told[0] if told[1] == side else told[0] + 1
        return same + 2 if same in numbered else same
    return next((n for n in (2, 3) if n not in numbered), 0)


_BY_NAME = expression(
    r"[ ]{0,12}(?P<name>(?-i:[A-Z][a-z'-]{2,14})(?:[ ][a-z'-]{2,14})?)[ ]?(?P<remark>\([^()\n]{1,30}\))?[ ]?:[ ]+"
    r"(?=(?:(?:ch[ ]?\d|\d[ ]?ch)(?:[ ]?\([^()\n]{1,40}\))?[,;.][ ]+|turn[,;.][ ]+|with[ ]\w{1,12},[ ])*"
    r"(?:[*(\[][ ]?)?(?:\d{1,2}[ ])?(?:[fb]p)?(?:e?sc|hdc|dc|htr|tr)\b[ ](?:[fb]lo[ ])?"
    r"(?:in(?:to)?|around|across|round)\b)",
    re.IGNORECASE,
    [":"],
)
""" "Brim: BPsc around each st around", "Handles: Sc in next 3 sts, ch 6, …": a row by the name of what it makes."""
_ALL_ALONG = expression(
    r"\b(?:across|around|to[ ]end)(?=[ ]*(?:[.,;(\[—–]|$))|\brep(?:eat)?[ ]from\b"
    r"|;?,?[ ]join(?:[ ][^.;,]{2,40})?[ ]*(?:[.;(\[—–]|$)"
    r"|\bin[ ]last[ ](?:\d+(?:[ ]?[(\[][\d, ]+[)\]])*|(?:st|sc|hdc|dc)\b)",
    re.IGNORECASE | re.MULTILINE,
)
"""What shows that such words go along a whole row, where a stitch of its own goes into one place."""
_FORMS = expression(
    r"\b(?:yoh?|yrh|hook|indicated|specified|designated|draw|pull|insert|loops?[ ]on)\b", re.IGNORECASE
)
"""What tells how a stitch is formed."""
_NO_ROW = frozenset(
    "note notes tip tips hint important remember reminder pattern stitch stitches gauge tension finishing assembly "
    "hook yarn materials option variation repeat multiple abbreviations size sizes st sts joining rib".split()
)


def by_name(text: str, labels: Mapping[Place, Label | None]) -> dict[Place, Label]:
    """Labels for rows that go by what they make, behind rows that have theirs; none where rows work it as a stitch."""
    found: dict[Place, Label] = {}
    before: Label | None = None
    places = list(labels)
    for k, (place, label) in enumerate(labels.items()):
        if label is not None:
            before = label if label.numbers or label.kind != "edging" else before
            continue
        hit = _BY_NAME.match(text, *place) if before is not None and ":" in text[slice(*place)] else None
        if hit is None or before is None or _NO_ROW & set(hit["name"].lower().split()):
            continue
        told = whole_line(text, [(hit.end(), place[1]), *places[k + 1 : k + 6]], labels)
        as_stitch = rf"\b(?:\d+|an?|one|each|next|work|make|beg|first|last)[ ]{re.escape(hit['name'])}s?\b"
        if (
            _ALL_ALONG.search(told) is None
            or _FORMS.search(told) is not None
            or re.search(as_stitch, text, re.IGNORECASE) is not None
        ):
            continue
        start = hit.start("name") - place[0]
        found[place] = before = Label(before.kind, (), hit["name"], start, hit.end() - place[0])
    return found


_HEADED = expression(
    r"[ \t>#*~_]{0,12}(?P<name>(?-i:[A-Z])[A-Za-z' &-]{2,30}?)\s*[*_]{0,2}\s*:\s*[*_]{0,2}\s*(?="
    r"(?:(?:ch(?:ain)?\s?\d|\d\s?ch)\b[^.;:]{0,60}?[,;.]\s*(?:and\s+)?)?turn\b"
    r"|(?:with\s[^.,;:]{2,40}[,;]\s*)?(?:(?:sk(?:ip)?|miss|leave)\s[^.;:]{1,60}?,?\s*(?:and\s+|then\s+)?)?"
    r"(?:re-?)?(?:join|attach)(?:ing)?\s[^.;]{2,80}?(?:[,;.]|\sand)\s)",
    re.IGNORECASE,
    [":"],
)
""" "Right shoulder: With RS facing, skip next 24 sts, join yarn in next st, …"."""
_OF_GARMENTS = frozenset(
    "front back sleeve side half shoulder neck armhole strap flap yoke edge panel leg bib tail heel toe tip wing "
    "point".split()
)
_WHICH = frozenset(
    "first second third right left upper lower other top bottom shape shaping of the and & for".split()
)


def headed(line: str) -> Label | None:
    """The label of a row that begins a part of a garment, and goes by its name; None for other lines.

    >>> headed("Right shoulder: With RS facing, skip 4 sts, join yarn in next st, ch 1, sc in each st.").text
    'Right shoulder'
    """
    hit = _HEADED.match(line) if ":" in line else None
    if hit is None:
        return None
    words = [word.removesuffix("s") for word in hit["name"].lower().split()]
    if not any(word in _OF_GARMENTS for word in words) or any(w not in _OF_GARMENTS | _WHICH for w in words):
        return None
    name = " ".join(hit["name"].split())
    return Label("row", (), name, hit.start("name"), hit.end())
