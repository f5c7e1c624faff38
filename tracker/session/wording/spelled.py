"""A written phrase as it is read aloud: "sk 2 dc" is "skip two double crochet".

Any words come in; the same words go out with the trade's abbreviations and the figures spelled out. Nothing is added,
left out or put in another order.
"""

import re
from collections.abc import Collection, Mapping
from functools import cache, lru_cache, partial

from tracker.notation.definitions.head import name_in_full
from tracker.notation.pattern import Special
from tracker.notation.tree import Work
from tracker.program.places import Program
from tracker.trade.nouns import several
from tracker.trade.numbers import NUMBER_WORDS, ORDINAL_WORDS, spoken_number, spoken_ordinal
from tracker.trade.said.speech import mirrored
from tracker.trade.spellings import stitch_named
from tracker.trade.stitches import STITCHES, TABLE, said

_SPELLED = {
    "st": "stitch", "sts": "stitches", "sp": "space", "sps": "spaces", "ch": "chain", "chs": "chains",
    "rem": "remaining", "rep": "repeat", "beg": "beginning", "tch": "turning chain", "lp": "loop", "lps": "loops",
    "blo": "back loop only", "flo": "front loop only", "bl": "back loop", "fl": "front loop", "rnd": "round",
    "rnds": "rounds", "rs": "right side", "ws": "wrong side", "inc": "increase", "dec": "decrease", "bet": "between",
    "ea": "each", "foll": "following", "prev": "previous",
    "mm": "millimetre", "cm": "centimetre",
    "tog": "together", "patt": "pattern", "cont": "continue", "approx": "about", "lh": "left hand", "rh": "right hand",
    "pat": "pattern", "pm": "place marker", "sm": "slip marker", "mr": "magic ring", "incl": "including",
    "fo": "fasten off", "tbl": "through the back loop", "yds": "yards", "oz": "ounce",
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
    r"\b(?P<whole_part>\d{1,3})\.(?P<part>\d{1,3})(?!\d)\s?|"
    r"(?P<ord>\d{1,6})(?:st|nd|rd|th|ST|ND|RD|TH)\b|(?P<num>\d{1,6})(?=[A-Za-z])|(?P<whole>\b\d{1,6}\b)|"
    r"(?P<slst>\b[Ss]l\.?[ -]?sts?\b)|\bch-(?P<chain>\d{1,3})\b|(?P<word>[A-Za-z]+\d*[A-Za-z]*)\.?(?=\W|$)"
)
_SENTENCE = re.compile(r"\s+[A-Z]")
"""What stands behind a stop that ends a sentence, and not an abbreviation."""


_SEVERAL = re.compile(r"(?<!\bone )(?<!\b1 )\bcentimetre\b")
_REMAIN = re.compile(r"(?<=stitches )remaining(?=[.,;:]|$)")
"""In "until 3 sts rem" and nowhere else a verb."""
_SOME = re.compile(r"(?<![\w.-])(?:[2-9]|[1-9]\d{1,5}) ?$")
"""A number of more than one right before a word."""
_ONE_AND_ALL = ("ch", "tog", "rem", "rep", "mm", "cm", "oz", "inc", "dec", "rs", "ws", "sk")
"""Abbreviations that are no things to be counted, or are told as doings."""
_A = re.compile(r"\ban(?= [b-df-gj-np-tv-z])")
_AN = re.compile(r"\ba(?= (?:increase|extended|ounce|invisible)\b)")
"""Articles before names that were letters: "an FPdc" is a front post double crochet."""
_GLUED = re.compile(r"([a-z]{2,4}?)(\d{1,3})")
"""A number behind its abbreviation: "ch3"."""
_BY = re.compile(r"(?<=\d)[x×](?=\d)")
_CODE = re.compile(r"(?<=[A-Z])(?=\d)|(?<=\d)(?=[A-Z])")
_BEGINS = re.compile(r"^beg(?:inning|\.)?[ -]+", re.IGNORECASE)


@lru_cache(maxsize=16)
def own_names(program: Program) -> Mapping[str, str]:
    """The stitches a pattern defines, by what its rows call them: each as it is said, in full where it says so."""
    found: dict[str, str] = {}
    for special in program.pattern.specials:
        text = program.source.words(special.span)
        full = name_in_full(text) if special.base not in SQUARES else ""
        begins = _BEGINS.match(special.name)
        if begins is not None and _BEGINS.match(full or special.name):
            plain = special.name[begins.end() :]
            named = found.get(plain) or (said(special.base, program.told_uk) if special.base else plain)
            whole = _BEGINS.sub("", full)
            full = f"beginning {whole if len(whole) > 4 else _BEGINS.sub('', named)}"
        if crossed := _CROSSED.match(text):
            one, other = (spoken_number(int(crossed[group])) for group in ("one", "other"))
            leans = f"{one} over {other} {crossed['name'].lower()}"
            found[special.name] = mirrored(leans) if program.speech.left_handed else leans
            continue
        if special.base in SQUARES and not re.search("[aeiou]", special.name.removeprefix("beg ")):
            found[special.name] = special.base.replace("beg ", "beginning ")
            continue
        found[special.name] = (
            _lettered(program, special)
            or _made(program, special, full)
            or _name_said(program, special.name, full or special.name)
        )
    return found


_CROSSED = re.compile(
    r"\W*(?P<one>\d)/(?P<other>\d)[ -](?P<name>[A-Za-z][a-z]+(?: [A-Za-z][a-z]+){0,2})\b(?= *[(:=–-])"
)
"""A cable by how many stitches cross how many: "2/2 Right Cross (2/2 RC)"."""
_SEVERAL_AS_ONE = re.compile(r"(\d)-?([a-z]{2,3})-? ?(?:cl|cluster)")
_IN_ONE = re.compile(r"([a-z]{2,3})(\d)inc")
"""UK toys: "dc2inc" is two in one stitch (from memory)."""


LONGEST = 60
"""Letters of a definition that may stand in place of a name."""
SQUARES = ("window", "block", "beg window", "beg block", "tile", "beg tile")


def _lettered(program: Program, special: Special) -> str:
    """ "decrease" of "A = decrease (2 sc together)", "edge stitch" of "ES = edge stitch, sc in both loops".

    What a single letter or the first letters of words stand for; "" for any other name.
    """
    words = re.split(r"[\n(,;.]", special.text.strip())[0].strip()
    initials = "".join(word[0] for word in words.split()).lower()
    if (
        (len(special.name) != 1 and initials != special.name)
        or not 2 < len(words) <= LETTERED
        or re.match(r"\d|in\b", words)
    ):
        return ""
    return told(program, words)


LETTERED = 24
"""Letters that may be said for one."""


def _made(program: Program, special: Special, full: str) -> str:
    """ "single crochet into the back loop": what letters stand for that a pattern gives no name in words."""
    plain = len(special.items) == 1 and isinstance(special.items[0], Work)
    if not plain or special.name in STITCHES or re.search(r"[aeiou ]", full.lower()) or not full:
        return ""
    words = re.split(r"[,;.]", special.text.strip())[0]
    return told(program, words) if 2 < len(words) <= LONGEST else ""


def _name_said(program: Program, name: str, full: str) -> str:
    """ "crossed double crochet", "V-stitch", "C four F"; what the trade has a name for keeps it."""
    if name in STITCHES:
        trade = said(name, program.told_uk)
        named = re.split(r"[\s-]+", full.lower())
        if len(named) < 2 or re.split(r"[\s-]+", trade)[0] in named:
            return trade
    full = re.sub(r" \([^)]*\)$", "", full)
    if len(full) == 1:
        return full.upper()
    if (hit := _SEVERAL_AS_ONE.fullmatch(full.lower())) is not None:
        return f"{spoken_number(int(hit[1]))}-{told(program, hit[2])} cluster"
    if (hit := _IN_ONE.fullmatch(full.lower())) is not None:
        return f"{spoken_number(int(hit[2]))} {told(program, hit[1])} in one stitch"
    full = re.sub(r"(?<=[\w])([- ])[Ss]t(?:itch)?$", r"\1stitch", full)
    code = re.search(r"\d", full) if full.isupper() else not re.search(r"[aeiouAEIOU ]", full)
    if code and " " not in full:
        parts = _CODE.sub(" ", full.upper()).split()
        return " ".join(spoken_number(int(part)) if part.isdecimal() else part for part in parts)
    words = " ".join(
        word if len(word) == 1 or word[1:2] == "-" else word[:1].lower() + word[1:] for word in full.split()
    )
    words = words.lower() if full.isupper() else words
    words = re.sub(r"^([a-zA-Z])-", lambda hit: f"{hit[1].upper()}-", words)
    return told(program, words)


def told(program: Program, words: str, own: Collection[str] = ()) -> str:
    """A pattern's own words as its maker is told them: in their terms, and for their hand."""
    words = _in_full(sized(program, words), own) if isinstance(own, Mapping) else sized(program, words)
    words = spelled_out(words, program.pattern.uk, own, program.told_uk)
    return mirrored(words) if program.speech.left_handed else words


def _in_full(words: str, own: Mapping[str, str]) -> str:
    """The words with names of the pattern's own that are several words in full: "next lg sh" is "next large shell"."""
    for name, full in own.items():
        if " " in name and name != full and name in words.lower():
            called = re.compile(rf"\b{re.escape(name)}(e?s)?\b", re.IGNORECASE)
            words = called.sub(partial(_one_or_more, full), words)
    return words


def _one_or_more(full: str, hit: re.Match[str]) -> str:
    many = hit[1] or _SOME.search(hit.string, 0, hit.start())
    return several(full) if many else full


_FIGURES = re.compile(
    r"(?<![\w./])(\d+)(?:(?P<each>(?:\s*[(\[]\s*[\d–-]+\s*[)\]]){2,})"
    r"|\s*[(\[](?P<within>\s*[\d–-]+(?:\s*[,:;/|]\s*[\d–-]+)*\s*)[)\]]"
    r"|(?P<behind>(?:\s*:\s*\d+)+|(?:\s?[/|]\s?\d+){2,})(?![\w/]))"
)
"""Figures of all sizes: "31 (35, 39)", "31 (35) (39)", "31: 35: 39", "31/35/39", "31 | 35 | 39"."""


def sized(program: Program, words: str) -> str:
    """Of a list of figures for every size the one that is worked: "ch 31 (35, 39)" is "ch 35" for the second."""
    sizes = program.pattern.sizes
    if len(sizes) < 2:
        return words
    nth = sizes.index(program.pattern.size) if program.pattern.size in sizes else 0

    def chosen(hit: re.Match[str]) -> str:
        listed = hit["each"] or hit["within"] or hit["behind"]
        figures = [hit[1], *re.split(r"[\s,:;/|()\[\]]+", listed.strip(" ,:;/|()[]"))]
        return figures[nth] if len(figures) == len(sizes) else hit.group()

    return _FIGURES.sub(chosen, words)


def spelled_out(
    words: str,
    uk: bool = False,
    own: Collection[str] = (),
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
        if figures and (hit["ord"] or hit["whole"] or hit["part"]):
            return hit.group()
        if hit["part"]:
            return f"{_decimal(hit['whole_part'], hit['part'])} "
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
        whole = hit.group().removesuffix(ends)
        word = _spelled(hit["word"], whole, uk, told_uk, own)
        if word not in (whole, hit["word"]) and hit["word"].lower() not in _ONE_AND_ALL:
            word = several(word) if _SOME.search(hit.string, 0, hit.start()) else word
        return word + ends

    told = " ".join(_WORD.sub(spell, _BY.sub(" by ", words)).split())
    if told != words:
        told = _A.sub("a", _AN.sub("an", told))
    told = _SEVERAL.sub("centimetres", re.sub(r"\b(stitch) stitch(es)?\b", r"\1\2", told))
    return _REMAIN.sub("remain", told)


def _decimal(whole: str, part: str) -> str:
    """ "four" of "4.00", "three point seven five" of "3.75"."""
    digits = [spoken_number(int(digit)) for digit in part.rstrip("0")]
    return " ".join([spoken_number(int(whole)), *(["point", *digits] if digits else [])])


@cache
def _named(uk: bool) -> dict[str, str]:
    """Stitches by their names in words, in these terms."""
    return {(row.spoken_uk if uk else row.spoken): row.name for row in reversed(TABLE)}


@cache
def _names(uk: bool) -> re.Pattern[str]:
    """Every stitch's name in words, in these terms; the longest first."""
    names = sorted((name for name in _named(uk) if said(_named(uk)[name], not uk) != name), key=len)
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, reversed(names)))})\b", re.IGNORECASE)


def _spelled(word: str, whole: str, uk: bool, told_uk: bool, own: Collection[str]) -> str:
    low = word.lower()
    if low in own:
        return own[low] if isinstance(own, Mapping) else whole
    if len(low) < 2 or low in NUMBER_WORDS or low in ORDINAL_WORDS:
        return whole
    if low in _TERMS:
        return _TERMS[low][told_uk]
    if low in _SPELLED:
        return _SPELLED[low]
    named = stitch_named(low, uk)
    if (several := _IN_ONE.fullmatch(low)) is not None and stitch_named(several[1], uk) is not None:
        return f"{spoken_number(int(several[2]))} {_spelled(several[1], several[1], uk, told_uk, own)} in one stitch"
    if named is None and (glued := _GLUED.fullmatch(low)) is not None:
        front = _spelled(glued[1], glued[1], uk, told_uk, own)
        return f"{front} {spoken_number(int(glued[2]))}" if front != glued[1] else whole
    if named is None or not _is_abbreviation(low):
        return whole
    loop = f" in the {named.loop} loop" if named.loop else ""
    return said(named.name, told_uk) + loop


def _is_abbreviation(word: str) -> bool:
    """True for "hdc" and "fptr", and not for "treble", "shell" or "picot", which are words already."""
    consonants = not re.search(r"[aeiouy]", word.removeprefix("e"))
    return consonants or word.endswith("tog") or word in ("puff", "revsc", "bo", "pop")
