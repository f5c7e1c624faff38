"""The command `work`: on the screen where there is a terminal for it, else in plain lines.

Words of the command line come in; an exit status goes out: 0 fine, 2 for wrong use, a file that cannot be
read or a piece that is open elsewhere. Imports little, so that the first page need not wait for what opens
the piece.
"""

import argparse
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from tracker.files import Unreadable, text_of

if TYPE_CHECKING:
    from tracker.hands_free.settings import Settings
    from tracker.run import Opened
    from tracker.tablet.server import Tablet


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """The words `work` takes."""
    parser.add_argument(
        "file", nargs="?", metavar="FILE", help="the pattern; without it the piece worked last"
    )
    parser.add_argument("--size", metavar="NAME", help="the size to work; the first when not said")
    parser.add_argument(
        "--plain", action="store_true", help="lines instead of a screen; one deed a line from standard input"
    )
    parser.add_argument("--quiet", action="store_true", help="say nothing aloud")
    parser.add_argument(
        "--hear",
        metavar="WAV",
        type=Path,
        help="a recording in the microphone's place; the work ends with it",
    )
    page = parser.add_argument_group("a page for a tablet by the chair")
    page.add_argument(
        "--show", action="store_true", help="the same work as a page in a browser, for whoever has the link"
    )
    page.add_argument(
        "--lan",
        action="store_true",
        help="also for other machines in your network, unencrypted; without it for this machine alone",
    )
    page.add_argument("--touch", action="store_true", help="with keys on the page that move the work")
    page.add_argument(
        "--port", type=_port, default=0, metavar="N", help="its port; one that is free when not said"
    )


def _port(word: str) -> int:
    number = int(word) if word.isascii() and word.isdecimal() else 0
    if not 0 < number < 65536:
        raise argparse.ArgumentTypeError(f"{word} is no port; those are 1 to 65535")
    return number


def run(said: argparse.Namespace, say: Callable[[str], object]) -> int:
    """Carry out `work`."""
    if not said.show:
        if said.lan or said.touch or said.port:
            return _fault("--lan, --touch and --port are about the page: they go with --show.")
        return _run(said, say, None)
    from tracker.tablet.server import NotShown, Tablet

    try:
        tablet = Tablet(lan=said.lan, touch=said.touch, port=said.port)
    except NotShown as fault:
        return _fault(fault)
    try:
        return _run(said, say, tablet)
    finally:
        tablet.close()


def _run(said: argparse.Namespace, say: Callable[[str], object], tablet: "Tablet | None") -> int:
    from tracker.hands_free.settings import settings_file, settled
    from tracker.screen.work import can_carry, show

    file = settings_file()
    settings, trouble = settled(file)
    if not said.plain and can_carry():
        try:
            if said.file is not None and said.file != "-":
                text_of(said.file)  # a wrong name is told before the screen opens
        except Unreadable as fault:
            return _fault(fault)
        name = Path(said.file).stem.replace("-", " ") if said.file else ""
        return show(
            lambda: _opened(said, settings, trouble),
            settings,
            file,
            quiet=said.quiet,
            hear=said.hear,
            name=name,
            tablet=tablet,
        )
    from tracker.commands_work import lead_in_lines, opened_piece
    from tracker.journal import JournalTrouble

    if trouble:
        _fault(trouble)
    try:
        opened = opened_piece(said.file, said.size, settings.speech)
    except (Unreadable, JournalTrouble) as fault:
        return _fault(fault)
    try:
        return lead_in_lines(opened, settings, quiet=said.quiet, hear=said.hear, say=say, tablet=tablet)
    finally:
        opened.desk.close()


def _opened(said: argparse.Namespace, settings: "Settings", trouble: str) -> "tuple[Opened, str, str]":
    """The piece, what is said of it first, and what its maker should know. Raises ValueError with one sentence."""
    from tracker.commands_work import opened_piece, troubles_of, welcome
    from tracker.journal import JournalTrouble

    try:
        opened = opened_piece(said.file, said.size, settings.speech)
    except (Unreadable, JournalTrouble) as fault:
        raise ValueError(str(fault)) from None
    return (
        opened,
        welcome(opened),
        " ".join((*((trouble,) if trouble else ()), *opened.notices, *troubles_of(opened))),
    )


def _fault(fault: object) -> int:
    sys.stderr.write(f"{fault}\n")
    return 2
