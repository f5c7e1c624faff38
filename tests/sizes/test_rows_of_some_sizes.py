"""A row that only some sizes work is worked in these and in no other, however its label says so.

The counts are worked out by hand: 10, 20, 30 hdc of a flat circle that grows by ten a round, and 20 where the third is
not worked.
"""

import pytest

from tracker.load import load
from tracker.problems import Severity

HEAD = (
    "Beanie\nSizes: S (M, L)\n\nRnd 1: Magic ring, ch 2 (does not count), 10 hdc in ring, join. (10 hdc)\n"
    "Rnd 2: Ch 2, 2 hdc in each st around, join. (20 hdc)\n"
)
WORDS = "Ch 2, *hdc in next st, 2 hdc in next st; rep from * around, join."
NUMBERED = "Rnd 4: Ch 2, hdc in each st around, join. (20 (30, 30) hdc)\n"
UNNUMBERED = "Next rnd: Ch 2, hdc in each st around, join. (20 (30, 30) hdc)\n"
LABELS = (
    "Rnd 3 (sizes M and L only): {words} (- (30, 30) hdc)",
    "Rnd 3 [M, L only]: {words} (30, 30)",
    "Rnd 3 - sizes M & L only: {words} (30 hdc)",
    "Rnd 3, sizes M and L only: {words} (30 hdc)",
    "Rnd 3 for sizes M and L only: {words} (30 hdc)",
    "Rnd 3 *M and L only*: {words} (30 hdc)",
    "Rnd 3: [Sizes M and L only] {words} (30 hdc)",
    "Sizes M and L only: Rnd 3: {words} (30 hdc)",
    "Medium and Large only - Rnd 3: {words} (30 hdc)",
    "Sizes M (L) only\nRnd 3: {words} (30 (30) hdc)\nAll sizes",
    "M and L ONLY\nRnd 3: {words} (30 hdc)\nALL SIZES",
    "Size S: go on to Rnd 4.\nSizes M and L:\nRnd 3: {words} (30 hdc)\nAll sizes:",
)
UNNUMBERED_LABELS = (
    "Next rnd, sizes M and L only: {words} (- (30, 30) hdc)",
    "Next rnd (M and L only): {words} (30 hdc)",
    "Next rnd - sizes M & L only: {words} (30 hdc)",
    "M and L only: Next rnd: {words} (30 hdc)",
    "Next round (sizes M, L): {words} (30 hdc)",
)
CASES = [(label, NUMBERED) for label in LABELS] + [(label, UNNUMBERED) for label in UNNUMBERED_LABELS]


@pytest.mark.parametrize(("label", "last"), CASES)
def test_a_row_of_two_sizes_is_worked_in_these_and_not_in_the_third(label: str, last: str) -> None:
    for size, counts in (("S", [10, 20, 20]), ("M", [10, 20, 30, 30]), ("L", [10, 20, 30, 30])):
        loaded = load("beanie", f"{HEAD}{label.format(words=WORDS)}\n{last}", size)
        rows = [placed.worked for _, placed in loaded.fabric.rows(1, 9)]
        assert [sum(e.is_stitch for e in row.elements) for row in rows] == counts
        assert all(row.understood for row in rows)
        assert [p.headline for p in loaded.problems if p.severity is not Severity.NOTE] == []


def test_a_range_within_a_section_lists_figures_for_its_sizes() -> None:
    text = (
        "Flap\nSizes: S (M, L)\n\nCh 13 (15, 17).\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 (14, 16) sc)\n"
        "Rows 2-5: Ch 1, turn, sc in each st across.\nSizes M and L only:\nRows 6-7 (8): Ch 1, turn, sc in each st across.\n"
        "All sizes:\nNext row: Ch 1, turn, (sc2tog) 6 (7, 8) times. (6 (7, 8) sc)\n"
    )
    assert [load("flap", text, size).fabric.length for size in ("S", "M", "L")] == [6, 8, 9]


@pytest.mark.parametrize(
    "heading", ["Brim – M and L only", "Brim for M and L sizes only", "Brim (M and L only)"]
)
def test_a_part_of_two_sizes_is_worked_in_these_alone(heading: str) -> None:
    text = f"{HEAD}{heading}\nRnd 3: Ch 2, hdc in each st around, join. (20 hdc)\n"
    assert [load("beanie", text, size).fabric.length for size in ("S", "M", "L")] == [2, 3, 3]
