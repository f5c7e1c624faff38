"""Sound as a value: samples with their rate, what is done to them on the way out, and tones made in code.

Comes in: 16 bit little-endian samples, one channel, or the name of a tone. Goes out: the same, trimmed,
resampled or doubled; the tone's samples, shorter than half a second. Promises to take any length, the empty
sound included.

Each tone is soft at both ends, quieter than speech, and told from the others by its shape (up, down, once,
three times), not by its pitch alone: few makers have perfect pitch.
"""

from __future__ import annotations

import math
import sys
from array import array
from dataclasses import dataclass
from enum import Enum
from functools import lru_cache

_WIDTH = 2


@dataclass(frozen=True, slots=True)
class Sound:
    """One channel of sound."""

    pcm: bytes
    """16 bit little-endian samples."""
    rate: int
    """Samples a second."""

    @property
    def samples(self) -> int:
        """How many samples it has."""
        return len(self.pcm) // _WIDTH

    @property
    def seconds(self) -> float:
        """How long it lasts."""
        return self.samples / self.rate


def silence(ms: float, rate: int) -> bytes:
    """Samples of nothing at all."""
    return bytes(_WIDTH * round(ms * rate / 1000))


def trimmed(sound: Sound, quiet: int = 60, before_ms: float = 4, after_ms: float = 30) -> Sound:
    """The sound without the silence around it: a voice's lead-in would be heard as slowness.

    `quiet` is the loudest sample that counts as silence; `before_ms` and `after_ms` of it are left, so that
    no breath is cut.
    """
    samples = _numbers(sound.pcm)
    first = next((at for at, value in enumerate(samples) if abs(value) > quiet), None)
    if first is None:
        return Sound(b"", sound.rate)
    last = next(at for at in range(len(samples) - 1, -1, -1) if abs(samples[at]) > quiet)
    begin = max(0, first - round(before_ms * sound.rate / 1000))
    end = min(len(samples), last + 1 + round(after_ms * sound.rate / 1000))
    return Sound(sound.pcm[begin * _WIDTH : end * _WIDTH], sound.rate)


def resampled(sound: Sound, rate: int) -> Sound:
    """The sound at another rate, with straight lines drawn between samples: good enough for speech."""
    if rate == sound.rate or not sound.pcm:
        return Sound(sound.pcm, rate)
    samples = _numbers(sound.pcm)
    last = len(samples) - 1
    made = array("h")
    for at in range(round(len(samples) * rate / sound.rate)):
        place = at * sound.rate / rate
        left = min(int(place), last)
        step = samples[min(left + 1, last)] - samples[left]
        made.append(samples[left] + round(step * (place - left)))
    return Sound(_bytes(made), rate)


def doubled(pcm: bytes) -> bytes:
    """The same samples for the left and for the right speaker."""
    samples = _numbers(pcm)
    both = array("h", bytes(2 * len(pcm)))
    both[0::2] = samples
    both[1::2] = samples
    return _bytes(both)


def _numbers(pcm: bytes) -> array[int]:
    samples = array("h", pcm)
    if sys.byteorder == "big":
        samples.byteswap()
    return samples


def _bytes(samples: array[int]) -> bytes:
    if sys.byteorder == "big":
        samples.byteswap()
    return samples.tobytes()


class Tone(Enum):
    """What a tone stands for."""

    ROW_END = "row end"
    REPEAT_EDGE = "repeat edge"
    COUNT = "count"
    NOT_UNDERSTOOD = "not understood"
    STEP = "step"


@dataclass(frozen=True, slots=True)
class Note:
    """One struck note."""

    hertz: float
    ms: int
    """How long until the next note or the end, milliseconds."""


NOTES: dict[Tone, tuple[Note, ...]] = {
    # A fifth up: the row is done.
    Tone.ROW_END: (Note(587.33, 110), Note(880.0, 230)),
    # One soft stroke: the same again begins here.
    Tone.REPEAT_EDGE: (Note(659.26, 170),),
    # Three alike, as one taps stitches with a fingertip: ten more are counted.
    Tone.COUNT: (Note(783.99, 90), Note(783.99, 90), Note(783.99, 150)),
    # One light tick: the step was taken, and there is nothing to say.
    Tone.STEP: (Note(1174.66, 45),),
    # A third down: that wasn't understood.
    Tone.NOT_UNDERSTOOD: (Note(440.0, 120), Note(349.23, 220)),
}
"""Every tone, in twelve-tone equal temperament on A = 440 Hz (ISO 16)."""

_ATTACK_MS = 6
_RELEASE_MS = 25
_OCTAVE_SHARE = 0.22
"""How strong the octave above is beside the note itself: enough to sound struck, not whistled."""


@lru_cache(maxsize=32)
def made(tone: Tone, rate: int, loudness: int = 100) -> Sound:
    """The tone's samples; `loudness` in percent, of a peak well under that of speech."""
    samples = array("h")
    for note in NOTES[tone]:
        samples.extend(_struck(note, rate, loudness / 100))
    return Sound(_bytes(samples), rate)


def _struck(note: Note, rate: int, loudness: float) -> list[int]:
    count = round(note.ms * rate / 1000)
    attack, release = _ATTACK_MS * rate / 1000, _RELEASE_MS * rate / 1000
    turn = 2 * math.pi * note.hertz / rate
    peak = 9_000 * loudness
    values = []
    for at in range(count):
        ends = min(1.0, at / attack, (count - 1 - at) / release)
        fading = math.exp(-3.0 * at / count)
        wave = math.sin(turn * at) + _OCTAVE_SHARE * math.sin(2 * turn * at)
        values.append(round(peak * ends * fading * wave))
    return values
