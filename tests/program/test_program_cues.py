"""Cues: a row that is another one again, a row that breaks the run, a change of colour, the turn."""

import pytest
from on_the_hook import SWATCH, program_of, sample

from tracker.program.cues import Copy, breaks_the_run, changed_to, colours, copy_at, turn_before


def test_a_row_that_copies_another_says_of_which_and_which_time() -> None:
    """Rows 8 to 13 are rows 2 to 7, second time; rows 2 to 7 are their own."""
    program = sample("harbour-windows")
    whole = (2, 3, 4, 5, 6, 7)
    assert [copy_at(program, row) for row in (2, 7, 14)] == [None, None, None]
    assert copy_at(program, 8) == Copy(2, whole, 2, 2)
    assert copy_at(program, 13) == Copy(7, whole, 2, 2)


def test_the_time_goes_on_over_several_ranges() -> None:
    """Rows 3-4, 5-8 and 9-12 are all row 2: row 9 is its eighth time of eleven."""
    program = sample("low-tide-ripple")
    assert copy_at(program, 9) == Copy(2, (2,), 8, 11)


def test_the_time_is_right_in_a_repeat_that_is_not_unrolled() -> None:
    """Counted without walking there."""
    text = SWATCH + "Rows 4-20003: Rep Rows 2 and 3.\n"
    program = program_of(text)
    assert copy_at(program, 20_003) == Copy(3, (2, 3), 10_001, 10_001)


def test_a_repeat_that_is_open_has_no_last_time() -> None:
    """ "Until it measures" is told without an end."""
    program = program_of(SWATCH + "Rep Rows 2 and 3 until piece measures 10 in.\n")
    assert program.fabric.open_ended


def test_the_row_that_starts_otherwise_than_the_two_before_it_breaks_the_run() -> None:
    """Row 6 of the panel starts open, row 12 is row 6 again; the return to blocks breaks nothing."""
    program = sample("harbour-windows")
    assert {row: cue for row in range(1, 16) if (cue := breaks_the_run(program, row))} == {
        6: "open",
        12: "open",
    }


def test_a_row_of_its_own_after_copies_breaks_the_run() -> None:
    """The hands would go on with the ripple."""
    program = sample("low-tide-ripple")
    assert {row: cue for row in range(1, 14) if (cue := breaks_the_run(program, row))} == {13: "new"}


def test_a_colour_is_told_in_the_words_of_the_range() -> None:
    """The row repeated is row 2, which says nothing of colours."""
    program = sample("low-tide-ripple")
    assert colours(program, 5) == ("With B",)
    assert changed_to(program, 8) == ("changing to A in last st of Row 8",)
    assert colours(program, 2) == colours(program, 8) == changed_to(program, 7) == ()


@pytest.mark.parametrize(
    "words, expected",
    [("Turn, ch 3", "turn"), ("Ch 3, turn", "after chain"), ("Ch 3", "turn")],
)
def test_the_pattern_has_its_own_order_of_chain_and_turn(words: str, expected: str) -> None:
    """Some chain before they turn."""
    assert turn_before(program_of(SWATCH.replace("Turn, ch 3 (counts", f"{words} (counts")), 2) == expected
