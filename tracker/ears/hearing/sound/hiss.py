"""Whether a word began with a hiss, as "stop" does and "top" does not.

In: the sound of a word from well before its beginning on, and the sound of the room before it. Out: yes or no. The
embeddings hardly tell an "s" before a closed "t" from none; its power above 3.5 kHz, a tenth of a second before the
voice sets in, does. In a quiet room 36 "stop" of 36 have it, 1 "top" of 36, by the four families of voices that the
bounds were set on (espeak-ng in bodies not trained with, gnuspeech, flite, piper).
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from tracker.ears.hearing.sound.endpoint import HOP, WINDOW, Samples

LEAD_MS, ROOM_MS = 350, 1500
"""How much sound before a word is looked at, and from when on the room is."""
HISS_BINS, VOICE_BINS = slice(88, 188), slice(5, 38)
"""Of a spectrum of WINDOW samples: 3.5 to 7.5 kHz, 0.2 to 1.5 kHz."""
VOICE_DB = 16.0
"""The voice has set in where its power is no further below its peak."""
EARLIEST_MS, LATEST_MS = 280, 90
"""Where before that an "s" lies; what hisses later is the breath of a "t"."""
OVER_ROOM_DB, BELOW_BURST_DB = 8.0, 25.0
"""How far it is above the room's hiss, and at most below the loudest of the word."""


NOTHING_DB = -110.0


def begins_with_hiss(sound: Samples, room: Samples) -> bool:
    """
    >>> rng = np.random.default_rng(1); hush = rng.normal(0, 1e-4, 8000).astype(np.float32)
    >>> voice = np.sin(np.arange(4800) * 0.2).astype(np.float32); hiss = rng.normal(0, 0.1, 1600).astype(np.float32)
    >>> begins_with_hiss(np.concatenate([hush[:4000], hiss, hush[:1000], voice]), hush)
    True
    >>> begins_with_hiss(np.concatenate([hush[:4000], hiss[:800], voice]), hush)
    False
    """
    if len(sound) < WINDOW or len(room) < WINDOW:
        return True
    power = _spectra(sound)
    hiss, voice = _db(power[:, HISS_BINS]), _db(power[:, VOICE_BINS])
    at = int(np.flatnonzero(voice >= voice.max() - VOICE_DB)[0])
    before = hiss[max(0, at - EARLIEST_MS // 10) : max(0, at - LATEST_MS // 10)]
    if not len(before):
        return True
    rooms = _db(_spectra(room)[:, HISS_BINS])
    # what was before the stream began is no room
    floor = float(np.median(rooms[rooms > NOTHING_DB])) if (rooms > NOTHING_DB).any() else NOTHING_DB
    return bool(before.max() >= max(floor + OVER_ROOM_DB, float(hiss.max()) - BELOW_BURST_DB))


def _spectra(sound: Samples) -> NDArray[np.float64]:
    frames = np.lib.stride_tricks.sliding_window_view(sound, WINDOW)[::HOP] * np.hanning(WINDOW)
    power: NDArray[np.float64] = np.abs(np.fft.rfft(frames, axis=1)) ** 2
    return power


def _db(power: NDArray[np.float64]) -> NDArray[np.float64]:
    level: NDArray[np.float64] = 10 * np.log10(power.sum(axis=1) + 1e-12)
    return level
