"""Opens the piece that `work` is asked for, and leads a maker through it in plain lines, a deed a line.

A pattern's file or the pieces in hand come in; an opened piece, and lines, go out. A file that cannot be
read and a piece that is open elsewhere are Unreadable and JournalTrouble, one sentence each.
"""

import sys
import time
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from tracker.files import STANDARD_INPUT, Unreadable, text_of
from tracker.hands_free.settings import Settings
from tracker.journal import piece_file, pieces, pieces_folder
from tracker.problems import Severity
from tracker.records import replace
from tracker.run import Desk, Opened, open_desk
from tracker.session.amiss.doing import question
from tracker.session.apply import Effect, Keep, Rest, Say, Settle, Show
from tracker.session.deeds import Back, Deed, Jump, Onward, PutAt, Redo, Undo, Yes
from tracker.session.seen.view import View
from tracker.session.understand import understood
from tracker.trade.said.speech import Speech

if TYPE_CHECKING:
    from tracker.hands_free.lines.inbox import Inbox
    from tracker.tablet.server import Tablet

MOVES = (Onward, Back, Jump, PutAt, Undo, Redo, Yes)
"""Deeds after which the place is shown as it is written."""


def lead_in_lines(
    opened: Opened, settings: Settings, *,
    quiet: bool, hear: Path | None, say: Callable[[str], object], tablet: "Tablet | None" = None,
    inbox: "Inbox | None" = None, rest: bytes | None = None,
) -> int:  # fmt: skip
    """Follow a piece in plain lines, with the devices around it; `rest`: of a recording, what is not heard yet."""
    from tracker.hands_free.plain import lead_hands_free

    def rendered(effect: Effect, deed: Deed | None) -> Iterable[str]:
        desk = opened.desk
        return plain(effect, _moved_view(desk, deed))

    return lead_hands_free(
        opened, settings, sys.stdin, say, quiet=quiet, hear=hear,
        greeting=(*_links(tablet), *greeting(opened)), rendered=rendered, tablet=tablet, inbox=inbox,
        rest=rest,
    )  # fmt: skip


def _links(tablet: "Tablet | None") -> Iterable[str]:
    """Where the page is, and the code of it where there is somebody to hold a camera to it."""
    if tablet is not None:
        from tracker.tablet.code import code

        yield f"The page for your tablet: {tablet.link}"
        if sys.stdout.isatty():
            yield from code(tablet.link)


def chosen_in_lines(
    settings: Settings, inbox: "Inbox", say: Callable[[str], object], *, quiet: bool, hear: Path | None = None
) -> tuple[Path, str, bytes | None] | None:
    """The journal and the pattern's file of the piece that is chosen in plain lines; None when none is.

    With a recording in the microphone's place, what is left of it too. Raises EarMissing when it cannot be heard.
    """
    from tracker.hands_free.lines.shelf import choose, choose_heard
    from tracker.hands_free.reader import speaks_already
    from tracker.session.record.choice import Choice
    from tracker.shelf.taking_up import in_hand

    found, notices = in_hand(pieces_folder())
    for notice in notices:
        sys.stderr.write(f"{notice}\n")
    if not found:
        return None
    names = (f"{one.piece.name.replace('-', ' ')}, {one.place}{_share(one.percent)}" for one in found)
    silent = quiet or sys.stdout.isatty() and speaks_already(settings.screen_reader)
    choice, rest = Choice(tuple(map(_capital, names))), None
    if hear is not None:
        taken, rest = choose_heard(choice, settings, hear, say)
    else:
        taken = choose(choice, settings, inbox, say, quiet=silent)
    return None if taken is None else (found[taken].piece.file, found[taken].piece.source, rest)


def _share(percent: int | None) -> str:
    return "" if percent is None else f", {percent} percent"


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def named_piece(name: str) -> tuple[Path, str]:
    """The journal and the pattern's file of a piece in hand by its name; raises Unreadable."""
    from tracker.shelf.choosing import NoPiece, chosen

    try:
        piece = chosen(name, pieces(pieces_folder())[0])
    except NoPiece as fault:
        raise Unreadable(str(fault)) from None
    return piece.file, piece.source


def opened_piece(
    file: str | None, size: str | None, speech: Speech | None = None, called: str = ""
) -> Opened:
    """The piece of a pattern's file, or the piece worked last; raises Unreadable or JournalTrouble.

    `called` begins, or takes up, one more piece of the same pattern under that name.
    """
    if file is None:
        found, _ = pieces(pieces_folder())
        if not found:
            raise Unreadable("There is no piece in hand yet; name a pattern: rowteller work FILE.")
        return piece_of_journal(found[0].file, found[0].source, size, speech)
    if file == STANDARD_INPUT:
        raise Unreadable(
            "The pattern cannot come from standard input, where your words come from; save it as a file."
        )
    name, text = text_of(file)
    source = str(Path(file).resolve())
    _checked_size(name, text, size)
    journal = piece_file(pieces_folder(), source, called)
    if not called and not journal.exists():
        journal = _brought(text) or journal
    opened = open_desk(journal, name, source, text, size, now_ms(), speech)
    if called and opened.desk.journal.fact("name") is None:
        opened.desk.journal.set_fact("name", called, now_ms())
    other = "" if called else _other_pieces(journal, source)
    return replace(opened, notices=(*opened.notices, other)) if other else opened


def _other_pieces(journal: Path, source: str) -> str:
    """A sentence when more pieces of the same pattern are in hand: which of them is opened is not to be guessed at."""
    if len([*journal.parent.glob(f"{journal.stem.rpartition('-')[0]}-*{journal.suffix}")]) < 2:
        return ""
    found, _ = pieces(journal.parent)
    names = [piece.name for piece in found if piece.source == source and piece.file != journal]
    if not names:
        return ""
    also = "Another piece" if len(names) == 1 else f"{len(names)} other pieces"
    verb = "is" if len(names) == 1 else "are"
    return (
        f"{also} of this pattern {verb} in hand: {', '.join(names)}. rowteller work --piece NAME takes it up."
    )


def _brought(text: str) -> Path | None:
    """The journal of a piece that came from another machine and is worked from this very text; None without one."""
    from tracker.journal import digest_of
    from tracker.journal.sqlite.store import glance

    for piece in pieces(pieces_folder())[0]:
        if not Path(piece.source).is_absolute():
            _, kept, _ = glance(piece.file)
            if kept is not None and kept.digest == digest_of(text):
                return piece.file
    return None


def piece_of_journal(journal: Path, source: str, size: str | None, speech: Speech | None) -> Opened:
    """A piece by its journal: its pattern's file, or the text that was kept when that file is gone."""
    try:
        if not Path(source).is_absolute():
            raise Unreadable("It came from another machine.")
        name, text = text_of(source)
    except Unreadable:
        from tracker.journal.sqlite.store import glance

        try:
            _, kept, _ = glance(journal)
        except ValueError as broken:
            raise Unreadable(
                f"The piece {journal.stem} cannot be read ({broken}); name its pattern's file."
            ) from None
        if kept is None:
            raise Unreadable(
                f"The pattern {source} is gone, and no text of it was kept; name another file."
            ) from None
        name, text = Path(source).name, kept.text
    return open_desk(journal, name, source, text, size, now_ms(), speech)


def _checked_size(name: str, text: str, size: str | None) -> None:
    if size is None:
        return
    from tracker.load import WrongSize, sized

    try:
        sized(name, text, size)
    except WrongSize as wrong:
        raise Unreadable(str(wrong)) from None


def lead(opened: Opened, deeds: Iterable[str], say: Callable[[str], object]) -> int:
    """Follow a piece to the end of the deeds."""
    desk = opened.desk
    for line in greeting(opened):
        say(line)
    for line in deeds:
        deed = understood(line, desk.session)
        if deed is None:
            say(f"I don't know {line.strip()[:60]!r}. Say help for what I know.")
            continue
        resting = False
        for effect in desk.do(deed, now_ms()):
            resting = resting or isinstance(effect, Rest)
            for out in plain(effect, _moved_view(desk, deed)):
                say(out)
        if resting:
            break
    return 0


def _moved_view(desk: Desk, deed: Deed | None) -> View | None:
    """What is to be seen where a deed has led; None where it leads nowhere: a question, a tap that counts."""
    session = desk.session
    if not isinstance(deed, MOVES) or session.asked or question(session) or session.amiss.tally:
        return None
    return desk.view()


def greeting(opened: Opened) -> Iterable[str]:
    """What is said as a piece is opened."""
    desk = opened.desk
    pattern, fabric = desk.loaded.pattern, desk.loaded.fabric
    yield f"{pattern.title}: {fabric.told()}."
    yield from opened.notices
    yield from opened.shown
    yield from troubles_of(opened)
    yield welcome(opened)
    yield from _written(desk)


def troubles_of(opened: Opened) -> Iterable[str]:
    """A sentence when the pattern has errors in it."""
    errors = sum(1 for problem in opened.desk.loaded.problems if problem.severity is Severity.ERROR)
    if errors:
        things = "One thing" if errors == 1 else f"{errors} things"
        yield f"{things} in this pattern cannot be right: rowteller check shows where."


def welcome(opened: Opened) -> str:
    """Where they are, or the first thing to do."""
    return f"Welcome back. {opened.recap}" if opened.begun else opened.desk.view().said


def plain(effect: Effect, shown: View | None) -> Iterable[str]:
    """An effect in lines; with a view, the place as it is written goes with what is said."""
    match effect:
        case Say():
            if effect.spoken:
                yield effect.spoken
            if shown is not None and (line := _place_written(shown)):
                yield line
        case Show(lines):
            yield from lines
        case Rest() | Keep() | Settle():
            return


def _written(desk: Desk) -> Iterable[str]:
    if line := _place_written(desk.view()):
        yield line


def _place_written(shown: View) -> str:
    """ "    ch 1, sk 1 dc, dc in next dc · 2 of 4 · 3 of 16 squares" """
    parts = [shown.written] if shown.written else []
    if shown.beats > 1:
        parts.append(f"{shown.beat} of {shown.beats}")
    if shown.due and shown.written:
        parts.append(f"{shown.done} of {shown.due} {shown.unit}")
    return f"    {' · '.join(parts)}" if parts else ""


def now_ms() -> int:
    """The time now, in milliseconds since 1970 in UTC."""
    return time.time_ns() // 1_000_000


__all__ = ["Deed", "lead", "lead_in_lines", "opened_piece", "welcome"]
