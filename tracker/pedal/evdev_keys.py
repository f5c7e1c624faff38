"""The keys as the Linux kernel reads them, as a route: where pynput can't see, on Wayland above all.

Comes in: the events of the input devices under /dev/input. Goes out: strokes of the learned keys. A learned
key may name its device: then no other device is even opened. Of what is read, only learned key codes are
looked at, and nothing is kept, shown or logged; no key is withheld from the window it was meant for.

The kernel's own record is read with nothing but the standard library, so there is nothing to install. What
is missing is one sentence in a PedalFault or to `on_trouble`; a pedal plugged in later is found within a
few seconds.
"""

from __future__ import annotations

import os
import selectors
import struct
import sys
import threading
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from tracker.pedal.board import Board, now_ms
from tracker.pedal.port import Edge, PedalFault, Route, Stroke

LIMIT = (
    "Evdev hears the pedal in every window on Linux, Wayland too, once you may read input devices "
    "(the `input` group). It reads the pedal's own device where that was learned, and no other."
)
NOT_ALLOWED = (
    "The pedal is heard only while this window has focus: you may not read input devices. "
    "`sudo usermod -aG input $USER`, then log in again, allows it."
)
NO_DEVICE = (
    "The pedal is heard only while this window has focus: there is no keyboard or pedal under {folder}."
)
NOT_LINUX = "The pedal is heard only while this window has focus: evdev is for Linux."
ABSENT = "The pedal isn't plugged in; it is heard when it is."
ENDED = "The pedal was unplugged; it is heard again when it is back."

_DEVICES = Path("/dev/input")
_RECORD = struct.Struct("llHHi")  # struct input_event: seconds, microseconds, type, code, value
_KEY = 1  # EV_KEY
_EDGES = {1: Edge.DOWN, 0: Edge.UP}  # 2 is the keyboard's own repeat
_LOOK_AGAIN_S = 2.0


@dataclass(frozen=True, slots=True)
class _Learned:
    switch: int
    code: int
    device: str
    """Empty: any device."""


class EvdevKeys:
    """Learned keys, heard everywhere."""

    def __init__(
        self, board: Board, on_trouble: Callable[[str], None] = lambda _: None, folder: Path = _DEVICES
    ) -> None:
        self._board = board
        self._keys = tuple(_parsed(key.switch, key.evdev) for key in board.keys if key.evdev)
        self._reader = _Reader(folder, self._wants, self._heard, on_trouble)

    def start(self) -> None:
        """Begin to listen. Raises PedalFault."""
        if self._keys:
            self._reader.start()

    def stop(self) -> None:
        """End."""
        self._reader.stop()

    def _wants(self, device: str) -> bool:
        return any(key.device in ("", device) for key in self._keys)

    def _heard(self, device: str, code: int, edge: Edge) -> None:
        for key in self._keys:
            if key.code == code and key.device in ("", device):
                self._board.take(Stroke(key.switch, edge, Route.EVDEV, now_ms()))


def hear_one(
    on_key: Callable[[str], None], on_trouble: Callable[[str], None] = lambda _: None, folder: Path = _DEVICES
) -> Callable[[], None]:
    """Name the next key that goes down, then listen no more; gives what ends it sooner. Raises PedalFault."""

    def heard(device: str, code: int, edge: Edge) -> None:
        if edge is Edge.DOWN and not reader.stopping:
            reader.stop()
            on_key(f"{code}@{device}" if device else str(code))

    reader = _Reader(folder, lambda device: True, heard, on_trouble)
    reader.start()
    return reader.stop


class _Reader:
    """Reads input devices on a thread of its own."""

    def __init__(
        self,
        folder: Path,
        wants: Callable[[str], bool],
        heard: Callable[[str, int, Edge], None],
        on_trouble: Callable[[str], None],
    ) -> None:
        self._folder, self._wants, self._heard, self._on_trouble = folder, wants, heard, on_trouble
        self._open = selectors.DefaultSelector()
        self._paths: set[Path] = set()
        self._wake, self._woken = os.pipe()
        self.stopping = False
        self._begun = False
        self._ending = threading.Lock()
        """Held while the thread is woken, so that it cannot close the pipe in between."""

    def start(self) -> None:
        if not sys.platform.startswith("linux"):
            raise PedalFault(NOT_LINUX)
        refused = self._look()
        if refused and not self._paths:
            raise PedalFault(NOT_ALLOWED)
        if not any(self._folder.glob("event*")):
            raise PedalFault(NO_DEVICE.format(folder=self._folder))
        if not self._paths:
            self._on_trouble(ABSENT)
        self._open.register(self._wake, selectors.EVENT_READ, None)
        self._begun = True
        threading.Thread(target=self._run, name="pedal", daemon=True).start()

    def stop(self) -> None:
        if self.stopping:
            return
        with self._ending:
            self.stopping = True
            os.write(self._woken, b".")
        if not self._begun:
            self._close()

    def _run(self) -> None:
        while not self.stopping:
            for ready, _ in self._open.select(_LOOK_AGAIN_S):
                if ready.data is not None and not self.stopping:
                    self._read(ready.fd, *ready.data)
            if not self.stopping:
                self._look()
        self._close()

    def _close(self) -> None:
        with self._ending:
            self._close_all()

    def _close_all(self) -> None:
        for key in list((self._open.get_map() or {}).values()):
            if key.data is not None:
                os.close(key.fd)
        self._open.close()
        os.close(self._wake)
        os.close(self._woken)

    def _look(self) -> bool:
        """Open what is new; true when something may not be read."""
        refused = False
        for path in sorted(self._folder.glob("event*")):
            if path in self._paths:
                continue
            try:
                device = os.open(path, os.O_RDONLY | os.O_NONBLOCK | os.O_CLOEXEC)
            except PermissionError:
                refused = True
                continue
            except OSError:
                continue  # it went away between the listing and the opening
            name = _device_name(device)
            if not self._wants(name):
                os.close(device)
                continue
            self._paths.add(path)
            self._open.register(device, selectors.EVENT_READ, (path, name))
        return refused

    def _read(self, device: int, path: Path, name: str) -> None:
        try:
            records = os.read(device, _RECORD.size * 64)
        except BlockingIOError:
            return
        except OSError:
            records = b""
        if not records:
            self._open.unregister(device)
            os.close(device)
            self._paths.discard(path)
            self._on_trouble(ENDED)
            return
        for code, edge in _edges(records):
            self._heard(name, code, edge)


def _edges(records: bytes) -> Iterator[tuple[int, Edge]]:
    whole = len(records) - len(records) % _RECORD.size
    for _, _, kind, code, value in _RECORD.iter_unpack(records[:whole]):
        if kind == _KEY and value in _EDGES:
            yield code, _EDGES[value]


def _device_name(device: int) -> str:
    """The name the device gives itself; empty when it has none."""
    import fcntl

    room = 256
    # EVIOCGNAME(256): direction "read" in bits 30 and 31, the size from bit 16, "E", 0x06.
    request = (2 << 30) | (room << 16) | (ord("E") << 8) | 0x06
    try:
        given = fcntl.ioctl(device, request, bytes(room))
    except OSError:
        return ""
    return given.split(b"\0", 1)[0].decode("utf-8", "replace")


def _parsed(switch: int, name: str) -> _Learned:
    code, _, device = name.partition("@")
    if not code.isdecimal():
        raise PedalFault(f"The pedal's key “{name}” isn't known here; learn it again.")
    return _Learned(switch, int(code), device)
