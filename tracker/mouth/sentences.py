"""What is fit to be spoken: text cleaned, cut into sentences, checked for what an ear would obey.

Comes in: any text, also out of a stranger's pattern. Goes out: sentences a voice can be given. Promises
that nothing in the text can act on a voice (control characters, phoneme brackets) and that no sentence is
longer than `LONGEST`.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterable

LONGEST = 240
"""Characters of one sentence; longer ones are cut at a space, so that none takes long to make."""
LONGEST_TEXT = 4_000
"""Characters of one text; nobody listens to more at a time."""

_SENTENCE_END = re.compile(r"(?<=[.!?…])[\"'”’)\]]*\s+")
# Where a voice draws breath: there a word before it and a word after it are heard apart.
_PAUSE = re.compile(r"[,;:.!?…—–()\"“”\n]+(?=\s|$)|[(\"“”—–…\n]+|\s-+\s")
_NOT_SPOKEN = re.compile(r"[^\w'\s]+")


def speakable(text: str) -> str:
    """The text as a voice may be given it."""
    kept = "".join(
        " " if mark in "\t\n\r\v\f\u2028\u2029" else mark
        for mark in unicodedata.normalize("NFC", text)[:LONGEST_TEXT]
        if mark in "\t\n\r\v\f\u2028\u2029"
        or unicodedata.category(mark) not in {"Cc", "Cf", "Cs", "Co", "Cn"}
    )
    # "[[ch 1] twice]" is a pattern's brackets; the natural voice takes "[[" for the start of raw phonemes.
    apart = re.sub(r"\[(?=\[)", "[ ", kept)
    return re.sub(r"\s+", " ", apart).strip()


def in_sentences(text: str) -> tuple[str, ...]:
    """The text, made speakable, as the sentences a voice says one by one.

    >>> in_sentences("Last one. Then eight to the end.")
    ('Last one.', 'Then eight to the end.')
    """
    sentences: list[str] = []
    for sentence in _SENTENCE_END.split(speakable(text)):
        rest = sentence
        while len(rest) > LONGEST:
            cut = rest.rfind(" ", 0, LONGEST)
            cut = cut if cut > 0 else LONGEST
            sentences.append(rest[:cut])
            rest = rest[cut:].lstrip()
        if any(mark.isalnum() for mark in rest):
            sentences.append(rest)
    return tuple(sentences)


def taken_for_commands(
    text: str, phrases: Iterable[str], in_words: Callable[[str], str] = str
) -> tuple[str, ...]:
    """Those of the phrases that stand alone between two pauses of the text, so that an ear might obey them.

    `in_words` spells figures as the voice says them ("7" → "seven"); without it figures are compared as
    figures.

    >>> taken_for_commands("Count, then turn. Next.", ["next", "turn"])
    ('next',)
    >>> taken_for_commands("Double crochet in the next chain.", ["next"])
    ()
    """
    wanted = {_plain(in_words(phrase)): phrase for phrase in phrases}
    found = (wanted.get(_plain(in_words(stretch))) for stretch in _PAUSE.split(text))
    return tuple(dict.fromkeys(phrase for phrase in found if phrase is not None))


def _plain(words: str) -> str:
    """The words as an ear tells them apart: no capitals, no marks, single spaces."""
    straight = unicodedata.normalize("NFKC", words).replace("’", "'").casefold()
    return " ".join(_NOT_SPOKEN.sub(" ", straight).split())
