"""The side that a row's own words say is facing: claimed as told, and not counted on from the row before."""

import pytest
from on_the_hook import program_of

PANEL = (
    "PANEL\n\nCh 20.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across. (19 sc)\n"
    "Row 2: Ch 1, turn, sc in each st across. (19 sc)\nFasten off.\n"
)


@pytest.mark.parametrize(
    "words, side",
    [
        ("Row 3: With RS facing, join yarn in first st, ch 1, sc in each st across. (19 sc)", "RS"),
        ("Row 3: With WS facing, join yarn in first st, ch 1, sc in each st across. (19 sc)", "WS"),
        (
            "Row 3: Hold the piece with the wrong side facing you; join yarn in first st, ch 1, sc across. (19 sc)",
            "WS",
        ),
        ("Rnd 1: With right side facing, join yarn at lower left corner, sc evenly around.", "RS"),
        ("Row 3: With RS facing each other, hold both edges; ch 1, sc in each st across. (19 sc)", "RS"),
    ],
)
def test_the_side_that_is_told_to_face_is_the_rows(words: str, side: str) -> None:
    """Also of a row that is not understood; words of two pieces tell nothing of it, and it goes on by turns."""
    program = program_of(f"{PANEL}{words}\n")
    assert program.fabric.row(3).worked.side == side
