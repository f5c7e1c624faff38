"""The terminal's own keys as a route: a name from the key stream becomes a stroke of a switch.

Comes in: the names a screen gives its keys, or the raw characters of a terminal for a program without a
screen. Goes out: strokes of learned keys to the board; names of keys while one is being learned. Names are
those the screen uses ("pagedown", "f13", "ctrl+b"), so that a key learned without a screen is known on it.

Limit: only while the window has focus, and F13 and its like never reach many terminals.
"""

from __future__ import annotations

import re
import sys
import time
import unicodedata
from types import TracebackType
from typing import Any

from tracker.pedal.board import Board, now_ms
from tracker.pedal.port import Edge, Route, Stroke

LIMIT = "The terminal hears the pedal only while its window has focus, and many never see F13 to F24."

_ESC = "\x1b"
_TILDE = {
    1: "home", 2: "insert", 3: "delete", 4: "end", 5: "pageup", 6: "pagedown", 7: "home", 8: "end",
    11: "f1", 12: "f2", 13: "f3", 14: "f4", 15: "f5", 17: "f6", 18: "f7", 19: "f8", 20: "f9", 21: "f10",
    23: "f11", 24: "f12", 25: "f13", 26: "f14", 28: "f15", 29: "f16", 31: "f17", 32: "f18",
    33: "f19", 34: "f20",
}  # fmt: skip
_LETTER = {
    "A": "up", "B": "down", "C": "right", "D": "left", "F": "end", "H": "home",
    "P": "f1", "Q": "f2", "R": "f3", "S": "f4",
}  # fmt: skip
_MODIFIERS = {2: "shift+", 3: "alt+", 5: "ctrl+", 6: "ctrl+shift+"}
_CONTROLS = {
    " ": "space", "\r": "enter", "\n": "ctrl+j", "\t": "tab", "\x7f": "backspace", "\x08": "backspace",
    _ESC: "escape", "\0": "ctrl+@", "\x1c": "ctrl+backslash", "\x1d": "ctrl+right_square_bracket",
    "\x1e": "ctrl+circumflex_accent", "\x1f": "ctrl+underscore",
}  # fmt: skip
_RENAMED = {
    "solidus": "slash", "reverse_solidus": "backslash", "commercial_at": "at", "hyphen_minus": "minus",
    "plus_sign": "plus", "low_line": "underscore",
}  # fmt: skip
_ONE_KEY = re.compile(
    r"\x1b\[(\d+)(?:;(\d))?~"  # ESC [ 6 ; 2 ~   Page Down, with Shift
    r"|\x1b\[1;(\d)([A-DFHP-S])"  # ESC [ 1 ; 5 A   Up, with Ctrl
    r"|\x1b[\[O]([A-DFHP-S])"  # ESC O P   F1
    r"|\x1b\[\[([A-E])"  # ESC [ [ A   F1 on the Linux console
    r"|\x1b[\[O][0-9;]*.?|\x1b[^\[O]"  # any other sequence is one key without a name
    r"|(?s:.)"
)


class TerminalKeys:
    """The learned keys, as the screen's key stream brings them."""

    def __init__(self, board: Board) -> None:
        self._board = board
        self._switches = {key.terminal: key.switch for key in board.keys if key.terminal}

    def pressed(self, name: str) -> bool:
        """Take a key of the stream; true when it was the pedal's, and so nothing else's."""
        switch = self._switches.get(name)
        if switch is None:
            return False
        self._board.take(Stroke(switch, Edge.STROKE, Route.TERMINAL, now_ms()))
        return True


def key_names(characters: str) -> tuple[str, ...]:
    """The names of the keys in what a terminal sent; sequences without a name are left out.

    >>> key_names("b\\x1b[6~\\x1b[15~")
    ('b', 'pagedown', 'f5')
    """
    return tuple(name for found in _ONE_KEY.finditer(characters) if (name := _name(found)))


def _name(found: re.Match[str]) -> str:
    number, number_with, with_, letter, plain, console = found.groups()
    if number:
        named = _TILDE.get(int(number), "")
        return named and _modified(named, number_with)
    if letter:
        return _modified(_LETTER[letter], with_)
    if plain:
        return _LETTER[plain]
    if console:
        return f"f{ord(console) - ord('A') + 1}"
    text = found.group()
    if text == f"{_ESC}[Z":
        return "shift+tab"
    return "" if len(text) > 1 else _character(text)


def _modified(name: str, with_: str | None) -> str:
    modifier = _MODIFIERS.get(int(with_)) if with_ else ""
    if modifier is None:
        return ""
    if modifier.endswith("shift+") and re.fullmatch(r"f[1-9]|f1[0-2]", name):
        # Terminals send Shift with F1 for F13; the screen takes it for that, too.
        return f"{modifier.removesuffix('shift+')}f{int(name[1:]) + 12}"
    return modifier + name


def _character(text: str) -> str:
    if text in _CONTROLS:
        return _CONTROLS[text]
    if text.isalnum():
        return text
    if text < " ":
        return f"ctrl+{chr(ord(text) + 96)}" if ord(text) <= 26 else ""
    name = unicodedata.name(text, "").lower().replace("-", "_").replace(" ", "_")
    return _RENAMED.get(name, name)


class RawKeys:
    """The keys of a terminal without a screen: within the block, what is typed is neither shown nor kept."""

    def __enter__(self) -> RawKeys:
        if sys.platform != "win32":
            import termios
            import tty

            self._fd = sys.stdin.fileno()
            self._before: list[Any] = termios.tcgetattr(self._fd)
            tty.setcbreak(self._fd)
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if sys.platform != "win32":
            import termios

            termios.tcsetattr(self._fd, termios.TCSADRAIN, self._before)

    def read(self, seconds: float) -> tuple[str, ...]:
        """The names of the keys that came within that time; none when nothing did."""
        if sys.platform == "win32":
            return _windows_keys(seconds)
        import os
        import select

        ready, _, _ = select.select([self._fd], [], [], seconds)
        if not ready:
            return ()
        return key_names(os.read(self._fd, 1024).decode("utf-8", "replace"))


_SCAN_CODES = {
    "G": "home", "H": "up", "I": "pageup", "K": "left", "M": "right", "O": "end", "P": "down",
    "Q": "pagedown", "R": "insert", "S": "delete", "\x85": "f11", "\x86": "f12",
} | {chr(58 + number): f"f{number}" for number in range(1, 11)}  # fmt: skip


def _windows_keys(seconds: float) -> tuple[str, ...]:
    import msvcrt

    console: Any = msvcrt
    until = time.monotonic() + seconds
    while not console.kbhit():
        if time.monotonic() >= until:
            return ()
        time.sleep(0.01)
    first = console.getwch()
    if first in "\0\xe0":
        named = _SCAN_CODES.get(console.getwch(), "")
        return (named,) if named else ()
    return key_names(first)
