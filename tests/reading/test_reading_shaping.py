"""Shaping told for the row as a whole, and rows that go on until so many stitches stand."""

import pytest

from tracker.load import load

TEN = "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n"
WIDER = TEN + "Row 2: Ch 1, turn, 2 sc in first st, sc in each st to last st, 2 sc in last st. (12 sc)\n"
NARROWER = (
    TEN + "Row 2: Ch 1, turn, sc2tog, sc in each st to last 2 sts, sc2tog. (8 sc)\n"
    "Row 3: Ch 1, turn, sc in each st.\n"
)


def counts(text: str) -> tuple[list[int | None], list[str]]:
    """Stitches of every row, None for one that is not understood; and the errors."""
    loaded = load("piece", text, None)
    rows = [placed.worked for _, placed in loaded.fabric.rows()]
    errors = [problem.headline for problem in loaded.problems if problem.severity.value == "error"]
    return [row.stitches if row.understood else None for row in rows], errors


@pytest.mark.parametrize(
    ("text", "stitches"),
    [
        (WIDER + "Rep Row 2 until you have 20 sts.\nNext row: Ch 1, turn, sc in each st.", [10, 12, 14, 16, 18, 20, 20]),
        (NARROWER + "Repeat Rows 2 and 3 until there are 4 sts left.", [10, 8, 8, 6, 6, 4]),
        (NARROWER + "Repeat Rows 2 and 3 until 4 sts remain, ending with Row 3.", [10, 8, 8, 6, 6, 4, 4]),
        (NARROWER + "Rep Rows 2 and 3 until 4 sts rem.\nRow 8: Ch 1, turn, sc in each st.", [10, 8, 8, 6, 6, 4, 4, 4]),
    ],
)  # fmt: skip
def test_rows_are_worked_until_so_many_stitches_stand(text: str, stitches: list[int]) -> None:
    """How many rows that takes shows on the fabric, or by the number of the row that follows."""
    assert counts(text) == (stitches, [])


def test_a_number_that_the_rows_step_over_is_an_error() -> None:
    """From twelve by twos nobody comes to nineteen."""
    stitches, errors = counts(WIDER + "Rep Row 2 until there are 19 sts.")
    assert stitches == [10, 12]
    assert errors == ["Rep Row 2 until there are 19 sts. never makes 19 stitches: it goes on to 20"]


@pytest.mark.parametrize(
    ("words", "stitches"),
    [
        ("inc 1 at each end", 12),
        ("sc in each st, inc 1 at each end", 12),
        ("dec 1 sc at beginning of row, sc to end", 9),
        ("sc across, dec 1 at end of row", 9),
        ("sc in each st, inc 1 st at beg of row", 11),
        ("sc to center 2 sts, 3 sc in each of center 2 sts, sc to end", 14),
        ("sc blo of each st across", 10),
        ("sc blo throughout", 10),
    ],
)
def test_shaping_told_for_the_row_as_a_whole(words: str, stitches: int) -> None:
    """At one end or both, wherever in the row it is said; on the middle stitches."""
    assert counts(f"{TEN}Row 2: Ch 1, turn, {words}.") == ([10, stitches], [])


FILET = (
    "Filet\n\nblk = dc in next 3 sts\n{}\nCh 12.\nRow 1: Dc in 4th ch from hook and in next 8 ch. (10 dc)\n"
    "Row 2: Inc 1 blk, 3 blk.\n"
)


def test_a_block_is_widened_as_the_pattern_says() -> None:
    """The definition's words stand in place of its name."""
    told = "To inc 1 blk at beg of row: ch 5, turn, dc in 4th and 5th ch from hook, dc in first dc.\n"
    assert counts(FILET.format(told)) == ([10, 13], [])


def test_a_block_that_nobody_explains_is_not_counted() -> None:
    """The row is followed as written, and nothing is claimed of it."""
    stitches, errors = counts(FILET.format(""))
    assert (stitches[0], errors) == (10, [])
    rows = [placed for _, placed in load("filet", FILET.format("")).fabric.rows()]
    assert not rows[1].worked.understood
