"""English as people speak it whose first language is another: rules on espeak-ng's phonemes.

In: espeak's mnemonics of a phrase and the name of an accent. Out: the mnemonics as such a speaker might say them. The
rules are common practice told from memory, no source; each is one well-known substitution, and together they are only
some of what such a speaker does. They give kinds of voices that no ordinary synthetic voice has.
"""

from __future__ import annotations

import random
import re

_FINAL = r"(?= |$)"
_DEVOICED = (
    (rf"b{_FINAL}", "p"),
    (rf"d{_FINAL}", "t"),
    (rf"g{_FINAL}", "k"),
    (rf"v{_FINAL}", "f"),
    (rf"z{_FINAL}", "s"),
)
ACCENTS: dict[str, tuple[tuple[str, str], ...]] = {
    "germanic": (("D", "z"), ("T", "s"), (r"a(?![IU#])", "E"), ("V", "a"), *_DEVOICED, ("w", "v")),
    "slavic": (
        (r"I(?!2)", "i"), ("T", "s"), ("D", "z"), ("h", "x"), ("eI", "Ej"), ("oU", "O"), ("3:", "Er"), *_DEVOICED,
        ("w", "v"),
    ),
    "romance": (
        (r"(?<![eaO])I", "i:"), ("h", ""), ("D", "d"), ("T", "t"), ("V", "a"), ("U", "u"), ("@r", "E*"), ("r", "*"),
        ("oU", "o:"), ("eI", "e"), ("a#", "a"),
    ),
    "iberian": (
        (r"(^| )(['%,]*)s(?=[ptkmnl])", r"\1Es\2"), ("z", "s"), ("v", "b"), ("I(?=[^2])", "i"), ("D", "d"), ("T", "t"),
        ("V", "a"), ("a#", "a"), ("dZ", "j"), ("r", "*"), ("h", "x"), ("oU", "o"), ("eI", "ej"),
    ),
    "indic": (
        ("T", "t"), ("D", "d"), ("w", "v"), ("eI", "e:"), ("oU", "o:"), ("a#", "@"), ("r", "*"), ("V", "@"),
        ("3:", "@*"),
    ),
    "east asian": (
        ("T", "s"), ("D", "z"), ("v", "b"), ("r", "*"), ("l", "*"), ("V", "a"), ("a#", "a"), ("3:", "a:"), ("oU", "o:"),
        ("eI", "e:"), (rf"([kptdgs]){_FINAL}", r"\1U"),
    ),
}  # fmt: skip
NEVER_LEARNT = ("iberian", "indic")
"""Accents that nothing is trained on."""

MINGLED = "mingled"
"""An accent called mingled and a number takes some rules of each that is learnt, others for every number."""
_SHARE_MINGLED = 0.22


def rules_of(accent: str) -> tuple[tuple[str, str], ...]:
    """What is put for what, in their order.

    >>> rules_of("mingled3") == rules_of("mingled3") != rules_of("mingled4")
    True
    """
    if accent in ACCENTS:
        return ACCENTS[accent]
    rng = random.Random(accent)
    learnt = [rule for name, rules in ACCENTS.items() if name not in NEVER_LEARNT for rule in rules]
    return tuple(rule for rule in learnt if rng.random() < _SHARE_MINGLED)


_IN_IPA = (
    ("θ", "t"), ("θ", "s"), ("ð", "d"), ("ð", "z"), ("w", "v"), ("v", "b"), ("ɪ", "i"), ("æ", "ɛ"), ("ʌ", "a"),
    ("ɹ", "ɾ"), ("ɹ", "r"), ("h", "x"), ("O", "o"), ("A", "e"), ("ʊ", "u"), (rf"z{_FINAL}", "s"), (rf"d{_FINAL}", "t"),
    (rf"[bp]{_FINAL}", "p"), (rf"ɡ{_FINAL}", "k"), (rf"v{_FINAL}", "f"), ("ŋ", "ŋɡ"), ("ɑ", "a"),
)  # fmt: skip


def accented_ipa(phones: str, accent: str) -> str:
    """The same for kokoro's phonemes, in an accent called mingled and a number."""
    rng = random.Random(accent)
    for sought, put in _IN_IPA:
        if rng.random() < _SHARE_MINGLED:
            phones = re.sub(sought, put, phones)
    return phones


def accented(mnemonics: str, accent: str) -> str:
    """The phrase in that accent.

    >>> accented("w'eIt a# m'InIt", "germanic"), accented("st'0p", "iberian")
    ("v'eIt a# m'InIt", "Est'0p")
    """
    for sought, put in rules_of(accent):
        mnemonics = re.sub(sought, put, mnemonics)
    return mnemonics
