"""The pedal while another window has focus: real presses on an X server, records as the Linux kernel writes them."""

from __future__ import annotations

import gc
import logging
import os
import queue
import struct
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from virtual_display import Display, virtual_display

from tracker.pedal import evdev_keys, pynput_keys
from tracker.pedal.board import Board
from tracker.pedal.gesture import Feel
from tracker.pedal.port import LearnedKey, PedalFault, PedalPress, Press, Route
from tracker.pedal.terminal import TerminalKeys

ROOT = Path(__file__).resolve().parent.parent
SOON_S = 15
Start = Callable[..., "Foot"]
CALM = Feel(bounce_ms=3_000, same_press_ms=5_000, double_ms=0, hold_ms=60_000)
"""A foot with all the time in the world: what is tested here must not hang on how fast this machine is just now."""
WARMING = "F9"
PAGE_DOWN = LearnedKey(1, terminal="pagedown", pynput="page_down")


class Foot:
    """A board whose presses are waited for, and the route that hears it."""

    def __init__(self, keys: tuple[LearnedKey, ...], feel: Feel = CALM) -> None:
        self.presses: queue.Queue[PedalPress] = queue.Queue()
        self.troubles: queue.Queue[str] = queue.Queue()
        self.board = Board(self.presses.put, keys, feel)
        self.route = pynput_keys.PynputKeys(self.board, self.troubles.put)

    def next(self) -> PedalPress:
        return self.presses.get(timeout=SOON_S)

    def until_listening(self, desk: Display) -> None:
        """The server takes a moment to begin; a key of a ninth switch is pressed until it is heard."""
        for _ in range(SOON_S * 10):
            desk.tap(WARMING)
            time.sleep(0.1)
            if not self.presses.empty():
                break
        else:
            raise AssertionError("the desktop's keys were never heard")
        assert self.nothing_more_than(Press.TAP)

    def nothing_more_than(self, *presses: Press) -> bool:
        time.sleep(0.3)
        heard = []
        while not self.presses.empty():
            heard.append(self.presses.get().press)
        return heard == list(presses)

    def nothing_more(self) -> bool:
        time.sleep(0.3)
        return self.presses.empty()


@pytest.fixture(scope="module")
def desk() -> Iterator[Display]:
    with virtual_display() as desk:
        yield desk


@pytest.fixture
def started(desk: Display) -> Iterator[Start]:
    feet: list[Foot] = []

    def start(*keys: LearnedKey, feel: Feel = CALM) -> Foot:
        foot = Foot((*(keys or (PAGE_DOWN,)), LearnedKey(9, pynput="f9")), feel)
        feet.append(foot)
        foot.route.start()
        foot.until_listening(desk)
        return foot

    yield start
    for foot in feet:
        foot.route.stop()
        foot.board.close()


def test_a_press_is_heard_while_another_window_has_focus(desk: Display, started: Start) -> None:
    """And that window gets its key all the same: nothing is withheld from it."""
    foot = started()
    desk.arrived()
    assert desk.has_the_keys()
    desk.tap("Page_Down")
    press = foot.next()
    assert (press.press, press.switch, press.route) == (Press.TAP, 1, Route.PYNPUT)
    assert desk.arrived() == ["Page_Down"]
    assert desk.has_the_keys()


def test_a_bouncing_contact_is_one_press(desk: Display, started: Start) -> None:
    """Down, up, down, up, down, up: one tap."""
    foot = started()
    for _ in range(3):
        desk.tap("Page_Down")
    assert foot.next().press is Press.TAP
    assert foot.nothing_more()


def test_a_held_pedal_is_a_tap_and_then_a_hold_that_takes_it_back(desk: Display, started: Start) -> None:
    """The X server repeats the key meanwhile; not one step comes of it."""
    foot = started(feel=Feel(hold_ms=1_200))
    desk.down("Page_Down")
    assert foot.next().press is Press.TAP
    hold = foot.next()
    desk.up("Page_Down")
    assert (hold.press, hold.takes_back) == (Press.HOLD, (Press.TAP,))
    assert foot.nothing_more()


def test_one_press_by_two_routes_is_one(desk: Display, started: Start) -> None:
    """The terminal brings it as well, and says nothing of focus."""
    foot = started()
    terminal = TerminalKeys(foot.board)
    foot.board.focus(None)
    desk.tap("Page_Down")
    assert foot.next().route is Route.PYNPUT
    assert terminal.pressed("pagedown")
    assert foot.nothing_more()


def test_with_focus_the_terminals_press_counts_and_without_it_the_desktops(
    desk: Display, started: Start
) -> None:
    """Focus and blur: every press once, by the route that is meant to bring it."""
    foot = started(feel=Feel(double_ms=0, bounce_ms=0, same_press_ms=0, hold_ms=60_000))
    terminal = TerminalKeys(foot.board)
    for focused in (True, False, True, False):
        foot.board.focus(focused)
        desk.tap("Page_Down")
        if focused:
            assert foot.nothing_more()
            terminal.pressed("pagedown")
        assert foot.next().route is (Route.TERMINAL if focused else Route.PYNPUT)
    assert foot.nothing_more()


def test_three_switches_of_a_cheap_keypad(desk: Display, started: Start) -> None:
    """Any key will do, a letter too."""
    foot = started(
        LearnedKey(1, pynput="page_down"), LearnedKey(2, pynput="char:b"), LearnedKey(3, pynput="page_up")
    )
    for key in ("b", "w", "Page_Up", "Page_Down"):
        desk.tap(key)
    assert [foot.next().switch for _ in range(3)] == [2, 3, 1]
    assert foot.nothing_more()


def test_what_is_typed_elsewhere_is_never_seen_shown_or_kept(
    desk: Display, started: Start, caplog: pytest.LogCaptureFixture, capfd: pytest.CaptureFixture[str]
) -> None:
    """A letter is written in another window; it arrives there whole, and no trace of it is here."""
    from pynput.keyboard import KeyCode

    caplog.set_level(logging.DEBUG)
    foot = started()
    desk.arrived()
    for key in "wqzjk":
        desk.tap(key)
    desk.tap("Page_Down")
    assert foot.next().press is Press.TAP
    assert foot.nothing_more()
    assert foot.troubles.empty()
    assert desk.arrived()[:5] == list("wqzjk")
    gc.collect()
    kept = {each.char for each in gc.get_objects() if isinstance(each, KeyCode)} & set("wqzjk")
    assert kept == set()
    out, err = capfd.readouterr()
    for place in (caplog.text, out, err, repr(vars(foot.board)), repr(vars(foot.route))):
        assert not any(f"'{key}'" in place for key in "wqzjk")
    assert (out, err) == ("", "")


@pytest.mark.parametrize("key, name", [("Page_Down", "page_down"), ("b", "char:b"), ("KP_5", "vk:65437")])
def test_the_pedals_key_is_learned_by_pressing_it(desk: Display, key: str, name: str) -> None:
    """The first key is named, and no other is heard after it."""
    names: queue.Queue[str] = queue.Queue()
    pynput_keys.hear_one(names.put)
    for _ in range(SOON_S * 10):
        desk.tap(key)
        time.sleep(0.1)
        if not names.empty():
            break
    desk.tap("w")
    assert names.get(timeout=1) == name
    time.sleep(0.3)
    assert names.empty()


def test_listening_ends_when_it_is_told_to(desk: Display, started: Start) -> None:
    """Nothing is heard afterwards, and ending twice is no fault."""
    foot = started()
    desk.tap("Page_Down")
    assert foot.next().press is Press.TAP
    foot.route.stop()
    foot.route.stop()
    time.sleep(0.3)
    desk.tap("Page_Down")
    assert foot.nothing_more()
    assert foot.troubles.empty()


def test_a_dying_x_server_is_one_sentence(capfd: pytest.CaptureFixture[str]) -> None:
    """The screen is closed: the maker is told, once, and no traceback is written over anything."""
    with virtual_display() as desk:
        foot = Foot((PAGE_DOWN, LearnedKey(9, pynput="f9")))
        foot.route.start()
        foot.until_listening(desk)
        desk.tap("Page_Down")
        assert foot.next().press is Press.TAP
        desk.server.kill()
        desk.server.wait()
        assert foot.troubles.get(timeout=SOON_S) == pynput_keys.ENDED
        foot.route.stop()
        time.sleep(0.3)
        assert foot.troubles.empty()
        with pytest.raises(PedalFault, match="no X11 display"):
            Foot((PAGE_DOWN,)).route.start()
    assert capfd.readouterr() == ("", "")


STARTS = """
import sys
from tracker.pedal.board import Board
from tracker.pedal.port import LearnedKey, PedalFault
from tracker.pedal.pynput_keys import PynputKeys
try:
    PynputKeys(Board(print, (LearnedKey(1, pynput=sys.argv[1]),)), print).start()
except PedalFault as fault:
    print(fault)
"""


def elsewhere(*words: str, path: Path | None = None, **env: str) -> str:
    search = os.pathsep.join(str(each) for each in (path, ROOT) if each)
    clean = {name: value for name, value in os.environ.items() if name != "DISPLAY"}
    run = subprocess.run(
        [sys.executable, "-c", STARTS, *words],
        env=clean | {"PYTHONPATH": search} | env,
        cwd=ROOT, capture_output=True, text=True, timeout=60, check=True,
    )  # fmt: skip
    assert run.stderr == ""
    return run.stdout.strip()


def test_no_display_is_one_sentence() -> None:
    """Over ssh, say: pynput can't even be imported there."""
    assert elsewhere("page_down") == pynput_keys.NO_DISPLAY
    assert elsewhere("page_down", DISPLAY=":4242") == pynput_keys.NO_DISPLAY


def test_no_pynput_is_one_sentence(tmp_path: Path) -> None:
    """The extra isn't installed."""
    (tmp_path / "pynput.py").write_text("raise ModuleNotFoundError('No module named pynput')\n")
    assert elsewhere("page_down", path=tmp_path) == pynput_keys.MISSING


def test_a_key_this_system_does_not_have_is_one_sentence(desk: Display) -> None:
    """Settings brought from another machine."""
    assert "learn it again" in elsewhere("char:", DISPLAY=desk.name)
    assert "learn it again" in elsewhere("no_such_key", DISPLAY=desk.name)


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
    for folder in (tmp_path, *tmp_path.parents[:2]):
        folder.chmod(0o755)
    run = subprocess.run(
        [sys.executable, "-c", FORBIDDEN, str(tmp_path)],
        env=os.environ | {"PYTHONPATH": str(ROOT)}, capture_output=True, text=True, timeout=60, check=True,
    )  # fmt: skip
    assert run.stdout.strip() == evdev_keys.NOT_ALLOWED
    assert "input" in run.stdout
