"""Which size is asked for: "M" of a pattern that writes "medium", "4–6" of one that writes "4-6 months"."""

import re
from collections.abc import Sequence

_UNITS = r"\b(?:sizes?|months?|mos?|mths?|m|years?|yrs?|yr|y|cm|in|inch(?:es)?)\b\.?|\""
_SHORT = {
    "extra small": "xs", "x-small": "xs", "xsmall": "xs", "small": "s", "medium": "m", "med": "m", "large": "l",
    "x-large": "xl", "xlarge": "xl", "extra large": "xl", "xxl": "2xl", "2x": "2xl", "2x-large": "2xl", "xxxl": "3xl",
    "3x": "3xl", "3x-large": "3xl", "4x": "4xl", "5x": "5xl", "xxs": "2xs", "xx-small": "2xs",
}  # fmt: skip


def place_of(size: str, names: Sequence[str]) -> int | None:
    """Where a size stands among the names, from 0; None for one that is not there, or that may be two of them.

    >>> place_of("M", ("small", "medium")), place_of("4–6 months", ("1-3", "4-6")), place_of("XL", ("S", "M"))
    (1, 1, None)
    """
    for way in (str.lower, _plain, _short, _figures, _words):
        asked = way(size)
        found = [place for place, name in enumerate(names) if asked and way(name) == asked]
        if len(found) == 1:
            return found[0]
        if found:
            return None
    number = re.fullmatch(
        r"(?:size\s+)?(\d{1,2})|(\d{1,2})(?:st|nd|rd|th)(?:\s+size)?", size.strip(), re.IGNORECASE
    )
    if number is not None and not any(name[:1].isdigit() for name in names):
        place = int(number[1] or number[2]) - 1
        return place if 0 <= place < len(names) else None
    return None


def _plain(name: str) -> str:
    return re.sub(r"\s+", " ", re.sub(r"\s*[–—]\s*", "-", name.lower().replace("’", "'"))).strip(" .'\"")


def _short(name: str) -> str:
    plain = _plain(name)
    return _SHORT.get(plain, plain)


def _figures(name: str) -> str:
    """What is left without the unit: "4-6 months" is "4-6"."""
    return re.sub(r"\s+", "", re.sub(_UNITS, "", re.sub(r"(?<=\d)(?=[a-z])", " ", _plain(name))))


def _words(name: str) -> str:
    """What is left without whose it is: "Adult S" and "Woman's S" are "s"."""
    told = re.sub(r"^(?:adult|child|kids|youth|wom[ae]n'?s|m[ae]n'?s|ladies'?|misses)\s+", "", _plain(name))
    return _SHORT.get(told, told)
