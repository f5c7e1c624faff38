"""Learning the pedal's key, and the terminal's own keys."""

from __future__ import annotations

import os
import sys

import pytest
from textual._ansi_sequences import ANSI_SEQUENCES_KEYS
from textual.keys import _character_to_key

from tracker.pedal.board import Board
from tracker.pedal.learn import NOTHING, Lesson, NotLearned, hear, outcome, told, with_key
from tracker.pedal.port import LearnedKey, PedalPress, Press, Route, background_route
from tracker.pedal.terminal import TerminalKeys, key_names

REFUSED = {"ctrl+c": "ends the program", "escape": "closes what is open"}


def lesson(*heard: tuple[Route, str, float], others: tuple[LearnedKey, ...] = ()) -> Lesson:
    now = Lesson(1, 0, REFUSED, others)
    for route, name, at in heard:
        now = hear(now, route, name, at)
    return now


@pytest.mark.parametrize(
    "heard, key",
    [
        ([(Route.TERMINAL, "pagedown", 3000)], LearnedKey(1, terminal="pagedown")),
        (
            [(Route.PYNPUT, "page_down", 3000), (Route.TERMINAL, "pagedown", 3030)],
            LearnedKey(1, terminal="pagedown", pynput="page_down"),
        ),
        ([(Route.PYNPUT, "f13", 3000)], LearnedKey(1, pynput="f13")),
        ([(Route.EVDEV, "109@Foot Switch", 3000)], LearnedKey(1, evdev="109@Foot Switch")),
        # A key held, or one that comes again while the lesson is still open.
        ([(Route.TERMINAL, "b", 3000), (Route.TERMINAL, "b", 3500)], LearnedKey(1, terminal="b")),
        # What comes long after the press isn't heard at all.
        ([(Route.TERMINAL, "b", 3000), (Route.TERMINAL, "c", 4000)], LearnedKey(1, terminal="b")),
    ],
)
def test_the_key_pressed_is_the_pedals(heard: list[tuple[Route, str, float]], key: LearnedKey) -> None:
    """One press, on every route that hears it."""
    assert outcome(lesson(*heard), 9_999) == key


def test_the_lesson_waits_for_the_last_of_the_routes() -> None:
    """The desktop's route may be quicker than the terminal's."""
    begun = lesson((Route.PYNPUT, "page_down", 3000))
    assert outcome(lesson(), 3000) is None
    assert outcome(begun, 3100) is None
    assert outcome(begun, 3800) == LearnedKey(1, pynput="page_down")


@pytest.mark.parametrize(
    "heard, others, words",
    [
        ([], (), NOTHING),
        ([(Route.TERMINAL, "ctrl+c", 100)], (), "“ctrl+c” ends the program"),
        ([(Route.TERMINAL, "a", 100), (Route.TERMINAL, "b", 120)], (), "more than one key (a, b)"),
        ([(Route.TERMINAL, "f5", 100)], (LearnedKey(2, terminal="f5"),), "“f5” is already switch 2"),
    ],
)
def test_what_cannot_be_learned_is_one_sentence(
    heard: list[tuple[Route, str, float]], others: tuple[LearnedKey, ...], words: str
) -> None:
    """Each says what is so and what to do."""
    result = outcome(lesson(*heard, others=others), 10_000)
    assert isinstance(result, NotLearned)
    assert words in result.sentence


def test_a_switch_may_be_learned_again() -> None:
    """The same key for the same switch is no clash, and replaces what was."""
    old = LearnedKey(1, terminal="f5")
    key = outcome(lesson((Route.TERMINAL, "f5", 100), others=(old, LearnedKey(2, terminal="f6"))), 5_000)
    assert isinstance(key, LearnedKey)
    assert with_key((LearnedKey(2, terminal="f6"), old), key) == (key, LearnedKey(2, terminal="f6"))


def test_the_maker_is_told_where_the_pedal_works() -> None:
    """Here only, everywhere, or everywhere though the terminal is blind to it."""
    assert "while this window has focus" in told(LearnedKey(1, terminal="pagedown"))
    assert "in every window" in told(LearnedKey(1, terminal="pagedown", pynput="page_down"))
    assert "the terminal itself doesn't see it" in told(LearnedKey(2, evdev="183@Foot Switch"))


def test_every_key_named_here_is_named_alike_by_the_screen() -> None:
    """Checked against Textual's own table of terminal sequences: each is named as it is there, or not at all."""
    named = 0
    for sequence, keys in ANSI_SEQUENCES_KEYS.items():
        if isinstance(keys, tuple) and len(keys) == 1:
            here = key_names(sequence)
            assert here in ((), (keys[0].value,)), repr(sequence)
            named += bool(here)
    assert named > 130
    for sequence, name in (
        ("\x1b[6~", "pagedown"),
        ("\x1b[5~", "pageup"),
        ("\x1bOP", "f1"),
        ("\x1b[25~", "f13"),
    ):
        assert key_names(sequence) == (name,)


def test_characters_are_named_alike_by_the_screen() -> None:
    """Every printable character of the first two blocks and more, by Textual's own function."""
    for character in map(chr, range(0x20, 0x250)):
        if character.isprintable():
            assert key_names(character) == (_character_to_key(character),)


def test_several_keys_in_one_breath_are_told_apart() -> None:
    """A terminal may send them together; half a sequence or an unknown one is nobody's key."""
    assert key_names("b\x1b[6~\x1b[6~ \x1b[A") == ("b", "pagedown", "pagedown", "space", "up")
    assert key_names("\x1b[999z") == ()
    assert key_names("\x1b") == ("escape",)
    assert key_names("") == ()


def test_the_terminals_key_is_the_pedals_and_others_are_not() -> None:
    """The screen keeps every other key for itself."""
    presses: list[PedalPress] = []
    keys = TerminalKeys(Board(presses.append, (LearnedKey(2, terminal="pagedown", pynput="page_down"),)))
    assert not keys.pressed("b")
    assert not keys.pressed("page_down")
    assert keys.pressed("pagedown")
    assert [(press.press, press.switch) for press in presses] == [(Press.TAP, 2)]


@pytest.mark.parametrize(
    "platform, environ, route",
    [
        ("linux", {"DISPLAY": ":0"}, Route.PYNPUT),
        ("linux", {"DISPLAY": ":0", "XDG_SESSION_TYPE": "wayland"}, Route.EVDEV),
        ("linux", {"DISPLAY": ":0", "WAYLAND_DISPLAY": "wayland-0"}, Route.EVDEV),
        ("linux", {}, Route.EVDEV),
        ("win32", {}, Route.PYNPUT),
        ("darwin", {}, Route.PYNPUT),
        ("freebsd14", {"DISPLAY": ":0"}, None),
    ],
)
def test_each_system_has_its_route_for_other_windows(
    platform: str, environ: dict[str, str], route: Route | None
) -> None:
    """On Wayland the kernel's own, as pynput sees little there."""
    assert background_route(platform, environ) is route


@pytest.mark.skipif(sys.platform == "win32", reason="a Windows console has no pty")
def test_a_key_is_read_from_a_real_terminal_and_not_shown() -> None:
    """A pty: the press is named, nothing is echoed, and the terminal is left as it was."""
    import pexpect

    program = (
        "from tracker.pedal.terminal import RawKeys\n"
        "with RawKeys() as keys:\n"
        "    print('press', flush=True)\n"
        "    print('got', keys.read(20), flush=True)\n"
        "    print('then', keys.read(0.05), flush=True)\n"
        "import termios\n"
        "print('echo', bool(termios.tcgetattr(0)[3] & termios.ECHO))\n"
    )
    child = pexpect.spawn(sys.executable, ["-c", program], timeout=30, encoding="utf-8", env=dict(os.environ))
    child.expect("press")
    child.send("\x1b[6~")
    child.expect(r"\(.*\)")
    assert child.before.strip() == "got"
    assert child.after == "('pagedown',)"
    child.expect("then \\(\\)")
    child.expect("echo True")
    child.close()
