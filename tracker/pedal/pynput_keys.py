"""The keys of the whole desktop as a route, by pynput: a press is heard while another window has focus.

Comes in: every key of the desktop, which is how these systems do it. Goes out: strokes of the learned keys,
and nothing of any other: the callback compares a key with the learned ones and forgets it. Nothing is kept,
counted, shown or logged, and no key is ever withheld from the window it was meant for. Used only where the
maker asked for it.

What is missing or ends is one sentence in a PedalFault or to `on_trouble`.
"""

from __future__ import annotations

import contextlib
import logging
import sys
import threading
from collections.abc import Callable
from typing import Any

from tracker.pedal.board import Board, now_ms
from tracker.pedal.port import Edge, PedalFault, Route, Stroke

LIMIT = (
    "Pynput hears the pedal in every window of Windows, macOS (once allowed under Accessibility) and X11; "
    "on Wayland it hears little. It is shown every key typed and looks for the learned one only."
)
MISSING = (
    "The pedal is heard only while this window has focus: pynput isn't installed. "
    '`pip install "rowteller[pedal]"` brings it.'
)
NO_DISPLAY = "The pedal is heard only while this window has focus: there is no X11 display to hear it on."
NOT_ALLOWED = (
    "The pedal is heard only while this window has focus: macOS asks you to allow this terminal under "
    "System Settings, Privacy & Security, Accessibility."
)
ENDED = "The desktop's keys can't be heard any more; the pedal is heard only while this window has focus."

_READY_S, _LOOK_S = 3.0, 0.02  # how long the display has to answer, and how often that is looked at


class PynputKeys:
    """Learned keys, heard everywhere."""

    def __init__(self, board: Board, on_trouble: Callable[[str], None] = lambda _: None) -> None:
        self._board = board
        self._on_trouble = on_trouble
        self._listener: Any = None

    def start(self) -> None:
        """Begin to listen. Raises PedalFault."""
        keyboard = _keyboard()
        learned = [(_key(keyboard, key.pynput), key.switch) for key in self._board.keys if key.pynput]
        if not learned:
            return

        def heard(key: Any, edge: Edge) -> None:
            for pedal, switch in learned:
                if key == pedal:
                    self._board.take(Stroke(switch, edge, Route.PYNPUT, now_ms()))

        self._listener = _listener(
            keyboard, lambda key: heard(key, Edge.DOWN), lambda key: heard(key, Edge.UP), self._on_trouble
        )

    def stop(self) -> None:
        """End."""
        listener, self._listener = self._listener, None
        if listener is not None:
            listener.end()


def hear_one(
    on_key: Callable[[str], None], on_trouble: Callable[[str], None] = lambda _: None
) -> Callable[[], None]:
    """Name the next key that goes down, then listen no more; gives what ends it sooner. Raises PedalFault."""
    keyboard = _keyboard()
    named: list[str] = []

    def down(key: Any) -> bool:
        if not named:
            named.append(_name(keyboard, key))
            on_key(named[0])
        return False  # ends the listener

    return _listener(keyboard, down, lambda key: None, on_trouble, once=True).end  # type: ignore[no-any-return]


def _keyboard() -> Any:
    logging.getLogger("pynput").addHandler(logging.NullHandler())
    try:
        from pynput import keyboard
    except ModuleNotFoundError as error:
        raise PedalFault(MISSING) from error
    except Exception as error:  # ImportError without a display; Xlib's own when one refuses
        raise PedalFault(NO_DISPLAY) from error
    return keyboard


def _listener(
    keyboard: Any,
    down: Callable[[Any], object],
    up: Callable[[Any], object],
    on_trouble: Callable[[str], None],
    once: bool = False,
) -> Any:
    """A running listener that tells its own death as one sentence."""

    class Quiet(keyboard.Listener):  # type: ignore[misc]
        """Pynput's thread, without the traceback it writes when the display goes away."""

        began = False
        ended = False

        def run(self) -> None:
            try:
                super().run()
            except Exception:
                self.went_away()  # whatever the display's library raised: the display is no more
            else:
                if not once:
                    self.went_away()

        def end(self) -> None:
            self.ended = True
            # On a thread of its own, because it waits for a display that may just be going away.
            threading.Thread(target=self.end_now, name="pedal ends", daemon=True).start()

        def end_now(self) -> None:
            with contextlib.suppress(Exception):
                self.stop()

        def went_away(self) -> None:
            if self.began and not self.ended:
                self.ended = True
                on_trouble(ENDED)

    listener = Quiet(on_press=down, on_release=up, suppress=False)
    listener.start()
    ready = threading.Thread(target=listener.wait, name="pedal begins", daemon=True)
    ready.start()
    for _ in range(round(_READY_S / _LOOK_S)):
        ready.join(_LOOK_S)
        if not ready.is_alive() or not listener.is_alive():
            break
    if ready.is_alive():
        listener.end()
        raise PedalFault(NO_DISPLAY)
    if sys.platform == "darwin" and not getattr(listener, "IS_TRUSTED", True):
        listener.end()
        raise PedalFault(NOT_ALLOWED)
    listener.began = True
    return listener


def _name(keyboard: Any, key: Any) -> str:
    """The key by a name that can be kept in the settings."""
    if isinstance(key, keyboard.Key):
        return str(key.name)
    if key.char:
        return f"char:{key.char}"
    return f"vk:{key.vk}"


def _key(keyboard: Any, name: str) -> Any:
    """The key of such a name. Raises PedalFault for one this system doesn't have."""
    kind, _, what = name.partition(":")
    if kind == "char" and what:
        return keyboard.KeyCode.from_char(what)
    if kind == "vk" and what.isdecimal():
        return keyboard.KeyCode.from_vk(int(what))
    if name in keyboard.Key.__members__:
        return keyboard.Key[name]
    raise PedalFault(f"The pedal's key “{name}” isn't known here; learn it again.")
