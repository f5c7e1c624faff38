"""The speaker itself: samples in, sound out, through PortAudio (sounddevice).

Comes in: 16 bit samples, one channel, at `rate`. Goes out: sound; a write comes back when the device has
room. What is missing or goes away is one sentence in a NoSpeaker. PortAudio is loaded with the first device
and not before.
"""

from __future__ import annotations

import ctypes
import sys
from typing import Any

from tracker.mouth.port import NoSpeaker
from tracker.mouth.sound import Sound, doubled, resampled

RATE = 22_050
"""Samples a second the voices make and the device is first asked for."""
_LATENCY_S = 0.04
"""What the device may hold: with less, a busy interpreter breaks the speech."""

NO_PORTAUDIO = (
    "No sound: the PortAudio library is missing (Debian and Ubuntu: `apt install libportaudio2`). "
    "I go on silently."
)
NO_DEVICE = "No speaker was found. I go on silently."
LOST = "The speaker went away. I go on silently, and try it again now and then."


class Device:
    """One open output stream."""

    def __init__(self, asked_for: str = "") -> None:
        self.asked_for = asked_for
        """The name that was asked for, even where another speaker was opened."""
        self.note = ""
        """One sentence for the maker, when it isn't the speaker that was asked for."""
        self._library = _sounddevice()
        self._doubles = False
        self._device_rate = RATE
        self._room = 0
        self._stream = self._opened(self._named(asked_for))
        self.rate = RATE
        """Samples a second that `write` takes."""
        self.held_ms = 1000 * max(_LATENCY_S, min(0.3, float(self._stream.latency)))
        """How much sound lies in the device after a write, milliseconds."""

    @property
    def ahead_s(self) -> float:
        """How much of what was written is still to be heard, seconds."""
        free = int(self._stream.write_available)
        self._room = max(self._room, free)
        return (self._room - free) / self._device_rate

    def write(self, pcm: bytes) -> None:
        """Hand samples to the device; comes back when it has taken them. Raises NoSpeaker."""
        if self._device_rate != RATE:
            pcm = resampled(Sound(pcm, RATE), self._device_rate).pcm
        try:
            self._stream.write(doubled(pcm) if self._doubles else pcm)
        except self._library.PortAudioError as error:
            raise NoSpeaker(LOST) from error

    def drop(self) -> None:
        """Forget what was handed over and not yet heard."""
        try:
            self._stream.abort()
            self._stream.start()
        except self._library.PortAudioError as error:
            raise NoSpeaker(LOST) from error

    def close(self) -> None:
        """Let the device go."""
        self._stream.close(ignore_errors=True)

    def _named(self, asked_for: str) -> int | None:
        if not asked_for:
            return None
        for at, name in _outputs(self._library):
            if asked_for.casefold() in name.casefold():
                return at
        self.note = f"No speaker is called “{asked_for}”; the system's own choice speaks instead."
        return None

    def _opened(self, device: int | None) -> Any:
        """A running stream: at the voices' rate if the device takes it, else at its own, then in stereo."""
        try:
            usual = round(self._library.query_devices(device, "output")["default_samplerate"])
        except (self._library.PortAudioError, ValueError) as error:
            raise NoSpeaker(NO_DEVICE) from error
        for rate, channels in ((RATE, 1), (usual, 1), (usual, 2)):
            try:
                stream = self._library.RawOutputStream(
                    samplerate=rate, channels=channels, dtype="int16", device=device, latency=_LATENCY_S
                )
                stream.start()
            except (self._library.PortAudioError, ValueError):
                continue
            self._device_rate, self._doubles = rate, channels == 2
            return stream
        raise NoSpeaker(NO_DEVICE)


def speakers() -> tuple[str, ...]:
    """The names of the speakers PortAudio sees; none when there is none."""
    try:
        return tuple(name for _, name in _outputs(_sounddevice()))
    except NoSpeaker:
        return ()


def _outputs(library: Any) -> list[tuple[int, str]]:
    return [
        (at, each["name"])
        for at, each in enumerate(library.query_devices())
        if each["max_output_channels"] > 0
    ]


def _sounddevice() -> Any:
    try:
        import sounddevice
    except (ImportError, OSError) as error:  # OSError is what it raises without PortAudio
        raise NoSpeaker(NO_PORTAUDIO) from error
    except Exception as error:
        # PortAudio is there and can't start; the error's class can't be named, as the import didn't happen.
        raise NoSpeaker(NO_DEVICE) from error
    _hush_alsa()
    return sounddevice


_AlsaSays = ctypes.CFUNCTYPE(
    None, ctypes.c_char_p, ctypes.c_int, ctypes.c_char_p, ctypes.c_int, ctypes.c_char_p
)
_say_nothing = _AlsaSays(lambda *_: None)
_hushed = False


def _hush_alsa() -> None:
    """Keep ALSA from writing to the terminal: the silence between sentences is an underrun to it."""
    global _hushed
    if _hushed or sys.platform != "linux":
        return
    _hushed = True
    try:
        ctypes.CDLL("libasound.so.2").snd_lib_error_set_handler(_say_nothing)
    except (OSError, AttributeError):
        return
