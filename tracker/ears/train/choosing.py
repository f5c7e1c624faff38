"""Which words to teach: every candidate phrase, said in every voice, measured by the whole ear.

In: the recordings of the working folder, of families never trained on, each clip also in larger and smaller
mouths. Out, one line a phrase: how often it is heard clean, in 10 dB of pink noise and in 10 dB of babble, how often
as another deed, and how often ordinary words, counting aloud or crochet talk were taken for it. For each deed the line
of its best phrase of two syllables or more is marked. Every random choice is seeded.
"""

from __future__ import annotations

import random
from collections import Counter, defaultdict
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np

from tracker.ears.embedded import EmbeddedEar
from tracker.ears.hearing.words import SIMPLE
from tracker.ears.port import Awaiting, Cost, Heard, Learnt, Saying
from tracker.ears.train import augment
from tracker.ears.train.saying import say
from tracker.ears.train.voices import RATE, Samples, resample

SNR_DB = 10.0
CONDITIONS = ("clean", "pink", "babble")
MOST_SAYINGS, MOST_OTHERS = 15, 250
"""So many clips of a phrase, and of words that are no command, from each family."""
SIZES = (1.0, 0.9, 1.1, 0.82, 1.18)
"""How many times larger or smaller a mouth a clip is said with, the clip as it is first."""
SHORT = {"next", "back", "pause", "stop", "yes", "no", "help"}
"""Phrases of one syllable, which drown in noise: understood but not taught."""
COST_OF_WRONG, COST_OF_FALSE = 2.0, 0.1


@dataclass(slots=True)
class Tally:
    """What became of one phrase."""

    said: Counter[str] = field(default_factory=Counter)
    kept: Counter[str] = field(default_factory=Counter)
    wrong: Counter[str] = field(default_factory=Counter)
    taken_for_it: int = 0

    def share(self, condition: str) -> float:
        return self.kept[condition] / max(1, self.said[condition])

    @property
    def worth(self) -> float:
        """Higher is better: kept in noise, less what is heard wrongly and what is taken for it."""
        wrong = sum(self.wrong.values()) / max(1, sum(self.said.values()))
        noisy = self.share("pink") + self.share("babble")
        return self.share("clean") + noisy - COST_OF_WRONG * wrong - COST_OF_FALSE * self.taken_for_it


def placed(clip: Samples, bed: Samples | None, rng: np.random.Generator) -> Samples:
    """The clip between half a second of the room and one and a half, with a noise over all of it."""
    sound = clip * (0.25 / max(1e-6, float(np.abs(clip).max())))
    loud = sound[np.abs(sound) > 0.0125]
    level = float(np.sqrt((loud**2).mean())) if len(loud) else 0.1
    out = np.concatenate([np.zeros(RATE // 2, np.float32), sound, np.zeros(RATE * 3 // 2, np.float32)])
    if bed is None:
        quiet: Samples = (out + rng.normal(0, 4e-4, len(out))).astype(np.float32)
        return quiet
    noise = np.resize(np.roll(bed, -int(rng.integers(len(bed)))), len(out))
    scaled = noise * level * 10 ** (-SNR_DB / 20) / np.sqrt((noise**2).mean())
    noisy: Samples = (out + scaled).astype(np.float32)
    return noisy


def heard(ear: EmbeddedEar, sound: Samples, awaiting: Awaiting = Awaiting.COMMAND) -> list[Heard]:
    """What the whole ear makes of a sound, from nothing learnt."""
    ear.recall(Learnt())
    ear.begin()
    ear.await_(awaiting)
    data = (np.clip(sound, -1, 1) * 32767).astype("<i2").tobytes()
    reports = [r for i in range(0, len(data), 1024) for r in ear.feed(data[i : i + 1024])] + ear.finish()
    return [r for r in reports if isinstance(r, Heard)]


def measure(folder: Path, families: tuple[str, ...]) -> dict[str, Tally]:
    """A tally for each candidate."""
    rng = np.random.default_rng(21)
    ear = EmbeddedEar(tuple(Saying(deed, phrases, Cost.CHEAP) for deed, phrases in SIMPLE.items()))
    deed_of = {phrase: deed for deed, phrases in SIMPLE.items() for phrase in phrases}
    talkers = [c[0] for f in families for c in say.load(f, folder)[:100]]
    beds = {"clean": None, "pink": augment.colour(rng, RATE * 20, 1.0)}
    beds["babble"] = augment.make_beds(rng, talkers, []).babble[4]
    tallies: dict[str, Tally] = {phrase: Tally() for phrase in deed_of}
    for family in families:
        clips = defaultdict(list)
        for samples, text, label, _voice in say.load(family, folder):
            if text == label or label not in deed_of:
                clips[label].append(samples)
        for phrase, deed in deed_of.items():
            sized = [resample(c, RATE, round(RATE / size)) for size in SIZES for c in clips[phrase]]
            for samples in sized[:MOST_SAYINGS]:
                for condition in CONDITIONS:
                    found = heard(ear, placed(samples, beds[condition], rng))
                    tallies[phrase].said[condition] += 1
                    right = len(found) == 1 and found[0].deed == deed
                    tallies[phrase].kept[condition] += right
                    tallies[phrase].wrong[condition] += bool(found) and not right
        others = clips["other"]
        for samples in random.Random(5).sample(others, min(len(others), MOST_OTHERS)):
            for h in heard(ear, placed(samples, None, rng)):
                if h.words in tallies:
                    tallies[h.words].taken_for_it += 1
    return tallies


def lines(tallies: dict[str, Tally]) -> list[str]:
    """The table, the best phrase of each deed first and marked with a star."""
    out = []
    for deed, phrases in SIMPLE.items():
        ranked = sorted(
            (p for p in phrases if tallies[p].said), key=lambda p: (p in SHORT, -tallies[p].worth)
        )
        for i, phrase in enumerate(ranked):
            t = tallies[phrase]
            shares = " ".join(f"{100 * t.share(c):4.0f}" for c in CONDITIONS)
            star = "*" if i == 0 and phrase not in SHORT else " "
            out.append(
                f"{star} {deed:9} {phrase:22} {shares}  of {t.said['clean']} each; "
                f"wrong {sum(t.wrong.values())}, others taken for it {t.taken_for_it}"
            )
    return out
