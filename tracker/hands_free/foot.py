"""The pedal at work: the board of its switches, the route that hears it in other windows, and what a press asks for.

Comes in: settings, a function that passes presses on. Goes out: presses, and the deed of each. What is missing is one
sentence. A double tap or a hold takes back what the taps it began with did.
"""

import os
import sys
from collections.abc import Callable

from tracker.hands_free.settings import Settings
from tracker.pedal.board import Board
from tracker.pedal.gesture import Feel
from tracker.pedal.port import Listening, PedalFault, PedalPress, Press, Route, background_route
from tracker.pedal.terminal import TerminalKeys
from tracker.session.commands import COMMANDS
from tracker.session.deeds import Deed

_OTHER_SWITCHES = {2: Press.DOUBLE_TAP, 3: Press.HOLD}
"""A second and a third switch do with a tap what the first does with a double tap and a hold."""


class Foot:
    """The switches of one sitting."""

    def __init__(
        self, settings: Settings, post: Callable[[PedalPress], None], tell: Callable[[str], None]
    ) -> None:
        self._tell = tell
        self.board = Board(post, settings.pedal, Feel())
        self.keys = TerminalKeys(self.board)
        self._everywhere = settings.pedal_everywhere
        self._route: Listening | None = None

    @property
    def state(self) -> str:
        """What the pedal says of itself; empty when none was learned."""
        if not self.board.keys:
            return ""
        return "pedal in every window" if self._route is not None else "pedal"

    def begin(self) -> None:
        """Listen while other windows have focus, where that was asked for."""
        if not self._everywhere or not self.board.keys:
            return
        try:
            self._route = listening(self.board, self._tell)
            if self._route is not None:
                self._route.start()
        except PedalFault as fault:
            self._route = None
            self._tell(str(fault))

    def close(self) -> None:
        """Let the pedal go."""
        if self._route is not None:
            self._route.stop()
        self.board.close()


def listening(board: Board, tell: Callable[[str], None]) -> Listening | None:
    """The route of this desktop, not begun yet; None where there is none."""
    route = background_route(sys.platform, os.environ)
    if route is Route.PYNPUT:
        from tracker.pedal.pynput_keys import PynputKeys

        return PynputKeys(board, tell)
    if route is Route.EVDEV:
        from tracker.pedal.evdev_keys import EvdevKeys

        return EvdevKeys(board, tell)
    return None


def asked_by(press: PedalPress) -> Deed | None:
    """The deed of a press, from the table; None when the table has none for it."""
    kind = press.press
    if press.switch in _OTHER_SWITCHES and kind is Press.TAP:
        kind = _OTHER_SWITCHES[press.switch]
    return next((command.make(0) for command in COMMANDS if command.pedal == kind.value), None)
