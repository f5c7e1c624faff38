"""A row whose words could not all be read says that and nothing else: which words, what becomes of the counts."""

import pytest

from tracker.load import load
from tracker.problems import Severity

CLOTH = (
    "Cloth\n\nCh 21.\nRow 1: Sc in 2nd ch and in each ch across, turn. (20 sc)\n"
    "Row 2: Ch 1, sc in each st across, turn. (20 sc)\n"
)
AFTER = "Row 4: Ch 1, sc in each st across, turn. (24 sc)\n"

UNREAD = (
    ("Ch 1, grumble the next fiddle twice then mirror, turn. (24 sc)", "grumble the next fiddle twice then mirror"),
    ("Ch 1, sc in next 5 sts, sproing in next st, sc in each st across. (24 sc)", "sproing in next st"),
    ("Ch 1, *sc in next 4 sts, sproing in next st; rep from * across. (24 sc)", "sproing in next st"),
    ("Ch 1, sc in each st across, waggle the last loop twice sideways. (24 sc)", "waggle the last loop twice sideways"),
    ("Waltz, turn. (24 sc)", "Waltz, turn"),
)  # fmt: skip


@pytest.mark.parametrize("row, words", UNREAD, ids=[words for _, words in UNREAD])
def test_words_that_could_not_be_read_are_underlined_and_nothing_else_is_said(row: str, words: str) -> None:
    """Counts go on from what the row states, so that the next is understood again."""
    loaded = load("cloth", f"{CLOTH}Row 3: {row}\n{AFTER}")
    (problem,) = loaded.problems
    assert (problem.code, problem.severity, problem.row, problem.index) == ("T101", Severity.NOTE, "Row 3", 3)
    assert loaded.source.words(problem.label.span) == words
    assert "counts go on from the 24 sc that it states" in problem.help
    assert [placed.worked.understood for _, placed in loaded.fabric.rows()] == [True, True, False, True]


def test_a_name_that_only_the_pattern_can_explain_is_mended_by_the_line_that_is_offered() -> None:
    """The help says what to write; with that written the row is read."""
    row = "Row 3: Ch 1, sc in next 5 sts, sproing in next st, sc in each st across. (21 sts)\n"
    (problem,) = load("cloth", CLOTH + row).problems
    assert "“sproing: 2 dc in one st”" in problem.help
    assert load("cloth", CLOTH.replace("\n\n", "\n\nSproing: 2 dc in one st.\n\n", 1) + row).problems == ()


def test_without_a_count_of_its_own_nothing_is_counted_until_a_row_tells() -> None:
    """And no row that follows is blamed."""
    loaded = load("cloth", f"{CLOTH}Row 3: Ch 1, grumble the next fiddle twice, turn.\n{AFTER}")
    (problem,) = loaded.problems
    assert "not counted until one says what it makes" in problem.help
    assert [placed.worked.understood for _, placed in loaded.fabric.rows()] == [True, True, False, True]


def test_a_word_near_a_known_one_is_told_as_that() -> None:
    """The error is enough; no note repeats it."""
    loaded = load("cloth", f"{CLOTH}Row 3: Ch 1, scx in each st across, turn. (20 sc)\n")
    assert [(problem.code, problem.severity) for problem in loaded.problems] == [("T104", Severity.ERROR)]
    assert "“sc”" in loaded.problems[0].help


@pytest.mark.parametrize("stated", ["", " (7 wobbles)", " (7 shells, 8 sc)"])
@pytest.mark.parametrize(
    "row, understood",
    [
        ("Ch 1, sc in each st across, turn. (20 things)", False),
        ("Ch 1, *sc in next st, ch 1, sk next st; rep from * across, turn. (7 wobbles)", False),
        ("Ch 1, sc in each st across, turn. (3 shells)", False),
        ("Ch 1, sc in each st across, turn. (20 sc)", True),
        ("Ch 1, sc in next 5 sts, dc in next 5 sts, turn. (5 sc, 5 dc)", True),
    ],
)
def test_behind_words_that_could_not_be_read_only_a_count_of_its_stitches_bears_a_row_out(
    stated: str, row: str, understood: bool
) -> None:
    """One that names what nobody knows bears nothing out, of that row or of the one before."""
    text = f"{CLOTH}Row 3: Ch 1, grumble the next fiddle twice, turn.{stated}\nRow 4: {row}\n"
    rows = [placed.worked.understood for _, placed in load("cloth", text).fabric.rows()]
    assert rows == [True, True, False, understood]


@pytest.mark.parametrize(
    "row",
    [
        "Ch 1, sc in first st, grumble the next fiddle twice, sc in each st across, turn.",
        "Ch 1, sc in first st, grumble the next fiddle twice, sc in each st across, turn. (7 wobbles)",
        "Ch 1, *FPsc around next st, grumble the next fiddle twice; rep from * across, turn.",
    ],
)
def test_words_that_may_work_something_are_no_remark_without_a_count(row: str) -> None:
    """Though the row comes out to its end without them."""
    loaded = load("cloth", f"{CLOTH}Row 3: {row}\n")
    assert not loaded.fabric.row(3).worked.understood
    assert [(problem.code, problem.severity) for problem in loaded.problems] == [("T101", Severity.NOTE)]


@pytest.mark.parametrize(
    "text, says",
    [
        (
            "Cloth\n\nChain a multiple of 4 + 1.\nRow 1: Sc in 2nd ch and in each ch across.\n",
            "length is not told",
        ),
        (f"{CLOTH}Rnd 3: Ch 1, sc evenly around, join.\n", "does not tell how many"),
    ],
)
def test_what_the_words_leave_open_is_told(text: str, says: str) -> None:
    """They were read, and still the row cannot be counted."""
    (problem,) = load("cloth", text).problems
    assert problem.code == "T101"
    assert says in problem.headline


def test_words_passed_over_as_a_remark_stay_one_where_the_count_bears_it_out() -> None:
    """Only where the count differs may they have worked something."""
    assert (
        load(
            "cloth", f"{CLOTH}Row 3: Ch 1, sc in each st across, nudge the next edge twice. (20 sc)\n"
        ).problems
        == ()
    )
