"""A piece in hand, or a pattern's size, chosen in plain lines: by number, name, voice or pedal, before a piece is open.

Comes in: what each is called, an inbox of lines. Goes out: the index of the one that was taken, None when none was. The
devices are let go again, so that the sitting has them. What a device has to say of itself goes to standard error.
"""

import sys
import threading
from collections.abc import Callable
from pathlib import Path

from tracker.ears.port import Awaiting, EarMissing, Heard
from tracker.hands_free.arrivals import Told
from tracker.hands_free.ear import Listening, heard_in, listen, made_ear, samples_of
from tracker.hands_free.foot import Foot, asked_by
from tracker.hands_free.lines.inbox import Inbox
from tracker.hands_free.settings import Settings
from tracker.hands_free.speaking.mouth import made_mouth
from tracker.hands_free.speaking.readback import deed_of
from tracker.mouth.port import Mouth
from tracker.pedal.port import PedalPress
from tracker.session.deeds import Again, Back, Deed, Yes
from tracker.session.record.choice import Choice, Chose, chose, named, offered
from tracker.session.understand import understand


def choose(
    choice: Choice, settings: Settings, inbox: Inbox, say: Callable[[str], object], *, quiet: bool
) -> int | None:
    """Offer the pieces one by one until one is taken."""
    devices = _Devices(settings, inbox, quiet=quiet)
    inbox.read()
    for number, offer in enumerate(choice.offers, 1):
        say(f"{number}. {offer}")
    question = offered(choice)
    say(question)
    if inbox.is_terminal:
        devices.begin(question)
    offering = _Offering(choice, say, devices.say)
    try:
        while True:
            arrival = inbox.get(None)
            if arrival is None:
                return None
            if isinstance(arrival, Told):
                sys.stderr.write(f"{arrival.sentence}\n")
                inbox.told.add(arrival.sentence)
                continue
            outcome = offering.take(arrival)
            if outcome is not None:
                return _taken(outcome, inbox, arrival)
    finally:
        devices.close()


def choose_heard(
    choice: Choice, settings: Settings, recording: Path, say: Callable[[str], object]
) -> tuple[int | None, bytes]:
    """The same from a recording in the microphone's place; what is left of it goes out with the choice.

    Raises EarMissing with one sentence.
    """
    samples = samples_of(recording)
    ear, _ = made_ear("embedded" if settings.ear == "off" else settings.ear, settings)
    for number, offer in enumerate(choice.offers, 1):
        say(f"{number}. {offer}")
    say(offered(choice))
    offering = _Offering(choice, say, lambda words: None)
    for report in heard_in(ear, samples, lambda: Awaiting.NUMBER, lambda: ()):
        outcome = offering.take(report) if isinstance(report, Heard) else None
        if outcome is not None and isinstance(report, Heard):
            # what is none of a list's words is heard once more, in the piece that was taken
            heard_ms = max(0, report.start_ms - BEFORE_MS) if outcome.undone else report.decided_ms
            return outcome.taken, samples[heard_ms * BYTES_A_MS :]
    return None, b""


BYTES_A_MS = 32
"""16 kHz, 16 bit, mono."""
BEFORE_MS = 600
"""Quiet that the ear wants before a word."""


class _Offering:
    """The list as it is stepped through."""

    def __init__(self, choice: Choice, say: Callable[[str], object], speak: Callable[[str], object]) -> None:
        self._choice, self._say, self._speak = choice, say, speak

    def take(self, arrival: object) -> Chose | None:
        """What came of an arrival that ends the choice; None while it goes on."""
        taken = named(self._choice, arrival) if isinstance(arrival, str) else None
        if taken is not None:
            return Chose(self._choice, taken=taken)
        deed = _asked(arrival)
        if deed is None:
            if isinstance(arrival, str):
                self._say(f"I don't know {arrival.strip()[:60]!r}. Say yes, next, or a number.")
            return None
        if isinstance(arrival, Heard):
            self._say(f"heard: {arrival.words}")
        for _ in arrival.takes_back if isinstance(arrival, PedalPress) else ():
            self._choice = chose(self._choice, Back()).choice
        outcome = chose(self._choice, deed)
        self._choice = outcome.choice
        if outcome.said:
            self._say(outcome.said)
            self._speak(outcome.said)
        return outcome if outcome.left or outcome.taken is not None else None


def _taken(outcome: Chose, inbox: Inbox, arrival: object) -> int | None:
    if outcome.undone and isinstance(arrival, str | Heard | PedalPress):
        inbox.put_back(arrival)
    return outcome.taken


def _asked(arrival: object) -> Deed | None:
    if isinstance(arrival, str):
        return understand(arrival, awaiting_number=True)
    if isinstance(arrival, Heard):
        return deed_of(arrival)
    if isinstance(arrival, PedalPress):
        deed = asked_by(arrival)
        return Yes() if isinstance(deed, Again) else deed  # a foot has no word for yes: held, it takes
    return None


class _Devices:
    """Ear, mouth and foot for as long as a choice takes."""

    def __init__(self, settings: Settings, inbox: Inbox, *, quiet: bool) -> None:
        self._settings, self._inbox, self._quiet = settings, inbox, quiet or not settings.mouth
        self._foot = Foot(settings, inbox.post, lambda why: inbox.post(Told("pedal", why)))
        self._mouth: Mouth | None = None
        self._listening: Listening | None = None
        self._waker: threading.Thread | None = None
        self._closed = False

    def begin(self, question: str) -> None:
        if not self._quiet:
            self._mouth = made_mouth(
                self._settings, self._deafen, lambda why: self._inbox.post(Told("mouth", why))
            )
        self.say(question)
        self._waker = threading.Thread(target=self._wake, name="devices", daemon=True)
        self._waker.start()

    def say(self, words: str) -> None:
        if self._mouth is not None:
            self._mouth.say(words)

    def close(self) -> None:
        self._closed = True
        if self._waker is not None:
            self._waker.join(timeout=5)
        self._foot.close()
        if self._listening is not None:
            self._listening.stop()
        if self._mouth is not None:
            self._mouth.close()

    def _wake(self) -> None:
        if self._settings.ear != "off":
            try:
                ear, _ = made_ear(self._settings.ear, self._settings)
                ear.await_(Awaiting.NUMBER)
                self._listening = listen(
                    ear, self._inbox.post, lambda why: self._inbox.post(Told("ear", why)),
                    self._settings.microphone,
                )  # fmt: skip
            except EarMissing as missing:
                self._inbox.post(Told("ear", str(missing)))
        if self._closed and self._listening is not None:
            self._listening.stop()
        self._foot.begin()

    def _deafen(self, seconds: float) -> None:
        """Called on the mouth's thread."""
        if self._listening is not None:
            self._listening.deaf_for(seconds)
