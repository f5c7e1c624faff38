"""Pieces that tests take up: a journal that is sound, one that was worked, and a deed in another process."""

import os
from collections.abc import Callable
from pathlib import Path

from tracker.journal import Anchor, Entry, Journal, Json, digest_of, open_journal

NOW_MS = 1_700_000_000_000


def opened(file: Path) -> Journal:
    """A journal that is sound, so that there is nothing to tell."""
    journal, notices = open_journal(file, NOW_MS)
    assert notices == ()
    return journal


def entry(number: int, **said: Json) -> Entry:
    """The maker said "next" and stands in row 9."""
    anchor = Anchor(None, 1, 9, "Row 9", digest_of("Ch 3, dc in next 4 sts."), (2,), number)
    return Entry(number, NOW_MS + number, "next", said, (0, 1, 9, number), anchor)


def worked(file: Path, steps: int) -> tuple[Entry, ...]:
    """A piece that has been worked for so many steps and put away."""
    done = tuple(map(entry, range(1, steps + 1)))
    with opened(file) as journal:
        journal.keep_text("Row 1: Ch 3.", "harbour.txt", NOW_MS)
        journal.set_fact("name", "For the kitchen", NOW_MS)
        for each in done:
            journal.append(each)
    return done


def in_another_process(deed: Callable[[], str]) -> str:
    """What a deed says that is done in a process of its own, as a user who owns nothing when we are root."""
    reads, writes = os.pipe()
    child = os.fork()
    if child == 0:
        said = "the deed ended in an exception"
        try:
            said = deed()
        finally:
            os.write(writes, said.encode())
            os._exit(0)
    os.close(writes)
    with os.fdopen(reads) as answer:
        said = answer.read()
    os.waitpid(child, 0)
    return said
