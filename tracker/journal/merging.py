"""Two journals of one piece, worked on two machines, made one: every deed of both is kept.

Entries of both come in; which are missing here, and whether both went on since, go out. Pure: nothing is written.
The deeds that are kept are the same whichever of the two is merged into the other.
"""

import json
from collections import Counter
from dataclasses import dataclass, replace
from enum import Enum

from tracker.journal.entries import Entry
from tracker.journal.whole import Whole

MERGED = "merged"
"""Frozen name of the entry before deeds that came from another machine: it takes the hands to where they began."""
PLACE = "place"


class Standing(Enum):
    """How two journals of one piece stand to each other."""

    SAME = "the same"
    BEHIND = "behind"
    """The other has all that this one has, and more."""
    AHEAD = "ahead"
    """This one has all that the other has."""
    APART = "apart"
    """Both went on since: the maker says which place holds."""


@dataclass(frozen=True, slots=True)
class Merge:
    """What is to be done to one journal so that it has all of the other."""

    standing: Standing
    missing: tuple[Entry, ...]
    """Deeds of the other that are not here, in their order."""
    fork: Entry | None
    """The other's last entry before the first that is missing; None when there is none before it."""


def merge(ours: tuple[Entry, ...], theirs: tuple[Entry, ...]) -> Merge:
    """How the other journal's deeds are to be added to this one's."""
    missing = _missing(ours, theirs)
    only_here = _missing(theirs, ours)
    standing = (
        (Standing.APART if missing else Standing.AHEAD)
        if only_here
        else (Standing.BEHIND if missing else Standing.SAME)
    )
    first = theirs.index(missing[0]) if missing else 0
    return Merge(standing, missing, theirs[first - 1] if first else None)


def to_append(merged: Merge, ours: Whole, theirs: Whole, theirs_holds: bool, at_ms: int) -> tuple[Entry, ...]:
    """The entries to be written behind our own, the last of them at the place that holds."""
    number = ours.last.number if ours.last else 0
    out: list[Entry] = []

    def put(entry: Entry) -> None:
        out.append(replace(entry, number=number + len(out) + 1))

    if not merged.missing:
        return ()
    here, there = ours.last, theirs.last
    fork = merged.fork
    if fork is not None and here is not None and fork.place != here.place:
        put(Entry(0, at_ms, MERGED, {"steps": len(merged.missing)}, fork.place, fork.anchor))
    for entry in merged.missing:
        put(entry)
    holds = there if theirs_holds or here is None else here
    if holds is not None and holds.place != out[-1].place:
        put(Entry(0, at_ms, PLACE, {"place": list(holds.place)}, holds.place, holds.anchor))
    return tuple(out)


def deeds_of(entries: tuple[Entry, ...]) -> Counter[str]:
    """What was done and when, whatever its number: two journals with the same deeds have the same."""
    return Counter(map(_known_by, entries))


def _missing(ours: tuple[Entry, ...], theirs: tuple[Entry, ...]) -> tuple[Entry, ...]:
    have = deeds_of(ours)
    out: list[Entry] = []
    for entry in theirs:
        known = _known_by(entry)
        if have[known]:
            have[known] -= 1
        else:
            out.append(entry)
    return tuple(out)


def _known_by(entry: Entry) -> str:
    return json.dumps(
        [entry.at_ms, entry.deed, dict(entry.arguments), list(entry.place), entry.note], sort_keys=True
    )
