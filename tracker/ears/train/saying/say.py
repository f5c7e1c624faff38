"""Makes the synthetic recordings: every family's voices say the lines; kept in one file a family.

What goes out: FOLDER/family.npz with the samples end to end as 16-bit, where each clip begins, and a JSON
list of [text, label, voice]. Seeds are fixed, so a second run makes the same lines.
"""

from __future__ import annotations

import itertools
import json
import random
from dataclasses import dataclass
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


@dataclass(frozen=True, slots=True)
class Amount:
    """How much of each kind a family says: shares of all there is for each of its settings, and lines in all."""

    commands: float
    contrasts: float
    small: int
    """Times three numbers that are often mistaken, for each setting."""
    named: int
    numbers: int
    others: int


AMOUNTS = {
    "espeak": Amount(0.4, 0.2, 2, 350, 1500, 3000),
    "flite": Amount(1.0, 0.35, 2, 80, 600, 1300),
    "piper": Amount(1.0, 0.5, 2, 60, 380, 600),
    "hibari": Amount(1.0, 0.3, 2, 0, 150, 300),
    "accented": Amount(0.7, 0.2, 1, 60, 250, 500),
    "abroad": Amount(1.0, 0.2, 1, 0, 100, 250),
    "festival": Amount(1.0, 0.3, 2, 0, 150, 250),
    "kokoro": Amount(0.2, 0.03, 1, 0, 60, 60),
}


def plan(family: str) -> list[tuple[Line, Setting]]:
    """What is said in which voice."""
    rng = random.Random(f"rowteller {family}")
    settings = settings_of(family)
    amount = AMOUNTS[family]
    said = [
        (line, setting) for setting in settings for line in command_lines() if rng.random() < amount.commands
    ]
    for lines in (
        named_lines(rng, amount.named), number_lines(rng, amount.numbers), other_lines(rng, amount.others),
    ):  # fmt: skip
        said += [(line, rng.choice(settings)) for line in lines]
    rng.shuffle(said)
    # bare digits are the shortest and hardest numbers: each voice says them all
    digits = [Line(number_words(n), "number") for n in (0, 0, *range(10))]
    said += [(line, setting) for setting in settings for line in digits]
    # "thirteen" and "thirty" are each other's likeliest mistake; a machine's name may stand before a number's
    # phrase; what is counted most are small numbers of stitches, and low rows
    for setting in settings:
        said += [(line, setting) for line in teen_lines(rng, 3 * amount.small)]
        said += [(line, setting) for line in named_number_lines(rng, amount.small)]
        said += [(line, setting) for line in small_number_lines(rng, 3 * amount.small)]
        said += [(line, setting) for line in counting_lines(rng, amount.small)]
        said += [(line, setting) for line in contrast_lines(rng, amount.contrasts)]
    return said


def make(family: str, folder: Path, most: int | None = None) -> int:
    """Says the lines of one family (the first `most` of them); returns how many clips there are.

    What the family's file already holds is used again, so that only what is new is said.
    """
    known: dict[tuple[str, str], np.ndarray] = {}
    if (folder / f"{family}.npz").exists():
        known = {(text, voice): (s * 32768).astype(np.int16) for s, text, _, voice in load(family, folder)}
    clips, index = [], []
    for line, setting in plan(family)[:most]:
        voice = f"{setting.voice}@{setting.speed}"
        sound = known.get((line.text, voice))
        if sound is None and (samples := speak(line.text, setting)) is not None:
            sound = (np.clip(samples, -1, 1) * 32767).astype(np.int16)
        if sound is not None:
            clips.append(sound)
            index.append([line.text, line.label, voice])
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
