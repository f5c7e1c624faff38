"""Texts that were written to do harm: they are read to their end and nothing of them reaches the terminal as a code."""

import json
import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tracker.commands.check import lines, report
from tracker.load import load

HOSTILE = {
    "control codes": "Cloth\x1b[2J\x1b]0;x\x07\n\nCh 12.\nRow 1: Sc in 2nd ch\x1b[31m, \x9b31m sc across. (11 sc)\n",
    "words from right to left": "Row 1: Ch \u202e21 .sc ni\u202c (12 sc)\n",
    "brackets without end": "Row 1: " + "(" * 2000 + "sc" + ")" * 1999 + "\n",
    "stars without end": "Row 1: " + "*" * 2000 + " sc, rep from * across\n",
    "a number no shelf holds": "Ch 999999999999999999999.\nRow 1: Sc in each ch across. (999999999999999999998 sc)\n",
    "rows without number": "Row : sc\nRow -1: sc\nRow 0: sc\nRows 5-2: sc\nRnd ٣: sc\n",
    "a row that repeats itself": "Row 1: Rep Row 1.\nRow 2: Rep Rows 2-3 100 times.\nRow 3: Rep Row 2.\n",
    "very many times": "Ch 3.\nRow 1: (sc in next ch) 4000000 times.\nRow 2: *sc, ch 1; rep from * 99999999 times.\n",
    "a row far off": "Row 2 and all even rows: Ch 1, turn, sc in each st across.\nRow 999999999: Sc in each st.\n",
    "lines without a word": " \n" * 20_000,
    "a range that falls": "Ch 9.\nRows 2-1: Ch 1, sc in each ch. (8 sc)\nRows 9000000000-20: Sc in each sc. (8 sc)\n",
    "a chain no shelf holds within a row": "Ch 9.\nRow 1: Sc in 2nd ch from hook and in each ch across. (8 sc)\n"
    "Row 2: Ch 1000000000, turn, sc in first 8 sts. (8 sc)\nRow 3: Ch 1, sc in each st across. (8 sc)\n",
    "wide rows in doubt": "Ch 4, join with sl st to form a ring.\n"
    + "".join(f"Round {n}: Ch 3, [1000 dc in next st, ch 3] 3 times.\n" for n in range(1, 9)),
    "between stitches of a round without any": "Ch 4, join to form ring.\nRnd 1: Sc in sp between next 2 sc, sc in next sp"
    " between sc.\nRnd 2: Join.\nRnd 3: Sc in first sp between sts, sc in sp between next 2 sts.\n",
    "only an end": "\ufeff\r\r\n\u2028\u2029\x85",
}


def _shown(text: str) -> str:
    """Everything `check` shows of it, and what it tells other programs."""
    loaded = load("pattern", text)
    assert json.loads(json.dumps(report(loaded)))["rows"] is not None
    return "".join(f"{line}\n" for line in lines(loaded))


def _codes(shown: str) -> set[str]:
    return {sign for sign in shown if unicodedata.category(sign) in ("Cc", "Cf") and sign != "\n"}


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE)
def test_a_hostile_text_is_read_to_its_end(text: str) -> None:
    """None of them is refused, and none is taken at its word where that would fill the machine."""
    assert not _codes(_shown(text))


@given(
    st.lists(
        st.sampled_from([*"\x1b\x07\x08\x9b\u202e\u200b\r[2J", "Row 1: ", "sc", "(", "\n", "Ch 5."]),
        max_size=80,
    )
)
@settings(max_examples=200, deadline=None)
def test_no_code_reaches_the_terminal(pieces: list[str]) -> None:
    """Control codes and marks of direction, in a pattern or in what is quoted of it."""
    assert not _codes(_shown("".join(pieces)))


def test_rows_printed_again_and_again_are_each_marked_where_they_stand() -> None:
    """Worked once as they are, a fault in them and each of their phrases still belong to their own place in the text."""
    words = "Ch 1, turn, sc in each st across. (9 sc)"
    text = "Ch 10.\nRow 1: Sc in 2nd ch from hook and in each ch across. (9 sc)\n" + "".join(
        f"Row {number}: {words if number != 6 else words.replace('9', '8')}\n" for number in range(2, 9)
    )
    loaded = load("piece", text, None)
    assert [problem.row for problem in loaded.problems if problem.code == "C201"] == ["Row 6"]
    placed = [row for stretch in loaded.fabric.stretches for row in stretch.rows]
    assert len(placed) == 8
    for row in placed[1:]:
        span = row.worked.steps[-1].item.span
        line = text.splitlines()[row.number or 0]
        assert text[span.start : span.end] == "sc in each st across"
        assert loaded.source.position(span.start)[0] == text.splitlines().index(line) + 1
