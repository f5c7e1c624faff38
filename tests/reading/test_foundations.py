"""What a piece begins with, in whatever words it is told: the row worked onto it comes out."""

import pytest

from tracker.load import load

CHAINED = [
    "Row 1: Ch 21.",
    "Row 1: Ch 21, turn. (21 ch)",
    "Row 1: Chain 21.",
    "R1: ch 21",
    "Row 0: 21 ch",
    "Foundation row: With A, ch 21.",
    "Base row: Ch 21 loosely.",
    "Set-up row: Make a chain of 21.",
]
RINGED = [
    "Rnd 1: Magic ring.",
    "Rnd 1: With A, make a magic ring.",
    "Rnd 1: Ch 4, join with sl st to form a ring.",
    "Rnd 1: Ch 4 and sl st to first ch to make a ring",
    "R1: chain 4. Slip stitch into the first chain.",
]
WITHOUT_CHAIN = [
    "Foundation: Work 20 fsc.",
    "Foundation: 20 fsc.",
    "Work 20 fsc.",
    "Set-up: 20 fsc.",
    "20 foundation single crochet.",
    "Work 20 foundation single crochet stitches (fsc).",
    "Foundation sc 20.",
    "Foundation: Fsc 20. (Or ch 21, sc in 2nd ch from hook and in each ch across.)",
]


@pytest.mark.parametrize("told", CHAINED)
def test_a_first_row_that_only_chains_is_the_foundation(told: str) -> None:
    """The second row has its chains below it; nothing is missing before it."""
    loaded = load(
        "mat",
        f"Mat\n\n{told}\nRow 2: Sc in 2nd ch from hook and in each ch across. (20 sc)\nRow 3: Ch 1, turn, sc in each sc. (20 sc)",
    )
    assert [placed.worked.row.label for _, placed in loaded.fabric.rows()] == ["Row 2", "Row 3"]
    assert all(placed.worked.understood for _, placed in loaded.fabric.rows())
    assert loaded.problems == ()


@pytest.mark.parametrize("told", RINGED)
def test_a_first_round_that_only_makes_a_ring_is_the_foundation(told: str) -> None:
    """The second goes into the ring."""
    loaded = load("mat", f"Mat\n\n{told}\nRnd 2: Ch 3, 11 dc in ring, join. (12 dc)")
    ((_, placed),) = loaded.fabric.rows()
    assert placed.worked.understood
    assert loaded.problems == ()


def test_a_first_row_that_works_into_its_chain_is_a_row() -> None:
    """However it is told."""
    for told in (
        "Ch 21, sc in 2nd ch from hook and in each ch across.",
        "Ch 21. Sc in 2nd ch from hook, sc across.",
    ):
        loaded = load("mat", f"Mat\n\nRow 1: {told} (20 sc)\nRow 2: Ch 1, turn, sc in each sc. (20 sc)")
        assert [placed.worked.row.label for _, placed in loaded.fabric.rows()] == ["Row 1", "Row 2"]
        assert loaded.problems == ()


@pytest.mark.parametrize("told", WITHOUT_CHAIN)
def test_stitches_may_be_the_foundation(told: str) -> None:
    """A row has them below it."""
    loaded = load("mat", f"Mat\n\n{told}\nRow 1: Ch 1, turn, sc in each st across. (20 sc)")
    ((_, placed),) = loaded.fabric.rows()
    assert placed.worked.understood
    assert loaded.problems == ()


def test_a_stitch_of_ones_own_that_begins_a_round_goes_by_any_such_name() -> None:
    """Its spaces are its own, and it counts among the others; a shell's own space may be told by the shell's name."""
    for name in (
        "Beginning shell (beg shell)",
        "Beg shell",
        "First shell",
        "Starting shell",
        "Initial shell",
    ):
        called = name.partition("(")[2].rstrip(")") or name.lower()
        text = f"""Shell = (2 dc, ch 2, 2 dc) in same sp.
{name} = ch 3, (dc, ch 2, 2 dc) in same sp.
Ch 6, join to form a ring.
Rnd 1: Ch 1, 12 sc in ring, join. (12 sc)
Rnd 2: Ch 4 (counts as dc, ch 1), *dc in next sc, ch 1; rep from * around, join. (12 dc, 12 ch-1 sps)
Rnd 3: Sl st in first sp, {called} in same sp, ch 2, sk next sp, *shell in next sp, ch 2, sk next sp; rep from * around, join. (6 shells, 6 ch-2 sps)
Rnd 4: Sl st to shell sp, {called} in same sp, ch 3, *shell in next shell sp, ch 3; rep from * around, join. (6 shells, 6 ch-3 sps)"""
        loaded = load("mat", text)
        assert all(placed.worked.understood for _, placed in loaded.fabric.rows()), name
        assert loaded.problems == (), name


RINGS = (
    "Ch 5, sl st in 5th ch from hook to form a ring",
    "Ch 5, slip stitch into the 5th chain from the hook and make a ring",
    "Ch 5, sl st in 5th ch from hook (ring made)",
    "Ch 5, join with sl st to form ring",
)


@pytest.mark.parametrize("told", RINGS)
def test_a_ring_told_within_its_first_round_is_one(told: str) -> None:
    """Its chain is wholly used, however the slip stitch finds its end."""
    loaded = load(
        "star", f"Rnd 1: {told}, ch 3 (counts as dc), 14 dc in ring; join with sl st in top of ch-3. (15 dc)"
    )
    ((_, placed),) = loaded.fabric.rows()
    assert placed.worked.understood
    assert loaded.problems == ()


AGAIN = (
    "Work 1st and 2nd rows of back 3 times.",
    "Rep rows 1 and 2 of back three times.",
    "Rep 1st and 2nd rows as back 3 times.",
)


@pytest.mark.parametrize("told", AGAIN)
def test_rows_of_another_part_are_worked_as_often_as_told(told: str) -> None:
    """Two rows, three times over, and not once."""
    text = f"""UK terms.

BACK
Make 27 ch.
Foundation row: 1 dc into 2nd ch from hook, 1 dc into each ch to end. [26 dc]
1st row: 3 ch (counts as 1 tr), miss first dc, 1 tr into each dc to end. [26 tr]
2nd row: 1 ch, 1 dc into each tr to end, 1 dc into top of 3 ch. [26 dc]
Fasten off.
SLEEVES
Make 19 ch.
Foundation row: 1 dc into 2nd ch from hook, 1 dc into each ch to end. [18 dc]
{told}"""
    rows = [placed.worked for _, placed in load("jumper", text).fabric.rows()]
    assert [sum(e.is_stitch for e in row.elements) for row in rows] == [26, 26, 26, *[18] * 7]
    assert all(row.understood for row in rows)
