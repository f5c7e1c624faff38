"""The screen at work: keys and what devices post become deeds, and the page is drawn again where it changed.

Comes in: a piece as it was opened and its settings. Goes out: the page. All deeds are done on Textual's own loop; device
threads only post. The devices are started once the first page is on the screen.
"""

import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import ClassVar

from textual import events
from textual.app import App, ComposeResult
from textual.message import Message

from tracker.hands_free.settings import Settings
from tracker.hands_free.sitting import Answer, Arrival, Ended, EarOpen, Sitting, Told
from tracker.run import Opened
from tracker.screen.page import Showing, help_page, over_rows, page
from tracker.screen.sheet import Sheet
from tracker.screen.themes import TERMINAL, Theme, after, styles
from tracker.session.commands import COMMANDS, Command
from tracker.session.deeds import Deed, Help

_LEAVE = ("ctrl+c", "ctrl+q")
_CLOSE = ("escape", "question_mark", "enter", "space", "q")
_DIGITS = 6


class Arrived(Message):
    """Something a device posted."""

    def __init__(self, what: Arrival) -> None:
        super().__init__()
        self.what = what


@dataclass(frozen=True, slots=True)
class _Entry:
    """A number being typed for a command."""

    command: Command
    digits: str = ""


class WorkScreen(App[int]):
    """A piece in hand."""

    CSS = "Screen { background: transparent; } WorkScreen { background: transparent; }"
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar = []

    def __init__(
        self, opened: Opened, settings: Settings, theme: Theme, *, quiet: bool, hear: Path | None = None,
        greeting: str = "", keep_theme: Callable[[str], None] = lambda name: None,
    ) -> None:  # fmt: skip
        super().__init__(ansi_color=theme is TERMINAL)
        self._opened = opened
        self._looks = theme
        self._keep_theme = keep_theme
        self._greeting = greeting
        self._entry: _Entry | None = None
        self._showing = Showing(said=greeting, notice=" ".join(opened.notices), mirrored=settings.left_handed)
        self.sitting = Sitting(opened.desk, settings, self._post, quiet=quiet, hear=hear)
        self.sheet = Sheet(styles(theme))

    # -- Textual's side

    def compose(self) -> ComposeResult:
        """One widget."""
        yield self.sheet

    def on_mount(self) -> None:
        """Draw, and wake the devices once that is seen."""
        self._draw()
        self.call_after_refresh(self._begin)

    def _begin(self) -> None:
        self.sitting.begin(self._greeting)
        self._draw()
        self._prepare()

    def on_resize(self, event: events.Resize) -> None:
        """Another size."""
        self._draw(event.size.width, event.size.height)

    def on_app_focus(self) -> None:
        """Presses come by the terminal from now on."""
        self.sitting.foot.board.focus(True)

    def on_app_blur(self) -> None:
        """Presses come by the desktop from now on."""
        self.sitting.foot.board.focus(False)

    async def action_quit(self) -> None:
        """Leave; the place is kept."""
        self._leave()

    def on_key(self, event: events.Key) -> None:
        """A key of the maker's, or the pedal's."""
        event.prevent_default()
        event.stop()
        self.pressed(event.key)

    def on_arrived(self, arrived: Arrived) -> None:
        """What a device posted."""
        what = arrived.what
        answer = self.sitting.take(what, _now_ms())
        if isinstance(what, Ended):
            self._leave()
        elif isinstance(what, Told):
            if answer.lines:
                self._showing = replace(self._showing, notice=answer.lines[0])
            self._draw()
        elif isinstance(what, EarOpen) or answer.deed is None and not answer.effects:
            self._draw()
        else:
            self._shown(answer)

    def _post(self, what: Arrival) -> None:
        """From any thread."""
        self.post_message(Arrived(what))

    # -- ours

    def pressed(self, key: str) -> None:
        """Do what a key asks for."""
        if key in _LEAVE:
            self._leave()
        elif self._entry is not None:
            self._type(self._entry, key)
        elif self.sitting.foot.keys.pressed(key):
            return  # its press comes back as a value
        elif self._showing.over and key in _CLOSE:
            rows = over_rows(self.size.height)
            more = self._showing.over[rows - 1 :] if len(self._showing.over) > rows and key == "space" else ()
            self._showing = replace(self._showing, over=more)
            self._draw()
        elif key == "t":
            self._change_theme()
        else:
            command = self._command(key)
            if command is not None:
                self._ask(command)

    def do(self, deed: Deed) -> None:
        """Do a deed and show what came of it."""
        if isinstance(deed, Help):
            self._showing = replace(self._showing, over=help_page())
            self._draw()
            return
        self._shown(self.sitting.do(deed, _now_ms()), by_key=True)

    def _command(self, key: str) -> Command | None:
        """The command of a key; of two on one key the one that makes a difference now."""
        session = self._opened.desk.session
        found = [command for command in COMMANDS if command.key == key]
        if key == "enter":
            found = [command for command in COMMANDS if command.key == "space"]
        if len(found) > 1:
            return next(command for command in found if (command.name == "listen") is not session.hearing)
        if found and found[0].cost == "answer" and self.sitting.awaiting.value != "answer":
            return None
        return found[0] if found else None

    def _ask(self, command: Command) -> None:
        if all("{n}" in phrase for phrase in command.phrases):
            self._entry = _Entry(command)
            self._show_entry()
        else:
            self.do(command.make(0))

    def _type(self, entry: _Entry, key: str) -> None:
        if key.isdecimal() and len(entry.digits) < _DIGITS:
            self._entry = replace(entry, digits=entry.digits + key)
        elif key == "backspace":
            self._entry = replace(entry, digits=entry.digits[:-1])
        elif key == "enter":
            self._entry = None
            self._showing = replace(self._showing, entry="")
            if entry.digits:
                self.do(entry.command.make(int(entry.digits)))
                return
        else:
            self._entry = None
        self._show_entry()

    def _show_entry(self) -> None:
        entry = self._entry
        text = "" if entry is None else f"{entry.command.name} {entry.digits}_   enter: do it · escape: leave it"
        self._showing = replace(self._showing, entry=text)
        self._draw()

    def _shown(self, answer: Answer, by_key: bool = False) -> None:
        """Show what was said, and leave where the maker put the work down with a key."""
        session = self._opened.desk.session
        showing = replace(self._showing, over=(), entry="", resting=session.resting and (self._showing.resting or answer.rests))
        if answer.said:
            showing = replace(showing, said=answer.said, notice="")
        if len(answer.lines) > 1:
            showing = replace(showing, over=answer.lines if not isinstance(answer.deed, Help) else help_page())
        elif answer.lines and not answer.said:
            showing = replace(showing, said=answer.lines[0])
        self._showing = showing
        self._draw()
        if answer.rests and by_key:
            self._leave()
        else:
            self._prepare()

    def _prepare(self) -> None:
        self.call_after_refresh(self.sitting.prepare)

    def _change_theme(self) -> None:
        if self.ansi_color:
            return  # the terminal's colours were asked for as the program began, and hold until it ends
        self._looks = after(self._looks)
        if self._looks is TERMINAL:
            self._looks = after(self._looks)
        self.sheet.put_on(styles(self._looks))
        self._keep_theme(self._looks.name)
        self._draw()

    def _draw(self, width: int = 0, height: int = 0) -> None:
        if not self.sheet.is_mounted:
            return
        wide, high = width or self.size.width, height or self.size.height
        if wide and high:
            self.sheet.show(page(self._opened.desk.view(self.sitting.devices), self._showing, wide, high))

    def _leave(self) -> None:
        self.exit(0)


def _now_ms() -> int:
    return time.time_ns() // 1_000_000
