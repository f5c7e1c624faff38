"""Figures of several sizes in styles of their own, as most write them: "Ch 62 – 67 – 72" as "Ch 62 (67, 72)".

A text comes in and comes out, changed only where its line of sizes tells their names in the same style.
"""

import re

from tracker.expressions import expression

_LINE = r"[^\n:]{0,40}?\b(?:sizes?|fits?)\b[^\n:]{0,30}?(?::[ ]*|[ ]+)"
_NAME = r"[\w.,/–-]+(?:[ ](?:mo|mos|months?|yrs?|years?|cm|in)\b\.?)?"
_PARTED = expression(
    rf"{_LINE}(?P<list>{_NAME}[ ]+(?P<sign>[–—|-])[ ]+{_NAME}(?:[ ]+(?P=sign)[ ]+{_NAME}){{0,10}})(?=[ ]*$|[ ]*[(;.])",
    re.IGNORECASE,
    ["size", "fit"],
)
""" "Sizes: S – M – L", "Size: 0-3 mo | 3-6 mo"."""
_SLASHED = expression(rf"{_LINE}\((?P<list>[\w -]+(?:/[\w -]+)+)\)[ ]*$", re.IGNORECASE, ["/"])
""" "Sizes: (S/M/L)": every list in a bracket."""
_PIECE = r"(?!(?:years?|yrs?|months?|mos?|cm|inch(?:es)?|in|hands?|heads?|feet|to|only)\b)[\w/-]{1,8}"
_TURNS = expression(
    rf"{_LINE}(?P<list>{_PIECE}[ ]?\({_PIECE}\)[ ]?{_PIECE}(?:[ ]?\({_PIECE}\)(?:[ ]?{_PIECE})?){{0,4}})"
    r"(?=[ ]*(?:$|[;.,]|yrs?|years|months|cm))",
    re.IGNORECASE,
    [")"],
)
""" "To suit sizes S(M)L(XL)": every other figure in a bracket."""
_NOT_FOR_ALL = expression(
    r"^(?P<word>(?:>[ ])?[ ]*(?:Rows?|Rnds?|Rounds?)[ ])[–—-]"
    r"(?P<list>[ ]?[(\[](?:[ ]?[–—-][ ]?[,;:])*[ ]?(?P<first>\d+)[\d ,;:–-]{0,40}[)\]])(?=[ ]*:)",
    re.IGNORECASE | re.MULTILINE,
    [f"{dash}{blank}{sign}" for dash in "–—-" for blank in ("", " ") for sign in "(["],
)
""" "Row – (–, 24, 27):": a row that the first sizes have not."""
_ANGLED_SIZES = expression(r"(?<=[\d–>-])(?P<blank>[ ]?)<(?P<more>[ ]?[\d–-][\d ,;:/–-]{0,60})>", holds="<")
""" "Ch 52 <56, 60, 64>": figures of further sizes between "<" and ">"."""
_ANGLED_NAMES = expression(r"(?<=[\w>])(?P<blank>[ ]?)<(?P<more>[ ]?\w[\w ,;:/-]{0,60})>", holds="<")
""" "To fit age 4 <6, 8> years": the names of those sizes."""
_COLONED_LABEL = expression(
    r"^(?P<head>[ ]*(?:Rows?|Rnds?|Rounds?)[ ]\d{1,3}[ ]?[-–][ ]?\d{1,3})(?P<more>(?:[ ]?:[ ]?\d{1,3}){1,9})"
    r"(?=[ ]*:[ ])",
    re.IGNORECASE | re.MULTILINE,
    ["row", "rnd", "round"],
)
""" "Rounds 4-8 : 9 : 10: As Round 3": how far a range goes in each size."""
_FITS = expression(r"^[^\n]{0,40}\b(?:sizes?|fits?)\b[^\n]*$", re.IGNORECASE | re.MULTILINE, ["size", "fit"])
_FIGURE = r"\d+(?:[–-]\d+)?"


def in_brackets(text: str) -> str:
    """The text with figures of several sizes as one in front and the others in brackets.

    >>> in_brackets("Sizes: S – M – L\\nCh 62 – 67 – 72. Rows 4–9 – 4–11 – 4–13: sc across.")
    'Sizes: S (M, L)\\nCh 62 (67, 72). Rows 4–9 (4–11, 4–13): sc across.'
    >>> in_brackets("Sizes S(M)L\\nMake 72(78)84 ch."), in_brackets("Size: (S/M)\\nCh (62/66).")
    ('Sizes S (M, L)\\nMake 72 (78, 84) ch.', 'Size: S/M\\nCh 62/66.')
    """
    text = _ANGLED_SIZES.sub(r"\g<blank>(\g<more>)", _NOT_FOR_ALL.sub(_numbered_for_all, text))
    text = _COLONED_LABEL.sub(
        lambda hit: f"{hit['head']} ({', '.join(re.findall(r'[0-9]+', hit['more']))})", text
    )
    if "<" in text:
        text = _FITS.sub(lambda hit: _ANGLED_NAMES.sub(r"\g<blank>(\g<more>)", hit.group()), text)
    for line in text.split("\n"):
        if "ize" not in line and "IZE" not in line and "it" not in line and "IT" not in line:
            continue
        if (hit := _PARTED.match(line)) is not None:
            return _parted(text, hit["list"], hit["sign"])
        if (hit := _SLASHED.match(line)) is not None:
            return _slashed(text, hit["list"])
        if (hit := _TURNS.match(line)) is not None:
            return _by_turns(text, hit["list"])
    return text


def _numbered_for_all(hit: re.Match[str]) -> str:
    """A label with the number of the first size that has the row for those that have it not."""
    listed = re.sub(r"(?<![\d])[–—-](?!\d)", hit["first"], hit["list"])
    return f"{hit['word']}{hit['first']}{listed}"


def _parted(text: str, names: str, sign: str) -> str:
    """ "62 – 67 – 72" as "62 (67, 72)", with as many figures as there are names."""
    pieces = re.split(rf"[ ]+{re.escape(sign)}[ ]+", names)
    if len(pieces) == 2 and sign != "|":
        # "Size: 20 cm – 24 cm" may be a range
        return text
    one = rf"(?:{_FIGURE}|[–—-])"
    joint = rf"[ ]*{re.escape(sign)}[ ]*"
    listed = rf"(?<!\d){one}(?:{joint}{one}){{{len(pieces) - 1}}}(?![ ]*\d|\d)"

    def bracketed(hit: re.Match[str]) -> str:
        for way in (rf"[ ]+{re.escape(sign)}[ ]+", joint):
            figures = re.split(way, hit.group())
            if len(figures) == len(pieces):
                return f"{figures[0]} ({', '.join(figures[1:])})"
        return hit.group()

    return re.sub(listed, bracketed, text).replace(names, f"{pieces[0]} ({', '.join(pieces[1:])})", 1)


def _slashed(text: str, names: str) -> str:
    """ "Ch (61/67/73)" as "ch 61/67/73"; a count keeps its bracket."""
    listed = rf"\((?P<list>\d+(?:/\d+){{{names.count('/')}}})\)"
    for around in (rf"(?i:(?<=\bch )|(?<=\bchain )|(?<=next )|(?<=[-–])){listed}", rf"{listed}(?=[ ][a-z])"):
        text = re.sub(around, r"\g<list>", text)
    return text.replace(f"({names})", names, 1)


def _by_turns(text: str, names: str) -> str:
    """ "72(78)84(90)" as "72 (78, 84, 90)"."""
    many = len(re.findall(r"[\w/-]+", names))
    more = rf"(?:[ ]?{_FIGURE}[ ]?\({_FIGURE}\)){{{many // 2 - 1}}}" + (rf"[ ]?{_FIGURE}" if many % 2 else "")

    def in_one(words: str) -> str:
        first, *others = re.findall(r"[\w/-]+", words)
        return f"{first} ({', '.join(others)})"

    text = re.sub(rf"(?<!\d){_FIGURE}[ ]?\({_FIGURE}\){more}(?!\d)", lambda hit: in_one(hit.group()), text)
    return text.replace(names, in_one(names), 1)
