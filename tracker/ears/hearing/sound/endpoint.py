"""Finds where speech begins and ends, by its energy.

In: 16 kHz samples as they come, any block length. Out: a `Segment` each time a stretch of speech is over,
decided `HANG_MS` after its end. Works from the level between 200 and 4000 Hz over a floor that follows the
room, so a kettle is soon part of the room. Digital silence, clipping and endless noise are all survived:
speech longer than `LONGEST_MS` is closed and marked.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from tracker.ears.port import RATE

Samples = NDArray[np.float32]

HOP = RATE // 100
WINDOW = RATE // 40
FLOOR_FRAMES = 150
FLOOR_PERCENT = 30
"""The floor is this percentile of the last second and a half: of a room full of voices it takes more than the
gaps between their words."""
LOW_HZ, HIGH_HZ = 200, 4000
SMOOTH_FRAMES = 3
"""A level is the mean power of so many frames, which evens out babble."""
ON_DB = 6.0
ON_FRAMES = 8
HANG_MS = 180
BELOW_PEAK_DB = 30.0
"""A loud word's tail is over once it is this far below its loudest frame, though still above a quiet room."""
OFF_SHARE = 0.38
"""And over, in a room full of voices, once it has fallen so much of the way back to the floor's level."""
QUIETEST_DB = -66.0
"""Below this nothing is speech, however quiet the room."""
LONGEST_MS = 4000
_PLACES = np.arange(WINDOW)
_SHAPE = np.hanning(WINDOW).astype(np.float32)
_LOW, _HIGH = LOW_HZ * WINDOW // RATE, HIGH_HZ * WINDOW // RATE + 1
KEPT = 9 * RATE
"""How many samples of the past are kept to cut from."""


@dataclass(frozen=True, slots=True)
class Segment:
    """A stretch of speech between two silences."""

    start_ms: int
    end_ms: int
    decided_ms: int
    """How much of the stream had been fed when the end was certain."""
    too_long: bool
    level_db: float
    """Its loudest frame, below full scale."""
    over_db: float
    """How far that is above the room."""


def band_power(frames: NDArray[Any]) -> NDArray[Any]:
    """The power of each frame of WINDOW samples in the band where speech is."""
    spectra: NDArray[Any] = np.fft.rfft(frames * _SHAPE, axis=1)[:, _LOW:_HIGH]
    power: NDArray[Any] = (spectra.real**2 + spectra.imag**2).sum(axis=1) / (WINDOW * WINDOW * 0.1875)
    return power


class Endpointer:
    """Feed it samples; it remembers enough of them to cut any recent stretch."""

    def __init__(self, hang_ms: int = HANG_MS) -> None:
        self.hang_frames = hang_ms // 10
        self._kept: Samples = np.zeros(2 * KEPT, np.float32)
        self._have = 0
        self._kept_from = 0
        self._frames = 0
        self._levels = np.full(FLOOR_FRAMES, -120.0)
        self._powers = np.full(SMOOTH_FRAMES - 1, 1e-12)
        self._known = 0
        self._above = 0
        self._below = 0
        self._speaking = False
        self._start = 0
        self._peak = -120.0
        self._floor = -120.0

    @property
    def fed_ms(self) -> int:
        return (self._kept_from + self._have) * 1000 // RATE

    @property
    def speaking_since_ms(self) -> int | None:
        """Where the speech now going on began; None in a silence."""
        return self._start * 10 if self._speaking else None

    def feed(self, samples: Samples) -> list[Segment]:
        found: list[Segment] = []
        for i in range(0, len(samples), RATE):
            self._keep(samples[i : i + RATE])
            for level in self._new_levels():
                segment = self._frame(level)
                self._frames += 1
                if segment:
                    found.append(segment)
        return found

    def _new_levels(self) -> list[float]:
        """The level of each frame that is now whole, all worked out at once, which costs little more than
        one."""
        at = self._frames * HOP - self._kept_from
        many = (self._have - at - WINDOW) // HOP + 1
        if many <= 0:
            return []
        frames = self._kept[at + HOP * np.arange(many)[:, None] + _PLACES]
        power = np.concatenate([self._powers, band_power(frames) + 1e-12])
        self._powers = power[1 - SMOOTH_FRAMES :]
        even = np.convolve(power, np.full(SMOOTH_FRAMES, 1 / SMOOTH_FRAMES), "valid")
        levels: list[float] = (10 * np.log10(even)).tolist()
        return levels

    def _keep(self, samples: Samples) -> None:
        if self._have + len(samples) > len(self._kept):
            spare = self._have - KEPT
            self._kept[:KEPT] = self._kept[spare : self._have].copy()
            self._kept_from += spare
            self._have = KEPT
        self._kept[self._have : self._have + len(samples)] = samples
        self._have += len(samples)

    def finish(self) -> list[Segment]:
        """The stream is over: speech still going on ends here."""
        return [self._close(self._frames, too_long=False)] if self._speaking else []

    def cut(self, from_ms: int, to_ms: int) -> Samples:
        """Samples of that stretch; what is no longer or not yet there is silence."""
        first, last = from_ms * RATE // 1000, to_ms * RATE // 1000
        have_first, have_last = max(first, self._kept_from), min(last, self._kept_from + self._have)
        out = np.zeros(max(0, last - first), np.float32)
        if have_last > have_first:
            out[have_first - first : have_last - first] = self._kept[
                have_first - self._kept_from : have_last - self._kept_from
            ]
        return out

    def forget_speech(self) -> None:
        """Whatever is being said now is not listened to."""
        self._speaking = False
        self._above = self._below = 0

    def _frame(self, level: float) -> Segment | None:
        self._levels[self._frames % FLOOR_FRAMES] = level
        self._known = min(self._known + 1, FLOOR_FRAMES)
        if not self._speaking:
            self._floor = self._room()
            self._above = self._above + 1 if level > max(self._floor + ON_DB, QUIETEST_DB) else 0
            self._peak = max(self._peak, level) if self._above > 1 else level
            if self._above >= ON_FRAMES:
                self._speaking, self._start, self._below = True, self._frames - ON_FRAMES + 1, 0
            return None
        self._peak = max(self._peak, level)
        self._below = self._below + 1 if level < self._silence_db() else 0
        if self._below >= self.hang_frames:
            return self._close(self._frames - self._below + 1, too_long=False)
        if (self._frames - self._start) * 10 >= LONGEST_MS:
            # either someone talks on and on or the room has become louder: take the floor anew
            return self._close(self._frames, too_long=True)
        return None

    def _silence_db(self) -> float:
        """Below this a word in hand is over: near the room's level, but higher the more the word stands out."""
        over = self._peak - self._floor
        return max(self._floor + max(ON_DB, OFF_SHARE * over), QUIETEST_DB, self._peak - BELOW_PEAK_DB)

    def _room(self) -> float:
        rank = self._known * FLOOR_PERCENT // 100
        return float(np.partition(self._levels[: self._known], rank)[rank])

    def _close(self, end: int, *, too_long: bool) -> Segment:
        segment = Segment(
            self._start * 10, end * 10, self.fed_ms_at_frame(), too_long, self._peak, self._peak - self._floor
        )
        self.forget_speech()
        return segment

    def fed_ms_at_frame(self) -> int:
        """The stream's length that this frame needs."""
        return min(self.fed_ms, (self._frames * HOP + WINDOW) * 1000 // RATE)


def room_advice(samples: Samples) -> tuple[str, ...]:
    """What is wrong with a recording of the room and the maker's words in it, and what to do about it."""
    if not len(samples) or float(np.abs(samples).max()) < 1e-4:
        return ("The microphone gives no sound at all: is it muted, or is another one meant?",)
    ear = Endpointer()
    found = [s for i in range(0, len(samples), 1600) for s in ear.feed(samples[i : i + 1600])] + ear.finish()
    advice = []
    if float((np.abs(samples) > 0.985).mean()) > 1e-4:
        advice.append("The microphone is overdriven: turn its level down or move it away.")
    if not found:
        advice.append("No word was heard over the room: speak towards the microphone, or turn its level up.")
        return tuple(advice)
    loudest, over = max(s.level_db for s in found), max(s.over_db for s in found)
    if loudest < -50:
        advice.append("The words arrive very quietly: come nearer, or turn the microphone's level up.")
    if over < 16:
        advice.append(
            "The room is loud beside the words: come nearer, or use the longer phrases, which carry better."
        )
    return tuple(advice)
