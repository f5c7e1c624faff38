"""Numbers from 0 to 999, spelled by the head word by word.

In: frames × units of log-probabilities and the phrases a number may stand in. Out: the likeliest number,
the phrase it stood in, and by how much it beats the next likeliest number, in natural logs. Every number is
tried; those that others are often mistaken for need to be surer.
"""

from __future__ import annotations

import functools
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tracker.ears.hearing.head import Floats
from tracker.ears.hearing.words import TENS, number_words, units

NEVER = -1e9
WORDINESS = 1.2
"""The spelling likes to leave a short word out: each word counts so much for itself."""
TENS_NEED = 0.3
"""Thirty to ninety must beat other numbers by this: "nineteen" comes out as "ninety", the other way round seldomer."""
TENS_NEED_BEFORE_STITCHES, LARGE_NEED_BEFORE_STITCHES = 3.0, 1.5
"""And by this before "stitches", whose first sounds are those of "-ty", so that nine and the teens come out as tens; so
does all over twelve there, because "six" comes out as "sixteen" and "sixty six" too. Set on eleven voices of espeak-ng
in bodies not trained with: at the margins that are wanted, of 209 counts 172 are right and 4 wrong for 157 and 19
clean, 73 and 1 for 61 and 6 in 10 dB of pink noise."""
COUNT_NEEDS = 3.0
"""And "count" with a number must beat the other phrases by this, for "round" in another accent is spelt so: this brings
back four rows of 210 and loses no count."""
HUNDRED_HEARD = -3.5
"""Numbers over 99 are tried only when some frame holds "hundred" about this likely."""


@dataclass(frozen=True, slots=True)
class Number:
    """What a spoken number most likely was."""

    number: int
    phrase: str
    """The phrase it stood in, with "{n}"."""
    score: float
    """Log-probability of the whole phrase with that number."""
    margin: float
    """Over the best other number."""
    open_ended: bool
    """More words could follow: "twenty" may become "twenty three"."""


@dataclass(frozen=True, slots=True)
class _Candidates:
    numbers: NDArray[np.int64]
    phrases: tuple[str, ...]
    phrase_of: NDArray[np.int64]
    needs: Floats
    """By how much each must be surer than the others."""
    targets: NDArray[np.int64]
    """Unit of each place, 0 beyond the end."""
    lengths: NDArray[np.int64]


@functools.cache
def _candidates(phrases: tuple[str, ...], hundreds: bool) -> _Candidates:
    index = {word: i for i, word in enumerate(units())}
    rows: list[tuple[int, int, list[int]]] = []
    for number in range(1000 if hundreds else 100):
        spoken = {number_words(number), number_words(number, said_and=True)}
        for place, phrase in enumerate(phrases):
            if number == 0 and phrase.startswith(("row", "round", "go")):
                continue
            rows += [
                (number, place, [index[w] for w in phrase.replace("{n}", words).split()]) for words in spoken
            ]
    longest = max(len(spelt) for _, _, spelt in rows)
    targets = np.zeros((len(rows), longest), np.int64)
    for i, (_, _, spelt) in enumerate(rows):
        targets[i, : len(spelt)] = spelt
    numbers, places = np.array([n for n, _, _ in rows]), np.array([p for _, p, _ in rows])
    counts = np.array([phrase.endswith("count {n}") for phrase in phrases])
    followed = np.array([not phrase.endswith("{n}") for phrase in phrases])[places]
    tens = np.where(followed, TENS_NEED_BEFORE_STITCHES, TENS_NEED)
    bare = (numbers % 10 == 0) & (numbers % 100 >= 30)
    large = LARGE_NEED_BEFORE_STITCHES * (followed & (numbers > 12))
    needs = np.where(bare, tens, large) + COUNT_NEEDS * counts[places]
    lengths = np.array([len(s) for _, _, s in rows])
    return _Candidates(numbers, phrases, places, needs.astype(np.float32), targets, lengths)


def spelling_scores(frames: Floats, targets: NDArray[np.int64], lengths: NDArray[np.int64]) -> Floats:
    """Log-probability that the frames spell each target (connectionist temporal classification, forward
    pass)."""
    many, longest = targets.shape
    states = 2 * longest + 1
    symbols = np.zeros((many, states), np.int64)
    symbols[:, 1::2] = targets
    skip = np.zeros((many, states), bool)
    skip[:, 3::2] = targets[:, 1:] != targets[:, :-1]
    alpha = np.full((many, states), NEVER, np.float32)
    alpha[:, 0] = frames[0, 0]
    alpha[:, 1] = frames[0, targets[:, 0]]
    for frame in frames[1:]:
        one = np.concatenate([np.full((many, 1), NEVER, np.float32), alpha[:, :-1]], axis=1)
        two = np.concatenate([np.full((many, 2), NEVER, np.float32), alpha[:, :-2]], axis=1)
        two = np.where(skip, two, NEVER)
        top = np.maximum(np.maximum(alpha, one), two)
        alpha = top + np.log(np.exp(alpha - top) + np.exp(one - top) + np.exp(two - top)) + frame[symbols]
    last = np.arange(many)
    ends: Floats = np.logaddexp(alpha[last, 2 * lengths], alpha[last, 2 * lengths - 1])
    return ends


def best_number(frames: Floats, phrases: tuple[str, ...]) -> Number:
    hundred = units().index("hundred")
    found = _candidates(phrases, bool(frames[:, hundred].max() > HUNDRED_HEARD))
    scores = spelling_scores(frames, found.targets, found.lengths)
    scores = scores + np.float32(WORDINESS) * found.lengths.astype(np.float32)
    sure = scores - found.needs
    best = int(sure.argmax())
    number = int(found.numbers[best])
    rivals = sure[found.numbers != number]
    words = number_words(number).split()
    phrase = found.phrases[int(found.phrase_of[best])]
    open_ended = words[-1] in (*TENS, "hundred") and phrase.endswith("{n}")
    return Number(number, phrase, float(scores[best]), float(sure[best] - rivals.max()), open_ended)


def free_score(frames: Floats) -> float:
    """The likeliest spelling of all, nothing known of what may be said: the best unit in each frame."""
    return float(frames.max(axis=1).sum())
