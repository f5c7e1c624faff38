"""Opens the screen on a piece: whether a terminal can carry it, which theme, and a terminal that nothing
else writes to.

Comes in: how to open the piece, its settings, the environment. Goes out: an exit status.
"""

import contextlib
import gc
import os
import sys
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from tracker.hands_free.settings import Settings, changed
from tracker.records import dataclass, replace
from tracker.screen.themes import TERMINAL, Theme, theme_named

if TYPE_CHECKING:
    from tracker.screen.app import Opening
    from tracker.screen.before.outcome import Before, Chosen
    from tracker.tablet.server import Tablet


def can_carry(environ: Mapping[str, str] = os.environ) -> bool:
    """True when standard input and output are a terminal that can carry a screen."""
    return (
        sys.stdin.isatty()
        and sys.stdout.isatty()
        and environ.get("TERM", "" if os.name != "nt" else "windows") not in ("", "dumb")
    )


def theme_for(settings: Settings, environ: Mapping[str, str] = os.environ) -> Theme:
    """The theme settled on; NO_COLOR leaves all colours to the terminal."""
    return TERMINAL if environ.get("NO_COLOR") else theme_named(settings.theme)


@dataclass(frozen=True, slots=True)
class Way:
    """What comes before the piece, where none is named."""

    before: "Callable[[Callable[[object], None]], Before]"
    """Makes it; handed how other threads post to it."""
    choose: "Callable[[Chosen, Settings], Opening]"
    """Opens what was picked there."""


def way_in(
    settings: Settings,
    choose: "Callable[[Chosen, Settings], Opening]",
    *,
    guided: bool,
    quiet: bool,
    notice: str,
    sizes: Callable[[str], tuple[str, ...]],
) -> Way:
    """The guided start, when it is due, and the shelf; then which of the `sizes` of a pattern's file that is begun."""

    def before(post: "Callable[[object], None]") -> "Before":
        from datetime import datetime

        from tracker.journal import pieces_folder
        from tracker.screen.before.entrance import Entrance
        from tracker.screen.before.shelf import places, shelf

        folder, now = pieces_folder(), datetime.now()
        offers = shelf(Path.cwd(), folder, now)
        return Entrance(
            settings,
            offers,
            post,
            guided=guided,
            quiet=quiet,
            notice=notice,
            look=lambda: places(folder, now),
            sizes=sizes,
        )

    return Way(before, choose)


def size_asked(
    settings: Settings, choose: "Callable[[Chosen, Settings], Opening]", *,
    name: str, source: str, sizes: tuple[str, ...], quiet: bool,
) -> Way:  # fmt: skip
    """The size of a pattern that is about to be begun."""

    def before(post: "Callable[[object], None]") -> "Before":
        from tracker.screen.before.entrance import Entrance
        from tracker.screen.before.shelf import named, offered_sizes

        offers = offered_sizes(named(name), source, sizes)
        return Entrance(settings, offers, post, guided=False, quiet=quiet)

    return Way(before, choose)


def show(
    opening: "Opening", settings: Settings, file: Path, *, quiet: bool, hear: Path | None, name: str,
    tablet: "Tablet | None" = None, way: "Way | None" = None,
) -> int:  # fmt: skip
    """Work a piece on the screen until the maker leaves it; 2 with a sentence when it cannot be opened."""
    gc.disable()
    from tracker.screen.app import WorkScreen

    gc.freeze()  # Textual stays: to look through it for garbage, now and later, costs a fifth of a start
    gc.enable()

    def keep_theme(name: str) -> None:
        changed(replace(settings, file=file), theme=name)  # one that cannot be kept is no reason to stop

    def keep_drawing(as_rows: bool) -> None:
        changed(replace(settings, file=file), rounds_as_rows=as_rows)

    with _terminal_alone():
        app = WorkScreen(
            opening,
            settings,
            theme_for(settings),
            quiet=quiet,
            hear=hear,
            name=name,
            keep_theme=keep_theme,
            keep_drawing=keep_drawing,
            tablet=tablet,
            before=way.before if way is not None else None,
            choose=way.choose if way is not None else None,
        )
        try:
            status = app.run(mouse=False) or 0
        finally:
            app.close()
    if app.fault:
        sys.stderr.write(f"{app.fault}\n")
    return status


@contextlib.contextmanager
def _terminal_alone() -> Iterator[None]:
    """Give the screen a way of its own to the terminal, and what libraries write to standard error no way at all.

    Textual draws through sys.__stderr__. PortAudio's module points file descriptor 2 at nothing while it
    loads, and ALSA writes to it at any time: neither may take a frame with it or write into one.
    """
    if os.name == "nt":
        yield
        return
    kept, kept_stderr = os.dup(2), sys.__stderr__
    own = os.fdopen(os.dup(1), "w", encoding="utf-8", errors="replace")
    nothing = os.open(os.devnull, os.O_WRONLY)
    sys.__stderr__ = own  # type: ignore[misc]
    os.dup2(nothing, 2)
    try:
        yield
    finally:
        sys.__stderr__ = kept_stderr  # type: ignore[misc]
        os.dup2(kept, 2)
        for each in (kept, nothing):
            os.close(each)
        own.close()
