"""What lies in the maker's lap: the sitting, what was said last, what is being typed. Knows keys, but no Textual.

Comes in: keys as the screen names them, and what devices posted. Goes out: the page. The page after the
next step is made ahead, while the hands work, so that the step itself only has to be kept and shown.
"""

import time
import unicodedata
from collections.abc import Callable
from pathlib import Path

from tracker.ears.port import Awaiting
from tracker.hands_free.arrivals import Answer, Arrival, Ended, Told
from tracker.hands_free.settings import Settings
from tracker.hands_free.sitting import Sitting
from tracker.records import dataclass, replace
from tracker.run import Opened, anchor_of
from tracker.screen.drawing.words import Line
from tracker.screen.page import Showing, help_page, laid_over, over_rows, page
from tracker.session.amiss.doing import answers, awaits_number
from tracker.session.apply import Say, apply
from tracker.session.commands import ANSWER, COMMANDS, Command
from tracker.session.deeds import Deed, Help, Onward
from tracker.session.seen.view import Devices, view
from tracker.session.state import Session
from tracker.tablet.told import Seen

_LEAVE = ("ctrl+c", "ctrl+q")
_CLOSE = ("escape", "question_mark", "enter", "space", "q")
_DIGITS = 6
_LETTERS = 60
"""Letters of a note; no longer one is read back in one breath."""
_KEPT_PAGES = 6

_Asked = tuple[Session, Devices, Showing, int, int]
"""All that a page is made from."""


@dataclass(frozen=True, slots=True)
class _Entry:
    """A number or words being typed for a command."""

    command: Command
    typed: str = ""

    @property
    def takes_words(self) -> bool:
        return self.command.write is not None

    def taking(self, key: str) -> "_Entry | None":
        """With one key more; None for a key that types nothing here."""
        if key == "backspace":
            return replace(self, typed=self.typed[:-1])
        letter = _letter(key)
        if not letter or not (self.takes_words or letter.isdecimal()):
            return None
        return replace(self, typed=(self.typed + letter)[: _LETTERS if self.takes_words else _DIGITS])

    def deed(self) -> Deed | None:
        """What it comes to; None while a number is needed."""
        if self.command.write is not None:
            words = " ".join(self.typed.split())
            return self.command.write(words) if words else self.command.make(0)
        return self.command.make(int(self.typed)) if self.typed else None


_NAMED = {"minus": "-", "slash": "/", "plus": "+", "at": "@", "underscore": "_", "backslash": "\\"}
"""Letters whose keys have names of their own; all others are called as the standard for letters calls them."""


def _letter(key: str) -> str:
    """What a key types; "" for one that types nothing.

    >>> _letter("a"), _letter("space"), _letter("full_stop"), _letter("latin_small_letter_e_with_acute"), _letter("f1")
    ('a', ' ', '.', 'é', '')
    """
    if len(key) == 1:
        return key
    if key in _NAMED:
        return _NAMED[key]
    try:
        letter = unicodedata.lookup(key.replace("_", " ").upper())
    except KeyError:
        return ""
    return letter if letter.isprintable() else ""  # escape and tab are letters too, by the standard


class Lap:
    """A piece in hand."""

    def __init__(
        self, opened: Opened, settings: Settings, post: Callable[[Arrival], None], *,
        quiet: bool, hear: Path | None, said: str, notice: str,
    ) -> None:  # fmt: skip
        self.desk = opened.desk
        self.sitting = Sitting(opened.desk, settings, post, quiet=quiet, hear=hear)
        self._showing = Showing(
            said=said,
            notice=notice,
            over=_both_wordings(opened),
            mirrored=settings.left_handed,
            as_rows=settings.rounds_as_rows,
        )
        self._entry: _Entry | None = None
        self._pages: dict[_Asked, tuple[Line, ...]] = {}

    # -- what is to be seen

    def page(self, width: int, height: int) -> tuple[Line, ...]:
        """The page as it is now."""
        return self._page((self.desk.session, self.sitting.devices, self._showing, width, height))

    def ahead(self, width: int, height: int) -> tuple[Line, ...]:
        """Make what the next step will say, and the page it will show; no line when it is not known."""
        after, effects = apply(self.desk.session, Onward(), 0)
        said = " ".join(effect.text for effect in effects if isinstance(effect, Say))
        lines: tuple[Line, ...] = ()
        if said:
            showing = replace(self._showing, said=said, notice="", over=(), link="", entry="", resting=False)
            lines = self._page((after, self.sitting.devices, showing, width, height))
            anchor_of(after.program, after.place)
        self.sitting.prepare()
        return lines

    def _page(self, asked: _Asked) -> tuple[Line, ...]:
        found = self._pages.get(asked)
        if found is None:
            session, devices, showing, width, height = asked
            found = page(view(session, devices), showing, width, height)
            while len(self._pages) >= _KEPT_PAGES:
                del self._pages[next(iter(self._pages))]
            self._pages[asked] = found
        return found

    @property
    def seen(self) -> Seen:
        """The same for the page on a tablet."""
        shown = view(self.desk.session, self.sitting.devices)
        return Seen(
            shown, self._showing.said, self._showing.resting, self._showing.mirrored, self._showing.as_rows
        )

    def show_link(self, link: str) -> None:
        """Lay the page's link and its code over the rest."""
        self._showing = replace(self._showing, link=link)

    def draw_otherwise(self) -> bool:
        """Draw rounds as rows, or around their middle again; says whether it is as rows now."""
        self._showing = replace(self._showing, as_rows=not self._showing.as_rows)
        return self._showing.as_rows

    # -- what comes in; each says whether the maker leaves

    def pressed(self, key: str, width: int, height: int) -> bool:
        """Do what a key asks for, on a screen of this size."""
        if key in _LEAVE:
            return True
        if self._entry is not None:
            return self._type(self._entry, key)
        if self.sitting.foot.keys.pressed(key):
            return False  # its press comes back as a value
        if self._showing.link:
            self._showing = replace(self._showing, link="")
            if key in _CLOSE:
                return False
        if self._showing.over and key in _CLOSE:
            rows, lines = over_rows(height), laid_over(self._showing.over, width)
            more = lines[rows - 1 :] if len(lines) > rows and key == "space" else ()
            self._showing = replace(self._showing, over=more)
            return False
        if key.isdecimal() and awaits_number(self.desk.session):
            self._enter(_Entry(ANSWER, key))
            return False
        command = self._command(key)
        if command is None:
            return False
        if command.needs_number or command.write is not None:
            self._enter(_Entry(command))
            return False
        return self.do(command.make(0))

    def do(self, deed: Deed) -> bool:
        """Do a deed that was asked for with a key."""
        if isinstance(deed, Help):
            self._showing = replace(self._showing, over=help_page(self.desk.session.renamed))
            return False
        answer = self.sitting.do(deed, _now_ms())
        self._take(answer)
        return answer.rests

    def arrived(self, what: Arrival) -> bool:
        """Take what a device posted.

        Rest that was asked for from afar leaves the screen as it is, to be gone on from.
        """
        answer = self.sitting.take(what, _now_ms())
        if isinstance(what, Told):
            if answer.lines:
                self._showing = replace(self._showing, notice=answer.lines[0])
        elif answer.deed is not None or answer.effects:
            self._take(answer)
        return isinstance(what, Ended)

    # -- within

    def _command(self, key: str) -> Command | None:
        """The command of a key; of two on one key the one that makes a difference now."""
        key = "space" if key == "enter" else key
        found = [command for command in COMMANDS if command.key == key]
        if len(found) > 1:
            return next(
                command for command in found if (command.name == "listen") is not self.desk.session.hearing
            )
        if found and found[0].cost == "answer" and not self._answers():
            return None
        return found[0] if found else None

    def _answers(self) -> bool:
        """True while a yes or a no means something."""
        return answers(self.desk.session) or self.sitting.awaiting is Awaiting.ANSWER

    def _enter(self, entry: _Entry | None) -> None:
        self._entry = entry
        text = (
            "" if entry is None else f"{entry.command.name} {entry.typed}_   enter: do it · escape: leave it"
        )
        self._showing = replace(self._showing, entry=text)

    def _type(self, entry: _Entry, key: str) -> bool:
        deed = entry.deed() if key == "enter" else None
        self._enter(entry.taking(key))
        return self.do(deed) if deed is not None else False

    def _take(self, answer: Answer) -> None:
        """Show what was said."""
        resting = self.desk.session.resting and (self._showing.resting or answer.rests)
        showing = replace(self._showing, over=(), link="", entry="", resting=resting)
        if answer.said:
            showing = replace(showing, said=answer.said, notice="")
        if len(answer.lines) > 1:
            renamed = self.desk.session.renamed
            laid = help_page(renamed) if isinstance(answer.deed, Help) else _with_what_was_said(answer)
            showing = replace(showing, over=laid)
        elif answer.lines and not answer.said:
            showing = replace(showing, said=answer.lines[0])
        self._showing = showing


def _with_what_was_said(answer: Answer) -> tuple[str, ...]:
    """Lines laid over the page behind the sentence they belong to: what was counted, then what may have happened."""
    return (answer.said, "", *answer.lines) if answer.said else answer.lines


def _both_wordings(opened: Opened) -> tuple[str, ...]:
    """An edited row as it was and as it is, and what is asked of it; nothing for a pattern that was not edited."""
    if not opened.shown:
        return ()
    asked = opened.desk.session.asked
    lines = (*opened.shown, *((asked.question,) if asked else ()))
    return tuple(part for line in lines for part in (line, ""))


def _now_ms() -> int:
    return time.time_ns() // 1_000_000
