"""A slip that counts once for every pass lies far from what is stated, and is an error all the same."""

import pytest

from tracker.load import Loaded, load
from tracker.problems import Severity

CLOTH = "Ch 31.\nRow 1: Sc in 2nd ch from hook and in each ch across. (30 sc)\n"
ROUND = "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"


def grave(loaded: Loaded) -> list[tuple[str, str | None, str]]:
    """What is an error or a warning: code, row, severity."""
    return [(p.code, p.row, p.severity.value) for p in loaded.problems if p.severity is not Severity.NOTE]


@pytest.mark.parametrize(
    "before, row, code",
    [
        (CLOTH, "Row 2: Ch 1, turn, *2 sc in next st, 2 sc in next st; rep from * across. (45 sc)", "C201"),
        (CLOTH, "Row 2: Ch 1, turn, *sc in next st, sc in next st; rep from * across. (20 sc)", "C201"),
        (CLOTH, "Row 2: Ch 1, turn, *ch 1, sc in next st; rep from * across. (15 sc, 15 ch-1 sps)", "C201"),
        # two and four times k are never twenty-eight stitches
        (
            CLOTH,
            "Row 2: Ch 1, turn, *sc in next st, dc in next st **, sc in next 2 sts; rep from * across, "
            "ending last rep at **, sc in last 2 sts.",
            "C204",
        ),
        (ROUND, "Rnd 3: (sc, sc) x 6 (18)", "C201"),
        (ROUND + "Rnd 3: (sc, inc) x 6 (18)\n", "Rnd 4: (sc, sc) x 6 (12)", "C202"),
    ],
)
def test_a_slip_in_a_repeat_is_an_error(before: str, row: str, code: str) -> None:
    """Told at its row, and nothing else is."""
    found = grave(load("piece", before + row))
    assert found[:1] == [(code, row.partition(":")[0], "error")], found


@pytest.mark.parametrize(
    "rows",
    [
        "Row 2: Ch 1, turn, *sc in next st, ch 1, sk next st; rep from * across. (51 sc, 15 ch-1 sps)",
        "Row 2: Ch 1, turn, sc in each st across. (80 sc)\nRow 3: Ch 1, turn, sc in each st across. (30 sc)",
    ],
)
def test_a_slip_in_the_figures_of_a_count_is_an_error(rows: str) -> None:
    """However far off it is: two of them in each other's place, or one where the next row goes on from what is made."""
    assert grave(load("piece", CLOTH + rows)) == [("C201", "Row 2", "error")]


def test_another_kind_of_stitch_is_an_error_however_many_there_are() -> None:
    """What is made is told with the names of what was made."""
    loaded = load("piece", CLOTH + "Row 2: Ch 1, turn, sc in first st, hdc in each st across. (30 sc)")
    told = [p for p in loaded.problems if p.severity is Severity.ERROR]
    assert [p.headline for p in told] == ["Row 2 makes 1 sc, 29 hdc, the pattern says 30 sc"]


@pytest.mark.parametrize(
    "rows, says",
    [
        (
            "Rows 2-9: Ch 1, turn, sc in each st to last 2 sts, sc2tog. (30 sc)",
            "lose 1 stitch each time, 8 in all",
        ),
        (
            "Rows 2-4: Ch 1, turn, 2 sc in first st, sc in each st across. (30 sc)",
            "gain 1 stitch each time, 3 in all",
        ),
    ],
)
def test_rows_that_state_the_count_before_them_and_drift_are_an_error(rows: str, says: str) -> None:
    """However many stitches that comes to."""
    told = [p for p in load("piece", CLOTH + rows).problems if p.severity is Severity.ERROR]
    assert [p.code for p in told] == ["C208"]
    assert says in told[0].headline
    assert "its count is 30 still" in told[0].headline


def test_rows_that_state_what_they_end_with_are_no_drift() -> None:
    """They are meant to shrink."""
    assert (
        grave(load("piece", CLOTH + "Rows 2-9: Ch 1, turn, sc in each st to last 2 sts, sc2tog. (22 sc)"))
        == []
    )


def test_what_no_slip_explains_stays_a_warning() -> None:
    """So far off, its words are likelier misread."""
    row = "Row 2: Ch 1, turn, sc in each st across. (75 sc)"
    assert grave(load("piece", CLOTH + row)) == [("C201", "Row 2", "warning")]


@pytest.mark.parametrize("count", ["(60 sc)", "(7 dc)"])
@pytest.mark.parametrize(
    "words",
    [
        "*sc in next st, 2 dc, ch 2, 2 dc in next st; rep from * across",
        "(2 dc, ch 2, dc in next st, sk 1) 10 times",
    ],
)
def test_a_slip_is_looked_for_in_what_no_bracket_holds_together(words: str, count: str) -> None:
    """Whatever is left out of it in the search."""
    assert grave(load("piece", CLOTH + f"Row 2: Ch 1, turn, {words}. {count}"))
