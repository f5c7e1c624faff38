"""What comes before the piece, in order: the guided start when it is due or asked for, the shelf, and the size.

Comes in: keys and values that were posted. Goes out: pages, and how it ended. Settings that were changed on the way
are in `settings`.
"""

from collections.abc import Callable

from tracker.ears.port import Awaiting, Heard
from tracker.hands_free.arrivals import Told
from tracker.hands_free.foot import Foot, asked_by
from tracker.hands_free.settings import Settings
from tracker.hands_free.speaking.readback import deed_of
from tracker.pedal.port import PedalPress
from tracker.screen.before.guide import CARE, Guide
from tracker.screen.before.outcome import Chosen, Left, Looks, Outcome
from tracker.screen.before.picker import Picker
from tracker.screen.before.shelf import Offer, Places, offered_sizes
from tracker.screen.before.trial import Trial
from tracker.screen.drawing.words import Line
from tracker.session.deeds import Again, Back, Yes


def _unsaid(text: str) -> None:
    """Nothing aloud, while something else is asked."""


_LEAVE = ("ctrl+c", "ctrl+q")


class Entrance:
    """The way in."""

    def __init__(
        self, settings: Settings, offers: tuple[Offer, ...], post: Callable[[object], None], *,
        guided: bool, quiet: bool, notice: str = "", look: Callable[[], Places] | None = None,
        sizes: Callable[[str], tuple[str, ...]] = lambda source: (),
    ) -> None:  # fmt: skip
        """`post` is called from other threads and must only pass the value on; `look` says where the pieces stand.

        `sizes`: of a pattern's file, those that are to be asked for before it is begun.
        """
        self.settings = settings
        self._offers, self._post, self._quiet = offers, post, quiet
        self._look = look
        self._sizes = sizes
        self._shelf: Picker | None = None
        """The shelf, while the size of what was picked there is asked."""
        self._closed = False
        self._trial = Trial(settings, post, quiet=quiet or not settings.mouth)
        self._trial.begin()
        self._foot = Foot(settings, post, lambda why: post(Told("pedal", why)))
        self._guide: Guide | None = None
        self._picker = Picker(
            offers, settings, post, notice, look, self._trial.say if not guided else _unsaid
        )
        if guided:
            self._guide = Guide(settings, self._trial, quiet=quiet)
        else:
            self._trial.await_(Awaiting.NUMBER)

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
            self._trial.await_(Awaiting.COMMAND)
            self._guide = Guide(self.settings, self._trial, quiet=self._quiet)
            return None
        if not self._closed and self._foot.keys.pressed(key):
            return None  # its press comes back as a value
        return Looks() if key == "t" else self._picked(self._picker.pressed(key))

    def arrived(self, what: object) -> Outcome:
        """Take what was posted."""
        if self._guide is not None:
            self._guide.arrived(what)
            self._go_on()
        elif isinstance(what, Heard):
            deed = deed_of(what)
            return None if deed is None else self._picked(self._picker.asked(deed))
        elif isinstance(what, PedalPress):
            return self._stepped(what)
        self._picker.arrived(what)
        return None

    def _stepped(self, press: PedalPress) -> Outcome:
        """A press of the pedal: it looks on and back, and held it takes, for a foot has no word for yes."""
        for _ in press.takes_back:
            self._picker.asked(Back())
        deed = asked_by(press)
        if deed is None:
            return None
        return self._picked(self._picker.asked(Yes() if isinstance(deed, Again) else deed))

    def _picked(self, outcome: Outcome) -> Outcome:
        """From the shelf to the size of what was picked, where it has several; and from there back to the shelf."""
        if isinstance(outcome, Left) and self._shelf is not None:
            self._picker, self._shelf = self._shelf, None
            return None
        if isinstance(outcome, Chosen) and outcome.journal is None and outcome.size is None:
            sizes = self._sizes(outcome.source)
            if sizes:
                self._shelf = self._picker
                offers = offered_sizes(outcome.name, outcome.source, sizes)
                self._picker = Picker(offers, self.settings, self._post, say=self._trial.say)
                return None
        return outcome

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
        """Let the devices go; keys are left."""
        if not self._closed:
            self._closed = True
            self._trial.close()
            self._foot.close()

    def _go_on(self) -> None:
        """To the shelf, once all is asked."""
        if self._guide is not None and self._guide.over:
            self.settings = self._guide.settings
            self._guide = None
            self._foot.close()
            self._foot = Foot(self.settings, self._post, lambda why: self._post(Told("pedal", why)))
            self._trial.await_(Awaiting.NUMBER)
            self._shelf = None
            self._picker = Picker(self._offers, self.settings, self._post, CARE, self._look, self._trial.say)
