"""What is learnt of one voice in one room as it goes on: how its embeddings lie beside those the head was
trained on.

In: the embeddings of commands that were heard, with what they were. Out: a shift to take off every
utterance before the head sees it. It can be kept with the maker's settings (`as_numbers`) and forgotten.
Learning needs commands, not talk, and weighs what is usual for each command, so that a hundred times "next"
teaches the voice and not the word.
"""

from __future__ import annotations

from collections import deque

import numpy as np

from tracker.ears.hearing.head import Floats

SHARE = 0.75
"""How much of the difference is taken off once the voice is well known."""
SLOWNESS = 3.0
"""So many commands' worth of doubt before the first one."""
MOST = 24
"""Older commands are forgotten: the room and the voice change."""


class Sitting:
    def __init__(self, usual: Floats) -> None:
        """`usual`: the mean embedding of each class in training."""
        self._usual = usual
        self._differences: deque[Floats] = deque(maxlen=MOST)

    @property
    def commands(self) -> int:
        """How many commands it has learnt from."""
        return len(self._differences)

    def shift(self) -> Floats:
        """What to take off each frame's embedding."""
        if not self._differences:
            return np.zeros(self._usual.shape[1], np.float32)
        total: Floats = np.sum(list(self._differences), axis=0)
        return (SHARE * total / (len(self._differences) + SLOWNESS)).astype(np.float32)

    def learn(self, embeddings: Floats, command: int) -> None:
        """A command was heard: its embeddings as they came, and its class. A class never met in training
        teaches nothing."""
        if not self._usual[command].any():
            return
        self._differences.append((embeddings.mean(axis=0) - self._usual[command]).astype(np.float32))

    def unlearn(self) -> None:
        """The last command was taken back, so it was something else."""
        if self._differences:
            self._differences.pop()

    def as_numbers(self) -> list[list[float]]:
        return [[round(float(x), 3) for x in d] for d in self._differences]

    def recall(self, numbers: list[list[float]]) -> None:
        """What `as_numbers` gave; anything of another form is taken as nothing learnt."""
        self._differences.clear()
        width = self._usual.shape[1]
        self._differences.extend(np.array(d, np.float32) for d in numbers[-MOST:] if len(d) == width)
