"""Hours of speech that is no command, read by voices the ear was never trained on: what it takes for one.

Comes in: how many hours. Goes out: what became of running speech (the licence read aloud), of crochet talk (the rows of
the samples read aloud) and of counting aloud, each a Tally whose `wrong` are the deeds. The voices take turns, one for
each stretch; the order is the same on every run. Needs espeakng-loader at least.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable, Iterator
from pathlib import Path

import numpy as np

from tracker.bench.hearing import Samples, Tally, heard, table
from tracker.ears.embedded import EmbeddedEar
from tracker.ears.phrases_en import ENGLISH
from tracker.ears.port import RATE, Awaiting
from tracker.samples import samples

SHARES = {"running speech": 0.82, "crochet talk": 0.12, "counting": 0.06}
PAUSES_S = (0.25, 0.4, 0.6)
"""Between two sentences."""
SPAWNED = "festival"
"""A family whose every sentence takes a process of its own: left out, for hours of it take hours."""


def running(say: Callable[[str], None], hours: float) -> dict[str, Tally]:
    """Measure, say what came of it, and give it."""
    from tracker.ears.train import voices

    families = [f for f in voices.KEPT_APART if f != SPAWNED]
    settings = [
        s
        for f in families
        if voices.speak("next", voices.settings_of(f)[0]) is not None
        for s in voices.settings_of(f)
    ]
    if not settings:
        say(
            "speech that is no command: not measured, for no voice is installed (pip install espeakng-loader)"
        )
        return {}
    ear, found = EmbeddedEar(ENGLISH), {role: Tally() for role in SHARES}
    turns = itertools.cycle(settings)
    for role, share in SHARES.items():
        tally = found[role]
        for stretch in itertools.cycle(stretches(role)):
            if tally.seconds >= hours * 3600 * share:
                break
            setting = next(turns)
            sound = aloud([voices.speak(sentence, setting) for sentence in stretch])
            taken = heard(ear, sound, Awaiting.COMMAND)
            tally.said += len(stretch)
            tally.seconds += len(sound) / RATE
            tally.wrong += len(taken)
            for one in taken:
                say(
                    f"  {role}, {setting.voice}: took something for {one.words!r} in {' '.join(stretch)[:90]!r}"
                )
    for line in table(found):
        say(f"speech that is no command, {len(settings)} voices: {line}")
    return found


def aloud(said: list[Samples | None]) -> Samples:
    """Sentences with a breath between them, in a quiet room."""
    parts = [np.zeros(RATE // 2, np.float32)]
    for sound, pause_s in zip(said, itertools.cycle(PAUSES_S), strict=False):
        if sound is not None:
            parts += [
                sound * (0.3 / max(1e-6, float(np.abs(sound).max()))),
                np.zeros(int(RATE * pause_s), np.float32),
            ]
    whole = np.concatenate([*parts, np.zeros(RATE, np.float32)])
    return (whole + np.random.default_rng(3).normal(0, 4e-4, len(whole))).astype(np.float32)


def stretches(role: str) -> list[list[str]]:
    """What is read at one go, as sentences."""
    if role == "counting":
        return [list(numbers) for numbers in _countings()]
    paths = sorted(samples().values())
    licence = Path(__file__).resolve().parents[3] / "LICENSE"
    if role == "running speech" and licence.exists():
        paths = [licence]
    text = "\n\n".join(path.read_text(encoding="utf-8") for path in paths)
    paragraphs = re.split(r"\n\s*\n", text)
    found = [
        [s.strip() for s in re.split(r"(?<=[.;:])\s+", p) if any(c.isalpha() for c in s)] for p in paragraphs
    ]
    return [sentences for sentences in found if sentences]


def _countings() -> Iterator[tuple[str, ...]]:
    """Counting aloud, by ones and twos, by each number alone and several in a breath."""
    for first, step, breath in itertools.product((1, 7, 20), (1, 2), (1, 4, 10)):
        figures = [str(first + step * i) for i in range(20)]
        yield tuple(", ".join(figures[i : i + breath]) for i in range(0, 20, breath))
