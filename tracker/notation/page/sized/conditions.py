"""For which sizes something is told: "Toddler and Child only:", "Rnd 7 (M and L only)", "Next rnd, size L only:".

Words and the names of the sizes come in; the sizes that they speak of go out, the numbers of a label in one of them,
and a text with what its labels say of sizes in brackets, as most patterns have it.
"""

import re
from collections.abc import Sequence

from tracker.expressions import expression
from tracker.notation.page.sized.asked import place_of
from tracker.notation.page.sized.size_names import size_names
from tracker.trade.numbers import NUMBER_WORDS


def condition_at(line: str, names: tuple[str, ...]) -> tuple[tuple[str, ...], int] | None:
    """Sizes that a line such as "Toddler and Child only:" speaks of, and where its own text begins.

    "All sizes:" gives an empty tuple. None when the line is no such thing.
    """
    if not names:
        return None
    every = re.match(
        r"\s*(?:for\s+)?(?:all|both)\s+(?:the\s+)?sizes\s*(?::|\.|—|-|$)\s*", line, re.IGNORECASE
    )
    if every:
        return (), every.end()
    hit = re.match(
        r"\s*(?:for\s+)?(?:sizes?\s+)?(?P<names>[\w/.+'-]+(?:[\s,&]+(?:and\s+)?[\w/.+'-]+){0,8}?"
        r"(?:\s?\([\w/.+', -]{1,30}\))?)\s*(?:sizes?\s*)?only\s*(?::|\.|—|–|-|,|$)\s*",
        line,
        re.IGNORECASE,
    )
    if hit is None:
        hit = re.match(
            r"\s*(?:for\s+)?sizes?\s+(?P<names>[\w/.+'-]+(?:[\s,&]+(?:and\s+)?[\w/.+'-]+){0,8}?)\s*(?::(?!\s*\d+\s*[:/])|—)\s*",
            line,
            re.IGNORECASE,
        )
    if hit is None:
        return None
    several = " sizes" if re.search(r"\bsizes\s+only", hit.group(), re.IGNORECASE) else ""
    told = _in_order(hit["names"] + several, names) or sizes_named(hit["names"], names)
    return None if told is None else (told, hit.end())


def sizes_named(words: str, names: tuple[str, ...]) -> tuple[str, ...] | None:
    """The sizes that a list such as "S, M and L", "first and 2nd" names; None where a word of it is none.

    >>> sizes_named("6 and 12 mo", ("3 mo", "6 mo", "12 mo")), sizes_named("M and up", ("S", "M", "L"))
    (('6 mo', '12 mo'), ('M', 'L'))
    """
    if (ordered := _in_order(words, names)) is not None:
        return ordered
    known = {name.lower(): name for name in names}
    if not any(name[:1].isdigit() for name in names):
        # "Size 1 (2, 3) = baby (child, adult)": by their places
        known.update({str(place): name for place, name in enumerate(names, 1)})
    for place, word in enumerate(("first", "second", "third", "fourth", "fifth", "sixth")[: len(names)]):
        known[word] = known[f"{place + 1}{('st', 'nd', 'rd', 'th', 'th', 'th')[place]}"] = names[place]
    known["smallest"], known["largest"] = known["smaller"], known["larger"] = names[0], names[-1]
    pieces = [piece.strip() for piece in re.split(r"[,&/()]|\band\b|\bor\b", words.lower()) if piece.strip()]
    told: list[str] = []
    for piece in pieces:
        # "6 and 12 mo" of sizes called "6 mo" and "12 mo"
        at = None if piece in known else place_of(piece, names)
        if piece not in known and at is None:
            return None
        told.append(known[piece] if at is None else names[at])
    return tuple(told)


_SOME = expression(
    r"\s*(?:the\s+)?(?:(?P<many>two|three|four|five|[2-9])\s+(?P<which>larger|largest|smaller|smallest)"
    r"|(?P<all>larger|bigger|smaller))(?:\s+sizes)?\s*",
    re.IGNORECASE,
)
_FROM = expression(
    r"\s*(?P<name>[\w/.'-]+(?:\s[\w/.'-]+)?)\s*(?:\+|(?:and|or|&)\s+(?P<way>up|above|over|larger|bigger|under|below|smaller|down))\s*",
    re.IGNORECASE,
)
_BUT = expression(
    r"\s*(?:not(?:\s+(?:for|in))?|(?:all|every)(?:\s+sizes?)?\s+(?:but|except)(?:\s+for)?)\s+(?:the\s+|sizes?\s+)?(?P<names>\S.*)",
    re.IGNORECASE,
)


def _in_order(words: str, names: tuple[str, ...]) -> tuple[str, ...] | None:
    """The sizes told by their order: "the 2 larger sizes", "6 mo and up", "all but newborn"; None for other words."""
    if (hit := _SOME.fullmatch(words)) is not None:
        one_way = (hit["which"] or hit["all"]).lower() in ("larger", "largest", "bigger")
        if hit["many"] is None and "sizes" not in words.lower():
            return None
        many = NUMBER_WORDS.get((hit["many"] or "").lower(), 0) or int(hit["many"] or len(names) - 1)
        return None if many >= len(names) else names[-many:] if one_way else names[:many]
    if (hit := _FROM.fullmatch(words)) is not None and (place := place_of(hit["name"], names)) is not None:
        return names[: place + 1] if hit["way"] in ("under", "below", "smaller", "down") else names[place:]
    if (hit := _BUT.fullmatch(words)) is not None and (left := sizes_named(hit["names"], names)):
        return tuple(name for name in names if name not in left)
    return None


def named_for(label: str, names: tuple[str, ...]) -> tuple[str, ...]:
    """The sizes that a label speaks of: "Rnd 7 (M and L only):"; empty for one of all sizes."""
    hit = _ONLY.search(label) if names else None
    told = condition_at(hit[1] + ":", names) if hit is not None else None
    if told is None and names and (but := _ALL_BUT.search(label)) is not None:
        return _in_order(but[1], names) or ()
    if hit is not None and told is None:
        return _in_order(re.sub(r"^(?:for\s+)?(?:the\s+)?(?:sizes?\s+)?|\s*only$", "", hit[1]), names) or ()
    if told is not None:
        return told[0]
    for named in _OF_SIZES.finditer(label) if names else ():
        these = sizes_named(named["named"] or named["behind"], names)
        if these and (named["said"] or named["behind"] or not re.search(r"\d", named["named"])):
            return these
    return ()


_ONLY = expression(r"[(\[]\s*((?:for\s+)?(?:sizes?\s+)?[^)\]]{1,50}?\bonly)\s*[)\]]", re.IGNORECASE, ["only"])
_ALL_BUT = expression(r"[(\[]\s*((?:not|all|every)\b[^)\]]{1,50}?)\s*[)\]]", re.IGNORECASE)
_OF_SIZES = expression(
    r"[(\[]\s*(?:for\s+)?(?P<said>sizes?\s+)?(?P<named>[^)\]]{1,50}?)(?:\s+sizes?)?\s*[)\]]"
    r"|,\s*(?:for\s+)?sizes?\s+(?P<behind>[^:()\[\]]{1,50}?)\s*(?=:)",
    re.IGNORECASE,
)
""" "Rnd 7 (M, L):", with no "only"."""


def numbers_for(
    head: str, numbers: Sequence[int], sizes: Sequence[str], index: int, only: Sequence[str]
) -> Sequence[int]:
    """A label's numbers in one of the sizes; one that is for `only` some of them may list figures for these alone."""
    own = numbers_of_size(head, numbers, len(sizes), index)
    if own is numbers and sizes[index] in only:
        return numbers_of_size(head, numbers, len(only), only.index(sizes[index]))
    return own


def numbers_of_size(head: str, numbers: Sequence[int], count: int, index: int) -> Sequence[int]:
    """ "Rows 5-20 (24, 28)": the last row is the size's own; "Rnds 6-13 (6-14, 7-16)" gives the whole range.

    >>> numbers_of_size("Rows 3-28/30/32", (), 3, 1)[-1], numbers_of_size("Rows 5-8 (9, 10)", (5, 6, 7, 8), 3, 2)[-1]
    (30, 10)
    """
    head = re.sub(r"\b(?:rows?|rnds?|rounds?|r)\s?(?=\d)", "", head, flags=re.IGNORECASE)  # "R3-R14 (16, 18)"
    both = _BOTH_ENDS.search(head)
    if both is not None:
        # "Rnds 13 (14, 15)-16 (18, 20)": where it begins and where it ends, each for every size
        begins, ends = ([int(n) for n in re.findall(r"\d+", both[end])] for end in ("first", "last"))
        if len(begins) == len(ends) == count:
            return tuple(range(begins[index], max(begins[index], ends[index]) + 1))
    slashed = re.search(r"(\d+)\s*-\s*((?:\d+\s*/\s*)+\d+)", head)
    if slashed is not None and slashed[2].count("/") == count - 1:
        last = int(slashed[2].split("/")[index])
        return tuple(range(int(slashed[1]), max(int(slashed[1]), last) + 1))
    each = re.search(r"(?<![\d-])\d+(?:\s*/\s*\d+)+", head)
    if each is not None and each.group().count("/") == count - 1:
        # "Rnd 19/21/23": one row, whose number is the size's own
        return (int(each.group().split("/")[index]),)
    hit = re.search(
        r"(\d+)(?:\s*(?:-|to|through|thru)\s*(\d+))?((?:\s*[(\[{]\s*(?:[\d\s,:/–—-]|to|thru|through)+\s*[)\]}])+)",
        head,
    )
    if hit is None:
        return numbers
    pieces = [piece.strip() for piece in re.split(r"[,:/()\[\]{}]+", hit[3]) if piece.strip()]
    if len(pieces) != count - 1 or index == 0:
        return numbers
    pick = pieces[index - 1]
    ends = [int(n) for n in re.findall(r"\d+", pick)]
    if not ends:
        return numbers
    first = int(hit[1])
    if hit[2] is None:
        return (ends[0],) if len(ends) == 1 else tuple(range(ends[0], ends[1] + 1))
    if len(ends) == 2:
        return tuple(range(ends[0], ends[1] + 1))
    return tuple(range(first, max(first, ends[0]) + 1))


_LISTED_NUMBERS = r"\d+\s*[(\[{]\d[\d\s,:/]*[)\]}]"
_BOTH_ENDS = expression(rf"(?P<first>{_LISTED_NUMBERS})\s?(?:-|to|through)\s?(?P<last>{_LISTED_NUMBERS})")


_HEAD = (
    r"^(?P<head>[ ]*(?:(?:Rows?|Rnds?|Rounds?|R)[ ]?\d{1,3}(?:[ ]?[-–][ ]?\d{1,3})?"
    r"|(?:Next|Following)[ ](?:\d{1,2}[ ])?(?:rows?|rnds?|rounds?)))"
)
_NAMES = r"(?P<names>(?:for[ ])?(?:the[ ])?(?:sizes?[ ][^:()\[\]\n]{1,40}?|[^:()\[\]\n]{1,40}?[ ](?:sizes?[ ])?only))"
_IN_LABEL = expression(
    rf"{_HEAD}(?:[ ]*[,;–—*-]{{1,2}}|(?=[ ]for[ ]))[ ]*{_NAMES}\*{{0,2}}[ ]*:",
    re.IGNORECASE | re.MULTILINE,
    [" only", "sizes ", "size "],
)
""" "Rnd 3, sizes M and L only:", "Next rnd – M only:", "Row 3 *M only*:"."""
_BRACKETED = expression(
    rf"{_HEAD}[ ]*[(\[][ ]*{_NAMES}[ ]*[)\]][ ]*:",
    re.IGNORECASE | re.MULTILINE,
    ["(size", "[size", "(for ", "[for "],
)
""" "Next round (sizes M, L):": without the word that tells it from others."""
_BEHIND = expression(
    rf"{_HEAD}[ ]*:[ ]*[(\[][ ]*{_NAMES}[ ]*[)\]][ ]*:?", re.IGNORECASE | re.MULTILINE, [" only", "size"]
)
""" "Rnd 3: [Sizes M and L only] Ch 2, …"."""


_PART = expression(
    rf"^(?P<head>[A-Z][A-Za-z ]{{2,24}}?)(?:[ ]?[–—-]|(?=[ ]for[ ]))[ ]*{_NAMES}[ ]*$",
    re.MULTILINE,
    [" only"],
)
""" "Brim – Child and Adult only", "Brim for Child and Adult sizes only": a heading, and for whom its rows are."""


def restrictions_bracketed(text: str) -> str:
    """The text with the sizes that a label names in brackets behind its number.

    >>> restrictions_bracketed("Sizes: S (M, L)\\nNext rnd, sizes M and L only: Sc around.").split("\\n")[1]
    'Next rnd (M and L only): Sc around.'
    """
    names: tuple[str, ...] | None = None
    for form in (_IN_LABEL, _BRACKETED, _BEHIND, _PART):
        if form.search(text) is None:
            continue
        names = size_names(text) if names is None else names

        def put(hit: re.Match[str], sizes: tuple[str, ...] = names) -> str:
            told = hit["names"] if hit["names"].lower().endswith("only") else f"{hit['names']} only"
            told = re.sub(r"^(?:for\s+)?(?:the\s+)?(?:sizes?\s+)?", "", told, flags=re.IGNORECASE)
            known = condition_at(f"{told}:", sizes)
            colon = ":" if ":" in hit.group() else ""
            return (
                hit.group()
                if known is None or len(known[0]) in (0, len(sizes))
                else f"{hit['head']} ({told}){colon}"
            )

        text = form.sub(put, text)
    return text
