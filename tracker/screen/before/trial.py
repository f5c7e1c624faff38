"""Mouth and ear with no piece around them, for what comes before one: is anything heard, and which is it to be?

Comes in: settings, a function that passes values on. Goes out: what was heard, and one sentence for a device
that is missing. Never raises on account of a device.
"""

import threading
from collections.abc import Callable

from tracker.ears.port import Awaiting, Ear, EarMissing
from tracker.hands_free.arrivals import Arrival, EarOpen, Told
from tracker.hands_free.ear import Listening, listen, made_ear
from tracker.hands_free.settings import Settings
from tracker.hands_free.speaking.mouth import made_mouth
from tracker.mouth.port import Mouth

_OPENING_S = 5.0
"""How long a device that is being opened is waited for at the end."""


class Trial:
    """The devices, on trial."""

    def __init__(self, settings: Settings, post: Callable[[Arrival], None], *, quiet: bool) -> None:
        self._settings, self._post, self._quiet = settings, post, quiet
        self._mouth: Mouth | None = None
        self._ear: Ear | None = None
        self._awaiting = Awaiting.COMMAND
        self._listening: Listening | None = None
        self._closed = False
        self._waker: threading.Thread | None = None

    def begin(self) -> None:
        """Start them; nothing is waited for."""
        if not self._quiet:
            self._mouth = made_mouth(
                self._settings, self._deafen, lambda sentence: self._post(Told("mouth", sentence))
            )
        if self._settings.ear != "off":
            self._waker = threading.Thread(target=self._wake, name="devices", daemon=True)
            self._waker.start()

    def say(self, text: str) -> None:
        """Say something aloud."""
        if self._mouth is not None:
            self._mouth.say(text)

    def silence(self) -> None:
        """Say nothing from now on."""
        mouth, self._mouth = self._mouth, None
        if mouth is not None:
            mouth.close()

    def await_(self, awaiting: Awaiting) -> None:
        """What the ear is to expect from now on."""
        self._awaiting = awaiting
        if self._ear is not None:
            self._ear.await_(awaiting)

    def close(self) -> None:
        """Let them go."""
        self._closed = True
        if self._waker is not None:
            self._waker.join(timeout=_OPENING_S)
        if self._listening is not None:
            self._listening.stop()
        self.silence()

    def _wake(self) -> None:
        """On a thread of its own: what the ear needs takes a while to load."""
        try:
            ear, _ = made_ear(self._settings.ear, self._settings)
            ear.await_(self._awaiting)
            self._ear = ear
            self._listening = listen(
                ear, self._post, lambda why: self._post(Told("ear", why)), self._settings.microphone
            )
            self._post(EarOpen())
        except EarMissing as missing:
            self._post(Told("ear", str(missing)))
        if self._closed and self._listening is not None:
            self._listening.stop()

    def _deafen(self, seconds: float) -> None:
        """Called on the mouth's thread."""
        if self._listening is not None:
            self._listening.deaf_for(seconds)
