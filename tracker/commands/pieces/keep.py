"""The command `pieces`: what is in hand, one piece's card, and renaming, exporting, importing, removing.

Words of the command line come in; lines and an exit status go out: 0 fine, 2 wrong use, or a piece or file that cannot
be had. Nothing is ever deleted: what is removed goes into a folder that is named.
"""

import argparse
import json
import sys
import time
from collections.abc import Callable, Sequence
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from tracker.records import replace

if TYPE_CHECKING:
    from tracker.journal import Piece
    from tracker.shelf.taking_up import InHand

Say = Callable[[str], object]


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """The words `pieces` takes."""
    parser.add_argument(
        "piece", nargs="?", metavar="NAME", help="a piece by its name or number; all when not said"
    )
    parser.add_argument(
        "--card", nargs="+", metavar="KEY=WORDS", help="write on the piece card: hook=4mm lot=B12"
    )
    parser.add_argument("--rename", metavar="NEW", help="call it otherwise")
    parser.add_argument("--make", type=int, metavar="N", help="make so many of it")
    parser.add_argument("--export", metavar="FILE", help="write it into one file that another machine opens")
    parser.add_argument("--import", dest="bring", metavar="FILE", help="take such a file in")
    parser.add_argument(
        "--holds", choices=("here", "there"), help="whose place holds when both machines went on since"
    )
    parser.add_argument("--remove", action="store_true", help="put it away into a folder; asks first")
    parser.add_argument("--yes", action="store_true", help="do not ask before removing")
    parser.add_argument("--json", action="store_true", help="the list for other programs")


def run(said: argparse.Namespace, say: Say) -> int:
    """Carry out `pieces`."""
    from tracker.journal import JournalTrouble
    from tracker.shelf.choosing import NoPiece

    try:
        if said.bring is not None:
            return _bring(said, say)
        if said.piece is None:
            if any((said.card, said.rename, said.make, said.export, said.remove)):
                raise NoPiece("Say which piece: rowteller pieces NAME …; rowteller pieces lists them.")
            return _list(said, say)
        return _one(said, say)
    except (NoPiece, JournalTrouble) as fault:
        sys.stderr.write(f"{fault}\n")
        return 2
    except OSError as refused:
        sys.stderr.write(
            f"{refused.filename or 'The file'} cannot be read or written ({refused.strerror}).\n"
        )
        return 2


def _list(said: argparse.Namespace, say: Say) -> int:
    """The pieces in hand, latest first."""
    from tracker.journal import pieces_folder
    from tracker.shelf.taking_up import in_hand

    found, notices = in_hand(pieces_folder())
    for notice in notices:
        sys.stderr.write(f"{notice}\n")
    if said.json:
        say(json.dumps([_told(one) for one in found], ensure_ascii=False))
        return 0
    if not found:
        say("No piece is in hand yet. Begin one with: rowteller work FILE")
    for line in lines_of(found):
        say(line)
    return 0


def lines_of(found: "tuple[InHand, ...]") -> tuple[str, ...]:
    """A numbered line for each piece: name, when it was last worked, where it is, how far."""
    name = max((len(one.piece.name) for one in found), default=0)
    place = max((len(one.place) for one in found), default=0)
    return tuple(
        f"{number:2}  {one.piece.name:{name}}  {_day(one.piece)}  {one.place:{place}}  {_share(one):>4}  "
        f"{one.piece.source}"
        for number, one in enumerate(found, 1)
    )


def _share(one: "InHand") -> str:
    return "" if one.percent is None else f"{one.percent}%"


def _day(piece: "Piece") -> str:
    if not piece.latest_ms:
        return "not begun       "
    return f"{datetime.fromtimestamp(piece.latest_ms / 1000):%Y-%m-%d %H:%M}"


def _told(one: "InHand") -> dict[str, object]:
    piece = one.piece
    return {
        "name": piece.name,
        "title": one.title,
        "place": one.place,
        "percent": one.percent,
        "latest_ms": piece.latest_ms,
        "deeds": piece.entries,
        "source": piece.source,
        "journal": str(piece.file),
    }


def _one(said: argparse.Namespace, say: Say) -> int:
    """One piece: what is asked to be done with it, or else all that is known of it."""
    from tracker.journal import pieces, pieces_folder
    from tracker.shelf.choosing import chosen

    found, _ = pieces(pieces_folder())
    piece = chosen(said.piece, found)
    if said.card or said.rename is not None or said.make is not None:
        status = _write(said, piece, found, say)
        if status:
            return status
    if said.export is not None:
        _export(piece, Path(said.export), say)
    if said.remove:
        return _remove(piece, said.yes, say)
    if not any((said.rename, said.make, said.export)):
        _show(piece, say)
    return 0


def _show(piece: "Piece", say: Say) -> None:
    """Name, place, what is finished, notes and the card."""
    from tracker.session.piece.card import card_lines
    from tracker.session.piece.copies import finished_said, is_many
    from tracker.session.piece.marks import marks_said
    from tracker.session.record.blocked import tick_lines
    from tracker.session.record.progress import progress
    from tracker.session.record.yarn import so_far_said
    from tracker.session.wording import place_line
    from tracker.shelf.choosing import NoPiece
    from tracker.shelf.taking_up import taken_down

    try:
        whole, loaded, session = taken_down(piece.file)
    except ValueError as broken:
        raise NoPiece(f"The piece {piece.name!r} cannot be opened: {broken}.") from None
    far = progress(session).percent
    say(f"{piece.name} · {loaded.pattern.title}{'' if far is None else f' · {far}%'}")
    say(f"place: {place_line(session.program, session.place) if whole.entries else 'not begun'}")
    if is_many(session.program):
        say(finished_said(session))
    if session.marks:
        say(marks_said(session))
    if session.weighed:
        say(so_far_said(session))
    for line in tick_lines(session):
        say(f"  {line}")
    for line in card_lines(session.card):
        say(f"  {line}")


def _write(said: argparse.Namespace, piece: "Piece", others: Sequence["Piece"], say: Say) -> int:
    """Write on the card, rename, say how many."""
    from tracker.journal import open_journal
    from tracker.session.piece.card import card_from
    from tracker.shelf.choosing import NoPiece
    from tracker.shelf.taking_up import MAKE

    card = card_from(tuple(said.card or ()))
    if isinstance(card, str):
        raise NoPiece(card)
    if said.make is not None and not 1 <= said.make <= 9999:
        raise NoPiece("Make at least one of it, and 9999 at the most.")
    new = " ".join((said.rename or "").split())
    if said.rename is not None and not new:
        raise NoPiece("A name needs at least one letter.")
    if new and any(other.name.casefold() == new.casefold() for other in others if other.file != piece.file):
        raise NoPiece(f"Another piece is called {new} already; choose another name.")
    journal, _ = open_journal(piece.file, _now_ms())
    with journal:
        for key, words in card:
            journal.set_fact(f"card {key}", words, _now_ms())
        if said.make is not None:
            journal.set_fact(MAKE, str(said.make), _now_ms())
            say(f"{piece.name}: make {said.make}.")
        if new:
            journal.set_fact("name", new, _now_ms())
            say(f"{piece.name} is called {new} from now on.")
    return 0


def _export(piece: "Piece", file: Path, say: Say) -> None:
    from tracker.journal import whole_of
    from tracker.journal.whole import written
    from tracker.shelf.choosing import NoPiece

    try:
        whole = whole_of(piece.file)
    except ValueError as broken:
        raise NoPiece(f"The piece {piece.name!r} cannot be read: {broken}.") from None
    if file.exists():
        raise NoPiece(f"{file} is there already; name another file.")
    beside = file.with_name(f"{file.name}.new")
    # Where the pattern lay on this machine is nobody else's business.
    texts = tuple(replace(text, source=Path(text.source.replace("\\", "/")).name) for text in whole.texts)
    beside.write_text(written(replace(whole, texts=texts)), encoding="utf-8")
    beside.replace(file)
    say(f"{piece.name} with its {len(whole.entries)} steps is in {file}.")
    say(f"On the other machine: rowteller pieces --import {file.name}")


def _bring(said: argparse.Namespace, say: Say) -> int:
    """Take a file in: a new piece, or the same one worked on another machine."""
    from tracker.journal import pieces_folder
    from tracker.shelf.importing import taken_in

    say(taken_in(Path(said.bring), pieces_folder(), said.holds, _answer(say), _now_ms()))
    return 0


def _answer(say: Say) -> Callable[[tuple[str, ...], tuple[str, ...]], str]:
    """Asks on the terminal: lines are shown, one of the words comes back, "" when there is no answer."""

    def ask(lines: tuple[str, ...], words: tuple[str, ...]) -> str:
        for line in lines:
            say(line)
        for line in sys.stdin:
            answer = line.strip().lower()
            if answer in words:
                return answer
            say(f"Answer {' or '.join(words)}.")
        return ""

    return ask


def _remove(piece: "Piece", sure: bool, say: Say) -> int:
    """Put a piece away into a folder, once that is wanted."""
    from tracker.shelf.importing import put_away, removed_folder

    folder = removed_folder(piece.file.parent)
    question = (
        f"Put {piece.name} with its {piece.entries} steps away into {folder}? Nothing is deleted. yes or no"
    )
    if not sure and _answer(say)((question,), ("yes", "no")) != "yes":
        say(f"{piece.name} stays.")
        return 0
    file = put_away(piece.file, _now_ms())
    say(f"{piece.name} is put away as {file}; rowteller pieces --import brings it back.")
    return 0


def _now_ms() -> int:
    return time.time_ns() // 1_000_000
