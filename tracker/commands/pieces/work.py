"""The commands `work`, `start` and `pick`: on the screen where there is a terminal for it, else in plain lines.

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
from tracker.records import replace

if TYPE_CHECKING:
    from tracker.hands_free.settings import Settings
    from tracker.run import Opened
    from tracker.screen.before.outcome import Chosen
    from tracker.screen.work import Way
    from tracker.tablet.server import Tablet


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """The words `work` takes; `start` and `pick` take no FILE."""
    command = parser.prog.rpartition(" ")[2]
    parser.set_defaults(command=command, file=None)
    if command == "work":
        parser.add_argument(
            "file", nargs="?", metavar="FILE", help="the pattern; without it one of the pieces in hand"
        )
        parser.add_argument(
            "--piece",
            metavar="NAME",
            help="a piece in hand by its name; with FILE one more piece of that pattern",
        )
    parser.set_defaults(piece=None)
    parser.add_argument("--size", metavar="NAME", help="the size to work; asked when not said")
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
    if said.piece is None and said.file is None and (said.command != "work" or not _in_hand()):
        return _pick(said, say, tablet, replace(settings, file=file), trouble)
    plain = said.plain or not can_carry()
    if not plain and said.piece is None and said.file is None and said.hear is None and _in_hand() > 1:
        return _pick(said, say, tablet, replace(settings, file=file), trouble)
    if not plain:
        try:
            if said.file is not None and said.file != "-":
                text_of(said.file)  # a wrong name is told before the screen opens
        except Unreadable as fault:
            return _fault(fault)
        name = said.piece or (Path(said.file).stem.replace("-", " ") if said.file else "")
        return show(
            lambda: _opened(said, settings, trouble),
            settings,
            file,
            quiet=said.quiet,
            hear=said.hear,
            name=name,
            tablet=tablet,
            way=_size_first(said, replace(settings, file=file), name, trouble),
        )
    if trouble:
        _fault(trouble)
    return _in_lines(said, say, tablet, settings)


def _size_first(said: argparse.Namespace, settings: "Settings", name: str, trouble: str) -> "Way | None":
    """What asks for the size before the piece is begun; None where that is known. A recording answers nothing."""
    from tracker.commands.pieces.sizing import sizes_to_ask
    from tracker.screen.work import size_asked

    sizes = sizes_to_ask(said.file, said.size, said.piece or "") if said.hear is None else ()
    if not sizes:
        return None

    def choose(chosen: "Chosen", settled: "Settings") -> "Callable[[], tuple[Opened, str, str]]":
        said.size = chosen.size
        return lambda: _opened(said, settled, trouble)

    return size_asked(settings, choose, name=name, source=said.file, sizes=sizes, quiet=said.quiet)


def _in_lines(
    said: argparse.Namespace, say: Callable[[str], object], tablet: "Tablet | None", settings: "Settings"
) -> int:
    """Plain lines from the first to the last; of several pieces in hand one is chosen first."""
    from tracker.commands.pieces.lead import chosen_in_lines, lead_in_lines, piece_of_journal
    from tracker.commands.pieces.sizing import asked_in_lines, sizes_to_ask
    from tracker.ears.port import EarMissing
    from tracker.hands_free.lines.inbox import Inbox
    from tracker.journal import JournalTrouble

    inbox = Inbox(sys.stdin)
    rest: bytes | None = None
    live = said.hear is not None and not said.quiet and sys.stdout.isatty()
    try:
        if said.file is None and said.piece is None and not live and _in_hand() > 1:
            chosen = chosen_in_lines(settings, inbox, say, quiet=said.quiet, hear=said.hear)
            if chosen is None:
                return 0
            file, source, rest = chosen
            opened = piece_of_journal(file, source, said.size, settings.speech)
        else:
            if said.hear is None and (sizes := sizes_to_ask(said.file, said.size, said.piece or "")):
                answer = asked_in_lines(sizes, settings, inbox, say, quiet=said.quiet)
                if answer.left:
                    return 0
                said.size = answer.size
            opened = _asked_for(said, settings)
    except (Unreadable, JournalTrouble, EarMissing) as fault:
        return _fault(fault)
    try:
        return lead_in_lines(
            opened, settings, quiet=said.quiet, hear=said.hear, say=say, tablet=tablet, inbox=inbox, rest=rest
        )
    finally:
        opened.desk.close()


def _asked_for(said: argparse.Namespace, settings: "Settings") -> "Opened":
    """The piece the words of the command line ask for; raises Unreadable or JournalTrouble."""
    from tracker.commands.pieces.lead import named_piece, opened_piece, piece_of_journal

    if said.piece is not None and said.file is None:
        return piece_of_journal(*named_piece(said.piece), said.size, settings.speech)
    return opened_piece(said.file, said.size, settings.speech, said.piece or "")


def _in_hand() -> int:
    """How many pieces there are."""
    from tracker.journal import pieces, pieces_folder

    return len(pieces(pieces_folder())[0])


def _pick(
    said: argparse.Namespace,
    say: Callable[[str], object],
    tablet: "Tablet | None",
    settings: "Settings",
    trouble: str,
) -> int:
    """No pattern is named: the guided start when it is due or asked for, and the shelf; on the screen, or in lines."""
    from tracker.commands.pieces.sizing import sizes_to_ask
    from tracker.screen.work import can_carry, show, way_in

    if said.plain or not can_carry():
        return _pick_in_lines(said, say, tablet, settings)

    def choose(chosen: "Chosen", settled: "Settings") -> "Callable[[], tuple[Opened, str, str]]":
        return lambda: _taken(chosen, said.size, settled)

    guided = said.command == "start" or said.command == "work" and not settings.greeted
    way = way_in(
        settings,
        choose,
        guided=guided,
        quiet=said.quiet,
        notice=trouble,
        sizes=lambda source: sizes_to_ask(source, said.size),
    )
    return show(
        _nothing_named,
        settings,
        settings.file or Path(),
        quiet=said.quiet,
        hear=said.hear,
        name="",
        tablet=tablet,
        way=way,
    )


def _nothing_named() -> "tuple[Opened, str, str]":
    raise ValueError("No pattern was picked.")


def _taken(chosen: "Chosen", size: str | None, settings: "Settings") -> "tuple[Opened, str, str]":
    """What was picked from the shelf, opened. Raises ValueError with one sentence."""
    from tracker.commands.pieces.lead import opened_piece, piece_of_journal
    from tracker.journal import JournalTrouble

    try:
        opened = (
            piece_of_journal(chosen.journal, chosen.source, None, settings.speech)
            if chosen.journal is not None
            else opened_piece(chosen.source, chosen.size or size, settings.speech)
        )
    except (Unreadable, JournalTrouble) as fault:
        raise ValueError(str(fault)) from None
    return _introduced(opened, "")


def _pick_in_lines(
    said: argparse.Namespace, say: Callable[[str], object], tablet: "Tablet | None", settings: "Settings"
) -> int:
    """The shelf as numbered lines, for a screen reader or a pipe; by voice and pedal, too."""
    from datetime import datetime

    from tracker.commands.pieces.lead import lead_in_lines
    from tracker.commands.pieces.sizing import asked_in_lines, sizes_to_ask
    from tracker.hands_free.lines.inbox import Inbox
    from tracker.hands_free.lines.shelf import choose
    from tracker.journal import pieces_folder
    from tracker.screen.before.outcome import Chosen
    from tracker.screen.before.shelf import shelf
    from tracker.session.record.choice import Choice

    if said.command == "work":
        return _fault("There is no piece in hand yet; name a pattern: rowteller work FILE.")
    offers = shelf(Path.cwd(), pieces_folder(), datetime.now())
    if not offers:
        return _fault("There is nothing to pick from; name a pattern: rowteller work FILE.")
    inbox = Inbox(sys.stdin)
    called = tuple(
        ", ".join(part for part in (offer.name, offer.kind, offer.told) if part) for offer in offers
    )
    taken = choose(Choice(called), settings, inbox, say, quiet=said.quiet)
    if taken is None:
        return 0
    offer, size = offers[taken], said.size
    if offer.journal is None and (sizes := sizes_to_ask(offer.source, size)):
        answer = asked_in_lines(sizes, settings, inbox, say, quiet=said.quiet)
        if answer.left:
            return 0
        size = answer.size
    try:
        opened, _, _ = _taken(Chosen(offer.name, offer.source, offer.journal, None), size, settings)
    except ValueError as fault:
        return _fault(fault)
    try:
        return lead_in_lines(
            opened, settings, quiet=said.quiet, hear=said.hear, say=say, tablet=tablet, inbox=inbox
        )
    finally:
        opened.desk.close()


def _opened(said: argparse.Namespace, settings: "Settings", trouble: str) -> "tuple[Opened, str, str]":
    """The piece, what is said of it first, and what its maker should know. Raises ValueError with one sentence."""
    from tracker.journal import JournalTrouble

    try:
        opened = _asked_for(said, settings)
    except (Unreadable, JournalTrouble) as fault:
        raise ValueError(str(fault)) from None
    return _introduced(opened, trouble)


def _introduced(opened: "Opened", trouble: str) -> "tuple[Opened, str, str]":
    from tracker.commands.pieces.lead import troubles_of, welcome

    return (
        opened,
        welcome(opened),
        " ".join((*((trouble,) if trouble else ()), *opened.notices, *troubles_of(opened))),
    )


def _fault(fault: object) -> int:
    sys.stderr.write(f"{fault}\n")
    return 2
