"""What a head that knows the words already learns further from: taught phrases in many more noises, and words that are
none of them, said alone, in as many.

In: the recordings in a working folder, and real speech. Out: examples; each family's clips are dealt into parts, and
each part has noises and rooms of its own, so that few clips are heard in the same one. Every random choice is seeded.
"""

from __future__ import annotations

import random

import numpy as np

from tracker.ears.phrases_en import ENGLISH, TAUGHT
from tracker.ears.train.saying.texts import OTHER

Clip = tuple[np.ndarray, str, str, str]
"""Samples, text, label and voice."""
CLEAN, NOISY = False, True
PARTS: dict[str, tuple[tuple[tuple[bool, int], ...], ...]] = {
    "espeak": (
        ((NOISY, 7),),
        ((NOISY, 8), (CLEAN, 9)),
        ((NOISY, 9),),
        ((NOISY, 7), (NOISY, 8)),
        ((NOISY, 9), (NOISY, 10)),
    ),
    "accented": (((NOISY, 7), (NOISY, 8)), ((NOISY, 9), (CLEAN, 5))),
    "mingled": (((NOISY, 7), (NOISY, 8)), ((NOISY, 9), (CLEAN, 5))),
    "piper": (((NOISY, 7), (NOISY, 8), (CLEAN, 5)),),
}
"""Noisy or not, and the seed, of each copy of each part of a family's clips."""
MOST = {"piper": 450}
"""Only so many of the first clips of a family."""
TALKERS = ("espeak", "accented")
"""Whose clips talk in the background."""
REAL_EVERY, REAL_SEEDS = 4, (7, 0, 8)
"""Which of the real recordings, and the seeds of their rooms, in turn; 0 is as it was recorded."""
FASTEST = 4e-4
"""The highest rate of learning."""
WEIGHT_OF_PLAIN = 2.5
"""What is understood but not taught, and numbers, weigh so much more than what there is more of: with 1 the taught
phrases were kept a little better still, and plain words of people never heard a little less than before."""
SEED = 11
SHORT_TALK = 4
"""Words and phrases of fewer words than this are what is taken for a command."""
_SHOWN = set(TAUGHT.values())
_KNOWN = {phrase for saying in ENGLISH for phrase in saying.phrases}
_NUMBERS = ("row", "count", "number")
_PLAIN = (_KNOWN - _SHOWN) | set(_NUMBERS)


def picked(clips: list[Clip]) -> list[Clip]:
    """Some of a family's clips: the taught phrases and short talk more often than what has been learnt well."""
    rng = random.Random(SEED)
    return [clip for clip in clips if rng.random() < _share(clip[1], clip[2])]


def _share(text: str, label: str) -> float:
    if label in _SHOWN:
        return 1.0 if text == label else 0.3  # a name stands before the others
    if label in _KNOWN:
        return 0.5
    if label == OTHER:
        return 0.6 if len(text.split()) < SHORT_TALK else 0.3
    return 0.2 if label in _NUMBERS else 0.15


def dealt(family: str, clips: list[Clip]) -> list[tuple[Clip, bool, int]]:
    """Each picked clip with whether it is to be noisy and the seed, once for each of its copies."""
    parts = PARTS[family]
    found = picked(clips[: MOST.get(family)])
    return [
        (clip, noisy, seed)
        for i, copies in enumerate(parts)
        for clip in found[i :: len(parts)]
        for noisy, seed in copies
    ]


def weight_of(label: str) -> float:
    """What an example of that class weighs."""
    return WEIGHT_OF_PLAIN if label in _PLAIN else 1.0
