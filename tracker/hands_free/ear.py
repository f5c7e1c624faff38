"""The ear at work: made with the phrases of the table of deeds, fed by the microphone or by a recording in its place.

Comes in: settings, a function that passes values on. Goes out: reports, each posted from the thread that
listens. Raises EarMissing, one sentence, when no ear is to be had.
"""

import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from tracker.ears.port import RATE, Awaiting, Cost, Ear, EarMissing, Report, Saying
from tracker.hands_free.hearing.kept import taught_folder
from tracker.hands_free.settings import Settings
from tracker.session.amiss.doing import phrases_now
from tracker.session.commands import COMMANDS, Command
from tracker.session.state import Session

if TYPE_CHECKING:
    from tracker.ears.feeds.microphone import OwnVoice

AUDIO = threading.Lock()
"""Held while a device is opened: PortAudio must not be asked by two threads at once."""
BLOCK_BYTES = 512
"""16 ms, as the microphone gives them."""
_QUIET_S = 1.2
"""Silence after a recording, so that its last word stands alone."""


class Listening(Protocol):
    """Something that feeds an ear."""

    def stop(self) -> None:
        """End."""
        ...

    def deaf_for(self, seconds: float) -> None:
        """Hear nothing that begins within this time; 0 opens the ear again."""
        ...


def sayings(settings: Settings | None = None) -> tuple[Saying, ...]:
    """The table of deeds as the ear takes it, with the maker's own words in the place of those they renamed.

    Also what the built-in ear was not trained on: it passes over that unless it is taught with recordings, and an ear
    with a vocabulary of its own knows it. Of those only phrases of several words, which are hard to say by mistake.
    """
    renamed = dict(settings.renamed) if settings is not None else {}
    return tuple(
        Saying(command.name, phrases, Cost(command.cost))
        for command in COMMANDS
        if (phrases := _phrases(command, renamed))
    )


def _phrases(command: Command, renamed: dict[str, str]) -> tuple[str, ...]:
    if command.name in renamed:
        return (renamed[command.name],)
    return command.phrases if command.spoken else tuple(p for p in command.phrases if " " in p)


def sayings_now(session: Session) -> tuple[Saying, ...]:
    """What can be said just now beside the table: a list made for the question that waits.

    Each is a deed of its own, named by its words.
    """
    return tuple(Saying(words, (words,), Cost.ANSWER) for words, _ in phrases_now(session))


def made_ear(engine: str, settings: Settings | None = None) -> tuple[Ear, str]:
    """An ear by the setting's word, and the name of the one it became: it knows the maker's words and their voice."""
    try:
        from tracker.ears.feeds.files import make_ear
    except ImportError as missing:
        raise EarMissing(
            f"The ear needs {missing.name}, which is not to be had here; keys and pedal do all it does."
        ) from None
    if engine == "auto":
        engine = "vosk" if _english_model() else "embedded"
    name = settings.ear_name or None if settings is not None else None
    taught = taught_folder() if settings is not None and settings.file is not None else None
    return make_ear(engine, sayings(settings), taught=taught, strict_name=name), engine


def _english_model() -> bool:
    import importlib.util

    if importlib.util.find_spec("vosk") is None:
        return False
    from tracker.ears.vosk import find_model

    try:
        return "-en" in find_model().name
    except EarMissing:
        return False


def listen(
    ear: Ear, take: Callable[[Report], None], lost: Callable[[str], None], microphone: str = "",
    own_voice: "OwnVoice | None" = None,
) -> Listening:  # fmt: skip
    """Open the microphone and listen; `own_voice` keeps what we say from being heard. Raises EarMissing."""
    from tracker.ears.feeds.microphone import Listener
    from tracker.mouth.device import speakers

    with AUDIO:
        speakers()  # looking at the devices keeps ALSA from writing to the terminal, also where nothing is said aloud
        listener = Listener(ear, take, lost, device=microphone or None, own_voice=own_voice)
        listener.start()
    return listener


class Recording:
    """A recording in the microphone's place:
    at the microphone's own pace, and nothing of it is lost to our own voice.
    """

    def __init__(
        self, ear: Ear, samples: bytes, take: Callable[[Report], None], ended: Callable[[], None]
    ) -> None:
        self._ear, self._samples, self._take, self._ended = ear, samples, take, ended
        self._stopping = threading.Event()
        ear.begin()
        threading.Thread(target=self._play, name="ear", daemon=True).start()

    def stop(self) -> None:
        """End before the recording does."""
        self._stopping.set()

    def deaf_for(self, seconds: float) -> None:
        """Our voice is not in the recording, so there is nothing to be deaf to."""

    def _play(self) -> None:
        began = time.monotonic()
        block_s = BLOCK_BYTES / 2 / RATE
        for number, block in enumerate(_blocks(self._samples)):
            if self._stopping.wait(max(0.0, began + number * block_s - time.monotonic())):
                return
            for report in self._ear.feed(block):
                self._take(report)
        for report in self._ear.finish():
            self._take(report)
        self._ended()


def heard_in(
    ear: Ear, samples: bytes, awaiting: Callable[[], Awaiting], also: Callable[[], tuple[Saying, ...]]
) -> Iterator[Report]:
    """What is heard in a recording, as fast as the machine goes; what is awaited is asked before each block."""
    ear.begin()
    for block in _blocks(samples):
        ear.await_(awaiting(), also())
        yield from ear.feed(block)
    ear.await_(awaiting(), also())
    yield from ear.finish()


def samples_of(wav: Path) -> bytes:
    """A recording's samples, 16 kHz mono 16-bit. Raises EarMissing with one sentence."""
    try:
        from tracker.ears.feeds.files import RecordingUnreadable, read_recording
    except ImportError as missing:
        raise EarMissing(
            f"The ear needs {missing.name}, which is not to be had here; keys and pedal do all it does."
        ) from None
    try:
        return read_recording(wav)
    except RecordingUnreadable as fault:
        raise EarMissing(str(fault)) from None


def _blocks(samples: bytes) -> Iterator[bytes]:
    samples += bytes(2 * int(RATE * _QUIET_S))
    for at in range(0, len(samples), BLOCK_BYTES):
        yield samples[at : at + BLOCK_BYTES]
