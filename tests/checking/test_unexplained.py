"""Names of stitches whose definition is missing are told; those that the pattern explains in any words are not."""

import pytest

from tracker.load import load
from tracker.problems import Severity

START = "Ch 22.\nRow 1: Sc in 2nd ch from hook and in each ch across. (21 sc)\n"
SHELLS = (
    "Row 2: Ch 1, turn, sc in first sc, *sk 1 sc, bud in next sc, sk 1 sc, sc in next sc; rep from * across.\n"
    "Row 3: Ch 1, turn, sc in each st across.\n"
)


def told(text: str) -> list[tuple[str, str | None]]:
    """Codes and rows of what is an error."""
    return [(p.code, p.row) for p in load("cloth.txt", text).problems if p.severity is Severity.ERROR]


@pytest.mark.parametrize(
    "row",
    [
        "Row 2: Ch 1, turn, *wave st in next sc, sk next sc; rep from * to last sc, sc in last sc.\n",
        "Row 2: Ch 1, turn, *V in next sc, sk next sc; rep from * to last sc, sc in last sc.\n",
        "Row 2: Ch 1, turn, *bud in next sc, sc in next sc; rep from * to last sc, bud in last sc.\n",
        "Row 2: Ch 1, turn, *W-st in next sc, sk next sc; rep from * to last sc, sc in last sc.\n",
        "Row 2: Ch 1, turn, B in next sc, sc in each sc across.\n",
        "Row 2: Ch 1, turn, A in each of the 21 sc.\n",
        "Row 2: Ch 1, turn, sc in first sc, *C4F, sc in next sc; rep from * across.\n",
    ],
)
def test_a_stitch_that_nothing_explains_is_told_once(row: str) -> None:
    """At the first row that works it; what comes behind is no error of its own."""
    assert told("Cloth\n\n" + START + row + row.replace("2", "3")) == [("T104", "Row 2")]


@pytest.mark.parametrize(
    "words",
    [
        "Bud: 3 dc in one st.",
        "By a bud we mean three doubles that share a place.",
        "The buds are as on the cushion of this set.",
        "Stitches used: chain, single crochet, bud, which the last page shows.",
    ],
)
def test_a_stitch_that_the_notes_speak_of_is_no_error(words: str) -> None:
    """They may explain it in words that are not read."""
    assert told("Cloth\n\n" + words + "\n\n" + START + SHELLS) == []


def test_what_a_row_explains_itself_is_no_error() -> None:
    """Where it is worked first."""
    row = "Row 2: Ch 1, turn, sc in first sc, *sk 1 sc, bud (3 dc together) in next sc, sk 1 sc, sc in next sc; rep from * across.\n"
    assert told("Cloth\n\n" + START + row + row.replace("Row 2", "Row 3")) == []


@pytest.mark.parametrize(
    "row",
    [
        "Row 2: With A, ch 1, turn, B in next sc, sc in each sc across.\n",
        "Row 2: Ch 1, turn, sc in next 10 sc (A), B in next sc, sc in each sc across.\n",
        "Row 2: Ch 1, turn, 3 A, 2 B, 16 A.\n",
        "Row 2: Ch 1, turn, changing to B in next sc, sc in each sc across.\n",
    ],
)
def test_a_letter_that_may_name_a_yarn_is_no_error(row: str) -> None:
    """Where any letter is used for one."""
    assert told("Cloth\n\n" + START + row) == []


def test_a_short_name_that_the_notes_mention_is_no_error() -> None:
    """Also where it looks like a slip of the pen."""
    rows = START + "Row 2: Ch 1, turn, *wst in next sc, sk next sc; rep from * to last sc, sc in last sc.\n"
    assert told("Cloth\n\n" + rows) == [("T104", "Row 2")]
    assert told("Cloth\n\nMake each wst as loosely as you can, all of it in one.\n\n" + rows) == []


def test_a_name_that_is_worked_and_not_known_is_not_passed_over() -> None:
    """The row is not understood, whatever its count says of other things."""
    text = (
        "Motif\n\n“Nub” (PC): as on page 2, 4 dc drawn into one.\n\nCh 5, join with sl st to form ring.\n"
        "Rnd 1: Beg PC in ring, ch 3, [PC in ring, ch 3] 5 times; join with sl st in top of beg PC. (6 PC, 6 ch-3 sps)\n"
    )
    loaded = load("motif.txt", text)
    assert not loaded.fabric.row(1).worked.understood
    assert told(text) == []


def test_the_first_of_several_does_not_define_them() -> None:
    """The chain that begins it is a stitch of it."""
    text = (
        "Cloth\n\n“Fan” is told on the cover.\n\nCh 22.\nRow 1: Sc in 2nd ch from hook and in each ch across. (21 sc)\n"
        "Row 2: Ch 3, turn, 4 dc in same st (first fan made), *sk 4 sc, fan in next sc; rep from * across.\n"
    )
    loaded = load("cloth.txt", text)
    assert not loaded.fabric.row(2).worked.understood
    assert told(text) == []


PARTLY = "Fan: 3 dc, each of the legs again as the book has it, in same st.\n\nCh 22.\n"
FANS = (
    "Row 2: Ch 1, turn, sc in first sc, *sk 1 sc, fan in next sc, sk 1 sc, sc in next sc; rep from * across."
)


def test_a_definition_that_was_taken_in_by_half_accuses_no_row() -> None:
    """Words of it were passed over: the row that works the stitch is not understood, where its count does not bear it out."""
    rows = START.removeprefix("Ch 22.\n") + FANS
    for count in ("", " (5 fans, 30 dc, 6 sc)"):
        loaded = load("cloth.txt", "Cloth\n\n" + PARTLY + rows + count + "\n")
        assert not loaded.fabric.row(2).worked.understood
        assert told("Cloth\n\n" + PARTLY + rows + count + "\n") == []


def test_an_aside_between_a_stitch_and_its_place_is_no_place() -> None:
    """They are five, and not five and five more."""
    text = (
        START
        + "Row 2: Ch 1, turn, sc in first sc, *sk 1 sc, 5 dc (loosely, please) in next sc, sk 1 sc, sc in next sc; rep from * across.\n"
    )
    assert load("cloth.txt", text).fabric.row(2).worked.makes == {"sc": 6, "dc": 25}


def test_a_name_in_figures_is_no_remark() -> None:
    """ "C4F": nothing tells what it makes."""
    text = (
        START
        + "Row 2: Ch 1, turn, sc in first sc, *C4F, sc in next sc; rep from * across. (6 sc, 5 cables)\n"
    )
    assert not load("cloth.txt", text).fabric.row(2).worked.understood


def test_what_is_said_of_a_stitch_is_no_part_of_it() -> None:
    """Behind its definition, in a sentence of its own."""
    notes = "Cloth\n\nFan: 5 dc in one st. It takes the place of one stitch and counts as one.\n\n"
    row = "Row 2: Ch 1, turn, sc in first sc, *sk 1 sc, fan in next sc, sk 1 sc, sc in next sc; rep from * across.\n"
    assert load("cloth.txt", notes + START + row).fabric.row(2).worked.makes == {"sc": 6, "dc": 25}
