"""Which size is worked, where a pattern has several and none was named: asked once, as the piece is begun.

A pattern's file goes in; its sizes, and the one that was chosen, come out. A piece that is in hand stays in its size.
"""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from tracker.files import STANDARD_INPUT, Unreadable, text_of
from tracker.journal import piece_file, pieces_folder
from tracker.records import dataclass

if TYPE_CHECKING:
    from tracker.hands_free.lines.inbox import Inbox
    from tracker.hands_free.settings import Settings
    from tracker.session.record.choice import Choice


@dataclass(frozen=True, slots=True)
class Sized:
    """What was answered."""

    size: str | None
    """The size's name; None for the one that the pattern works by itself."""
    left: bool = False
    """True when the maker wants none."""


def sizes_to_ask(file: str | None, size: str | None, called: str = "") -> tuple[str, ...]:
    """The sizes of a pattern that is not in hand yet, as it lists them; () when there is nothing to ask.

    `size`: the one named already; `called`: the name of one more piece. A file that cannot be read has none here:
    opening it tells why.
    """
    if size is not None or file is None or file == STANDARD_INPUT:
        return ()
    try:
        name, text = text_of(file)
        if piece_file(pieces_folder(), str(Path(file).resolve()), called).exists():
            return ()
    except (Unreadable, OSError):
        return ()
    from tracker.notation.read import read, source_of

    sizes = read(source_of(name, text), None)[0].sizes
    return sizes if len(sizes) > 1 else ()


def asked_in_lines(
    sizes: tuple[str, ...],
    settings: "Settings",
    inbox: "Inbox",
    say: Callable[[str], object],
    *,
    quiet: bool,
) -> Sized:
    """Ask in plain lines. From a pipe a line that names no size is a deed already, and the first size is worked."""
    from tracker.hands_free.lines.shelf import choose
    from tracker.session.record.choice import Choice

    choice = Choice(sizes, asking="Which size?")
    if not inbox.is_terminal:
        return Sized(_piped(choice, inbox, say))
    taken = choose(choice, settings, inbox, say, quiet=quiet)
    return Sized(None, left=True) if taken is None else Sized(sizes[taken])


def _piped(choice: "Choice", inbox: "Inbox", say: Callable[[str], object]) -> str | None:
    """What the first line answers; None, and the line is put back, where it is no answer."""
    from tracker.session.deeds import Number, Yes
    from tracker.session.record.choice import chose, named
    from tracker.session.understand import understand

    sizes = ", ".join(f"{number}. {offer}" for number, offer in enumerate(choice.offers, 1))
    say(f"{choice.asking} {sizes}")
    inbox.read()
    arrival = inbox.get(None)
    if isinstance(arrival, str):
        taken = named(choice, arrival)
        deed = understand(arrival, awaiting_number=True)
        if taken is None and isinstance(deed, Number | Yes):
            taken = chose(choice, deed).taken
        if taken is not None:
            return choice.offers[taken]
    inbox.put_back(arrival)
    return None
