"""Our own voice taken out of what is heard: we know it sample by sample, only not what the room makes of it.

Comes in: blocks of the microphone and, for each, what was handed to the speaker at that time. Goes out: what is left of
the block. What the room makes of our voice is learned as it speaks (an adaptive filter over 0.45 s, in the frequency
domain, kept in two copies so that somebody talking over it does not spoil it; common in telephony). Knows no clock
and no device; promises as many samples as came, whatever they are.
"""

import numpy as np
from numpy.typing import NDArray

Samples = NDArray[np.float32]

BLOCK = 256
"""Samples of a block: 16 ms at 16 kHz."""
PARTS = 28
"""Blocks the room's answer may last, the way through the devices included: 0.45 s."""
STEP = 0.5
"""How fast it learns, from 0 to 1."""
BETTER, WORSE = 0.75, 2.0
"""The learning copy takes over once it leaves so much less; it begins anew once it leaves so much more."""
SMOOTHED = 0.95
_TINY = 1e-9


class Echo:
    """The room's answer to our voice, as far as it is known."""

    def __init__(self) -> None:
        bins = BLOCK + 1
        self._heard = np.zeros((PARTS, bins), np.complex64)
        """Spectra of the last blocks played, the newest first."""
        self._kept = np.zeros((PARTS, bins), np.complex64)
        self._learning = np.zeros((PARTS, bins), np.complex64)
        self._before: Samples = np.zeros(BLOCK, np.float32)
        self._left = self._left_learning = self._came = 0.0
        self.echo = 0.0
        """Power of our own voice in the last block, as far as it is known."""
        self.rest = 0.0
        """Power of what was left of it."""

    @property
    def gone_db(self) -> float:
        """By how much our own voice has lately been made softer; 0 while nothing is known."""
        return (
            float(10 * np.log10((self._came + _TINY) / (self._left + _TINY))) if self._came > _TINY else 0.0
        )

    def clean(self, heard: Samples, played: Samples) -> Samples:
        """What is left of a block of the microphone without what was played."""
        self._heard[1:] = self._heard[:-1]
        self._heard[0] = np.fft.rfft(np.concatenate([self._before, played]))
        self._before = played
        if not np.any(self._heard):
            self.echo, self.rest = 0.0, float(np.mean(heard * heard))
            return heard
        kept, learning = self._guess(self._kept), self._guess(self._learning)
        rest: Samples = heard - kept
        rest_learning: Samples = heard - learning
        self._learn(rest_learning)
        self._choose(heard, rest, rest_learning)
        self.echo, self.rest = float(np.mean(kept * kept)), float(np.mean(rest * rest))
        return rest

    def _guess(self, answer: NDArray[np.complex64]) -> Samples:
        whole = np.fft.irfft((answer * self._heard).sum(axis=0))
        out: Samples = whole[BLOCK:].astype(np.float32)
        return out

    def _learn(self, rest: Samples) -> None:
        error = np.fft.rfft(np.concatenate([np.zeros(BLOCK, np.float32), rest]))
        power = (self._heard.real**2 + self._heard.imag**2).sum(axis=0)
        step = STEP / (power + 1e-3 * float(power.max()) + 1e-4)
        change = np.fft.irfft(self._heard.conj() * (error * step), axis=1)
        change[:, BLOCK:] = 0.0
        self._learning += np.fft.rfft(change, axis=1).astype(np.complex64)

    def _choose(self, heard: Samples, rest: Samples, rest_learning: Samples) -> None:
        """Keep the copy that leaves less; somebody else's voice makes the learning one worse, never the kept one."""
        share = 1 - SMOOTHED
        self._came += share * (float(np.mean(heard * heard)) - self._came)
        self._left += share * (float(np.mean(rest * rest)) - self._left)
        self._left_learning += share * (float(np.mean(rest_learning * rest_learning)) - self._left_learning)
        if self._left_learning < BETTER * self._left:
            self._kept[:] = self._learning
            self._left = self._left_learning
        elif self._left_learning > WORSE * self._left:
            self._learning[:] = self._kept
            self._left_learning = self._left
