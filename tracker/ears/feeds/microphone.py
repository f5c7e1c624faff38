"""The microphone: feeds an ear from a sound device, on a thread of its own.

In: an ear, and a function that takes its reports (called on the listening thread: it should only post them
on). Out: nothing is kept or sent anywhere. Raises EarMissing with one sentence when PortAudio, the device
or the permission is not there; a device that goes away while listening is reported once through `lost`.
"""

from __future__ import annotations

import queue
import threading
import time
from collections.abc import Callable
from typing import Any, Protocol

from tracker.ears.port import RATE, Ear, EarMissing, Heard, PassedOver, Report

BLOCK = 256
"""Samples a block: 16 ms."""
TAIL_S = 0.15
"""How long the room goes on sounding after the mouth has stopped."""


class OwnVoice(Protocol):
    """What knows the tool's own voice, and takes it out of what is heard. Called on the listening thread only."""

    def clean(self, block: bytes, came_s: float) -> bytes:
        """The block without it; `came_s` is when it arrived, in monotonic seconds."""
        ...

    @property
    def closed(self) -> bool:
        """True while nothing that begins now is to be heard."""
        ...

    def ours(self, start_ms: int, end_ms: int) -> bool:
        """True when a stretch of the stream was that voice and nobody else's."""
        ...


class Listener:
    """Start it once; `stop` closes the device. The mouth calls `deaf_for` from its own thread."""

    def __init__(
        self, ear: Ear, take: Callable[[Report], None], lost: Callable[[str], None] = lambda why: None,
        *, device: int | str | None = None, own_voice: OwnVoice | None = None,
    ) -> None:  # fmt: skip
        self._ear = ear
        self._take = take
        self._lost = lost
        self._device = device
        self._own_voice = own_voice
        self._blocks: queue.SimpleQueue[bytes | None] = queue.SimpleQueue()
        self._stream: Any = None
        self._thread: threading.Thread | None = None
        self._deaf_until = 0.0
        self.lost_blocks = 0
        """Blocks the device says it dropped."""
        self.fed_ms = 0

    def start(self) -> None:
        sounddevice = load_sounddevice()
        try:
            self._stream = sounddevice.RawInputStream(
                samplerate=RATE, channels=1, dtype="int16", blocksize=BLOCK, device=self._device,
                latency="low", callback=self._block, finished_callback=self._finished,
            )  # fmt: skip
            self._stream.start()
        except (sounddevice.PortAudioError, ValueError) as error:
            raise EarMissing(
                f"There is no microphone that can be listened to ({_short(error)}); keys and pedal work without one."
            ) from None
        self.begin()

    def begin(self) -> None:
        """Listen to whatever is `put`: what `start` does once the device is open."""
        self._ear.begin()
        self._thread = threading.Thread(target=self._listen, name="ear", daemon=True)
        self._thread.start()

    @property
    def waiting(self) -> int:
        """Blocks that were put and not yet listened to."""
        return self._blocks.qsize()

    def put(self, block: bytes) -> None:
        """The next samples, from any thread."""
        self._blocks.put(block)

    def stop(self) -> None:
        stream, self._stream = self._stream, None
        if stream is not None:
            stream.close()
        self._blocks.put(None)
        if self._thread and self._thread is not threading.current_thread():
            self._thread.join(timeout=2)

    def deaf_for(self, seconds: float) -> None:
        """Nothing that begins within this time is heard, nor within a short tail after it. 0 opens the ear
        after the tail."""
        self._deaf_until = time.monotonic() + seconds + TAIL_S

    def _block(self, data: Any, frames: int, _when: Any, status: Any) -> None:
        # the sound device's own thread: nothing but this, or blocks are lost
        if status:
            self.lost_blocks += 1
        self.put(bytes(data))

    def _finished(self) -> None:
        if self._stream is not None:
            self._blocks.put(None)

    def _listen(self) -> None:
        while (block := self._blocks.get()) is not None:
            for report in self.hear(block, time.monotonic()):
                self._take(report)
        if self._stream is not None:
            self._stream = None
            self._lost("The microphone has gone away; keys and pedal go on working.")

    def hear(self, block: bytes, came_s: float) -> list[Report]:
        """What the ear makes of the next block, which came at this monotonic time: no command in our own voice."""
        own = self._own_voice
        left = self._deaf_until - came_s
        if left > 0:
            # a little at a time, since the mouth may be cut short at any moment
            self._ear.deaf(self.fed_ms + min(50, int(left * 1000)))
        if own is not None:
            block = own.clean(block, came_s)
            if own.closed:
                self._ear.deaf(self.fed_ms + 50)
        self.fed_ms += len(block) * 500 // RATE
        return [
            PassedOver(report.start_ms, report.end_ms, "the tool was speaking")
            if own is not None and isinstance(report, Heard) and own.ours(report.start_ms, report.end_ms)
            else report
            for report in self._ear.feed(block)
        ]


def load_sounddevice() -> Any:
    """The module sounddevice, or one sentence."""
    try:
        import sounddevice
    except ImportError:
        raise EarMissing(
            "The microphone needs the package sounddevice, which is not installed: pip install sounddevice."
        ) from None
    except OSError:
        raise EarMissing(
            "The microphone needs the PortAudio library, which is not on this machine (on Debian: libportaudio2)."
        ) from None
    return sounddevice


def _short(error: Exception) -> str:
    return str(error).split("[")[0].strip().rstrip(".") or type(error).__name__
