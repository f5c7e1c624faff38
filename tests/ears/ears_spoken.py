"""Words spoken for the tests of the ear, by espeak-ng from the wheel espeakng-loader, made anew in each run.

In: words and a voice's name. Out: 16 kHz mono 16-bit samples as bytes, with a quiet room around the words.
The voices are of the family the shipped ear was trained on, so these tests show that it works, not how well
it hears a stranger.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Sequence

import numpy as np

from tracker.ears.train.voices import RATE, Setting, speak

ROOM = 4e-4
"""The room's hiss, of full scale."""


def spoken(
    words: str,
    *,
    voice: str = "en-us",
    before_s: float = 0.6,
    after_s: float = 1.0,
    speed: float = 0.9,
    loudness: float = 0.5,
) -> bytes:
    """The words between two silences."""
    said = speak(words, Setting("espeak", voice, speed, 50))
    assert said is not None, "espeakng-loader is not installed"
    sound = np.concatenate([np.zeros(int(RATE * before_s)), said * loudness, np.zeros(int(RATE * after_s))])
    return as_bytes(sound + np.random.default_rng(5).normal(0, ROOM, len(sound)))


def as_bytes(samples: np.ndarray) -> bytes:
    return (np.clip(samples, -1, 1) * 32767).astype("<i2").tobytes()


def blocks(data: bytes, samples: int = 256) -> list[bytes]:
    """As a microphone gives them."""
    return [data[i : i + samples * 2] for i in range(0, len(data), samples * 2)]


def spoken_afresh(sayings: Sequence[str], before_s: float, after_s: float) -> bytes:
    """One saying after another by a voice that has said nothing yet.

    espeak-ng says the same words a little otherwise each time, by what it has said before in its process; here that is
    the same in every run.
    """
    words = [sys.executable, __file__, str(before_s), str(after_s), *sayings]
    return subprocess.run(words, stdout=subprocess.PIPE, check=True, timeout=60).stdout


if __name__ == "__main__":
    before, after, *said_in_turn = sys.argv[1:]
    for each in said_in_turn:
        sys.stdout.buffer.write(spoken(each, before_s=float(before), after_s=float(after)))
