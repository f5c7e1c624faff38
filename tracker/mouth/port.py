"""The seam to the mouth: what every mouth does, what every voice does, and the values that pass.

    MouthFault              the voice or the speaker isn't to be had; str() is one sentence for the maker
    ├── NoVoice             no engine that makes speech, or not the one asked for
    └── NoSpeaker           no PortAudio, no output device, or it went away

A mouth never raises these: it hands the sentence to `on_trouble`, once for each cause, and goes on silently.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Protocol

from tracker.mouth.sound import Sound, Tone


class MouthFault(Exception):
    """The voice or the speaker isn't to be had; the text is a sentence for the maker."""


class NoVoice(MouthFault):
    """No speech can be made."""


class NoSpeaker(MouthFault):
    """No sound can be played."""


@dataclass(frozen=True, slots=True)
class Manner:
    """How it speaks."""

    engine: str = "espeak"
    """"espeak", or "natural" for the voice of the extra."""
    accent: str = "en-us"
    """Voice of the engine: en-us, en-gb, or any name the engine knows ("en-us+f3")."""
    speed_wpm: int = 165
    """Words a minute, 80 to 400."""
    volume: int = 100
    """Percent of the engine's own loudness, 0 to 100; tones follow it."""
    device: str = ""
    """Part of the speaker's name; empty means the system's own choice."""


@dataclass(frozen=True, slots=True)
class Utterance:
    """One sentence or tone as it goes to the speaker."""

    text: str
    """What is said; empty for a tone."""
    sound: Sound
    """The very samples that are played, so that an ear can tell them from a voice in the room."""
    began_at: float
    """time.monotonic() seconds at which the speaker comes to the first sample."""


@dataclass(frozen=True, slots=True)
class Listeners:
    """What a mouth calls as it speaks, on its own thread: an ear goes deaf before the first sample."""

    on_start: Callable[[Utterance], None] = lambda _: None
    """Just before the first sample of each sentence or tone."""
    on_end: Callable[[Utterance], None] = lambda _: None
    """When its last sample has been heard, or it was cut short. Once for each on_start, whatever happens."""
    on_trouble: Callable[[str], None] = lambda _: None
    """One sentence for the maker, once for each cause; the mouth goes on silently, or with another voice."""


class Voice(Protocol):
    """An engine that makes speech."""

    def make(self, sentence: str) -> Sound:
        """The sentence as sound, the silence around it trimmed. Raises NoVoice."""
        ...


class Output(Protocol):
    """A speaker that was opened. Its methods raise NoSpeaker when it has gone away."""

    asked_for: str
    """The name that was asked for, even where another speaker was opened."""
    note: str
    """One sentence for the maker, when it isn't the speaker that was asked for."""
    rate: int
    """Samples a second that `write` takes."""
    held_ms: float
    """How much sound lies in the device after a write, milliseconds."""

    @property
    def ahead_s(self) -> float:
        """How much of what was written is still to be heard, seconds."""
        ...

    def write(self, pcm: bytes) -> None:
        """Hand samples over; comes back when they were taken."""
        ...

    def drop(self) -> None:
        """Forget what was handed over and not yet heard."""
        ...

    def close(self) -> None:
        """Let the device go."""
        ...


class Mouth(Protocol):
    """Says things. No method blocks, none raises on account of a device."""

    def say(
        self, text: str, *, before: Tone | None = None, urgent: bool = False, after: bool = False
    ) -> None:
        """Say the text now, cutting short what is being said and dropping what waits.

        `before`: a tone first. `urgent`: only an urgent text or hush() cuts it; others wait for its end.
        `after`: wait until all else is said.
        """
        ...

    def sound(self, tone: Tone, *, after: bool = False) -> None:
        """A tone with no words."""
        ...

    def hush(self) -> None:
        """Be silent at once, and forget what waits."""
        ...

    def prepare(self, texts: Iterable[str]) -> None:
        """Make these ahead, first things first; replaces the last such wish. What is made starts at once."""
        ...

    def adjust(self, manner: Manner) -> None:
        """Speak in another manner from the next sentence on."""
        ...

    @property
    def playing(self) -> Utterance | None:
        """What is being played at this moment."""
        ...

    @property
    def busy(self) -> bool:
        """Whether anything is being said or waits to be."""
        ...

    def close(self) -> None:
        """Be silent and let the speaker go; the mouth can't be used again."""
        ...
