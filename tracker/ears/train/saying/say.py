"""Makes the synthetic recordings: every family's voices say the lines; kept in one file a family.

What goes out: FOLDER/family.npz with the samples end to end as 16-bit, where each clip begins, and a JSON
list of [text, label, voice]. Seeds are fixed, so a second run makes the same lines.
"""

from __future__ import annotations

import itertools
import json
import random
from dataclasses import dataclass
from multiprocessing import Pool
from pathlib import Path

import numpy as np

from tracker.ears.hearing.words import number_words
from tracker.ears.phrases_en import ENGLISH
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

_IN_USE = {phrase for saying in ENGLISH for phrase in saying.phrases}


@dataclass(frozen=True, slots=True)
class Amount:
    """How much of each kind a family says: shares of all there is for each of its settings, and lines in all."""

    commands: float
    """Of the phrases in the table; where that is less than 0.4, a fifth of it of those that no table holds yet."""
    contrasts: float
    small: int
    """Times three numbers that are often mistaken, for each setting."""
    named: int
    numbers: int
    others: int


AMOUNTS = {
    "espeak": Amount(0.4, 0.2, 2, 350, 1500, 4000),
    "flite": Amount(1.0, 0.35, 2, 80, 600, 1300),
    "piper": Amount(1.0, 0.5, 2, 60, 380, 1100),
    "hibari": Amount(1.0, 0.3, 2, 0, 150, 300),
    "accented": Amount(0.7, 0.2, 1, 60, 250, 800),
    "abroad": Amount(1.0, 0.2, 1, 0, 100, 250),
    "festival": Amount(1.0, 0.3, 2, 0, 150, 250),
    "kokoro": Amount(0.35, 0.03, 1, 0, 60, 60),
    "chorus": Amount(0.34, 0.03, 0, 40, 250, 350),
    "blend": Amount(0.32, 0.02, 0, 30, 200, 300),
    "mingled": Amount(0.55, 0.1, 1, 60, 300, 900),
    "gnuspeech": Amount(0.6, 0.2, 1, 0, 100, 250),
}


def plan(family: str) -> list[tuple[Line, Setting]]:
    """What is said in which voice."""
    rng = random.Random(f"rowteller {family}")
    settings = settings_of(family)
    amount = AMOUNTS[family]
    said = [
        (line, setting)
        for setting in settings
        for line in command_lines()
        if rng.random() < amount.commands * _worth(line, amount)
    ]
    for lines in (
        named_lines(rng, amount.named), number_lines(rng, amount.numbers), other_lines(rng, amount.others),
    ):  # fmt: skip
        said += [(line, rng.choice(settings)) for line in lines]
    rng.shuffle(said)
    # bare digits are the shortest and hardest numbers: each voice says them all
    digits = [Line(number_words(n), "number") for n in (0, 0, *range(10))]
    said += [(line, s) for s in settings for line in (digits if amount.small else rng.sample(digits, 4))]
    # "thirteen" and "thirty" are each other's likeliest mistake; a machine's name may stand before a number's
    # phrase; what is counted most are small numbers of stitches, and low rows
    for setting in settings:
        said += [(line, setting) for line in teen_lines(rng, 3 * amount.small)]
        said += [(line, setting) for line in named_number_lines(rng, amount.small)]
        said += [(line, setting) for line in small_number_lines(rng, 3 * amount.small)]
        said += [(line, setting) for line in counting_lines(rng, amount.small)]
        said += [(line, setting) for line in contrast_lines(rng, amount.contrasts)]
    return said


def _worth(line: Line, amount: Amount) -> float:
    return 1.0 if amount.commands > 0.39 or line.text in _IN_USE else 0.2


def _said(told: tuple[Line, Setting]) -> np.ndarray | None:
    samples = speak(told[0].text, told[1])
    return None if samples is None else (np.clip(samples, -1, 1) * 32767).astype(np.int16)


def make(family: str, folder: Path, most: int | None = None, cores: int = 1) -> int:
    """Says the lines of one family (the first `most` of them); returns how many clips there are.

    What the family's file already holds is used again, so that only what is new is said.
    """
    known: dict[tuple[str, str], np.ndarray] = {}
    if (folder / f"{family}.npz").exists():
        known = {(text, voice): (s * 32768).astype(np.int16) for s, text, _, voice in load(family, folder)}
    said = plan(family)[:most]
    names = [(line.text, f"{setting.voice}@{setting.speed}") for line, setting in said]
    new = [told for told, name in zip(said, names, strict=True) if name not in known]
    with Pool(cores) as pool:
        found = iter(pool.map(_said, new, 16))
    clips, index = [], []
    for (line, _), name in zip(said, names, strict=True):
        sound = known[name] if name in known else next(found)
        if sound is not None:
            clips.append(sound)
            index.append([line.text, line.label, name[1]])
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
