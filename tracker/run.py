"""One piece at work: a session, its journal, and the one way a deed gets done. Works with no screen.

A deed and the time come in; what is to be said and shown goes out, and only after the deed is on the disk. Called on
one thread only, the front end's. A journal that refuses leaves the session as it was, and says why.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from tracker.journal import Anchor, Entry, Journal, JournalTrouble, Json, digest_of, open_journal
from tracker.load import Loaded, load
from tracker.program.places import Place, Program
from tracker.session.apply import Effect, Keep, Say, apply
from tracker.session.deeds import Deed, PutAt
from tracker.session.piece.card import KEYS
from tracker.session.piece.found import Known, refound, row_with_label
from tracker.session.piece.recap import recap
from tracker.session.replay import Kept, replayed, skimmed
from tracker.session.state import Maker, Session, begun
from tracker.session.view import Devices, View, view
from tracker.trade.speech import Speech

REPLAYED = 3_000
"""Deeds that are gone through again as a piece is opened: how far back undo reaches."""


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


def open_desk(
    file: Path, name: str, source: str, text: str, size: str | None, at_ms: int,
    speech: Speech | None = None, maker: Maker | None = None,
) -> Opened:  # fmt: skip
    """Open the piece worked from a text, or begin it.

    `file` is its journal, `source` where the text came from, `speech` in whose words it is told.
    Raises JournalTrouble; the text never makes it fail.
    """
    journal, notices = open_journal(file, at_ms)
    try:
        said = [str(notice) for notice in notices]
        size = size if size is not None else journal.fact("size")
        loaded = load(name, text, size)
        if loaded.pattern.size is not None and loaded.pattern.size != journal.fact("size"):
            journal.set_fact("size", loaded.pattern.size, at_ms)
        program = Program(loaded.source, loaded.pattern, loaded.fabric, loaded.problems, speech)
        entries = journal.all()
        edited = journal.edited_since(text)
        journal.keep_text(text, source, at_ms)
        kept = journal.text()
        since = tuple(entry for entry in entries if kept is None or entry.number >= kept.from_entry)
        desk = Desk(loaded, begun(program), journal)
        if entries and not since:
            # Edited just now, or a kill came between the new text and the place in it.
            said.extend(_take_up(desk, program, entries[-1], edited is not None, at_ms))
        elif since:
            earlier, since = since[:-REPLAYED], since[-REPLAYED:]
            desk.session = replayed(program, map(_kept, since), skimmed(program, map(_kept, earlier)))
        desk.session = replace(desk.session, maker=maker or Maker(), card=_card(journal))
        if not entries:
            return Opened(desk, tuple(said), False, desk.view().said)
        where, asked = recap(desk.session, at_ms - entries[-1].at_ms)
        desk.session = replace(desk.session, asked=desk.session.asked or asked)
        question = desk.session.asked.question if desk.session.asked else ""
        return Opened(desk, tuple(said), True, f"{where} {question}".strip())
    except BaseException:
        journal.close()
        raise


def _take_up(desk: Desk, program: Program, last: Entry, edited: bool, at_ms: int) -> tuple[str, ...]:
    """Find the place of an older text in this one, and keep it."""
    anchor = last.anchor
    if anchor is None:
        place, said, sure = program.end, "The pattern was edited since; the piece was finished.", True
    else:
        row = row_with_label(program, anchor.label, anchor.part, anchor.row_index) if anchor.label else None
        same = None if row is None else digest_of(program.words(row)) == anchor.digest
        found = refound(
            program,
            Known(anchor.part, anchor.copy, anchor.row_index, anchor.label, same, anchor.elements_done),
        )
        place, said, sure = found.place, found.said, found.sure
    del edited
    desk.do(PutAt(place), at_ms)
    if (
        desk.journal.last_number == last.number
    ):  # the place is the start, where it stood already: kept all the same
        desk._keep("place", {"place": list(place)}, place, program, at_ms)
    if sure or anchor is None or not anchor.label:
        return (said,)
    return (said, "The older wording is kept in the piece's journal.")


def anchor_of(program: Program, place: Place) -> Anchor | None:
    """A place as the journal keeps it beside its address."""
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


def _card(journal: Journal) -> tuple[tuple[str, str], ...]:
    """What was last written in each line of the piece card."""
    written = ((key, journal.fact(f"card {key}")) for key in KEYS)
    return tuple((key, words) for key, words in written if words)


def _kept(entry: Entry) -> Kept:
    return Kept(entry.deed, entry.arguments, entry.place)


def _json(arguments: Mapping[str, int | str | list[int]]) -> Mapping[str, Json]:
    return {key: [*value] if isinstance(value, list) else value for key, value in arguments.items()}
