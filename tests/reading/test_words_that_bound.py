"""Words behind what was worked that change how far it goes, or how many it makes: read, or the row is not claimed."""

import pytest

from tracker.load import load

CLOTH = """Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
Row 2: Ch 1, turn, sc in each sc across. (20 sc)
Row 3: Ch 1, turn, sc in each sc across"""
BOUNDS = [
    "except the last", "but not the last", "with 2 in the last", "twice in the last st", "skipping every fifth",
    "skipping every other st", "and down the side", "and along the side edge", "and the row ends", "and row end",
    "as far as the marker", "up to the marker", "until 4 remain", "to the centre", "with a bobble in the middle st",
    "increasing to 24", "doubling the last", "2 per st", "two to a stitch", "three times", "with ch 1 between",
    "missing the first", "leaving the last 3 unworked", "and again in the same place", "adding 3 sts evenly",
    "and 2 more at the end", "for the first half", "half way across", "on half of the sts only", "then once more",
    "making a corner in the middle", "changing to dc half way", "changing to hdc for last 4 sts", "two times over",
    "then turn and work back", "and work another row", "chaining 1 between sts",
    "stopping 4 sts before the end", "plus one in the turning ch", "decreasing to 16", "and 1 in the end",
]  # fmt: skip


@pytest.mark.parametrize("words", BOUNDS)
@pytest.mark.parametrize("joint", [" ", ", "])
def test_no_words_that_bound_a_row_are_passed_over(words: str, joint: str) -> None:
    """Twenty plain stitches and nothing else is what the row makes without them."""
    loaded = load("cloth", f"{CLOTH}{joint}{words}.")
    *_, (_, placed) = loaded.fabric.rows()
    made = [element.kind for element in placed.worked.elements if element.kind != "tch"]
    assert not placed.worked.understood or made != ["sc"] * 20


@pytest.mark.parametrize(("words", "many"), [("stopping 4 sts before the end", 16), ("to last 4 sts", 16)])
@pytest.mark.parametrize("joint", [" ", ", "])
def test_words_that_say_where_to_stop_are_read(words: str, many: int, joint: str) -> None:
    """With a comma before them or without."""
    loaded = load("cloth", f"{CLOTH}{joint}{words}. ({many} sc)")
    *_, (_, placed) = loaded.fabric.rows()
    assert placed.worked.understood
    assert sum(element.is_stitch for element in placed.worked.elements) == many


def test_a_border_of_what_was_worked_flat_is_not_counted() -> None:
    """How many go along its sides nobody tells; the shells of its last row are no corners."""
    text = """Ch 32.
Row 1: Sc in 2nd ch from hook, *sk 2 ch, 5 dc in next ch, sk 2 ch, sc in next ch; rep from * across. (5 shells, 6 sc)
Row 2: Ch 1, turn, sc in each st across. (31 sc)
Row 3: Ch 1, turn, sc in first sc, *sk 2 sc, 5 dc in next sc, sk 2 sc, sc in next sc; rep from * across. (5 shells, 6 sc)
Fasten off.
Rnd 1: Join yarn in any corner, ch 1, sc evenly around, working 3 sc in each corner; join."""
    loaded = load("cloth", text)
    *_, (_, placed) = loaded.fabric.rows()
    assert not placed.worked.understood
    assert all(problem.severity.value == "note" for problem in loaded.problems)


def test_to_the_last_shell_is_to_the_last_whole_one() -> None:
    """Whatever rows call it; the halves at the edges are none."""
    for named in (" (shell made)", ""):
        text = f"""Ch 44.
Row 1: Sc in 2nd ch from hook, *sk 2 ch, 5 dc in next ch{named}, sk 2 ch, sc in next ch; rep from * to end. (7 shells, 8 sc)
Row 2: Ch 3 (counts as dc), turn, 2 dc in first sc, *sk 2 dc, sc in next dc, sk 2 dc, 5 dc in next sc; rep from * to last shell, sk 2 dc, sc in next dc, sk 2 dc, 3 dc in last sc. (6 shells, 2 half shells, 7 sc)"""
        loaded = load("cloth", text)
        assert all(placed.worked.understood for _, placed in loaded.fabric.rows())
        assert loaded.problems == ()


def test_a_row_that_is_told_with_its_chain_and_not_read_bears_nothing() -> None:
    """How many flags there are nobody tells, so the row worked back along their strip is not counted either."""
    text = """Strip

Ch 20, *sc in each of the 22 sc across top of flag, ch 6; rep from * for each flag, ending last rep with ch 20.
Next row: Turn, sl st in each ch and sc across. Fasten off."""
    rows = [placed.worked for _, placed in load("strip", text).fabric.rows()]
    assert len(rows) == 2
    assert not any(row.understood for row in rows)


@pytest.mark.parametrize(
    ("told", "claimed"), [("21 scallops", False), ("8 petals", False), ("3 scallops", True)]
)
def test_a_row_that_counts_what_no_word_names_has_as_many_of_something(told: str, claimed: bool) -> None:
    """Three groups were worked: whatever a scallop is, there are not twenty-one."""
    text = (
        "Rnd 1: Ch 3 (counts as dc), 11 dc in magic ring; join. (12 dc)\n"
        f"Rnd 2: Ch 1, *sc in next dc, sk 1 dc, 5 dc in next dc, sk 1 dc; rep from * around; join. ({told})"
    )
    *_, (_, placed) = load("mat", text).fabric.rows()
    assert placed.worked.understood is claimed
