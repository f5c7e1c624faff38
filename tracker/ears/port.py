"""The ear's port: what an ear is handed, and what it gives back.

In: a table of `Saying`s (which phrases mean which deed) and blocks of 16 kHz mono 16-bit little-endian
samples, of any length. Out: `Heard`, `PassedOver` and `Settled` values, each once, in the order they were decided. An
ear never raises on what it hears; what engine or device is missing is told by `EarMissing`, whose text is
one sentence for the maker.
"""

from __future__ import annotations

import enum
from dataclasses import dataclass
from typing import Protocol, runtime_checkable

RATE = 16000
"""Samples a second, everywhere in this package."""


class EarMissing(Exception):
    """An engine, model or microphone that is not there; the text says what is so and what to do."""


class Cost(enum.Enum):
    """What a mistaken deed costs, which decides how sure the ear must be."""

    CHEAP = "cheap"
    """Acts at once and is easily taken back."""
    ASKED = "asked"
    """Read back before it acts, so a doubtful one may be offered."""
    ANSWER = "answer"
    """Only meaningful after a question; otherwise harmless."""


class Awaiting(enum.Enum):
    """What the tool has just asked for."""

    COMMAND = "command"
    NUMBER = "number"
    """A bare number counts as the deed "number"."""
    ANSWER = "answer"
    """A yes or a no is expected, so they need less sureness."""


@dataclass(frozen=True, slots=True)
class Saying:
    """One deed and the phrases that ask for it."""

    deed: str
    phrases: tuple[str, ...]
    """Lower case words parted by single spaces; "{n}" stands for a number from 1 to 999."""
    cost: Cost = Cost.CHEAP

    @property
    def takes_number(self) -> bool:
        return any("{n}" in phrase for phrase in self.phrases)


@dataclass(frozen=True, slots=True)
class Heard:
    """A command."""

    deed: str
    words: str
    """The phrase as understood, numbers in words: "go to row twenty three"."""
    sureness: float
    """0 to 1."""
    start_ms: int
    """Where the words began, from the first sample fed."""
    end_ms: int
    """Where they ended."""
    decided_ms: int
    """How much had been fed when it was decided."""
    compute_ms: int
    """What deciding cost on top."""
    number: int | None = None
    ask: bool = False
    """It should be read back before it acts."""
    settles_ms: int | None = None
    """Only for a number that more words could follow, or that a pattern read aloud begins with: it may be shown
    at once, but is asked back or acted on when a `Settled` says that it stands. None: it stands."""


@dataclass(frozen=True, slots=True)
class PassedOver:
    """A sound that was no command."""

    start_ms: int
    end_ms: int
    why: str
    """In the maker's words: "not a command", "too long", "not sure enough: back?" …"""


@dataclass(frozen=True, slots=True)
class Settled:
    """What became of a command that was still to settle: one for each such command, before the next command."""

    start_ms: int
    """Where that command began."""
    stands: bool
    """False: speech went on, so it was the beginning of something else."""
    at_ms: int
    """How much had been fed by then."""


Report = Heard | PassedOver | Settled


@dataclass(frozen=True, slots=True)
class Learnt:
    """What an ear has learnt of one maker's voice, room and ways. The front end keeps it with the settings and gives
    it back at the next sitting; forgetting is giving none."""

    voice: tuple[tuple[float, ...], ...] = ()
    """How the last commands lay beside what is usual for them; the engine's own numbers."""
    doubts: tuple[tuple[str, float], ...] = ()
    """Deeds that were taken back, and how much surer each must be now."""
    paces: tuple[tuple[str, tuple[int, ...]], ...] = ()
    """Deeds, and the milliseconds between the last times each was asked for."""
    mouth: tuple[tuple[float, ...], ...] = ()
    """How the last commands fitted mouths of several sizes; the engine's own numbers."""


class Ear(Protocol):
    """One engine. All methods are called from one thread, the one that feeds it."""

    def begin(self) -> None:
        """A new stream: time starts at 0 again; what is known of the voice is kept."""
        ...

    def feed(self, block: bytes) -> list[Report]:
        """Takes the next samples and says what they decided."""
        ...

    def finish(self) -> list[Report]:
        """The stream has ended: whatever was still open is decided now."""
        ...

    def await_(self, what: Awaiting, also: tuple[Saying, ...] = ()) -> None:
        """Tells the ear what has just been asked, and what can be said to it beside the table: until the next call.

        An ear that cannot spell those words hears them only from the maker's own recordings, or not at all.
        """
        ...

    def taken_back(self, deed: str = "") -> None:
        """The maker took back that deed, or the last command: nothing is to be learnt from it."""
        ...

    def deaf(self, until_ms: int) -> None:
        """Hears nothing until that point of the stream (milliseconds from the first sample fed)."""
        ...


@runtime_checkable
class Learning(Protocol):
    """An ear that learns its maker's voice and ways as it goes on."""

    def learnt(self) -> Learnt:
        """What it knows, to be kept."""
        ...

    def recall(self, learnt: Learnt) -> None:
        """What was kept of an earlier sitting; an empty one forgets."""
        ...
