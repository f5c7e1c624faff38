"""What is said behind "rep Row 2": what changes the row and is not understood is never claimed as that row."""

import pytest

from tracker.load import load
from tracker.notation.tree import Work

BASE = """Ch 13.
Row 1: Sc in 2nd ch from hook and in each ch across. (12 sc)
Row 2: Ch 1, turn, sc in each sc across. (12 sc)
"""
CHANGED = """increasing at each end
increasing in first and last st
decreasing one stitch in the middle
omitting last sc
leaving last 2 sts unworked
skipping last st
over next 6 sts, turn
for 6 sts
to marker
ending with sc2tog
beginning with sc2tog
then ch 4
then sc in end of row
adding 2 sc at end
adding 1 st each side
working 3 sc in centre st
with 2 sc in each st
working twice into each st
working in every other st
with one fewer st
with 2 sts decreased evenly
making picots
with ch 1 between sts
making buttonhole: ch 2, sk 2
and then 4 more sc along edge""".splitlines()
UNCHANGED = """working into each sc
working sc in each sc
changing to B in last st
turn at end
on the same 12 sts
with B
in B
but do not turn at end""".splitlines()


def last_row(words: str) -> tuple[bool, list[str]]:
    """Whether the third row is claimed, and what it makes."""
    *_, (_, row) = load("cloth", f"{BASE}Row 3: Rep Row 2, {words}.\n").fabric.rows()
    return row.worked.understood, [e.kind for e in row.worked.elements if e.is_stitch]


@pytest.mark.parametrize("words", CHANGED)
def test_a_change_that_is_not_understood_is_not_claimed(words: str) -> None:
    understood, made = last_row(words)
    assert not understood or made != ["sc"] * 12


@pytest.mark.parametrize("words", UNCHANGED)
def test_words_that_change_nothing_leave_the_row_as_it_was(words: str) -> None:
    assert last_row(words) == (True, ["sc"] * 12)


def test_what_shapes_the_ends_is_told_where_it_is_worked() -> None:
    """A maker who heard "ten single crochet" first would have worked the two that begin the row by then."""
    *_, (_, row) = load("cloth", f"{BASE}Row 3: Rep Row 2, dec 1 st at each end.\n").fabric.rows()
    works = [item.stitch for item in row.worked.row.items if isinstance(item, Work)]
    assert works == ["sc2tog", "sc", "sc2tog"]
    assert [e.kind for e in row.worked.elements if e.is_stitch] == ["sc2tog", *["sc"] * 8, "sc2tog"]
