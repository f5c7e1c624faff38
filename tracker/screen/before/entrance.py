"""What comes before the piece, in order: the guided start when it is due or asked for, then the shelf.

Comes in: keys and values that were posted. Goes out: pages, and how it ended. Settings that were changed on the way
are in `settings`.
"""

from collections.abc import Callable

from tracker.hands_free.settings import Settings
from tracker.screen.before.guide import CARE, Guide
from tracker.screen.before.outcome import Left, Looks, Outcome
from tracker.screen.before.picker import Picker
from tracker.screen.before.shelf import Offer, Places
from tracker.screen.drawing.words import Line

_LEAVE = ("ctrl+c", "ctrl+q")


class Entrance:
    """The way in."""

    def __init__(
        self, settings: Settings, offers: tuple[Offer, ...], post: Callable[[object], None], *,
        guided: bool, quiet: bool, notice: str = "", look: Callable[[], Places] | None = None,
    ) -> None:  # fmt: skip
        """`post` is called from other threads and must only pass the value on; `look` says where the pieces stand."""
        self.settings = settings
        self._offers, self._post, self._quiet = offers, post, quiet
        self._guide = Guide(settings, post, quiet=quiet) if guided else None
        self._look = look
        self._picker = Picker(offers, settings, post, notice, look)

    def page(self, width: int, height: int) -> tuple[Line, ...]:
        """The page as it is now."""
        return (self._guide or self._picker).page(width, height)

    def pressed(self, key: str) -> Outcome:
        """Do what a key asks for."""
        if key in _LEAVE:
            return Left()
        if self._guide is not None:
            self._guide.pressed(key)
            self._go_on()
            return None
        if key == "g":
            self._guide = Guide(self.settings, self._post, quiet=self._quiet)
            return None
        return Looks() if key == "t" else self._picker.pressed(key)

    def arrived(self, what: object) -> Outcome:
        """Take what was posted."""
        if self._guide is not None:
            self._guide.arrived(what)
            self._go_on()
        self._picker.arrived(what)
        return None

    def tick(self) -> bool:
        """Some time has gone by."""
        if self._guide is None:
            return self._picker.tick()
        changed = self._guide.tick()
        self._go_on()
        return changed

    def refused(self, sentence: str) -> None:
        """What was chosen cannot be opened."""
        self._picker.refused(sentence)

    def close(self) -> None:
        """Let the devices go."""
        if self._guide is not None:
            self._guide.close()

    def _go_on(self) -> None:
        """To the shelf, once all is asked."""
        if self._guide is not None and self._guide.over:
            self.settings = self._guide.settings
            self._guide = None
            self._picker = Picker(self._offers, self.settings, self._post, CARE, self._look)
