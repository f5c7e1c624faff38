"""A piece from another machine taken in, two journals of one piece made one, and a piece put away.

Files come in, sentences go out; whoever has to be asked is asked through a function. What cannot be read is a NoPiece
with one sentence, and then nothing was changed. Every deed of both journals is kept.
"""

from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

from tracker.journal import Entry, Whole, open_journal, piece_file, pieces, whole_of
from tracker.journal.merging import Merge, Standing, merge, to_append
from tracker.journal.pieces import SUFFIX
from tracker.journal.sqlite.store import Journal
from tracker.journal.whole import read
from tracker.shelf.choosing import NoPiece
from tracker.shelf.taking_up import fact

MOST_BYTES = 256_000_000
Ask = Callable[[tuple[str, ...], tuple[str, ...]], str]


def taken_in(file: Path, folder: Path, holds: str | None, ask: Ask, at_ms: int) -> str:
    """Take a file in and say what came of it; raises NoPiece, JournalTrouble or OSError, and then all is as before."""
    theirs = _read(file)
    name = theirs.name or (Path(theirs.text.source).stem if theirs.text else file.stem)
    for piece in pieces(folder)[0]:
        try:
            ours = whole_of(piece.file)
        except ValueError:
            continue
        if theirs.entries and ours.begins_as == theirs.begins_as:
            return _joined(piece.file, piece.name, theirs, holds, ask, at_ms)
    target = piece_file(folder, f"from another machine {theirs.begins_as}", name)
    if target.exists():
        raise NoPiece(f"{name} is here already, and was not begun on either machine; nothing is to be done.")
    journal, _ = open_journal(target, at_ms)
    with journal:
        _write_facts(journal, theirs)
        _write_texts(journal, theirs)
        if fact(theirs, "name") is None:
            journal.set_fact("name", name, at_ms)
    return f"{name} is in hand now, with its {len(theirs.entries)} steps: rowteller work --piece {name!r}"


def _joined(file: Path, name: str, theirs: Whole, holds: str | None, ask: Ask, at_ms: int) -> str:
    """One piece worked on two machines."""
    journal, _ = open_journal(file, at_ms)
    with journal:
        ours = journal.whole()
        merged = merge(ours.entries, theirs.entries)
        if merged.standing in (Standing.SAME, Standing.AHEAD):
            return f"{name} has all of these steps already."
        theirs_holds = merged.standing is Standing.BEHIND
        if merged.standing is Standing.APART:
            answer = holds or ask(_both(name, merged, ours, theirs), ("here", "there"))
            if not answer:
                raise NoPiece("Nothing was taken in. Say whose place holds: --holds here, or --holds there.")
            theirs_holds = answer == "there"
        known = {text.digest for text in ours.texts}
        for text in theirs.texts:
            if text.digest not in known:
                journal.keep_text(text.text, text.source, text.at_ms)
        held = (theirs if theirs_holds else ours).text
        if held is not None and journal.edited_since(held.text) is not None:
            journal.keep_text(held.text, held.source, at_ms)
        journal.append_all(to_append(merged, ours, theirs, theirs_holds, at_ms))
        for one in theirs.facts:
            if fact(ours, one.key) is None:
                journal.set_fact(one.key, one.value, one.at_ms)
        where = _place(theirs.last if theirs_holds else ours.last)
        return (
            f"{name}: {len(merged.missing)} steps of the other machine's are here now; you stand at {where}."
        )


def _both(name: str, merged: Merge, ours: Whole, theirs: Whole) -> tuple[str, ...]:
    """Both places, to choose from."""
    return (
        f"{name} was worked on both machines since. Every step of both is kept; whose place holds?",
        f"  here:  {_place(ours.last)}, last worked {_day(ours.last)}",
        f"  there: {_place(theirs.last)}, last worked {_day(theirs.last)}",
        f"{len(merged.missing)} steps of that are not here yet.",
        "here or there?",
    )


def _place(entry: Entry | None) -> str:
    if entry is None:
        return "its start"
    if entry.anchor is None:
        return "its end"
    anchor = entry.anchor
    copy = f"number {anchor.copy}, " if anchor.copy > 1 else ""
    part = f"{anchor.part}, " if anchor.part else ""
    done = f", {anchor.elements_done} done" if anchor.elements_done else ""
    return f"{part}{copy}{anchor.label or 'between rows'}{done}"


def _day(entry: Entry | None) -> str:
    return f"{datetime.fromtimestamp(entry.at_ms / 1000):%Y-%m-%d %H:%M}" if entry is not None else "never"


def _read(file: Path) -> Whole:
    """A file that was exported, or a journal itself."""
    if file.suffix == SUFFIX:
        try:
            return whole_of(file)
        except ValueError as broken:
            raise NoPiece(f"{file} cannot be read as a journal ({broken}).") from None
    with file.open("rb") as opened:
        raw = opened.read(MOST_BYTES + 1)
    try:
        if len(raw) > MOST_BYTES:
            raise ValueError("it is too large for one")
        return read(raw.decode("utf-8"))
    except UnicodeDecodeError:
        raise NoPiece(f"{file} is no piece that rowteller wrote (it is no text).") from None
    except ValueError as wrong:
        raise NoPiece(f"{file} is no piece that rowteller wrote ({wrong}).") from None


def _write_facts(journal: Journal, whole: Whole) -> None:
    for one in whole.facts:
        journal.set_fact(one.key, one.value, one.at_ms)


def _write_texts(journal: Journal, whole: Whole) -> None:
    """Texts and entries, each text before the first entry that was worked from it; entries numbered without gaps."""
    numbered = [_renumbered(entry, at) for at, entry in enumerate(whole.entries, 1)]
    at = 0
    for text in whole.texts:
        before = sum(1 for entry in whole.entries if entry.number < text.from_entry)
        journal.append_all(tuple(numbered[at:before]))
        at = max(at, before)
        journal.keep_text(text.text, text.source, text.at_ms)
    journal.append_all(tuple(numbered[at:]))


def _renumbered(entry: Entry, number: int) -> Entry:
    from tracker.records import replace

    return replace(entry, number=number)


def removed_folder(folder: Path) -> Path:
    """Where pieces go that are put away."""
    return folder.parent / "removed"


def put_away(file: Path, at_ms: int) -> Path:
    """Move a piece's journal out of the pieces in hand, under a name that is free; the journal as it lies now."""
    journal, _ = open_journal(
        file, at_ms
    )  # nobody else has it open, and what SQLite holds beside it is in it
    with journal:
        folder = removed_folder(file.parent)
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        day = datetime.fromtimestamp(at_ms / 1000, UTC)
        target = folder / f"{file.stem}-{day:%Y%m%d-%H%M%S}{SUFFIX}"
        tries = 2
        while target.exists():
            target, tries = folder / f"{file.stem}-{day:%Y%m%d-%H%M%S}-{tries}{SUFFIX}", tries + 1
        journal.let_go()
        for beside in ("", "-wal", "-shm"):
            part = file.with_name(file.name + beside)
            if part.exists():
                part.rename(target.with_name(target.name + beside))
    return target
