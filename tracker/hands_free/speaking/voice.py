"""What a sitting says: its mouth while there is one, and the words and tones that go to it.

Settings and sentences come in; utterances go to the mouth's thread. Without a mouth nothing is said, and nothing fails.
"""

import time
from collections.abc import Callable, Mapping

from tracker.hands_free.settings import Settings
from tracker.mouth.port import Mouth
from tracker.mouth.sound import Tone
from tracker.session.apply import Say, apply
from tracker.session.deeds import Again, Back, Onward, Where
from tracker.session.state import Session


class Voice:
    """The mouth of one sitting."""

    def __init__(
        self, settings: Settings, made: Callable[[Settings], Mouth], *, muted: bool, tones_only: bool
    ) -> None:
        """`made` opens the mouth; with `muted` there is none whatever is settled; `tones_only`: no words."""
        self.mouth: Mouth | None = None
        """None while nothing is to be said."""
        self._settings = settings
        self._made = made
        self._muted = muted
        self._tones_only = tones_only

    def open(self) -> None:
        """Open the mouth, where one is wanted."""
        if self._settings.mouth and not self._muted:
            self.mouth = self._made(self._settings)

    def close(self) -> None:
        """Let the mouth go."""
        if self.mouth is not None:
            self.mouth.close()

    def settle(self, settings: Settings, wish: Mapping[str, object]) -> None:
        """Speak as is settled now; `wish` holds what was changed, by its name among the settings."""
        self._settings = settings
        if "mouth" not in wish or self._muted:
            if self.mouth is not None:
                self.mouth.adjust(settings.manner)
        elif not settings.mouth:
            self.close()
            self.mouth = None
        elif self.mouth is None:
            self.open()

    def say(self, text: str, before: Tone | None = None) -> None:
        """Say something now, in the place of what is being said."""
        if self.mouth is None:
            return
        before = before if self._settings.tones else None
        if text and not self._tones_only:
            self.mouth.say(text, before=before)
        elif before is not None:
            self.mouth.sound(before)
        else:
            self.mouth.hush()

    def until_said(self, longest_s: float) -> None:
        """Wait until nothing is being said: for the end of a recording or of the input."""
        until = time.monotonic() + longest_s
        while self.mouth is not None and self.mouth.busy and time.monotonic() < until:
            time.sleep(0.02)

    def prepare(self, session: Session) -> None:
        """Have what is likely to be said next made ahead; a few milliseconds."""
        if self.mouth is None:
            return
        soon_ms = session.pace.at_ms + 1  # the words of one who goes on without a pause
        after, onward = apply(session, Onward(), soon_ms)
        wishes = [*onward, *apply(after, Onward(), soon_ms + 1)[1]]
        for deed in (Again(), Back(), Where()):
            wishes += apply(session, deed, soon_ms)[1]
        self.mouth.prepare([effect.spoken for effect in wishes if isinstance(effect, Say)])
