"""Which words to teach: every candidate phrase, said in voices the head never met, measured by the whole ear.

In: a working folder (the recordings of voices.KEPT_APART are made there when they are missing), how many of the
sayings of a phrase to take from each family. Out, one line a phrase: how often it is heard clean, in 10 dB of pink
noise and in 10 dB of babble, how often as what other deed, and how often ordinary words, counting aloud or crochet
talk were taken for it. For each deed the line of its best phrase of two syllables or more is marked. Every random
choice is seeded.
"""

from __future__ import annotations

import random
from collections import Counter, defaultdict
from dataclasses import dataclass, field
from multiprocessing import Pool
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
MOST_SAYINGS, MOST_OTHERS = 12, 250
"""So many clips of a phrase, and of words that are no command, from each family."""
SIZES = (1.0, 0.88, 1.14)
"""How many times larger or smaller a mouth a clip is said with where a family says a phrase too seldom."""
SHORT = {"next", "back", "pause", "stop", "yes", "no", "help"}
"""Phrases of one syllable, which drown in noise: understood but not taught."""
COST_OF_WRONG, COST_OF_FALSE = 4.0, 0.1


@dataclass(slots=True)
class Tally:
    """What became of one phrase."""

    said: Counter[str] = field(default_factory=Counter)
    kept: Counter[str] = field(default_factory=Counter)
    wrong: Counter[str] = field(default_factory=Counter)
    heard_as: Counter[str] = field(default_factory=Counter)
    """The words it was taken for when it was taken wrongly."""
    taken_for_it: Counter[str] = field(default_factory=Counter)
    """Words that are no command and were taken for it."""

    def share(self, condition: str) -> float:
        return self.kept[condition] / max(1, self.said[condition])

    def add(self, other: Tally) -> None:
        for name in ("said", "kept", "wrong", "heard_as", "taken_for_it"):
            getattr(self, name).update(getattr(other, name))

    @property
    def worth(self) -> float:
        """Higher is better: kept, clean and in noise, less what is heard wrongly and what is taken for it."""
        wrong = sum(self.wrong.values()) / max(1, sum(self.said.values()))
        kept = sum(self.share(c) for c in CONDITIONS)
        return kept - COST_OF_WRONG * wrong - COST_OF_FALSE * sum(self.taken_for_it.values())


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
    reports = ear.feed(data) + ear.finish()  # at once, so that nothing is learnt between
    return [r for r in reports if isinstance(r, Heard)]


def measure(folder: Path, families: tuple[str, ...], cores: int = 1) -> dict[str, dict[str, Tally]]:
    """A tally for each family and candidate."""
    with Pool(min(cores, len(families))) as pool:
        found = pool.starmap(_of_family, [(folder, family) for family in families], 1)
    return dict(zip(families, found, strict=True))


def together(tallies: dict[str, dict[str, Tally]]) -> dict[str, Tally]:
    """All families in one."""
    out = {phrase: Tally() for phrases in SIMPLE.values() for phrase in phrases}
    for found in tallies.values():
        for phrase, tally in found.items():
            out[phrase].add(tally)
    return out


def _of_family(folder: Path, family: str) -> dict[str, Tally]:
    rng = np.random.default_rng(21)
    ear = EmbeddedEar(tuple(Saying(deed, phrases, Cost.CHEAP) for deed, phrases in SIMPLE.items()))
    deed_of = {phrase: deed for deed, phrases in SIMPLE.items() for phrase in phrases}
    loaded = say.load(family, folder)
    beds = {"clean": None, "pink": augment.colour(rng, RATE * 20, 1.0)}
    beds["babble"] = augment.make_beds(rng, [c[0] for c in loaded[:150]], []).babble[4]
    clips = defaultdict(list)
    for samples, text, label, _voice in loaded:
        if text == label or label not in deed_of:
            clips[label].append(samples)
    tallies = {phrase: Tally() for phrase in deed_of}
    for phrase, deed in deed_of.items():
        tally = tallies[phrase]
        sized = [resample(c, RATE, round(RATE / size)) for size in SIZES for c in clips[phrase]]
        for samples in sized[:MOST_SAYINGS]:
            for condition in CONDITIONS:
                found = heard(ear, placed(samples, beds[condition], rng))
                tally.said[condition] += 1
                right = len(found) == 1 and found[0].deed == deed
                tally.kept[condition] += right
                if found and not right:
                    tally.wrong[condition] += 1
                    tally.heard_as.update(h.words for h in found if h.deed != deed)
    others = [(s, text) for s, text, label, _voice in loaded if label == "other"]
    for samples, text in random.Random(5).sample(others, min(len(others), MOST_OTHERS)):
        for h in heard(ear, placed(samples, None, rng)):
            if h.words in tallies:
                tallies[h.words].taken_for_it[text] += 1
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
            wrong = ", ".join(f"{word} {n}" for word, n in t.heard_as.most_common(3))
            false = ", ".join(f"{word} {n}" for word, n in t.taken_for_it.most_common(3))
            out.append(
                f"{star} {deed:9} {phrase:20} {shares}  of {t.said['clean']:3} each; "
                f"wrong {sum(t.wrong.values())}{f' ({wrong})' if wrong else ''}"
                f"; taken for it {sum(t.taken_for_it.values())}{f' ({false[:60]})' if false else ''}"
            )
    return out
