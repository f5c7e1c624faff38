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
        (ROUND, "Rnd 3: (sc, sc) x 6 (18)", "C201"),
        (ROUND + "Rnd 3: (sc, inc) x 6 (18)\n", "Rnd 4: (sc, sc) x 6 (12)", "C202"),
    ],
)
def test_a_slip_in_a_repeat_is_an_error(before: str, row: str, code: str) -> None:
    """Told at its row, and nothing else is."""
    found = grave(load("piece", before + row))
    assert found[:1] == [(code, row.partition(":")[0], "error")], found


def test_another_kind_of_stitch_is_an_error_however_many_there_are() -> None:
    """What is made is told with the names of what was made."""
    loaded = load("piece", CLOTH + "Row 2: Ch 1, turn, sc in first st, hdc in each st across. (30 sc)")
    told = [p for p in loaded.problems if p.severity is Severity.ERROR]
    assert [p.headline for p in told] == ["Row 2 makes 1 sc, 29 hdc, the pattern says 30 sc"]


def test_what_no_slip_explains_stays_a_warning() -> None:
    """So far off, its words are likelier misread."""
    row = "Row 2: Ch 1, turn, sc in each st across. (75 sc)"
    assert grave(load("piece", CLOTH + row)) == [("C201", "Row 2", "warning")]
