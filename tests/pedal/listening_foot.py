"""A board for tests whose presses are waited for.

Comes in: learned keys. Goes out: presses and troubles, in queues; a wait ends with
an error after `SOON_S` and never hangs.
"""

from __future__ import annotations

import queue
import time

from virtual_display import Display

from tracker.pedal import pynput_keys
from tracker.pedal.board import Board
from tracker.pedal.gesture import Feel
from tracker.pedal.port import LearnedKey, PedalPress, Press

SOON_S = 15
CALM = Feel(bounce_ms=3_000, same_press_ms=5_000, double_ms=0, hold_ms=60_000)
"""A foot with all the time in the world: what is tested here must not hang on how fast this machine is just now."""
WARMING = "F9"


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
