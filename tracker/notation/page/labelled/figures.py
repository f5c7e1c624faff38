"""Rows and rounds numbered otherwise than in common figures: "Rnd IV:", "Repeat Rows II and III", "Row two, chain one".

A text comes in; it comes out with those numbers in common figures, where labels count up in them from one.
"""

import re

from tracker.expressions import expression
from tracker.trade.numbers import ORDINAL_WORDS, number_of

_FIGURES = r"(?:XC|XL|L?X{0,3})(?:IX|IV|V?I{0,3})"
_WORD = r"(?:rows?|rnds?|rds?|rounds?)"
_LABEL = expression(
    rf"^[ ]*{_WORD}\.?[ ](?P<first>(?-i:(?=[IVXL]){_FIGURES}))\b(?=[ ]*(?:[:.(,–—-]|$))",
    re.IGNORECASE | re.MULTILINE,
    ["row", "rnd", "rd", "round"],
)
_ALONE = expression(rf"^[ ]*(?P<first>(?=[IVXL]){_FIGURES})(?=[.):][ ])", re.MULTILINE)
""" "IV. 2 sc in each st": the number with no word before it."""
_SMALL = expression(
    r"^(?P<blank>[ ]*)(?P<first>(?=[ivx])x{0,3}(?:ix|iv|v?i{0,3}))"
    r"(?:-(?P<last>(?=[ivx])x{0,3}(?:ix|iv|v?i{0,3})))?\)(?=[ ])",
    re.MULTILINE,
    ["i)"],
)
""" "iv) 2 sc in each st", in small letters and with a bracket behind."""
_NAMED = expression(
    rf"\b(?P<word>{_WORD}\.?[ ])(?P<numbers>(?-i:(?=[IVXL]){_FIGURES})\b"
    rf"(?:[ ]?(?:[-–,&]|to|and|or|through)[ ]?(?:{_WORD}[ ])?(?-i:(?=[IVXL]){_FIGURES})\b)*)",
    re.IGNORECASE,
)
_SPELLED = (
    r"(?:(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)(?:[- ](?:one|two|three|four|five|six|seven"
    r"|eight|nine))?|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen"
    r"|seventeen|eighteen|nineteen)"
)
_SPOKEN_NUMBERS = (
    rf"(?P<numbers>{_SPELLED}"
    rf"(?:(?:[ ](?:to|through|and|&|or)[ ](?:row[ ]|round[ ])?|-(?=[eft])){_SPELLED})?)\b"
)
_SPOKEN = expression(
    rf"(?:^[ ]*|(?<=[.!)])[ ])(?P<word>{_WORD})[ ]{_SPOKEN_NUMBERS}(?:(?=[ ]*[:.(–—-])"
    r"|(?P<mark>[ ]?,|[ ](?=chain|turn\b|repeat|single|double|half)))",
    re.IGNORECASE | re.MULTILINE,
    [
        f" {word}"
        for word in "one two thr four five six seven eight nine ten eleven twe thi fif forty eighty".split()
    ],
)
""" "Row two, chain one and turn", "Rows four through nineteen:": labels as somebody says them."""
_SPOKEN_OF = expression(rf"\b(?P<word>{_WORD}[ ]){_SPOKEN_NUMBERS}", re.IGNORECASE)
_SPELLED_NUMBER = expression(rf"\b{_SPELLED}\b", re.IGNORECASE)
_NUMBER = expression(rf"\b(?=[IVXL]){_FIGURES}\b")
_NTH = r"(?:first|second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth|eleventh|twelfth|\d{1,3}(?:st|nd|rd|th))"
_LIKENED = expression(
    rf"(?P<blank>^[ ]*|(?<=[.!)])[ ]+)(?:the[ ])?(?:(?P<nth>{_NTH})[ ](?P<word>row|rnd|round)|(?P<words>{_WORD})[ ]"
    r"(?P<number>\d{1,3}(?:[ ]?-[ ]?\d{1,3})?))(?P<mark>:|,)?[ ](?P<verb>(?:is|are)[ ](?:worked[ ])?)?"
    rf"(?:exactly[ ]|just[ ])?(?:(?:the[ ])?same[ ]as|like|as)[ ](?:the[ ])?"
    rf"(?:(?P<named>{_NTH})(?:[ ](?:row|rnd|round))?|{_WORD}[ ](?P<rows>\d{{1,3}}(?:[ ]?-[ ]?\d{{1,3}})?))"
    r"(?=[ ]*(?:[.;(\[]|$))",
    re.IGNORECASE | re.MULTILINE,
    [f"{word} {begins}" for word in ("as", "like") for begins in "rtfsen0123456789"],
)
""" "Fourth row like second.", "The 4th row is the same as the 2nd.", "Row 4 is the same as Row 2."."""
_ALSO_FOR = expression(
    rf"^(?P<row>[ ]*{_WORD}[ ]\d{{1,3}})(?P<side>[ ]?[(\[](?:RS|WS)[)\]])?[ ]?(?:(?P<opened>[(\[])[ ]?)?(?:,[ ]?)?"
    r"(?:(?:and|&|also)[ ])?(?P<others>(?:all|every|each)[ ](?:(?!rows?\b|rnds?\b|rounds?\b)[\w-]+[ ]){0,4}"
    rf"(?:{_WORD}))[ ]?(?P<closed>[)\]])?(?=[ ]?[:.—–])",
    re.IGNORECASE | re.MULTILINE,
    ["all", "every", "each"],
)
""" "Row 2 (and all WS rows):", "Row 2 (WS) and every wrong side row:"."""
_LEFT_OVER = expression(r"\b(?:remaining|rem|subsequent|succeeding|later)[ ]", re.IGNORECASE)
_SIDE_OF = expression(r"\b(?P<side>right|wrong)[ -]side\b", re.IGNORECASE, ["side"])
_VALUES = {"I": 1, "V": 5, "X": 10, "L": 50, "C": 100}


def in_figures(text: str) -> str:
    """The text with its rows numbered in common figures.

    >>> in_figures("Rnd I: 6 sc.\\nRnd II: 2 sc in each.\\nRnds III-IV: Repeat Rnd II.").split("\\n")[2]
    'Rnds 3-4: Repeat Rnd 2.'
    >>> in_figures("Row one, chain two. Row two, as row one.")
    'Row 1: chain two. Row 2: as row 1.'
    """
    if len(_SPOKEN.findall(text)) >= 2:
        text = _SPOKEN.sub(_marked, text)
        return _SPOKEN_OF.sub(lambda hit: hit["word"] + _SPELLED_NUMBER.sub(_in_words, hit["numbers"]), text)
    small = {hit["first"] for hit in _SMALL.finditer(text)}
    if {"i", "ii", "iii"} <= small:
        return _SMALL.sub(_row_label, text)
    for labels in (_LABEL, _ALONE):
        told = {hit["first"] for hit in labels.finditer(text)}
        if not {"I", "II"} <= told or labels is _ALONE and "III" not in told:
            continue
        if labels is _ALONE:
            text = _ALONE.sub(
                lambda hit: hit.group().replace(hit["first"], str(value_of(hit["first"]))), text
            )
        return _NAMED.sub(lambda hit: hit["word"] + _NUMBER.sub(_figures, hit["numbers"]), text)
    return text


def likened(text: str) -> str:
    """The text with rows that are likened to others under labels of their own, and with rows that others are as well.

    >>> likened("Fourth row like second."), likened("Row 2 (and all wrong side rows): sc across.")
    ('Row 4: as Row 2.', 'Row 2 and all WS rows: sc across.')
    """
    return _ALSO_FOR.sub(_with_others, _LIKENED.sub(_as_label, text)) if text else text


def _with_others(hit: re.Match[str]) -> str:
    """ "Row 2 and all WS rows:" for "Row 2 (and all WS rows):"."""
    left = _LEFT_OVER.search(hit["others"]) is not None
    if bool(hit["opened"]) != bool(hit["closed"]) or not (hit["opened"] or hit["side"] or left):
        return hit.group()
    others = _SIDE_OF.sub(lambda side: "RS" if side["side"].lower() == "right" else "WS", hit["others"])
    others = _LEFT_OVER.sub("", others)
    return f"{hit['row']} and {others}{hit['side'] or ''}"


def _as_label(hit: re.Match[str]) -> str:
    own = hit["number"] or _ordinal(hit["nth"])
    word = hit["words"] or hit["word"].capitalize()
    if hit["verb"] and re.search(rf"(?im)^[ ]*{_WORD}\s*{own}\b\s*[:.(]", hit.string):
        return hit.group()  # of a row that stands there in full
    if hit["number"] and hit["mark"] and hit["rows"]:
        return hit.group()
    several = "s" if "-" in (hit["rows"] or "") else ""
    return f"{hit['blank']}{word} {own}: as Row{several} {hit['rows'] or _ordinal(hit['named'])}"


def _ordinal(word: str) -> str:
    """The figures of "second" and "2nd"."""
    return str(ORDINAL_WORDS.get(word.lower()) or int(re.sub(r"\D", "", word)))


def _row_label(hit: re.Match[str]) -> str:
    """ "Row 5-7:" for "v-vii)"."""
    last = f"-{value_of(hit['last'].upper())}" if hit["last"] else ""
    return f"{hit['blank']}Row{'s' if last else ''} {value_of(hit['first'].upper())}{last}:"


def _marked(hit: re.Match[str]) -> str:
    """A spoken label with a colon, where a comma or nothing stands behind it."""
    mark = hit["mark"]
    return hit.group() if mark is None else hit.group().removesuffix(mark) + (": " if mark == " " else ":")


def _in_words(hit: re.Match[str]) -> str:
    return str(number_of(hit.group()))


def _figures(hit: re.Match[str]) -> str:
    return str(value_of(hit.group()))


def value_of(figures: str) -> int:
    """What Roman figures stand for.

    >>> value_of("XIV"), value_of("IX")
    (14, 9)
    """
    values = [_VALUES[figure] for figure in figures]
    return sum(-value if value < max(values[k:], default=0) else value for k, value in enumerate(values))
