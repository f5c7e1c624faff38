"""A written phrase as it is read aloud: "sk 2 dc" is "skip two double crochet".

Any words come in; the same words go out with the trade's abbreviations and the figures spelled out. Nothing is added,
left out or put in another order.
"""

import re
from functools import cache

from tracker.program.places import Program
from tracker.trade.numbers import NUMBER_WORDS, ORDINAL_WORDS, spoken_number, spoken_ordinal
from tracker.trade.speech import mirrored
from tracker.trade.spellings import stitch_named
from tracker.trade.stitches import TABLE, said

_SPELLED = {
    "st": "stitch", "sts": "stitches", "sp": "space", "sps": "spaces", "ch": "chain", "chs": "chains",
    "rem": "remaining", "rep": "repeat", "beg": "beginning", "tch": "turning chain", "lp": "loop", "lps": "loops",
    "blo": "back loop only", "flo": "front loop only", "bl": "back loop", "fl": "front loop", "rnd": "round",
    "rnds": "rounds", "rs": "right side", "ws": "wrong side", "inc": "increase", "dec": "decrease", "bet": "between",
    "ea": "each", "foll": "following", "prev": "previous",
    "tog": "together", "patt": "pattern", "cont": "continue", "approx": "about", "lh": "left hand", "rh": "right hand",
}  # fmt: skip
"""Abbreviations of the Craft Yarn Council's list that are no stitches (from memory)."""
_TERMS = {
    "sk": ("skip", "miss"),
    "skip": ("skip", "miss"),
    "miss": ("skip", "miss"),
    "yo": ("yarn over", "yarn round hook"),
    "yoh": ("yarn over", "yarn round hook"),
    "yrh": ("yarn over", "yarn round hook"),
}
"""The same in US and in UK words (Craft Yarn Council, from memory)."""
_WORD = re.compile(
    r"(?P<ord>\d{1,6})(?:st|nd|rd|th|ST|ND|RD|TH)\b|(?P<num>\d{1,6})(?=[A-Za-z])|(?P<whole>\b\d{1,6}\b)|"
    r"(?P<slst>\b[Ss]l\.?[ -]?sts?\b)|\bch-(?P<chain>\d{1,3})\b|(?P<word>[A-Za-z]+\d*[A-Za-z]*)\.?(?=\W|$)"
)
_SENTENCE = re.compile(r"\s+[A-Z]")
"""What stands behind a stop that ends a sentence, and not an abbreviation."""


def told(program: Program, words: str, own: frozenset[str] = frozenset()) -> str:
    """A pattern's own words as its maker is told them: in their terms, and for their hand."""
    words = spelled_out(words, program.pattern.uk, own, program.told_uk)
    return mirrored(words) if program.speech.left_handed else words


def spelled_out(
    words: str,
    uk: bool = False,
    own: frozenset[str] = frozenset(),
    told_uk: bool | None = None,
    figures: bool = False,
) -> str:
    """The words as they are read aloud; names the pattern defines stay as they are.

    `uk`: the words are written in UK terms. `told_uk`: they are to be told in them; None for as they are written.
    `figures`: numbers stay figures, as they are best read in print.

    >>> spelled_out("Sk 2 dc, sl st in 3rd ch of ch-4"), spelled_out("Work even")
    ('skip two double crochet, slip stitch in third chain of chain-four', 'Work even')
    >>> spelled_out("Sk 2 dc, 3dc in 3rd ch of ch-4", figures=True)
    'skip 2 double crochet, 3 double crochet in 3rd chain of chain-4'
    """

    told_uk = uk if told_uk is None else told_uk
    if told_uk is not uk:
        words = _names(uk).sub(lambda hit: said(_named(uk)[hit.group().lower()], told_uk), words)

    def spell(hit: re.Match[str]) -> str:
        if figures and (hit["ord"] or hit["whole"]):
            return hit.group()
        if figures and (hit["num"] or hit["chain"]):
            return f"{hit['num']} " if hit["num"] else f"chain-{hit['chain']}"
        if hit["ord"]:
            return spoken_ordinal(int(hit["ord"])) if int(hit["ord"]) else hit.group()
        if number := hit["num"] or hit["whole"]:
            return f"{spoken_number(int(number))} " if hit["num"] else spoken_number(int(number))
        if hit["slst"]:
            return "slip stitches" if hit["slst"].endswith("s") else "slip stitch"
        if hit["chain"]:
            return f"chain-{spoken_number(int(hit['chain']))}"
        ends = "." if hit.group().endswith(".") and _SENTENCE.match(hit.string, hit.end()) else ""
        return _spelled(hit["word"], hit.group().removesuffix(ends), uk, told_uk, own) + ends

    return re.sub(r"\b(stitch) stitch(es)?\b", r"\1\2", " ".join(_WORD.sub(spell, words).split()))


@cache
def _named(uk: bool) -> dict[str, str]:
    """Stitches by their names in words, in these terms."""
    return {(row.spoken_uk if uk else row.spoken): row.name for row in reversed(TABLE)}


@cache
def _names(uk: bool) -> re.Pattern[str]:
    """Every stitch's name in words, in these terms; the longest first."""
    names = sorted((name for name in _named(uk) if said(_named(uk)[name], not uk) != name), key=len)
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, reversed(names)))})\b", re.IGNORECASE)


def _spelled(word: str, whole: str, uk: bool, told_uk: bool, own: frozenset[str]) -> str:
    low = word.lower()
    if low in own or len(low) < 2 or low in NUMBER_WORDS or low in ORDINAL_WORDS:
        return whole
    if low in _TERMS:
        return _TERMS[low][told_uk]
    if low in _SPELLED:
        return _SPELLED[low]
    named = stitch_named(low, uk)
    if named is None or not _is_abbreviation(low):
        return whole
    loop = f" in the {named.loop} loop" if named.loop else ""
    return said(named.name, told_uk) + loop


def _is_abbreviation(word: str) -> bool:
    """True for "hdc" and "fptr", and not for "treble", "shell" or "picot", which are words already."""
    consonants = not re.search(r"[aeiouy]", word.removeprefix("e"))
    return consonants or word.endswith("tog") or word in ("puff", "revsc")
