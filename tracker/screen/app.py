"""The screen at work: keys and what devices post become deeds, and the page is drawn again where it changed.

Comes in: how to open the piece, and its settings. Goes out: the page. The first page is drawn before the
piece is opened, so that it is there at once; keys pressed meanwhile are kept. All deeds are done on
Textual's own loop; device threads only post. The devices are started once the first page of the piece is on
the screen.
"""

from __future__ import annotations

import gc
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual import events
from textual.app import App, ComposeResult
from textual.message import Message
from textual.screen import Screen

from tracker.hands_free.settings import Settings
from tracker.screen.drawing.words import Line, filled, shown
from tracker.screen.sheet import Sheet
from tracker.screen.themes import TERMINAL, Theme, after, styles

if TYPE_CHECKING:
    from tracker.hands_free.arrivals import Arrival
    from tracker.run import Opened
    from tracker.screen.before.outcome import Before, Chosen, Outcome
    from tracker.screen.lap import Lap
    from tracker.tablet.server import Tablet

Opening = Callable[[], "tuple[Opened, str, str]"]
"""Opens the piece: gives it, what is said first, and what its maker should know;
raises ValueError with one sentence.
"""

_TICK_S = 0.1
"""How often what comes before the piece is asked whether something has changed by itself."""
_AHEAD_S = 0.05
"""How long after a page the next one is made."""


class Arrived(Message):
    """Something a device posted."""

    def __init__(self, what: Arrival) -> None:
        super().__init__()
        self.what = what


class Noted(Message):
    """Something that is for what comes before the piece."""

    def __init__(self, what: object) -> None:
        super().__init__()
        self.what = what


class Ground(Screen[None]):
    """What lies under the page: nothing of it is ever seen."""

    BLANK = True


class WorkScreen(App[int]):
    """A piece in hand."""

    CSS = "Screen { background: transparent; } WorkScreen { background: transparent; }"
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar = []

    def __init__(
        self, opening: Opening, settings: Settings, theme: Theme, *, quiet: bool, hear: Path | None = None,
        name: str = "", keep_theme: Callable[[str], None] = lambda name: None,
        keep_drawing: Callable[[bool], None] = lambda as_rows: None, tablet: Tablet | None = None,
        before: Callable[[Callable[[object], None]], Before] | None = None,
        choose: Callable[[Chosen, Settings], Opening] | None = None,
    ) -> None:  # fmt: skip
        """`before` makes what comes first, handed how to post to it; `choose` opens what was picked there."""
        super().__init__(ansi_color=theme is TERMINAL)
        self._opening = opening
        self._settings = settings
        self._looks = theme
        self._quiet, self._hear, self._piece = quiet, hear, name
        self._keep_theme, self._keep_drawing = keep_theme, keep_drawing
        self._tablet = tablet
        self._before_made, self._choose = before, choose
        self._entrance: Before | None = None
        self.before: Before | None = None
        """What comes before the piece, as long as it is there."""
        self._early: list[str] = []
        self.lap: Lap | None = None
        """The piece, once it is open."""
        self.fault = ""
        """Why it could not be opened, in one sentence."""
        self._few_colours = self.console.color_system in ("standard", "windows")
        self.sheet = Sheet(styles(theme, few=self._few_colours))

    # -- Textual's side

    def get_default_screen(self) -> Screen[None]:
        """One that costs nothing."""
        return Ground(id="_default")

    def compose(self) -> ComposeResult:
        """One widget."""
        yield self.sheet

    def on_mount(self) -> None:
        """Draw, and open the piece once that is seen; or what comes before it."""
        if self._before_made is not None:
            self.before = self._entrance = self._before_made(self._note)
            self.set_interval(_TICK_S, self._tick)
            self._draw()
            return
        self._draw()
        self.call_after_refresh(self._open)

    def on_resize(self, event: events.Resize) -> None:
        """Another size."""
        self._draw(event.size.width, event.size.height)

    def on_app_focus(self) -> None:
        """Presses come by the terminal from now on."""
        self._focused(True)

    def on_app_blur(self) -> None:
        """Presses come by the desktop from now on."""
        self._focused(False)

    async def action_quit(self) -> None:
        """Leave; the place is kept."""
        self.exit(0)

    def on_key(self, event: events.Key) -> None:
        """A key of the maker's, or the pedal's."""
        event.prevent_default()
        event.stop()
        self.pressed(event.key)

    def on_arrived(self, arrived: Arrived) -> None:
        """What a device posted."""
        if self.lap is not None:
            self._done(self.lap.arrived(arrived.what))

    def on_noted(self, noted: Noted) -> None:
        """What was posted to what comes before the piece."""
        if self.before is not None:
            self._came(self.before.arrived(noted.what))

    # -- ours

    def pressed(self, key: str) -> None:
        """Do what a key asks for."""
        if self.before is not None:
            self._came(self.before.pressed(key))
        elif self.lap is None:
            self._early.append(key)
            if key in ("ctrl+c", "ctrl+q"):
                self.exit(0)
        elif key == "t":
            self._change_theme()
        elif key == "D":
            self._keep_drawing(self.lap.draw_otherwise())
            self._done(False)
        elif key == "V" and self._tablet is not None:
            self.lap.show_link(self._tablet.link)
            self._draw()
        else:
            self._done(self.lap.pressed(key, self.size.width, self.size.height))

    def close(self) -> None:
        """Let the piece and its devices go."""
        if self._entrance is not None:
            self._entrance.close()
        if self.lap is not None:
            self.lap.sitting.close()
            self.lap.desk.close()

    def _open(self) -> None:
        """Everything that takes longer than a first page may: reading the pattern, the journal, and what they need."""
        gc.disable()  # next to nothing of it is garbage
        try:
            opened, said, notice = self._opening()
        except ValueError as fault:
            gc.enable()
            if self._entrance is not None:
                self.before = self._entrance
                self.before.refused(str(fault))
                self._draw()
                return
            self.fault = str(fault)
            self.exit(2)
            return
        from tracker.screen.lap import Lap

        self.lap = Lap(
            opened, self._settings, self._post,
            quiet=self._quiet, hear=self._hear, said=said, notice=notice,
        )  # fmt: skip
        gc.collect()
        gc.freeze()  # the pattern and the program stay; looking through them again would only cost frames
        gc.enable()
        self._draw()
        self.call_after_refresh(self._begin, opened.aloud)

    def _note(self, what: object) -> None:
        """From any thread."""
        self.post_message(Noted(what))

    def _tick(self) -> None:
        if self.before is not None and self.before.tick():
            self._draw()

    def _came(self, outcome: Outcome) -> None:
        """Go on from what comes before the piece."""
        from tracker.screen.before.outcome import Chosen, Left, Looks

        match outcome:
            case Left():
                self.exit(0)
            case Looks():
                self._change_theme()
            case Chosen() if self._choose is not None and self.before is not None:
                self._settings, self._piece = self.before.settings, outcome.name
                self._opening = self._choose(outcome, self._settings)
                self.before.close()  # the devices are the sitting's from now on
                self.before = None
                self._draw()
                self.call_after_refresh(self._open)
                return
            case _:
                pass
        self._draw()

    def _post(self, what: Arrival) -> None:
        """From any thread."""
        self.post_message(Arrived(what))

    def _begin(self, said: str) -> None:
        if self.lap is None:
            return
        self.lap.sitting.begin(said)
        if self._tablet is not None:
            from tracker.hands_free.arrivals import Touched

            self._tablet.begin(lambda name, number: self._post(Touched(name, number)))
            self.lap.show_link(self._tablet.link)
        self._done(False)
        early, self._early = self._early, []
        for key in early:
            self.pressed(key)

    def _done(self, leaves: bool) -> None:
        """Draw what came of something, or leave; then make the next page ahead."""
        self._draw()
        if self._tablet is not None:
            self.call_after_refresh(self._show)
        if leaves:
            self.exit(0)
        elif self.lap is not None:
            # Not at once: the thread that writes to the terminal must have its turn before ours goes on.
            self.set_timer(_AHEAD_S, self._ahead)

    def _show(self) -> None:
        """Let the page on a tablet follow, once the terminal's own is drawn."""
        if self._tablet is not None and self.lap is not None:
            self._tablet.put(self.lap.seen)

    def _ahead(self) -> None:
        if self.lap is not None:
            self.sheet.prepare(self.lap.ahead(self.size.width, self.size.height))

    def _focused(self, focused: bool) -> None:
        if self.lap is not None:
            self.lap.sitting.foot.board.focus(focused)

    def _change_theme(self) -> None:
        if self.no_color:
            return  # NO_COLOR was asked for as the program began, and holds until it ends
        self._looks = after(self._looks)
        self.ansi_color = self._looks is TERMINAL
        self.sheet.put_on(styles(self._looks, few=self._few_colours))
        self._keep_theme(self._looks.name)

    def _draw(self, width: int = 0, height: int = 0) -> None:
        wide, high = width or self.size.width, height or self.size.height
        if wide and high and self.sheet.is_mounted:
            there = self.before or self.lap
            self.sheet.show(_first_page(self._piece, wide, high) if there is None else there.page(wide, high))


def _first_page(name: str, width: int, height: int) -> tuple[Line, ...]:
    """What is there at once: which piece is being opened, in the places where all will be."""
    head = filled(((f" {shown(name)}", "title"),), width, "head")
    second = filled(((" opening", "row"),), width, "head")
    foot = filled((), width, "foot")
    blank: Line = ((" " * width, "ground"),)
    return (head, second, *[blank] * (height - 4), foot, foot)[:height]
