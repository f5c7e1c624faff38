"""The mouth that makes no sound: for a maker who wants quiet, for the demo, and for tests.

Comes in: what would be said. Goes out: the same, kept in order in `said`, with the listeners called as if
it had been heard in no time at all. Needs no sound device and no engine, and never fails.
"""

from __future__ import annotations

import time
from collections import deque
from collections.abc import Iterable
from dataclasses import dataclass

from tracker.mouth.port import Listeners, Manner, Utterance
from tracker.mouth.sound import Sound, Tone


@dataclass(frozen=True, slots=True)
class Said:
    """One call of `say` or `sound`."""

    text: str
    """Empty for a tone alone."""
    tone: Tone | None
    urgent: bool
    after: bool


class Silent:
    """Keeps what would have been said, the latest `keep` of it."""

    def __init__(self, listeners: Listeners | None = None, keep: int = 1_000) -> None:
        self._listeners = listeners or Listeners()
        self.said: deque[Said] = deque(maxlen=keep)
        self.prepared: tuple[str, ...] = ()
        """The last wish to have sentences made ahead."""
        self.hushed = 0
        """How many times it was told to be silent."""
        self.manner = Manner()
        self.closed = False

    def say(
        self, text: str, *, before: Tone | None = None, urgent: bool = False, after: bool = False
    ) -> None:
        self.said.append(Said(text, before, urgent, after))
        utterance = Utterance(text, Sound(b"", 16_000), time.monotonic())
        self._listeners.on_start(utterance)
        self._listeners.on_end(utterance)

    def sound(self, tone: Tone, *, after: bool = False) -> None:
        self.say("", before=tone, after=after)

    def hush(self) -> None:
        self.hushed += 1

    def prepare(self, texts: Iterable[str]) -> None:
        self.prepared = tuple(texts)

    def adjust(self, manner: Manner) -> None:
        self.manner = manner

    @property
    def playing(self) -> Utterance | None:
        return None

    @property
    def busy(self) -> bool:
        return False

    def close(self) -> None:
        self.closed = True
