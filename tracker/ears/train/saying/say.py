"""Makes the synthetic recordings: every family's voices say the lines; kept in one file a family.

What goes out: FOLDER/family.npz with the samples end to end as 16-bit, where each clip begins, and a JSON
list of [text, label, voice]. Seeds are fixed, so a second run makes the same lines.
"""

from __future__ import annotations

import itertools
import json
import random
from pathlib import Path

import numpy as np

from tracker.ears.hearing.words import number_words
from tracker.ears.train.saying.texts import (
    Line,
    command_lines,
    contrast_lines,
    counting_lines,
    named_lines,
    named_number_lines,
    number_lines,
    other_lines,
    small_number_lines,
    teen_lines,
)
from tracker.ears.train.voices import Setting, settings_of, speak

# family: (commands by each setting, named commands, numbers, others)
AMOUNTS = {
    "espeak": (0.5, 350, 1700, 3600),
    "flite": (1.0, 80, 600, 1300),
    "festival": (0.5, 30, 200, 250),
    "piper": (1.0, 60, 380, 600),
    "hibari": (1.0, 0, 150, 300),
    "kokoro": (0.5, 0, 260, 180),
    "kokoro mixed": (0.4, 0, 110, 90),
}


def plan(family: str) -> list[tuple[Line, Setting]]:
    """What is said in which voice."""
    rng = random.Random(f"rowteller {family}")
    settings = settings_of(family)
    share, named, numbers, others = AMOUNTS[family]
    said = [(line, setting) for setting in settings for line in command_lines() if rng.random() < share]
    for lines in (named_lines(rng, named), number_lines(rng, numbers), other_lines(rng, others)):
        said += [(line, rng.choice(settings)) for line in lines]
    rng.shuffle(said)
    # bare digits are the shortest and hardest numbers: each voice says them all
    digits = [Line(number_words(n), "number") for n in (0, 0, *range(10))]
    said += [(line, setting) for setting in settings for line in digits]
    # "thirteen" and "thirty" are each other's likeliest mistake; a machine's name may stand before a
    # number's phrase
    for setting in settings:
        said += [(line, setting) for line in teen_lines(rng, 5)]
        said += [(line, setting) for line in named_number_lines(rng, 3)]
    # what is counted most: small numbers of stitches, and low rows
    for setting in settings:
        said += [(line, setting) for line in small_number_lines(rng, 6)]
        said += [(line, setting) for line in counting_lines(rng, 3)]
        said += [(line, setting) for line in contrast_lines(rng, 0.35)]
    return said


def make(family: str, folder: Path, most: int | None = None) -> int:
    """Says the lines of one family (the first `most` of them); returns how many clips were made."""
    clips, index = [], []
    for line, setting in plan(family)[:most]:
        samples = speak(line.text, setting)
        if samples is None:
            continue
        clips.append((np.clip(samples, -1, 1) * 32767).astype(np.int16))
        index.append([line.text, line.label, f"{setting.voice}@{setting.speed}"])
    if clips:
        folder.mkdir(parents=True, exist_ok=True)
        starts = np.cumsum([0, *map(len, clips)])
        np.savez(
            folder / f"{family}.npz", samples=np.concatenate(clips), starts=starts, index=json.dumps(index)
        )
    return len(clips)


def load(family: str, folder: Path) -> list[tuple[np.ndarray, str, str, str]]:
    """Samples (float32), text, label and voice of each clip made before."""
    with np.load(folder / f"{family}.npz") as f:
        samples, starts, index = f["samples"], f["starts"], json.loads(str(f["index"]))
    cut = [samples[a:b].astype(np.float32) / 32768 for a, b in itertools.pairwise(starts)]
    return [(s, *entry) for s, entry in zip(cut, index, strict=True)]
