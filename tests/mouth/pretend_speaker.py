"""A voice and a speaker that do exactly what a test lets them do, and a mouth between them.

Comes in: what the test says. Goes out: what was asked of the voice, what reached the speaker, what the
listeners were told.
"""

from __future__ import annotations

import threading
from collections.abc import Callable

from tracker.mouth.port import Listeners, Manner, NoSpeaker, Utterance
from tracker.mouth.sound import Sound
from tracker.mouth.speaker import Speaker

SOON_S = 10
"""How long a test waits for a thread before it calls it stuck; a run that works waits for next to nothing."""


class Deck:
    """A speaker that takes samples only while the test lets it."""

    def __init__(self, asked_for: str = "") -> None:
        self.asked_for = asked_for
        self.note = ""
        self.rate = 22_050
        self.held_ms = 1.0
        self.ahead_s = 0.0
        self.dropped = 0
        self.closed = False
        self.fails = False
        self.heard = bytearray()
        self.runs = threading.Event()
        self.runs.set()

    def write(self, pcm: bytes) -> None:
        assert self.runs.wait(SOON_S), "the deck was never let run"
        if self.fails:
            raise NoSpeaker("The speaker went away.")
        self.heard += pcm

    def drop(self) -> None:
        self.dropped += 1

    def close(self) -> None:
        self.closed = True


class Reader:
    """A voice that makes a tenth of a second for each sentence, and keeps the order in which it was asked."""

    def __init__(self, manner: Manner) -> None:
        self.manner = manner
        self.asked: list[str] = []
        self.may = threading.Event()
        self.may.set()

    def make(self, sentence: str) -> Sound:
        assert self.may.wait(SOON_S), "the voice was never let speak"
        self.asked.append(sentence)
        return Sound(b"\1\0" * 2_205, 22_050)


class Bench:
    """A mouth on a deck, with what its listeners heard."""

    def __init__(
        self,
        voice: Callable[[Manner], Reader] | None = None,
        device: Callable[[str], Deck] | None = None,
    ) -> None:
        self.deck = Deck()
        self.reader = Reader(Manner())
        self.told: list[str] = []
        self.events: list[tuple[str, str]] = []
        self._changed = threading.Condition()
        self.mouth = Speaker(
            Manner(),
            Listeners(self._note("start"), self._note("end"), self.told.append),
            make_voice=voice or (lambda manner: self.reader),
            open_device=device or (lambda name: self.deck),  # type: ignore[arg-type,return-value]
        )

    def _note(self, what: str) -> Callable[[Utterance], None]:
        def noted(utterance: Utterance) -> None:
            with self._changed:
                self.events.append((what, utterance.text))
                self._changed.notify_all()

        return noted

    def until(self, *event: str) -> None:
        """Wait until this has been heard."""
        with self._changed:
            assert self._changed.wait_for(lambda: event in self.events, SOON_S), (
                f"no {event} in {self.events}"
            )

    def until_quiet(self) -> None:
        for _ in range(SOON_S * 100):
            if not self.mouth.busy:
                return
            threading.Event().wait(0.01)
        raise AssertionError("the mouth never came to an end")

    def until_ready(self, text: str) -> None:
        for _ in range(SOON_S * 100):
            if self.mouth.made_ahead(text):
                return
            threading.Event().wait(0.01)
        raise AssertionError(f"{text} was never made")
