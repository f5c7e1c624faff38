"""A lesson: each phrase said three times, checked to agree, and what it gained.

Comes in: recordings by phrase. Goes out: which of them is unlike the others, and how many of the maker's own words the
ear knows as it came and taught, each recording left out of what it is tried on. The ear is the built-in one.
"""

from collections.abc import Iterator

import numpy as np

from tracker.ears.embedded import EmbeddedEar
from tracker.ears.hearing.sound.endpoint import Samples
from tracker.ears.port import RATE, Awaiting, Heard, Saying
from tracker.ears.teaching import noisy, pink
from tracker.records import dataclass

TAKES = 3
NOISE_DB = 10.0
"""The noise of the second trial: a kettle in the room."""
UNLIKE = 0.10
"""Recordings of one phrase by one voice that lie further apart are not of one phrase (two and a half times the usual
distance, measured on synthetic voices)."""


@dataclass(frozen=True, slots=True)
class Gain:
    """Of so many recordings, how many were heard right."""

    recordings: int
    came: int
    """By the ear as it came."""
    taught: int
    """Taught by all recordings but those of the same round."""
    came_in_noise: int
    taught_in_noise: int


def samples_of_take(take: bytes) -> Samples:
    """A recording as numbers from -1 to 1."""
    return np.frombuffer(take, "<i2").astype(np.float32) / np.float32(32768)


def odd_take(ear: EmbeddedEar, takes: list[bytes]) -> int | None:
    """Which of a phrase's recordings is unlike the others; None when they agree."""
    if len(takes) < TAKES:
        return None
    spread = ear.spread([samples_of_take(take) for take in takes])
    if not spread:
        return None
    worst = max(range(len(spread)), key=lambda at: spread[at])
    return worst if spread[worst] > UNLIKE else None


def gain(sayings: tuple[Saying, ...], recordings: dict[str, list[bytes]]) -> Gain:
    """What the recordings are worth: each round of them is tried on an ear that was taught the other rounds."""
    sounds = {
        phrase: [samples_of_take(take) for take in takes]
        for phrase, takes in recordings.items()
        if len(takes) >= 2
    }
    came = EmbeddedEar(sayings)
    counts = [0, 0, 0, 0]
    many = 0
    for number in range(max((len(takes) for takes in sounds.values()), default=0)):
        taught = EmbeddedEar(sayings)
        taught.teach(list(_without(sounds, number)))
        for phrase, takes in sounds.items():
            if number >= len(takes):
                continue
            many += 1
            quiet = in_a_room(takes[number])
            trials = [
                (sound, ear)
                for sound in (quiet, noisy(quiet, quiet, pink(len(quiet), 7 * many), NOISE_DB))
                for ear in (came, taught)
            ]
            for at, (sound, ear) in enumerate(trials):
                counts[at] += _is_heard(ear, phrase, sound)
    return Gain(many, counts[0], counts[1], counts[2], counts[3])


def _without(sounds: dict[str, list[Samples]], number: int) -> Iterator[tuple[str, Samples]]:
    for phrase, takes in sounds.items():
        yield from ((phrase, take) for at, take in enumerate(takes) if at != number)


def in_a_room(sound: Samples) -> Samples:
    """A recording with a second of quiet before and after it."""
    room = np.random.default_rng(3).normal(0, 3e-4, RATE).astype(np.float32)
    whole: Samples = np.concatenate([room, sound, room])
    return whole


def _is_heard(ear: EmbeddedEar, phrase: str, sound: Samples) -> bool:
    """True when the ear takes a recording, standing alone, for the deed of its phrase and for nothing else."""
    meant = ear.meaning(phrase)
    ear.begin()
    deed = meant[0] if meant is not None else ""
    ear.await_(
        Awaiting.NUMBER
        if deed == "number"
        else Awaiting.ANSWER
        if deed in ("yes", "no")
        else Awaiting.COMMAND
    )
    reports = [*ear.feed((np.clip(sound, -1, 1) * 32767).astype("<i2").tobytes()), *ear.finish()]
    heard = [(report.deed, report.number) for report in reports if isinstance(report, Heard)]
    return heard == [meant]
