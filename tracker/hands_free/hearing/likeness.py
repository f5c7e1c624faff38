"""Whether a word of the maker's own is fit to be a command: too like another, and it is refused with the reason.

A phrase and the table of sayings come in; a sentence, or nothing, goes out. Likeness is of sounds, as espeak-ng writes
them; where there is no espeak-ng, of letters. Words of another language are compared as an English voice says them.
"""

import itertools
from collections.abc import Iterator
from functools import cache

from tracker.ears.hearing.words import ONES, TENS, number_words, units
from tracker.ears.port import Saying

TOO_LIKE = 0.3
"""Share of the sounds that must differ."""
AT_WORK = (
    "back loop", "front loop", "chain", "chain one", "double crochet", "single crochet", "treble", "slip stitch",
    "stitch", "skip", "skip one", "space", "window", "block", "turn", "yarn over", "increase", "decrease",
    "two together", "corner", "marker", "repeat", "right side", "wrong side",
)  # fmt: skip
"""What makers say as they work, so that none of it may move the work (common practice, no source)."""
_VOWELS = set("aeiouæɑɒɔəɚɛɜɪʊʌyøœɐᵻ")
_KINDS = (_VOWELS, set("pbtdkɡʔɾ"), set("fvθðszʃʒ"), set("mnŋ"), set("lɹrwj"))
"""Sounds that noise or another voice takes for each other: vowels, stops, hisses, hums, glides."""
_IN_CLUSTER = 0.7
_SYLLABIC = "\N{COMBINING VERTICAL LINE BELOW}"
"""Under a consonant that is a syllable by itself, as the end of "mitten"."""
_MARKS = str.maketrans("", "", "ˈˌː ˑ‿|_")


def refusal(phrase: str, deed: str, sayings: tuple[Saying, ...]) -> str:
    """Why a phrase cannot be the word for a deed, in one sentence; empty when it can."""
    letters = [mark for mark in phrase if mark.isalpha()]
    if len(letters) < 2:
        return f"“{phrase}” is no word that can be said."
    if len(phrase) > 40 or len(phrase.split()) > 6:
        return f"“{phrase}” is too long to be said in one breath."
    if any(mark.isdecimal() for mark in phrase):
        return f"“{phrase}” has figures in it; a number is always what was asked for."
    for other, whose in _others(deed, sayings):
        if other == phrase:
            taken = whose.removeprefix("which ")
            asks = f"{taken} already" if taken.startswith("asks") else f"is what {taken}"
            return f"“{phrase}” {asks}. Choose another word."
        if likeness(phrase, other) < TOO_LIKE:
            return f"“{phrase}” sounds too like “{other}”, {whose}. Choose a word that is less like it."
    return ""


def known_to_the_ear(phrase: str) -> bool:
    """True when the built-in ear can spell every word of it; others are taught by saying them."""
    known = set(units()[2:])
    return all(word in known for word in phrase.split())


def likeness(one: str, other: str) -> float:
    """What share of the sounds of the longer differs: 0 for the same word, 1 for nothing in common.

    >>> likeness("onward", "onward"), likeness("back loop", "back loops") < 0.3 < likeness("onward", "take that back")
    (0.0, True)
    """
    a, b = _sounds(one), _sounds(other)
    gone_a, gone_b = _costs(a), _costs(b)
    row = [0.0, *itertools.accumulate(gone_b)]
    for left, gone in zip(a, gone_a, strict=True):
        before, row = row, [row[0] + gone]
        for j, right in enumerate(b, 1):
            row.append(
                min(before[j] + gone, row[j - 1] + gone_b[j - 1], before[j - 1] + _difference(left, right))
            )
    return row[-1] / max(1, len(a), len(b))


def _difference(left: str, right: str) -> float:
    """One sound for another of its kind is half a difference: vowels are what an accent changes, and "nets" passes for
    "next"."""
    if left == right:
        return 0.0
    return 0.5 if any(left in kind and right in kind for kind in _KINDS) else 1.0


def _costs(sounds: str) -> list[float]:
    """What leaving out each sound counts: less in a cluster of consonants, where it is heard least."""
    out = []
    for i, mark in enumerate(sounds):
        beside = sounds[max(0, i - 1) : i + 2].replace(mark, "", 1)
        clustered = mark not in _VOWELS and any(other not in _VOWELS for other in beside)
        out.append(_IN_CLUSTER if clustered else 1.0)
    return out


def _others(deed: str, sayings: tuple[Saying, ...]) -> Iterator[tuple[str, str]]:
    """What it must not be like, and whose word that is."""
    for saying in sayings:
        if saying.deed != deed:
            for phrase in saying.phrases:
                if "{n}" not in phrase:
                    yield phrase, f"which asks for {saying.deed}"
                else:
                    for number in (1, 4, 7, 12, 20, 23):
                        yield phrase.replace("{n}", number_words(number)), f"which asks for {saying.deed}"
    for words in (*ONES, *TENS):
        yield words, "which makers say as they count"
    for words in AT_WORK:
        yield words, "which makers say as they work"


@cache
def _sounds(words: str) -> str:
    from tracker.mouth.port import NoVoice

    try:
        from tracker.mouth.espeak import sounded

        return sounded(words).translate(_MARKS)
    except NoVoice:
        return "".join(mark for mark in words.lower() if mark.isalpha())


def syllables(words: str) -> int:
    """How many syllables it is said with: runs of vowels in each of its words, and consonants that stand for one.

    >>> syllables("stop"), syllables("mitten"), syllables("go on"), syllables("say again")
    (1, 2, 2, 3)
    """
    return sum(max(1, _syllables(word)) for word in words.split())


def _syllables(word: str) -> int:
    runs, inside = 0, False
    for mark in _sounds(word):
        vowel = mark in _VOWELS
        runs += (vowel and not inside) or mark == _SYLLABIC
        inside = vowel
    return runs
