"""What is learnt of one voice in one room as it goes on: how its embeddings lie beside those the head was
trained on, how large its mouth is, which deeds were taken back, and how often each is asked for.

In: the embeddings of commands that were heard, with what they were and when. Out: a shift to take off every
utterance before the head sees it, and how much surer a deed must be. All of it is one value (`learnt`) that can be
kept with the maker's settings, given back (`recall`) or forgotten. Learning needs commands, not talk, and weighs
what is usual for each command, so that a hundred times "next" teaches the voice and not the word.
"""

from __future__ import annotations

from collections import deque

import numpy as np

from tracker.ears.hearing.head import Floats
from tracker.ears.hearing.mouth import Mouth
from tracker.ears.port import Learnt

SHARE = 0.75
"""How much of the difference is taken off once the voice is well known."""
SLOWNESS = 3.0
"""So many commands' worth of doubt before the first one."""
MOST = 24
"""Older commands are forgotten: the room and the voice change."""
DOUBT, MOST_DOUBT, TRUST = 0.4, 1.2, 0.1
"""Each time a deed is taken back it must be so much surer, up to so much; each time it stands, so much less."""
KNOWN_PACE = 5
"""So many times between asking are needed before they are a pace."""
IN_STEP, IN_STEP_RELIEF = (0.5, 2.0), 0.3
"""Asked for about when it was due: within these times the usual wait it needs so much less."""
HURRIED, HURRIED_NEEDS = 0.2, 0.5
"""Asked for again within this part of the usual wait: it needs so much more."""


class Sitting:
    def __init__(self, usual: Floats) -> None:
        """`usual`: the mean embedding of each class in training."""
        self._usual = usual
        self._differences: deque[Floats] = deque(maxlen=MOST)
        self._own: list[Floats] = []
        self._of: deque[str] = deque(maxlen=MOST)
        self.mouth = Mouth()
        self._doubts: dict[str, float] = {}
        self._waits_ms: dict[str, deque[int]] = {}
        self._asked_ms: dict[str, int] = {}
        self._last = ""

    @property
    def commands(self) -> int:
        """How many commands it has learnt from."""
        return len(self._differences)

    def shift(self, *, learnt: bool = True) -> Floats:
        """What to take off each frame's embedding; by what the maker's own recordings teach alone when not `learnt`."""
        known = [*self._own, *(self._differences if learnt else ())]
        if not known:
            return np.zeros(self._usual.shape[1], np.float32)
        total: Floats = np.sum(known, axis=0)
        return (SHARE * total / (len(known) + SLOWNESS)).astype(np.float32)

    def own(self, recordings: list[tuple[Floats, int]]) -> None:
        """The maker's own recordings, embeddings and class of each: they stay known whatever is forgotten."""
        self._own = [
            (e.mean(axis=0) - self._usual[command]).astype(np.float32)
            for e, command in recordings
            if self._usual[command].any()
        ]

    def learn(self, embeddings: Floats, command: int, deed: str = "") -> None:
        """A command was heard: its embeddings as they came, and its class. A class never met in training
        teaches nothing."""
        if not self._usual[command].any():
            return
        self._differences.append((embeddings.mean(axis=0) - self._usual[command]).astype(np.float32))
        self._of.append(deed)

    def begin(self) -> None:
        """A new stream: its times have nothing to do with those before."""
        self._asked_ms.clear()
        self._last = ""

    def stood(self, deed: str, at_ms: int) -> None:
        """A deed was asked for; the one before it was let stand."""
        if self._last in self._doubts:
            left = self._doubts[self._last] - TRUST
            self._doubts[self._last] = max(0.0, left)
        if deed in self._asked_ms:
            waits = self._waits_ms.setdefault(deed, deque(maxlen=MOST))
            waits.append(at_ms - self._asked_ms[deed])
        self._asked_ms[deed] = at_ms
        self._last = deed

    def needs(self, deed: str, at_ms: int) -> float:
        """How much surer than usual that deed must be at that moment; below nought when it was due."""
        waits = self._waits_ms.get(deed, ())
        needed = self._doubts.get(deed, 0.0)
        if len(waits) >= KNOWN_PACE and deed in self._asked_ms:
            usual = float(np.median(list(waits)))
            part = (at_ms - self._asked_ms[deed]) / max(1.0, usual)
            if part < HURRIED:
                needed += HURRIED_NEEDS
            elif IN_STEP[0] <= part <= IN_STEP[1]:
                needed -= IN_STEP_RELIEF
        return needed

    def unlearn(self, deed: str = "") -> None:
        """That deed was taken back, or the last one: it was something else that was said."""
        deed = deed or self._last
        at = next((i for i in reversed(range(len(self._of))) if self._of[i] == deed), None)
        if at is not None:
            del self._differences[at], self._of[at]
        self.mouth.unlearn(deed)
        if deed:
            self._doubts[deed] = min(MOST_DOUBT, self._doubts.get(deed, 0.0) + DOUBT)
        if deed == self._last:
            self._last = ""

    def learnt(self) -> Learnt:
        return Learnt(
            tuple(tuple(round(float(x), 3) for x in d) for d in self._differences),
            tuple((deed, round(doubt, 2)) for deed, doubt in self._doubts.items() if doubt > 0),
            tuple((deed, tuple(waits)) for deed, waits in self._waits_ms.items()),
            self.mouth.learnt(),
        )

    def recall(self, learnt: Learnt) -> None:
        """What `learnt` gave; numbers of another form are taken as nothing learnt."""
        width = self._usual.shape[1]
        self._differences.clear()
        self._differences.extend(np.array(d, np.float32) for d in learnt.voice[-MOST:] if len(d) == width)
        self._of = deque([""] * len(self._differences), maxlen=MOST)
        self.mouth.recall(learnt.mouth)
        self._doubts = {deed: min(MOST_DOUBT, doubt) for deed, doubt in learnt.doubts}
        self._waits_ms = {deed: deque(waits, maxlen=MOST) for deed, waits in learnt.paces}
        self.begin()
