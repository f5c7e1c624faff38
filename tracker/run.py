"""One piece at work: a session, its journal, and the one way a deed gets done. Works with no screen.

A deed and the time come in; what is to be said and shown goes out, and only after the deed is on the disk. Called on
one thread only, the front end's. A journal that refuses leaves the session as it was, and says why.
"""

from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path

from tracker.journal import Anchor, Entry, Journal, JournalTrouble, Json, digest_of, open_journal
from tracker.load import Loaded
from tracker.program.places import Place, Program
from tracker.records import dataclass, replace
from tracker.session.amiss.tallying import so_far_said
from tracker.session.apply import Effect, Keep, Say, apply
from tracker.session.deeds import Deed, HowLong, Make, PutAt
from tracker.session.piece.copies import may_make
from tracker.session.piece.recap import recap
from tracker.session.record.log import rows_timed
from tracker.session.seen.view import Devices, View, view
from tracker.session.state import Session
from tracker.session.wording import where_said
from tracker.shelf.taking_up import (
    LED,
    MAKE,
    card_of,
    found_again,
    program_of,
    session_of,
    steps_of,
    with_copies,
)
from tracker.trade.said.speech import Speech


class Desk:
    """A piece that is being worked."""

    def __init__(self, loaded: Loaded, session: Session, journal: Journal) -> None:
        """Only `open_desk` makes one."""
        self.loaded = loaded
        self.session = session
        self.journal = journal

    def do(self, deed: Deed, at_ms: int) -> tuple[Effect, ...]:
        """Do a deed: apply it, commit it, and only then give what is to be said and shown.

        `at_ms` is when, in milliseconds since 1970 in UTC.
        """
        if isinstance(deed, Make) and not may_make(self.session, deed.number):
            self._make(deed.number, at_ms)
        if isinstance(deed, HowLong):
            steps = steps_of(self.journal.whole())
            self.session = replace(self.session, timed=rows_timed(self.session.program, steps))
        after, effects = apply(self.session, deed, at_ms)
        shown: list[Effect] = []
        for effect in effects:
            if not isinstance(effect, Keep):
                shown.append(effect)
                continue
            try:
                self._keep(effect.deed, _json(effect.arguments), after.place, after.program, at_ms)
            except JournalTrouble as trouble:
                return (Say(str(trouble)),)
        self.session = after
        return tuple(shown)

    def _make(self, number: int, at_ms: int) -> None:
        """So many copies from now on: the piece is taken up again as it would be tomorrow."""
        self.journal.set_fact(MAKE, str(number), at_ms)
        whole, before = self.journal.whole(), self.session
        program = with_copies(before.program, number)
        after, _ = session_of(whole, program, whole.text.text if whole.text is not None else "")
        self.session = replace(
            after, place=before.place if program.holds(before.place) else after.place, pace=before.pace,
            length=before.length, fades=before.fades, hearing=before.hearing, rest_usual=before.rest_usual,
            renamed=before.renamed,
            since_ms=before.since_ms, latest_ms=before.latest_ms,
        )  # fmt: skip

    def put(self, place: Place, at_ms: int) -> None:
        """Stand at a place that was found by other means; it is kept even where the hands stood there already."""
        before = self.journal.last_number
        self.do(PutAt(place), at_ms)
        if self.journal.last_number == before:
            self._keep("place", {"place": list(place)}, place, self.session.program, at_ms)

    def view(self, devices: Devices | None = None) -> View:
        """What is to be seen now."""
        return view(self.session, devices)

    def close(self) -> None:
        """Let go of the piece."""
        self.journal.close()

    def _keep(
        self, deed: str, arguments: Mapping[str, Json], place: Place, program: Program, at_ms: int
    ) -> None:
        number = self.journal.last_number + 1
        self.journal.append(Entry(number, at_ms, deed, arguments, place, anchor_of(program, place)))


@dataclass(frozen=True, slots=True)
class Opened:
    """A piece as it was opened."""

    desk: Desk
    notices: tuple[str, ...]
    """What its maker should hear first: a damaged journal, an edited pattern."""
    begun: bool
    """True when something of it was done before."""
    recap: str
    """Where they are, and the question on the group in hand."""
    aloud: str = ""
    """The same as it is spoken."""
    shown: tuple[str, ...] = ()
    """Lines for the eye: the row in hand as it was and as it is now, when an edit changed it."""


def open_desk(
    file: Path, name: str, source: str, text: str, size: str | None, at_ms: int,
    speech: Speech | None = None,
) -> Opened:  # fmt: skip
    """Open the piece worked from a text, or begin it.

    `file` is its journal, `source` where the text came from, `speech` in whose words it is told.
    Raises JournalTrouble; the text never makes it fail.
    """
    journal, notices = open_journal(file, at_ms)
    try:
        said = [str(notice) for notice in notices]
        before = journal.whole()
        if not before.texts and not before.entries:
            journal.set_fact(LED, "rows", at_ms)
            before = journal.whole()
        loaded, program = program_of(before, name, text, size, speech)
        if loaded.pattern.size is not None and loaded.pattern.size != journal.fact("size"):
            journal.set_fact("size", loaded.pattern.size, at_ms)
        journal.keep_text(text, source, at_ms)
        whole = replace(before, texts=journal.texts())
        session, settled = session_of(whole, program, text)
        settled_for = replace(session, card=card_of(whole))
        desk = Desk(loaded, settled_for, journal)
        shown: tuple[str, ...] = ()
        same = settled
        if not settled:
            # Edited just now, or a kill came between the new text and the place in it.
            found = found_again(whole, program, text, size)
            desk.put(found.place, at_ms)
            desk.session = replace(desk.session, asked=found.asked, past=None, undone=None)
            said.append(found.said)
            shown, same = found.shown, found.same
        if not whole.entries:
            said += _size_taken(loaded.pattern.sizes, loaded.pattern.size)
            first = desk.view().said
            return Opened(desk, tuple(said), False, first, first)
        back = recap(desk.session, at_ms - whole.entries[-1].at_ms)
        if not same:
            # Of the group in hand nothing is asked: it may be another one now.
            where = _after_an_edit(desk)
            return Opened(desk, tuple(said), True, where, where, shown)
        if counting := so_far_said(desk.session):
            # what is asked on coming back would be answered by a tap
            where = f"{where_said(desk.session.program, desk.session.place)} {counting}"
            return Opened(desk, tuple(said), True, where, where, shown)
        desk.session = replace(desk.session, asked=back.asked)
        return Opened(desk, tuple(said), True, back.whole, back.aloud, shown)
    except BaseException:
        journal.close()
        raise


def _size_taken(sizes: tuple[str, ...], size: str | None) -> list[str]:
    """Which of its sizes a pattern is worked in: told as it is begun, for afterwards the stitches are made."""
    if len(sizes) < 2:
        return []
    others = ", ".join(one for one in sizes if one != (size or sizes[0]))
    return [
        f"Size {size or sizes[0]}; it also comes in {others}: for one of them, stop and begin with --size."
    ]


def _after_an_edit(desk: Desk) -> str:
    """What is said of a place in an edited pattern: where it is, and what is asked."""
    question = desk.session.asked.question if desk.session.asked else ""
    return " ".join(filter(None, (where_said(desk.session.program, desk.session.place), question)))


@lru_cache(maxsize=16)
def anchor_of(program: Program, place: Place) -> Anchor | None:
    """A place as the journal keeps it beside its address; that of the step ahead is asked for while the hands work."""
    mark = program.mark(place)
    if mark is None:
        return None
    return Anchor(
        mark.part,
        mark.copy,
        mark.row,
        mark.label,
        digest_of(mark.words) if mark.label else "",
        mark.passes,
        mark.elements_done,
    )


def _json(arguments: Mapping[str, int | str | list[int]]) -> Mapping[str, Json]:
    return {key: [*value] if isinstance(value, list) else value for key, value in arguments.items()}
