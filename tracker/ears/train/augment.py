"""Puts a recording into other rooms, mouths, distances and noises.

In: clean 16 kHz samples and a random generator. Out: the same words as they might reach a microphone, with
silence (and the noise) around them, and where the words lie. `Beds` holds the noises: made here, mixed from
other clips, or read from a file.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tracker.ears.train.voices import RATE, Samples, resample

BEFORE_S = 1.0
AFTER_S = 0.5


@dataclass(frozen=True, slots=True)
class Beds:
    """Noises, each some seconds long, at any level."""

    coloured: tuple[Samples, ...]
    babble: tuple[Samples, ...]


def make_beds(rng: np.random.Generator, talkers: list[Samples], files: list[Samples]) -> Beds:
    coloured = [colour(rng, RATE * 20, slope) for slope in (0.0, 0.5, 1.0, 1.0, 1.4, 2.0)]
    hum = np.sin(np.arange(RATE * 20) * 2 * np.pi * 100 / RATE).astype(np.float32)
    coloured.append(colour(rng, RATE * 20, 1.0) + 2 * hum)
    coloured += files
    babble = []
    for many in (2, 4, 6, 8, 10, 12) if talkers else ():
        bed = np.zeros(RATE * 15, np.float32)
        for _ in range(many):
            at = -int(rng.integers(0, RATE))
            while at < len(bed):
                clip = talkers[int(rng.integers(len(talkers)))]
                clip = clip / (np.sqrt((clip**2).mean()) + 1e-6) * rng.uniform(0.5, 1.0)
                first, last = max(0, at), min(len(bed), at + len(clip))
                if last > first:
                    bed[first:last] += clip[first - at : last - at]
                at += len(clip) + int(rng.integers(0, RATE // 4))
        babble.append(bed)
    return Beds(tuple(coloured), tuple(babble))


def colour(rng: np.random.Generator, length: int, slope: float) -> Samples:
    """Noise whose power falls by 3 dB × 2 × slope/2 an octave: 0 is white, 1 is pink, 2 is brown."""
    spectrum = np.fft.rfft(rng.normal(size=length))
    bins = np.arange(len(spectrum), dtype=float)
    bins[:20] = 20
    return np.fft.irfft(spectrum / bins ** (slope / 2), length).astype(np.float32) * 30


def augment(clip: Samples, rng: np.random.Generator, beds: Beds, noisy: bool) -> tuple[Samples, int, int]:
    """The clip somewhere else; also the first and last millisecond of the words in it."""
    # resampling moves pace, pitch and the size of the mouth together; stretching takes the pace back:
    # another person
    size = rng.uniform(0.82, 1.22) if rng.random() < 0.8 else 1.0
    pace = rng.uniform(0.85, 1.18)
    sound = resample(clip, RATE, round(RATE / size)) if size != 1.0 else clip
    if abs(pace / size - 1) > 0.03:
        sound = stretch(sound, pace / size)
    if rng.random() < 0.6:
        tilt = rng.uniform(-0.6, 0.6)
        sound = np.append(sound[0], sound[1:] + tilt * sound[:-1]).astype(np.float32)
    if rng.random() < 0.22:
        sound = resample(resample(sound, RATE, 8000), 8000, RATE)
    before, after = (
        round(RATE * (BEFORE_S + rng.uniform(0, 0.3))),
        round(RATE * (AFTER_S + rng.uniform(0, 0.2))),
    )
    dry = np.concatenate([np.zeros(before, np.float32), sound, np.zeros(after, np.float32)])
    wet = room(dry, rng) if rng.random() < 0.45 else dry
    loudest = float(np.abs(wet).max()) + 1e-6
    wet = wet * (10 ** (rng.uniform(-30, -3) / 20) / loudest)
    active = wet[np.abs(wet) > np.abs(wet).max() * 0.05]
    level = float(np.sqrt((active**2).mean()))
    if noisy:
        snr = rng.uniform(3, 17)
        talk = len(beds.babble) > 0 and rng.random() < 0.55
        pool = beds.babble if talk else beds.coloured
        bed = pool[int(rng.integers(len(pool)))]
    else:
        snr = rng.uniform(18, 55)
        bed = beds.coloured[int(rng.integers(len(beds.coloured)))]
    noise = np.resize(np.roll(bed, -int(rng.integers(len(bed)))), len(wet))
    out = wet + noise * (level * 10 ** (-snr / 20) / (np.sqrt((noise**2).mean()) + 1e-9))
    return np.clip(out, -1, 1).astype(np.float32), before * 1000 // RATE, (len(out) - after) * 1000 // RATE


def stretch(sound: Samples, pace: float) -> Samples:
    """The same voice at another pace (above 1 is faster): frames laid over each other where they fit best."""
    frame, hop, reach = 480, 240, 80
    if len(sound) < 4 * frame:
        return sound
    window = np.hanning(frame).astype(np.float32)
    many = int((len(sound) - frame - 2 * reach) / (hop * pace))
    out = np.zeros(many * hop + frame, np.float32)
    at = 0
    for i in range(many):
        if i:
            due = int(i * hop * pace)
            follows = sound[at + hop : at + hop + frame]
            field = sound[max(0, due - reach) : due + reach + frame]
            if len(follows) == frame and len(field) > frame:
                at = max(0, due - reach) + int(np.correlate(field, follows, "valid").argmax())
            else:
                at = due
        piece = sound[at : at + frame]
        if len(piece) < frame:
            break
        out[i * hop : i * hop + frame] += piece * window
    return out


def room(sound: Samples, rng: np.random.Generator) -> Samples:
    """A synthetic room: a direct sound and noise that dies away."""
    decay = rng.uniform(0.08, 0.5)
    length = int(RATE * decay)
    tail: NDArray[np.float64] = rng.normal(size=length) * 10 ** (-3 * np.arange(length) / length)
    tail[: RATE // 500] = 0
    tail *= rng.uniform(0.1, 0.7) / np.sqrt((tail**2).sum())
    tail[0] = 1.0
    size = 1 << (len(sound) + length).bit_length()
    return np.fft.irfft(np.fft.rfft(sound, size) * np.fft.rfft(tail, size), size)[: len(sound)].astype(
        np.float32
    )
