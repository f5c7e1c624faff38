"""Lost places and miscounts to be tested by, and the work of a piece written out plainly, place by place.

`corpus/lostplace` and `corpus/miscount` hold what a maker sees or counts, with the places that fit and a technical
editor's ranking of causes; both were made outside the project. Nothing here uses the index.
"""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from corpus_cases import CORPUS, reading

from tracker.fabric.model import SP
from tracker.finding.evidence import Evidence, listed, tallies
from tracker.load import Loaded, load
from tracker.samples import samples

# Flat, in rounds, UK, filet, shells, V-stitches, ripples, post stitches, toys: a dozen of many kinds.
DOZEN = (
    ("practice", "granny_square"), ("practice", "ripple_dc"), ("practice", "post_rib_cuff"),
    ("practice", "uk_granny"), ("practice", "ami_ball"), ("flat", "v_stitch_scarf"), ("flat", "shell_throw_strip"),
    ("flat", "filet_diamond_mat"), ("flat", "ch1_filet_initial_tag"), ("flat", "uk_cot_panel"),
    ("flat", "waffle_face_cloth"), ("rounds", "snowday_mittens"), ("rounds", "popcorn_block"),
    ("rounds", "pip_mouse"), ("rounds", "turned_granny_uk"),
)  # fmt: skip


@cache
def pieces() -> tuple[tuple[str, Loaded], ...]:
    """Every sample of ours and the dozen."""
    ours = [(name, load(file.name, file.read_text(encoding="utf-8"))) for name, file in samples().items()]
    return (*ours, *((name, reading(folder, name)) for folder, name in DOZEN))


@cache
def told(folder: str) -> tuple[dict[str, Any], ...]:
    """The cases of a folder."""
    files = sorted((CORPUS / folder).glob("*.json"))
    return tuple(json.loads(Path(file).read_text(encoding="utf-8")) for file in files)


def evidence_of(case: dict[str, Any]) -> Evidence:
    """What the maker of a lost-place case sees, by way of the lists a maker would give."""

    def given(key: str) -> tuple[str, ...] | None:
        return listed(", ".join(case[key])) if case.get(key) else None

    counts = "; ".join(
        ", ".join(f"{number} {name}" for name, number in row.items())
        for row in case.get("top_rows_counts", ())
    )
    done = case["rows_finished"]["expanded_row_index"] if case.get("rows_finished") else None
    return Evidence(
        done=None if done is None else str(done), so_far=given("this_row_so_far"),
        count=case.get("sts_counted_so_far"), last=given("last_worked"), top=given("top_finished_row"),
        top_counts=tallies(counts),
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Worked:
    """A piece with every row written out."""

    rows: tuple[tuple[str, ...], ...]
    """Names of what counts, row by row."""
    stitches: tuple[tuple[bool, ...], ...]
    """For each of them whether it is a stitch."""
    afresh: tuple[bool, ...]
    """For each row whether it stands on a chain or ring of its own."""

    def places(self) -> Iterator[tuple[int, int]]:
        """Every place, as (row from 1, done); a full row is the next one with nothing done."""
        for row, names in enumerate(self.rows, 1):
            for done in range(len(names) + 1):
                if done == 0 or done < len(names):
                    yield row, done
        yield len(self.rows) + 1, 0

    def seen_at(self, row: int, done: int) -> Iterator[tuple[int, int]]:
        """The ways to name a place as so much of a row: the start of a row is the end of the one before, too."""
        yield row, done
        if done == 0 and row > 1 and self.rows[row - 2]:
            yield row - 1, len(self.rows[row - 2])

    def so_far(self, row: int, done: int) -> tuple[str, ...]:
        return self.rows[row - 1][:done] if row <= len(self.rows) else ()

    def count(self, row: int, done: int) -> int:
        return sum(self.stitches[row - 1][:done]) if row <= len(self.rows) else 0

    def stack(self, top: int, deep: int) -> tuple[tuple[str, ...], ...] | None:
        """The rows from one down, newest first; None when they are not all one piece of work."""
        rows: list[tuple[str, ...]] = []
        for row in range(top, top - deep, -1):
            if row < 1 or (rows and self.afresh[row]):
                return None
            rows.append(self.rows[row - 1])
        return tuple(rows)


def written_out(loaded: Loaded) -> Worked:
    """A piece, row by row."""
    rows, stitches, afresh = [], [], []
    for _, placed in loaded.fabric.rows():
        counted = [e for e in placed.worked.elements if e.counts]
        rows.append(tuple(f"ch-{e.chains} sp" if e.kind == SP else e.kind for e in counted))
        stitches.append(tuple(e.is_stitch for e in counted))
        afresh.append(all(e.kind in ("ch", "tch") for e in placed.worked.below))
    return Worked(tuple(rows), tuple(stitches), tuple(afresh))
