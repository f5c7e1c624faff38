"""Filet rows told in squares, with the chain that begins them or without: the same row comes out."""

from collections import Counter

import pytest

from tracker.load import load

MESH = """om = open mesh: ch 2, sk 2, dc in next dc. bl = block: 2 dc in ch-2 sp or dc in next 2 dc, dc in next dc.

Ch 38.
Row 1: Dc in 8th ch from hook, *ch 2, sk 2 ch, dc in next ch; rep from * across. (11 om)
Row 2: """
TOLD = [
    "5 om, 1 bl, 5 om.",
    "Turn. 5 om, 1 bl, 5 om.",
    "Ch 5, turn, 5 om, 1 bl, 5 om.",
    "Ch 5, turn: 5 om, 1 bl, 5 om.",
    "Ch 5 (counts as dc, ch 2), turn, 5 om, 1 bl, 5 om.",
    "Ch 5, turn (counts as dc, ch 2): 5 om, 1 bl, 5 om.",
    "Ch 5 (counts as first om), turn, 4 om, 1 bl, 5 om.",
]


@pytest.mark.parametrize("told", TOLD)
def test_the_chain_is_part_of_the_first_square_or_a_square(told: str) -> None:
    """Whichever comes out as wide as the row below: 11 squares, 12 upright stitches and two more in the block."""
    loaded = load("mesh", MESH + told)
    *_, (_, placed) = loaded.fabric.rows()
    assert placed.worked.understood
    assert Counter(element.name for element in placed.worked.elements) == {"dc": 14, "ch-2 sp": 10}
    assert loaded.problems == ()


def test_a_mesh_whose_step_is_told_once_goes_all_along_the_row() -> None:
    """With the first square named in brackets or without."""
    for named in ("", " (first om made)"):
        for along in ("across", "to end", "all the way across"):
            text = f"Ch 38.\nRow 1: Dc in 8th ch from hook{named}, ch 2, sk 2 ch, dc in next ch {along}."
            ((_, placed),) = load("mesh", text).fabric.rows()
            assert placed.worked.understood, text
            assert Counter(element.name for element in placed.worked.elements) == {"dc": 12, "ch-2 sp": 11}
