"""The names of the sizes a pattern is written for, wherever and however it tells them."""

import re
from collections.abc import Sequence

from tracker.expressions import expression
from tracker.notation.page.sized.figured import figured
from tracker.notation.page.sized.told import names_told

_NAMES = expression(
    r"^[^\S\n]*(?:(?:UK|US|British|American)\b[^.\n]{0,60}\.[^\S\n]+)?(?:finished\s+|garment\s+|available\s+|to\s+(?:fit|suit)\s+"
    r"|(?:in\s+|comes\s+in\s+)?(?:\d|two|three|four|five|six|seven)\s+)?(?:sizes?|to\s+suit|to\s+fit|fits"
    r"|sized\s+for|(?:child(?:'s|ren's)?\s+)?ages?(?=[^\S\n]*:))(?:\s+(?:actual\s+)?(?:chest|bust|waist|hips?|head|foot|ages?)(?:\s+sizes?)?)?\s*(?:\([^)]*\)\s*)?(?::|-|–|—|\bare\b|\bare:|\s)\s*(?P<list>.+?)\s*$",
    re.IGNORECASE | re.MULTILINE,
    ["size", "fit", "age"],
)
_NUMBERED_SO = expression(
    r"(?:chart|key|guide)?\W*1(?:[\s(,:/\[{)\]}]+\d{1,2})+[\s)\]}]*(?:=|are|:)\s*(?=[A-Za-z])", re.IGNORECASE
)
"""Sizes numbered before they are named: "Size chart: 1 (2, 3) = baby (child, adult)"."""
_NUMBERS = expression(r"(?:(?<=^)|(?<=[\s,;]))\d{1,2}[).]\s+(?=[A-Za-z])")
"""Numbers before names: "1) child, 2) adult"."""
_INSTRUCTIONS = expression(
    r"(?:instructions?|directions?|pattern|written|given)\s+(?:are\s+)?(?:written\s+"
    r"|given\s+)?(?:is\s+)?(?:written\s+)?for\s+(?:size\s+)?(?P<first>[\w/.-]+(?:\s\w+)?)\s*,?\s+(?:with\s+)?"
    r"(?:changes|larger\s+sizes?|other\s+sizes?)[^()\[]*[(\[](?P<rest>[^)\]]+)[)\]]",
    re.IGNORECASE,
    ["changes", "larger", "other"],
)
_IN_BRACKETS = expression(
    r"\bfor\s+(?:sizes?\s+)?(?P<first>[\w/-]+),?\s+with\s+(?:sizes?\s+)?(?P<rest>[\w/, -]{1,60}?)\s+in\s+"
    r"(?:parenthes[ei]s|brackets)",
    re.IGNORECASE,
    ["parenthes", "bracket"],
)
""" "Instructions are for size S with M and L in parentheses"."""
_LARGER_IN = expression(
    r"\b(?:larger|other|bigger)\s+sizes?\s+(?:are\s+|given\s+)?(?:with)?in\s+"
    r"(?:\[[ ]?\]|\([ ]?\)|\{[ ]?\}|brackets|parenthes[ei]s)\s*[:–—-]\s*(?P<list>[^\n]{3,80}?)\s*\.?[ ]*$",
    re.IGNORECASE | re.MULTILINE,
    ["sizes in", "size in", "sizes are", "sizes given"],
)
""" "Written for the smallest size, larger sizes in [ ]: 14" [15", 16"]"."""
_FOR_SIZES = expression(
    r"\b(?:for\s+sizes?|sizes?\s[^.;:\n]{0,30}in\s+(?:the|this)\s+order)\s*:?\s+(?P<list>[^.;:\n]{3,80})"
    r"|\((?:in\s+)?sizes?\s*:?\s+(?P<within>[^()\n]{3,80})\)|\[(?:in\s+)?sizes?\s*:?\s+(?P<boxed>[^\[\]\n]{3,80})\]",
    re.IGNORECASE,
    ["size"],
)
""" "Ch 30 (34, 38) for sizes S (M, L)", "Ear warmer (sizes Child, Teen, Adult)"."""
_ON_A_LINE = expression(
    r"^[^\n]{0,60}[–—,:-][^\S\n]*(?:in\s+)?sizes\s+(?P<titled>[^.;:\n]{3,60})$"
    r"|^[^\S\n]*(?P<alone>(?:[A-Za-z]|\d{1,2}[–-]\d)[\w/' –-]{0,20}(?:[(\[{][^()\[\]{}\n]{1,60}[)\]}][^\S\n]?){1,9})"
    r"[^\S\n]*(?:[|•·][^\n]{0,80})?$"
    r"|^[^\S\n]*(?P<bare>[A-Za-z][\w/'-]{0,9}(?:[^\S\n]?[,/|][^\S\n]?[\w'-]{1,10}){1,9})[^\S\n]*$",
    re.IGNORECASE | re.MULTILINE,
)
""" "Band Beanie – sizes S / M / L", and "Baby (Child, Adult)", "S (M) (L)" or "S, M, L" on a line of its own."""
_KNOWN = expression(
    r"^(?:x{0,4}s|m|x{0,5}l|(?:x{0,4}s|m|x{0,3}l|\d?x)/(?:s|m|x{0,4}l|\d?xl?)|"
    r"\d?x{1,2}l?|[1-9]x|(?:x-?|extra[- ])?(?:small|large)|medium|one size"
    r"|preemie|newborn|nb|baby|infant|toddler|child|kids?|teen|tween|adult|youth|women|men|woman|man|"
    r"[\w']*\s?(?:small|medium|large|baby|toddler|child|adult)"
    r"|(?:child|kids?|adult|youth|wom[ae]n|m[ae]n|lad(?:y|ies)|misses|unisex|baby|toddler)(?:[’']?s)?[’']?\s(?:x{0,3}s|s/m|m/l|m|x{0,4}l|\d{1,2})|"
    r"(?:0|\d+)[-–/ ]?\d*\s?(?:m|mo|mos|months?"
    r"|y|yrs?|years?|t)?)$",
    re.IGNORECASE,
)

_MEASURED = expression(
    r"(?P<list>[\d.½¼¾]+(?:\s*[:/]\s*[\d.½¼¾]+)+|[\d.½¼¾]+\s*\((?:\s*[\d.½¼¾]+\s*[,;:]?)+\))"
    r"\s*(?:cm|in(?:ch(?:es)?)?\b|\"|yrs?\b|years?\b|mo(?:nth)?s?\b)",
    re.IGNORECASE,
)
"""Sizes by what they measure, told once more in another unit: "41:46:51 cm (16:18:20 in)"."""
_AGED = expression(r"\b(?:m|mo|mos|mths?|months?|y|yrs?|years?)$", re.IGNORECASE)
_TO_FIT = expression(
    r"(?<=[)\]])\s*(?:months?|mos?|years?|yrs?|mths?|(?:adult\s)?(?:hands?|heads?|feet|foot|figures?))\.?$"
)
"""What may stand behind the names: "small [medium: large] hand"."""
_FITS = expression(r"(?<=[)\]}])\s*,?\s+(?:to\s+fit|fits?|fitting|for)\s+", re.IGNORECASE, ["fit", "for"])
"""And what they fit: "XS (S, M, L) to fit chest 14 (18, 22, 26)"."""


def size_names(text: str) -> tuple[str, ...]:
    """Names of the sizes a pattern is written for; empty when it has one.

    >>> size_names("To fit: baby (toddler, child)"), size_names("Sizes: S (M, L)"), size_names("Size: 20 cm square")
    (('baby', 'toddler', 'child'), ('S', 'M', 'L'), ())
    """
    text = text[:100_000]
    names = _as_listed(text)
    many = figured(text)
    if names and all(name[:1].isdigit() for name in names):
        # "S / M / L", and below it "To fit bust 86 / 96 / 106 cm": these are their names
        told = names_told(text, len(names))
        return names if not told or any(name[:1].isdigit() for name in told) else told
    if not names or many > 2 and many != len(names) and not _listed(len(names), text):
        # told in words of their own, or not as many as the figures of all rows
        return names_told(text, many) if many else names
    return names


def _as_listed(text: str) -> tuple[str, ...]:
    """Names in a line that begins with "Sizes:", "To fit" or the like, or that tells the order of the figures."""
    measures: tuple[str, ...] = ()
    for hit in _NAMES.finditer(text):
        listed = hit["list"]
        if listed.endswith(":"):
            continue  # "Sizes M and L:" over what is for these
        listed = _NUMBERS.sub("", listed) if listed[:2] in ("1)", "1.") else listed
        if (told := _NUMBERED_SO.match(listed)) is not None:
            listed = listed[told.end() :]
        measured = _MEASURED.match(listed)
        raw = re.sub(
            r"\"|\b(?:inches|inch|cm|in|girls?|boys?|ladies|mens|womens|to fit|ages?:?|bust|chest|waist|hips?)\b"
            r"(?:\.|'(?=\s))?",
            "",
            measured["list"] if measured else _FITS.split(re.split(r"\s{3,}|;|\.\s", listed)[0])[0],
            flags=re.IGNORECASE,
        ).strip(" .")
        raw = _TO_FIT.sub("", raw)
        pieces = [piece.strip() for piece in re.split(r"[(),\[\];{}]|\s/\s|:|\band\b|\s-\s", raw)]
        names = tuple(piece for piece in pieces if piece)
        if len(names) == 1 and raw.count("/") >= 2:
            # "XS/S/M/L"
            names = tuple(piece.strip() for piece in raw.split("/") if piece.strip())
        if (
            len(names) >= 2
            and all(_KNOWN.match(name) for name in names)
            and len(set(map(str.lower, names))) == len(names)
            and (not all(name[0].isdigit() for name in names) or _listed(len(names), text))
        ):
            if all(name.isdigit() for name in names) and hit.end() < len(text):
                # "To fit head: 45 (50, 55) cm", and below it "Sizes: S (M, L)": these are their names
                measures = measures or names
                continue
            return names
    if measures:
        return measures
    if (told := _LARGER_IN.search(text)) is not None:
        listed = re.sub(r"\"|\b(?:inches|inch|in|cm)\b\.?", "", told["list"], flags=re.IGNORECASE)
        names = _parted(listed)
        if len(names) > 1 and all(map(_KNOWN.match, names)) and _listed(len(names), text):
            return names
    for hit in _FOR_SIZES.finditer(text):
        if hit["list"] and text.startswith((":\n", ": \n"), hit.end()):
            continue  # "For sizes M and L:" over what is for these
        names = _parted(hit["list"] or hit["within"] or hit["boxed"])
        numbered = all(name[0].isdigit() for name in names)
        if len(names) > 1 and all(map(_KNOWN.match, names)) and not numbered:
            return names
    for hit in _ON_A_LINE.finditer(text[:3_000]):
        names = _parted(hit["titled"] or hit["alone"] or hit["bare"])
        aged = all(_AGED.search(name) for name in names)
        if len(names) > 1 and all(_KNOWN.match(name) and (aged or not name[0].isdigit()) for name in names):
            return names
    if told := _INSTRUCTIONS.search(text) or _IN_BRACKETS.search(text):
        rest = re.split(r"[,;/]|\)\s*\(|\band\b|&", told["rest"])
        names = (re.sub(r"^sizes? ", "", told["first"]), *(piece.strip() for piece in rest))
        names = tuple(name for name in names if name)
        if len(names) > 1 and all(_KNOWN.match(name) for name in names):
            return names
    return ()


def _parted(listed: str) -> tuple[str, ...]:
    """The names in a list; a slash parts them where it is not within each: "S/M (M/L)" are two.

    >>> _parted("S/M (M/L)"), _parted("S / M / L")
    (('S/M', 'M/L'), ('S', 'M', 'L'))
    """
    for parting in (r"[(),\[\]{}]|\band\b", r"[(),/\[\]{}]|\band\b"):
        names = tuple(piece.strip() for piece in re.split(parting, listed) if piece.strip())
        if len(names) > 1 and all(map(_KNOWN.match, names)):
            break
    return names


_ONE_OF = expression(
    r"^[^\S\n]*size:[^\S\n]*(?P<name>[^\n.]{1,30}?)[^\S\n]*$", re.IGNORECASE | re.MULTILINE, ["size"]
)


def one_of_several(notes: Sequence[str]) -> bool:
    """True for a pattern written out for one of its sizes, "Size: Adult": rows of the others may be missing."""
    hits = (hit for note in notes for hit in _ONE_OF.finditer(note))
    return any(_KNOWN.match(hit["name"]) and not hit["name"][0].isdigit() for hit in hits)


_TWO_CHAINED = expression(
    r"\bch(?:ain)?\s+\d+\s*[(\[{]\d+[)\]}]|\d\s*[(\[{]\d+[)\]}]\s*ch\b"
    r"|\bmake\s+\d+\s*[:/]\s*\d+\s*ch\b|\bch(?:ain)?\s+\d+\s*[:/]\s*\d+\s*[.,;]",
    re.IGNORECASE,
    ["ch"],
)
_TWO_WORKED = expression(
    r"\b\d+\s?[(\[{]\d+[)\]}]\s*(?:sts?|sc|dc|hdc|tr|htr|times|rows|rnds|rounds)\b", re.IGNORECASE
)
""" "36 (40) tr": figures of two sizes."""


def _listed(many: int, text: str) -> bool:
    """True when figures for so many sizes stand together in a row: "Size: 8 in (20 cm)" names no sizes."""
    if many == 2:
        return _TWO_CHAINED.search(text) is not None or len(_TWO_WORKED.findall(text)) > 1
    rest = rf"(?:\s*[,:;/]\s*[\d–—-]+){{{many - 2}}}"
    together = rf"\d\s*(?:[(\[{{]\s*[\d–—-]+{rest}\s*[)\]}}]|:\s*\d+{rest}\b)"
    apart = rf"\d(?:\s*[(\[{{][\d–—-]+[)\]}}]){{{many - 1}}}"
    slashed = rf"\b\d+(?:\s?/\s?[\d–-]+){{{many - 1}}}(?![\d/])"
    return bool(re.search(f"{together}|{apart}|{slashed}", text))
