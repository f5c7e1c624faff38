"""A piece from what its journal kept: the program, the session in it, how far it is. Nothing is written.

A Whole comes in, with the pattern's text when the maker has another one now; values go out. A journal that cannot be
read costs its own place on the shelf, never the shelf.
"""

from collections.abc import Iterable
from pathlib import Path

from tracker.journal import Entry, Piece, Text, Whole, digest_of, kept_text, pieces, whole_of
from tracker.load import Loaded, load
from tracker.planning.balls import Rate
from tracker.program.places import Program
from tracker.records import dataclass, replace
from tracker.session.piece.card import KEYS
from tracker.session.record.found import Known, Refound, refound, row_with_label, standing
from tracker.session.record.log import Step
from tracker.session.record.progress import progress
from tracker.session.record.yarn import label_of, weighed_rate
from tracker.session.replay import Kept, replayed, skimmed
from tracker.session.state import Session, begun
from tracker.session.wording import part_name
from tracker.trade.said.speech import Speech

REPLAYED = 3_000
"""Deeds that are gone through again as a piece is opened: how far back undo reaches."""
LED = "led"
"""The fact that rows which go on until the piece is long enough are places of it: not so in pieces begun before they
were led through."""
MAKE = "make"
"""The fact of how many of the piece the maker wants, where the pattern says another number."""


@dataclass(frozen=True, slots=True)
class InHand:
    """A piece as it lies on the shelf, to be chosen."""

    piece: Piece
    title: str
    place: str
    """ "Square fourteen of thirty, Row 9"; "finished"; "not begun"."""
    percent: int | None
    """Done, from 0 to 100; None where the end is not known."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """What a piece in hand tells of a pattern's yarn."""

    name: str
    """Of the piece."""
    rate: Rate | None
    """None where nothing was weighed that tells it."""
    label: tuple[float, float] | None
    """Metres and grams of a ball, as the card or the pattern names them."""
    copies: int
    """How many the maker wants."""


def program_of(
    whole: Whole, name: str, text: str, size: str | None, speech: Speech | None
) -> tuple[Loaded, Program]:
    """The pattern worked, with as many copies as the maker wants."""
    loaded = load(name, text, size if size is not None else fact(whole, "size"))
    many = fact(whole, MAKE)
    if many is not None and many.isdecimal() and 1 <= int(many) <= 9999:
        loaded = replace(loaded, pattern=replace(loaded.pattern, copies=int(many)))
    fabric, problems = loaded.fabric, loaded.problems
    if fabric.open_ended and fact(whole, LED):
        from tracker.program.open_rows import opened

        fabric, problems = opened(loaded.source, loaded.pattern, fabric, problems)
    return loaded, Program(loaded.source, loaded.pattern, fabric, problems, speech)


def with_copies(program: Program, number: int) -> Program:
    """The same with so many copies of it."""
    pattern = replace(program.pattern, copies=number)
    return Program(program.source, pattern, program.fabric, program.problems, program.speech)


def session_of(whole: Whole, program: Program, text: str) -> tuple[Session, bool]:
    """The session after all that was kept; false when none of it is of this text: its place is to be found."""
    first = _first_entry(whole.texts, digest_of(text))
    older = [entry for entry in whole.entries if first is None or entry.number < first]
    since = whole.entries[len(older) :]
    start = skimmed(program, map(_kept, _in_new_words(older, program))) if older else begun(program)
    if older and since and since[0].deed == "place":
        # found again after an edit: there is no way back from there, the places before are of another text
        start, since = skimmed(program, [_kept(since[0])], start), since[1:]
        if not since:
            return replace(start, card=card_of(whole)), True
    if not since:
        return start, not older
    latest = since[-REPLAYED:]
    start = skimmed(program, map(_kept, since[:-REPLAYED]), start) if len(since) > REPLAYED else start
    session = replayed(program, map(_kept, latest), start)
    return replace(session, card=card_of(whole)), True


def card_of(whole: Whole) -> tuple[tuple[str, str], ...]:
    """What was last written in each line of the piece card."""
    return tuple((key, words) for key in KEYS if (words := fact(whole, f"card {key}")))


def fact(whole: Whole, key: str) -> str | None:
    """What was last said of the whole piece under a name."""
    return next((one.value for one in reversed(whole.facts) if one.key == key), None)


def found_again(whole: Whole, program: Program, text: str, size: str | None) -> Refound:
    """The place of an older text in the one that is worked now."""
    last = whole.entries[-1]
    anchor = last.anchor
    if anchor is None:
        return Refound(program.end, True, "The pattern was edited since; the piece was finished.")
    row = row_with_label(program, anchor.label, anchor.part, anchor.row_index) if anchor.label else None
    same = None if row is None else digest_of(program.words(row)) == anchor.digest
    known = Known(anchor.part, anchor.copy, anchor.row_index, anchor.label, same, anchor.elements_done)
    older = next((one for one in reversed(whole.texts) if one.digest != digest_of(text)), None)
    if older is not None and anchor.label:
        _, before = program_of(whole, "", older.text, size, None)
        if before.holds(last.place) and before.fabric.row(last.place[2]).label == anchor.label:
            part, copy, row_index, aside, group, beat, single = last.place
            place = (part, copy, row_index, aside, group, beat, single)
            stood, below = standing(before, place)
            known = replace(known, words=before.words(row_index), stood=stood, below=below)
    return refound(program, known)


def steps_of(whole: Whole) -> tuple[Step, ...]:
    """Every deed with its time, for the log."""
    return tuple(
        Step(entry.at_ms, entry.deed, (a, b, c, d, e, f, g))
        for entry in whole.entries
        if len(entry.place) == 7
        for a, b, c, d, e, f, g in [entry.place]
    )


def taken_down(file: Path) -> tuple[Whole, Loaded, Session]:
    """A piece by its journal, from the text that was kept with it; ValueError when it cannot be read."""
    whole = whole_of(file)
    if whole.text is None:
        raise ValueError("no text of its pattern was kept")
    text = whole.text.text
    loaded, program = program_of(whole, Path(whole.text.source).name, text, None, None)
    session, _ = session_of(whole, program, text)
    return whole, loaded, replace(session, card=card_of(whole))


def weighed_of(piece: Piece) -> Weighed | None:
    """What one piece tells of its yarn; None when it cannot be read."""
    try:
        _, loaded, session = taken_down(piece.file)
    except ValueError:
        return None
    return Weighed(piece.name, weighed_rate(session), label_of(session), loaded.pattern.copies or 1)


def weighed_with(text: str, source: str, folder: Path) -> Weighed | None:
    """What the pieces in hand of this text, or of this file, tell of its yarn: the one worked last that was weighed."""
    found = [
        piece
        for piece in pieces(folder)[0]
        if piece.entries and (piece.source == source or kept_text(piece.file) == text)
    ]
    told = [one for piece in found if (one := weighed_of(piece))]
    return next((one for one in told if one.rate), told[0] if told else None)


def in_hand(folder: Path) -> tuple[tuple[InHand, ...], tuple[str, ...]]:
    """The pieces in hand, latest worked first, and what is to be said of those that do not open."""
    found, notices = pieces(folder)
    out: list[InHand] = []
    said = [str(notice) for notice in notices]
    for piece in found:
        try:
            _, loaded, session = taken_down(piece.file)
        except ValueError as broken:
            said.append(f"The piece {piece.name!r} cannot be opened: {broken}.")
            continue
        out.append(InHand(piece, loaded.pattern.title, _place(session, piece), progress(session).percent))
    return tuple(out), tuple(said)


def _place(session: Session, piece: Piece) -> str:
    if not piece.entries:
        return "not begun"
    if session.place == session.program.end:
        return "finished"
    placed = session.program.placed(session.place)
    name = part_name(session.program, session.place)
    row = placed.label if placed is not None else "" if name else "between rows"
    return ", ".join(filter(None, (name, row)))


def _first_entry(texts: tuple[Text, ...], digest: str) -> int | None:
    """The first entry worked from a text as it is now, wherever its file lay; None when it is not the one in use."""
    first: int | None = None
    for text in reversed(texts):
        if text.digest != digest:
            break
        first = text.from_entry
    return first


def _in_new_words(older: Iterable[Entry], program: Program) -> Iterable[Entry]:
    """Entries of an older text; marks stand at the row that has their label now."""
    for entry in older:
        anchor = entry.anchor
        if entry.deed == "mark" and anchor is not None and anchor.label:
            row = row_with_label(program, anchor.label, anchor.part, anchor.row_index)
            if row is not None:
                start = program.row_start(program.start, row)
                entry = replace(entry, place=(start[0], entry.place[1], *start[2:]))
        yield entry


def _kept(entry: Entry) -> Kept:
    return Kept(entry.deed, entry.arguments, entry.place)
