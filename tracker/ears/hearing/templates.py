"""The maker's own recordings: what they said is compared with, in any language.

In: recordings of phrases, as the head's hidden frames. Out: for an utterance, each phrase's likeness in
log-odds. Where many phrases are taught, a distance is judged beside the distances to the others, because noise moves
them all; where few are, beside how alike the maker's own recordings of one phrase are and how unlike those of
different phrases. Needs two recordings of a phrase to know its spread; with one, what is usual is taken.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tracker.ears.hearing.head import ONE_THREAD, Floats

USUAL_ALIKE = 0.04
"""Distance between two sayings of one phrase by one voice, quiet or in noise, measured on synthetic
voices."""
STEEPNESS = 5.0
NEAREST = 3
"""A phrase is as far as the mean of so many of its recordings and their copies that are nearest."""
MANY = 6
"""From so many phrases on there is something to judge a distance beside."""
STEEPNESS_BESIDE = 16.0
BORDER_QUIET, BORDER_NOISY = 0.36, 0.5
QUIET_DB, NOISY_DB = 30.0, 13.5
"""Which share of the usual distance to the phrases taught is as likely that phrase as something else, in a quiet
room and in a loud one, and how far a word stands out of each. Measured on three voices that nothing was trained on,
beside words that makers say as they work: theirs lie at 0.1, 0.25, 0.4 in quiet, pink noise and babble, the others
at 0.7. In quiet 0.36 for 0.3 brings back the borderline ones of a strong accent: of 420 words of makers none is
taken for one, of 520 chosen to be like one 26 for 21."""


@dataclass(frozen=True, slots=True)
class Likeness:
    """How like one phrase an utterance is."""

    phrase: str
    score: float
    """Log-odds that it was this phrase; above nought is more likely than not."""
    distance: float


def unit_frames(hidden: Floats) -> Floats:
    out: Floats = hidden / (np.linalg.norm(hidden, axis=1, keepdims=True) + 1e-6)
    return out


def distances(frames: Floats, templates: list[Floats]) -> Floats:
    """Dynamic time warping over cosine distance to each template, per frame of both; all frames are of unit
    length.

    >>> x = unit_frames(np.eye(3, dtype=np.float32)); [round(float(d), 3) for d in distances(x, [x, x[::-1]])]
    [0.0, 0.333]
    """
    many, longest = len(templates), max(len(t) for t in templates)
    padded = np.zeros((many, longest, frames.shape[1]), np.float32)
    for i, t in enumerate(templates):
        padded[i, : len(t)] = t
    at_once = max(1, ONE_THREAD // frames.size)
    flat = padded.transpose(1, 0, 2).reshape(longest * many, -1)
    alike = [frames @ flat[i : i + at_once].T for i in range(0, len(flat), at_once)]
    cost = 1 - np.concatenate(alike, axis=1).reshape(len(frames), longest, many)
    before = np.full((longest + 1, many), np.inf, np.float32)
    before[0] = 0.0
    for row in cost:
        now = np.full_like(before, np.inf)
        step = np.minimum(before[1:], before[:-1])
        for j in range(longest):
            now[j + 1] = row[j] + np.minimum(step[j], now[j])
        before = now
    lengths = np.array([len(t) for t in templates])
    out: Floats = before[lengths, np.arange(many)] / (len(frames) + lengths)
    return out


class Templates:
    def __init__(self) -> None:
        self._kept: list[tuple[str, Floats, int]] = []
        self._alike = USUAL_ALIKE
        self._unlike = 2 * USUAL_ALIKE

    def __len__(self) -> int:
        return len(self._kept)

    @property
    def phrases(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(p for p, *_ in self._kept))

    def add(self, phrase: str, hidden: Floats, take: int) -> None:
        """`take`: which recording it is; its noisy copies have the same."""
        self._kept.append((phrase, unit_frames(hidden), take))

    def takes(self) -> list[tuple[str, int, Floats]]:
        """Each recording as it was made, without its copies."""
        first: dict[int, tuple[str, int, Floats]] = {}
        for phrase, frames, take in self._kept:
            first.setdefault(take, (phrase, take, frames))
        return list(first.values())

    def without(self, take: int) -> Templates:
        """All but one recording and its copies."""
        rest = Templates()
        rest._kept = [k for k in self._kept if k[2] != take]
        rest._alike, rest._unlike = self._alike, self._unlike
        return rest

    def calibrate(self) -> None:
        """Learns the spread of the recordings; to be called when all have been added."""
        alike, unlike = [], []
        templates = [t for _, t, _ in self._kept]
        for phrase, frames, take in self._kept:
            far = distances(frames, templates)
            same = [
                float(d) for d, (p, _, k) in zip(far, self._kept, strict=True) if p == phrase and k != take
            ]
            others = [float(d) for d, (p, *_) in zip(far, self._kept, strict=True) if p != phrase]
            alike += [min(same)] if same else []
            unlike += [min(others)] if others else []
        if len(alike) >= 3:
            self._alike = float(np.median(alike))
        # words not taught lie nearer than those taught: a spread far wider than the usual is not trusted
        border = float(np.percentile(unlike, 20)) if unlike else 2 * self._alike
        self._unlike = max(self._alike * 1.25, min(border, self._alike * 2.2))

    def nearest(self, hidden: Floats, over_db: float = 60.0) -> list[Likeness]:
        """Every taught phrase, the likest first; `over_db`: how far the utterance stands out of the room."""
        frames = unit_frames(hidden)
        fitting = [(p, t) for p, t, _ in self._kept if 0.5 < len(t) / len(frames) < 2.0]
        near: dict[str, list[float]] = {}
        for (phrase, _), d in zip(
            fitting, distances(frames, [t for _, t in fitting]) if fitting else (), strict=True
        ):
            near.setdefault(phrase, []).append(float(d))
        ranked = sorted(
            ((p, float(np.mean(sorted(ds)[:NEAREST]))) for p, ds in near.items()), key=lambda item: item[1]
        )
        if len(ranked) >= MANY:
            return _beside_the_others(ranked, over_db)
        border, spread = (self._alike + self._unlike) / 2, max(0.01, (self._unlike - self._alike) / 2)
        found = []
        for phrase, d in ranked:
            rival = next((other for p, other in ranked if p != phrase), 2 * self._unlike)
            margin = min(2.0, (rival - d) / spread)
            found.append(Likeness(phrase, STEEPNESS * (border - d) / spread / 2 + margin - 1, d))
        return found


def _beside_the_others(ranked: list[tuple[str, float]], over_db: float) -> list[Likeness]:
    loud = min(1.0, max(0.0, (QUIET_DB - over_db) / (QUIET_DB - NOISY_DB)))
    border = BORDER_QUIET + (BORDER_NOISY - BORDER_QUIET) * loud
    usual = float(np.median([d for _, d in ranked])) + 1e-6
    return [Likeness(phrase, STEEPNESS_BESIDE * (border - d / usual), d) for phrase, d in ranked]
