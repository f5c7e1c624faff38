"""The maker's own recordings made into templates: quiet and in three noises, as they would sound in a real
room.

In: a folder of WAVs named PHRASE__K.wav (spaces as underscores), or samples by phrase. Out: `Templates` and
what was wrong with which recording, one sentence each. `agreement` says, leaving one recording out each
time, how many would have been heard right.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from tracker.ears.hearing.endpoint import Endpointer, Samples
from tracker.ears.hearing.head import Floats
from tracker.ears.hearing.templates import Templates, distances, unit_frames
from tracker.ears.port import RATE

Hidden = Callable[[Endpointer, int, int], Floats]
"""An utterance in an endpointer's sound, by its first and last millisecond, to the head's hidden frames."""
NOISES_DB = (None, 15.0, 10.0)
"""Signal to noise of the copies; None is as recorded."""
ROOM_S = 0.7


def stretches(sound: Samples) -> tuple[Endpointer, list[tuple[int, int]]]:
    """The speech in a recording: an endpointer that holds it, and where the words lie."""
    hiss = np.random.default_rng(11).normal(0, 2e-4, int(RATE * ROOM_S)).astype(np.float32)
    ear = Endpointer()
    whole = np.concatenate([hiss, sound, hiss[: RATE // 2]])
    found = [s for i in range(0, len(whole), 1600) for s in ear.feed(whole[i : i + 1600])] + ear.finish()
    return ear, [(s.start_ms, s.end_ms) for s in found if not s.too_long]


def noisy(sound: Samples, snr_db: float, seed: int) -> Samples:
    """The recording with pink noise over it."""
    spectrum = np.fft.rfft(np.random.default_rng(seed).normal(size=len(sound)))
    bins = np.maximum(np.arange(len(spectrum)), 20)
    noise = np.fft.irfft(spectrum / np.sqrt(bins), len(sound))
    loud = sound[np.abs(sound) > np.abs(sound).max() * 0.05]
    level = np.sqrt((loud**2).mean()) * 10 ** (-snr_db / 20)
    out: Samples = (sound + noise * level / (np.sqrt((noise**2).mean()) + 1e-9)).astype(np.float32)
    return out


def teach(recordings: list[tuple[str, Samples]], hidden: Hidden) -> tuple[Templates, list[str]]:
    """Templates of all recordings, and what could not be used."""
    templates, faults = Templates(), []
    for take, (phrase, sound) in enumerate(recordings):
        used = False
        if len(sound) and float(np.abs(sound).max()) > 0.003:
            for copy, snr in enumerate(NOISES_DB):
                ear, found = stretches(sound if snr is None else noisy(sound, snr, take * 10 + copy))
                if found and found[-1][1] - found[0][0] < 2500:
                    templates.add(phrase, hidden(ear, found[0][0], found[-1][1]), take)
                    used = True
        if not used:
            faults.append(f'One recording of "{phrase}" holds no clear word; say it again.')
    templates.calibrate()
    return templates, faults


def spread(takes: list[Samples], hidden: Hidden) -> list[float]:
    """How far each of several recordings of one phrase lies from the nearest other; empty when one holds no
    word."""
    frames = []
    for sound in takes:
        ear, found = stretches(sound)
        if not found:
            return []
        frames.append(unit_frames(hidden(ear, found[0][0], found[-1][1])))
    return [
        float(min(distances(mine, [other for k, other in enumerate(frames) if k != at])))
        for at, mine in enumerate(frames)
    ]


def agreement(templates: Templates) -> dict[str, tuple[int, int]]:
    """For each phrase: how many of its recordings the others would have recognised, and how many there
    are."""
    found: dict[str, tuple[int, int]] = {}
    for phrase, take, frames in templates.takes():
        rest = templates.without(take)
        likest = rest.nearest(frames)
        right, many = found.get(phrase, (0, 0))
        found[phrase] = (right + bool(likest and likest[0].phrase == phrase), many + 1)
    return found
