"""Right patterns in words that nobody may have met: what is not understood is said to be so, and never called wrong."""

import pytest
from rewordings import Rewording, some

from tracker.load import load
from tracker.problems import Severity

EACH = 6
"""So many patterns of each wording are read."""

UNMET = (
    Rewording("chain up", r"\bCh (\d), turn\b", r"Chain up \1, turn"),
    Rewording("swivel", r"\bCh (\d), turn\b", r"Ch \1, swivel your work"),
    Rewording("raise", r"\bCh (\d)(?= \(counts)", r"Raise \1"),
    Rewording("leap over", r"\b[Ss]k(?:ip)? next (st|sc|dc|hdc|ch)\b", r"leap over next \1"),
    Rewording("by so many", r"\) (\d+) times\b", r") by \1"),
    Rewording("grow", r"\b2 (sc|dc|hdc) in next (st|sc|dc|hdc)\b", r"grow 1 \1"),
    Rewording("merge", r"\b(sc|dc|hdc)2tog\b", r"merge 2 \1"),
    Rewording("endmost", r"\bin last (st|sc|dc|hdc)\b", r"in the endmost \1"),
    Rewording("that very", r"\bin same (st|sp)\b", r"in that very \1"),
    Rewording("tunnel", r"\bch-(\d) sp\b", r"tunnel of \1"),
    Rewording("column", r"\bin top of tch\b", "in tip of starting column"),
    Rewording("ignore it", r"\(does not count as (?:a )?st(?:itch)?\)", "(ignore it when counting)"),
    Rewording("links", r"(?m)^Ch (\d+)\.", r"Commence by making \1 links."),
    Rewording("straight", r"\bsc in each st across\b", "sc straight over"),
    Rewording("hug", r"\b[Ff][Pp]dc around next\b", "hug next dc from the front with a dc,"),
)


@pytest.mark.parametrize("unmet", UNMET, ids=lambda each: each.name)
def test_words_that_were_never_met_are_no_error(unmet: Rewording) -> None:
    """At their row or at a later one; nor is a wrong count claimed for want of them without a word."""
    patterns = some(unmet, EACH)
    assert patterns
    for case in patterns:
        loaded = load(case.name, unmet.of(case.text), case.truth.get("size"))
        told = [problem.headline for problem in loaded.problems if problem.severity is Severity.ERROR]
        assert not told, f"{case.name}: {told}"


SILENT = (
    "3 more rows in sc.",
    "Three more rows as Row 2.",
    "Sc 3 rows.",
    "Continue to decrease like this until 6 sts are left.",
    "Keep decreasing at each end until you have 6 sts.",
    "Repeat until you have 9 rows.",
    "Even rows 4-6: as Row 2. Odd rows 5-7: as Row 3.",
)


@pytest.mark.parametrize("words", SILENT)
def test_a_sentence_that_works_rows_is_never_passed_over(words: str) -> None:
    """Where nobody can tell what it works, it is a row that is not understood; what follows it is not accused."""
    text = (
        "Ch 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\n"
        f"Row 2: Ch 1, turn, sc in each sc across. (12 sc)\n{words}\n"
        "Last row: Ch 1, turn, sc in each sc across. (6 sc)\n"
    )
    loaded = load("pattern", text)
    rows = [placed.worked.understood for _, placed in loaded.fabric.rows()]
    assert len(rows) > 3
    assert not all(rows[2:])
    assert not [problem.headline for problem in loaded.problems if problem.severity is Severity.ERROR]


def test_a_star_that_words_carry_on_is_not_worked_once() -> None:
    """What a star began is done again in words that are not understood: the row is not claimed."""
    text = (
        "Rnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each sc around. (12 sc)\n"
        "Rnd 3: *Sc in next sc, 2 sc in next sc; and ever so on in that manner.\n"
    )
    last = [placed for _, placed in load("pattern", text).fabric.rows()][-1]
    assert not last.worked.understood


def test_the_words_that_were_passed_over_are_named() -> None:
    """The row says which they are, instead of that its count is wrong; so does nothing behind it."""
    text = (
        "Ch 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\n"
        "Row 2: Ch 1, turn, sc in next 6 sc, zigzag gaily 2 of them, sc in next 6 sc.\n"
        "Row 3: Ch 1, turn, sc in each sc across. (14 sc)\n"
    )
    problems = load("pattern", text).problems
    assert [(p.code, p.row, p.severity) for p in problems] == [("T101", "Row 2", Severity.NOTE)]
    assert "zigzag gaily 2 of them" in problems[0].headline
    plain = text.replace("zigzag gaily 2 of them, ", "")
    assert [(p.code, p.row) for p in load("pattern", plain).problems] == [("C201", "Row 3")]
