"""THE TABLE of rewordings: the same pattern told in another designer's words, which must make the same fabric.

Comes in: the right patterns of the corpora, each with its truth. Goes out: for every rewording, the patterns that are
no longer read wholly right. As a command it goes through all of them, or those whose names are given:

    python tests/reading/rewordings.py [--show 5] [NAME …]

A rewording changes words and never what is made, so whatever is read otherwise afterwards is a gap of the reader's;
where the words do mean something else in some pattern, that pattern is named in `but_not`, with the reason beside it.
The table lies in `reworded/`, a file a field.
"""

import argparse
import hashlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import cache
from itertools import islice

from corpus_cases import RIGHT, WHOLE, Case, cases, judged_text
from reworded.again import AGAIN
from reworded.around_rows import AROUND_ROWS
from reworded.chains import CHAINS
from reworded.counts import COUNTS
from reworded.joints import JOINTS
from reworded.labels import LABELS
from reworded.names import NAMES
from reworded.places import PLACES
from reworded.repeats import REPEATS
from reworded.rings import RINGS
from reworded.rounds import ROUNDS
from reworded.shaping import SHAPING
from reworded.stitches import STITCHES
from reworded.uk import UK
from reworded.wording import Rewording

REWORDINGS = (
    *STITCHES,
    *NAMES,
    *SHAPING,
    *PLACES,
    *JOINTS,
    *UK,
    *CHAINS,
    *REPEATS,
    *RINGS,
    *ROUNDS,
    *LABELS,
    *COUNTS,
    *AGAIN,
    *AROUND_ROWS,
)
AMONG = 5
"""Of so many patterns that a rewording changes, some are read."""


@dataclass(slots=True)
class Told:
    """What became of all patterns that one rewording changes."""

    rewording: Rewording
    changed: int = 0
    amiss: list[str] = field(default_factory=list)
    """One line for every pattern no longer read wholly right."""


@cache
def wholly_right() -> tuple[Case, ...]:
    """The patterns that are read wholly right in their own words."""
    names = {folder: set(WHOLE[folder].split()) for folder in RIGHT}
    return tuple(case for folder in RIGHT for case in cases(folder) if case.name in names[folder])


def reworded(rewording: Rewording, among: Iterable[Case]) -> Iterator[tuple[Case, str]]:
    """Each pattern that the rewording changes, with its text in the other words."""
    not_there = set(rewording.but_not.split())
    for case in among:
        if case.name not in not_there and (text := rewording.of(case.text)) != case.text:
            yield case, text


def told(rewording: Rewording, among: Iterable[Case]) -> Told:
    """One rewording put to every pattern it changes."""
    found = Told(rewording)
    for case, text in reworded(rewording, among):
        found.changed += 1
        judged = judged_text(case, text)
        if not judged.whole:
            old, new = _first_change(case.text, text)
            found.amiss.append(
                f"{case.folder}/{case.name}: {judged.right} of {judged.rows} rows right, {judged.wrong} wrong,"
                f" {judged.false_errors} errors; first change {old!r} -> {new!r}"
            )
    return found


def some(rewording: Rewording, most: int) -> list[Case]:
    """At most so many patterns that the rewording changes, always the same ones, from all over the corpora.

    Of the first `AMONG` met, those it changes most of: what is read is read for the words that were changed.
    """
    mixed = sorted(
        wholly_right(), key=lambda case: hashlib.sha256(f"{rewording.name} {case.name}".encode()).digest()
    )
    met = list(islice(reworded(rewording, mixed), AMONG))
    met.sort(key=lambda each: len(each[1]) / _lines_changed(each[0].text, each[1]))
    return [case for case, _ in met[:most]]


def _lines_changed(old: str, new: str) -> int:
    were = set(old.splitlines())
    return sum(line not in were for line in new.splitlines()) or 1


def _first_change(old: str, new: str) -> tuple[str, str]:
    at = next((at for at, (a, b) in enumerate(zip(old, new, strict=False)) if a != b), 0)
    return old[max(0, at - 25) : at + 35], new[max(0, at - 25) : at + 45]


def main() -> None:
    """Goes through the rewordings and prints where one is not read as what it rewords."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("names", nargs="*", help="only rewordings whose names hold one of these")
    parser.add_argument("--show", type=int, default=3, help="so many patterns of each are printed")
    wanted = parser.parse_args()
    changed = amiss = 0
    for rewording in REWORDINGS:
        if wanted.names and not any(name in rewording.name for name in wanted.names):
            continue
        found = told(rewording, wholly_right())
        changed, amiss = changed + found.changed, amiss + len(found.amiss)
        print(f"{rewording.name}: {len(found.amiss)} of {found.changed} amiss", flush=True)
        for line in found.amiss[: wanted.show]:
            print(f"    {line}")
    print(f"in all: {amiss} of {changed} amiss")


if __name__ == "__main__":
    main()
