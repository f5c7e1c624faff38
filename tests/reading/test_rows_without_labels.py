"""A sentence that works a row of its own is a row, or is told as not understood; it is never passed over in silence."""

import pytest

from tracker.load import Loaded, load

HEAD = "Strip\n\nCh 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\n"
ABOVE = {
    "a row": "Row 2: Ch 1, turn, sc in each st across.\n",
    "a row with its count": "Row 2: Ch 1, turn, sc in each st across. (12 sc)\n",
    "a row that ends the yarn": "Row 2: Ch 1, turn, sc in each st across. Fasten off.\n",
    "a range": "Rows 2-5: Ch 1, turn, sc in each st across. (12 sc)\n",
    "rows again": "Row 2: Ch 1, turn, sc in each st across.\nRows 3-5: Rep Row 2.\n",
    "rows again with their count": "Row 2: Ch 1, turn, sc in each st across.\nRows 3-5: Rep Row 2. (12 sc)\n",
    "rows again without a label": "Row 2: Ch 1, turn, sc in each st across.\nRep Row 2 three more times.\n",
    "rows again that end the yarn": "Row 2: Ch 1, turn, sc in each st across.\nRows 3-5: Rep Row 2. Fasten off.\n",
}
LIKE_ALL = {
    "Rev sc in each st across. Fasten off.": "revsc",
    "Do not turn. Rev sc in each st across. Fasten off.": "revsc",
    "Ch 1, do not turn. Rev sc in each st across.": "revsc",
    "Work one row of crab st. Fasten off.": "revsc",
    "With B, sl st in each st across.": "slst",
    "Turn, sl st loosely in each st. Fasten off.": "slst",
    "Finish with a row of sc. Fasten off.": "sc",
    "Finish: ch 1, turn, sc in each st across.": "sc",
}
"""Sentences that work one of the stitch named in every stitch of the row above."""
ALL_ROUND = (
    "Do not turn. Work 1 rnd sc evenly around, 3 sc in each corner.",
    "Do not turn; ch 1, sc evenly down the side of the rows. Fasten off.",
)
"""Sentences whose counts nobody can tell."""


def rows(loaded: Loaded) -> int:
    return sum(1 for _ in loaded.fabric.rows())


@pytest.mark.parametrize("gap", ["", "\n"], ids=["right below", "below a blank line"])
@pytest.mark.parametrize("above", ABOVE.values(), ids=ABOVE.keys())
def test_a_row_without_a_label_is_one_row_more(above: str, gap: str) -> None:
    """Twelve stitches, one into each of the row above, and no error."""
    before = rows(load("strip", HEAD + above, None))
    for words, stitch in LIKE_ALL.items():
        loaded = load("strip", f"{HEAD}{above}{gap}{words}\n", None)
        last = list(loaded.fabric.rows())[-1][1].worked
        assert rows(loaded) == before + 1, words
        assert dict(last.makes) == {stitch: 12}, words
        assert last.understood, words
        assert not [p for p in loaded.problems if p.severity.value != "note"], words


@pytest.mark.parametrize("gap", ["", "\n"], ids=["right below", "below a blank line"])
@pytest.mark.parametrize("above", ABOVE.values(), ids=ABOVE.keys())
def test_what_cannot_be_counted_is_told(above: str, gap: str) -> None:
    """Nothing that works stitches is left out without a word."""
    before = rows(load("strip", HEAD + above, None))
    for words in ALL_ROUND:
        loaded = load("strip", f"{HEAD}{above}{gap}{words}\n", None)
        assert rows(loaded) > before or loaded.problems, words
        assert not [p for p in loaded.problems if p.severity.value != "note"], words


@pytest.mark.parametrize(
    "words",
    [
        "Sl st in each st along both edges to close the seam.",
        "Sew the sides with whip stitch, one stitch in each row end.",
        "Weave in ends and block.",
    ],
)
def test_what_makes_up_a_piece_is_no_row(words: str) -> None:
    """Seams are sewn when the rows are done."""
    text = HEAD + ABOVE["a row with its count"]
    assert rows(load("strip", f"{text}\n{words}\n", None)) == rows(load("strip", text, None))


def test_what_is_to_come_is_told_by_its_own_row() -> None:
    """ "Finish with a row of crab stitch" above a numbered row of it is no row of its own."""
    text = f"{HEAD}Finish with a row of crab stitch.\nRow 2: Ch 1, do not turn, rev sc in each st across. (12 rev sc)\n"
    loaded = load("strip", text, None)
    assert rows(loaded) == 2
    assert not loaded.problems
