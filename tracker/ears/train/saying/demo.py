"""Makes the demo's recording: six spoken commands of espeak-ng's, at a maker's pace. `python -m
tracker.ears.train.saying.demo`

What goes out: tracker/ears/demo.wav, 16 kHz mono 16-bit, under 300 kB, the same on every run.
"""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np

from tracker.ears.train.features import write_wav
from tracker.ears.train.voices import RATE, Setting, speak

COMMANDS = ("next", "next", "again", "how many left", "next", "stop")
VOICE = Setting("espeak", "en-us", 0.9, 45)
GAP_S = 0.85
DEMO = Path(__file__).parent.parent.parent / "demo.wav"


def demo_samples() -> np.ndarray:
    """The commands with silence (and a quiet room) around each."""
    quiet = np.zeros(int(RATE * GAP_S), np.float32)
    parts = [quiet[: RATE // 2]]
    for words in COMMANDS:
        said = speak(words, VOICE)
        if said is None:
            raise SystemExit("The demo is spoken by espeak-ng; install it with: pip install espeakng-loader")
        loud = np.flatnonzero(np.abs(said) > 0.01)
        parts += [said[: loud[-1] + RATE // 20] * 0.5, quiet]
    sound = np.concatenate(parts)
    return sound + np.random.default_rng(1).normal(0, 4e-4, len(sound)).astype(np.float32)


if __name__ == "__main__":
    write_wav(DEMO, demo_samples())
    sys.stdout.write(f"{DEMO}: {DEMO.stat().st_size // 1000} kB\n")
