"""THE TABLE of rewordings: the same pattern told in another designer's words, which must make the same fabric.

Comes in: the right patterns of the corpora, each with its truth. Goes out: for every rewording, the patterns that are
no longer read wholly right. As a command it goes through all of them, or those whose names are given:

    python tests/reading/rewordings.py [--show 5] [NAME …]

A rewording changes words and never what is made, so whatever is read otherwise afterwards is a gap of the reader's;
where the words do mean something else in some pattern, that pattern is named in `but_not`, with the reason beside it.
"""

import argparse
import hashlib
import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from functools import cache

from corpus_cases import RIGHT, WHOLE, Case, cases, judged_text

Put = str | Callable[[re.Match[str]], str]


@dataclass(frozen=True, slots=True)
class Rewording:
    """Words of one designer, and what another writes for them."""

    name: str
    words: str
    """A regular expression over the whole text."""
    put: Put
    """What stands there instead, as `re.sub` takes it."""
    but_not: str = ""
    """Names of patterns in which the other words would say something else."""

    def of(self, text: str) -> str:
        """The text in the other words; the same text where there is nothing to reword."""
        return re.sub(self.words, self.put, text)


@dataclass(slots=True)
class Told:
    """What became of all patterns that one rewording changes."""

    rewording: Rewording
    changed: int = 0
    amiss: list[str] = field(default_factory=list)
    """One line for every pattern no longer read wholly right."""


IN_WORDS = {
    2: "two",
    3: "three",
    4: "four",
    5: "five",
    6: "six",
    7: "seven",
    8: "eight",
    9: "nine",
    10: "ten",
}


def _in_words(match: re.Match[str]) -> str:
    return IN_WORDS.get(int(match[0]), match[0])


def _ordinal(match: re.Match[str]) -> str:
    number = match[1]
    end = {"1": "st", "2": "nd", "3": "rd"}.get(number[-1], "th") if number[-2:-1] != "1" else "th"
    return f"{number}{end} {match[0].split()[0].lower()}:"


COUNT = r"\((\d+) (sc|hdc|dc|sts?)\)(?= ?\n)"
"""A count at the end of its line."""
CORNER = r"\((\d) (dc|sc|hdc), ch (\d), \1 \2\)"

REWORDINGS = (
    # How a stitch is told.
    Rewording("skip", r"\b([Ss])k\b", r"\1kip"),
    Rewording("sk", r"\b([Ss])kip\b", r"\1k"),
    Rewording("skip the next", r"\bsk(?:ip)?\s+next\b", "skip the next"),
    Rewording("in each of next", r"\b((?:sc|hdc|dc|tr)) in next (\d+)\b", r"\1 in each of next \2"),
    Rewording("in each of the next", r"\bin each of next\b", "in each of the next"),
    Rewording("the next", r"\bin next\b", "in the next"),
    Rewording("into", r"\b(sc|hdc|dc|tr)(\s+)in(\s+)(next|each|first|last|same|ring)\b", r"\1\2into\3\4"),
    Rewording("every", r"\b(sc|hdc|dc) in each (st|sc|dc|hdc)\b", r"\1 in every \2"),
    Rewording("glued number", r"\b(\d+) (dc|sc|hdc)\b(?= in)", r"\1\2"),
    Rewording("same stitch", r"\bin same st\b", "into the same stitch"),
    Rewording("same place", r"\bin same st\b", "in same place"),
    Rewording("2 in 1", r"\b2 (sc|dc|hdc) in (?:the )?next st\b", r"2 \1 in 1 st"),
    # Chains and spaces.
    Rewording("ch-2-sp", r"\bch-(\d) sp\b", r"ch-\1-sp"),
    Rewording("counting as", r"\(counts as (?:first )?(dc|hdc|tr)\)", r"(counting as \1)"),
    Rewording("= dc", r"\(counts as (?:first )?(dc|hdc|tr)\)", r"(= \1)"),
    Rewording("your first", r"\(counts as (dc|hdc|tr)\)", r"(counts as your first \1)"),
    Rewording("3rd ch of turning ch", r"\bin top of (?:beg |turning )?ch-3\b", "in 3rd ch of turning ch-3"),
    # Repeats.
    Rewording("repeat from *", r"\brep from \*", "repeat from *"),
    Rewording("rep from *", r"\brepeat from \*", "rep from *"),
    Rewording("2 times", r"\btwice\b(?! more)", "2 times"),
    Rewording("all around", r"(rep(?:eat)? from \*) around", r"\1 all around"),
    Rewording("each all around", r"(in each (?:st|sc|dc|hdc)) around", r"\1 all around"),
    # Rings and joins.
    Rewording("into the ring", r"\bin (?:the )?ring\b", "into the ring"),
    Rewording("centre of ring", r"\bin (?:the )?ring\b", "in centre of ring"),
    Rewording("magic circle", r"\bmagic ring\b", "magic circle"),
    Rewording("MR", r"\b[Mm]agic ring\b", "MR"),
    Rewording("join to the first", r"join with sl st (?:in|to) first", "join with a slip stitch to the first"),
    Rewording("a join of its own", r"; join with sl st", ". Join with sl st"),
    Rewording("corner with plus", CORNER, r"(\1 \2 + ch \3 + \1 \2)"),
    Rewording("corner without commas", CORNER, r"(\1 \2 ch \3 \1 \2)"),
    # Labels, counts, rows again.
    Rewording("Round", r"(?m)^Rnd (\d+)( \([RW]S\))?:", r"Round \1\2:"),
    Rewording("bold label", r"(?m)^((?:Rnd|Row) \d+)( \([RW]S\))?:", r"**\1\2:**"),
    Rewording("count in brackets", COUNT, r"[\1 \2]"),
    Rewording("count after a dash", COUNT, r"– \1 \2."),
    Rewording("count in total", COUNT, r"(\1 \2 total)"),
    Rewording("Repeat Row", r"\bRep (Rows?|Rnds?)\b", r"Repeat \1"),
    Rewording("Same as Row", r": Rep (Rows?|Rnds?) (\d+)\.", r": Same as \1 \2."),
    Rewording("Work as for Row", r": Rep (Rows?|Rnds?) (\d+)\.", r": Work as for \1 \2."),
    Rewording("em dash of rows", r"(?m)^(Rows|Rnds) (\d+) ?[-–] ?(\d+)", r"\1 \2—\3"),
)  # fmt: skip


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
    """At most so many patterns that the rewording changes, always the same ones, from all over the corpora."""
    changed = [case for case, _ in reworded(rewording, wholly_right())]
    return sorted(
        changed, key=lambda case: hashlib.sha256(f"{rewording.name} {case.name}".encode()).digest()
    )[:most]


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
