"""What notes say of turning chains, of several in one sentence too; the rows below bear each of them out.

The counts are worked out by hand: a chain that counts is the twelfth stitch, and one that does not is none.
"""

import pytest

from tracker.load import load
from tracker.problems import Severity

CIRCLE = (
    "Rnd 1: In a magic ring, ch 3, 11 dc; join. (12 dc)\nRnd 2: Ch 3, dc in same st, 2 dc in each st around; join. (24 dc)\n"
    "Rnd 3: Ch 1, sc in same st, sc in each st around; join. (24 sc)\nRnd 4: Ch 3, dc in each st around; join. (24 dc)\n"
)
FLAT = (
    "Ch 14.\nRow 1: Dc in 4th ch from hook and in each ch across. (12 dc)\nRow 2: Ch 1, turn, sc in each dc across. (12 sc)\n"
    "Row 3: Ch 3, turn, dc in next st and in each st across. (12 dc)\n"
)
UK = (
    "Rnd 1: In a magic ring, 3 ch, 11 tr; join. (12 tr)\nRnd 2: 3 ch, 1 tr in same st, 2 tr in each st around; join. (24 tr)\n"
    "Rnd 3: 1 ch, 1 dc in each st around; join. (24 dc)\n"
)
NOTES = (
    "Beg ch-3 counts as dc, beg ch-1 does not count.",
    "Note: Join each rnd with sl st in first st unless stated otherwise. Beg ch-3 counts as dc, beg ch-1 does not count.",
    "Ch-3 counts as a dc, ch-2 counts as hdc, ch-1 doesn't count.",
    "Starting ch-1 does not count as a stitch; starting ch-3 does.",
    "Turning ch 3 counts as first dc, turning ch 1 does not count as a stitch.",
    "Unless otherwise noted, ch 3 at the beginning of a round counts as the first dc and ch 1 does not count as a stitch.",
    "The first ch 3 of a round counts as dc and the first ch 1 does not count as sc.",
    "Ch 3 counts as dc throughout, ch 1 does not count as st.",
    "Note: beg ch 3 counts as a dc (beg ch 1 does not count as a stitch).",
    "Ch 3 counts as a double crochet. Ch 1 counts as nothing.",
    "The ch 3 at the start of each rnd is counted as a dc; the ch 1 isn't counted.",
)
UK_NOTES = (
    "3 ch counts as 1 tr, 1 ch does not count as a st.",
    "3 turning ch counts as 1 tr; 1 turning ch doesn't count as st.",
    "The 3 ch at the start stands for 1 tr; the 1 ch does not stand for anything.",
)
CASES = [(note, rows) for note in NOTES for rows in (CIRCLE, FLAT)] + [(note, UK) for note in UK_NOTES]


@pytest.mark.parametrize(("note", "rows"), CASES)
def test_a_note_says_which_chains_count(note: str, rows: str) -> None:
    loaded = load("sample", f"Sun Square\n\n{note}\n\n{rows}")
    assert [p.headline for p in loaded.problems if p.severity is not Severity.NOTE] == []
    assert all(placed.worked.understood for _, placed in loaded.fabric.rows(1, 9))


def test_a_chain_that_a_note_rules_out_is_an_error_where_the_round_counts_it() -> None:
    loaded = load(
        "sample", f"Sun Square\n\nCh 3 does not count as a stitch, ch 1 does not count.\n\n{CIRCLE}"
    )
    assert any(p.severity is Severity.ERROR and p.row == "Rnd 1" for p in loaded.problems)
