"""A written phrase as it is read aloud: "sk 2 dc" is "skip two double crochet".

Any words come in; the same words go out with the trade's abbreviations and the figures spelled out. Nothing is added,
left out or put in another order.
"""

import re

from tracker.trade.numbers import NUMBER_WORDS, ORDINAL_WORDS, spoken_number, spoken_ordinal
from tracker.trade.spellings import stitch_named
from tracker.trade.stitches import said

_SPELLED = {
    "st": "stitch", "sts": "stitches", "sp": "space", "sps": "spaces", "ch": "chain", "chs": "chains", "sk": "skip",
    "rem": "remaining", "rep": "repeat", "beg": "beginning", "tch": "turning chain", "lp": "loop", "lps": "loops",
    "blo": "back loop only", "flo": "front loop only", "bl": "back loop", "fl": "front loop", "rnd": "round",
    "rnds": "rounds", "rs": "right side", "ws": "wrong side", "inc": "increase", "dec": "decrease", "bet": "between",
    "yo": "yarn over", "yrh": "yarn round hook", "ea": "each", "foll": "following", "prev": "previous",
    "tog": "together", "patt": "pattern", "cont": "continue", "approx": "about", "lh": "left hand", "rh": "right hand",
}  # fmt: skip
"""Abbreviations of the Craft Yarn Council's list that are no stitches (from memory)."""
_WORD = re.compile(
    r"(?P<ord>\d{1,6})(?:st|nd|rd|th)\b|(?P<num>\d{1,6})(?=[A-Za-z])|(?P<whole>\b\d{1,6}\b)|"
    r"(?P<slst>\b[Ss]l[ -]?sts?\b)|\bch-(?P<chain>\d{1,3})\b|(?P<word>[A-Za-z]+\d*[A-Za-z]*)\.?(?=\W|$)"
)


def spelled_out(words: str, uk: bool = False, own: frozenset[str] = frozenset()) -> str:
    """The words as they are read aloud; names the pattern defines stay as they are.

    >>> spelled_out("Sk 2 dc, sl st in 3rd ch of ch-4"), spelled_out("Work even")
    ('skip two double crochet, slip stitch in third chain of chain-four', 'Work even')
    """

    def spell(hit: re.Match[str]) -> str:
        if hit["ord"]:
            return spoken_ordinal(int(hit["ord"])) if int(hit["ord"]) else hit.group()
        if number := hit["num"] or hit["whole"]:
            return f"{spoken_number(int(number))} " if hit["num"] else spoken_number(int(number))
        if hit["slst"]:
            return "slip stitches" if hit["slst"].endswith("s") else "slip stitch"
        if hit["chain"]:
            return f"chain-{spoken_number(int(hit['chain']))}"
        return _spelled(hit["word"], hit.group(), uk, own)

    return re.sub(r"\b(stitch) stitch(es)?\b", r"\1\2", " ".join(_WORD.sub(spell, words).split()))


def _spelled(word: str, whole: str, uk: bool, own: frozenset[str]) -> str:
    low = word.lower()
    if low in own or len(low) < 2 or low in NUMBER_WORDS or low in ORDINAL_WORDS:
        return whole
    if low in _SPELLED:
        return _SPELLED[low]
    named = stitch_named(low, uk)
    if named is None or not _is_abbreviation(low):
        return whole
    loop = f" in the {named.loop} loop" if named.loop else ""
    return said(named.name, uk) + loop


def _is_abbreviation(word: str) -> bool:
    """True for "hdc" and "fptr", and not for "treble", "shell" or "picot", which are words already."""
    consonants = not re.search(r"[aeiouy]", word.removeprefix("e"))
    return consonants or word.endswith("tog") or word in ("puff", "revsc")
