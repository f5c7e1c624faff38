"""Where, in a long stretch of sound, the word lies that stands out of it.

In: the samples of a stretch that the endpointer took for speech because a room full of voices or a kettle ran into the
word. Out: shorter stretches around its loudest moment, as milliseconds within it; none where nothing stands out, as in
a sentence, whose parts are about equally loud.
"""

from __future__ import annotations

import numpy as np

from tracker.ears.hearing.sound.endpoint import HOP, WINDOW, Samples, band_power

SMOOTH = 9
"""A level is the mean of so many frames of 10 ms."""
BELOW_DB = (8.0, 11.0)
"""A core is what lies no further below its loudest moment than one of these."""
BRIDGE_MS = 200
"""And what lies between two such stretches so close together."""
AROUND_MS = 60
SPARE_MS = 250
"""A core leaves out at least so much of the stretch."""
LEAST_MS, MOST_MS = 250, 1700
STANDS_OUT_DB = 7.0
"""The mean level of a core over the mean of what is left out."""


def cores(sound: Samples) -> list[tuple[int, int]]:
    """Each core's first and last millisecond.

    >>> hush = np.random.default_rng(1).normal(0, 0.01, 16000).astype(np.float32)
    >>> word = np.random.default_rng(2).normal(0, 0.1, 8000).astype(np.float32)
    >>> [(round(a, -2), round(b, -2)) for a, b in cores(np.concatenate([hush, word, hush]))]
    [(900, 1600)]
    >>> cores(np.concatenate([word, word, word]))
    []
    """
    if len(sound) < WINDOW + SMOOTH * HOP:
        return []
    power = band_power(np.lib.stride_tricks.sliding_window_view(sound, WINDOW)[::HOP]) + 1e-12
    frames = len(power)
    even = np.convolve(power, np.full(SMOOTH, 1 / SMOOTH), "same")
    level = 10 * np.log10(even)
    top = int(level.argmax())
    found: list[tuple[int, int]] = []
    for below in BELOW_DB:
        loud = np.flatnonzero(level > level[top] - below)
        apart = np.flatnonzero(np.diff(loud) * 10 > BRIDGE_MS)
        first = max((int(loud[i + 1]) for i in apart if loud[i + 1] <= top), default=int(loud[0]))
        last = min((int(loud[i]) for i in apart if loud[i] >= top), default=int(loud[-1]))
        start, end = max(0, first * 10 - AROUND_MS), min(frames * 10, last * 10 + AROUND_MS)
        if not LEAST_MS <= end - start <= MOST_MS or frames * 10 - (end - start) < SPARE_MS:
            continue
        inside = power[first : last + 1].mean()
        outside = np.concatenate([power[: start // 10], power[end // 10 :]]).mean()
        like = any(abs(a - start) + abs(b - end) <= AROUND_MS for a, b in found)
        if 10 * np.log10(inside / outside) >= STANDS_OUT_DB and not like:
            found.append((start, end))
    return found
