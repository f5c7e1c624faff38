"""The View: one value for the plain lines, the screen and the tablet page."""

from dataclasses import replace

import pytest
from on_the_hook import at_hand, program_of, sample, walked, worked

from tracker.session.seen.lying import Shape
from tracker.session.seen.view import Devices, view
from tracker.session.state import begun


def squares(cells: object) -> str:
    """Cells as a grid: windows as ".", blocks as "#", those to come in brackets."""
    assert isinstance(cells, tuple)
    return "".join({Shape.WINDOW: ".", Shape.BLOCK: "#"}[cell.shape] for cell in cells)


def test_a_place_in_a_repeated_filet_row() -> None:
    """Everything that is to be seen, at the second window of four."""
    session, _ = worked(at_hand(), "row 8", "yes", "next", "next", "next")
    shown = view(session, Devices(ear="listening", heard="next"))
    assert (shown.title, shown.row, shown.rows, shown.side) == (
        "HARBOUR WINDOWS",
        "Row 8",
        15,
        "wrong side facing",
    )
    assert shown.repeats == "row 2 again, second time of 2"
    assert (shown.beat, shown.beats) == (2, 4)
    assert (shown.written, shown.then) == ("ch 1, sk 1 dc, dc in next dc", "eight double crochet")
    assert (shown.done, shown.due, shown.unit) == (3, 16, "squares")
    assert squares(shown.cells) == "##....####....##"
    assert [cell.done for cell in shown.cells] == [True] * 3 + [False] * 13
    assert [at for at, cell in enumerate(shown.cells) if cell.current] == [3]
    assert shown.devices.heard == "next"


def test_the_rows_below_lie_as_they_lie_in_the_lap() -> None:
    """Newest first; each row was made against the one above it."""
    session, _ = worked(at_hand(), "row 8", "yes")
    shown = view(session)
    assert [(line.label, squares(line.cells), line.counted, line.against) for line in shown.below] == [
        ("Row 7", "#" * 16, "16 squares", True),
        ("Row 6", "..####....####..", "16 squares", False),
        ("Row 5", "##....####....##", "16 squares", True),
        ("Row 4", "##.##.####.##.##", "16 squares", False),
    ]


def test_the_phrase_is_marked_in_the_makers_own_text() -> None:
    """On one line, the line breaks of the pattern gone."""
    session, _ = worked(at_hand(), "row 2", "yes", "next", "next", "next", "next")
    shown = view(session)
    start, end = shown.phrase
    assert shown.text.startswith("Row 2: Turn, ch 3")
    assert "\n" not in shown.text
    assert shown.text[start:end] == "ch 1, sk 1 dc, dc in next dc"


@pytest.mark.parametrize("name", ["harbour-windows", "pebble-cloth", "low-tide-ripple"])
def test_every_place_can_be_shown_and_its_phrase_is_what_is_written(name: str) -> None:
    """No place of any pattern is without its words."""
    program = sample(name)
    for place in walked(program):
        shown = view(replace(begun(program), place=place))
        assert shown.text[shown.phrase[0] : shown.phrase[1]] == shown.written
        assert 0 <= shown.done <= shown.due
        assert sum(cell.done for cell in shown.cells) <= len(shown.cells)


def test_stitches_are_cells_where_there_are_no_squares() -> None:
    """Turning chains and spaces can be told from stitches."""
    session, _ = worked(at_hand("pebble-cloth"), "row 2", "yes", "next", "next")
    shown = view(session)
    assert [cell.kind for cell in shown.cells[:4]] == ["sc", "tr", "sc", "tr"]
    assert (shown.done, shown.due, shown.unit) == (1, 27, "stitches")


def test_a_question_stands_in_the_view_until_it_is_answered() -> None:
    """The screen shows what the mouth asked."""
    session, _ = worked(at_hand(), "row 9")
    assert view(session).asked == "Row nine. Go there?"
    assert view(worked(session, "no")[0]).asked == ""


def test_a_row_worked_again_in_another_stitch_is_shown_with_that_stitch() -> None:
    """ "As Row 2, but in hdc": the words of Row 2 would name a stitch that is not worked."""
    text = (
        "CLOTH\n\nCh 13.\nRow 1: Dc in 4th ch from hook and in each ch across. (11 dc)\n"
        "Row 2: Ch 1, turn, sc in each st across. (11 sc)\nRow 3: As Row 2, but in hdc. (11 hdc)\n"
    )
    program = program_of(text)
    session, _ = worked(begun(program), "row 3", "yes", "next")
    assert view(session).written == "hdc in each st across"
    assert worked(session, "what is written")[1] == [
        "As row two, but in half double crochet; eleven half double crochet."
    ]
    session, _ = worked(session, "row 2", "yes", "next")
    assert view(session).written == "sc in each st across"


def test_rows_that_shape_a_part_lie_on_those_of_the_part_before() -> None:
    """An armhole is worked onto the back; a sleeve on a chain of its own lies on nothing."""
    text = (
        "VEST\n\nBACK\nCh 14.\nRow 1: Dc in 4th ch from hook and in each ch across. (12 dc)\n"
        "Row 2: Ch 3, turn, dc in each st across. (12 dc)\nSHAPE ARMHOLES\n"
        "Next row: Turn, sl st in first 3 sts, ch 3, dc in next 7 sts, leave rem sts unworked. (8 dc)\n"
        "SLEEVE\nCh 9.\nRow 1: Sc in 2nd ch from hook and in each ch across. (8 sc)\n"
    )
    program = program_of(text)
    session, _ = worked(begun(program), "part 2", "yes")
    assert [line.label for line in view(session).below] == ["Row 2", "Row 1"]
    assert worked(session, "what is below")[1] == [
        "Row two of the back, from where you begin: twelve double crochet."
    ]
    session, _ = worked(begun(program), "part 3", "yes", "next")
    assert view(session).below == ()
    assert worked(session, "what is below")[1] == ["There is no row below this one."]
