"""The pedal as the Linux kernel reads it: the kernel's own records, through a pipe in a device's place."""

from __future__ import annotations

import os
import queue
import struct
import subprocess
import sys
import time
from pathlib import Path

import pytest
from listening_foot import SOON_S, Foot

from tracker.pedal import evdev_keys
from tracker.pedal.port import LearnedKey, PedalFault, Press, Route

ROOT = Path(__file__).resolve().parents[2]

# What the kernel writes for a key is struct input_event of linux/input.h; KEY_PAGEDOWN is 109 and KEY_B 48 in
# linux/input-event-codes.h. This machine may have no input devices at all, so a pipe stands where a device would.
RECORD = struct.Struct("llHHi")
KEY_PAGEDOWN, KEY_B = 109, 48
DOWN, UP, REPEAT = 1, 0, 2
linux_only = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="evdev is Linux's own")


def record(code: int, value: int) -> bytes:
    """A key's record, between the two others that come with it (EV_MSC and EV_SYN)."""
    return RECORD.pack(1, 2, 4, 4, 0x7004E) + RECORD.pack(1, 2, 1, code, value) + RECORD.pack(1, 2, 0, 0, 0)


class Device:
    """A device that is written to by the test."""

    def __init__(self, folder: Path, name: str = "event3") -> None:
        self.path = folder / name
        os.mkfifo(self.path)
        self.fd = -1

    def plug_in(self) -> None:
        self.fd = os.open(self.path, os.O_RDWR | os.O_NONBLOCK)

    def key(self, code: int, *values: int) -> None:
        for value in values:
            os.write(self.fd, record(code, value))

    def unplug(self) -> None:
        os.close(self.fd)


@linux_only
def test_the_kernels_records_become_presses(tmp_path: Path) -> None:
    """Down, repeats, up: one tap; another key is nothing."""
    device = Device(tmp_path)
    device.plug_in()
    foot = Foot((LearnedKey(1, evdev="109"),))
    route = evdev_keys.EvdevKeys(foot.board, foot.troubles.put, tmp_path)
    route.start()
    device.key(KEY_B, DOWN, UP)
    device.key(KEY_PAGEDOWN, DOWN, REPEAT, REPEAT, UP)
    press = foot.next()
    assert (press.press, press.route) == (Press.TAP, Route.EVDEV)
    assert foot.nothing_more()
    route.stop()
    device.key(KEY_PAGEDOWN, DOWN, UP)
    assert foot.nothing_more()
    assert foot.troubles.empty()
    device.unplug()


@linux_only
def test_only_the_learned_device_is_opened(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The keyboard beside the pedal has the same key, and isn't even read."""
    pedal, keyboard = Device(tmp_path, "event3"), Device(tmp_path, "event4")
    names = {"event3": "Foot Switch", "event4": "Keyboard"}
    monkeypatch.setattr(
        evdev_keys, "_device_name", lambda fd: names[Path(os.readlink(f"/proc/self/fd/{fd}")).name]
    )
    for device in (pedal, keyboard):
        device.plug_in()
    foot = Foot((LearnedKey(1, evdev="109@Foot Switch"),))
    route = evdev_keys.EvdevKeys(foot.board, foot.troubles.put, tmp_path)
    route.start()
    opened = [os.readlink(f"/proc/self/fd/{fd}") for fd in os.listdir("/proc/self/fd") if fd.isdecimal()
              and os.path.islink(f"/proc/self/fd/{fd}")]  # fmt: skip
    assert opened.count(str(pedal.path)) == 2  # the test's end and ours
    assert opened.count(str(keyboard.path)) == 1  # the test's alone
    keyboard.key(KEY_PAGEDOWN, DOWN, UP)
    assert foot.nothing_more()
    pedal.key(KEY_PAGEDOWN, DOWN, UP)
    assert foot.next().press is Press.TAP
    route.stop()


@linux_only
def test_a_pedal_plugged_in_later_is_found(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Told that it isn't there, and heard when it is."""
    monkeypatch.setattr(evdev_keys, "_LOOK_AGAIN_S", 0.05)
    monkeypatch.setattr(evdev_keys, "_device_name", lambda fd: Path(os.readlink(f"/proc/self/fd/{fd}")).name)
    Device(tmp_path, "event0").plug_in()
    foot = Foot((LearnedKey(1, evdev="109@event7"),))
    route = evdev_keys.EvdevKeys(foot.board, foot.troubles.put, tmp_path)
    route.start()
    assert foot.troubles.get(timeout=SOON_S) == evdev_keys.ABSENT
    pedal = Device(tmp_path, "event7")
    pedal.plug_in()
    pedal.key(KEY_PAGEDOWN, DOWN, UP)
    assert foot.next().press is Press.TAP
    pedal.unplug()
    assert foot.troubles.get(timeout=SOON_S) == evdev_keys.ENDED
    route.stop()


@linux_only
def test_the_kernels_key_is_learned_by_pressing_it(tmp_path: Path) -> None:
    """The first key is named by its code, and nothing after it is read."""
    device = Device(tmp_path)
    device.plug_in()
    names: queue.Queue[str] = queue.Queue()
    evdev_keys.hear_one(names.put, folder=tmp_path)
    device.key(KEY_PAGEDOWN, UP, DOWN, UP)
    device.key(KEY_B, DOWN, UP)
    assert names.get(timeout=SOON_S) == "109"
    time.sleep(0.2)
    assert names.empty()
    device.unplug()


@linux_only
def test_no_device_at_all_is_one_sentence(tmp_path: Path) -> None:
    """A machine without any input device, as this one may be."""
    foot = Foot((LearnedKey(1, evdev="109"),))
    with pytest.raises(PedalFault, match="no keyboard or pedal under"):
        evdev_keys.EvdevKeys(foot.board, folder=tmp_path).start()


FORBIDDEN = """
import os, sys
from pathlib import Path
from tracker.pedal.board import Board
from tracker.pedal.port import LearnedKey, PedalFault
from tracker.pedal.evdev_keys import EvdevKeys
if os.geteuid() == 0:
    os.setuid(65534)
try:
    EvdevKeys(Board(print, (LearnedKey(1, evdev="109"),)), print, Path(sys.argv[1])).start()
except PedalFault as fault:
    print(fault)
"""


@linux_only
def test_a_device_that_may_not_be_read_is_one_sentence(tmp_path: Path) -> None:
    """The maker isn't in the group, and is told which."""
    os.mkfifo(tmp_path / "event3", 0o000)
    tmp_path.chmod(0o755)
    for above in tmp_path.parents:
        if above.name.startswith(("pytest-", "popen-")):
            above.chmod(0o755)
    run = subprocess.run(
        [sys.executable, "-c", FORBIDDEN, str(tmp_path)],
        env=os.environ | {"PYTHONPATH": str(ROOT)}, capture_output=True, text=True, timeout=60, check=True,
    )  # fmt: skip
    assert run.stdout.strip() == evdev_keys.NOT_ALLOWED
    assert "input" in run.stdout
