"""The maker's own recordings made into templates: quiet and in three noises, as they would sound in a real
room.

In: a folder of WAVs named PHRASE__K.wav (spaces as underscores), or samples by phrase. Out: `Templates` and
what was wrong with which recording, one sentence each. `agreement` says, leaving one recording out each
time, how many would have been heard right.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from tracker.ears.hearing.head import Floats
from tracker.ears.hearing.sound.endpoint import Endpointer, Samples, Segment
from tracker.ears.hearing.templates import Templates, distances, unit_frames
from tracker.ears.port import RATE

Hidden = Callable[[Endpointer, int, int, float], Floats]
"""An utterance in an endpointer's sound, by its first and last millisecond and how far it stands out of the room in
decibels, to the head's hidden frames."""
COPIES: tuple[tuple[str, float], ...] = (("pink", 15.0), ("pink", 10.0), ("talk", 12.0), ("talk", 7.0))
"""Which noise is over each copy of a recording, and how far below it in decibels; "talk" is some of the maker's other
recordings at once."""
TALKERS = 8
NEAR_MS = 60
LONGEST_MS = 2500
ROOM_S = 0.7


def placed(sound: Samples) -> Samples:
    """The recording with some quiet before and after it."""
    hiss = np.random.default_rng(11).normal(0, 2e-4, int(RATE * ROOM_S)).astype(np.float32)
    out: Samples = np.concatenate([hiss, sound, hiss[: RATE // 2]])
    return out


def stretches(whole: Samples) -> tuple[Endpointer, list[Segment]]:
    """The speech in a sound: an endpointer that holds it, and where the words lie."""
    ear = Endpointer()
    found = [s for i in range(0, len(whole), 1600) for s in ear.feed(whole[i : i + 1600])] + ear.finish()
    return ear, [s for s in found if not s.too_long]


def pink(length: int, seed: int) -> Samples:
    spectrum = np.fft.rfft(np.random.default_rng(seed).normal(size=length))
    bins = np.maximum(np.arange(len(spectrum)), 20)
    noise: Samples = np.fft.irfft(spectrum / np.sqrt(bins), length).astype(np.float32)
    return noise


def talk(length: int, recordings: list[Samples], seed: int) -> Samples:
    """Some of the recordings at once, as loud as each other, from anywhere on."""
    rng = np.random.default_rng(seed)
    out = np.zeros(length, np.float32)
    for i in rng.choice(len(recordings), min(TALKERS, len(recordings)), replace=False):
        one = recordings[i]
        level = float(np.sqrt((one**2).mean()))
        if len(one) and level > 1e-4:
            out += np.resize(np.roll(one, -int(rng.integers(len(one)))), length) / level
    return out


def noisy(whole: Samples, sound: Samples, noise: Samples, snr_db: float) -> Samples:
    """The recording in its quiet, with that noise over all of it."""
    loud = sound[np.abs(sound) > np.abs(sound).max() * 0.05]
    level = np.sqrt((loud**2).mean()) * 10 ** (-snr_db / 20)
    out: Samples = (whole + noise * level / (np.sqrt((noise**2).mean()) + 1e-9)).astype(np.float32)
    return out


def cuts(start_ms: int, end_ms: int, found: list[Segment]) -> list[tuple[int, int]]:
    """Where the word lies, and where it seemed to lie in the noise when that is elsewhere but no more than the word."""
    inside = [s for s in found if s.end_ms > start_ms + NEAR_MS and s.start_ms < end_ms - NEAR_MS]
    if not inside:
        return [(start_ms, end_ms)]
    first, last = inside[0].start_ms, inside[-1].end_ms
    off = max(abs(first - start_ms), abs(last - end_ms))
    if off < NEAR_MS or last - first > end_ms - start_ms + 4 * NEAR_MS:
        return [(start_ms, end_ms)]
    return [(start_ms, end_ms), (first, last)]


def teach(recordings: list[tuple[str, Samples]], hidden: Hidden) -> tuple[Templates, list[str]]:
    """Templates of all recordings, and what could not be used."""
    templates, faults = Templates(), []
    others = {p: [s for q, s in recordings if q != p] or [s for _, s in recordings] for p, _ in recordings}
    for take, (phrase, sound) in enumerate(recordings):
        whole = placed(sound)
        loud = len(sound) > 0 and float(np.abs(sound).max()) > 0.003
        ear, found = stretches(whole) if loud else (Endpointer(), [])
        if not found or found[-1].end_ms - found[0].start_ms >= LONGEST_MS:
            faults.append(f'One recording of "{phrase}" holds no clear word; say it again.')
            continue
        start_ms, end_ms, over_db = found[0].start_ms, found[-1].end_ms, max(s.over_db for s in found)
        templates.add(phrase, hidden(ear, start_ms, end_ms, over_db), take)
        for copy, (kind, snr_db) in enumerate(COPIES):
            seed = take * 10 + copy
            bed = pink(len(whole), seed) if kind == "pink" else talk(len(whole), others[phrase], seed)
            ear, found = stretches(noisy(whole, sound, bed, snr_db))
            for cut in cuts(start_ms, end_ms, found):
                templates.add(phrase, hidden(ear, *cut, min(over_db, snr_db)), take)
    templates.calibrate()
    return templates, faults


def spread(takes: list[Samples], hidden: Hidden) -> list[float]:
    """How far each of several recordings of one phrase lies from the nearest other; empty when one holds no
    word."""
    frames = []
    for sound in takes:
        ear, found = stretches(placed(sound))
        if not found:
            return []
        whole = hidden(ear, found[0].start_ms, found[-1].end_ms, max(s.over_db for s in found))
        frames.append(unit_frames(whole))
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
