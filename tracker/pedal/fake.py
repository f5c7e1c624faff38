"""A foot for tests and the demo: it presses, and the real gestures are felt, on a clock of its own.

Comes in: what the foot does. Goes out: the same presses in the same order as a real pedal gives, at once.
"""

from __future__ import annotations

from collections.abc import Callable

from tracker.pedal.gesture import Feel, Felt, Switch, felt, lapsed
from tracker.pedal.port import Edge, PedalPress, Route, Stroke


class FakePedal:
    """A pedal whose foot is the test's."""

    def __init__(self, post: Callable[[PedalPress], None], feel: Feel | None = None) -> None:
        self._post = post
        self._feel = feel or Feel()
        self._switches: dict[int, Switch] = {}
        self._at_ms = 0.0

    def tap(self, switch: int = 1) -> None:
        """Down and up."""
        self._press(switch)
        self._let_go(switch)
        self.rest()

    def double_tap(self, switch: int = 1) -> None:
        """Twice in quick succession."""
        self._press(switch)
        self._let_go(switch)
        self._at_ms += self._feel.double_ms / 2
        self._press(switch)
        self._let_go(switch)
        self.rest()

    def hold(self, switch: int = 1) -> None:
        """Down for a while."""
        self._press(switch)
        self._at_ms += self._feel.hold_ms
        self._tell(switch, lapsed(self._switch(switch), switch, self._at_ms, self._feel))
        self._let_go(switch)
        self.rest()

    def rest(self, ms: float = 2_000) -> None:
        """Let time pass."""
        self._at_ms += ms

    def _press(self, switch: int) -> None:
        self._stroke(switch, Edge.DOWN)

    def _let_go(self, switch: int) -> None:
        self._at_ms += self._feel.bounce_ms * 2
        self._stroke(switch, Edge.UP)

    def _stroke(self, switch: int, edge: Edge) -> None:
        stroke = Stroke(switch, edge, Route.PYNPUT, self._at_ms)
        self._tell(switch, felt(self._switch(switch), stroke, self._feel))

    def _switch(self, switch: int) -> Switch:
        return self._switches.get(switch, Switch())

    def _tell(self, switch: int, felt_now: Felt) -> None:
        self._switches[switch], presses = felt_now
        for press in presses:
            self._post(press)
