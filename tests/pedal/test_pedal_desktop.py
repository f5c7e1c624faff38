"""The pedal while another window has focus: real presses on a real X server."""

from __future__ import annotations

import gc
import logging
import os
import queue
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from listening_foot import CALM, SOON_S, Foot
from virtual_display import Display, virtual_display

from tracker.pedal import pynput_keys
from tracker.pedal.gesture import Feel
from tracker.pedal.port import LearnedKey, PedalFault, Press, Route
from tracker.pedal.terminal import TerminalKeys

ROOT = Path(__file__).resolve().parents[2]
Start = Callable[..., "Foot"]
PAGE_DOWN = LearnedKey(1, terminal="pagedown", pynput="page_down")


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
