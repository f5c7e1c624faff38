"""The board the switches are on: strokes of all routes in, presses out to one callback.

Comes in: strokes of learned keys, from any thread, and whether our window has focus. Goes out: each press
once, to `post`, in the order they happened. Promises to keep nothing but what telling a press from a fault
needs, and to hear only learned keys.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable

from tracker.pedal.gesture import Feel, Felt, Switch, due_ms, felt, lapsed
from tracker.pedal.port import Edge, LearnedKey, PedalPress, Route, Stroke


def now_ms() -> float:
    """The clock of all strokes."""
    return time.monotonic() * 1000


class Board:
    """One to three switches."""

    def __init__(
        self,
        post: Callable[[PedalPress], None],
        keys: tuple[LearnedKey, ...] = (),
        feel: Feel | None = None,
    ) -> None:
        """`post` is called on the thread of whichever route heard the press, and must only pass it on."""
        self._post = post
        self._keys = {key.switch: key for key in keys}
        self._feel = feel or Feel()
        self._change = threading.Condition()
        self._switches: dict[int, Switch] = {}
        self._focused: bool | None = None
        self._closing = False
        self._waits = False

    @property
    def keys(self) -> tuple[LearnedKey, ...]:
        """The learned keys."""
        return tuple(self._keys.values())

    def focus(self, focused: bool | None) -> None:
        """Whether our window has the keys now; None: it can't be known.

        While it has, a switch that the terminal sees is taken from the terminal alone: it would arrive by
        both routes.
        """
        with self._change:
            self._focused = focused

    def take(self, stroke: Stroke) -> None:
        """Hear a stroke."""
        key = self._keys.get(stroke.switch)
        if key is None:
            return
        with self._change:
            twice = stroke.route is not Route.TERMINAL and self._focused and key.terminal
            if twice and stroke.edge is Edge.DOWN:
                return
            self._feel_it(stroke.switch, felt(self._switch(stroke.switch), stroke, self._feel))

    def close(self) -> None:
        """End the clock; later strokes are not heard."""
        with self._change:
            self._closing = True
            self._keys = {}
            self._change.notify_all()

    def _switch(self, number: int) -> Switch:
        return self._switches.get(number, Switch())

    def _feel_it(self, number: int, felt_now: Felt) -> None:
        self._switches[number], presses = felt_now
        for press in presses:
            self._post(press)
        if self._due() is not None and not self._waits:
            self._waits = True
            threading.Thread(target=self._wait, name="pedal", daemon=True).start()
        self._change.notify_all()

    def _due(self) -> float | None:
        dues = (due_ms(switch, self._feel) for switch in self._switches.values())
        return min((due for due in dues if due is not None), default=None)

    def _wait(self) -> None:
        """A clock that runs only while a key is down: a hold is told although nothing more is heard."""
        with self._change:
            while not self._closing and (due := self._due()) is not None:
                left = due - now_ms()
                if left > 0:
                    self._change.wait(left / 1000)
                    continue
                for number, switch in list(self._switches.items()):
                    self._feel_it(number, lapsed(switch, number, now_ms(), self._feel))
            self._waits = False
