"""The maker's own recordings: what they said is compared with, in any language.

In: recordings of phrases, as the head's hidden frames. Out: for an utterance, each phrase's likeness in log-odds, calibrated on
how alike the maker's own recordings of one phrase are and how unlike those of different phrases. Needs two recordings of a
phrase to know its spread; with one, what is usual is taken.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tracker.ears.hearing.head import Floats

USUAL_ALIKE = 0.16
"""Distance between two sayings of one phrase by one voice, measured on synthetic voices."""
STEEPNESS = 5.0


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


def distance(a: Floats, b: Floats) -> float:
    """Dynamic time warping over cosine distance, per frame of both; frames are already of unit length.

    >>> x = unit_frames(np.eye(3, dtype=np.float32)); round(distance(x, x), 6)
    0.0
    """
    cost = 1 - a @ b.T
    rows, columns = cost.shape
    before = np.full(columns + 1, np.inf)
    before[0] = 0.0
    for i in range(rows):
        row = cost[i]
        now = np.full(columns + 1, np.inf)
        step = np.minimum(before[1:], before[:-1])
        left = np.inf
        for j in range(columns):
            left = row[j] + (step[j] if step[j] < left else left)
            now[j + 1] = left
        before = now
    return float(before[-1]) / (rows + columns)


class Templates:
    def __init__(self) -> None:
        self._kept: list[tuple[str, Floats]] = []
        self._alike = USUAL_ALIKE
        self._unlike = 2 * USUAL_ALIKE

    def __len__(self) -> int:
        return len(self._kept)

    @property
    def phrases(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(p for p, _ in self._kept))

    def add(self, phrase: str, hidden: Floats) -> None:
        self._kept.append((phrase, unit_frames(hidden)))

    def forget(self, phrase: str) -> None:
        self._kept = [(p, t) for p, t in self._kept if p != phrase]

    def calibrate(self) -> None:
        """Learns the spread of the recordings; to be called when all have been added."""
        alike, unlike = [], []
        for i, (phrase, frames) in enumerate(self._kept):
            same = [distance(frames, t) for j, (p, t) in enumerate(self._kept) if p == phrase and j != i]
            others = [distance(frames, t) for p, t in self._kept if p != phrase]
            if same:
                alike.append(min(same))
            if others:
                unlike.append(min(others))
        if len(alike) >= 3:
            self._alike = float(np.median(alike))
        # words not taught lie nearer than those taught: never trust a spread wider than twice the usual
        far = float(np.percentile(unlike, 20)) if unlike else 2 * self._alike
        self._unlike = max(self._alike * 1.25, min(far, self._alike * 2.2))

    def nearest(self, hidden: Floats) -> list[Likeness]:
        """Every taught phrase, the likest first."""
        frames = unit_frames(hidden)
        best: dict[str, float] = {}
        for phrase, template in self._kept:
            length = len(template) / len(frames)
            if 0.5 < length < 2.0:
                best[phrase] = min(best.get(phrase, np.inf), distance(frames, template))
        border = (self._alike + self._unlike) / 2
        spread = max(0.01, (self._unlike - self._alike) / 2)
        ranked = sorted(best.items(), key=lambda item: item[1])
        found = []
        for phrase, d in ranked:
            rival = next((other for p, other in ranked if p != phrase), 2 * self._unlike)
            margin = (rival - d) / spread
            found.append(Likeness(phrase, STEEPNESS * (border - d) / spread / 2 + min(2.0, margin) - 1, d))
        return found
