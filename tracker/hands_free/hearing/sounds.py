"""Sound that comes in block by block, from the microphone or from a recording in its place, and the words in it.

Goes out: blocks of 16 ms, and utterances. Raises EarMissing, one sentence, when there is no microphone or it goes away.
"""

import queue
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import numpy as np

from tracker.ears.hearing.sound.endpoint import Endpointer, Segment
from tracker.ears.port import RATE, Awaiting, EarMissing, Report, Saying
from tracker.hands_free.ear import BLOCK_BYTES, listen, samples_of
from tracker.records import dataclass

BEFORE_MS, AFTER_MS = 250, 250
"""How much of the room is kept around a word."""
LONGEST_MS = 2_500
CLIPPED = 0.985
_CLIPPED_SHARE = 1e-3
_SOFTEST_DB, _LEAST_OVER_DB = -52.0, 9.0


@dataclass(frozen=True, slots=True)
class Utterance:
    """Something that was said between two silences."""

    samples: bytes
    """16 kHz mono 16 bit, with a little of the room around it."""
    fault: str
    """Why it is no good as a recording, in the maker's words; empty when it is."""


class _Through:
    """An ear that hears nothing and passes every block on."""

    def __init__(self) -> None:
        self.blocks: queue.SimpleQueue[bytes | None] = queue.SimpleQueue()

    def begin(self) -> None: ...

    def feed(self, block: bytes) -> list[Report]:
        self.blocks.put(block)
        return []

    def finish(self) -> list[Report]:
        return []

    def await_(self, what: Awaiting, also: tuple[Saying, ...] = ()) -> None: ...

    def taken_back(self, deed: str = "") -> None: ...

    def deaf(self, until_ms: int) -> None: ...


@contextmanager
def room(hear: Path | None, microphone: str) -> Iterator[Iterator[bytes]]:
    """The blocks of the microphone, or of a recording, for as long as the context lasts."""
    if hear is not None:
        samples = samples_of(hear)
        yield iter([samples[at : at + BLOCK_BYTES] for at in range(0, len(samples), BLOCK_BYTES)])
        return
    through = _Through()
    lost: list[str] = []

    def gone(why: str) -> None:
        lost.append(why)
        through.blocks.put(None)

    listening = listen(through, lambda report: None, gone, microphone)

    def blocks() -> Iterator[bytes]:
        while (block := through.blocks.get()) is not None:
            yield block
        raise EarMissing(lost[0])

    try:
        yield blocks()
    finally:
        listening.stop()


def utterances(
    blocks: Iterator[bytes], silence_s: float, passing: Callable[[], bool] = lambda: False
) -> Iterator[Utterance | None]:
    """What is said, one after another; None for so long a silence, at which the caller may go on or stop.

    While `passing` is true, what is heard is not the maker.
    """
    ear = Endpointer()
    quiet_ms = 0.0
    for block in blocks:
        found = ear.feed(np.frombuffer(block, "<i2").astype(np.float32) / np.float32(32768))
        quiet_ms = (
            0.0 if ear.speaking_since_ms is not None or passing() else quiet_ms + len(block) * 500 / RATE
        )
        for segment in found:
            quiet_ms = 0.0
            if not passing() and segment.end_ms - segment.start_ms > 90:
                yield _utterance(ear, segment)
        if quiet_ms > silence_s * 1000:
            quiet_ms = 0.0
            yield None


def _utterance(ear: Endpointer, segment: Segment) -> Utterance:
    sound = ear.cut(segment.start_ms - BEFORE_MS, segment.end_ms + AFTER_MS)
    fault = ""
    if segment.too_long or segment.end_ms - segment.start_ms > LONGEST_MS:
        fault = "That was longer than a command; say only the words."
    elif float((np.abs(sound) > CLIPPED).mean()) > _CLIPPED_SHARE:
        fault = "That was too loud for the microphone: turn its level down, or move away."
    elif segment.level_db < _SOFTEST_DB or segment.over_db < _LEAST_OVER_DB:
        fault = "That was hardly louder than the room: come nearer, or speak up."
    return Utterance((np.clip(sound, -1, 1) * 32767).astype("<i2").tobytes(), fault)
